//! The open connections: how many there may be, and which of them ends for a new one.
//!
//! A new connection always finds a place while there is one that nobody needs: first
//! those on which nothing was asked yet or nothing is being answered to a stranger, the
//! oldest of the network that holds most of them, then those on which a member rests.
//! A connection with a member's request in hand stays. So a thousand silent connections
//! keep nobody out.

use crate::network::Network;
use std::collections::{BTreeMap, HashMap};
use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use tokio::sync::Notify;

/// Most connections at once.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ConnectionLimits {
    /// Most altogether; some below what a process may hold open as a rule.
    pub all: usize,
    /// Most of one network; behind a proxy, whose network all are of, it does not hold.
    pub of_network: usize,
}

impl Default for ConnectionLimits {
    fn default() -> Self {
        Self {
            all: 800,
            of_network: 256,
        }
    }
}

/// What is known of a connection while it is open.
#[derive(Debug, Default)]
pub struct Standing {
    /// Requests in hand.
    in_hand: AtomicUsize,
    /// Whether the last request was a member's.
    member: AtomicBool,
    end: Notify,
}

/// How readily a connection is ended for a new one, the readiest first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Rank {
    Silent,
    Asking,
    MemberResting,
    MemberAsking,
}

impl Standing {
    /// Notes a request, until what is returned is dropped.
    pub fn asks(self: &Arc<Self>) -> InHand {
        self.in_hand.fetch_add(1, Ordering::Relaxed);
        self.member.store(false, Ordering::Relaxed);
        InHand(Arc::clone(self))
    }

    /// Notes that the request in hand is a member's.
    pub fn is_member(&self) {
        self.member.store(true, Ordering::Relaxed);
    }

    fn rank(&self) -> Rank {
        let asking = self.in_hand.load(Ordering::Relaxed) > 0;
        match (self.member.load(Ordering::Relaxed), asking) {
            (false, false) => Rank::Silent,
            (false, true) => Rank::Asking,
            (true, false) => Rank::MemberResting,
            (true, true) => Rank::MemberAsking,
        }
    }
}

/// A request in hand.
#[derive(Debug)]
pub struct InHand(Arc<Standing>);

impl Drop for InHand {
    fn drop(&mut self) {
        self.0.in_hand.fetch_sub(1, Ordering::Relaxed);
    }
}

/// The open connections of a hub.
#[derive(Debug, Clone)]
pub struct Connections(Arc<Mutex<Open>>);

#[derive(Debug)]
struct Open {
    limits: ConnectionLimits,
    /// Whether the limit of a network holds.
    by_network: bool,
    /// By age.
    entries: BTreeMap<u64, (Network, Arc<Standing>)>,
    networks: HashMap<Network, usize>,
    next: u64,
}

/// The place of one connection, until it is dropped.
#[derive(Debug)]
pub struct Place {
    open: Arc<Mutex<Open>>,
    id: u64,
    standing: Arc<Standing>,
}

impl Connections {
    /// None yet. `by_network` says whether the limit of one network holds.
    #[must_use]
    pub fn new(limits: ConnectionLimits, by_network: bool) -> Self {
        Self(Arc::new(Mutex::new(Open {
            limits,
            by_network,
            entries: BTreeMap::new(),
            networks: HashMap::new(),
            next: 0,
        })))
    }

    /// A place for a new connection, and whether another one was ended for it. None
    /// where every place is taken by a member who is being answered.
    #[must_use]
    pub fn enter(&self, network: Network) -> Option<(Place, bool)> {
        let mut open = lock(&self.0);
        let of_network = open.networks.get(&network).copied().unwrap_or(0);
        let mut ended = false;
        if open.by_network && of_network >= open.limits.of_network {
            ended = open.end_one(|other| other == network);
            if !ended {
                return None;
            }
        }
        if open.entries.len() >= open.limits.all {
            let largest = open.largest();
            ended = open.end_one(|other| Some(other) == largest) || open.end_one(|_| true);
            if !ended {
                return None;
            }
        }
        let id = open.next;
        open.next += 1;
        let standing = Arc::new(Standing::default());
        open.entries.insert(id, (network, Arc::clone(&standing)));
        *open.networks.entry(network).or_default() += 1;
        drop(open);
        let place = Place {
            open: Arc::clone(&self.0),
            id,
            standing,
        };
        Some((place, ended))
    }

    /// Ends one connection, where the system has no room for a new one.
    pub fn end_one(&self) -> bool {
        let mut open = lock(&self.0);
        let largest = open.largest();
        open.end_one(|other| Some(other) == largest) || open.end_one(|_| true)
    }
}

