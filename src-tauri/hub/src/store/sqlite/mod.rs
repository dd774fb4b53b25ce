//! A hub in one SQLite file: one thread writes and commits in groups, two read.

mod log;
mod members;
mod photos;
mod private;
mod removals;
mod seals;
mod worker;

use super::{
    Joining, Member, NewInvitation, PhotoPart, PhotoState, Quotas, Store, StoreFault, Stored,
    Totals,
};
use async_trait::async_trait;
use removals::Removals;
use rusqlite::types::Value;
use rusqlite::{Connection, OpenFlags, OptionalExtension};
use rusqlite_migration::{M, Migrations};
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicUsize, Ordering};
use std::time::Duration;
use uuid::Uuid;
use wire::seal::{PublicKey, Signature};
use wire::{CrewView, Heads, Joined, Mark, Page, Role, RosterEntry, SealedPage, Span, Tag};
use worker::Worker;

const STEPS: &[M<'static>] = &[
    M::up(include_str!(
        "../../../../../migrations/hub/sqlite/0001.sql"
    )),
    M::up(include_str!(
        "../../../../../migrations/hub/sqlite/0002_seals.sql"
    )),
    M::up(include_str!(
        "../../../../../migrations/hub/sqlite/0003_quotas.sql"
    )),
];
const MIGRATIONS: Migrations<'static> = Migrations::from_slice(STEPS);
const READERS: usize = 2;
const BUSY: Duration = Duration::from_secs(5);

impl From<rusqlite::Error> for StoreFault {
    fn from(error: rusqlite::Error) -> Self {
        Self::Failed(error.to_string())
    }
}

/// A hub's SQLite file.
pub struct SqliteStore {
    path: PathBuf,
    writer: Worker,
    readers: Vec<Worker>,
    turn: AtomicUsize,
    quotas: Quotas,
    removals: Removals,
}

impl SqliteStore {
    /// Opens the file, made where absent.
    ///
    /// # Errors
    /// When it cannot be opened, is no hub file, or was written by a newer hub.
    pub fn open(path: &Path) -> Stored<Self> {
        let mut writer = open_writer(path)?;
        let removals = Removals::beside(path);
        removals.honor(&mut writer)?;
        let mut readers = Vec::with_capacity(READERS);
        for _ in 0..READERS {
            let reader = Connection::open_with_flags(
                path,
                OpenFlags::SQLITE_OPEN_READ_ONLY | OpenFlags::SQLITE_OPEN_NO_MUTEX,
            )?;
            reader.busy_timeout(BUSY)?;
            reader.set_prepared_statement_cache_capacity(64);
            readers.push(Worker::reader(reader)?);
        }
        Ok(Self {
            path: path.to_owned(),
            writer: Worker::writer(writer)?,
            readers,
            turn: AtomicUsize::new(0),
            quotas: Quotas::default(),
            removals,
        })
    }

    /// The same store with other quotas.
    #[must_use]
    pub fn with_quotas(self, quotas: Quotas) -> Self {
        Self { quotas, ..self }
    }

    async fn read_with<T: Send + 'static>(
        &self,
        f: impl FnOnce(&Connection) -> Stored<T> + Send + 'static,
    ) -> Stored<T> {
        let turn = self.turn.fetch_add(1, Ordering::Relaxed) % self.readers.len().max(1);
        match self.readers.get(turn) {
            Some(reader) => reader.run(f).await,
            None => Err(StoreFault::Failed("the store has no reader".into())),
        }
    }
}

fn copy(from: &Path, to: &Path) -> Stored<()> {
    let db = Connection::open_with_flags(from, OpenFlags::SQLITE_OPEN_READ_ONLY)?;
    db.busy_timeout(BUSY)?;
    db.execute("VACUUM INTO ?1", [Value::Text(to.display().to_string())])?;
    Ok(())
}

