//! Air and grain: what moisture the air would bring the grain to, and how
//! hard it pulls water out of it.

mod equilibrium;
mod moisture_basis;
mod psychrometrics;

pub use equilibrium::{
    Crop, Equation, Equilibrium, EquilibriumSet, MoistureSpread, SetMoisture, sorghum_spread,
};
pub use moisture_basis::{dry_basis, wet_basis};
pub use psychrometrics::{
    AirState, STANDARD_PRESSURE_KPA, dew_point_c, pressure_at_kpa, saturation_kpa,
    vapor_kpa_from_wet_bulb,
};

use thiserror::Error;

/// Why an air or grain value was refused.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum AirError {
    /// Outside -40 to 60 C: no grain stands in such air.
    #[error("air temperature {0} C is out of range: use -40 to 60")]
    TemperatureOutOfRange(f64),
    /// Outside 1 to 100 %.
    #[error("relative humidity {0} % is out of range: use 1 to 100")]
    HumidityOutOfRange(f64),
    /// Outside 40 to 110 kPa.
    #[error("air pressure {0} kPa is out of range: use 40 to 110")]
    PressureOutOfRange(f64),
}

/// Checks a temperature, degrees C.
pub(crate) fn checked_temperature(temp_c: f64) -> Result<f64, AirError> {
    if (-40.0..=60.0).contains(&temp_c) {
        Ok(temp_c)
    } else {
        Err(AirError::TemperatureOutOfRange(temp_c))
    }
}

/// Checks a relative humidity, percent.
pub(crate) fn checked_humidity(humidity: f64) -> Result<f64, AirError> {
    if (1.0..=100.0).contains(&humidity) {
        Ok(humidity)
    } else {
        Err(AirError::HumidityOutOfRange(humidity))
    }
}
