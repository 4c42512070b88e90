//! One neutral tree built from an answer, and its writers.
//!
//! [`choose`](sections::choose) tells what the parts list offers, [`results`] names every result, [`sentence`](sections::sentence) says the answer plainly,
//! [`sheet`](sheets::sheet) builds the tree, [`text`](write::text) and [`json`](write::json) write it, [`page`](write::page) lays it out on paper, [`picture`](pictures::picture) and [`ruler`](pictures::ruler)
//! give the data of each picture, [`dampers`](sections::damper_tables) that of force against speed, [`plot`](pictures::plot) draws it. Only [`mod@print`]
//! touches a disk.

pub mod decimal;
pub mod phrases;
pub mod pictures;
pub mod print;
pub mod results;
pub mod sections;
pub mod sheets;
pub mod write;

use crate::base::language::tr;
use crate::base::message::Message;
use crate::base::units::{Quantity, Ratio, UnitChoice, display};

/// A report: a title and blocks in order.
#[derive(Debug, Clone, PartialEq)]
pub struct Report {
    /// What it is.
    pub title: String,
    /// Its parts.
    pub blocks: Vec<Block>,
}

/// One part of a report.
#[derive(Debug, Clone, PartialEq)]
pub enum Block {
    /// A heading.
    Heading(String),
    /// A paragraph.
    Text(String),
    /// A paragraph that must not be overlooked.
    Caution(String),
    /// A list.
    List(Vec<String>),
    /// Steps in order; writers number them from 1.
    Steps(Vec<String>),
    /// A table; the first column holds words, the others numbers.
    Table {
        /// Column heads.
        head: Vec<String>,
        /// Rows, each as long as the head.
        rows: Vec<Vec<String>>,
    },
    /// A picture.
    Drawing(pictures::drawing::Drawing),
    /// Lines to be filled in by hand, each behind its words.
    Blanks(Vec<String>),
}

impl Block {
    /// A list of what was found.
    pub fn list(messages: &[Message]) -> Self {
        Block::List(messages.iter().map(ToString::to_string).collect())
    }

    /// A table under these heads.
    pub fn table<const N: usize>(head: [&str; N], rows: Vec<Vec<String>>) -> Self {
        Block::Table { head: head.map(str::to_owned).to_vec(), rows }
    }

    /// A table of rows in two columns, under the head of the first; nothing where there are none.
    pub fn pairs(head: String, rows: Vec<Vec<String>>) -> Option<Block> {
        (!rows.is_empty()).then(|| Block::Table { head: vec![head, String::new()], rows })
    }

    /// Lines under their head; nothing where there are none.
    pub fn under(head: Block, lines: Vec<String>) -> Vec<Block> {
        if lines.is_empty() { Vec::new() } else { vec![head, Block::List(lines)] }
    }
}

/// A value with its ± as far as that is seen: "1.34 ± 0.03 Hz"; "not known" of what is not.
fn with_u<Q: Quantity>(value: Option<Q>, u_si: Option<f64>, units: &UnitChoice) -> String {
    or_unknown(value, |v| display::rounded_with_u(v.si(), u_si, Q::DIM, units))
}

/// A share with its ± in per cent: "51.3 ± 0.2 %".
fn percent_with_u(share: Option<Ratio>, u: Option<f64>) -> String {
    or_unknown(share, |s| {
        format!("{}{} %", display::fixed(100.0 * s.si(), 1), display::plus_minus(u.map(|u| 100.0 * u), 1))
    })
}

/// A cell says that its value is not known. It must be rendered in the voice of the reader.
pub fn is_unknown(cell: &str) -> bool {
    cell.trim() == tr("not known")
}

/// "204.00 EUR".
fn money(amount: f64, currency: &str) -> String {
    format!("{} {currency}", display::fixed(amount, 2)).trim_end().to_owned()
}

/// The text of what is known, "not known" of what is not.
fn or_unknown<T>(value: Option<T>, text: impl Fn(T) -> String) -> String {
    value.map_or_else(|| tr("not known").to_owned(), text)
}
