//! Values that the store, the readers of files and the service share: what a planting
//! is for and how large, where a stop was, what was seen of ripe grain, what a photo is
//! called, and what this device is set to.

mod area;
pub mod cell;
mod flags;
mod keep;
mod observation;
mod one_line;
mod outline;
mod photo_name;
mod place;
mod purpose;
mod settings;

pub use area::Area;
pub use flags::{flag_from_word, flag_word, flag_words};
pub use keep::Keep;
pub use observation::{Observation, Seen};
pub use one_line::{one_line, short};
pub use outline::{Corner, OutlineOf, Rings};
pub use photo_name::{PhotoName, PhotoNameError};
pub use place::Place;
pub use purpose::Purpose;
pub use settings::{Settings, Theme, Units};
