//! Why a text is not a number of its field.

use std::fmt;

use thiserror::Error;

use super::display::range;
use super::{Dim, Unit, table};
use crate::base::bounds::NUMBER_TEXT;
use crate::base::language::tr;
use crate::say;

/// Why a text is not a usable number. The field's name is added by the caller.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum EntryError {
    /// No number at the start of the text.
    NotANumber {
        /// What was typed.
        text: String,
    },
    /// NaN, infinity, or too large to hold.
    NotFinite {
        /// What was typed.
        text: String,
    },
    /// A number that nothing on a vehicle can have, however it is meant.
    NotCredible {
        /// What was typed.
        text: String,
        /// The unit typed.
        unit: &'static Unit,
    },
    /// Far more characters than a number has.
    TooLong {
        /// How many.
        count: usize,
    },
    /// A number below zero where only its size counts.
    Negative {
        /// What was typed.
        text: String,
    },
    /// Digit groups that fit no way of writing numbers.
    Grouping {
        /// What was typed.
        text: String,
    },
    /// A number without the unit that it needs.
    MissingUnit {
        /// What was typed.
        text: String,
        /// What the field measures.
        wanted: Dim,
    },
    /// A unit of another kind of quantity.
    WrongUnit {
        /// What was typed.
        text: String,
        /// What the unit measures.
        given: Dim,
        /// What the field measures.
        wanted: Dim,
    },
    /// A unit the program does not know.
    UnknownUnit {
        /// What was typed.
        text: String,
        /// The part read as a unit.
        unit: String,
        /// What the field measures.
        wanted: Dim,
    },
}

impl fmt::Display for EntryError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&match self {
            EntryError::NotANumber { text } => {
                say!("\"{text}\" is not a number. Enter a number such as 1155, 11.25 or 11 1/4", text)
            }
            EntryError::NotFinite { text } => say!("\"{text}\" is not a finite number. Enter the measured value", text),
            EntryError::NotCredible { text, unit } if unit.symbol.is_empty() => say!(
                "\"{text}\" is outside the range possible on a vehicle: {allowed}. Enter the measured value",
                text,
                allowed = range(unit.dim.bound(), unit)
            ),
            EntryError::NotCredible { text, unit } => say!(
                "\"{text}\" is outside the range possible on a vehicle: {allowed}. Enter the measured value, and check that it is in {unit}",
                text,
                allowed = range(unit.dim.bound(), unit),
                unit = unit.symbol
            ),
            EntryError::TooLong { count } => say!(
                "{count} characters are too many for a number; at most {most} are allowed. Enter the measured value",
                count,
                most = NUMBER_TEXT.count()
            ),
            EntryError::Negative { text } => {
                say!("\"{text}\" is below zero. A ± must be zero or above", text)
            }
            EntryError::Grouping { text } => {
                say!("\"{text}\" has ambiguous commas or points. Write 1155.5 or 1155,5", text)
            }
            EntryError::MissingUnit { text, wanted } => {
                let allowed = table::phrase(*wanted);
                say!("\"{text}\" has no unit. Write the unit after the number: {allowed}", text, allowed)
            }
            EntryError::WrongUnit { text, given, wanted } => say!(
                "\"{text}\" is {given}; this field takes {wanted}: {allowed}",
                text,
                given = given.noun(),
                wanted = wanted.noun(),
                allowed = allowed(*wanted)
            ),
            EntryError::UnknownUnit { text, unit, wanted } => say!(
                "\"{unit}\" in \"{text}\" is not a known unit; this field takes {wanted}: {allowed}",
                unit,
                text,
                wanted = wanted.noun(),
                allowed = allowed(*wanted)
            ),
        })
    }
}

/// The units that a field takes.
fn allowed(dim: Dim) -> String {
    if dim == Dim::Ratio { tr("no unit, or %").to_owned() } else { table::phrase(dim) }
}
