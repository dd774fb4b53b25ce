//! Carries a plan out: page by page, each stored before the next is asked for.

mod mend;

use crate::book::Book;
use crate::plan::{Plan, count, plan};
use crate::proof::{LeftAlone, Proof, prove};
use crate::trouble::{PageSize, Trouble};
use serde::{Deserialize, Serialize};
use std::collections::{BTreeMap, BTreeSet};
use std::ops::ControlFlow;
use uuid::Uuid;
use wire::seal::PublicKey;
use wire::{
    Answer, Ask, Bounded, CHANGE_BYTES, Full, Heads, LAST_SEQ, Page, Refusal, Role, Run,
    SealedPage, SealedRun, Span,
};

pub(crate) use mend::settle_key;

/// The way to a hub.
pub trait Way {
    /// Asks and waits for the answer.
    ///
    /// # Errors
    /// When there is none. A refusal is an answer.
    fn ask(&mut self, ask: &Ask) -> Result<Answer, Trouble>;
}

/// How far an exchange has come, in changes.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Progress {
    /// Stored at the hub.
    pub sent: u64,
    /// To be stored at the hub altogether.
    pub to_send: u64,
    /// Stored here.
    pub received: u64,
    /// To be stored here altogether.
    pub to_receive: u64,
}

/// What an exchange did.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Met {
    /// Changes given and fetched.
    pub progress: Progress,
    /// Changes that wait because the role does not allow giving them.
    pub held_back: u64,
    /// What the hub held at first.
    pub found: Heads,
    /// What the hub holds, as last heard.
    pub hub: Heads,
    /// What the person may do, as last heard.
    pub role: Role,
    /// Writers whose numbers had been used twice.
    pub mended: Vec<Uuid>,
    /// What moved of this phone's own series.
    pub moved: Vec<Moved>,
    /// Series that were left as they are, and why.
    pub left_alone: BTreeMap<Uuid, LeftAlone>,
    /// What the hub has no more room for; the changes that it refused stay here.
    pub full: Option<Full>,
}

/// This phone goes on in another series.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Moved {
    /// The series that it wrote before.
    pub series: Uuid,
    /// The series to which its last changes moved; none where none had to.
    pub branch: Option<Uuid>,
    /// The series that it writes now.
    pub now: Uuid,
    /// Why.
    pub why: MovedWhy,
}

/// Why a phone goes on in another series.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum MovedWhy {
    /// Another device wrote in the series too: the notebook was copied, or an earlier
    /// copy of it was put back.
    #[default]
    WrittenElsewhere,
    /// The key of the series went with an earlier membership.
    NewKey,
}

/// Times a series is left alone because the hub does not take it, before giving up.
const REFUSALS: usize = 64;
/// Times the plan is made anew because the two sides had parted, before giving up.
const ROUNDS: usize = 16;
/// Most changes fetched in one meeting. No crew writes as many; a hub that says so is
/// not to fill the phone.
const MOST_TO_RECEIVE: u64 = 100_000_000;
/// Most series mended in one meeting: each costs questions and a rebuild.
const MOST_MENDS: usize = 32;
/// A page of fewer changes and fewer bytes, with more to come, is a crumb...
const CRUMB_CHANGES: usize = 16;
const CRUMB_BYTES: usize = 8 * 1024;
/// ...and a hub that gives more of them than this is drawing the meeting out.
const MOST_CRUMBS: usize = 256;

