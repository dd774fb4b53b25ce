//! Settings of this device.

pub(crate) mod ask;
use rusqlite::Connection;

use crate::{Changed, Problem, Reply, Service, Settings, checks};
use notebook::{StoreError, setting};

/// The row of `setting` that holds them.
const NAME: &str = "device";

/// The settings, or the first ones. Settings that this version cannot read
/// count as not set.
pub(crate) fn read(db: &Connection) -> Result<Settings, Problem> {
    Ok(setting::read(db, NAME)?
        .and_then(|json| serde_json::from_str(&json).ok())
        .unwrap_or_default())
}

fn check(mut settings: Settings) -> Result<Settings, Problem> {
    settings.scout = checks::optional_name("scout", Some(&settings.scout))?.unwrap_or_default();
    let within = |what: &str, value: f64, low: f64, high: f64| {
        if (low..=high).contains(&value) {
            Ok(())
        } else {
            Err(Problem::bad_input(format!(
                "{what} is out of range: use {low} to {high}"
            )))
        }
    };
    within("the level of the bands", settings.level, 0.5, 0.99)?;
    within(
        "the target for the stage's probability",
        settings.target_stage_chance,
        0.5,
        0.99,
    )?;
    within(
        "the target for the band's width",
        settings.target_position_width,
        0.05,
        5.0,
    )?;
    within("minutes to a stop", settings.minutes_per_stop, 0.0, 120.0)?;
    within("minutes for a head", settings.minutes_per_head, 0.0, 60.0)?;
    within(
        "heads at a stop",
        f64::from(settings.heads_per_stop),
        1.0,
        100.0,
    )?;
    within("stops of a plan", f64::from(settings.plan_stops), 1.0, 40.0)?;
    within(
        "places in reserve",
        f64::from(settings.plan_spare),
        0.0,
        20.0,
    )?;
    within("meters off the edge", settings.plan_edge_m, 0.0, 500.0)?;
    if !["en", "es"].contains(&settings.language.as_str()) {
        return Err(Problem::bad_input(
            "the language is not known: use en or es",
        ));
    }
    Ok(settings)
}

impl Service {
    pub(crate) fn save_settings(&mut self, settings: Settings) -> Result<Reply<Settings>, Problem> {
        let settings = check(settings)?;
        let json = serde_json::to_string(&settings).map_err(StoreError::from)?;
        setting::keep(self.notebook.db(), NAME, &json)?;
        // Level and targets are part of every answer.
        self.forget_answers();
        Ok(Reply {
            answer: settings,
            changed: vec![Changed::Settings],
        })
    }
}
