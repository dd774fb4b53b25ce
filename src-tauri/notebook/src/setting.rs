//! What this device keeps for itself, beside the log; never exchanged.

use rusqlite::OptionalExtension;

use crate::error::StoreError;
use crate::notebook::Notebook;

impl Notebook {
    /// What was kept under a name, as JSON.
    ///
    /// # Errors
    /// When the store fails.
    pub fn setting(&self, name: &str) -> Result<Option<String>, StoreError> {
        Ok(self
            .db()
            .prepare_cached("SELECT value FROM setting WHERE name = ?1")?
            .query_row([name], |row| row.get(0))
            .optional()?)
    }

    /// Keeps JSON under a name, in place of what was there; `None` wipes it.
    ///
    /// # Errors
    /// When the store fails; what was there stays then.
    pub fn keep_setting(&mut self, name: &str, json: Option<&str>) -> Result<(), StoreError> {
        let tx = self.transaction()?;
        match json {
            Some(json) => tx.execute(
                "INSERT INTO setting (name, value) VALUES (?1, ?2)
                 ON CONFLICT (name) DO UPDATE SET value = excluded.value",
                (name, json),
            )?,
            None => tx.execute("DELETE FROM setting WHERE name = ?1", [name])?,
        };
        tx.commit()?;
        Ok(())
    }
}
