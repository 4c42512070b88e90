//! What the shop's folder remembers next to its lists: settings by name, and as what recordings were read.

use serde::Serialize;
use serde::de::DeserializeOwned;

use super::lists::{Shop, ShopError};
use super::recordings::{Ask, Mappings};
use crate::base::bounds::SETTINGS_FILE;
use crate::job::{file, reading};

/// Where columns of recordings are remembered.
const RECORDINGS: &str = "recordings.ron";

impl Shop {
    /// As what recordings were read; nothing where that is not known.
    pub fn recording_mappings(&self) -> Mappings {
        self.settings(RECORDINGS).unwrap_or_default()
    }

    /// Remembers as what a file with these columns is read; one that is read as found is forgotten.
    ///
    /// # Errors
    /// [`ShopError::Disk`]; what was remembered before is then untouched.
    pub fn remember_recording(&self, columns: &[String], read_as: &Ask) -> Result<(), ShopError> {
        let all = self.recording_mappings();
        if all.of(columns).unwrap_or(&Ask::default()) == read_as {
            return Ok(());
        }
        self.keep_settings(RECORDINGS, &all.with(columns, read_as))
    }

    /// Settings of this name in the shop's folder; `None` when there are none that can be read.
    pub(super) fn settings<T: DeserializeOwned>(&self, name: &str) -> Option<T> {
        let path = self.folder.as_ref()?.join(name);
        file::from_ron(&reading::text(&path, &SETTINGS_FILE).ok()?).ok()
    }

    /// Keeps settings under this name in the shop's folder; nothing without a folder.
    ///
    /// # Errors
    /// [`ShopError::Disk`]; what was kept before is then untouched.
    pub(super) fn keep_settings<T>(&self, name: &str, settings: &T) -> Result<(), ShopError>
    where
        T: Serialize + DeserializeOwned + PartialEq,
    {
        let Some(folder) = &self.folder else { return Ok(()) };
        let path = folder.join(name);
        let wrong = |source| ShopError::Disk { source, path: path.clone() };
        std::fs::create_dir_all(folder).map_err(wrong)?;
        file::write_settings(&path, settings).map(drop).map_err(wrong)
    }
}
