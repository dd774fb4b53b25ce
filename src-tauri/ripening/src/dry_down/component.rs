//! One hypothesis of the dry-down: a form of the drying curve, with moisture,
//! rate and meter errors known up to a normal distribution.

use super::day::DryingDay;

/// Meters whose lasting errors are told apart; later ones share the last place.
pub(super) const METERS: usize = 4;
/// Moisture, log rate, and the meters' errors.
pub(super) const SIZE: usize = 2 + METERS;
const MOISTURE: usize = 0;
const RATE: usize = 1;

/// Grain soaked by rain comes to this, percent (our assumption).
const SOAKED: f64 = 30.0;
/// Share of the way to equilibrium that dry grain in damp air goes in a day, as
/// an exponent (our assumption: about a quarter).
const DAMP_AIR: f64 = 0.3;
/// Day-to-day scatter: this share of a day's change (our assumption).
const CHANGE_SCATTER: f64 = 0.25;
/// And this many points whatever the change (our assumption).
const STEADY_SCATTER: f64 = 0.10;
/// The rate wanders by this much (log) a day, since no form of the curve or of
/// the weather's pull is exactly right (our assumption).
const RATE_WANDER: f64 = 0.02;
/// Further scatter of a day without weather, points.
const NO_WEATHER_SCATTER: f64 = 0.5;

/// Form of the drying curve.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Curve {
    /// Excess over equilibrium at which drying has half its full rate, points.
    pub half: f64,
    /// Full rate per published rate, at a pull of 1: what makes every form take
    /// the published 23 days under the reference weather.
    pub factor: f64,
}

/// Moisture after a day, and how it depends on moisture before and on log rate.
pub(super) struct Step {
    pub moisture: f64,
    pub by_moisture: f64,
    pub by_rate: f64,
    /// Variance that the day adds.
    pub scatter: f64,
}

/// One day of drying or wetting.
pub(super) fn step(moisture: f64, rate: f64, curve: Curve, day: &DryingDay) -> Step {
    let excess = moisture - day.equilibrium;
    let (mut after, mut by_moisture, mut by_rate);
    if excess > 0.0 {
        let pull = curve.factor * day.drive * rate;
        let left = dried(excess, pull, curve.half);
        let slope = 1.0 + curve.half / left;
        after = day.equilibrium + left;
        by_moisture = (1.0 + curve.half / excess) / slope;
        by_rate = -pull / slope;
    } else {
        let left = libm::exp(-DAMP_AIR);
        after = day.equilibrium + excess * left;
        by_moisture = left;
        by_rate = 0.0;
    }
    if day.wetting > 0.0 && after < SOAKED {
        after += day.wetting * (SOAKED - after);
        by_moisture *= 1.0 - day.wetting;
        by_rate *= 1.0 - day.wetting;
    }
    let change = CHANGE_SCATTER * (after - moisture);
    Step {
        moisture: after,
        by_moisture,
        by_rate,
        scatter: change * change + STEADY_SCATTER * STEADY_SCATTER,
    }
}

/// Excess left after a day that would take `pull` from wet grain: the solution
/// of `dx/dt = -pull x / (x + half)`, that is `x + half ln x` less by `pull`,
/// by Newton steps on `ln x`. Three digits are there after the first step.
fn dried(excess: f64, pull: f64, half: f64) -> f64 {
    let log_excess = libm::log(excess);
    let wanted = excess + half * log_excess - pull;
    let mut log_left = log_excess - pull / (excess + half);
    let mut left = libm::exp(log_left);
    for _ in 0..2 {
        log_left -= (left + half * log_left - wanted) / (left + half);
        left = libm::exp(log_left);
    }
    left
}

/// Moisture and log rate with their spread, as a path ahead carries them.
#[derive(Debug, Clone, Copy)]
pub(super) struct Track {
    pub moisture: f64,
    /// Rate, points a day under the reference weather.
    pub rate: f64,
    pub var_moisture: f64,
    pub cov: f64,
    pub var_rate: f64,
}

