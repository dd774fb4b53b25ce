//! The commands of this repository.
fn main() {}
