//! The same exchange without a hub: one phone writes a file, the other reads it.

use crate::book::Book;
use crate::meet::next_page;
use crate::trouble::{PageSize, Trouble};
use crate::wire::frame::{self, FrameFault};
use crate::wire::{Heads, Leaf, Page, Run, Span};
use serde_bytes::ByteBuf;
use std::io::{Read, Write};
use uuid::Uuid;

/// What reading a file did.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Taken {
    /// Changes in the file.
    pub changes: u64,
    /// Of them new to this notebook.
    pub new: u64,
}

/// Writes what `reader` lacks, or everything when it is empty, to `to`.
///
/// # Errors
/// When the notebook or the file fails.
pub fn write(
    book: &mut dyn Book,
    crew: Uuid,
    reader: &Heads,
    to: &mut dyn Write,
) -> Result<u64, Trouble> {
    let heads = book.heads()?;
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
        let page = next_page(book, &mut left, PageSize::default())?;
        changes += page.iter().map(|run| run.bodies.len() as u64).sum::<u64>();
        put(to, &Leaf::Page(page))?;
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

/// Reads a file of another phone of this crew. Every whole page before a cut or
/// a damage is kept.
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
            Leaf::Page(page) if started => {
                let changes: u64 = page.iter().map(|run| run.bodies.len() as u64).sum();
                let page = without_held(book, page)?;
                taken.new += page.iter().map(|run| run.bodies.len() as u64).sum::<u64>();
                if !page.is_empty() {
                    book.take_in(&page)?;
                }
                taken.changes += changes;
            }
            Leaf::End { changes } if started && changes == taken.changes => return Ok(taken),
            _ => return Err(Trouble::File("the file is damaged".into())),
        }
    }
}

/// Leaves out what is held here with the same content.
fn without_held(book: &mut dyn Book, page: Page) -> Result<Page, Trouble> {
    let heads = book.heads()?;
    let mut runs = Vec::new();
    for run in page.into_vec() {
        let held = heads.get(&run.device).map_or(0, |mark| mark.seq);
        let last = run.last();
        let repeated = held.min(last).saturating_sub(run.after);
        if repeated > 0 {
            let at = usize::try_from(repeated).unwrap_or(usize::MAX) - 1;
            let theirs = run.bodies.get(at).map(|body| crate::wire::Tag::of(body));
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
            runs.push(Run {
                device: run.device,
                after: run.after + repeated,
                bodies: bodies.into(),
            });
        }
    }
    Ok(runs.into())
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
