//! How a large import comes to its end.
//!
//! No tap may wait for an import, so a large one is not written in one transaction
//! but in lots, each with a short one. Its heads and stops are written first. They
//! are of walks that are not made yet, and what is of no made walk is shown nowhere,
//! here or on any phone that meets this one. The last changes make the walks and
//! the plantings. Their bodies are laid into `import_ending` in one transaction: it
//! decides the import. Before it nothing of the import is seen; after it, they go to
//! the log in lots too, and where a kill comes between, the next opening goes on.
//! Imports of weather and of observations have nothing that could be written unseen
//! first; all their changes are laid there ([`record_all`]).
//!
//! Rejected: one transaction (of 600,000 rows it held up taps for seconds), marking
//! an import's walks as pending (every view and every phone would have to know the
//! mark), laying the whole import into a file beside the notebook first (each head is
//! written twice, and the walks are seen one after the other all the same).

use std::thread;
use std::time::Duration;

use rusqlite::params;
use sha2::{Digest as _, Sha256};

use crate::Notebook;
use crate::apply::Touched;
use crate::error::StoreError;
use crate::fact::{Act, Body, Fact, bounds};
use crate::log::{Digest, MAX_BODY};
use crate::notebook::Writer;

/// Bytes of bodies, or so, that are recorded in one transaction.
const LOT: usize = 192 * 1024;
/// Changes that are recorded in one transaction at most: of short ones each costs more
/// than its bytes.
const CHANGES: usize = 100;
/// Time between two lots, in which a tap that waits has the notebook.
const FREE: Duration = Duration::from_millis(4);

/// Records the changes of an import, all or nothing: few of them in one transaction,
/// many in lots after the one that decides it.
///
/// # Errors
/// When the store fails or a change cannot be written; nothing is recorded then, but
/// for what was decided, which the next opening brings to its end.
pub fn record_all(notebook: &mut Notebook, bodies: &[Body]) -> Result<Touched, StoreError> {
    let mut written = Vec::with_capacity(bodies.len());
    for body in bodies {
        // Once it is decided, nothing may be found wrong with it.
        if let Some(what) = body.facts.iter().find_map(|fact| bounds::check(fact).err()) {
            return Err(StoreError::OutOfBounds(what));
        }
        let json = serde_json::to_string(body)?;
        if json.len() > MAX_BODY {
            return Err(StoreError::Unwritable("its body is too long"));
        }
        written.push(json);
    }
    let bytes: usize = written.iter().map(String::len).sum();
    if bytes <= LOT && written.len() <= CHANGES {
        let ((), touched) = notebook.write(|writer| {
            bodies
                .iter()
                .zip(written)
                .try_for_each(|(body, json)| writer.record_written(kind_of(body), body, json))
        })?;
        return Ok(touched);
    }
    notebook.write(|writer| decide(writer, &written))?;
    finish(notebook)
}

/// The kind of change that an import of these facts is.
fn kind_of(body: &Body) -> Act {
    match body.facts.first() {
        Some(Fact::Weather(_)) => Act::WeatherImported,
        _ => Act::FileImported,
    }
}

/// Decides an import: with this transaction its last changes will be recorded,
/// after those that are laid here already.
pub fn decide(writer: &Writer, bodies: &[String]) -> Result<(), StoreError> {
    let mut lay = writer.db().prepare_cached(
        "INSERT INTO import_ending (place, body, digest)
         VALUES ((SELECT coalesce(max(place), 0) + 1 FROM import_ending), ?1, ?2)",
    )?;
    for body in bodies {
        lay.execute(params![body, digest(body)])?;
    }
    Ok(())
}

/// Records what is left of imports that were decided.
///
/// # Errors
/// When the store fails; what is left then stays for the next time.
pub fn finish(notebook: &mut Notebook) -> Result<Touched, StoreError> {
    let mut touched = Touched::default();
    let mut first = true;
    while notebook
        .db()
        .prepare_cached("SELECT 1 FROM import_ending")?
        .exists([])?
    {
        if !std::mem::take(&mut first) {
            thread::sleep(FREE);
        }
        let ((), of_lot) = notebook.write(record_lot)?;
        touched.join(of_lot);
    }
    Ok(touched)
}

/// Moves some bodies to the log, at least one if there is one. Another program may
/// have moved the last one meanwhile.
fn record_lot(writer: &mut Writer) -> Result<(), StoreError> {
    let mut lot: Vec<(i64, String, Digest)> = Vec::new();
    {
        let mut statement = writer
            .db()
            .prepare_cached("SELECT place, body, digest FROM import_ending ORDER BY place")?;
        let mut rows = statement.query([])?;
        let mut size = 0;
        while size < LOT
            && lot.len() < CHANGES
            && let Some(row) = rows.next()?
        {
            let body: String = row.get(1)?;
            size += body.len();
            lot.push((row.get(0)?, body, row.get(2)?));
        }
    }
    for (place, body, expected) in lot {
        // A bit turned on the disk makes it something that no file said. The file,
        // imported again, says it anew.
        if digest(&body) == expected {
            let facts = Body::read(&body);
            writer.record_written(kind_of(&facts), &facts, body)?;
        }
        writer
            .db()
            .prepare_cached("DELETE FROM import_ending WHERE place = ?1")?
            .execute([place])?;
    }
    Ok(())
}

fn digest(body: &str) -> Digest {
    Sha256::digest(body.as_bytes()).into()
}
