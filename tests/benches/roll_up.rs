//! How fast the roll-up answers, beside what an independent sampler takes for the
//! same walk. Limits (two cores, median): one tap at 25 heads 1 ms, at 200 heads
//! and 20 stops 4 ms; 500 plantings of 25 heads a second.
//!
//! `cargo bench -p headwalk-tests --bench roll_up`; fails where a limit is not kept.
//! With `HEADWALK_PYTHON` naming a Python that has
//! `tests/reference/roll_up/requirements.txt` (as `cargo xtask bench` makes one), the
//! sampler is run and timed here; without it, it is left out.

#![allow(missing_docs)]

use std::hint::black_box;
use std::process::{Command, ExitCode};
use std::time::Duration;

use criterion::{BenchmarkGroup, Criterion, Throughput, measurement::WallTime};
use headwalk_tests::limit::{Limits, Times};
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

fn main() -> ExitCode {
    let mut criterion = Criterion::default()
        .warm_up_time(Duration::from_secs(1))
        .measurement_time(Duration::from_secs(5))
        .configure_from_args();
    let mut limits = Limits::default();
    for (walk, stops, per_stop, limit) in [("25 heads", 5, 5, 1.0), ("200 heads", 20, 10, 4.0)] {
        one_tap(
            &mut criterion,
            &mut limits,
            walk,
            heads(7, stops, per_stop),
            limit,
        );
    }
    many_plantings(&mut criterion, &mut limits);
    independent_sampler(&mut limits);
    criterion.final_summary();
    limits.verdict()
}

/// Benches with every round's time kept.
fn timed<T>(
    group: &mut BenchmarkGroup<WallTime>,
    name: &str,
    mut work: impl FnMut() -> T,
) -> Times {
    let times = Times::default();
    group.bench_function(name, |bencher| {
        bencher.iter_custom(|rounds| (0..rounds).map(|_| times.time(&mut work)).sum());
    });
    times
}

/// The last head is tapped in, undone, tapped in again: each is one tap, after
/// which the walk screen shows the whole answer.
fn one_tap(
    criterion: &mut Criterion,
    limits: &mut Limits,
    walk: &str,
    heads: Vec<Vec<Head>>,
    limit: f64,
) {
    let last = heads.len() - 1;
    let taps = [&heads[last][..heads[last].len() - 1], &heads[last][..]];
    let mut roll_up = RollUp::new(Prior::fresh());
    for (key, stop) in (0..).zip(&heads) {
        roll_up.set_stop(key, stop);
    }
    let mut group = criterion.benchmark_group(format!("one tap, {walk}"));
    let mut tap = 0;
    let mut answer = |with_advice: bool| {
        tap += 1;
        roll_up.set_stop(last as u64, taps[tap % 2]);
        let advice =
            with_advice.then(|| roll_up.advice(&Target::default(), &WalkingCost::default()));
        (roll_up.whole_field(LEVEL), advice)
    };
    for (name, with_advice) in [("whole answer", false), ("whole answer and advice", true)] {
        let times = timed(&mut group, name, || answer(with_advice));
        let what = format!("one tap, {walk}, {name}, p50");
        limits.at_most(&what, times.within(0.5), limit, "ms");
    }
    group.finish();
}

fn many_plantings(criterion: &mut Criterion, limits: &mut Limits) {
    const PLANTINGS: u64 = 1000;
    let walks: Vec<Vec<Vec<Head>>> = (0..PLANTINGS).map(|seed| heads(seed, 5, 5)).collect();
    let prior = Prior::fresh();
    let mut group = criterion.benchmark_group("1,000 plantings x 25 heads");
    group.throughput(Throughput::Elements(PLANTINGS));
    group.sample_size(10);
    group.measurement_time(Duration::from_secs(20));
    let one_core = timed(&mut group, "one core", || {
        for walk in &walks {
            black_box(roll_up(walk, &prior, LEVEL));
        }
    });
    // As the headless program does it: plantings shared out to all cores.
    let all_cores = timed(&mut group, "all cores", || {
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
    group.finish();
    let rate = |times: &Times| times.mean().map(|ms| PLANTINGS as f64 / ms * 1e3);
    limits.told("plantings of 25 heads, one core", rate(&one_core), "/s");
    limits.at_least(
        "plantings of 25 heads, all cores",
        rate(&all_cores),
        500.0,
        "/s",
    );
    limits.told("peak memory", peak_memory(), "MB");
}

/// The most memory that this process has held, where the system tells (Linux).
fn peak_memory() -> Option<f64> {
    let status = std::fs::read_to_string("/proc/self/status").ok()?;
    let line = status
        .lines()
        .find_map(|line| line.strip_prefix("VmHWM:"))?;
    let kib: f64 = line.split_whitespace().next()?.parse().ok()?;
    Some(kib * 1024.0 / 1e6)
}

/// What the independent sampler takes for walks of the same sizes; none where it is not
/// at hand.
fn independent_sampler(limits: &mut Limits) {
    let python = std::env::var_os("HEADWALK_PYTHON");
    for heads in [25, 200] {
        let seconds = python.as_ref().and_then(|python| {
            let output = Command::new(python)
                .current_dir(repository().join("tests/reference/roll_up"))
                .args(["nuts.py", "--time", &heads.to_string()])
                .output();
            let said = output.as_ref().map_or_else(ToString::to_string, |output| {
                String::from_utf8_lossy(&[&output.stdout[..], &output.stderr].concat()).into_owned()
            });
            let told = output.ok().and_then(|output| {
                let said = String::from_utf8(output.stdout).ok()?;
                said.lines().last()?.trim().parse().ok()
            });
            if told.is_none() {
                eprintln!("nuts.py: {said}");
            }
            told
        });
        let what = format!("independent sampler (NUTS, 4 chains), {heads} heads");
        limits.told(&what, seconds, "s");
    }
}
