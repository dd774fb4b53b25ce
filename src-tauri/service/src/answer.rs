//! What the notebook answers.

use chrono::{DateTime, FixedOffset, NaiveDate};
use ripening::{Advice, Band, Flag, Head, Stage, WholeField};
use serde::{Deserialize, Serialize};
use uuid::Uuid;

use super::harvest::{
    DryDownPage, GrainMoney, HarvestOrderPage, HarvestPage, ObservationsPage, TermsPage,
    WhatIfAnswer,
};
use super::history_words::{HistoryPage, WalkComparison};
use super::jobs::Progress;
use super::photo_words::{PhotoAdded, PhotoStorage, PhotoView};
use super::place_words::{NearPlanting, OutlineFileReview, PlantingMapPage, StopPlanPage};
use super::safekeeping_words::{
    BackupRow, NotebookCheck, RestoreReport, Safekeeping, SalvageReport,
};
use super::season_words::{HeatSetRow, HybridPage, HybridRow};
use super::set_aside_words::{SetAsidePage, WalkNotice};
use super::weather_words::{
    FortnightRow, NearStation, OutlookPage, StationChoice, StationRow, WeatherFileReview,
};
use kinds::Settings;
use kinds::{Area, Place, Purpose};
use notebook::views::conflicts::FieldConflict;
use notebook::views::merges::MergeConflict;
use notebook::views::names::Names;
use notebook::views::search::Found;

/// An answer, and everything that the request changed.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct Reply {
    /// The answer.
    pub answer: Answer,
    /// What changed, so that a screen redraws only that.
    pub changed: Vec<Changed>,
}

/// A thing that changed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
#[serde(tag = "kind", content = "id", rename_all = "snake_case")]
pub enum Changed {
    /// A planting, or what its row shows.
    Planting(Uuid),
    /// A walk: its stops, heads or answer.
    Walk(Uuid),
    /// Names in the pickers.
    Names,
    /// Photos: which there are, or what is said of them.
    Photos,
    /// Stations or their weather, and every outlook with them.
    Weather,
    /// Terms that harvests are weighed by.
    Terms,
    /// Heat sets, or which of them counts, and every outlook with them.
    HeatSets,
    /// Settings of this device.
    Settings,
}

