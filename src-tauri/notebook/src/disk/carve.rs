//! Changes out of the loose pages of a file that SQLite cannot open any more.
//!
//! After "Database File Format" (sqlite.org/fileformat2.html): each page of a
//! table's lowest level lists its rows, and a row of `change` is told by its ten
//! columns, or eleven since `raw` was added. Pages that the -wal holds, of transactions that were completed, stand
//! above those of the file. What is found proves itself by its digest, so that a
//! page that only looks like one does no harm.

use std::collections::BTreeMap;
use std::fs::File;
use std::io::{Read as _, Seek, SeekFrom};
use std::path::Path;

use uuid::Uuid;

use super::chain::Read;
use super::files::beside;
use crate::log::{Change, Hlc, MAX_KIND, MAX_PACKED};

/// Page size of every notebook (SQLite's own choice), where the header is gone.
const USUAL_PAGE: usize = 4096;
/// First byte of a page that holds rows.
const ROWS: u8 = 0x0d;
/// Longest row that can be a change.
const LONGEST: usize = MAX_PACKED + MAX_KIND + 256;

/// Whether any page of the file holds something of the shape of a change.
pub(crate) fn holds_a_change(file: &Path) -> bool {
    let mut found = false;
    until(file, |_| {
        found = true;
        false
    });
    found
}

/// Calls `each` with everything in the pages that has the shape of a change.
pub(crate) fn changes(notebook: &Path, mut each: impl FnMut(Read)) {
    until(notebook, |read| {
        each(read);
        true
    });
}

/// The same, for as long as `each` says to go on.
fn until(notebook: &Path, mut each: impl FnMut(Read) -> bool) {
    each_page(notebook, |pages, number, page| {
        rows(pages, number, page, &mut each)
    });
}

/// Calls `each` with the number and the bytes of every page, as the last completed
/// transaction left it and as it lies in the file, for as long as it says to go on.
pub(crate) fn each_page(notebook: &Path, mut each: impl FnMut(&mut Pages, u32, &[u8]) -> bool) {
    let Some(mut pages) = Pages::open(notebook) else {
        return;
    };
    for number in 1..=pages.count {
        for layer in [Layer::Newest, Layer::File] {
            if layer == Layer::File && !pages.newer.contains_key(&number) {
                continue;
            }
            if let Some(page) = pages.page(number, layer)
                && !each(&mut pages, number, &page)
            {
                return;
            }
        }
    }
}

#[derive(Clone, Copy, PartialEq)]
enum Layer {
    /// As the last completed transaction left it.
    Newest,
    /// As it lies in the file.
    File,
}

/// The pages of a file and of the -wal beside it.
pub(crate) struct Pages {
    file: File,
    size: usize,
    /// Bytes of a page that hold content.
    usable: usize,
    count: u32,
    newer: BTreeMap<u32, Vec<u8>>,
}

impl Pages {
    fn open(notebook: &Path) -> Option<Pages> {
        let mut file = File::open(notebook).ok()?;
        let length = file.metadata().ok()?.len();
        let mut header = [0; 24];
        let whole =
            file.read_exact(&mut header).is_ok() && header.starts_with(b"SQLite format 3\0");
        let size = match usize::from(big(&header, 16, 2).unwrap_or(0) as u16) {
            1 => 65_536,
            size if whole && size.is_power_of_two() && size >= 512 => size,
            _ => USUAL_PAGE,
        };
        let reserved = if whole { usize::from(header[20]) } else { 0 };
        let usable = size.checked_sub(reserved).filter(|usable| *usable >= 480)?;
        let newer = completed(&beside(notebook, "-wal"), size).unwrap_or_default();
        let in_file = u32::try_from(length / size as u64).ok()?;
        let count = newer
            .keys()
            .next_back()
            .map_or(in_file, |last| in_file.max(*last));
        Some(Pages {
            file,
            size,
            usable,
            count,
            newer,
        })
    }

    /// Bytes of a page that hold content.
    pub(crate) fn usable(&self) -> usize {
        self.usable
    }

