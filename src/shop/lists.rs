//! The shop's own parts lists: table files in one folder of the user's, each with what its columns mean next to it.
//!
//! A job names its list. It is looked for in the job's folder, then in the shop's folder, then where a list of that
//! name was used before; `demo` is the invented one that ships. What the columns mean is asked once and remembered in
//! `NAME.columns.ron`. Next to the lists is what the shop prints on every sheet.

use std::path::{Path, PathBuf};

use etcetera::{AppStrategy, AppStrategyArgs};
use thiserror::Error;

use crate::base::bounds::{Bound, CURVE_FILE, LIST_FILE, SETTINGS_FILE, SHEET_TEXTS_FILE};
use crate::base::language::{path_text, tr};
use crate::base::units::Unit;
use crate::job::file;
use crate::job::reading::{self, ReadError};
use crate::say;
use crate::shop::parts::test_sheet::{self, Ask, CurveTable, CurveTableError};
use crate::shop::parts::{self, Columns, List, ListError};

/// The name of the list that ships.
pub const DEMO: &str = "demo";
/// Why a list cannot be used. The path comes last.
#[derive(Debug, Error)]
pub enum ShopError {
    /// Neither in the job's folder nor in the shop's folder.
    #[error(
        "{}",
        say!(
            "no parts list \"{name}\" was found in the job's folder or among the shop's lists ({known}). Open it once, or correct the name",
            name = path_text(Path::new(name)),
            known = path_text(Path::new(known))
        )
    )]
    Unknown {
        /// The name asked for.
        name: String,
        /// The lists that there are.
        known: String,
    },
    /// Lists of that name were used from several folders.
    #[error(
        "{}",
        say!(
            "several parts lists are called \"{name}\": {paths}. Put the right one next to the job, or open it",
            name = path_text(Path::new(name)),
            paths = paths.iter().map(|p| path_text(p)).collect::<Vec<_>>().join(", ")
        )
    )]
    Several {
        /// The name asked for.
        name: String,
        /// Where they lie.
        paths: Vec<PathBuf>,
    },
    /// The file cannot be read or written.
    #[error("{}", say!("the file cannot be read or written: {source}\n  file: {path}", source, path = path_text(path)))]
    Disk {
        /// The system's message.
        source: std::io::Error,
        /// Which file.
        path: PathBuf,
    },
    /// The file cannot be read, is not an ordinary one, or is too large.
    #[error(
        "{}\n  {}",
        say!("the file could not be read: {reason}", reason = source),
        say!("file: {path}", path = path_text(path))
    )]
    Read {
        /// Why.
        source: ReadError,
        /// Which file.
        path: PathBuf,
    },
    /// The file is no parts list, or its columns are not understood.
    #[error("{}", say!("{source}\n  file: {path}", source, path = path_text(path)))]
    List {
        /// What is wrong.
        source: ListError,
        /// Which file.
        path: PathBuf,
    },
    /// The saved meaning of a list's columns cannot be read any more.
    #[error(
        "{}",
        say!(
            "the saved column meanings cannot be read: {source}. Delete this file, and the program asks for them again\n  file: {path}",
            source, path = path_text(path)
        )
    )]
    Columns {
        /// What is wrong.
        source: Box<ron::error::SpannedError>,
        /// Which file.
        path: PathBuf,
    },
    /// There is no folder of the user's to keep lists in.
    #[error(
        "{}",
        tr("this system has no folder for user data, so the list cannot be kept. Save it in the job's folder instead")
    )]
    NoFolder,
}

/// A list that was opened.
#[derive(Debug, Clone, PartialEq)]
pub struct Opened {
    /// Its name, as a job names it.
    pub name: String,
    /// Where it lies; `None` for the one that ships.
    pub path: Option<PathBuf>,
    /// What its columns mean.
    pub columns: Columns,
    /// They were chosen by the user, not guessed from the headers.
    pub said: bool,
    /// Springs, dampers, bad rows.
    pub list: List,
}

/// The shop's folder of lists.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Shop {
    pub(super) folder: Option<PathBuf>,
}

impl Shop {
    /// The user's own.
    pub fn of_user() -> Self {
        let names = AppStrategyArgs { app_name: "springwright".into(), ..AppStrategyArgs::default() };
        Shop { folder: etcetera::choose_app_strategy(names).ok().map(|s| s.data_dir().join("lists")) }
    }

    /// A folder that is named, for tests and for lists kept elsewhere.
    pub fn at(folder: PathBuf) -> Self {
        Shop { folder: Some(folder) }
    }

    /// No folder at all: only lists in the job's folder, and the one that ships.
    pub fn nowhere() -> Self {
        Shop { folder: None }
    }

