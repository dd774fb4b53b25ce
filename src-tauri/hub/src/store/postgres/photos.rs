//! Which photos are held, and how much of each.

use crate::store::{PhotoPart, PhotoState, Quotas, StoreFault, Stored, begin_photo};
use deadpool_postgres::Object;
use std::collections::BTreeMap;
use uuid::Uuid;
use wire::Refusal;

pub(super) async fn states(
    client: &Object,
    crew: Uuid,
    names: &[[u8; 32]],
) -> Stored<Vec<Option<PhotoState>>> {
    let asked: Vec<&[u8]> = names.iter().map(<[u8; 32]>::as_slice).collect();
    let rows = client
        .query(
            "SELECT name, size, have, whole_at IS NOT NULL FROM photo
             WHERE crew = $1 AND name = ANY ($2)",
            &[&crew, &asked],
        )
        .await?;
    let known: BTreeMap<&[u8], PhotoState> = rows
        .iter()
        .map(|row| {
            let state = PhotoState {
                size: row.get::<_, i64>(1).unsigned_abs(),
                have: row.get::<_, i64>(2).unsigned_abs(),
                whole: row.get(3),
            };
            (row.get(0), state)
        })
        .collect();
    Ok(names
        .iter()
        .map(|name| known.get(name.as_slice()).copied())
        .collect())
}

fn size(bytes: u64) -> Stored<i64> {
    i64::try_from(bytes).map_err(|_| StoreFault::Refused(Refusal::OutOfBounds))
}

pub(super) async fn grew(
    client: &mut Object,
    crew: Uuid,
    part: PhotoPart,
    quotas: &Quotas,
) -> Stored<bool> {
    let name: &[u8] = &part.name;
    let whole = size(part.size)?;
    let tx = client.transaction().await?;
    if part.have == 0 {
        let (by, role) = part.by;
        // Photos of one membership are begun one after the other, so that none slips
        // past the count.
        tx.query(
            "SELECT 1 FROM device WHERE id = $1 FOR NO KEY UPDATE",
            &[&by],
        )
        .await?;
        let begun: i64 = tx
            .query_one(
                "SELECT coalesce(sum(size), 0)::bigint FROM photo
                 WHERE begun_by = $1 AND NOT (crew = $2 AND name = $3)",
                &[&by, &crew, &name],
            )
            .await?
            .get(0);
        begin_photo(quotas.of(role), begun.unsigned_abs(), part.size)?;
        tx.execute(
            "INSERT INTO photo AS held (crew, name, size, have, begun_by)
             VALUES ($1, $2, $3, 0, $4)
             ON CONFLICT (crew, name) DO UPDATE
             SET size = excluded.size, begun_by = excluded.begun_by
             WHERE held.have = 0 AND held.whole_at IS NULL",
            &[&crew, &name, &whole, &by],
        )
        .await?;
    }
    let changed = tx
        .execute(
            "UPDATE photo SET have = $5
             WHERE crew = $1 AND name = $2 AND size = $3 AND have = $4 AND whole_at IS NULL",
            &[
                &crew,
                &name,
                &whole,
                &size(part.have)?,
                &size(part.have.saturating_add(part.length))?,
            ],
        )
        .await?;
    tx.commit().await?;
    Ok(changed == 1)
}

pub(super) async fn ended(
    client: &Object,
    crew: Uuid,
    name: [u8; 32],
    whole_at: Option<i64>,
) -> Stored<()> {
    let name: &[u8] = &name;
    match whole_at {
        Some(at) => {
            client
                .execute(
                    "UPDATE photo SET whole_at = $3
                     WHERE crew = $1 AND name = $2 AND have = size AND whole_at IS NULL",
                    &[&crew, &name, &at],
                )
                .await?
        }
        None => {
            client
                .execute(
                    "DELETE FROM photo WHERE crew = $1 AND name = $2 AND whole_at IS NULL",
                    &[&crew, &name],
                )
                .await?
        }
    };
    Ok(())
}

pub(super) async fn lost(client: &Object, crew: Uuid, name: [u8; 32]) -> Stored<()> {
    let name: &[u8] = &name;
    client
        .execute(
            "DELETE FROM photo WHERE crew = $1 AND name = $2 AND whole_at IS NOT NULL",
            &[&crew, &name],
        )
        .await?;
    Ok(())
}
