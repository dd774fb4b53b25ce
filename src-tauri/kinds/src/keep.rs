//! What becomes of a file that is read.

/// Whether an import stores what it read.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Keep {
    /// No: it only says what it would do.
    Nothing,
    /// Yes: the good rows, all or nothing.
    GoodRows,
}
