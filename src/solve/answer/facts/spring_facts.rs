//! What is known of springs themselves: the old one, a coil on offer, a bar, a leaf, a bag.

use super::{AtRest, Band, Measured, RouteKind};
use crate::base::units::{Angle, Force, Length, Quantity, Ratio, SpringRate, Stress, TwistRate};
use crate::trade::spring::{Bar, Coil, LeafPack, LeafTest, Spring, Wire};

/// The springs of an axle as they will be fitted, each on its spacer.
#[derive(Debug, Clone, PartialEq)]
pub struct FittedSprings {
    /// As the axle has them, without what one side has of its own.
    pub of_axle: Spring,
    /// On the left.
    pub left: Spring,
    /// On the right.
    pub right: Spring,
}

impl FittedSprings {
    /// Both as one spring, which carries the axle.
    pub fn as_one(&self) -> Spring {
        self.left.clone().shared_with(&self.right)
    }

    /// Length when the first of them is solid.
    pub fn solid_length(&self) -> Option<Length> {
        let both = [&self.left, &self.right].map(Spring::solid_length_m);
        both.into_iter().flatten().reduce(f64::max).map(Length::from_si)
    }

    /// Length at which the first of them is loose.
    pub fn free_length(&self) -> Length {
        Length::from_si(self.left.free_length_m().min(self.right.free_length_m()))
    }
}

/// Stock diameters of torsion bars.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StockBars {
    /// Thinnest.
    pub lowest: Length,
    /// Thickest.
    pub highest: Length,
    /// How many.
    pub count: usize,
}

/// A torsion bar for the wanted rate.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BarChoice {
    /// Bar diameter for the wanted range.
    pub diameter: Band<Length>,
    /// Twist rate for it.
    pub twist_rate: Band<TwistRate>,
    /// Arm angle below level at which the old bar is unwound; `None` where that is not known.
    pub old_free_angle: Option<Angle>,
    /// Step between diameters.
    pub step: Length,
    /// Stock diameters inside the range that hold their stress at full bump; `None` when none does.
    pub stock: Option<StockBars>,
    /// Of those the diameter nearest the aim; without one the nearest inside the range, else of all.
    pub pick: Length,
    /// How far the new bar must be indexed from where the old one is, + winds it up.
    pub index: Option<Angle>,
    /// The bar of that diameter.
    pub bar: Bar,
    /// Arm angle below level at which it is unwound.
    pub free_angle: Angle,
    /// Arm angle below level at the wanted height.
    pub angle_ride: Angle,
    /// Arm angle below level at full bump.
    pub angle_bump: Option<Angle>,
    /// By which share its rate may be off.
    pub rate_tolerance: Option<Ratio>,
    /// Its stress at full bump.
    pub stress_bump: Option<Stress>,
    /// Its allowed stress.
    pub allowed: Option<Stress>,
}

impl BarChoice {
    /// By how much its diameter may be off for the tolerance of the rate.
    pub fn tolerance(&self) -> Option<Length> {
        self.rate_tolerance.map(|share| self.bar.diameter_tolerance(share))
    }

    /// How far the load at the wanted height winds it up.
    pub fn twist_ride(&self) -> Angle {
        self.free_angle - self.angle_ride
    }

    /// How far it is wound up at full bump.
    pub fn twist_bump(&self) -> Option<Angle> {
        self.angle_bump.map(|angle| self.free_angle - angle)
    }

    /// The picked bar sees more than its allowed stress at full bump.
    pub fn is_over_stress(&self) -> bool {
        self.stress_bump.zip(self.allowed).is_some_and(|(stress, allowed)| stress > allowed)
    }
}

/// What a coil's wire says, under the forces of one state.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CoilFacts {
    /// Its wire and coils.
    pub wire: Wire,
    /// All of its coils, where those were counted and not the active ones.
    pub counted: Option<Ratio>,
    /// Rate by wire.
    pub rate: SpringRate,
    /// Solid length by the ends.
    pub solid_length: Option<Length>,
    /// Force at ride height.
    pub force_ride: Option<Force>,
    /// Force at full bump.
    pub force_bump: Option<Force>,
    /// Force when solid.
    pub force_solid: Option<Force>,
    /// Stress at ride height, Wahl's factor.
    pub stress_ride: Option<Stress>,
    /// Stress at full bump, Wahl's factor.
    pub stress_bump: Option<Stress>,
    /// Stress when solid, Wahl's factor.
    pub stress_solid: Option<Stress>,
    /// Tensile strength of the wire.
    pub strength: Option<Stress>,
    /// The share of it that is allowed.
    pub allowed_share: Ratio,
    /// Allowed stress, for Wahl's factor.
    pub allowed: Option<Stress>,
    /// The strength is read outside the wire sizes it was made for.
    pub extrapolated: bool,
}

impl CoilFacts {
    /// A stress with Wahl's factor, as the spring standard's factor gives it.
    pub fn by_standard(&self, stress: Stress) -> Stress {
        Stress::from_si(stress.si() * (self.wire.en_factor() / self.wire.wahl()).si())
    }
}

