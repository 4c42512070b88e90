//! What the shop prints on every sheet, kept next to its lists: its names, and its logo.

use std::path::{Path, PathBuf};

use super::lists::{Shop, ShopError};
use crate::base::bounds::SETTINGS_FILE;
use crate::job::{self, file, reading};

const FOLDER: &str = "letterhead";
const NAMES: &str = "shop.ron";
/// Endings that a logo may have.
const LOGOS: [&str; 2] = ["logo.png", "logo.svg"];

impl Shop {
    /// The names that were remembered for new jobs; blank ones if there are none.
    ///
    /// # Errors
    /// [`ShopError::Disk`] when they are there but cannot be read.
    pub fn names_to_print(&self) -> Result<job::Shop, ShopError> {
        let Some(path) = self.letterhead().map(|f| f.join(NAMES)).filter(|p| reading::is_there(p)) else {
            return Ok(job::Shop::default());
        };
        let read = |source| ShopError::Read { source, path: path.clone() };
        let text = reading::text(&path, &SETTINGS_FILE).map_err(read)?;
        let broken = |e| ShopError::Disk { source: std::io::Error::other(e), path: path.clone() };
        file::from_ron(&text).map_err(broken)
    }

    /// Remembers names for new jobs. Returns the path of the previous file, if it held comments.
    ///
    /// # Errors
    /// [`ShopError`]; what was remembered before is then untouched.
    pub fn remember_names(&self, names: &job::Shop) -> Result<Option<PathBuf>, ShopError> {
        let path = self.letterhead_made()?.join(NAMES);
        file::write_settings(&path, names).map_err(|source| ShopError::Disk { source, path })
    }

    /// The languages of the shop's own texts of the sheets, as the names of their files say: `sheets.xx.ron`.
    pub fn sheet_languages(&self) -> Vec<String> {
        let files = self.folder.as_ref().and_then(|f| std::fs::read_dir(f).ok()).into_iter().flatten().flatten();
        let named = files.filter_map(|e| e.file_name().into_string().ok());
        let letters = |name: String| Some(name.strip_prefix("sheets.")?.strip_suffix(".ron")?.to_owned());
        let plain = |l: &String| !l.is_empty() && l.bytes().all(|b| b.is_ascii_alphanumeric() || b == b'-');
        let mut languages: Vec<String> = named.filter_map(letters).filter(plain).collect();
        languages.sort();
        languages
    }

    /// Where the shop's logo lies, if it has chosen one.
    pub fn logo(&self) -> Option<PathBuf> {
        let folder = self.letterhead()?;
        LOGOS.iter().map(|name| folder.join(name)).find(|p| reading::is_there(p))
    }

    /// Keeps a copy of a logo, in place of the one before. The caller has checked its bytes.
    ///
    /// # Errors
    /// [`ShopError`]; the logo before is then untouched.
    pub fn keep_logo(&self, bytes: &[u8]) -> Result<(), ShopError> {
        let folder = self.letterhead_made()?;
        let [png, svg] = LOGOS.map(|name| folder.join(name));
        let (to, other) = if bytes.starts_with(b"\x89PNG") { (png, svg) } else { (svg, png) };
        file::write_bytes(&to, bytes).map_err(|source| ShopError::Disk { source, path: to })?;
        remove(&other)
    }

    /// Prints no logo any more.
    ///
    /// # Errors
    /// [`ShopError::Disk`].
    pub fn forget_logo(&self) -> Result<(), ShopError> {
        self.logo().map_or(Ok(()), |path| remove(&path))
    }

    fn letterhead(&self) -> Option<PathBuf> {
        self.folder.as_ref().map(|f| f.join(FOLDER))
    }

    fn letterhead_made(&self) -> Result<PathBuf, ShopError> {
        let folder = self.letterhead().ok_or(ShopError::NoFolder)?;
        std::fs::create_dir_all(&folder).map_err(|source| ShopError::Disk { source, path: folder.clone() })?;
        Ok(folder)
    }
}

fn remove(path: &Path) -> Result<(), ShopError> {
    match std::fs::remove_file(path) {
        Err(error) if error.kind() != std::io::ErrorKind::NotFound => {
            Err(ShopError::Disk { source: error, path: path.to_owned() })
        }
        _ => Ok(()),
    }
}
