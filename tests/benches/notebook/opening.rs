//! From a closed file to the first list, as a face starts; and the same after the
//! last program was killed. The files are in the system's cache.

use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

use criterion::{BenchmarkGroup, Criterion, measurement::WallTime};
use headwalk_tests::limit::{Limits, Times};
use service::{Keeper, NewHead, ask};
use tempfile::TempDir;

use crate::season::{PLANTINGS, Season, folder, head_of, keeper};

pub fn opening(criterion: &mut Criterion, season: &Season, limits: &mut Limits) {
    let mut group = criterion.benchmark_group("open 200,000 heads to the first list");
    let closed = Times::default();
    group.sample_size(20);
    group.bench_function("closed", |bencher| {
        let path = season.path().to_owned();
        bencher.iter_custom(|rounds| {
            (0..rounds)
                .map(|_| closed.time(|| to_the_list(&path)))
                .sum()
        });
    });
    let killed = Times::default();
    let left = Left::behind(season);
    measure_killed(&mut group, &left, &killed);
    group.finish();
    let opening = "opening to the first list";
    let after_a_kill = "opening after a kill";
    limits.at_most(&format!("{opening}, p50"), closed.within(0.5), 150.0, "ms");
    limits.told(&format!("{after_a_kill}, p50"), killed.within(0.5), "ms");
    for (what, times) in [(opening, &closed), (after_a_kill, &killed)] {
        limits.told(&format!("{what}, the slowest"), times.within(1.0), "ms");
        limits.told(&format!("{what}, on a processor"), times.worked(), "ms");
    }
    whole_checks(season, limits);
}

fn measure_killed(group: &mut BenchmarkGroup<'_, WallTime>, left: &Left, killed: &Times) {
    group.sample_size(10);
    group.bench_function("after a kill", |bencher| {
        bencher.iter_custom(|rounds| {
            (0..rounds)
                .map(|_| {
                    let (_folder, path) = left.copy();
                    killed.time(|| to_the_list(&path))
                })
                .sum()
        });
    });
}

/// Returned open, so that closing is not part of the time.
fn to_the_list(path: &Path) -> Keeper {
    let keeper = keeper(path);
    let rows = keeper.call(ask::Plantings {}).unwrap().answer.rows;
    assert_eq!(rows.len(), PLANTINGS);
    assert!(rows.iter().filter(|row| row.working_out).count() <= 1);
    keeper
}

/// What a program that was killed leaves: the file, and beside it a log with what
/// was recorded last.
struct Left {
    folder: TempDir,
}

impl Left {
    fn behind(season: &Season) -> Left {
        let (_season, path) = season.copy();
        let keeper = keeper(&path);
        let request = ask::StartWalk {
            id: None,
            planting: season.plantings[0],
            walked_on: None,
            scout: None,
        };
        let page = keeper.call(request).unwrap().answer;
        for number in 0..25 {
            let request = ask::AddHead {
                id: None,
                stop: page.stops[0].id,
                head: NewHead {
                    head: head_of(10, number),
                    flags: vec![],
                    note: None,
                },
            };
            keeper.call(request).unwrap();
        }
        let left = Left { folder: folder() };
        for ending in ["", "-wal"] {
            std::fs::copy(beside(&path, ending), beside(&left.path(), ending)).unwrap();
        }
        left
    }

    fn path(&self) -> PathBuf {
        self.folder.path().join("notebook.db")
    }

    fn copy(&self) -> (TempDir, PathBuf) {
        let folder = folder();
        let path = folder.path().join("notebook.db");
        for ending in ["", "-wal"] {
            std::fs::copy(beside(&self.path(), ending), beside(&path, ending)).unwrap();
        }
        (folder, path)
    }
}

fn beside(path: &Path, ending: &str) -> PathBuf {
    let mut name = path.as_os_str().to_owned();
    name.push(ending);
    PathBuf::from(name)
}

/// What goes on behind the list, once each.
fn whole_checks(season: &Season, limits: &mut Limits) {
    let (_folder, path) = season.copy();
    let keeper = keeper(&path);
    let megabytes = std::fs::metadata(&path).unwrap().len() as f64 / 1e6;
    limits.told("the notebook's file", Some(megabytes), "MB");
    let begun = Instant::now();
    let check = ask::CheckNotebook { only_if_due: false };
    keeper.call(check).unwrap();
    let looked = seconds(begun.elapsed());
    limits.told("a look at the whole notebook", Some(looked), "s");
    let begun = Instant::now();
    keeper.call(ask::BackUp {}).unwrap();
    let backed_up = seconds(begun.elapsed());
    limits.told("a backup, checked", Some(backed_up), "s");
}

fn seconds(time: Duration) -> f64 {
    time.as_secs_f64()
}
