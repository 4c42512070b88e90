//! One axle: how its wheel moves, what it should do, what is bought for it.

use std::mem::swap;

use super::record::{self, record};
use super::{
    AxleKind, AxleOrder, Bag, BagFitted, Bench, Bounce, DamperFitted, DamperPlan, Goal, HeldBy, Linkage, NewDamper,
    Plan, RatioBy, RollBar, SpringFitted, Stop, Suspension, WireSizes,
};
use crate::base::units::{
    Angle, DamperSpeed, DecimalMark, Dim, Entry, Frequency, Length, Mass, Pressure, Quantity, Ratio, RatioSlope,
    SpringRate, Time, TwistRate, parse,
};

record! {
    /// One axle.
    pub struct Axle {
        /// Independent or beam.
        pub kind: AxleKind,
        /// What guides the wheel.
        pub suspension: Suspension,
        /// New springs, or keep the old.
        pub plan: Plan,
        /// New springs even where something cheaper does the same.
        pub new_anyway: bool,
        /// Spacer under the old spring, where it stays.
        pub spacer: Entry<Length>,
        /// How far an old torsion bar that stays is indexed again; + winds it up.
        pub index: Entry<Angle>,
        /// A leaf added to the old ones that stay.
        pub added_leaf: LeafToAdd,
        /// New dampers, or keep the old.
        pub dampers: DamperPlan,
        /// Between the wheels' centres.
        pub track: Entry<Length>,
        /// The axle's plated rating.
        pub rating: Entry<Mass>,
        /// Rating of one wheel.
        pub wheel_rating: Entry<Mass>,
        /// Load index of one tyre.
        pub load_index: Entry<Ratio>,
        /// Inflation of the tyres, gauge.
        pub tyre_pressure: Entry<Pressure>,
        /// Inflation at which the load index counts, gauge.
        pub tyre_reference: Entry<Pressure>,
        /// Unsprung mass of one corner.
        pub unsprung: Entry<Mass>,
        /// Unsprung mass of one corner before the change, if it was different.
        pub unsprung_before: Entry<Mass>,
        /// Between the two springs, where their axes cross roll-centre height; for the ratio in roll of a beam axle.
        pub spring_base: Entry<Length>,
        /// Between the two dampers of a beam axle, if not as the springs.
        pub damper_base: Entry<Length>,
        /// What twists with a beam axle in roll: leaves, the axle itself.
        pub twist: Entry<TwistRate>,
        /// Height of the roll centre above the ground.
        pub roll_centre: Entry<Length>,
        /// Height of the unsprung mass above the ground.
        pub unsprung_height: Entry<Length>,
        /// The anti-roll bar.
        pub roll_bar: RollBar,
        /// Pitch of the thread that moves the spring seat; blank for shims.
        pub thread_pitch: Entry<Length>,
        /// Spring travel over wheel travel.
        pub ratio: MotionRatio,
        /// Damper travel over wheel travel.
        pub damper_ratio: MotionRatio,
        /// What guides the wheel, measured by tape.
        pub linkage: Linkage,
        /// The spring as fitted.
        pub spring: SpringFitted,
        /// Rubber pivots and whatever else carries in addition to the spring.
        pub parallel: Parallel,
        /// Wheel travel from the reference height.
        pub travel: Travel,
        /// The bump stop.
        pub stop: Stop,
        /// What holds a spring that is loose at full droop.
        pub held_by: HeldBy,
        /// An air bag that helps the spring.
        pub bag: Bag,
        /// Other ways to the wheel rate, as checks.
        pub checks: Checks,
        /// Rate of one tyre.
        pub tyre_rate: Entry<SpringRate>,
        /// The damper as fitted.
        pub damper: DamperFitted,
        /// A candidate damper.
        pub new_damper: NewDamper,
        /// What a suspension bench measured.
        pub bench: Bench,
        /// What recordings of bounces showed.
        pub bounce: Bounce,
        /// What is wanted.
        pub target: Target,
        /// What can be bought.
        pub stock: Stock,
        /// What a spring of the parts list must fit.
        pub choice: Choice,
        /// The spring that was taken from a list.
        pub taken: Taken,
        /// The new spring on the left, where it is another one.
        pub left: OwnSpring,
        /// The new spring on the right, where it is another one.
        pub right: OwnSpring,
        /// What a supplier asks besides.
        pub order: AxleOrder,
    }

