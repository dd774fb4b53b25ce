//! Reading a head file row by row.

use std::io::Read;

use chrono::NaiveDate;
use csv::{ByteRecord, ReaderBuilder};
use ripening::calendar::{YEARS, is_plausible};
use ripening::{Flag, Head, HeadError, Reading, Share};
use thiserror::Error;

use super::lines::{Lines, first_line, next_row};
use kinds::Detail;
use kinds::cell;
use kinds::flag_from_word;
use kinds::one_line;

/// Longest name of a planting, stop or scout, in characters.
pub const MAX_NAME: u32 = 200;
/// Longest row, bytes: far above any real one, and what a quote left open runs into.
const MAX_ROW: usize = 16 * 1024;

/// A good row.
#[derive(Debug, Clone, PartialEq)]
pub struct FileHead {
    /// Line of the file on which the row begins; the header is line 1.
    pub line: u64,
    /// Name of the planting.
    pub planting: String,
    /// Civil date of the walk.
    pub walked_on: NaiveDate,
    /// What the file calls the stop.
    pub stop: String,
    /// Reading and share.
    pub head: Head,
    /// Latitude and longitude, WGS 84, degrees.
    pub place: Option<(f64, f64)>,
    /// Who read it.
    pub scout: Option<String>,
    /// Free words.
    pub note: Option<String>,
    /// Flags known to Headwalk, sorted, each once.
    pub flags: Vec<Flag>,
    /// Further columns with something in them, by name; `flags` is among them
    /// where it holds words that Headwalk does not know.
    pub extra: Vec<(String, String)>,
}

/// A row that cannot be used.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RowFault {
    /// Line of the file on which the row begins; the header is line 1.
    pub line: u64,
    /// Why.
    pub reason: Detail,
    /// Whether it would be a good row with latitude and longitude swapped.
    pub good_swapped: bool,
}

/// Why a whole file cannot be used.
#[derive(Debug, Error)]
pub enum HeadFileError {
    /// Nothing in it.
    #[error("the file is empty: it needs a header line planting,walked_on,stop,reading,share")]
    Empty,
    /// Semicolons between the columns.
    #[error("{}", cell::SEMICOLONS)]
    Semicolons,
    /// A required column is not in the header.
    #[error(
        "line 1: column '{0}' is missing: the header must name planting, walked_on, stop, reading and share"
    )]
    MissingColumn(&'static str),
    /// A column stands in the header twice.
    #[error("line 1: column '{0}' stands there twice: leave one of them out")]
    ColumnTwice(String),
    /// Not UTF-8.
    #[error(
        "line {0}: the text is not UTF-8: save the file as UTF-8 (\"CSV UTF-8\") and try again"
    )]
    NotUtf8(u64),
    /// No row could be used.
    #[error("no good row in the file{}", first.as_ref().map_or_else(
        || ": below the header there is nothing".to_owned(),
        |fault| format!("; the first bad one is line {}: {}", fault.line, fault.reason)
    ))]
    NoGoodRow {
        /// The first bad row, if there is any row.
        first: Option<RowFault>,
    },
    /// It could not be read.
    #[error("the file could not be read: {0}")]
    Io(#[from] std::io::Error),
}

impl From<csv::Error> for HeadFileError {
    fn from(error: csv::Error) -> Self {
        match error.into_kind() {
            csv::ErrorKind::Io(error) => HeadFileError::Io(error),
            // Nothing else can come from reading raw, flexible records.
            other => HeadFileError::Io(std::io::Error::other(format!("{other:?}"))),
        }
    }
}

const REQUIRED: [&str; 5] = ["planting", "walked_on", "stop", "reading", "share"];
const OPTIONAL: [&str; 5] = ["latitude", "longitude", "scout", "note", "flags"];

/// A head file being read: an iterator over its rows, good and bad. Ends after
/// the first error.
pub struct HeadFile<R> {
    rows: csv::Reader<Lines<R>>,
    columns: Columns,
    record: ByteRecord,
    good: u64,
    first_fault: Option<RowFault>,
    done: bool,
}

/// Where each column stands.
struct Columns {
    count: usize,
    required: [usize; 5],
    optional: [Option<usize>; 5],
    extra: Vec<(usize, String)>,
}

