//! Reading files that come from outside: only ordinary ones, and never more than their bound.

use std::fs::{File, FileType};
use std::io::{Error, Read as _};
use std::path::Path;

use thiserror::Error;

use crate::base::bounds::Bound;
use crate::base::language::Word;
use crate::say;

/// Why a file is not read.
#[derive(Debug, Error)]
pub enum ReadError {
    /// The system does not give it.
    #[error(transparent)]
    Disk(#[from] Error),
    /// A folder, a device, a pipe or a socket.
    #[error("{}", say!("this is {kind}, not a file: nothing was read. Choose a file", kind))]
    NotAFile {
        /// What it is, in words.
        kind: Word,
    },
    /// Larger than its bound.
    #[error(
        "{}",
        say!("this file is larger than the maximum of {most} bytes: nothing was read. Choose another file", most)
    )]
    TooLarge {
        /// Its size, as far as it was read.
        bytes: u64,
        /// The most.
        most: u64,
    },
}

/// The bytes of an ordinary file. What it is and how large is checked before it is opened, and its size again while it
/// is read: it may grow meanwhile.
///
/// # Errors
/// [`ReadError`].
pub fn bytes(path: &Path, bound: &Bound) -> Result<Vec<u8>, ReadError> {
    let most = bound.bytes();
    let about = std::fs::metadata(path)?;
    // A pipe waits for somebody who writes, a device may never end: neither is opened.
    if !about.is_file() {
        return Err(ReadError::NotAFile { kind: kind(about.file_type()) });
    }
    if about.len() > most {
        return Err(ReadError::TooLarge { bytes: about.len(), most });
    }
    let mut raw = Vec::with_capacity(about.len() as usize + 1);
    File::open(path)?.take(most + 1).read_to_end(&mut raw)?;
    if raw.len() as u64 > most {
        return Err(ReadError::TooLarge { bytes: raw.len() as u64, most });
    }
    Ok(raw)
}

/// As [`bytes`], as text.
///
/// # Errors
/// [`ReadError`]; bytes that are not UTF-8 are a [`ReadError::Disk`] of invalid data.
pub fn text(path: &Path, bound: &Bound) -> Result<String, ReadError> {
    let no_text = |e| ReadError::Disk(Error::new(std::io::ErrorKind::InvalidData, e));
    String::from_utf8(bytes(path, bound)?).map_err(no_text)
}

/// Something is there that can be asked for by name: a file, or what is refused with words.
pub fn is_there(path: &Path) -> bool {
    path.exists() && !path.is_dir()
}

fn kind(of: FileType) -> Word {
    if of.is_dir() { Word("a folder") } else { Word("a device or a pipe") }
}
