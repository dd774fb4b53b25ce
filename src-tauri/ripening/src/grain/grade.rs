//! US grade of sorghum from the factors of 7 CFR 810.1404.

use serde::{Deserialize, Serialize};

use super::{Factor, GrainError, Sample};

/// US grade; `No1 < No4 < SampleGrade` is from best to worst.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub enum Grade {
    /// U.S. No. 1.
    #[serde(rename = "no_1")]
    No1,
    /// U.S. No. 2.
    #[serde(rename = "no_2")]
    No2,
    /// U.S. No. 3.
    #[serde(rename = "no_3")]
    No3,
    /// U.S. No. 4.
    #[serde(rename = "no_4")]
    No4,
    /// U.S. Sample grade.
    #[serde(rename = "sample_grade")]
    SampleGrade,
}

/// Limits of the factors for No. 1 to No. 4: least test weight, most of the rest.
const LIMITS: [(Factor, [f64; 4]); 5] = [
    (Factor::TestWeight, [57.0, 55.0, 53.0, 51.0]),
    (Factor::HeatDamage, [0.2, 0.5, 1.0, 3.0]),
    (Factor::TotalDamage, [2.0, 5.0, 10.0, 15.0]),
    (Factor::ForeignMaterial, [1.0, 2.0, 3.0, 4.0]),
    (Factor::BrokenAndForeign, [3.0, 6.0, 8.0, 10.0]),
];

const NUMBERED: [Grade; 4] = [Grade::No1, Grade::No2, Grade::No3, Grade::No4];

/// What one factor allows.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct FactorGrade {
    /// Which factor.
    pub factor: Factor,
    /// Its value.
    pub value: f64,
    /// The best grade it allows.
    pub grade: Grade,
}

/// The grade that the factors given allow.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct GradeAnswer {
    /// The worst of the factors' grades; absent when no factor was given. Only
    /// a licensed inspector grades grain; this is what the numbers allow.
    pub at_best: Option<Grade>,
    /// Factor by factor.
    pub factors: Vec<FactorGrade>,
    /// Grade factors that were not given; any of them could lower the grade.
    pub not_given: Vec<Factor>,
}

/// The grade that a sample's factors allow. Moisture is not a grade factor.
///
/// # Errors
/// [`GrainError`] when a value is impossible.
pub fn grade(sample: &Sample) -> Result<GradeAnswer, GrainError> {
    sample.checked()?;
    let mut factors = Vec::new();
    let mut not_given = Vec::new();
    for (factor, limits) in LIMITS {
        let Some(value) = sample.get(factor) else {
            not_given.push(factor);
            continue;
        };
        let allowed = NUMBERED
            .into_iter()
            .zip(limits)
            .find(|&(_, limit)| !factor.beyond(value, limit))
            .map_or(Grade::SampleGrade, |(grade, _)| grade);
        factors.push(FactorGrade {
            factor,
            value,
            grade: allowed,
        });
    }
    let worst = factors.iter().map(|one| one.grade).max();
    let at_best = if sample.distinctly_low_quality {
        Some(Grade::SampleGrade)
    } else {
        worst
    };
    Ok(GradeAnswer {
        at_best,
        factors,
        not_given,
    })
}
