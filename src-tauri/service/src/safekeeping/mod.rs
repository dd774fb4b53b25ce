//! Backups and checks of the open notebook.

pub(crate) mod ask;
pub(crate) mod pages;
pub(crate) mod set_aside;
pub(crate) mod set_aside_pages;

use std::path::PathBuf;

use crate::safekeeping::pages::{count, megabytes};
use crate::{
    BackupRow, Changed, NotebookCheck, Problem, Reply, Safekeeping, SalvageReport, Service,
    read_only,
};
use notebook::StoreError;
use notebook::durability::{Check, backup, backups, photos, seals};
use notebook::notebook::Notebook;

/// Rows of `setting`.
const LAST_CHECK: &str = "last_check";
const LAST_SALVAGE: &str = "last_salvage";

impl Service {
    /// The notebook's file.
    fn file(&self) -> Result<PathBuf, Problem> {
        self.notebook
            .path()
            .map(std::path::Path::to_path_buf)
            .ok_or_else(|| Problem::conflict("this notebook lies in memory alone: it has no file"))
    }

    pub(crate) fn safekeeping(&mut self) -> Result<Reply<Safekeeping>, Problem> {
        let file = self.file()?;
        let bytes = std::fs::metadata(&file).map_or(0, |file| file.len());
        Ok(read_only(Safekeeping {
            megabytes: megabytes(bytes),
            folder: backup::folder_of(&file).display().to_string(),
            backups: backups(&file).iter().map(BackupRow::of).collect(),
            notebook: file.display().to_string(),
            last_check: self.last_check()?,
            last_salvage: note(&self.notebook, LAST_SALVAGE)?,
        }))
    }

    pub(crate) fn back_up(&mut self) -> Result<Reply<BackupRow>, Problem> {
        let file = self.file()?;
        let now = self.notebook.clock().now();
        let made = backup::back_up_beside(self.notebook.db(), &file, now)?;
        Ok(read_only(BackupRow::of(&made)))
    }

    pub(crate) fn check_notebook(
        &mut self,
        only_if_due: bool,
    ) -> Result<Reply<NotebookCheck>, Problem> {
        if only_if_due && let Some(check) = self.checked_today()? {
            return Ok(read_only(check));
        }
        let found = self.notebook.check()?;
        self.take_check(&found)
    }

    fn last_check(&self) -> Result<Option<NotebookCheck>, Problem> {
        note(&self.notebook, LAST_CHECK)
    }

    /// The last check, where it was made today.
    fn checked_today(&self) -> Result<Option<NotebookCheck>, Problem> {
        let today = self.notebook.clock().today();
        Ok(self
            .last_check()?
            .filter(|check| check.at.date_naive() == today))
    }

    /// Acts on what a check found: views are filled anew, damage of the log is a
    /// problem.
    fn take_check(&mut self, found: &Check) -> Result<Reply<NotebookCheck>, Problem> {
        if let Some(problem) = damage(found) {
            return Err(problem);
        }
        if found.own_id_altered {
            self.with_notebook(Notebook::take_new_device_id)?;
        }
        if !found.seals.is_empty() {
            self.with_notebook(|notebook| seals::mend(notebook, &found.seals))?;
        }
        let mended = !found.views.is_empty();
        if mended {
            self.with_notebook(Notebook::rebuild)?;
        }
        // After the views, since these name the files.
        let photo_files = photos::look(&self.notebook)?;
        photos::mend(&mut self.notebook, &photo_files)?;
        let check = NotebookCheck {
            at: self.notebook.clock().now(),
            changes: count(found.changes),
            mended,
            photos: count(photo_files.files),
            photos_damaged: count(photo_files.damaged.len() as u64),
            photos_missing: count(photo_files.missing.len() as u64),
        };
        keep_note(&mut self.notebook, LAST_CHECK, &check)?;
        // Whatever a screen shows may have been among what was mended.
        let mut changed = Vec::new();
        if mended {
            changed.extend([Changed::Names, Changed::Settings, Changed::Weather]);
        }
        if !photo_files.is_sound() {
            changed.push(Changed::Photos);
        }
        Ok(Reply {
            answer: check,
            changed,
        })
    }
}

impl SalvageReport {
    /// Remembers it in the notebook that came of it.
    pub(crate) fn keep(&self, notebook: &mut Notebook) -> Result<(), Problem> {
        keep_note(notebook, LAST_SALVAGE, self)
    }
}

/// A check that found damage, as a problem.
fn damage(found: &Check) -> Option<Problem> {
    let fault = || found.first_fault().unwrap_or_default();
    if found.lacks.is_some() {
        return Some(StoreError::Lacks(fault()).into());
    }
    found
        .is_damaged()
        .then(|| StoreError::Damaged(fault()).into())
}

/// Notes that cannot be read count as none.
fn note<T: serde::de::DeserializeOwned>(
    notebook: &Notebook,
    name: &str,
) -> Result<Option<T>, Problem> {
    Ok(notebook
        .setting(name)?
        .and_then(|json| serde_json::from_str(&json).ok()))
}

fn keep_note(
    notebook: &mut Notebook,
    name: &str,
    note: &impl serde::Serialize,
) -> Result<(), Problem> {
    let json = serde_json::to_string(note).map_err(StoreError::from)?;
    Ok(notebook.keep_setting(name, Some(&json))?)
}
