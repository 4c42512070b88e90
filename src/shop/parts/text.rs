//! Bytes to rows: encoding, delimiter, quotes, and the line each row begins on.

use csv::{Reader, ReaderBuilder, StringRecord};

use super::header;
use super::{ListError, MOST_COLUMNS};
use crate::base::bounds::OPEN_QUOTES;
use crate::base::language::Word;
use crate::base::message::Message;
use crate::base::table::{self, Decoded};
use crate::message;

/// The delimiters that are guessed.
const DELIMITERS: [u8; 3] = [b';', b',', b'\t'];
/// Rows read to guess the delimiter.
const LOOKED_AT: usize = 50;

/// The text of a file, and how it was encoded.
pub(super) fn decode(bytes: &[u8]) -> Result<Decoded<'_>, ListError> {
    table::decode(bytes).map_err(|_| ListError::NotText)
}

/// A table: where its header begins, and what parts its columns.
#[derive(Clone, Copy)]
pub(super) struct Table<'t> {
    text: &'t str,
    start: usize,
    pub delimiter: u8,
}

impl<'t> Table<'t> {
    /// Finds the delimiter, unless it is `given`, or named in a first line such as `sep=;`.
    pub fn open(text: &'t str, given: Option<char>) -> Result<Self, ListError> {
        Self::parted(text, given, &|header| header::read(header).means.is_some())
    }

    /// Finds the delimiter by headers that mean something to someone else.
    pub fn open_for(text: &'t str, is_known: impl Fn(&str) -> bool) -> Result<Self, ListError> {
        Self::parted(text, None, &is_known)
    }

    fn parted(text: &'t str, given: Option<char>, is_known: &dyn Fn(&str) -> bool) -> Result<Self, ListError> {
        let first = text.lines().next().unwrap_or_default().split('\r').next().unwrap_or_default();
        let named = first.strip_prefix("sep=").filter(|sign| sign.chars().count() == 1);
        let start = if named.is_some() { first.len() } else { 0 };
        let delimiter = match given.or_else(|| named.and_then(|sign| sign.chars().next())) {
            Some(sign) if sign.is_ascii() && !sign.is_ascii_alphanumeric() && !"\"\r\n.+-".contains(sign) => sign as u8,
            Some(delimiter) => return Err(ListError::Delimiter { delimiter }),
            None => guess_delimiter(text, start, is_known),
        };
        Ok(Table { text, start, delimiter })
    }

    /// All rows that are not blank, the header first.
    pub fn rows(&self) -> Rows<'t> {
        Rows {
            text: self.text,
            delimiter: self.delimiter,
            base: self.start,
            reader: reader(&self.text[self.start..], self.delimiter),
            record: StringRecord::new(),
            lines: Lines { at: 0, line: 1 },
            again: self.text.len().saturating_mul(OPEN_QUOTES.count()),
        }
    }

    /// A note that says what parts its columns.
    pub fn parted_by(&self) -> Message {
        match self.delimiter {
            b',' => Word("Columns separated by commas").into(),
            b';' => Word("Columns separated by semicolons").into(),
            b'\t' => Word("Columns separated by tabs").into(),
            other => message!("Columns separated by \"{sign}\"", sign = char::from(other)),
        }
    }
}

/// The delimiter under which most headers have a meaning, then the one that cuts rows most evenly.
fn guess_delimiter(text: &str, start: usize, is_known: &dyn Fn(&str) -> bool) -> u8 {
    let worth = |delimiter: u8| {
        let mut rows = Table { text, start, delimiter }.rows();
        // A delimiter under which nothing is left says that the file is blank.
        let Some(header) = rows.next() else { return (usize::MAX, 0) };
        let columns = header.cells.len();
        let known = header.cells.iter().take(MOST_COLUMNS).filter(|cell| is_known(cell)).count();
        let (mut even, mut seen) = (0, 0);
        while let Some(row) = rows.next().filter(|_| seen < LOOKED_AT) {
            seen += 1;
            even += usize::from(row.cells.len() == columns);
        }
        (known, (columns - 1) * (1 + even))
    };
    // The last of equals wins: the first delimiter of the list.
    DELIMITERS.into_iter().rev().max_by_key(|d| worth(*d)).unwrap_or(b',')
}

fn reader(text: &str, delimiter: u8) -> Reader<&[u8]> {
    ReaderBuilder::new().has_headers(false).flexible(true).delimiter(delimiter).from_reader(text.as_bytes())
}

/// Counts lines, however they end.
struct Lines {
    at: usize,
    line: usize,
}

