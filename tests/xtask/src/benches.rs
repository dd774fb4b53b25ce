//! What is measured: the programs of `tests/benches`, then the screens.

use std::path::PathBuf;

use xshell::{Shell, cmd};

use crate::{desk, needs, screens};

/// Runs the benches; `rest` goes to the bench programs, and leaves the screens out.
pub fn run(shell: &Shell, rest: &[String]) -> anyhow::Result<()> {
    needs::system(shell, needs::BENCHES)?;
    let _sampler = shell.push_env("HEADWALK_PYTHON", sampler(shell)?);
    let programs = cmd!(
        shell,
        "cargo bench --locked --no-fail-fast --package headwalk-tests -- {rest...}"
    )
    .run();
    if rest.is_empty() {
        screens(shell)?;
    }
    Ok(programs?)
}

/// A Python with the independent sampler that the roll-up is measured beside.
fn sampler(shell: &Shell) -> anyhow::Result<PathBuf> {
    let folder = shell.current_dir().join("target/sampler");
    let python = folder.join("bin/python");
    if !python.exists() {
        cmd!(shell, "python3 -m venv {folder}").run()?;
    }
    let needs = "tests/reference/roll_up/requirements.txt";
    cmd!(
        shell,
        "{python} -m pip install --quiet --disable-pip-version-check --requirement {needs}"
    )
    .run()?;
    Ok(python)
}

/// Measured on the program as it is released.
fn screens(shell: &Shell) -> anyhow::Result<()> {
    screens::packages(shell, "ui")?;
    screens::packages(shell, "tests")?;
    screens::build(shell)?;
    let program = desk::build_released(shell)?;
    let _program = shell.push_env("HEADWALK_PROGRAM", program);
    let _inside = shell.push_dir("tests");
    Ok(cmd!(shell, "npm run --silent bench").run()?)
}
