//! What this device keeps for itself, beside the log.

use super::Notebook;
use crate::error::StoreError;
use crate::setting;

impl Notebook {
    /// What was kept under a name, as JSON.
    ///
    /// # Errors
    /// When the store fails.
    pub fn setting(&self, name: &str) -> Result<Option<String>, StoreError> {
        setting::read(self.db(), name)
    }

    /// Keeps JSON under a name, in place of what was there; `None` wipes it.
    ///
    /// # Errors
    /// When the store fails; what was there stays then.
    pub fn keep_setting(&mut self, name: &str, json: Option<&str>) -> Result<(), StoreError> {
        let tx = self.transaction()?;
        match json {
            Some(json) => setting::keep(&tx, name, json)?,
            None => {
                tx.execute("DELETE FROM setting WHERE name = ?1", [name])?;
            }
        }
        tx.commit()?;
        Ok(())
    }
}
