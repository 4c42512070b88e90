//! Bytes to text, and text as it is quoted in messages.

use std::borrow::Cow;

use encoding_rs::{Encoding, UTF_8, WINDOWS_1252};
use thiserror::Error;

use crate::base::bounds::CELL;
use crate::base::language::{Word, tr};
use crate::base::message::Message;
use crate::message;

/// How many characters a cell has, if it has more than any cell.
pub fn beyond_cell(cell: &str) -> Option<usize> {
    let count = || cell.chars().count();
    (cell.len() > CELL.count()).then(count).filter(|count| *count > CELL.count())
}

/// A row as it is quoted: what is beyond a cell's length is left out, and marked.
pub fn quoted(row: &str) -> String {
    match row.char_indices().nth(CELL.count()) {
        Some((end, _)) => format!("{}…", &row[..end]),
        None => row.to_owned(),
    }
}

/// The text of a file, and how it was encoded.
pub struct Decoded<'b> {
    /// The text.
    pub text: Cow<'b, str>,
    /// How it was read.
    pub note: Message,
}

/// Bytes that are no text.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Error)]
#[error("{}", tr("The file is not text. Save the table as text: CSV, UTF-8"))]
pub struct NotText;

/// Reads UTF-8, UTF-16 with its mark, else Windows-1252.
///
/// # Errors
/// [`NotText`].
pub fn decode(bytes: &[u8]) -> Result<Decoded<'_>, NotText> {
    let decoded = match Encoding::for_bom(bytes) {
        Some((encoding, mark)) if encoding != UTF_8 => {
            let (text, lost) = encoding.decode_without_bom_handling(&bytes[mark..]);
            let name = encoding.name();
            let note = match lost {
                true => message!("Text read as {name}; characters that could not be read are shown as \u{FFFD}", name),
                false => message!("Text read as {name}", name),
            };
            Decoded { text, note }
        }
        marked => {
            let bytes = &bytes[marked.map_or(0, |(_, mark)| mark)..];
            match std::str::from_utf8(bytes) {
                Ok(text) => {
                    Decoded { text: Cow::Borrowed(text), note: message!("Text read as {name}", name = "UTF-8") }
                }
                Err(_) => Decoded {
                    text: WINDOWS_1252.decode_without_bom_handling(bytes).0,
                    note: Word("The text is not UTF-8; it was read as Windows-1252. Check accented letters").into(),
                },
            }
        }
    };
    if decoded.text.contains('\0') { Err(NotText) } else { Ok(decoded) }
}
