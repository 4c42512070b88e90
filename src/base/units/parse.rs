//! Reads a number and its unit as a person at a bench writes them.
//!
//! `1155`, `1,155`, `1 155`, `11 1/4`, `11-1/4"`, `285mm`, `11,25`, `1.5e3 N/m`.
//! Nothing is repaired in silence: what could mean two things is read one way,
//! by the job's decimal mark, and echoed.

use std::borrow::Cow;

use super::Dim;
use super::entry_error::EntryError;
use super::table::{self, Unit};
use crate::base::bounds::NUMBER_TEXT;
pub use crate::base::language::DecimalMark;

/// A text read as a number with a unit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Number {
    /// The number as written, in `unit`.
    pub value: f64,
    /// The unit it was written in.
    pub unit: &'static Unit,
    /// The text could be read in two ways; show how it was read.
    pub ambiguous: bool,
}

impl Number {
    /// The value in the coherent SI unit.
    pub fn si(&self) -> f64 {
        self.value * self.unit.si
    }
}

/// Reads `text` as a number of dimension `dim`.
///
/// # Errors
/// [`EntryError`] says what is wrong and what the field takes. A bare number is
/// an error for every dimension but [`Dim::Ratio`].
///
/// ```
/// use springwright::base::units::{parse, DecimalMark, Dim};
/// let n = parse::number("11-1/4\"", Dim::Length, DecimalMark::Point)?;
/// assert_eq!((n.value, n.unit.symbol), (11.25, "in"));
/// # Ok::<(), springwright::base::units::EntryError>(())
/// ```
pub fn number(text: &str, dim: Dim, mark: DecimalMark) -> Result<Number, EntryError> {
    if text.len() > NUMBER_TEXT.count() {
        return Err(EntryError::TooLong { count: text.chars().count() });
    }
    let (value, ambiguous, unit) = match plain(text, mark) {
        Some((value, unit)) => (value, false, Cow::Borrowed(unit)),
        None => split(text, mark).map(|(value, ambiguous, unit)| (value, ambiguous, Cow::Owned(unit)))?,
    };
    match table::find(dim, &unit) {
        Some(unit) => {
            if value != 0.0 && !dim.bound().holds(value * unit.si) {
                return Err(EntryError::NotCredible { text: shown(text), unit });
            }
            Ok(Number { value, unit, ambiguous })
        }
        None if unit.is_empty() => Err(EntryError::MissingUnit { text: shown(text), wanted: dim }),
        None => Err(wrong_unit(text, &unit, dim)),
    }
}

/// The number of a text as typed, with another unit behind it: `310N/mm` as `310 lb/in`.
///
/// `None` when the text is not a number of this dimension.
pub fn with_unit(text: &str, dim: Dim, mark: DecimalMark, unit: &Unit) -> Option<String> {
    number(text, dim, mark).ok()?;
    let clean = plain_signs(text);
    let (.., old) = split(text, mark).ok()?;
    let digits = clean.trim().strip_suffix(old.as_str())?.trim_end();
    Some(format!("{digits} {}", unit.symbol).trim_end().to_owned())
}

/// True for a number with nothing behind it, to which the shown unit may be added.
pub fn is_bare(text: &str, mark: DecimalMark) -> bool {
    split(text, mark).is_ok_and(|(_, _, unit)| unit.is_empty())
}

fn wrong_unit(text: &str, unit: &str, dim: Dim) -> EntryError {
    match table::find_any(unit) {
        Some(other) => EntryError::WrongUnit { text: shown(text), given: other.dim, wanted: dim },
        None => EntryError::UnknownUnit { text: shown(text), unit: shown(unit), wanted: dim },
    }
}

/// Long or strange input is shortened before it is quoted in a message.
fn shown(text: &str) -> String {
    const MOST: usize = 40;
    let clean: String = text.trim().chars().map(|c| if c.is_control() { '?' } else { c }).collect();
    if clean.chars().count() <= MOST { clean } else { clean.chars().take(MOST).chain("...".chars()).collect() }
}

/// The common case, `49.5 N/mm`, without copying: value and unit spelling.
fn plain(text: &str, mark: DecimalMark) -> Option<(f64, &str)> {
    let text = text.trim();
    let digits = run(text, |c| c.is_ascii_digit() || c == '.');
    let unit = text[digits..].trim_start();
    let is_simple =
        mark == DecimalMark::Point && !unit.starts_with(|c: char| !c.is_alphabetic() || c == 'e' || c == 'E');
    is_simple.then(|| text[..digits].parse().ok().map(|value| (value, unit))).flatten()
}

/// Splits `text` into value, ambiguity and unit spelling.
fn split(text: &str, mark: DecimalMark) -> Result<(f64, bool, String), EntryError> {
    let clean = plain_signs(text);
    let clean = clean.trim();
    let (negative, body) = match clean.strip_prefix('-') {
        Some(rest) => (true, rest.trim_start()),
        None => (false, clean.strip_prefix('+').unwrap_or(clean)),
    };
    let lower = body.to_ascii_lowercase();
    if ["nan", "inf"].iter().any(|w| lower.starts_with(w)) {
        return Err(EntryError::NotFinite { text: shown(text) });
    }
    let head = head_length(body);
    if !body[..head].contains(|c: char| c.is_ascii_digit()) {
        return Err(EntryError::NotANumber { text: shown(text) });
    }
    let (value, ambiguous, used) =
        value(&body[..head], mark).ok_or_else(|| EntryError::Grouping { text: shown(text) })?;
    if !value.is_finite() {
        return Err(EntryError::NotFinite { text: shown(text) });
    }
    let signed = if negative { -value } else { value };
    Ok((signed, ambiguous, body[used..].trim().to_owned()))
}

