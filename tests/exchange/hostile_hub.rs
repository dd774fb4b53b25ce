//! A hub that lies, against a phone: what the real hub answers is altered on its way.
//! Nothing may be lost, nothing stored that is not what its writer wrote, no notebook
//! moved about; and the exchange ends with a clear word within a bounded number of
//! questions. Once the hub tells the truth again, all are equal.

#![allow(clippy::type_complexity)] // tables of cases

use crate::hub_here::{HubHere, Kept, Phone};
use crate::scouts::{exchange, head_file, in_memory, record, signer};
use exchange::book::Book as _;
use exchange::http::HttpWay;
use exchange::meet::{Met, Way, meet};
use exchange::own_book::pack;
use exchange::{PageSize, Trouble};
use headwalk_tests::absurd;
use notebook::Notebook;
use notebook::durability::check;
use notebook::log;
use serde_bytes::ByteBuf;
use std::collections::{BTreeMap, BTreeSet, VecDeque};
use std::ops::ControlFlow;
use uuid::Uuid;
use wire::seal::{Link, Signer, Writer};
use wire::{
    Answer, Ask, Clash, Heads, Mark, Refusal, Role, Run, RunSeal, SealedPage, SealedRun, Tag,
};

/// No lie may cost a phone more questions than this. An honest hub is asked ten.
const MOST_ASKS: usize = 1_500;

/// What the hub makes of an honest answer.
type Lie = Box<dyn FnMut(&Ask, Answer) -> Answer>;

/// The way to a hub that lies.
struct Liar {
    way: HttpWay,
    lie: Lie,
    asks: usize,
}

impl Way for Liar {
    fn ask(&mut self, ask: &Ask) -> Result<Answer, Trouble> {
        self.asks += 1;
        assert!(self.asks <= MOST_ASKS, "questions without an end");
        let honest = self.way.ask(ask)?;
        Ok((self.lie)(ask, honest))
    }
}

/// A crew of three, one of whom has yet to give and to fetch.
struct Scene {
    here: HubHere,
    ada: (Notebook, Phone),
    cal: (Notebook, Phone),
    /// The one who is lied to.
    ben: (Notebook, Phone),
    before: BTreeMap<Tag, usize>,
}

impl Scene {
    fn new() -> Self {
        let here = HubHere::start(&Kept::Sqlite);
        let owner = here.crew("Ada");
        let scout = |name: &str| here.further(&owner, Role::Scout, name);
        let (cal, ben) = (scout("Cal"), scout("Ben"));
        let mut scene = Self {
            ada: (in_memory(), owner),
            cal: (in_memory(), cal),
            ben: (in_memory(), ben),
            before: BTreeMap::new(),
            here,
        };
        scene.tell("first");
        for person in [&mut scene.ada, &mut scene.cal, &mut scene.ben] {
            exchange(&scene.here, &mut person.0, &person.1).unwrap();
        }
        scene.tell("second");
        for person in [&mut scene.ada, &mut scene.cal] {
            exchange(&scene.here, &mut person.0, &person.1).unwrap();
        }
        scene.before = tags(&scene.ben.0);
        scene
    }

    /// Everybody reads heads of four plantings: so many changes each.
    fn tell(&mut self, when: &str) {
        for (person, name) in [
            (&mut self.ada, "A"),
            (&mut self.ben, "B"),
            (&mut self.cal, "C"),
        ] {
            for number in 0..4 {
                let planting = format!("{name}{number} {when}");
                let notebook = std::mem::replace(&mut person.0, in_memory());
                person.0 = record(notebook, &head_file(&planting, name, 5));
            }
        }
    }

    /// Ben meets the hub that lies.
    fn lie(&mut self, lie: Lie) -> Result<Met, Trouble> {
        let mut liar = Liar {
            way: self.here.way(Some(self.ben.1.token.clone())),
            lie,
            asks: 0,
        };
        self.ben.0.sign_with(signer(&self.ben.1));
        meet(&mut self.ben.0, &mut liar, PageSize::default(), &mut |_| {
            ControlFlow::Continue(())
        })
    }

