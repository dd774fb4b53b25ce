//! The roll-up: from a few heads at a few stops to the whole planting, with
//! bands that hold their level.
//!
//! # The model
//! Ages are in heat units since bloom ([`marks`]). The age of head `j` at stop
//! `i` is `mean + stop[i] + head[i,j] - late[i,j] * lag`:
//! - `mean`: flat from before boot to past ripeness;
//! - `stop[i] ~ Normal(0, S)`, `log S ~ Normal(log 40, 0.6)`;
//! - `head[i,j] ~ Normal(0, H)`, `log H ~ Normal(log 80, 0.4)`;
//! - `late[i,j]`: with prior probability 1/3 no head is late; otherwise a share
//!   `w` of the planting's heads (0.17, 0.31 or 0.45) is late by a `lag` of 120, 216
//!   or 312 units, all but `w = 0.17` with 120 and equally likely (tillers, a second
//!   flush), each head by a lag of its own: normal around it, standard deviation
//!   `L = 45`. They come in patches: at a stop the share is `0.8 w` or `1.2 w`, each
//!   as likely.
//!
//! A reading and its share measure that age with the errors of
//! [`reading_error`]; the span of the planting's heads is 120, 168 or 224 units
//! (prior 0.3, 0.4, 0.3).
//!
//! With `A = sqrt(S^2 + H^2)`, the share of heads past a mark `T` is
//! `(1 - w) Phi((mean - T) / A) + w Phi((mean - lag - T) / sqrt(A^2 + L^2))`; the
//! share of grain is the same averaged over the span. Both are functions of the unknowns,
//! and the bands are their posterior quantiles. They speak of the whole
//! planting, not of the heads read. A band of level 0.9 leaves 0.05 beyond either
//! end, but less beyond the upper end where the stage has most likely hardly begun
//! (and beyond the lower where it is all but over): 0.05 times the probability
//! that more than 5 (fewer than 95) of 100 heads have reached it, at least 0.02.
//! All of a central band's error there falls on the few fields in which the stage
//! is under way, and these are the ones that matter. The chance of a stage is the posterior
//! probability that it is the latest one reached by at least half of the heads;
//! the position is that of the middle head (the median age) on the published
//! scale.
//!
//! # How it is computed
//! By quadrature over `mean` (steps of 12 units), `S` (6 points, 0.7 apart in the
//! logarithm) and `H` (6 points, 0.38 apart); walks of more than 64 heads or 12
//! stops get finer steps around where these put the spreads. Values of `A` within
//! one twentieth of each other are answered at their posterior mean. Each stop is
//! integrated over its own effect, kept, and multiplied into the whole, so that
//! a tap recomputes one stop. Nothing is random, the elementary functions come
//! from `libm`, and stops are multiplied in an order that depends on their
//! content only: the order of entry changes no bit.
//!
//! # From walk to walk
//! [`Posterior::forward`] moves the joint posterior by the heat received and
//! makes it the prior of the next walk, with a process noise of 8 % of that heat (14
//! units at least), one twentieth of each share of late heads given to the shares
//! beside it, and one part in twenty kept for "this history does not apply": heads that contradict it pull the answer to
//! themselves, and [`contradiction()`] says so. [`Prior::weakened`] with 0 gives
//! heads alone.

mod advice;
mod answer;
mod contradiction;
mod gained;
mod grid;
mod heat_from_weather;
mod history;
mod layer;
mod likelihoods;
pub mod marks;
mod nodes;
pub(crate) mod normal;
mod population;
mod posterior;
mod prior;
pub mod reading_error;
mod roll_up;
mod smoothing;
mod stop;

pub use advice::{FEWEST_STOPS, Target, WalkingCost};
pub use contradiction::{Contradiction, contradiction};
pub use gained::gained;
pub use posterior::Posterior;
pub use prior::{HeatMoved, PROCESS_NOISE, Prior};
pub use roll_up::{RollUp, roll_up};
