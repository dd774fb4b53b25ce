//! A standing field that dries by another process than the model's: kernels of
//! a shell and a core that trade water hour by hour, the shell with the air (by
//! another equilibrium set), with dew and with rain.

use rand_chacha::ChaCha8Rng;
use ripening::air::EquilibriumSet;

use crate::plains::{TrueDay, normal, saturation};

/// A planting whose truth is known.
pub struct Planting {
    /// Moisture at black layer, percent wet basis.
    pub at_black_layer: f64,
    /// Speed of the hybrid against the middle one.
    pub speed: f64,
    /// How much slower the inner water is, against the middle hybrid.
    pub inner: f64,
}

impl Planting {
    /// A planting at random. Spreads are set by the published ranges (25-35 %
    /// at black layer; 0.64-0.99 point a day over twenty hybrids), the middle
    /// speed by the published mean of 23 days; see the check of the generator.
    pub fn random(rng: &mut ChaCha8Rng) -> Planting {
        Planting {
            at_black_layer: 31.5 + 1.8 * normal(rng),
            speed: (0.11 * normal(rng)).exp(),
            inner: (0.2 * normal(rng)).exp(),
        }
    }

    /// Mean moisture (percent wet basis) at 15 h of each day, the first being
    /// the day of black layer.
    pub fn dry(&self, days: &[TrueDay], rng: &mut ChaCha8Rng) -> Vec<f64> {
        let dry_basis = |m: f64| 100.0 * m / (100.0 - m);
        let start = dry_basis(self.at_black_layer);
        // Shell and core, percent dry basis; the shell holds 45 % of the grain.
        let (mut shell, mut core) = (start, start);
        let mut film: f64 = 0.0;
        let mut wind: f64 = 0.0;
        let mut course = Vec::with_capacity(days.len());
        for day in days {
            wind = 0.5 * wind + 0.2 * normal(rng);
            for hour in 0..24 {
                let (air_c, rh) = day.hour(hour);
                let high_sun = (std::f64::consts::PI * (hour as f64 - 6.5) / 12.0)
                    .sin()
                    .max(0.0);
                let grain_c = air_c + 3.0 * day.sun * high_sun;
                let rh_at_grain = (rh * saturation(air_c) / saturation(grain_c)).clamp(0.05, 0.985);
                if day.raining(hour) {
                    film = (film + day.rain_mm / day.rain_hours as f64).min(0.8);
                }
                if rh > 0.98 {
                    film = (film + 0.05).min(0.8);
                }
                let deficit = saturation(grain_c) * (1.0 - rh_at_grain);
                let breeze = wind.exp();
                if film > 0.0 {
                    // A wet surface: the shell takes water up while the film lasts.
                    shell += 0.008 * (45.0 - shell).max(0.0);
                    film = (film - 0.5 * deficit * breeze).max(0.0);
                } else {
                    let rest = EquilibriumSet::SorghumHenderson
                        .moisture(grain_c, 100.0 * rh_at_grain)
                        .unwrap();
                    let warmth = (0.045 * (grain_c - 20.0)).exp();
                    let gap = dry_basis(rest) - shell;
                    let speed = SURFACE * self.speed * warmth * breeze;
                    shell += if gap > 0.0 {
                        0.2 * speed * gap
                    } else {
                        -(-speed * gap).min(BREATH * self.speed * deficit * breeze)
                    };
                }
                let between = INNER * self.speed * self.inner * (core - shell);
                core -= between * 0.45;
                shell += between * 0.55;
                if hour == 15 {
                    let all = 0.45 * shell + 0.55 * core;
                    course.push(100.0 * all / (100.0 + all));
                }
            }
        }
        course
    }
}

/// Hourly exchange of the shell with the air at 20 C.
const SURFACE: f64 = 0.05;
/// Most that the shell gives off in an hour for each kPa of deficit, percent
/// dry basis: the head's crowding, and the living plant behind it.
const BREATH: f64 = 0.155;
/// Hourly exchange of the core with the shell.
const INNER: f64 = 0.03;
