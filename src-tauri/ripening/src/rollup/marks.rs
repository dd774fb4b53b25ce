//! Where the stages lie on the heat scale, and the published 0-9 scale over it.
//!
//! Heat is in Fahrenheit degree-days above 50 F with 100 F as the upper limit,
//! counted from a kernel's own bloom. A kernel's bloom moves down the head from
//! top to base over the head's *span*; the age of a head is the age of the
//! kernel halfway down.

use crate::{Reading, Stage};

/// Heat from a kernel's bloom to milk. No published value was found; this is
/// common practice (a week or less after bloom), so the model leans on it only
/// where nothing else speaks.
pub const MILK: f64 = 130.0;

/// Heat from bloom to soft dough (297), hard dough (747) and black layer (1107):
/// K-State eUpdate issue 661 (2025), Table 1, mean of both maturities, base 50 F,
/// upper limit 100 F.
pub const SOFT_DOUGH: f64 = 297.0;
/// See [`SOFT_DOUGH`].
pub const HARD_DOUGH: f64 = 747.0;
/// See [`SOFT_DOUGH`].
pub const BLACK_LAYER: f64 = 1107.0;

/// Heat from boot to the first bloom of a head: 234 and 261 units in the same
/// table, for medium-early and medium-late hybrids.
pub const BOOT_BEFORE_BLOOM: f64 = 247.0;

/// Heat from the tip's coming out of the sheath to the first bloom of a head.
/// No published value was found: common practice is that the head is out
/// within the second half of the ten days between boot and half bloom.
pub const HEADING_BEFORE_BLOOM: f64 = 130.0;

/// Heat over which a head comes out of its sheath (common practice, as above).
pub const EMERGENCE: f64 = 100.0;

/// Age of a head (heat units) from which it has reached `stage`, for a head
/// whose bloom takes `span` units from top to base.
///
/// Grain stages: half of the head's length shows it, so the kernel halfway down
/// is at the mark. Half bloom: the top kernel blooms, half a span earlier.
pub fn head_mark(stage: Stage, span: f64) -> f64 {
    match stage {
        Stage::Boot => -0.5 * span - BOOT_BEFORE_BLOOM,
        Stage::Heading => -0.5 * span - HEADING_BEFORE_BLOOM,
        Stage::HalfBloom => -0.5 * span,
        Stage::Milk => MILK,
        Stage::SoftDough => SOFT_DOUGH,
        Stage::HardDough => HARD_DOUGH,
        Stage::BlackLayer => BLACK_LAYER,
    }
}

/// Age of a kernel from which it has reached `stage`; for boot and heading,
/// which a kernel does not know, the mark of the head.
pub(crate) fn kernel_mark(stage: Stage, span: f64) -> f64 {
    match stage {
        Stage::HalfBloom => 0.0,
        _ => head_mark(stage, span),
    }
}

/// Age of a kernel from which it gives `reading`; `None` for the readings of a
/// head that has not bloomed.
pub(crate) fn reading_mark(reading: Reading) -> Option<f64> {
    match reading {
        Reading::Boot | Reading::Emerging => None,
        Reading::Bloom => Some(0.0),
        Reading::Liquid => Some(MILK),
        Reading::Pliable => Some(SOFT_DOUGH),
        Reading::Dented => Some(HARD_DOUGH),
        Reading::DarkSpot => Some(BLACK_LAYER),
    }
}

/// The stages that carry a number on the published scale, with it.
const NUMBERED: [(Stage, f64); 5] = [
    (Stage::Boot, 5.0),
    (Stage::HalfBloom, 6.0),
    (Stage::SoftDough, 7.0),
    (Stage::HardDough, 8.0),
    (Stage::BlackLayer, 9.0),
];

/// Position on the published 0-9 scale (Vanderlip & Reeves 1972) of a planting
/// whose middle head has this age: linear in heat between the marks, held at 5
/// before boot and at 9 after black layer, where the readings stop telling.
pub fn position_of(age: f64, span: f64) -> f64 {
    for pair in NUMBERED.windows(2) {
        let (from, to) = (head_mark(pair[0].0, span), head_mark(pair[1].0, span));
        if age < to {
            return pair[0].1 + ((age - from) / (to - from)).max(0.0);
        }
    }
    9.0
}

/// The age at a position from 5 to 9: the inverse of [`position_of`].
pub fn age_at(position: f64, span: f64) -> f64 {
    for pair in NUMBERED.windows(2) {
        if position <= pair[1].1 {
            let (from, to) = (head_mark(pair[0].0, span), head_mark(pair[1].0, span));
            return from + (position - pair[0].1).max(0.0) * (to - from);
        }
    }
    head_mark(Stage::BlackLayer, span)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn marks_are_in_the_order_of_growth() {
        for span in [100.0, 170.0, 240.0] {
            for pair in Stage::ALL.windows(2) {
                assert!(head_mark(pair[0], span) < head_mark(pair[1], span));
            }
        }
    }

    #[test]
    fn numbered_stages_sit_on_their_published_numbers() {
        for stage in Stage::ALL {
            if let Some(number) = stage.published_number() {
                let position = position_of(head_mark(stage, 170.0), 170.0);
                assert!((position - f64::from(number)).abs() < 1e-12);
            }
        }
        // Halfway in heat between soft dough (297) and hard dough (747).
        assert!((position_of(522.0, 170.0) - 7.5).abs() < 1e-12);
    }

    #[test]
    fn position_and_age_are_inverse() {
        for tenth in 50..=90 {
            let position = f64::from(tenth) / 10.0;
            assert!((position_of(age_at(position, 150.0), 150.0) - position).abs() < 1e-9);
        }
        assert_eq!(position_of(-900.0, 170.0), 5.0);
        assert_eq!(position_of(2000.0, 170.0), 9.0);
    }
}