pub(super) fn open_writer(path: &Path) -> Stored<Connection> {
    private::make(path)
        .map_err(|error| StoreFault::Failed(format!("{}: {error}", path.display())))?;
    private::close_to_others(path);
    let mut connection = Connection::open(path)?;
    connection.busy_timeout(BUSY)?;
    connection.set_prepared_statement_cache_capacity(64);
    connection.pragma_update_and_check(None, "journal_mode", "WAL", |_| Ok(()))?;
    connection.pragma_update(None, "synchronous", "FULL")?;
    connection.pragma_update(None, "foreign_keys", "ON")?;
    connection.pragma_update(None, "trusted_schema", "OFF")?;
    MIGRATIONS
        .to_latest(&mut connection)
        .map_err(|error| StoreFault::Failed(format!("{}: {error}", path.display())))?;
    Ok(connection)
}

/// A 16-byte column as an id.
fn id(bytes: Vec<u8>) -> rusqlite::Result<Uuid> {
    Uuid::from_slice(&bytes).map_err(|_| {
        rusqlite::Error::InvalidColumnType(0, "id".into(), rusqlite::types::Type::Blob)
    })
}

fn bytes(id: Uuid) -> Vec<u8> {
    id.as_bytes().to_vec()
}

#[async_trait]
impl Store for SqliteStore {
    async fn ping(&self) -> Stored<()> {
        self.read_with(|db| Ok(db.query_row("SELECT 1", [], |_| Ok(()))?))
            .await
    }

    async fn totals(&self) -> Stored<Totals> {
        self.read_with(|db| {
            Ok(db.query_row(
                "SELECT (SELECT count(*) FROM crew),
                        (SELECT count(*) FROM device WHERE removed_at IS NULL),
                        (SELECT coalesce(sum(head), 0) FROM series),
                        (SELECT count(*) FROM photo WHERE whole_at IS NOT NULL)",
                [],
                |row| {
                    Ok(Totals {
                        crews: row.get::<_, i64>(0)?.unsigned_abs(),
                        devices: row.get::<_, i64>(1)?.unsigned_abs(),
                        changes: row.get::<_, i64>(2)?.unsigned_abs(),
                        photos: row.get::<_, i64>(3)?.unsigned_abs(),
                    })
                },
            )?)
        })
        .await
    }

    async fn is_empty(&self) -> Stored<bool> {
        self.read_with(|db| {
            let crew: Option<i64> = db
                .query_row("SELECT 1 FROM crew LIMIT 1", [], |row| row.get(0))
                .optional()?;
            Ok(crew.is_none())
        })
        .await
    }

    async fn invite(&self, invitation: NewInvitation) -> Stored<()> {
        self.writer
            .run(move |db| members::invite(db, &invitation))
            .await
    }

    async fn drop_founding_invitations(&self) -> Stored<()> {
        self.writer
            .run(|db| {
                db.execute(
                    "DELETE FROM invitation WHERE crew IS NULL AND used_by IS NULL",
                    [],
                )?;
                Ok(())
            })
            .await
    }

    async fn knows_code(&self, code_hash: [u8; 32]) -> Stored<bool> {
        self.read_with(move |db| {
            let known: Option<i64> = db
                .prepare_cached("SELECT 1 FROM invitation WHERE code_hash = ?1")?
                .query_row([code_hash], |row| row.get(0))
                .optional()?;
            Ok(known.is_some())
        })
        .await
    }

    async fn join(&self, joining: Joining) -> Stored<Joined> {
        self.writer.run(move |db| members::join(db, &joining)).await
    }

    async fn member(&self, device: Uuid) -> Stored<Option<Member>> {
        self.read_with(move |db| members::member(db, device)).await
    }

    async fn seen(&self, device: Uuid, now: i64) -> Stored<()> {
        self.writer
            .run(move |db| {
                db.prepare_cached("UPDATE device SET seen_at = ?2 WHERE id = ?1 AND seen_at < ?2")?
                    .execute((bytes(device), now))?;
                Ok(())
            })
            .await
    }

    async fn heads(&self, crew: Uuid) -> Stored<Heads> {
        self.read_with(move |db| log::heads(db, crew)).await
    }

