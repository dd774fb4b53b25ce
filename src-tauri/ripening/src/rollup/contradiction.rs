//! A walk that does not fit the planting's history.

use super::{Prior, RollUp};

/// Below this probability that the history applies, a walk contradicts it.
const ALARM: f64 = 0.5;

/// Today's heads do not fit what earlier walks and heat led to expect: another
/// planting's heads, hail, a mix-up of hybrids, a wrong date. The heads alone
/// are then the answer; the history must not be averaged in.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Contradiction {
    /// Probability, after today's heads, that the history applies, 0-1.
    pub history_applies: f64,
    /// How far the heads' middle is ahead of what was expected (behind if
    /// negative), in heat units.
    pub ahead: f64,
}

/// How surprising today's heads are under the history; `None` when they fit.
///
/// Two accounts of the heads are weighed by Bayes' rule: the history as moved
/// forward, and a planting of which nothing is known; the second has the small
/// prior probability that the history was given when it was moved.
pub fn contradiction(heads_alone: &RollUp, history: &Prior) -> Option<Contradiction> {
    if heads_alone.heads() == 0 || !history.has_history() {
        return None;
    }
    let alone = heads_alone.under(&history.weakened(0.0));
    let trusted = heads_alone.under(&history.weakened(1.0));
    let prior = history.trust.clamp(0.001, 0.999);
    let odds = libm::log(prior / (1.0 - prior)) + trusted.log_evidence - alone.log_evidence;
    let history_applies = 1.0 / (1.0 + libm::exp(-odds.clamp(-700.0, 700.0)));
    if history_applies >= ALARM {
        return None;
    }
    let expected = RollUp::new(history.weakened(1.0)).posterior();
    Some(Contradiction {
        history_applies,
        ahead: alone.middle() - expected.middle(),
    })
}
