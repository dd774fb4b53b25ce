//! The disk is full, or may not be written to.
//!
//! Where these checks run as root they mount a small file system in memory (tmpfs)
//! and fill it, or make it read-only. Elsewhere the database itself is limited
//! (`PRAGMA max_page_count`), and the folder's rights are taken away. A file system
//! that fails on purpose would need unsafe code of our own; none of the crates for
//! SQLite's VFS that are well kept offers one.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use notebook::durability::backups;
use service::{ProblemCode, ask};
use tempfile::TempDir;

use crate::old_notebooks::make_old;
use crate::season::{
    Asking as _, Book, Open, add_head, changes, head, head_file, keeper, must_be_whole, notebook,
    open,
};

/// A file system of its own; none where it may not be mounted.
pub struct Small {
    at: TempDir,
}

impl Small {
    pub fn mount(kilobytes: usize) -> Option<Small> {
        let at = tempfile::tempdir().unwrap();
        let size = format!("size={kilobytes}k");
        let mounted = quiet("mount", &["-t", "tmpfs", "-o", &size, "tmpfs"], at.path());
        mounted.then_some(Small { at })
    }

    pub fn again(&self, options: &str) {
        let options = format!("remount,{options}");
        assert!(quiet("mount", &["-o", &options], self.at.path()));
    }

    pub fn folder(&self) -> &Path {
        self.at.path()
    }

    pub fn path(&self) -> PathBuf {
        self.at.path().join("notebook.db")
    }

    /// Takes all room but so much.
    pub fn fill(&self, but_kilobytes: usize) -> PathBuf {
        let filler = self.at.path().join("filler");
        let free = Command::new("df")
            .args(["--output=avail", "-k"])
            .arg(self.at.path())
            .output()
            .unwrap();
        let free = String::from_utf8(free.stdout).unwrap();
        let free: usize = free.lines().nth(1).unwrap().trim().parse().unwrap();
        fs::write(&filler, vec![1; free.saturating_sub(but_kilobytes) * 1024]).unwrap();
        filler
    }
}

impl Drop for Small {
    fn drop(&mut self) {
        quiet("umount", &["-l"], self.at.path());
    }
}

fn quiet(program: &str, options: &[&str], path: &Path) -> bool {
    Command::new(program)
        .args(options)
        .arg(path)
        .stdout(Stdio::null())
        .stderr(Stdio::null())
        .status()
        .is_ok_and(|status| status.success())
}

fn heads(service: &mut service::Service, at: Open) -> usize {
    let page = service.ask(ask::Walk { walk: at.walk });
    page.stops[0].heads.len()
}

#[test]
fn a_full_disk_loses_nothing_and_takes_it_all_once_there_is_room() {
    let (season, at) = Book::with_season(6);
    let small = Small::mount(6000);
    let path = small.as_ref().map_or(season.path.clone(), Small::path);
    let mut service = match &small {
        Some(small) => {
            fs::copy(&season.path, &path).unwrap();
            let service = open(&path).unwrap();
            small.fill(300);
            service
        }
        None => {
            let service = open(&path).unwrap();
            let pages: i64 = service
                .notebook()
                .db()
                .query_row("PRAGMA page_count", [], |row| row.get(0))
                .unwrap();
            limit(&service, pages + 20);
            service
        }
    };
    println!(
        "full disk: {}",
        if small.is_some() {
            "tmpfs"
        } else {
            "PRAGMA max_page_count"
        }
    );
    let mut saved = 0;
    let problem = loop {
        match service.call(add_head(at.stop, saved)) {
            Ok(_) => saved += 1,
            Err(problem) => break problem,
        }
        assert!(saved < 20_000, "it never filled up");
    };
    assert_eq!(problem.code, ProblemCode::DiskFull, "{problem}");
    println!("saving heads: {saved} saved, then '{problem}'");
    // Everything can still be looked at, and a second try says the same.
    assert_eq!(heads(&mut service, at), usize::try_from(saved).unwrap());
    service.ask(ask::Plantings {});
    let again = service.call(add_head(at.stop, saved)).unwrap_err();
    assert_eq!(again.code, ProblemCode::DiskFull, "{again}");
    // An import and a backup say so too, and leave nothing behind.
    let log = changes(service.notebook().db());
    let text = head_file("East", 1, 100);
    let import = service.call(ask::ImportHeadFile { text }).unwrap_err();
    assert_eq!(import.code, ProblemCode::DiskFull, "{import}");
    assert_eq!(changes(service.notebook().db()), log);
    if let Some(small) = &small {
        let backup = service.call(ask::BackUp {}).unwrap_err();
        assert_eq!(backup.code, ProblemCode::DiskFull, "{backup}");
        assert!(backups(&path).is_empty());
        let left = fs::read_dir(path.with_file_name("backups"));
        assert_eq!(
            left.map_or(0, Iterator::count),
            0,
            "half a backup lies about"
        );
        println!("import and backup: refused, nothing stored, nothing left behind");
        fs::remove_file(small.at.path().join("filler")).unwrap();
    } else {
        limit(&service, 1_000_000);
    }
    // With room again, the same head goes in, once.
    service.ask(add_head(at.stop, saved));
    service.ask(add_head(at.stop, saved));
    assert_eq!(heads(&mut service, at), usize::try_from(saved).unwrap() + 1);
    must_be_whole(service.notebook());
    println!("with room again: the head that was refused is stored, once");
}