    /// What is planned for one axle: the fields of [`Axle`] of the same paths.
    pub struct AxlePlan {
        /// New springs, or keep the old.
        pub plan: Plan,
        /// New springs even where something cheaper does the same.
        pub new_anyway: bool,
        /// Spacer under the old spring, where it stays.
        pub spacer: Entry<Length>,
        /// How far an old torsion bar that stays is indexed again; + winds it up.
        pub index: Entry<Angle>,
        /// A leaf added to the old ones that stay.
        pub added_leaf: LeafToAdd,
        /// New dampers, or keep the old.
        pub dampers: DamperPlan,
        /// The spring that was taken from a list.
        pub taken: Taken,
        /// The new spring on the left, where it is another one.
        pub left: OwnSpring,
        /// The new spring on the right, where it is another one.
        pub right: OwnSpring,
        /// How far it is raised.
        pub target: PlannedHeight,
        /// The air bag.
        pub bag: PlannedBag,
        /// The anti-roll bar.
        pub roll_bar: PlannedBar,
        /// A candidate damper.
        pub new_damper: NewDamper,
    }

    /// The height of a plan.
    pub struct PlannedHeight {
        /// Height wanted above the old one, at the wheel; + up.
        pub raise: Entry<Length>,
    }

    /// The air bag of a plan.
    pub struct PlannedBag {
        /// Whether it carries.
        pub fitted: BagFitted,
    }

    /// The anti-roll bar of a plan.
    pub struct PlannedBar {
        /// Diameter of the bar that goes in; blank: the old one stays.
        pub new_diameter: Entry<Length>,
    }

    /// A leaf added to the pack of an old leaf spring; blank: none.
    pub struct LeafToAdd {
        /// Its rate.
        pub rate: Entry<SpringRate>,
        /// Its camber above that of the old leaf, both unloaded.
        pub nip: Entry<Length>,
    }

    /// What one side of an axle has of its own; blank: as the axle.
    pub struct OwnSpring {
        /// Its number in the list that it was taken from.
        pub number: String,
        /// Rate of its spring.
        pub rate: Entry<SpringRate>,
        /// Free length of its spring.
        pub free_length: Entry<Length>,
        /// Its length with all coils touching.
        pub solid_length: Entry<Length>,
        /// Spacer under its spring; − for a seat that is lowered.
        pub spacer: Entry<Length>,
        /// How far its old torsion bar is indexed again; + winds it up.
        pub index: Entry<Angle>,
        /// Price of it.
        pub price: Entry<Ratio>,
    }

    /// A motion ratio, by one of its ways.
    pub struct MotionRatio {
        /// Which way counts.
        pub by: RatioBy,
        /// How far the wheel moved.
        pub wheel_moved: Entry<Length>,
        /// How far the spring or damper moved meanwhile.
        pub part_moved: Entry<Length>,
        /// Rows of wheel travel and length.
        pub rows: Vec<RatioRow>,
        /// A bare number.
        pub number: Entry<Ratio>,
        /// "The wheel moved 1.00: how far did the part move?" Also the ratio repeated, to confirm a doubted one.
        pub confirm: Entry<Ratio>,
        /// Lean of the part from upright, seen along or across the vehicle.
        pub lean: Entry<Angle>,
        /// Arm ratio: how far the part's foot moves for each unit of wheel travel.
        pub arm: Entry<Ratio>,
        /// On an arm: its pivot's axis to the part's lower end, a.
        pub seat_arm: Entry<Length>,
        /// On an arm: between the part's axis and the way its lower end moves, θ.
        pub seat_angle: Entry<Angle>,
        /// Change of the ratio with wheel travel, where neither rows nor points measure it.
        pub slope: Entry<RatioSlope>,
    }

