//! What one day's weather does to standing grain.

use crate::air::{AirError, EquilibriumSet, checked_humidity, checked_temperature, saturation_kpa};

/// One kind of day in the reference weather.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ReferenceDay {
    /// Share of the days, 0-1.
    pub share: f64,
    /// Degrees C.
    pub high_c: f64,
    /// Degrees C.
    pub low_c: f64,
    /// Mean relative humidity, percent.
    pub humidity: f64,
    /// Rain, mm.
    pub rain_mm: f64,
}

/// The weather under which the published rates are taken to hold: ordinary days
/// of September and early October on the central Plains, one in four with rain
/// (our choice, from memory of the climate there; the study gives rates, not
/// weather).
pub const REFERENCE_WEATHER: [ReferenceDay; 2] = [
    ReferenceDay {
        share: 0.75,
        high_c: 26.5,
        low_c: 12.5,
        humidity: 59.0,
        rain_mm: 0.0,
    },
    ReferenceDay {
        share: 0.25,
        high_c: 21.5,
        low_c: 13.5,
        humidity: 80.0,
        rain_mm: 9.0,
    },
];

/// Daytime vapor pressure deficit of a day that pulls with strength 1, kPa: that
/// of the dry reference day.
const UNIT_DEFICIT_KPA: f64 = 1.4;

/// Without humidity, the dew point is taken this far below the night's low on
/// a day without rain, degrees C.
const DEW_POINT_BELOW_LOW: f64 = 1.0;

/// A rainy day dries half as much at this much rain, mm (our assumption).
const HALF_DRYING_RAIN_MM: f64 = 5.0;
/// Largest share of the way to soaked grain that one day's rain wets (our
/// assumption: grain at 14 % gains at most about 1.3 points).
const MOST_WETTING: f64 = 0.08;
/// Rain that wets nearly two thirds of that, mm (our assumption).
const WETTING_RAIN_MM: f64 = 10.0;
/// The driest and hottest days pull at most this many times the reference.
const MOST_DRIVE: f64 = 3.0;

/// One day as the grain feels it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DryingDay {
    /// Pull of the air, 1 under the reference weather.
    pub drive: f64,
    /// Daytime equilibrium moisture, percent wet basis.
    pub equilibrium: f64,
    /// Share (0-1) of the way to soaked grain that the rain takes it.
    pub wetting: f64,
    /// Rain, mm.
    pub rain_mm: f64,
    /// The night's low, degrees C.
    pub low_c: f64,
}

impl DryingDay {
    /// From a day's high and low (degrees C), rain (mm; none where absent) and
    /// mean relative humidity (percent).
    ///
    /// Grain dries by day, so the air is taken midway between the day's mean
    /// and its high, at the day's mean vapor pressure. Where humidity is
    /// absent, the dew point is taken to be the night's low, one degree less
    /// on a day without rain (after FAO-56, which puts it at the low in humid
    /// places and two to three degrees below it in dry ones).
    ///
    /// # Errors
    /// [`AirError`] for impossible temperatures or humidity.
    pub fn new(
        high_c: f64,
        low_c: f64,
        rain_mm: Option<f64>,
        humidity: Option<f64>,
        set: EquilibriumSet,
    ) -> Result<DryingDay, AirError> {
        checked_temperature(high_c)?;
        checked_temperature(low_c)?;
        let rain_mm = rain_mm.unwrap_or(0.0).max(0.0);
        let mean_c = 0.5 * (high_c + low_c);
        let vapor = match humidity {
            Some(percent) => saturation_kpa(mean_c) * checked_humidity(percent)? / 100.0,
            None if rain_mm > 0.0 => saturation_kpa(low_c),
            None => saturation_kpa(low_c - DEW_POINT_BELOW_LOW),
        };
        let day_c = 0.5 * (mean_c + high_c);
        let saturation = saturation_kpa(day_c);
        let rh = (vapor / saturation).clamp(0.05, 0.98);
        let deficit = saturation * (1.0 - rh);
        let dampened = HALF_DRYING_RAIN_MM / (HALF_DRYING_RAIN_MM + rain_mm);
        Ok(DryingDay {
            drive: (deficit / UNIT_DEFICIT_KPA).min(MOST_DRIVE) * dampened,
            equilibrium: set.constants().moisture(day_c, rh),
            wetting: -MOST_WETTING * libm::expm1(-rain_mm / WETTING_RAIN_MM),
            rain_mm,
            low_c,
        })
    }

    /// The average day of [`REFERENCE_WEATHER`], computed once and written down
    /// (a test computes it again).
    pub const REFERENCE: DryingDay = DryingDay {
        drive: 0.831_091,
        equilibrium: 11.913_65,
        wetting: 0.011_868_6,
        rain_mm: 2.25,
        low_c: 12.75,
    };
}

#[cfg(test)]
mod tests {
    use super::*;

    fn day(high_c: f64, low_c: f64, rain: Option<f64>, humidity: Option<f64>) -> DryingDay {
        DryingDay::new(high_c, low_c, rain, humidity, EquilibriumSet::DEFAULT).unwrap()
    }

    #[test]
    fn the_reference_day_is_the_average_of_the_reference_weather() {
        let mut average = DryingDay {
            drive: 0.0,
            equilibrium: 0.0,
            wetting: 0.0,
            rain_mm: 0.0,
            low_c: 0.0,
        };
        for kind in REFERENCE_WEATHER {
            let one = day(
                kind.high_c,
                kind.low_c,
                Some(kind.rain_mm),
                Some(kind.humidity),
            );
            average.drive += kind.share * one.drive;
            average.equilibrium += kind.share * one.equilibrium;
            average.wetting += kind.share * one.wetting;
            average.rain_mm += kind.share * one.rain_mm;
            average.low_c += kind.share * one.low_c;
        }
        let written = DryingDay::REFERENCE;
        assert!((average.drive - written.drive).abs() < 1e-4);
        assert!((average.equilibrium - written.equilibrium).abs() < 1e-3);
        assert!((average.wetting - written.wetting).abs() < 1e-5);
        assert!((average.rain_mm - written.rain_mm).abs() < 1e-9);
        assert!((average.low_c - written.low_c).abs() < 1e-9);
    }

    #[test]
    fn warm_dry_days_pull_harder_and_rain_holds_back() {
        let plain = day(25.0, 10.0, None, Some(60.0));
        assert!(day(30.0, 15.0, None, Some(60.0)).drive > plain.drive);
        assert!(day(25.0, 10.0, None, Some(80.0)).drive < plain.drive);
        let wet = day(25.0, 10.0, Some(20.0), Some(60.0));
        assert!(wet.drive < 0.3 * plain.drive && wet.wetting > 0.0);
        assert_eq!(plain.wetting, 0.0);
    }

    #[test]
    fn without_humidity_the_low_gives_the_dew_point() {
        let implied = 100.0 * saturation_kpa(9.0) / saturation_kpa(17.5);
        let with = day(25.0, 10.0, None, Some(implied));
        let without = day(25.0, 10.0, None, None);
        assert!((with.drive - without.drive).abs() < 1e-12);
    }
}
