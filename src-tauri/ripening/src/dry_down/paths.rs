//! The days ahead as many equally likely courses of moisture.
//!
//! A course is one course of the weather, one drying curve, one rate and one
//! place in what remains unknown. The last three are spread evenly over their
//! distribution by a fixed low-discrepancy sequence (additive recurrence, after
//! Roberts' generalization of the golden ratio), so nothing is random.

use chrono::{Days, NaiveDate};

use super::DryDownError;
use super::component::{Component, Curve, Track};
use super::day::DryingDay;
use super::filter::before_black_layer;
use super::normal;

/// About how many courses are made in all.
const COURSES: usize = 1500;
/// At least so many for each course of the weather.
const LEAST_FOR_EACH: usize = 8;
/// Steps of the sequence: powers of the reciprocal of the root of x^4 = x + 1.
const STEPS: [f64; 3] = [
    0.819_172_513_396_164_4,
    0.671_043_606_703_789_2,
    0.549_700_477_901_970_3,
];

/// What a course may start from.
#[derive(Debug, Clone)]
pub(super) struct Beginning {
    weight: f64,
    curve: Curve,
    /// Days to black layer; 0 when the grain is already drying.
    wait: usize,
    moisture: f64,
    var_moisture: f64,
    cov: f64,
    log_rate: f64,
    var_log_rate: f64,
}

impl Beginning {
    /// Hypotheses of one curve as one, with the same mean and variance.
    pub(super) fn merged(curve: Curve, parts: &[(&Component, f64)]) -> Option<Beginning> {
        let weight: f64 = parts.iter().map(|&(_, weight)| weight).sum();
        if weight <= 0.0 {
            return None;
        }
        let (mut m, mut l, mut mm, mut ml, mut ll) = (0.0, 0.0, 0.0, 0.0, 0.0);
        for &(component, part) in parts {
            let share = part / weight;
            let (moisture, var_moisture) = component.moisture();
            let (log_rate, var_log_rate) = component.log_rate();
            m += share * moisture;
            l += share * log_rate;
            mm += share * (moisture * moisture + var_moisture);
            ml += share * (moisture * log_rate + component.moisture_with_rate());
            ll += share * (log_rate * log_rate + var_log_rate);
        }
        Some(Beginning {
            weight,
            curve,
            wait: 0,
            moisture: m,
            var_moisture: (mm - m * m).max(0.0),
            cov: ml - m * l,
            log_rate: l,
            var_log_rate: (ll - l * l).max(0.0),
        })
    }

    /// A hypothesis that waits for black layer.
    pub(super) fn waiting(component: &Component, weight: f64, days: i64) -> Beginning {
        let (moisture, sd) = before_black_layer(0);
        let (log_rate, var_log_rate) = component.log_rate();
        Beginning {
            weight,
            curve: component.curve,
            wait: usize::try_from(days).unwrap_or(0),
            moisture,
            var_moisture: sd * sd,
            cov: 0.0,
            log_rate,
            var_log_rate,
        }
    }

    /// The track of one rate, `z` standard deviations from the middle one.
    fn track(&self, z: f64) -> Track {
        let sd = self.var_log_rate.sqrt();
        // Moisture given the rate.
        let slope = if self.var_log_rate > 0.0 {
            self.cov / self.var_log_rate
        } else {
            0.0
        };
        Track {
            moisture: self.moisture + slope * z * sd,
            rate: libm::exp((self.log_rate + z * sd).clamp(-4.0, 4.0)),
            var_moisture: (self.var_moisture - slope * self.cov).max(0.0),
            cov: 0.0,
            var_rate: 0.0,
        }
    }
}

/// One course.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Scenario {
    /// Which course of the weather, counted from 0.
    pub member: usize,
    /// Days from today to black layer; 0 when it is past.
    pub black_layer_in: usize,
}

/// Equally likely courses of moisture, day 0 being today.
#[derive(Debug, Clone, PartialEq)]
pub struct MoisturePaths {
    as_of: NaiveDate,
    days: usize,
    scenarios: Vec<Scenario>,
    /// One row of `days` for each scenario, percent wet basis.
    moisture: Vec<f64>,
    /// The courses of the weather, from tomorrow on.
    weather: Vec<Vec<DryingDay>>,
}

