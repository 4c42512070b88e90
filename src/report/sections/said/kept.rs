//! The answer of an axle whose springs stay.

use super::needed;
use super::sentence::{bounces, height};
use crate::base::language::tr;
use crate::base::units::{Length, Quantity as _, UnitChoice, display};
use crate::say;
use crate::solve::answer::{Lead, Sides, Standing};

/// "12 mm spacers", "seats lowered by 10 mm", "spacers (left 12 mm, right none)".
pub(in crate::report) fn spacers([left, right]: Sides<Length>, units: &UnitChoice) -> String {
    let amount = |spacer: Length| display::as_sold(Length::from_si(spacer.si().abs()), units);
    if left == right {
        return match left.si() < 0.0 {
            true => say!("seats lowered by {amount}", amount = amount(left)),
            false => say!("{amount} spacers", amount = amount(left)),
        };
    }
    let [left, right] = [left, right].map(|spacer| match spacer.si() {
        0.0 => tr("none").to_owned(),
        m if m < 0.0 => format!("−{}", amount(spacer)),
        _ => amount(spacer),
    });
    say!("spacers (left {left}, right {right})", left, right)
}

/// What leads in place of new springs: "old springs stay", "old springs, 12 mm spacers".
pub(super) fn led(lead: &Lead, units: &UnitChoice) -> String {
    match lead.thickness {
        Some(thickness) => say!("old springs, {spacers}", spacers = spacers([thickness, thickness], units)),
        None => tr("old springs stay").to_owned(),
    }
}

/// The answer of an axle on which something cheaper does what the new springs would do, or may.
pub(super) fn leads(side: &str, lead: &Lead, new: &str, units: &UnitChoice) -> String {
    let remedy = led(lead, units);
    if !lead.leads() {
        return say!(
            "{side}: measure first: {fields}. Cheaper ({remedy}) may do the same as new springs of {new}: the ± of the difference, or a limit, cannot tell.",
            side,
            fields = needed::fields_in_short(&lead.measure),
            remedy,
            new
        );
    }
    let gives = lead.stands.map_or_else(String::new, |stands| {
        let bounces = display::fixed(stands.frequency.0.si(), 2);
        match stands.height_change {
            Some((rise, _)) => {
                say!("The body bounces {bounces} times a second and sits {rise}.", bounces, rise = height(rise, units))
            }
            None => say!("The body bounces {bounces} times a second.", bounces),
        }
    });
    match (lead.does_wanted, lead.thickness) {
        (true, _) => say!("{side}: the old springs stay: they meet the target. {gives}", side, gives),
        (false, None) => {
            say!("{side}: the old springs stay: they do the same as new springs of {new}. {gives}", side, new, gives)
        }
        (false, Some(thickness)) => say!(
            "{side}: the old springs stay, with {spacers}: they do the same as new springs of {new}. {gives}",
            side,
            spacers = spacers([thickness, thickness], units),
            new,
            gives
        ),
    }
}

/// The answer of an axle that keeps its springs.
pub(super) fn keep(side: &str, kept: Option<Sides<Length>>, stands: &Standing, units: &UnitChoice) -> String {
    let bounces = bounces(stands);
    if let Some(kept) = kept {
        let rise = stands.height_change.map_or_else(|| tr("at an unknown height").to_owned(), |r| height(r, units));
        return say!(
            "{side}: the old springs stay, with {spacers}. The body bounces {bounces} times a second and sits {rise}.",
            side,
            spacers = spacers(kept, units),
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
