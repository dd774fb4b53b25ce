//! Requests in, answers out, and what changed.

mod answer;
mod checks;
mod files_in;
mod files_out;
mod harvest;
mod history;
mod jobs;
mod keeper;
mod photos;
mod places;
mod plantings;
mod problem;
mod request;
mod safekeeping;
mod season;
mod settings;
mod shared;
mod walks;
mod weather;
#[cfg(feature = "ts")]
pub mod wire_types;

pub use answer::{Answer, Changed, Reply};
pub use files_in::chosen::{FileRequest, Prepared, prepare, unpack};
pub use files_in::pages::{HeadFileReview, PlantingFileReview, RefusedRow};
pub use files_in::{
    ObservationsStored, PlaceOrder, import_heads, import_heads_placed, import_observations,
    import_plantings, review_observations,
};
pub use files_out::field_sheet::{Paper, SheetAsk};
pub use files_out::{ArchiveIn, FileMade, FileOut};
pub use harvest::{
    CutRow, DryDownPage, GrainMoney, GroundLoss, HarvestOrderPage, HarvestPage, HarvestStep,
    HarvestTerm, HarvestTerms, NewObservation, NotCut, NotCutWhy, ObservationsPage, ObservedView,
    OutletWay, SetFor, TermValue, TermView, TermsEdit, TermsPage, WhatIfAnswer,
};
pub use history::pages::UndoWhat;
pub use history::pages::{
    ChangeName, HistoryEntry, HistoryLine, HistoryPage, HistoryWalk, WalkComparison,
};
pub use history::who_uses;
pub use jobs::{JobStep, Jobs, Progress};
pub use keeper::Keeper;
pub use kinds::{Area, Keep, OutlineOf, Place, Purpose, Settings, Theme, Units};
pub use notebook::archive::ArchiveReview;
pub use notebook::fact::Reason;
pub use notebook::views::conflicts::{FieldConflict, GivenValue};
pub use notebook::views::merges::{MergeConflict, MergeSaid};
pub use notebook::views::names::Names;
pub use notebook::views::search::{Found, FoundBy, FoundNote, FoundPlanting, FoundWalk};
pub use photos::pages::{PhotoAdded, PhotoOf, PhotoSize, PhotoStorage, PhotoView};
pub use places::pages::{
    ChosenFile, ChosenOutline, MapStop, MapWalk, NearPlanting, OutlineFileReview, OutlineReview,
    OutlineTarget, PlanIn, PlantingMapPage, PlantingOutline, StopPlanPage,
};
pub use plantings::pages::{
    DuplicatePair, Emptied, NewPlanting, PlantingBrief, PlantingEdit, PlantingPage, PlantingRow,
};
pub use problem::{Problem, ProblemCode};
pub use request::Request;
pub use safekeeping::pages::{BackupRow, NotebookCheck, RestoreReport, Safekeeping, SalvageReport};
pub use safekeeping::set_aside_pages::{SetAsidePage, SetAsideRow, WalkNotice};
pub use season::due::{Due, DueReason};
pub use season::pages::{
    ChosenHeatSet, ClassHeat, HeatSetRow, HeatSetUser, HybridPace, HybridPage, HybridPlanting,
    HybridRow, NewHeatSet, SetChosenBy,
};
pub use shared::SharedService;
pub use walks::pages::{Answers, HeadSaved, HeadView, NewHead, StopView, WalkBrief, WalkPage};
pub use weather::pages::{
    ChosenBy, ChosenStation, FortnightRow, NearStation, OutlookPage, StationChoice, StationOption,
    StationReview, StationRow, TypedDay, WalkPoint, WeatherFileReview,
};

use std::collections::BTreeSet;

use rusqlite::Connection;
use uuid::Uuid;

