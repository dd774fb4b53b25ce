//! Imports that are written in lots: cut off between two, they are brought to their end
//! at the next opening, or go on when they are repeated.

use std::fmt::Write as _;
use std::io::Cursor;
use std::path::{Path, PathBuf};

use chrono::NaiveDate;
use notebook::{Notebook, OnDate, SystemRandomness, log};
use service::{ArchiveIn, FileOut, Keep, Problem, Service, ask, import_observations};
use tempfile::TempDir;

fn open(path: &Path) -> Service {
    let today = NaiveDate::from_ymd_opt(2026, 9, 1).unwrap();
    let clock = Box::new(OnDate(today));
    Service::new(Notebook::open(path, clock, Box::new(SystemRandomness)).unwrap()).unwrap()
}

fn place() -> (TempDir, PathBuf) {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("notebook.db");
    (folder, path)
}

fn count(service: &Service, table: &str) -> u64 {
    let db = service.notebook().db();
    db.query_row(&format!("SELECT count(*) FROM {table}"), [], |row| {
        row.get(0)
    })
    .unwrap()
}

/// Lets no more than so many changes into the log, as a disk that is full.
fn fill_at(service: &Service, changes: u64) {
    let full = format!(
        "CREATE TRIGGER full BEFORE INSERT ON change
         WHEN (SELECT count(*) FROM change) >= {changes}
         BEGIN SELECT RAISE(ABORT, 'full'); END"
    );
    service.notebook().db().execute_batch(&full).unwrap();
}

fn make_room(service: &Service) {
    let db = service.notebook().db();
    db.execute_batch("DROP TRIGGER full").unwrap();
}

fn weather(days: u32) -> ask::ImportWeatherFile {
    let mut text = "date,high_c,low_c,rain_mm\n".to_owned();
    let mut day = NaiveDate::from_ymd_opt(1930, 1, 1).unwrap();
    for number in 0..days {
        writeln!(
            text,
            "{day},{}.5,{}.25,{}",
            20 + number % 15,
            8 + number % 9,
            number % 7
        )
        .unwrap();
        day = day.succ_opt().unwrap();
    }
    ask::ImportWeatherFile {
        text,
        station: Some("Pump house".to_owned()),
        strict: false,
        job: None,
    }
}

fn observations(plantings: u32, rows: u32) -> (String, String) {
    let mut of_plantings = "planting,hybrid,planted_on,purpose\n".to_owned();
    for number in 0..plantings {
        writeln!(of_plantings, "P {number},H,2026-05-20,grain").unwrap();
    }
    let mut text = "planting,observed_on,what,percents,note\n".to_owned();
    for row in 0..rows {
        writeln!(
            text,
            "P {},2026-08-{:02},moisture,{}.5,\"row {row}, by the gate that is painted green\"",
            row % plantings,
            1 + row % 28,
            15 + row % 9,
        )
        .unwrap();
    }
    (of_plantings, text)
}

fn import(service: &mut Service, text: &str) -> Result<u32, Problem> {
    service.with_notebook(|notebook| {
        import_observations(notebook, text.as_bytes(), |problem| panic!("{problem}"))
            .map(|(stored, _)| stored.rows - stored.already_here)
    })
}

#[test]
fn weather_that_was_cut_off_is_brought_to_its_end() {
    let (_folder, path) = place();
    let mut service = open(&path);
    fill_at(&service, 2);
    service.call(weather(30_000)).unwrap_err();
    let part = count(&service, "weather_day");
    assert!(part > 0 && part < 30_000, "{part}");
    make_room(&service);
    service.into_notebook().close().unwrap();
    let mut service = open(&path);
    assert_eq!(count(&service, "weather_day"), 30_000);
    let kinds = "change WHERE kind = 'weather_imported'";
    assert_eq!(count(&service, kinds), count(&service, "change"));
    let changes = count(&service, "change");
    service.call(weather(30_000)).unwrap();
    assert_eq!(count(&service, "change"), changes, "nothing is new in it");
}

