//! What is bought for an axle: nothing outside the solver reaches it but by [`super::Answer::released`].

use super::{AtRest, Band, BarChoice, ByAir, ForceAtSpeed, OfferedDamper, StockRates};
use crate::base::language::Word;
use crate::base::units::{Angle, DampingRate, Force, Length, Quantity, Ratio, SpringRate, Stress, TwistRate, Velocity};
use crate::job::LeftRight;
use crate::trade::damper::{BumpRebound, TwoSlope};
use crate::trade::spring::{Beside, LeafPack, Wound};

/// What an axle would be sold. No writer has one but by [`super::Answer::released`].
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Parts {
    /// The spring taken from a list, in words; `None` for a stock rate of the length that is needed.
    pub taken: Option<String>,
    /// What is done to old springs that stay; `None` where nothing is.
    pub kept: Option<Kept>,
    /// The spring to buy.
    pub spring: Option<SpringToBuy>,
    /// What a spacer alone would do.
    pub spacer: Option<Spacer>,
    /// The spring to have wound, if the seats are known.
    pub wound: Option<Wound>,
    /// An air bag on the old springs instead.
    pub levelled: Option<ByAir>,
    /// A leaf or helper pack added to the old leaf instead.
    pub added_leaf: Option<AddedLeaf>,
    /// The damper to ask for.
    pub damper: Option<DamperTargets>,
    /// A candidate damper.
    pub offered_damper: Option<OfferedDamper>,
    /// Diameter of the new anti-roll bar.
    pub roll_bar: Option<Length>,
}

impl Parts {
    /// The name of the spring selected; `None` for one without a name, or when none is selected.
    pub fn selected(&self) -> Option<&str> {
        self.taken.as_deref().filter(|name| !name.is_empty())
    }
}

/// How both old springs of an axle are raised alike.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Raised {
    /// By a spacer or block under each.
    Spacer(Length),
    /// By indexing each torsion bar again; + winds it up.
    Index(Angle),
}

impl From<Raised> for Kept {
    fn from(raised: Raised) -> Self {
        match raised {
            Raised::Spacer(thickness) => Kept::Spacers([thickness; 2].into()),
            Raised::Index(index) => Kept::Indexed([index; 2].into()),
        }
    }
}

/// What is done to old springs that stay.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Kept {
    /// Spacers or blocks are put under them; − for a seat that is lowered.
    Spacers(LeftRight<Length>),
    /// Torsion bars are indexed again; + winds them up.
    Indexed(LeftRight<Angle>),
    /// A leaf is added to each pack.
    AddedLeaf {
        /// Its rate.
        rate: SpringRate,
        /// Its camber above that of the old leaf, both unloaded.
        nip: Length,
        /// Blocks besides.
        blocks: LeftRight<Length>,
    },
}

impl Kept {
    /// Something is done on one side at least.
    pub fn is_something(&self) -> bool {
        match self {
            Kept::Spacers(both) => *both != LeftRight::default(),
            Kept::Indexed(both) => *both != LeftRight::default(),
            Kept::AddedLeaf { rate, .. } => rate.si() > 0.0,
        }
    }

    /// The words of the state after it, where there is little room.
    pub fn short(&self) -> Word {
        match self {
            Kept::Spacers(_) => Word("on spacers"),
            Kept::Indexed(_) => Word("re-indexed"),
            Kept::AddedLeaf { .. } => Word("with added leaf"),
        }
    }
}

/// The spring to buy for one axle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SpringToBuy {
    /// Stock rates inside the band, if any.
    pub stock: Option<StockRates>,
    /// The rate aimed at.
    pub aim: SpringRate,
    /// What it carries at the wanted height, along itself.
    pub force: Force,
    /// The stock rate nearest the aim.
    pub pick: SpringRate,
    /// It was taken from a list, and is no stock rate then.
    pub is_taken: bool,
    /// Whether the pick lies inside the band.
    pub pick_inside: bool,
    /// Its own length at the wanted height.
    pub at_ride: Option<Length>,
    /// Allowance for settling.
    pub allowance: Option<Length>,
    /// Free length that gives the wanted height with the pick.
    pub free_length: Option<Length>,
    /// The wanted height asks for a free length below zero: there is no such spring.
    pub no_length: bool,
    /// The same with the allowance for settling.
    pub order_length: Option<Length>,
    /// Free length of the spring to buy: of the one taken from a list its own, else the one to order.
    pub bought_length: Option<Length>,
    /// The torsion bar for it, when the axle has one.
    pub bar: Option<BarChoice>,
}

