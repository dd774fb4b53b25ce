//! What was seen of ripe grain: stored, corrected, removed, and what the
//! counts come to.

use chrono::NaiveDate;
use ripening::harvest::{
    GroundCount, Guess, StandingCheck, StandingScore, Whose, bushels_per_acre,
    counted_loss_per_day, ground_loss_worked, standing_score,
};
use rusqlite::Connection;
use uuid::Uuid;

use super::pages::{GroundLoss, NewObservation, ObservationsPage, ObservedView};
use super::terms::{HarvestTerm, Terms};
use super::undo::last_step;
use crate::live::live_planting;
use crate::{Problem, Reply, Service, checks, read_only, settings};
use notebook::fact::{Act, Body, Fact, Observation, Seen};
use notebook::views::harvest::{self, Observed};
use notebook::views::walks;

impl Service {
    pub(crate) fn observations(
        &mut self,
        planting: Uuid,
    ) -> Result<Reply<ObservationsPage>, Problem> {
        let page = self.observations_page(planting)?;
        Ok(read_only(page))
    }

    pub(crate) fn observe(
        &mut self,
        id: Option<Uuid>,
        planting: Uuid,
        seen: NewObservation,
    ) -> Result<Reply<ObservationsPage>, Problem> {
        let seen = self.checked(seen, None)?;
        let ((), touched) = self.notebook.write(|writer| {
            if let Some(id) = id
                && let Some(known) = harvest::one(writer.db(), id)?
            {
                // The same request once more, unless it says something else.
                let same = known.planting == planting && (known.corrected || known.seen == seen);
                return if same {
                    Ok(())
                } else {
                    Err(Problem::conflict(
                        "this id is taken by another observation: use a new id",
                    ))
                };
            }
            live_planting(writer.db(), planting)?;
            let id = writer.id(id)?;
            let fact = Fact::Observed { planting, id, seen };
            Ok(writer.record(Act::Observed, &Body::of(vec![fact]))?)
        })?;
        let changed = self.changed(&touched)?;
        let page = self.observations_page(planting)?;
        Ok(Reply {
            answer: page,
            changed,
        })
    }

    pub(crate) fn correct_observed(
        &mut self,
        id: Uuid,
        to: NewObservation,
    ) -> Result<Reply<ObservationsPage>, Problem> {
        let known = live(self.notebook.db(), id)?;
        let to = self.checked(to, Some(&known.seen))?;
        let (planting, touched) = self.notebook.write(|writer| {
            let known = live(writer.db(), id)?;
            if known.seen != to {
                let fact = Fact::CorrectObserved {
                    planting: known.planting,
                    id,
                    to,
                    was: known.seen,
                    was_corrected: known.corrected,
                    as_first_told: false,
                };
                writer.record(Act::ObservationCorrected, &Body::of(vec![fact]))?;
            }
            Ok::<Uuid, Problem>(known.planting)
        })?;
        let changed = self.changed(&touched)?;
        let page = self.observations_page(planting)?;
        Ok(Reply {
            answer: page,
            changed,
        })
    }

    pub(crate) fn remove_observed(&mut self, id: Uuid) -> Result<Reply<ObservationsPage>, Problem> {
        let (planting, touched) = self.notebook.write(|writer| {
            let known =
                harvest::one(writer.db(), id)?.ok_or_else(|| Problem::not_found("observation"))?;
            live_planting(writer.db(), known.planting)?;
            if !known.removed {
                let fact = Fact::RemoveObserved {
                    planting: known.planting,
                    id,
                    removed: true,
                };
                writer.record(Act::ObservationRemoved, &Body::of(vec![fact]))?;
            }
            Ok::<Uuid, Problem>(known.planting)
        })?;
        let changed = self.changed(&touched)?;
        let page = self.observations_page(planting)?;
        Ok(Reply {
            answer: page,
            changed,
        })
    }

    pub(super) fn observations_page(&self, id: Uuid) -> Result<ObservationsPage, Problem> {
        let db = self.notebook.db();
        let planting = live_planting(db, id)?;
        let today = self.notebook.clock().today();
        let rows = harvest::of_planting(db, id)?;
        let terms = Terms::read(db, Some(id))?;
        let mut ground = Vec::new();
        for row in &rows {
            ground.extend(ground_loss(row, &terms)?);
        }
        Ok(ObservationsPage {
            planting: id,
            name: planting.name,
            today,
            heads: head_marks(db, id, today)?,
            ground,
            loss_per_day: loss_counted(&rows, &terms, today),
            seeds_per_head: terms.view(HarvestTerm::SeedsPerHead),
            seeds_per_pound: terms.view(HarvestTerm::SeedsPerPound),
            undo: last_step(db, self.notebook.device(), id)?.map(|step| step.what),
            rows: rows.into_iter().map(shown).collect(),
        })
    }

