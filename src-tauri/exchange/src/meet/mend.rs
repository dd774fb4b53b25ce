//! Two contents under one number, and whose a series is.

use super::{Meeting, Moved, MovedWhy, Seen};
use crate::book::Book;
use crate::proof::{LeftAlone, Proof, prove};
use crate::trouble::Trouble;
use uuid::Uuid;
use wire::branch_id;
use wire::seal::PublicKey;
use wire::{Answer, Ask, Heads, Refusal, Role, SealedRun, Span, Tag};

impl Meeting<'_> {
    /// Finds where this notebook and the hub part, and moves this notebook's
    /// branch to a series of its own. Its name follows from the content, so every
    /// notebook that holds the branch moves it to the same place.
    ///
    /// The hub must show content that differs, and where the series carries seals, one
    /// of the same key: neither a tag nor anybody else's writing makes a branch move.
    pub(super) fn mend(&mut self, device: Uuid, seen: &Seen) -> Result<(), Trouble> {
        let mine = self.book.heads()?;
        let end = |heads: &Heads| heads.get(&device).map_or(0, |mark| mark.seq);
        // Equal up to `same`, different at `differs`.
        let (mut same, mut differs) = (0, end(&mine).min(end(&seen.hub)));
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
        let span = Span {
            device,
            after: same,
            to: end(&seen.hub),
        };
        if let Some(why) = self.doubt(span, seen.keys.get(&device).copied(), first)? {
            self.left_alone.insert(device, why);
            return Ok(());
        }
        self.move_branch(device, differs, first)?;
        self.mended.push(device);
        Ok(())
    }

    /// Why the hub's content of a span, which is to differ from the change tagged
    /// `first` here, is not to be believed, if it is not.
    fn doubt(
        &mut self,
        span: Span,
        named: Option<PublicKey>,
        first: Tag,
    ) -> Result<Option<LeftAlone>, Trouble> {
        let spans = vec![span].into();
        let Answer::PulledSealed(page) = self.ask(&Ask::PullSealed { spans })? else {
            return Err(Trouble::Nonsense);
        };
        let fits = |came: &&SealedRun| {
            let run = &came.run;
            run.device == span.device && run.after == span.after && !run.bodies.is_empty()
        };
        let came = page.first().filter(fits).ok_or(Trouble::Nonsense)?;
        if came
            .run
            .bodies
            .first()
            .is_none_or(|body| Tag::of(body) == first)
        {
            return Ok(Some(LeftAlone::Incoherent));
        }
        Ok(match prove(self.book, came, named)? {
            Proof::Sealed(..) | Proof::Bare => None,
            Proof::None(why) => Some(why),
        })
    }

    fn move_branch(&mut self, device: Uuid, from: u64, first: Tag) -> Result<(), Trouble> {
        let why = MovedWhy::WrittenElsewhere;
        if let Some(moved) = move_branch(self.book, device, from, first, why)? {
            self.moved.push(moved);
        }
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

    /// Leaves the series that this phone writes to another key, where it never sealed
    /// it and the hub names that key for it: a copy of this notebook came first.
    /// True where that changed something.
    pub(super) fn settle_named(&mut self, seen: &Seen) -> Result<bool, Trouble> {
        let (own, key) = (self.book.own()?, self.book.key()?);
        let (Some(key), Some(named)) = (key, seen.keys.get(&own)) else {
            return Ok(false);
        };
        // Where the two parted, mending moves the branch.
        if *named == key || self.book.writer(own)?.is_some() || seen.forked.contains(&own) {
            return Ok(false);
        }
        let end = |heads: &Heads| heads.get(&own).map_or(0, |mark| mark.seq);
        let common = end(&seen.mine).min(end(&seen.hub));
        let why = MovedWhy::WrittenElsewhere;
        let moved = go_on_elsewhere(self.book, own, common + 1, why)?;
        self.moved.push(moved);
        Ok(true)
    }

    /// Seals what the hub holds of this phone's own series from before there were
    /// seals, so that nobody else can add to it.
    pub(super) fn claim(&mut self, seen: &mut Seen) -> Result<(), Trouble> {
        let (series, key) = (self.book.own()?, self.book.key()?);
        let (Some(key), Some(end)) = (key, seen.hub.get(&series).copied()) else {
            return Ok(());
        };
        let settled = seen.role < Role::Scout
            || seen.keys.contains_key(&series)
            || self.left_alone.contains_key(&series)
            || self
                .book
                .writer(series)?
                .is_some_and(|writer| writer.key != key);
        if settled || self.book.tag(series, end.seq)? != Some(end.tag) {
            return Ok(());
        }
        let seals = self.book.seal_stretches(series, end.seq)?.into();
        match self.ask(&Ask::Seal { series, seals }) {
            Ok(Answer::Done) => {
                seen.keys.insert(series, key);
                Ok(())
            }
            Ok(_) => Err(Trouble::Nonsense),
            // Somebody else added to it before this phone was updated.
            Err(Trouble::NotYours(_)) if self.book.writer(series)?.is_none() => {
                let why = MovedWhy::WrittenElsewhere;
                let moved = go_on_elsewhere(self.book, series, end.seq + 1, why)?;
                self.moved.push(moved);
                Err(Trouble::Refused(Refusal::Gap {
                    device: series,
                    have: end.seq,
                }))
            }
            Err(trouble) => Err(trouble),
        }
    }
}

/// Moves the changes of a series from a number on to the series that their content
/// names. Says so where the series is this phone's own.
fn move_branch(
    book: &mut dyn Book,
    device: Uuid,
    from: u64,
    first: Tag,
    why: MovedWhy,
) -> Result<Option<Moved>, Trouble> {
    let own = book.own()?;
    let (root, at) = book.branch_root(device, from)?;
    let to = branch_id(root, at, first);
    book.move_branch(device, from, to)?;
    if own != device {
        return Ok(None);
    }
    Ok(Some(Moved {
        series: device,
        branch: Some(to),
        now: book.own()?,
        why,
    }))
}

/// Lets this phone write in a new series. Its changes from a number on, which nobody
/// else has yet, go with it.
fn go_on_elsewhere(
    book: &mut dyn Book,
    own: Uuid,
    from: u64,
    why: MovedWhy,
) -> Result<Moved, Trouble> {
    let moved = match book.tag(own, from)? {
        Some(first) => move_branch(book, own, from, first, why)?,
        None => None,
    };
    if let Some(moved) = moved {
        return Ok(moved);
    }
    book.take_new_id()?;
    Ok(Moved {
        series: own,
        branch: None,
        now: book.own()?,
        why,
    })
}

/// Lets this phone go on in a new series where its own was sealed with a key that it
/// has no more, that of an earlier membership.
pub(crate) fn settle_key(book: &mut dyn Book) -> Result<Option<Moved>, Trouble> {
    let own = book.own()?;
    let (Some(key), Some(writer)) = (book.key()?, book.writer(own)?) else {
        return Ok(None);
    };
    if writer.key == key {
        return Ok(None);
    }
    let sealed = book.sealed_to(own)?;
    go_on_elsewhere(book, own, sealed + 1, MovedWhy::NewKey).map(Some)
}
