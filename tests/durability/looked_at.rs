//! What a look at the whole notebook sees besides turned bits, and what it does not
//! advise: nothing that was shown as saved is mended away.

use std::fs;

use rusqlite::Connection;
use service::{Problem, ProblemCode, ask};

use crate::season::{Asking as _, Book, add_head, beside, must_be_whole, notebook, open};

/// A season with these statements run on its file by another program.
fn after(statements: &str) -> Book {
    let (season, _) = Book::with_season(4);
    let db = Connection::open(&season.path).unwrap();
    db.execute_batch(statements).unwrap();
    db.close().unwrap();
    season
}

fn asked(season: &Book) -> Result<(), Problem> {
    let check = ask::CheckNotebook { only_if_due: false };
    open(&season.path).unwrap().call(check).map(|_| ())
}

#[test]
fn triggers_tables_and_indexes_that_are_not_as_made_are_seen() {
    for (statements, said) in [
        (
            "CREATE TRIGGER t AFTER INSERT ON change BEGIN DELETE FROM answer; END;",
            "the trigger 't' is not of Headwalk",
        ),
        (
            "CREATE TABLE other (x TEXT) STRICT",
            "the table 'other' is not of Headwalk",
        ),
        (
            "CREATE INDEX slow ON head (note)",
            "the index 'slow' is not of Headwalk",
        ),
        (
            "DROP INDEX head_by_stop",
            "the index 'head_by_stop' is missing",
        ),
        (
            "DROP TRIGGER setting_changed",
            "the trigger 'setting_changed' is missing",
        ),
        ("DROP TABLE answer", "the table 'answer' is missing"),
        (
            "DROP INDEX head_by_stop; CREATE INDEX head_by_stop ON head (note)",
            "the index 'head_by_stop' is not as Headwalk makes it",
        ),
    ] {
        let season = after(statements);
        let found = notebook(&season.path).unwrap().check().unwrap();
        assert!(found.is_damaged(), "{statements}");
        let told = found.file.iter().any(|fault| fault == said);
        assert!(told, "{statements}: {:?}", found.file);
        println!("{statements}: '{said}'");
    }
}

#[test]
fn a_raised_series_and_its_clock_are_seen() {
    for statements in [
        "UPDATE series SET head = head + 3",
        "UPDATE series SET digest = zeroblob(32)",
        "UPDATE series SET hlc = hlc + 1000000",
    ] {
        let season = after(statements);
        let found = notebook(&season.path).unwrap().check().unwrap();
        assert!(found.is_damaged() && found.log.len() == 1, "{found:?}");
        assert_eq!(asked(&season).unwrap_err().code, ProblemCode::Damaged);
    }
}

#[test]
fn another_id_of_this_device_is_seen_and_it_takes_a_new_one() {
    let season = after("UPDATE this_device SET id = x'0198c0de000070008000000000000001'");
    let altered = {
        let notebook = notebook(&season.path).unwrap();
        let found = notebook.check().unwrap();
        assert!(found.own_id_altered && !found.is_damaged() && !found.is_sound());
        notebook.device()
    };
    asked(&season).unwrap();
    let mended = notebook(&season.path).unwrap();
    assert_ne!(mended.device(), altered);
    must_be_whole(&mended);
}

#[test]
fn what_a_shortened_log_no_longer_says_is_not_mended_away() {
    let shorten = "
        DELETE FROM change WHERE arrival = (SELECT max(arrival) FROM change);
        DELETE FROM series;
        INSERT INTO series (device, head, hlc, digest)
          SELECT device, seq, (SELECT max(hlc) FROM change), digest FROM change
          ORDER BY seq DESC LIMIT 1;";
    // Both by what the screens show and by what is named beside the notebook.
    for beside_it in [false, true] {
        let (season, at) = Book::with_season(4);
        let mut service = open(&season.path).unwrap();
        service.ask(add_head(at.stop, 1));
        drop(service);
        if !beside_it {
            fs::remove_file(beside(&season.path, "-last")).unwrap();
        }
        // While it is open: at an opening it would be refused.
        let mut service = open(&season.path).unwrap();
        let db = Connection::open(&season.path).unwrap();
        db.execute_batch(shorten).unwrap();
        if beside_it {
            db.execute_batch(
                "DELETE FROM spoken_of WHERE seq > (SELECT head FROM series);
                 DELETE FROM head WHERE read_seq > (SELECT head FROM series);",
            )
            .unwrap();
        }
        drop(db);
        let heads = |service: &service::Service| -> u64 {
            let db = service.notebook().db();
            db.query_row("SELECT count(*) FROM head", [], |row| row.get(0))
                .unwrap()
        };
        let before = heads(&service);
        let found = service.notebook().check().unwrap();
        assert!(
            found.is_damaged() && found.lacks.is_some() && found.views.is_empty(),
            "{found:?}"
        );
        let problem = service
            .call(ask::CheckNotebook { only_if_due: false })
            .unwrap_err();
        assert_eq!(problem.code, ProblemCode::Incomplete, "{problem}");
        assert_eq!(heads(&service), before, "nothing is mended away");
    }
}