impl<R: Read> HeadFile<R> {
    /// Reads the header.
    ///
    /// # Errors
    /// When the file is empty, is not UTF-8, cannot be read, or its header
    /// lacks a column.
    pub fn open(source: R) -> Result<HeadFile<R>, HeadFileError> {
        let mut rows = ReaderBuilder::new()
            .has_headers(false)
            .flexible(true)
            .from_reader(Lines::new(source));
        let mut record = ByteRecord::new();
        if !next_row(&mut rows, &mut record)? {
            return Err(HeadFileError::Empty);
        }
        let mut names = Vec::with_capacity(record.len());
        for name in &record {
            let name = std::str::from_utf8(name).map_err(|_| HeadFileError::NotUtf8(1))?;
            names.push(name.trim_start_matches('\u{feff}').trim().to_owned());
        }
        if names.iter().all(String::is_empty) {
            return Err(HeadFileError::Empty);
        }
        if cell::has_semicolons(names.iter()) {
            return Err(HeadFileError::Semicolons);
        }
        for name in &mut names {
            *name = cell::as_meant(name).to_owned();
        }
        Ok(HeadFile {
            rows,
            columns: Columns::from_header(&names)?,
            record,
            good: 0,
            first_fault: None,
            done: false,
        })
    }

    /// Reads the column latitude as the longitude, and the other way round.
    pub fn swap_places(&mut self) {
        self.columns.swap_places();
    }

    fn next_row(&mut self) -> Result<Option<Result<FileHead, RowFault>>, HeadFileError> {
        if !next_row(&mut self.rows, &mut self.record)? {
            if self.good == 0 {
                return Err(HeadFileError::NoGoodRow {
                    first: self.first_fault.take(),
                });
            }
            return Ok(None);
        }
        let line = first_line(&self.rows, self.record.as_slice());
        for field in &self.record {
            if std::str::from_utf8(field).is_err() {
                return Err(HeadFileError::NotUtf8(line));
            }
        }
        let row = self.columns.read(&self.record, line).map_err(|reason| {
            self.columns.swap_places();
            let good_swapped = self.columns.read(&self.record, line).is_ok();
            self.columns.swap_places();
            let fault = RowFault {
                line,
                reason,
                good_swapped,
            };
            self.first_fault.get_or_insert_with(|| fault.clone());
            fault
        });
        self.good += u64::from(row.is_ok());
        Ok(Some(row))
    }
}

impl<R: Read> Iterator for HeadFile<R> {
    type Item = Result<Result<FileHead, RowFault>, HeadFileError>;

    fn next(&mut self) -> Option<Self::Item> {
        if self.done {
            return None;
        }
        let row = self.next_row().transpose();
        self.done = !matches!(row, Some(Ok(_)));
        row
    }
}

impl Columns {
    fn from_header(names: &[String]) -> Result<Columns, HeadFileError> {
        for (place, name) in names.iter().enumerate() {
            if !name.is_empty() && names[..place].contains(name) {
                return Err(HeadFileError::ColumnTwice(name.clone()));
            }
        }
        let find = |wanted: &str| names.iter().position(|name| name == wanted);
        let mut required = [0; 5];
        for (place, name) in required.iter_mut().zip(REQUIRED) {
            *place = find(name).ok_or(HeadFileError::MissingColumn(name))?;
        }
        let known = |name: &str| REQUIRED.contains(&name) || OPTIONAL.contains(&name);
        Ok(Columns {
            count: names.len(),
            required,
            optional: OPTIONAL.map(find),
            extra: names
                .iter()
                .enumerate()
                .filter(|(_, name)| !name.is_empty() && !known(name))
                .map(|(place, name)| (place, name.clone()))
                .collect(),
        })
    }

    fn swap_places(&mut self) {
        let [latitude, longitude, ..] = &mut self.optional;
        std::mem::swap(latitude, longitude);
    }

    fn read(&self, record: &ByteRecord, line: u64) -> Result<FileHead, Detail> {
        if record.as_slice().len() > MAX_ROW {
            return Err(Detail::RowTooLong);
        }
        if record.len() != self.count {
            let count = |fields: usize| u32::try_from(fields).unwrap_or(u32::MAX);
            return Err(Detail::FieldCount {
                fields: count(record.len()),
                columns: count(self.count),
            });
        }
        let text = |place: usize| {
            let field = record.get(place);
            let text = field.and_then(|field| std::str::from_utf8(field).ok());
            cell::as_meant(text.unwrap_or_default().trim())
        };
        let optional = |place: usize| {
            self.optional[place]
                .map(text)
                .filter(|text| !text.is_empty())
        };
        let [planting, walked_on, stop, reading, share] = self.required.map(text);
        let mut extra: Vec<(String, String)> = self
            .extra
            .iter()
            .map(|(place, name)| (name.clone(), text(*place).to_owned()))
            .filter(|(_, value)| !value.is_empty())
            .collect();
        let [latitude, longitude, scout, note, flag_words] = [0, 1, 2, 3, 4].map(optional);
        let (flags, all_known) = flags(flag_words.unwrap_or_default());
        if let (Some(words), false) = (flag_words, all_known) {
            extra.push(("flags".to_owned(), words.to_owned()));
        }
        Ok(FileHead {
            line,
            planting: name("planting", planting)?,
            walked_on: date(walked_on)?,
            stop: name("stop", stop)?,
            head: head(reading, share)?,
            place: place(latitude, longitude)?,
            scout: scout.map(|scout| name("scout", scout)).transpose()?,
            note: note.map(str::to_owned),
            flags,
            extra,
        })
    }
}

