//! The commands of this repository: `cargo xtask start`, `window`, `test`, `tidy`, `licenses`,
//! `bench`.

mod benches;
mod changes;
mod checks;
mod circles;
mod desk;
mod libraries;
mod needs;
mod quick;
mod screens;
mod steps;
mod test_files;
mod tidy;

use std::path::Path;
use std::process::ExitCode;

use anyhow::Context as _;
use clap::{Parser, Subcommand};
use xshell::Shell;

/// The commands of this repository.
#[derive(Parser)]
#[command(name = "cargo xtask", bin_name = "cargo xtask")]
struct Call {
    #[command(subcommand)]
    task: Task,
}

#[derive(Subcommand)]
enum Task {
    /// Build what is missing and open the app in the browser, on this machine only
    Start(desk::Start),
    /// The same in the app's own window
    Window(desk::Window),
    /// Format, rules, lints, types, and the unit tests of what changed
    Quick(quick::Quick),
    /// Every check of the repository, as CI runs it
    Test {
        /// With the long simulations (an hour and more)
        #[arg(long)]
        long: bool,
    },
    /// The rules of the house alone, in a second
    Tidy,
    /// Licenses, duplicates and sources of all libraries (needs cargo-deny)
    Licenses,
    /// The benches, each beside a peer or a limit
    Bench {
        /// Passed on to the bench programs, for instance a filter; without it the
        /// screens are measured too
        #[arg(trailing_var_arg = true, allow_hyphen_values = true)]
        rest: Vec<String>,
    },
}

fn main() -> ExitCode {
    let call = Call::parse();
    match carry_out(call.task) {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("xtask: {error:#}");
            ExitCode::FAILURE
        }
    }
}

fn carry_out(task: Task) -> anyhow::Result<()> {
    let shell = Shell::new().context("the current folder cannot be read")?;
    // tests/xtask, two below the top.
    let top = Path::new(env!("CARGO_MANIFEST_DIR"))
        .ancestors()
        .nth(2)
        .context("xtask does not lie in tests/xtask")?;
    shell.change_dir(top);
    match task {
        Task::Start(start) => desk::start(&shell, &start),
        Task::Window(window) => desk::window(&shell, &window),
        Task::Quick(quick) => quick::run(&shell, &quick),
        Task::Test { long } => checks::run(&shell, long),
        Task::Tidy => tidy::check(&shell),
        Task::Licenses => libraries::check(&shell),
        Task::Bench { rest } => benches::run(&shell, &rest),
    }
}