    /// Names of all lists: the shop's own and those used from elsewhere, then the one that ships.
    pub fn names(&self) -> Vec<String> {
        let files = self.folder.as_ref().and_then(|f| std::fs::read_dir(f).ok());
        let name =
            |e: std::fs::DirEntry| e.file_name().into_string().ok().filter(|n| !is_settings(n) && e.path().is_file());
        let mut names: Vec<String> = files.into_iter().flatten().flatten().filter_map(name).collect();
        let used = self.used().into_iter().filter(|p| reading::is_there(p));
        names.extend(used.filter_map(|p| p.file_name()?.to_str().map(str::to_owned)));
        names.sort();
        names.dedup();
        names.push(DEMO.into());
        names
    }

    /// Opens the list that a user names: a file, or one of the shop's lists by its name.
    ///
    /// # Errors
    /// [`ShopError`].
    pub fn open_named(&self, name: &Path) -> Result<Opened, ShopError> {
        match name.to_str().filter(|_| !reading::is_there(name)) {
            // A folder of that name is refused as what it is.
            Some(text) => self.open(text, None).or_else(|unknown| match name.is_dir() {
                true => open_file(name, &path_text(name)),
                false => Err(unknown),
            }),
            None => open_file(name, &path_text(name)),
        }
    }

    /// Opens a list by the name a job gives it, from the folder of the job's own file.
    ///
    /// # Errors
    /// [`ShopError`].
    pub fn open(&self, name: &str, beside: Option<&Path>) -> Result<Opened, ShopError> {
        let near = beside.and_then(Path::parent).map(|folder| folder.join(name)).filter(|p| reading::is_there(p));
        let own = self.folder.as_ref().map(|folder| folder.join(name)).filter(|p| reading::is_there(p));
        if let Some(path) = near.or(own) {
            return open_file(&path, name);
        }
        match self.used_of_name(name).as_slice() {
            [path] => open_file(path, name),
            _ if name == DEMO => demo(),
            [] => Err(ShopError::Unknown { name: name.to_owned(), known: self.names().join(", ") }),
            paths => Err(ShopError::Several { name: name.to_owned(), paths: paths.to_vec() }),
        }
    }

    /// The shop's own texts of the sheets in a language, two letters or blank for English: `sheets.xx.ron` in its
    /// folder; `None` when there are none.
    ///
    /// # Errors
    /// [`ShopError`].
    pub fn sheet_texts(&self, language: &str) -> Result<Option<String>, ShopError> {
        let language = if language.trim().is_empty() { "en" } else { language.trim() };
        // It becomes part of a file's name.
        let plain = language.bytes().all(|b| b.is_ascii_alphanumeric() || b == b'-');
        let file = self.folder.as_ref().map(|f| f.join(format!("sheets.{}.ron", language.to_ascii_lowercase())));
        let Some(path) = file.filter(|p| plain && reading::is_there(p)) else { return Ok(None) };
        reading::text(&path, &SHEET_TEXTS_FILE).map(Some).map_err(|source| ShopError::Read { source, path })
    }

    /// Takes a file into the shop's folder, with what its columns mean; gives back the name a job uses for it, and
    /// where the original of older columns with comments lies ([`remember`]). A list of the same name is replaced.
    ///
    /// # Errors
    /// [`ShopError`]; an older list of that name, and what its columns mean, are then as they were.
    pub fn take_in(&self, from: &Path, columns: &Columns) -> Result<(String, Option<PathBuf>), ShopError> {
        let folder = self.folder.as_ref().ok_or(ShopError::NoFolder)?;
        let bytes = bytes_of(from)?;
        parts::read(&bytes, columns).map_err(|source| ShopError::List { source, path: from.to_owned() })?;
        let name = from.file_name().and_then(|n| n.to_str()).unwrap_or("list.csv").to_owned();
        let to = folder.join(&name);
        std::fs::create_dir_all(folder).map_err(|source| ShopError::Disk { source, path: folder.clone() })?;
        let meant = reading::bytes(&beside(&to), &SETTINGS_FILE).ok();
        let original = remember(&to, columns)?;
        if to != from
            && let Err(source) = file::write_bytes(&to, &bytes)
        {
            put_back(&to, meant.as_deref(), original.as_deref())?;
            return Err(ShopError::Disk { source, path: to });
        }
        Ok((name, original))
    }
}

/// Files of settings next to the lists, originals with comments among them.
fn is_settings(name: &str) -> bool {
    name.ends_with(".ron") || name.contains(".ron.original")
}

/// Opens a list file: by the columns remembered next to it, else as its headers say.
///
/// # Errors
/// [`ShopError`].
pub fn open_file(path: &Path, name: &str) -> Result<Opened, ShopError> {
    let bytes = bytes_of(path)?;
    let wrong = |source: ListError| ShopError::List { source, path: path.to_owned() };
    let said = remembered(path)?.filter(|columns| columns.fits(&bytes));
    let columns = said.clone().map_or_else(|| parts::guess(&bytes), Ok).map_err(wrong)?;
    let list = parts::read(&bytes, &columns).map_err(wrong)?;
    Ok(Opened { name: name.to_owned(), path: Some(path.to_owned()), columns, said: said.is_some(), list })
}

