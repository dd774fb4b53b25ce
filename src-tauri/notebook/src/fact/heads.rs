//! A read head in its short form: most of a log is heads.

use std::fmt;

use ripening::{Head, Reading, Share};
use serde::de::{self, SeqAccess, Visitor};
use serde::ser::SerializeSeq;
use serde::{Deserialize, Deserializer, Serialize, Serializer};
use serde_json::{Map, Value};
use uuid::Uuid;

use super::HeadRecord;

/// A head as it was read. In JSON `[id, reading, share]`, with an object of
/// flags, note and extra columns behind where there are any.
#[derive(Debug, Clone, PartialEq)]
pub struct HeadRead {
    /// Id of the head.
    pub id: Uuid,
    /// What it says.
    pub said: HeadRecord,
    /// Further columns of the head file that it came from.
    pub extra: Option<Map<String, Value>>,
}

impl HeadRead {
    /// Whether it says nothing but its reading and share, as most heads do.
    pub(crate) fn is_plain(&self) -> bool {
        self.said.flags.is_empty() && self.said.note.is_none() && self.extra.is_none()
    }
}

#[derive(Serialize, Deserialize)]
struct More {
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    flags: Vec<ripening::Flag>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    note: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    extra: Option<Map<String, Value>>,
}

impl Serialize for HeadRead {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let plain = self.is_plain();
        let mut list = serializer.serialize_seq(Some(if plain { 3 } else { 4 }))?;
        list.serialize_element(&self.id)?;
        list.serialize_element(self.said.head.reading().word())?;
        list.serialize_element(&self.said.head.share())?;
        if !plain {
            list.serialize_element(&More {
                flags: self.said.flags.clone(),
                note: self.said.note.clone(),
                extra: self.extra.clone(),
            })?;
        }
        list.end()
    }
}

impl<'de> Deserialize<'de> for HeadRead {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_seq(HeadVisitor)
    }
}

struct HeadVisitor;

impl<'de> Visitor<'de> for HeadVisitor {
    type Value = HeadRead;

    fn expecting(&self, formatter: &mut fmt::Formatter) -> fmt::Result {
        formatter.write_str("a head: [id, reading, share] and perhaps an object")
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut list: A) -> Result<HeadRead, A::Error> {
        let missing = |place| de::Error::invalid_length(place, &self);
        let id: Uuid = list.next_element()?.ok_or_else(|| missing(0))?;
        let reading: Reading = list.next_element()?.ok_or_else(|| missing(1))?;
        let share: Option<Share> = list.next_element()?.ok_or_else(|| missing(2))?;
        let more: Option<More> = list.next_element()?;
        // What later versions put behind is passed over.
        while list.next_element::<de::IgnoredAny>()?.is_some() {}
        let head = Head::new(reading, share).map_err(de::Error::custom)?;
        let (flags, note, extra) = more.map_or((Vec::new(), None, None), |more| {
            (more.flags, more.note, more.extra)
        });
        Ok(HeadRead {
            id,
            said: HeadRecord { head, flags, note },
            extra,
        })
    }
}
