//! Reads scale readings and rows of a table pasted from a display, a spreadsheet or a message.
//!
//! Four readings with the names of their corners, in lines of their own or in one, in any order; or a block of two rows
//! of two (front row first, left first). Totals and percentages are left out.

mod cells;
mod in_a_line;
mod pasted_points;

pub use pasted_points::{PastedPoints, points};

use cells::{columns, row_of_two, unit_in_head, weights_in};

use crate::base::message::Message;
use crate::base::units::parse::{self, DecimalMark};
use crate::base::units::{Dim, Unit, table};
use crate::message;
use crate::trade::weights::Corners;

/// Readings found in a text, each as it will be typed into its field.
#[derive(Debug, Clone, PartialEq)]
pub struct Pasted {
    /// One text per corner, with its unit.
    pub corners: Corners<String>,
    /// Lines that were left out, as found.
    pub ignored: Vec<String>,
}

/// Names of the corners, each with its place in the order LF, RF, LR, RR.
const NAMES: [(usize, &[&str]); 8] = [
    (0, &["lf", "fl", "left front", "front left", "l/f"]),
    (1, &["rf", "fr", "right front", "front right", "r/f"]),
    (2, &["lr", "rl", "left rear", "rear left", "l/r"]),
    (3, &["rr", "right rear", "rear right", "r/r", "rr."]),
    (0, &["vl", "links vorn", "links vorne", "vorn links", "vorne links"]),
    (1, &["vr", "rechts vorn", "rechts vorne", "vorn rechts", "vorne rechts"]),
    (2, &["hl", "links hinten", "hinten links"]),
    (3, &["hr", "rechts hinten", "hinten rechts"]),
];

/// Finds four readings in a text; `shown` is the unit of bare numbers.
///
/// # Errors
/// A sentence that says what is missing or doubled.
pub fn corners(text: &str, shown: &'static Unit, mark: DecimalMark) -> Result<Pasted, Message> {
    let mut by_corner: [Option<String>; 4] = Default::default();
    let mut block: Vec<Vec<String>> = Vec::new();
    let mut ignored = Vec::new();
    for line in text.lines().map(str::trim).filter(|l| !l.is_empty()).flat_map(in_a_line::pieces) {
        match corner_of(line) {
            Some((corner, rest)) => match weights_in(rest, shown, mark, true).first() {
                Some(reading) if by_corner[corner].is_none() => by_corner[corner] = Some(reading.clone()),
                Some(_) => return Err(message!("two readings for the same corner: \"{line}\"", line)),
                None => ignored.push(line.to_owned()),
            },
            None => match row_of_two(line, shown, mark) {
                row if row.len() == 2 && !line.contains(char::is_alphabetic) => block.push(row),
                row if row.len() == 2 && only_units(line) => block.push(row),
                _ => ignored.push(line.to_owned()),
            },
        }
    }
    let named = by_corner.iter().flatten().count();
    let found = match (named, block.as_slice()) {
        (4, _) => by_corner.map(Option::unwrap_or_default),
        (0, [front, rear]) => [front[0].clone(), front[1].clone(), rear[0].clone(), rear[1].clone()],
        (0, []) => {
            return Err(message!(
                "no readings found. Paste four readings with their corners, such as \"LF 985 lb\", or two rows of two numbers"
            ));
        }
        (0, rows) => {
            return Err(message!(
                "rows of two numbers found: {rows}; two are needed, the front row first",
                rows = rows.len()
            ));
        }
        (found, _) => {
            return Err(message!(
                "{found} of four corners found; enter the corner before each reading: LF, RF, LR, RR",
                found
            ));
        }
    };
    let [lf, rf, lr, rr] = found;
    Ok(Pasted { corners: Corners { lf, rf, lr, rr }, ignored })
}

/// A text holds more than one number: several lines, or one that names several corners with their readings.
pub fn is_block(text: &str) -> bool {
    let text = text.trim();
    text.contains('\n') || in_a_line::pieces(text).len() > 1
}

/// Rows found in a text, each cell as it will be typed into its field.
#[derive(Debug, Clone, PartialEq)]
pub struct PastedRows {
    /// One text per column, in the order found.
    pub rows: Vec<Vec<String>>,
    /// Lines that were left out, as found.
    pub ignored: Vec<String>,
}

