//! One row of a table of results: what is put down of a result once.

use super::{By, Say, Substitution};
use crate::base::units::{Dim, Quantity};

/// One row of a table of results of `T`.
pub(super) struct Row<T: ?Sized> {
    pub key: &'static str,
    pub label: &'static str,
    pub dim: Dim,
    pub convention: &'static str,
    pub formula: &'static str,
    pub source: &'static str,
    pub value: fn(&T) -> Option<f64>,
    /// The numbers put into the formula; all of them or none.
    pub with: fn(&T) -> Option<Vec<Substitution>>,
    pub by: By,
    pub say: Say,
    /// What a table says in place of the value.
    pub instead: fn(&T) -> Option<&'static str>,
    /// What a table says behind the value.
    pub remark: fn(&T) -> String,
    /// Fields without which the value is not known; of an axle's result without the axle in front.
    pub needs: &'static [&'static str],
}

/// A row by its formula, still without the numbers put in.
pub(super) const fn row<T: ?Sized>(
    key: &'static str,
    label: &'static str,
    dim: Dim,
    convention: &'static str,
    formula: &'static str,
    source: &'static str,
    value: fn(&T) -> Option<f64>,
) -> Row<T> {
    Row {
        key,
        label,
        dim,
        convention,
        formula,
        source,
        value,
        with: none,
        by: By::Formula,
        say: Say::Plain,
        instead: nothing,
        remark: no_remark,
        needs: &[],
    }
}

/// A table of rows: of each result key, label, dimension and convention; formula, source and value; what else is put down
/// of it, by the names of [`Row`]'s methods.
macro_rules! rows {
    ($of:ty; $($key:literal, $label:literal, $dim:ident, $convention:expr;
        $formula:expr, $source:literal, $value:expr $(, $more:ident: $is:expr)*;)*) => {
        &[$($crate::report::results::row::row::<$of>(
            $key, $label, $crate::base::units::Dim::$dim, $convention, $formula, $source, $value,
        )$(.$more($is))*),*]
    };
}
pub(super) use rows;

impl<T: ?Sized> Row<T> {
    /// The same row with the numbers put into its formula.
    pub const fn with(self, with: fn(&T) -> Option<Vec<Substitution>>) -> Self {
        Row { with, ..self }
    }

    /// The same row, come about otherwise than by its formula.
    pub const fn by(self, by: By) -> Self {
        Row { by, ..self }
    }

    /// The same row, formatted this way in a table.
    pub const fn say(self, say: Say) -> Self {
        Row { say, ..self }
    }

    /// The same row, with words that a table may say in place of the value.
    pub const fn instead(self, instead: fn(&T) -> Option<&'static str>) -> Self {
        Row { instead, ..self }
    }

    /// The same row, with what a table says behind the value.
    pub const fn remark(self, remark: fn(&T) -> String) -> Self {
        Row { remark, ..self }
    }

    /// The same row, not known without these fields.
    pub const fn needs(self, needs: &'static [&'static str]) -> Self {
        Row { needs, ..self }
    }
}

pub(super) fn si<Q: Quantity>(q: Option<Q>) -> Option<f64> {
    q.map(Quantity::si)
}

fn nothing<T: ?Sized>(_: &T) -> Option<&'static str> {
    None
}

fn no_remark<T: ?Sized>(_: &T) -> String {
    String::new()
}

fn none<T: ?Sized>(_: &T) -> Option<Vec<Substitution>> {
    None
}
