//! `headwalk air`: what moisture the air would bring grain to, as JSON.

use std::io::{self, Write};

use clap::Args;
use ripening::air::{
    AirState, Equation, EquilibriumSet, MoistureSpread, STANDARD_PRESSURE_KPA, sorghum_spread,
};
use serde::Serialize;

use crate::failure::Failure;

/// Equilibrium moisture of grain in air of one temperature and humidity: one
/// JSON object
///
/// Moisture is percent wet basis, by ASABE D245. For sorghum the published sets
/// of constants differ: "spread" shows all of them. Dew point, wet bulb and
/// vapor pressures are by FAO-56.
#[derive(Args)]
pub struct Air {
    /// Air temperature, degrees C
    #[arg(long, allow_negative_numbers = true)]
    temp_c: f64,
    /// Relative humidity, percent
    #[arg(long)]
    humidity: f64,
    /// Set of constants: sorghum_chung_pfost_1, sorghum_chung_pfost_2,
    /// sorghum_henderson, corn_henderson or corn_chung_pfost
    #[arg(long, default_value = EquilibriumSet::DEFAULT.word(), value_parser = set)]
    set: EquilibriumSet,
    /// Air pressure, kPa
    #[arg(long, default_value_t = STANDARD_PRESSURE_KPA)]
    pressure_kpa: f64,
}

fn set(word: &str) -> Result<EquilibriumSet, String> {
    EquilibriumSet::from_word(word).ok_or_else(|| {
        let words = EquilibriumSet::ALL.map(EquilibriumSet::word);
        format!("use one of {}", words.join(", "))
    })
}

#[derive(Serialize)]
struct Answer {
    grain_moisture: f64,
    equation: Equation,
    set: EquilibriumSet,
    #[serde(skip_serializing_if = "Option::is_none")]
    spread: Option<MoistureSpread>,
    #[serde(flatten)]
    air: AirState,
}

impl Air {
    pub fn run(self) -> Result<(), Failure> {
        let wrong = |error: ripening::air::AirError| Failure::call(error.to_string());
        let air = AirState::new(self.temp_c, self.humidity, self.pressure_kpa).map_err(wrong)?;
        let grain_moisture = self
            .set
            .moisture(self.temp_c, self.humidity)
            .map_err(wrong)?;
        let spread = EquilibriumSet::SORGHUM
            .contains(&self.set)
            .then(|| sorghum_spread(self.temp_c, self.humidity))
            .transpose()
            .map_err(wrong)?;
        let answer = Answer {
            grain_moisture,
            equation: self.set.constants().equation,
            set: self.set,
            spread,
            air,
        };
        let mut out = io::stdout().lock();
        serde_json::to_writer(&mut out, &answer)?;
        out.write_all(b"\n")?;
        Ok(())
    }
}
