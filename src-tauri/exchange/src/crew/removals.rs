//! What an owner's phone remembers of removed phones, so that a hub that was restored
//! from an older backup lets none of them back in.

use super::{Change, Seat};
use crate::trouble::Trouble;
use std::collections::BTreeSet;
use uuid::Uuid;
use wire::{CrewView, DeviceView};

impl Seat<'_> {
    /// Owner: remembers the phones that the hub shows as removed, and removes those
    /// again that were removed before and that it shows as members.
    ///
    /// # Errors
    /// See [`Trouble`]; the next exchange tries again.
    pub(super) fn hold_removals(&mut self) -> Result<(), Trouble> {
        let crew = self.view()?;
        let mut kept = self.kept()?;
        let Some(member) = &kept.member else {
            return Ok(());
        };
        let again = readmitted(&crew, &kept.removed, member.device);
        let before = kept.removed.len();
        kept.removed.extend(removed(&crew));
        if kept.removed.len() > before {
            kept.write(self.notebook)?;
        }
        for device in again {
            match self.change(Change::Remove(device)) {
                // The last phone of another owner stays; this one is an owner's too.
                Ok(()) | Err(Trouble::Unknown | Trouble::LastOwner) => {}
                Err(trouble) => return Err(trouble),
            }
        }
        Ok(())
    }

    /// Remembers that a phone was removed.
    pub(super) fn remember_removed(&mut self, device: Uuid) -> Result<(), Trouble> {
        let mut kept = self.kept()?;
        if kept.member.is_some() && kept.removed.insert(device) {
            kept.write(self.notebook)?;
        }
        Ok(())
    }
}

fn devices(crew: &CrewView) -> impl Iterator<Item = &DeviceView> {
    crew.people.iter().flat_map(|person| &person.devices)
}

fn removed(crew: &CrewView) -> impl Iterator<Item = Uuid> {
    devices(crew)
        .filter(|device| device.removed_at.is_some())
        .map(|device| device.id)
}

fn readmitted(crew: &CrewView, removed: &BTreeSet<Uuid>, own: Uuid) -> Vec<Uuid> {
    devices(crew)
        .filter(|device| device.removed_at.is_none() && device.id != own)
        .map(|device| device.id)
        .filter(|device| removed.contains(device))
        .collect()
}