/// Exchanges until both sides hold the same. `report` hears of every stored page
/// and may stop the exchange.
///
/// # Errors
/// See [`Trouble`]. Whatever was stored before stays stored; calling again resumes.
pub fn meet(
    book: &mut dyn Book,
    way: &mut dyn Way,
    size: PageSize,
    report: &mut dyn FnMut(Progress) -> ControlFlow<()>,
) -> Result<Met, Trouble> {
    let mut meeting = Meeting {
        book,
        way,
        size,
        report,
        progress: Progress::default(),
        mended: Vec::new(),
        moved: Vec::new(),
        left_alone: BTreeMap::new(),
        crumbs: 0,
        full: None,
    };
    let (mut found, mut rounds, mut refusals) = (None, 0, 0);
    while rounds < ROUNDS && refusals < REFUSALS {
        if let Some(moved) = settle_key(meeting.book)? {
            meeting.moved.push(moved);
        }
        let seen = meeting.look()?;
        let found = found.get_or_insert_with(|| seen.hub.clone());
        if meeting.settle_named(&seen)? {
            rounds += 1;
            continue;
        }
        let plan = meeting.plan(&seen)?;
        meeting.progress.to_send = meeting.progress.sent + plan.to_send();
        meeting.progress.to_receive = meeting.progress.received + plan.to_receive();
        meeting.mend_all(&plan.mend, &seen)?;
        let role = seen.role;
        match meeting.carry_out(&plan, seen) {
            // Somebody else's push came in between, or the hub was set back to a
            // backup; look again.
            Err(Trouble::Forked(_) | Trouble::Refused(Refusal::Gap { .. })) => rounds += 1,
            // The others go on without it.
            Err(Trouble::NotYours(series)) => {
                meeting.left_alone.insert(series, LeftAlone::NotTaken);
                refusals += 1;
            }
            Err(trouble) => return Err(trouble),
            Ok(_) if !plan.mend.is_empty() => rounds += 1,
            Ok((hub, skipped)) => {
                return Ok(Met {
                    progress: meeting.progress,
                    held_back: plan.held_back + skipped,
                    found: std::mem::take(found),
                    hub,
                    role,
                    mended: meeting.mended,
                    moved: meeting.moved,
                    left_alone: meeting.left_alone,
                    full: meeting.full,
                });
            }
        }
    }
    Err(Trouble::HubFault)
}

/// What the hub said, beside what the notebook holds.
struct Seen {
    mine: Heads,
    hub: Heads,
    forked: BTreeSet<Uuid>,
    role: Role,
    /// The key that the hub names for a series.
    keys: BTreeMap<Uuid, PublicKey>,
}

struct Meeting<'a> {
    book: &'a mut dyn Book,
    way: &'a mut dyn Way,
    size: PageSize,
    report: &'a mut dyn FnMut(Progress) -> ControlFlow<()>,
    progress: Progress,
    mended: Vec<Uuid>,
    moved: Vec<Moved>,
    left_alone: BTreeMap<Uuid, LeftAlone>,
    crumbs: usize,
    full: Option<Full>,
}

