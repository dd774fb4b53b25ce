//! Equilibrium moisture: what grain comes to when it is left long enough in
//! air of one temperature and humidity.
//!
//! The two equations are those of ASABE D245; T in degrees C, M in percent dry
//! basis, RH from 0 to 1:
//!
//! - modified Henderson: `RH = 1 - exp(-A (T + C) M^B)`
//! - modified Chung-Pfost: `RH = exp(-A / (T + C) exp(-B M))`
//!
//! The sets for sorghum do not agree with each other (by up to about two
//! points), so an answer for sorghum carries the spread between them.

use serde::{Deserialize, Serialize};

use super::{AirError, checked_humidity, checked_temperature, wet_basis};

/// Driest air the equations are asked about, RH 0-1.
const LEAST_RH: f64 = 0.01;
/// Dampest air the equations are asked about, RH 0-1: both run away to
/// infinity at saturation, where grain is wetted by water and not by air.
const MOST_RH: f64 = 0.985;

/// Form of the equation.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Equation {
    /// `RH = 1 - exp(-A (T + C) M^B)`.
    ModifiedHenderson,
    /// `RH = exp(-A / (T + C) exp(-B M))`.
    ModifiedChungPfost,
}

/// The grain that a set was measured on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Crop {
    /// Shelled yellow dent corn.
    Corn,
    /// Grain sorghum.
    Sorghum,
}

/// The named sets of constants.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum EquilibriumSet {
    /// Corn, modified Henderson. Reproduces a published table of 45 cells.
    CornHenderson,
    /// Corn, modified Chung-Pfost (constants from memory).
    CornChungPfost,
    /// Sorghum, modified Henderson (constants from memory).
    SorghumHenderson,
    /// Sorghum, modified Chung-Pfost, first set (constants from memory):
    /// within 0.6 point of the classic 25 C handbook row, and the default.
    #[serde(rename = "sorghum_chung_pfost_1")]
    SorghumChungPfost1,
    /// Sorghum, modified Chung-Pfost, second set (constants from memory):
    /// reproduces an extension table of 16 cells.
    #[serde(rename = "sorghum_chung_pfost_2")]
    SorghumChungPfost2,
}

/// What a set consists of.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct Equilibrium {
    /// Grain it was measured on.
    pub crop: Crop,
    /// Form of the equation.
    pub equation: Equation,
    /// Constant A.
    pub a: f64,
    /// Constant B.
    pub b: f64,
    /// Constant C, degrees C.
    pub c: f64,
}

impl EquilibriumSet {
    /// All sets.
    pub const ALL: [EquilibriumSet; 5] = [
        EquilibriumSet::CornHenderson,
        EquilibriumSet::CornChungPfost,
        EquilibriumSet::SorghumHenderson,
        EquilibriumSet::SorghumChungPfost1,
        EquilibriumSet::SorghumChungPfost2,
    ];

    /// The sets for sorghum.
    pub const SORGHUM: [EquilibriumSet; 3] = [
        EquilibriumSet::SorghumHenderson,
        EquilibriumSet::SorghumChungPfost1,
        EquilibriumSet::SorghumChungPfost2,
    ];

    /// The set used where the user names none.
    pub const DEFAULT: EquilibriumSet = EquilibriumSet::SorghumChungPfost1;

    /// Name in files and on the command line.
    pub fn word(self) -> &'static str {
        match self {
            EquilibriumSet::CornHenderson => "corn_henderson",
            EquilibriumSet::CornChungPfost => "corn_chung_pfost",
            EquilibriumSet::SorghumHenderson => "sorghum_henderson",
            EquilibriumSet::SorghumChungPfost1 => "sorghum_chung_pfost_1",
            EquilibriumSet::SorghumChungPfost2 => "sorghum_chung_pfost_2",
        }
    }

    /// The set of that name, if there is one.
    pub fn from_word(word: &str) -> Option<EquilibriumSet> {
        EquilibriumSet::ALL
            .into_iter()
            .find(|set| set.word() == word)
    }

    /// Equation and constants.
    pub fn constants(self) -> Equilibrium {
        let (crop, equation, a, b, c) = match self {
            EquilibriumSet::CornHenderson => (
                Crop::Corn,
                Equation::ModifiedHenderson,
                8.6541e-5,
                1.8634,
                49.810,
            ),
            EquilibriumSet::CornChungPfost => (
                Crop::Corn,
                Equation::ModifiedChungPfost,
                312.30,
                0.16958,
                30.205,
            ),
            EquilibriumSet::SorghumHenderson => (
                Crop::Sorghum,
                Equation::ModifiedHenderson,
                8.5320e-6,
                2.4757,
                113.725,
            ),
            EquilibriumSet::SorghumChungPfost1 => (
                Crop::Sorghum,
                Equation::ModifiedChungPfost,
                1099.68,
                0.19644,
                102.849,
            ),
            EquilibriumSet::SorghumChungPfost2 => (
                Crop::Sorghum,
                Equation::ModifiedChungPfost,
                797.33,
                0.18159,
                52.238,
            ),
        };
        Equilibrium {
            crop,
            equation,
            a,
            b,
            c,
        }
    }

    /// Equilibrium moisture, percent wet basis, in air of `temp_c` degrees C
    /// and `humidity` percent.
    ///
    /// # Errors
    /// [`AirError`] outside -40 to 60 C or 1 to 100 %.
    pub fn moisture(self, temp_c: f64, humidity: f64) -> Result<f64, AirError> {
        checked_temperature(temp_c)?;
        checked_humidity(humidity)?;
        Ok(self.constants().moisture(temp_c, humidity / 100.0))
    }

    /// Relative humidity, percent, of the air between grains of `moisture`
    /// percent wet basis at `temp_c` degrees C.
    ///
    /// # Errors
    /// [`AirError`] outside -40 to 60 C.
    pub fn humidity(self, temp_c: f64, moisture: f64) -> Result<f64, AirError> {
        checked_temperature(temp_c)?;
        let dry = super::dry_basis(moisture.clamp(0.0, 99.0));
        Ok(100.0 * self.constants().rh(temp_c, dry))
    }
}

