//! Rows that a load case and a remedy have in common.

use crate::base::language::tr;
use crate::base::units::{Dim, Quantity};
use crate::report::results::Say;
use crate::report::results::row::{Row, row, swings, to_contact, to_stop};
use crate::solve::answer::{AtRest, CaseStanding, OptionStanding};

/// What rests somewhere.
pub(super) trait Rests {
    fn on(&self) -> &AtRest;
}

impl Rests for CaseStanding {
    fn on(&self) -> &AtRest {
        &self.on
    }
}

impl Rests for OptionStanding {
    fn on(&self) -> &AtRest {
        &self.on
    }
}

pub(super) const fn frequency<T: Rests>() -> Row<T> {
    row(
        "frequency",
        "ride frequency, without tyre",
        Dim::Frequency,
        "without tyre deflection",
        "√(k_w/m_s)/2π",
        "GIL",
        |s: &T| Some(s.on().frequency().si()),
    )
    .with(|s| swings(s.on()))
}

pub(super) const fn stop_room<T: Rests>() -> Row<T> {
    row("stop_room", "room to the bump stop", Dim::Length, "wheel travel", "gap − z", "DERIVED", |s: &T| {
        s.on().stop_room().map(Quantity::si)
    })
    .with(|s| to_stop(s.on()))
    .instead(|s| (s.on().on_stop && s.on().stop_room().is_some()).then(|| tr("bump stop touched")))
}

pub(super) const fn reserve<T: Rests>() -> Row<T> {
    row(
        "reserve",
        "reserve to the bump stop",
        Dim::Ratio,
        "extra g until the bump stop is touched or the coils bind",
        "F_w(z_c)/W − 1",
        "DERIVED",
        |s: &T| s.on().reserve().map(Quantity::si),
    )
    .with(|s| to_contact(s.on()))
    .say(Say::InG)
}
