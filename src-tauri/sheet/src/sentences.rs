//! Sentences that more than one message decides, put together as on the screens.

use chrono::NaiveDate;
use ripening::outlook::{Event, Why};
use ripening::windows::{FreezeLoss, MoneyWindow, Standing as Open, WindowKind};
use ripening::{Band, Stage, WholeField};
use serde::Serialize;
use serde_json::Value;
use words::Words;

use crate::line::{Whereabouts, whereabouts};
use crate::{Purpose, Units};

/// Below this chance the likelier stage is only one of two.
const LIKELY: f64 = 0.65;
/// From this chance on a stage is called without its runner-up, as on the screens.
const SURE: f64 = 0.9;

/// Sentences of the sheet in one language.
pub struct Sentences {
    /// Messages that stand alone.
    pub words: Words,
}

impl Sentences {
    pub fn stage(&self, stage: Stage) -> String {
        self.words.common().stage(&key(&stage)).unwrap_or_default()
    }

    /// A stage, short, for under the line.
    pub fn mark(&self, stage: Stage) -> String {
        self.words.common().mark(&key(&stage)).unwrap_or_default()
    }

    pub fn event(&self, event: Event) -> String {
        self.words.outlook().event(&key(&event)).unwrap_or_default()
    }

    pub fn purpose(&self, purpose: Purpose) -> String {
        let key = match purpose {
            Purpose::Grain => "grain",
            Purpose::Silage => "silage",
            Purpose::Seed => "seed",
        };
        self.words.plantings().purpose(key).unwrap_or_default()
    }

    /// The most probable stage, with the next one where it is not sure.
    pub fn standing(&self, field: &WholeField) -> String {
        let mut ranked = Stage::ALL;
        ranked.sort_by(|a, b| field.chance.get(*b).total_cmp(field.chance.get(*a)));
        let (first, second) = (ranked[0], ranked[1]);
        let (chance, then) = (*field.chance.get(first), *field.chance.get(second));
        let (stage, other) = (self.stage(first), self.stage(second));
        let stages = self.words.stages();
        if chance < LIKELY {
            return stages.standing_split(&stage, chance, &other, then);
        }
        if chance < SURE {
            return stages.standing_likely(&stage, chance, &other, then);
        }
        match whereabouts(field.position.mid) {
            Whereabouts::Nearing(next) if next.index() == first.index() + 1 => {
                stages.standing_nearing(&self.stage(next), &stage, chance)
            }
            _ => stages.standing_sure(&stage, chance),
        }
    }

    /// Both ends of a band of positions and how sure it is.
    pub fn band(&self, position: &Band, level: f64) -> String {
        let (low, high) = (whereabouts(position.low), whereabouts(position.high));
        let stages = self.words.stages();
        if let (Whereabouts::Nearing(one), Whereabouts::Past(other)) = (low, high)
            && one == other
        {
            return stages.band_around(level, &self.stage(one));
        }
        let (from, to) = (self.place(low), self.place(high));
        match low {
            _ if from != to => stages.band_between(level, &from, &to),
            Whereabouts::At(_) => stages.band_at(level, &from),
            _ => stages.band_one(level, &from),
        }
    }

    fn place(&self, place: Whereabouts) -> String {
        let (kind, stage) = match place {
            Whereabouts::At(stage) => ("at", stage),
            Whereabouts::Past(stage) => ("past", stage),
            Whereabouts::HalfwayTo(stage) => ("between", stage),
            Whereabouts::Nearing(stage) => ("nearing", stage),
        };
        self.words.stages().place_of(kind, &self.stage(stage))
    }

    /// A share of heads that is known least.
    pub fn vaguest(&self, stage: Stage, band: &Band) -> String {
        let stages = self.words.stages();
        let reached = match stage {
            Stage::HalfBloom => stages.reached_bloom(),
            _ => stages.reached(&self.stage(stage)),
        };
        stages.vaguest_at(band.low, band.high, &reached)
    }

    /// Why there are no dates.
    pub fn why(&self, why: &Why) -> String {
        let outlook = self.words.outlook();
        match why {
            Why::NotPlantedYet { planted_on } => outlook.not_planted_yet(*planted_on),
            Why::NothingToStartFrom => outlook.nothing_to_start_from(),
            Why::NoWeather => outlook.no_weather(),
            Why::HeatUnknown { open_from } => outlook.heat_unknown(*open_from),
            Why::WeatherEndsEarly { ends_on } => outlook.weather_ends_early(*ends_on),
            Why::NoDaysAhead { .. } => outlook.no_days_ahead(),
            Why::NotBefore {
                in_hundred,
                horizon,
                ..
            } => outlook.not_before_freeze(f64::from(*in_hundred), *horizon),
            Why::BeforeWeather => outlook.before_weather(),
            Why::NoGrain | Why::NoDryDown { .. } => outlook.no_moisture(),
        }
    }

    /// A window with its days, and whether it may be open.
    pub fn window(&self, window: &MoneyWindow, today: NaiveDate) -> String {
        let outlook = self.words.outlook();
        let name = outlook.window(&key(&window.kind)).unwrap_or_default();
        match (window.span, window.standing == Open::MayBeOpen) {
            (Some(span), true) => {
                let sheet = self.words.sheet();
                sheet.window_possible_now(&name, span.from, span.to, today)
            }
            (Some(span), false) => outlook.window_dated(&name, span.from, span.to, today),
            (None, true) => outlook.window_now(&name),
            (None, false) => name,
        }
    }

    /// What a window's days rest on, and its caution, complete.
    pub fn window_text(&self, window: &MoneyWindow, today: NaiveDate, units: Units) -> String {
        let mut found = Vec::new();
        if let WindowKind::Freeze(loss) = &window.kind {
            found.extend(self.freeze(loss, units));
        } else if let Some(span) = window.span {
            let sheet = self.words.sheet();
            found.push(sheet.widest(span.earliest, span.latest, today));
        }
        let outlook = self.words.outlook();
        found.extend(outlook.caution(&key(&window.caution)));
        found.join(" ")
    }

    fn freeze(&self, loss: &FreezeLoss, units: Units) -> Option<String> {
        let chance = loss
            .chances
            .iter()
            .find(|chance| (chance.at_f - ripening::outlook::INJURY_F).abs() < 0.1)?;
        let at = temperature(chance.at_f, units);
        let outlook = self.words.outlook();
        Some(match chance.was_on {
            Some(on) => outlook.found_freeze_was(&at, on),
            None => outlook.found_freeze_chance(&at, chance.before_black_layer),
        })
    }
}

/// Key of a value in the tables of the catalogue, which is its name on the wire.
fn key(of: &impl Serialize) -> String {
    match serde_json::to_value(of) {
        Ok(Value::String(name)) => name,
        Ok(Value::Object(parts)) => {
            let what = parts.get("what").and_then(Value::as_str);
            what.unwrap_or_default().to_owned()
        }
        _ => String::new(),
    }
}

/// A temperature given in deg F.
fn temperature(f: f64, units: Units) -> String {
    match units {
        Units::Us => format!("{} \u{b0}F", f.round()),
        Units::Metric => format!("{} \u{b0}C", ((f - 32.0) / 1.8).round()).replace('-', "\u{2212}"),
    }
}
