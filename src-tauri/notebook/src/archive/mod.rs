//! The whole notebook in one file that can be read without this program.
//!
//! # Form, versions 1 and 2
//!
//! A zip file. Names are ASCII without folders but for those said here; entries
//! are stored or deflated, neither encrypted nor linked, and carry no times, so
//! that the same notebook gives the same bytes.
//!
//! - `README.txt`: what is in it, for people.
//! - `log.jsonl`: the truth. One change a line in order of arrival, as a JSON
//!   object: `device`, `seq`, `hlc`, `recorded_ms`, `offset_min`, `kind`, and
//!   `body`, a string that holds the change's own JSON byte for byte. Each
//!   device's changes are there from 1 on without a gap. In version 2, a change that the
//!   writing program could not read carries its bytes as they came, as hexadecimal
//!   digits in `raw`; only then is an archive of version 2.
//! - `seals.json`: the keys and signatures that prove who wrote which series
//!   ([`crate::seal`]): for each series that carries seals its `device`, `key`, where
//!   it is a moved branch its `origin`, and `seals`, the signatures by number.
//! - `settings.json`: the settings of the device that wrote it.
//! - `plantings.csv`, `heads.csv`, `weather-f.csv`, `weather-c.csv`: planting,
//!   head and weather files (the last two by the unit the days were given in),
//!   `observations.csv`, `photos.csv`, `stops.geojson` and `outlines.geojson` (RFC
//!   7946): what the log says, for other programs. They are not read back.
//! - `photos/HASH.jpg`: the photos that are on the device, named by the SHA-256 of
//!   the file as the log names them.
//! - `manifest.json`: `format` ("headwalk archive"), `version` (1 or 2), `made_at`,
//!   `made_by` (device and program), `series` (for each device the number of its
//!   changes and the digest of the last one, see [`crate::log::Change::digest`]),
//!   and `entries`: name, size and SHA-256 of every other entry.
//!
//! Within a version further entries and fields may come; a reader passes over
//! entries that it does not know once their digest is right. A change of what is
//! said here raises the version, and a reader refuses versions that it does not
//! know.
//!
//! # Reading
//!
//! [`read`] believes nothing: see [`fault::ArchiveFault`]. Everything is checked
//! before anything is stored. A short log is stored in one transaction; a long one page
//! by page, as an exchange would, so that no tap waits for the whole of it. An import
//! of a long one that is cut off has left the beginnings of series, which is a state
//! that an exchange leaves too, and goes on where it stopped when it is repeated. A series whose
//! writer this notebook knows takes nothing that the writer did not sign; but what
//! this device itself had not sealed yet when the archive was made is kept as a
//! series of its own.

mod entries;
mod fault;
mod line;
mod manifest;
mod read;
mod seals;
mod write;

pub use fault::ArchiveFault;
pub use read::{ArchiveReview, read};
pub use write::write;

/// What the manifest calls the form.
const FORMAT: &str = "headwalk archive";
/// The version written where every change could be read.
const READABLE: u32 = 1;
/// The newest version: of an archive with changes that could not be read.
const VERSION: u32 = 2;

const PHOTOS: &str = "photos/";
const LOG: &str = "log.jsonl";
const MANIFEST: &str = "manifest.json";
const README_NAME: &str = "README.txt";
const SETTINGS: &str = "settings.json";
const SEALS: &str = "seals.json";

/// Whether the first bytes of a zip file are those of an archive: the name of its
/// first entry stands 30 bytes from the beginning.
pub fn begins_like_one(start: &[u8]) -> bool {
    [README_NAME, LOG, MANIFEST, SETTINGS].iter().any(|name| {
        start
            .get(30..)
            .is_some_and(|rest| rest.starts_with(name.as_bytes()))
    })
}

/// What the archive says of itself to people.
const README: &str = include_str!("README.txt");
