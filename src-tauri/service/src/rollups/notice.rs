//! What of a walk cannot be worked out.

use ripening::calendar;
use rusqlite::Connection;

use crate::rollups::{self, pages::WalkNotice};
use notebook::StoreError;
use notebook::views::walks::Walk;

/// What of a walk cannot be worked out.
pub(crate) fn notice(db: &Connection, walk: &Walk) -> Result<Option<WalkNotice>, StoreError> {
    if let Some(notice) = date_notice(walk) {
        return Ok(Some(notice));
    }
    Ok(
        rollups::is_too_large(db, walk.id)?.then_some(WalkNotice::TooLarge {
            most_stops: rollups::MOST_STOPS,
            most_heads: rollups::MOST_HEADS,
        }),
    )
}

/// What is wrong with a walk's date, if anything is.
pub(crate) fn date_notice(walk: &Walk) -> Option<WalkNotice> {
    (!calendar::is_plausible(walk.walked_on)).then_some(WalkNotice::DateNotPlausible {
        first: calendar::FIRST_DAY,
        last: calendar::LAST_DAY,
    })
}
