//! Carries a plan out: page by page, each stored before the next is asked for.

use crate::book::Book;
use crate::plan::{Plan, count, plan};
use crate::trouble::{PageSize, Trouble};
use crate::wire::{
    Answer, Ask, Bounded, CHANGE_BYTES, Heads, LAST_SEQ, Page, Refusal, Role, Run, Span, Tag,
    page_fits,
};
use sha2::{Digest, Sha256};
use std::collections::{BTreeMap, BTreeSet};
use std::ops::ControlFlow;
use uuid::Uuid;

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
}

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
        left_alone: BTreeSet::new(),
        crumbs: 0,
    };
    let mut found = None;
    for _ in 0..ROUNDS {
        let (hub, role, plan) = meeting.look()?;
        let found = found.get_or_insert_with(|| hub.clone());
        meeting.progress.to_send = meeting.progress.sent + plan.to_send();
        meeting.progress.to_receive = meeting.progress.received + plan.to_receive();
        meeting.mend_all(&plan.mend, &hub)?;
        match meeting.carry_out(&plan, hub) {
            // Somebody else's push came in between, or the hub was set back to a
            // backup; look again.
            Err(Trouble::Forked(_) | Trouble::Refused(Refusal::Gap { .. })) => continue,
            Err(trouble) => return Err(trouble),
            Ok(_) if !plan.mend.is_empty() => continue,
            Ok(hub) => {
                if let Some(device) = meeting.left_alone.first() {
                    return Err(Trouble::LeftAlone(*device));
                }
                return Ok(Met {
                    progress: meeting.progress,
                    held_back: plan.held_back,
                    found: std::mem::take(found),
                    hub,
                    role,
                    mended: meeting.mended,
                });
            }
        }
    }
    Err(Trouble::HubFault)
}

struct Meeting<'a> {
    book: &'a mut dyn Book,
    way: &'a mut dyn Way,
    size: PageSize,
    report: &'a mut dyn FnMut(Progress) -> ControlFlow<()>,
    progress: Progress,
    mended: Vec<Uuid>,
    /// Series of which the hub's word does not hold together. The others go on.
    left_alone: BTreeSet<Uuid>,
    crumbs: usize,
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

    /// Hears what the hub holds, and finds what there is to do.
    fn look(&mut self) -> Result<(Heads, Role, Plan), Trouble> {
        let mine = self.book.heads()?;
        let marks = mine.iter().map(|(device, mark)| (*device, *mark)).collect();
        let Answer::Heads {
            heads: hub,
            forked,
            role,
        } = self.ask(&Ask::Heads { mine: marks })?
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
        if crate::planted::is(crate::planted::Bug::ForkOverlooked)
            || crate::planted::is(crate::planted::Bug::ReuseIgnored)
        {
            forked.clear();
        }
        let own = self.book.own()?;
        let mut plan = plan(&mine, &hub, &forked, own, role);
        self.leave_alone_what_cannot_be(&mut plan);
        Ok((hub, role, plan))
    }

    /// Takes out of a plan what is left alone already, and what the hub cannot hold.
    fn leave_alone_what_cannot_be(&mut self, plan: &mut Plan) {
        let mut total = 0_u64;
        plan.pull.retain(|span| {
            let after_this = total.saturating_add(count(&[*span]));
            let can_be = after_this <= MOST_TO_RECEIVE && span.to <= LAST_SEQ;
            if can_be {
                total = after_this;
            } else {
                self.left_alone.insert(span.device);
            }
            can_be
        });
        let left_alone = &self.left_alone;
        plan.pull.retain(|span| !left_alone.contains(&span.device));
        plan.push.retain(|span| !left_alone.contains(&span.device));
        plan.mend.retain(|device| !left_alone.contains(device));
    }

    /// Mends what the plan says; a series of which the hub says now this, now that,
    /// is left alone.
    fn mend_all(&mut self, devices: &[Uuid], hub: &Heads) -> Result<(), Trouble> {
        for device in devices {
            if self.mended.len() >= MOST_MENDS {
                self.left_alone.insert(*device);
                continue;
            }
            match self.mend(*device, hub) {
                Err(Trouble::Nonsense | Trouble::Forked(_)) => {
                    self.left_alone.insert(*device);
                }
                done => done?,
            }
        }
        Ok(())
    }

    fn carry_out(&mut self, plan: &Plan, mut hub: Heads) -> Result<Heads, Trouble> {
        self.tell()?;
        self.push(&plan.push, &mut hub)?;
        self.pull(&plan.pull)?;
        Ok(hub)
    }

    fn push(&mut self, spans: &[Span], hub: &mut Heads) -> Result<(), Trouble> {
        let mut left: Vec<Span> = spans.iter().rev().copied().collect();
        while !left.is_empty() {
            let page = next_page(self.book, &mut left, self.size)?;
            let changes = changes_in(&page);
            if changes == 0 {
                continue;
            }
            let Answer::Pushed(ends) = self.ask(&Ask::Push(page))? else {
                return Err(Trouble::Nonsense);
            };
            hub.extend(ends);
            self.progress.sent += changes as u64;
            self.tell()?;
        }
        Ok(())
    }

    fn pull(&mut self, spans: &[Span]) -> Result<(), Trouble> {
        let mut left: BTreeMap<Uuid, Span> =
            spans.iter().map(|span| (span.device, *span)).collect();
        while !left.is_empty() {
            let asked: Bounded<Span, _> = left.values().copied().collect();
            let Answer::Pulled(page) = self.ask(&Ask::Pull { spans: asked })? else {
                return Err(Trouble::Nonsense);
            };
            let page = self.what_was_asked(page, &mut left)?;
            if !page.is_empty() {
                self.book.take_in(&page)?;
            }
            left.retain(|device, span| span.after < span.to && !self.left_alone.contains(device));
            self.progress.received += changes_in(&page) as u64;
            self.mind_crumbs(&page, left.is_empty())?;
            self.tell()?;
        }
        Ok(())
    }

    /// The runs of a page that follow what is held. A series of which another run
    /// comes, or the one asked for first where nothing comes at all, is left alone.
    fn what_was_asked(
        &mut self,
        page: Page,
        left: &mut BTreeMap<Uuid, Span>,
    ) -> Result<Page, Trouble> {
        if !page_fits(&page) {
            return Err(Trouble::Nonsense);
        }
        if page.is_empty() {
            self.crumbs += 1;
            self.left_alone.extend(left.keys().next());
        }
        let mut runs = Vec::new();
        for run in page.into_vec() {
            match left.get_mut(&run.device) {
                Some(_) if self.left_alone.contains(&run.device) => {}
                Some(span) if run.after == span.after && run.last() <= span.to => {
                    span.after = run.last();
                    runs.push(run);
                }
                Some(_) => {
                    self.left_alone.insert(run.device);
                }
                None => return Err(Trouble::Nonsense),
            }
        }
        Ok(runs.into())
    }

    /// Gives up on a hub that hands out its changes crumb by crumb.
    fn mind_crumbs(&mut self, page: &Page, last: bool) -> Result<(), Trouble> {
        let bytes: usize = page.iter().map(Run::bytes).sum();
        if !last && changes_in(page) < CRUMB_CHANGES && bytes < CRUMB_BYTES {
            self.crumbs += 1;
        }
        if self.crumbs > MOST_CRUMBS {
            return Err(Trouble::HubFault);
        }
        Ok(())
    }

    /// Finds where this notebook and the hub part, and moves this notebook's
    /// branch to a series of its own. Its name follows from the content, so every
    /// notebook that holds the branch moves it to the same place.
    fn mend(&mut self, device: Uuid, hub: &Heads) -> Result<(), Trouble> {
        let mine = self.book.heads()?;
        let end = |heads: &Heads| heads.get(&device).map_or(0, |mark| mark.seq);
        // Equal up to `same`, different at `differs`.
        let (mut same, mut differs) = (0, end(&mine).min(end(hub)));
        if differs == 0 {
            return Err(Trouble::Nonsense);
        }
        while same + 1 < differs {
            let middle = same + (differs - same) / 2;
            if self.hub_tag(device, middle)? == self.own_tag(device, middle)? {
                same = middle;
            } else {
                differs = middle;
            }
        }
        let first = self.own_tag(device, differs)?;
        if self.hub_tag(device, differs)? == first {
            return Err(Trouble::Forked(device));
        }
        self.book
            .move_branch(device, differs, branch_id(device, differs, first))?;
        self.mended.push(device);
        Ok(())
    }

    fn own_tag(&mut self, device: Uuid, seq: u64) -> Result<Tag, Trouble> {
        self.book.tag(device, seq)?.ok_or(Trouble::Nonsense)
    }

    fn hub_tag(&mut self, device: Uuid, seq: u64) -> Result<Tag, Trouble> {
        let span = Span {
            device,
            after: seq - 1,
            to: seq,
        };
        match self.ask(&Ask::Tags(span))? {
            Answer::Tags(tags) => tags.first().copied().ok_or(Trouble::Nonsense),
            _ => Err(Trouble::Nonsense),
        }
    }
}

