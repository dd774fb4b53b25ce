//! `headwalk hub`: the crew's hub.

use std::io::{self, Write};
use std::net::SocketAddr;
use std::path::PathBuf;
use std::sync::Arc;

use clap::{Args, Subcommand};
use hub::door::DoorRules;
use hub::serve::{Listening, ServeFault, bind};
use hub::store::{Quotas, Store, StoreFault};
use hub::{Hub as Inner, machine_clock};
use wire::code;

use crate::failure::Failure;
use crate::stop::asked_to_stop;

/// Serves a crew's hub, where its phones meet
#[derive(Args)]
#[command(args_conflicts_with_subcommands = true)]
pub struct Hub {
    #[command(subcommand)]
    work: Option<Work>,
    #[command(flatten)]
    serve: Serve,
}

#[derive(Subcommand)]
enum Work {
    /// Prints a code with which one person founds a crew; earlier unused ones end
    Code(Stored),
    /// Writes everything but photos to a new SQLite hub file
    Backup(Backup),
}

#[derive(Args)]
struct Stored {
    /// An SQLite file, made if it is not there, or postgres://USER@HOST/DATABASE
    #[arg(long, value_name = "PLACE", default_value = "headwalk-hub.db")]
    store: String,
}

#[derive(Args)]
struct Backup {
    /// The file to write; it must not be there yet
    file: PathBuf,
    #[command(flatten)]
    stored: Stored,
}

#[derive(Args)]
struct Serve {
    #[command(flatten)]
    stored: Stored,
    /// A folder, or s3://BUCKET/PATH with its keys in the AWS_... variables
    #[arg(long, value_name = "PLACE", default_value = "headwalk-photos")]
    photos: String,
    /// Address and port; without TLS on this machine only
    #[arg(long, value_name = "ADDRESS", default_value = "127.0.0.1:8447")]
    listen: SocketAddr,
    /// Certificate chain, PEM
    #[arg(long, value_name = "FILE", requires = "key")]
    certificate: Option<PathBuf>,
    /// Private key of the certificate, PEM
    #[arg(long, value_name = "FILE", requires = "certificate")]
    key: Option<PathBuf>,
    /// A proxy in front adds TLS and sets X-Forwarded-For and X-Forwarded-Proto
    #[arg(long, conflicts_with = "certificate")]
    behind_proxy: bool,
    /// A name by which phones call the hub, without port; any where none is given
    #[arg(long = "host", value_name = "NAME")]
    hosts: Vec<String>,
    /// Address and port of the metrics, on this machine only
    #[arg(long, value_name = "ADDRESS")]
    metrics: Option<SocketAddr>,
    /// Room for each member, as a multiple of the usual: a scout may store 256 MB of
    /// changes and 4 GB of photos, an owner 4 GB and 16 GB
    #[arg(long, value_name = "TIMES", default_value_t = 1, value_parser = clap::value_parser!(u32).range(1..=1_000))]
    room: u32,
}

impl Hub {
    pub fn run(self) -> Result<(), Failure> {
        let runtime = tokio::runtime::Builder::new_multi_thread()
            .enable_all()
            .build()?;
        match self.work {
            None => runtime.block_on(serve(self.serve)),
            Some(Work::Code(stored)) => runtime.block_on(async {
                let hub = without_photos(&stored.store).await?;
                print_code(&hub).await
            }),
            Some(Work::Backup(backup)) => runtime.block_on(async {
                let store = open(&backup.stored.store, Quotas::default()).await?;
                let written = store.backup(&backup.file).await;
                written.map_err(|fault| failure(&fault).in_file(&backup.file))
            }),
        }
    }
}

async fn open(place: &str, quotas: Quotas) -> Result<Arc<dyn Store>, Failure> {
    hub::open::store(place, quotas)
        .await
        .map_err(|fault| failure(&fault))
}

/// A hub to make codes with; photos have no part in that.
async fn without_photos(place: &str) -> Result<Inner, Failure> {
    let photos = hub::photos::Photos::none();
    let store = open(place, Quotas::default()).await?;
    Ok(Inner::new(store, photos, machine_clock()))
}

async fn serve(call: Serve) -> Result<(), Failure> {
    hub::journal::start();
    let store = open(&call.stored.store, Quotas::default().times(call.room)).await?;
    let photos = hub::open::photos(&call.photos).map_err(|fault| failure(&fault))?;
    let hub = Inner::new(store, photos, machine_clock());
    let rules = DoorRules {
        hosts: call.hosts,
        behind_proxy: call.behind_proxy,
        ..DoorRules::default()
    };
    let listening = Listening {
        at: call.listen,
        tls: call.certificate.zip(call.key),
        metrics_at: call.metrics,
        rules,
    };
    let scheme = if listening.tls.is_some() {
        "https"
    } else {
        "http"
    };
    let bound = bind(hub.clone(), listening).await.map_err(not_listening)?;
    {
        let mut out = io::stdout().lock();
        writeln!(out, "{scheme}://{}", bound.address()?)?;
        if let Some(metrics) = bound.metrics_address()? {
            writeln!(out, "metrics: http://{metrics}/metrics")?;
        }
        out.flush()?;
    }
    if hub
        .store
        .is_empty()
        .await
        .map_err(|fault| failure(&fault))?
    {
        print_code(&hub).await?;
    }
    bound.serve(asked_to_stop()).await;
    Ok(())
}

async fn print_code(hub: &Inner) -> Result<(), Failure> {
    let code = hub.founding_code().await.map_err(|fault| failure(&fault))?;
    let mut out = io::stdout().lock();
    writeln!(
        out,
        "owner code: {} (used once, within a day; it makes its user the owner of a new crew)",
        code::spell(&code)
    )?;
    out.flush()?;
    Ok(())
}

fn failure(fault: &StoreFault) -> Failure {
    Failure::work(fault.to_string())
}

fn not_listening(fault: ServeFault) -> Failure {
    match fault {
        ServeFault::Plaintext(_) | ServeFault::MetricsInTheOpen(_) => {
            Failure::call(fault.to_string())
        }
        ServeFault::Certificate(..) | ServeFault::Address(..) => Failure::work(fault.to_string()),
    }
}
