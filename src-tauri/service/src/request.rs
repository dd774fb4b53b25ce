//! What a face may ask of the notebook.

use chrono::NaiveDate;
use ripening::heat::MaturityClass;
use serde::{Deserialize, Serialize};
use uuid::Uuid;

use crate::files_in::PlaceOrder;
use crate::harvest::{NewObservation, TermsEdit};
use crate::history::pages::ChangeName;
use crate::photos::pages::PhotoOf;
use crate::plantings::pages::{NewPlanting, PlantingEdit};
use crate::season::pages::{HeatSetUser, NewHeatSet};
use crate::walks::pages::NewHead;
use crate::weather::pages::TypedDay;
use kinds::{OutlineOf, Place, Settings};

/// One request. Those that change something say so in their doc; their reply
/// lists what changed, so that a screen redraws only that.
///
/// A caller may choose the id of a new thing (UUIDv7). Sending the same
/// request again with the same id then changes nothing and gives the same
/// answer, so a retry after a lost reply never stores a head twice.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS), ts(optional_fields = nullable))]
#[serde(tag = "op", rename_all = "snake_case")]
pub enum Request {
    /// All plantings, the one that most needs a walk first. Answers that are not
    /// kept yet are not waited for: their rows say so ([`Request::WorkOut`]).
    Plantings,
    /// Works out a few of the answers that the list still lacks, and keeps them.
    /// Asked again until none is left, it fills the list.
    WorkOut,
    /// One planting with its walks.
    Planting {
        /// Which.
        planting: Uuid,
    },
    /// Fields of a planting to which people gave different values without having
    /// seen each other's. The latest stands; [`Request::EditPlanting`] with
    /// another settles it, and [`Request::SettleMerge`] what was merged differently.
    Conflicts {
        /// Which.
        planting: Uuid,
    },
    /// Farms, fields, hybrids and scouts known, for the pickers.
    Names,
    /// Changes: makes a planting, and its farm, field and hybrid where new.
    AddPlanting(NewPlanting),
    /// Changes: edits the named fields of a planting, the others stay.
    EditPlanting {
        /// Which.
        planting: Uuid,
        /// The new values.
        edit: PlantingEdit,
    },
    /// Changes: hides a planting and its walks; nothing is erased.
    RemovePlanting {
        /// Which.
        planting: Uuid,
    },
    /// Changes: brings back a removed planting.
    RestorePlanting {
        /// Which.
        planting: Uuid,
    },
    /// Pairs of plantings that may be one, made by two people.
    LikelyDuplicates,
    /// The plantings that were merged into one.
    MergedPlantings {
        /// The one that is shown.
        planting: Uuid,
    },
    /// Changes: shows a planting as another one, with the walks of both; what is
    /// recorded of either stays, and it can be taken back.
    MergePlantings {
        /// The one that is no longer shown by itself.
        duplicate: Uuid,
        /// The one that stays, with its name and dates.
        into: Uuid,
    },
    /// Changes: makes a merged planting one of its own again, with its walks.
    UnmergePlanting {
        /// Which.
        duplicate: Uuid,
    },
    /// Changes: chooses among what people said a planting is.
    SettleMerge {
        /// Which.
        planting: Uuid,
        /// The one into which it is merged; none: it is one of its own.
        into: Option<Uuid>,
    },
    /// Changes: starts a walk, with its first stop.
    StartWalk {
        /// Id chosen by the caller.
        id: Option<Uuid>,
        /// Where.
        planting: Uuid,
        /// Civil date; today where absent.
        walked_on: Option<NaiveDate>,
        /// Who walks; the name in the settings where absent.
        scout: Option<String>,
    },
    /// One walk with its stops and heads.
    Walk {
        /// Which.
        walk: Uuid,
    },
    /// Changes: gives a walk another date.
    CorrectWalkDate {
        /// Which.
        walk: Uuid,
        /// Civil date on which it was walked.
        walked_on: NaiveDate,
    },
    /// Changes, and facts of changes, that do not count, with the reason.
    SetAside,
    /// Changes: tells the changes of a device again that lie ahead of the clock, so that
    /// they count everywhere. Of this device, because its clock was ahead; of another,
    /// instead of waiting for them.
    TellAgain {
        /// Which.
        device: Uuid,
    },
    /// Changes: opens the next stop of a walk.
    AddStop {
        /// Id chosen by the caller.
        id: Option<Uuid>,
        /// Of which walk.
        walk: Uuid,
        /// Where, if known.
        place: Option<Place>,
    },
    /// Changes: stores a head at a stop.
    AddHead {
        /// Id chosen by the caller.
        id: Option<Uuid>,
        /// At which stop.
        stop: Uuid,
        /// What was read.
        head: NewHead,
    },
    /// Changes: replaces what a head says; the first reading is kept in the history.
    CorrectHead {
        /// Which.
        head: Uuid,
        /// What it should say.
        to: NewHead,
    },
    /// Changes: takes a head out; it is kept in the history.
    RemoveHead {
        /// Which.
        head: Uuid,
    },
    /// Changes: takes back the last thing done in a walk on this device
    /// (head, correction, removal, stop). Repeating it goes further back.
    Undo {
        /// Id of this request, chosen by the caller: sent again, it does not
        /// go a second step back.
        id: Option<Uuid>,
        /// In which walk.
        walk: Uuid,
    },
    /// Changes: marks a walk as finished.
    FinishWalk {
        /// Which.
        walk: Uuid,
    },
    /// Changes: opens a finished walk again.
    ReopenWalk {
        /// Which.
        walk: Uuid,
    },
    /// Changes: hides a walk; nothing is erased.
    RemoveWalk {
        /// Which.
        walk: Uuid,
    },
    /// Changes: brings back a removed walk.
    RestoreWalk {
        /// Which.
        walk: Uuid,
    },
    /// Reads a head file without storing anything.
    ReviewHeadFile {
        /// The file's text.
        text: String,
    },
    /// Changes: stores the good rows of a head file, all or nothing.
    ImportHeadFile {
        /// The file's text.
        text: String,
    },
    /// Reads a head file with an answer to what the review asks about its places.
    ReviewHeadFilePlaced {
        /// The file's text.
        text: String,
        /// How its latitude and longitude are taken.
        places: PlaceOrder,
    },
    /// Changes: stores the good rows of a head file with such an answer, all or nothing.
    ImportHeadFilePlaced {
        /// The file's text.
        text: String,
        /// How its latitude and longitude are taken.
        places: PlaceOrder,
    },
    /// Reads a planting file without storing anything.
    ReviewPlantingFile {
        /// The file's text.
        text: String,
    },
    /// Changes: makes the plantings of a planting file, and sets what it says
    /// of those that are there, all or nothing.
    ImportPlantingFile {
        /// The file's text.
        text: String,
    },
    /// The weather stations held.
    Stations,
    /// Stations with a known place, the nearest to this one first.
    NearestStations {
        /// Where.
        place: Place,
    },
    /// Changes: gives a station a place.
    PlaceStation {
        /// Its name.
        name: String,
        /// Where.
        place: Place,
    },
    /// Changes: says which station's weather counts for a planting; none leaves
    /// the choice to the app (the nearest to its stops, or the only one).
    UseStation {
        /// For which planting.
        planting: Uuid,
        /// The station's name.
        station: Option<String>,
        /// For every planting of its field that names none itself, rather than for
        /// this planting alone.
        #[serde(default)]
        whole_field: bool,
    },
    /// Stations as a planting may choose among them, the nearest first.
    StationChoice {
        /// For which planting.
        planting: Uuid,
    },
    /// Changes: stores one day's weather typed on the phone.
    TypeWeather(TypedDay),
    /// Reads a weather file (the app's table, or GHCN-Daily) without storing
    /// anything.
    ReviewWeatherFile {
        /// The file's text.
        text: String,
        /// Name of the station, where the file names none.
        station: Option<String>,
        /// Id of this work, as with the import.
        job: Option<Uuid>,
    },
    /// Changes: stores what is new of a weather file, all or nothing.
    ImportWeatherFile {
        /// The file's text.
        text: String,
        /// Name of the station, where the file names none.
        station: Option<String>,
        /// Refuses the whole file for the first bad row.
        #[serde(default)]
        strict: bool,
        /// Id of this work, chosen by the caller, to ask how far it is or to stop
        /// it while it runs.
        job: Option<Uuid>,
    },
    /// How far a work is; answered while it runs.
    JobProgress {
        /// Which.
        job: Uuid,
    },
    /// Stops a work, which then stores nothing; one that is nearly done may still
    /// be done. Answered while it runs.
    StopJob {
        /// Which.
        job: Uuid,
    },
    /// The heat sets: published ones, and this notebook's own.
    HeatSets,
    /// Changes: makes a heat set of the notebook's own, or edits one.
    SaveHeatSet {
        /// Id of the set, chosen by the caller where it is new.
        id: Uuid,
        /// All of it.
        set: NewHeatSet,
    },
    /// Changes: hides a heat set; what went by it falls back to the next choice.
    RemoveHeatSet {
        /// Which.
        id: Uuid,
    },
    /// Changes: brings back a removed heat set.
    RestoreHeatSet {
        /// Which.
        id: Uuid,
    },
    /// Changes: chooses the heat set of the notebook, a hybrid or a planting; none
    /// leaves it to the wider choice.
    UseHeatSet {
        /// For what.
        by: HeatSetUser,
        /// Key of the set.
        set: Option<String>,
    },
    /// The hybrids.
    Hybrids,
    /// What is known of one hybrid, and what its plantings have shown.
    Hybrid {
        /// Which.
        hybrid: Uuid,
        /// The day it is asked for; today where absent. Nothing later counts.
        as_of: Option<NaiveDate>,
    },
    /// Changes: gives a hybrid a maturity class, or takes it away.
    SetMaturity {
        /// Which.
        hybrid: Uuid,
        /// Its class.
        maturity: Option<MaturityClass>,
    },
    /// Dates of a planting's stages and grain moistures, with its windows.
    Outlook {
        /// Which.
        planting: Uuid,
        /// The day it is made for; today where absent. Nothing later counts.
        as_of: Option<NaiveDate>,
    },
    /// Over all plantings, the windows that may be open in the next fortnight.
    Fortnight {
        /// Its first day; today where absent.
        as_of: Option<NaiveDate>,
    },
    /// What was seen of a planting's ripe grain: moisture readings, counts on the
    /// ground, scores of its standing.
    Observations {
        /// Which.
        planting: Uuid,
    },
    /// Changes: stores an observation of ripe grain.
    Observe {
        /// Id chosen by the caller.
        id: Option<Uuid>,
        /// Of which planting.
        planting: Uuid,
        /// What was seen.
        seen: NewObservation,
    },
    /// Changes: replaces what an observation says; what it said first is kept in
    /// the history.
    CorrectObserved {
        /// Which.
        id: Uuid,
        /// What it should say.
        to: NewObservation,
    },
    /// Changes: takes an observation out; it is kept in the history.
    RemoveObserved {
        /// Which.
        id: Uuid,
    },
    /// Changes: takes back the last thing done about a planting's harvest on
    /// this device (observation, correction, removal, terms), or the last terms
    /// of all plantings. Repeating it goes further back.
    UndoHarvest {
        /// Id of this request, chosen by the caller: sent again, it does not
        /// go a second step back.
        id: Option<Uuid>,
        /// Of which planting; absent for the terms of all.
        planting: Option<Uuid>,
    },
    /// Moisture of a planting's grain today and over the days ahead.
    DryDown {
        /// Which.
        planting: Uuid,
        /// The day it is made for; today where absent. Nothing later counts.
        as_of: Option<NaiveDate>,
    },
    /// When to cut a planting: money by day, and what it hangs on.
    Harvest {
        /// Which.
        planting: Uuid,
        /// The day it is made for; today where absent.
        as_of: Option<NaiveDate>,
    },
    /// The same with other terms, of which nothing is stored. Quick, but for
    /// the sensitivity.
    WhatIf {
        /// Which planting.
        planting: Uuid,
        /// The day it is made for; today where absent.
        as_of: Option<NaiveDate>,
        /// The terms to try out.
        edit: TermsEdit,
        /// Whether to add how much hangs on each input, which takes longer than
        /// a thumb waits.
        settled: bool,
    },
    /// What harvests are weighed by: for one planting, or for all.
    HarvestTerms {
        /// Which; absent for all.
        planting: Option<Uuid>,
    },
    /// Changes: sets terms, for one planting or for all.
    SetHarvestTerms {
        /// Which; absent for all.
        planting: Option<Uuid>,
        /// The new terms.
        edit: TermsEdit,
    },
    /// Which planting is cut first, by one combine and one dryer.
    HarvestOrder {
        /// The day it is made for; today where absent.
        as_of: Option<NaiveDate>,
    },
    /// What grain of a moisture is worth, with every formula and its numbers.
    GrainMoney {
        /// By the terms of which planting; absent for those of all.
        planting: Option<Uuid>,
        /// Percent wet basis.
        moisture: f64,
        /// Temperature to store it at, degrees F, to add how long it keeps.
        storage_temp_f: Option<f64>,
    },
    /// Changes: says where a stop is, when the position came late or was better
    /// than the one before.
    PlaceStop {
        /// Which stop.
        stop: Uuid,
        /// Where.
        place: Place,
    },
    /// Plantings with a known place, the nearest to this one first, at most five.
    NearestPlantings {
        /// Where.
        place: Place,
    },
    /// A planting's outline, and the stops of its walks that have a place.
    PlantingMap {
        /// Which.
        planting: Uuid,
    },
    /// Where to stop: inside the planting's outline, else in rows and paces.
    StopPlan {
        /// In which planting.
        planting: Uuid,
        /// For which walk: it keeps its plan for as long as it is open.
        walk: Option<Uuid>,
        /// Where the scout stands, where the plan should begin.
        from: Option<Place>,
        /// Rows of the part that is walked, where there is no outline.
        rows: Option<u32>,
        /// Paces along its rows.
        paces: Option<u32>,
    },
    /// Changes: takes out an outline; it is kept in the history.
    RemoveOutline {
        /// Whose.
        of: OutlineOf,
    },
    /// Photos of a planting with all its walks, of one stop, or of one head.
    Photos {
        /// Of what.
        of: PhotoOf,
    },
    /// Changes: writes a photo's caption; blank takes it out.
    CaptionPhoto {
        /// Which.
        photo: Uuid,
        /// What it shows.
        caption: String,
    },
    /// Changes: takes a photo out; it is kept in the history.
    RemovePhoto {
        /// Which.
        photo: Uuid,
    },
    /// Changes: brings a removed photo back.
    RestorePhoto {
        /// Which.
        photo: Uuid,
    },
    /// Asks for a photo whose room was freed: the next exchange fetches it.
    WantPhoto {
        /// Which.
        photo: Uuid,
    },
    /// Room that photos take.
    PhotoStorage,
    /// Where the notebook lies, its backups, its last check.
    Safekeeping,
    /// Makes a backup in the notebook's own folder of backups, while the notebook
    /// stays in use.
    BackUp,
    /// Looks at the whole notebook: the file, the log, and whether what is shown is
    /// what the log says. What is not is made anew from it.
    CheckNotebook {
        /// Only where none was made today; the last one is told otherwise.
        only_if_due: bool,
    },
    /// Tries once more to open a notebook that could not be opened.
    OpenAgain,
    /// Changes: sets a damaged notebook aside (it is never deleted) and carries
    /// everything that can still be read into a new one.
    Salvage,
    /// The backups, where the notebook does not open too.
    Backups,
    /// Changes: sets the notebook aside (it is never deleted) and puts a backup in its
    /// place; a damaged one too.
    RestoreBackup {
        /// Its name, one of those of `backups`.
        name: String,
    },
    /// The changes of a planting and its walks, the latest first, page by page.
    History {
        /// Which planting; a removed one too.
        planting: Uuid,
        /// Where the last page ended; none for the first.
        before: Option<ChangeName>,
        /// Most changes wanted, 1-500; 50 where absent.
        limit: Option<u32>,
    },
    /// Changes: takes back what of a change of this device still stands. Sent
    /// again, it does nothing more.
    TakeBack {
        /// The planting in whose history it is.
        planting: Uuid,
        /// The change's number in this device's series.
        seq: u64,
    },
    /// Two walks of a planting side by side.
    CompareWalks {
        /// One.
        one: Uuid,
        /// The other, in any order.
        other: Uuid,
    },
    /// Plantings, walks and notes that hold words beginning like those of a text.
    Search {
        /// What to look for.
        text: String,
    },
    /// The settings of this device.
    Settings,
    /// Changes: keeps the settings of this device (never exchanged).
    SaveSettings(Settings),
}

