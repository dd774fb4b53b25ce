//! `headwalk roll-up`: whole-field stages from a head file, as JSON Lines.

use std::collections::BTreeMap;
use std::io::{self, BufWriter, Read, Write};
use std::path::PathBuf;

use chrono::NaiveDate;
use clap::Args;
use readers::head_file::HeadFile;
use ripening::heat::{HeatScale, us_50_100};
use ripening::rollup::{self, HeatMoved, Posterior, Prior, Target, WalkingCost, contradiction};
use ripening::weather::WeatherRecord;
use ripening::{Advice, Head, WholeField};
use serde::Serialize;

use crate::failure::Failure;
use crate::import::Faults;
use crate::place;
use crate::stations::{self, Stations};

/// Rolls the heads of a head file up to the whole field: one JSON object a line
/// for each planting and walk
///
/// Plantings come in the order of the file, the walks of each by date. Without
/// weather each answer is from the heads of its own walk alone. With --weather
/// the earlier walks of the planting are moved forward by the heat received
/// since and used too, and the answer from the heads alone is in "alone";
/// --history does so without weather, by a wide pace for each day.
#[derive(Args)]
pub struct RollUp {
    /// CSV with planting, walked_on, stop, reading and share; - for standard input
    heads: PathBuf,
    /// Level of the bands
    #[arg(long, default_value_t = 0.9, value_parser = level)]
    level: f64,
    /// Weather file; earlier walks of the planting are then used too
    #[arg(long, value_name = "FILE")]
    weather: Option<PathBuf>,
    /// Planting file, for the weather station of each planting
    #[arg(long, value_name = "FILE")]
    plantings: Option<PathBuf>,
    /// Use earlier walks even without weather
    #[arg(long)]
    history: bool,
    /// Make the first bad row fatal
    #[arg(long)]
    strict: bool,
}

fn level(text: &str) -> Result<f64, String> {
    text.parse()
        .ok()
        .filter(|level| (0.5..=0.99).contains(level))
        .ok_or_else(|| "use a number from 0.5 to 0.99".to_owned())
}

/// One line of the output.
#[derive(Serialize)]
struct Line<'a> {
    planting: &'a str,
    walked_on: NaiveDate,
    #[serde(flatten)]
    answer: WholeField,
    advice: Advice,
    #[serde(flatten)]
    history: Option<WithHistory>,
}

/// What earlier walks add.
#[derive(Serialize)]
struct WithHistory {
    /// Earlier walks that the answer stands on.
    earlier_walks: u32,
    /// What moved them forward: `weather` or `days`.
    moved_by: &'static str,
    /// Probability that they still apply, where this walk contradicts them; the
    /// answer is then from the heads alone.
    contradiction: Option<f64>,
    /// The answer from the heads of this walk alone.
    alone: WholeField,
}

/// Heads of a walk by stop. Two scouts of one day number their stops each for
/// themselves.
type Stops = BTreeMap<(String, String), Vec<Head>>;

/// A planting's walks by date.
struct Planting {
    name: String,
    walks: BTreeMap<NaiveDate, Stops>,
}

impl RollUp {
    pub fn run(self) -> Result<(), Failure> {
        let plantings = self
            .read(place::source(&self.heads)?)
            .map_err(|failure| failure.in_file(&self.heads))?;
        let stations = self.weather.as_deref().map(Stations::read).transpose()?;
        let station_of = match &self.plantings {
            Some(path) => stations::by_planting(path)?,
            None => BTreeMap::new(),
        };
        let scale = us_50_100();
        let mut out = BufWriter::new(io::stdout().lock());
        for planting in &plantings {
            let station = station_of.get(&planting.name).map(String::as_str);
            let heat = Heat {
                scale: &scale,
                record: stations.as_ref().and_then(|stations| stations.of(station)),
            };
            if stations.is_some() && heat.record.is_none() {
                writeln!(
                    io::stderr(),
                    "{}: no weather for its station: days are counted instead{}",
                    planting.name,
                    if self.plantings.is_none() {
                        "; give --plantings with a station for each planting"
                    } else {
                        ""
                    }
                )?;
            }
            let mut earlier = None;
            for (walked_on, stops) in &planting.walks {
                let line = self.line(&planting.name, *walked_on, stops, &heat, &mut earlier);
                serde_json::to_writer(&mut out, &line)?;
                out.write_all(b"\n")?;
            }
        }
        out.flush()?;
        Ok(())
    }

