//! What is put down of a result once, as a row of a table or alone; and the numbers that many formulas have in common.

use super::{By, Figure, Say, Substitution, Why};
use crate::base::language::tr;
use crate::base::units::{DampingRate, Dim, Mass, Quantity};
use crate::solve::answer::{AtRest, ByAir};
use crate::trade::spring::ATMOSPHERE_PA;

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
        with: |_| None,
        by: By::Formula,
        say: Say::Plain,
        instead: |_| None,
        remark: |_| String::new(),
        needs: &[],
    }
}

/// A table of rows: of each result key, label, dimension and convention; formula, source and value; what else is put down
/// of it, by the fields of [`Row`].
macro_rules! rows {
    ($of:ty; $($key:literal, $label:literal, $dim:ident, $convention:expr;
        $formula:expr, $source:literal, $value:expr $(, $more:ident: $is:expr)*;)*) => {
        &[$($crate::report::results::row::Row::<$of> {
            $($more: $is,)*
            ..$crate::report::results::row::row(
                $key, $label, $crate::base::units::Dim::$dim, $convention, $formula, $source, $value,
            )
        }),*]
    };
}
pub(super) use rows;

/// Results that need more than one part of the answer: put down by a method of [`Out`](super::collect::Out) with what it
/// takes behind `=>`, else written as in [`rows!`], the name already translated.
macro_rules! figures {
    ($out:expr; $($put:ident $key:expr, $name:expr, $dim:ident, $convention:expr;
        $formula:expr, $source:literal $(, $more:ident: $is:expr)* => $($of:expr),+;)*) => {
        $($out.$put(
            $crate::report::results::row::like(
                $key, $name, $crate::base::units::Dim::$dim, $convention, $formula, $source,
            )$(.$more($is))*,
            $($of),+
        );)*
    };
}
pub(super) use figures;

/// What is put down of one result: its name already translated, its convention not yet.
pub(super) fn like(
    key: impl Into<String>,
    name: impl Into<String>,
    dim: Dim,
    convention: &'static str,
    formula: &'static str,
    source: &'static str,
) -> Figure {
    let name = name.into();
    Figure {
        key: key.into(),
        label: name.clone().into(),
        band: None,
        name,
        si: None,
        u_si: None,
        dim,
        convention: tr(convention),
        formula,
        with: Vec::new(),
        source,
        by: By::Formula,
        say: Say::Plain,
        instead: None,
        remark: String::new(),
        assumed: false,
        why: None,
        is_there: true,
        steps: Vec::new(),
    }
}

impl Figure {
    /// The same with the numbers put into its formula.
    pub fn with(self, with: impl FnOnce() -> Option<Vec<Substitution>>) -> Self {
        Figure { with: with().unwrap_or_default(), ..self }
    }

    /// The same, its name beginning with these words.
    pub fn of(self, words: &str) -> Self {
        Figure { name: format!("{words}: {}", self.label), ..self }
    }

    /// The same, formatted this way in a table.
    pub fn say(self, say: Say) -> Self {
        Figure { say, ..self }
    }

    /// The same, come about otherwise than by its formula.
    pub fn by(self, by: By) -> Self {
        Figure { by, ..self }
    }

    /// The same, with the field without which it is not known.
    pub fn needs(self, field: &str) -> Self {
        Figure { why: Some(Why::Missing(vec![field.to_owned()])), ..self }
    }
}

/// The numbers put into a formula, by its letters: a quantity says its dimension, of a number in SI it follows. `..these`
/// are put in before the others.
macro_rules! put {
    (..$these:expr $(, $letter:literal: $value:expr $(=> $dim:ident)?)* $(,)?) => {{
        let mut with = $these;
        with.extend([$($crate::report::results::row::put!(@ $letter, $value $(, $dim)?)),*]);
        Some(with)
    }};
    ($($letter:literal: $value:expr $(=> $dim:ident)?),+ $(,)?) => {
        Some(vec![$($crate::report::results::row::put!(@ $letter, $value $(, $dim)?)),+])
    };
    (@ $letter:literal, $value:expr) => { $crate::report::results::row::quantity($letter, $value) };
    (@ $letter:literal, $value:expr, $dim:ident) => { ($letter, $value, $crate::base::units::Dim::$dim) };
}
pub(super) use put;

/// A quantity put into a formula.
pub(super) fn quantity<Q: Quantity>(letter: &'static str, value: Q) -> Substitution {
    (letter, value.si(), Q::DIM)
}

/// What the sprung mass of a corner is put together from.
pub(super) fn half_less(axle: Mass, unsprung: Mass) -> Option<Vec<Substitution>> {
    put!["axle": axle, "m_u": unsprung]
}

/// What a ride frequency is put together from.
pub(super) fn swings(on: &AtRest) -> Option<Vec<Substitution>> {
    put!["k_w": on.wheel_rate, "m_s": on.sprung]
}

/// What a damping ratio is put together from.
pub(super) fn damped(on: &AtRest, at_wheel: Option<DampingRate>) -> Option<Vec<Substitution>> {
    put![..swings(on)?, "c_w": at_wheel?]
}

/// What the room to the bump stop is put together from.
pub(super) fn to_stop(on: &AtRest) -> Option<Vec<Substitution>> {
    put!["gap": on.stop_gap?, "z": on.travel]
}

/// What a reserve is put together from.
pub(super) fn to_contact(on: &AtRest) -> Option<Vec<Substitution>> {
    put!["F_w(z_c)": on.at_contact?, "W": on.load]
}

/// What the pressure of a bag that lifts is put together from.
pub(super) fn lifted(air: &ByAir) -> Option<Vec<Substitution>> {
    put!["W": air.on.load, "F_w": air.springs_carry, "r_b": air.ratio, "A": air.bag.area_m2 => Area]
}

/// What the rate of a bag is put together from.
pub(super) fn pumped(air: &ByAir) -> Option<Vec<Substitution>> {
    let bag = &air.bag;
    put![
        "n": bag.exponent => Ratio, "p_abs": bag.gauge_pa + ATMOSPHERE_PA => Pressure, "A": bag.area_m2 => Area,
        "V": bag.volume_m3 => Volume, "p_gauge": bag.gauge_pa => Pressure, "dA/dL": bag.area_slope_m => Length,
    ]
}

pub(super) fn si<Q: Quantity>(q: Option<Q>) -> Option<f64> {
    q.map(Quantity::si)
}
