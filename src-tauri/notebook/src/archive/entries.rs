//! The archive's entries, checked before they are believed.

use std::collections::BTreeSet;
use std::io::{self, BufReader, Read, Seek};

use sha2::{Digest as _, Sha256};
use zip::{CompressionMethod, ZipArchive};

use super::manifest::{Entry, Manifest, hex};
use super::{ArchiveFault, FORMAT, LOG, MANIFEST, VERSION};

/// Most entries: a season's photos pass.
const MOST_ENTRIES: usize = 200_000;
/// Longest name.
const LONGEST_NAME: usize = 200;
/// Most bytes of all entries together.
const MOST_BYTES: u64 = 16 << 30;
/// Above so many bytes, an archive that unpacks to more than so many times its
/// size is taken for one that is meant to fill the device: tables and logs pack
/// to a tenth, photos hardly at all.
const SMALL: u64 = 64 << 20;
const MOST_TIMES: u64 = 300;
/// Most bytes of the list of contents.
const MOST_MANIFEST: u64 = 64 << 20;

/// An archive whose list of contents fits its entries.
pub(super) struct Entries<R> {
    zip: ZipArchive<R>,
    pub manifest: Manifest,
}

impl<R: Read + Seek> Entries<R> {
    /// Opens an archive and checks names, packing and list of contents; of the
    /// entries nothing but the list is read.
    pub(super) fn open(from: R) -> Result<Entries<R>, ArchiveFault> {
        let mut zip = ZipArchive::new(from)?;
        if zip.len() > MOST_ENTRIES {
            return Err(ArchiveFault::TooLarge {
                most: MOST_BYTES >> 20,
            });
        }
        let mut names = BTreeSet::new();
        let (mut bytes, mut packed): (u64, u64) = (0, 0);
        for at in 0..zip.len() {
            let entry = zip.by_index_raw(at)?;
            let name = String::from_utf8_lossy(entry.name_raw()).into_owned();
            if !is_plain(&name) || !names.insert(name.clone()) {
                return Err(ArchiveFault::Name(shown(&name)));
            }
            let what = if entry.encrypted() {
                Some("encrypted")
            } else if !entry.is_file() || entry.is_symlink() {
                Some("no plain file")
            } else if ![CompressionMethod::Stored, CompressionMethod::Deflated]
                .contains(&entry.compression())
            {
                Some("packed in a way that is not used")
            } else {
                None
            };
            if let Some(what) = what {
                return Err(ArchiveFault::Packed { name, what });
            }
            bytes = bytes.saturating_add(entry.size());
            packed = packed.saturating_add(entry.compressed_size());
        }
        let most = MOST_BYTES.min(SMALL.max(packed.saturating_mul(MOST_TIMES)));
        if bytes > most {
            return Err(ArchiveFault::TooLarge { most: most >> 20 });
        }
        for needed in [MANIFEST, LOG] {
            if !names.remove(needed) {
                return Err(ArchiveFault::EntryMissing(needed));
            }
        }
        if zip.has_overlapping_entries()? {
            return Err(ArchiveFault::Packed {
                name: "a part".to_owned(),
                what: "packed twice in one place",
            });
        }
        let manifest = manifest(&mut zip)?;
        let listed: BTreeSet<&str> = manifest
            .entries
            .iter()
            .map(|entry| entry.name.as_str())
            .collect();
        if listed.len() != manifest.entries.len() {
            return Err(ArchiveFault::Manifest("an entry stands twice".to_owned()));
        }
        let found: BTreeSet<&str> = names.iter().map(String::as_str).chain([LOG]).collect();
        if let Some(name) = listed.symmetric_difference(&found).next() {
            return Err(ArchiveFault::Manifest(format!(
                "'{}' is listed or there, but not both",
                shown(name)
            )));
        }
        Ok(Entries { zip, manifest })
    }

