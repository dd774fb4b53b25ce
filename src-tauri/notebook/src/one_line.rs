//! Words of others, as a message repeats them.

/// The text with line breaks and other control characters as blanks: a message is one
/// line, whatever stands in the file that it speaks of.
pub(crate) fn one_line(text: &str) -> String {
    text.replace(char::is_control, " ")
}
