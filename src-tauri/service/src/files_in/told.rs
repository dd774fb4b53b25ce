//! What a head file tells of a walk, and the changes that say it. There may be a
//! million heads at once, so a head is small.

use ripening::{Flag, Head};
use serde_json::{Map, Value};
use uuid::Uuid;

use super::placed::PlacedHead;
use crate::Place;
use notebook::fact::{Body, Fact, HeadRead, HeadRecord};

/// Size of a change's facts, in bytes or so, above which the next one begins.
const CHANGE_SIZE: usize = 64 * 1024;

/// What was gathered of one walk.
pub(super) struct WalkOfFile {
    pub id: Uuid,
    pub stops: Vec<StopOfFile>,
}

/// A stop with those of its heads that are new.
pub(super) struct StopOfFile {
    pub id: Uuid,
    /// Whether the notebook lacks it.
    pub is_new: bool,
    /// Latitude and longitude.
    pub place: Option<(f64, f64)>,
    /// What the file calls it.
    pub name: String,
    pub heads: Vec<HeadOfFile>,
}

/// A head that is new.
pub(super) struct HeadOfFile {
    id: Uuid,
    head: Head,
    /// What few heads have.
    more: Option<Box<More>>,
}

struct More {
    flags: Vec<Flag>,
    note: Option<String>,
    extra: Option<Map<String, Value>>,
}

impl HeadOfFile {
    pub(super) fn new(placed: PlacedHead, extra: Option<Map<String, Value>>) -> HeadOfFile {
        let HeadRecord { head, flags, note } = placed.said;
        let plain = flags.is_empty() && note.is_none() && extra.is_none();
        HeadOfFile {
            id: placed.id,
            head,
            more: (!plain).then(|| Box::new(More { flags, note, extra })),
        }
    }

    fn read(self) -> HeadRead {
        let (flags, note, extra) = self.more.map_or((Vec::new(), None, None), |more| {
            (more.flags, more.note, more.extra)
        });
        HeadRead {
            id: self.id,
            said: HeadRecord {
                head: self.head,
                flags,
                note,
            },
            extra,
        }
    }
}

impl WalkOfFile {
    /// How many heads it holds.
    pub(super) fn heads(&self) -> usize {
        self.stops.iter().map(|stop| stop.heads.len()).sum()
    }

    /// The changes that tell its stops and heads, the walk's own fact first where it
    /// is given: one change, or more where it is large.
    pub(super) fn bodies(self, made: Option<Fact>) -> Vec<Body> {
        let mut bodies = Vec::new();
        let mut facts: Vec<Fact> = made.into_iter().collect();
        let mut size = 0;
        for of_stop in self.stops {
            let StopOfFile {
                id: stop, heads, ..
            } = of_stop;
            if of_stop.is_new {
                facts.push(Fact::Stop {
                    id: stop,
                    walk: self.id,
                    number: number_of(&of_stop.name),
                    label: Some(of_stop.name)
                        .filter(|label| *label != number_of(label).to_string()),
                    place: of_stop.place.map(|(latitude, longitude)| Place {
                        latitude,
                        longitude,
                        accuracy_m: None,
                        age_s: None,
                    }),
                });
            }
            size += 200;
            let mut told = Vec::with_capacity(heads.len());
            for head in heads {
                let head = head.read();
                size += size_of_head(&head);
                told.push(head);
                if size > CHANGE_SIZE {
                    facts.push(Fact::Heads {
                        walk: self.id,
                        stop,
                        heads: std::mem::take(&mut told),
                    });
                    bodies.push(Body::of(std::mem::take(&mut facts)));
                    size = 0;
                }
            }
            if !told.is_empty() {
                facts.push(Fact::Heads {
                    walk: self.id,
                    stop,
                    heads: told,
                });
            }
        }
        if !facts.is_empty() {
            bodies.push(Body::of(facts));
        }
        bodies
    }
}

/// The order of a stop among its walk's: the first number in its name.
fn number_of(stop: &str) -> u32 {
    let digits: String = stop
        .chars()
        .skip_while(|letter| !letter.is_ascii_digit())
        .take_while(char::is_ascii_digit)
        .collect();
    digits.parse().unwrap_or(0)
}

fn size_of_head(head: &HeadRead) -> usize {
    let extra = head.extra.as_ref().map_or(0, |extra| {
        extra
            .iter()
            .map(|(column, value)| column.len() + value.to_string().len() + 8)
            .sum()
    });
    60 + extra
        + head.said.note.as_ref().map_or(0, |note| 2 * note.len())
        + 20 * head.said.flags.len()
}
