//! Words of others, as a message repeats them.

/// The text with line breaks and other control characters as blanks: a message is one
/// line, whatever stands in the file that it speaks of.
pub fn one_line(text: &str) -> String {
    text.replace(char::is_control, " ")
}

/// Letters of a cell that a message repeats.
const REPEATED: usize = 40;

/// As much of a cell as a message repeats, in one line.
pub fn short(cell: &str) -> String {
    let letters: String = one_line(cell).chars().take(REPEATED).collect();
    letters.trim().to_owned()
}
