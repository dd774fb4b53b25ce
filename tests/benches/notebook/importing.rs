//! A head file of a million rows into an empty notebook.

use std::fmt::Write as _;
use std::sync::atomic::{AtomicBool, Ordering};
use std::thread;
use std::time::Duration;

use criterion::{Criterion, Throughput};
use headwalk_tests::limit::{Limits, Times};
use headwalk_tests::memory::growth_of;
use ripening::{Head, Reading, Share};
use service::{Keep, NewHead, NewPlanting, PlantingDetails, Service, ask, import_heads};

use crate::season::{A_STOP, A_WALK, folder, service};

const ROWS: usize = 1_000_000;

pub fn importing(criterion: &mut Criterion, limits: &mut Limits) {
    let text = head_file(ROWS);
    let times = Times::default();
    let mut growth = None;
    let mut group = criterion.benchmark_group("import");
    group.throughput(Throughput::Elements(ROWS as u64));
    group.sample_size(10);
    group.measurement_time(Duration::from_secs(30));
    group.bench_function("1e6 rows of a head file", |bencher| {
        bencher.iter_custom(|rounds| {
            (0..rounds)
                .map(|_| {
                    let folder = folder();
                    let mut service = service(&folder.path().join("notebook.db"));
                    let (took, grown) = growth_of(|| times.time(|| import(&mut service, &text)));
                    growth = growth.max(grown);
                    took
                })
                .sum()
        });
    });
    group.finish();
    limits.at_least(
        "import of 1e6 rows, mean",
        times.mean().map(|ms| ROWS as f64 / ms),
        100.0,
        "rows/ms",
    );
    limits.at_most(
        "its growth of memory, the most",
        growth.map(|bytes| bytes as f64 / 1e6),
        256.0,
        "MB",
    );
}

/// Taps from another connection while a head file is imported: how long the slowest
/// waits. None is refused.
pub fn taps_beside(limits: &mut Limits) {
    const ROWS_BESIDE: usize = 600_000;
    let text = head_file(ROWS_BESIDE);
    let folder = folder();
    let path = folder.path().join("notebook.db");
    let mut importing = service(&path);
    let mut tapping = service(&path);
    let planting = tapping
        .call(ask::AddPlanting {
            new: NewPlanting {
                id: None,
                name: "Tapped".to_owned(),
                details: PlantingDetails::default(),
            },
        })
        .unwrap()
        .answer;
    let started = tapping.call(ask::StartWalk {
        id: None,
        planting: planting.id,
        walked_on: None,
        scout: None,
    });
    let walk = started.unwrap().answer;
    let done = AtomicBool::new(false);
    let times = Times::default();
    thread::scope(|scope| {
        let import = scope.spawn(|| {
            let imported = importing.call(ask::ImportHeadFile { text });
            done.store(true, Ordering::Relaxed);
            imported
        });
        while !done.load(Ordering::Relaxed) {
            times.time(|| {
                let head = Head::new(Reading::Pliable, Share::new(40).ok()).unwrap();
                tapping
                    .call(ask::AddHead {
                        id: None,
                        stop: walk.stops[0].id,
                        head: NewHead {
                            head,
                            flags: Vec::new(),
                            note: None,
                        },
                    })
                    .unwrap()
            });
            thread::sleep(Duration::from_millis(50));
        }
        import.join().unwrap().unwrap();
    });
    limits.at_most(
        "slowest tap beside an import of 600,000 rows",
        times.within(1.0),
        500.0,
        "ms",
    );
}

fn import(service: &mut Service, text: &str) {
    let (review, _) = service
        .with_notebook(|notebook| {
            import_heads(notebook, text.as_bytes(), Keep::GoodRows, |_| Ok(()))
        })
        .unwrap();
    assert_eq!((review.heads as usize, review.refused), (ROWS, 0));
}

/// Plantings of ten walks, five stops of five heads.
fn head_file(rows: usize) -> String {
    let mut text = "planting,walked_on,stop,reading,share\n".to_owned();
    for row in 0..rows {
        let walk = row / A_WALK;
        writeln!(
            text,
            "Planting {},2026-08-{:02},{},pliable,{}",
            walk / 10,
            1 + 3 * (walk % 10),
            1 + row % A_WALK / A_STOP,
            1 + (row * 37) % 100
        )
        .unwrap();
    }
    text
}
