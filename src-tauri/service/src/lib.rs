//! Requests in, answers out, and what changed.

mod asking;
mod checks;
mod files_in;
mod files_out;
mod harvest;
mod history;
mod jobs;
mod keeper;
mod live;
mod photos;
mod places;
mod plantings;
mod problem;
mod refused_row;
mod request;
mod rollups;
mod rows;
mod safekeeping;
mod season;
mod settings;
mod shared;
mod walks;
mod weather;
#[cfg(feature = "ts")]
pub mod wire_types;
mod with_files;

pub use asking::{Ask, AskService, Changed, Done, Reply};
pub use files_in::pages::{HeadFileReview, PlantingFileReview};
pub use files_in::{
    ObservationsStored, PlaceOrder, import_heads, import_heads_placed, import_observations,
    import_plantings, review_observations,
};
pub use files_out::field_sheet::{Paper, SheetAsk};
pub use files_out::{ArchiveIn, FileMade, FileOut};
pub use harvest::{
    CutRow, DryDownPage, GrainMoney, GroundLoss, HarvestOrderPage, HarvestPage, HarvestStep,
    HarvestTerm, HarvestTerms, NewObservation, NotCut, NotCutWhy, ObservationsPage, ObservedView,
    OutletWay, SetFor, TermValue, TermView, TermsEdit, TermsPage, WetGrainPage, WetGrainWay,
    WhatIfAnswer,
};
pub use history::pages::{HistoryEntry, HistoryLine, HistoryPage, HistoryWalk, WalkComparison};
pub use history::who_uses;
pub use jobs::{JobState, JobStep, JobStopped, Jobs, Progress};
pub use keeper::Keeper;
pub use kinds::{Area, Field, Keep, OutlineOf, Place, Purpose, Settings, Theme, Units};
pub use notebook::archive::ArchiveReview;
pub use notebook::fact::{ChangeName, Reason};
pub use notebook::views::conflicts::{FieldConflict, GivenValue};
pub use notebook::views::merges::{MergeConflict, MergeSaid};
pub use notebook::views::names::Names;
pub use notebook::views::search::{Found, FoundBy, FoundNote, FoundPlanting, FoundWalk};
pub use photos::pages::{PhotoAdded, PhotoList, PhotoOf, PhotoSize, PhotoStorage, PhotoView};
pub use places::pages::{
    ChosenFile, ChosenOutline, MapStop, MapWalk, NearPlanting, NearPlantings, OutlineFileReview,
    OutlineReview, OutlineTarget, PlanIn, PlantingMapPage, PlantingOutline, StopPlanPage,
};
pub use plantings::details::{NewPlanting, PlantingDetails, PlantingEdit, PlantingRow};
pub use plantings::pages::{
    Conflicts, DuplicatePair, DuplicatePairs, PlantingBrief, PlantingBriefs, PlantingList,
    PlantingPage, WorkedOut,
};
pub use problem::{Problem, ProblemCode};
pub use refused_row::RefusedRow;
pub use request::{Answer, Request, ask};
pub use rollups::pages::{Answers, WalkBrief, WalkNotice};
pub use safekeeping::pages::{
    BackupList, BackupRow, NotebookCheck, RestoreReport, Safekeeping, SalvageReport,
};
pub use safekeeping::set_aside_pages::{SetAsidePage, SetAsideRow, ToldAgain};
pub use season::due::{Due, DueReason};
pub use season::pages::{
    ChosenHeatSet, ClassHeat, FortnightPage, FortnightRow, HeatSetList, HeatSetRow, HeatSetUser,
    HybridList, HybridPace, HybridPage, HybridPlanting, HybridRow, NewHeatSet, OutlookPage,
    SetChosenBy, WalkPoint,
};
pub use shared::SharedService;
pub use walks::pages::{HeadSaved, HeadView, NewHead, StopView, UndoWhat, WalkPage};
pub use weather::pages::{
    ChosenBy, ChosenStation, NearStation, NearStations, StationChoice, StationList, StationOption,
    StationReview, StationRow, TypedDay, WeatherFileReview,
};
pub use with_files::{FileRequest, Prepared, prepare, unpack};

use std::collections::BTreeSet;

use asking::read_only;
use harvest::KeptGrain;
use request::Carrier;
use rollups::KeptAnswers;
use rusqlite::Connection;
use uuid::Uuid;

use notebook::apply::Touched;
use notebook::views;
use notebook::{Notebook, StoreError};

