//! Changes as only a broken or hostile program writes them: bytes that are none,
//! stamps out of all bounds, and facts of known kinds whose values cannot be.

use serde_bytes::ByteBuf;
use serde_json::{Value, json};
use uuid::Uuid;
use wire::{CHANGE_BYTES, PAGE_BYTES, PAGE_CHANGES, Page, Run, page_fits};

/// A change in the bytes that travel, with nothing checked.
pub struct Envelope<'a> {
    /// Number of the hybrid clock.
    pub hlc: i64,
    /// Wall clock of the writer, milliseconds since 1970.
    pub recorded_ms: i64,
    /// Minutes from UTC.
    pub offset_min: i32,
    /// The act, of any bytes.
    pub kind: &'a [u8],
    /// The facts, of any bytes.
    pub body: &'a [u8],
}

impl Envelope<'_> {
    /// Its bytes, in the form that notebooks send.
    #[must_use]
    pub fn bytes(&self) -> Vec<u8> {
        let mut bytes = Vec::new();
        signed(self.hlc, &mut bytes);
        signed(self.recorded_ms, &mut bytes);
        signed(i64::from(self.offset_min), &mut bytes);
        for part in [self.kind, self.body] {
            number(part.len() as u64, &mut bytes);
            bytes.extend_from_slice(part);
        }
        bytes
    }
}

/// An honest envelope around facts, stamped so many seconds after 2026-08-20, 15:00 UTC.
#[must_use]
pub fn around(facts: &[Value], seconds: i64) -> Vec<u8> {
    let ms = 1_787_238_000_000 + 1_000 * seconds;
    Envelope {
        hlc: ms << 16,
        recorded_ms: ms,
        offset_min: -300,
        kind: b"file_imported",
        body: json!({ "facts": facts }).to_string().as_bytes(),
    }
    .bytes()
}

fn signed(value: i64, bytes: &mut Vec<u8>) {
    number(((value << 1) ^ (value >> 63)).cast_unsigned(), bytes);
}

fn number(mut value: u64, bytes: &mut Vec<u8>) {
    while value >= 0x80 {
        bytes.push((value & 0x7f) as u8 | 0x80);
        value >>= 7;
    }
    bytes.push(value as u8);
}

/// An id that is drawn often enough to be met again.
#[must_use]
pub fn id(drawn: u8) -> Uuid {
    Uuid::from_u128(0x0199_0000_0000_7000_8000_0000_0000_0000 + u128::from(drawn % 6))
}

/// Values that stand where others are wanted.
#[must_use]
pub fn absurd_values() -> Vec<Value> {
    let mut deep = json!(1);
    for _ in 0..100 {
        deep = json!([deep]);
    }
    vec![
        Value::Null,
        json!(true),
        json!(0),
        json!(-1),
        json!(1),
        json!(255),
        json!(65_536),
        json!(u64::from(u32::MAX)),
        json!(i64::MAX),
        json!(i64::MIN),
        json!(u64::MAX),
        json!(0.5),
        json!(-0.0),
        json!(1e308),
        json!(-1e308),
        json!(5e-324),
        json!(""),
        json!("9999-12-31"),
        json!("0001-01-01"),
        json!("-262143-01-01"),
        json!("+262142-12-31"),
        json!("2026-02-30"),
        json!("2062-08-20"),
        json!("1970-01-01"),
        json!("2026-08-20"),
        json!("2026-08-20T99:00:00"),
        json!("grain"),
        json!("a\u{0}b\u{202e}c\n"),
        json!("long ".repeat(400)),
        json!(id(0)),
        json!(id(3)),
        json!([]),
        json!({}),
        json!([1, 2, 3, 4, 5]),
        json!({"acres": 1e308}),
        json!({"latitude": 1e308, "longitude": -1e308, "accuracy_m": -5.0}),
        json!({"type": "MultiPolygon", "coordinates": []}),
        json!({"type": "Polygon", "coordinates": [[[1e308, 0], [0, 1e308], [1, 1], [1e308, 0]]]}),
        deep,
    ]
}