fn name(column: &str, text: &str) -> Result<String, Detail> {
    let column = column.to_owned();
    if text.is_empty() {
        Err(Detail::ValueMissing { column })
    } else if text.chars().count() > MAX_NAME as usize {
        Err(Detail::NameTooLong {
            column,
            most: MAX_NAME,
        })
    } else if text.chars().any(char::is_control) {
        Err(Detail::ControlCharacter { column })
    } else {
        Ok(text.to_owned())
    }
}

/// ISO 8601 only: any other order of day and month would be a guess.
fn date(text: &str) -> Result<NaiveDate, Detail> {
    let column = "walked_on".to_owned();
    let shape = text.len() == 10
        && text.bytes().enumerate().all(|(place, byte)| match place {
            4 | 7 => byte == b'-',
            _ => byte.is_ascii_digit(),
        });
    let date = shape
        .then(|| {
            let year = text.get(..4)?.parse().ok()?;
            let month = text.get(5..7)?.parse().ok()?;
            let day = text.get(8..)?.parse().ok()?;
            NaiveDate::from_ymd_opt(year, month, day)
        })
        .flatten();
    match date {
        Some(date) if is_plausible(date) => Ok(date),
        Some(date) => Err(Detail::FarDate {
            column,
            date: date.to_string(),
            first: YEARS.start().to_string(),
            last: YEARS.end().to_string(),
        }),
        None if text.is_empty() => Err(Detail::DateMissing { column }),
        None => Err(Detail::NotADate {
            column,
            text: one_line(text),
        }),
    }
}

fn head(reading: &str, share: &str) -> Result<Head, Detail> {
    if reading.is_empty() {
        return Err(Detail::ReadingMissing);
    }
    let reading = Reading::from_word(reading).map_err(of_head)?;
    let share = if share.is_empty() {
        None
    } else {
        let percent: i64 = share
            .bytes()
            .all(|byte| byte.is_ascii_digit() || byte == b'-')
            .then(|| share.parse().ok())
            .flatten()
            .ok_or_else(|| Detail::ShareNotWhole {
                text: one_line(share),
            })?;
        let share = u8::try_from(percent)
            .map_err(|_| HeadError::ShareOutOfRange(percent))
            .and_then(Share::new)
            .map_err(of_head)?;
        Some(share)
    };
    Head::new(reading, share).map_err(of_head)
}

fn of_head(error: HeadError) -> Detail {
    match error {
        HeadError::UnknownReading(text) => Detail::UnknownReading {
            text: one_line(&text),
        },
        HeadError::ShareOutOfRange(share) => Detail::ShareOutOfRange {
            share: share.to_string(),
        },
        HeadError::ShareMissing(reading) => Detail::ShareMissing {
            reading: reading.word().to_owned(),
        },
        HeadError::ShareOnBoot => Detail::ShareOnBoot,
    }
}

fn place(latitude: Option<&str>, longitude: Option<&str>) -> Result<Option<(f64, f64)>, Detail> {
    let degrees = |column: &str, text: &str, limit: u32| {
        text.parse::<f64>()
            .ok()
            .filter(|degrees| degrees.abs() <= f64::from(limit))
            .ok_or_else(|| Detail::NotDegrees {
                column: column.to_owned(),
                text: one_line(text),
                limit,
            })
    };
    let half = |given: &str, missing: &str| Detail::PositionHalf {
        given: given.to_owned(),
        missing: missing.to_owned(),
    };
    match (latitude, longitude) {
        (Some(latitude), Some(longitude)) if looks_swapped(latitude, longitude) => {
            Err(Detail::Swapped {
                latitude: one_line(latitude),
            })
        }
        (Some(latitude), Some(longitude)) => Ok(Some((
            degrees("latitude", latitude, 90)?,
            degrees("longitude", longitude, 180)?,
        ))),
        (None, None) => Ok(None),
        (Some(_), None) => Err(half("latitude", "longitude")),
        (None, Some(_)) => Err(half("longitude", "latitude")),
    }
}

