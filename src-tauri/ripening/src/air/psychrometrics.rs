//! Psychrometrics after FAO Irrigation and Drainage Paper 56 (chapter 3):
//! vapor pressures in kPa, temperatures in degrees C.

use serde::{Deserialize, Serialize};

use super::{AirError, checked_humidity, checked_temperature};

/// Pressure at sea level, kPa.
pub const STANDARD_PRESSURE_KPA: f64 = 101.325;

/// Coefficient of a ventilated psychrometer, 1/K (FAO-56 equation 16).
const VENTILATED: f64 = 0.000_662;

/// Saturation vapor pressure at a temperature (FAO-56 equation 11), kPa.
pub fn saturation_kpa(temp_c: f64) -> f64 {
    0.6108 * libm::exp(17.27 * temp_c / (temp_c + 237.3))
}

/// Temperature at which air of this vapor pressure is saturated: equation 11
/// turned round. Degrees C.
pub fn dew_point_c(vapor_kpa: f64) -> f64 {
    let ratio = libm::log(vapor_kpa.max(1e-6) / 0.6108);
    237.3 * ratio / (17.27 - ratio)
}

/// Mean air pressure at an elevation in metres (FAO-56 equation 7), kPa.
pub fn pressure_at_kpa(elevation_m: f64) -> f64 {
    101.3 * libm::pow((293.0 - 0.0065 * elevation_m) / 293.0, 5.26)
}

/// Vapor pressure from a ventilated psychrometer (FAO-56 equation 15), kPa.
pub fn vapor_kpa_from_wet_bulb(dry_c: f64, wet_c: f64, pressure_kpa: f64) -> f64 {
    saturation_kpa(wet_c) - VENTILATED * pressure_kpa * (dry_c - wet_c)
}

/// Air of one temperature and humidity, with all that follows from them.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct AirState {
    /// Degrees C.
    pub temp_c: f64,
    /// Relative humidity, percent.
    pub humidity: f64,
    /// Actual vapor pressure, kPa.
    pub vapor_kpa: f64,
    /// Vapor pressure deficit, kPa.
    pub deficit_kpa: f64,
    /// Dew point, degrees C.
    pub dew_point_c: f64,
    /// Wet bulb of a ventilated psychrometer, degrees C.
    pub wet_bulb_c: f64,
}

impl AirState {
    /// Air of `temp_c` degrees C and `humidity` percent at a pressure.
    ///
    /// # Errors
    /// [`AirError`] outside -40 to 60 C, 1 to 100 % or 40 to 110 kPa.
    pub fn new(temp_c: f64, humidity: f64, pressure_kpa: f64) -> Result<AirState, AirError> {
        checked_temperature(temp_c)?;
        checked_humidity(humidity)?;
        if !(40.0..=110.0).contains(&pressure_kpa) {
            return Err(AirError::PressureOutOfRange(pressure_kpa));
        }
        let saturation = saturation_kpa(temp_c);
        let vapor_kpa = saturation * humidity / 100.0;
        Ok(AirState {
            temp_c,
            humidity,
            vapor_kpa,
            deficit_kpa: saturation - vapor_kpa,
            dew_point_c: dew_point_c(vapor_kpa),
            wet_bulb_c: wet_bulb_c(temp_c, vapor_kpa, pressure_kpa),
        })
    }
}

/// Halves the interval between dew point and dry bulb until it is exhausted.
fn wet_bulb_c(dry_c: f64, vapor_kpa: f64, pressure_kpa: f64) -> f64 {
    let mut low = dew_point_c(vapor_kpa).min(dry_c);
    let mut high = dry_c;
    for _ in 0..60 {
        let mid = 0.5 * (low + high);
        if vapor_kpa_from_wet_bulb(dry_c, mid, pressure_kpa) > vapor_kpa {
            high = mid;
        } else {
            low = mid;
        }
    }
    0.5 * (low + high)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn saturated_air_has_one_temperature() {
        for temp_c in [-10.0, 0.0, 15.0, 40.0] {
            let air = AirState::new(temp_c, 100.0, STANDARD_PRESSURE_KPA).unwrap();
            assert!((air.dew_point_c - temp_c).abs() < 1e-9);
            assert!((air.wet_bulb_c - temp_c).abs() < 1e-6);
            assert!(air.deficit_kpa.abs() < 1e-12);
        }
    }

    #[test]
    fn dew_point_wet_bulb_and_dry_bulb_stand_in_order() {
        for humidity in 1..100 {
            let air = AirState::new(30.0, f64::from(humidity), STANDARD_PRESSURE_KPA).unwrap();
            assert!(air.dew_point_c < air.wet_bulb_c && air.wet_bulb_c < air.temp_c);
        }
    }

    #[test]
    fn impossible_pressure_is_refused() {
        assert_eq!(
            AirState::new(20.0, 50.0, 1013.0),
            Err(AirError::PressureOutOfRange(1013.0))
        );
    }
}
