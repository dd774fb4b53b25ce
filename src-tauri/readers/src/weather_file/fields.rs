//! Dates and numbers as weather files write them.

use chrono::NaiveDate;
use ripening::calendar::is_plausible_for_weather;

use super::problem::RowFault;
use kinds::short;

/// `2026-07-31`, or `20260731`.
pub(super) fn date(text: &[u8]) -> Option<NaiveDate> {
    let (year, month, day) = match text.len() {
        10 if text[4] == b'-' && text[7] == b'-' => (&text[..4], &text[5..7], &text[8..]),
        8 => (&text[..4], &text[4..6], &text[6..]),
        _ => return None,
    };
    NaiveDate::from_ymd_opt(
        i32::try_from(whole(year)?).ok()?,
        whole(month)?,
        whole(day)?,
    )
}

/// The same, of a day of which weather can be known.
pub(super) fn day(text: &[u8]) -> Result<NaiveDate, RowFault> {
    let date = date(text).ok_or_else(|| RowFault::NoDate(shown(text)))?;
    plausible(date)
}

/// The date, if weather of it can be known.
pub(super) fn plausible(date: NaiveDate) -> Result<NaiveDate, RowFault> {
    if is_plausible_for_weather(date) {
        Ok(date)
    } else {
        Err(RowFault::FarDate(date))
    }
}

/// Digits only.
pub(super) fn whole(text: &[u8]) -> Option<u32> {
    if text.is_empty() || text.len() > 6 {
        return None;
    }
    text.iter().try_fold(0_u32, |sum, byte| {
        byte.is_ascii_digit()
            .then(|| sum * 10 + u32::from(byte - b'0'))
    })
}

/// A number, or nothing where the field is empty or says `M` (missing).
pub(super) fn number(text: &[u8]) -> Result<Option<f64>, ()> {
    let text = text.trim_ascii();
    if text.is_empty() || text.eq_ignore_ascii_case(b"m") || text.eq_ignore_ascii_case(b"na") {
        return Ok(None);
    }
    std::str::from_utf8(text)
        .ok()
        .and_then(|text| text.parse::<f64>().ok())
        .filter(|value| value.is_finite())
        .map(Some)
        .ok_or(())
}

pub(super) fn shown(text: &[u8]) -> String {
    short(&String::from_utf8_lossy(text))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn dates_and_numbers() {
        assert_eq!(date(b"2016-02-29"), NaiveDate::from_ymd_opt(2016, 2, 29));
        assert_eq!(date(b"20160229"), NaiveDate::from_ymd_opt(2016, 2, 29));
        assert_eq!(date(b"2015-02-29"), None);
        assert_eq!(date(b"7/31/2026"), None);
        assert_eq!(number(b" 85.5 "), Ok(Some(85.5)));
        assert_eq!(number(b""), Ok(None));
        assert_eq!(number(b"M"), Ok(None));
        assert_eq!(number(b"hot"), Err(()));
        assert_eq!(number(b"inf"), Err(()));
    }
}