/// Whether they can be a place only the other way round.
fn looks_swapped(latitude: &str, longitude: &str) -> bool {
    let within = |text: &str, limit: f64| {
        text.parse::<f64>()
            .is_ok_and(|degrees| degrees.abs() <= limit)
    };
    !within(latitude, 90.0) && within(latitude, 180.0) && within(longitude, 90.0)
}

/// The known flags, and whether all words were known.
fn flags(words: &str) -> (Vec<Flag>, bool) {
    let words = words
        .split([' ', ',', ';', '|'])
        .filter(|word| !word.is_empty());
    let found: Vec<Option<Flag>> = words.map(flag_from_word).collect();
    let all_known = found.iter().all(Option::is_some);
    let mut flags: Vec<Flag> = found.into_iter().flatten().collect();
    flags.sort_unstable();
    flags.dedup();
    (flags, all_known)
}

#[cfg(test)]
mod tests {
    use super::*;

    const HEADER: &str = "planting,walked_on,stop,reading,share\n";

    fn read(text: impl AsRef<[u8]>) -> Result<Vec<Result<FileHead, RowFault>>, HeadFileError> {
        HeadFile::open(text.as_ref())?.collect()
    }

    /// The one bad row of a file that also has a good one before it.
    fn fault(row: &str) -> RowFault {
        let text = format!("{HEADER}P,2026-08-01,1,boot,\n{row}\n");
        let rows = read(text).unwrap();
        assert_eq!(rows.len(), 2, "{row}");
        rows[1].clone().unwrap_err()
    }

    #[test]
    fn good_rows_with_every_column() {
        let rows = read(
            "\u{feff}share,planting,crew,walked_on,stop,reading,latitude,longitude,scout,note,flags\r\n\
             40,\"North, 40\",Blue,2026-08-01,1,pliable,38.5,-99.25,Ana,\"says \"\"soft\"\"\",bird_fed; moldy moldy\r\n\
             ,South,,2026-08-02,2b,boot,,,,,smutty\r\n",
        )
        .unwrap();
        assert_eq!(
            rows,
            vec![
                Ok(FileHead {
                    line: 2,
                    planting: "North, 40".to_owned(),
                    walked_on: NaiveDate::from_ymd_opt(2026, 8, 1).unwrap(),
                    stop: "1".to_owned(),
                    head: Head::new(Reading::Pliable, Some(Share::new(40).unwrap())).unwrap(),
                    place: Some((38.5, -99.25)),
                    scout: Some("Ana".to_owned()),
                    note: Some("says \"soft\"".to_owned()),
                    flags: vec![Flag::Moldy, Flag::BirdFed],
                    extra: vec![("crew".to_owned(), "Blue".to_owned())],
                }),
                Ok(FileHead {
                    line: 3,
                    planting: "South".to_owned(),
                    walked_on: NaiveDate::from_ymd_opt(2026, 8, 2).unwrap(),
                    stop: "2b".to_owned(),
                    head: Head::new(Reading::Boot, None).unwrap(),
                    place: None,
                    scout: None,
                    note: None,
                    flags: vec![],
                    extra: vec![("flags".to_owned(), "smutty".to_owned())],
                }),
            ]
        );
    }

