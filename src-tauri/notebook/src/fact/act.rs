//! What a person did, as the kind of a change: for the history and for undo.
//! What a change *means* is in its facts.

/// A planting was made (and its farm, field and hybrid where new).
pub const PLANTING_ADDED: &str = "planting_added";
/// Fields of a planting were edited.
pub const PLANTING_EDITED: &str = "planting_edited";
/// A planting was hidden.
pub const PLANTING_REMOVED: &str = "planting_removed";
/// A planting was brought back.
pub const PLANTING_RESTORED: &str = "planting_restored";
/// A planting was said to be another one too.
pub const PLANTING_MERGED: &str = "planting_merged";
/// A merged planting is one of its own again.
pub const PLANTING_UNMERGED: &str = "planting_unmerged";
/// A walk was begun, with its first stop.
pub const WALK_STARTED: &str = "walk_started";
/// A walk was marked as finished.
pub const WALK_FINISHED: &str = "walk_finished";
/// A finished walk was opened again.
pub const WALK_REOPENED: &str = "walk_reopened";
/// A walk was given another date.
pub const WALK_EDITED: &str = "walk_edited";
/// A walk was hidden.
pub const WALK_REMOVED: &str = "walk_removed";
/// A hidden walk was brought back.
pub const WALK_RESTORED: &str = "walk_restored";
/// The next stop was opened.
pub const STOP_ADDED: &str = "stop_added";
/// A stop was given a place.
pub const STOP_PLACED: &str = "stop_placed";
/// Outlines of a file were stored.
pub const OUTLINES_IMPORTED: &str = "outlines_imported";
/// An outline was taken out.
pub const OUTLINE_REMOVED: &str = "outline_removed";
/// A photo was taken or chosen.
pub const PHOTO_ADDED: &str = "photo_added";
/// A photo's caption was written.
pub const PHOTO_CAPTIONED: &str = "photo_captioned";
/// A photo was taken out.
pub const PHOTO_REMOVED: &str = "photo_removed";
/// A photo was brought back.
pub const PHOTO_RESTORED: &str = "photo_restored";
/// A head was read.
pub const HEAD_READ: &str = "head_read";
/// A head was corrected.
pub const HEAD_CORRECTED: &str = "head_corrected";
/// A head was taken out.
pub const HEAD_REMOVED: &str = "head_removed";
/// A branch of a copied device's series was moved to a series of its own.
pub const BRANCH_MOVED: &str = "branch_moved";
/// Something in a walk was taken back.
pub const UNDONE: &str = "undone";
/// Days of a weather file were stored.
pub const WEATHER_IMPORTED: &str = "weather_imported";
/// A day's weather was typed in.
pub const WEATHER_TYPED: &str = "weather_typed";
/// A station was given a place.
pub const STATION_PLACED: &str = "station_placed";
/// A heat set was made or edited.
pub const HEAT_SET_SAVED: &str = "heat_set_saved";
/// A heat set was hidden.
pub const HEAT_SET_REMOVED: &str = "heat_set_removed";
/// A heat set was brought back.
pub const HEAT_SET_RESTORED: &str = "heat_set_restored";
/// A heat set was chosen for the notebook, a hybrid or a planting.
pub const HEAT_SET_CHOSEN: &str = "heat_set_chosen";
/// A hybrid was given a maturity class.
pub const HYBRID_EDITED: &str = "hybrid_edited";
/// A station was chosen for the plantings of a field.
pub const FIELD_EDITED: &str = "field_edited";
/// Rows of a file were stored.
pub const FILE_IMPORTED: &str = "file_imported";
/// Ripe grain was looked at.
pub const OBSERVED: &str = "observed";
/// An observation was corrected.
pub const OBSERVATION_CORRECTED: &str = "observation_corrected";
/// An observation was taken out.
pub const OBSERVATION_REMOVED: &str = "observation_removed";
/// Terms of a harvest were set.
pub const TERMS_SET: &str = "terms_set";
/// Something about a harvest was taken back.
pub const HARVEST_UNDONE: &str = "harvest_undone";
