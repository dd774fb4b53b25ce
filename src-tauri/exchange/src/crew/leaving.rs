//! The ways out of a crew: with the hub's knowledge, or here and now where the hub is
//! lost. Every change stays in the notebook, and goes to the next hub that this device
//! joins.

use super::Seat;
use crate::trouble::Trouble;
use wire::{Answer, Ask};

impl Seat<'_> {
    /// Leaves the crew: the hub removes this phone, and the phone forgets its token.
    /// The heads stay in the notebook.
    ///
    /// # Errors
    /// See [`Trouble`]; without signal the phone stays in the crew.
    pub fn leave(&mut self) -> Result<(), Trouble> {
        let member = self.kept()?.member.ok_or(Trouble::NoCrew)?;
        let remove = Ask::RemoveDevice {
            device: member.device,
        };
        match self.ask(&remove) {
            // Without the secret the hub can be told nothing, and one that does not know
            // this phone need not be: there is only the notebook's own word to take back.
            Ok(Answer::Done) | Err(Trouble::Removed | Trouble::NoToken | Trouble::NotLetIn) => {
                self.forget_crew()
            }
            Ok(_) => Err(Trouble::Nonsense),
            Err(trouble) => Err(trouble),
        }
    }

    /// Leaves the crew without asking the hub, which may be lost for good. Where it is
    /// not, it still lists this phone until an owner removes it.
    ///
    /// # Errors
    /// When this phone is in no crew, or the notebook fails.
    pub fn leave_here(&mut self) -> Result<(), Trouble> {
        if self.kept()?.member.is_none() {
            return Err(Trouble::NoCrew);
        }
        self.forget_crew()
    }

    /// Leaves a crew whose hub says that it does not know this phone, as one that was
    /// set up anew or restored from before this phone joined. A hub that is not reached
    /// says nothing.
    pub(super) fn leave_if_unknown(&mut self) -> Result<(), Trouble> {
        match self.ask(&Ask::Crew) {
            Err(Trouble::NotLetIn) => self.forget_crew(),
            Ok(_) | Err(_) => Ok(()),
        }
    }

    fn forget_crew(&mut self) -> Result<(), Trouble> {
        let mut kept = self.kept()?;
        kept.forget(self.notebook, self.tokens)
    }
}
