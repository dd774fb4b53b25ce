//! Crews, people, phones and invitations.

use super::removals::Removals;
use super::{bytes, id};
use crate::store::{
    Joining, Member, NewInvitation, Stored, open_invitations, role_from, role_text,
};
use rusqlite::{Connection, OptionalExtension};
use uuid::Uuid;
use wire::seal::PublicKey;
use wire::{CrewView, DeviceView, InvitationView, Joined, PersonView, Refusal, Role};

pub(super) fn member(db: &Connection, device: Uuid) -> Stored<Option<Member>> {
    let row = db
        .prepare_cached(
            "SELECT person.id, person.crew, person.role, device.token_hash,
                    device.removed_at IS NOT NULL, device.key
             FROM device JOIN person ON person.id = device.person WHERE device.id = ?1",
        )?
        .query_row([bytes(device)], |row| {
            Ok((
                id(row.get(0)?)?,
                id(row.get(1)?)?,
                row.get::<_, String>(2)?,
                row.get(3)?,
                row.get(4)?,
                row.get::<_, Option<[u8; 32]>>(5)?,
            ))
        })
        .optional()?;
    row.map(|(person, crew, role, token_hash, removed, key)| {
        Ok(Member {
            device,
            person,
            crew,
            role: role_from(&role)?,
            token_hash,
            removed,
            key: key.map(PublicKey),
        })
    })
    .transpose()
}

pub(super) fn invite(db: &Connection, new: &NewInvitation) -> Stored<()> {
    let mut role = new.role;
    if let Some(person) = new.person {
        let known: Option<String> = db
            .query_row(
                "SELECT role FROM person WHERE id = ?1 AND crew = ?2",
                (bytes(person), new.crew.map(bytes)),
                |row| row.get(0),
            )
            .optional()?;
        role = role_from(&known.ok_or(Refusal::Unknown)?)?;
    }
    db.execute(
        "INSERT INTO invitation (id, crew, person, role, code_hash, made_at, ends_at)
         VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7)",
        (
            bytes(new.id),
            new.crew.map(bytes),
            new.person.map(bytes),
            role_text(role),
            new.code_hash,
            new.made_at,
            new.ends_at,
        ),
    )?;
    Ok(())
}

pub(super) fn join(db: &Connection, joining: &Joining) -> Stored<Joined> {
    struct Invitation {
        id: Vec<u8>,
        crew: Option<Vec<u8>>,
        person: Option<Vec<u8>>,
        role: String,
        ends_at: i64,
        used_by: Option<Vec<u8>>,
    }
    let invitation = db
        .query_row(
            "SELECT id, crew, person, role, ends_at, used_by FROM invitation WHERE code_hash = ?1",
            [joining.code_hash],
            |row| {
                Ok(Invitation {
                    id: row.get(0)?,
                    crew: row.get(1)?,
                    person: row.get(2)?,
                    role: row.get(3)?,
                    ends_at: row.get(4)?,
                    used_by: row.get(5)?,
                })
            },
        )
        .optional()?
        .ok_or(Refusal::Unknown)?;
    if joining.now >= invitation.ends_at {
        return Err(Refusal::Unknown.into());
    }
    if let Some(device) = invitation.used_by {
        return joined_before(db, id(device)?, joining);
    }
    let crew = match invitation.crew {
        Some(crew) => crew,
        None => {
            db.execute(
                "INSERT INTO crew (id, name, made_at) VALUES (?1, ?2, ?3)",
                (bytes(joining.crew.0), &joining.crew.1, joining.now),
            )?;
            bytes(joining.crew.0)
        }
    };
    let person = match invitation.person {
        Some(person) => person,
        None => {
            db.execute(
                "INSERT INTO person (id, crew, name, role, made_at) VALUES (?1, ?2, ?3, ?4, ?5)",
                (
                    bytes(joining.person.0),
                    &crew,
                    &joining.person.1,
                    &invitation.role,
                    joining.now,
                ),
            )?;
            bytes(joining.person.0)
        }
    };
    db.execute(
        "INSERT INTO device (id, person, name, token_hash, joined_at, seen_at)
         VALUES (?1, ?2, ?3, ?4, ?5, ?5)",
        (
            bytes(joining.device.0),
            &person,
            &joining.device.1,
            joining.token_hash,
            joining.now,
        ),
    )?;
    db.execute(
        "UPDATE invitation SET used_by = ?2, crew = ?3 WHERE id = ?1",
        (&invitation.id, bytes(joining.device.0), &crew),
    )?;
    answer(db, joining.device.0)
}

