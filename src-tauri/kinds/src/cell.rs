//! Cells of the tables that are written for other programs.
//!
//! A spreadsheet takes a cell that begins with `=`, `+`, `-`, `@`, a tab or a line
//! break for a formula, and runs it: a note from anywhere could read other cells or
//! call out. An apostrophe before it makes it text. The readers take it off again, so
//! that a table comes back as it was written. Numbers are left as they are.

use std::borrow::Cow;

/// The text as a cell that no spreadsheet takes for a formula.
pub fn harmless(text: &str) -> Cow<'_, str> {
    if begins_formula(text.trim_start_matches('\'')) {
        Cow::Owned(format!("'{text}"))
    } else {
        Cow::Borrowed(text)
    }
}

/// The text that [`harmless`] made a cell of.
pub fn as_meant(cell: &str) -> &str {
    match cell.strip_prefix('\'') {
        Some(text) if begins_formula(text.trim_start_matches('\'')) => text,
        _ => cell,
    }
}

fn begins_formula(text: &str) -> bool {
    let number = || text.parse::<f64>().is_ok_and(f64::is_finite);
    text.starts_with(['=', '+', '-', '@', '\t', '\r', '\n']) && !number()
}

/// Whether the columns of a header are parted by semicolons: `names` as a reader of
/// commas takes it apart.
pub fn has_semicolons<T: AsRef<[u8]>>(mut names: impl Iterator<Item = T>) -> bool {
    let first = names.next();
    names.next().is_none() && first.is_some_and(|name| name.as_ref().contains(&b';'))
}

/// What to do about them. They are not read: such a file has commas in its numbers.
pub const SEMICOLONS: &str =
    "line 1: the columns are parted by semicolons: save the file as CSV with commas and try again";

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn formulas_become_text_and_numbers_stay() {
        for formula in [
            "=1+1", "+cmd", "-x", "@sum", "\t=1", "'=1", "-inf", "=", "-",
        ] {
            assert_eq!(harmless(formula), format!("'{formula}"));
        }
        for plain in [
            "North 40", "-5", "+1.5", "-1e3", "", "'quoted'", "a=b", "''",
        ] {
            assert_eq!(harmless(plain), plain);
        }
        assert_eq!(as_meant("'tis"), "'tis");
    }

    #[test]
    fn a_header_of_semicolons_is_one_name() {
        assert!(has_semicolons(["planting;walked_on;stop"].into_iter()));
        assert!(!has_semicolons(["planting", "a;b"].into_iter()));
        assert!(!has_semicolons(["planting"].into_iter()));
    }

    proptest! {
        #[test]
        fn every_text_comes_back_and_no_cell_begins_a_formula(text in "['=+@\t0-9a.-]{0,6}") {
            let cell = harmless(&text);
            prop_assert_eq!(as_meant(&cell), text.as_str());
            prop_assert!(!begins_formula(&cell));
        }
    }
}
