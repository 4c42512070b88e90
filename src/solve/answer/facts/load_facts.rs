//! Weights at equal load, the ledger of parts, load cases and ratings.

use super::{BeforeAfter, Measured, PerState, State, Weighed};
use crate::base::message::Message;
use crate::base::units::{
    Angle, DampingRate, Force, Frequency, Length, Mass, Origin, Pressure, Quantity, Ratio, SpringRate,
};
use crate::job::{PerAxle, Side};
use crate::message;
use crate::trade::spring::AirBag;
use crate::trade::{damper, ride};

/// The weights before and after, at equal load.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Compared {
    /// As they are compared.
    pub weighed: BeforeAfter<Weighed>,
    /// What these are put together from where they are not simply those of the scales: the vehicle without what was aboard,
    /// and the load case.
    pub of: BeforeAfter<Option<(PerAxle<Mass>, PerAxle<Mass>)>>,
    /// Axle weights as the vehicle stood on the scales, or calculated where it did not.
    pub stood: BeforeAfter<PerAxle<Option<Mass>>>,
    /// Axle weights after without what was aboard.
    pub bare: Option<PerAxle<Mass>>,
    /// What a load on the hitch presses on each axle in addition, when springs are sized on such a case.
    pub tongue: PerAxle<Force>,
    /// From the scales, or from the ledger of parts; `None` when not known.
    pub origins: BeforeAfter<Option<Origin>>,
}

/// What the ledger of parts says.
#[derive(Debug, Clone, PartialEq)]
pub struct Ledger {
    /// Rows that could be read.
    pub rows: usize,
    /// Axle by axle, front and rear.
    pub axles: Told<2>,
    /// The mass that is missing in the ledger, and how far behind the front axle it would sit.
    pub missing: Option<(Mass, Length)>,
}

/// What the ledger says of each axle or corner (LF, RF, LR, RR), kg.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Told<const N: usize> {
    /// What was weighed, without what was aboard.
    pub weighed: BeforeAfter<Option<[Measured; N]>>,
    /// What the parts change.
    pub change: [Measured; N],
    /// Weighed before + change.
    pub foretold: Option<[Measured; N]>,
    /// What was predicted when the weigh-in after arrived.
    pub kept: Option<[Measured; N]>,
    /// Weighed after − change.
    pub reconstructed: Option<[Measured; N]>,
    /// Scales less ledger, when both weigh-ins are there.
    pub residual: Option<[Measured; N]>,
}

/// What a rating is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum RatedPart {
    /// An axle.
    Axle(Side),
    /// One tyre of an axle, at its pressure.
    Tyre(Side),
    /// One wheel of an axle.
    Wheel(Side),
    /// The whole vehicle.
    Vehicle,
}

impl RatedPart {
    /// All that can be rated.
    pub const ALL: [RatedPart; 7] = [
        RatedPart::Axle(Side::Front),
        RatedPart::Tyre(Side::Front),
        RatedPart::Wheel(Side::Front),
        RatedPart::Axle(Side::Rear),
        RatedPart::Tyre(Side::Rear),
        RatedPart::Wheel(Side::Rear),
        RatedPart::Vehicle,
    ];

    /// "the front axle", "a rear tyre".
    pub fn words(self) -> Message {
        match self {
            RatedPart::Axle(Side::Front) => message!("the front axle"),
            RatedPart::Axle(Side::Rear) => message!("the rear axle"),
            RatedPart::Tyre(side) => message!("a {side} tyre", side = side.word_inside()),
            RatedPart::Wheel(side) => message!("a {side} wheel", side = side.word_inside()),
            RatedPart::Vehicle => message!("the vehicle"),
        }
    }

    /// The axle that is over when this is.
    pub fn concerns(self, side: Side) -> bool {
        match self {
            RatedPart::Axle(s) | RatedPart::Tyre(s) | RatedPart::Wheel(s) => s == side,
            RatedPart::Vehicle => true,
        }
    }

    /// The field to look at.
    pub fn field(self) -> String {
        match self {
            RatedPart::Axle(side) => format!("{}.rating", side.key()),
            RatedPart::Tyre(side) => format!("{}.load_index", side.key()),
            RatedPart::Wheel(side) => format!("{}.wheel_rating", side.key()),
            RatedPart::Vehicle => "vehicle.rating".to_owned(),
        }
    }
}

/// A load against its rating.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rated {
    /// What is rated.
    pub part: RatedPart,
    /// What it carries.
    pub carries: Mass,
    /// What it may carry.
    pub allowed: Mass,
    /// The one over the other.
    pub share: Ratio,
}

impl Rated {
    /// Over its rating: what a scale shows as 100.1 % and more.
    pub fn is_over(&self) -> bool {
        const OVER: f64 = 1.000_5;
        self.share.si() >= OVER
    }
}

