//! Rows that a load case and a remedy have in common.

use crate::base::language::tr;
use crate::base::units::{Dim, Frequency, Length, Quantity, Ratio};
use crate::report::results::Say;
use crate::report::results::row::{Row, row, swings, to_contact, to_stop};
use crate::solve::answer::{CaseStanding, OptionStanding, StandsOn};

/// Equilibrium of an axle.
pub(super) trait Stands {
    fn frequency(&self) -> Frequency;
    fn stop_room(&self) -> Option<Length>;
    fn on_stop(&self) -> bool;
    fn reserve(&self) -> Option<Ratio>;
    fn on(&self) -> &StandsOn;
}

/// The same fields stand in both.
macro_rules! stands {
    ($($name:ty),+) => { $(
        impl Stands for $name {
            fn frequency(&self) -> Frequency {
                self.frequency
            }

            fn stop_room(&self) -> Option<Length> {
                self.stop_room
            }

            fn on_stop(&self) -> bool {
                self.on_stop
            }

            fn reserve(&self) -> Option<Ratio> {
                self.reserve
            }

            fn on(&self) -> &StandsOn {
                &self.on
            }
        }
    )+ };
}
stands!(CaseStanding, OptionStanding);

pub(super) const fn frequency<T: Stands>() -> Row<T> {
    row(
        "frequency",
        "ride frequency, without tyre",
        Dim::Frequency,
        "without tyre deflection",
        "√(k_w/m_s)/2π",
        "GIL",
        |s: &T| Some(s.frequency().si()),
    )
    .with(|s| swings(s.on()))
}

pub(super) const fn stop_room<T: Stands>() -> Row<T> {
    row("stop_room", "room to the bump stop", Dim::Length, "wheel travel", "gap − z", "DERIVED", |s: &T| {
        s.stop_room().map(Quantity::si)
    })
    .with(|s| to_stop(s.on()))
    .instead(|s| (s.on_stop() && s.stop_room().is_some()).then(|| tr("bump stop touched")))
}

pub(super) const fn reserve<T: Stands>() -> Row<T> {
    row(
        "reserve",
        "reserve to the bump stop",
        Dim::Ratio,
        "extra g until the bump stop is touched or the coils bind",
        "F_w(z_c)/W − 1",
        "DERIVED",
        |s: &T| s.reserve().map(Quantity::si),
    )
    .with(|s| to_contact(s.on()))
    .say(Say::InG)
}
