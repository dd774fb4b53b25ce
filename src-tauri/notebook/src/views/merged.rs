//! Which planting each merged one is shown as, from the words about all of them.

use std::collections::BTreeMap;

use rusqlite::Connection;
use uuid::Uuid;

use crate::error::StoreError;
use kinds::Field;

/// The field of a planting that says into which other it was merged.
pub const MERGED_INTO: &str = Field::MergedInto.name();

/// Each merged planting and the one it was merged into. The latest words count
/// first; one that would close a circle says nothing new and is passed over, and
/// so is one into a planting that has not arrived yet.
pub fn parents(db: &Connection) -> Result<BTreeMap<Uuid, Uuid>, StoreError> {
    Ok(parents_and_ends(db)?.0)
}

pub(crate) fn parents_and_ends(
    db: &Connection,
) -> Result<(BTreeMap<Uuid, Uuid>, Ends), StoreError> {
    let mut statement = db.prepare_cached(
        "SELECT planting.id, planting.merged_into FROM planting
         JOIN planting AS other ON other.id = planting.merged_into AND other.name IS NOT NULL
         JOIN field_value AS said ON said.id = planting.id AND said.field = ?1
         GROUP BY planting.id
         ORDER BY max(said.hlc) DESC, planting.id DESC",
    )?;
    let mut rows = statement.query([MERGED_INTO])?;
    let mut parents = BTreeMap::new();
    let mut ends = Ends::default();
    while let Some(row) = rows.next()? {
        let (id, into): (Uuid, Uuid) = (row.get(0)?, row.get(1)?);
        if ends.of(into) != id {
            parents.insert(id, into);
            ends.lead(id, into);
        }
    }
    Ok((parents, ends))
}

/// Where the way from each planting ends; there are no circles. Ways are shortened as
/// they are gone, so that a long chain costs no more than as many short ones.
#[derive(Default)]
pub(crate) struct Ends(BTreeMap<Uuid, Uuid>);

impl Ends {
    /// The end of the way from a planting.
    pub(crate) fn of(&mut self, id: Uuid) -> Uuid {
        let mut end = id;
        while let Some(into) = self.0.get(&end) {
            end = *into;
        }
        let mut on_the_way = id;
        while let Some(into) = self.0.insert(on_the_way, end) {
            if into == end {
                break;
            }
            on_the_way = into;
        }
        // The end itself leads nowhere.
        self.0.remove(&end);
        end
    }

    /// A planting whose way ended at itself leads on.
    fn lead(&mut self, id: Uuid, into: Uuid) {
        self.0.insert(id, into);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_chain_ends_where_it_leads_however_it_was_made() {
        let id = |number: u128| Uuid::from_u128(number);
        let mut ends = Ends::default();
        for number in (1..2_000).rev() {
            assert_eq!(ends.of(id(number)), id(number));
            ends.lead(id(number), id(number + 1));
        }
        for number in 1..=2_000 {
            assert_eq!(ends.of(id(number)), id(2_000));
        }
        assert_eq!(ends.of(id(5_000)), id(5_000));
    }
}
