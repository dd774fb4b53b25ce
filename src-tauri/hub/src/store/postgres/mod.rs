//! A hub on PostgreSQL, for crews that outgrow one file. Nothing is kept in the
//! process: row locks order what several hubs do at once.

mod backup;
mod log;
mod members;
mod photos;
mod seals;

use super::{
    Joining, Member, NewInvitation, PhotoPart, PhotoState, Quotas, Store, StoreFault, Stored,
    Totals,
};
use async_trait::async_trait;
use deadpool_postgres::{Manager, ManagerConfig, Object, Pool, RecyclingMethod, Timeouts};
use std::collections::BTreeMap;
use std::path::Path;
use std::str::FromStr;
use std::time::Duration;
use tokio_postgres::config::{Host, SslMode};
use tokio_postgres::{Config, NoTls};
use uuid::Uuid;
use wire::seal::{PublicKey, Signature};
use wire::{CrewView, Heads, Joined, Mark, Page, Role, RosterEntry, SealedPage, Span, Tag};

/// Each step once, in order, additive.
const STEPS: &[&str] = &[
    include_str!("../../../../../migrations/hub/postgres/0001.sql"),
    include_str!("../../../../../migrations/hub/postgres/0002_seals.sql"),
    include_str!("../../../../../migrations/hub/postgres/0003_quotas.sql"),
];
/// Any number, the same in every hub.
const MIGRATION_LOCK: i64 = 0x4865_6164;
const CONNECTIONS: usize = 16;
const WAIT: Duration = Duration::from_secs(10);

impl From<tokio_postgres::Error> for StoreFault {
    fn from(error: tokio_postgres::Error) -> Self {
        let said = error.as_db_error().map(ToString::to_string);
        Self::Failed(said.unwrap_or_else(|| error.to_string()))
    }
}

impl From<deadpool_postgres::PoolError> for StoreFault {
    fn from(error: deadpool_postgres::PoolError) -> Self {
        Self::Failed(error.to_string())
    }
}

/// A hub's PostgreSQL database.
pub struct PostgresStore {
    pool: Pool,
    quotas: Quotas,
}

impl PostgresStore {
    /// Connects by URL and brings the tables up to date.
    ///
    /// # Errors
    /// When the URL is none, the server does not answer, or the tables are a newer hub's.
    pub async fn connect(url: &str) -> Stored<Self> {
        let config =
            Config::from_str(url).map_err(|error| StoreFault::Failed(error.to_string()))?;
        refuse_open_network(&config)?;
        let manager = Manager::from_config(
            config,
            NoTls,
            ManagerConfig {
                recycling_method: RecyclingMethod::Fast,
            },
        );
        let pool = Pool::builder(manager)
            .max_size(CONNECTIONS)
            .runtime(deadpool_postgres::Runtime::Tokio1)
            .timeouts(Timeouts {
                wait: Some(WAIT),
                create: Some(WAIT),
                recycle: Some(WAIT),
            })
            .build()
            .map_err(|error| StoreFault::Failed(error.to_string()))?;
        let store = Self {
            pool,
            quotas: Quotas::default(),
        };
        store.migrate().await?;
        Ok(store)
    }

    /// The same store with other quotas.
    #[must_use]
    pub fn with_quotas(self, quotas: Quotas) -> Self {
        Self { quotas, ..self }
    }

    async fn client(&self) -> Stored<Object> {
        Ok(self.pool.get().await?)
    }

    async fn migrate(&self) -> Stored<()> {
        let mut client = self.client().await?;
        let tx = client.transaction().await?;
        tx.execute("SELECT pg_advisory_xact_lock($1)", &[&MIGRATION_LOCK])
            .await?;
        tx.batch_execute("CREATE TABLE IF NOT EXISTS hub_step (step BIGINT NOT NULL PRIMARY KEY)")
            .await?;
        let done: i64 = tx
            .query_one("SELECT count(*) FROM hub_step", &[])
            .await?
            .get(0);
        let done = usize::try_from(done).unwrap_or(usize::MAX);
        let Some(steps) = STEPS.get(done..) else {
            return Err(StoreFault::Failed(
                "the database was written by a newer hub: use that version".into(),
            ));
        };
        for (step, sql) in (done as i64 + 1..).zip(steps) {
            tx.batch_execute(sql).await?;
            tx.execute("INSERT INTO hub_step (step) VALUES ($1)", &[&step])
                .await?;
        }
        tx.commit().await?;
        Ok(())
    }
}

/// The way to the database is not encrypted, so another machine must be named knowingly.
fn refuse_open_network(config: &Config) -> Stored<()> {
    let local = config.get_hosts().iter().all(|host| match host {
        Host::Tcp(name) => {
            name == "localhost"
                || name
                    .parse::<std::net::IpAddr>()
                    .is_ok_and(|address| address.is_loopback())
        }
        Host::Unix(_) => true,
    });
    if local || config.get_ssl_mode() == SslMode::Disable {
        Ok(())
    } else {
        Err(StoreFault::Failed(
            "the database is on another machine and the way there is not encrypted: \
             use a private network and say so with sslmode=disable, or a local tunnel"
                .into(),
        ))
    }
}

#[async_trait]
impl Store for PostgresStore {
    async fn ping(&self) -> Stored<()> {
        self.client().await?.query_one("SELECT 1", &[]).await?;
        Ok(())
    }

