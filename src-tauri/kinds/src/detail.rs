//! What exactly is wrong with what was given, for people, in any language.

use std::fmt;

use serde::{Deserialize, Serialize};
use words::Words;

/// What exactly is wrong, as a message of the catalogue's domain `details`: its code is
/// the message's name and its fields are the arguments.
///
/// A field holds what stands in the file, shortened to one line. Its `Display` is English.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case", tag = "code")]
pub enum Detail {
    /// A row is longer than any real one.
    RowTooLong,
    /// A row has another number of fields than the header.
    FieldCount {
        /// Fields of the row.
        fields: u32,
        /// Columns of the header.
        columns: u32,
    },
    /// A row ends before its last column.
    RowTooShort,
    /// A line is not of the file's layout.
    NotOfLayout,
    /// A value that every row needs is missing.
    ValueMissing {
        /// Name of the column.
        column: String,
    },
    /// A name is too long.
    NameTooLong {
        /// Name of the column.
        column: String,
        /// Most characters.
        most: u32,
    },
    /// A name holds what cannot be shown in a line.
    ControlCharacter {
        /// Name of the column.
        column: String,
    },
    /// A date is missing.
    DateMissing {
        /// Name of the column.
        column: String,
    },
    /// Not a date.
    NotADate {
        /// Name of the column.
        column: String,
        /// What stands there.
        text: String,
    },
    /// A date that lies outside what the app takes.
    FarDate {
        /// Name of the column.
        column: String,
        /// What stands there.
        date: String,
        /// First year taken.
        first: String,
        /// Last year taken.
        last: String,
    },
    /// A reading is missing.
    ReadingMissing,
    /// Not a reading.
    UnknownReading {
        /// What stands there.
        text: String,
    },
    /// A share that is no whole number.
    ShareNotWhole {
        /// What stands there.
        text: String,
    },
    /// A share outside 1 to 100 percent.
    ShareOutOfRange {
        /// What stands there, percent.
        share: String,
    },
    /// A reading that needs a share has none.
    ShareMissing {
        /// Word of the reading, as in the file.
        reading: String,
    },
    /// Boot with a share.
    ShareOnBoot,
    /// A latitude or longitude that cannot be.
    NotDegrees {
        /// Name of the column.
        column: String,
        /// What stands there.
        text: String,
        /// Greatest value, degrees.
        limit: u32,
    },
    /// A latitude that can only be a longitude.
    Swapped {
        /// What stands as the latitude.
        latitude: String,
    },
    /// One of latitude and longitude without the other.
    PositionHalf {
        /// Column that is given.
        given: String,
        /// Column that is missing.
        missing: String,
    },
    /// A planting without a name.
    PlantingUnnamed,
    /// A planting that came before in the file.
    PlantingAgain {
        /// Its name.
        name: String,
        /// Line of the first.
        first: u32,
    },
    /// Not a purpose.
    UnknownPurpose {
        /// What stands there.
        text: String,
    },
    /// Not an area.
    NotAnArea {
        /// Name of the column.
        column: String,
        /// What stands there.
        text: String,
    },
    /// Half bloom before planting.
    BloomBeforePlanting {
        /// Date of half bloom as written.
        bloom: String,
        /// Planting date as written.
        planted: String,
    },
    /// Not a number.
    NotANumber {
        /// Name of the column.
        column: String,
        /// What stands there.
        text: String,
    },
    /// A value that failed its source's own check of quality.
    FailedQuality {
        /// Name of the element at the source.
        element: String,
        /// The source's flag.
        flag: String,
    },
}

impl Detail {
    /// What is wrong, in the language of `words`.
    #[must_use]
    pub fn said(&self, words: &Words) -> String {
        words.of_code("details", self)
    }
}

impl fmt::Display for Detail {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(&self.said(Words::english()))
    }
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;
    use std::path::Path;

    use serde_json::{Map, Value, json};
    use words::{Kind, Language, read_catalog};

    use super::*;

    #[test]
    fn every_detail_is_a_message_with_its_arguments_and_the_other_way_round() {
        let catalog = Path::new(env!("CARGO_MANIFEST_DIR")).join("../words/catalog");
        let domains = read_catalog(&catalog, Language::English).unwrap();
        let domain = domains.iter().find(|each| each.name == "details").unwrap();
        let spanish = Words::new(Language::Spanish);
        let mut said = BTreeSet::new();
        for message in &domain.signature.messages {
            let code = message.id.replace('-', "_");
            let mut fields = Map::new();
            for argument in &message.declared {
                let value = match argument.kind {
                    Kind::Number => json!(7),
                    _ => json!("as written"),
                };
                fields.insert(argument.name.clone(), value);
            }
            fields.insert("code".to_owned(), json!(code.clone()));
            let fields = Value::Object(fields);
            let detail: Detail = serde_json::from_value(fields.clone()).unwrap();
            assert_eq!(serde_json::to_value(&detail).unwrap(), fields);
            for text in [detail.to_string(), detail.said(&spanish)] {
                assert!(!text.contains(['<', '{', '\n']), "{code}: {text}");
            }
            said.insert(code);
        }
        // The refusal of a code that is none names all that are.
        let refusal = serde_json::from_value::<Detail>(json!({ "code": "" })).unwrap_err();
        let refusal = refusal.to_string();
        let known = refusal.split('`').skip(1).step_by(2);
        let known: BTreeSet<String> = known
            .filter(|code| !code.is_empty())
            .map(str::to_owned)
            .collect();
        assert_eq!(known, said);
    }
}
