//! A member who means harm: with a valid token and a key of its own it gives the hub
//! whatever the hub takes, and much that it must not take.

use crate::hub_there::HubThere;
use headwalk_tests::absurd::{self, Envelope};
use rand::{Rng as _, RngExt as _, SeedableRng as _};
use rand_chacha::ChaCha8Rng;
use serde_bytes::ByteBuf;
use serde_json::json;
use std::collections::BTreeSet;
use std::sync::LazyLock;
use uuid::Uuid;
use wire::code::Token;
use wire::seal::{Link, Signer, Writer};
use wire::{Answer, Ask, Heads, Run, RunSeal, SealedRun, Tag, frame};

/// Most series that it opens: the rest of a flood goes into those it has.
const MOST_SERIES: usize = 12;

/// Costly changes that are not so long that a simulation spends its time on them alone.
static COSTLY: LazyLock<Vec<Vec<u8>>> = LazyLock::new(|| {
    let of_each = |(_, bodies): (&str, Vec<Vec<u8>>)| {
        bodies
            .into_iter()
            .filter(|body| body.len() < 40_000)
            .take(20)
            .collect::<Vec<_>>()
    };
    absurd::costly().into_iter().flat_map(of_each).collect()
});

/// A series that it writes.
struct Series {
    id: Uuid,
    end: u64,
    link: Link,
}

pub struct Intruder {
    pub token: Token,
    signer: Signer,
    rng: ChaCha8Rng,
    series: Vec<Series>,
    /// Tags of what it tried to put into series of others.
    pub forged: BTreeSet<Tag>,
    /// Tags of what it gave in its own name, often the same twice.
    pub given: BTreeSet<Tag>,
}

impl Intruder {
    pub fn new(token: Token, seed: u64) -> Self {
        Self {
            signer: Signer::from_secret(&wire::code::hash(&token.secret)),
            token,
            rng: ChaCha8Rng::seed_from_u64(seed),
            series: Vec::new(),
            forged: BTreeSet::new(),
            given: BTreeSet::new(),
        }
    }

    /// Does something bad. `plantings` are those that honest phones made.
    pub fn act(&mut self, hub: &mut HubThere, crew: Uuid, plantings: &[Uuid], now_ms: i64) {
        match self.rng.random_range(0..10) {
            0 => {
                let bodies = self.many(4, Self::bad_bytes);
                self.give(hub, bodies);
            }
            1..=3 => {
                let bodies = self.many(4, |it| it.odd_stamp(plantings, now_ms));
                self.give(hub, bodies);
            }
            4..=5 => {
                let bodies = self.many(4, Self::odd_facts);
                self.give(hub, bodies);
            }
            6 => {
                let bodies = self.many(1, Self::costly_fact);
                self.give(hub, bodies);
            }
            7 => self.forge(hub, crew),
            8 => self.flood(hub),
            _ => self.noise(hub),
        }
    }

    fn many(&mut self, most: usize, one: impl Fn(&mut Self) -> Vec<u8>) -> Vec<Vec<u8>> {
        let count = self.rng.random_range(1..=most);
        (0..count).map(|_| one(self)).collect()
    }

    fn id(&mut self) -> Uuid {
        let mut id = [0; 16];
        self.rng.fill_bytes(&mut id);
        uuid::Builder::from_random_bytes(id).into_uuid()
    }

    fn bad_bytes(&mut self) -> Vec<u8> {
        if self.rng.random_bool(0.3) {
            return vec![0x7f];
        }
        let mut bytes = vec![0; self.rng.random_range(1..200)];
        self.rng.fill_bytes(&mut bytes);
        bytes
    }

    /// Facts that could be, at a time that could not.
    fn odd_stamp(&mut self, plantings: &[Uuid], now_ms: i64) -> Vec<u8> {
        let day = 86_400_000;
        let ends = [
            0,
            1,
            -1,
            i64::MIN,
            i64::MAX,
            (1 << 62) - 1,
            1 << 62,
            73_526_000_000_000 << 16,
            (now_ms + day) << 16,
            (now_ms + 10 * day) << 16,
            (now_ms + 400 * day) << 16,
        ];
        let hlc = ends[self.rng.random_range(0..ends.len())];
        let own = absurd::id(self.rng.random());
        let among = self.rng.random_range(0..=plantings.len());
        let planting = plantings.get(among).copied().unwrap_or(own);
        let fact = json!({"fact": "set", "row": "planting", "id": planting,
                          "to": {"name": "Of another time", "planted_on": "2026-05-03"}});
        Envelope {
            hlc,
            recorded_ms: ends[self.rng.random_range(0..ends.len())],
            offset_min: self.rng.random_range(-2_000..2_000),
            kind: b"planting_added",
            body: json!({ "facts": [fact] }).to_string().as_bytes(),
        }
        .bytes()
    }

