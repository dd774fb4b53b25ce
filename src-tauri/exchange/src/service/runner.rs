//! The exchange's thread, and what it shares with the requests.

use super::answer::{CrewState, Running, SeriesLeftAlone, Step, Waiting};
use super::gate::Gate;
use super::problem::CrewProblem;
use super::schedule::{Next, Outcome, Situation};
use super::watched::{Counted, Watched};
use super::{CrewProblemCode, Opener};
use crate::crew::{Seat, State, Tokens};
use crate::file::{self, Taken};
use crate::meet::{Progress, meet};
use crate::photos::Photos;
use crate::trouble::{PageSize, Trouble};
use service::Changed;
use std::collections::{BTreeMap, BTreeSet};
use std::io::Read;
use std::ops::ControlFlow;
use std::sync::{Condvar, Mutex, MutexGuard, PoisonError};
use std::time::{Duration, SystemTime};
use wire::Role;
use wire::code;

/// Longest sleep: another program may have changed the notebook meanwhile.
const LONGEST_SLEEP: i64 = 60_000;
/// Asked for again within this time, a state is no new look.
const SAME_LOOK: i64 = 30_000;

/// Milliseconds since 1970.
pub(super) fn now_ms() -> i64 {
    SystemTime::now()
        .duration_since(SystemTime::UNIX_EPOCH)
        .map_or(0, |since| {
            i64::try_from(since.as_millis()).unwrap_or(i64::MAX)
        })
}

pub(super) struct Shared {
    pub(super) open: Opener,
    pub(super) tokens: Box<dyn Tokens>,
    pub(super) gate: Gate,
    inner: Mutex<Inner>,
    wake: Condvar,
}

#[derive(Default)]
struct Inner {
    told: Situation,
    running: Option<Running>,
    stop: bool,
    end: bool,
    trouble: Option<CrewProblem>,
    next_at: Option<i64>,
    /// Counts the pages that changed something here.
    turn: u64,
    /// The turn in which each thing was last changed.
    changed: BTreeMap<Changed, u64>,
}

impl Shared {
    pub(super) fn new(open: Opener, tokens: Box<dyn Tokens>) -> Self {
        Self {
            open,
            tokens,
            gate: Gate::default(),
            inner: Mutex::default(),
            wake: Condvar::new(),
        }
    }

    fn inner(&self) -> MutexGuard<'_, Inner> {
        self.inner.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// Tells the thread something.
    pub(super) fn tell(&self, what: impl FnOnce(&mut Situation)) {
        what(&mut self.inner().told);
        self.wake.notify_all();
    }

    /// A crew was joined or left.
    pub(super) fn begin_anew(&self) {
        let mut inner = self.inner();
        inner.told.begin_anew();
        inner.trouble = None;
        self.wake.notify_all();
    }

    /// Somebody pressed the button: from now on the exchange counts as running.
    pub(super) fn ask(&self) {
        let mut inner = self.inner();
        inner.told.asked = true;
        inner.running.get_or_insert_default();
        self.wake.notify_all();
    }

    /// Stops the exchange that runs, or is about to.
    pub(super) fn stop(&self) {
        let mut inner = self.inner();
        inner.stop = inner.running.is_some();
    }

    pub(super) fn end(&self) {
        let mut inner = self.inner();
        (inner.stop, inner.end) = (true, true);
        self.wake.notify_all();
    }

    /// Where this device stands, and what changed since a turn.
    pub(super) fn state(&self, since: Option<u64>) -> Result<(CrewState, Vec<Changed>), Trouble> {
        let (state, left_series) = self.look()?;
        let State {
            member,
            last,
            waiting,
            waiting_heads,
            waiting_photos,
            left_alone: _,
            moved,
            moved_why,
        } = state;
        let mut inner = self.inner();
        let now = now_ms();
        let before = inner.told.looked_at.replace(now);
        if before.is_none_or(|before| before + SAME_LOOK < now) {
            self.wake.notify_all();
        }
        let changed = match since {
            // Of an earlier start of the program: everything may have changed.
            Some(since) if since > inner.turn => Vec::new(),
            Some(since) => inner
                .changed
                .iter()
                .filter(|(_, turn)| **turn > since)
                .map(|(changed, _)| *changed)
                .collect(),
            None => Vec::new(),
        };
        let state = CrewState {
            member,
            last,
            waiting: Waiting {
                changes: waiting,
                heads: waiting_heads,
                photos: waiting_photos,
            },
            left_alone: left_series,
            moved,
            moved_why,
            running: inner.running,
            trouble: inner.trouble.clone(),
            next_at: inner.next_at,
            turn: inner.turn,
        };
        Ok((state, changed))
    }

    /// Opened for the look alone: a notebook that is held open cannot be salvaged.
    fn look(&self) -> Result<(State, Vec<SeriesLeftAlone>), Trouble> {
        let mut notebook = (self.open)()?;
        let state = Seat {
            notebook: &mut notebook,
            tokens: self.tokens.as_ref(),
        }
        .state()?;
        let left_alone = SeriesLeftAlone::list(&state.left_alone, &notebook)?;
        Ok((state, left_alone))
    }

    /// Notes what a page changed.
    pub(super) fn note_changed(&self, changed: &[Changed]) {
        if changed.is_empty() {
            return;
        }
        let mut inner = self.inner();
        inner.turn += 1;
        let turn = inner.turn;
        inner
            .changed
            .extend(changed.iter().map(|each| (*each, turn)));
    }