    fn page(&mut self, number: u32, layer: Layer) -> Option<Vec<u8>> {
        if layer == Layer::Newest
            && let Some(page) = self.newer.get(&number)
        {
            return Some(page.clone());
        }
        let at = u64::from(number.checked_sub(1)?) * self.size as u64;
        self.file.seek(SeekFrom::Start(at)).ok()?;
        let mut page = vec![0; self.size];
        self.file.read_exact(&mut page).ok()?;
        Some(page)
    }
}

/// The pages of completed transactions in a -wal, the newest of each.
fn completed(wal: &Path, size: usize) -> Option<BTreeMap<u32, Vec<u8>>> {
    const HEADER: usize = 32;
    const FRAME: usize = 24;
    let bytes = std::fs::read(wal).ok()?;
    let header = bytes.get(..HEADER)?;
    let magic = big(header, 0, 4)?;
    let big_endian = match magic {
        0x377f_0682 => false,
        0x377f_0683 => true,
        _ => return None,
    };
    if big(header, 8, 4)? as usize != size {
        return None;
    }
    let salts = header.get(16..24)?;
    let mut sums = summed((0, 0), header.get(..24)?, big_endian)?;
    if (big(header, 24, 4)?, big(header, 28, 4)?) != sums {
        return None;
    }
    let mut pages = BTreeMap::new();
    let mut of_transaction = BTreeMap::new();
    for frame in bytes.get(HEADER..)?.chunks_exact(FRAME + size) {
        let (head, page) = frame.split_at_checked(FRAME)?;
        sums = summed(sums, head.get(..8)?, big_endian)?;
        sums = summed(sums, page, big_endian)?;
        let whole = head.get(8..16)? == salts && (big(head, 16, 4)?, big(head, 20, 4)?) == sums;
        if !whole {
            break;
        }
        of_transaction.insert(big(head, 0, 4)?, page.to_owned());
        // The size of the file after it stands in the last frame of a transaction.
        if big(head, 4, 4)? > 0 {
            pages.append(&mut of_transaction);
        }
    }
    Some(pages)
}

/// The running sums of a -wal.
fn summed((mut one, mut two): (u32, u32), bytes: &[u8], big_endian: bool) -> Option<(u32, u32)> {
    for pair in bytes.chunks_exact(8) {
        let word = |at: usize| -> Option<u32> {
            let four: [u8; 4] = pair.get(at..at + 4)?.try_into().ok()?;
            Some(if big_endian {
                u32::from_be_bytes(four)
            } else {
                u32::from_le_bytes(four)
            })
        };
        one = one.wrapping_add(word(0)?).wrapping_add(two);
        two = two.wrapping_add(word(4)?).wrapping_add(one);
    }
    Some((one, two))
}

/// `false` when `each` has had enough.
fn rows(pages: &mut Pages, number: u32, page: &[u8], each: &mut impl FnMut(Read) -> bool) -> bool {
    // The first page begins with the file's own header.
    let start = if number == 1 { 100 } else { 0 };
    if page.get(start) != Some(&ROWS) {
        return true;
    }
    let cells = big(page, start + 3, 2).unwrap_or(0);
    for cell in 0..cells as usize {
        let found = big(page, start + 8 + 2 * cell, 2)
            .and_then(|at| payload(pages, page, at as usize))
            .and_then(|row| change(&row));
        if let Some(found) = found
            && !each(found)
        {
            return false;
        }
    }
    true
}

/// A row's bytes, with what overflowed onto further pages.
fn payload(pages: &mut Pages, page: &[u8], at: usize) -> Option<Vec<u8>> {
    let (length, at) = varint(page, at)?;
    let (_, at) = varint(page, at)?;
    let length = usize::try_from(length)
        .ok()
        .filter(|length| *length <= LONGEST)?;
    let usable = pages.usable;
    let most = usable - 35;
    if length <= most {
        return page.get(at..at + length).map(<[u8]>::to_vec);
    }
    let least = (usable - 12) * 32 / 255 - 23;
    let fitting = least + (length - least) % (usable - 4);
    let local = if fitting <= most { fitting } else { least };
    let mut row = page.get(at..at + local)?.to_vec();
    let mut next = big(page, at + local, 4)?;
    while row.len() < length {
        let further = pages.page(next, Layer::Newest)?;
        let taken = (length - row.len()).min(usable - 4);
        row.extend_from_slice(further.get(4..4 + taken)?);
        next = big(&further, 0, 4)?;
    }
    Some(row)
}

