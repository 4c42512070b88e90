//! One row of a table of results: what is put down of a result once, and the numbers that many formulas have in common.

use super::{By, Say, Substitution};
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

/// What the sprung mass of a corner is put together from.
pub(super) fn half_less(axle: Option<Mass>, unsprung: Option<Mass>) -> Option<Vec<Substitution>> {
    Some(vec![("axle", si(axle)?, Dim::Mass), ("m_u", si(unsprung)?, Dim::Mass)])
}

/// What a ride frequency is put together from.
pub(super) fn swings(on: &AtRest) -> Option<Vec<Substitution>> {
    Some(vec![("k_w", on.wheel_rate.si(), Dim::SpringRate), ("m_s", on.sprung.si(), Dim::Mass)])
}

/// What a damping ratio is put together from.
pub(super) fn damped(on: &AtRest, at_wheel: Option<DampingRate>) -> Option<Vec<Substitution>> {
    let mut with = swings(on)?;
    with.push(("c_w", si(at_wheel)?, Dim::DampingRate));
    Some(with)
}

/// What the room to the bump stop is put together from.
pub(super) fn to_stop(on: &AtRest) -> Option<Vec<Substitution>> {
    Some(vec![("gap", si(on.stop_gap)?, Dim::Length), ("z", on.travel.si(), Dim::Length)])
}

/// What a reserve is put together from.
pub(super) fn to_contact(on: &AtRest) -> Option<Vec<Substitution>> {
    Some(vec![("F_w(z_c)", si(on.at_contact)?, Dim::Force), ("W", on.load.si(), Dim::Force)])
}

/// What the pressure of a bag that lifts is put together from.
pub(super) fn lifted(air: &ByAir) -> Option<Vec<Substitution>> {
    Some(vec![
        ("W", air.on.load.si(), Dim::Force),
        ("F_w", air.springs_carry.si(), Dim::Force),
        ("r_b", air.ratio.si(), Dim::Ratio),
        ("A", air.bag.area_m2, Dim::Area),
    ])
}

/// What the rate of a bag is put together from.
pub(super) fn pumped(air: &ByAir) -> Option<Vec<Substitution>> {
    let bag = &air.bag;
    Some(vec![
        ("n", bag.exponent, Dim::Ratio),
        ("p_abs", bag.gauge_pa + ATMOSPHERE_PA, Dim::Pressure),
        ("A", bag.area_m2, Dim::Area),
        ("V", bag.volume_m3, Dim::Volume),
        ("p_gauge", bag.gauge_pa, Dim::Pressure),
        ("dA/dL", bag.area_slope_m, Dim::Length),
    ])
}

pub(super) fn si<Q: Quantity>(q: Option<Q>) -> Option<f64> {
    q.map(Quantity::si)
}
