//! Windows around one stage: last irrigation, silage, harvest aid.

use chrono::NaiveDate;

use super::code::{Caution, Source};
use super::span::{Dates, SpanBand, Standing};
use super::{MoneyWindow, WindowKind};
use crate::stage::Stage;

/// Around a stage: from its P10 to its P90.
pub(super) fn window(dates: &Dates<'_>, kind: WindowKind, stage: Stage) -> MoneyWindow {
    let span = dates.between((stage, 0), (stage, 0));
    let (source, caution) = match kind {
        WindowKind::Silage => (Source::SilageExtension, Caution::TestWholePlantMoisture),
        _ => (
            Source::LastIrrigationPractice,
            Caution::IrrigationLocalRules,
        ),
    };
    MoneyWindow {
        standing: dates.standing(span),
        kind,
        span,
        source,
        caution,
    }
}

/// Not before black layer, and not before the grain is below 30 %: the later of
/// the two, each taken late. Open only when both are past with 90 chances in
/// 100; there is no closing but harvest.
pub(super) fn harvest_aid(
    dates: &Dates<'_>,
    dry_enough: Option<&crate::dry_down::Window>,
) -> MoneyWindow {
    let black_layer = dates.timing(Stage::BlackLayer);
    let later = |p: f64, dry: Option<NaiveDate>| {
        let black = black_layer.quantile(p).ok()?;
        Some(black.max(dry?))
    };
    let span = dry_enough.and_then(|dry| {
        Some(SpanBand {
            earliest: later(0.1, dry.p10)?,
            from: later(0.5, dry.p50)?,
            to: later(0.9, dry.p90)?,
            latest: later(0.9, dry.p90)?,
        })
    });
    let standing = match span {
        None => Standing::Unknown,
        Some(span) if dates.as_of() >= span.latest => Standing::MayBeOpen,
        Some(_) => Standing::Ahead,
    };
    MoneyWindow {
        kind: WindowKind::HarvestAid,
        span,
        standing,
        source: Source::HarvestAidExtension,
        caution: Caution::LabelAndLocalRulesFirst,
    }
}
