//! What may be asked about works that run.

use uuid::Uuid;

use crate::asking::asks;
use crate::{JobState, JobStopped};

asks! {
    /// How far a work is; answered while it runs.
    Tap JobProgress {
        /// Id of the work.
        job: Uuid,
    } -> JobState;

    /// Stops a work, which then stores nothing; one that is nearly done may still
    /// be done. Answered while it runs.
    Tap StopJob {
        /// Id of the work.
        job: Uuid,
    } -> JobStopped;
}