/// The answer to a request; the tag is the request's.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
#[serde(tag = "op", rename_all = "snake_case")]
pub enum Answer {
    /// To `plantings`.
    Plantings {
        /// Today, as the notebook's clock has it.
        today: NaiveDate,
        /// The one that most needs a walk first.
        rows: Vec<PlantingRow>,
    },
    /// To `work_out`.
    WorkOut {
        /// Rows whose answer is there now.
        rows: Vec<PlantingRow>,
        /// Rows that still lack theirs.
        left: u32,
    },
    /// To `planting`.
    Planting(Box<PlantingPage>),
    /// To `conflicts`.
    Conflicts {
        /// By field; none where everybody agrees.
        fields: Vec<FieldConflict>,
        /// By planting that was merged differently; those that concern this one.
        merges: Vec<MergeConflict>,
    },
    /// To `names`.
    Names(Names),
    /// To `add_planting`.
    AddPlanting(Box<PlantingRow>),
    /// To `edit_planting`.
    EditPlanting(Box<PlantingRow>),
    /// To `remove_planting`.
    RemovePlanting,
    /// To `restore_planting`.
    RestorePlanting(Box<PlantingRow>),
    /// To `likely_duplicates`.
    LikelyDuplicates {
        /// None where none are alike.
        pairs: Vec<DuplicatePair>,
    },
    /// To `merged_plantings`.
    MergedPlantings {
        /// By name.
        rows: Vec<PlantingBrief>,
    },
    /// To `merge_plantings`: the one that stays.
    MergePlantings(Box<PlantingRow>),
    /// To `unmerge_planting`: the one that is its own again.
    UnmergePlanting(Box<PlantingRow>),
    /// To `settle_merge`: the planting as which it is shown now.
    SettleMerge(Box<PlantingRow>),
    /// To `start_walk`.
    StartWalk(Box<WalkPage>),
    /// To `walk`.
    Walk(Box<WalkPage>),
    /// To `correct_walk_date`.
    CorrectWalkDate(Box<WalkPage>),
    /// To `set_aside`.
    SetAside(Box<SetAsidePage>),
    /// To `tell_again`.
    TellAgain {
        /// Changes that were told again.
        changes: u32,
    },
    /// To `add_stop`.
    AddStop(Box<WalkPage>),
    /// To `add_head`.
    AddHead(Box<HeadSaved>),
    /// To `correct_head`.
    CorrectHead(Box<HeadSaved>),
    /// To `remove_head`.
    RemoveHead(Box<WalkPage>),
    /// To `undo`.
    Undo(Box<WalkPage>),
    /// To `finish_walk`.
    FinishWalk(Box<WalkPage>),
    /// To `reopen_walk`.
    ReopenWalk(Box<WalkPage>),
    /// To `remove_walk`.
    RemoveWalk,
    /// To `restore_walk`.
    RestoreWalk,
    /// To `review_head_file`: what an import would do.
    ReviewHeadFile(HeadFileReview),
    /// To `import_head_file`: what it did.
    ImportHeadFile(HeadFileReview),
    /// To `review_head_file_placed`: what an import would do.
    ReviewHeadFilePlaced(HeadFileReview),
    /// To `import_head_file_placed`: what it did.
    ImportHeadFilePlaced(HeadFileReview),
    /// To `review_planting_file`: what an import would do.
    ReviewPlantingFile(PlantingFileReview),
    /// To `import_planting_file`: what it did.
    ImportPlantingFile(PlantingFileReview),
    /// To `stations`.
    Stations {
        /// By name.
        rows: Vec<StationRow>,
    },
    /// To `nearest_stations`.
    NearestStations {
        /// The nearest first.
        rows: Vec<NearStation>,
    },
    /// To `place_station`.
    PlaceStation,
    /// To `use_station`.
    UseStation,
    /// To `station_choice`.
    StationChoice(StationChoice),
    /// To `type_weather`.
    TypeWeather,
    /// To `review_weather_file`: what an import would do.
    ReviewWeatherFile(WeatherFileReview),
    /// To `import_weather_file`: what it did.
    ImportWeatherFile(WeatherFileReview),
    /// To `job_progress`; nothing where no such work runs.
    JobProgress {
        /// How far it is.
        progress: Option<Progress>,
    },
    /// To `stop_job`.
    StopJob {
        /// Whether it still ran.
        running: bool,
    },
    /// To `heat_sets`.
    HeatSets {
        /// Published sets first, then the notebook's own by name.
        rows: Vec<HeatSetRow>,
        /// Key of the one chosen for the notebook.
        notebook: Option<String>,
    },
    /// To `save_heat_set`.
    SaveHeatSet(HeatSetRow),
    /// To `remove_heat_set`.
    RemoveHeatSet,
    /// To `restore_heat_set`.
    RestoreHeatSet(HeatSetRow),
    /// To `use_heat_set`.
    UseHeatSet,
    /// To `hybrids`.
    Hybrids {
        /// By name.
        rows: Vec<HybridRow>,
    },
    /// To `hybrid`.
    Hybrid(Box<HybridPage>),
    /// To `set_maturity`.
    SetMaturity,
    /// To `outlook`.
    Outlook(Box<OutlookPage>),
    /// To `fortnight`.
    Fortnight {
        /// Its first day.
        from: NaiveDate,
        /// Its last day.
        to: NaiveDate,
        /// All plantings, by name.
        rows: Vec<FortnightRow>,
    },
    /// To `observations`.
    Observations(Box<ObservationsPage>),
    /// To `observe`.
    Observe(Box<ObservationsPage>),
    /// To `correct_observed`.
    CorrectObserved(Box<ObservationsPage>),
    /// To `remove_observed`.
    RemoveObserved(Box<ObservationsPage>),
    /// To `undo_harvest`.
    UndoHarvest,
    /// To `dry_down`.
    DryDown(Box<DryDownPage>),
    /// To `harvest`.
    Harvest(Box<HarvestPage>),
    /// To `what_if`.
    WhatIf(WhatIfAnswer),
    /// To `harvest_terms`.
    HarvestTerms(Box<TermsPage>),
    /// To `set_harvest_terms`.
    SetHarvestTerms(Box<TermsPage>),
    /// To `harvest_order`.
    HarvestOrder(Box<HarvestOrderPage>),
    /// To `grain_money`.
    GrainMoney(Box<GrainMoney>),
    /// To `place_stop`.
    PlaceStop(Box<WalkPage>),
    /// To `nearest_plantings`.
    NearestPlantings {
        /// The nearest first.
        rows: Vec<NearPlanting>,
    },
    /// To `planting_map`.
    PlantingMap(Box<PlantingMapPage>),
    /// To `stop_plan`.
    StopPlan(Box<StopPlanPage>),
    /// To `remove_outline`.
    RemoveOutline,
    /// To `review_outline_file`: what an import would do.
    ReviewOutlineFile(OutlineFileReview),
    /// To `import_outline_file`: what it did.
    ImportOutlineFile(OutlineFileReview),
    /// To `add_photo`.
    AddPhoto(Box<PhotoAdded>),
    /// To `photos`.
    Photos {
        /// The newest first.
        rows: Vec<PhotoView>,
    },
    /// To `caption_photo`.
    CaptionPhoto(Box<PhotoView>),
    /// To `remove_photo`.
    RemovePhoto,
    /// To `restore_photo`.
    RestorePhoto,
    /// To `want_photo`.
    WantPhoto,
    /// To `photo_storage`.
    PhotoStorage(PhotoStorage),
    /// To `safekeeping`.
    Safekeeping(Box<Safekeeping>),
    /// To `back_up`: the backup made.
    BackUp(BackupRow),
    /// To `check_notebook`.
    CheckNotebook(NotebookCheck),
    /// To `open_again`.
    OpenAgain,
    /// To `salvage`.
    Salvage(Box<SalvageReport>),
    /// To `backups`, the newest first.
    Backups {
        /// The backups.
        rows: Vec<BackupRow>,
    },
    /// To `restore_backup`.
    RestoreBackup(RestoreReport),
    /// To `history`.
    History(Box<HistoryPage>),
    /// To `take_back`.
    TakeBack,
    /// To `compare_walks`.
    CompareWalks(Box<WalkComparison>),
    /// To `search`.
    Search(Box<Found>),
    /// To `settings`.
    Settings(Settings),
    /// To `save_settings`.
    SaveSettings(Settings),
}

