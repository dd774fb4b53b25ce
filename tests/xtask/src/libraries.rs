//! Licenses, duplicates, banned libraries and their sources, by `.cargo/deny.toml`.

use anyhow::bail;
use xshell::{Shell, cmd};

/// Checks the libraries; what fails is printed by `cargo-deny` with its reason.
///
/// Not a step of `test`: to build `cargo-deny` takes longer than many of its steps.
pub fn check(shell: &Shell) -> anyhow::Result<()> {
    let there = cmd!(shell, "cargo deny --version")
        .quiet()
        .ignore_stdout()
        .ignore_stderr()
        .run()
        .is_ok();
    if !there {
        bail!("cargo-deny is missing: run cargo install --locked cargo-deny");
    }
    // Those for other systems too; where all are here already, no network is needed.
    if cmd!(shell, "cargo fetch --locked --offline")
        .quiet()
        .ignore_stderr()
        .run()
        .is_err()
    {
        cmd!(shell, "cargo fetch --locked").run()?;
    }
    Ok(cmd!(
        shell,
        "cargo deny --locked --offline --workspace check --config .cargo/deny.toml licenses bans sources"
    )
    .run()?)
}