    /// Facts of known kinds, of whose values some are absurd.
    fn odd_facts(&mut self) -> Vec<u8> {
        let (one, other, third) = (
            self.rng.random_range(0..6),
            self.rng.random_range(0..6),
            self.rng.random_range(0..6),
        );
        let mut facts = absurd::facts(one, other, third);
        let values = absurd::absurd_values();
        for fact in &mut facts {
            for _ in 0..self.rng.random_range(0..3) {
                let with = &values[self.rng.random_range(0..values.len())];
                absurd::spoil(fact, self.rng.random_range(0..100), with);
            }
        }
        absurd::around(&facts, self.rng.random_range(0..5_000))
    }

    /// A change that asks for as much work as it can.
    fn costly_fact(&mut self) -> Vec<u8> {
        COSTLY[self.rng.random_range(0..COSTLY.len())].clone()
    }

    /// A page for a series of its own, sealed as it must be.
    fn give(&mut self, hub: &mut HubThere, bodies: Vec<Vec<u8>>) {
        self.given.extend(bodies.iter().map(|body| Tag::of(body)));
        let new = self.series.is_empty()
            || (self.series.len() < MOST_SERIES && self.rng.random_bool(0.1));
        if new {
            let id = self.id();
            self.series.push(Series {
                id,
                end: 0,
                link: Link::START,
            });
        }
        let which = if new {
            self.series.len() - 1
        } else {
            self.rng.random_range(0..self.series.len())
        };
        let series = &self.series[which];
        let (id, after) = (series.id, series.end);
        let link = series.link.after_all(&bodies);
        let run = Run {
            device: id,
            after,
            bodies: bodies.iter().cloned().map(ByteBuf::from).collect(),
        };
        let (last, count) = (run.last(), bodies.len() as u64);
        let sealed = self.sealed(run, last, link);
        if let Some(Answer::Pushed(_)) = self.ask(hub, &Ask::PushSealed(vec![sealed].into())) {
            let series = &mut self.series[which];
            (series.end, series.link) = (after + count, link);
        }
    }

    fn sealed(&self, run: Run, last: u64, link: Link) -> SealedRun {
        let writer = Writer::plain(self.signer.key());
        let signature = self.signer.seal(&writer, run.device, last, link);
        SealedRun {
            run,
            seal: Some(RunSeal {
                key: writer.key,
                signature,
                origin: None,
            }),
        }
    }

    /// Changes for a series of somebody else, in three ways.
    fn forge(&mut self, hub: &mut HubThere, crew: Uuid) {
        let heads: Heads = hub.heads(crew);
        let others: Vec<(Uuid, u64)> = heads
            .iter()
            .filter(|(id, _)| self.series.iter().all(|own| own.id != **id))
            .map(|(id, mark)| (*id, mark.seq))
            .collect();
        if others.is_empty() {
            return;
        }
        let (device, end) = others[self.rng.random_range(0..others.len())];
        let after = end - self.rng.random_range(0..=end.min(1));
        let name = format!("Forged {}", self.rng.random_range(0..1_000_000));
        let fact =
            json!({"fact": "set", "row": "planting", "id": absurd::id(0), "to": {"name": name}});
        let body = absurd::around(&[fact], 0);
        self.forged.insert(Tag::of(&body));
        let run = Run {
            device,
            after,
            bodies: vec![ByteBuf::from(body)].into(),
        };
        let last = run.last();
        let ask = match self.rng.random_range(0..3) {
            0 => Ask::Push(vec![run].into()),
            1 => Ask::PushSealed(vec![SealedRun::from(run)].into()),
            _ => Ask::PushSealed(vec![self.sealed(run, last, Link::START)].into()),
        };
        self.ask(hub, &ask);
    }

    /// Much at once: many changes of its own, and new series as long as there is room.
    fn flood(&mut self, hub: &mut HubThere) {
        let bodies: Vec<Vec<u8>> = (0..60).map(|_| self.bad_bytes()).collect();
        self.give(hub, bodies);
        for _ in 0..4 {
            if self.series.len() == MOST_SERIES {
                return;
            }
            let id = self.id();
            self.series.push(Series {
                id,
                end: 0,
                link: Link::START,
            });
        }
        let bodies = vec![self.bad_bytes()];
        self.give(hub, bodies);
    }

    /// Bytes that are no question.
    fn noise(&mut self, hub: &mut HubThere) {
        let mut bytes = frame::encode(&Ask::Crew).unwrap();
        for _ in 0..3 {
            let place = self.rng.random_range(0..bytes.len());
            bytes[place] = self.rng.random();
        }
        let _ = hub.hear(&self.token, &bytes);
    }

    fn ask(&mut self, hub: &mut HubThere, ask: &Ask) -> Option<Answer> {
        let answer = hub.hear(&self.token, &frame::encode(ask).unwrap())?;
        frame::decode(&answer).ok()
    }
}
