//! Where the secret of a membership and the device's key are kept: never in the notebook's own file,
//! which is backed up, archived and handed on.
//!
//! The notebook keeps only a handle. A notebook that was copied to another
//! device is therefore no member there.

use crate::trouble::Trouble;
use data_encoding::HEXLOWER;
use std::fs::{self, OpenOptions};
use std::io::{ErrorKind, Write};
use std::path::{Path, PathBuf};
use uuid::Uuid;

/// The secret that proves a membership.
pub type Secret = [u8; 32];

/// A place for secrets, by handle.
pub trait Tokens: Send + Sync {
    /// The secret of a handle; absent when it is not on this device.
    ///
    /// # Errors
    /// When the place does not answer.
    fn read(&self, handle: Uuid) -> Result<Option<Secret>, Trouble>;

    /// Keeps a secret; on the disk when this returns.
    ///
    /// # Errors
    /// When it cannot be kept.
    fn keep(&self, handle: Uuid, secret: &Secret) -> Result<(), Trouble>;

    /// The secret key with which this device seals, kept with the secret of a handle.
    ///
    /// # Errors
    /// When the place does not answer.
    fn read_key(&self, handle: Uuid) -> Result<Option<Secret>, Trouble>;

    /// Keeps the secret key with the secret of a handle; on the disk when this returns.
    ///
    /// # Errors
    /// When it cannot be kept, or the handle's secret is not here.
    fn keep_key(&self, handle: Uuid, key: &Secret) -> Result<(), Trouble>;

    /// Wipes a secret and the key with it.
    ///
    /// # Errors
    /// When the place does not answer.
    fn forget(&self, handle: Uuid) -> Result<(), Trouble>;
}

/// A file beside the notebook that only its user may read.
#[derive(Debug, Clone)]
pub struct FileTokens {
    path: PathBuf,
}

impl FileTokens {
    /// For the notebook at `notebook`: its path with `.token` behind.
    #[must_use]
    pub fn beside(notebook: &Path) -> Self {
        let mut path = notebook.as_os_str().to_owned();
        path.push(".token");
        Self { path: path.into() }
    }

    fn trouble(&self, error: &std::io::Error) -> Trouble {
        Trouble::Notebook(format!("{}: {error}", self.path.display()))
    }

    /// The secret of a handle, and the key where there is one.
    fn held(&self, handle: Uuid) -> Result<Option<(Secret, Option<Secret>)>, Trouble> {
        let text = match fs::read_to_string(&self.path) {
            Ok(text) => text,
            Err(error) if error.kind() == ErrorKind::NotFound => return Ok(None),
            Err(error) => return Err(self.trouble(&error)),
        };
        let mut words = text.split_whitespace();
        if words.next().and_then(|of| Uuid::try_parse(of).ok()) != Some(handle) {
            return Ok(None);
        }
        let mut secret = || -> Option<Secret> {
            let bytes = HEXLOWER.decode(words.next()?.as_bytes()).ok()?;
            bytes.try_into().ok()
        };
        Ok(secret().map(|first| (first, secret())))
    }

    fn write(&self, handle: Uuid, secret: &Secret, key: Option<&Secret>) -> Result<(), Trouble> {
        let mut making = self.path.as_os_str().to_owned();
        making.push(".new");
        let making = PathBuf::from(making);
        let mut line = format!("{} {}", handle.simple(), HEXLOWER.encode(secret));
        if let Some(key) = key {
            line.push(' ');
            line.push_str(&HEXLOWER.encode(key));
        }
        let write = || -> std::io::Result<()> {
            match fs::remove_file(&making) {
                Err(error) if error.kind() != ErrorKind::NotFound => return Err(error),
                _ => {}
            }
            let mut options = OpenOptions::new();
            options.write(true).create_new(true);
            #[cfg(unix)]
            {
                use std::os::unix::fs::OpenOptionsExt as _;
                options.mode(0o600);
            }
            let mut file = options.open(&making)?;
            writeln!(file, "{line}")?;
            file.sync_all()?;
            fs::rename(&making, &self.path)
        };
        write().map_err(|error| self.trouble(&error))
    }
}

impl Tokens for FileTokens {
    fn read(&self, handle: Uuid) -> Result<Option<Secret>, Trouble> {
        Ok(self.held(handle)?.map(|(secret, _)| secret))
    }

    fn keep(&self, handle: Uuid, secret: &Secret) -> Result<(), Trouble> {
        let key = self.read_key(handle)?;
        self.write(handle, secret, key.as_ref())
    }

    fn read_key(&self, handle: Uuid) -> Result<Option<Secret>, Trouble> {
        Ok(self.held(handle)?.and_then(|(_, key)| key))
    }

    fn keep_key(&self, handle: Uuid, key: &Secret) -> Result<(), Trouble> {
        let secret = self.read(handle)?.ok_or(Trouble::NoToken)?;
        self.write(handle, &secret, Some(key))
    }

    fn forget(&self, _: Uuid) -> Result<(), Trouble> {
        match fs::remove_file(&self.path) {
            Err(error) if error.kind() != ErrorKind::NotFound => Err(self.trouble(&error)),
            _ => Ok(()),
        }
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;

    #[test]
    fn a_file_keeps_one_secret_for_its_user_alone() {
        let folder = std::env::temp_dir().join(format!("headwalk-{}", Uuid::now_v7()));
        fs::create_dir(&folder).unwrap();
        let tokens = FileTokens::beside(&folder.join("notebook.db"));
        let (one, other) = (Uuid::from_u128(1), Uuid::from_u128(2));
        assert_eq!(tokens.read(one), Ok(None));
        tokens.keep(one, &[7; 32]).unwrap();
        assert_eq!(tokens.read(one), Ok(Some([7; 32])));
        assert_eq!(tokens.read(other), Ok(None), "another membership's");
        assert_eq!(
            tokens.read_key(one),
            Ok(None),
            "an older version kept no key"
        );
        assert_eq!(tokens.keep_key(other, &[9; 32]), Err(Trouble::NoToken));
        tokens.keep_key(one, &[9; 32]).unwrap();
        tokens.keep(one, &[7; 32]).unwrap();
        assert_eq!(
            tokens.read_key(one),
            Ok(Some([9; 32])),
            "kept with the secret"
        );
        tokens.keep(other, &[8; 32]).unwrap();
        assert_eq!(tokens.read(other), Ok(Some([8; 32])));
        assert_eq!(
            tokens.read_key(other),
            Ok(None),
            "a new membership, a new key"
        );
        #[cfg(unix)]
        {
            use std::os::unix::fs::PermissionsExt as _;
            let mode = fs::metadata(folder.join("notebook.db.token"))
                .unwrap()
                .permissions()
                .mode();
            assert_eq!(mode & 0o777, 0o600);
        }
        tokens.forget(other).unwrap();
        tokens.forget(other).unwrap();
        assert_eq!(tokens.read(other), Ok(None));
        fs::remove_dir_all(folder).unwrap();
    }
}