    /// One row of a motion-ratio table.
    pub struct RatioRow {
        /// Wheel travel from the reference height, + in bump.
        pub wheel: Entry<Length>,
        /// Length of the spring or damper there.
        pub length: Entry<Length>,
    }

    /// Other ways to the wheel rate.
    pub struct Checks {
        /// Hub centre to arch before the change, mean of both sides.
        pub arch_before: Entry<Length>,
        /// Hub centre to arch after the change on the old springs.
        pub arch_after: Entry<Length>,
        /// Ballast put over the axle, both sides together, at the reference height.
        pub ballast: Entry<Mass>,
        /// How far that lowered the arch over the hub.
        pub ballast_drop: Entry<Length>,
        /// Bounces counted with the dampers off, at the reference height.
        pub bounces: Entry<Ratio>,
        /// The time they took.
        pub bounce_time: Entry<Time>,
        /// What friction holds either way, as a share of the load.
        pub friction: Entry<Ratio>,
    }

    /// A rate in parallel with the spring, at the wheel.
    pub struct Parallel {
        /// Rate at the wheel.
        pub rate: Entry<SpringRate>,
        /// Wheel travel at which it carries nothing.
        pub neutral: Entry<Length>,
    }

    /// Wheel travel from the reference height.
    pub struct Travel {
        /// To first touch of the bump stop.
        pub stop_gap: Entry<Length>,
        /// To metal, the stop squeezed flat.
        pub metal: Entry<Length>,
        /// To full droop.
        pub droop: Entry<Length>,
    }

    /// What the axle should do.
    pub struct Target {
        /// A range, or as before.
        pub goal: Goal,
        /// Lowest ride frequency wanted, on springs.
        pub low: Entry<Frequency>,
        /// Highest ride frequency wanted, on springs.
        pub high: Entry<Frequency>,
        /// Allowed either side of the frequency before, when that is the goal.
        pub margin: Entry<Ratio>,
        /// A range of damping ratio, or as before.
        pub damping_goal: Goal,
        /// Allowed either side of the damping ratio before, when that is the goal.
        pub damping_margin: Entry<Ratio>,
        /// Lowest damping ratio wanted.
        pub damping_low: Entry<Ratio>,
        /// Highest damping ratio wanted.
        pub damping_high: Entry<Ratio>,
        /// Rebound over bump of the new damper.
        pub rebound_over_bump: Entry<Ratio>,
        /// Peak speed, at the damper, at which a curve counts as one rate.
        pub peak_speed: Entry<DamperSpeed>,
        /// Speed at the knee of the two-slope curve.
        pub knee_speed: Entry<DamperSpeed>,
        /// Slope beyond the knee over the slope below it.
        pub upper_share: Entry<Ratio>,
        /// How much force a damper loses when it is hot.
        pub hot_loss: Entry<Ratio>,
        /// Height wanted above the old one, at the wheel; + up.
        pub raise: Entry<Length>,
    }

    /// What can be bought.
    pub struct Stock {
        /// How far apart the rates on offer are.
        pub step: Entry<SpringRate>,
        /// Added to the free length, since a new spring settles.
        pub settle: Entry<Length>,
        /// Rate of the new springs as delivered over the rate ordered.
        pub rate_factor: Entry<Ratio>,
        /// Free length of the new springs as delivered less the length ordered.
        pub length_off: Entry<Length>,
        /// Solid length of the new spring, if it is known.
        pub solid_length: Entry<Length>,
        /// Wire and coils of a coil on offer.
        pub coil: WireSizes,
        /// A spring to be wound is pressed solid by its maker until it no longer sets.
        pub preset: bool,
        /// Allowed shear stress of a spring to be wound when solid, without a factor, as a share of tensile strength.
        pub solid_share: Entry<Ratio>,
        /// Wire sizes the maker has, with `;` between them; blank: whole multiples of the step, else those usually sold.
        pub wires: String,
        /// Step between wire sizes, to have a spring wound.
        pub wire_step: Entry<Length>,
        /// Step between torsion bar diameters.
        pub bar_step: Entry<Length>,
    }

