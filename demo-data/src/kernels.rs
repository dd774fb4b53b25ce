//! A head as a column of kernels, ripening from the top down, and what a scout
//! makes of it.

use crate::chance::Chance;

/// Kernels looked at along one head.
const KERNELS: usize = 60;

/// Heat before the top kernel's bloom at which the head shows above the sheath,
/// and at which it is out.
const EMERGENCE: (f64, f64) = (125.0, 30.0);

/// The readings of the head file, in the order of growth.
pub const READINGS: [&str; 7] = [
    "boot",
    "emerging",
    "bloom",
    "liquid",
    "pliable",
    "dented",
    "dark_spot",
];

/// What is written down for a head.
#[derive(Clone, Copy)]
pub struct Reading {
    /// Place in [`READINGS`].
    pub class: usize,
    /// Percent of the head; none in the boot.
    pub share: Option<u8>,
}

/// A head's kernels, by their age since their own bloom, top first.
pub struct Head {
    ages: Vec<f64>,
}

impl Head {
    /// A head whose middle has this age.
    pub fn grow(chance: &mut Chance, middle_age: f64, span: f64) -> Head {
        let ages = (0..KERNELS)
            .map(|place| {
                let down = (place as f64 + 0.5) / KERNELS as f64;
                middle_age + span * (0.5 - down) + chance.normal(0.0, 5.0)
            })
            .collect();
        Head { ages }
    }

    /// What is true of the head: the class its top shows (the middle kernel of
    /// the uppermost five), and the share that shows it or a later one.
    pub fn truth(&self, marks: &[f64; 4]) -> (usize, f64) {
        let mut top: Vec<f64> = self.ages[..5].to_vec();
        top.sort_by(f64::total_cmp);
        let bloomed = [0.0, marks[0], marks[1], marks[2], marks[3]];
        let shown = bloomed.iter().filter(|mark| top[2] >= **mark).count();
        if shown > 0 {
            let reached = bloomed[shown - 1];
            let at = self.ages.iter().filter(|age| **age >= reached).count();
            return (shown + 1, at as f64 / KERNELS as f64);
        }
        let out = (top[2] + EMERGENCE.0) / (EMERGENCE.0 - EMERGENCE.1);
        if out < 0.03 {
            (0, 0.0)
        } else {
            (1, out.min(1.0))
        }
    }

    /// What the scout writes: a share misjudged by some points and put to the
    /// nearest five, and one reading in thirty off by a class.
    pub fn read(&self, chance: &mut Chance, marks: &[f64; 4]) -> Reading {
        let (mut class, mut share) = self.truth(marks);
        let (misread, upward) = (chance.happens(1.0 / 30.0), chance.happens(0.5));
        let (early, misjudged) = (chance.between(0.05, 0.25), chance.normal(0.0, 0.07));
        if misread && class >= 3 {
            if upward && class < 6 {
                // Taken for the next class: at the top only.
                (class, share) = (class + 1, early);
            } else {
                // Taken for the class before: all of it.
                (class, share) = (class - 1, 1.0);
            }
        }
        if class == 0 {
            return Reading { class, share: None };
        }
        // Whole heads look whole.
        let seen = if share > 0.985 {
            1.0
        } else {
            share + misjudged
        };
        let fives = (seen * 20.0).round().clamp(1.0, 20.0);
        Reading {
            class,
            share: Some((fives * 5.0) as u8),
        }
    }
}
