//! How much memory a piece of work takes at its peak, as Linux counts it.

use std::fs;

/// Runs `work` and tells by how many bytes the process was larger at the peak
/// than before it; none where the system does not say.
pub fn growth_of<T>(work: impl FnOnce() -> T) -> (T, Option<u64>) {
    // Sets the peak back to what is held now (proc(5), clear_refs).
    let reset = fs::write("/proc/self/clear_refs", "5").is_ok();
    let before = status("VmRSS:");
    let done = work();
    let peak = status("VmHWM:");
    let growth = before
        .zip(peak)
        .filter(|_| reset)
        .map(|(before, peak)| peak.saturating_sub(before));
    (done, growth)
}

fn status(name: &str) -> Option<u64> {
    let status = fs::read_to_string("/proc/self/status").ok()?;
    let line = status.lines().find_map(|line| line.strip_prefix(name))?;
    let kilobytes: u64 = line.split_whitespace().next()?.parse().ok()?;
    Some(kilobytes * 1024)
}
