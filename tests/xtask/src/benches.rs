//! What is measured: the programs of `tests/benches`, then the screens.

use std::path::PathBuf;

use xshell::{Shell, cmd};

use crate::{desk, needs, screens};

/// Runs the benches; `rest` goes to the bench programs, and leaves the screens out.
pub fn run(shell: &Shell, rest: &[String]) -> anyhow::Result<()> {
    needs::system(shell, needs::BENCHES)?;
    // Some benches alone do not wait for it.
    let sampler = if rest.is_empty() {
        sampler(shell)
    } else {
        None
    };
    let _sampler = sampler.map(|python| shell.push_env("HEADWALK_PYTHON", python));
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

/// A Python with the independent sampler that the roll-up is measured beside; none,
/// and a word of it, where it cannot be had.
fn sampler(shell: &Shell) -> Option<PathBuf> {
    let folder = shell.current_dir().join("target/sampler");
    let python = folder.join("bin/python");
    let needs = "tests/reference/roll_up/requirements.txt";
    let install = || {
        cmd!(
            shell,
            "{python} -m pip install --quiet --disable-pip-version-check --requirement {needs}"
        )
        .run()
    };
    let made = install().or_else(|_| {
        cmd!(shell, "python3 -m venv --clear {folder}").run()?;
        install()
    });
    if let Err(error) = &made {
        eprintln!("the independent sampler is left out: {error}");
    }
    made.ok().map(|()| python)
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