impl Equilibrium {
    /// Percent wet basis; inputs already checked.
    pub(crate) fn moisture(&self, temp_c: f64, rh: f64) -> f64 {
        let rh = rh.clamp(LEAST_RH, MOST_RH);
        let warmth = self.warmth(temp_c);
        let dry = match self.equation {
            Equation::ModifiedHenderson => {
                libm::pow(-libm::log1p(-rh) / (self.a * warmth), 1.0 / self.b)
            }
            Equation::ModifiedChungPfost => -libm::log(-warmth * libm::log(rh) / self.a) / self.b,
        };
        wet_basis(dry.max(0.0))
    }

    /// RH 0-1 over grain of `dry` percent dry basis.
    fn rh(&self, temp_c: f64, dry: f64) -> f64 {
        let warmth = self.warmth(temp_c);
        match self.equation {
            Equation::ModifiedHenderson => -libm::expm1(-self.a * warmth * libm::pow(dry, self.b)),
            Equation::ModifiedChungPfost => libm::exp(-self.a / warmth * libm::exp(-self.b * dry)),
        }
    }

    /// `T + C`, kept off zero for the coldest air.
    fn warmth(&self, temp_c: f64) -> f64 {
        (temp_c + self.c).max(5.0)
    }
}

/// What one set says.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct SetMoisture {
    /// Which set.
    pub set: EquilibriumSet,
    /// Percent wet basis.
    pub moisture: f64,
}

/// The answers of all sorghum sets for the same air. The ends are the lowest
/// and highest set, not the ends of a credible interval.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct MoistureSpread {
    /// Lowest, percent wet basis.
    pub low: f64,
    /// The default set's.
    pub chosen: f64,
    /// Highest.
    pub high: f64,
    /// Set by set.
    pub sets: Vec<SetMoisture>,
}

/// Equilibrium moisture of sorghum by every set.
///
/// # Errors
/// [`AirError`] outside -40 to 60 C or 1 to 100 %.
pub fn sorghum_spread(temp_c: f64, humidity: f64) -> Result<MoistureSpread, AirError> {
    let mut sets = Vec::with_capacity(EquilibriumSet::SORGHUM.len());
    for set in EquilibriumSet::SORGHUM {
        sets.push(SetMoisture {
            set,
            moisture: set.moisture(temp_c, humidity)?,
        });
    }
    let chosen = EquilibriumSet::DEFAULT.moisture(temp_c, humidity)?;
    let low = sets.iter().fold(chosen, |low, one| low.min(one.moisture));
    let high = sets.iter().fold(chosen, |high, one| high.max(one.moisture));
    Ok(MoistureSpread {
        low,
        chosen,
        high,
        sets,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn humidity_and_moisture_are_each_others_inverse() {
        for set in EquilibriumSet::ALL {
            for temp_c in [0.0, 10.0, 25.0, 38.0] {
                for humidity in [15.0, 35.0, 60.0, 85.0, 95.0] {
                    let moisture = set.moisture(temp_c, humidity).unwrap();
                    let back = set.humidity(temp_c, moisture).unwrap();
                    assert!(
                        (back - humidity).abs() < 1e-9,
                        "{set:?} {temp_c} {humidity}"
                    );
                }
            }
        }
    }

    #[test]
    fn grain_is_wetter_in_damper_and_in_cooler_air() {
        for set in EquilibriumSet::ALL {
            for humidity in 2..98 {
                let here = set.moisture(20.0, f64::from(humidity)).unwrap();
                assert!(set.moisture(20.0, f64::from(humidity + 1)).unwrap() > here);
                assert!(set.moisture(25.0, f64::from(humidity)).unwrap() <= here);
            }
        }
    }

    #[test]
    fn the_worst_air_still_gives_a_finite_answer() {
        for set in EquilibriumSet::ALL {
            for temp_c in [-40.0, 60.0] {
                for humidity in [1.0, 100.0] {
                    let moisture = set.moisture(temp_c, humidity).unwrap();
                    assert!((0.0..60.0).contains(&moisture), "{set:?}: {moisture}");
                }
            }
        }
    }

    #[test]
    fn impossible_air_is_refused() {
        let set = EquilibriumSet::DEFAULT;
        assert!(set.moisture(20.0, 0.0).is_err());
        assert!(set.moisture(20.0, 101.0).is_err());
        assert!(set.moisture(20.0, f64::NAN).is_err());
        assert!(set.moisture(61.0, 50.0).is_err());
    }

    #[test]
    fn names_lead_back_to_their_sets() {
        for set in EquilibriumSet::ALL {
            assert_eq!(EquilibriumSet::from_word(set.word()), Some(set));
            let json = serde_json::to_string(&set).unwrap();
            assert_eq!(json, format!("\"{}\"", set.word()));
        }
        assert_eq!(EquilibriumSet::from_word("wheat"), None);
    }
}
