//! How much one membership may store, judged in one place for every kind of store.
//!
//! | what | reader | scout | owner |
//! | --- | --- | --- | --- |
//! | series begun | 0 | 16 | 1,024 |
//! | bytes of changes | 0 | 256 MB | 4 GB |
//! | bytes of photos | 0 | 4 GB | 16 GB |
//!
//! A change counts 64 bytes more than it has, for its row. An owner's phone may have
//! to bring a whole crew to a new hub, and whoever holds it can invite anybody, so
//! its quota only keeps a mistake small. The operator may multiply all of them.
//!
//! The crew as a whole begins [`CREW_SERIES`] series, those of removed memberships
//! not counted. Past that, a membership still begins its first [`FIRST_SERIES`], up
//! to [`LISTED_SERIES`] in all, which is as many as a list on the wire holds. So
//! neither one member nor what an earlier one left behind keeps a newcomer out.

use wire::{CREW_SERIES, Full, LISTED_SERIES, Refusal, Role};

/// Series that a membership may begin in a crew whose room is used up.
pub const FIRST_SERIES: u64 = 4;
/// What a change counts beside its own bytes.
const ROW_BYTES: u64 = 64;
const MB: u64 = 1024 * 1024;

/// Most that one membership may store.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Quota {
    /// Most series that it may begin.
    pub series: u64,
    /// Most bytes of changes, each with the bytes of its row.
    pub change_bytes: u64,
    /// Most bytes of photos that it began to send.
    pub photo_bytes: u64,
}

/// The quotas of a hub, by role.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Quotas {
    /// The quota of a scout's phone.
    pub scout: Quota,
    /// The quota of an owner's phone.
    pub owner: Quota,
}

impl Default for Quotas {
    fn default() -> Self {
        Self {
            scout: Quota {
                series: 16,
                change_bytes: 256 * MB,
                photo_bytes: 4_096 * MB,
            },
            owner: Quota {
                series: 1_024,
                change_bytes: 4_096 * MB,
                photo_bytes: 16_384 * MB,
            },
        }
    }
}

impl Quotas {
    /// The same quotas, so many times as large.
    #[must_use]
    pub fn times(self, many: u32) -> Self {
        let larger = |quota: Quota| Quota {
            series: quota.series.saturating_mul(many.into()),
            change_bytes: quota.change_bytes.saturating_mul(many.into()),
            photo_bytes: quota.photo_bytes.saturating_mul(many.into()),
        };
        Self {
            scout: larger(self.scout),
            owner: larger(self.owner),
        }
    }

    /// The quota of a membership with this role.
    #[must_use]
    pub fn of(&self, role: Role) -> Quota {
        match role {
            Role::Reader => Quota {
                series: 0,
                change_bytes: 0,
                photo_bytes: 0,
            },
            Role::Scout => self.scout,
            Role::Owner => self.owner,
        }
    }
}

/// Series of a crew at the moment at which another one is begun.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct CrewRoom {
    /// All of them.
    pub all: u64,
    /// Those among them that were begun by memberships which are not removed.
    pub counted: u64,
}

/// What a membership stores with one page.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Tally {
    quota: Quota,
    series: u64,
    change_bytes: u64,
    began: (u64, u64),
}

impl Tally {
    /// A tally for a membership that has begun so many series and stored so many
    /// bytes of changes.
    #[must_use]
    pub fn new(quota: Quota, series: u64, change_bytes: u64) -> Self {
        Self {
            quota,
            series,
            change_bytes,
            began: (series, change_bytes),
        }
    }

    /// Counts a series that is begun in a crew with this room.
    ///
    /// # Errors
    /// [`Full::Series`] where the membership has begun as many as it may,
    /// [`Full::Crew`] where the crew has.
    pub fn begin_series(&mut self, crew: CrewRoom) -> Result<(), Refusal> {
        if self.series >= self.quota.series {
            return Err(Refusal::Full(Full::Series));
        }
        let most = if self.series < FIRST_SERIES {
            crew.all < LISTED_SERIES as u64
        } else {
            crew.counted < CREW_SERIES as u64 && crew.all < LISTED_SERIES as u64
        };
        if !most {
            return Err(Refusal::Full(Full::Crew));
        }
        self.series += 1;
        Ok(())
    }

    /// Counts new changes.
    ///
    /// # Errors
    /// [`Full::Changes`] where they are more than the membership may store.
    pub fn store<B: AsRef<[u8]>>(&mut self, bodies: &[B]) -> Result<(), Refusal> {
        let bytes: u64 = bodies
            .iter()
            .map(|body| body.as_ref().len() as u64 + ROW_BYTES)
            .sum();
        self.change_bytes = self.change_bytes.saturating_add(bytes);
        if self.change_bytes > self.quota.change_bytes {
            return Err(Refusal::Full(Full::Changes));
        }
        Ok(())
    }

    /// Series begun and bytes stored by the membership now, where the page has
    /// brought anything new.
    #[must_use]
    pub fn grown(&self) -> Option<(u64, u64)> {
        let now = (self.series, self.change_bytes);
        (now != self.began).then_some(now)
    }
}

/// Whether a membership that has begun photos of so many bytes may begin one more.
///
/// # Errors
/// [`Full::Photos`] where it may not.
pub fn begin_photo(quota: Quota, begun_bytes: u64, size: u64) -> Result<(), Refusal> {
    if begun_bytes.saturating_add(size) > quota.photo_bytes {
        return Err(Refusal::Full(Full::Photos));
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn room(all: u64, counted: u64) -> CrewRoom {
        CrewRoom { all, counted }
    }

    #[test]
    fn one_member_leaves_room_and_a_newcomer_finds_it() {
        let quotas = Quotas::default();
        for quota in [quotas.scout, quotas.owner] {
            let mut tally = Tally::new(quota, 0, 0);
            let made = (0..).take_while(|all| tally.begin_series(room(*all, *all)).is_ok());
            let made = made.count();
            assert_eq!(made as u64, quota.series);
            assert!(made < CREW_SERIES / 2, "one member fills the crew");
        }
        let mut newcomer = Tally::new(quotas.scout, 0, 0);
        let full = CREW_SERIES as u64;
        for all in full..full + FIRST_SERIES {
            assert_eq!(newcomer.begin_series(room(all, all)), Ok(()));
        }
        let refused = Err(Refusal::Full(Full::Crew));
        assert_eq!(newcomer.begin_series(room(full + 4, full + 4)), refused);
        // What a removed member left behind is not counted.
        assert_eq!(newcomer.begin_series(room(full + 4, 12)), Ok(()));
        let listed = LISTED_SERIES as u64;
        let mut late = Tally::new(quotas.scout, 0, 0);
        assert_eq!(late.begin_series(room(listed, 0)), refused);
    }

    #[test]
    fn many_small_changes_are_not_free() {
        let quota = Quotas::default().scout;
        let mut tally = Tally::new(quota, 1, quota.change_bytes - 130);
        assert_eq!(tally.store(&[b"x"]), Ok(()));
        assert_eq!(tally.store(&[b"x"]), Ok(()));
        assert_eq!(
            tally.store(&[b"x"]),
            Err(Refusal::Full(Full::Changes)),
            "a row costs something"
        );
    }
}
