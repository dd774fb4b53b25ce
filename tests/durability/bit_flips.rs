//! One bit of the file turns. Either nothing that is shown changes, or the notebook
//! says that it is damaged and everything readable is saved, or what is shown is
//! made anew from the log. Never is something else shown as saved.
//!
//! What the file is checked by: SQLite's own look at pages, tables and indexes; the
//! digest that every change carries; the views against those that the log gives;
//! the seal of every kept answer.

use notebook::log::Change;
use rand::{RngExt as _, SeedableRng as _};
use rand_chacha::ChaCha8Rng;
use service::{AskService, Changed, Keeper, PhotoOf, ProblemCode, WorkedOut, ask};
use std::fmt::Debug;

use crate::outcome::{Outcomes, long};
use crate::season::{
    Book, changes, keeper, must_be_whole, notebook, open, photos_must_be_whole, said,
};

const SHORT: u64 = 60;
const LONG: u64 = 1500;

/// What a person can see of a notebook, as one text.
fn shown(keeper: &Keeper) -> String {
    fill(keeper);
    let mut shown = told(keeper, ask::Plantings {})
        + &told(keeper, ask::Names {})
        + &told(keeper, ask::Settings {});
    if let Ok(reply) = keeper.call(ask::Plantings {}) {
        for row in reply.answer.rows {
            shown += &told(keeper, ask::Planting { planting: row.id });
            let of = PhotoOf::Planting(row.id);
            shown += &told(keeper, ask::Photos { of });
        }
    }
    shown
}

/// The answer, or the kind of trouble.
fn told<A: AskService>(keeper: &Keeper, ask: A) -> String
where
    A::Answer: Debug,
{
    match keeper.call(ask) {
        Ok(reply) => format!("{:?}", reply.answer),
        Err(problem) => format!("{:?}", problem.code),
    }
}

/// Works out every answer, as the list does.
fn fill(keeper: &Keeper) {
    while let Ok(reply) = keeper.call(ask::WorkOut {}) {
        let WorkedOut { left, rows } = reply.answer;
        if left == 0 || rows.is_empty() {
            return;
        }
    }
}

#[test]
fn no_turned_bit_makes_a_notebook_say_something_else() {
    let (season, _) = Book::with_season(14);
    {
        // Answers are kept, and settings are not the first ones.
        let mut service = open(&season.path).unwrap();
        service
            .call(ask::SaveSettings {
                settings: service::Settings {
                    scout: "Scout 1".to_owned(),
                    ..service::Settings::default()
                },
            })
            .unwrap();
        drop(service);
        let keeper = keeper(&season.path);
        fill(&keeper);
        keeper.close();
        // The hub holds the first photo.
        let mut notebook = notebook(&season.path).unwrap();
        let first = notebook.photos_to_send(1).unwrap()[0].name;
        notebook.photo_is_on_hub(first).unwrap();
    }
    let log = changes(notebook(&season.path).unwrap().db());
    let right = shown(&keeper(&season.path));
    let bytes = std::fs::read(&season.path).unwrap();
    let mut outcomes = Outcomes::default();
    let mut lost_most = 0;
    let mut stranded = Vec::new();
    for run in 0..if long() { LONG } else { SHORT } {
        let mut chance = ChaCha8Rng::seed_from_u64(run);
        // The header and the tables' own page are few bytes and matter most.
        let place = match run % 4 {
            0 => chance.random_range(0..100),
            1 => chance.random_range(100..4096),
            _ => chance.random_range(4096..bytes.len()),
        };
        let done = match place {
            0..100 => "a bit of the header",
            100..4096 => "a bit of the first page",
            _ => "a bit of another page",
        };
        let bit = chance.random_range(0..8);
        let book = season.copy();
        let mut turned = bytes.clone();
        turned[place] ^= 1 << bit;
        std::fs::write(&book.path, &turned).unwrap();
        let which = format!("run {run}: byte {place}, bit {bit}");

        let keeper = keeper(&book.path);
        let at_start = keeper.problem().map(|problem| problem.code);
        let looked = keeper.call(ask::CheckNotebook { only_if_due: false });
        let code = at_start.or(looked.as_ref().err().map(|problem| problem.code));
        let came = match (looked, code) {
            (Ok(reply), _) => {
                let notes = reply.changed.contains(&Changed::Photos);
                let check = reply.answer;
                assert_eq!(
                    (check.photos_damaged, check.photos_missing),
                    (0, 0),
                    "{which}"
                );
                // A note that does not hold counts as nothing known of the hub.
                let known = |shown: &str| match notes {
                    true => shown.replace("on_hub: true", "on_hub: false"),
                    false => shown.to_owned(),
                };
                assert_eq!(known(&shown(&keeper)), known(&right), "{which}");
                keeper.close();
                let notebook = notebook(&book.path).unwrap();
                assert_eq!(changes(notebook.db()), log, "{which}");
                must_be_whole(&notebook);
                photos_must_be_whole(&notebook);
                if notes {
                    "found: a note about the hub is dropped, which frees nothing; nothing lost"
                } else if check.mended {
                    "found, and what is shown made anew from the log; nothing lost"
                } else {
                    "unharmed: what is shown and the log are as they were"
                }
            }
            (Err(_), Some(ProblemCode::Damaged)) => {
                let reply = keeper.salvage();
                let report = reply.expect(&which).answer;
                keeper.close();
                let kept = changes(notebook(&book.path).unwrap().db());
                let lost = lost(&log, &kept).unwrap_or_else(|other| panic!("{which}: {other}"));
                assert_eq!(report.kept as usize, kept.len(), "{which}");
                assert!(
                    report.lost as usize == lost || report.end_unknown,
                    "{which}: told {}, lost {lost}",
                    report.lost
                );
                let aside = report.set_aside.expect("a damaged file is kept");
                assert_eq!(std::fs::read(aside).unwrap(), turned, "{which}");
                must_be_whole(&notebook(&book.path).unwrap());
                lost_most = lost_most.max(lost);
                match lost {
                    0 => "refused, set aside, salvaged: every change kept",
                    _ => "refused, set aside, salvaged: only the changes hit are lost, and told",
                }
            }
            // One bit makes no notebook of another version or another program's file,
            // and what a fault of ours would be called offers no way on.
            (Err(problem), Some(code)) => {
                stranded.push(format!("{which}: {code:?}: {problem}"));
                "refused without a way on"
            }
            (Err(_), None) => unreachable!("{which}"),
        };
        outcomes.add(done, came);
    }
    outcomes.print("one bit turned in a closed notebook");
    println!(
        "  most changes lost to one bit: {lost_most} of {}",
        log.len()
    );
    assert!(stranded.is_empty(), "{stranded:#?}");
    // One bit lies in one change, or in the page that lists a few of them.
    assert!(lost_most <= 3, "{lost_most} changes lost to one bit");
}

/// How many changes are not there any more; an error where one is there that was not.
fn lost(log: &[Change], kept: &[Change]) -> Result<usize, String> {
    let before = said(log);
    let mut left = before.clone();
    for change in said(kept) {
        let Some(place) = left.iter().position(|known| *known == change) else {
            return Err(format!("a change out of nothing: {change:?}"));
        };
        left.remove(place);
    }
    Ok(left.len())
}
