//! What a change says: facts, written as JSON in its body.
//!
//! Kinds of facts and fields are only ever added. A version that does not know
//! one passes over it (the change itself is kept), and reads it from the log
//! once it does.
//!
//! A change that cannot be read, and a fact of a known kind that cannot be read or breaks
//! a bound (`bounds`), is *set aside* ([`Reason`]): it stays in the log, counts for
//! nothing and is told. Whether it is set aside follows from the change alone, so phones
//! that met agree; the one exception, changes that wait, follows from the clock too
//! ([`crate::clock`]).

pub(crate) mod bounds;
pub(crate) mod fields;
mod heads;
mod photo;
mod read;
mod weather;

use std::collections::BTreeMap;

use chrono::NaiveDate;
use ripening::{Flag, Head};
use serde::{Deserialize, Serialize};
use serde_json::Value;
use uuid::Uuid;

pub use heads::HeadRead;
use kinds::Place;
pub use kinds::{Act, Field, Observation, Seen, SeenPart};
pub use photo::PhotoTaken;
pub use read::Reason;
pub(crate) use read::{SetAside, WHOLE_CHANGE, read};
pub use weather::{WeatherDays, WeatherTold};

/// The body of a change.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Body {
    /// What it says.
    pub facts: Vec<Fact>,
    /// Set on an undo: the changes of the same device that it takes back.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub undoes: Vec<u64>,
    /// Id of the request that asked for it, where a retry could not be told
    /// from a second request otherwise.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub request: Option<Uuid>,
    /// Set where it tells a change again whose stamp lay too far ahead.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub again: Option<ChangeName>,
}

impl Body {
    /// A body of facts alone.
    pub fn of(facts: Vec<Fact>) -> Body {
        Body {
            facts,
            undoes: Vec::new(),
            request: None,
            again: None,
        }
    }

    /// Reads a body. Facts of a kind that this version does not know are passed over,
    /// and so are those that are set aside ([`Reason`]).
    pub fn read(json: &str) -> Body {
        read(json).0
    }
}

/// One fact.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(tag = "fact", rename_all = "snake_case")]
pub enum Fact {
    /// Fields of a row were given values; the others stay.
    Set {
        /// Which table.
        row: Row,
        /// Which row; it is made if it does not exist.
        id: Uuid,
        /// The walk it belongs to, where it is a stop or a photo of one.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        walk: Option<Uuid>,
        /// The new values.
        to: BTreeMap<String, Value>,
        /// For each field, the changes whose values the writer saw and
        /// replaced; a value that nobody replaced and that does not stand is a
        /// conflict.
        #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
        replaces: BTreeMap<String, Vec<ChangeName>>,
    },
    /// A walk was begun.
    Walk {
        /// Id of the walk.
        id: Uuid,
        /// Id of the planting that is walked.
        planting: Uuid,
        /// Civil date.
        walked_on: NaiveDate,
        /// Who walks.
        scout: String,
        /// Set where it comes whole from a file.
        #[serde(default, skip_serializing_if = "is_false")]
        finished: bool,
    },
    /// A stop was made.
    Stop {
        /// Id of the stop.
        id: Uuid,
        /// Of which walk.
        walk: Uuid,
        /// Order within the walk.
        number: u32,
        /// As the head file calls it, where that is not the number.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        label: Option<String>,
        /// Where, if known.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        place: Option<Place>,
    },
    /// Heads were read at a stop.
    Heads {
        /// In which walk.
        walk: Uuid,
        /// At which stop.
        stop: Uuid,
        /// In the order read.
        heads: Vec<HeadRead>,
    },
    /// A head should say something else.
    Correct {
        /// In which walk.
        walk: Uuid,
        /// Which head.
        head: Uuid,
        /// What it should say.
        to: HeadRecord,
        /// What it said before, for the history and for undo.
        was: HeadRecord,
        /// Whether it had been corrected before.
        #[serde(default, skip_serializing_if = "is_false")]
        was_corrected: bool,
        /// Set when an undo restored what was first read.
        #[serde(default, skip_serializing_if = "is_false")]
        as_first_read: bool,
    },
    /// A head was removed, or restored.
    Remove {
        /// In which walk.
        walk: Uuid,
        /// Which head.
        head: Uuid,
        /// True: removed.
        removed: bool,
    },
    /// A photo was taken or chosen.
    Photo(PhotoTaken),
    /// A branch of a copied device's series was moved to a series of its own.
    Moved {
        /// The device.
        device: Uuid,
        /// The number of the branch's first change in its series.
        first: u64,
        /// Where that change is number 1 now.
        to: Uuid,
    },
    /// Days of a station's weather were read or typed.
    Weather(WeatherDays),
    /// A station was given a place.
    Station {
        /// Its name.
        name: String,
        /// Where; none takes it back.
        place: Option<Place>,
    },
    /// Ripe grain of a planting was looked at.
    Observed {
        /// Which planting.
        planting: Uuid,
        /// Id of the observation.
        id: Uuid,
        /// What was seen.
        #[serde(flatten)]
        seen: Seen,
    },
    /// An observation should say something else.
    CorrectObserved {
        /// Of which planting.
        planting: Uuid,
        /// Id of the observation.
        id: Uuid,
        /// What it should say.
        to: Seen,
        /// What it said before, for the history and for undo.
        was: Seen,
        /// Whether it had been corrected before.
        #[serde(default, skip_serializing_if = "is_false")]
        was_corrected: bool,
        /// Set when an undo restored what was first told.
        #[serde(default, skip_serializing_if = "is_false")]
        as_first_told: bool,
    },
    /// An observation was removed, or restored.
    RemoveObserved {
        /// Of which planting.
        planting: Uuid,
        /// Id of the observation.
        id: Uuid,
        /// True: removed.
        removed: bool,
    },
    /// Terms of a harvest were given values.
    Terms {
        /// Of which planting; absent for all.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        planting: Option<Uuid>,
        /// The new values; null takes the one before it back.
        to: BTreeMap<String, Value>,
        /// The values that the writer saw and replaced.
        #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
        was: BTreeMap<String, Value>,
    },
}

