//! Tables of results by their keys.

use std::collections::HashMap;
use std::sync::{Arc, OnceLock};

use super::collect::Out;
use super::{Figure, PARTS, Wants, collected, figures, parts_with};
use crate::base::language::tr;
use crate::base::units::{UnitChoice, display};
use crate::report::Block;
use crate::report::phrases::upper_first;
use crate::say;
use crate::solve::answer::{Answer, State};

/// Every result of an answer, found by its key.
#[derive(Debug, Clone)]
pub struct Results(Collected);

#[derive(Debug, Clone)]
enum Collected {
    /// All at once.
    All(List),
    /// Of this answer, each of the [`PARTS`] when the first of its results is needed.
    InParts(Arc<Answer>, Box<[OnceLock<List>; PARTS.len()]>),
}

/// Results by their keys.
#[derive(Debug, Clone, Default)]
struct List {
    figures: Vec<Figure>,
    at: HashMap<String, usize>,
}

impl List {
    fn get(&self, key: &str) -> Option<&Figure> {
        self.at.get(key).map(|i| &self.figures[*i])
    }
}

impl From<Vec<Figure>> for List {
    fn from(figures: Vec<Figure>) -> Self {
        let at = figures.iter().enumerate().map(|(i, figure)| (figure.key.clone(), i)).collect();
        List { figures, at }
    }
}

/// A column: what is above it, and what fills the gap `{}` in the keys of its rows, or precedes those without a gap.
pub type Column = (String, String);

/// A column for each state that is there.
pub fn of_states(is_there: impl Fn(State) -> bool, gap: impl Fn(State) -> String) -> Vec<Column> {
    State::ALL.into_iter().filter(|s| is_there(*s)).map(|s| (s.words().to_string(), gap(s))).collect()
}

/// A column for before and after the change, in these words, where it is known.
pub fn before_after(words: [&str; 2], is_known: [bool; 2], of: &str) -> Vec<Column> {
    let all = ["before", "after"].map(|when| format!("{of}.{when}")).into_iter().zip(words).zip(is_known);
    all.filter(|(_, is_known)| *is_known).map(|((gap, words), _)| (words.to_owned(), gap)).collect()
}

impl From<Vec<Figure>> for Results {
    fn from(figures: Vec<Figure>) -> Self {
        Results(Collected::All(figures.into()))
    }
}

impl Results {
    /// Those of an answer.
    pub fn of(answer: &Answer) -> Self {
        figures(answer).into()
    }

    /// The same without any ±, for what says none.
    pub fn values_of(answer: &Answer) -> Self {
        collected(answer, Wants::Values).into()
    }

    /// The same, each part of them collected when it is first asked for, in the voice of that moment.
    pub fn later(answer: &Arc<Answer>) -> Self {
        Results(Collected::InParts(Arc::clone(answer), Default::default()))
    }

    /// Each of them, in the order of the work.
    pub fn iter(&self) -> impl Iterator<Item = &Figure> {
        let lists: Vec<&List> = match &self.0 {
            Collected::All(list) => vec![list],
            Collected::InParts(answer, parts) => (0..PARTS.len()).map(|at| part(answer, parts, at)).collect(),
        };
        lists.into_iter().flat_map(|list| &list.figures)
    }

    /// Looks where a result of this key can be.
    fn look<'a, T>(&'a self, key: &str, find: impl Fn(&'a List) -> Option<T>) -> Option<T> {
        match &self.0 {
            Collected::All(list) => find(list),
            Collected::InParts(answer, parts) => parts_with(key).find_map(|at| find(part(answer, parts, at))),
        }
    }

    /// The result of this key; every key of the catalogue is there, known or not.
    pub fn find(&self, key: &str) -> Option<&Figure> {
        let found = self.look(key, |list| list.get(key));
        debug_assert!(found.is_some(), "no result has the key {key}");
        found
    }

