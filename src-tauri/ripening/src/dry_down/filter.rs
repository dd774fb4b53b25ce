//! From black layer and readings to what is known today.

use chrono::{Days, NaiveDate};
use serde::{Deserialize, Serialize};

use super::DryDownError;
use super::component::{Component, METERS};
use super::day::DryingDay;
use super::normal;
use super::paths::{Beginning, MoisturePaths};
use super::prior::{
    BLACK_LAYER_MOISTURE, BLACK_LAYER_MOISTURE_SD, CURVES, EARLIER_LOSS, EARLIER_LOSS_SD,
    RatePrior, UNKNOWN_MOISTURE, UNKNOWN_MOISTURE_SD,
};
use super::reading::MoistureReading;
use crate::Band;
use crate::air::{AirError, EquilibriumSet};
use crate::weather::{Day, WeatherRecord};

/// Black layer dates are gathered to this many, equally likely.
const BLACK_LAYER_DATES: usize = 5;
/// Nothing older than this many days is looked at.
const LONGEST_LOOK_BACK: u64 = 300;
/// Level of the bands of the state today.
const LEVEL: f64 = 0.8;

impl DryingDay {
    /// A day of the weather record as the grain feels it.
    ///
    /// # Errors
    /// [`AirError`] for impossible weather.
    pub fn from_day(day: &Day, set: EquilibriumSet) -> Result<DryingDay, AirError> {
        DryingDay::new(
            (day.high_f - 32.0) / 1.8,
            (day.low_f - 32.0) / 1.8,
            day.rain_in.map(|inches| inches * 25.4),
            day.humidity.map(|percent| percent.clamp(1.0, 100.0)),
            set,
        )
    }
}

/// The days up to today, as the grain felt them; gaps where the weather is
/// not known.
#[derive(Debug, Clone, PartialEq)]
pub struct PastDays {
    /// Date of the first.
    pub first: NaiveDate,
    /// One for each date from there on.
    pub days: Vec<Option<DryingDay>>,
}

impl PastDays {
    /// From a weather record, up to and with `last`. Impossible days are gaps.
    pub fn from_record(record: &WeatherRecord, last: NaiveDate, set: EquilibriumSet) -> PastDays {
        let earliest = last
            .checked_sub_days(Days::new(LONGEST_LOOK_BACK))
            .unwrap_or(last);
        PastDays {
            first: earliest,
            days: earliest
                .iter_days()
                .take_while(|&date| date <= last)
                .map(|date| {
                    record
                        .on(date)
                        .and_then(|day| DryingDay::from_day(day, set).ok())
                })
                .collect(),
        }
    }

    fn on(&self, date: NaiveDate) -> Option<&DryingDay> {
        let index = usize::try_from((date - self.first).num_days()).ok()?;
        self.days.get(index)?.as_ref()
    }
}

/// What a dry-down is worked out from.
#[derive(Debug, Clone, Copy)]
pub struct DryDownInput<'a> {
    /// Today. Later readings and weather are not looked at.
    pub as_of: NaiveDate,
    /// Dates of black layer with their weights, before or after today; empty
    /// when nothing is known of it.
    pub black_layer: &'a [(NaiveDate, f64)],
    /// Moisture readings, in any order.
    pub readings: &'a [MoistureReading],
    /// Weather up to today.
    pub past: &'a PastDays,
    /// What is known of the rate beforehand.
    pub prior: RatePrior,
}

/// How a reading fitted what was expected of it.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct ReadingFit {
    /// Its day.
    pub on: NaiveDate,
    /// Its mean, percent.
    pub percent: f64,
    /// What was expected before it.
    pub expected: f64,
    /// Standard deviation of what was expected, meter and samples included.
    pub sd: f64,
    /// How many of these it was off; beyond 3 either it or the past is wrong.
    pub off_by: f64,
}