/// How soon an answer must come.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Pace {
    /// At once: a change, or a question about the walk in hand.
    Tap,
    /// A question about walks that are over.
    List,
    /// A question about a season ahead, a whole file or the whole notebook, that may
    /// need seconds.
    Study,
    /// A question about the days ahead of every planting: the longest, and asked
    /// before anybody waits for it.
    Round,
}

impl Request {
    /// Whether it is carried out in order with the taps; the others only read.
    pub fn is_tap(&self) -> bool {
        self.pace() == Pace::Tap
    }

    pub(crate) fn pace(&self) -> Pace {
        match self {
            Request::Plantings
            | Request::WorkOut
            | Request::Planting { .. }
            | Request::NearestPlantings { .. }
            | Request::PlantingMap { .. }
            | Request::StopPlan { .. }
            | Request::Photos { .. }
            | Request::PhotoStorage
            | Request::Conflicts { .. }
            | Request::LikelyDuplicates
            | Request::MergedPlantings { .. }
            | Request::Stations => Pace::List,
            Request::Fortnight { .. } | Request::HarvestOrder { .. } => Pace::Round,
            Request::Outlook { .. }
            | Request::DryDown { .. }
            | Request::Harvest { .. }
            | Request::WhatIf { .. }
            | Request::Hybrid { .. }
            | Request::ReviewHeadFile { .. }
            | Request::ReviewHeadFilePlaced { .. }
            // Taps come in between its lots.
            | Request::ImportHeadFile { .. }
            | Request::ImportHeadFilePlaced { .. }
            | Request::ImportPlantingFile { .. }
            | Request::ImportWeatherFile { .. }
            | Request::ReviewPlantingFile { .. }
            | Request::CompareWalks { .. }
            | Request::ReviewWeatherFile { .. }
            | Request::Safekeeping
            | Request::BackUp
            | Request::CheckNotebook { .. } => Pace::Study,
            Request::Names | Request::AddPlanting(_) | Request::EditPlanting { .. } | Request::RemovePlanting { .. } | Request::RestorePlanting { .. } | Request::MergePlantings { .. } | Request::UnmergePlanting { .. } | Request::SettleMerge { .. } | Request::StartWalk { .. } | Request::Walk { .. } | Request::CorrectWalkDate { .. } | Request::SetAside | Request::TellAgain { .. } | Request::AddStop { .. } | Request::AddHead { .. } | Request::CorrectHead { .. } | Request::RemoveHead { .. } | Request::Undo { .. } | Request::FinishWalk { .. } | Request::ReopenWalk { .. } | Request::RemoveWalk { .. } | Request::RestoreWalk { .. } | Request::NearestStations { .. } | Request::PlaceStation { .. } | Request::UseStation { .. } | Request::StationChoice { .. } | Request::TypeWeather(_) | Request::JobProgress { .. } | Request::StopJob { .. } | Request::HeatSets | Request::SaveHeatSet { .. } | Request::RemoveHeatSet { .. } | Request::RestoreHeatSet { .. } | Request::UseHeatSet { .. } | Request::Hybrids | Request::SetMaturity { .. } | Request::Observations { .. } | Request::Observe { .. } | Request::CorrectObserved { .. } | Request::RemoveObserved { .. } | Request::UndoHarvest { .. } | Request::HarvestTerms { .. } | Request::SetHarvestTerms { .. } | Request::GrainMoney { .. } | Request::PlaceStop { .. } | Request::RemoveOutline { .. } | Request::CaptionPhoto { .. } | Request::RemovePhoto { .. } | Request::RestorePhoto { .. } | Request::WantPhoto { .. } | Request::OpenAgain | Request::Salvage | Request::Backups | Request::RestoreBackup { .. } | Request::History { .. } | Request::TakeBack { .. } | Request::Search { .. } | Request::Settings | Request::SaveSettings(_) => Pace::Tap,
        }
    }
}