/// A change, if the row has the shape of one.
fn change(row: &[u8]) -> Option<Read> {
    let (header, mut at) = varint(row, 0)?;
    let header = usize::try_from(header).ok()?;
    let mut kinds = Vec::with_capacity(10);
    while at < header {
        let (kind, next) = varint(row, at)?;
        kinds.push(kind);
        at = next;
    }
    let mut fields = kinds.into_iter();
    let mut at = header;
    // `arrival` lies in the row's number.
    if fields.next()? != 0 {
        return None;
    }
    let device = bytes(row, &mut at, fields.next()?, false)?;
    let mut number = || integer(row, &mut at, fields.next()?);
    let seq = number()?;
    let hlc = number()?;
    let recorded_ms = number()?;
    let offset_min = number()?;
    let received_ms = number()?;
    let kind = bytes(row, &mut at, fields.next()?, true)?;
    let body = bytes(row, &mut at, fields.next()?, true)?;
    let digest = bytes(row, &mut at, fields.next()?, false)?;
    // A row that is older than the column lacks it.
    let raw = match fields.next() {
        None | Some(0) => None,
        Some(kind) => Some(bytes(row, &mut at, kind, false)?.to_vec()),
    };
    if fields.next().is_some() || at != row.len() {
        return None;
    }
    Some(Read {
        change: Change {
            device: Uuid::from_slice(device).ok()?,
            seq: u64::try_from(seq).ok()?,
            hlc: Hlc::new(hlc)?,
            recorded_ms,
            offset_min: i32::try_from(offset_min).ok()?,
            kind: std::str::from_utf8(kind).ok()?.to_owned(),
            body: std::str::from_utf8(body).ok()?.to_owned(),
            raw,
        },
        received_ms,
        digest: digest.try_into().ok()?,
        from_backup: false,
    })
}

/// A blob (even kinds) or a text (odd kinds).
pub(crate) fn bytes<'r>(row: &'r [u8], at: &mut usize, kind: u64, text: bool) -> Option<&'r [u8]> {
    let kind = usize::try_from(kind).ok()?;
    if kind < 12 || (kind % 2 == 1) != text {
        return None;
    }
    let from = *at;
    *at = from.checked_add((kind - 12) / 2)?;
    row.get(from..*at)
}

pub(crate) fn integer(row: &[u8], at: &mut usize, kind: u64) -> Option<i64> {
    let length = match kind {
        1..=4 => kind as usize,
        5 => 6,
        6 => 8,
        8 => return Some(0),
        9 => return Some(1),
        _ => return None,
    };
    let bytes = row.get(*at..*at + length)?;
    *at += length;
    let sign = if bytes.first()? & 0x80 == 0 { 0 } else { -1 };
    Some(
        bytes
            .iter()
            .fold(sign, |number, byte| number << 8 | i64::from(*byte)),
    )
}

/// A number of up to four bytes, the greatest first.
pub(crate) fn big(bytes: &[u8], at: usize, length: usize) -> Option<u32> {
    let taken = bytes.get(at..at.checked_add(length)?)?;
    Some(
        taken
            .iter()
            .fold(0, |number, byte| number << 8 | u32::from(*byte)),
    )
}

/// A number of SQLite's variable length, and where it ends.
pub(crate) fn varint(bytes: &[u8], at: usize) -> Option<(u64, usize)> {
    let mut number = 0_u64;
    for place in 0..9 {
        let byte = *bytes.get(at + place)?;
        if place == 8 {
            return Some((number << 8 | u64::from(byte), at + 9));
        }
        number = number << 7 | u64::from(byte & 0x7f);
        if byte & 0x80 == 0 {
            return Some((number, at + place + 1));
        }
    }
    None
}
