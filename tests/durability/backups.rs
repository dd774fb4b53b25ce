//! Backups, restores, and notebooks that another program has open.

use std::fs;

use notebook::durability::{backups, check, restore, salvage};
use notebook::photo::ToFree;
use notebook::{StoreError, SystemRandomness};
use service::{PhotoOf, ProblemCode, ask};

use crate::season::{
    Asking as _, Book, add_head, add_photo, changes, clock, keeper, must_be_whole, notebook, open,
    picture,
};

#[test]
fn a_backup_is_whole_stands_alone_and_has_what_was_saved_before_it() {
    let (season, at) = Book::with_season(6);
    let mut service = open(&season.path).unwrap();
    service.ask(add_head(at.stop, 1));
    let made = service.ask(ask::BackUp {});
    let log = changes(service.notebook().db());
    service.ask(add_head(at.stop, 2));

    // Away from everything that lay beside it.
    let elsewhere = Book::new();
    fs::copy(&made.path, &elsewhere.path).unwrap();
    let copy = notebook(&elsewhere.path).unwrap();
    assert_eq!(changes(copy.db()), log);
    must_be_whole(&copy);
    let page = service.ask(ask::Safekeeping {});
    assert_eq!(page.backups, vec![made]);
}

#[test]
fn old_backups_make_room_and_names_never_clash() {
    let (season, _) = Book::with_season(1);
    let mut service = open(&season.path).unwrap();
    let mut names = Vec::new();
    for _ in 0..7 {
        let made = service.ask(ask::BackUp {});
        assert!(!names.contains(&made.name), "{}", made.name);
        names.push(made.name);
    }
    let left = backups(&season.path);
    let left: Vec<_> = left
        .iter()
        .filter_map(|backup| backup.path.file_name())
        .collect();
    let newest: Vec<_> = names.iter().rev().take(5).map(String::as_str).collect();
    assert_eq!(left, newest, "the newest five are kept, the newest first");
    let left = fs::read_dir(season.path.with_file_name("backups")).unwrap();
    assert_eq!(left.count(), 5, "nothing half made lies about");
}

#[test]
fn a_file_that_is_there_is_never_written_over() {
    let (season, _) = Book::with_season(1);
    let notebook = notebook(&season.path).unwrap();
    let taken = season.folder.path().join("taken.db");
    fs::write(&taken, "something").unwrap();
    let refused = notebook::durability::back_up(notebook.db(), &taken);
    assert!(matches!(refused, Err(StoreError::Taken(_))));
    assert_eq!(fs::read(&taken).unwrap(), b"something");
}

#[test]
fn a_restore_keeps_what_was_there_and_writes_under_a_new_id() {
    let (season, at) = Book::with_season(6);
    let mut service = open(&season.path).unwrap();
    let made = service.ask(ask::BackUp {});
    let before = changes(service.notebook().db());
    let device = service.notebook().device();
    service.ask(add_head(at.stop, 1));
    let after = changes(service.notebook().db());

    let busy = restore(
        &season.path,
        made.path.as_ref(),
        clock(),
        Box::new(SystemRandomness),
    );
    assert!(matches!(busy, Err(StoreError::InUse)), "{busy:?}");
    service.into_notebook().close().unwrap();
    let restored = restore(
        &season.path,
        made.path.as_ref(),
        clock(),
        Box::new(SystemRandomness),
    )
    .unwrap();
    let now = notebook(&season.path).unwrap();
    assert_eq!(changes(now.db()), before);
    assert_ne!(now.device(), device);
    must_be_whole(&now);
    let aside = notebook(restored.set_aside.unwrap().as_ref()).unwrap();
    assert_eq!(changes(aside.db()), after);
}