/// The state today.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct DryDownNow {
    /// Today.
    pub as_of: NaiveDate,
    /// Level of the bands, 0-1.
    pub level: f64,
    /// Moisture of the field, percent wet basis.
    pub moisture: Band,
    /// The planting's rate: points a day from black layer to 14 % under the
    /// reference weather.
    pub rate: Band,
    /// Probability that black layer is past.
    pub past_black_layer: f64,
    /// How the readings fitted, in order.
    pub readings: Vec<ReadingFit>,
    /// Days since the start for which no weather was known; each was taken as a
    /// reference day with more scatter.
    pub days_without_weather: u32,
}

/// What is known of a planting's dry-down today.
#[derive(Debug, Clone)]
pub struct DryDown {
    now: DryDownNow,
    beginnings: Vec<Beginning>,
}

impl DryDown {
    /// The state today.
    pub fn now(&self) -> &DryDownNow {
        &self.now
    }

    /// Moisture over the days ahead, under each of the courses that the weather
    /// may take (equally likely, of one length, from tomorrow on).
    ///
    /// # Errors
    /// [`DryDownError::NoWeatherAhead`] when there are none.
    pub fn paths(&self, ahead: &[Vec<DryingDay>]) -> Result<MoisturePaths, DryDownError> {
        MoisturePaths::new(self.now.as_of, &self.beginnings, ahead)
    }
}

/// A hypothesis on its way to today.
struct Hypothesis {
    black_layer: Option<NaiveDate>,
    running: bool,
    component: Component,
}

impl Hypothesis {
    /// Moisture that it expects on a day, before it runs.
    fn before_start(&self, date: NaiveDate) -> (f64, f64) {
        match self.black_layer {
            Some(black_layer) => before_black_layer((black_layer - date).num_days()),
            None => (UNKNOWN_MOISTURE, UNKNOWN_MOISTURE_SD),
        }
    }

    fn start(&mut self, date: NaiveDate) {
        if !self.running {
            let (moisture, sd) = self.before_start(date);
            self.component.set_moisture(moisture, sd);
            self.running = true;
        }
    }
}

/// Moisture so many days before black layer, percent, and its spread.
pub(super) fn before_black_layer(days: i64) -> (f64, f64) {
    let days = days.max(0) as f64;
    // As long before as the mean stands still, the spread does too.
    let spread = EARLIER_LOSS_SD * days.min((75.0 - BLACK_LAYER_MOISTURE) / EARLIER_LOSS);
    let sd = (BLACK_LAYER_MOISTURE_SD * BLACK_LAYER_MOISTURE_SD + spread * spread).sqrt();
    ((BLACK_LAYER_MOISTURE + EARLIER_LOSS * days).min(75.0), sd)
}

/// Works out what is known today.
///
/// # Errors
/// [`DryDownError`] when there is nothing to start from, or an input is unusable.
pub fn dry_down(input: &DryDownInput<'_>) -> Result<DryDown, DryDownError> {
    let readings = usable_readings(input)?;
    let starts = gathered(input.black_layer)?;
    let first_reading = readings.first().map(|reading| reading.on);
    let first = match (starts.first(), first_reading) {
        (None, None) => return Err(DryDownError::NothingToStartFrom),
        (Some(&start), Some(reading)) => start.min(reading),
        (Some(&only), None) | (None, Some(only)) => only,
    };
    let earliest = input.as_of.checked_sub_days(Days::new(LONGEST_LOOK_BACK));
    let first = first.max(earliest.unwrap_or(first));
    let meters = meter_places(&readings);
    let mut hypotheses = hypotheses(&starts, input.prior);
    for (place, bias_sd) in meters.iter().enumerate() {
        for hypothesis in &mut hypotheses {
            hypothesis.component.meet_meter(place, bias_sd.1);
        }
    }

    let mut fits = Vec::new();
    let mut days_without_weather = 0;
    let mut next = 0;
    for date in first.iter_days().take_while(|&date| date <= input.as_of) {
        let day = input.past.on(date);
        if date > first && day.is_none() {
            days_without_weather += 1;
        }
        for hypothesis in &mut hypotheses {
            if hypothesis.running {
                hypothesis.component.advance(day);
            } else if hypothesis.black_layer.is_some_and(|start| start <= date) {
                hypothesis.start(date);
            }
        }
        while let Some(reading) = readings.get(next).filter(|reading| reading.on <= date) {
            for hypothesis in &mut hypotheses {
                hypothesis.start(date);
            }
            let place = place_of(&meters, reading);
            let (value, variance) = (reading.mean(), reading.variance());
            fits.push(fit(&hypotheses, place, reading, variance));
            for hypothesis in &mut hypotheses {
                hypothesis.component.learn(place, value, variance);
            }
            next += 1;
        }
    }

    let weights = normalized(&hypotheses);
    let beginnings = beginnings(&hypotheses, &weights, input.as_of);
    let now = now(
        &hypotheses,
        &weights,
        input.as_of,
        fits,
        days_without_weather,
    );
    Ok(DryDown { now, beginnings })
}

