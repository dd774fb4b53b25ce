//! Which changes of a damaged log can be trusted.
//!
//! Each change carries the digest of its series up to itself, so a change proves
//! itself and the one before it. What was read may be altered, may lack its
//! neighbors, and may have come from several places (the file, its loose pages,
//! a backup) that do not agree.

use std::collections::BTreeMap;

use uuid::Uuid;

use crate::log::{Change, Digest, Head};

/// A change as it was read somewhere, and the digest that stood beside it.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Read {
    pub change: Change,
    pub received_ms: i64,
    pub digest: Digest,
    pub from_backup: bool,
}

/// What became of one series.
#[derive(Debug, Default)]
pub(crate) struct Series {
    /// The changes to keep, in order, each with whether it is proved.
    pub kept: Vec<(Read, bool)>,
    /// Numbers of those that are lost.
    pub lost: Vec<u64>,
}

/// Digests that a series may have had at one number.
const OPTIONS: usize = 8;

/// Chooses, for each number of a series, the reading that proves itself. `head`
/// is where the series ended, if that could be read.
pub(crate) fn choose(found: &BTreeMap<u64, Vec<Read>>, head: Option<&Head>) -> Series {
    let last = found.keys().next_back().copied().unwrap_or(0);
    let end = last.max(head.map_or(0, |head| head.seq));
    let mut options: BTreeMap<u64, Vec<Digest>> = BTreeMap::new();
    let mut series = Series::default();
    // A reading that its own digest does not prove may be proved by the next one.
    let mut in_doubt: Option<(Read, Vec<Digest>)> = None;
    let none = Vec::new();
    for seq in 1..=end {
        let readings = found.get(&seq).unwrap_or(&none);
        let before: Vec<Option<Digest>> = if seq == 1 {
            vec![None]
        } else {
            options
                .get(&(seq - 1))
                .map_or_else(Vec::new, |known| known.iter().copied().map(Some).collect())
        };
        let reckoned = |read: &Read| -> Vec<Digest> {
            before
                .iter()
                .map(|before| read.change.digest(before.as_ref()))
                .collect()
        };
        let proved = readings
            .iter()
            .find(|read| reckoned(read).contains(&read.digest));
        let proves_before = |doubted: &[Digest]| {
            readings.iter().any(|read| {
                doubted
                    .iter()
                    .any(|before| read.change.digest(Some(before)) == read.digest)
            })
        };
        if let Some((doubted, digests)) = in_doubt.take() {
            settle(&mut series, doubted, seq - 1, proves_before(&digests));
        }
        let mut here: Vec<Digest> = Vec::new();
        for read in readings {
            for digest in std::iter::once(read.digest).chain(reckoned(read)) {
                if here.len() < OPTIONS && !here.contains(&digest) {
                    here.push(digest);
                }
            }
        }
        if let Some(head) = head.filter(|head| head.seq == seq)
            && !here.contains(&head.digest)
        {
            here.push(head.digest);
        }
        if let Some(read) = proved {
            series.kept.push((read.clone(), true));
        } else if let Some(read) = readings.first() {
            if before.is_empty() {
                // Nothing is left to prove it by.
                series.kept.push((read.clone(), false));
            } else {
                let digests = reckoned(read);
                let at_end =
                    head.is_some_and(|head| head.seq == seq && digests.contains(&head.digest));
                if at_end {
                    series.kept.push((read.clone(), true));
                } else {
                    in_doubt = Some((read.clone(), digests));
                }
            }
        } else {
            series.lost.push(seq);
        }
        options.insert(seq, here);
        options.remove(&seq.saturating_sub(2));
    }
    if let Some((doubted, _)) = in_doubt {
        settle(&mut series, doubted, end, false);
    }
    series
}

fn settle(series: &mut Series, doubted: Read, seq: u64, proved: bool) {
    if proved {
        series.kept.push((doubted, true));
    } else {
        series.lost.push(seq);
    }
}

