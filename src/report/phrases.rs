//! Phrases that results, tables, sentences and pictures have in common.

use crate::base::language::tr;
use crate::base::units::{Dim, Length, Quantity, UnitChoice, display};
use crate::say;
use crate::solve::answer::Standing;

/// "Ballast and how far it sank".
pub fn upper_first(text: &str) -> String {
    let mut chars = text.chars();
    chars.next().map(|c| c.to_uppercase().chain(chars).collect()).unwrap_or_default()
}

pub(in crate::report) fn bounces(stands: &Standing) -> String {
    display::fixed(stands.frequency.si(), 2)
}

/// "28 mm"; `None` for what a tape does not show.
pub(in crate::report) fn amount(rise: Length, units: &UnitChoice) -> Option<String> {
    let size = Length::from_si(rise.si().abs());
    (display::rounded_number(size.si(), units.unit(Dim::Length)) != "0").then(|| display::rounded(size, units))
}

/// "at the old height", "28 mm lower than before".
pub fn height(rise: Length, units: &UnitChoice) -> String {
    match amount(rise, units) {
        None => tr("at the old height").into(),
        Some(amount) if rise.si() < 0.0 => say!("{amount} lower than before", amount),
        Some(amount) => say!("{amount} higher than before", amount),
    }
}

/// "28 ± 4 mm lower"; these words of a height that stays: "as before, ± 4 mm".
pub fn height_or(stays: &str, rise: Length, u_si: Option<f64>, units: &UnitChoice) -> String {
    let told = display::rounded_with_u(rise.si().abs(), u_si, Dim::Length, units);
    match amount(rise, units) {
        None => told.split_once(" ± ").map_or(stays.to_owned(), |(_, u)| format!("{stays}, ± {u}")),
        Some(_) if rise.si() < 0.0 => say!("{amount} lower", amount = told),
        Some(_) => say!("{amount} higher", amount = told),
    }
}

/// "as before", "28 mm lower".
pub fn short_height(rise: Length, units: &UnitChoice) -> String {
    height_or(tr("as before"), rise, None, units)
}