#[test]
fn nothing_that_was_half_made_is_left_after_the_next_opening() {
    let (season, _) = Book::with_season(2);
    let backups = season.path.with_file_name("backups");
    fs::create_dir(&backups).unwrap();
    let making = backups.join("notebook-2026-09-01-120000.db-making");
    let half = [
        making.clone(),
        beside(&making, "-journal"),
        beside(&season.path, "-restoring"),
        beside(&season.path, "-salvaging"),
        beside(&season.path, "-salvaging-wal"),
    ];
    for path in &half {
        fs::write(path, "half").unwrap();
    }
    // What is not ours stays.
    let other = backups.join("mine-making");
    fs::write(&other, "mine").unwrap();
    let first = notebook(&season.path).unwrap();
    assert!(half.iter().all(|path| !path.exists()), "{half:?}");
    assert!(other.exists());
    // Beside a running program it may be at work.
    fs::write(&making, "half").unwrap();
    let second = notebook(&season.path).unwrap();
    assert!(making.exists());
    drop((first, second));
}

#[cfg(unix)]
#[test]
fn what_is_kept_is_its_owners_alone() {
    use std::os::unix::fs::PermissionsExt as _;

    use notebook::SystemRandomness;
    use notebook::durability::{restore, salvage};

    use crate::season::{PHOTOS, clock, files_below};

    let modes = |book: &Book| -> Vec<(String, u32)> {
        files_below(book.folder.path())
            .iter()
            .map(|path| {
                let mode = fs::metadata(path).unwrap().permissions().mode() & 0o777;
                (path.file_name().unwrap().to_string_lossy().into(), mode)
            })
            .collect()
    };
    let all_private = |book: &Book| {
        for (name, mode) in modes(book) {
            assert_eq!(mode, 0o600, "{name}: {mode:o}");
        }
    };
    let (season, at) = Book::with_season(2);
    let mut service = open(&season.path).unwrap();
    service.ask(add_head(at.stop, 1));
    service.ask(ask::BackUp {});
    // The file, its -wal and -shm, the lock, the last change, a backup; of each photo
    // its file and its thumbnail.
    let photos = season.photo_folder();
    assert_eq!(
        modes(&season).len(),
        6 + photos.len(),
        "{:?}",
        modes(&season)
    );
    assert!(photos.len() >= 2 * usize::try_from(PHOTOS).unwrap());
    for folder in photos
        .iter()
        .flat_map(|photo| photo.ancestors().skip(1).take(2))
    {
        let mode = fs::metadata(folder).unwrap().permissions().mode() & 0o777;
        assert_eq!(mode, 0o700, "{}: {mode:o}", folder.display());
    }
    all_private(&season);
    service.into_notebook().close().unwrap();
    let backup = notebook::durability::backups(&season.path).remove(0).path;
    restore(&season.path, &backup, clock(), Box::new(SystemRandomness)).unwrap();
    salvage(&season.path, clock(), Box::new(SystemRandomness)).unwrap();
    all_private(&season);
    // As an older version left them; it made no photo's file open to others.
    let kept = files_below(season.folder.path());
    for path in kept
        .iter()
        .filter(|path| !season.photo_folder().contains(path))
    {
        fs::set_permissions(path, fs::Permissions::from_mode(0o644)).unwrap();
    }
    let opened = open(&season.path).unwrap();
    all_private(&season);
    drop(opened);
}
