//! The maturity class of a hybrid, and the heat to half bloom it stands for.

use serde::{Deserialize, Serialize};

use super::mark::Mark;
use super::scale::HeatScale;

/// Maturity class of a hybrid, in the words of the trade.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum MaturityClass {
    /// Early.
    Early,
    /// Medium-early.
    MediumEarly,
    /// Medium.
    Medium,
    /// Medium-late.
    MediumLate,
    /// Late.
    Late,
}

/// Spread of hybrids of one class, as a share of the heat to half bloom.
const WITHIN_CLASS: f64 = 0.06;
/// The same for a class that the table has no column for and that is placed from
/// its neighbors.
const PLACED_CLASS: f64 = 0.08;
/// Spread when the class is not known, or a table has one column only and no name
/// we know: wide enough for both classes of the default table (14 % either side
/// of their middle).
const ANY_CLASS: f64 = 0.12;

/// Most days from planting to half bloom of each class but the last. Common
/// practice, from memory: seed guides differ by a few days, and days are those of
/// an ordinary May planting.
const MOST_DAYS: [(MaturityClass, u32); 4] = [
    (MaturityClass::Early, 57),
    (MaturityClass::MediumEarly, 63),
    (MaturityClass::Medium, 68),
    (MaturityClass::MediumLate, 74),
];

impl MaturityClass {
    /// All classes, the earliest first.
    pub const ALL: [MaturityClass; 5] = [
        MaturityClass::Early,
        MaturityClass::MediumEarly,
        MaturityClass::Medium,
        MaturityClass::MediumLate,
        MaturityClass::Late,
    ];

    /// The class of a hybrid whose seed guide gives so many days from planting to
    /// half bloom.
    pub fn of_days(days: u32) -> MaturityClass {
        MOST_DAYS
            .into_iter()
            .find(|(_, most)| days <= *most)
            .map_or(MaturityClass::Late, |(class, _)| class)
    }

    /// The class that a table's column is named after, in the words of the
    /// published tables; `None` for a name of another kind.
    pub fn named(name: &str) -> Option<MaturityClass> {
        let plain: String = name
            .trim()
            .chars()
            .map(|letter| match letter {
                '-' | '_' => ' ',
                other => other.to_ascii_lowercase(),
            })
            .collect();
        match plain.as_str() {
            "early" | "short" | "short season" => Some(MaturityClass::Early),
            "medium early" | "mid early" => Some(MaturityClass::MediumEarly),
            "medium" | "mid" | "middle" => Some(MaturityClass::Medium),
            "medium late" | "mid late" => Some(MaturityClass::MediumLate),
            "late" | "long" | "long season" | "full season" => Some(MaturityClass::Late),
            _ => None,
        }
    }

    fn step(self) -> f64 {
        f64::from(self as u8)
    }
}

/// Heat from planting to half bloom (mean, and standard deviation as a share of
/// it) of a hybrid of this class by a set's tables: the column of that name, else
/// a straight line through the two nearest columns whose names are classes, else
/// the mean of all columns.
pub fn heat_to_half_bloom(scale: &HeatScale, class: Option<MaturityClass>) -> (f64, f64) {
    let Some(class) = class else {
        return (scale.mean_to_half_bloom(), ANY_CLASS);
    };
    let mut known: Vec<(MaturityClass, f64)> = scale
        .tables()
        .iter()
        .filter_map(|table| {
            let column = MaturityClass::named(&table.maturity)?;
            Some((column, table.at(Mark::HalfBloom)?))
        })
        .collect();
    known.sort_by_key(|column| column.0);
    known.dedup_by_key(|column| column.0);
    if let Some((_, units)) = known.iter().find(|(column, _)| *column == class) {
        return (*units, WITHIN_CLASS);
    }
    // The two columns around the class, or the two at its end.
    let after = known.partition_point(|(column, _)| *column < class);
    let first = after.saturating_sub(1).min(known.len().saturating_sub(2));
    match (known.get(first), known.get(first + 1)) {
        (Some((from, low)), Some((to, high))) => {
            let part = (class.step() - from.step()) / (to.step() - from.step());
            (low + part * (high - low), PLACED_CLASS)
        }
        _ => (scale.mean_to_half_bloom(), ANY_CLASS),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::heat::{extension_50_100, published_scales, regional_center_50_86, us_50_100};

    /// K-State eUpdate 661 (2025), Table 1: medium-early 1440, medium-late 1908.
    #[test]
    fn a_class_takes_its_own_column() {
        let of = |class| heat_to_half_bloom(&us_50_100(), Some(class));
        assert_eq!(of(MaturityClass::MediumEarly), (1440.0, WITHIN_CLASS));
        assert_eq!(of(MaturityClass::MediumLate), (1908.0, WITHIN_CLASS));
        // Between them, and beyond by as much.
        assert_eq!(of(MaturityClass::Medium), (1674.0, PLACED_CLASS));
        assert_eq!(of(MaturityClass::Early), (1206.0, PLACED_CLASS));
        assert_eq!(of(MaturityClass::Late), (2142.0, PLACED_CLASS));
    }

    /// High Plains Regional Climate Center: early, mid and late; Texas B-6137:
    /// short and long season.
    #[test]
    fn other_tables_name_their_columns_otherwise() {
        let center = |class| heat_to_half_bloom(&regional_center_50_86(), Some(class)).0;
        assert_eq!(center(MaturityClass::Early), 1466.8);
        assert_eq!(center(MaturityClass::Medium), 1528.0);
        assert_eq!(center(MaturityClass::Late), 1589.2);
        let texas = |class| heat_to_half_bloom(&extension_50_100(), Some(class)).0;
        assert_eq!(texas(MaturityClass::Early), 1848.0);
        assert_eq!(texas(MaturityClass::Late), 1995.0);
    }

    #[test]
    fn later_classes_take_more_heat_in_every_set() {
        for scale in published_scales() {
            let units = MaturityClass::ALL.map(|class| heat_to_half_bloom(&scale, Some(class)).0);
            assert!(units.is_sorted(), "{}: {units:?}", scale.name());
        }
    }

    #[test]
    fn days_and_names_give_a_class() {
        assert_eq!(MaturityClass::of_days(55), MaturityClass::Early);
        assert_eq!(MaturityClass::of_days(60), MaturityClass::MediumEarly);
        assert_eq!(MaturityClass::of_days(66), MaturityClass::Medium);
        assert_eq!(MaturityClass::of_days(70), MaturityClass::MediumLate);
        assert_eq!(MaturityClass::of_days(80), MaturityClass::Late);
        assert_eq!(
            MaturityClass::named("Medium-Late "),
            Some(MaturityClass::MediumLate)
        );
        assert_eq!(MaturityClass::named("our own"), None);
    }
}