/// Two plantings that may be one.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct DuplicatePair {
    /// The one with more walks.
    pub one: PlantingBrief,
    /// The other.
    pub other: PlantingBrief,
}

/// What tells two plantings apart.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct PlantingBrief {
    /// Its id.
    pub id: Uuid,
    /// Its name.
    pub name: String,
    /// Field.
    pub field: Option<String>,
    /// Hybrid.
    pub hybrid: Option<String>,
    /// Planting date.
    pub planted_on: Option<NaiveDate>,
    /// Walks recorded on it.
    pub walks: u32,
    /// Who walked it, sorted.
    pub scouts: Vec<String>,
}

/// A planting as a list shows it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct PlantingRow {
    /// Its id.
    pub id: Uuid,
    /// Its name.
    pub name: String,
    /// Farm.
    pub farm: Option<String>,
    /// Field.
    pub field: Option<String>,
    /// Hybrid.
    pub hybrid: Option<String>,
    /// Planting date.
    pub planted_on: Option<NaiveDate>,
    /// Purpose.
    pub purpose: Purpose,
    /// Area.
    pub area: Option<Area>,
    /// The hybrid's id, which leads to its page.
    pub hybrid_id: Option<Uuid>,
    /// Day on which half of the heads were seen in bloom, where somebody noted it.
    pub half_bloom_on: Option<NaiveDate>,
    /// The latest walk with heads.
    pub last_walk: Option<WalkBrief>,
    /// Position bands of up to four walks before it, oldest first.
    pub earlier: Vec<Band>,
    /// A walk that was started and not finished.
    pub open_walk: Option<Uuid>,
    /// Why and how soon it needs a walk.
    pub due: Due,
    /// Set while the answers of its walks are not worked out yet: no stage is
    /// shown then, rather than an old one.
    pub working_out: bool,
}

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
        /// Which.
        stage: Stage,
    },
    /// Never walked.
    NeverWalked,
    /// Walked lately.
    Fresh,
    /// At black layer: no more walks are needed for the stage.
    Ripe,
}

/// A walk as a list shows it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct WalkBrief {
    /// Its id.
    pub id: Uuid,
    /// Civil date.
    pub walked_on: NaiveDate,
    /// Who walked.
    pub scout: String,
    /// Whether it was finished.
    pub finished: bool,
    /// The answer.
    pub now: Answers,
    /// What of it cannot be worked out, and what to do.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "ts", ts(optional))]
    pub notice: Option<WalkNotice>,
}

