//! The answer of an axle whose springs stay.

use super::sentence::{bounces, height};
use crate::base::language::tr;
use crate::base::units::{Length, Quantity as _, UnitChoice, display};
use crate::say;
use crate::solve::answer::Standing;

/// "spacers 12 mm", "seats lowered 10 mm".
pub(in crate::report) fn spacers(spacer: Length, units: &UnitChoice) -> String {
    let amount = display::as_sold(Length::from_si(spacer.si().abs()), units);
    match spacer.si() < 0.0 {
        true => say!("seats lowered by {amount}", amount),
        false => say!("{amount} spacers", amount),
    }
}

/// The answer of an axle that keeps its springs.
pub(super) fn keep(side: &str, spacer: Option<Length>, stands: &Standing, units: &UnitChoice) -> String {
    let bounces = bounces(stands);
    if let Some(spacer) = spacer {
        let rise = stands.height_change.map_or_else(|| tr("at an unknown height").to_owned(), |r| height(r, units));
        return say!(
            "{side}: the old springs stay, with {spacers}. The body bounces {bounces} times a second and sits {rise}.",
            side,
            spacers = spacers(spacer, units),
            bounces,
            rise
        );
    }
    match stands.height_change {
        Some(rise) => {
            say!(
                "{side}: the springs stay. The body bounces {bounces} times a second and sits {rise}.",
                side,
                bounces,
                rise = height(rise, units)
            )
        }
        None => {
            say!(
                "{side}: the springs stay. The body bounces {bounces} times a second; the height before the change is not known.",
                side,
                bounces
            )
        }
    }
}
