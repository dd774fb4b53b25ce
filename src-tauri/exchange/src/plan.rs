//! What two stores have to tell each other: a pure comparison of their heads.
//!
//! The cursor of an exchange is nothing but what is stored: for each writer the
//! end of the unbroken part of its series. Nothing else is remembered, so an
//! exchange that was cut anywhere is resumed by planning again.

use std::collections::BTreeSet;
use uuid::Uuid;
use wire::{Heads, Role, Span};

/// What has to be done, in this order.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Plan {
    /// Writers under whose numbers the two sides hold different content. Their
    /// series are left alone until that is mended.
    pub mend: Vec<Uuid>,
    /// Changes to give: own first, since they may exist nowhere else.
    pub push: Vec<Span>,
    /// Changes to fetch.
    pub pull: Vec<Span>,
    /// Changes that wait because the role does not allow giving them.
    pub held_back: u64,
}

impl Plan {
    /// Changes to give.
    #[must_use]
    pub fn to_send(&self) -> u64 {
        count(&self.push)
    }

    /// Changes to fetch.
    #[must_use]
    pub fn to_receive(&self) -> u64 {
        count(&self.pull)
    }
}

/// How many numbers spans hold.
#[must_use]
pub fn count(spans: &[Span]) -> u64 {
    spans
        .iter()
        .map(|span| span.to.saturating_sub(span.after))
        .fold(0, u64::saturating_add)
}

/// Compares what this notebook and the other side hold.
///
/// `own` is the writer whose changes go first, `forked` the writers known to differ.
#[must_use]
pub fn plan(mine: &Heads, theirs: &Heads, forked: &BTreeSet<Uuid>, own: Uuid, role: Role) -> Plan {
    let mut plan = Plan {
        mend: forked.iter().copied().collect(),
        ..Plan::default()
    };
    let end = |heads: &Heads, device: &Uuid| heads.get(device).map_or(0, |mark| mark.seq);
    for device in mine.keys().filter(|device| !forked.contains(device)) {
        let (after, to) = (end(theirs, device), end(mine, device));
        if after < to {
            plan.push.push(Span {
                device: *device,
                after,
                to,
            });
        }
    }
    plan.push
        .sort_by_key(|span| (span.device != own, span.device));
    if role < Role::Scout {
        plan.held_back = plan.to_send();
        plan.push.clear();
    }
    for device in theirs.keys().filter(|device| !forked.contains(device)) {
        let (after, to) = (end(mine, device), end(theirs, device));
        if after < to {
            plan.pull.push(Span {
                device: *device,
                after,
                to,
            });
        }
    }
    plan
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;
    use wire::{Mark, Tag};

    fn heads(ends: &[(u8, u64)]) -> Heads {
        ends.iter()
            .map(|(device, seq)| {
                let mark = Mark {
                    seq: *seq,
                    tag: Tag([*device; 8]),
                };
                (Uuid::from_bytes([*device; 16]), mark)
            })
            .collect()
    }

    fn planned(mine: &[(u8, u64)], theirs: &[(u8, u64)], role: Role) -> Plan {
        plan(
            &heads(mine),
            &heads(theirs),
            &BTreeSet::new(),
            Uuid::from_bytes([9; 16]),
            role,
        )
    }

    #[test]
    fn equal_stores_have_nothing_to_tell() {
        let both = [(1, 4), (2, 7)];
        assert_eq!(planned(&both, &both, Role::Scout), Plan::default());
    }

    #[test]
    fn own_changes_go_first() {
        let plan = planned(&[(1, 4), (9, 2)], &[], Role::Owner);
        assert_eq!(plan.push[0].device, Uuid::from_bytes([9; 16]));
        assert_eq!(plan.to_send(), 6);
    }

    #[test]
    fn a_reader_holds_its_changes_back() {
        let plan = planned(&[(9, 3)], &[(1, 1)], Role::Reader);
        assert!(plan.push.is_empty());
        assert_eq!((plan.held_back, plan.to_receive()), (3, 1));
    }

    #[test]
    fn a_forked_series_is_left_alone() {
        let one = Uuid::from_bytes([1; 16]);
        let forked = BTreeSet::from([one]);
        let plan = plan(
            &heads(&[(1, 5), (2, 1)]),
            &heads(&[(1, 3)]),
            &forked,
            one,
            Role::Scout,
        );
        assert_eq!(plan.mend, [one]);
        assert!(plan.push.iter().all(|span| span.device != one));
        assert_eq!(plan.to_send(), 1);
    }

    proptest! {
        /// Carrying a plan out makes both sides equal, and the next plan empty.
        #[test]
        fn a_plan_carried_out_leaves_nothing(
            mine in proptest::collection::btree_map(0_u8..6, 1_u64..50, 0..6),
            theirs in proptest::collection::btree_map(0_u8..6, 1_u64..50, 0..6),
        ) {
            let list = |map: &std::collections::BTreeMap<u8, u64>| map.iter().map(|(d, s)| (*d, *s)).collect::<Vec<_>>();
            let (mut mine, mut theirs) = (heads(&list(&mine)), heads(&list(&theirs)));
            let own = Uuid::from_bytes([0; 16]);
            let first = plan(&mine, &theirs, &BTreeSet::new(), own, Role::Scout);
            for span in &first.push {
                prop_assert_eq!(theirs.get(&span.device).map_or(0, |mark| mark.seq), span.after);
                theirs.insert(span.device, mine[&span.device]);
            }
            for span in &first.pull {
                prop_assert_eq!(mine.get(&span.device).map_or(0, |mark| mark.seq), span.after);
                mine.insert(span.device, theirs[&span.device]);
            }
            prop_assert_eq!(&mine, &theirs);
            prop_assert_eq!(plan(&mine, &theirs, &BTreeSet::new(), own, Role::Scout), Plan::default());
        }
    }
}