    /// What may be stored: today's date and the scout's name where none is
    /// given, or those that it had.
    fn checked(&self, new: NewObservation, was: Option<&Seen>) -> Result<Seen, Problem> {
        let today = self.notebook.clock().today();
        let on = new.on.or(was.map(|was| was.on)).unwrap_or(today);
        checks::date("day of an observation", on)?;
        if on > today {
            return Err(Problem::bad_input(format!(
                "{on} has not come yet: give the day on which it was seen"
            )));
        }
        let scout = match (checks::optional_name("scout", new.scout.as_deref())?, was) {
            (Some(scout), _) => scout,
            (None, Some(was)) => was.scout.clone(),
            (None, None) => settings::read(self.notebook.db())?.scout,
        };
        Ok(Seen {
            on,
            what: observation(new.what)?,
            scout,
            note: checks::note(new.note)?,
        })
    }
}

/// An observation whose numbers can be, or what is wrong with it.
pub(crate) fn observation(what: Observation) -> Result<Observation, Problem> {
    let refuse = |why: &str| Err(Problem::bad_input(why.to_owned()));
    match what {
        Observation::Moisture {
            meter,
            meter_name,
            meter_error,
            percents,
        } => {
            if !(1..=30).contains(&percents.len()) {
                return refuse("a moisture reading has 1 to 30 samples: add or remove some");
            }
            if let Some(bad) = percents.iter().find(|m| !(3.0..=70.0).contains(*m)) {
                return Err(Problem::bad_input(format!(
                    "moisture {bad} is out of range: use 3 to 70 percent"
                )));
            }
            if meter_error.is_some_and(|error| !(0.05..=5.0).contains(&error)) {
                return refuse("the meter's error is out of range: use 0.05 to 5 points");
            }
            let meter_name = checks::optional_name("meter", Some(&meter_name))?;
            Ok(Observation::Moisture {
                meter,
                meter_name: meter_name.unwrap_or_default(),
                meter_error,
                percents,
            })
        }
        Observation::Ground {
            frame_square_feet,
            ref seeds,
            heads,
        } => {
            if !(0.1..=100.0).contains(&frame_square_feet) {
                return refuse("the frame is out of range: use 0.1 to 100 square feet");
            }
            if !(1..=200).contains(&seeds.len()) {
                return refuse("a ground count has 1 to 200 frames: add or remove some");
            }
            if seeds
                .iter()
                .any(|&n| f64::from(n) > 5000.0 * frame_square_feet)
                || heads > 10_000
            {
                return refuse("a count is out of range: use up to 5000 seeds a square foot");
            }
            Ok(what)
        }
        Observation::Standing {
            lodged,
            weak_stalks,
            weathering,
        } => {
            if lodged > 100 || weak_stalks.is_some_and(|weak| weak > 100) {
                return refuse("a share of plants is out of range: use 0 to 100 percent");
            }
            if weathering > 9 {
                return refuse("weathering is out of range: use 0 (sound) to 9 (all spoiled)");
            }
            Ok(what)
        }
        Observation::Cut => Ok(what),
    }
}

fn live(db: &Connection, id: Uuid) -> Result<Observed, Problem> {
    let known = harvest::one(db, id)?
        .filter(|known| !known.removed)
        .ok_or_else(|| Problem::not_found("observation"))?;
    live_planting(db, known.planting)?;
    Ok(known)
}

pub(super) fn shown(row: Observed) -> ObservedView {
    ObservedView {
        id: row.id,
        on: row.seen.on,
        what: row.seen.what,
        scout: row.seen.scout,
        note: row.seen.note,
        recorded_at: row.recorded_at,
        corrected: row.corrected,
    }
}

/// The marks on the heads of each walk up to a day.
fn head_marks(
    db: &Connection,
    planting: Uuid,
    as_of: NaiveDate,
) -> Result<Vec<StandingScore>, Problem> {
    let mut scores = Vec::new();
    for walk in walks::of_planting(db, planting)? {
        if walk.walked_on > as_of {
            continue;
        }
        let mut flags = Vec::new();
        for stop in walks::stops(db, walk.id)? {
            for head in walks::heads(db, stop.id)? {
                flags.push(head.said.flags);
            }
        }
        let check = StandingCheck::of(walk.walked_on, flags.iter().map(Vec::as_slice));
        scores.extend(standing_score(&check));
    }
    Ok(scores)
}

