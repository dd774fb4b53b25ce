//! Points of the Halton sequence in bases 2 and 3, from a random start.

use rand_chacha::ChaCha8Rng;
use rand_chacha::rand_core::{Rng, SeedableRng};

/// Digits kept: 2^30 and 3^19 are about a thousand million each, so a point is
/// placed to a hundred thousandth of a field's width and better.
const BINARY_DIGITS: u32 = 30;
const TERNARY_DIGITS: u32 = 19;

/// Where in the two sequences a draw begins.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct HaltonStart {
    binary: u64,
    ternary: u64,
}

impl HaltonStart {
    /// Starts drawn one after another from a seed. ChaCha gives the same numbers
    /// on every machine.
    pub(super) fn candidates(seed: u64) -> impl Iterator<Item = HaltonStart> {
        let mut numbers = ChaCha8Rng::seed_from_u64(seed);
        std::iter::repeat_with(move || HaltonStart {
            binary: below(&mut numbers, 2_u64.pow(BINARY_DIGITS)),
            ternary: below(&mut numbers, 3_u64.pow(TERNARY_DIGITS)),
        })
    }

    /// The point so many steps on, both parts in 0 to 1.
    pub(super) fn point(self, step: u64) -> [f64; 2] {
        [
            mirrored(self.binary + step, 2, BINARY_DIGITS),
            mirrored(self.ternary + step, 3, TERNARY_DIGITS),
        ]
    }
}

/// A number below `limit`; the bias of the remainder is below 1e-9.
fn below(numbers: &mut ChaCha8Rng, limit: u64) -> u64 {
    numbers.next_u64() % limit
}

/// Radical inverse: the digits of `number` behind the point, lowest first. The
/// digits are turned in whole numbers, and the middle of the last digit's cell is
/// taken, so one division gives the same bits everywhere.
fn mirrored(number: u64, base: u64, digits: u32) -> f64 {
    let mut rest = number;
    let mut turned = 0;
    for _ in 0..digits {
        turned = turned * base + rest % base;
        rest /= base;
    }
    (turned as f64 + 0.5) / base.pow(digits) as f64
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The classic sequences: 1/2, 1/4, 3/4, 1/8 and 1/3, 2/3, 1/9, 4/9 (Halton 1960).
    #[test]
    fn mirrored_digits_are_the_classic_sequence() {
        let start = HaltonStart {
            binary: 0,
            ternary: 0,
        };
        let points: Vec<[f64; 2]> = (1..5).map(|step| start.point(step)).collect();
        for (point, known) in points.iter().zip([
            [1.0 / 2.0, 1.0 / 3.0],
            [1.0 / 4.0, 2.0 / 3.0],
            [3.0 / 4.0, 1.0 / 9.0],
            [1.0 / 8.0, 4.0 / 9.0],
        ]) {
            assert!((point[0] - known[0]).abs() < 1e-9, "{point:?}");
            assert!((point[1] - known[1]).abs() < 1e-9, "{point:?}");
        }
    }
}
