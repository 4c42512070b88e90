//! Lists that were used from other folders: every job is offered them, and a job finds its own wherever it is saved.

use std::path::{Path, PathBuf};

use super::lists::{Shop, ShopError};
use crate::job::reading;

/// Where they are remembered, in the shop's folder.
const FILE: &str = "used.ron";
/// Number remembered.
const MOST: usize = 50;

impl Shop {
    /// Lists used from outside the shop's folder, the latest first; none where that is not known.
    pub fn used(&self) -> Vec<PathBuf> {
        let read: Option<Vec<String>> = self.settings(FILE);
        read.into_iter().flatten().map(PathBuf::from).collect()
    }

    /// Remembers that the list at this path was used. One in the shop's folder, or with a name that is no text, needs no
    /// remembering.
    ///
    /// # Errors
    /// [`ShopError::Disk`]; what was remembered before is then untouched.
    pub fn remember_used(&self, list: &Path) -> Result<(), ShopError> {
        let Some(folder) = &self.folder else { return Ok(()) };
        let list = std::path::absolute(list).unwrap_or_else(|_| list.to_owned());
        let Some(text) = list.to_str().filter(|_| !list.starts_with(folder)).map(str::to_owned) else { return Ok(()) };
        let earlier = self.used();
        if earlier.first() == Some(&list) {
            return Ok(());
        }
        let others = earlier.iter().filter(|p| **p != list).filter_map(|p| p.to_str().map(str::to_owned));
        let all: Vec<String> = std::iter::once(text).chain(others).take(MOST).collect();
        self.keep_settings(FILE, &all)
    }

    /// Those of this name that are still there.
    pub(super) fn used_of_name(&self, name: &str) -> Vec<PathBuf> {
        let has_name = |p: &PathBuf| p.file_name().is_some_and(|n| n == name) && reading::is_there(p);
        self.used().into_iter().filter(has_name).collect()
    }
}