    #[test]
    fn each_bad_row_is_told_with_its_line_and_reason() {
        for (row, reason) in [
            ("P,2026-08-01,1,ripe,40", "unknown reading 'ripe': use"),
            ("P,2026-08-01,1,,40", "reading is empty"),
            ("P,2026-08-01,1,pliable,0", "share 0 is out of range"),
            ("P,2026-08-01,1,pliable,101", "share 101 is out of range"),
            ("P,2026-08-01,1,pliable,-5", "share -5 is out of range"),
            (
                "P,2026-08-01,1,pliable,999999",
                "share 999999 is out of range",
            ),
            ("P,2026-08-01,1,pliable,", "pliable needs a share"),
            (
                "P,2026-08-01,1,pliable,half",
                "share 'half' is no whole number",
            ),
            (
                "P,2026-08-01,1,pliable,12.5",
                "share '12.5' is no whole number",
            ),
            ("P,2026-08-01,1,boot,10", "boot takes no share"),
            (
                "P,2026-02-30,1,pliable,40",
                "walked_on '2026-02-30' is no date",
            ),
            (
                "P,08/01/2026,1,pliable,40",
                "walked_on '08/01/2026' is no date",
            ),
            ("P,,1,pliable,40", "walked_on is empty"),
            (
                "P,9999-01-01,1,pliable,40",
                "walked_on 9999-01-01 is outside 1950 to 2100",
            ),
            (
                "P,0026-08-01,1,pliable,40",
                "walked_on 0026-08-01 is outside 1950 to 2100",
            ),
            (",2026-08-01,1,pliable,40", "planting is empty"),
            ("P,2026-08-01,,pliable,40", "stop is empty"),
            (
                "P,2026-08-01,1,pliable",
                "the row has 4 fields, the header 5",
            ),
            ("P,2026-08-01,1,pliable,40,x", "the row has 6 fields"),
        ] {
            let fault = fault(row);
            assert_eq!(fault.line, 3, "{row}");
            assert!(
                fault.reason.to_string().starts_with(reason),
                "{row}: {}",
                fault.reason
            );
        }
        let long = format!("P,2026-08-01,1,pliable,\"{}", "40\n".repeat(20_000));
        assert!(fault(&long).reason.to_string().contains("closing quote"));
        let many = format!("{},2026-08-01,1,pliable,40", "n".repeat(201));
        assert!(fault(&many).reason.to_string().contains("longer than 200"));
    }

    #[test]
    fn lines_are_counted_whatever_ends_them() {
        for end in ["\n", "\r\n", "\r"] {
            let text = [
                "planting,walked_on,stop,reading,share,note",
                "",
                "P,2026-08-01,1,boot,,\"two",
                "lines\"",
                "",
                "",
                "P,2026-08-01,1,boot,,",
                " P , 2026-08-01 ,1, boot ,, ",
                "P,2026-08-01,1,ripe,40,last",
            ]
            .join(end);
            let lines: Vec<u64> = read(text)
                .unwrap()
                .into_iter()
                .map(|row| row.map_or_else(|fault| fault.line, |row| row.line))
                .collect();
            assert_eq!(lines, vec![3, 7, 8, 9], "{end:?}");
        }
    }

    #[test]
    fn places_are_checked() {
        let with = |place: &str| {
            let text = format!(
                "planting,walked_on,stop,reading,share,latitude,longitude\n\
                 P,2026-08-01,1,boot,,,\nP,2026-08-01,1,boot,,{place}\n"
            );
            read(text).unwrap()[1].clone()
        };
        assert!(
            with("90.5,0")
                .unwrap_err()
                .reason
                .to_string()
                .starts_with("latitude '90.5'")
        );
        assert!(
            with("1,NaN")
                .unwrap_err()
                .reason
                .to_string()
                .starts_with("longitude 'NaN'")
        );
        assert!(
            with("1,")
                .unwrap_err()
                .reason
                .to_string()
                .starts_with("latitude without")
        );
        assert!(with("-90,180").is_ok());
        assert!(with("-99.25,38.5").unwrap_err().good_swapped);
        assert!(!with("-99.25,138.5").unwrap_err().good_swapped);
        assert!(
            with("-99.25,38.5")
                .unwrap_err()
                .reason
                .to_string()
                .contains("swap their names in the header")
        );
    }

    #[test]
    fn files_that_cannot_be_used_say_why() {
        let says = |text: &[u8]| read(text).unwrap_err().to_string();
        assert!(says(b"").starts_with("the file is empty"));
        assert!(says(b"\xef\xbb\xbf").starts_with("the file is empty"));
        assert!(says(b"\n\n").starts_with("the file is empty"));
        assert!(
            says(b"planting;walked_on;stop;reading;share\nP;2026-08-01;1;boot;\n")
                .contains("semicolons")
        );
        assert!(says(b"planting,walked_on,stop,reading\n").contains("column 'share' is missing"));
        assert!(says(b"planting,planting,walked_on,stop,reading,share\n").contains("twice"));
        assert!(says(HEADER.as_bytes()).contains("below the header there is nothing"));
        assert!(
            says(b"planting,walked_on,stop,reading,share\nP,2026-08-01,1,ripe,5\n")
                .contains("the first bad one is line 2: unknown reading 'ripe'")
        );
        assert!(
            says(b"planting,walked_on,stop,reading,share\nP,2026-08-01,1,boot,\nP\xff,2026-08-01,1,boot,\n")
                .starts_with("line 3: the text is not UTF-8")
        );
        assert!(says(b"\xff\xfep\0l\0").contains("not UTF-8"));
    }
}