/// A corner at rest: what its figures are worked out from, and those that follow.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AtRest {
    /// Slope of force against travel at the wheel.
    pub wheel_rate: SpringRate,
    /// Sprung mass on it, a load on the hitch left out.
    pub sprung: Mass,
    /// What presses on it, its share of a load on the hitch included.
    pub load: Force,
    /// What carries where the bump stop is first touched or, if that comes first, the coils bind; `None` where that is not
    /// known.
    pub at_contact: Option<Force>,
    /// Wheel travel from the reference height, + in bump.
    pub travel: Length,
    /// Wheel travel from there to the bump stop.
    pub stop_gap: Option<Length>,
    /// The bump stop is touched.
    pub on_stop: bool,
}

impl AtRest {
    /// On springs.
    pub fn frequency(&self) -> Frequency {
        ride::frequency(self.wheel_rate, self.sprung)
    }

    /// Wheel travel left to the bump stop.
    pub fn stop_room(&self) -> Option<Length> {
        Some(self.stop_gap? - self.travel)
    }

    /// The extra g before the bump stop is touched or the coils bind.
    pub fn reserve(&self) -> Option<Ratio> {
        ride::reserve(self.at_contact?, self.load)
    }

    /// With dampers of this mean rate at the wheel.
    pub fn damping_ratio(&self, at_wheel: DampingRate) -> Ratio {
        damper::damping_ratio(at_wheel, self.wheel_rate, self.sprung)
    }
}

/// An air bag pumped until a height is back.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ByAir {
    /// The bag, pumped.
    pub bag: AirBag,
    /// Its motion ratio.
    pub ratio: Ratio,
    /// What the springs carry there, at the wheel.
    pub springs_carry: Force,
    /// Gauge pressure.
    pub pressure: Pressure,
    /// Rate of the bag, at itself.
    pub bag_rate: SpringRate,
    /// Where the corner then is.
    pub on: AtRest,
}

/// One corner of an axle in a load case.
#[derive(Debug, Clone, PartialEq)]
pub struct CaseStanding {
    /// What the axle weighs, a load on the hitch left out.
    pub axle: Mass,
    /// Unsprung mass of the corner.
    pub unsprung: Mass,
    /// Where it is.
    pub on: AtRest,
    /// Height against as weighed on the same springs, at the wheel; + up.
    pub rise: Length,
    /// How far the tyre is squeezed more than as weighed.
    pub squash: Option<Length>,
    /// The same height at the ground, tyre deflection added.
    pub rise_at_ground: Option<Length>,
    /// Mean rate of the old damper at the wheel.
    pub old_damper_at_wheel: Option<DampingRate>,
    /// The same of the middle of what is wanted, on the new springs.
    pub new_damper_at_wheel: Option<DampingRate>,
    /// What a bag would do.
    pub level: Option<Box<ByAir>>,
}

/// One axle in a load case, on the old springs and on the new ones.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct OnSprings {
    /// On the old springs.
    pub old: Option<CaseStanding>,
    /// On the new ones.
    pub new: Option<CaseStanding>,
}

impl OnSprings {
    /// What is found in one state; nothing before the change, which load cases do not reach.
    pub fn of(&self, state: State) -> Option<&CaseStanding> {
        match state {
            State::Before => None,
            State::OldSprings => self.old.as_ref(),
            State::NewSprings => self.new.as_ref(),
        }
    }
}

/// One load case. `before` of its states is not used.
#[derive(Debug, Clone, PartialEq)]
pub struct CaseAnswer {
    /// Its name; "as weighed" for the first.
    pub name: Message,
    /// Index among the job's cases; `None` as weighed.
    pub index: Option<usize>,
    /// Springs and dampers are sized on it.
    pub sized: bool,
    /// It must not be driven like this: over a rating it warns, and does not stop.
    pub what_if: bool,
    /// What the axles weigh, a load on the hitch left out, and what that presses on them.
    pub carries: (PerAxle<Option<Mass>>, PerAxle<Force>),
    /// What the scales would show under front and rear axle.
    pub on_scales: PerAxle<Option<Mass>>,
    /// Front, rear: on the old springs and on the new ones.
    pub standing: PerAxle<OnSprings>,
    /// Rear over front frequency.
    pub rear_over_front: PerState<Option<Ratio>>,
    /// Nose-up angle against as weighed on the same springs, tyres included.
    pub nose_up: PerState<Option<Angle>>,
    /// How far the lamps' beam moves up at the chosen distance for it.
    pub beam: PerState<Option<Length>>,
    /// Every rating that is known.
    pub rated: Vec<Rated>,
    /// Loads lie off the centreline, but what shares out their moment is not known: tyres and wheels are rated as if
    /// they lay in it.
    pub side_unknown: bool,
}

impl CaseAnswer {
    /// The key in results: `as_weighed`, `cases[0]`.
    pub fn key(&self) -> String {
        self.index.map_or("as_weighed".to_owned(), |i| format!("cases[{i}]"))
    }

    /// The worst rating.
    pub fn worst(&self) -> Option<&Rated> {
        self.rated.iter().max_by(|a, b| a.share.si().total_cmp(&b.share.si()))
    }
}