impl Lines {
    fn at(&mut self, text: &str, to: usize) -> usize {
        let bytes = text.as_bytes();
        let mut previous = if self.at == 0 { b' ' } else { bytes[self.at - 1] };
        for &byte in &bytes[self.at..to] {
            self.line += usize::from(byte == b'\r' || (byte == b'\n' && previous != b'\r'));
            previous = byte;
        }
        self.at = to;
        self.line
    }
}

/// One row.
pub(super) struct Row<'r, 't> {
    /// The line it begins on, from 1.
    pub line: usize,
    /// As it stood.
    pub text: &'t str,
    /// Its cells.
    pub cells: &'r StringRecord,
    /// A quotation mark is never closed, or text follows a closed one: the cells are not to be trusted.
    pub torn: bool,
}

/// The rows of a table.
pub(super) struct Rows<'t> {
    text: &'t str,
    delimiter: u8,
    base: usize,
    reader: Reader<&'t [u8]>,
    record: StringRecord,
    lines: Lines,
    again: usize,
}

impl<'t> Rows<'t> {
    /// The next row that is not blank.
    ///
    /// Of a row with torn quotation marks only its first line is taken; reading goes on with the next line.
    pub fn next(&mut self) -> Option<Row<'_, 't>> {
        loop {
            // The text is valid UTF-8 in memory, so that reading it cannot fail.
            if !self.reader.read_record(&mut self.record).unwrap_or(false) {
                return None;
            }
            let from = self.base + self.record.position().map_or(0, |p| p.byte() as usize);
            let to = self.base + self.reader.position().byte() as usize;
            let raw = self.text[from..to].trim_start_matches(['\r', '\n']);
            let (start, raw) = (to - raw.len(), raw.trim_end_matches(['\r', '\n']));
            if self.record.iter().all(|cell| cell.trim().is_empty()) {
                continue;
            }
            let line = self.lines.at(self.text, start);
            let torn = raw.contains('"') && !quotes_are_sound(raw.as_bytes(), self.delimiter);
            let mut text = raw;
            if torn && let Some(end) = raw.find(['\r', '\n']).filter(|_| raw.len() <= self.again) {
                self.again -= raw.len();
                self.base = start + end;
                self.reader = reader(&self.text[self.base..], self.delimiter);
                text = &raw[..end];
            }
            return Some(Row { line, text, cells: &self.record, torn });
        }
    }
}

/// Every quoted cell is closed, and nothing but a delimiter follows it.
fn quotes_are_sound(row: &[u8], delimiter: u8) -> bool {
    let mut at = 0;
    while at < row.len() {
        if row[at] == b'"' {
            at += 1;
            loop {
                match row[at..].iter().position(|b| *b == b'"') {
                    None => return false,
                    Some(n) if row.get(at + n + 1) == Some(&b'"') => at += n + 2,
                    Some(n) => {
                        at += n + 1;
                        break;
                    }
                }
            }
            at += row[at..].iter().take_while(|b| **b == b' ' && delimiter != b' ').count();
            if row.get(at).is_some_and(|b| *b != delimiter) {
                return false;
            }
        } else {
            at += row[at..].iter().position(|b| *b == delimiter).unwrap_or(row.len() - at);
        }
        at += 1;
    }
    true
}

#[cfg(test)]
mod tests {
    use super::*;

    fn lines(text: &str) -> Vec<(usize, String, bool)> {
        let mut rows = Table::open(text, Some(',')).expect("a table").rows();
        let mut found = Vec::new();
        while let Some(row) = rows.next() {
            found.push((row.line, row.text.to_owned(), row.torn));
        }
        found
    }

    #[test]
    fn lines_are_counted_however_they_end() {
        for end in ["\n", "\r\n", "\r"] {
            let text = ["", "a,b", "", "1,\"x", "y\"", ",", "2,3", ""].join(end);
            let found: Vec<usize> = lines(&text).iter().map(|l| l.0).collect();
            assert_eq!(found, [2, 4, 7], "{end:?}");
        }
    }

    #[test]
    fn a_torn_quotation_mark_costs_its_own_line_only() {
        let found = lines("a,\"b\" \n1,\"2\n3,4\n5,\"6, x\"\n\"7\" y,8\n9,1\"\n");
        let torn: Vec<(usize, &str, bool)> = found.iter().map(|(l, t, b)| (*l, t.as_str(), *b)).collect();
        assert_eq!(
            torn,
            [
                (1, "a,\"b\" ", false),
                (2, "1,\"2", true),
                (3, "3,4", false),
                (4, "5,\"6, x\"", false),
                (5, "\"7\" y,8", true),
                (6, "9,1\"", false)
            ]
        );
    }
}
