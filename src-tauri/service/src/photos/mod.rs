//! Photos: kept, shown, captioned, removed.

pub(crate) mod ask;
pub(crate) mod pages;

use std::collections::{BTreeMap, BTreeSet};

use serde_json::json;
use uuid::Uuid;

use crate::live::{live_head, live_stop};
use crate::live::{live_planting, live_walk};
use crate::photos::pages::OfferedPlace;
use crate::rows::{giving, set_flag};
use crate::walks::number;
use crate::{
    Done, PhotoAdded, PhotoList, PhotoOf, PhotoSize, PhotoStorage, PhotoView, Place, Problem,
    Reply, Service, read_only,
};
use notebook::StoreError;
use notebook::apply::Touched;
use notebook::fact::{Act, Body, Fact, Field, PhotoTaken, Row};
use notebook::photo::picture::{self, Picture};
use notebook::photo::{PhotoFiles, PhotoName};
use notebook::views::photos::{self, Photo};
use notebook::views::walks;

/// Longest caption, characters.
const LONGEST_CAPTION: usize = 500;

impl Service {
    /// Keeps a photo: the file first, then the fact. Asked twice with one id it
    /// stores nothing twice.
    pub(crate) fn add_photo(
        &mut self,
        id: Option<Uuid>,
        of: PhotoOf,
        picture: &Picture,
    ) -> Result<Reply<PhotoAdded>, Problem> {
        let shown = self.shown(of)?;
        let name = PhotoName::of(&picture.jpeg);
        let files = self.notebook.photo_files()?.clone();
        let was_here = files.length(name).is_some();
        files.put(name, &picture.jpeg)?;
        files.put_thumbnail(name, &picture.thumbnail);
        let told = self.tell_photo(id, of, &shown, name, picture);
        if told.is_err() && !was_here && !photos::is_named(self.notebook.db(), name)? {
            files.discard(name);
        }
        let (id, touched) = told?;
        let changed = self.changed(&touched)?;
        let offered = match (shown.stop, picture.place) {
            (Some(stop), Some((latitude, longitude))) => walks::stop(self.notebook.db(), stop)?
                .filter(|known| known.place.is_none())
                .map(|_| OfferedPlace {
                    stop,
                    place: Place {
                        latitude,
                        longitude,
                        accuracy_m: None,
                        age_s: None,
                    },
                }),
            _ => None,
        };
        let photo = self.photo_view(live_photo(self, id)?)?;
        Ok(Reply {
            answer: PhotoAdded { photo, offered },
            changed,
        })
    }

    /// Stores the fact of a photo whose file is on the disk.
    fn tell_photo(
        &mut self,
        id: Option<Uuid>,
        of: PhotoOf,
        shown: &Shown,
        name: PhotoName,
        picture: &Picture,
    ) -> Result<(Uuid, Touched), Problem> {
        self.notebook.set_photo_freed(name, false)?;
        self.notebook.write(|writer| {
            if let Some(id) = id
                && let Some(known) = photos::photo(writer.db(), id)?
            {
                return if known.name == name && of_photo(&known) == of {
                    Ok(id)
                } else {
                    Err(Problem::conflict(
                        "this id is taken by another photo: use a new id",
                    ))
                };
            }
            let id = writer.id(id)?;
            let fact = Fact::Photo(PhotoTaken {
                id,
                planting: shown.planting,
                walk: shown.walk,
                stop: shown.stop,
                head: shown.head,
                name,
                bytes: picture.jpeg.len() as u64,
                width: picture.width,
                height: picture.height,
                taken: picture.taken,
            });
            writer.record(Act::PhotoAdded, &Body::of(vec![fact]))?;
            Ok(id)
        })
    }

