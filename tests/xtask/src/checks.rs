//! Every check of the repository, the cheap ones first, so that a fault is found soon.
//!
//! All Cargo calls use the whole workspace and the same profile, so that nothing
//! is compiled twice with other features.

use xshell::{Shell, cmd};

use crate::steps::Steps;
use crate::{desk, needs, screens, tidy};

/// Folder of the browser and window tests' packages.
pub const TESTS: &str = "tests";

/// Runs all checks and prints how long each took.
pub fn run(shell: &Shell, long: bool) -> anyhow::Result<()> {
    let mut steps = Steps::begin();
    if long {
        // Read by the simulations; without it they run their short settings.
        shell.set_var("HEADWALK_LONG", "1");
    }
    steps.run("what is needed", || {
        needs::system(shell, needs::CHECKS)?;
        screens::packages(shell, "ui")?;
        screens::packages(shell, TESTS)
    })?;
    steps.run("format", || {
        Ok(cmd!(shell, "cargo fmt --all --check").run()?)
    })?;
    steps.run("rules of the house", || tidy::check(shell))?;
    steps.run("screens: types", || {
        npm(shell, "ui", "check")?;
        npm(shell, TESTS, "check")
    })?;
    steps.run("screens: tests", || npm(shell, "ui", "test"))?;
    steps.run("screens: build", || screens::build(shell))?;
    steps.run("lints", || {
        Ok(cmd!(
            shell,
            "cargo clippy --locked --workspace --all-targets -- -D warnings"
        )
        .run()?)
    })?;
    steps.run("docs", || {
        let _strict = shell.push_env("RUSTDOCFLAGS", "-D warnings");
        Ok(cmd!(shell, "cargo doc --locked --workspace --no-deps --quiet").run()?)
    })?;
    steps.run("examples in the docs", || {
        Ok(cmd!(shell, "cargo test --locked --workspace --doc --quiet").run()?)
    })?;
    steps.run("same bits without optimization", || {
        Ok(cmd!(
            shell,
            "cargo test --locked --package ripening --test same_bits --profile unoptimized --quiet"
        )
        .run()?)
    })?;
    // The browser tests call `start`, which must not compile for minutes beside them.
    steps.run("program as start builds it", || {
        desk::build_program(shell).map(drop)
    })?;
    steps.run("program and window: build", || {
        Ok(cmd!(shell, "cargo build --locked --workspace --bins").run()?)
    })?;
    shell.set_var("HEADWALK_PROGRAM", desk::built("headwalk")?);
    shell.set_var("HEADWALK_SHELL", desk::built("headwalk-shell")?);
    steps.run("window tests", || npm(shell, TESTS, "window"))?;
    steps.run("browser tests", || npm(shell, TESTS, "browser"))?;
    // Last, because its closing lines sum the repository's tests up.
    let runner: &[&str] = if needs::nextest(shell) {
        &["nextest", "run", "--no-fail-fast"]
    } else {
        eprintln!("cargo-nextest cannot be had here; cargo's own runner does");
        &["test", "--no-fail-fast", "--lib", "--bins", "--tests"]
    };
    if long {
        // Thousands of crews take hours unless they are built as the program is released.
        steps.run("exchange simulation, long", || {
            Ok(cmd!(
                shell,
                "cargo test --locked --profile long --package headwalk-tests --test exchange_simulation"
            )
            .run()?)
        })?;
        shell.set_var("HEADWALK_SEEDS", "0..300");
    }
    steps.run("Rust tests", || {
        Ok(cmd!(shell, "cargo {runner...} --locked --workspace").run()?)
    })?;
    steps.print();
    Ok(())
}

/// Runs a script of a folder's `package.json`.
pub fn npm(shell: &Shell, folder: &str, script: &str) -> anyhow::Result<()> {
    let _inside = shell.push_dir(folder);
    Ok(cmd!(shell, "npm run --silent {script}").run()?)
}
