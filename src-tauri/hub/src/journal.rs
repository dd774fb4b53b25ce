//! Structured logs, one JSON object a line on standard error.
//!
//! They say what was asked and how it ended. Names, addresses, tokens, codes and
//! ids of people or phones are never written.

use tracing_subscriber::EnvFilter;

/// Starts the log at the level of `HEADWALK_LOG` (`info` where absent). A second
/// call does nothing.
pub fn start() {
    let level = EnvFilter::try_from_env("HEADWALK_LOG").unwrap_or_else(|_| EnvFilter::new("info"));
    let _ = tracing_subscriber::fmt()
        .json()
        .with_env_filter(level)
        .with_current_span(false)
        .with_writer(std::io::stderr)
        .try_init();
}
