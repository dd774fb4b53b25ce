//! Crews, people, phones and invitations.

use super::seals::key;
use crate::store::{
    Joining, Member, NewInvitation, Stored, open_invitations, role_from, role_text,
};
use deadpool_postgres::{GenericClient, Object, Transaction};
use uuid::Uuid;
use wire::{CrewView, DeviceView, InvitationView, Joined, PersonView, Refusal, Role};

pub(super) async fn member<C: GenericClient>(client: &C, device: Uuid) -> Stored<Option<Member>> {
    let query = client
        .prepare_cached(
            "SELECT person.id, person.crew, person.role, device.token_hash,
                    device.removed_at IS NOT NULL, device.key
             FROM device JOIN person ON person.id = device.person WHERE device.id = $1",
        )
        .await?;
    let row = client.query_opt(&query, &[&device]).await?;
    row.map(|row| {
        Ok(Member {
            device,
            person: row.get(0),
            crew: row.get(1),
            role: role_from(row.get(2))?,
            token_hash: row.get(3),
            removed: row.get(4),
            key: key(row.get(5))?,
        })
    })
    .transpose()
}

pub(super) async fn invite(client: &mut Object, new: &NewInvitation) -> Stored<()> {
    let tx = client.transaction().await?;
    let mut role = new.role;
    if let Some(person) = new.person {
        let known = tx
            .query_opt(
                "SELECT role FROM person WHERE id = $1 AND crew = $2",
                &[&person, &new.crew],
            )
            .await?
            .ok_or(Refusal::Unknown)?;
        role = role_from(known.get(0))?;
    }
    let hash: &[u8] = &new.code_hash;
    tx.execute(
        "INSERT INTO invitation (id, crew, person, role, code_hash, made_at, ends_at)
         VALUES ($1, $2, $3, $4, $5, $6, $7)",
        &[
            &new.id,
            &new.crew,
            &new.person,
            &role_text(role),
            &hash,
            &new.made_at,
            &new.ends_at,
        ],
    )
    .await?;
    tx.commit().await?;
    Ok(())
}

pub(super) async fn join(client: &mut Object, joining: &Joining) -> Stored<Joined> {
    let tx = client.transaction().await?;
    let code: &[u8] = &joining.code_hash;
    // Locked, so that of two phones with one code one comes second.
    let invitation = tx
        .query_opt(
            "SELECT id, crew, person, role, ends_at, used_by
             FROM invitation WHERE code_hash = $1 FOR UPDATE",
            &[&code],
        )
        .await?
        .ok_or(Refusal::Unknown)?;
    if joining.now >= invitation.get::<_, i64>(4) {
        return Err(Refusal::Unknown.into());
    }
    if let Some(device) = invitation.get::<_, Option<Uuid>>(5) {
        return joined_before(&tx, device, joining).await;
    }
    let crew = match invitation.get::<_, Option<Uuid>>(1) {
        Some(crew) => crew,
        None => {
            tx.execute(
                "INSERT INTO crew (id, name, made_at) VALUES ($1, $2, $3)",
                &[&joining.crew.0, &joining.crew.1, &joining.now],
            )
            .await?;
            joining.crew.0
        }
    };
    let person = match invitation.get::<_, Option<Uuid>>(2) {
        Some(person) => person,
        None => {
            tx.execute(
                "INSERT INTO person (id, crew, name, role, made_at) VALUES ($1, $2, $3, $4, $5)",
                &[
                    &joining.person.0,
                    &crew,
                    &joining.person.1,
                    &invitation.get::<_, &str>(3),
                    &joining.now,
                ],
            )
            .await?;
            joining.person.0
        }
    };
    let token: &[u8] = &joining.token_hash;
    tx.execute(
        "INSERT INTO device (id, person, name, token_hash, joined_at, seen_at)
         VALUES ($1, $2, $3, $4, $5, $5)",
        &[
            &joining.device.0,
            &person,
            &joining.device.1,
            &token,
            &joining.now,
        ],
    )
    .await?;
    tx.execute(
        "UPDATE invitation SET used_by = $2, crew = $3 WHERE id = $1",
        &[&invitation.get::<_, Uuid>(0), &joining.device.0, &crew],
    )
    .await?;
    let joined = answer(&tx, joining.device.0).await?;
    tx.commit().await?;
    Ok(joined)
}

async fn joined_before(tx: &Transaction<'_>, device: Uuid, joining: &Joining) -> Stored<Joined> {
    let known = member(tx, device).await?.ok_or(Refusal::Unknown)?;
    if known.removed || !wire::code::same(&known.token_hash, &joining.token_hash) {
        return Err(Refusal::Unknown.into());
    }
    answer(tx, device).await
}