impl Meeting<'_> {
    fn ask(&mut self, ask: &Ask) -> Result<Answer, Trouble> {
        match self.way.ask(ask)? {
            Answer::Refused(refusal) => Err(refusal.into()),
            answer => Ok(answer),
        }
    }

    fn tell(&mut self) -> Result<(), Trouble> {
        match (self.report)(self.progress) {
            ControlFlow::Continue(()) => Ok(()),
            ControlFlow::Break(()) => Err(Trouble::Stopped),
        }
    }

    /// Hears what the hub holds.
    fn look(&mut self) -> Result<Seen, Trouble> {
        let mine = self.book.heads()?;
        let marks = mine.iter().map(|(device, mark)| (*device, *mark)).collect();
        let greet = Ask::Greet {
            mine: marks,
            key: self.book.key()?,
            own: self.book.own()?,
        };
        let Answer::Greeted {
            heads: hub,
            forked,
            role,
            roster,
        } = self.ask(&greet)?
        else {
            return Err(Trouble::Nonsense);
        };
        let mut forked: BTreeSet<Uuid> = forked
            .into_iter()
            .filter(|device| mine.contains_key(device) && hub.contains_key(device))
            .collect();
        // The hub compares at the notebook's end, the notebook at the hub's.
        for (device, mark) in hub.iter().filter(|(_, mark)| mark.seq <= LAST_SEQ) {
            let held = self.book.tag(*device, mark.seq)?;
            if held.is_some_and(|tag| tag != mark.tag) {
                forked.insert(*device);
            }
        }
        #[cfg(feature = "planted")]
        if wire::planted::is(wire::planted::Bug::ForkOverlooked)
            || wire::planted::is(wire::planted::Bug::ReuseIgnored)
        {
            forked.clear();
        }
        let keys = roster.keys(&hub);
        Ok(Seen {
            mine,
            hub,
            forked,
            role,
            keys,
        })
    }

    /// Finds what there is to do, with the series that are not left alone.
    fn plan(&mut self, seen: &Seen) -> Result<Plan, Trouble> {
        for (series, named) in &seen.keys {
            let known = self.book.writer(*series)?;
            if known.is_some_and(|known| known.key != *named) {
                self.left_alone.insert(*series, LeftAlone::OtherKey);
            }
        }
        let others = |heads: &Heads| -> Heads {
            let kept = heads
                .iter()
                .filter(|(series, _)| !self.left_alone.contains_key(series));
            kept.map(|(series, mark)| (*series, *mark)).collect()
        };
        let forked = seen
            .forked
            .iter()
            .filter(|series| !self.left_alone.contains_key(series))
            .copied()
            .collect();
        let (mine, hub) = (others(&seen.mine), others(&seen.hub));
        let own = self.book.own()?;
        let mut plan = plan(&mine, &hub, &forked, own, seen.role);
        self.leave_alone_what_cannot_be(&mut plan);
        Ok(plan)
    }

    /// Takes out of a plan the series of which the hub cannot hold what it says.
    fn leave_alone_what_cannot_be(&mut self, plan: &mut Plan) {
        let mut total = 0_u64;
        plan.pull.retain(|span| {
            let with_this = total.saturating_add(count(&[*span]));
            let can_be = with_this <= MOST_TO_RECEIVE && span.to <= LAST_SEQ;
            if can_be {
                total = with_this;
            } else {
                self.left_alone.insert(span.device, LeftAlone::Incoherent);
            }
            can_be
        });
    }

    /// Mends what the plan says. A series of which the hub says now this, now that, is
    /// left alone.
    fn mend_all(&mut self, devices: &[Uuid], seen: &Seen) -> Result<(), Trouble> {
        for device in devices {
            let mended = if self.mended.len() < MOST_MENDS {
                self.mend(*device, seen)
            } else {
                Err(Trouble::Forked(*device))
            };
            match mended {
                Err(Trouble::Nonsense | Trouble::Forked(_)) => {
                    self.left_alone.insert(*device, LeftAlone::Incoherent);
                }
                done => done?,
            }
        }
        Ok(())
    }

    /// Gives and fetches; answers what the hub holds then, and how many changes could
    /// not be given because this phone has no seal for them.
    fn carry_out(&mut self, plan: &Plan, mut seen: Seen) -> Result<(Heads, u64), Trouble> {
        self.tell()?;
        self.claim(&mut seen)?;
        let skipped = self.push(&plan.push, &mut seen)?;
        self.pull(&plan.pull, &seen.keys)?;
        Ok((seen.hub, skipped))
    }

    fn push(&mut self, spans: &[Span], seen: &mut Seen) -> Result<u64, Trouble> {
        let key = self.book.key()?;
        let held = seen.hub.clone();
        let keys = &seen.keys;
        let terms = |span: &Span| {
            let named = keys.get(&span.device).copied();
            let new = !held.contains_key(&span.device);
            Terms {
                may_seal: key.is_some() && (named == key || (named.is_none() && new)),
                bare: key.is_none() && named.is_none(),
            }
        };
        let mut left: Vec<Span> = spans.iter().rev().copied().collect();
        let mut skipped = 0;
        while let Some(next) = left.last().copied() {
            // Where the hub has no room for another series, each new one is tried alone.
            let (page, passed_over) = if self.full.is_some() {
                left.pop();
                let mut alone = vec![next];
                let made = next_page(self.book, &mut alone, self.size, &terms)?;
                left.extend(alone);
                made
            } else {
                next_page(self.book, &mut left, self.size, &terms)?
            };
            skipped += passed_over;
            self.progress.to_send = self.progress.to_send.saturating_sub(passed_over);
            let changes: usize = page.iter().map(|sealed| sealed.run.bodies.len()).sum();
            if changes == 0 {
                continue;
            }
            let given = page.clone();
            let ends = match self.ask(&Ask::PushSealed(page)) {
                Ok(Answer::Pushed(ends)) => ends,
                Ok(_) => return Err(Trouble::Nonsense),
                Err(Trouble::Full(full)) => {
                    self.make_do(full, &given, spans, &mut left, &seen.hub);
                    continue;
                }
                Err(trouble) => return Err(trouble),
            };
            for sealed in given.iter() {
                self.book.note_given(sealed)?;
            }
            seen.hub.extend(ends);
            self.progress.sent += changes as u64;
            self.tell()?;
        }
        Ok(skipped)
    }

    /// Decides what is still given to a hub that had no room for a page. What is not
    /// stays here; what the hub has for this notebook still comes.
    fn make_do(
        &mut self,
        full: Full,
        refused: &SealedPage,
        spans: &[Span],
        left: &mut Vec<Span>,
        hub: &Heads,
    ) {
        let first = self.full.replace(full).is_none();
        let of_series = matches!(full, Full::Series | Full::Crew);
        if !of_series {
            left.clear();
        } else if first {
            let again = |span: &&Span| refused.iter().any(|came| came.run.device == span.device);
            let end = |device| hub.get(device).map_or(0, |mark| mark.seq);
            let again: Vec<Span> = spans
                .iter()
                .rev()
                .filter(again)
                .map(|span| Span {
                    after: span.after.max(end(&span.device)),
                    ..*span
                })
                .collect();
            left.retain(|span| refused.iter().all(|came| came.run.device != span.device));
            left.extend(again);
        } else {
            left.retain(|span| hub.contains_key(&span.device));
        }
    }

    fn pull(&mut self, spans: &[Span], keys: &BTreeMap<Uuid, PublicKey>) -> Result<(), Trouble> {
        let mut left: BTreeMap<Uuid, Span> =
            spans.iter().map(|span| (span.device, *span)).collect();
        while !left.is_empty() {
            let asked: Bounded<Span, _> = left.values().copied().collect();
            let Answer::PulledSealed(page) = self.ask(&Ask::PullSealed { spans: asked })? else {
                return Err(Trouble::Nonsense);
            };
            let page = self.what_was_asked(page, &mut left)?;
            self.mind_crumbs(&page, left.values().any(|span| span.after < span.to))?;
            let (mut runs, mut seals) = (Vec::new(), Vec::new());
            for came in page {
                let series = came.run.device;
                match prove(self.book, &came, keys.get(&series).copied())? {
                    Proof::None(why) => {
                        self.leave(&mut left, series, why, came.run.bodies.len());
                        continue;
                    }
                    Proof::Sealed(writer, sealed) => seals.push((writer, sealed)),
                    Proof::Bare => {}
                }
                runs.push(came.run);
            }
            if !runs.is_empty() {
                let changes: usize = runs.iter().map(|run| run.bodies.len()).sum();
                self.book.take_in(&Page::from(runs), &seals)?;
                self.progress.received += changes as u64;
            }
            left.retain(|_, span| span.after < span.to);
            self.tell()?;
        }
        Ok(())
    }

    /// The runs of a page that follow what is held, one of a series. A series of which
    /// anything else comes, or the first asked for where nothing comes, is left alone.
    fn what_was_asked(
        &mut self,
        page: SealedPage,
        left: &mut BTreeMap<Uuid, Span>,
    ) -> Result<Vec<SealedRun>, Trouble> {
        let first = left.keys().next().copied();
        if let (true, Some(series)) = (page.is_empty(), first) {
            self.crumbs += 1;
            self.leave(left, series, LeftAlone::Incoherent, 0);
        }
        let (mut came, mut seen) = (Vec::new(), BTreeSet::new());
        for sealed in page.into_vec() {
            let run = &sealed.run;
            let series = run.device;
            let span = match left.get_mut(&series) {
                Some(span) => span,
                None if self.left_alone.contains_key(&series) => continue,
                None => return Err(Trouble::Nonsense),
            };
            let whole = !run.bodies.is_empty()
                && run
                    .bodies
                    .iter()
                    .all(|body| (1..=CHANGE_BYTES).contains(&body.len()));
            let follows = run.after == span.after && run.last() <= span.to;
            if whole && follows && seen.insert(series) {
                span.after = run.last();
                came.push(sealed);
            } else {
                self.leave(left, series, LeftAlone::Incoherent, 0);
            }
        }
        Ok(came)
    }

    /// Asks no more of a series, of which `untaken` changes came and are not taken in.
    fn leave(
        &mut self,
        left: &mut BTreeMap<Uuid, Span>,
        series: Uuid,
        why: LeftAlone,
        untaken: usize,
    ) {
        let rest = left.remove(&series).map_or(0, |span| span.to - span.after);
        let missing = rest + untaken as u64;
        self.progress.to_receive = self.progress.to_receive.saturating_sub(missing);
        self.left_alone.insert(series, why);
    }

    /// Gives up on a hub that hands out its changes crumb by crumb.
    fn mind_crumbs(&mut self, page: &[SealedRun], more: bool) -> Result<(), Trouble> {
        let changes: usize = page.iter().map(|came| came.run.bodies.len()).sum();
        let bytes: usize = page.iter().map(|came| came.run.bytes()).sum();
        if more && changes < CRUMB_CHANGES && bytes < CRUMB_BYTES {
            self.crumbs += 1;
        }
        if self.crumbs > MOST_CRUMBS {
            return Err(Trouble::HubFault);
        }
        Ok(())
    }
}

