//! A photo of 12 megapixels from the camera's file to the one that is kept on the
//! disk, beside ImageMagick and libvips on the same file. The limit is 250 ms; the
//! bench fails where it is not kept, or where neither program is here.
//!
//! The two programs are started for each picture, as a script would; what the
//! start alone costs is measured beside them.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use std::hint::black_box;
use std::path::Path;
use std::process::{Command, ExitCode};
use std::time::Duration;

use criterion::{Bencher, Criterion};
use headwalk_tests::limit::{Limits, Times};
use headwalk_tests::picture::{Camera, jpeg, scene};
use notebook::photo::{PhotoFiles, PhotoName, picture};

/// The limit, milliseconds.
const LIMIT: f64 = 250.0;

fn main() -> ExitCode {
    let mut criterion = Criterion::default().configure_from_args();
    let mut limits = Limits::default();
    let peers = photos(&mut criterion, &mut limits);
    criterion.final_summary();
    let verdict = limits.verdict();
    if peers == 0 {
        println!("neither ImageMagick nor libvips is here: nothing to measure beside");
        return ExitCode::FAILURE;
    }
    verdict
}

/// How many of the two programs were here.
fn photos(criterion: &mut Criterion, limits: &mut Limits) -> usize {
    let folder = tempfile::tempdir_in(env!("CARGO_TARGET_TMPDIR")).unwrap();
    let camera = Camera {
        orientation: 6,
        place: Some((38.2, -40.4)),
    };
    let file = jpeg(&scene(4_000, 3_000), camera).unwrap();
    let path = folder.path().join("camera.jpg");
    std::fs::write(&path, &file).unwrap();
    println!("12 megapixels, {} bytes of JPEG", file.len());

    let mut group = criterion.benchmark_group("photo_12_megapixels");
    group
        .sample_size(15)
        .measurement_time(Duration::from_secs(8));
    let (read, to_the_disk) = (Times::default(), Times::default());
    group.bench_function("headwalk", |bencher| {
        each(bencher, &read, || {
            picture::read(black_box(&file)).unwrap();
        });
    });
    let files = PhotoFiles::beside(&folder.path().join("bench.notebook"));
    group.bench_function("headwalk_to_the_disk", |bencher| {
        each(bencher, &to_the_disk, || {
            let picture = picture::read(black_box(&file)).unwrap();
            let name = PhotoName::of(&picture.jpeg);
            files.put(name, &picture.jpeg).unwrap();
            files.free(name).unwrap();
        });
    });
    limits.at_most(
        "a photo to the disk, p50",
        to_the_disk.within(0.5),
        LIMIT,
        "ms",
    );
    limits.told(
        "a photo to the disk, the slowest",
        to_the_disk.within(1.0),
        "ms",
    );
    limits.told("reading it alone, p50", read.within(0.5), "ms");

    let target = folder.path().join("small.jpg");
    let magick: &[&str] = &[
        "-auto-orient",
        "-resize",
        "1600x1600",
        "-strip",
        "-quality",
        "85",
    ];
    let mut peers = 0;
    for (name, program, arguments) in [
        ("imagemagick", "convert", magick),
        (
            "libvips",
            "vipsthumbnail",
            &["--size", "1600x1600", "-o", "small.jpg[Q=85,strip]"],
        ),
    ] {
        let run = || {
            let mut command = Command::new(program);
            command
                .current_dir(folder.path())
                .arg(Path::new("camera.jpg"));
            command.args(arguments);
            if program == "convert" {
                command.arg(&target);
            }
            command.output()
        };
        if !run().is_ok_and(|done| done.status.success()) {
            println!("{program} is not here: left out");
            continue;
        }
        peers += 1;
        let (whole, start) = (Times::default(), Times::default());
        group.bench_function(name, |bencher| {
            each(bencher, &whole, || {
                run().unwrap();
            });
        });
        group.bench_function(format!("{name}_start_alone"), |bencher| {
            each(bencher, &start, || {
                Command::new(program).arg("--version").output().unwrap();
            });
        });
        limits.told(&format!("{name}, p50"), whole.within(0.5), "ms");
        limits.told(
            &format!("{name}, its start alone, p50"),
            start.within(0.5),
            "ms",
        );
    }
    group.finish();
    peers
}

fn each(bencher: &mut Bencher<'_>, times: &Times, mut work: impl FnMut()) {
    bencher.iter_custom(|rounds| (0..rounds).map(|_| times.time(&mut work)).sum());
}