    fn read(&self, source: impl Read) -> Result<Vec<Planting>, Failure> {
        let mut plantings: Vec<Planting> = Vec::new();
        let mut places: BTreeMap<String, usize> = BTreeMap::new();
        let mut faults = Faults::new(self.strict);
        let mut good = 0;
        for row in HeadFile::open(source)? {
            match row? {
                Ok(row) => {
                    good += 1;
                    let place = match places.get(&row.planting) {
                        Some(place) => *place,
                        None => {
                            places.insert(row.planting.clone(), plantings.len());
                            plantings.push(Planting {
                                name: row.planting,
                                walks: BTreeMap::new(),
                            });
                            plantings.len() - 1
                        }
                    };
                    if let Some(planting) = plantings.get_mut(place) {
                        planting
                            .walks
                            .entry(row.walked_on)
                            .or_default()
                            .entry((row.scout.unwrap_or_default(), row.stop))
                            .or_default()
                            .push(row.head);
                    }
                }
                Err(fault) => faults.hear(fault.line, &fault.reason.to_string())?,
            }
        }
        faults.sum(good);
        Ok(plantings)
    }

    fn line<'a>(
        &self,
        planting: &'a str,
        walked_on: NaiveDate,
        stops: &Stops,
        heat: &Heat,
        earlier: &mut Option<Earlier>,
    ) -> Line<'a> {
        let alone = rolled(Prior::fresh(), stops);
        let with_history = self.history || self.weather.is_some();
        let (best, history) = match (with_history, earlier.take()) {
            (true, Some(earlier)) => {
                let moved = heat.between(earlier.walked_on, walked_on);
                let prior = earlier.posterior.forward(moved);
                let contradicts = contradiction(&alone, &prior);
                let told = WithHistory {
                    earlier_walks: earlier.walks,
                    moved_by: heat.word(),
                    contradiction: contradicts.map(|found| found.history_applies),
                    alone: alone.whole_field(self.level),
                };
                if contradicts.is_some() {
                    (alone, Some(told))
                } else {
                    (rolled(prior, stops), Some(told))
                }
            }
            _ => (alone, None),
        };
        let walks = match &history {
            Some(told) if told.contradiction.is_none() => told.earlier_walks + 1,
            _ => 1,
        };
        *earlier = with_history.then(|| Earlier {
            posterior: best.posterior(),
            walked_on,
            walks,
        });
        Line {
            planting,
            walked_on,
            answer: best.whole_field(self.level),
            advice: best.advice(&Target::default(), &WalkingCost::default()),
            history,
        }
    }
}

/// What the earlier walks of a planting left.
struct Earlier {
    posterior: Posterior,
    walked_on: NaiveDate,
    walks: u32,
}

/// What a planting ripens by.
struct Heat<'a> {
    scale: &'a HeatScale,
    record: Option<&'a WeatherRecord>,
}

impl Heat<'_> {
    /// From one walk to the next; by a wide pace where there is no weather.
    fn between(&self, from: NaiveDate, to: NaiveDate) -> HeatMoved {
        HeatMoved::between(self.scale, self.record, from, to)
    }

    fn word(&self) -> &'static str {
        match self.record {
            Some(_) => "weather",
            None => "days",
        }
    }
}

fn rolled(prior: Prior, stops: &Stops) -> rollup::RollUp {
    let mut rolled = rollup::RollUp::new(prior);
    rolled.set_stops((0..).zip(stops.values().map(Vec::as_slice)));
    rolled
}
