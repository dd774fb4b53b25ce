//! Random draws whose bytes never change: `ChaCha` for the bits, and our own few
//! lines from bits to numbers, because a library of distributions may change its
//! method between versions and the committed files would change with it.

use rand_chacha::ChaCha8Rng;
use rand_chacha::rand_core::{Rng, SeedableRng};

/// A stream of draws. Each part of the season has its own, so that a change in
/// one leaves the others as they were.
pub struct Chance(ChaCha8Rng);

impl Chance {
    /// The stream with this number.
    pub fn stream(seed: u64, stream: u64) -> Chance {
        let mut bits = ChaCha8Rng::seed_from_u64(seed);
        bits.set_stream(stream);
        Chance(bits)
    }

    /// Uniform in `[0, 1)`, 53 bits.
    pub fn uniform(&mut self) -> f64 {
        (self.0.next_u64() >> 11) as f64 / (1u64 << 53) as f64
    }

    /// Uniform between two ends.
    pub fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.uniform()
    }

    /// True with this probability.
    pub fn happens(&mut self, probability: f64) -> bool {
        self.uniform() < probability
    }

    /// Normal (Box and Muller).
    pub fn normal(&mut self, mean: f64, sd: f64) -> f64 {
        let radius = (-2.0 * libm::log(1.0 - self.uniform())).sqrt();
        let angle = 2.0 * std::f64::consts::PI * self.uniform();
        mean + sd * radius * libm::cos(angle)
    }

    /// Exponential with this mean.
    pub fn exponential(&mut self, mean: f64) -> f64 {
        -mean * libm::log(1.0 - self.uniform())
    }

    /// One of these, all alike.
    pub fn pick<'a, T>(&mut self, choices: &'a [T]) -> &'a T {
        let place = (self.uniform() * choices.len() as f64) as usize;
        &choices[place.min(choices.len() - 1)]
    }
}
