//! How fast the roll-up answers, beside what an independent sampler takes for the
//! same walk. Limits (two cores, median): one tap at 25 heads 1 ms, at 200 heads
//! and 20 stops 4 ms; 500 plantings of 25 heads a second.
//!
//! `cargo bench -p headwalk-tests --bench roll_up`. With `HEADWALK_PYTHON` naming a
//! Python that has `tests/reference/roll_up/requirements.txt`, the sampler is run
//! and timed here; without it, the time on record is printed, and said to be so.

#![allow(missing_docs)] // the macros of the bench harness

use std::hint::black_box;
use std::process::Command;
use std::time::{Duration, Instant};

use criterion::{Criterion, Throughput, criterion_group, criterion_main};
use headwalk_tests::repository;
use headwalk_tests::simulation::field::{Kind, SPREADS};
use headwalk_tests::simulation::plan::{Breach, Cell, World, any_age};
use headwalk_tests::simulation::scout::{Size, walk};
use rand::SeedableRng;
use rand_chacha::ChaCha8Rng;
use ripening::Head;
use ripening::rollup::{Prior, RollUp, Target, WalkingCost, roll_up};

const LEVEL: f64 = 0.9;

fn heads(seed: u64, stops: usize, per_stop: usize) -> Vec<Vec<Head>> {
    let mut rng = ChaCha8Rng::seed_from_u64(seed);
    let cell = Cell {
        kind: Kind::ALL[seed as usize % 3],
        spread: SPREADS[seed as usize / 3 % 3],
        breach: Breach::Everything,
        world: World::Listed,
    };
    let field = cell.field(any_age(&mut rng), &mut rng);
    let size = Size {
        stops,
        heads: per_stop,
        unequal: false,
    };
    walk(&field, size, cell.eyes(), &mut rng)
}

/// The last head is tapped in, undone, tapped in again: each is one tap, after
/// which the walk screen shows the whole answer.
fn one_tap(criterion: &mut Criterion) {
    for (name, stops, per_stop) in [
        ("25 heads (limit 1 ms)", 5, 5),
        ("200 heads, 20 stops (limit 4 ms)", 20, 10),
    ] {
        let heads = heads(7, stops, per_stop);
        let last = &heads[stops - 1];
        let taps = [&last[..per_stop - 1], &last[..]];
        let mut roll_up = RollUp::new(Prior::fresh());
        for (key, stop) in heads.iter().enumerate() {
            roll_up.set_stop(key as u64, stop);
        }
        let mut group = criterion.benchmark_group(format!("one tap, {name}"));
        let mut tap = 0;
        group.bench_function("whole answer", |bencher| {
            bencher.iter(|| {
                tap += 1;
                roll_up.set_stop(stops as u64 - 1, taps[tap % 2]);
                roll_up.whole_field(LEVEL)
            });
        });
        group.bench_function("whole answer and advice", |bencher| {
            bencher.iter(|| {
                tap += 1;
                roll_up.set_stop(stops as u64 - 1, taps[tap % 2]);
                let advice = roll_up.advice(&Target::default(), &WalkingCost::default());
                (roll_up.whole_field(LEVEL), advice)
            });
        });
        group.finish();
    }
}

fn many_plantings(criterion: &mut Criterion) {
    const PLANTINGS: u64 = 1000;
    let walks: Vec<Vec<Vec<Head>>> = (0..PLANTINGS).map(|seed| heads(seed, 5, 5)).collect();
    let prior = Prior::fresh();
    let mut group = criterion.benchmark_group("1,000 plantings x 25 heads (limit 500 plantings/s)");
    group.throughput(Throughput::Elements(PLANTINGS));
    group.sample_size(10);
    group.measurement_time(Duration::from_secs(20));
    group.bench_function("one core", |bencher| {
        bencher.iter(|| {
            for walk in &walks {
                black_box(roll_up(walk, &prior, LEVEL));
            }
        });
    });
    // As the headless program does it: plantings shared out to all cores.
    group.bench_function("all cores", |bencher| {
        bencher.iter(|| {
            let cores = std::thread::available_parallelism().map_or(1, usize::from);
            std::thread::scope(|scope| {
                for part in walks.chunks(walks.len().div_ceil(cores)) {
                    let prior = &prior;
                    scope.spawn(move || {
                        for walk in part {
                            black_box(roll_up(walk, prior, LEVEL));
                        }
                    });
                }
            });
        });
    });
    group.finish();
}

/// Seconds on record (2026-11-25, two cores shared with other work), for where Python is not at hand.
const ON_RECORD: [(u32, f64); 2] = [(25, 57.0), (200, 130.0)];

fn independent_sampler(_: &mut Criterion) {
    let folder = repository().join("tests/reference/roll_up");
    for (heads, on_record) in ON_RECORD {
        let run = std::env::var_os("HEADWALK_PYTHON").map(|python| {
            let begun = Instant::now();
            let output = Command::new(python)
                .current_dir(&folder)
                .args(["nuts.py", "--time", &heads.to_string()])
                .output();
            (output, begun.elapsed().as_secs_f64())
        });
        match run {
            Some((Ok(output), seconds)) if output.status.success() => println!(
                "independent sampler (numpyro NUTS, 4 chains), {heads} heads: {} s to fit \
                 ({seconds:.1} s with start-up), measured now",
                String::from_utf8_lossy(&output.stdout).trim()
            ),
            Some((result, _)) => println!("independent sampler could not be run: {result:?}"),
            None => println!(
                "independent sampler (numpyro NUTS, 4 chains), {heads} heads: {on_record} s on \
                 record, not measured now (set HEADWALK_PYTHON)"
            ),
        }
    }
}

criterion_group! {
    name = benches;
    config = Criterion::default().warm_up_time(Duration::from_secs(1)).measurement_time(Duration::from_secs(5));
    targets = one_tap, many_plantings, independent_sampler
}
criterion_main!(benches);
