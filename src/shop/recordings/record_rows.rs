//! The rows of a recording: where they begin, what separates their cells, and their numbers.

use std::borrow::Cow;

use crate::base::bounds::COLUMNS;
use crate::base::message::Message;
use crate::base::table::quoted;
use crate::message;

/// Signs that separate cells, in the order in which they are tried; a blank means any blanks.
const SEPARATORS: [char; 4] = [';', '\t', ',', ' '];
/// Lines read to find out how a file is built.
const LOOKED_AT: usize = 400;
/// Signs before a line that is a comment.
const COMMENTS: [&str; 4] = ["#", "//", "%", "!"];

/// No line has more cells than a table has columns, and one that shows it.
const MOST_CELLS: usize = COLUMNS.count() + 1;

/// How a file is built.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Form {
    pub separator: char,
    /// The decimal mark is a comma.
    pub comma: bool,
    /// The line on which the first row of numbers is, from 0.
    pub first: usize,
    /// Cells in a row.
    pub cells: usize,
    /// The names of the columns, with the units of a line below them; `None` without a header.
    pub header: Option<Vec<String>>,
}

/// The text of a comment line without its sign.
fn uncommented(line: &str) -> Option<&str> {
    let line = line.trim_start();
    COMMENTS.iter().find_map(|sign| line.strip_prefix(sign)).map(|rest| rest.trim_start_matches(['#', '/', '%', ' ']))
}

/// A line that holds nothing or is a comment.
pub(super) fn is_passed_over(line: &str) -> bool {
    line.trim().is_empty() || uncommented(line).is_some()
}

/// The cells of a line, without quotation marks around them; what is between two of these is one cell. No more than a
/// table has.
pub(super) fn cells<'l>(line: &'l str, separator: char, into: &mut Vec<&'l str>) {
    into.clear();
    if separator == ' ' {
        into.extend(line.split_whitespace().take(MOST_CELLS).map(unquoted));
        return;
    }
    let mut rest = line;
    while into.len() < MOST_CELLS {
        let start = rest.trim_start_matches([' ']);
        let from = match start.strip_prefix('"').and_then(|inside| inside.find('"')) {
            Some(close) => rest.len() - start.len() + close + 2,
            None => 0,
        };
        match rest[from..].find(separator) {
            Some(at) => {
                into.push(unquoted(&rest[..from + at]));
                rest = &rest[from + at + separator.len_utf8()..];
            }
            None => {
                into.push(unquoted(rest));
                break;
            }
        }
    }
    // A separator at the end of each line makes no column.
    if into.len() > 1 && into.last().is_some_and(|cell| cell.is_empty()) {
        into.pop();
    }
}

fn unquoted(cell: &str) -> &str {
    let cell = cell.trim();
    cell.strip_prefix('"').and_then(|c| c.strip_suffix('"')).map_or(cell, str::trim)
}

/// A finite number with this decimal mark.
pub(super) fn number(cell: &str, comma: bool) -> Option<f64> {
    let text: Cow<'_, str> = match comma && cell.contains(',') {
        true if cell.contains('.') || cell.matches(',').count() > 1 => return None,
        true => cell.replace(',', ".").into(),
        false => cell.into(),
    };
    let is_number = text.bytes().next().is_some_and(|b| b.is_ascii_digit() || b"+-.".contains(&b));
    text.parse::<f64>().ok().filter(|n| is_number && n.is_finite())
}

/// Seconds of a clock time such as `14:03:07.250`, `2026-11-28T14:03:07Z` or `3:07,5`; its date is left to midnight.
pub(super) fn clock(cell: &str) -> Option<f64> {
    const MOST_PARTS: usize = 3;
    let time = cell.rsplit(['T', ' ']).next()?.trim_end_matches('Z');
    // A zone behind it is the same in every row.
    let time = time.split_once('+').map_or(time, |(time, _)| time);
    let parts: Vec<&str> = time.split(':').collect();
    if !(2..=MOST_PARTS).contains(&parts.len()) {
        return None;
    }
    let (last, whole) = parts.split_last()?;
    let mut seconds = 0.0;
    for part in whole {
        let digits = !part.is_empty() && part.len() <= 3 && part.bytes().all(|b| b.is_ascii_digit());
        seconds = 60.0 * seconds + part.parse::<f64>().ok().filter(|_| digits)?;
    }
    number(last, last.contains(',')).filter(|s| (0.0..60.5).contains(s)).map(|s| 60.0 * seconds + s)
}