/// The one service that every face calls, over one notebook.
///
/// A request that changes something is on the disk before it is answered.
pub struct Service {
    notebook: Notebook,
    kept: KeptAnswers,
    grain: KeptGrain,
    jobs: Jobs,
    /// SQLite's count of other processes' commits, when last asked.
    data_version: i64,
}

impl Service {
    /// A service over an open notebook.
    ///
    /// # Errors
    /// When the notebook cannot be read.
    pub fn new(notebook: Notebook) -> Result<Service, Problem> {
        let data_version = data_version(&notebook)?;
        Ok(Service {
            notebook,
            kept: KeptAnswers::as_of(data_version),
            grain: KeptGrain::default(),
            jobs: Jobs::default(),
            data_version,
        })
    }

    /// The notebook, to read its log.
    pub fn notebook(&self) -> &Notebook {
        &self.notebook
    }

    /// With its works told beside those of other services of the same face.
    fn telling(mut self, jobs: &Jobs) -> Service {
        self.jobs = jobs.clone();
        self
    }

    /// The notebook, without the service.
    pub fn into_notebook(self) -> Notebook {
        self.notebook
    }

    /// Works on the notebook beside the requests (exchange, rebuild); answers
    /// kept in memory are dropped.
    pub fn with_notebook<T>(&mut self, work: impl FnOnce(&mut Notebook) -> T) -> T {
        self.forget_answers();
        self.grain = KeptGrain::default();
        work(&mut self.notebook)
    }

    /// Carries out a request, and answers with the type that belongs to it.
    ///
    /// # Errors
    /// A [`Problem`]; nothing was stored then.
    pub fn call<A: AskService>(&mut self, ask: A) -> Result<Reply<A::Answer>, Problem> {
        self.notice_other_writers()?;
        ask.carry_out(self)
    }

    /// Carries out a request of any kind.
    ///
    /// # Errors
    /// As [`Service::call`].
    pub fn answer(&mut self, request: Request) -> Result<Reply<Answer>, Problem> {
        request.by(self)
    }

    /// Drops the answers kept: what they depend on has changed.
    fn forget_answers(&mut self) {
        self.kept = KeptAnswers::as_of(self.data_version);
    }

    fn notice_other_writers(&mut self) -> Result<(), Problem> {
        let now = data_version(&self.notebook)?;
        if now != self.data_version {
            self.data_version = now;
            self.kept = KeptAnswers::as_of(now);
            self.grain = KeptGrain::default();
        }
        Ok(())
    }

    /// What a change means for the screens, and for the answers kept.
    fn changed(&mut self, touched: &Touched) -> Result<Vec<Changed>, Problem> {
        let plantings = plantings_of(self.notebook.db(), touched)?;
        self.kept.forget(&plantings, touched);
        if *touched
            != (Touched {
                terms: touched.terms,
                ..Touched::default()
            })
        {
            self.grain = KeptGrain::default();
        }
        if touched.terms {
            self.grain.forget_terms();
        }
        Ok(changed_by(self.notebook.db(), touched)?)
    }
}

impl Carrier for Service {
    fn call<A: AskService>(&mut self, ask: A) -> Result<Reply<A::Answer>, Problem> {
        Service::call(self, ask)
    }
}

/// What changes mean for the screens; also of those that came by another way
/// than a request: an exchange, a file.
///
/// # Errors
/// When the store fails.
pub fn changed_by(db: &Connection, touched: &Touched) -> Result<Vec<Changed>, StoreError> {
    let mut plantings = plantings_of(db, touched)?;
    for observed in &touched.observed {
        plantings.insert(views::plantings::shown(db, *observed)?);
    }
    let mut changed: Vec<Changed> = plantings.into_iter().map(Changed::Planting).collect();
    changed.extend(touched.walks.iter().copied().map(Changed::Walk));
    if touched.names {
        changed.push(Changed::Names);
    }
    if touched.weather {
        changed.push(Changed::Weather);
    }
    if touched.terms {
        changed.push(Changed::Terms);
    }
    if touched.photos {
        changed.push(Changed::Photos);
    }
    if touched.heat_sets {
        changed.push(Changed::HeatSets);
    }
    Ok(changed)
}

/// The plantings touched, and those of the walks touched.
fn plantings_of(db: &Connection, touched: &Touched) -> Result<BTreeSet<Uuid>, StoreError> {
    let mut plantings = touched.plantings.clone();
    for walk in &touched.walks {
        if let Some(walk) = views::walks::walk(db, *walk)? {
            plantings.insert(walk.planting);
        }
    }
    Ok(plantings)
}

fn data_version(notebook: &Notebook) -> Result<i64, Problem> {
    Ok(rollups::data_version(notebook.db())?)
}
