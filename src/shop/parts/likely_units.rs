//! The units that bare numbers most likely are in, when neither header nor cells name one: proposed, never taken.

use super::columns::{Columns, headers};
use super::meaning::Meaning;
use super::text::{self, Table};
use super::{ListError, cell};
use crate::base::units::{Dim, Unit, parse, table};

/// Rows considered.
const LOOKED_AT: usize = 200;
/// A unit of another system than that of the list's lengths is this many times less likely.
const OTHER_SYSTEM: f64 = 3.0;

/// Proposes a unit for each column that has a meaning and bare numbers without one: its place, and the unit.
///
/// A unit is likely that puts the middle number nearest to what such parts usually measure, those of one system rather
/// than of two. What is usual is common practice, no source.
///
/// # Errors
/// As [`super::guess`].
pub fn likely_units(bytes: &[u8], columns: &Columns) -> Result<Vec<(usize, &'static Unit)>, ListError> {
    let decoded = text::decode(bytes)?;
    let table = Table::open(&decoded.text, columns.delimiter)?;
    let names = headers(&table)?;
    let places = columns.places(&names)?;
    let numbers: Vec<usize> = places.iter().filter(|(_, _, m)| cell::is_number(*m)).map(|(at, ..)| *at).collect();
    let mark = columns.decimal.unwrap_or_else(|| cell::guess_mark(&table, &numbers));
    let mut open: Vec<Open> = Vec::new();
    let mut is_inch = None;
    for (at, column, means) in &places {
        match column.settled_unit(*means)? {
            Some(unit) if unit.dim == Dim::Length => is_inch = is_inch.or(Some(unit.symbol == "in")),
            None if !means.dims().is_empty() => {
                let column = columns.columns.iter().position(|c| std::ptr::eq(c, *column));
                open.extend(column.map(|column| Open { column, at: *at, means: *means, values: Vec::new() }));
            }
            _ => {}
        }
    }
    let mut rows = table.rows();
    rows.next();
    let mut seen = 0;
    while let Some(row) = rows.next().filter(|_| seen < LOOKED_AT) {
        seen += 1;
        for column in &mut open {
            let text = row.cells.get(column.at).map_or("", |c| cell::without_plus_minus(c.trim()));
            let number = parse::is_bare(text, mark).then(|| parse::number(text, Dim::Ratio, mark).ok()).flatten();
            column.values.extend(number.map(|n| n.value.abs()).filter(|v| *v > 0.0));
        }
    }
    let is_inch = is_inch.or_else(|| {
        let lengths = open.iter().filter(|o| o.means.dims() == [Dim::Length]);
        lengths.filter_map(|o| o.likely(None)).map(|unit| unit.symbol == "in").next()
    });
    Ok(open.iter().filter_map(|o| Some((o.column, o.likely(is_inch)?))).collect())
}

/// A column whose numbers have no unit.
struct Open {
    column: usize,
    at: usize,
    means: Meaning,
    values: Vec<f64>,
}

impl Open {
    fn likely(&self, is_inch: Option<bool>) -> Option<&'static Unit> {
        let mut values = self.values.clone();
        values.sort_by(f64::total_cmp);
        let middle = *values.get(values.len() / 2)?;
        let (usual, symbols) = usual(self.means)?;
        let dim = self.means.dims().first().copied()?;
        let off = |unit: &Unit| {
            let is_other = is_inch.is_some_and(|inch| inch != is_of_inches(unit));
            let off = (middle * unit.si / usual).ln().abs();
            off + if is_other { OTHER_SYSTEM.ln() } else { 0.0 }
        };
        let units = symbols.iter().filter_map(|symbol| table::find(dim, symbol));
        units.min_by(|a, b| off(a).total_cmp(&off(b)))
    }
}

fn is_of_inches(unit: &Unit) -> bool {
    matches!(unit.symbol, "in" | "lb/in" | "lbf")
}

/// The size in the middle of what is usual, SI, and the units that lists of such parts are in.
fn usual(means: Meaning) -> Option<(f64, &'static [&'static str])> {
    const LENGTHS: &[&str] = &["mm", "in", "cm", "m"];
    const FORCES: &[&str] = &["N", "lbf", "kgf", "kN"];
    Some(match means {
        Meaning::Rate => (45e3, &["N/mm", "lb/in", "kgf/mm", "N/m"]),
        Meaning::RateTolerance => (0.05, &["%"]),
        Meaning::FreeLength => (0.28, LENGTHS),
        Meaning::SolidLength => (0.13, LENGTHS),
        Meaning::InsideDiameter => (0.075, LENGTHS),
        Meaning::OutsideDiameter => (0.11, LENGTHS),
        Meaning::Wire => (0.012, LENGTHS),
        Meaning::ClosedLength => (0.33, LENGTHS),
        Meaning::OpenLength => (0.5, LENGTHS),
        Meaning::MaxLoad => (6e3, FORCES),
        Meaning::Bump(_) | Meaning::Rebound(_) => (700.0, FORCES),
        _ => return None,
    })
}

#[cfg(test)]
mod tests {
    use super::super::guess;
    use super::*;

    fn proposed(text: &str) -> Vec<(String, &'static str)> {
        let columns = guess(text.as_bytes()).expect("columns");
        let found = likely_units(text.as_bytes(), &columns).expect("read");
        found.into_iter().map(|(i, unit)| (columns.columns[i].header.clone(), unit.symbol)).collect()
    }

    #[test]
    fn bare_numbers_get_the_unit_that_makes_usual_parts() {
        let own = |pairs: &[(&str, &'static str)]| -> Vec<(String, &'static str)> {
            pairs.iter().map(|(header, unit)| ((*header).to_owned(), *unit)).collect()
        };
        let metric = "number;rate;free length;OD\na;28;310;105\nb;32;300;105\nc;140;180;75\n";
        assert_eq!(proposed(metric), own(&[("rate", "N/mm"), ("free length", "mm"), ("OD", "mm")]));
        let inches = "number,rate,free length,wire\na,160,12,0.5\nb,180,11.5,.53\nc,225,10,0.56\n";
        assert_eq!(proposed(inches), own(&[("rate", "lb/in"), ("free length", "in"), ("wire", "in")]));
        // The lengths tell the system where a rate alone could be of either.
        let stiff = "number;rate;free length (mm)\na;150;180\nb;160;180\n";
        assert_eq!(proposed(stiff), own(&[("rate", "N/mm")]));
        let soft = "number;rate;free length (in)\na;90;14\nb;85;14\n";
        assert_eq!(proposed(soft), own(&[("rate", "lb/in")]));
        let old = "number;rate;free length\na;2.8;310\nb;3.2;300\n";
        assert_eq!(proposed(old), own(&[("rate", "kgf/mm"), ("free length", "mm")]));
        // What says its unit is not asked about; nor are words, counts and prices.
        assert_eq!(proposed("number;rate (N/mm);price;stock\na;28;60;2\n"), own(&[]));
        assert_eq!(proposed("number;rate\na;28 N/mm\n"), own(&[]));
    }
}