    /// What a key names: a result, or a whole band.
    pub fn named(&self, key: &str) -> Option<Named<'_>> {
        self.look(key, |list| {
            let end = |end: &str| list.get(&format!("{key}.{end}"));
            let band = || Some(Named::Band(end("low")?, end("high")?));
            list.get(key).map(Named::One).or_else(band)
        })
    }

    /// The first of these that says something, else the last.
    pub fn first_told(&self, keys: &[String]) -> Option<&Figure> {
        let mut all = keys.iter().filter_map(|key| self.find(key));
        all.find(|figure| figure.is_told()).or_else(|| self.find(keys.last()?))
    }

    /// The results of one row.
    pub fn row_of<'a>(&'a self, key: &'a str, columns: &'a [Column]) -> impl Iterator<Item = Option<&'a Figure>> {
        columns.iter().map(move |(_, gap)| match key.contains("{}") {
            true => self.find(&key.replacen("{}", gap, 1)),
            false => self.find(&format!("{gap}.{key}")),
        })
    }

    /// This row has a value.
    pub fn is_told(&self, key: &str, columns: &[Column]) -> bool {
        self.row_of(key, columns).flatten().any(Figure::is_told)
    }

    /// A row for each key: its label, and the text of each column.
    pub fn rows(&self, keys: &[&str], columns: &[Column], units: &UnitChoice) -> Vec<Vec<String>> {
        keys.iter().map(|key| row(self.row_of(key, columns), units)).collect()
    }

    /// A row for each key that has a value in some column.
    pub fn rows_told(&self, keys: &[&str], columns: &[Column], units: &UnitChoice) -> Vec<Vec<String>> {
        let told: Vec<&str> = keys.iter().copied().filter(|key| self.is_told(key, columns)).collect();
        self.rows(&told, columns, units)
    }

    /// A table of the rows that have a value in some column; nothing without a column.
    pub fn table_told(&self, what: String, columns: &[Column], keys: &[&str], units: &UnitChoice) -> Option<Block> {
        let table = || Block::Table { head: head(what, columns), rows: self.rows_told(keys, columns, units) };
        (!columns.is_empty()).then(table)
    }

    /// A row for each of these, in two columns; the keys begin with `prefix`.
    pub fn pairs(&self, prefix: &str, keys: &[&str], units: &UnitChoice) -> Vec<Vec<String>> {
        let all = keys.iter().filter_map(|key| self.named(&format!("{prefix}.{key}")));
        all.map(|named| vec![named.head(units), named.said(units)]).collect()
    }

    /// A row for each of these that is known, in two columns; the keys begin with `prefix`.
    pub fn known(&self, prefix: &str, keys: &[&str], units: &UnitChoice) -> Vec<Vec<String>> {
        let all = keys.iter().filter_map(|key| self.named(&format!("{prefix}.{key}")));
        all.filter(|named| named.is_known()).map(|named| vec![named.head(units), named.said(units)]).collect()
    }

    /// A table with a row for each of these, and a column for each key; their description comes first.
    pub fn across(&self, what: &str, of: &[Column], keys: &[&str], units: &UnitChoice) -> Block {
        let mut head = vec![what.to_owned()];
        let mut rows: Vec<Vec<String>> = of.iter().map(|(name, _)| vec![name.clone()]).collect();
        for key in keys {
            let figures: Vec<_> = of.iter().map(|(_, prefix)| self.find(&format!("{prefix}.{key}"))).collect();
            let unit = unit_of_all(&figures, units);
            let label = figures.iter().flatten().next().map_or_else(String::new, |f| f.label.to_string());
            head.push(headed(label, unit));
            for (row, figure) in rows.iter_mut().zip(figures) {
                row.push(figure.map_or_else(String::new, |f| cell(f, unit, units)));
            }
        }
        Block::Table { head, rows }
    }

    /// A table of these rows.
    pub fn table(&self, what: String, columns: &[Column], keys: &[&str], units: &UnitChoice) -> Block {
        Block::Table { head: head(what, columns), rows: self.rows(keys, columns, units) }
    }
}

/// One of the [`PARTS`], collected by now.
fn part<'a>(answer: &Answer, parts: &'a [OnceLock<List>; PARTS.len()], at: usize) -> &'a List {
    parts[at].get_or_init(|| PARTS[at].collect(answer, Out::new(Wants::Spreads)).into())
}

/// What a key names.
#[derive(Debug, Clone, Copy)]
pub enum Named<'a> {
    /// One result.
    One(&'a Figure),
    /// The lowest and the highest of a band.
    Band(&'a Figure, &'a Figure),
}

impl Named<'_> {
    /// What precedes it in a table.
    pub fn head(&self, units: &UnitChoice) -> String {
        match self {
            Named::One(figure) => figure.head(units),
            Named::Band(low, _) => upper_first(low.band.as_deref().unwrap_or(&low.label)),
        }
    }

    /// What a table says: of a band its ends without their ±.
    pub fn said(&self, units: &UnitChoice) -> String {
        match self {
            Named::One(figure) => figure.said(units),
            Named::Band(low, high) => match low.si.zip(high.si) {
                Some((from, to)) => say!(
                    "{low} to {high}",
                    low = display::rounded_number(from, units.unit(low.dim)),
                    high = display::rounded_si(to, high.dim, units)
                ),
                None => high.said(units),
            },
        }
    }

    /// There is a value.
    pub fn is_known(&self) -> bool {
        let (Named::One(figure) | Named::Band(figure, _)) = self;
        figure.si.is_some()
    }
}

/// The heads of a table.
pub fn head(what: String, columns: &[Column]) -> Vec<String> {
    std::iter::once(what).chain(columns.iter().map(|column| column.0.clone())).collect()
}

/// A row of results: the label of the first, with the unit where all are in one, and the text of each.
pub fn row<'a>(figures: impl Iterator<Item = Option<&'a Figure>>, units: &UnitChoice) -> Vec<String> {
    let figures: Vec<Option<&Figure>> = figures.collect();
    let label = figures.iter().flatten().next().map_or_else(String::new, |f| f.head(units));
    row_called(label, &figures, units)
}

/// The same under a label of its own.
pub fn row_called(label: String, figures: &[Option<&Figure>], units: &UnitChoice) -> Vec<String> {
    let unit = unit_of_all(figures, units);
    let cells =
        figures.iter().map(|figure| figure.map_or_else(|| tr("not known").to_owned(), |f| cell(f, unit, units)));
    std::iter::once(headed(label, unit)).chain(cells).collect()
}

/// The unit that all numbers of a row or column share, when they are at least two: it is given once, in the head.
fn unit_of_all(figures: &[Option<&Figure>], units: &UnitChoice) -> Option<&'static str> {
    // What stands behind the value goes with its unit.
    if figures.iter().flatten().any(|f| !f.remark.is_empty()) {
        return None;
    }
    let mut all = figures.iter().flatten().filter_map(|f| f.unit_said(units));
    let first = all.next().filter(|unit| !unit.is_empty())?;
    let second = all.next()?;
    (second == first && all.all(|unit| unit == first)).then_some(first)
}

fn headed(label: String, unit: Option<&str>) -> String {
    match unit {
        Some(unit) => format!("{label} ({unit})"),
        None => label,
    }
}

fn cell(figure: &Figure, unit_in_head: Option<&str>, units: &UnitChoice) -> String {
    if unit_in_head.is_some() { figure.said_bare(units) } else { figure.said(units) }
}