fn changes_in(page: &Page) -> usize {
    page.iter().map(|run| run.bodies.len()).sum()
}

/// The id under which a branch of a writer's series goes on: a UUIDv8 of where
/// it starts and what its first change is.
#[must_use]
pub fn branch_id(device: Uuid, from: u64, first: Tag) -> Uuid {
    let digest = Sha256::new_with_prefix(device.as_bytes())
        .chain_update(from.to_be_bytes())
        .chain_update(first.0)
        .finalize();
    let mut bytes = [0; 16];
    bytes.copy_from_slice(&digest[..16]);
    uuid::Builder::from_custom_bytes(bytes).into_uuid()
}

/// The next page of the spans that are left, the next one last in the list.
pub(crate) fn next_page(
    book: &mut dyn Book,
    left: &mut Vec<Span>,
    size: PageSize,
) -> Result<Page, Trouble> {
    let mut room = size;
    let mut runs: Vec<Run> = Vec::new();
    while let Some(span) = left.pop() {
        let bodies = book.read(span, room)?;
        if bodies.is_empty() {
            // Moved away meanwhile; the next look will tell.
            continue;
        }
        let bytes: usize = bodies.iter().map(|body| body.len()).sum();
        if bodies.iter().any(|body| body.len() > CHANGE_BYTES) {
            return Err(Trouble::Refused(Refusal::OutOfBounds));
        }
        if !runs.is_empty() && (bytes > room.bytes || bodies.len() > room.changes) {
            left.push(span);
            break;
        }
        let run = Run {
            device: span.device,
            after: span.after,
            bodies: bodies.into(),
        };
        room.bytes = room.bytes.saturating_sub(bytes);
        room.changes = room.changes.saturating_sub(run.bodies.len());
        let rest = Span {
            after: run.last(),
            ..span
        };
        let whole = rest.after >= span.to;
        runs.push(run);
        if !whole {
            left.push(rest);
            break;
        }
        if room.bytes == 0 || room.changes == 0 {
            break;
        }
    }
    Ok(runs.into())
}