impl MoisturePaths {
    pub(super) fn new(
        as_of: NaiveDate,
        beginnings: &[Beginning],
        ahead: &[Vec<DryingDay>],
    ) -> Result<MoisturePaths, DryDownError> {
        let length = ahead.first().map_or(0, Vec::len);
        if length == 0 || ahead.iter().any(|days| days.len() != length) || beginnings.is_empty() {
            return Err(DryDownError::NoWeatherAhead);
        }
        let each = COURSES.div_ceil(ahead.len()).max(LEAST_FOR_EACH);
        let days = length + 1;
        let mut scenarios = Vec::with_capacity(each * ahead.len());
        let mut moisture = Vec::with_capacity(each * ahead.len() * days);
        let mut place = [0.5; 3];
        for (member, weather) in ahead.iter().enumerate() {
            for _ in 0..each {
                let beginning = chosen(beginnings, place[0]);
                let z = normal::quantile(place[2]);
                let mut track = beginning.track(normal::quantile(place[1]));
                for day in 0..days {
                    if day < beginning.wait {
                        let wait = i64::try_from(beginning.wait - day).unwrap_or(0);
                        let (mean, sd) = before_black_layer(wait);
                        moisture.push(mean + z * sd);
                        continue;
                    }
                    if let Some(weather) = day
                        .checked_sub(1)
                        .filter(|_| day > beginning.wait)
                        .and_then(|index| weather.get(index))
                    {
                        track.advance(beginning.curve, weather);
                    }
                    let path = track.moisture + z * track.var_moisture.sqrt();
                    moisture.push(path.clamp(3.0, 80.0));
                }
                scenarios.push(Scenario {
                    member,
                    black_layer_in: beginning.wait,
                });
                for (value, step) in place.iter_mut().zip(STEPS) {
                    *value += step;
                    if *value >= 1.0 {
                        *value -= 1.0;
                    }
                }
            }
        }
        Ok(MoisturePaths {
            as_of,
            days,
            scenarios,
            moisture,
            weather: ahead.to_vec(),
        })
    }

    /// Today, day 0.
    pub fn as_of(&self) -> NaiveDate {
        self.as_of
    }

    /// Days in each course, today included.
    pub fn days(&self) -> usize {
        self.days
    }

    /// Date of a day, counted from today.
    pub fn date(&self, day: usize) -> NaiveDate {
        let days = Days::new(u64::try_from(day).unwrap_or(0));
        self.as_of.checked_add_days(days).unwrap_or(NaiveDate::MAX)
    }

    /// The courses.
    pub fn scenarios(&self) -> &[Scenario] {
        &self.scenarios
    }

    /// The weather of one course, from tomorrow on.
    pub fn weather(&self, scenario: &Scenario) -> &[DryingDay] {
        self.weather.get(scenario.member).map_or(&[], Vec::as_slice)
    }

    /// Courses that the weather ahead may take.
    pub fn seasons(&self) -> usize {
        self.weather.len()
    }

    /// The same courses over their first `days` days alone.
    pub fn shortened(&self, days: usize) -> MoisturePaths {
        let kept = days.clamp(1, self.days);
        MoisturePaths {
            as_of: self.as_of,
            days: kept,
            scenarios: self.scenarios.clone(),
            moisture: self
                .moisture
                .chunks(self.days)
                .flat_map(|course| course.iter().take(kept))
                .copied()
                .collect(),
            weather: self
                .weather
                .iter()
                .map(|member| member.iter().take(kept - 1).copied().collect())
                .collect(),
        }
    }

    /// Moisture of one course, day by day, percent wet basis.
    pub fn course(&self, scenario: usize) -> &[f64] {
        let start = scenario * self.days;
        self.moisture.get(start..start + self.days).unwrap_or(&[])
    }
}

/// The beginning at a place (0-1) of their summed weights.
fn chosen(beginnings: &[Beginning], place: f64) -> &Beginning {
    let total: f64 = beginnings.iter().map(|b| b.weight).sum();
    let mut sum = 0.0;
    beginnings
        .iter()
        .find(|b| {
            sum += b.weight;
            sum >= place * total
        })
        .unwrap_or(&beginnings[beginnings.len() - 1])
}
