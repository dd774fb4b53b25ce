//! Writing an archive.

use std::io::{self, Seek, SeekFrom, Write};

use ripening::temperature::TempUnit;
use sha2::{Digest as _, Sha256};
use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, DateTime, ZipWriter};

use super::manifest::{Entry, MadeBy, Manifest, Series, hex};
use super::{
    FORMAT, LOG, MANIFEST, READABLE, README, README_NAME, SEALS, SETTINGS, VERSION, line, seals,
};
use crate::Notebook;
use crate::export::{self, ExportError};
use crate::log::{self, each_in_order};
use crate::views::photos;
use kinds::Settings;

/// Writes the whole notebook, all of it from one moment.
///
/// # Errors
/// When the notebook cannot be read or the file not be written; the file is of
/// no use then.
pub fn write(
    notebook: &Notebook,
    settings: &Settings,
    to: &mut (impl Write + Seek),
) -> Result<(), ExportError> {
    // One reading transaction, so that a change made meanwhile by another
    // process is in every entry or in none.
    let moment = notebook.db().unchecked_transaction()?;
    let db = &*moment;
    let mut archive = Archive {
        zip: ZipWriter::new(UntilFailed {
            to,
            failed: false,
            at: 0,
        }),
        entries: Vec::new(),
    };
    archive.entry(README_NAME, |to| Ok(to.write_all(README.as_bytes())?))?;
    let mut version = READABLE;
    archive.entry(LOG, |to| {
        each_in_order(db, |change| -> Result<(), ExportError> {
            if change.raw.is_some() {
                version = VERSION;
            }
            to.write_all(line::write(change)?.as_bytes())?;
            Ok(to.write_all(b"\n")?)
        })
    })?;
    archive.entry(SEALS, |to| {
        serde_json::to_writer_pretty(&mut *to, &seals::list(notebook)?)?;
        Ok(to.write_all(b"\n")?)
    })?;
    archive.entry(SETTINGS, |to| {
        serde_json::to_writer_pretty(&mut *to, settings)?;
        Ok(to.write_all(b"\n")?)
    })?;
    archive.entry("plantings.csv", |to| export::plantings(db, to).map(|_| ()))?;
    archive.entry("heads.csv", |to| export::heads(db, to).map(|_| ()))?;
    for unit in export::stored_units(db)? {
        let name = match unit {
            TempUnit::Fahrenheit => "weather-f.csv",
            TempUnit::Celsius => "weather-c.csv",
        };
        archive.entry(name, |to| export::weather(db, unit, false, to).map(|_| ()))?;
    }
    archive.entry("observations.csv", |to| {
        export::observations(db, to).map(|_| ())
    })?;
    archive.entry("stops.geojson", |to| export::stops(db, to).map(|_| ()))?;
    archive.entry("outlines.geojson", |to| {
        export::outlines(db, to).map(|_| ())
    })?;
    archive.entry("photos.csv", |to| export::photos(db, to).map(|_| ()))?;
    if let Some(files) = &notebook.photos {
        for (name, _) in files.all()? {
            // One that was freed since, or is damaged, is left out.
            if let Ok(Some(photo)) = files.read(name)
                && photos::is_named(db, name)?
            {
                archive.packed(&export::photo_file(name), CompressionMethod::Stored, |to| {
                    Ok(to.write_all(&photo)?)
                })?;
            }
        }
    }

    let manifest = Manifest {
        format: FORMAT.to_owned(),
        version,
        made_at: notebook.clock().now(),
        made_by: MadeBy {
            device: notebook.device(),
            program: format!("headwalk {}", env!("CARGO_PKG_VERSION")),
        },
        series: log::heads(db)?
            .into_iter()
            .map(|(device, head)| {
                let series = Series {
                    changes: head.seq,
                    digest: hex(&head.digest),
                };
                (device, series)
            })
            .collect(),
        entries: std::mem::take(&mut archive.entries),
    };
    archive.entry(MANIFEST, |to| {
        serde_json::to_writer_pretty(&mut *to, &manifest)?;
        Ok(to.write_all(b"\n")?)
    })?;
    archive.zip.finish()?.flush()?;
    Ok(())
}

/// A zip writer that is dropped after a failure tries to end its file, and tells on
/// standard error that it cannot. What failed is told once, by who asked for the file.
struct UntilFailed<'a, W: Write + Seek> {
    to: &'a mut W,
    failed: bool,
    /// Where the next byte would go.
    at: u64,
}

impl<W: Write + Seek> UntilFailed<'_, W> {
    fn watch<T>(&mut self, done: io::Result<T>) -> io::Result<T> {
        let passing = io::ErrorKind::Interrupted;
        self.failed |= done.as_ref().is_err_and(|error| error.kind() != passing);
        done
    }
}

impl<W: Write + Seek> Write for UntilFailed<'_, W> {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        let taken = if self.failed {
            bytes.len()
        } else {
            let done = self.to.write(bytes);
            self.watch(done)?
        };
        self.at += taken as u64;
        Ok(taken)
    }

    fn flush(&mut self) -> io::Result<()> {
        if self.failed {
            return Ok(());
        }
        let done = self.to.flush();
        self.watch(done)
    }
}

impl<W: Write + Seek> Seek for UntilFailed<'_, W> {
    fn seek(&mut self, to: SeekFrom) -> io::Result<u64> {
        self.at = if self.failed {
            match to {
                SeekFrom::Start(at) => at,
                SeekFrom::Current(by) | SeekFrom::End(by) => self.at.saturating_add_signed(by),
            }
        } else {
            let done = self.to.seek(to);
            self.watch(done)?
        };
        Ok(self.at)
    }
}

struct Archive<W: Write + Seek> {
    zip: ZipWriter<W>,
    entries: Vec<Entry>,
}

impl<W: Write + Seek> Archive<W> {
    fn entry(
        &mut self,
        name: &str,
        content: impl FnOnce(&mut dyn Write) -> Result<(), ExportError>,
    ) -> Result<(), ExportError> {
        self.packed(name, CompressionMethod::Deflated, content)
    }

    fn packed(
        &mut self,
        name: &str,
        method: CompressionMethod,
        content: impl FnOnce(&mut dyn Write) -> Result<(), ExportError>,
    ) -> Result<(), ExportError> {
        let options = SimpleFileOptions::default()
            .compression_method(method)
            .last_modified_time(DateTime::default())
            .unix_permissions(0o644)
            .large_file(true);
        self.zip.start_file(name, options)?;
        let mut counted = Counted {
            to: &mut self.zip,
            size: 0,
            hash: Sha256::new(),
        };
        content(&mut counted)?;
        self.entries.push(Entry {
            name: name.to_owned(),
            size: counted.size,
            sha256: hex(&counted.hash.finalize()),
        });
        Ok(())
    }
}

/// Counts and digests what goes through.
struct Counted<'a, W: Write> {
    to: &'a mut W,
    size: u64,
    hash: Sha256,
}

impl<W: Write> Write for Counted<'_, W> {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        let taken = self.to.write(bytes)?;
        self.hash.update(&bytes[..taken]);
        self.size += taken as u64;
        Ok(taken)
    }

    fn flush(&mut self) -> io::Result<()> {
        self.to.flush()
    }
}