fn usable_readings<'a>(input: &DryDownInput<'a>) -> Result<Vec<&'a MoistureReading>, DryDownError> {
    let mut readings: Vec<&MoistureReading> = input
        .readings
        .iter()
        .filter(|reading| reading.on <= input.as_of)
        .collect();
    if let Some(bad) = readings.iter().find(|reading| !reading.usable()) {
        return Err(DryDownError::BadReading(bad.on));
    }
    readings.sort_by(|a, b| {
        a.on.cmp(&b.on)
            .then_with(|| a.meter_name.cmp(&b.meter_name))
    });
    Ok(readings)
}

/// The black layer dates as few equally likely ones, at the middles of equal
/// parts of their distribution.
fn gathered(dates: &[(NaiveDate, f64)]) -> Result<Vec<NaiveDate>, DryDownError> {
    if dates.is_empty() {
        return Ok(Vec::new());
    }
    let total: f64 = dates.iter().map(|&(_, weight)| weight).sum();
    let usable = dates.iter().all(|&(_, weight)| weight >= 0.0);
    if !usable || total <= 0.0 || !total.is_finite() {
        return Err(DryDownError::BadWeights);
    }
    let mut sorted = dates.to_vec();
    sorted.sort_by_key(|&(date, _)| date);
    let gathered = (0..BLACK_LAYER_DATES)
        .filter_map(|part| {
            let wanted = total * (part as f64 + 0.5) / BLACK_LAYER_DATES as f64;
            let mut sum = 0.0;
            sorted
                .iter()
                .find(|&&(_, weight)| {
                    sum += weight;
                    sum >= wanted
                })
                .map(|&(date, _)| date)
        })
        .collect();
    Ok(gathered)
}

fn hypotheses(starts: &[NaiveDate], prior: RatePrior) -> Vec<Hypothesis> {
    let log_rate = (libm::log(prior.median), prior.log_sd);
    let dates: Vec<Option<NaiveDate>> = if starts.is_empty() {
        vec![None]
    } else {
        starts.iter().copied().map(Some).collect()
    };
    let mut made: Vec<Hypothesis> = Vec::new();
    for black_layer in dates {
        for (curve, belief) in CURVES {
            made.push(Hypothesis {
                black_layer,
                running: false,
                component: Component::new(
                    curve,
                    libm::log(belief),
                    (UNKNOWN_MOISTURE, UNKNOWN_MOISTURE_SD),
                    log_rate,
                ),
            });
        }
    }
    made
}

/// Meters by name in the order they appear, with the spread of their errors.
fn meter_places(readings: &[&MoistureReading]) -> Vec<(String, f64)> {
    let mut places: Vec<(String, f64)> = Vec::new();
    for reading in readings {
        let known = places.iter().any(|(name, _)| *name == reading.meter_name);
        if !known && places.len() < METERS {
            places.push((reading.meter_name.clone(), reading.bias_sd()));
        }
    }
    places
}

