//! All requests and all answers, as the faces send and are sent them.

use serde::{Deserialize, Serialize};

use crate::asking::{Ask, Pace, Reply};
use crate::{OutlineFileReview, PhotoAdded, Problem};

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

/// What carries out requests.
pub(crate) trait Carrier {
    fn call<A: Ask>(&mut self, ask: A) -> Result<Reply<A::Answer>, Problem>;
}

macro_rules! requests {
    (
        asked: $($Name:ident)*;
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
        }

        /// What is answered, by the request's tag.
        #[cfg(feature = "ts")]
        #[derive(ts_rs::TS)]
        #[ts(rename_all = "snake_case")]
        #[allow(non_snake_case, dead_code)]
        pub(crate) struct Answered {
            $($Name: <ask::$Name as Ask>::Answer,)*
            $($File: $Answer,)*
        }

        impl Request {
            pub(crate) fn pace(&self) -> Pace {
                match self {
                    $(Request::$Name(_) => ask::$Name::PACE,)*
                }
            }

            /// Has it carried out.
            pub(crate) fn by(self, carrier: &mut impl Carrier) -> Result<Reply<Answer>, Problem> {
                match self {
                    $(Request::$Name(ask) => {
                        let reply = carrier.call(ask)?;
                        Ok(reply.map(|answer| Answer::$Name(Box::new(answer))))
                    })*
                }
            }
        }

        $(impl From<ask::$Name> for Request {
            fn from(ask: ask::$Name) -> Request {
                Request::$Name(ask)
            }
        })*
    };
}

requests! {
    asked:
        AddHead AddPlanting AddStop BackUp Backups CaptionPhoto CheckNotebook CompareWalks
        Conflicts CorrectHead CorrectObserved CorrectWalkDate DryDown EditPlanting FinishWalk
        Fortnight GrainMoney Harvest HarvestOrder HarvestTerms HeatSets History Hybrid Hybrids
        ImportHeadFile ImportHeadFilePlaced ImportPlantingFile ImportWeatherFile JobProgress
        LikelyDuplicates MergePlantings MergedPlantings Names NearestPlantings NearestStations
        Observations Observe OpenAgain Outlook PhotoStorage Photos PlaceStation PlaceStop Planting
        PlantingMap Plantings RemoveHead RemoveHeatSet RemoveObserved RemoveOutline RemovePhoto
        RemovePlanting RemoveWalk ReopenWalk RestoreBackup RestoreHeatSet RestorePhoto
        RestorePlanting RestoreWalk ReviewHeadFile ReviewHeadFilePlaced ReviewPlantingFile
        ReviewWeatherFile Safekeeping Salvage SaveHeatSet SaveSettings Search SetAside
        SetHarvestTerms SetMaturity Settings SettleMerge StartWalk StationChoice Stations StopJob
        StopPlan TakeBack TellAgain TypeWeather Undo UndoHarvest UnmergePlanting UseHeatSet
        UseStation Walk WantPhoto WhatIf WorkOut;
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