    pub(crate) fn photos(&self, of: PhotoOf) -> Result<Reply<PhotoList>, Problem> {
        let db = self.notebook.db();
        let found = match of {
            PhotoOf::Planting(id) => photos::of_planting(db, live_planting(db, id)?.id)?,
            PhotoOf::Stop(id) => photos::of_stop(db, id)?,
            PhotoOf::Head(id) => photos::of_head(db, id)?,
        };
        let rows = found
            .into_iter()
            .map(|photo| self.photo_view(photo))
            .collect::<Result<_, _>>()?;
        Ok(read_only(PhotoList { rows }))
    }

    pub(crate) fn caption_photo(
        &mut self,
        id: Uuid,
        caption: &str,
    ) -> Result<Reply<PhotoView>, Problem> {
        let caption = caption.split_whitespace().collect::<Vec<_>>().join(" ");
        if caption.chars().count() > LONGEST_CAPTION {
            return Err(Problem::bad_input(format!(
                "the caption is longer than {LONGEST_CAPTION} characters: shorten it"
            )));
        }
        let caption = Some(caption).filter(|caption| !caption.is_empty());
        let known = live_photo(self, id)?;
        let ((), touched) = self.notebook.write(|writer| {
            if known.caption == caption {
                return Ok(());
            }
            let walk = known.walk.unwrap_or(known.planting);
            let to = BTreeMap::from([(Field::Caption, json!(caption))]);
            let fact = giving(writer.db(), Row::Photo, id, Some(walk), to)?;
            Ok::<(), Problem>(writer.record(Act::PhotoCaptioned, &Body::of(vec![fact]))?)
        })?;
        let changed = self.changed(&touched)?;
        let photo = self.photo_view(live_photo(self, id)?)?;
        Ok(Reply {
            answer: photo,
            changed,
        })
    }

    /// Takes a photo out, or brings it back. Its file stays.
    pub(crate) fn remove_photo(&mut self, id: Uuid, removed: bool) -> Result<Reply<Done>, Problem> {
        let ((), touched) = self.notebook.write(|writer| {
            let known =
                photos::photo(writer.db(), id)?.ok_or_else(|| Problem::not_found("photo"))?;
            if known.removed == removed {
                return Ok(());
            }
            let mut body = set_flag(writer.db(), Row::Photo, id, Field::Removed, removed)?;
            for fact in &mut body.facts {
                if let Fact::Set { walk, .. } = fact {
                    *walk = Some(known.walk.unwrap_or(known.planting));
                }
            }
            let kind = if removed {
                Act::PhotoRemoved
            } else {
                Act::PhotoRestored
            };
            Ok::<(), Problem>(writer.record(kind, &body)?)
        })?;
        Ok(Reply {
            answer: Done {},
            changed: self.changed(&touched)?,
        })
    }

    pub(crate) fn want_photo(&mut self, id: Uuid) -> Result<Reply<Done>, Problem> {
        let photo = live_photo(self, id)?;
        self.notebook.set_photo_freed(photo.name, false)?;
        Ok(read_only(Done {}))
    }

    pub(crate) fn photo_storage(&self) -> Result<PhotoStorage, Problem> {
        let mut storage = PhotoStorage {
            photos: 0,
            bytes: 0,
            only_here: 0,
            can_free: 0,
            elsewhere: 0,
        };
        let to_free = self.notebook.photos_to_free()?;
        let to_free: BTreeSet<PhotoName> =
            to_free.ask_hub.into_iter().chain(to_free.unnamed).collect();
        let mut here = BTreeSet::new();
        for (name, bytes) in self.notebook.photo_files()?.all()? {
            here.insert(name);
            storage.photos += 1;
            storage.bytes += bytes;
            if to_free.contains(&name) {
                storage.can_free += bytes;
            } else {
                storage.only_here += 1;
            }
        }
        let named = self.notebook.photos_named()?;
        let elsewhere = named.iter().filter(|name| !here.contains(name)).count();
        storage.elsewhere = u32::try_from(elsewhere).unwrap_or(u32::MAX);
        Ok(storage)
    }