fn place_of(meters: &[(String, f64)], reading: &MoistureReading) -> usize {
    meters
        .iter()
        .position(|(name, _)| *name == reading.meter_name)
        .unwrap_or(METERS - 1)
}

/// Weights that sum to 1.
fn normalized(hypotheses: &[Hypothesis]) -> Vec<f64> {
    let most = hypotheses
        .iter()
        .fold(f64::NEG_INFINITY, |m, h| m.max(h.component.log_weight));
    let raw: Vec<f64> = hypotheses
        .iter()
        .map(|h| libm::exp(h.component.log_weight - most))
        .collect();
    let total: f64 = raw.iter().sum();
    raw.into_iter().map(|weight| weight / total).collect()
}

fn fit(
    hypotheses: &[Hypothesis],
    place: usize,
    reading: &MoistureReading,
    variance: f64,
) -> ReadingFit {
    let weights = normalized(hypotheses);
    let (mut mean, mut square) = (0.0, 0.0);
    for (hypothesis, weight) in hypotheses.iter().zip(&weights) {
        let (expected, spread) = hypothesis.component.expected(place, variance);
        mean += weight * expected;
        square += weight * (expected * expected + spread);
    }
    let sd = (square - mean * mean).max(1e-9).sqrt();
    ReadingFit {
        on: reading.on,
        percent: reading.mean(),
        expected: mean,
        sd,
        off_by: (reading.mean() - mean) / sd,
    }
}

/// What the days ahead start from: those that run are gathered by the form of
/// their curve, those that wait for black layer each stay.
fn beginnings(hypotheses: &[Hypothesis], weights: &[f64], as_of: NaiveDate) -> Vec<Beginning> {
    let mut made = Vec::new();
    for (curve, _) in CURVES {
        let same: Vec<(&Hypothesis, f64)> = hypotheses
            .iter()
            .zip(weights.iter().copied())
            .filter(|(h, weight)| h.component.curve == curve && *weight > 1e-9)
            .collect();
        let running: Vec<(&Component, f64)> = same
            .iter()
            .filter(|(h, _)| h.running)
            .map(|(h, weight)| (&h.component, *weight))
            .collect();
        made.extend(Beginning::merged(curve, &running));
        for (hypothesis, weight) in same.iter().filter(|(h, _)| !h.running) {
            let wait = hypothesis
                .black_layer
                .map_or(0, |start| (start - as_of).num_days());
            made.push(Beginning::waiting(&hypothesis.component, *weight, wait));
        }
    }
    made
}

fn now(
    hypotheses: &[Hypothesis],
    weights: &[f64],
    as_of: NaiveDate,
    readings: Vec<ReadingFit>,
    days_without_weather: u32,
) -> DryDownNow {
    let moisture: Vec<(f64, f64, f64)> = hypotheses
        .iter()
        .zip(weights)
        .map(|(h, &weight)| {
            let (mean, sd) = if h.running {
                let (mean, variance) = h.component.moisture();
                (mean, variance.max(1e-12).sqrt())
            } else {
                h.before_start(as_of)
            };
            (weight, mean, sd)
        })
        .collect();
    let rate: Vec<(f64, f64, f64)> = hypotheses
        .iter()
        .zip(weights)
        .map(|(h, &weight)| {
            let (mean, variance) = h.component.log_rate();
            (weight, mean, variance.max(1e-12).sqrt())
        })
        .collect();
    let log_rate = mixture_band(&rate);
    DryDownNow {
        as_of,
        level: LEVEL,
        moisture: mixture_band(&moisture),
        rate: Band {
            low: libm::exp(log_rate.low),
            mid: libm::exp(log_rate.mid),
            high: libm::exp(log_rate.high),
        },
        past_black_layer: hypotheses
            .iter()
            .zip(weights)
            .filter(|(h, _)| match h.black_layer {
                Some(date) => date <= as_of,
                None => h.component.moisture().0 < BLACK_LAYER_MOISTURE,
            })
            .fold(0.0, |sum, (_, weight)| sum + weight),
        readings,
        days_without_weather,
    }
}

