//! The answer of an axle whose springs stay.

use super::needed;
use crate::base::language::tr;
use crate::base::units::{Angle, Length, Quantity as _, SpringRate, UnitChoice, display};
use crate::job::LeftRight;
use crate::report::phrases::{bounces, height};
use crate::say;
use crate::solve::answer::{Kept, Lead, Raised, Standing};

/// "an added leaf of 12 N/mm", "a helper pack of 12 N/mm and 10 mm spacers".
fn added(rate: SpringRate, nip: Length, blocks: LeftRight<Length>, units: &UnitChoice) -> String {
    let rate = display::rounded(rate, units);
    let leaf = match nip.si() < 0.0 {
        true => say!("a helper pack of {rate}", rate),
        false => say!("an added leaf of {rate}", rate),
    };
    match blocks != LeftRight::default() {
        true => say!("{leaf} and {spacers}", leaf, spacers = spacers(blocks, units)),
        false => leaf,
    }
}

/// "wound up by 3.5°", "unwound by 2.0°", "re-indexed (left +3.5°, right none)".
fn indexed(LeftRight { left, right }: LeftRight<Angle>) -> String {
    let degrees = |angle: Angle| format!("{}°", display::fixed(angle.si().to_degrees().abs(), 1));
    if left == right {
        return match left.si() < 0.0 {
            true => say!("unwound by {angle}", angle = degrees(left)),
            false => say!("wound up by {angle}", angle = degrees(left)),
        };
    }
    let [left, right] = [left, right].map(|angle| match angle.si() {
        0.0 => tr("none").to_owned(),
        by if by < 0.0 => format!("−{}", degrees(angle)),
        _ => format!("+{}", degrees(angle)),
    });
    say!("re-indexed (left {left}, right {right})", left, right)
}

/// "12 mm spacers", "seats lowered by 10 mm", "spacers (left 12 mm, right none)".
fn spacers(LeftRight { left, right }: LeftRight<Length>, units: &UnitChoice) -> String {
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

/// What stays: "old springs stay", "old springs, 12 mm spacers".
pub(super) fn stay(kept: Option<Kept>, units: &UnitChoice) -> String {
    match kept {
        Some(Kept::Spacers(both)) => say!("old springs, {spacers}", spacers = spacers(both, units)),
        Some(Kept::Indexed(both)) => say!("old torsion bars, {indexed}", indexed = indexed(both)),
        Some(Kept::AddedLeaf { rate, nip, blocks }) => {
            say!("old leaf springs, {added}", added = added(rate, nip, blocks, units))
        }
        None => tr("old springs stay").to_owned(),
    }
}

/// The answer of an axle on which something cheaper does what the new springs would do, or may.
pub(super) fn leads(side: &str, lead: &Lead, new: &str, units: &UnitChoice) -> String {
    let remedy = stay(lead.kept(), units);
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
    match (lead.does_wanted, lead.raised) {
        (true, _) => say!("{side}: the old springs stay; they meet the target. {gives}", side, gives),
        (false, Some(Raised::Index(index))) => say!(
            "{side}: the old torsion bars stay, {indexed}; they do the same as new ones of {new}. {gives}",
            side,
            indexed = indexed([index; 2].into()),
            new,
            gives
        ),
        (false, None) => {
            say!("{side}: the old springs stay; they do the same as new springs of {new}. {gives}", side, new, gives)
        }
        (false, Some(Raised::Spacer(thickness))) => say!(
            "{side}: the old springs stay, with {spacers}; they do the same as new springs of {new}. {gives}",
            side,
            spacers = spacers([thickness; 2].into(), units),
            new,
            gives
        ),
    }
}

/// The answer of an axle that keeps its springs.
pub(super) fn keep(side: &str, kept: Option<Kept>, stands: &Standing, units: &UnitChoice) -> String {
    let bounces = bounces(stands);
    if let Some(kept) = kept {
        let rise = stands.height_change.map_or_else(|| tr("at an unknown height").to_owned(), |r| height(r, units));
        return match kept {
            Kept::Spacers(both) => say!(
                "{side}: the old springs stay, with {spacers}. The body bounces {bounces} times a second and sits {rise}.",
                side,
                spacers = spacers(both, units),
                bounces,
                rise
            ),
            Kept::AddedLeaf { rate, nip, blocks } => say!(
                "{side}: the old leaf springs stay, with {added}. The body bounces {bounces} times a second and sits {rise}.",
                side,
                added = added(rate, nip, blocks, units),
                bounces,
                rise
            ),
            Kept::Indexed(both) => say!(
                "{side}: the old torsion bars stay, {indexed}. The body bounces {bounces} times a second and sits {rise}.",
                side,
                indexed = indexed(both),
                bounces,
                rise
            ),
        };
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