    /// What a spring of the parts list must fit, in addition to the target.
    pub struct Choice {
        /// How far the height may be off, either way.
        pub height_band: Entry<Length>,
        /// Spacers may raise the spring's seat by this amount.
        pub spacer_most: Entry<Length>,
        /// The seat can be lowered by this amount, where it is on a collar.
        pub seat_down: Entry<Length>,
        /// The coil must be at least so wide inside.
        pub inside_least: Entry<Length>,
        /// The coil may be at most so wide outside.
        pub outside_most: Entry<Length>,
        /// In other load cases the frequency may leave the wanted range by this share.
        pub laden: Entry<Ratio>,
        /// Only springs with a pair in stock.
        pub in_stock_only: bool,
    }

    /// The spring that was taken from a list; blank: a stock rate of the length that is needed.
    pub struct Taken {
        /// Its number in the list.
        pub number: String,
        /// What it is.
        pub what: String,
        /// Its rate.
        pub rate: Entry<SpringRate>,
        /// Its free length.
        pub free_length: Entry<Length>,
        /// Its length with all coils touching.
        pub solid_length: Entry<Length>,
        /// The spacer that goes with it; − for a seat that is lowered.
        pub spacer: Entry<Length>,
        /// Price of one.
        pub price: Entry<Ratio>,
        /// Number in stock.
        pub in_stock: Entry<Ratio>,
    }
}

impl Axle {
    /// The springs stay as they are: nothing is put under them, no bar is indexed again, no leaf is added, no side gets
    /// one of its own, no bag helps.
    pub fn leaves_springs(&self) -> bool {
        let alike = [&self.left, &self.right].into_iter().all(|own| *own == OwnSpring::default());
        let as_set = self.spacer.is_blank() && self.index.is_blank() && self.added_leaf == LeafToAdd::default();
        self.plan == Plan::Keep && as_set && alike && self.bag.fitted != BagFitted::WithNew
    }

    /// Exchanges what is planned for this axle and what a plan has.
    pub(in crate::job) fn exchange(&mut self, plan: &mut AxlePlan) {
        swap(&mut self.plan, &mut plan.plan);
        swap(&mut self.new_anyway, &mut plan.new_anyway);
        swap(&mut self.spacer, &mut plan.spacer);
        swap(&mut self.index, &mut plan.index);
        swap(&mut self.added_leaf, &mut plan.added_leaf);
        swap(&mut self.dampers, &mut plan.dampers);
        swap(&mut self.taken, &mut plan.taken);
        swap(&mut self.left, &mut plan.left);
        swap(&mut self.right, &mut plan.right);
        swap(&mut self.target.raise, &mut plan.target.raise);
        swap(&mut self.bag.fitted, &mut plan.bag.fitted);
        swap(&mut self.roll_bar.new_diameter, &mut plan.roll_bar.new_diameter);
        swap(&mut self.new_damper, &mut plan.new_damper);
    }
}

impl Stock {
    /// No more wire sizes than these are read.
    const MOST_WIRES: usize = 200;

    /// Wire sizes as typed: each text, and the length it says; `None` for one that says none above zero.
    pub fn wire_list(&self, mark: DecimalMark) -> impl Iterator<Item = (&str, Option<Length>)> {
        let sizes = self.wires.split(';').map(str::trim).filter(|size| !size.is_empty()).take(Self::MOST_WIRES);
        sizes.map(move |size| {
            let length = parse::number(size, Dim::Length, mark).ok().map(|number| Length::from_si(number.si()));
            (size, length.filter(|l| l.si() > 0.0))
        })
    }
}
