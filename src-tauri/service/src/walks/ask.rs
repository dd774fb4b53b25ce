//! What may be asked about walks.

use chrono::NaiveDate;
use uuid::Uuid;

use crate::asking::asks;
use crate::{Done, HeadSaved, NewHead, Place, WalkPage};

asks! {
    /// Changes: starts a walk, with its first stop.
    Tap StartWalk {
        /// Id chosen by the caller.
        id: Option<Uuid>,
        /// Id of the planting.
        planting: Uuid,
        /// Civil date; today where absent.
        walked_on: Option<NaiveDate>,
        /// Who walks; the name in the settings where absent.
        scout: Option<String>,
    } -> WalkPage = |service| service.start_walk(id, planting, walked_on, scout);

    /// One walk with its stops and heads.
    Tap Walk {
        /// Id of the walk.
        walk: Uuid,
    } -> WalkPage = |service| service.walk(walk);

    /// Changes: gives a walk another date.
    Tap CorrectWalkDate {
        /// Id of the walk.
        walk: Uuid,
        /// Civil date on which it was walked.
        walked_on: NaiveDate,
    } -> WalkPage = |service| service.correct_walk_date(walk, walked_on);

    /// Changes: opens the next stop of a walk.
    Tap AddStop {
        /// Id chosen by the caller.
        id: Option<Uuid>,
        /// Id of the walk.
        walk: Uuid,
        /// Where, if known.
        place: Option<Place>,
    } -> WalkPage = |service| service.add_stop(id, walk, place);

    /// Changes: stores a head at a stop.
    Tap AddHead {
        /// Id chosen by the caller.
        id: Option<Uuid>,
        /// Id of the stop.
        stop: Uuid,
        /// What was read.
        head: NewHead,
    } -> HeadSaved = |service| service.add_head(id, stop, head);

    /// Changes: replaces what a head says; the first reading is kept in the history.
    Tap CorrectHead {
        /// Id of the head.
        head: Uuid,
        /// What it should say.
        to: NewHead,
    } -> HeadSaved = |service| service.correct_head(head, to);

    /// Changes: takes a head out; it is kept in the history.
    Tap RemoveHead {
        /// Id of the head.
        head: Uuid,
    } -> WalkPage = |service| service.remove_head(head);

    /// Changes: marks a walk as finished.
    Tap FinishWalk {
        /// Id of the walk.
        walk: Uuid,
    } -> WalkPage = |service| service.finish_walk(walk, true);

    /// Changes: opens a finished walk again.
    Tap ReopenWalk {
        /// Id of the walk.
        walk: Uuid,
    } -> WalkPage = |service| service.finish_walk(walk, false);

    /// Changes: hides a walk; nothing is erased.
    Tap RemoveWalk {
        /// Id of the walk.
        walk: Uuid,
    } -> Done = |service| service.remove_walk(walk);

    /// Changes: restores a removed walk.
    Tap RestoreWalk {
        /// Id of the walk.
        walk: Uuid,
    } -> Done = |service| service.restore_walk(walk);

    /// Changes: takes back the last thing done in a walk on this device
    /// (head, correction, removal, stop). Repeating it goes further back.
    Tap Undo {
        /// Id of this request, chosen by the caller: sent again, it does not
        /// go a second step back.
        id: Option<Uuid>,
        /// Id of the walk.
        walk: Uuid,
    } -> WalkPage = |service| service.undo(id, walk);
}