    /// Reads every entry to its end and compares it with the list of contents.
    pub(super) fn check_all(
        &mut self,
        mut going_on: impl FnMut(u64) -> bool,
    ) -> Result<(), ArchiveFault> {
        let mut read: u64 = 0;
        for at in 0..self.manifest.entries.len() {
            let Some(listed) = self.manifest.entries.get(at).cloned() else {
                break;
            };
            self.with(&listed.name.clone(), |entry| {
                let mut hash = Sha256::new();
                let mut size: u64 = 0;
                let mut piece = vec![0; 64 * 1024];
                loop {
                    let got = read_some(entry, &mut piece, &listed.name)?;
                    if got == 0 {
                        break;
                    }
                    size += got as u64;
                    read += got as u64;
                    // No further than said, whatever it would unpack to.
                    if size > listed.size {
                        return Err(ArchiveFault::Damaged(listed.name.clone()));
                    }
                    hash.update(&piece[..got]);
                    if !going_on(read) {
                        return Err(ArchiveFault::Stopped);
                    }
                }
                if size != listed.size || hex(&hash.finalize()) != listed.sha256 {
                    return Err(ArchiveFault::Damaged(listed.name.clone()));
                }
                Ok(())
            })?;
        }
        Ok(())
    }

    /// Works on the content of one entry that was checked.
    pub(super) fn with<T>(
        &mut self,
        name: &str,
        work: impl FnOnce(&mut dyn Read) -> Result<T, ArchiveFault>,
    ) -> Result<T, ArchiveFault> {
        let mut entry = self.zip.by_name(name)?;
        work(&mut entry)
    }

    /// The log, buffered.
    pub(super) fn log<T>(
        &mut self,
        work: impl FnOnce(BufReader<&mut dyn Read>) -> Result<T, ArchiveFault>,
    ) -> Result<T, ArchiveFault> {
        self.with(LOG, |entry| work(BufReader::with_capacity(1 << 16, entry)))
    }

    /// What the list says of an entry.
    pub(super) fn listed(&self, name: &str) -> Option<&Entry> {
        self.manifest
            .entries
            .iter()
            .find(|entry| entry.name == name)
    }
}

fn manifest<R: Read + Seek>(zip: &mut ZipArchive<R>) -> Result<Manifest, ArchiveFault> {
    /// What every version has.
    #[derive(serde::Deserialize)]
    struct Any {
        format: String,
        version: u32,
    }
    let mut text = Vec::new();
    let mut entry = zip.by_name(MANIFEST)?;
    let unreadable = |error: &dyn std::fmt::Display| ArchiveFault::Manifest(error.to_string());
    let got = io::copy(
        &mut Read::by_ref(&mut entry).take(MOST_MANIFEST + 1),
        &mut text,
    )
    .map_err(|_| ArchiveFault::Damaged(MANIFEST.to_owned()))?;
    if got > MOST_MANIFEST {
        return Err(ArchiveFault::TooLarge {
            most: MOST_MANIFEST >> 20,
        });
    }
    let any: Any = serde_json::from_slice(&text).map_err(|error| unreadable(&error))?;
    if any.format != FORMAT {
        return Err(ArchiveFault::Manifest(format!(
            "its form is '{}'",
            shown(&any.format)
        )));
    }
    if any.version > VERSION || any.version == 0 {
        return Err(ArchiveFault::FromNewerApp {
            found: any.version,
            known: VERSION,
        });
    }
    serde_json::from_slice(&text).map_err(|error| unreadable(&error))
}

/// A read whose failure is told as damage of the entry.
fn read_some(from: &mut dyn Read, to: &mut [u8], name: &str) -> Result<usize, ArchiveFault> {
    loop {
        match from.read(to) {
            Err(error) if error.kind() == io::ErrorKind::Interrupted => {}
            Err(error) => {
                return Err(match ArchiveFault::from(error) {
                    ArchiveFault::NoArchive(_) => ArchiveFault::Damaged(name.to_owned()),
                    other => other,
                });
            }
            Ok(got) => return Ok(got),
        }
    }
}

/// Letters, digits, `.`, `-`, `_`, and at most one `/` in the middle: nothing
/// that any system takes for a way out.
fn is_plain(name: &str) -> bool {
    let part = |part: &str| {
        !part.is_empty()
            && !part.starts_with('.')
            && part
                .bytes()
                .all(|byte| byte.is_ascii_alphanumeric() || b".-_".contains(&byte))
    };
    let parts: Vec<&str> = name.split('/').collect();
    name.len() <= LONGEST_NAME && parts.len() <= 2 && parts.into_iter().all(part)
}

/// A name that may be put into a message.
fn shown(name: &str) -> String {
    let short: String = name.chars().take(60).collect();
    short.escape_debug().to_string()
}