/// Finds rows of numbers in a text from a spreadsheet or a message; order and text of every cell are kept.
///
/// Columns are separated by tabs, semicolons, bars, commas with a space, or spaces. A bare number takes the unit named
/// in its column's head ("length (mm)"), else the unit in `shown`. Lines without numbers are left out and named.
///
/// # Errors
/// A sentence that says which line cannot be read, or that no row was found.
pub fn rows(text: &str, shown: &[&'static Unit], mark: DecimalMark) -> Result<PastedRows, Message> {
    let mut units = shown.to_vec();
    let mut found = PastedRows { rows: Vec::new(), ignored: Vec::new() };
    for line in text.lines().map(str::trim).filter(|l| !l.is_empty()) {
        let cells = columns(line, shown.len());
        let numbers = cells.iter().filter(|c| c.contains(|ch: char| ch.is_ascii_digit())).count();
        if numbers == 0 {
            if found.rows.is_empty() && cells.len() == shown.len() {
                for (unit, cell) in units.iter_mut().zip(&cells) {
                    *unit = unit_in_head(cell, unit.dim)?.unwrap_or(unit);
                }
            }
            found.ignored.push(line.to_owned());
            continue;
        }
        if cells.len() > shown.len() || cells.is_empty() {
            return Err(message!(
                "\"{line}\" has {columns} columns; {wanted} are needed",
                line,
                columns = cells.len(),
                wanted = shown.len()
            ));
        }
        let mut row = Vec::new();
        for (cell, unit) in cells.iter().zip(&units) {
            row.push(match parse::number(cell, unit.dim, mark) {
                _ if cell.is_empty() => String::new(),
                Ok(_) => cell.clone(),
                Err(_) if parse::is_bare(cell, mark) => format!("{cell} {}", unit.symbol),
                Err(error) => return Err(message!("in \"{line}\": {error}", line, error)),
            });
        }
        row.resize(shown.len(), String::new());
        found.rows.push(row);
    }
    if found.rows.is_empty() {
        return Err(message!("no rows found. Paste lines of {columns} numbers each", columns = shown.len()));
    }
    Ok(found)
}

/// Rows that begin with a name: "gearbox, 62 kg, 1.1 m". The name is what precedes the first number.
///
/// # Errors
/// A sentence that says what could not be read.
pub fn named_rows(
    text: &str,
    shown: &[&'static Unit],
    mark: DecimalMark,
) -> Result<(Vec<String>, PastedRows), Message> {
    let (mut names, mut bare) = (Vec::new(), String::new());
    for line in text.lines().filter(|l| !l.trim().is_empty()) {
        let begins = |word: &str| word.starts_with(|c: char| c.is_ascii_digit() || "+-−.".contains(c));
        let starts = line.match_indices(|c: char| !c.is_whitespace() && !",;|\t".contains(c)).map(|m| m.0);
        let gap_before =
            |i: &usize| line[..*i].chars().next_back().is_none_or(|c| c.is_whitespace() || ",;|".contains(c));
        let numeric = |i: &usize| line[*i..].chars().any(|c| c.is_ascii_digit()) && begins(&line[*i..]);
        let Some(at) = starts.filter(gap_before).find(numeric) else {
            bare.push_str(line);
            bare.push('\n');
            continue;
        };
        names.push(line[..at].trim_matches(|c: char| c.is_whitespace() || ",;|:".contains(c)).to_owned());
        bare.push_str(&line[at..].replace('−', "-"));
        bare.push('\n');
    }
    let found = rows(&bare, shown, mark)?;
    if found.rows.len() != names.len() {
        return Err(message!(
            "names found: {names}; rows of numbers found: {rows}. Each row needs a name and its numbers",
            names = names.len(),
            rows = found.rows.len()
        ));
    }
    Ok((names, found))
}

/// The corner named at the start of a line, and what follows the name.
fn corner_of(line: &str) -> Option<(usize, &str)> {
    let lower = line.to_ascii_lowercase();
    NAMES
        .iter()
        .flat_map(|&(corner, names)| names.iter().map(move |name| (*name, corner)))
        .filter(|(name, _)| {
            lower
                .strip_prefix(name)
                .is_some_and(|rest| !rest.starts_with(|c: char| c.is_alphanumeric() && !c.is_ascii_digit()))
        })
        .max_by_key(|(name, _)| name.len())
        .map(|(name, corner)| (corner, line[name.len()..].trim_start_matches([' ', ':', '=', '\t', ';', ','])))
}

/// Letters in the line, if any, only spell units of mass.
fn only_units(line: &str) -> bool {
    line.split(|c: char| !c.is_alphabetic()).filter(|w| !w.is_empty()).all(|w| table::find(Dim::Mass, w).is_some())
}