use harvest::KeptGrain;
use notebook::apply::Touched;
use notebook::views;
use notebook::{Notebook, StoreError};
use walks::rollups::KeptAnswers;

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
        self.kept = KeptAnswers::as_of(self.data_version);
        self.grain = KeptGrain::default();
        work(&mut self.notebook)
    }

    /// Carries out a request.
    ///
    /// # Errors
    /// A [`Problem`]; nothing was stored then.
    pub fn call(&mut self, request: Request) -> Result<Reply, Problem> {
        if let Some(reply) = self.jobs.answer(&request) {
            return Ok(reply);
        }
        self.notice_other_writers()?;
        checks::as_of(&request)?;
        match request {
            Request::Plantings => self.plantings(),
            Request::WorkOut => self.work_out(),
            Request::Planting { planting } => self.planting(planting),
            Request::Conflicts { planting } => {
                let known = walks::live_planting(self.notebook.db(), planting)?;
                let fields = views::conflicts::of_planting(self.notebook.db(), known.id)?;
                let merges = views::merges::of_planting(self.notebook.db(), known.id)?;
                Ok(read_only(Answer::Conflicts { fields, merges }))
            }
            Request::Names => {
                let names = views::names::names(self.notebook.db())?;
                Ok(read_only(Answer::Names(names)))
            }
            Request::AddPlanting(new) => self.add_planting(new),
            Request::EditPlanting { planting, edit } => self.edit_planting(planting, edit),
            Request::RemovePlanting { planting } => self.remove_planting(planting),
            Request::RestorePlanting { planting } => self.restore_planting(planting),
            Request::LikelyDuplicates => self.likely_duplicates(),
            Request::MergedPlantings { planting } => self.merged_plantings(planting),
            Request::MergePlantings { duplicate, into } => self.merge_plantings(duplicate, into),
            Request::UnmergePlanting { duplicate } => self.unmerge_planting(duplicate),
            Request::SettleMerge { planting, into } => self.settle_merge(planting, into),
            Request::StartWalk {
                id,
                planting,
                walked_on,
                scout,
            } => self.start_walk(id, planting, walked_on, scout),
            Request::Walk { walk } => self.walk(walk),
            Request::CorrectWalkDate { walk, walked_on } => self.correct_walk_date(walk, walked_on),
            Request::SetAside => self.set_aside(),
            Request::TellAgain { device } => self.tell_again(device),
            Request::AddStop { id, walk, place } => self.add_stop(id, walk, place),
            Request::AddHead { id, stop, head } => self.add_head(id, stop, head),
            Request::CorrectHead { head, to } => self.correct_head(head, to),
            Request::RemoveHead { head } => self.remove_head(head),
            Request::Undo { id, walk } => self.undo(id, walk),
            Request::FinishWalk { walk } => self.finish_walk(walk, true),
            Request::ReopenWalk { walk } => self.finish_walk(walk, false),
            Request::RemoveWalk { walk } => self.remove_walk(walk),
            Request::RestoreWalk { walk } => self.restore_walk(walk),
            Request::ReviewHeadFile { text } => self.head_file(&text, Keep::Nothing),
            Request::ImportHeadFile { text } => self.head_file(&text, Keep::GoodRows),
            Request::ReviewHeadFilePlaced { text, places } => {
                self.head_file_placed(&text, Keep::Nothing, places)
            }
            Request::ImportHeadFilePlaced { text, places } => {
                self.head_file_placed(&text, Keep::GoodRows, places)
            }
            Request::ReviewPlantingFile { text } => self.planting_file(&text, Keep::Nothing),
            Request::ImportPlantingFile { text } => self.planting_file(&text, Keep::GoodRows),
            Request::Stations => self.stations(),
            Request::NearestStations { place } => self.nearest_stations(place),
            Request::PlaceStation { name, place } => self.place_station(&name, place),
            Request::UseStation {
                planting,
                station,
                whole_field,
            } => self.use_station(planting, station.as_deref(), whole_field),
            Request::StationChoice { planting } => self.station_choice(planting),
            Request::TypeWeather(day) => self.type_weather(&day),
            Request::ReviewWeatherFile { text, station, job } => {
                self.weather_file(&text, station.as_deref(), (Keep::Nothing, false), job)
            }
            Request::ImportWeatherFile {
                text,
                station,
                strict,
                job,
            } => self.weather_file(&text, station.as_deref(), (Keep::GoodRows, strict), job),
            Request::HeatSets => self.heat_sets(),
            Request::SaveHeatSet { id, set } => self.save_heat_set(id, set),
            Request::RemoveHeatSet { id } => self.remove_heat_set(id),
            Request::RestoreHeatSet { id } => self.restore_heat_set(id),
            Request::UseHeatSet { by, set } => self.use_heat_set(by, set),
            Request::Hybrids => self.hybrids(),
            Request::Hybrid { hybrid, as_of } => self.hybrid(hybrid, as_of),
            Request::SetMaturity { hybrid, maturity } => self.set_maturity(hybrid, maturity),
            // Answered above, beside the works that run.
            Request::JobProgress { .. } => Ok(read_only(Answer::JobProgress { progress: None })),
            Request::StopJob { .. } => Ok(read_only(Answer::StopJob { running: false })),
            Request::Outlook { planting, as_of } => self.outlook(planting, as_of),
            Request::Fortnight { as_of } => self.fortnight(as_of),
            Request::Observations { planting } => self.observations(planting),
            Request::Observe { id, planting, seen } => self.observe(id, planting, seen),
            Request::CorrectObserved { id, to } => self.correct_observed(id, to),
            Request::RemoveObserved { id } => self.remove_observed(id),
            Request::UndoHarvest { id, planting } => self.undo_harvest(id, planting),
            Request::DryDown { planting, as_of } => self.dry_down(planting, as_of),
            Request::Harvest { planting, as_of } => self.harvest(planting, as_of),
            Request::WhatIf {
                planting,
                as_of,
                edit,
                settled,
            } => self.what_if(planting, as_of, &edit, settled),
            Request::HarvestTerms { planting } => self.harvest_terms(planting),
            Request::SetHarvestTerms { planting, edit } => self.set_harvest_terms(planting, &edit),
            Request::HarvestOrder { as_of } => self.harvest_order(as_of),
            Request::GrainMoney {
                planting,
                moisture,
                storage_temp_f,
            } => self.grain_money(planting, moisture, storage_temp_f),
            Request::PlaceStop { stop, place } => self.place_stop(stop, place),
            Request::NearestPlantings { place } => self.nearest_plantings(place),
            Request::PlantingMap { planting } => self.planting_map(planting),
            Request::StopPlan {
                planting,
                walk,
                from,
                rows,
                paces,
            } => self.stop_plan(planting, walk, from, rows.zip(paces)),
            Request::RemoveOutline { of } => self.remove_outline(of),
            Request::Photos { of } => self.photos(of),
            Request::CaptionPhoto { photo, caption } => self.caption_photo(photo, &caption),
            Request::RemovePhoto { photo } => self.remove_photo(photo, true),
            Request::RestorePhoto { photo } => self.remove_photo(photo, false),
            Request::WantPhoto { photo } => self.want_photo(photo),
            Request::PhotoStorage => Ok(read_only(Answer::PhotoStorage(self.photo_storage()?))),
            Request::History {
                planting,
                before,
                limit,
            } => self.history(planting, before, limit),
            Request::TakeBack { planting, seq } => self.take_back(planting, seq),
            Request::CompareWalks { one, other } => self.compare_walks(one, other),
            Request::Search { text } => {
                let found = views::search::search(self.notebook.db(), &text)?;
                Ok(read_only(Answer::Search(Box::new(found))))
            }
            Request::Safekeeping => self.safekeeping(),
            Request::BackUp => self.back_up(),
            Request::CheckNotebook { only_if_due } => self.check_notebook(only_if_due),
            Request::OpenAgain => Ok(read_only(Answer::OpenAgain)),
            Request::Salvage => Err(Problem::conflict(
                "the notebook is open and not damaged: there is nothing to salvage",
            )),
            Request::Backups => self.backups(),
            // Only who can close it can put another in its place.
            Request::RestoreBackup { .. } => Err(Problem::conflict(
                "the notebook is open here: close it, then restore the backup",
            )),
            Request::Settings => {
                let settings = settings::read(self.notebook.db())?;
                Ok(read_only(Answer::Settings(settings)))
            }
            Request::SaveSettings(settings) => self.save_settings(settings),
        }
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

/// An answer to a request that changed nothing.
fn read_only(answer: Answer) -> Reply {
    Reply {
        answer,
        changed: Vec::new(),
    }
}

fn data_version(notebook: &Notebook) -> Result<i64, Problem> {
    Ok(walks::rollups::data_version(notebook.db())?)
}
