//! What must be on the machine, installed where that is possible.

use anyhow::{Context as _, bail};
use xshell::{Shell, cmd};

/// What the window needs to be built (Debian's names).
pub const WINDOW: &[&str] = &["libwebkit2gtk-4.1-dev"];

/// What the checks need: a display, a browser, a driver for the window, PostgreSQL,
/// of which the hub's tests start a server of their own, and a reader of PDFs.
pub const CHECKS: &[&str] = &[
    "libwebkit2gtk-4.1-dev",
    "webkit2gtk-driver",
    "xvfb",
    "xauth",
    "chromium",
    "postgresql",
    "poppler-utils",
];

/// What the benches need: what they are measured beside, and a browser.
pub const BENCHES: &[&str] = &[
    "imagemagick",
    "libvips-tools",
    "chromium",
    "postgresql",
    "python3-venv",
];

/// The oldest Node that the build of the screens runs on.
const NODE: (u32, u32) = (20, 19);

/// Installs system packages that are missing, or says which.
pub fn system(shell: &Shell, packages: &[&str]) -> anyhow::Result<()> {
    let missing: Vec<&str> = packages
        .iter()
        .filter(|package| !installed(shell, package))
        .copied()
        .collect();
    if missing.is_empty() {
        return Ok(());
    }
    let wanted = missing.join(" ");
    let sudo: &[&str] = if !answers(shell, "apt-get") {
        bail!("these are missing (Debian's names): {wanted}; install them and start again");
    } else if cmd!(shell, "id -u").quiet().read()? == "0" {
        &[]
    } else if cmd!(shell, "sudo -n true")
        .quiet()
        .ignore_stderr()
        .run()
        .is_ok()
    {
        &["sudo"]
    } else {
        bail!("packages are missing; run: sudo apt-get install --no-install-recommends {wanted}");
    };
    eprintln!("installing {wanted}");
    let apt: Vec<&str> = sudo
        .iter()
        .chain(&["env", "DEBIAN_FRONTEND=noninteractive", "apt-get"])
        .copied()
        .collect();
    let (program, before) = apt.split_first().context("no program to install with")?;
    let wait = ["-q", "-o", "DPkg::Lock::Timeout=600"];
    cmd!(shell, "{program} {before...} {wait...} update")
        .quiet()
        .run()?;
    cmd!(
        shell,
        "{program} {before...} {wait...} install -y --no-install-recommends {missing...}"
    )
    .quiet()
    .run()?;
    Ok(())
}

fn installed(shell: &Shell, package: &str) -> bool {
    let status = "--showformat=${Status}";
    cmd!(shell, "dpkg-query --show {status} {package}")
        .quiet()
        .ignore_stderr()
        .read()
        .is_ok_and(|status| status == "install ok installed")
}

/// Whether a program can be run.
pub fn answers(shell: &Shell, program: &str) -> bool {
    cmd!(shell, "{program} --version")
        .quiet()
        .ignore_stdout()
        .ignore_stderr()
        .run()
        .is_ok()
}

/// Checks that Node is there and new enough.
pub fn node(shell: &Shell) -> anyhow::Result<()> {
    let (major, minor) = NODE;
    let version = cmd!(shell, "node --version")
        .quiet()
        .ignore_stderr()
        .read()
        .with_context(|| format!("Node is missing: install {major}.{minor} or newer, with npm"))?;
    let mut parts = version.trim_start_matches('v').split('.');
    let mut part = || parts.next().and_then(|part| part.parse().ok()).unwrap_or(0);
    if (part(), part()) < NODE {
        bail!("Node {version} is too old: install {major}.{minor} or newer");
    }
    Ok(())
}

/// Installs the test runner if it is not there; `false` if it cannot be had.
pub fn nextest(shell: &Shell) -> bool {
    let there = || {
        cmd!(shell, "cargo nextest --version")
            .quiet()
            .ignore_stdout()
            .ignore_stderr()
            .run()
            .is_ok()
    };
    there()
        || (cmd!(shell, "cargo install --locked cargo-nextest")
            .run()
            .is_ok()
            && there())
}
