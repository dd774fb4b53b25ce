//! The checks worth waiting for between two edits: all that is cheap, and of the rest
//! what the changed files concern. `cargo xtask test` alone says that all is well.

use clap::Args;
use xshell::{Shell, cmd};

use crate::changes::Changes;
use crate::checks::{TESTS, npm};
use crate::steps::Steps;
use crate::{needs, screens, tidy};

/// Format, rules, lints, types, and the unit tests of what changed.
#[derive(Args)]
pub struct Quick {
    /// A commit or branch to compare with; where this branch left main by default
    #[arg(long, value_name = "REV")]
    since: Option<String>,
}

/// Runs the checks that the changed files ask for.
pub fn run(shell: &Shell, quick: &Quick) -> anyhow::Result<()> {
    let changes = Changes::since(shell, quick.since.as_deref())?;
    let mut steps = Steps::begin();
    steps.run("format", || {
        Ok(cmd!(shell, "cargo fmt --all --check").run()?)
    })?;
    steps.run("rules of the house", || tidy::check(shell))?;
    if changes.screens() {
        steps.run("screens: types", || {
            screens::packages(shell, "ui")?;
            npm(shell, "ui", "check")
        })?;
        steps.run("screens: tests", || npm(shell, "ui", "test"))?;
    }
    if changes.browser_tests() {
        steps.run("browser tests: types", || {
            screens::packages(shell, TESTS)?;
            npm(shell, TESTS, "check")
        })?;
    }
    let packages = changes.packages();
    if changes.libraries() || !packages.is_empty() {
        steps.run("lints", || lints(shell))?;
    }
    if !packages.is_empty() {
        let names: Vec<&str> = packages.iter().copied().collect();
        steps.run("unit tests", || unit_tests(shell, &names))?;
    }
    steps.print();
    Ok(())
}

/// Of the code and not of its tests, which would take minutes; but of every package,
/// so that whoever uses what changed is looked at too.
fn lints(shell: &Shell) -> anyhow::Result<()> {
    // The window's code includes the screens.
    if !shell.path_exists("ui/dist/index.html") {
        screens::build(shell)?;
    }
    Ok(cmd!(
        shell,
        "cargo clippy --locked --workspace --lib --bins -- -D warnings"
    )
    .run()?)
}

fn unit_tests(shell: &Shell, packages: &[&str]) -> anyhow::Result<()> {
    if needs::nextest(shell) {
        let chosen = packages
            .iter()
            .map(|package| format!("package({package})"))
            .collect::<Vec<_>>()
            .join(" + ");
        // One set of features, as in `test`, whichever packages are chosen.
        let run = ["--locked", "--workspace", "--lib", "--bins"];
        return Ok(cmd!(
            shell,
            "cargo nextest run {run...} --no-tests pass -E {chosen}"
        )
        .run()?);
    }
    for package in packages {
        cmd!(
            shell,
            "cargo test --locked --quiet --package {package} --lib --bins"
        )
        .run()?;
    }
    Ok(())
}