/// Band of a mixture of normals given as (weight, mean, sd).
fn mixture_band(parts: &[(f64, f64, f64)]) -> Band {
    let tail = 0.5 * (1.0 - LEVEL);
    Band {
        low: mixture_quantile(parts, tail),
        mid: mixture_quantile(parts, 0.5),
        high: mixture_quantile(parts, 1.0 - tail),
    }
}

fn mixture_quantile(parts: &[(f64, f64, f64)], probability: f64) -> f64 {
    let mut low = parts
        .iter()
        .fold(f64::INFINITY, |low, p| low.min(p.1 - 9.0 * p.2));
    let mut high = parts
        .iter()
        .fold(f64::NEG_INFINITY, |high, p| high.max(p.1 + 9.0 * p.2));
    for _ in 0..60 {
        let mid = 0.5 * (low + high);
        let below: f64 = parts
            .iter()
            .map(|&(weight, mean, sd)| weight * normal::below((mid - mean) / sd))
            .sum();
        if below < probability {
            low = mid;
        } else {
            high = mid;
        }
    }
    0.5 * (low + high)
}

#[cfg(test)]
mod tests {
    use super::super::{Meter, TARGETS};
    use super::*;

    fn day(number: i64) -> NaiveDate {
        NaiveDate::from_ymd_opt(2025, 9, 10).unwrap() + chrono::TimeDelta::days(number)
    }

    fn reading(number: i64, percents: &[f64]) -> MoistureReading {
        MoistureReading {
            on: day(number),
            meter: Meter::Hand,
            meter_name: "a".to_owned(),
            meter_error: None,
            percents: percents.to_vec(),
        }
    }

    fn past() -> PastDays {
        PastDays {
            first: day(-5),
            days: vec![Some(DryingDay::REFERENCE); 60],
        }
    }

    fn known(
        as_of: i64,
        black_layer: &[(NaiveDate, f64)],
        readings: &[MoistureReading],
    ) -> Result<DryDown, DryDownError> {
        dry_down(&DryDownInput {
            as_of: day(as_of),
            black_layer,
            readings,
            past: &past(),
            prior: RatePrior::default(),
        })
    }

    fn ahead() -> Vec<Vec<DryingDay>> {
        vec![vec![DryingDay::REFERENCE; 60]; 3]
    }

    #[test]
    fn later_readings_and_weather_do_not_count() {
        let sure = [(day(0), 1.0)];
        let without = known(8, &sure, &[reading(8, &[26.0])]).unwrap();
        let later = [reading(8, &[26.0]), reading(9, &[12.0])];
        let mut other = past();
        for later in &mut other.days[14..] {
            *later = None;
        }
        let with = dry_down(&DryDownInput {
            as_of: day(8),
            black_layer: &sure,
            readings: &later,
            past: &other,
            prior: RatePrior::default(),
        })
        .unwrap();
        assert_eq!(with.now(), without.now());
        assert_eq!(
            with.paths(&ahead()).unwrap(),
            without.paths(&ahead()).unwrap()
        );
    }