    /// The bytes of a photo, for a face to show; none where they are not here.
    ///
    /// # Errors
    /// When the file is damaged or the disk fails.
    pub fn photo_bytes(
        &self,
        name: PhotoName,
        size: PhotoSize,
    ) -> Result<Option<Vec<u8>>, Problem> {
        photo_bytes(self.notebook.photo_files()?, name, size)
    }

    fn photo_view(&self, photo: Photo) -> Result<PhotoView, Problem> {
        let db = self.notebook.db();
        let on_hub = self.notebook.photo_mark(photo.name)?.on_hub;
        let mut stop_number = None;
        if let (Some(walk), Some(stop)) = (photo.walk, photo.stop) {
            let at = walks::stops(db, walk)?
                .iter()
                .position(|each| each.id == stop);
            stop_number = at.map(number);
        }
        let (mut head_number, mut head) = (None, None);
        if let (Some(stop), Some(of)) = (photo.stop, photo.head) {
            let heads = walks::heads(db, stop)?;
            if let Some(at) = heads.iter().position(|each| each.id == of) {
                head_number = Some(number(at));
                head = heads.get(at).map(|head| head.said.head);
            }
        }
        Ok(PhotoView {
            of: of_photo(&photo),
            id: photo.id,
            planting: photo.planting,
            walked_on: photo.walked_on,
            stop_number,
            head_number,
            head,
            here: self.notebook.photo_files()?.length(photo.name).is_some(),
            on_hub,
            name: photo.name,
            bytes: u32::try_from(photo.bytes).unwrap_or(u32::MAX),
            width: photo.width,
            height: photo.height,
            taken: photo.taken,
            recorded_at: photo.recorded_at,
            caption: photo.caption,
        })
    }

    /// What a new photo shows, with all that it belongs to.
    fn shown(&self, of: PhotoOf) -> Result<Shown, Problem> {
        let db = self.notebook.db();
        let (stop, head) = match of {
            PhotoOf::Planting(id) => {
                return Ok(Shown {
                    planting: live_planting(db, id)?.id,
                    walk: None,
                    stop: None,
                    head: None,
                });
            }
            PhotoOf::Stop(id) => (live_stop(db, id)?, None),
            PhotoOf::Head(id) => {
                let head = live_head(db, id)?;
                (live_stop(db, head.stop)?, Some(head.id))
            }
        };
        Ok(Shown {
            planting: live_walk(db, stop.walk)?.planting,
            walk: Some(stop.walk),
            stop: Some(stop.id),
            head,
        })
    }
}

/// A photo's bytes; a thumbnail that is not here is made. A file that is damaged
/// is set aside, so that it is fetched again and never shown.
pub(crate) fn photo_bytes(
    files: &PhotoFiles,
    name: PhotoName,
    size: PhotoSize,
) -> Result<Option<Vec<u8>>, Problem> {
    let whole = || match files.read(name) {
        Err(damaged @ StoreError::PhotoDamaged(_)) => {
            files.set_aside(name)?;
            Err(damaged)
        }
        read => read,
    };
    match size {
        PhotoSize::Whole => Ok(whole()?),
        PhotoSize::Small => {
            if let Some(kept) = files.thumbnail(name) {
                return Ok(Some(kept));
            }
            let Some(whole) = whole()? else {
                return Ok(None);
            };
            let small = picture::thumbnail(&whole)?;
            files.put_thumbnail(name, &small);
            Ok(Some(small))
        }
    }
}

struct Shown {
    planting: Uuid,
    walk: Option<Uuid>,
    stop: Option<Uuid>,
    head: Option<Uuid>,
}

fn of_photo(photo: &Photo) -> PhotoOf {
    match (photo.head, photo.stop) {
        (Some(head), _) => PhotoOf::Head(head),
        (None, Some(stop)) => PhotoOf::Stop(stop),
        (None, None) => PhotoOf::Planting(photo.planting),
    }
}

fn live_photo(service: &Service, id: Uuid) -> Result<Photo, Problem> {
    photos::photo(service.notebook.db(), id)?
        .filter(|photo| !photo.removed)
        .ok_or_else(|| Problem::not_found("photo"))
}
