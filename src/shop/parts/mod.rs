//! The shop's own parts list: springs and dampers read from a table in a text file.
//!
//! Text in, list out. [`guess`] proposes what each column means, the user corrects it, [`read()`] reads the rows. A row
//! that cannot be used is listed with its reason; the others load in any case. Interpretations are listed in
//! [`List::notes`]. The form of the file is described in `assets/parts-list.md`.

mod cell;
mod columns;
mod header;
mod header_words;
mod likely_units;
mod meaning;
mod read;
mod row;
pub mod test_sheet;
mod text;

use thiserror::Error;

use crate::base::bounds::{CELL, COLUMNS};
use crate::base::language::tr;
use crate::base::message::Message;
use crate::base::units::{Amount, Force, Length, Ratio, SpringRate};
use crate::say;
pub use crate::trade::damper::ForcePoint;
use crate::trade::spring::Ends;

pub use columns::{Column, Columns, guess, guess_parted};
pub use likely_units::likely_units;
pub use meaning::Meaning;
pub use read::read;

/// What a parts list holds.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct List {
    /// The springs, in the order of the file.
    pub springs: Vec<Spring>,
    /// The dampers, in the order of the file.
    pub dampers: Vec<Damper>,
    /// Rows that could not be used.
    pub bad: Vec<BadRow>,
    /// How many rows hold anything, the header not counted.
    pub rows: usize,
    /// What was interpreted: encoding, delimiter, decimal mark, and what was left out.
    pub notes: Vec<Message>,
}

/// A spring of the list. `None` is not known.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Spring {
    /// The line of the file, from 1.
    pub line: usize,
    /// The maker's or the shop's own number.
    pub number: String,
    /// What it is, in words.
    pub what: String,
    /// The rate.
    pub rate: SpringRate,
    /// The true rate lies within ± this share of the rate.
    pub rate_tolerance: Option<Ratio>,
    /// Length without load.
    pub free_length: Option<Length>,
    /// Length with all coils touching.
    pub solid_length: Option<Length>,
    /// Across the coil, inside.
    pub inside_diameter: Option<Length>,
    /// Across the coil, outside.
    pub outside_diameter: Option<Length>,
    /// Wire diameter.
    pub wire: Option<Length>,
    /// All coils, end coils included.
    pub total_coils: Option<f64>,
    /// How the ends are made.
    pub ends: Option<Ends>,
    /// The load it may carry.
    pub max_load: Option<Force>,
    /// The price, in the shop's currency.
    pub price: Option<f64>,
    /// Pieces in stock.
    pub stock: Option<u32>,
}

impl Spring {
    /// A spring known only by its line and number; its rate is to be filled in.
    pub fn numbered(line: usize, number: &str) -> Self {
        Spring { line, number: number.to_owned(), ..Spring::default() }
    }
}

/// A damper of the list. `None` is not known.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Damper {
    /// The line of the file, from 1.
    pub line: usize,
    /// The maker's or the shop's own number.
    pub number: String,
    /// What it is, in words.
    pub what: String,
    /// Length pushed in.
    pub closed_length: Option<Length>,
    /// Length pulled out.
    pub open_length: Option<Length>,
    /// Forces, by rising speed.
    pub points: Vec<ForcePoint>,
    /// How it is mounted, in words.
    pub mounts: String,
    /// The price, in the shop's currency.
    pub price: Option<f64>,
    /// Pieces in stock.
    pub stock: Option<u32>,
}

/// A row that could not be used.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct BadRow {
    /// The line of the file, from 1.
    pub line: usize,
    /// What is wrong with it, and what is allowed.
    pub reason: Message,
    /// The row as it stood.
    pub text: String,
}

/// No parts list has more columns.
pub const MOST_COLUMNS: usize = COLUMNS.count();

/// Why a file cannot be read as a parts list at all.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum ListError {
    /// Nothing but blank rows.
    #[error("{}", tr("The file is empty"))]
    Empty,
    /// Bytes that are no text.
    #[error("{}", tr("The file is not text. Save the table as text: CSV, UTF-8"))]
    NotText,
    /// The first row holds numbers.
    #[error("{}", tr("The first row has no column names. Add a row of column names above the parts"))]
    NoHeader,
    /// A delimiter that cannot separate columns.
    #[error("{}", say!("\"{delimiter}\" cannot separate columns. Use a comma, a semicolon or a tab", delimiter))]
    Delimiter {
        /// The delimiter given.
        delimiter: char,
    },
    /// Columns that the file does not have.
    #[error("{}", say!("The file has no column {columns}. Choose the meaning of each column again", columns))]
    DoesNotFit {
        /// The headers that were not found, quoted.
        columns: String,
    },
    /// A unit that measures something else, or none at all.
    #[error(
        "{}",
        say!(
            "Column \"{column}\": \"{unit}\" is not a unit for {wanted}; use {allowed}",
            column,
            unit,
            wanted = means.noun(),
            allowed = means.allowed_units()
        )
    )]
    WrongUnit {
        /// The header.
        column: String,
        /// The unit given.
        unit: String,
        /// What the column means.
        means: Meaning,
    },
    /// A column without a unit, and numbers in it without one.
    #[error("{}", say!("Column \"{column}\" has no unit. Choose one: {allowed}", column, allowed = means.allowed_units()))]
    NoUnit {
        /// The header.
        column: String,
        /// What it means.
        means: Meaning,
    },
    /// More columns than a list of parts has.
    #[error(
        "{}",
        say!(
            "The first row has {count} columns; a parts list has at most {most}. Choose another file",
            count,
            most = MOST_COLUMNS
        )
    )]
    TooManyColumns {
        /// How many.
        count: usize,
    },
    /// More rows than a table of its kind has.
    #[error("{}", say!("The file has more than {most} rows, the maximum. Split it, or delete rows you do not need", most))]
    TooManyRows {
        /// The most.
        most: usize,
    },
    /// A column name that is a text of its own.
    #[error(
        "{}",
        say!(
            "A column name in the first row has {count} characters; at most {most} are possible. Shorten it, or close its quotation mark",
            count,
            most = CELL.count()
        )
    )]
    LongName {
        /// How many.
        count: usize,
    },
    /// Two columns with the same meaning.
    #[error("{}", say!("Columns \"{first}\" and \"{second}\" both mean {meaning}. Keep one", first, second, meaning = means.words()))]
    Twice {
        /// What both mean.
        means: Meaning,
        /// The first header.
        first: String,
        /// The second header.
        second: String,
    },
    /// A force column whose speed is no speed.
    #[error(
        "{}",
        say!(
            "Column \"{column}\": {speed} m/s is not a damper speed. Use a speed above 0 and up to 100 m/s",
            column,
            speed
        )
    )]
    Speed {
        /// The header.
        column: String,
        /// The speed given, m/s.
        speed: Amount,
    },
    /// No column that makes a row a spring or a damper.
    #[error("{}", tr("No column gives a spring rate, damper length or damper force: the list cannot be used"))]
    NothingUsable,
}

/// The text of a file: UTF-8, UTF-16 with its mark, else Windows-1252.
///
/// # Errors
/// [`ListError::NotText`].
pub fn text_of(bytes: &[u8]) -> Result<String, ListError> {
    Ok(text::decode(bytes)?.text.into_owned())
}

/// The parts list that ships with the program. Every part in it is invented.
pub fn demo() -> &'static [u8] {
    include_bytes!("../../../presets/demo-parts.csv")
}
