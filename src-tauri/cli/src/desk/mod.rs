//! `headwalk desk`: the app's own screens in a browser on this machine.
//!
//! The desk listens on loopback only. Other pages in the same browser can reach
//! loopback too, so every call must carry the secret of this start, a Host that
//! is this desk's and, where the browser names one, an Origin that is this
//! desk's; see [`guard`].

mod carry;
mod crew;
mod guard;
mod listen;
mod screens;
mod server;
mod ticket;

use std::io::{self, Write};
use std::net::{Ipv4Addr, SocketAddr};
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::time::{Duration, Instant};

use chrono::NaiveDate;
use clap::Args;
use exchange::service::CrewService;
use service::{Keeper, ProblemCode};

use crate::failure::Failure;
use crate::place;
use crate::stop::asked_to_stop;
use guard::Guard;
use screens::Screens;
use ticket::Ticket;

/// Time that requests in hand have once the desk is asked to stop.
const GRACE: Duration = Duration::from_secs(3);
/// Time that connections have once the notebook is closed.
const CONNECTIONS: Duration = Duration::from_millis(500);

/// Opens the notebook in a browser on this machine, over loopback only
#[derive(Args)]
pub struct Desk {
    /// The notebook, made if it is not there; your own where absent
    #[arg(long, value_name = "FILE")]
    notebook: Option<PathBuf>,
    /// Port on 127.0.0.1; a free one where absent
    #[arg(long, value_name = "N")]
    port: Option<u16>,
    /// Take this as today's date
    #[arg(long, value_name = "DATE")]
    today: Option<NaiveDate>,
    /// Take the screens from this folder instead of those built in
    #[arg(long, value_name = "DIR")]
    screens: Option<PathBuf>,
    /// Only print the address
    #[arg(long)]
    no_open: bool,
}

impl Desk {
    pub fn run(self) -> Result<(), Failure> {
        let screens = Screens::new(self.screens.as_deref())?;
        let path = match self.notebook {
            Some(path) => path,
            None => place::own_notebook()?,
        };
        let keeper = Arc::new(open(&path, self.today)?);
        let crew = Arc::new(CrewService::open(&path, self.today)?);
        let runtime = tokio::runtime::Builder::new_multi_thread()
            .worker_threads(2)
            .enable_all()
            .build()?;
        let served = runtime.block_on(serve(
            keeper.clone(),
            crew.clone(),
            screens,
            self.port.unwrap_or(0),
            !self.no_open,
        ));
        // Connections that browsers keep open hold the notebook too, so it is closed
        // by name, and not by dropping it.
        crew.close();
        let _ = keeper.close();
        runtime.shutdown_timeout(CONNECTIONS);
        served
    }
}

/// Opens the notebook. Where the screens can help with what is wrong, the desk runs
/// and they say it; where they cannot, this is the end.
fn open(path: &Path, today: Option<NaiveDate>) -> Result<Keeper, Failure> {
    let keeper = Keeper::open(path, today);
    match keeper.problem() {
        None => Ok(keeper),
        Some(problem) => {
            let shown = matches!(
                problem.code,
                ProblemCode::Damaged
                    | ProblemCode::DiskFull
                    | ProblemCode::ReadOnly
                    | ProblemCode::FromNewerApp
                    | ProblemCode::Incomplete
            );
            let failure = Failure::from(problem).in_file(path);
            if shown {
                let _ = writeln!(io::stderr(), "headwalk: {failure}");
                Ok(keeper)
            } else {
                Err(failure)
            }
        }
    }
}

async fn serve(
    keeper: Arc<Keeper>,
    crew: Arc<CrewService>,
    screens: Screens,
    port: u16,
    show: bool,
) -> Result<(), Failure> {
    let address = SocketAddr::from((Ipv4Addr::LOCALHOST, port));
    let listener = tokio::net::TcpListener::bind(address)
        .await
        .map_err(|error| {
            Failure::work(format!(
                "port {port} of 127.0.0.1 cannot be used ({error}): choose another --port"
            ))
        })?;
    let address = listener.local_addr()?;
    let guard = Guard::new(address)?;
    let url = format!("http://{address}/#secret={}", guard.secret());
    let ticket = show.then(|| Ticket::issue(Instant::now())).transpose()?;
    // The arguments of the browser's starter are no place for the secret.
    let to_start = ticket
        .as_ref()
        .map(|ticket| format!("http://{address}/open/{}", ticket.code()));
    let app = server::app(keeper, crew, screens, guard.clone(), ticket);
    {
        // One line, for people and for programs that start the desk.
        let mut out = io::stdout().lock();
        writeln!(out, "{url}")?;
        out.flush()?;
    }
    if to_start.is_some_and(|address| open::that_detached(address).is_err()) {
        let _ = writeln!(
            io::stderr(),
            "headwalk: no browser could be started: open the address yourself"
        );
    }
    let (ask, asked) = tokio::sync::oneshot::channel();
    let serving = listen::serve(listener, app, guard, async move {
        asked_to_stop().await;
        let _ = ask.send(());
    });
    // A browser keeps connections open on which it asks nothing, and a page that
    // stands still takes no answer: none of them holds the desk up for long. What the
    // notebook has begun is ended or given up before the process is.
    let long_enough = async {
        if asked.await.is_err() {
            std::future::pending::<()>().await;
        }
        tokio::time::sleep(GRACE).await;
    };
    tokio::select! {
        () = serving => {}
        () = long_enough => {}
    }
    Ok(())
}
