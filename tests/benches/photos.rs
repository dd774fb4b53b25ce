//! A photo of 12 megapixels from the camera's file to the one that is kept, beside
//! ImageMagick and libvips on the same file. The goal is 250 ms.
//!
//! The two programs are started for each picture, as a script would; what the
//! start alone costs is measured beside them.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use std::hint::black_box;
use std::path::Path;
use std::process::Command;
use std::time::Duration;

use criterion::{Criterion, criterion_group, criterion_main};
use headwalk_tests::picture::{Camera, jpeg, scene};
use notebook::photo::{PhotoFiles, PhotoName, picture};

fn photos(criterion: &mut Criterion) {
    let folder = tempfile::tempdir().unwrap();
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
    group.bench_function("headwalk", |bencher| {
        bencher.iter(|| picture::read(black_box(&file)).unwrap());
    });
    let files = PhotoFiles::beside(&folder.path().join("bench.notebook"));
    group.bench_function("headwalk_to_the_disk", |bencher| {
        bencher.iter(|| {
            let picture = picture::read(black_box(&file)).unwrap();
            let name = PhotoName::of(&picture.jpeg);
            files.put(name, &picture.jpeg).unwrap();
            files.free(name).unwrap();
        });
    });
    let target = folder.path().join("small.jpg");
    let magick: &[&str] = &[
        "-auto-orient",
        "-resize",
        "1600x1600",
        "-strip",
        "-quality",
        "85",
    ];
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
        group.bench_function(name, |bencher| bencher.iter(|| run().unwrap()));
        group.bench_function(format!("{name}_start_alone"), |bencher| {
            bencher.iter(|| Command::new(program).arg("--version").output().unwrap());
        });
    }
    group.finish();
}

criterion_group!(benches, photos);
criterion_main!(benches);