/// A fact of each kind and of each field that can be set, with values as they should be.
#[must_use]
pub fn facts(one: u8, other: u8, third: u8) -> Vec<Value> {
    let (a, b, c) = (id(one), id(other), id(third));
    let head = json!({"reading": "pliable", "share": 40});
    let seen = json!({"kind": "moisture", "meter": "hand", "percents": [18.5]});
    let mut facts = vec![
        json!({"fact": "walk", "id": b, "planting": a, "walked_on": "2026-08-20", "scout": "S"}),
        json!({"fact": "stop", "id": c, "walk": b, "number": 1, "label": "x",
               "place": {"latitude": 38.1, "longitude": -98.2, "accuracy_m": 4.0, "age_s": 1.0}}),
        json!({"fact": "heads", "walk": b, "stop": c, "heads": [[a, "pliable", 40],
               [b, "boot", null, {"flags": ["moldy"], "note": "n", "extra": {"k": 1}}]]}),
        json!({"fact": "correct", "walk": b, "head": a, "to": head, "was": head,
               "was_corrected": true, "as_first_read": false}),
        json!({"fact": "remove", "walk": b, "head": a, "removed": true}),
        json!({"fact": "photo", "id": a, "planting": a, "walk": b, "stop": c, "head": a,
               "name": "ab".repeat(32), "bytes": 1_000, "width": 10, "height": 10,
               "taken": "2026-08-20T10:00:00"}),
        json!({"fact": "moved", "device": a, "first": 1, "to": b}),
        json!({"fact": "weather", "station": "North", "unit": "fahrenheit", "typed": true,
               "days": [["2026-08-01", 95.0, 65.0, 0.2, 55.0], ["2026-08-02", null, null, null, null]]}),
        json!({"fact": "station", "name": "North", "place": {"latitude": 38.1, "longitude": -98.2}}),
        json!({"fact": "observed", "planting": a, "id": b, "on": "2026-09-20", "what": seen,
               "scout": "S", "note": "n"}),
        json!({"fact": "observed", "planting": a, "id": c, "on": "2026-09-20", "what":
               {"kind": "ground", "frame_square_feet": 10.0, "seeds": [17, 20], "heads": 1}}),
        json!({"fact": "observed", "planting": a, "id": a, "on": "2026-09-20", "what":
               {"kind": "standing", "lodged": 5, "weak_stalks": 10, "weathering": 2}}),
        json!({"fact": "observed", "planting": b, "id": a, "on": "2026-09-20", "what": {"kind": "cut"}}),
        json!({"fact": "correct_observed", "planting": a, "id": b, "to":
               {"on": "2026-09-21", "what": seen}, "was": {"on": "2026-09-20", "what": seen}}),
        json!({"fact": "remove_observed", "planting": a, "id": b, "removed": true}),
        json!({"fact": "terms", "planting": a, "to": {"price": 4.5, "loss_a_day": 1.0},
               "was": {"price": 4.0}}),
        json!({"fact": "terms", "to": {"price": 4.5}}),
        json!({"fact": "soil_probe", "depth_cm": 30}),
    ];
    for (row, field, value) in [
        ("farm", "name", json!("Farm")),
        ("farm", "removed", json!(true)),
        ("field", "name", json!("Field")),
        ("field", "farm", json!(b)),
        (
            "field",
            "outline",
            json!({"type": "MultiPolygon", "coordinates": []}),
        ),
        ("field", "station", json!("North")),
        ("field", "removed", json!(false)),
        ("hybrid", "name", json!("H17")),
        ("hybrid", "maturity", json!("medium")),
        ("hybrid", "heat_set", json!("published")),
        ("hybrid", "removed", json!(false)),
        ("planting", "name", json!("North 40")),
        ("planting", "farm", json!(b)),
        ("planting", "field", json!(b)),
        ("planting", "hybrid", json!(b)),
        ("planting", "planted_on", json!("2026-05-20")),
        ("planting", "half_bloom_on", json!("2026-07-25")),
        ("planting", "purpose", json!("grain")),
        ("planting", "area", json!({"unit": "acres", "size": 40.0})),
        ("planting", "station", json!("North")),
        (
            "planting",
            "outline",
            json!({"type": "MultiPolygon", "coordinates": []}),
        ),
        ("planting", "heat_set", json!("published")),
        ("planting", "merged_into", json!(b)),
        ("planting", "removed", json!(false)),
        ("planting", "later_field", json!(1)),
        ("walk", "planting", json!(b)),
        ("walk", "walked_on", json!("2026-08-21")),
        ("walk", "scout", json!("S")),
        ("walk", "finished", json!(true)),
        ("walk", "removed", json!(false)),
        ("stop", "number", json!(2)),
        (
            "stop",
            "place",
            json!({"latitude": 38.1, "longitude": -98.2}),
        ),
        ("stop", "removed", json!(false)),
        ("photo", "caption", json!("c")),
        ("photo", "removed", json!(false)),
        ("heat_set", "name", json!("Own")),
        (
            "heat_set",
            "scale",
            json!({"name": "x", "unit": "fahrenheit", "base": 50.0}),
        ),
        ("heat_set", "removed", json!(false)),
        ("whole_notebook", "heat_set", json!("published")),
    ] {
        facts.push(
            json!({"fact": "set", "row": row, "id": a, "to": {field: value},
                          "replaces": {field: [{"device": b, "seq": 1}]}}),
        );
    }
    facts
}

