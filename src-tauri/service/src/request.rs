//! All requests and all answers, as the faces send and are sent them.

use serde::{Deserialize, Serialize};
use uuid::Uuid;

use crate::asking::{Ask, AskService, Pace, Reply, read_only};
use crate::{
    BackupList, Done, JobState, JobStopped, OutlineFileReview, PhotoAdded, Problem, RestoreReport,
    SalvageReport,
};

/// The requests by domain, to be named by a face: `ask::StartWalk`.
pub mod ask {
    pub use crate::files_in::ask::*;
    pub use crate::harvest::ask::*;
    pub use crate::history::ask::*;
    pub use crate::jobs::ask::*;
    pub use crate::photos::ask::*;
    pub use crate::places::ask::*;
    pub use crate::plantings::ask::*;
    pub use crate::safekeeping::ask::*;
    pub use crate::season::ask::*;
    pub use crate::settings::ask::*;
    pub use crate::walks::ask::*;
    pub use crate::weather::ask::*;
}

/// What the keeper of the service does itself.
pub(crate) trait Keeping {
    fn backups(&self) -> BackupList;
    fn job_progress(&self, job: Uuid) -> Result<Reply<JobState>, Problem>;
    fn open_again(&self) -> Result<Reply<Done>, Problem>;
    fn restore_backup(&self, name: &str) -> Result<Reply<RestoreReport>, Problem>;
    fn salvage(&self) -> Result<Reply<SalvageReport>, Problem>;
    fn stop_job(&self, job: Uuid) -> Result<Reply<JobStopped>, Problem>;
}

/// How the keeper of the service carries out a request.
pub(crate) type ByKeeper<A> = fn(&dyn Keeping, A) -> Result<Reply<<A as Ask>::Answer>, Problem>;

/// What carries out requests. Those that are not for the service are refused but by the
/// service's keeper.
pub(crate) trait Carrier {
    fn call<A: AskService>(&mut self, ask: A) -> Result<Reply<A::Answer>, Problem>;

    fn keep<A: Ask>(&mut self, _ask: A, _how: ByKeeper<A>) -> Result<Reply<A::Answer>, Problem> {
        Err(Problem::conflict(
            "the notebook is open here, and only its keeper does this",
        ))
    }
}

macro_rules! requests {
    (
        asked: $($Name:ident)*;
        asked of the keeper: $($Kept:ident => $keep:expr),*;
        asked with files: $($File:ident -> $Answer:ty),*;
    ) => {
        /// A request of any kind; its tag names it.
        #[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
        #[serde(tag = "op", rename_all = "snake_case")]
        pub enum Request {
            $(
                #[doc = concat!("See [`ask::", stringify!($Name), "`].")]
                $Name(ask::$Name),
            )*
            $(
                #[doc = concat!("See [`ask::", stringify!($Kept), "`].")]
                $Kept(ask::$Kept),
            )*
        }

        /// An answer of any kind; the tag is the request's.
        #[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
        #[serde(tag = "op", rename_all = "snake_case")]
        pub enum Answer {
            $(
                #[doc = concat!("The answer to [`ask::", stringify!($Name), "`].")]
                $Name(Box<<ask::$Name as Ask>::Answer>),
            )*
            $(
                #[doc = concat!("The answer to [`ask::", stringify!($Kept), "`].")]
                $Kept(Box<<ask::$Kept as Ask>::Answer>),
            )*
            $(
                #[doc = concat!("The answer to [`crate::FileRequest::", stringify!($File), "`].")]
                $File(Box<$Answer>),
            )*
        }

        /// What each request says, by its tag.
        #[cfg(feature = "ts")]
        #[derive(ts_rs::TS)]
        #[ts(rename_all = "snake_case")]
        #[allow(non_snake_case, dead_code)]
        pub(crate) struct Asked {
            $(#[ts(inline)] $Name: ask::$Name,)*
            $(#[ts(inline)] $Kept: ask::$Kept,)*
        }

        /// What is answered, by the request's tag.
        #[cfg(feature = "ts")]
        #[derive(ts_rs::TS)]
        #[ts(rename_all = "snake_case")]
        #[allow(non_snake_case, dead_code)]
        pub(crate) struct Answered {
            $($Name: <ask::$Name as Ask>::Answer,)*
            $($Kept: <ask::$Kept as Ask>::Answer,)*
            $($File: $Answer,)*
        }

        impl Request {
            pub(crate) fn pace(&self) -> Pace {
                match self {
                    $(Request::$Name(_) => ask::$Name::PACE,)*
                    $(Request::$Kept(_) => ask::$Kept::PACE,)*
                }
            }

            /// Has it carried out.
            pub(crate) fn by(self, carrier: &mut impl Carrier) -> Result<Reply<Answer>, Problem> {
                match self {
                    $(Request::$Name(ask) => {
                        let reply = carrier.call(ask)?;
                        Ok(reply.map(|answer| Answer::$Name(Box::new(answer))))
                    })*
                    $(Request::$Kept(ask) => {
                        let reply = carrier.keep(ask, $keep)?;
                        Ok(reply.map(|answer| Answer::$Kept(Box::new(answer))))
                    })*
                }
            }
        }

        $(impl From<ask::$Name> for Request {
            fn from(ask: ask::$Name) -> Request {
                Request::$Name(ask)
            }
        })*

        $(impl From<ask::$Kept> for Request {
            fn from(ask: ask::$Kept) -> Request {
                Request::$Kept(ask)
            }
        })*
    };
}

requests! {
    asked:
        AddHead AddPlanting AddStop BackUp CaptionPhoto CheckNotebook CompareWalks
        Conflicts CorrectHead CorrectObserved CorrectWalkDate DryDown EditPlanting
        FinishWalk Fortnight GrainMoney Harvest HarvestOrder HarvestTerms HeatSets
        History Hybrid Hybrids ImportHeadFile ImportHeadFilePlaced ImportPlantingFile
        ImportWeatherFile LikelyDuplicates MergePlantings MergedPlantings Names
        NearestPlantings NearestStations Observations Observe Outlook PhotoStorage
        Photos PlaceStation PlaceStop Planting PlantingMap Plantings RemoveHead
        RemoveHeatSet RemoveObserved RemoveOutline RemovePhoto RemovePlanting RemoveWalk
        ReopenWalk RestoreHeatSet RestorePhoto RestorePlanting RestoreWalk
        ReviewHeadFile ReviewHeadFilePlaced ReviewPlantingFile ReviewWeatherFile
        Safekeeping SaveHeatSet SaveSettings Search SetAside SetHarvestTerms SetMaturity
        Settings SettleMerge StartWalk StationChoice Stations StopPlan TellAgain
        TryWetGrain TypeWeather Undo UndoChange UndoHarvest UnmergePlanting UseHeatSet
        UseStation Walk WantPhoto WhatIf WorkOut;
    asked of the keeper:
        Backups => |keeper, _| Ok(read_only(keeper.backups())),
        JobProgress => |keeper, ask| keeper.job_progress(ask.job),
        OpenAgain => |keeper, _| keeper.open_again(),
        RestoreBackup => |keeper, ask| keeper.restore_backup(&ask.name),
        Salvage => |keeper, _| keeper.salvage(),
        StopJob => |keeper, ask| keeper.stop_job(ask.job);
    asked with files:
        AddPhoto -> PhotoAdded,
        ImportOutlineFile -> OutlineFileReview,
        ReviewOutlineFile -> OutlineFileReview;
}

impl Request {
    /// Whether it is carried out in order with the taps; the others only read.
    pub fn is_tap(&self) -> bool {
        self.pace() == Pace::Tap
    }
}
