//! The seals in an archive: by which a reader knows who wrote what is in it.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};
use uuid::Uuid;

use super::ArchiveFault;
use super::manifest::hex;
use crate::Notebook;
use crate::error::StoreError;
use crate::log::{self, Change};
use crate::seal::{self, Sealed};
use wire::seal::{Link, Origin, PublicKey, Signature, Writer};

/// One series, as `seals.json` lists it. Bytes are lower-case hexadecimal digits.
#[derive(Debug, Serialize, Deserialize)]
pub(super) struct Listed {
    device: Uuid,
    key: String,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    origin: Option<ListedOrigin>,
    /// Signatures by number.
    seals: BTreeMap<u64, String>,
}

#[derive(Debug, Serialize, Deserialize)]
struct ListedOrigin {
    device: Uuid,
    seq: u64,
    link: String,
}

/// What `seals.json` says of a notebook: the seals it keeps, and one at the end of its
/// own series where its key is at hand.
pub(super) fn list(notebook: &Notebook) -> Result<Vec<Listed>, StoreError> {
    let (db, own) = (notebook.db(), notebook.device());
    let mut all = seal::all(db)?;
    if let (Some(signer), Some(end)) = (notebook.signer(), log::heads(db)?.get(&own)) {
        let writer = seal::writer(db, own)?.unwrap_or(Writer::plain(signer.key()));
        if writer.key == signer.key() {
            let link = seal::link_at(db, own, end.seq, writer.start())?;
            let sealed = Sealed {
                series: own,
                seq: end.seq,
                signature: signer.seal(&writer, own, end.seq, link),
                link,
            };
            all.push((writer, sealed));
        }
    }
    let mut listed: BTreeMap<Uuid, Listed> = BTreeMap::new();
    for (writer, sealed) in all {
        let series = listed.entry(sealed.series).or_insert_with(|| Listed {
            device: sealed.series,
            key: hex(&writer.key.0),
            origin: writer.origin.map(|origin| ListedOrigin {
                device: origin.series,
                seq: origin.seq,
                link: hex(&origin.link.0),
            }),
            seals: BTreeMap::new(),
        });
        let signature = hex(&sealed.signature.to_bytes());
        series.seals.insert(sealed.seq, signature);
    }
    Ok(listed.into_values().collect())
}

fn bytes<const N: usize>(hex: &str) -> Option<[u8; N]> {
    let digits = hex.as_bytes();
    if digits.len() != 2 * N {
        return None;
    }
    let mut bytes = [0; N];
    for (byte, pair) in bytes.iter_mut().zip(digits.chunks(2)) {
        *byte = u8::from_str_radix(std::str::from_utf8(pair).ok()?, 16).ok()?;
    }
    Some(bytes)
}

/// A series of the archive while its changes go by.
struct Series {
    /// The writer, as this notebook knows it or else as the archive names it.
    writer: Writer,
    /// Whether this notebook knew it.
    known: bool,
    seals: BTreeMap<u64, Signature>,
    link: Link,
    /// The link before the number from which on the archive differs from what is here.
    parted: Option<Link>,
}

impl Series {
    fn last(&self) -> u64 {
        self.seals.keys().next_back().copied().unwrap_or(0)
    }
}

/// The seals of an archive, compared with its changes one by one.
pub(super) struct Seals {
    series: BTreeMap<Uuid, Series>,
    /// Those that fit.
    proved: Vec<(Writer, Sealed)>,
}

impl Seals {
    /// The seals that an archive lists, beside the keys that this notebook knows.
    pub(super) fn new(notebook: &Notebook, listed: Vec<Listed>) -> Result<Self, ArchiveFault> {
        let damaged = || ArchiveFault::Damaged(super::SEALS.to_owned());
        let mut series = BTreeMap::new();
        for (device, writer) in seal::writers(notebook.db())? {
            let known = Series {
                writer,
                known: true,
                seals: BTreeMap::new(),
                link: writer.start(),
                parted: None,
            };
            series.insert(device, known);
        }
        for one in listed {
            let origin = match one.origin {
                None => None,
                Some(origin) => Some(Origin {
                    series: origin.device,
                    seq: origin.seq,
                    link: Link(bytes(&origin.link).ok_or_else(damaged)?),
                }),
            };
            let key = PublicKey(bytes(&one.key).ok_or_else(damaged)?);
            let writer = Writer { key, origin };
            let seals = one
                .seals
                .iter()
                .map(|(seq, hex)| Some((*seq, Signature::from_bytes(bytes(hex)?))))
                .collect::<Option<BTreeMap<_, _>>>()
                .ok_or_else(damaged)?;
            let here = series.entry(one.device).or_insert_with(|| Series {
                writer,
                known: false,
                seals: BTreeMap::new(),
                link: writer.start(),
                parted: None,
            });
            if here.writer.key != key {
                return Err(ArchiveFault::OtherKey(one.device));
            }
            here.seals = seals;
        }
        Ok(Self {
            series,
            proved: Vec::new(),
        })
    }

    /// Looks at the next change of its series. `new` says that it is not here,
    /// `parted` from which number on the archive differs from what is here.
    ///
    /// A change that is new in a series whose key is known here must be covered by a
    /// seal. Answers whether it is.
    pub(super) fn look(
        &mut self,
        change: &Change,
        new: bool,
        parted: Option<u64>,
    ) -> Result<bool, ArchiveFault> {
        let Some(series) = self.series.get_mut(&change.device) else {
            return Ok(true);
        };
        if parted == Some(change.seq) {
            series.parted = Some(series.link);
        }
        series.link = series.link.after(&log::pack(change)?);
        let (device, seq, link) = (change.device, change.seq, series.link);
        if let Some(signature) = series.seals.get(&seq).copied() {
            if !series.writer.sealed(device, seq, link, &signature) {
                return Err(ArchiveFault::NotSigned { device, seq });
            }
            let sealed = Sealed {
                series: device,
                seq,
                signature,
                link,
            };
            self.proved.push((series.writer, sealed));
        }
        Ok(!new || !series.known || seq <= series.last())
    }

    /// The seals that were proved, those of a part that goes on elsewhere as seals of
    /// its branch.
    pub(super) fn kept(self, parted: &BTreeMap<Uuid, (u64, Uuid)>) -> Vec<(Writer, Sealed)> {
        let moved = |(writer, sealed): (Writer, Sealed)| {
            let Some((from, to)) = parted.get(&sealed.series) else {
                return Some((writer, sealed));
            };
            if sealed.seq < *from {
                return Some((writer, sealed));
            }
            let link = self.series.get(&sealed.series)?.parted?;
            let (series, seq) = writer.sealed_as(sealed.series, from - 1);
            let branch = Writer {
                origin: Some(Origin { series, seq, link }),
                ..writer
            };
            let sealed = Sealed {
                series: *to,
                seq: sealed.seq - from + 1,
                ..sealed
            };
            Some((branch, sealed))
        };
        self.proved.iter().copied().filter_map(moved).collect()
    }

    /// The series and number by which the branch of a series from a number on is named.
    pub(super) fn root(&self, device: Uuid, from: u64) -> (Uuid, u64) {
        match self.series.get(&device) {
            Some(series) if series.last() >= from => series.writer.sealed_as(device, from),
            _ => (device, from),
        }
    }
}
