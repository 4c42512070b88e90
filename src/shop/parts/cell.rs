//! Cells to numbers: a fast way for plain numbers, [`parse`] for all others.

use super::Meaning;
use super::header_words::MONEY;
use super::text::Table;
use crate::base::bounds::LIST_ROWS;
use crate::base::message::Message;
use crate::base::table::folded;
use crate::base::units::{DecimalMark, Dim, EntryError, Unit, parse};
use crate::message;

/// Cells that must show a decimal mark without doubt before the guess is made.
const ENOUGH: usize = 200;

/// Why a cell is not used.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Fault {
    /// A bare number, and its column says no unit.
    NoUnit,
    /// What is wrong with it.
    Wrong(Message),
}

impl From<EntryError> for Fault {
    fn from(error: EntryError) -> Self {
        Fault::Wrong(error.into())
    }
}

/// The ± of a rate as a cell gives it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Tolerance {
    /// A share of the rate.
    Share(f64),
    /// A rate, N/m.
    Rate(f64),
}

/// Reads numbers by one decimal mark and keeps count of what could be read in two ways.
pub(super) struct Numbers {
    mark: DecimalMark,
    sign: u8,
    /// Cells that could be read in two ways.
    pub ambiguous: usize,
    /// One of them, and how it was read.
    pub example: Option<(String, f64)>,
}

impl Numbers {
    pub fn new(mark: DecimalMark) -> Self {
        let sign = if mark == DecimalMark::Point { b'.' } else { b',' };
        Numbers { mark, sign, ambiguous: 0, example: None }
    }

    /// A quantity in SI. A unit in the cell goes before the column's.
    pub fn quantity(&mut self, text: &str, dim: Dim, unit: Option<&'static Unit>) -> Result<f64, Fault> {
        if let Some(unit) = unit.filter(|u| u.dim == dim)
            && let Some(si) = self.plain_si(text, unit)
        {
            return Ok(si);
        }
        match parse::number(text, dim, self.mark) {
            Ok(number) if dim != Dim::Ratio || !number.unit.symbol.is_empty() => Ok(self.counted(text, number)),
            Ok(_) | Err(EntryError::MissingUnit { .. }) => {
                let unit = unit.ok_or(Fault::NoUnit)?;
                Ok(self.counted(text, parse::number(&format!("{text} {}", unit.symbol), unit.dim, self.mark)?))
            }
            Err(error) => Err(error.into()),
        }
    }

    fn plain_si(&self, text: &str, unit: &Unit) -> Option<f64> {
        let number = match text.strip_suffix(unit.symbol) {
            Some(number) => number.trim_end(),
            None => text,
        };
        let si = plain(number, self.sign)? * unit.si;
        (si == 0.0 || unit.dim.bound().holds(si)).then_some(si)
    }

    fn counted(&mut self, text: &str, number: parse::Number) -> f64 {
        if number.ambiguous {
            self.ambiguous += 1;
            self.example.get_or_insert_with(|| (text.to_owned(), number.value));
        }
        number.si()
    }

    /// The ± of a rate: "5 %", "± 2 N/mm".
    pub fn tolerance(&mut self, text: &str, unit: Option<&'static Unit>) -> Result<Tolerance, Fault> {
        let text = without_plus_minus(text);
        if let Some((unit, si)) = unit.and_then(|u| Some((u, self.plain_si(text, u)?))) {
            return Ok(if unit.dim == Dim::Ratio { Tolerance::Share(si) } else { Tolerance::Rate(si) });
        }
        let is_rate = |dim| parse::number(text, dim, self.mark).is_ok();
        let bare = parse::is_bare(text, self.mark);
        if (bare && unit.is_some_and(|u| u.dim == Dim::SpringRate)) || (!bare && is_rate(Dim::SpringRate)) {
            return self.quantity(text, Dim::SpringRate, unit).map(Tolerance::Rate);
        }
        self.quantity(text, Dim::Ratio, unit).map(Tolerance::Share)
    }

    /// A number without a unit.
    pub fn count(&mut self, text: &str) -> Result<f64, Fault> {
        if let Some(value) = plain(text, self.sign) {
            return Ok(value);
        }
        let number = parse::number(text, Dim::Ratio, self.mark)?;
        if !number.unit.symbol.is_empty() {
            return Err(Fault::Wrong(message!(
                "\"{text}\" is a percentage; this column must contain plain numbers",
                text
            )));
        }
        Ok(self.counted(text, number))
    }

    /// A price, with one sign or word of money or none.
    pub fn price(&mut self, text: &str) -> Result<f64, Fault> {
        plain(text, self.sign).map_or_else(|| self.count(without_money(text)), Ok)
    }