/// What was read, by device and number.
#[derive(Debug, Default)]
pub(crate) struct Found(pub BTreeMap<Uuid, BTreeMap<u64, Vec<Read>>>);

impl Found {
    /// Adds a reading, unless the same was read before or it cannot be a change.
    pub(crate) fn add(&mut self, read: Read) {
        if read.change.fault().is_some() {
            return;
        }
        let at = self
            .0
            .entry(read.change.device)
            .or_default()
            .entry(read.change.seq)
            .or_default();
        let known = at
            .iter()
            .any(|known| known.change == read.change && known.digest == read.digest);
        if !known && at.len() < OPTIONS {
            at.push(read);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::log::Hlc;

    fn series(length: u64) -> Vec<Read> {
        let mut before: Option<Digest> = None;
        (1..=length)
            .map(|seq| {
                let change = Change {
                    device: Uuid::from_u128(7),
                    seq,
                    hlc: Hlc::ZERO.next(i64::try_from(seq).unwrap()),
                    recorded_ms: 1,
                    offset_min: 0,
                    kind: "head_read".to_owned(),
                    body: format!("{{\"facts\":[{seq}]}}"),
                    raw: None,
                };
                let digest = change.digest(before.as_ref());
                before = Some(digest);
                Read {
                    change,
                    received_ms: 2,
                    digest,
                    from_backup: false,
                }
            })
            .collect()
    }

    fn chosen(reads: &[Read], head: Option<&Read>) -> (Vec<u64>, Vec<u64>, Vec<u64>) {
        let mut found = Found::default();
        for read in reads {
            found.add(read.clone());
        }
        let head = head.map(|read| Head {
            seq: read.change.seq,
            digest: read.digest,
        });
        let series = choose(&found.0[&Uuid::from_u128(7)], head.as_ref());
        let numbers = |proved: bool| {
            series
                .kept
                .iter()
                .filter(|(_, known)| *known == proved)
                .map(|(read, _)| read.change.seq)
                .collect()
        };
        (numbers(true), numbers(false), series.lost)
    }

    #[test]
    fn a_whole_series_is_kept() {
        let reads = series(5);
        assert_eq!(
            chosen(&reads, reads.last()),
            (vec![1, 2, 3, 4, 5], vec![], vec![])
        );
    }

    #[test]
    fn an_altered_change_is_lost_and_its_neighbors_are_not() {
        for altered in 0..5 {
            let good = series(5);
            let mut reads = good.clone();
            reads[altered].change.body = "{\"facts\":[99]}".to_owned();
            let (proved, unproved, lost) = chosen(&reads, good.last());
            assert_eq!(lost, vec![altered as u64 + 1]);
            assert_eq!(proved.len(), 4);
            assert!(unproved.is_empty());
            // With a backup's reading beside it, none is.
            reads.push(good[altered].clone());
            assert!(chosen(&reads, good.last()).2.is_empty());
        }
    }

    #[test]
    fn an_altered_digest_costs_nothing() {
        for altered in 0..5 {
            let good = series(5);
            let mut reads = good.clone();
            reads[altered].digest[3] ^= 1;
            let (proved, _, lost) = chosen(&reads, good.last());
            assert_eq!((proved.len(), lost), (5, vec![]), "digest {altered}");
        }
    }

    #[test]
    fn after_a_gap_the_first_cannot_be_proved_and_the_others_can() {
        let mut reads = series(6);
        let end = reads[5].clone();
        reads.remove(2);
        assert_eq!(
            chosen(&reads, Some(&end)),
            (vec![1, 2, 5, 6], vec![4], vec![3])
        );
    }

    #[test]
    fn a_lost_end_is_known_by_the_head() {
        let reads = series(6);
        assert_eq!(
            chosen(&reads[..4], Some(&reads[5])),
            (vec![1, 2, 3, 4], vec![], vec![5, 6])
        );
        assert_eq!(chosen(&reads[..4], None).2, Vec::<u64>::new());
    }
}