#[test]
fn only_a_whole_backup_is_restored() {
    let (season, _) = Book::with_season(6);
    let other = Book::new();
    fs::write(&other.path, "planting,walked_on\n".repeat(400)).unwrap();
    let mut bytes = fs::read(&season.path).unwrap();
    let middle = bytes.len() / 2;
    bytes[middle..middle + 4096].fill(7);
    let damaged = Book::new();
    fs::write(&damaged.path, bytes).unwrap();
    let log = changes(notebook(&season.path).unwrap().db());
    for bad in [&other, &damaged] {
        let refused = restore(&season.path, &bad.path, clock(), Box::new(SystemRandomness));
        assert!(refused.is_err());
        assert_eq!(changes(notebook(&season.path).unwrap().db()), log);
    }
}

#[test]
fn a_notebook_that_another_program_has_open_is_not_set_aside() {
    let (season, at) = Book::with_season(1);
    let mut other = open(&season.path).unwrap();
    let refused = salvage(&season.path, clock(), Box::new(SystemRandomness));
    assert!(matches!(refused, Err(StoreError::InUse)), "{refused:?}");
    other.ask(add_head(at.stop, 1));
    // Two programs side by side see each other's heads.
    let mut second = open(&season.path).unwrap();
    second.ask(add_head(at.stop, 2));
    let heads = |service: &mut service::Service| {
        let page = service.ask(ask::Walk { walk: at.walk });
        page.stops[0].heads.len()
    };
    assert_eq!((heads(&mut other), heads(&mut second)), (2, 2));
}

#[test]
fn damage_met_in_use_stops_all_writing_until_it_is_salvaged() {
    let (season, at) = Book::with_season(6);
    let log = changes(notebook(&season.path).unwrap().db()).len();
    // A change that does not say what was written: SQLite sees nothing wrong.
    let db = rusqlite::Connection::open(&season.path).unwrap();
    db.execute(
        "UPDATE change SET body = replace(body, 'pliable', 'liquid') WHERE arrival = 2",
        [],
    )
    .unwrap();
    db.close().unwrap();
    let keeper = keeper(&season.path);
    assert_eq!(keeper.problem(), None);
    let check = keeper.call(ask::CheckNotebook { only_if_due: true });
    assert_eq!(check.unwrap_err().code, ProblemCode::Damaged);
    let tap = keeper.call(add_head(at.stop, 1));
    assert_eq!(tap.unwrap_err().code, ProblemCode::Damaged);
    let reply = keeper.salvage().unwrap();
    let report = reply.answer;
    assert_eq!((report.lost, report.kept as usize), (1, log - 1));
    assert!(report.lost_from.is_some());
    keeper.call(add_head(at.stop, 1)).unwrap();
    // What a salvage left lies under its own series, and is whole.
    keeper.close();
    must_be_whole(&notebook(&season.path).unwrap());
    let page = open(&season.path).unwrap().ask(ask::Safekeeping {});
    assert_eq!(page.last_salvage, Some(report));
}

#[test]
fn views_that_went_wrong_are_made_anew() {
    let (season, _) = Book::with_season(6);
    let right = notebook(&season.path).unwrap().view_digest().unwrap();
    let db = rusqlite::Connection::open(&season.path).unwrap();
    db.execute("UPDATE head SET share = 99 WHERE share = 1", [])
        .unwrap();
    db.close().unwrap();
    {
        let notebook = notebook(&season.path).unwrap();
        let found = check::check(notebook.db()).unwrap();
        assert_eq!(found.views, vec!["head"]);
        assert!(!found.is_damaged());
    }
    let mut service = open(&season.path).unwrap();
    let check = service.ask(ask::CheckNotebook { only_if_due: true });
    assert!(check.mended);
    assert_eq!(service.notebook().view_digest().unwrap(), right);
    // Once a day is enough.
    let again = service.ask(ask::CheckNotebook { only_if_due: true });
    assert_eq!(again, check);
}

