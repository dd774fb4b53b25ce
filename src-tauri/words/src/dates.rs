//! Civil dates in a language, as the screens write them.

use chrono::{Datelike, NaiveDate};

use crate::Language;

/// Short names of the months in English (Unicode CLDR, `en-US`).
const ENGLISH: [&str; 12] = [
    "Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec",
];
/// Short names of the months in Spanish (Unicode CLDR, `es-US`).
const SPANISH: [&str; 12] = [
    "ene", "feb", "mar", "abr", "may", "jun", "jul", "ago", "sept", "oct", "nov", "dic",
];

/// A date, with its year where that is not the year of `today`.
pub(crate) fn date(language: Language, on: NaiveDate, today: Option<NaiveDate>) -> String {
    let day = day(language, on);
    if today.is_some_and(|today| today.year() == on.year()) {
        return day;
    }
    match language {
        Language::English => format!("{day}, {}", on.year()),
        Language::Spanish => format!("{day} {}", on.year()),
    }
}

/// Two dates as a span, or one where they are the same; with the year where one of them
/// is not of the year of `today`.
pub(crate) fn span(
    language: Language,
    from: NaiveDate,
    to: NaiveDate,
    today: Option<NaiveDate>,
) -> String {
    if from == to {
        return date(language, from, today);
    }
    let year = today.map(|today| today.year());
    let bare = Some(from.year()) == year && Some(to.year()) == year;
    let one_year = from.year() == to.year();
    let one_month = one_year && from.month() == to.month();
    match language {
        Language::English => {
            let to_text = if one_month {
                to.day().to_string()
            } else {
                day(language, to)
            };
            match (bare, one_year) {
                (true, _) => format!("{} – {to_text}", day(language, from)),
                (false, true) => format!("{} – {to_text}, {}", day(language, from), to.year()),
                (false, false) => {
                    let (from, to) = (date(language, from, None), date(language, to, None));
                    format!("{from} – {to}")
                }
            }
        }
        Language::Spanish => {
            let of_month = |on: NaiveDate| format!("{} de {}", on.day(), month(language, on));
            let to_year = if bare {
                String::new()
            } else {
                format!(" de {}", to.year())
            };
            if one_month {
                format!("{}–{}{to_year}", from.day(), of_month(to))
            } else if bare || one_year {
                format!("{} – {}{to_year}", of_month(from), of_month(to))
            } else {
                format!(
                    "{} de {} – {}{to_year}",
                    of_month(from),
                    from.year(),
                    of_month(to)
                )
            }
        }
    }
}

fn day(language: Language, on: NaiveDate) -> String {
    let month = month(language, on);
    match language {
        Language::English => format!("{month} {}", on.day()),
        Language::Spanish => format!("{} {month}", on.day()),
    }
}

fn month(language: Language, on: NaiveDate) -> &'static str {
    let names = match language {
        Language::English => ENGLISH,
        Language::Spanish => SPANISH,
    };
    names[on.month0() as usize]
}
