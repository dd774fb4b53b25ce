//! Starts the app on this machine: in the browser (`start`) or in its own window.

use std::path::{Path, PathBuf};
use std::process::Command;
use std::{env, fs};

use anyhow::{Context as _, bail};
use clap::Args;
use xshell::{Shell, cmd};

use crate::{needs, screens};

/// Where the demo's notebook is kept between starts.
const DEMO: &str = "target/demo";

/// In the browser.
#[derive(Args)]
pub struct Start {
    #[command(flatten)]
    notebook: Which,
    /// Port on this machine; a free one by default
    #[arg(long)]
    port: Option<u16>,
    /// Only print the address
    #[arg(long)]
    no_open: bool,
}

/// In the app's window.
#[derive(Args)]
pub struct Window {
    #[command(flatten)]
    notebook: Which,
}

/// Which notebook.
#[derive(Args)]
struct Which {
    /// A notebook filled with the invented season, apart from your own
    #[arg(long)]
    demo: bool,
    /// With --demo: make its notebook anew
    #[arg(long, requires = "demo")]
    fresh: bool,
}

/// Builds what is missing and runs the desk until it is stopped.
pub fn start(shell: &Shell, start: &Start) -> anyhow::Result<()> {
    screens::build(shell)?;
    let program = build_program(shell)?;
    let mut desk = Command::new(&program);
    desk.arg("desk");
    if start.notebook.demo {
        let notebook = demo_notebook(shell, &program, start.notebook.fresh)?;
        desk.arg("--notebook").arg(notebook);
        desk.arg("--today").arg(demo_day(shell)?);
    }
    if let Some(port) = start.port {
        desk.arg("--port").arg(port.to_string());
    }
    if start.no_open {
        desk.arg("--no-open");
    }
    become_it(desk)
}

/// Builds what is missing and opens the window.
pub fn window(shell: &Shell, window: &Window) -> anyhow::Result<()> {
    needs::system(shell, needs::WINDOW)?;
    screens::build(shell)?;
    cmd!(
        shell,
        "cargo build --locked --package headwalk-shell --bin headwalk-shell"
    )
    .run()?;
    let mut app = Command::new(built("headwalk-shell")?);
    if window.notebook.demo {
        let program = build_program(shell)?;
        let notebook = demo_notebook(shell, &program, window.notebook.fresh)?;
        app.env("HEADWALK_NOTEBOOK", notebook)
            .env("HEADWALK_TODAY", demo_day(shell)?);
    }
    become_it(app)
}

/// Builds the program by itself, without what only tests switch on.
pub fn build_program(shell: &Shell) -> anyhow::Result<PathBuf> {
    cmd!(
        shell,
        "cargo build --locked --package headwalk-cli --bin headwalk"
    )
    .run()?;
    built("headwalk")
}

/// Builds the program as it is released.
pub fn build_released(shell: &Shell) -> anyhow::Result<PathBuf> {
    cmd!(
        shell,
        "cargo build --locked --release --package headwalk-cli --bin headwalk"
    )
    .run()?;
    let beside = built("headwalk")?;
    let name = beside.file_name().context("the program has no name")?;
    let builds = beside.ancestors().nth(2).context("no folder of builds")?;
    Ok(builds.join("release").join(name))
}

/// A program of this build: it lies beside this one.
pub fn built(name: &str) -> anyhow::Result<PathBuf> {
    let name = format!("{name}{}", env::consts::EXE_SUFFIX);
    Ok(env::current_exe()
        .context("this program's own path cannot be read")?
        .with_file_name(name))
}

/// The demo's notebook, made from `demo-data` if it is not there.
fn demo_notebook(shell: &Shell, program: &Path, fresh: bool) -> anyhow::Result<PathBuf> {
    let folder = shell.current_dir().join(DEMO);
    let notebook = folder.join("notebook.db");
    if fresh && folder.exists() {
        fs::remove_dir_all(&folder).context("the demo's notebook cannot be removed")?;
    }
    if notebook.exists() {
        return Ok(notebook);
    }
    // Made beside and moved when whole, so that a stopped start leaves no half demo.
    let making = folder.with_extension("making");
    if making.exists() {
        fs::remove_dir_all(&making)?;
    }
    fs::create_dir_all(&making)?;
    let half = making.join("notebook.db");
    for file in [
        "plantings.csv",
        "fields.geojson",
        "weather.csv",
        "heads.csv",
        "observations.csv",
    ] {
        cmd!(shell, "{program} import --notebook {half} demo-data/{file}").run()?;
    }
    fs::rename(&making, &folder).context("the demo's notebook cannot be put in place")?;
    Ok(notebook)
}

/// The day on which the demo is looked at: the last of its weather.
fn demo_day(shell: &Shell) -> anyhow::Result<String> {
    let weather = shell.read_file("demo-data/weather.csv")?;
    let last = weather
        .lines()
        .next_back()
        .and_then(|row| row.split(',').nth(1));
    match last {
        Some(day) => Ok(day.to_owned()),
        None => bail!("demo-data/weather.csv has no rows"),
    }
}

/// Becomes that program, so that a signal to this one reaches it.
#[cfg(unix)]
fn become_it(mut program: Command) -> anyhow::Result<()> {
    use std::os::unix::process::CommandExt as _;
    Err(program.exec())
        .with_context(|| format!("{} cannot be run", program.get_program().display()))
}

/// Runs that program to its end.
#[cfg(not(unix))]
fn become_it(mut program: Command) -> anyhow::Result<()> {
    let ended = program
        .status()
        .with_context(|| format!("{} cannot be run", program.get_program().display()))?;
    anyhow::ensure!(ended.success(), "{ended}");
    Ok(())
}
