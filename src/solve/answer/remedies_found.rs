//! What the money buys for one axle.

use super::{AtRest, Kept, OnRoad, Raised};
use crate::base::language::Word;
use crate::base::units::{DampingRate, Frequency, Length};
use crate::job::SpringKind;

/// What can be done about an axle.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum RemedyKind {
    /// Nothing: old springs, old dampers.
    Nothing,
    /// A spacer that restores the wanted height, old springs and dampers.
    Spacer,
    /// New springs, old dampers.
    Springs,
    /// New springs and the dampers in the middle of the wanted range.
    SpringsAndDampers,
}

impl RemedyKind {
    /// All of them, the least first.
    pub const ALL: [RemedyKind; 4] =
        [RemedyKind::Nothing, RemedyKind::Spacer, RemedyKind::Springs, RemedyKind::SpringsAndDampers];

    /// The key in results.
    pub fn key(self) -> &'static str {
        match self {
            RemedyKind::Nothing => "nothing",
            RemedyKind::Spacer => "spacer",
            RemedyKind::Springs => "springs",
            RemedyKind::SpringsAndDampers => "springs_and_dampers",
        }
    }

    /// The words on screen and paper, for an axle with this kind of spring.
    pub fn words(self, on: SpringKind) -> Word {
        match self {
            RemedyKind::Nothing => Word("nothing done"),
            RemedyKind::Spacer if on == SpringKind::TorsionBar => Word("old bar re-indexed"),
            RemedyKind::Spacer if on == SpringKind::Leaf => Word("block"),
            RemedyKind::Spacer => Word("spacer"),
            RemedyKind::Springs => Word("springs"),
            RemedyKind::SpringsAndDampers => Word("springs and dampers"),
        }
    }
}

/// One thing that can be done, in every load case.
#[derive(Debug, Clone, PartialEq)]
pub struct Remedy {
    /// What.
    pub kind: RemedyKind,
    /// Parts and work for the axle, in the shop's currency.
    pub price: Option<f64>,
    /// In the order of [`super::Vehicle::cases`].
    pub cases: Vec<Option<OptionStanding>>,
}

/// Equilibrium of one corner.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OptionStanding {
    /// Height change at the wheel from before the change, + up.
    pub above_before: Option<Length>,
    /// Where it is.
    pub on: AtRest,
    /// Mean rate at the wheel of the dampers it then has.
    pub damper_at_wheel: Option<DampingRate>,
    /// On the rough road considered.
    pub road: Option<OnRoad>,
}

/// A cheaper remedy in place of an axle's new springs.
#[derive(Debug, Clone, PartialEq)]
pub struct Lead {
    /// What.
    pub kind: RemedyKind,
    /// What is done to the old springs; `None` for nothing.
    pub raised: Option<Raised>,
    /// The old springs do what is wanted as they are; otherwise the remedy does what the new springs would do.
    pub does_wanted: bool,
    /// What the axle then does; `None` where that is not known.
    pub stands: Option<Stands>,
    /// What must be measured first to know that it does, as paths; empty: it does, and leads.
    pub measure: Vec<String>,
}

/// Frequency and height of an axle, each with its standard uncertainty, SI.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stands {
    /// Ride frequency.
    pub frequency: (Frequency, Option<f64>),
    /// Change of height from before.
    pub height_change: Option<(Length, Option<f64>)>,
}

impl Lead {
    /// What is done to the old springs, left and right.
    pub fn kept(&self) -> Option<Kept> {
        self.raised.map(Kept::from)
    }

    /// It does what the new springs would do, and leads.
    pub fn leads(&self) -> bool {
        self.measure.is_empty()
    }
}
