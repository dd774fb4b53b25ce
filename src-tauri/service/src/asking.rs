//! What may be asked: a type for each request, which names its answer.
//!
//! Each domain declares its requests in its `ask` module with [`asks`]; what the
//! faces send, and what they are sent, is made of all of them in `request`.

use serde::{Deserialize, Serialize};
use uuid::Uuid;

use crate::{Problem, Service};

/// A request, with the answer that belongs to it.
///
/// Those that change something say so in their doc; their reply lists what changed,
/// so that a screen redraws only that.
///
/// A caller may choose the id of a new thing (UUIDv7). Sending the same request again
/// with the same id then changes nothing and gives the same answer, so a retry after a
/// lost reply never stores a head twice.
pub trait Ask {
    /// What is answered.
    type Answer;

    /// How soon.
    const PACE: Pace;
}

/// A request that an open notebook's service carries out. The few others are carried out
/// by whoever keeps the service: they open the notebook, or may not wait for it.
pub trait AskService: Ask {
    /// Carries it out.
    ///
    /// # Errors
    /// A [`Problem`]; nothing was stored then.
    fn carry_out(self, service: &mut Service) -> Result<Reply<Self::Answer>, Problem>;
}

/// How soon an answer must come.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Pace {
    /// At once: a change, or a question about the walk in hand. Carried out in order.
    Tap,
    /// A question about walks that are over.
    List,
    /// A question about a season ahead, a whole file or the whole notebook, that may
    /// need seconds. Taps come in between the lots of a file that is stored.
    Study,
    /// A question about the days ahead of every planting: the longest, and asked
    /// before anybody waits for it.
    Round,
}

/// An answer, and everything that the request changed.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Reply<A> {
    /// The answer.
    pub answer: A,
    /// What changed, so that a screen redraws only that.
    pub changed: Vec<Changed>,
}

impl<A> Reply<A> {
    /// The reply with another answer.
    pub fn map<B>(self, to: impl FnOnce(A) -> B) -> Reply<B> {
        Reply {
            answer: to(self.answer),
            changed: self.changed,
        }
    }
}

/// An answer to a request that changed nothing.
pub(crate) fn read_only<A>(answer: A) -> Reply<A> {
    Reply {
        answer,
        changed: Vec::new(),
    }
}

/// The answer where there is nothing to say but that it was done.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS), ts(type = "object"))]
pub struct Done {}

/// A thing that changed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
#[serde(tag = "kind", content = "id", rename_all = "snake_case")]
pub enum Changed {
    /// A planting, or what its row shows.
    Planting(Uuid),
    /// A walk: its stops, heads or answer.
    Walk(Uuid),
    /// Names in the pickers.
    Names,
    /// Photos: which there are, or what is said of them.
    Photos,
    /// Stations or their weather, and every outlook with them.
    Weather,
    /// Terms that harvests are weighed by.
    Terms,
    /// Heat sets, or which of them counts, and every outlook with them.
    HeatSets,
    /// Settings of this device.
    Settings,
}

/// Declares requests: pace, name, fields, answer, and how the service carries it out; not
/// that where it is not for the service.
macro_rules! asks {
    ($(
        $(#[$about:meta])*
        $pace:ident $Name:ident $({ $($fields:tt)* })? -> $Answer:ty
            $(= |$service:ident| $work:expr)?;
    )*) => { $(
        $crate::asking::input! { $(#[$about])* $Name $({ $($fields)* })? }

        impl $crate::asking::Ask for $Name {
            type Answer = $Answer;

            const PACE: $crate::asking::Pace = $crate::asking::Pace::$pace;
        }

        $crate::asking::carried_out! {
            $Name { $($($fields)*)? } $Answer $(, $service, $work)?
        }
    )* };
}

/// The type of a request.
macro_rules! input {
    ($(#[$about:meta])* $Name:ident) => {
        $(#[$about])*
        #[derive(Debug, Clone, PartialEq, serde::Serialize, serde::Deserialize)]
        #[cfg_attr(feature = "ts", derive(ts_rs::TS), ts(type = "object"))]
        pub struct $Name {}
    };
    ($(#[$about:meta])* $Name:ident {
        $($(#[$of:meta])* $field:ident: $Type:ty,)*
    }) => {
        $(#[$about])*
        #[derive(Debug, Clone, PartialEq, serde::Serialize, serde::Deserialize)]
        #[cfg_attr(feature = "ts", derive(ts_rs::TS), ts(optional_fields = nullable))]
        pub struct $Name {
            $($(#[$of])* pub $field: $Type,)*
        }
    };
}

/// How a request is carried out.
macro_rules! carried_out {
    ($Name:ident { $($fields:tt)* } $Answer:ty) => {};
    ($Name:ident {
        $($(#[$of:meta])* $field:ident: $Type:ty,)*
    } $Answer:ty, $service:ident, $work:expr) => {
        impl $crate::asking::AskService for $Name {
            fn carry_out(
                self,
                $service: &mut $crate::Service,
            ) -> Result<$crate::asking::Reply<$Answer>, $crate::Problem> {
                let Self { $($field),* } = self;
                $work
            }
        }
    };
}

pub(crate) use {asks, carried_out, input};