impl Track {
    /// Moves one day on.
    pub(super) fn advance(&mut self, curve: Curve, day: &DryingDay) {
        let to = step(self.moisture, self.rate, curve, day);
        let (f, g) = (to.by_moisture, to.by_rate);
        self.var_moisture =
            f * f * self.var_moisture + 2.0 * f * g * self.cov + g * g * self.var_rate + to.scatter;
        self.cov = f * self.cov + g * self.var_rate;
        self.var_rate += RATE_WANDER * RATE_WANDER;
        self.moisture = to.moisture;
    }
}

/// A hypothesis with what the readings have taught.
#[derive(Debug, Clone)]
pub(super) struct Component {
    pub curve: Curve,
    /// Logarithm of its weight, not normalized.
    pub log_weight: f64,
    pub mean: [f64; SIZE],
    pub cov: [[f64; SIZE]; SIZE],
}

impl Component {
    /// A fresh hypothesis: moisture and log rate, each with its spread.
    pub(super) fn new(
        curve: Curve,
        log_weight: f64,
        moisture: (f64, f64),
        log_rate: (f64, f64),
    ) -> Component {
        let mut mean = [0.0; SIZE];
        let mut cov = [[0.0; SIZE]; SIZE];
        mean[MOISTURE] = moisture.0;
        cov[MOISTURE][MOISTURE] = moisture.1 * moisture.1;
        mean[RATE] = log_rate.0;
        cov[RATE][RATE] = log_rate.1 * log_rate.1;
        Component {
            curve,
            log_weight,
            mean,
            cov,
        }
    }

    pub(super) fn moisture(&self) -> (f64, f64) {
        (self.mean[MOISTURE], self.cov[MOISTURE][MOISTURE])
    }

    pub(super) fn log_rate(&self) -> (f64, f64) {
        (self.mean[RATE], self.cov[RATE][RATE])
    }

    pub(super) fn moisture_with_rate(&self) -> f64 {
        self.cov[MOISTURE][RATE]
    }

    /// Puts moisture anew, as at black layer.
    pub(super) fn set_moisture(&mut self, moisture: f64, sd: f64) {
        self.mean[MOISTURE] = moisture;
        for other in 0..SIZE {
            self.cov[MOISTURE][other] = 0.0;
            self.cov[other][MOISTURE] = 0.0;
        }
        self.cov[MOISTURE][MOISTURE] = sd * sd;
    }

    /// Gives a meter its lasting error.
    pub(super) fn meet_meter(&mut self, meter: usize, sd: f64) {
        self.cov[2 + meter][2 + meter] = sd * sd;
    }

    /// Moves one day on; a day without weather is a reference day with more scatter.
    pub(super) fn advance(&mut self, day: Option<&DryingDay>) {
        let rate = libm::exp(self.mean[RATE].clamp(-4.0, 4.0));
        let to = step(
            self.mean[MOISTURE],
            rate,
            self.curve,
            day.unwrap_or(&DryingDay::REFERENCE),
        );
        let (f, g) = (to.by_moisture, to.by_rate);
        let row: [f64; SIZE] =
            std::array::from_fn(|i| f * self.cov[MOISTURE][i] + g * self.cov[RATE][i]);
        let variance = f * row[MOISTURE] + g * row[RATE] + to.scatter;
        for (i, value) in row.into_iter().enumerate() {
            self.cov[MOISTURE][i] = value;
            self.cov[i][MOISTURE] = value;
        }
        self.cov[MOISTURE][MOISTURE] = variance;
        self.cov[RATE][RATE] += RATE_WANDER * RATE_WANDER;
        if day.is_none() {
            self.cov[MOISTURE][MOISTURE] += NO_WEATHER_SCATTER * NO_WEATHER_SCATTER;
        }
        self.mean[MOISTURE] = to.moisture;
    }

    /// What a reading of this meter is expected to be, and its variance.
    pub(super) fn expected(&self, meter: usize, variance: f64) -> (f64, f64) {
        let bias = 2 + meter;
        let spread = self.cov[MOISTURE][MOISTURE]
            + 2.0 * self.cov[MOISTURE][bias]
            + self.cov[bias][bias]
            + variance;
        (self.mean[MOISTURE] + self.mean[bias], spread)
    }