    async fn totals(&self) -> Stored<Totals> {
        let row = self
            .client()
            .await?
            .query_one(
                "SELECT (SELECT count(*) FROM crew),
                        (SELECT count(*) FROM device WHERE removed_at IS NULL),
                        (SELECT coalesce(sum(head), 0)::bigint FROM series),
                        (SELECT count(*) FROM photo WHERE whole_at IS NOT NULL)",
                &[],
            )
            .await?;
        let count = |column| row.get::<_, i64>(column).unsigned_abs();
        Ok(Totals {
            crews: count(0),
            devices: count(1),
            changes: count(2),
            photos: count(3),
        })
    }

    async fn is_empty(&self) -> Stored<bool> {
        let crew = self
            .client()
            .await?
            .query_opt("SELECT 1 FROM crew LIMIT 1", &[])
            .await?;
        Ok(crew.is_none())
    }

    async fn invite(&self, invitation: NewInvitation) -> Stored<()> {
        members::invite(&mut self.client().await?, &invitation).await
    }

    async fn drop_founding_invitations(&self) -> Stored<()> {
        self.client()
            .await?
            .execute(
                "DELETE FROM invitation WHERE crew IS NULL AND used_by IS NULL",
                &[],
            )
            .await?;
        Ok(())
    }

    async fn knows_code(&self, code_hash: [u8; 32]) -> Stored<bool> {
        let client = self.client().await?;
        let query = client
            .prepare_cached("SELECT 1 FROM invitation WHERE code_hash = $1")
            .await?;
        let hash: &[u8] = &code_hash;
        Ok(client.query_opt(&query, &[&hash]).await?.is_some())
    }

    async fn join(&self, joining: Joining) -> Stored<Joined> {
        members::join(&mut self.client().await?, &joining).await
    }

    async fn member(&self, device: Uuid) -> Stored<Option<Member>> {
        members::member(&self.client().await?, device).await
    }

    async fn seen(&self, device: Uuid, now: i64) -> Stored<()> {
        self.client()
            .await?
            .execute(
                "UPDATE device SET seen_at = $2 WHERE id = $1 AND seen_at < $2",
                &[&device, &now],
            )
            .await?;
        Ok(())
    }

    async fn heads(&self, crew: Uuid) -> Stored<Heads> {
        log::heads(&self.client().await?, crew).await
    }

    async fn forked(&self, crew: Uuid, marks: Vec<(Uuid, Mark)>) -> Stored<Vec<Uuid>> {
        log::forked(&self.client().await?, crew, &marks).await
    }

    async fn introduce(&self, by: Uuid, key: PublicKey, own: Uuid) -> Stored<()> {
        seals::introduce(&mut self.client().await?, by, key, own).await
    }

    async fn writers(&self, crew: Uuid) -> Stored<BTreeMap<Uuid, RosterEntry>> {
        seals::writers(&self.client().await?, crew).await
    }

    async fn seal(&self, by: Uuid, series: Uuid, seals: Vec<(u64, Signature)>) -> Stored<()> {
        log::seal(&mut self.client().await?, by, series, &seals).await
    }

    async fn append_sealed(&self, by: Uuid, page: SealedPage, now: i64) -> Stored<Heads> {
        log::append(&mut self.client().await?, by, &page, now, &self.quotas).await
    }

    async fn read(&self, crew: Uuid, spans: Vec<Span>) -> Stored<Page> {
        log::read(&self.client().await?, crew, &spans).await
    }

    async fn read_sealed(&self, crew: Uuid, spans: Vec<Span>) -> Stored<SealedPage> {
        log::read_sealed(&self.client().await?, crew, &spans).await
    }

    async fn tags(&self, crew: Uuid, span: Span) -> Stored<Vec<Tag>> {
        log::tags(&self.client().await?, crew, span).await
    }

    async fn crew(&self, crew: Uuid, now: i64) -> Stored<CrewView> {
        members::crew(&self.client().await?, crew, now).await
    }

    async fn withdraw(&self, crew: Uuid, invitation: Uuid) -> Stored<()> {
        members::withdraw(&self.client().await?, crew, invitation).await
    }

    async fn remove_device(&self, crew: Uuid, device: Uuid, now: i64) -> Stored<()> {
        members::remove_device(&mut self.client().await?, crew, device, now).await
    }

    async fn set_role(&self, crew: Uuid, person: Uuid, role: Role) -> Stored<()> {
        members::set_role(&mut self.client().await?, crew, person, role).await
    }

    async fn photos(&self, crew: Uuid, names: Vec<[u8; 32]>) -> Stored<Vec<Option<PhotoState>>> {
        photos::states(&self.client().await?, crew, &names).await
    }

    async fn photo_grew(&self, crew: Uuid, part: PhotoPart) -> Stored<bool> {
        photos::grew(&mut self.client().await?, crew, part, &self.quotas).await
    }

    async fn photo_ended(&self, crew: Uuid, name: [u8; 32], whole_at: Option<i64>) -> Stored<()> {
        photos::ended(&self.client().await?, crew, name, whole_at).await
    }

    async fn photo_lost(&self, crew: Uuid, name: [u8; 32]) -> Stored<()> {
        photos::lost(&self.client().await?, crew, name).await
    }

    async fn backup(&self, to: &Path) -> Stored<()> {
        backup::write(&mut self.client().await?, to).await
    }
}
