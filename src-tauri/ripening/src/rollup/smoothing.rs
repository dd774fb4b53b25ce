//! Integrating over a normal effect: smoothing along the grid.

/// Smoothing from one spread to the next larger one.
pub(crate) struct Smoothing {
    /// Distance between taps, in points of the grid.
    stride: usize,
    /// Weights of the taps from the middle outwards.
    taps: Vec<f32>,
}

impl Smoothing {
    /// Smoothing that takes what has the normal spread `from` to spread `to`,
    /// on a grid with this step.
    pub(crate) fn new(from: f64, to: f64, step: f64) -> Smoothing {
        let sd = (to * to - from * from).max(1e-6).sqrt();
        if from == 0.0 && sd < 1.1 * step {
            // Too narrow to sample: three taps with the right variance.
            let side = 0.5 * (sd / step) * (sd / step);
            return Smoothing {
                stride: 1,
                taps: vec![(1.0 - 2.0 * side) as f32, side as f32],
            };
        }
        // What is smoothed has at least the spread `from`; the product of it and
        // the kernel is as wide as their harmonic mean, which sets how far apart
        // the taps may be.
        let width = if from > 0.0 {
            1.0 / (1.0 / (from * from) + 1.0 / (sd * sd)).sqrt()
        } else {
            0.0
        };
        let stride = ((1.3 * width / step) as usize).max(1);
        let distance = stride as f64 * step;
        let reach = (3.3 * sd / distance) as usize + 1;
        let weights: Vec<f64> = (0..=reach)
            .map(|i| {
                let z = i as f64 * distance / sd;
                libm::exp(-0.5 * z * z)
            })
            .collect();
        let total = weights[0] + 2.0 * weights[1..].iter().sum::<f64>();
        Smoothing {
            stride,
            taps: weights.iter().map(|w| (w / total) as f32).collect(),
        }
    }

    /// Smooths `from` into `to`; beyond its ends `from` is taken as constant.
    /// `room` is scratch space.
    pub(crate) fn apply(&self, from: &[f32], to: &mut [f32], room: &mut Vec<f32>) {
        let n = from.len();
        let reach = (self.taps.len() - 1) * self.stride;
        room.clear();
        room.resize(reach, from[0]);
        room.extend_from_slice(from);
        room.resize(n + 2 * reach, from[n - 1]);
        for (value, middle) in to.iter_mut().zip(&room[reach..]) {
            *value = self.taps[0] * middle;
        }
        for (i, tap) in self.taps.iter().enumerate().skip(1) {
            let back = &room[reach - i * self.stride..][..n];
            let ahead = &room[reach + i * self.stride..][..n];
            for ((value, back), ahead) in to.iter_mut().zip(back).zip(ahead) {
                *value += tap * (back + ahead);
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Smoothing a normal bump by a normal kernel is a normal bump with the sum
    /// of the variances: the steps of the ladder must compose to that.
    #[test]
    fn a_ladder_of_smoothings_composes() {
        let step = 12.0;
        let bump = |sd: f64, i: usize| {
            let z = (i as f64 - 100.0) * step / sd;
            libm::exp(-0.5 * z * z) / sd
        };
        let own = 25.0_f64;
        let mut values: Vec<f32> = (0..201).map(|i| bump(own, i) as f32).collect();
        let mut before = 0.0;
        let mut room = Vec::new();
        for to in [9.0, 16.0, 30.0, 55.0, 100.0, 180.0_f64] {
            let mut next = vec![0.0; values.len()];
            Smoothing::new(before, to, step).apply(&values, &mut next, &mut room);
            let sd = (own * own + to * to).sqrt();
            for (i, value) in next.iter().enumerate().skip(60).take(81) {
                let error = f64::from(*value) - bump(sd, i);
                assert!(error.abs() < 0.01 * bump(sd, 100), "{to} {i} {error}");
            }
            values = next;
            before = to;
        }
    }
}