    /// Whole pieces.
    pub fn pieces(&mut self, text: &str) -> Result<u32, Fault> {
        let pieces = self.count(text)?;
        if pieces.fract() != 0.0 || !(0.0..=f64::from(u32::MAX)).contains(&pieces) {
            return Err(Fault::Wrong(message!("\"{text}\" must be a whole number of pieces, 0 or more", text)));
        }
        Ok(pieces as u32)
    }
}

/// A plain number such as `-12.5`, with this decimal sign; `None` for anything [`parse`] should look at.
///
/// Up to 15 digits and 22 places, both exact as `f64`: one rounding, the same value as any other correct reader.
fn plain(text: &str, sign: u8) -> Option<f64> {
    const TENS: [f64; 16] = [1e0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15];
    let bytes = text.as_bytes();
    let (negative, digits) = match bytes.first()? {
        b'-' => (true, &bytes[1..]),
        b'+' => (false, &bytes[1..]),
        _ => (false, bytes),
    };
    let (mut whole, mut count, mut behind) = (0_u64, 0_usize, None);
    for &byte in digits {
        if byte.is_ascii_digit() && count < 15 {
            whole = whole * 10 + u64::from(byte - b'0');
            count += 1;
        } else if byte == sign && behind.is_none() {
            behind = Some(count);
        } else {
            return None;
        }
    }
    let value = whole as f64 / TENS[count - behind.unwrap_or(count)];
    (count > 0).then_some(if negative { -value } else { value })
}

/// "± 5 %" without its sign.
pub(super) fn without_plus_minus(text: &str) -> &str {
    ["±", "+/-", "+-", "+/−"].iter().find_map(|sign| text.strip_prefix(sign)).unwrap_or(text).trim_start()
}

/// A price without its sign or word of money; only one is taken off. The dash of "45,-" means no cents.
fn without_money(text: &str) -> &str {
    let is_number = |c: char| c.is_ascii_digit() || ".,+-\u{2212}\u{2013}".contains(c);
    let Some(start) = text.find(is_number) else { return text };
    let end = text.rfind(is_number).map_or(text.len(), |i| i + text[i..].chars().next().map_or(0, char::len_utf8));
    let (before, after) = (text[..start].trim(), text[end..].trim());
    let is_money = |word: &str| word.is_empty() || MONEY.contains(&folded(word.trim_end_matches('.')).as_str());
    let number = if before.is_empty() || after.is_empty() { &text[start..end] } else { text };
    if !is_money(before) || !is_money(after) {
        return text;
    }
    [",-", ".-", ",\u{2013}", ".\u{2013}"].iter().find_map(|dash| number.strip_suffix(dash)).unwrap_or(number)
}

/// True for a header that is nothing but a number: the first row holds parts already.
pub(super) fn is_bare_number(text: &str) -> bool {
    parse::is_bare(text, DecimalMark::Point) || parse::is_bare(text, DecimalMark::Comma)
}

/// True when the column holds numbers.
pub(super) fn is_number(means: Meaning) -> bool {
    !matches!(means, Meaning::Number | Meaning::What | Meaning::Ends | Meaning::Mounts)
}

/// What a cell says about the decimal mark, and whether without doubt.
fn evidence(text: &str) -> Option<(DecimalMark, bool)> {
    let is_part = |c: char| c.is_ascii_digit() || " \u{a0}\u{202f}.,".contains(c);
    let number = &text[text.find(|c: char| c.is_ascii_digit() || c == '.' || c == ',')?..];
    let number = number[..number.find(|c| !is_part(c)).unwrap_or(number.len())].trim_end();
    let last = number.rfind(['.', ','])?;
    let (mark, other) = match number.as_bytes()[last] {
        b'.' => (DecimalMark::Point, DecimalMark::Comma),
        _ => (DecimalMark::Comma, DecimalMark::Point),
    };
    let signs = number.matches(['.', ',']).count();
    let same = number.matches(char::from(number.as_bytes()[last])).count();
    let (whole, part) = (&number[..last], &number[last + 1..]);
    Some(match (signs, same) {
        (1, _) if part.len() == 3 && (1..=3).contains(&whole.len()) && !whole.starts_with('0') => (mark, false),
        (1, _) => (mark, true),
        (_, 1) => (mark, true),
        (n, m) if n == m => (other, true),
        _ => return None,
    })
}

