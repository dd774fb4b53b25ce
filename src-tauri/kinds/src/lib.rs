//! Values that the store, the readers of files and the service share: what a planting
//! is for and how large, where a stop was, what was seen of ripe grain, what a photo is
//! called, what a person did and to which field, and what this device is set to.

mod act;
mod area;
pub mod cell;
mod detail;
mod field;
mod flags;
mod keep;
mod names;
mod observation;
mod one_line;
mod outline;
mod photo_name;
mod place;
mod purpose;
mod settings;

pub use act::Act;
pub use area::Area;
pub use detail::Detail;
pub use field::Field;
pub use flags::{flag_from_word, flag_word, flag_words};
pub use keep::Keep;
pub use observation::{Observation, Seen, SeenPart};
pub use one_line::{one_line, short};
pub use outline::{Corner, OutlineOf, Rings};
pub use photo_name::{PhotoName, PhotoNameError};
pub use place::Place;
pub use purpose::Purpose;
pub use settings::{Settings, Theme, Units};