#[test]
fn a_backup_is_restored_from_the_screens_and_nothing_is_deleted() {
    let (season, at) = Book::with_season(6);
    let keeper = keeper(&season.path);
    let made = keeper.call(ask::BackUp {}).unwrap().answer;
    keeper.call(add_head(at.stop, 1)).unwrap();
    // A photo that the backup knows nothing of.
    let later = {
        let mut service = open(&season.path).unwrap();
        let of = PhotoOf::Planting(at.planting);
        add_photo(&mut service, None, of, &picture(70, 40)).name
    };
    let files = season.photo_folder();
    let restore = |name: &str| keeper.restore_backup(name);
    for name in ["", "other.db", "../notebook.db", "/etc/passwd"] {
        let refused = restore(name).unwrap_err();
        assert_eq!(refused.code, ProblemCode::NotFound, "{name}");
    }
    // While another program has it open it is not set aside, and stays open here.
    let other = open(&season.path).unwrap();
    let refused = restore(&made.name).unwrap_err();
    assert_eq!(refused.code, ProblemCode::Unavailable, "{refused}");
    assert_eq!(keeper.problem(), None);
    other.into_notebook().close().unwrap();

    let report = restore(&made.name).unwrap().answer;
    assert_eq!(report.made_at, made.made_at);
    let page = keeper.call(ask::Walk { walk: at.walk }).unwrap().answer;
    assert!(
        page.stops[0].heads.is_empty(),
        "the head came after the backup"
    );
    // Room is freed of nothing that only the notebook set aside names.
    let to_free = keeper.with_notebook(|notebook| Ok(notebook.photos_to_free()?));
    assert_eq!(to_free.unwrap(), ToFree::default());
    assert_eq!(season.photo_folder(), files);
    keeper.call(add_head(at.stop, 2)).unwrap();
    keeper.close();
    must_be_whole(&notebook(&season.path).unwrap());
    let aside = std::path::PathBuf::from(report.set_aside.unwrap());
    let aside = open(&aside).unwrap().into_notebook();
    assert_eq!(
        aside
            .photos_to_fetch(10)
            .unwrap()
            .iter()
            .filter(|it| it.name == later)
            .count(),
        1,
        "what was set aside still names the photo"
    );
}

#[test]
fn a_damaged_notebook_is_replaced_by_a_backup_where_that_is_asked_for() {
    let (season, at) = Book::with_season(6);
    open(&season.path).unwrap().ask(ask::BackUp {});
    let log = changes(notebook(&season.path).unwrap().db());
    let mut bytes = fs::read(&season.path).unwrap();
    bytes[..200].fill(0x5a);
    fs::write(&season.path, &bytes).unwrap();
    let keeper = keeper(&season.path);
    assert_eq!(keeper.problem().unwrap().code, ProblemCode::Damaged);
    let rows = keeper.backups().rows;
    let name = rows[0].name.clone();
    // A backup that is damaged itself takes nothing's place.
    let whole = fs::read(&rows[0].path).unwrap();
    let mut spoiled = whole.clone();
    let middle = spoiled.len() / 2;
    spoiled[middle..middle + 4096].fill(7);
    fs::write(&rows[0].path, spoiled).unwrap();
    let refused = keeper.restore_backup(&name).unwrap_err();
    assert_eq!(refused.code, ProblemCode::Damaged, "{refused}");
    assert_eq!(fs::read(&season.path).unwrap(), bytes);
    fs::write(&rows[0].path, whole).unwrap();
    let reply = keeper.restore_backup(&name).unwrap();
    let report = reply.answer;
    assert_eq!(fs::read(report.set_aside.unwrap()).unwrap(), bytes);
    keeper.call(add_head(at.stop, 1)).unwrap();
    keeper.close();
    let notebook = notebook(&season.path).unwrap();
    let now = changes(notebook.db());
    assert!(log.iter().all(|change| now.contains(change)));
    assert_eq!(now.len(), log.len() + 1);
    must_be_whole(&notebook);
}