    /// Nothing lost, nothing made up, nothing moved; and with an honest hub all are equal.
    fn judge(&mut self, name: &str, changes: usize) {
        let held = tags(&self.ben.0);
        for tag in self.before.keys() {
            assert!(held.contains_key(tag), "{name}: a change was lost");
        }
        for (tag, count) in &held {
            assert_eq!(*count, 1, "{name}: a change is held twice");
            let told = self.before.contains_key(tag)
                || tags(&self.ada.0).contains_key(tag)
                || tags(&self.cal.0).contains_key(tag);
            assert!(told, "{name}: stored what nobody wrote");
        }
        assert!(check::check(self.ben.0.db()).unwrap().is_sound(), "{name}");
        for _ in 0..2 {
            for person in [&mut self.ben, &mut self.ada, &mut self.cal] {
                let met = exchange(&self.here, &mut person.0, &person.1);
                assert!(met.is_ok(), "{name}: afterwards {met:?}");
            }
        }
        for other in [&mut self.ada, &mut self.cal] {
            assert_eq!(
                other.0.heads().unwrap(),
                self.ben.0.heads().unwrap(),
                "{name}"
            );
            assert_eq!(
                other.0.view_digest().unwrap(),
                self.ben.0.view_digest().unwrap(),
                "{name}"
            );
        }
        assert_eq!(
            tags(&self.ben.0).len(),
            changes,
            "{name}: not all came together"
        );
    }
}

/// Tags of all changes of a notebook, and how often each is held.
fn tags(notebook: &Notebook) -> BTreeMap<Tag, usize> {
    let mut tags = BTreeMap::new();
    for device in log::heads(notebook.db()).unwrap().into_keys() {
        let changes = log::after(notebook.db(), device, 0, usize::MAX).unwrap();
        for (place, change) in (1..).zip(&changes) {
            assert_eq!(change.seq, place, "a series with a gap");
            *tags.entry(Tag::of(&pack(change).unwrap())).or_default() += 1;
        }
    }
    tags
}

fn on_heads(mut lie: impl FnMut(&mut Heads) + 'static) -> Lie {
    Box::new(move |_, mut answer| {
        if let Some(heads) = heads_of(&mut answer) {
            lie(heads);
        }
        answer
    })
}

fn heads_of(answer: &mut Answer) -> Option<&mut Heads> {
    match answer {
        Answer::Greeted { heads, .. } => Some(heads),
        _ => None,
    }
}

fn on_pages(mut lie: impl FnMut(&mut Vec<SealedRun>) + 'static) -> Lie {
    Box::new(move |_, answer| match answer {
        Answer::PulledSealed(page) => {
            let mut runs = page.into_vec();
            lie(&mut runs);
            Answer::PulledSealed(runs.into())
        }
        answer => answer,
    })
}

/// Answers every push with this.
fn to_pushes(refusal: fn(&SealedPage) -> Answer) -> Lie {
    Box::new(move |ask, answer| match ask {
        Ask::PushSealed(page) => refusal(page),
        _ => answer,
    })
}

fn alter(body: &mut ByteBuf) {
    // Within the words of the change, so that it can still be read.
    let place = body.len() - 10;
    body[place] ^= 1;
}

fn numbered(mark: &mut Mark, seq: u64) {
    mark.seq = seq;
}