#[test]
fn observations_that_were_cut_off_are_brought_to_their_end() {
    let (_folder, path) = place();
    let mut service = open(&path);
    let (plantings, text) = observations(40, 4_000);
    let request = ask::ImportPlantingFile { text: plantings };
    service.call(request).unwrap();
    let before = count(&service, "change");
    fill_at(&service, before + 30);
    import(&mut service, &text).unwrap_err();
    let part = count(&service, "observed");
    assert!(part > 0 && part < 4_000, "{part}");
    make_room(&service);
    service.into_notebook().close().unwrap();
    let mut service = open(&path);
    assert_eq!(count(&service, "observed"), 4_000);
    assert_eq!(import(&mut service, &text).unwrap(), 0);
}

#[test]
fn plantings_that_were_cut_off_are_brought_to_their_end() {
    let (_folder, path) = place();
    let mut service = open(&path);
    let (text, _) = observations(1_000, 0);
    fill_at(&service, 150);
    let request = ask::ImportPlantingFile { text };
    service.call(request.clone()).unwrap_err();
    assert_eq!(count(&service, "change"), 100, "the first lot, and no more");
    make_room(&service);
    service.into_notebook().close().unwrap();
    let mut service = open(&path);
    assert_eq!(count(&service, "planting"), 1_000);
    assert_eq!(count(&service, "hybrid"), 1, "one row makes it for all");
    let changes = count(&service, "change");
    service.call(request).unwrap();
    assert_eq!(count(&service, "change"), changes, "nothing is new in it");
}

#[test]
fn what_cannot_be_written_decides_nothing() {
    let (_folder, path) = place();
    let mut service = open(&path);
    service
        .notebook()
        .db()
        .execute_batch(
            "CREATE TRIGGER full BEFORE INSERT ON import_ending
             WHEN NEW.place > 1 BEGIN SELECT RAISE(ABORT, 'full'); END",
        )
        .unwrap();
    service.call(weather(30_000)).unwrap_err();
    make_room(&service);
    service.into_notebook().close().unwrap();
    let service = open(&path);
    assert_eq!(count(&service, "change"), 0);
    assert_eq!(count(&service, "import_ending"), 0);
}

#[test]
fn a_long_archive_that_was_cut_off_goes_on_when_it_is_repeated() {
    let (_folder, path) = place();
    let mut from = open(&path);
    from.call(weather(36_000)).unwrap();
    let (plantings, text) = observations(40, 4_000);
    from.call(ask::ImportPlantingFile { text: plantings })
        .unwrap();
    import(&mut from, &text).unwrap();
    let mut made = Cursor::new(Vec::new());
    from.file_out(&FileOut::Notebook, &mut made).unwrap();
    let all = count(&from, "change");

    let (_other, path) = place();
    let mut to = open(&path);
    let bring_in = |to: &mut Service| -> Result<ArchiveIn, Problem> {
        to.archive_in(Cursor::new(made.get_ref()), Keep::GoodRows, &mut |_| true)
    };
    // A look into it waits for nobody who writes, and says what the import then does.
    let writes = rusqlite::Connection::open(&path).unwrap();
    writes.execute_batch("BEGIN IMMEDIATE").unwrap();
    let looked = to
        .archive_in(Cursor::new(made.get_ref()), Keep::Nothing, &mut |_| true)
        .unwrap();
    drop(writes);
    assert_eq!((looked.review.new, looked.review.new_plantings), (all, 40));
    assert_eq!(count(&to, "change"), 0);
    fill_at(&to, all - 5);
    bring_in(&mut to).unwrap_err();
    let held = count(&to, "change");
    assert!(held > 0 && held < all, "{held} of {all}");
    make_room(&to);
    let done = bring_in(&mut to).unwrap();
    assert_eq!(done.review.new, all - held);
    let views = |service: &Service| service.notebook().view_digest().unwrap();
    assert_eq!(views(&to), views(&from));
    let ends = |service: &Service| log::heads(service.notebook().db()).unwrap();
    assert_eq!(ends(&to), ends(&from));
    assert_eq!(bring_in(&mut to).unwrap().review.new, 0);
}