/// What the columns of a file are taken to mean: as remembered next to it, else as its headers say.
///
/// # Errors
/// [`ShopError`].
pub fn columns_of(path: &Path) -> Result<Columns, ShopError> {
    let bytes = bytes_of(path)?;
    let said = remembered(path)?.filter(|columns| columns.fits(&bytes));
    let guess = || parts::guess(&bytes).map_err(|source| ShopError::List { source, path: path.to_owned() });
    said.map_or_else(guess, Ok)
}

/// What the headers of a file say when its columns are separated by this delimiter, whatever was remembered.
///
/// # Errors
/// [`ShopError`].
pub fn columns_parted_by(path: &Path, delimiter: Option<char>) -> Result<Columns, ShopError> {
    parts::guess_parted(&bytes_of(path)?, delimiter).map_err(|source| ShopError::List { source, path: path.to_owned() })
}

/// Reads a file by columns that are being tried.
///
/// # Errors
/// [`ShopError`].
pub fn try_columns(path: &Path, columns: &Columns) -> Result<List, ShopError> {
    parts::read(&bytes_of(path)?, columns).map_err(|source| ShopError::List { source, path: path.to_owned() })
}

/// The units that columns without one most likely are in, by their place; none where the file cannot be read.
pub fn likely_units(path: &Path, columns: &Columns) -> Vec<(usize, &'static Unit)> {
    bytes_of(path).ok().and_then(|bytes| parts::likely_units(&bytes, columns).ok()).unwrap_or_default()
}

/// Keeps what the columns of a list mean, next to it. Returns the path of the previous file, if it held comments.
///
/// # Errors
/// [`ShopError::Disk`].
pub fn remember(list: &Path, columns: &Columns) -> Result<Option<PathBuf>, ShopError> {
    let path = beside(list);
    file::write_settings(&path, columns).map_err(|source| ShopError::Disk { source, path })
}

/// The invented list that ships.
fn demo() -> Result<Opened, ShopError> {
    let wrong = |source| ShopError::List { source, path: DEMO.into() };
    let columns = parts::guess(parts::demo()).map_err(wrong)?;
    let list = parts::read(parts::demo(), &columns).map_err(wrong)?;
    Ok(Opened { name: DEMO.into(), path: None, columns, said: false, list })
}

/// `None` when nothing was chosen yet.
fn remembered(list: &Path) -> Result<Option<Columns>, ShopError> {
    let path = beside(list);
    match reading::text(&path, &SETTINGS_FILE) {
        Ok(text) => {
            file::from_ron(&text).map(Some).map_err(|source| ShopError::Columns { source: source.into(), path })
        }
        Err(ReadError::Disk(error)) if error.kind() == std::io::ErrorKind::NotFound => Ok(None),
        Err(source) => Err(ShopError::Read { source, path }),
    }
}

/// Lets the columns of a list mean again what they meant before; an original that was kept meanwhile is then not needed.
fn put_back(list: &Path, meant: Option<&[u8]>, original: Option<&Path>) -> Result<(), ShopError> {
    let path = beside(list);
    let done = meant.map_or_else(|| std::fs::remove_file(&path), |text| file::write_bytes(&path, text));
    let done = done.and_then(|()| original.map_or(Ok(()), std::fs::remove_file));
    done.map_err(|source| ShopError::Disk { source, path })
}

fn beside(list: &Path) -> PathBuf {
    let mut name = list.as_os_str().to_owned();
    name.push(".columns.ron");
    name.into()
}

/// The text of a file with a damper's curve, whatever its encoding. One that is too large is not read.
///
/// # Errors
/// [`ShopError`]: it cannot be read, is too large, or is no text.
pub fn curve_text_of(path: &Path) -> Result<String, ShopError> {
    let of_list = |source| ShopError::List { source, path: path.to_owned() };
    parts::text_of(&read(path, &CURVE_FILE)?).map_err(of_list)
}

/// A damper's curve from a file.
///
/// # Errors
/// [`CurveFileError`].
pub fn curve(path: &Path, ask: &Ask) -> Result<CurveTable, CurveFileError> {
    let of_curve = |source| CurveFileError::Curve { source, path: path.to_owned() };
    test_sheet::read(&read(path, &CURVE_FILE)?, ask).map_err(of_curve)
}

/// Why a file gives no curve.
#[derive(Debug, Error)]
pub enum CurveFileError {
    /// The file itself.
    #[error(transparent)]
    File(#[from] ShopError),
    /// What is in it.
    #[error("{}", say!("{source}\n  file: {path}", source, path = path_text(path)))]
    Curve {
        /// What is wrong.
        source: CurveTableError,
        /// Which file.
        path: PathBuf,
    },
}

fn bytes_of(path: &Path) -> Result<Vec<u8>, ShopError> {
    read(path, &LIST_FILE)
}

fn read(path: &Path, bound: &Bound) -> Result<Vec<u8>, ShopError> {
    reading::bytes(path, bound).map_err(|source| ShopError::Read { source, path: path.to_owned() })
}
