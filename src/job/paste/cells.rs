//! A pasted line, cut into its cells.

use crate::base::message::Message;
use crate::base::units::parse::{self, DecimalMark};
use crate::base::units::{Dim, Unit, table};
use crate::message;

/// A line cut into columns by the first kind of gap that cuts it.
pub(super) fn columns(line: &str, wanted: usize) -> Vec<String> {
    for gap in ["\t", ";", "|", ", "] {
        if line.contains(gap) {
            // A blank cell inside is a blank cell; only what frames a row is no cell.
            let framed = if gap == "|" { line.trim_matches('|') } else { line };
            return framed.split(gap).map(|c| c.trim().to_owned()).collect();
        }
    }
    let by_space = cells(line);
    if by_space.len() < wanted && line.contains(',') && !line.contains(' ') {
        return line.split(',').map(|c| c.trim().to_owned()).filter(|c| !c.is_empty()).collect();
    }
    by_space
}

/// The unit named in a column's head: "length (mm)", "Load [N]", "travel in mm".
///
/// # Errors
/// A sentence, when the unit in brackets is known but measures something else: "load (kg)" where forces are wanted.
pub(super) fn unit_in_head(head: &str, dim: Dim) -> Result<Option<&'static Unit>, Message> {
    let bracketed = head.split(['(', '[']).nth(1).and_then(|rest| rest.split([')', ']']).next()).map(str::trim);
    if let Some(unit) = bracketed.filter(|u| !u.is_empty()) {
        return match (table::find(dim, unit), table::find_any(unit)) {
            (Some(unit), _) => Ok(Some(unit)),
            (None, Some(other)) => Err(message!(
                "the unit in the header \"{head}\" is for {named}; this column takes {wanted}: {allowed}",
                head,
                named = other.dim.noun(),
                wanted = dim.noun(),
                allowed = Message::Units(dim)
            )),
            (None, None) => Ok(None),
        };
    }
    // Of "travel in mm" the last unit counts: "in" is a word there.
    let words = head.split([' ', ',', ':']).map(str::trim).filter(|w| !w.is_empty());
    Ok(words.rev().find_map(|w| table::find(dim, w).filter(|u| !u.symbol.is_empty())))
}

/// The weights in a line without a corner's name. Two bare numbers are two, `95 120`; `1 155 1 120` are two as well,
/// and `1 155 kg` is one.
pub(super) fn row_of_two(line: &str, shown: &'static Unit, mark: DecimalMark) -> Vec<String> {
    let [apart, grouped] = [false, true].map(|grouped| weights_in(line, shown, mark, grouped));
    let one_unit_for_both = grouped.len() == 1 && line.contains(char::is_alphabetic);
    if apart.len() == 2 && !one_unit_for_both { apart } else { grouped }
}

/// The weights in a line, with groups of thousands behind spaces or each word a number of its own; percentages are no
/// weights, and what follows a number that cannot be read is ignored.
pub(super) fn weights_in(line: &str, shown: &'static Unit, mark: DecimalMark, grouped: bool) -> Vec<String> {
    let mut out: Vec<String> = Vec::new();
    let cells = if grouped { cells_grouped(line) } else { cells(line) };
    for (at, cell) in cells.iter().enumerate() {
        // Of "745 total 3460" the word names the number behind it.
        let names_the_next = |word: &str| {
            let next = cells.get(at + 1).is_some_and(|next| next.starts_with(|c: char| c.is_ascii_digit()));
            next && word.starts_with(char::is_alphabetic) && table::find_any(word).is_none()
        };
        let number = match cell.rsplit_once(' ') {
            Some((number, word)) if names_the_next(word) => number,
            _ => cell,
        };
        if parse::is_bare(number, mark) {
            out.push(format!("{number} {}", shown.symbol));
        } else if parse::number(number, Dim::Mass, mark).is_ok() {
            out.push(number.to_owned());
        } else if cell.contains(|c: char| c.is_ascii_digit()) && !cell.contains('%') {
            break;
        }
    }
    out
}

/// A line cut at tabs, semicolons, bars and spaces, a unit kept with the number before it.
fn cells(line: &str) -> Vec<String> {
    let mut out: Vec<String> = Vec::new();
    for word in line.split(['\t', ';', '|', ' ']).filter(|w| !w.is_empty()) {
        match out.last_mut() {
            Some(last)
                if word.starts_with(|c: char| c.is_alphabetic() || c == '%')
                    && last.ends_with(|c: char| c.is_ascii_digit()) =>
            {
                last.push(' ');
                last.push_str(word);
            }
            _ => out.push(word.trim_end_matches(',').to_owned()),
        }
    }
    out
}

/// The same with `1 155` as one number: one or two digits, and exactly three behind a space. Three digits and
/// three more, `985 500`, are two numbers.
fn cells_grouped(line: &str) -> Vec<String> {
    const JOINT: &str = "\u{1f}";
    let mut joined = String::with_capacity(line.len());
    // A number may go on behind the word before.
    let mut is_open = false;
    for word in line.split_inclusive(['\t', ';', '|', ' ']) {
        let bare = word.trim_end_matches(['\t', ';', '|', ' ']);
        let digits = bare.find(|c: char| !c.is_ascii_digit()).unwrap_or(bare.len());
        let is_group = digits == 3 && !bare[digits..].starts_with(['/', '%']);
        if is_open && is_group {
            joined.truncate(joined.len() - 1);
            joined.push_str(JOINT);
        }
        is_open = word.ends_with(' ') && digits == bare.len() && (1..=2).contains(&digits);
        joined.push_str(word);
    }
    cells(&joined).into_iter().map(|cell| cell.replace(JOINT, " ")).collect()
}