/// Puts a value in the place of one that is drawn, however deep it lies.
pub fn spoil(fact: &mut Value, mut drawn: usize, with: &Value) {
    let places = leaves(fact);
    drawn %= places.max(1);
    replace(fact, &mut drawn, with);
}

/// Values that may be replaced: all but the name of the fact's kind.
fn leaves(value: &Value) -> usize {
    match value {
        Value::Object(fields) => fields
            .iter()
            .filter(|(name, _)| *name != "fact" && *name != "row")
            .map(|(_, value)| leaves(value))
            .sum(),
        Value::Array(items) => items.iter().map(leaves).sum(),
        _ => 1,
    }
}

fn replace(value: &mut Value, left: &mut usize, with: &Value) -> bool {
    match value {
        Value::Object(fields) => fields
            .iter_mut()
            .filter(|(name, _)| *name != "fact" && *name != "row")
            .any(|(_, value)| replace(value, left, with)),
        Value::Array(items) => items.iter_mut().any(|value| replace(value, left, with)),
        leaf if *left == 0 => {
            *leaf = with.clone();
            true
        }
        _ => {
            *left -= 1;
            false
        }
    }
}

/// Changes each of which asks for as much work as it can, by name.
#[must_use]
pub fn costly() -> Vec<(&'static str, Vec<Vec<u8>>)> {
    let planting = |number: u64| Uuid::from_u128(0xa << 100 | u128::from(number));
    let named = |number| {
        json!({"fact": "set", "row": "planting", "id": planting(number),
               "to": {"name": format!("P{number}"), "planted_on": "2026-05-20"}})
    };
    let merged = |number| {
        json!({"fact": "set", "row": "planting", "id": planting(number),
               "to": {"merged_into": planting(number + 1)}})
    };
    let walk = |id: u64, on: &str| {
        json!({"fact": "walk", "id": planting(1_000_000 + id), "planting": planting(0),
               "walked_on": on, "scout": "S", "finished": true})
    };
    let stop = |walk: u64, number: u64| {
        json!({"fact": "stop", "id": planting(2_000_000 + number),
               "walk": planting(1_000_000 + walk), "number": number})
    };
    let head = |number: u64| json!([planting(3_000_000 + number), "pliable", number % 100 + 1]);
    let heads = |walk: u64, at: u64, heads: Vec<Value>| {
        json!({"fact": "heads", "walk": planting(1_000_000 + walk),
               "stop": planting(2_000_000 + at), "heads": heads})
    };
    let one = |facts: Vec<Value>| vec![around(&facts, 1)];
    let chain: Vec<Value> = (0..3_000).map(merged).collect();
    let all_named = around(&(0..3_001).map(named).collect::<Vec<_>>(), 0);
    let here = around(&[named(0)], 0);
    let cases = vec![
        ("3,000 plantings", one((0..3_000).map(named).collect())),
        ("3,000 merges in a chain", one(chain)),
        (
            "3,000 merges in a chain, one by one",
            (0..3_000).map(|number| around(&[merged(number)], number.cast_signed())).collect(),
        ),
        (
            "1,000 merges into one another",
            (0..1_000_u64)
                .map(|turn| {
                    let (from, into) = (turn * 7 % 40, turn * 11 % 40);
                    let merge = json!({"fact": "set", "row": "planting", "id": planting(from),
                                       "to": {"merged_into": planting(into)}});
                    around(&[merge], turn.cast_signed())
                })
                .collect(),
        ),
        (
            "a walk of 4,000 stops, a head at each",
            vec![
                around(&[walk(1, "2026-08-20")], 1),
                around(&(0..4_000).map(|number| stop(1, number)).collect::<Vec<_>>(), 2),
                around(
                    &(0..4_000).map(|number| heads(1, number, vec![head(number)])).collect::<Vec<_>>(),
                    3,
                ),
            ],
        ),
        (
            "a stop of 10,000 heads",
            vec![
                around(&[walk(2, "2026-08-21"), stop(2, 9_000)], 1),
                around(&[heads(2, 9_000, (5_000..15_000).map(head).collect())], 2),
            ],
        ),
        (
            "walks at the ends of time",
            ["0001-01-01", "1850-01-01", "2036-08-20", "2062-08-20", "9999-12-31"]
                .iter()
                .zip(10_u64..)
                .map(|(on, number)| {
                    let stop_here = stop(number, 10_000 + number);
                    let read = heads(number, 10_000 + number, vec![head(20_000 + number)]);
                    around(&[walk(number, on), stop_here, read], number.cast_signed())
                })
                .collect(),
        ),
        (
            // Each wants an answer of its own, which is worked out once and kept.
            "200 walks of one planting",
            (0..200_u64)
                .map(|number| {
                    let id = 100 + number;
                    let stop_here = stop(id, 20_000 + number);
                    let read = heads(id, 20_000 + number, vec![head(30_000 + number)]);
                    around(&[walk(id, "2026-08-20"), stop_here, read], number.cast_signed())
                })
                .collect(),
        ),
        (
            "a thousand years of weather",
            (0..250_u64)
                .map(|year| {
                    let days: Vec<Value> = (0..1_200_u64)
                        .map(|day| {
                            let (month, day) = (day / 28 % 12 + 1, day % 28 + 1);
                            json!([format!("{:04}-{month:02}-{day:02}", year * 40 % 9_999), 95.0, 65.0, 0.1, 50.0])
                        })
                        .collect();
                    let told = json!({"fact": "weather", "station": "W", "unit": "fahrenheit", "days": days});
                    around(&[told], year.cast_signed())
                })
                .collect(),
        ),
        (
            "one field set a thousand times, each replacing all others",
            (0..1_000_u64)
                .map(|turn| {
                    let seen: Vec<Value> = (0..40).map(|seq| json!({"device": id(1), "seq": seq})).collect();
                    let set = json!({"fact": "set", "row": "planting", "id": planting(0),
                                     "to": {"hybrid": planting(turn)}, "replaces": {"hybrid": seen}});
                    around(&[set], turn.cast_signed())
                })
                .collect(),
        ),
        (
            "a name of a million letters",
            one(vec![json!({"fact": "set", "row": "planting", "id": planting(1),
                            "to": {"name": "n".repeat(900_000)}})]),
        ),
        (
            "a note of half a million words",
            one(vec![json!({"fact": "heads", "walk": planting(1_000_001), "stop": planting(2_000_000),
                            "heads": [[planting(9_999), "pliable", 40,
                                       {"note": "ab ".repeat(250_000)}]]})]),
        ),
        (
            "20,000 facts of kinds that nobody knows",
            one((0..20_000).map(|number| json!({"fact": "later", "number": number})).collect()),
        ),
    ];
    // What is merged or walked has a name, or nobody would ever see it.
    let named_before = |(name, bodies): (&'static str, Vec<Vec<u8>>)| {
        let before = if name.contains("merges") {
            &all_named
        } else {
            &here
        };
        (name, [vec![before.clone()], bodies].concat())
    };
    cases.into_iter().map(named_before).collect()
}

/// Pages of one writer's changes, within the bounds of the wire.
///
/// # Panics
/// When a change alone is beyond them.
#[must_use]
pub fn pages(device: Uuid, bodies: &[Vec<u8>]) -> Vec<Page> {
    let mut pages: Vec<Page> = Vec::new();
    let (mut run, mut bytes, mut after) = (Vec::new(), 0, 0);
    let close = |run: &mut Vec<ByteBuf>, after: &mut u64, pages: &mut Vec<Page>| {
        if run.is_empty() {
            return;
        }
        let count = run.len() as u64;
        let page: Page = vec![Run {
            device,
            after: *after,
            bodies: std::mem::take(run).into(),
        }]
        .into();
        assert!(page_fits(&page));
        pages.push(page);
        *after += count;
    };
    for body in bodies {
        assert!(!body.is_empty() && body.len() <= CHANGE_BYTES);
        if bytes + body.len() > PAGE_BYTES || run.len() == PAGE_CHANGES {
            close(&mut run, &mut after, &mut pages);
            bytes = 0;
        }
        bytes += body.len();
        run.push(ByteBuf::from(body.clone()));
    }
    close(&mut run, &mut after, &mut pages);
    pages
}