    /// Takes in a file of another phone.
    pub(super) fn take_in_file(
        &self,
        from: &mut dyn Read,
    ) -> Result<(Taken, Vec<SeriesLeftAlone>, Vec<Changed>), Trouble> {
        let mut notebook = (self.open)()?;
        let crew = Seat {
            notebook: &mut notebook,
            tokens: self.tokens.as_ref(),
        }
        .crew()?;
        let mut watched = Watched::new(&mut notebook, self);
        let taken = file::read(&mut watched, crew, from)?;
        let changed: BTreeSet<Changed> = watched.into_changed();
        // What came may be new to the hub, too.
        if taken.new > 0 {
            self.tell(|told| told.last_change = Some(now_ms()));
        }
        let left_alone = SeriesLeftAlone::list(&taken.left_alone, &notebook)?;
        Ok((taken, left_alone, changed.into_iter().collect()))
    }

    /// Sleeps until it is time to exchange; false at the end of all.
    fn wait(&self) -> bool {
        loop {
            let (in_crew, waits) = match self.look() {
                // What a reader records stays; only a look can bring anything.
                Ok((state, _)) => match state.member {
                    Some(member) if member.role == Role::Reader => (true, None),
                    Some(_) => (true, Some(state.waiting + state.waiting_photos > 0)),
                    None => (false, None),
                },
                Err(_) => (false, None),
            };
            let mut inner = self.inner();
            if inner.end {
                return false;
            }
            // A tap since the look above counts.
            let waits = waits.is_some_and(|waits| waits || inner.told.first_change.is_some());
            let now = now_ms();
            let sleep = match inner.told.next(in_crew, waits) {
                Next::At(at) if at <= now => {
                    inner.next_at = None;
                    return true;
                }
                Next::At(at) => {
                    inner.next_at = Some(at);
                    (at - now).min(LONGEST_SLEEP)
                }
                Next::Never => {
                    inner.next_at = None;
                    if inner.told.asked {
                        // It has left the crew meanwhile.
                        (inner.told.asked, inner.running, inner.stop) = (false, None, false);
                    }
                    LONGEST_SLEEP
                }
            };
            let sleep = Duration::from_millis(sleep.unsigned_abs());
            drop(self.wake.wait_timeout(inner, sleep));
        }
    }

    fn exchange(&self) -> Result<(), Trouble> {
        let mut notebook = (self.open)()?;
        let tokens = self.tokens.as_ref();
        let mut seat = Seat {
            notebook: &mut notebook,
            tokens,
        };
        let waiting = seat.state()?;
        let mut way = Counted::new(seat.way()?);
        let heads_sent = way.heads();
        let mut running = Running {
            photos: step(0, waiting.waiting_photos),
            ..Running::default()
        };
        let mut report = |now: Progress| {
            running = Running {
                sent: step(now.sent, now.to_send),
                heads_sent: step(heads_sent.get(), waiting.waiting_heads),
                received: step(now.received, now.to_receive),
                photos: running.photos,
            };
            self.show(running)
        };
        self.gate.wait_for_quiet();
        let met = meet(
            &mut Watched::new(seat.notebook, self),
            &mut way,
            PageSize::default(),
            &mut report,
        );
        seat.note(met)?;
        // Only now: a photo never delays an observation.
        let mut fetched = 0;
        let mut report = |now: Photos| {
            if now.fetched > fetched {
                fetched = now.fetched;
                self.note_changed(&[Changed::Photos]);
            }
            running.photos = step(now.done(), now.all());
            self.show(running)
        };
        seat.exchange_photos(&|| self.gate.wait_for_quiet(), &mut report)?;
        Ok(())
    }

    /// Shows how far the exchange is; breaks it off where somebody asked for that.
    fn show(&self, running: Running) -> ControlFlow<()> {
        let mut inner = self.inner();
        inner.running = Some(running);
        if inner.stop {
            ControlFlow::Break(())
        } else {
            ControlFlow::Continue(())
        }
    }
}

/// The thread's whole life.
pub(super) fn run(shared: &Shared) {
    while shared.wait() {
        shared.inner().running = Some(Running::default());
        let outcome = shared.exchange();
        let chance = code::random::<4>().map_or(0.5, |bytes| {
            f64::from(u32::from_le_bytes(bytes)) / f64::from(u32::MAX)
        });
        let mut inner = shared.inner();
        (inner.running, inner.stop) = (None, inner.end);
        let (trouble, how) = match outcome {
            Ok(()) => (None, Outcome::Done),
            Err(trouble) => {
                let problem = CrewProblem::from(trouble);
                let how = how(problem.code);
                (Some(problem), how)
            }
        };
        inner.trouble = trouble;
        inner.told.tried(now_ms(), how, chance);
    }
}

/// A portal that answers in the hub's place looks like a hub that does not know
/// this phone: most trouble is worth another try.
fn how(code: CrewProblemCode) -> Outcome {
    match code {
        CrewProblemCode::Removed
        | CrewProblemCode::NoToken
        | CrewProblemCode::NoCrew
        | CrewProblemCode::HubVersion => Outcome::Halted,
        CrewProblemCode::Stopped => Outcome::Rest,
        _ => Outcome::Later,
    }
}

fn step(done: u64, all: u64) -> Step {
    Step {
        done,
        all: all.max(done),
    }
}
