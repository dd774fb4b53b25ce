//! English.

use chrono::{Datelike, NaiveDate};
use ripening::outlook::{Event, Why};
use ripening::windows::{Caution, FreezeLoss, WindowKind};
use ripening::{Band, Stage};

use super::{LIKELY, Standing, Words, capital, hundredths, temperature};
use crate::line::Whereabouts;
use crate::{Purpose, Units};

pub(super) struct English;

impl English {
    fn place(&self, place: Whereabouts) -> String {
        match place {
            Whereabouts::At(stage) => self.stage(stage).to_owned(),
            Whereabouts::Past(stage) => format!("just past {}", self.stage(stage)),
            Whereabouts::HalfwayTo(stage) => format!("halfway to {}", self.stage(stage)),
            Whereabouts::Nearing(stage) => format!("nearing {}", self.stage(stage)),
        }
    }
}

impl Words for English {
    fn tag(&self) -> &'static str {
        "en"
    }
    fn sheet(&self) -> &'static str {
        "Field sheet"
    }
    fn stage(&self, stage: Stage) -> &'static str {
        match stage {
            Stage::Boot => "boot",
            Stage::Heading => "heading",
            Stage::HalfBloom => "half bloom",
            Stage::Milk => "milk",
            Stage::SoftDough => "soft dough",
            Stage::HardDough => "hard dough",
            Stage::BlackLayer => "black layer",
        }
    }
    fn mark(&self, stage: Stage) -> &'static str {
        self.stage(stage)
    }
    fn purpose(&self, purpose: Purpose) -> &'static str {
        match purpose {
            Purpose::Grain => "grain",
            Purpose::Silage => "silage",
            Purpose::Seed => "seed",
        }
    }
    fn planted(&self, on: &str) -> String {
        format!("planted {on}")
    }
    fn area(&self, size: &str, units: Units) -> String {
        match units {
            Units::Us => format!("{size} acres"),
            Units::Metric => format!("{size} ha"),
        }
    }
    fn standing(&self, standing: Standing) -> String {
        match standing {
            Standing::Sure(stage, chance) => format!(
                "At {} ({} in a hundred).",
                self.stage(stage),
                hundredths(chance)
            ),
            Standing::Split(stage, chance, other, then) => {
                let (a, b) = (hundredths(chance), hundredths(then));
                let (stage, other) = (self.stage(stage), self.stage(other));
                if chance >= LIKELY {
                    format!("Likely {stage} ({a} in a hundred), else {other} ({b}).")
                } else {
                    format!("{} or {other} ({a} and {b} in a hundred).", capital(stage))
                }
            }
        }
    }
    fn band(&self, low: Whereabouts, high: Whereabouts, level: f64) -> String {
        let sure = format!(
            "With {} chances in a hundred the planting is",
            hundredths(level)
        );
        let (from, to) = (self.place(low), self.place(high));
        match low {
            Whereabouts::At(_) if from == to => format!("{sure} at {from}."),
            _ if from == to => format!("{sure} {from}."),
            _ => format!("{sure} between {from} and {to}."),
        }
    }
    fn not_walked(&self) -> &'static str {
        "Not walked yet: nothing is known of its stage from its heads."
    }
    fn from(&self, heads: u32, stops: u32, on: &str, scout: &str) -> String {
        let by = if scout.is_empty() {
            String::new()
        } else {
            format!(" by {scout}")
        };
        format!(
            "Walked {on}{by}: {heads} {} at {stops} {}.",
            if heads == 1 { "head" } else { "heads" },
            if stops == 1 { "stop" } else { "stops" }
        )
    }
    fn earlier(&self, count: usize) -> String {
        if count == 1 {
            "One earlier walk lies fainter below the line.".to_owned()
        } else {
            format!("{count} earlier walks lie fainter below the line.")
        }
    }
    fn shares_title(&self) -> &'static str {
        "How far the heads are"
    }
    fn shares_head(&self) -> [&'static str; 3] {
        ["Of 100 heads, have reached", "about", "between"]
    }
    fn shares_note(&self, level: f64) -> String {
        format!(
            "Every span holds the truth {} times in a hundred.",
            hundredths(level)
        )
    }
    fn next_title(&self) -> &'static str {
        "What comes next"
    }
    fn event(&self, event: Event) -> &'static str {
        match event {
            Event::HalfBloom => "half bloom",
            Event::Milk => "milk",
            Event::SoftDough => "soft dough",
            Event::HardDough => "hard dough",
            Event::BlackLayer => "black layer",
            Event::Moisture20 => "grain at 20 %",
            Event::Moisture18 => "grain at 18 %",
            Event::Moisture16 => "grain at 16 %",
            Event::Moisture14 => "grain at 14 %",
        }
    }
    fn next_note(&self) -> &'static str {
        "Each span holds the day eight times in ten."
    }
    fn not_before(&self, on: &str) -> String {
        format!("not before {on}")
    }
    fn why(&self, why: &Why, date: &dyn Fn(NaiveDate) -> String) -> String {
        match why {
            Why::NotPlantedYet { planted_on } => format!(
                "No dates: it is planted on {}, after the day of this sheet.",
                date(*planted_on)
            ),
            Why::NothingToStartFrom => {
                "No dates: there is neither a planting date nor a walk to start from.".to_owned()
            }
            Why::NoWeather => "No dates: the notebook holds no weather for it.".to_owned(),
            Why::HeatUnknown { open_from } => format!(
                "No dates: the weather has a gap from {} on, and no walk lies after it.",
                date(*open_from)
            ),
            Why::WeatherEndsEarly { ends_on } => {
                format!("No dates: the weather ends on {}.", date(*ends_on))
            }
            Why::NoDaysAhead { .. } => {
                "No dates: the weather holds no past season for the days ahead.".to_owned()
            }
            Why::NotBefore { in_hundred, .. } => {
                format!("not this season in {in_hundred} of 100 possible seasons")
            }
            Why::BeforeWeather => "came before the weather begins".to_owned(),
            Why::NoGrain | Why::NoDryDown { .. } => {
                "Grain moisture is not forecast for this planting.".to_owned()
            }
        }
    }
    fn windows_title(&self) -> &'static str {
        "Windows to watch, and who decides"
    }
    fn window(&self, kind: &WindowKind) -> &'static str {
        match kind {
            WindowKind::BootNights(_) => "Cold nights at boot",
            WindowKind::BloomWeather(_) => "Weather over bloom",
            WindowKind::LastIrrigation => "Last irrigation",
            WindowKind::Silage => "Silage cut",
            WindowKind::HarvestAid => "Harvest aid",
            WindowKind::Freeze(_) => "Freeze before black layer",
            WindowKind::PrussicAcid(_) => "Prussic acid after a freeze",
            WindowKind::Nitrate(_) => "Nitrate in forage",
        }
    }
    fn may_be_open(&self) -> &'static str {
        "may be now"
    }
    fn widest(&self, span: &str) -> String {
        format!("at the widest {span}")
    }
    fn freeze(&self, loss: &FreezeLoss, units: Units) -> Option<String> {
        let chance = loss
            .chances
            .iter()
            .find(|chance| (chance.at_f - ripening::outlook::INJURY_F).abs() < 0.1)?;
        let at = temperature(chance.at_f, units);
        Some(match chance.was_on {
            Some(on) => format!("{at} was already there on {}.", self.short_date(on)),
            None => {
                let chance = hundredths(chance.before_black_layer);
                let chances = if chance == 1 { "chance" } else { "chances" };
                format!("{at} before black layer: {chance} {chances} in a hundred.")
            }
        })
    }
    fn caution(&self, caution: Caution) -> &'static str {
        match caution {
            Caution::LinesDifferInCold => {
                "Hybrids differ widely in cold tolerance. Look for empty florets two weeks after bloom."
            }
            Caution::RainShownNoLossClaimed => {
                "Hybrids differ in heat tolerance; no loss is claimed from rain. Look at seed set."
            }
            Caution::IrrigationLocalRules => "Soil water, your allocation and local rules decide.",
            Caution::TestWholePlantMoisture => {
                "Test the moisture of the whole plant before cutting (65 to 70 %)."
            }
            Caution::LabelAndLocalRulesFirst => {
                "The label and local rules come first. Check for stalk rot and lodging, treat only what can be cut in time, and ask a licensed adviser."
            }
            Caution::LowGroundFreezesFirst => {
                "Low ground freezes first, and the station may not feel it."
            }
            Caution::TestAskVetPrussicAcid => {
                "Do not graze or green-chop after a freeze; each new freeze starts the wait again. Have it tested; ask the vet and the extension office."
            }
            Caution::TestAskVetNitrate => {
                "Have it tested before feeding; ask the vet and the extension office."
            }
        }
    }
    fn more_windows(&self, count: usize) -> String {
        format!("{count} more in the app.")
    }
    fn map_title(&self) -> &'static str {
        "Where heads were read"
    }
    fn unknown_title(&self) -> &'static str {
        "What is not known"
    }
    fn vaguest(&self, stage: Stage, band: &Band) -> String {
        let at = match stage {
            Stage::HalfBloom => "in bloom".to_owned(),
            _ => format!("at {}", self.stage(stage)),
        };
        format!(
            "How many heads are {at}: anything from {} to {} in a hundred.",
            hundredths(band.low),
            hundredths(band.high)
        )
    }
    fn one_head(&self) -> &'static str {
        "All of this rests on one head. Another head, some way off, tells much more."
    }
    fn few_stops(&self, stops: u32) -> String {
        format!(
            "Only {stops} {} looked at; the rest of the planting may differ.",
            if stops == 1 { "stop was" } else { "stops were" }
        )
    }
    fn contradicts(&self) -> &'static str {
        "This walk does not fit the earlier ones; they were left out."
    }
    fn old_walk(&self, days: i64) -> String {
        format!("The walk is {days} days old; the planting has moved on since.")
    }
    fn no_places(&self) -> &'static str {
        "Where the stops were: no position was kept."
    }
    fn weather_until(&self, on: &str) -> String {
        format!("Weather after {on}: days ahead are taken from past seasons.")
    }
    fn no_moisture(&self) -> &'static str {
        "Grain moisture was not measured here; a meter in the field decides."
    }
    fn one_field(&self) -> &'static str {
        "Other fields: this sheet speaks of this planting alone."
    }
    fn who_decides(&self) -> &'static str {
        "An estimate from heads read by hand, not advice. Labels, local rules and licensed advisers decide; test forage before feeding."
    }
    fn made(&self, on: &str, by: &str) -> String {
        if by.is_empty() {
            format!("Made {on}")
        } else {
            format!("Made {on} by {by}")
        }
    }
    fn month(&self, month: u32) -> &'static str {
        [
            "Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec",
        ][(month.clamp(1, 12) - 1) as usize]
    }
    fn date(&self, on: NaiveDate) -> String {
        format!("{}, {}", self.short_date(on), on.year())
    }
    fn short_date(&self, on: NaiveDate) -> String {
        format!("{} {}", self.month(on.month()), on.day())
    }
}