    /// Learns from a reading.
    pub(super) fn learn(&mut self, meter: usize, value: f64, variance: f64) {
        let bias = 2 + meter;
        let (expected, spread) = self.expected(meter, variance);
        let surprise = value - expected;
        let gain: [f64; SIZE] =
            std::array::from_fn(|i| (self.cov[i][MOISTURE] + self.cov[i][bias]) / spread);
        for (mean, &gain) in self.mean.iter_mut().zip(&gain) {
            *mean += gain * surprise;
        }
        for (row, &here) in self.cov.iter_mut().zip(&gain) {
            for (cell, &there) in row.iter_mut().zip(&gain) {
                *cell -= here * there * spread;
            }
        }
        self.log_weight -= 0.5 * (surprise * surprise / spread + libm::log(spread));
    }
}

#[cfg(test)]
mod tests {
    use super::super::prior::{BLACK_LAYER_MOISTURE, CURVES, PUBLISHED_RATE};
    use super::*;

    /// Days of reference weather from black layer to 14 %, the last in part.
    fn reference_days(curve: Curve) -> f64 {
        let mut moisture = BLACK_LAYER_MOISTURE;
        let mut days = 0.0;
        loop {
            let after = step(moisture, PUBLISHED_RATE, curve, &DryingDay::REFERENCE).moisture;
            if after <= 14.0 {
                return days + (moisture - 14.0) / (moisture - after);
            }
            moisture = after;
            days += 1.0;
            if days > 400.0 {
                return days;
            }
        }
    }

    /// 17.5 points at 0.76 a day.
    #[test]
    fn every_curve_keeps_the_published_mean() {
        for (curve, _) in CURVES {
            let days = reference_days(curve);
            if (days - 23.03).abs() > 0.02 {
                let (mut low, mut high) = (0.5, 20.0);
                for _ in 0..50 {
                    let factor = 0.5 * (low + high);
                    if reference_days(Curve { factor, ..curve }) > 23.03 {
                        low = factor;
                    } else {
                        high = factor;
                    }
                }
                panic!(
                    "half {}: {days} days; the factor should be {low:.4}",
                    curve.half
                );
            }
        }
    }

    #[test]
    fn the_slopes_are_those_of_the_step() {
        let curve = CURVES[1].0;
        for (moisture, rain) in [(28.0, 0.0), (18.0, 12.0), (9.0, 0.0), (9.0, 12.0)] {
            let mut day = DryingDay::REFERENCE;
            day.wetting = 0.01 * rain;
            let at = step(moisture, 0.76, curve, &day);
            let tiny = 1e-5;
            let up = step(moisture + tiny, 0.76, curve, &day);
            assert!(((up.moisture - at.moisture) / tiny - at.by_moisture).abs() < 1e-4);
            let faster = step(moisture, 0.76 * libm::exp(tiny), curve, &day);
            assert!(((faster.moisture - at.moisture) / tiny - at.by_rate).abs() < 1e-4);
        }
    }

    #[test]
    fn drying_never_goes_past_equilibrium_and_damp_air_wets() {
        let curve = CURVES[0].0;
        let mut day = DryingDay::REFERENCE;
        day.drive = 3.0;
        let dried = step(12.5, 3.0, curve, &day);
        assert!(dried.moisture > day.equilibrium && dried.moisture < 12.5);
        day.equilibrium = 18.0;
        let damp = step(12.0, 0.76, curve, &day).moisture;
        assert!(damp > 12.0 && damp < 18.0);
    }

    #[test]
    fn a_reading_pulls_moisture_towards_it_and_narrows() {
        let mut component = Component::new(CURVES[1].0, 0.0, (20.0, 2.0), (0.0, 0.2));
        component.meet_meter(0, 0.7);
        component.learn(0, 17.0, 0.3);
        let (mean, variance) = component.moisture();
        assert!((17.0..20.0).contains(&mean) && variance < 4.0);
        // The meter's lasting error keeps many readings from being certain.
        for _ in 0..50 {
            component.learn(0, 17.0, 0.3);
        }
        assert!(component.moisture().1.sqrt() > 0.6);
    }
}
