//! An amount as it will be shown: value, unit and form as data. A voice gives it its decimal mark where it is shown.

use std::fmt;

use super::{Dim, Length, Quantity, Unit, UnitChoice, display};

/// A number that equals itself, whatever it is: compared by its bits.
#[derive(Clone, Copy)]
pub struct Exact(pub f64);

impl PartialEq for Exact {
    fn eq(&self, other: &Self) -> bool {
        self.0.to_bits() == other.0.to_bits()
    }
}

impl Eq for Exact {}

impl fmt::Debug for Exact {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.fmt(f)
    }
}

impl fmt::Display for Exact {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.fmt(f)
    }
}

/// An amount in the form in which it will be shown; [`display`] says how each looks.
///
/// ```
/// use springwright::base::units::{Amount, Length, Quantity, UnitChoice};
/// let gap = Amount::rounded(Length::from_si(0.0281), &UnitChoice::metric());
/// assert_eq!(gap.to_string(), "28 mm");
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Amount {
    /// As a fitter would say it ([`display::rounded_si`]).
    Rounded(Exact, &'static Unit),
    /// Only the number of it ([`display::rounded_number`]).
    Number(Exact, &'static Unit),
    /// The same with its standard uncertainty ([`display::rounded_with_u`]).
    WithU(Exact, Option<Exact>, &'static Unit),
    /// A change, with its sign; none below zero where it rounds to nothing.
    Change(Exact, &'static Unit),
    /// Six significant figures and the unit ([`display::full_si`]).
    Full(Exact, &'static Unit),
    /// The diameter of a wire or bar as it is sold, m, and the unit in which lengths are shown ([`display::as_sold`]).
    AsSold(Exact, &'static Unit),
    /// The number in a unit to this number of significant figures, with the unit ([`display::significant_with_unit`]).
    Figures(Exact, usize, &'static Unit),
    /// A bare number to this number of significant figures ([`display::significant`]).
    Significant(Exact, usize),
    /// A bare number to this number of places ([`display::fixed`]).
    Places(Exact, usize),
}

impl Amount {
    /// As a fitter would say it.
    pub fn rounded<Q: Quantity>(quantity: Q, units: &UnitChoice) -> Self {
        Amount::Rounded(Exact(quantity.si()), units.unit(Q::DIM))
    }

    /// Only the number, in a unit, of a value in SI.
    pub fn number(si: f64, unit: &'static Unit) -> Self {
        Amount::Number(Exact(si), unit)
    }

    /// As [`Amount::rounded`], with its standard uncertainty in SI where that can be seen.
    pub fn with_u<Q: Quantity>(quantity: Q, u_si: Option<f64>, units: &UnitChoice) -> Self {
        Amount::WithU(Exact(quantity.si()), u_si.map(Exact), units.unit(Q::DIM))
    }

    /// A change, with its sign.
    pub fn change<Q: Quantity>(quantity: Q, units: &UnitChoice) -> Self {
        Amount::Change(Exact(quantity.si()), units.unit(Q::DIM))
    }

    /// For a hand check.
    pub fn full<Q: Quantity>(quantity: Q, units: &UnitChoice) -> Self {
        Amount::Full(Exact(quantity.si()), units.unit(Q::DIM))
    }

    /// The diameter of a wire or bar as it is sold.
    pub fn as_sold(diameter: Length, units: &UnitChoice) -> Self {
        Amount::AsSold(Exact(diameter.si()), units.unit(Dim::Length))
    }

    /// A value in SI to this number of significant figures, with its unit.
    pub fn figures(si: f64, figures: usize, unit: &'static Unit) -> Self {
        Amount::Figures(Exact(si), figures, unit)
    }

    /// A bare number to this number of significant figures.
    pub fn significant(number: f64, figures: usize) -> Self {
        Amount::Significant(Exact(number), figures)
    }

    /// A bare number to this number of places.
    pub fn places(number: f64, places: usize) -> Self {
        Amount::Places(Exact(number), places)
    }
}

impl fmt::Display for Amount {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&match *self {
            Amount::Rounded(Exact(si), unit) => display::rounded_in(si, unit),
            Amount::Number(Exact(si), unit) => display::rounded_number(si, unit),
            Amount::WithU(Exact(si), u_si, unit) => display::rounded_with_u_in(si, u_si.map(|u| u.0), unit),
            Amount::Change(Exact(si), unit) => display::change_in(si, unit),
            Amount::Full(Exact(si), unit) => display::full_in(si, unit),
            Amount::AsSold(Exact(m), lengths) => display::as_sold_among(m, lengths),
            Amount::Figures(Exact(si), figures, unit) => display::significant_with_unit(si, figures, unit),
            Amount::Significant(Exact(number), figures) => display::significant(number, figures),
            Amount::Places(Exact(number), places) => display::fixed(number, places),
        })
    }
}