    async fn forked(&self, crew: Uuid, marks: Vec<(Uuid, Mark)>) -> Stored<Vec<Uuid>> {
        self.read_with(move |db| log::forked(db, crew, &marks))
            .await
    }

    async fn introduce(&self, by: Uuid, key: PublicKey, own: Uuid) -> Stored<()> {
        self.writer
            .run(move |db| seals::introduce(db, by, key, own))
            .await
    }

    async fn writers(&self, crew: Uuid) -> Stored<BTreeMap<Uuid, RosterEntry>> {
        self.read_with(move |db| seals::writers(db, crew)).await
    }

    async fn seal(&self, by: Uuid, series: Uuid, seals: Vec<(u64, Signature)>) -> Stored<()> {
        self.writer
            .run(move |db| log::seal(db, by, series, &seals))
            .await
    }

    async fn append_sealed(&self, by: Uuid, page: SealedPage, now: i64) -> Stored<Heads> {
        let quotas = self.quotas;
        self.writer
            .run(move |db| log::append(db, by, &page, now, &quotas))
            .await
    }

    async fn read(&self, crew: Uuid, spans: Vec<Span>) -> Stored<Page> {
        self.read_with(move |db| log::read(db, crew, &spans)).await
    }

    async fn read_sealed(&self, crew: Uuid, spans: Vec<Span>) -> Stored<SealedPage> {
        self.read_with(move |db| log::read_sealed(db, crew, &spans))
            .await
    }

    async fn tags(&self, crew: Uuid, span: Span) -> Stored<Vec<Tag>> {
        self.read_with(move |db| log::tags(db, crew, span)).await
    }

    async fn crew(&self, crew: Uuid, now: i64) -> Stored<CrewView> {
        self.read_with(move |db| members::crew(db, crew, now)).await
    }

    async fn withdraw(&self, crew: Uuid, invitation: Uuid) -> Stored<()> {
        self.writer
            .run(move |db| members::withdraw(db, crew, invitation))
            .await
    }

    async fn remove_device(&self, crew: Uuid, device: Uuid, now: i64) -> Stored<()> {
        let removals = self.removals.clone();
        self.writer
            .run(move |db| members::remove_device(db, crew, device, now, &removals))
            .await
    }

    async fn set_role(&self, crew: Uuid, person: Uuid, role: Role) -> Stored<()> {
        self.writer
            .run(move |db| members::set_role(db, crew, person, role))
            .await
    }

    async fn photos(&self, crew: Uuid, names: Vec<[u8; 32]>) -> Stored<Vec<Option<PhotoState>>> {
        self.read_with(move |db| photos::states(db, crew, &names))
            .await
    }

    async fn photo_grew(&self, crew: Uuid, part: PhotoPart) -> Stored<bool> {
        let quotas = self.quotas;
        self.writer
            .run(move |db| photos::grew(db, crew, part, &quotas))
            .await
    }

    async fn photo_ended(&self, crew: Uuid, name: [u8; 32], whole_at: Option<i64>) -> Stored<()> {
        self.writer
            .run(move |db| photos::ended(db, crew, name, whole_at))
            .await
    }

    async fn photo_lost(&self, crew: Uuid, name: [u8; 32]) -> Stored<()> {
        self.writer
            .run(move |db| photos::lost(db, crew, name))
            .await
    }

    async fn backup(&self, to: &Path) -> Stored<()> {
        // Empty and closed to others before anything is in it.
        private::make_new(to).map_err(|error| {
            let why = match error.kind() {
                std::io::ErrorKind::AlreadyExists => "exists already".to_owned(),
                _ => error.to_string(),
            };
            StoreFault::Failed(format!("{}: {why}", to.display()))
        })?;
        let from = self.path.clone();
        let to = to.to_owned();
        // A connection of its own, so that a long copy delays nobody.
        tokio::task::spawn_blocking(move || {
            let copied = copy(&from, &to);
            if copied.is_err() {
                // Made here and of no use: a second try finds the way free.
                let _ = std::fs::remove_file(&to);
            }
            copied
        })
        .await
        .map_err(|error| StoreFault::Failed(error.to_string()))?
    }
}
