//! What may be asked about photos.

use uuid::Uuid;

use crate::asking::asks;
use crate::{Done, PhotoList, PhotoOf, PhotoView, read_only};

asks! {
    /// Photos of a planting with all its walks, of one stop, or of one head.
    List Photos {
        /// The planting, stop or head that they show.
        of: PhotoOf,
    } -> PhotoList = |service| service.photos(of);

    /// Changes: writes a photo's caption; blank takes it out.
    Tap CaptionPhoto {
        /// Id of the photo.
        photo: Uuid,
        /// What it shows.
        caption: String,
    } -> PhotoView = |service| service.caption_photo(photo, &caption);

    /// Changes: takes a photo out; it is kept in the history.
    Tap RemovePhoto {
        /// Id of the photo.
        photo: Uuid,
    } -> Done = |service| service.remove_photo(photo, true);

    /// Changes: brings a removed photo back.
    Tap RestorePhoto {
        /// Id of the photo.
        photo: Uuid,
    } -> Done = |service| service.remove_photo(photo, false);

    /// Asks for a photo whose room was freed: the next exchange fetches it.
    Tap WantPhoto {
        /// Id of the photo.
        photo: Uuid,
    } -> Done = |service| service.want_photo(photo);

    /// Room that photos take.
    List PhotoStorage -> crate::PhotoStorage = |service| Ok(read_only(service.photo_storage()?));
}