/// A leaf or helper pack that is added to the old leaf instead of a new one: both together have the rate that is bought,
/// at the wanted height.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AddedLeaf {
    /// Its rate, load and how far it gives way.
    pub beside: Beside,
    /// What both carry together at the wanted height.
    pub load: Force,
    /// The rate of both.
    pub both: SpringRate,
    /// Rate of the old leaf, which stays.
    pub old_rate: SpringRate,
    /// How far that gives way.
    pub old_gives_way: Length,
    /// Its leaves, where width and span of the old ones are known; none is thicker than an old one.
    pub pack: Option<LeafPack>,
    /// What it carries at full bump.
    pub load_at_metal: Option<Force>,
}

impl AddedLeaf {
    /// How much of the load it carries at the wanted height.
    pub fn share(&self) -> Ratio {
        self.beside.load / self.load
    }

    /// How much thicker the whole pack becomes.
    pub fn stack(&self) -> Option<Length> {
        self.pack.map(|pack| Length::from_si(pack.leaves * pack.thickness_m))
    }

    /// Its bending stress at full bump.
    pub fn stress_bump(&self) -> Option<Stress> {
        Some(self.pack?.stress(self.load_at_metal?))
    }

    /// It is touched only after the old leaf has given way somewhat: a helper pack on pads of its own.
    pub fn is_helper(&self) -> bool {
        self.beside.nip.si() < 0.0
    }
}

/// What to ask of a new damper.
#[derive(Debug, Clone, PartialEq)]
pub struct DamperTargets {
    /// Mean rate at the damper.
    pub at_damper: Band<DampingRate>,
    /// Rebound rate over bump rate.
    pub rebound_over_bump: Ratio,
    /// Bump and rebound rates at the damper.
    pub split: Band<BumpRebound>,
    /// Forces at the customary speeds, on straight lines.
    pub forces: [ForceAtSpeed; 5],
    /// Peak speed at the damper at which a curve counts as one rate.
    pub peak_speed: Velocity,
    /// The two-slope curve that does the same work at the peak speed; lowest, aimed at, highest.
    pub two_slope: Option<Band<TwoSlope>>,
    /// The forces of that curve at the customary speeds.
    pub two_slope_forces: Option<[ForceAtSpeed; 5]>,
}

/// A spacer under the old spring that restores the wanted height.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spacer {
    /// Its thickness at the seat; for a bar, how far the unloaded arm's end moves.
    pub thickness: Length,
    /// For a bar: how far it is indexed again instead, + winds it up.
    pub index: Option<Angle>,
    /// For a bar: its stress at full bump when it is indexed so.
    pub stress_bump: Option<Stress>,
    /// For a bar: its allowed stress.
    pub allowed: Option<Stress>,
    /// What it adds to the force along the old spring at the wanted height.
    pub lifts: Force,
    /// Rate of the old spring, where it has one.
    pub rate: Option<SpringRate>,
    /// For a bar: the arm and its angle below level there, and the twist rate.
    pub on_bar: Option<((Length, Angle), TwistRate)>,
    /// Where the corner then is; a spacer does not restore the frequency.
    pub on: AtRest,
    /// Wheel travel before the change.
    pub travel_before: Length,
    /// Change of height from before, hub to arch, + up.
    pub height_change: Length,
    /// Room to coil bind at metal with it; negative when the coils touch each other before.
    pub to_bind: Option<Length>,
}

impl Spacer {
    /// A bar indexed so holds its stress at full bump, as far as that is known.
    pub fn holds_stress(&self) -> bool {
        self.stress_bump.zip(self.allowed).is_none_or(|(stress, allowed)| stress <= allowed)
    }
}
