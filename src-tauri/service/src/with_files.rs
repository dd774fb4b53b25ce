//! Requests that bring files: a description in JSON, and the files' bytes behind
//! it, so that no picture travels as text.
//!
//! Reading a picture takes a tenth of a second and more, so it is done before the
//! notebook is asked for ([`prepare`]): heads are stored meanwhile.

use serde::{Deserialize, Serialize};
use uuid::Uuid;

use crate::{Answer, ChosenFile, ChosenOutline, Keep, PhotoOf, Problem, Reply, Service};
use notebook::photo::picture::{self, Picture};
use readers::outline_file::{self, FileOutline, Part};

/// A request with files behind it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS), ts(optional_fields = nullable))]
#[serde(tag = "op", rename_all = "snake_case")]
pub enum FileRequest {
    /// Changes: keeps a picture as a photo.
    AddPhoto {
        /// Id chosen by the caller: sent again, it stores nothing twice.
        id: Option<Uuid>,
        /// What it shows.
        of: PhotoOf,
    },
    /// Reads outlines of fields without storing anything.
    ReviewOutlineFile {
        /// The files, in the order of their bytes.
        files: Vec<ChosenFile>,
    },
    /// Changes: stores outlines of fields, all or nothing.
    ImportOutlineFile {
        /// The files, in the order of their bytes.
        files: Vec<ChosenFile>,
        /// Which outline is whose; by the names in the file where absent.
        chosen: Option<Vec<ChosenOutline>>,
    },
}

/// A request whose files have been read.
pub struct Prepared(Ready);

enum Ready {
    Photo {
        id: Option<Uuid>,
        of: PhotoOf,
        picture: Box<Picture>,
    },
    Outlines {
        outlines: Vec<FileOutline>,
        chosen: Option<Vec<ChosenOutline>>,
        keep: Keep,
    },
}

/// Takes a message apart: the length of the description (four bytes, the lowest
/// first), the description, the bytes.
///
/// # Errors
/// When it is cut off, or the description cannot be read.
pub fn unpack(message: &[u8]) -> Result<(FileRequest, &[u8]), Problem> {
    let cut = || Problem::bad_input("the request is cut off: send it again");
    let (length, rest) = message.split_first_chunk::<4>().ok_or_else(cut)?;
    let length = usize::try_from(u32::from_le_bytes(*length)).unwrap_or(usize::MAX);
    let (description, bytes) = rest.split_at_checked(length).ok_or_else(cut)?;
    let request = serde_json::from_slice(description)
        .map_err(|error| Problem::bad_input(format!("the request cannot be read: {error}")))?;
    Ok((request, bytes))
}

/// Reads the files of a request. Needs no notebook, and takes a while.
///
/// # Errors
/// When a file cannot be used.
pub fn prepare(request: FileRequest, bytes: &[u8]) -> Result<Prepared, Problem> {
    let outlines = |files: &[ChosenFile]| -> Result<Vec<FileOutline>, Problem> {
        let mut rest = bytes;
        let mut parts = Vec::with_capacity(files.len().min(16));
        for file in files {
            let length = usize::try_from(file.bytes).unwrap_or(usize::MAX);
            let (own, behind) = rest
                .split_at_checked(length)
                .ok_or_else(|| Problem::bad_input("the request is cut off: send it again"))?;
            parts.push(Part {
                name: &file.name,
                bytes: own,
            });
            rest = behind;
        }
        outline_file::read(&parts).map_err(|error| Problem::bad_input(error.to_string()))
    };
    Ok(Prepared(match request {
        FileRequest::AddPhoto { id, of } => Ready::Photo {
            id,
            of,
            picture: Box::new(picture::read(bytes)?),
        },
        FileRequest::ReviewOutlineFile { files } => Ready::Outlines {
            outlines: outlines(&files)?,
            chosen: None,
            keep: Keep::Nothing,
        },
        FileRequest::ImportOutlineFile { files, chosen } => Ready::Outlines {
            outlines: outlines(&files)?,
            chosen,
            keep: Keep::GoodRows,
        },
    }))
}

impl Service {
    /// Carries out a request whose files have been read.
    ///
    /// # Errors
    /// A [`Problem`]; nothing was stored then.
    pub fn call_prepared(&mut self, prepared: Prepared) -> Result<Reply<Answer>, Problem> {
        self.notice_other_writers()?;
        match prepared.0 {
            Ready::Photo { id, of, picture } => {
                let reply = self.add_photo(id, of, &picture)?;
                Ok(reply.map(|photo| Answer::AddPhoto(Box::new(photo))))
            }
            Ready::Outlines {
                outlines,
                chosen,
                keep,
            } => {
                let reply = self.outline_file(outlines, chosen.as_deref(), keep)?;
                Ok(reply.map(|review| match keep {
                    Keep::Nothing => Answer::ReviewOutlineFile(Box::new(review)),
                    Keep::GoodRows => Answer::ImportOutlineFile(Box::new(review)),
                }))
            }
        }
    }
}