/// A planting's own page.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct PlantingPage {
    /// Today, as the notebook's clock has it.
    pub today: NaiveDate,
    /// The planting.
    pub planting: PlantingRow,
    /// Its walks, the newest first.
    pub walks: Vec<WalkBrief>,
}

/// The answers of a walk: from its heads alone, and with what came before.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct Answers {
    /// From the heads of this walk alone; absent before the first head.
    pub alone: Option<WholeField>,
    /// With earlier walks moved forward; absent when there are none, or when
    /// this walk contradicts them. Before the first head: what they lead to
    /// expect today.
    pub with_history: Option<WholeField>,
    /// Set when this walk contradicts the earlier ones: the probability, 0-1,
    /// that they still apply to the planting these heads came from.
    pub contradiction: Option<f64>,
    /// Whether to go on, judged on the better of the two answers.
    pub advice: Advice,
}

/// A walk with its stops and heads.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct WalkPage {
    /// Its id.
    pub id: Uuid,
    /// Its planting.
    pub planting: PlantingRow,
    /// Civil date.
    pub walked_on: NaiveDate,
    /// Who walks.
    pub scout: String,
    /// Whether it was finished.
    pub finished: bool,
    /// In the order walked.
    pub stops: Vec<StopView>,
    /// The answer so far.
    pub now: Answers,
    /// What `undo` would take back.
    pub undo: Option<UndoWhat>,
    /// What of it cannot be worked out, and what to do.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "ts", ts(optional))]
    pub notice: Option<WalkNotice>,
}

/// A stop of a walk.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct StopView {
    /// Its id.
    pub id: Uuid,
    /// 1, 2, 3...
    pub number: u32,
    /// Where, if known.
    pub place: Option<Place>,
    /// In the order read.
    pub heads: Vec<HeadView>,
}

/// A head of a stop.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct HeadView {
    /// Its id.
    pub id: Uuid,
    /// 1, 2, 3... within the stop.
    pub number: u32,
    /// Reading and share.
    pub head: Head,
    /// Marks.
    pub flags: Vec<Flag>,
    /// Free words.
    pub note: Option<String>,
    /// When it was stored.
    pub recorded_at: DateTime<FixedOffset>,
    /// Whether it was corrected since.
    pub corrected: bool,
}

/// After a head was stored or corrected.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct HeadSaved {
    /// Of which walk.
    pub walk: Uuid,
    /// At which stop.
    pub stop: Uuid,
    /// The head as stored.
    pub head: HeadView,
    /// The answer with it.
    pub now: Answers,
    /// What `undo` would take back.
    pub undo: Option<UndoWhat>,
}

/// What an undo would take back.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum UndoWhat {
    /// The last head.
    Head,
    /// The last correction.
    Correction,
    /// The last removal.
    Removal,
    /// The last stop.
    Stop,
    /// The last photo.
    Photo,
}

/// What a head file holds, and what of it is stored.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct HeadFileReview {
    /// Good rows.
    pub heads: u32,
    /// Walks (planting and date) among them.
    pub walks: u32,
    /// Stops among them.
    pub stops: u32,
    /// Plantings that the notebook did not have.
    pub new_plantings: Vec<String>,
    /// Good rows that the notebook already holds, not stored again.
    pub already_here: u32,
    /// Rows whose latitude and longitude seem to be swapped: good ones far from every
    /// place of the notebook, and near one the other way round, and in a review also
    /// refused ones that are a place only the other way round. An import stores nothing
    /// while there are any.
    pub swapped_places: u32,
    /// Number of rows refused.
    pub refused: u32,
    /// The first of the refused rows, at most 100.
    pub refused_rows: Vec<RefusedRow>,
}

/// What a planting file held, and what of it was new.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct PlantingFileReview {
    /// Good rows.
    pub plantings: u32,
    /// Plantings that the notebook did not have.
    pub new_plantings: Vec<String>,
    /// Plantings of which the file said something new.
    pub updated: u32,
    /// Number of rows refused.
    pub refused: u32,
    /// The first of the refused rows, at most 100.
    pub refused_rows: Vec<RefusedRow>,
}

/// A row that was not used.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct RefusedRow {
    /// Line of the file, the header being line 1.
    pub line: u32,
    /// Why, in one line.
    pub reason: String,
}