type Case = (&'static str, fn() -> Lie);

/// Lies that a phone sees through, or that cost it nothing.
const LIES: &[Case] = &[
    ("no series at all", || on_heads(BTreeMap::clear)),
    ("marks of number 0", || {
        on_heads(|heads| heads.values_mut().for_each(|mark| numbered(mark, 0)))
    }),
    ("a little more than there is", || {
        on_heads(|heads| heads.values_mut().for_each(|mark| mark.seq += 3))
    }),
    ("the highest numbers", || {
        on_heads(|heads| heads.values_mut().for_each(|mark| numbered(mark, u64::MAX)))
    }),
    ("the highest signed numbers", || {
        on_heads(|heads| {
            heads
                .values_mut()
                .for_each(|mark| numbered(mark, i64::MAX as u64));
        })
    }),
    ("four thousand series of nobody", || {
        on_heads(|heads| {
            let tag = Tag([7; 8]);
            heads.extend((1..4_000).map(|id| (Uuid::from_u128(id), Mark { seq: 9, tag })));
        })
    }),
    ("other tags", || {
        on_heads(|heads| heads.values_mut().for_each(|mark| mark.tag = Tag([7; 8])))
    }),
    ("lower marks with other tags", || {
        on_heads(|heads| {
            for mark in heads.values_mut() {
                *mark = Mark {
                    seq: mark.seq.div_ceil(2),
                    tag: Tag([9; 8]),
                };
            }
        })
    }),
    ("everything is forked", || {
        Box::new(|_, mut answer| {
            if let Answer::Greeted { heads, forked, .. } = &mut answer {
                *forked = heads.keys().copied().collect();
            }
            answer
        })
    }),
    ("other tags all the way down", || {
        Box::new(|_, mut answer| {
            match &mut answer {
                Answer::Greeted { heads, .. } => {
                    heads.values_mut().for_each(|mark| mark.tag = Tag([7; 8]));
                }
                Answer::Tags(tags) => *tags = vec![Tag([8; 8])].into(),
                _ => {}
            }
            answer
        })
    }),
    ("gaps", || {
        on_pages(|runs| runs.iter_mut().for_each(|run| run.run.after += 1))
    }),
    ("runs from the start", || {
        on_pages(|runs| runs.iter_mut().for_each(|run| run.run.after = 0))
    }),
    ("runs at the end of all numbers", || {
        on_pages(|runs| runs.iter_mut().for_each(|run| run.run.after = u64::MAX))
    }),
    ("each run twice", || {
        on_pages(|runs| {
            *runs = runs
                .iter()
                .flat_map(|run| [run.clone(), run.clone()])
                .collect()
        })
    }),
    ("the runs of one writer under the name of another", || {
        on_pages(|runs| {
            let devices: Vec<Uuid> = runs.iter().map(|run| run.run.device).collect();
            for (run, device) in runs.iter_mut().zip(devices.iter().rev()) {
                run.run.device = *device;
            }
        })
    }),
    ("a change left out in the middle", || {
        on_pages(|runs| {
            for run in runs.iter_mut() {
                let mut bodies = run.run.bodies.to_vec();
                if bodies.len() > 2 {
                    bodies.remove(1);
                }
                run.run.bodies = bodies.into();
            }
        })
    }),
    ("a letter of every change altered", || {
        on_pages(|runs| {
            for run in runs.iter_mut() {
                let mut bodies = run.run.bodies.to_vec();
                bodies.iter_mut().for_each(alter);
                run.run.bodies = bodies.into();
            }
        })
    }),
    ("pages without a run", || on_pages(Vec::clear)),
    ("runs without a change", || {
        on_pages(|runs| {
            for run in runs.iter_mut() {
                run.run.bodies = Vec::new().into();
            }
        })
    }),
    ("changes without a byte", || {
        on_pages(|runs| {
            for run in runs.iter_mut() {
                run.run.bodies = vec![ByteBuf::new(); run.run.bodies.len()].into();
            }
        })
    }),
    ("changes that are one byte", || {
        on_pages(|runs| {
            for run in runs.iter_mut() {
                run.run.bodies = vec![ByteBuf::from(vec![0x7f]); run.run.bodies.len()].into();
            }
        })
    }),
    ("runs of a series not asked for", || {
        on_pages(|runs| {
            for run in runs.iter_mut() {
                run.run.device = Uuid::from_u128(4_711);
            }
        })
    }),
    ("the first page again and again", || {
        let mut first = None;
        Box::new(move |_, answer| match answer {
            Answer::PulledSealed(page) => Answer::PulledSealed(first.get_or_insert(page).clone()),
            answer => answer,
        })
    }),
    ("a page is refused as a gap for ever", || {
        to_pushes(|page| {
            Answer::Refused(Refusal::Gap {
                device: page[0].run.device,
                have: 0,
            })
        })
    }),
    ("a page clashes for ever", || {
        to_pushes(|page| {
            Answer::Refused(Refusal::Clash(Clash {
                device: page[0].run.device,
                seq: u64::MAX,
            }))
        })
    }),
    ("come again in a century", || {
        to_pushes(|_| Answer::Refused(Refusal::Slower(u32::MAX)))
    }),
    ("a fault for ever", || {
        to_pushes(|_| Answer::Refused(Refusal::Fault))
    }),
    ("versions that cannot be", || {
        to_pushes(|_| {
            Answer::Refused(Refusal::Version {
                oldest: 255,
                newest: 0,
            })
        })
    }),
    ("stored more than was given", || {
        to_pushes(|page| {
            let tag = Tag([1; 8]);
            let seq = u64::MAX;
            Answer::Pushed(
                page.iter()
                    .map(|came| (came.run.device, Mark { seq, tag }))
                    .collect(),
            )
        })
    }),
    ("an answer to another question", || {
        let mut turn = 0;
        Box::new(move |_, answer| {
            turn += 1;
            if turn > 2 { Answer::Done } else { answer }
        })
    }),
    ("a role that changes with every answer", || {
        let mut roles = VecDeque::from([Role::Owner, Role::Reader, Role::Scout]);
        Box::new(move |_, mut answer| {
            if let Answer::Greeted { role, .. } = &mut answer {
                roles.rotate_left(1);
                *role = roles[0];
            }
            answer
        })
    }),
];

/// Says that a series of its own has so many changes, and invents as many as are asked
/// for, with its seal on them.
fn endless(claimed: u64, a_page: usize) -> Lie {
    let (series, signer) = (Uuid::from_u128(4_711), Signer::from_secret(&[7; 32]));
    let writer = Writer::plain(signer.key());
    let mut link = Link::START;
    Box::new(move |ask, mut answer| {
        if let Some(heads) = heads_of(&mut answer) {
            let tag = Tag([7; 8]);
            heads.insert(series, Mark { seq: claimed, tag });
            // It comes first in the roster's order: the others keep their keys.
            if let Answer::Greeted { roster, .. } = &mut answer {
                roster.of = std::iter::once(0)
                    .chain(roster.of.iter().copied())
                    .collect();
            }
        }
        let Ask::PullSealed { spans } = ask else {
            return answer;
        };
        let Some(span) = spans.iter().find(|span| span.device == series) else {
            return answer;
        };
        let bodies = vec![ByteBuf::from(absurd::around(&[], 1)); a_page];
        link = link.after_all(&bodies);
        let run = Run {
            device: series,
            after: span.after,
            bodies: bodies.into(),
        };
        let signature = signer.seal(&writer, series, run.last(), link);
        let seal = Some(RunSeal {
            key: writer.key,
            signature,
            origin: None,
        });
        Answer::PulledSealed(vec![SealedRun { run, seal }].into())
    })
}

/// A hub may invent a series; it may not keep a phone busy with it, or fill it up.
#[test]
fn a_series_that_never_ends_does() {
    for (name, claimed, a_page) in [
        ("change by change", 1 << 20, 1),
        ("in pages", 1 << 40, 400),
        ("up to the highest number", u64::MAX, 400),
    ] {
        let mut scene = Scene::new();
        let met = scene.lie(endless(claimed, a_page));
        println!("{name}: {:?}", met.map(|met| met.left_alone));
        let held = tags(&scene.ben.0);
        assert!(scene.before.keys().all(|tag| held.contains_key(tag)));
        assert!(check::check(scene.ben.0.db()).unwrap().is_sound(), "{name}");
        exchange(&scene.here, &mut scene.ben.0, &scene.ben.1).unwrap();
    }
}

#[test]
fn a_phone_sees_through_every_lie() {
    let mut failed = Vec::new();
    for (name, lie) in LIES {
        let mut scene = Scene::new();
        let outcome = std::panic::catch_unwind(std::panic::AssertUnwindSafe(|| {
            let met = scene.lie(lie());
            println!("{name}: {:?}", met.as_ref().map(|met| met.progress));
            if let Err(trouble) = &met {
                let clear = !matches!(trouble, Trouble::Notebook(_));
                assert!(
                    clear,
                    "{name}: the hub is at fault, not the notebook: {trouble}"
                );
            }
            scene.judge(name, 48);
        }));
        if outcome.is_err() {
            failed.push(*name);
        }
    }
    assert!(failed.is_empty(), "{failed:#?}");
}

/// Every answer that a phone ever got, played to it again in that order.
#[test]
fn old_answers_replayed_harm_nothing() {
    let mut scene = Scene::new();
    let (sent, old) = std::sync::mpsc::channel();
    scene
        .lie(Box::new(move |_, answer| {
            sent.send(answer.clone()).unwrap();
            answer
        }))
        .unwrap();
    let mut old: Vec<Answer> = old.iter().collect();
    scene.tell("third");
    scene.before = tags(&scene.ben.0);
    old.reverse();
    let met = scene.lie(Box::new(move |_, answer| old.pop().unwrap_or(answer)));
    println!("{met:?}");
    scene.judge("old answers", 72);
}

/// What does not hold together of one series keeps none of the others up.
#[test]
fn other_series_go_on() {
    let lies: &[(&str, fn(Uuid) -> Lie)] = &[
        ("claims too much", |cal| {
            on_heads(move |heads| heads.get_mut(&cal).unwrap().seq += 7)
        }),
        ("claims what cannot be", |cal| {
            on_heads(move |heads| {
                heads.get_mut(&cal).unwrap().seq = u64::MAX;
            })
        }),
        ("leaves a gap", |cal| {
            on_pages(move |runs| {
                for came in runs.iter_mut().filter(|came| came.run.device == cal) {
                    came.run.after += 1;
                }
            })
        }),
        ("gives nothing of it", |cal| {
            on_pages(move |runs| runs.retain(|came| came.run.device != cal))
        }),
        ("says that it differs", |cal| {
            on_heads(move |heads| {
                let mark = heads.get_mut(&cal).unwrap();
                (mark.seq, mark.tag) = (2, Tag([7; 8]));
            })
        }),
    ];
    for (name, lie) in lies {
        let mut scene = Scene::new();
        let cal = scene.cal.0.device();
        let met = scene.lie(lie(cal));
        let left_alone = met.unwrap().left_alone;
        assert!(
            left_alone.contains_key(&cal),
            "{name}: nothing is said of it"
        );
        assert_eq!(left_alone.len(), 1, "{name}: {left_alone:?}");
        let held: BTreeSet<Tag> = tags(&scene.ben.0).into_keys().collect();
        let of = |notebook: &Notebook| {
            let device = notebook.device();
            let all = log::after(notebook.db(), device, 0, usize::MAX).unwrap();
            all.iter()
                .map(|change| Tag::of(&pack(change).unwrap()))
                .collect::<Vec<_>>()
        };
        let all_of_ada = of(&scene.ada.0).iter().all(|tag| held.contains(tag));
        assert!(all_of_ada, "{name}: Ada's changes did not come");
        exchange(&scene.here, &mut scene.ada.0, &scene.ada.1).unwrap();
        let at_ada: BTreeSet<Tag> = tags(&scene.ada.0).into_keys().collect();
        let all_of_ben = of(&scene.ben.0).iter().all(|tag| at_ada.contains(tag));
        assert!(all_of_ben, "{name}: Ben's changes did not go");
        scene.judge(name, 48);
    }
}
