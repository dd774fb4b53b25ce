//! The field sheet: one printed page about one planting, for the grower.
//!
//! It says where the planting stands and how sure that is, when the next things
//! come as spans, what windows are near with who decides, where the heads were
//! read, and what is not known. Everything on it comes in as a parameter, the time
//! too, so the same input gives the same bytes on every phone.
//!
//! The stage line is the one of the screens: a band with two ends, its middle,
//! earlier walks fainter below, lightness falling and a pattern for each stretch,
//! so that it reads in black and white.
//!
//! Text is set in Source Sans 3 (SIL Open Font License 1.1, `fonts/OFL.txt`),
//! of which the letters used are embedded.

mod compose;
mod line;
mod map;
mod pen;
mod sentences;

use chrono::{DateTime, FixedOffset, NaiveDate};
use ripening::outlook::{Outlook, Why};
use ripening::windows::MoneyWindow;
use ripening::{Band, WholeField};
use thiserror::Error;
use words::Language;

pub use compose::draw;

/// The size of the page.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Paper {
    /// 210 by 297 mm.
    A4,
    /// 8.5 by 11 inches.
    Letter,
}

/// The units on the sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Units {
    /// Degrees F, acres, feet.
    Us,
    /// Degrees C, hectares, meters.
    Metric,
}

/// How the sheet is to look.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Form {
    /// Size of the page.
    pub paper: Paper,
    /// Its language.
    pub language: Language,
    /// Its units.
    pub units: Units,
}

/// What the planting is grown for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Purpose {
    /// Dry grain.
    Grain,
    /// Whole-plant silage.
    Silage,
    /// Seed.
    Seed,
}

/// Everything on the sheet.
#[derive(Debug, Clone, PartialEq)]
pub struct Sheet {
    /// Name of the planting.
    pub name: String,
    /// Hybrid.
    pub hybrid: Option<String>,
    /// Field.
    pub field: Option<String>,
    /// Farm.
    pub farm: Option<String>,
    /// What it is grown for.
    pub purpose: Purpose,
    /// Planting date.
    pub planted_on: Option<NaiveDate>,
    /// Area, hectares.
    pub hectares: Option<f64>,
    /// The latest walk with heads.
    pub walk: Option<Walk>,
    /// Position bands of the walks before it, oldest first.
    pub earlier: Vec<Band>,
    /// The day of the sheet and of its outlook.
    pub as_of: NaiveDate,
    /// Dates of what comes, or why there are none.
    pub outlook: Result<Outlook, Why>,
    /// Windows that cost money.
    pub windows: Vec<MoneyWindow>,
    /// Whether a meter's readings of its grain are in the notebook.
    pub moisture_measured: bool,
    /// The field's outline: rings of (longitude, latitude), degrees.
    pub outline: Vec<Vec<(f64, f64)>>,
    /// Pictures, best first.
    pub photos: Vec<Photo>,
    /// When the sheet was made.
    pub made_at: DateTime<FixedOffset>,
    /// Who made it.
    pub made_by: String,
}

/// The walk that the sheet tells of.
#[derive(Debug, Clone, PartialEq)]
pub struct Walk {
    /// Its date.
    pub on: NaiveDate,
    /// Who walked.
    pub scout: String,
    /// Heads read.
    pub heads: u32,
    /// Stops with heads.
    pub stops: u32,
    /// The answer to go by.
    pub field: WholeField,
    /// Whether its heads contradict the earlier walks.
    pub contradicts: bool,
    /// Stops whose place is known: number, longitude, latitude.
    pub places: Vec<(u32, f64, f64)>,
}

/// A picture.
#[derive(Debug, Clone, PartialEq)]
pub struct Photo {
    /// As JPEG.
    pub jpeg: Vec<u8>,
    /// A line below it.
    pub caption: String,
}

/// Why a sheet was not made.
#[derive(Debug, Error)]
pub enum SheetError {
    /// The bundled font is damaged.
    #[error("the font of the field sheet cannot be used: install the app again")]
    Font,
    /// The page could not be written.
    #[error("the field sheet cannot be written: {0}")]
    Pdf(String),
}
