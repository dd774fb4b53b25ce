//! `headwalk check`, `backup` and `restore`: the notebook's own keeping.

use std::io::{self, Write};
use std::path::{Path, PathBuf};

use clap::Args;
use notebook::durability::{self, backup, photos, seals};
use notebook::photo::PhotoName;
use notebook::{Clock as _, Notebook, StoreError, SystemClock, SystemRandomness};

use crate::failure::Failure;
use crate::place;

/// Looks at the whole notebook: its file, every change of its log, and whether what
/// the screens show is what the log says
#[derive(Args)]
pub struct Check {
    /// The notebook; your own where absent
    #[arg(long, value_name = "FILE")]
    notebook: Option<PathBuf>,
    /// Make anew from the log what does not agree with it
    #[arg(long)]
    mend: bool,
    /// Set a damaged notebook aside and carry everything that can be read into a new
    /// one; the damaged file is kept
    #[arg(long)]
    salvage: bool,
}

/// Writes a whole copy of the notebook, checked, while the notebook may be in use
#[derive(Args)]
pub struct Backup {
    /// The copy, which must not be there yet; a dated name in the folder `backups`
    /// beside the notebook where absent
    file: Option<PathBuf>,
    /// The notebook; your own where absent
    #[arg(long, value_name = "FILE")]
    notebook: Option<PathBuf>,
}

/// Puts a backup in the place of the notebook, which is set aside, not deleted
#[derive(Args)]
pub struct Restore {
    /// The backup
    file: PathBuf,
    /// The notebook; your own where absent
    #[arg(long, value_name = "FILE")]
    notebook: Option<PathBuf>,
}

impl Check {
    pub fn run(self) -> Result<(), Failure> {
        let path = there(self.notebook)?;
        if self.salvage {
            return salvage(&path);
        }
        let failed = |error| Failure::from(error).in_file(&path);
        let mut notebook = match Notebook::open_here(&path, None) {
            Err(StoreError::ReadOnly) if !self.mend => {
                Notebook::open_copy(&path, Box::new(SystemClock), Box::new(SystemRandomness))
            }
            opened => opened,
        }
        .map_err(failed)?;
        let found = notebook.check().map_err(failed)?;
        if let Some(lacks) = found.lacks {
            // Never mended from the log, which is what lacks something.
            return Err(failed(StoreError::Lacks(lacks)));
        }
        if found.is_damaged() {
            return Err(Failure::work(format!(
                "the notebook is damaged ({}): run headwalk check --salvage, which keeps the file",
                found.first_fault().unwrap_or_default()
            ))
            .in_file(&path));
        }
        if found.own_id_altered {
            let fault = found.first_fault().unwrap_or_default();
            if !self.mend {
                return Err(Failure::work(format!(
                    "{fault}: run headwalk check --mend, which gives it a new one"
                ))
                .in_file(&path));
            }
            notebook.take_new_device_id().map_err(failed)?;
            writeln!(io::stdout(), "{fault}: it has a new one now")?;
        }
        if let Some(first) = found.seals.first() {
            let said = match found.seals.len() {
                1 => first.to_string(),
                count => format!("{first}, and {} more", count - 1),
            };
            if !self.mend {
                return Err(Failure::work(format!(
                    "{said}: run headwalk check --mend, which lets it go, then exchange with \
                     the hub, which brings another"
                ))
                .in_file(&path));
            }
            seals::mend(&mut notebook, &found.seals).map_err(failed)?;
            writeln!(io::stdout(), "{said}: let go; an exchange brings another")?;
        }
        let views = if found.views.is_empty() {
            "the views say what the log says".to_owned()
        } else if self.mend {
            notebook.rebuild().map_err(failed)?;
            format!("made anew from the log: {}", found.views.join(", "))
        } else {
            return Err(Failure::work(format!(
                "these do not say what the log says: {}; run headwalk check --mend",
                found.views.join(", ")
            ))
            .in_file(&path));
        };
        writeln!(
            io::stdout(),
            "the file is sound; {} changes, each proved; {views}",
            found.changes
        )?;
        for remark in durability::check::remarks(&notebook).map_err(failed)? {
            writeln!(io::stdout(), "{remark}")?;
        }
        photo_files(&mut notebook, self.mend).map_err(|failure| failure.in_file(&path))
    }
}

/// Says what became of the photos' files; `mend` sets damaged ones aside.
fn photo_files(notebook: &mut Notebook, mend: bool) -> Result<(), Failure> {
    let found = photos::look(notebook)?;
    if found.is_sound() {
        writeln!(
            io::stdout(),
            "{} photo files, each what its name says",
            found.files
        )?;
        return Ok(());
    }
    let first = |names: &[PhotoName]| {
        names.first().map_or_else(String::new, |name| {
            format!(" ({name}{})", if names.len() > 1 { ", ..." } else { "" })
        })
    };
    let said = format!(
        "of {} photo files {} are damaged{}; {} that were here are gone{}",
        found.files,
        found.damaged.len(),
        first(&found.damaged),
        found.missing.len(),
        first(&found.missing),
    );
    if !mend {
        return Err(Failure::work(format!(
            "{said}: run headwalk check --mend, which sets damaged ones aside, then exchange \
             with the hub or bring in an archive, which bring them back"
        )));
    }
    let moved = photos::mend(notebook, &found)?;
    writeln!(io::stdout(), "{said}; {moved} set aside, none deleted")?;
    Ok(())
}

fn salvage(path: &Path) -> Result<(), Failure> {
    let salvaged = durability::salvage(path, Box::new(SystemClock), Box::new(SystemRandomness))
        .map_err(|error| Failure::from(error).in_file(path))?;
    writeln!(io::stdout(), "{}", salvaged.sentence())?;
    if let Some(aside) = &salvaged.set_aside {
        writeln!(io::stdout(), "the damaged file lies at {}", aside.display())?;
    }
    Ok(())
}

impl Backup {
    pub fn run(self) -> Result<(), Failure> {
        let path = there(self.notebook)?;
        let notebook = Notebook::open_here(&path, None)
            .map_err(|error| Failure::from(error).in_file(&path))?;
        let made = match &self.file {
            Some(file) => durability::back_up(notebook.db(), file),
            None => backup::back_up_beside(notebook.db(), &path, SystemClock.now()),
        };
        let made = made.map_err(|error| Failure::from(error).in_file(&path))?;
        writeln!(io::stdout(), "{}", made.path.display())?;
        Ok(())
    }
}

impl Restore {
    pub fn run(self) -> Result<(), Failure> {
        let path = match self.notebook {
            Some(path) => path,
            None => place::own_notebook()?,
        };
        if !self.file.is_file() {
            return Err(Failure::work("there is no such file: check the path").in_file(&self.file));
        }
        let restored = durability::restore(
            &path,
            &self.file,
            Box::new(SystemClock),
            Box::new(SystemRandomness),
        )
        .map_err(|error| Failure::from(error).in_file(&self.file))?;
        writeln!(
            io::stdout(),
            "{} changes are in the notebook",
            restored.changes
        )?;
        if let Some(aside) = &restored.set_aside {
            writeln!(
                io::stdout(),
                "the notebook before it lies at {}",
                aside.display()
            )?;
        }
        Ok(())
    }
}

/// The notebook named, or one's own; it must be there already.
fn there(named: Option<PathBuf>) -> Result<PathBuf, Failure> {
    let path = match named {
        Some(path) => path,
        None => place::own_notebook()?,
    };
    if path.is_file() {
        Ok(path)
    } else {
        Err(Failure::work("there is no notebook here: check the path").in_file(&path))
    }
}
