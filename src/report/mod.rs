//! One neutral tree built from an answer, and its writers.
//!
//! [`figures`] names every result, [`sentence`] says the answer plainly,
//! [`sheet`] builds the tree, [`text`] and [`json`] write it, [`picture`] and [`ruler`] give
//! the data of each picture. Nothing here reads or writes a file.

pub mod figures;
pub mod json;
pub mod picture;
pub mod ruler;
pub mod sentence;
pub mod sheet;
pub mod text;

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
    /// A table; the first column holds words, the others numbers.
    Table {
        /// Column heads.
        head: Vec<String>,
        /// Rows, each as long as the head.
        rows: Vec<Vec<String>>,
    },
}
