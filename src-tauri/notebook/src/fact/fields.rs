//! Which fields each row has, and what each may hold.

use chrono::NaiveDate;
use kinds::{Area, Field, Place, Purpose};
use ripening::calendar;
use ripening::heat::{HeatScale, MaturityClass};
use serde::de::DeserializeOwned;
use serde_json::Value;

use super::Row;
use super::bounds::{is_area, is_name, is_note, is_on_globe, is_short, is_shown, is_tame};

/// What a field holds: its bounds, and how its columns keep it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Holds {
    /// A name that is always there.
    Name,
    /// A name, or none.
    NameOrNone,
    /// A short text, or none.
    ShortOrNone,
    /// A long text, or none.
    NoteOrNone,
    /// Yes or no.
    Flag,
    /// The id of another row.
    Id,
    /// The id of another row, or none.
    IdOrNone,
    /// A day that a crop may have, or none.
    DayOrNone,
    /// Any day of four digits.
    ShownDay,
    /// A whole number from 0 on.
    Number,
    /// An outline, or none.
    OutlineOrNone,
    /// A purpose, or none.
    PurposeOrNone,
    /// A maturity class, or none.
    MaturityOrNone,
    /// An area, or none.
    AreaOrNone,
    /// A place, or none.
    PlaceOrNone,
    /// The scale of a heat set.
    Scale,
}

impl Holds {
    /// Whether it may hold a value.
    pub(crate) fn admits(self, value: &Value) -> bool {
        let text = value.as_str();
        let is_id = || text.is_some_and(|text| uuid::Uuid::try_parse(text).is_ok());
        let day = || text.and_then(|text| text.parse::<NaiveDate>().ok());
        let of_its_kind = match self {
            Holds::Name | Holds::NameOrNone => text.is_some_and(is_name),
            Holds::ShortOrNone => text.is_some_and(is_short),
            Holds::NoteOrNone => text.is_some_and(is_note),
            Holds::Flag => value.is_boolean(),
            Holds::Id | Holds::IdOrNone => is_id(),
            Holds::DayOrNone => day().is_some_and(calendar::is_plausible),
            Holds::ShownDay => day().is_some_and(is_shown),
            Holds::Number => value.as_u64().is_some_and(|n| u32::try_from(n).is_ok()),
            Holds::OutlineOrNone => value.is_object(),
            Holds::PurposeOrNone => read::<Purpose>(value).is_some(),
            Holds::MaturityOrNone => read::<MaturityClass>(value).is_some(),
            Holds::AreaOrNone => read::<Area>(value).is_some_and(is_area),
            Holds::PlaceOrNone => read::<Place>(value).is_some_and(|place| is_on_globe(&place)),
            Holds::Scale => read::<HeatScale>(value).is_some() && is_tame(value),
        };
        of_its_kind || (value.is_null() && self.may_be_none())
    }

    fn may_be_none(self) -> bool {
        !matches!(
            self,
            Holds::Name | Holds::Flag | Holds::Id | Holds::ShownDay | Holds::Number | Holds::Scale
        )
    }
}

/// The fields of a row that have columns.
pub(crate) fn fields(row: Row) -> &'static [(Field, Holds)] {
    match row {
        Row::Farm => &[(Field::Name, Holds::Name), (Field::Removed, Holds::Flag)],
        Row::Field => &[
            (Field::Name, Holds::Name),
            (Field::Farm, Holds::IdOrNone),
            (Field::Outline, Holds::OutlineOrNone),
            (Field::Station, Holds::NameOrNone),
            (Field::Removed, Holds::Flag),
        ],
        Row::Hybrid => &[
            (Field::Name, Holds::Name),
            (Field::Maturity, Holds::MaturityOrNone),
            (Field::HeatSet, Holds::NameOrNone),
            (Field::Removed, Holds::Flag),
        ],
        Row::Planting => &[
            (Field::Name, Holds::Name),
            (Field::Farm, Holds::IdOrNone),
            (Field::Field, Holds::IdOrNone),
            (Field::Hybrid, Holds::IdOrNone),
            (Field::PlantedOn, Holds::DayOrNone),
            (Field::HalfBloomOn, Holds::DayOrNone),
            (Field::Purpose, Holds::PurposeOrNone),
            (Field::Area, Holds::AreaOrNone),
            (Field::Station, Holds::NameOrNone),
            (Field::Outline, Holds::OutlineOrNone),
            (Field::HeatSet, Holds::NameOrNone),
            (Field::MergedInto, Holds::IdOrNone),
            (Field::Removed, Holds::Flag),
        ],
        Row::Walk => &[
            (Field::Planting, Holds::Id),
            (Field::WalkedOn, Holds::ShownDay),
            (Field::Scout, Holds::ShortOrNone),
            (Field::Finished, Holds::Flag),
            (Field::Removed, Holds::Flag),
        ],
        Row::Stop => &[
            (Field::Number, Holds::Number),
            (Field::Place, Holds::PlaceOrNone),
            (Field::Removed, Holds::Flag),
        ],
        Row::Photo => &[
            (Field::Caption, Holds::NoteOrNone),
            (Field::Removed, Holds::Flag),
        ],
        Row::HeatSet => &[(Field::Scale, Holds::Scale), (Field::Removed, Holds::Flag)],
        Row::WholeNotebook => &[(Field::HeatSet, Holds::NameOrNone)],
    }
}

/// What a field of a row holds; none where the row has no column for it.
pub(crate) fn held(row: Row, field: &str) -> Option<(Field, Holds)> {
    let field = Field::of(field);
    let known = fields(row).iter().find(|(known, _)| *known == field);
    known.copied()
}

/// A value read as a type; none where it is none of it.
pub(crate) fn read<T: DeserializeOwned>(value: &Value) -> Option<T> {
    T::deserialize(value).ok()
}
