//! Tables of results by their keys.

use std::collections::HashMap;
use std::ops::Deref;

use super::{Figure, figures};
use crate::base::language::tr;
use crate::base::units::UnitChoice;
use crate::report::Block;
use crate::solve::answer::Answer;

/// Every result of an answer, found by its key.
#[derive(Debug, Clone)]
pub struct Results {
    list: Vec<Figure>,
    at: HashMap<String, usize>,
}

/// A column: what stands above it, and what fills the gap `{}` in the keys of its rows.
pub type Column = (String, String);

impl Deref for Results {
    type Target = [Figure];

    fn deref(&self) -> &[Figure] {
        &self.list
    }
}

impl Results {
    /// Those of an answer.
    pub fn of(answer: &Answer) -> Self {
        let list = figures(answer);
        let at = list.iter().enumerate().map(|(i, figure)| (figure.key.clone(), i)).collect();
        Results { list, at }
    }

    /// The result of this key; every key of the catalogue is there, known or not.
    pub fn find(&self, key: &str) -> Option<&Figure> {
        let found = self.at.get(key).map(|i| &self.list[*i]);
        debug_assert!(found.is_some(), "no result has the key {key}");
        found
    }

    /// The first of these that says something, else the last.
    pub fn first_told(&self, keys: &[String]) -> Option<&Figure> {
        let mut all = keys.iter().filter_map(|key| self.find(key));
        all.find(|figure| figure.is_told()).or_else(|| self.find(keys.last()?))
    }

    /// The results of one row.
    pub fn row_of<'a>(&'a self, key: &'a str, columns: &'a [Column]) -> impl Iterator<Item = Option<&'a Figure>> {
        columns.iter().map(move |(_, gap)| self.find(&key.replacen("{}", gap, 1)))
    }

    /// Something is said in this row.
    pub fn is_told(&self, key: &str, columns: &[Column]) -> bool {
        self.row_of(key, columns).flatten().any(Figure::is_told)
    }

    /// A row for each key: its label, and what is said in each column.
    pub fn rows(&self, keys: &[&str], columns: &[Column], units: &UnitChoice) -> Vec<Vec<String>> {
        keys.iter().map(|key| row(self.row_of(key, columns), units)).collect()
    }

    /// A row for each of these that is known, in two columns; the keys begin with `prefix`.
    pub fn known(&self, prefix: &str, keys: &[&str], units: &UnitChoice) -> Vec<Vec<String>> {
        let all = keys.iter().filter_map(|key| self.find(&format!("{prefix}.{key}")));
        all.filter(|figure| figure.si.is_some()).map(|figure| vec![figure.head(units), figure.said(units)]).collect()
    }

    /// A table of these rows.
    pub fn table(&self, what: String, columns: &[Column], keys: &[&str], units: &UnitChoice) -> Block {
        Block::Table { head: head(what, columns), rows: self.rows(keys, columns, units) }
    }
}

/// The heads of a table.
pub fn head(what: String, columns: &[Column]) -> Vec<String> {
    std::iter::once(what).chain(columns.iter().map(|column| column.0.clone())).collect()
}

/// A row of results: the label of the first, and what is said of each.
pub fn row<'a>(figures: impl Iterator<Item = Option<&'a Figure>>, units: &UnitChoice) -> Vec<String> {
    let mut cells = vec![String::new()];
    for figure in figures {
        if let (Some(figure), true) = (figure, cells[0].is_empty()) {
            cells[0] = figure.head(units);
        }
        cells.push(figure.map_or_else(|| tr("not known").to_owned(), |f| f.said(units)));
    }
    cells
}