/// Seeds a square foot at each frame. Where the whole heads lay was not told:
/// they are dealt out one to a frame, so that a single head among small frames
/// shows as the wide scatter that it is.
fn count(seen: &Seen, seeds_per_head: f64) -> Option<GroundCount> {
    let Observation::Ground {
        frame_square_feet,
        seeds,
        heads,
    } = &seen.what
    else {
        return None;
    };
    let frames = u32::try_from(seeds.len()).unwrap_or(u32::MAX).max(1);
    let heads_in = |frame: u32| heads / frames + u32::from(frame < heads % frames);
    Some(GroundCount {
        on: seen.on,
        seeds: (0..)
            .zip(seeds)
            .map(|(frame, &loose)| {
                let from_heads = f64::from(heads_in(frame)) * seeds_per_head;
                (f64::from(loose) + from_heads) / frame_square_feet
            })
            .collect(),
    })
}

/// What a count comes to; nothing for another observation.
fn ground_loss(row: &Observed, terms: &Terms) -> Result<Option<GroundLoss>, Problem> {
    let refused = |error: ripening::grain::GrainError| Problem::bad_input(error.to_string());
    let (Some(per_head), Some(per_pound), Some(yields)) = (
        terms.value(HarvestTerm::SeedsPerHead),
        terms.guess(HarvestTerm::SeedsPerPound),
        terms.value(HarvestTerm::Yield),
    ) else {
        return Ok(None);
    };
    let Some(count) = count(&row.seen, per_head).filter(GroundCount::usable) else {
        return Ok(None);
    };
    let mean = count.mean();
    let loss = |seeds_per_pound| bushels_per_acre(mean, seeds_per_pound).map_err(refused);
    let bushels_per_acre = Guess::new(
        loss(per_pound.high)?,
        loss(per_pound.value)?,
        loss(per_pound.low)?,
        Whose::Counted,
    );
    let pounds = bushels_per_acre.value * ripening::grain::POUNDS_PER_BUSHEL;
    Ok(Some(GroundLoss {
        id: row.id,
        on: row.seen.on,
        seeds_per_square_foot: mean,
        bushels_per_acre,
        percent: if yields > 0.0 { pounds / yields } else { 0.0 },
        worked: ground_loss_worked(mean, per_pound.value).map_err(refused)?,
    }))
}

/// Loss a day by the counts up to a day.
pub(super) fn loss_counted(rows: &[Observed], terms: &Terms, as_of: NaiveDate) -> Option<Guess> {
    let per_head = terms.value(HarvestTerm::SeedsPerHead)?;
    let counts: Vec<GroundCount> = rows
        .iter()
        .filter(|row| row.seen.on <= as_of)
        .filter_map(|row| count(&row.seen, per_head))
        .collect();
    let (least, most) = HarvestTerm::LossPerDay.range();
    counted_loss_per_day(
        &counts,
        terms.value(HarvestTerm::Yield)?,
        terms.value(HarvestTerm::SeedsPerPound)?,
    )
    .map(|loss| Guess {
        low: loss.low.clamp(least, most),
        value: loss.value.clamp(least, most),
        high: loss.high.clamp(least, most),
        whose: loss.whose,
    })
}

/// Share of plants lodged (0-1) as it was last seen, by a score or by the marks
/// on heads.
pub(super) fn lodged(
    db: &Connection,
    planting: Uuid,
    rows: &[Observed],
    as_of: NaiveDate,
) -> Result<Option<Guess>, Problem> {
    let scored = rows
        .iter()
        .filter(|row| row.seen.on <= as_of)
        .filter_map(|row| match row.seen.what {
            Observation::Standing { lodged, .. } => Some((row.seen.on, f64::from(lodged) / 100.0)),
            _ => None,
        })
        .next_back();
    let marked = head_marks(db, planting, as_of)?.pop();
    Ok(match (scored, marked) {
        (Some((on, share)), marked) if marked.is_none_or(|marked| marked.on <= on) => {
            // An eye's score over a field is taken to be good to ten plants in
            // a hundred (our assumption).
            Some(Guess::new(
                (share - 0.1).max(0.0),
                share,
                (share + 0.1).min(1.0),
                Whose::Counted,
            ))
        }
        (_, Some(marked)) => Some(Guess::new(
            marked.lodged.low,
            marked.lodged.mid,
            marked.lodged.high,
            Whose::Counted,
        )),
        _ => None,
    })
}
