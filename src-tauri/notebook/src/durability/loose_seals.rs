//! Keys and seals out of the loose pages of a file that SQLite cannot open any more.
//!
//! Both tables are kept without row numbers, so their rows lie in the pages of an
//! index, those above its lowest level too, each with its key in front. What is found
//! proves itself by its signature.

use std::path::Path;

use uuid::Uuid;

use crate::disk::carve::{Pages, big, bytes, each_page, integer, varint};
use wire::seal::{Link, Origin, PublicKey, Signature, Writer};

/// First bytes of pages of an index, at the lowest level and above it, each with the
/// length of the page's header and of what lies before a row.
const LEVELS: [(u8, usize, usize); 2] = [(0x0a, 8, 0), (0x02, 12, 4)];

/// A row of `writer` or of `seal`.
#[derive(Debug, Clone, Copy)]
pub(super) enum Loose {
    Writer(Uuid, Writer),
    Seal(Uuid, u64, Signature),
}

/// Calls `each` with everything in the pages that has the shape of such a row.
pub(super) fn each(notebook: &Path, mut each: impl FnMut(Loose)) {
    each_page(notebook, |pages, number, page| {
        rows(pages, number, page, &mut each);
        true
    });
}

fn rows(pages: &Pages, number: u32, page: &[u8], each: &mut impl FnMut(Loose)) {
    // The first page begins with the file's own header and is no index.
    let level = page.first().filter(|_| number > 1);
    let level = level.and_then(|first| LEVELS.iter().find(|(kind, ..)| kind == first));
    let Some((_, header, before)) = level else {
        return;
    };
    // No such row is so long that it goes on elsewhere.
    let longest = (pages.usable() - 12) * 64 / 255 - 23;
    let row_at = |at: usize| -> Option<Loose> {
        let (length, at) = varint(page, at.checked_add(*before)?)?;
        let length = usize::try_from(length).ok().filter(|it| *it <= longest)?;
        row(page.get(at..at.checked_add(length)?)?)
    };
    for cell in 0..big(page, 3, 2).unwrap_or(0) as usize {
        if let Some(found) = big(page, header + 2 * cell, 2).and_then(|at| row_at(at as usize)) {
            each(found);
        }
    }
}

/// A row of one of the two tables, if it has the shape.
fn row(row: &[u8]) -> Option<Loose> {
    let (header, mut at) = varint(row, 0)?;
    let header = usize::try_from(header).ok()?;
    let mut kinds = Vec::with_capacity(5);
    while at < header {
        let (kind, next) = varint(row, at)?;
        kinds.push(kind);
        at = next;
    }
    let mut at = header;
    let blob = |at: &mut usize, kind: u64| bytes(row, at, kind, false).map(<[u8]>::to_vec);
    let series = |blob: Vec<u8>| Uuid::from_slice(&blob).ok();
    let found = match kinds[..] {
        [device, seq, signature, link] => {
            let device = series(blob(&mut at, device)?)?;
            let seq = integer(row, &mut at, seq)?;
            let signature = blob(&mut at, signature)?.try_into().ok()?;
            let _: [u8; 32] = blob(&mut at, link)?.try_into().ok()?;
            let signature = Signature::from_bytes(signature);
            Loose::Seal(device, u64::try_from(seq).ok()?, signature)
        }
        [device, key, origin, seq, link] => {
            let device = series(blob(&mut at, device)?)?;
            let key = PublicKey(blob(&mut at, key)?.try_into().ok()?);
            let origin = match (origin, seq, link) {
                (0, 0, 0) => None,
                _ => Some(Origin {
                    series: series(blob(&mut at, origin)?)?,
                    seq: u64::try_from(integer(row, &mut at, seq)?).ok()?,
                    link: Link(blob(&mut at, link)?.try_into().ok()?),
                }),
            };
            Loose::Writer(device, Writer { key, origin })
        }
        _ => return None,
    };
    (at == row.len()).then_some(found)
}