/// The tables whose rows are edited field by field.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Row {
    /// A farm.
    Farm,
    /// A field.
    Field,
    /// A hybrid.
    Hybrid,
    /// A planting.
    Planting,
    /// A walk.
    Walk,
    /// A stop.
    Stop,
    /// A photo.
    Photo,
    /// A heat set of a user's own.
    HeatSet,
    /// What holds for the whole notebook: one row with the id 0.
    WholeNotebook,
}

impl Row {
    /// All of them.
    pub(crate) const ALL: [Row; 9] = [
        Row::Farm,
        Row::Field,
        Row::Hybrid,
        Row::Planting,
        Row::Walk,
        Row::Stop,
        Row::Photo,
        Row::HeatSet,
        Row::WholeNotebook,
    ];

    /// Its table.
    pub(crate) fn table(self) -> &'static str {
        match self {
            Row::Farm => "farm",
            Row::Field => "field",
            Row::Hybrid => "hybrid",
            Row::Planting => "planting",
            Row::Walk => "walk",
            Row::Stop => "stop",
            Row::Photo => "photo",
            Row::HeatSet => "heat_set",
            Row::WholeNotebook => "whole_notebook",
        }
    }
}

/// A change, by its series and number.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
pub struct ChangeName {
    /// The device whose series it is in.
    pub device: Uuid,
    /// Its number, from 1 on.
    pub seq: u64,
}

/// What was recorded of a head.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct HeadRecord {
    /// Reading and share.
    #[serde(flatten)]
    pub head: Head,
    /// Marks, sorted, each at most once.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub flags: Vec<Flag>,
    /// Free words.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub note: Option<String>,
}

#[allow(clippy::trivially_copy_pass_by_ref)] // the form that serde calls
fn is_false(value: &bool) -> bool {
    !value
}

#[cfg(test)]
mod tests {
    use super::*;
    use ripening::{Reading, Share};

    #[test]
    fn a_body_comes_back_as_it_was_written() {
        let id = Uuid::from_u128;
        let said = |share| HeadRecord {
            head: Head::new(Reading::Pliable, Some(Share::new(share).unwrap())).unwrap(),
            flags: vec![Flag::Moldy, Flag::LodgedPlant],
            note: Some("under the pivot".to_owned()),
        };
        let body = Body {
            facts: vec![
                Fact::Set {
                    row: Row::Planting,
                    id: id(1),
                    walk: None,
                    to: BTreeMap::from([("name".to_owned(), Value::from("North 40"))]),
                    replaces: BTreeMap::from([(
                        "name".to_owned(),
                        vec![ChangeName {
                            device: id(9),
                            seq: 3,
                        }],
                    )]),
                },
                Fact::Stop {
                    id: id(2),
                    walk: id(3),
                    number: 1,
                    label: None,
                    place: Some(Place {
                        latitude: 38.123_456_789,
                        longitude: -0.1 - 0.2,
                        accuracy_m: None,
                        age_s: None,
                    }),
                },
                Fact::Heads {
                    walk: id(3),
                    stop: id(2),
                    heads: vec![
                        HeadRead {
                            id: id(4),
                            said: said(40),
                            extra: None,
                        },
                        HeadRead {
                            id: id(5),
                            said: HeadRecord {
                                head: Head::new(Reading::Boot, None).unwrap(),
                                flags: vec![],
                                note: None,
                            },
                            extra: None,
                        },
                    ],
                },
                Fact::Correct {
                    walk: id(3),
                    head: id(4),
                    to: said(50),
                    was: said(40),
                    was_corrected: false,
                    as_first_read: false,
                },
            ],
            undoes: vec![7],
            request: Some(id(8)),
            again: None,
        };
        let json = serde_json::to_string(&body).unwrap();
        assert_eq!(Body::read(&json), body);
    }

    #[test]
    fn unknown_facts_are_passed_over_and_the_known_ones_beside_them_count() {
        let body = Body::read(
            r#"{"facts":[{"fact":"soil_probe","depth_cm":30},
                {"fact":"remove","walk":"00000000-0000-0000-0000-000000000001",
                 "head":"00000000-0000-0000-0000-000000000002","removed":true,"later":1}],
               "mood":"fine"}"#,
        );
        assert_eq!(body.facts.len(), 1);
        assert_eq!(Body::read("no json").facts, vec![]);
    }
}
