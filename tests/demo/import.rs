//! Both files of the demo go into a notebook, once.

use std::path::Path;
use std::process::{Command, Output};

use headwalk_tests::{demo_data, program};

fn import(notebook: &Path, file: &Path, more: &[&str]) -> Output {
    Command::new(program::headwalk().unwrap())
        .arg("import")
        .arg(file)
        .arg("--notebook")
        .arg(notebook)
        .args(more)
        .output()
        .unwrap()
}

fn said(output: &Output) -> String {
    assert!(output.status.success(), "{output:?}");
    String::from_utf8(output.stdout.clone()).unwrap()
}

#[test]
fn plantings_then_heads_and_a_second_time_nothing() {
    let folder = tempfile::tempdir().unwrap();
    let notebook = folder.path().join("notebook.db");
    let plantings = demo_data().join("plantings.csv");
    let heads = demo_data().join("heads.csv");
    let rows = std::fs::read_to_string(&heads).unwrap().lines().count() - 1;

    let first = said(&import(&notebook, &plantings, &[]));
    assert_eq!(first, "12 plantings; 12 new, 0 updated\n");
    let first = said(&import(&notebook, &heads, &[]));
    assert!(first.starts_with(&format!("{rows} heads at ")), "{first}");
    assert!(first.contains("0 new plantings; 0 heads"), "{first}");

    let second = said(&import(&notebook, &plantings, &[]));
    assert_eq!(second, "12 plantings; 0 new, 0 updated\n");
    let second = said(&import(&notebook, &heads, &[]));
    let known = format!("{rows} heads were here already\n");
    assert!(second.ends_with(&known), "{second}");
}

#[test]
fn a_bad_planting_row_is_told_by_its_line_and_left_out_or_fatal() {
    let folder = tempfile::tempdir().unwrap();
    let notebook = folder.path().join("notebook.db");
    let file = folder.path().join("plantings.csv");
    std::fs::write(
        &file,
        "planting,hybrid,planted_on,purpose\n\
         East 1,Mid tan 3,2026-05-20,grain\n\
         East 2,Mid tan 3,2026-05-32,grain\n",
    )
    .unwrap();

    let strict = import(&notebook, &file, &["--strict"]);
    assert_eq!(strict.status.code(), Some(1));
    let told = String::from_utf8(strict.stderr).unwrap();
    assert!(
        told.contains("line 3") && told.lines().count() == 1,
        "{told}"
    );

    let lenient = import(&notebook, &file, &[]);
    let told = String::from_utf8_lossy(&lenient.stderr).into_owned();
    assert!(told.contains("line 3: planted_on '2026-05-32'"), "{told}");
    assert_eq!(said(&lenient), "1 plantings; 1 new, 0 updated\n");
}