impl Open {
    /// The network with most connections that may be ended for a stranger's sake.
    fn largest(&self) -> Option<Network> {
        let mut counts: HashMap<Network, usize> = HashMap::new();
        for (network, standing) in self.entries.values() {
            if standing.rank() < Rank::MemberResting {
                *counts.entry(*network).or_default() += 1;
            }
        }
        counts
            .into_iter()
            .max_by_key(|(network, count)| (*count, *network))
            .map(|(network, _)| network)
    }

    /// Ends the one that is needed least among those of some networks.
    fn end_one(&mut self, of: impl Fn(Network) -> bool) -> bool {
        let least = self
            .entries
            .iter()
            .filter(|(_, (network, _))| of(*network))
            .map(|(id, (_, standing))| (standing.rank(), *id))
            .filter(|(rank, _)| *rank < Rank::MemberAsking)
            .min();
        let Some((_, id)) = least else {
            return false;
        };
        if let Some(standing) = self.leave(id) {
            standing.end.notify_one();
        }
        true
    }

    fn leave(&mut self, id: u64) -> Option<Arc<Standing>> {
        let (network, standing) = self.entries.remove(&id)?;
        if let Some(count) = self.networks.get_mut(&network) {
            *count -= 1;
            if *count == 0 {
                self.networks.remove(&network);
            }
        }
        Some(standing)
    }
}

fn lock(open: &Mutex<Open>) -> MutexGuard<'_, Open> {
    open.lock().unwrap_or_else(PoisonError::into_inner)
}

impl Place {
    /// What is known of the connection.
    #[must_use]
    pub fn standing(&self) -> Arc<Standing> {
        Arc::clone(&self.standing)
    }

    /// Waits until the connection is to end for a new one.
    pub async fn ended(&self) {
        self.standing.end.notified().await;
    }
}

impl Drop for Place {
    fn drop(&mut self) {
        lock(&self.open).leave(self.id);
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;
    use std::net::IpAddr;

    fn network(last: u8) -> Network {
        Network::from(IpAddr::from([192, 0, 2, last]))
    }

    fn ended(place: &Place) -> bool {
        let open = lock(&place.open);
        !open.entries.contains_key(&place.id)
    }

    #[test]
    fn the_silent_end_first_and_a_member_at_work_stays() {
        let limits = ConnectionLimits {
            all: 100,
            of_network: 3,
        };
        let connections = Connections::new(limits, true);
        let enter = || connections.enter(network(1)).unwrap().0;
        let (working, resting, silent) = (enter(), enter(), enter());
        let in_hand = working.standing().asks();
        working.standing().is_member();
        drop(resting.standing().asks());
        resting.standing().is_member();
        let second = enter();
        assert!(ended(&silent) && !ended(&resting) && !ended(&working));
        let _asking = second.standing().asks();
        let third = enter();
        assert!(ended(&second) && !ended(&resting));
        let _in_hand = third.standing().asks();
        third.standing().is_member();
        let _fourth = enter();
        assert!(ended(&resting) && !ended(&third) && !ended(&working));
        drop(in_hand);
    }

    #[test]
    fn one_network_gives_way_before_the_others() {
        let limits = ConnectionLimits {
            all: 10,
            of_network: 9,
        };
        let connections = Connections::new(limits, true);
        let first = connections.enter(network(9)).unwrap().0;
        let many: Vec<Place> = (0..9)
            .map(|_| connections.enter(network(1)).unwrap().0)
            .collect();
        let (_newcomer, made_room) = connections.enter(network(2)).unwrap();
        assert!(made_room && !ended(&first));
        assert!(ended(&many[0]) && !ended(&many[1]));
        drop(many);
        assert_eq!(lock(&connections.0).entries.len(), 2);
        assert_eq!(lock(&connections.0).networks.len(), 2);
    }

    #[test]
    fn where_all_are_at_work_a_new_one_waits_outside() {
        let limits = ConnectionLimits {
            all: 2,
            of_network: 2,
        };
        let connections = Connections::new(limits, true);
        let places: Vec<_> = (0..2)
            .map(|_| {
                let place = connections.enter(network(1)).unwrap().0;
                let in_hand = place.standing().asks();
                place.standing().is_member();
                (place, in_hand)
            })
            .collect();
        assert!(connections.enter(network(1)).is_none());
        assert!(connections.enter(network(2)).is_none());
        drop(places);
        assert!(connections.enter(network(2)).is_some());
    }
}
