//! Published sets. They are not interchangeable: each keeps its own limits.

use super::daily::Method;
use super::mark::{Mark, MarkAt, MarkTable};
use super::scale::HeatScale;
use crate::temperature::TempUnit;

/// Marks of the K-State table (eUpdate issue 661, 2025, Table 1), medium-early
/// and medium-late, heat units from planting, base 50 F, upper limit 100 F.
const KANSAS: [(Mark, f64, f64); 10] = [
    (Mark::Emergence, 99.0, 198.0),
    (Mark::ThreeLeaf, 252.0, 360.0),
    (Mark::FiveLeaf, 396.0, 594.0),
    (Mark::GrowingPoint, 702.0, 1152.0),
    (Mark::FlagLeaf, 954.0, 1404.0),
    (Mark::Boot, 1206.0, 1647.0),
    (Mark::HalfBloom, 1440.0, 1908.0),
    (Mark::SoftDough, 1746.0, 2196.0),
    (Mark::HardDough, 2196.0, 2646.0),
    (Mark::BlackLayer, 2556.0, 3006.0),
];

/// High Plains Regional Climate Center, base 50 F, upper limit 86 F: early,
/// mid, late.
const REGIONAL_CENTER: [(Mark, [f64; 3]); 4] = [
    (Mark::HalfBloom, [1466.8, 1528.0, 1589.2]),
    (Mark::SoftDough, [1616.0, 1716.0, 1816.0]),
    (Mark::HardDough, [1808.0, 1958.0, 2108.0]),
    (Mark::BlackLayer, [2000.0, 2200.0, 2400.0]),
];

/// Texas Cooperative Extension B-6137 (2003), base 50 F, upper limit 100 F:
/// short and long season. The end points were seen in the source; the marks
/// between them are from memory.
const TEXAS: [(Mark, f64, f64); 4] = [
    (Mark::HalfBloom, 1848.0, 1995.0),
    (Mark::SoftDough, 2211.0, 2310.0),
    (Mark::HardDough, 2508.0, 2765.0),
    (Mark::BlackLayer, 2673.0, 3360.0),
];

fn table(maturity: &str, marks: impl IntoIterator<Item = (Mark, f64)>) -> MarkTable {
    MarkTable {
        maturity: maturity.to_owned(),
        marks: marks
            .into_iter()
            .map(|(mark, units)| MarkAt { mark, units })
            .collect(),
    }
}

/// The default: base 50 F, upper limit 100 F, K-State table of 2025.
pub fn us_50_100() -> HeatScale {
    HeatScale::assume_sound(
        "US 50/100",
        "K-State Agronomy eUpdate issue 661 (2025), Table 1",
        (TempUnit::Fahrenheit, 50.0, 100.0, Method::BothLimits),
        vec![
            table("medium-early", KANSAS.map(|(mark, early, _)| (mark, early))),
            table("medium-late", KANSAS.map(|(mark, _, late)| (mark, late))),
        ],
    )
}

/// The default in Celsius: base 10 C, upper limit 37.8 C, units divided by 1.8.
pub fn metric_10_38() -> HeatScale {
    HeatScale::assume_sound(
        "Metric 10/37.8",
        "K-State Agronomy eUpdate issue 661 (2025), Table 1, converted",
        (
            TempUnit::Celsius,
            10.0,
            crate::temperature::celsius_from_fahrenheit(100.0),
            Method::BothLimits,
        ),
        vec![
            table(
                "medium-early",
                KANSAS.map(|(mark, early, _)| (mark, early / 1.8)),
            ),
            table(
                "medium-late",
                KANSAS.map(|(mark, _, late)| (mark, late / 1.8)),
            ),
        ],
    )
}

/// Base 50 F, upper limit 86 F: a much shorter count for the same crop.
pub fn regional_center_50_86() -> HeatScale {
    let class = |maturity, place: usize| {
        table(
            maturity,
            REGIONAL_CENTER.map(|(mark, at)| (mark, at[place])),
        )
    };
    HeatScale::assume_sound(
        "Regional center 50/86",
        "High Plains Regional Climate Center, sorghum",
        (TempUnit::Fahrenheit, 50.0, 86.0, Method::BothLimits),
        vec![class("early", 0), class("mid", 1), class("late", 2)],
    )
}

/// Base 50 F, upper limit 100 F, an older and longer table.
pub fn extension_50_100() -> HeatScale {
    HeatScale::assume_sound(
        "Extension 50/100 (2003)",
        "Texas Cooperative Extension B-6137 (2003); middle marks from memory",
        (TempUnit::Fahrenheit, 50.0, 100.0, Method::BothLimits),
        vec![
            table("short season", TEXAS.map(|(mark, short, _)| (mark, short))),
            table("long season", TEXAS.map(|(mark, _, long)| (mark, long))),
        ],
    )
}

/// All published sets, the default first.
pub fn published_scales() -> Vec<HeatScale> {
    vec![
        us_50_100(),
        metric_10_38(),
        regional_center_50_86(),
        extension_50_100(),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::heat::HeatScale;

    #[test]
    fn published_sets_pass_the_checks_of_a_users_set() {
        for scale in published_scales() {
            let again = HeatScale::new(
                scale.name(),
                scale.source(),
                (scale.unit(), scale.base(), scale.upper(), scale.method()),
                scale.tables().to_vec(),
            );
            assert_eq!(again.as_ref(), Ok(&scale));
        }
    }

    /// "Still to go to black layer" of the same K-State table.
    #[test]
    fn still_to_go_to_black_layer() {
        let scale = us_50_100();
        let to_go = |class: usize, mark: Mark| {
            let table = &scale.tables()[class];
            table.at(Mark::BlackLayer).unwrap() - table.at(mark).unwrap()
        };
        for (mark, early, late) in [
            (Mark::Boot, 1350.0, 1359.0),
            (Mark::HalfBloom, 1116.0, 1098.0),
            (Mark::SoftDough, 810.0, 810.0),
            (Mark::HardDough, 360.0, 360.0),
        ] {
            assert_eq!((to_go(0, mark), to_go(1, mark)), (early, late), "{mark:?}");
        }
        assert_eq!(scale.mean_half_bloom_to_black_layer(), 1107.0);
        assert_eq!(scale.mean_to_half_bloom(), 1674.0);
    }

    /// Soft dough lies at about 0.27 of the heat from bloom to black layer, and
    /// hard dough at 0.65-0.70, in three of the four published tables.
    #[test]
    fn tables_agree_in_shares_not_in_units() {
        let mut soft_near = 0;
        let mut hard_near = 0;
        for scale in [us_50_100(), regional_center_50_86(), extension_50_100()] {
            for table in scale.tables() {
                let all = table.from_half_bloom(Mark::BlackLayer).unwrap();
                let soft = table.from_half_bloom(Mark::SoftDough).unwrap() / all;
                let hard = table.from_half_bloom(Mark::HardDough).unwrap() / all;
                soft_near += usize::from((soft - 0.27).abs() < 0.03);
                hard_near += usize::from((0.63..=0.71).contains(&hard));
            }
        }
        assert_eq!(soft_near, 5, "tables of 7");
        assert_eq!(hard_near, 5, "tables of 7");
        let us = us_50_100().mean_half_bloom_to_black_layer();
        let center = regional_center_50_86().mean_half_bloom_to_black_layer();
        assert!(us / center > 1.5, "{us} against {center}");
    }
}