/// What may be done with a series that is given away.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Terms {
    /// This notebook may seal it if it carries no seal yet.
    pub may_seal: bool,
    /// It may go without a seal.
    pub bare: bool,
}

/// The next page of the spans that are left, the next one last in the list, and how
/// many changes were passed over because they have no seal and need one.
pub(crate) fn next_page(
    book: &mut dyn Book,
    left: &mut Vec<Span>,
    size: PageSize,
    terms: &dyn Fn(&Span) -> Terms,
) -> Result<(SealedPage, u64), Trouble> {
    let (mut room, mut passed_over) = (size, 0);
    let mut runs: Vec<SealedRun> = Vec::new();
    while let Some(span) = left.pop() {
        let given = read_run(book, span, room, terms(&span))?;
        let Some(given) = given else {
            // Without a seal, or moved away meanwhile; the next look will tell.
            passed_over += span.to - span.after;
            continue;
        };
        let bodies = &given.run.bodies;
        let bytes = given.run.bytes();
        if bodies.iter().any(|body| body.len() > CHANGE_BYTES) {
            return Err(Trouble::Refused(Refusal::OutOfBounds));
        }
        if !runs.is_empty() && (bytes > room.bytes || bodies.len() > room.changes) {
            left.push(span);
            break;
        }
        room.bytes = room.bytes.saturating_sub(bytes);
        room.changes = room.changes.saturating_sub(bodies.len());
        let rest = Span {
            after: given.run.last(),
            ..span
        };
        let whole = rest.after >= span.to;
        runs.push(given);
        if !whole {
            left.push(rest);
            break;
        }
        if room.bytes == 0 || room.changes == 0 {
            break;
        }
    }
    Ok((runs.into(), passed_over))
}

fn read_run(
    book: &mut dyn Book,
    span: Span,
    room: PageSize,
    terms: Terms,
) -> Result<Option<SealedRun>, Trouble> {
    let sealed = book.read_sealed(span, room, terms.may_seal)?;
    if sealed.is_some() || !terms.bare {
        return Ok(sealed.filter(|sealed| sealed.seal.is_some() || terms.bare));
    }
    // Sealed only farther on than a page reaches, as what was fetched before its
    // writer sealed it: the seal follows, and covers it.
    let bodies = book.read(span, room)?;
    let run = Run {
        device: span.device,
        after: span.after,
        bodies: bodies.into(),
    };
    Ok((!run.bodies.is_empty()).then(|| run.into()))
}