    #[test]
    fn readings_narrow_moisture_and_teach_the_rate() {
        let sure = [(day(0), 1.0)];
        let blind = known(12, &sure, &[]).unwrap();
        let fast = known(
            12,
            &sure,
            &[reading(5, &[25.5]), reading(12, &[17.0, 17.4])],
        )
        .unwrap();
        let slow = known(
            12,
            &sure,
            &[reading(5, &[30.0]), reading(12, &[27.0, 26.6])],
        )
        .unwrap();
        assert!(fast.now().moisture.width() < 0.6 * blind.now().moisture.width());
        assert!(fast.now().rate.mid > blind.now().rate.mid);
        assert!(slow.now().rate.mid < blind.now().rate.mid);
        let p50 = |known: &DryDown| known.paths(&ahead()).unwrap().window(14.0).window.p50;
        assert!(p50(&fast) < p50(&blind) && p50(&blind) < p50(&slow));
    }

    #[test]
    fn drier_targets_come_later_and_windows_are_in_order() {
        let known = known(0, &[(day(-2), 0.3), (day(1), 0.5), (day(4), 0.2)], &[]).unwrap();
        let paths = known.paths(&ahead()).unwrap();
        let mut last = None;
        for target in TARGETS {
            let window = paths.window(target).window;
            assert!(window.p10 <= window.p50 && window.p50 <= window.p90);
            assert!(window.p50 > last);
            last = window.p50;
        }
        assert!((0.0..1.0).contains(&known.now().past_black_layer));
        let fan = paths.fan();
        assert_eq!(fan.len(), 61);
        assert!(fan[0].moisture.mid > fan[30].moisture.mid);
    }

    #[test]
    fn rain_and_damp_air_put_water_back() {
        let dry = known(0, &[], &[reading(0, &[13.0, 13.2, 12.8])]).unwrap();
        let mut wet = DryingDay::REFERENCE;
        (wet.drive, wet.equilibrium, wet.wetting) = (0.1, 19.0, 0.08);
        let fan = dry.paths(&vec![vec![wet; 5]; 3]).unwrap().fan();
        assert!(fan[5].moisture.mid > fan[0].moisture.mid + 2.0);
    }

    #[test]
    fn a_reading_alone_starts_a_dry_down() {
        let known = known(0, &[], &[reading(0, &[19.0, 18.6])]).unwrap();
        let now = known.now();
        assert!(now.moisture.low < 18.8 && now.moisture.high > 18.8);
        assert!((now.moisture.mid - 18.8).abs() < 0.3);
        assert!(
            known
                .paths(&ahead())
                .unwrap()
                .window(16.0)
                .window
                .p50
                .is_some()
        );
    }

    #[test]
    fn a_reading_that_cannot_fit_is_marked() {
        let known = known(10, &[(day(0), 1.0)], &[reading(10, &[9.0, 9.0, 9.0])]).unwrap();
        assert!(known.now().readings[0].off_by < -3.0);
    }

    #[test]
    fn days_without_weather_are_counted_and_widen() {
        let sure = [(day(0), 1.0)];
        let gaps = PastDays {
            first: day(0),
            days: vec![None; 20],
        };
        let blind = dry_down(&DryDownInput {
            as_of: day(15),
            black_layer: &sure,
            readings: &[],
            past: &gaps,
            prior: RatePrior::default(),
        })
        .unwrap();
        let seeing = known(15, &sure, &[]).unwrap();
        assert_eq!(blind.now().days_without_weather, 15);
        assert_eq!(seeing.now().days_without_weather, 0);
        assert!(blind.now().moisture.width() > seeing.now().moisture.width());
    }

    #[test]
    fn unusable_input_is_refused() {
        assert_eq!(
            known(0, &[], &[]).err(),
            Some(DryDownError::NothingToStartFrom)
        );
        assert_eq!(
            known(0, &[(day(0), -1.0)], &[]).err(),
            Some(DryDownError::BadWeights)
        );
        assert_eq!(
            known(0, &[], &[reading(0, &[90.0])]).err(),
            Some(DryDownError::BadReading(day(0)))
        );
        let sure = known(0, &[(day(0), 1.0)], &[]).unwrap();
        assert_eq!(sure.paths(&[]).err(), Some(DryDownError::NoWeatherAhead));
    }
}