async fn answer(tx: &Transaction<'_>, device: Uuid) -> Stored<Joined> {
    let member = member(tx, device).await?.ok_or(Refusal::Unknown)?;
    let crew_name = tx
        .query_one("SELECT name FROM crew WHERE id = $1", &[&member.crew])
        .await?
        .get(0);
    Ok(Joined {
        crew: member.crew,
        crew_name,
        device,
        person: member.person,
        role: member.role,
    })
}

pub(super) async fn crew(client: &Object, crew: Uuid, now: i64) -> Stored<CrewView> {
    let name = client
        .query_one("SELECT name FROM crew WHERE id = $1", &[&crew])
        .await?
        .get(0);
    let rows = client
        .query(
            "SELECT id, name, role FROM person WHERE crew = $1 ORDER BY id",
            &[&crew],
        )
        .await?;
    let mut people = Vec::with_capacity(rows.len());
    for row in rows {
        let id: Uuid = row.get(0);
        people.push(PersonView {
            id,
            name: row.get(1),
            role: role_from(row.get(2))?,
            devices: devices(client, id).await?,
        });
    }
    let invitations = client
        .query(
            "SELECT id, role, ends_at FROM invitation
             WHERE crew = $1 AND used_by IS NULL ORDER BY id",
            &[&crew],
        )
        .await?
        .iter()
        .map(|row| {
            Ok(InvitationView {
                id: row.get(0),
                role: role_from(row.get(1))?,
                ends_at: row.get(2),
            })
        })
        .collect::<Stored<_>>()?;
    Ok(CrewView {
        id: crew,
        name,
        people,
        invitations: open_invitations(invitations, now),
    })
}

async fn devices(client: &Object, person: Uuid) -> Stored<Vec<DeviceView>> {
    let rows = client
        .query(
            "SELECT id, name, joined_at, seen_at, removed_at
             FROM device WHERE person = $1 ORDER BY id",
            &[&person],
        )
        .await?;
    Ok(rows
        .iter()
        .map(|row| DeviceView {
            id: row.get(0),
            name: row.get(1),
            joined_at: row.get(2),
            seen_at: row.get(3),
            removed_at: row.get(4),
        })
        .collect())
}

pub(super) async fn withdraw(client: &Object, crew: Uuid, invitation: Uuid) -> Stored<()> {
    let gone = client
        .execute(
            "DELETE FROM invitation WHERE id = $1 AND crew = $2 AND used_by IS NULL",
            &[&invitation, &crew],
        )
        .await?;
    if gone == 0 {
        return Err(Refusal::Unknown.into());
    }
    Ok(())
}

pub(super) async fn remove_device(
    client: &mut Object,
    crew: Uuid,
    device: Uuid,
    now: i64,
) -> Stored<()> {
    let tx = client.transaction().await?;
    lock_crew(&tx, crew).await?;
    let target = member(&tx, device)
        .await?
        .filter(|target| target.crew == crew)
        .ok_or(Refusal::Unknown)?;
    if target.removed {
        return Ok(());
    }
    tx.execute(
        "UPDATE device SET removed_at = $2 WHERE id = $1",
        &[&device, &now],
    )
    .await?;
    keep_an_owner(&tx, crew).await?;
    tx.commit().await?;
    Ok(())
}

pub(super) async fn set_role(
    client: &mut Object,
    crew: Uuid,
    person: Uuid,
    role: Role,
) -> Stored<()> {
    let tx = client.transaction().await?;
    lock_crew(&tx, crew).await?;
    let changed = tx
        .execute(
            "UPDATE person SET role = $3 WHERE id = $1 AND crew = $2",
            &[&person, &crew, &role_text(role)],
        )
        .await?;
    if changed == 0 {
        return Err(Refusal::Unknown.into());
    }
    keep_an_owner(&tx, crew).await?;
    tx.commit().await?;
    Ok(())
}

/// Two owners who remove each other at the same moment come one after the other. The
/// key stays free for whoever begins a series in the crew meanwhile.
async fn lock_crew(tx: &Transaction<'_>, crew: Uuid) -> Stored<()> {
    tx.query(
        "SELECT 1 FROM crew WHERE id = $1 FOR NO KEY UPDATE",
        &[&crew],
    )
    .await?;
    Ok(())
}

/// Refuses, and so takes back the whole call, when no owner with a phone is left.
async fn keep_an_owner(tx: &Transaction<'_>, crew: Uuid) -> Stored<()> {
    let owners: i64 = tx
        .query_one(
            "SELECT count(*) FROM person JOIN device ON device.person = person.id
             WHERE person.crew = $1 AND person.role = 'owner' AND device.removed_at IS NULL",
            &[&crew],
        )
        .await?
        .get(0);
    if owners == 0 {
        return Err(Refusal::LastOwner.into());
    }
    Ok(())
}