/// A number or a clock time.
fn is_value(cell: &str, comma: bool) -> bool {
    number(cell, comma).is_some() || clock(cell).is_some()
}

/// Finds how a file is built from its first lines; `None` when no lines of numbers follow each other.
pub(super) fn form<'t>(lines: impl Iterator<Item = &'t str>) -> Option<Form> {
    let lines: Vec<&str> = lines.take(LOOKED_AT).collect();
    let tried = SEPARATORS.into_iter().flat_map(|separator| [false, true].map(|comma| (separator, comma)));
    // A comma cannot be both.
    let possible = tried.filter(|(separator, comma)| !(*comma && *separator == ',' && !has_quoted_commas(&lines)));
    let found = possible.filter_map(|(separator, comma)| rows_of(&lines, separator, comma));
    let (rows, mut form) = found.fold(None, |best: Option<(usize, Form)>, (rows, form)| match best {
        // More rows of numbers, then more cells in them; the first of equals.
        Some(best) if (best.0, best.1.cells) >= (rows, form.cells) => Some(best),
        _ => Some((rows, form)),
    })?;
    if rows < 2 {
        return None;
    }
    form.header = header(&lines[..form.first], form.separator, form.cells, form.comma);
    Some(form)
}

fn has_quoted_commas(lines: &[&str]) -> bool {
    lines.iter().any(|line| line.split('"').skip(1).step_by(2).any(|inside| inside.contains(',')))
}

/// How many lines are rows of numbers when read so, and where the first of them is.
fn rows_of(lines: &[&str], separator: char, comma: bool) -> Option<(usize, Form)> {
    let count_of = |line: &&str| -> usize {
        let mut parts = Vec::new();
        if is_passed_over(line) {
            return 0;
        }
        cells(line, separator, &mut parts);
        let values = parts.iter().filter(|cell| is_value(cell, comma)).count();
        // One cell may be a text, such as the date beside the time.
        if values + 1 >= parts.len() && values >= 1 { parts.len() } else { 0 }
    };
    let counts: Vec<usize> = lines.iter().map(count_of).collect();
    let usual = (2..=64).max_by_key(|n| counts.iter().filter(|c| *c == n).count()).filter(|n| counts.contains(n));
    let usual = usual.or_else(|| counts.contains(&1).then_some(1))?;
    let rows = counts.iter().filter(|c| **c == usual).count();
    // A header of numbers is none: the first row is the one that others follow.
    let follows =
        |i: &usize| counts[*i] == usual && counts[*i + 1..].iter().find(|c| **c > 0).is_none_or(|c| *c == usual);
    let first = (0..counts.len()).find(follows)?;
    Some((rows, Form { separator, comma, first, cells: usual, header: None }))
}

/// The names of the columns: the last line before the rows that has as many cells, comments included; a line of units
/// below it goes to the names.
fn header(before: &[&str], separator: char, wanted: usize, comma: bool) -> Option<Vec<String>> {
    let mut parts = Vec::new();
    let mut named: Vec<Vec<String>> = Vec::new();
    for line in before.iter().rev().filter(|line| !line.trim().is_empty()) {
        cells(uncommented(line).unwrap_or(line), separator, &mut parts);
        let is_header = parts.len() == wanted && !parts.iter().all(|cell| is_value(cell, comma));
        if is_header {
            named.push(parts.iter().map(|cell| (*cell).to_owned()).collect());
        }
        if named.len() == 2 {
            break;
        }
    }
    let mut named = named.into_iter();
    let (last, above) = (named.next()?, named.next());
    let unit = |cell: &String| cell.trim_matches(['[', ']', '(', ')']).to_owned();
    let is_units = |cells: &[String]| {
        let plain = |cell: &String| super::record_columns::plain(&unit(cell));
        cells.iter().all(|c| {
            let text = plain(c);
            text.is_empty()
                || super::record_columns::motion_unit(&text).is_some()
                || super::record_columns::time_unit(&text).is_some()
        })
    };
    match above.filter(|_| is_units(&last)) {
        Some(above) => Some(above.iter().zip(&last).map(|(name, cell)| format!("{name} [{}]", unit(cell))).collect()),
        None => Some(last),
    }
}

/// What is wrong with a row.
pub(super) fn not_a_number(cell: &str) -> Message {
    message!("\"{cell}\" is not a number", cell = quoted(cell))
}
