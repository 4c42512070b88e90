//! Recordings of acceleration or displacement from any table of text, as phones, loggers and spreadsheets write them.
//!
//! Bytes in, an even [`Record`] out. Headers, units, separators, decimal marks and clock times are found;
//! interpretations are listed in [`Recording::notes`], what is doubtful in [`Recording::cautions`].

mod record_columns;
mod record_error;
mod record_mappings;
mod record_plan;
mod record_rows;
mod samples;

use std::path::Path;

use serde::{Deserialize, Serialize};

use crate::base::bounds::RECORD_FILE;
use crate::base::language::Word;
use crate::base::message::Message;
use crate::base::progress::Watch;
use crate::base::table::decode;
use crate::job::reading;
use crate::trade::recording::{Record, Signal};

pub use record_columns::{MOTION_UNITS, TIME_UNITS};
pub use record_error::{RecordError, RecordFileError};
pub use record_mappings::Mappings;

/// What the file itself does not say, or says otherwise.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct Ask {
    /// Samples a second, Hz, in place of the time column.
    pub rate_hz: Option<f64>,
    /// The column of the time, by its name.
    pub time: Option<String>,
    /// Unit of the time: s, ms, us, ns, min.
    pub time_unit: Option<String>,
    /// Unit of the motion: m/s2, g, mg, mm …
    pub unit: Option<String>,
    /// The column of the vertical motion, by its name or by x, y, z.
    pub axis: Option<String>,
}

/// A recording as read.
#[derive(Debug, Clone, PartialEq)]
pub struct Recording {
    /// Even samples, SI.
    pub record: Record,
    /// Acceleration or displacement.
    pub signal: Signal,
    /// The columns that were read.
    pub axes: Vec<String>,
    /// All columns.
    pub columns: Vec<String>,
    /// As which it was read.
    pub asked: Ask,
    /// The one of them that was named as the vertical.
    pub named: Option<usize>,
    /// What was interpreted.
    pub notes: Vec<Message>,
    /// What is doubtful.
    pub cautions: Vec<Message>,
    /// CRC-32 of the file.
    pub checksum: u32,
}

/// Recordings of the demo van's front axle, before the change and after the work, made by a simulation
/// (`tests/core/recording.rs`): each with the name used to request it.
pub static DEMO: [(&str, &str); 2] = [
    ("demo-bounce-before", include_str!("../../../presets/demo-bounce-before.csv")),
    ("demo-bounce-after", include_str!("../../../presets/demo-bounce-after.csv")),
];

/// The shipped recording of this name; a file of that name comes first.
fn shipped(path: &Path) -> Option<&'static str> {
    let named = DEMO.iter().find(|(name, _)| Path::new(name) == path)?;
    (!path.exists()).then_some(named.1)
}

/// Reads a recording, or one of [`DEMO`] by its name. `watch` gets the progress, and can stop it.
///
/// # Errors
/// [`RecordFileError`]: the file cannot be read, or holds no recording.
pub fn open(path: &Path, ask: &Ask, watch: &Watch) -> Result<Recording, RecordFileError> {
    open_as(path, ask, &Mappings::default(), watch)
}

/// As [`open()`]; unless something is asked, as a file with the same columns was read before.
///
/// # Errors
/// As [`open()`].
pub fn open_as(path: &Path, ask: &Ask, before: &Mappings, watch: &Watch) -> Result<Recording, RecordFileError> {
    let wrong = |source| RecordFileError::Record { source, path: path.to_owned() };
    let bytes = bytes_of(path)?;
    let is_open = *ask == Ask::default() && !before.is_empty();
    let remembered = if is_open { before.of(&columns(&bytes)) } else { None };
    let mut recording = read(&bytes, remembered.unwrap_or(ask), watch).map_err(wrong)?;
    if remembered.is_some() {
        recording.notes.push(Word("Columns read with your earlier choice for a file with the same columns").into());
    }
    Ok(recording)
}

/// The columns of a file, whatever they mean; none in one that is no table of numbers.
pub fn columns_of(path: &Path) -> Vec<String> {
    bytes_of(path).map(|bytes| columns(&bytes)).unwrap_or_default()
}

fn columns(bytes: &[u8]) -> Vec<String> {
    decode(bytes).map(|decoded| samples::columns(&decoded.text)).unwrap_or_default()
}

fn bytes_of(path: &Path) -> Result<Vec<u8>, RecordFileError> {
    match shipped(path) {
        Some(text) => Ok(text.as_bytes().to_vec()),
        None => {
            reading::bytes(path, &RECORD_FILE).map_err(|source| RecordFileError::Read { source, path: path.to_owned() })
        }
    }
}

/// As [`open()`], from the bytes of a file.
///
/// # Errors
/// [`RecordError`].
pub fn read(bytes: &[u8], ask: &Ask, watch: &Watch) -> Result<Recording, RecordError> {
    if bytes.iter().all(u8::is_ascii_whitespace) {
        return Err(RecordError::Empty);
    }
    let decoded = decode(bytes)?;
    let read = samples::read(&decoded.text, ask, watch)?;
    let notes = std::iter::once(decoded.note).chain(read.notes).collect();
    Ok(Recording { notes, checksum: crc32fast::hash(bytes), asked: ask.clone(), ..read })
}
