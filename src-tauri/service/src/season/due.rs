//! When a planting should be walked again.

use chrono::NaiveDate;
use ripening::Stage;
use ripening::rollup::marks;
use serde::{Deserialize, Serialize};

use crate::WalkBrief;

/// When a planting should be walked again.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct Due {
    /// Why, for the words on the screen.
    pub reason: DueReason,
    /// Days since the latest walk.
    pub days_since: Option<i64>,
}

/// Why a planting is where it is in the list, most pressing first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
#[serde(tag = "why", rename_all = "snake_case")]
pub enum DueReason {
    /// A walk is open.
    WalkOpen,
    /// Not walked for longer than ten days.
    Overdue,
    /// The next stage is expected to be here by now.
    StageNear {
        /// The stage that is near.
        stage: Stage,
    },
    /// Never walked.
    NeverWalked,
    /// Walked lately.
    Fresh,
    /// At black layer: no more walks are needed for the stage.
    Ripe,
}

/// A walk older than this is overdue, days: the long end of common practice,
/// which walks a planting every 4-10 days from boot on.
const OVERDUE: i64 = 10;

/// Heat units a day without any weather (common practice for a grain-filling
/// planting; the roll-up moves history by the same pace).
const HEAT_A_DAY: f64 = 20.0;

/// Why a planting needs a walk, from its latest walk with heads.
pub(crate) fn due(today: NaiveDate, walk_open: bool, last: Option<&WalkBrief>) -> Due {
    let days_since = last.map(|walk| (today - walk.walked_on).num_days());
    let reason = if walk_open {
        DueReason::WalkOpen
    } else {
        match (last, days_since) {
            (Some(walk), Some(days)) => after(walk, days),
            _ => DueReason::NeverWalked,
        }
    };
    Due { reason, days_since }
}

/// The same, while the answer of the latest walk is not there yet.
pub(crate) fn due_by_date(today: NaiveDate, walk_open: bool, walked_on: NaiveDate) -> Due {
    let days = (today - walked_on).num_days();
    Due {
        reason: if walk_open {
            DueReason::WalkOpen
        } else if days > OVERDUE {
            DueReason::Overdue
        } else {
            DueReason::Fresh
        },
        days_since: Some(days),
    }
}

fn after(walk: &WalkBrief, days: i64) -> DueReason {
    let Some(answer) = walk.now.with_history.or(walk.now.alone) else {
        return DueReason::NeverWalked;
    };
    if answer.stage == Stage::BlackLayer {
        return DueReason::Ripe;
    }
    if days > OVERDUE {
        return DueReason::Overdue;
    }
    #[allow(clippy::cast_precision_loss)] // at most OVERDUE days
    let heat = heat_at(answer.position.mid) + days.max(0) as f64 * HEAT_A_DAY;
    let here = Stage::ALL
        .into_iter()
        .rev()
        .find(|stage| heat >= mark(*stage))
        .unwrap_or(Stage::Boot);
    if here > answer.stage {
        DueReason::StageNear { stage: here }
    } else {
        DueReason::Fresh
    }
}

/// Where a stage begins for the middle head, for a head of middle span.
fn mark(stage: Stage) -> f64 {
    marks::head_mark(stage, MIDDLE_SPAN)
}

/// Heat over which a middling head blooms, top to base: 6-7 days.
const MIDDLE_SPAN: f64 = 168.0;

/// Heat since bloom at a position of the 0-9 scale, linear between the stages
/// that carry a number.
fn heat_at(position: f64) -> f64 {
    let numbered: Vec<(f64, f64)> = Stage::ALL
        .into_iter()
        .filter_map(|stage| Some((f64::from(stage.published_number()?), mark(stage))))
        .collect();
    for pair in numbered.windows(2) {
        if let [(from, low), (to, high)] = pair
            && position <= *to
        {
            return low + (position - from) / (to - from) * (high - low);
        }
    }
    marks::BLACK_LAYER
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_scale_and_the_heat_agree_at_the_numbered_stages() {
        for stage in Stage::ALL {
            if let Some(number) = stage.published_number() {
                let heat = heat_at(f64::from(number));
                assert!((heat - mark(stage)).abs() < 1e-9, "{stage:?}: {heat}");
            }
        }
    }

    #[test]
    fn without_a_walk_the_planting_was_never_walked() {
        let today = NaiveDate::from_ymd_opt(2026, 8, 1).unwrap();
        assert_eq!(due(today, false, None).reason, DueReason::NeverWalked);
        assert_eq!(due(today, true, None).reason, DueReason::WalkOpen);
    }
}
