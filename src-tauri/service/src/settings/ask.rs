//! What may be asked about the settings.

use crate::asking::asks;
use crate::{read_only, settings};

asks! {
    /// The settings of this device.
    Tap Settings -> crate::Settings = |service| {
        let settings = settings::read(service.notebook.db())?;
        Ok(read_only(settings))
    };

    /// Changes: keeps the settings of this device (never exchanged).
    Tap SaveSettings {
        /// All that is said of it.
        #[serde(flatten)]
        settings: crate::Settings,
    } -> crate::Settings = |service| service.save_settings(settings);
}