/// What cutting coils off the old spring would do.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cut {
    /// Coils cut off.
    pub coils: Ratio,
    /// Distance from coil to coil.
    pub pitch: Length,
    /// Rate then.
    pub rate: SpringRate,
    /// Free length as it is.
    pub whole_length: Length,
    /// Free length then.
    pub free_length: Length,
    /// Spring length at ride height then.
    pub length: Option<Length>,
    /// Height change from before with it.
    pub height_change: Option<Length>,
    /// Its length at full droop.
    pub at_droop: Option<Length>,
    /// Seat preload at full droop then.
    pub seat: Option<Length>,
    /// Where the corner then is.
    pub on: AtRest,
}

/// What the torsion bar as found does.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BarFacts {
    /// The old bar.
    pub bar: Bar,
    /// The bar to be fitted.
    pub fitted: Bar,
    /// What winds the old bar up at the height at which lengths were measured: force and arm, and the arm's angle below
    /// level; `None` where its free angle is not known.
    pub wound_by: Option<(Force, Length, Angle)>,
    /// The twist rate that the axle was solved with.
    pub fitted_rate: Option<TwistRate>,
    /// How far the bar to be fitted is wound up at ride height.
    pub twist_ride: Option<Angle>,
    /// The same at full bump.
    pub twist_bump: Option<Angle>,
    /// Twist rate of the old bar.
    pub twist_rate: TwistRate,
    /// Arm angle below level at which the old bar is unwound.
    pub free_angle: Option<Angle>,
    /// Stress of the bar to be fitted at ride height.
    pub stress_ride: Option<Stress>,
    /// Stress of the bar to be fitted at full bump.
    pub stress_bump: Option<Stress>,
    /// Allowed stress.
    pub allowed: Option<Stress>,
}

/// What the leaf as found does.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct LeafFacts {
    /// Its sizes.
    pub pack: Option<LeafPack>,
    /// What it carries at ride height on the old leaf.
    pub force_ride: Option<Force>,
    /// What it carries at full bump.
    pub force_bump: Option<Force>,
    /// What the test says.
    pub test: Option<LeafTest>,
    /// Rate by its sizes.
    pub by_sizes: Option<SpringRate>,
    /// Bending stress at ride height on the old leaf, by its sizes.
    pub stress_ride: Option<Stress>,
    /// Bending stress at full bump, by its sizes.
    pub stress_bump: Option<Stress>,
}

/// Where a helper coil hands over to the main one.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Crossover {
    /// The helper coil.
    pub helper: Coil,
    /// Spring force there.
    pub force: Force,
    /// Wheel travel from the reference height there.
    pub travel: Option<Length>,
}

/// The old spring's rate by the routes that do without the way that was chosen for it, fused; N/m along the spring, of a
/// stack the main coil's.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ByRoutes {
    /// The rate; its ± times the Birge ratio when the routes disagree.
    pub rate: Measured,
    /// The weight of each route; together 1.
    pub weights: [f64; RouteKind::ALL.len()],
    /// The rate by the way that was chosen; `None` when it was not given.
    pub own: Option<Measured>,
    /// It counts: nothing else was given, or a stated rate with a larger ±.
    pub counts: bool,
}

impl ByRoutes {
    /// The routes it rests on, the weightiest first.
    pub fn routes(&self) -> Vec<(RouteKind, f64)> {
        let mut found: Vec<_> = RouteKind::ALL.into_iter().zip(self.weights).filter(|(_, w)| *w > 0.0).collect();
        found.sort_by(|a, b| b.1.total_cmp(&a.1));
        found
    }
}

/// The old spring itself, by whatever was measured.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct OldSpring {
    /// Rate as stated, N/m.
    pub stated: Option<Measured>,
    /// Rate by wire, N/m.
    pub by_wire: Option<Measured>,
    /// Rate by press, N/m.
    pub by_press: Option<Measured>,
    /// What the press added, its gauge put right, and how far the spring then gave way.
    pub pressed: Option<(Force, Length)>,
    /// Wire and press weighted together, N/m.
    pub together: Option<Measured>,
    /// Rate of a leaf by the way that was chosen.
    pub leaf_rate: Option<SpringRate>,
    /// Rate that is used, at the reference height.
    pub rate: Option<SpringRate>,
    /// Its wire under the weight after, on the old springs.
    pub coil: Option<CoilFacts>,
    /// What cutting it would do.
    pub cut: Option<Cut>,
    /// Where its helper hands over.
    pub crossover: Option<Crossover>,
    /// Its torsion bar.
    pub bar: Option<BarFacts>,
    /// Its leaf.
    pub leaf: Option<LeafFacts>,
}

/// Stock rates inside a band.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StockRates {
    /// Step between them.
    pub step: SpringRate,
    /// Lowest inside.
    pub lowest: SpringRate,
    /// Highest inside.
    pub highest: SpringRate,
    /// How many.
    pub count: usize,
    /// Free lengths to order at the lowest and the highest, where lengths are known.
    pub lengths: Option<[Length; 2]>,
}