/// The decimal mark of the numbers in these columns.
///
/// Without any cell that shows it beyond doubt, semicolons between columns speak for a comma.
pub(super) fn guess_mark(table: &Table, columns: &[usize]) -> DecimalMark {
    let (mut sure, mut maybe) = ([0_usize; 2], 0_usize);
    let mut rows = table.rows();
    rows.next();
    let mut seen = 0;
    while let Some(row) = rows.next().filter(|_| sure[0] + sure[1] < ENOUGH && seen < LIST_ROWS.count()) {
        seen += 1;
        for found in columns.iter().filter_map(|at| row.cells.get(*at)).filter_map(evidence) {
            match found {
                (mark, true) => sure[usize::from(mark == DecimalMark::Comma)] += 1,
                (_, false) => maybe += 1,
            }
        }
    }
    match sure[0].cmp(&sure[1]) {
        std::cmp::Ordering::Greater => DecimalMark::Point,
        std::cmp::Ordering::Less => DecimalMark::Comma,
        std::cmp::Ordering::Equal if maybe > 0 && table.delimiter == b';' => DecimalMark::Comma,
        std::cmp::Ordering::Equal => DecimalMark::Point,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::base::units::table;
    use proptest::prelude::*;

    #[test]
    fn prices_and_pieces() {
        use DecimalMark::{Comma, Point};
        for (text, mark, price) in [
            ("1.234,50", Comma, 1234.5),
            ("1.234,50", Point, 1234.5),
            ("€ 45.00", Point, 45.0),
            ("45,00 EUR", Comma, 45.0),
            ("$45", Point, 45.0),
            ("kr 99", Comma, 99.0),
            ("Fr 99.50", Point, 99.5),
            ("45,-", Comma, 45.0),
            ("45.\u{2013} EUR", Point, 45.0),
            ("1,234.50 £", Point, 1234.5),
        ] {
            assert_eq!(Numbers::new(mark).price(text), Ok(price), "{text}");
        }
        for text in ["45 mm", "€ 45 EUR", "about 5", "5 %", "", "-", ",-", "EUR", "5-"] {
            assert!(Numbers::new(Point).price(text).is_err(), "{text}");
        }
        assert_eq!(Numbers::new(Point).pieces("12.0"), Ok(12));
        for text in ["1.5", "-1", "5000000000", "few"] {
            assert!(Numbers::new(Point).pieces(text).is_err(), "{text}");
        }
    }

    #[test]
    fn what_a_cell_says_about_the_mark() {
        use DecimalMark::{Comma, Point};
        for (text, found) in [
            ("12", None),
            ("12.5", Some((Point, true))),
            ("12,5", Some((Comma, true))),
            ("1.155", Some((Point, false))),
            ("1,155", Some((Comma, false))),
            ("0,155", Some((Comma, true))),
            ("1.155,5", Some((Comma, true))),
            ("€ 1,155.50", Some((Point, true))),
            ("1,155,000", Some((Point, true))),
            ("1 155,500 N", Some((Comma, true))),
            ("abc", None),
        ] {
            assert_eq!(evidence(text), found, "{text}");
        }
    }

    /// A number written in one of the ways lists write them.
    fn texts() -> impl Strategy<Value = String> {
        let digits = (0_u64..1_000_000_000_000_000, 0_usize..18);
        let whole = any::<i32>().prop_map(|n| n.to_string());
        let parted = (digits, prop_oneof![Just('.'), Just(',')]).prop_map(|((n, places), sign)| {
            let n = format!("{n:0>width$}", width = places);
            format!("{}{sign}{}", &n[..n.len() - places.min(n.len())], &n[n.len() - places.min(n.len())..])
        });
        let signed = (prop_oneof![Just(""), Just("-"), Just("+")], parted).prop_map(|(s, n)| format!("{s}{n}"));
        let float = any::<f64>().prop_map(|n| n.to_string());
        prop_oneof![whole, signed, float, "[0-9.,+ -]{1,12}"]
    }

    proptest! {
        #[test]
        fn the_fast_way_gives_what_units_parse_gives(text in texts(), comma: bool, which in 0_usize..60) {
            let mark = if comma { DecimalMark::Comma } else { DecimalMark::Point };
            let unit = &table::UNITS[which % table::UNITS.len()];
            let numbers = Numbers::new(mark);
            for written in [text.clone(), format!("{text} {}", unit.symbol)] {
                if let Some(fast) = numbers.plain_si(written.trim(), unit) {
                    let slow = parse::number(&format!("{text} {}", unit.symbol), unit.dim, mark);
                    let slow = slow.map(|n| n.si());
                    prop_assert_eq!(slow.map(f64::to_bits), Ok(fast.to_bits()), "{}", written);
                }
            }
        }

        #[test]
        fn the_whole_way_gives_what_units_parse_gives(text in texts(), comma: bool) {
            let mark = if comma { DecimalMark::Comma } else { DecimalMark::Point };
            let unit = table::find(Dim::Length, "mm").expect("mm");
            let slow = parse::number(&format!("{} mm", text.trim()), Dim::Length, mark).map(|n| n.si()).ok();
            prop_assert_eq!(Numbers::new(mark).quantity(text.trim(), Dim::Length, Some(unit)).ok(), slow, "{}", text);
        }
    }
}
