//! What may be asked about what was done.

use uuid::Uuid;

use crate::asking::asks;
use crate::{ChangeName, Done, Found, HistoryPage, WalkComparison, read_only};
use notebook::views;

asks! {
    /// The changes of a planting and its walks, the latest first, page by page.
    Tap History {
        /// Which planting; a removed one too.
        planting: Uuid,
        /// Where the last page ended; none for the first.
        before: Option<ChangeName>,
        /// Most changes wanted, 1-500; 50 where absent.
        limit: Option<u32>,
    } -> HistoryPage = |service| service.history(planting, before, limit);

    /// Changes: takes back what of a change of this device still stands. Sent
    /// again, it does nothing more.
    Tap UndoChange {
        /// The planting in whose history it is.
        planting: Uuid,
        /// The change's number in this device's series.
        seq: u64,
    } -> Done = |service| service.undo_change(planting, seq);

    /// Two walks of a planting side by side.
    Study CompareWalks {
        /// Id of one walk.
        one: Uuid,
        /// The other, in any order.
        other: Uuid,
    } -> WalkComparison = |service| service.compare_walks(one, other);

    /// Plantings, walks and notes that hold words beginning like those of a text.
    Tap Search {
        /// What to look for.
        text: String,
    } -> Found = |service| {
        let found = views::search::search(service.notebook.db(), &text)?;
        Ok(read_only(found))
    };
}
