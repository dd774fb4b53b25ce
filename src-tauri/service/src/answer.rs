//! What the notebook answers.

use chrono::NaiveDate;
use serde::{Deserialize, Serialize};
use uuid::Uuid;

use crate::files_in::pages::{HeadFileReview, PlantingFileReview};
use crate::harvest::{
    DryDownPage, GrainMoney, HarvestOrderPage, HarvestPage, ObservationsPage, TermsPage,
    WhatIfAnswer,
};
use crate::history::pages::{HistoryPage, WalkComparison};
use crate::jobs::Progress;
use crate::photos::pages::{PhotoAdded, PhotoStorage, PhotoView};
use crate::places::pages::{NearPlanting, OutlineFileReview, PlantingMapPage, StopPlanPage};
use crate::plantings::pages::{DuplicatePair, PlantingBrief, PlantingPage, PlantingRow};
use crate::safekeeping::pages::{
    BackupRow, NotebookCheck, RestoreReport, Safekeeping, SalvageReport,
};
use crate::safekeeping::set_aside_pages::SetAsidePage;
use crate::season::pages::{HeatSetRow, HybridPage, HybridRow};
use crate::walks::pages::{HeadSaved, WalkPage};
use crate::weather::pages::{
    FortnightRow, NearStation, OutlookPage, StationChoice, StationRow, WeatherFileReview,
};
use kinds::Settings;
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
    /// To `settle_merge`.
    SettleMerge,
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