fn limit(service: &service::Service, pages: i64) {
    service
        .notebook()
        .db()
        .query_row(&format!("PRAGMA max_page_count = {pages}"), [], |_| Ok(()))
        .unwrap();
}

#[test]
fn a_notebook_on_a_full_disk_says_so_and_opens_once_there_is_room() {
    let Some(small) = Small::mount(6000) else {
        println!("skipped: a small file system may not be mounted here");
        return;
    };
    let (season, at) = Book::with_season(6);
    let path = small.path();
    make_old(&path, 1, &season.path);
    let log = changes(notebook(&season.path).unwrap().db());
    let filler = small.fill(8);
    let keeper = keeper(&path);
    let problem = keeper.problem().expect("no room to migrate");
    assert_eq!(problem.code, ProblemCode::DiskFull, "{problem}");
    assert_eq!(
        keeper.call(ask::Plantings {}).unwrap_err().code,
        ProblemCode::DiskFull
    );
    fs::remove_file(filler).unwrap();
    keeper.open_again().unwrap();
    keeper.call(add_head(at.stop, 1)).unwrap();
    keeper.close();
    let notebook = notebook(&path).unwrap();
    assert_eq!(changes(notebook.db())[..log.len()], log[..]);
    must_be_whole(&notebook);
    println!("opening and migrating on a full disk: refused, done once there is room");
}

#[test]
fn a_locked_notebook_says_so_and_opens_once_it_is_unlocked() {
    let (season, at) = Book::with_season(2);
    let small = Small::mount(6000);
    let path = small.as_ref().map_or(season.path.clone(), Small::path);
    let lock = |locked: bool| match &small {
        Some(small) => small.again(if locked { "ro" } else { "rw" }),
        None => {
            for path in [path.as_path(), path.parent().unwrap()] {
                let mut rights = fs::metadata(path).unwrap().permissions();
                rights.set_readonly(locked);
                fs::set_permissions(path, rights).unwrap();
            }
        }
    };
    if small.is_some() {
        fs::copy(&season.path, &path).unwrap();
    }
    println!(
        "locked: {}",
        if small.is_some() {
            "tmpfs, read-only"
        } else {
            "rights of file and folder"
        }
    );
    let before = fs::read(&path).unwrap();
    lock(true);
    let keeper = keeper(&path);
    let problem = keeper.problem().expect("it is locked");
    assert_eq!(problem.code, ProblemCode::ReadOnly, "{problem}");
    assert_eq!(fs::read(&path).unwrap(), before);
    println!("opening: '{problem}'");
    lock(false);
    // The next tap opens it.
    keeper.call(add_head(at.stop, 1)).unwrap();
    keeper.close();
    let mut service = open(&path).unwrap();
    let page = service.ask(ask::Walk { walk: at.walk });
    assert_eq!(page.stops[0].heads[0].id, head(1).0);
}

#[test]
fn what_is_no_notebook_and_what_is_from_the_future_is_left_as_it_is() {
    let (season, _) = Book::with_season(2);
    let future = season.copy();
    let db = rusqlite::Connection::open(&future.path).unwrap();
    db.execute_batch(
        "CREATE TABLE of_a_later_version (x INTEGER) STRICT; PRAGMA user_version = 999",
    )
    .unwrap();
    db.close().unwrap();
    let folder = Book::new();
    fs::create_dir(&folder.path).unwrap();
    let text = Book::new();
    fs::write(&text.path, "planting,walked_on\n".repeat(400)).unwrap();
    for (what, book, code) in [
        ("from a later version", &future, ProblemCode::FromNewerApp),
        ("a text", &text, ProblemCode::BadInput),
        ("a folder", &folder, ProblemCode::Unavailable),
    ] {
        let before = fs::read(&book.path).ok();
        let keeper = keeper(&book.path);
        let problem = keeper.problem().expect(what);
        assert_eq!(problem.code, code, "{what}: {problem}");
        // Not even asked for it is anything set aside.
        assert!(keeper.salvage().is_err());
        assert_eq!(fs::read(&book.path).ok(), before, "{what}");
        println!("{what}: '{problem}'");
    }
    // A schema number that a bit made too high is no later version.
    let turned = season.copy();
    let db = rusqlite::Connection::open(&turned.path).unwrap();
    db.execute_batch("PRAGMA user_version = 999").unwrap();
    db.close().unwrap();
    let problem = keeper(&turned.path).problem().unwrap();
    assert_eq!(problem.code, ProblemCode::Damaged, "{problem}");
}