/// Typographic minus signs, hard spaces and fraction characters in plain ASCII.
fn plain_signs(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '\u{2212}' | '\u{2013}' => out.push('-'),
            '\u{a0}' | '\u{202f}' | '\u{2009}' | '\t' => out.push(' '),
            '½' => out.push_str(" 1/2"),
            '¼' => out.push_str(" 1/4"),
            '¾' => out.push_str(" 3/4"),
            _ => out.push(c),
        }
    }
    out
}

/// How far the characters of a number reach, its fraction and exponent included.
fn head_length(body: &str) -> usize {
    body.find(|c: char| !(c.is_ascii_digit() || ".,/ -+eE".contains(c))).unwrap_or(body.len())
}

/// The value at the start of `head`, whether it is ambiguous, and the bytes used.
fn value(head: &str, mark: DecimalMark) -> Option<(f64, bool, usize)> {
    let digits = run(head, |c| c.is_ascii_digit());
    if let Some((fraction, used)) = fraction(head) {
        return Some((fraction, false, used));
    }
    if let Some(rest) = head[digits..].strip_prefix([' ', '-'])
        && let Some((part, used)) = fraction(rest)
    {
        let whole: f64 = head[..digits].parse().ok()?;
        return Some((whole + part, false, digits + 1 + used));
    }
    let token = number_token(head);
    let (plain, ambiguous) = ungroup(&head[..token], mark)?;
    let exponent = exponent_length(&head[token..]);
    let value: f64 = format!("{plain}{}", &head[token..token + exponent]).parse().ok()?;
    Some((value, ambiguous, token + exponent))
}

fn run(text: &str, keep: impl Fn(char) -> bool) -> usize {
    text.find(|c| !keep(c)).unwrap_or(text.len())
}

/// `3/8` at the start of `text`: its value and length.
fn fraction(text: &str) -> Option<(f64, usize)> {
    let over = run(text, |c| c.is_ascii_digit());
    let under = run(text[over..].strip_prefix('/')?, |c| c.is_ascii_digit());
    let top: f64 = text[..over].parse().ok()?;
    let bottom: f64 = text[over + 1..over + 1 + under].parse().ok()?;
    (bottom != 0.0).then(|| (top / bottom, over + 1 + under))
}

/// Digits with points, commas and three-digit groups behind single spaces; behind a point or comma no group follows.
fn number_token(head: &str) -> usize {
    let mut end = run(head, |c| c.is_ascii_digit() || c == '.' || c == ',');
    while let Some(rest) = head[end..].strip_prefix(' ').filter(|_| !head[..end].contains(['.', ','])) {
        let group = run(rest, |c| c.is_ascii_digit());
        let before = head[..end].rsplit(' ').next().map_or(0, str::len);
        if group != 3 || before > 3 || rest[group..].starts_with('/') {
            break;
        }
        end += 1 + run(rest, |c| c.is_ascii_digit() || c == '.' || c == ',');
    }
    end
}

fn exponent_length(text: &str) -> usize {
    let Some(rest) = text.strip_prefix(['e', 'E']) else { return 0 };
    let sign = usize::from(rest.starts_with(['+', '-']));
    match run(&rest[sign..], |c| c.is_ascii_digit()) {
        0 => 0,
        digits => 1 + sign + digits,
    }
}

/// Takes grouping signs out and makes the decimal mark a point; `None` if the groups make no sense.
fn ungroup(token: &str, mark: DecimalMark) -> Option<(String, bool)> {
    let joined: String = token.chars().filter(|c| *c != ' ').collect();
    let (points, commas) = (joined.matches('.').count(), joined.matches(',').count());
    let decimal = match (points, commas) {
        (0, 0) => return Some((joined, false)),
        (p, c) if p > 0 && c > 0 => {
            let last = joined.rfind(['.', ','])?;
            Some(joined[last..].chars().next()?)
        }
        (p, c) if p + c > 1 => None,
        _ => {
            let sign = if points == 1 { '.' } else { ',' };
            let (whole, part) = joined.split_once(sign)?;
            let looks_grouped = part.len() == 3 && (1..=3).contains(&whole.len()) && !whole.starts_with('0');
            if sign != mark.sign() && looks_grouped {
                return Some((format!("{whole}{part}"), true));
            }
            Some(sign)
        }
    };
    let (whole, part) = match decimal {
        Some(sign) if joined.matches(sign).count() == 1 => joined.split_once(sign)?,
        Some(_) => return None,
        None => (joined.as_str(), ""),
    };
    let groups: Vec<&str> = whole.split(['.', ',']).collect();
    let grouped = groups.len() > 1;
    let well_grouped = groups[0].len() <= 3 && !groups[0].is_empty() && groups[1..].iter().all(|g| g.len() == 3);
    if (grouped && !well_grouped) || part.contains(['.', ',']) {
        return None;
    }
    let whole = groups.concat();
    Some((format!("{}.{part}", if whole.is_empty() { "0" } else { &whole }), false))
}
