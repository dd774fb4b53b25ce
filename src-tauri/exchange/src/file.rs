//! The same exchange without a hub: one phone writes a file, the other reads it.

use crate::book::Book;
use crate::meet::{Terms, next_page, settle_key};
use crate::proof::{LeftAlone, Proof, prove};
use crate::trouble::{PageSize, Trouble};
use serde_bytes::ByteBuf;
use std::collections::{BTreeMap, BTreeSet};
use std::io::{Read, Write};
use uuid::Uuid;
use wire::frame::{self, FrameFault};
use wire::{Heads, Leaf, Page, Run, SealedPage, SealedRun, Span};

/// What reading a file did.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Taken {
    /// Changes in the file.
    pub changes: u64,
    /// Of them new to this notebook.
    pub new: u64,
    /// Series of which nothing more was taken, and why.
    pub left_alone: BTreeMap<Uuid, LeftAlone>,
}

/// Writes what `reader` lacks, or everything when it is empty, to `to`, with the seals
/// that prove it.
///
/// # Errors
/// When the notebook or the file fails.
pub fn write(
    book: &mut dyn Book,
    crew: Uuid,
    reader: &Heads,
    to: &mut dyn Write,
) -> Result<u64, Trouble> {
    settle_key(book)?;
    let (own, heads) = (book.own()?, book.heads()?);
    let terms = |span: &Span| Terms {
        may_seal: span.device == own,
        bare: true,
    };
    let mut left: Vec<Span> = heads
        .iter()
        .map(|(device, mark)| Span {
            device: *device,
            after: reader.get(device).map_or(0, |held| held.seq.min(mark.seq)),
            to: mark.seq,
        })
        .filter(|span| span.after < span.to)
        .collect();
    left.reverse();
    put(to, &Leaf::Start { crew, heads })?;
    let mut changes = 0;
    while !left.is_empty() {
        let (page, _) = next_page(book, &mut left, PageSize::default(), &terms)?;
        for sealed in page.iter() {
            book.note_given(sealed)?;
        }
        changes += count(&page);
        put(to, &Leaf::SealedPage(page))?;
    }
    put(to, &Leaf::End { changes })?;
    to.flush().map_err(file_trouble)?;
    Ok(changes)
}

fn put(to: &mut dyn Write, leaf: &Leaf) -> Result<(), Trouble> {
    let bytes = frame::encode(leaf).map_err(|_| Trouble::Nonsense)?;
    to.write_all(&bytes).map_err(file_trouble)
}

fn file_trouble(error: std::io::Error) -> Trouble {
    Trouble::File(error.to_string())
}

fn count(page: &SealedPage) -> u64 {
    page.iter()
        .map(|sealed| sealed.run.bodies.len() as u64)
        .sum()
}

/// Reads a file of another phone of this crew. Every whole page before a cut or
/// a damage is kept. Of a series whose changes its writer did not sign nothing is
/// taken; the others go on.
///
/// # Errors
/// When it is no exchange file, of another crew, cut, damaged, or holds other
/// content under a number that is taken here.
pub fn read(book: &mut dyn Book, crew: Uuid, from: &mut dyn Read) -> Result<Taken, Trouble> {
    let mut bytes = Vec::new();
    let mut taken = Taken::default();
    let mut started = false;
    loop {
        match next_leaf(&mut bytes, from)? {
            Leaf::Start { crew: theirs, .. } if !started => {
                if theirs != crew {
                    return Err(Trouble::OtherCrew);
                }
                started = true;
            }
            // As older apps write it.
            Leaf::Page(page) if started => {
                let page = page.into_vec().into_iter().map(SealedRun::from).collect();
                take_in(book, page, &mut taken)?;
            }
            Leaf::SealedPage(page) if started => take_in(book, page, &mut taken)?,
            Leaf::End { changes } if started && changes == taken.changes => return Ok(taken),
            _ => return Err(Trouble::File("the file is damaged".into())),
        }
    }
}

/// Stores what is new of a page and proved.
fn take_in(book: &mut dyn Book, page: SealedPage, taken: &mut Taken) -> Result<(), Trouble> {
    taken.changes += count(&page);
    let (mut runs, mut seals, mut seen) = (Vec::new(), Vec::new(), BTreeSet::new());
    for came in without_held(book, page, &taken.left_alone)? {
        let series = came.run.device;
        if !seen.insert(series) {
            return Err(Trouble::File("the file is damaged".into()));
        }
        match prove(book, &came, None)? {
            Proof::None(why) => {
                taken.left_alone.insert(series, why);
                continue;
            }
            Proof::Sealed(writer, sealed) => seals.push((writer, sealed)),
            Proof::Bare => {}
        }
        taken.new += came.run.bodies.len() as u64;
        runs.push(came.run);
    }
    if !runs.is_empty() {
        book.take_in(&Page::from(runs), &seals)?;
    }
    Ok(())
}

/// Leaves out what is held here with the same content, and series that are left alone.
fn without_held(
    book: &mut dyn Book,
    page: SealedPage,
    left_alone: &BTreeMap<Uuid, LeftAlone>,
) -> Result<Vec<SealedRun>, Trouble> {
    let heads = book.heads()?;
    let mut runs = Vec::new();
    for SealedRun { run, seal } in page.into_vec() {
        if left_alone.contains_key(&run.device) {
            continue;
        }
        let held = heads.get(&run.device).map_or(0, |mark| mark.seq);
        let last = run.last();
        let repeated = held.min(last).saturating_sub(run.after);
        if run.after > held {
            return Err(Trouble::Nonsense);
        }
        if repeated > 0 {
            let at = usize::try_from(repeated).unwrap_or(usize::MAX) - 1;
            let theirs = run.bodies.get(at).map(|body| wire::Tag::of(body));
            if book.tag(run.device, run.after + repeated)? != theirs {
                return Err(Trouble::Forked(run.device));
            }
        }
        let bodies: Vec<ByteBuf> = run
            .bodies
            .into_vec()
            .into_iter()
            .skip(usize::try_from(repeated).unwrap_or(usize::MAX))
            .collect();
        if !bodies.is_empty() {
            let run = Run {
                device: run.device,
                after: run.after + repeated,
                bodies: bodies.into(),
            };
            runs.push(SealedRun { run, seal });
        }
    }
    Ok(runs)
}

fn next_leaf(bytes: &mut Vec<u8>, from: &mut dyn Read) -> Result<Leaf, Trouble> {
    loop {
        match frame::decode_first::<Leaf>(bytes) {
            Ok((leaf, rest)) => {
                *bytes = rest.to_vec();
                return Ok(leaf);
            }
            Err(FrameFault::Cut) => {
                let mut more = [0; 64 * 1024];
                match from.read(&mut more).map_err(file_trouble)? {
                    0 => {
                        return Err(Trouble::File(
                            "the file ends early: what it held so far is kept, \
                             have it sent again"
                                .into(),
                        ));
                    }
                    count => bytes.extend_from_slice(&more[..count]),
                }
            }
            Err(fault) => return Err(Trouble::File(format!("the file cannot be read: {fault}"))),
        }
    }
}