fn joined_before(db: &Connection, device: Uuid, joining: &Joining) -> Stored<Joined> {
    let known = member(db, device)?.ok_or(Refusal::Unknown)?;
    if known.removed || !wire::code::same(&known.token_hash, &joining.token_hash) {
        return Err(Refusal::Unknown.into());
    }
    answer(db, device)
}

fn answer(db: &Connection, device: Uuid) -> Stored<Joined> {
    let member = member(db, device)?.ok_or(Refusal::Unknown)?;
    let crew_name = db.query_row(
        "SELECT name FROM crew WHERE id = ?1",
        [bytes(member.crew)],
        |row| row.get(0),
    )?;
    Ok(Joined {
        crew: member.crew,
        crew_name,
        device,
        person: member.person,
        role: member.role,
    })
}

pub(super) fn crew(db: &Connection, crew: Uuid, now: i64) -> Stored<CrewView> {
    let name = db.query_row(
        "SELECT name FROM crew WHERE id = ?1",
        [bytes(crew)],
        |row| row.get(0),
    )?;
    let mut people = Vec::new();
    let mut query =
        db.prepare_cached("SELECT id, name, role FROM person WHERE crew = ?1 ORDER BY id")?;
    let mut rows = query.query([bytes(crew)])?;
    while let Some(row) = rows.next()? {
        let person = id(row.get(0)?)?;
        people.push(PersonView {
            id: person,
            name: row.get(1)?,
            role: role_from(&row.get::<_, String>(2)?)?,
            devices: devices(db, person)?,
        });
    }
    let mut query = db.prepare_cached(
        "SELECT id, role, ends_at FROM invitation
         WHERE crew = ?1 AND used_by IS NULL ORDER BY id",
    )?;
    let mut rows = query.query([bytes(crew)])?;
    let mut invitations = Vec::new();
    while let Some(row) = rows.next()? {
        invitations.push(InvitationView {
            id: id(row.get(0)?)?,
            role: role_from(&row.get::<_, String>(1)?)?,
            ends_at: row.get(2)?,
        });
    }
    Ok(CrewView {
        id: crew,
        name,
        people,
        invitations: open_invitations(invitations, now),
    })
}

fn devices(db: &Connection, person: Uuid) -> Stored<Vec<DeviceView>> {
    let mut query = db.prepare_cached(
        "SELECT id, name, joined_at, seen_at, removed_at FROM device WHERE person = ?1 ORDER BY id",
    )?;
    let rows = query.query_map([bytes(person)], |row| {
        Ok(DeviceView {
            id: id(row.get(0)?)?,
            name: row.get(1)?,
            joined_at: row.get(2)?,
            seen_at: row.get(3)?,
            removed_at: row.get(4)?,
        })
    })?;
    Ok(rows.collect::<Result<_, _>>()?)
}

pub(super) fn withdraw(db: &Connection, crew: Uuid, invitation: Uuid) -> Stored<()> {
    let gone = db.execute(
        "DELETE FROM invitation WHERE id = ?1 AND crew = ?2 AND used_by IS NULL",
        (bytes(invitation), bytes(crew)),
    )?;
    if gone == 0 {
        return Err(Refusal::Unknown.into());
    }
    Ok(())
}

pub(super) fn remove_device(
    db: &Connection,
    crew: Uuid,
    device: Uuid,
    now: i64,
    removals: &Removals,
) -> Stored<()> {
    let target = member(db, device)?
        .filter(|target| target.crew == crew)
        .ok_or(Refusal::Unknown)?;
    if target.removed {
        return Ok(());
    }
    db.execute(
        "UPDATE device SET removed_at = ?2 WHERE id = ?1",
        (bytes(device), now),
    )?;
    keep_an_owner(db, crew)?;
    // Before the commit: a removal that was answered must be in both. Where only the
    // commit fails, an owner wanted it all the same.
    removals.add(&[(device, now)])
}

pub(super) fn set_role(db: &Connection, crew: Uuid, person: Uuid, role: Role) -> Stored<()> {
    let changed = db.execute(
        "UPDATE person SET role = ?3 WHERE id = ?1 AND crew = ?2",
        (bytes(person), bytes(crew), role_text(role)),
    )?;
    if changed == 0 {
        return Err(Refusal::Unknown.into());
    }
    keep_an_owner(db, crew)
}

/// Refuses, and so takes back the whole call, when no owner with a phone is left.
fn keep_an_owner(db: &Connection, crew: Uuid) -> Stored<()> {
    let owners: i64 = db.query_row(
        "SELECT count(*) FROM person JOIN device ON device.person = person.id
         WHERE person.crew = ?1 AND person.role = 'owner' AND device.removed_at IS NULL",
        [bytes(crew)],
        |row| row.get(0),
    )?;
    if owners == 0 {
        return Err(Refusal::LastOwner.into());
    }
    Ok(())
}
