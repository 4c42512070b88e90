//! What the user edits: one tree of fields, exactly as typed.
//!
//! Blank means "not said": a default from [`fields`] is then used, if there is
//! one, and shown as such. The tree holds no results.

pub mod check;
mod disk;
pub mod fields;
pub mod file;
pub mod finding;
pub mod how_sure;
pub mod kept;
pub mod paste;
mod record;
pub mod typical;

use serde::{Deserialize, Serialize};

use crate::language::tr;
pub use crate::road::RoadClass;
pub use crate::spring::{Ends, Material};
use crate::units::{
    Angle, Area, DamperSpeed, DampingRate, DecimalMark, Entry, Force, Frequency, Length, Mass, Pressure, Ratio,
    SpringRate, Stress, Time, UnitChoice, Velocity, Volume,
};
use crate::weights::Corners;
pub use finding::{Finding, Level};
pub use record::{RowList, Walk};
use record::{plain_values, record};

/// Front or rear axle.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Side {
    /// The front axle.
    Front,
    /// The rear axle.
    Rear,
}

impl Side {
    /// Both, front first.
    pub const BOTH: [Side; 2] = [Side::Front, Side::Rear];

    /// The key in files and field paths.
    pub fn key(self) -> &'static str {
        match self {
            Side::Front => "front",
            Side::Rear => "rear",
        }
    }

    /// The word on screen.
    pub fn word(self) -> &'static str {
        match self {
            Side::Front => tr("Front"),
            Side::Rear => tr("Rear"),
        }
    }

    /// The same inside a sentence.
    pub fn word_inside(self) -> &'static str {
        match self {
            Side::Front => tr("front"),
            Side::Rear => tr("rear"),
        }
    }

    /// "Front axle".
    pub fn axle(self) -> &'static str {
        match self {
            Side::Front => tr("Front axle"),
            Side::Rear => tr("Rear axle"),
        }
    }
}

/// What carries the wheel; decides what share of unsprung mass is usual.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
pub enum AxleKind {
    /// Each wheel on its own arms.
    #[default]
    Independent,
    /// Both wheels on one beam, driven or not.
    Beam,
}

/// What is planned for the axle's springs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
pub enum Plan {
    /// New springs are chosen.
    #[default]
    NewSprings,
    /// The springs stay.
    Keep,
}

/// How the motion ratio was found.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
pub enum RatioBy {
    /// Two lengths: the wheel moved so far, the part moved so far.
    #[default]
    Moved,
    /// Rows of wheel travel and length.
    Rows,
    /// A number, confirmed by "the wheel moved 1.00".
    Number,
    /// The spring stands on the axle or an arm: its lean, and the arm's ratio.
    Lean,
}

impl RatioBy {
    /// The first field of this way, within its motion ratio.
    pub fn first_field(self) -> &'static str {
        match self {
            RatioBy::Moved => "wheel_moved",
            RatioBy::Rows => "rows[0].wheel",
            RatioBy::Number => "number",
            RatioBy::Lean => "lean",
        }
    }
}

/// What kind of spring carries the axle.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Hash, Serialize, Deserialize)]
pub enum SpringKind {
    /// A coil of constant rate.
    #[default]
    Coil,
    /// A coil with a soft helper coil in line.
    WithHelper,
    /// A progressive or dual-rate coil, by points.
    Progressive,
    /// A torsion bar.
    TorsionBar,
    /// A leaf.
    Leaf,
}

impl SpringKind {
    /// All kinds.
    pub const ALL: [SpringKind; 5] =
        [SpringKind::Coil, SpringKind::WithHelper, SpringKind::Progressive, SpringKind::TorsionBar, SpringKind::Leaf];

    /// The words on screen and paper.
    pub fn words(self) -> &'static str {
        match self {
            SpringKind::Coil => tr("coil"),
            SpringKind::WithHelper => tr("coil with helper"),
            SpringKind::Progressive => tr("progressive coil"),
            SpringKind::TorsionBar => tr("torsion bar"),
            SpringKind::Leaf => tr("leaf"),
        }
    }

    /// Seated coils, whose length along their axis counts.
    pub fn is_coil(self) -> bool {
        matches!(self, SpringKind::Coil | SpringKind::WithHelper | SpringKind::Progressive)
    }
}

/// How the rate of a coil was found.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Hash, Serialize, Deserialize)]
pub enum RateBy {
    /// A rate from a stamp, a catalogue or a seller.
    #[default]
    Stated,
    /// Wire, coil diameter and working coils.
    Wire,
    /// Two loads at two lengths.
    Press,
    /// Wire and press, weighted by how well each is known.
    Together,
}

/// How the rate of a leaf was found.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Hash, Serialize, Deserialize)]
pub enum LeafBy {
    /// A stated rate.
    #[default]
    Stated,
    /// Loads and heights, down and back.
    Test,
    /// Span, width, thickness and number of leaves.
    Sizes,
}

/// Whether an air bag helps the spring.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Hash, Serialize, Deserialize)]
pub enum BagFitted {
    /// No bag carries; with its sizes given, the pressure that would level the axle is still shown.
    #[default]
    No,
    /// It was there before, at this pressure.
    Always,
    /// It comes with the springs as finally fitted, at this pressure.
    WithNew,
}

/// When lengths, gaps and travel were measured: this height is the reference.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
pub enum MeasuredAt {
    /// Before the swap; or, when there are no before-weights, as it stands now.
    #[default]
    Before,
    /// After the swap, on the old springs.
    After,
}

/// What the new spring is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
pub enum Goal {
    /// A range of ride frequency.
    #[default]
    Range,
    /// The ride frequency the axle had before.
    AsBefore,
}

/// Whether a part comes out of the vehicle or goes in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Hash, Serialize, Deserialize)]
pub enum Way {
    /// It goes in.
    #[default]
    In,
    /// It comes out.
    Out,
}

/// What carries a part.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Hash, Serialize, Deserialize)]
pub enum PartOn {
    /// The body: it is sprung.
    #[default]
    Body,
    /// The front axle itself: unsprung.
    FrontAxle,
    /// The rear axle itself: unsprung.
    RearAxle,
}

plain_values!(
    String,
    bool,
    UnitChoice,
    DecimalMark,
    AxleKind,
    Plan,
    RatioBy,
    MeasuredAt,
    Goal,
    SpringKind,
    RateBy,
    LeafBy,
    BagFitted,
    Material,
    Ends,
    Way,
    PartOn,
    RoadClass
);

record! {
    /// One job: a vehicle whose weights have changed.
    pub struct Job {
        /// The unit in which each quantity is shown.
        pub units: UnitChoice,
        /// The decimal mark used in this job's numbers.
        pub decimal: DecimalMark,
        /// Who does the work.
        pub shop: Shop,
        /// Whose vehicle it is.
        pub customer: Customer,
        /// The vehicle.
        pub vehicle: Vehicle,
        /// Parts that come out and go in.
        pub parts: Vec<Part>,
        /// What the ledger of parts foretold when the weigh-in after arrived.
        pub predicted: Predicted,
        /// Heights, pitch and the manoeuvres that are looked at.
        pub chassis: Chassis,
        /// The rough road that is looked at; its speed is that over the hump.
        pub road: Road,
        /// How the vehicle is loaded, besides as it was weighed.
        pub cases: Vec<LoadCase>,
        /// The weigh-in before the swap.
        pub before: Weighing,
        /// The weigh-in after the swap, on the old springs.
        pub after: Weighing,
        /// The vehicle on the springs as fitted: weighed and measured again.
        pub fitted: Fitted,
        /// When lengths, gaps and travel were measured.
        pub measured_at: MeasuredAt,
        /// The front axle.
        pub front: Axle,
        /// The rear axle.
        pub rear: Axle,
        /// The shop's limits for warnings.
        pub limits: Limits,
        /// The shop's parts list that is used: its name, or a file beside the job.
        pub list: String,
        /// What things cost, beside the parts of the list.
        pub prices: Prices,
        /// How sure a number is when nothing is said of it.
        pub certainty: Certainty,
        /// Anything else worth keeping.
        pub notes: String,
    }

    /// The shop, as printed on its sheets.
    pub struct Shop {
        /// Its name.
        pub name: String,
        /// Address, telephone.
        pub contact: String,
        /// Who fills in the job.
        pub fitter: String,
        /// Language of the sheets, as its two letters; blank is English.
        pub language: String,
    }

    /// The customer.
    pub struct Customer {
        /// Name.
        pub name: String,
        /// Address, telephone.
        pub contact: String,
    }

    /// The vehicle.
    pub struct Vehicle {
        /// What it is.
        pub name: String,
        /// Registration or frame number.
        pub identification: String,
        /// What is being changed.
        pub change: String,
        /// Front to rear axle.
        pub wheelbase: Entry<Length>,
        /// Hitch ball behind the rear axle.
        pub hitch: Entry<Length>,
        /// The whole vehicle's plated rating.
        pub rating: Entry<Mass>,
        /// How far ahead the lamps' beam is looked at.
        pub lamp_distance: Entry<Length>,
    }

    /// Heights, pitch and the manoeuvres that are looked at.
    pub struct Chassis {
        /// Height of the whole vehicle's centre of gravity.
        pub cg_height: Entry<Length>,
        /// The weighing with one axle raised, which gives that height.
        pub lift: Lift,
        /// Radius of gyration of the sprung body in pitch.
        pub pitch_radius: Entry<Length>,
        /// Radius of gyration of the sprung body about its roll axis.
        pub roll_radius: Entry<Length>,
        /// Braking that is looked at, in g.
        pub braking: Entry<Ratio>,
        /// Share of the dive that the front suspension's geometry takes away.
        pub anti_dive: Entry<Ratio>,
        /// Cornering that is looked at, in g.
        pub cornering: Entry<Ratio>,
        /// Speed over one hump.
        pub speed: Entry<Velocity>,
        /// Height of the hump.
        pub hump_height: Entry<Length>,
        /// Length of the hump.
        pub hump_length: Entry<Length>,
        /// Cross weight that is wanted.
        pub cross_wanted: Entry<Ratio>,
    }

    /// The rough road that is looked at.
    pub struct Road {
        /// How rough it is.
        pub class: RoadClass,
        /// Depth of the pothole.
        pub hole: Entry<Length>,
        /// Any number: which of the many roads of its class.
        pub seed: Entry<Ratio>,
    }

    /// A weighing with one axle raised and the suspension locked.
    pub struct Lift {
        /// How far the wheels of the other axle were raised.
        pub rise: Entry<Length>,
        /// Reading of the axle that stays down, level.
        pub level: Entry<Mass>,
        /// Reading of the same axle with the other one raised.
        pub lifted: Entry<Mass>,
        /// Height of the wheel centres.
        pub hub_height: Entry<Length>,
    }

    /// An anti-roll bar.
    pub struct RollBar {
        /// Its diameter.
        pub diameter: Entry<Length>,
        /// Bore of a hollow bar.
        pub inside_diameter: Entry<Length>,
        /// Length that twists.
        pub length: Entry<Length>,
        /// From the bar's axis square to the line of its link.
        pub blade: Entry<Length>,
        /// Link travel over wheel travel, in roll.
        pub ratio: Entry<Ratio>,
        /// Shear modulus of the steel.
        pub shear_modulus: Entry<Stress>,
        /// Diameter of another bar that is thought of.
        pub new_diameter: Entry<Length>,
    }

    /// Four readings of the same weighing, once more.
    pub struct Again {
        /// Left front.
        pub lf: Entry<Mass>,
        /// Right front.
        pub rf: Entry<Mass>,
        /// Left rear.
        pub lr: Entry<Mass>,
        /// Right rear.
        pub rr: Entry<Mass>,
    }

    /// How much higher than level each scale pad stood.
    pub struct Pads {
        /// Left front.
        pub lf: Entry<Length>,
        /// Right front.
        pub rf: Entry<Length>,
        /// Left rear.
        pub lr: Entry<Length>,
        /// Right rear.
        pub rr: Entry<Length>,
    }

    /// One part that comes out or goes in.
    pub struct Part {
        /// What it is.
        pub what: String,
        /// In or out.
        pub way: Way,
        /// What carries it.
        pub on: PartOn,
        /// Its mass.
        pub mass: Entry<Mass>,
        /// How far behind the front axle its centre of gravity is.
        pub x: Entry<Length>,
        /// How far right of the centreline it is.
        pub y: Entry<Length>,
    }

    /// The weights that the ledger foretold, kept when the scales spoke.
    pub struct Predicted {
        /// Front axle.
        pub front: Entry<Mass>,
        /// Rear axle.
        pub rear: Entry<Mass>,
        /// Left front.
        pub lf: Entry<Mass>,
        /// Right front.
        pub rf: Entry<Mass>,
        /// Left rear.
        pub lr: Entry<Mass>,
        /// Right rear.
        pub rr: Entry<Mass>,
        /// When.
        pub date: String,
    }

    /// Something carried: fuel, a person, cargo.
    pub struct Load {
        /// What it is.
        pub what: String,
        /// Its mass.
        pub mass: Entry<Mass>,
        /// How far behind the front axle it is.
        pub x: Entry<Length>,
        /// How far right of the centreline it is.
        pub y: Entry<Length>,
    }

    /// One way in which the vehicle is loaded.
    pub struct LoadCase {
        /// Its name.
        pub name: String,
        /// Springs and dampers are sized on it.
        pub sized: bool,
        /// What is carried.
        pub loads: Vec<Load>,
        /// Load on the hitch, as a scale under the coupling shows it.
        pub tongue: Entry<Mass>,
    }

    /// One weigh-in: four corners, or the two axles alone.
    pub struct Weighing {
        /// Left front.
        pub lf: Entry<Mass>,
        /// Right front.
        pub rf: Entry<Mass>,
        /// Left rear.
        pub lr: Entry<Mass>,
        /// Right rear.
        pub rr: Entry<Mass>,
        /// Front axle, when its corners were not weighed.
        pub front: Entry<Mass>,
        /// Rear axle, when its corners were not weighed.
        pub rear: Entry<Mass>,
        /// Fuel, people and load aboard, in words.
        pub aboard: String,
        /// What was aboard and is taken out, so that weighings compare.
        pub loads: Vec<Load>,
        /// The same weighing once more; the mean counts.
        pub repeats: Vec<Again>,
        /// Scale pads that did not stand level.
        pub pads: Pads,
        /// When it was weighed.
        pub date: String,
    }

    /// The vehicle on the springs as fitted: weighed and measured again, with the same aboard as after the swap.
    pub struct Fitted {
        /// Left front.
        pub lf: Entry<Mass>,
        /// Right front.
        pub rf: Entry<Mass>,
        /// Left rear.
        pub lr: Entry<Mass>,
        /// Right rear.
        pub rr: Entry<Mass>,
        /// Front axle, when its corners were not weighed.
        pub front: Entry<Mass>,
        /// Rear axle, when its corners were not weighed.
        pub rear: Entry<Mass>,
        /// Hub centre to arch.
        pub arch: Arches,
        /// When.
        pub date: String,
    }

    /// Hub centre to wheel arch at each corner.
    pub struct Arches {
        /// Left front.
        pub lf: Entry<Length>,
        /// Right front.
        pub rf: Entry<Length>,
        /// Left rear.
        pub lr: Entry<Length>,
        /// Right rear.
        pub rr: Entry<Length>,
    }

    /// One axle.
    pub struct Axle {
        /// Independent or beam.
        pub kind: AxleKind,
        /// New springs, or keep the old.
        pub plan: Plan,
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
        /// Unsprung mass of one corner before the swap, if it was different.
        pub unsprung_before: Entry<Mass>,
        /// Between the two springs, where their axes cross roll-centre height; for the ratio in roll of a beam axle.
        pub spring_base: Entry<Length>,
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
        /// The spring as fitted.
        pub spring: SpringFitted,
        /// Rubber pivots and whatever else carries beside the spring.
        pub parallel: Parallel,
        /// Wheel travel from the reference height.
        pub travel: Travel,
        /// The bump stop.
        pub stop: Stop,
        /// An air bag that helps the spring.
        pub bag: Bag,
        /// Other ways to the wheel rate, as checks.
        pub checks: Checks,
        /// Rate of one tyre.
        pub tyre_rate: Entry<SpringRate>,
        /// The damper as fitted.
        pub damper: DamperFitted,
        /// A damper that is thought of.
        pub new_damper: NewDamper,
        /// What is wanted.
        pub target: Target,
        /// What can be bought.
        pub stock: Stock,
        /// What a spring of the parts list must fit.
        pub choice: Choice,
        /// The spring that was taken from a list.
        pub taken: Taken,
    }

    /// A motion ratio, by one of three ways.
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
        /// "The wheel moved 1.00: how far did the part move?"
        pub confirm: Entry<Ratio>,
        /// Lean of the part from upright, seen along or across the vehicle.
        pub lean: Entry<Angle>,
        /// Arm ratio: how far the part's foot moves for each unit of wheel travel.
        pub arm: Entry<Ratio>,
    }

    /// One row of a motion-ratio table.
    pub struct RatioRow {
        /// Wheel travel from the reference height, + in bump.
        pub wheel: Entry<Length>,
        /// Length of the spring or damper there.
        pub length: Entry<Length>,
    }

    /// The spring as found on the vehicle.
    pub struct SpringFitted {
        /// What kind of spring.
        pub kind: SpringKind,
        /// Which way to a coil's rate counts.
        pub rate_by: RateBy,
        /// Its rate.
        pub rate: Entry<SpringRate>,
        /// Its length at the reference height.
        pub fitted_length: Entry<Length>,
        /// Its length off the vehicle.
        pub free_length: Entry<Length>,
        /// The old spring's length with all coils touching.
        pub solid_length: Entry<Length>,
        /// Its wire and coils.
        pub wire: WireSizes,
        /// Two readings of a press.
        pub press: PressReadings,
        /// What if so many coils were cut off?
        pub cut: Entry<Ratio>,
        /// The soft coil in line with it.
        pub helper: HelperCoil,
        /// Lengths and loads of a progressive coil.
        pub points: Vec<LoadPoint>,
        /// The torsion bar and its arm.
        pub bar: BarSizes,
        /// The leaf.
        pub leaf: LeafSizes,
    }

    /// Wire and coils of a coil spring.
    pub struct WireSizes {
        /// Steel.
        pub material: Material,
        /// How the ends are made.
        pub ends: Ends,
        /// Wire diameter, paint off.
        pub diameter: Entry<Length>,
        /// Outside diameter of the coil.
        pub outside_diameter: Entry<Length>,
        /// Working coils.
        pub active_coils: Entry<Ratio>,
        /// All coils.
        pub total_coils: Entry<Ratio>,
        /// Shear modulus of the steel.
        pub shear_modulus: Entry<Stress>,
        /// Tensile strength of the steel.
        pub tensile_strength: Entry<Stress>,
        /// Allowed shear stress as a share of tensile strength.
        pub allowed_share: Entry<Ratio>,
    }

    /// Two readings of a press that bracket the fitted length.
    pub struct PressReadings {
        /// Length at the first reading.
        pub first_length: Entry<Length>,
        /// Load there.
        pub first_load: Entry<Force>,
        /// Length at the second reading.
        pub second_length: Entry<Length>,
        /// Load there.
        pub second_load: Entry<Force>,
        /// True load over the load shown.
        pub gauge_factor: Entry<Ratio>,
    }

    /// A soft coil in line with the main one.
    pub struct HelperCoil {
        /// Its rate.
        pub rate: Entry<SpringRate>,
        /// Its free length.
        pub free_length: Entry<Length>,
        /// Its length with all coils touching.
        pub solid_length: Entry<Length>,
    }

    /// One point of a progressive coil.
    pub struct LoadPoint {
        /// Length of the spring.
        pub length: Entry<Length>,
        /// Load there.
        pub load: Entry<Force>,
    }

    /// A torsion bar and its arm.
    pub struct BarSizes {
        /// Diameter of the bar between its splines.
        pub diameter: Entry<Length>,
        /// Bore of a hollow bar.
        pub inside_diameter: Entry<Length>,
        /// Working length between the splines.
        pub length: Entry<Length>,
        /// From the bar's axis to the wheel's load, across.
        pub arm: Entry<Length>,
        /// Arm angle below level at the reference height.
        pub angle: Entry<Angle>,
        /// Shear modulus of the steel.
        pub shear_modulus: Entry<Stress>,
        /// Allowed shear stress.
        pub allowed_stress: Entry<Stress>,
    }

    /// A leaf by test or by its sizes.
    pub struct LeafSizes {
        /// Which way to its rate counts.
        pub by: LeafBy,
        /// Loads and heights.
        pub rows: Vec<LeafTestRow>,
        /// Eye to eye, flat.
        pub span: Entry<Length>,
        /// Length clamped to the axle.
        pub clamped: Entry<Length>,
        /// Width of the leaves.
        pub width: Entry<Length>,
        /// Thickness of one leaf.
        pub thickness: Entry<Length>,
        /// Number of leaves.
        pub leaves: Entry<Ratio>,
        /// How many of them are full length.
        pub full_length: Entry<Ratio>,
        /// Young's modulus of the steel.
        pub modulus: Entry<Stress>,
    }

    /// One row of a leaf test.
    pub struct LeafTestRow {
        /// Load added on one leaf.
        pub load: Entry<Force>,
        /// Height from frame to axle while loading.
        pub loading: Entry<Length>,
        /// Height at the same load while unloading.
        pub unloading: Entry<Length>,
    }

    /// The bump stop.
    pub struct Stop {
        /// Its rate.
        pub rate: Entry<SpringRate>,
        /// Its squeeze and load, when it gets harder.
        pub rows: Vec<SqueezeRow>,
        /// How far it is squeezed for each unit of wheel travel.
        pub ratio: Entry<Ratio>,
    }

    /// One row of a bump stop's table.
    pub struct SqueezeRow {
        /// How far it is squeezed.
        pub squeeze: Entry<Length>,
        /// Load there.
        pub load: Entry<Force>,
    }

    /// An air bag that helps the spring; sizes at its set height.
    pub struct Bag {
        /// Whether it carries.
        pub fitted: BagFitted,
        /// Gauge pressure at its set height.
        pub pressure: Entry<Pressure>,
        /// Effective area.
        pub area: Entry<Area>,
        /// Area gained per length of compression.
        pub area_growth: Entry<Length>,
        /// Volume of air.
        pub volume: Entry<Volume>,
        /// How far it is compressed for each unit of wheel travel.
        pub ratio: Entry<Ratio>,
        /// Polytropic exponent.
        pub exponent: Entry<Ratio>,
    }

    /// Other ways to the wheel rate.
    pub struct Checks {
        /// Hub centre to arch before the swap, mean of both sides.
        pub arch_before: Entry<Length>,
        /// Hub centre to arch after the swap on the old springs.
        pub arch_after: Entry<Length>,
        /// Ballast put over the axle, both sides together, at the reference height.
        pub ballast: Entry<Mass>,
        /// How far that lowered the arch over the hub.
        pub ballast_drop: Entry<Length>,
        /// Bounces counted with the dampers off, at the reference height.
        pub bounces: Entry<Ratio>,
        /// The time they took.
        pub bounce_time: Entry<Time>,
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

    /// The damper as found on the vehicle.
    pub struct DamperFitted {
        /// Damping ratio before the swap, if that is what is known.
        pub ratio_before: Entry<Ratio>,
        /// Rate in bump at the damper, if measured.
        pub bump_rate: Entry<DampingRate>,
        /// Rate in rebound at the damper, if measured.
        pub rebound_rate: Entry<DampingRate>,
        /// Eye to eye at the reference height.
        pub fitted_length: Entry<Length>,
        /// Eye to eye, fully closed.
        pub closed_length: Entry<Length>,
        /// Eye to eye, fully open.
        pub open_length: Entry<Length>,
        /// Gauge pressure of a gas damper.
        pub gas_pressure: Entry<Pressure>,
        /// Rod diameter of a gas damper.
        pub rod_diameter: Entry<Length>,
        /// Its force against speed, if it was on a test machine.
        pub rows: Vec<CurveRow>,
    }

    /// One row of a damper's curve.
    pub struct CurveRow {
        /// Speed at the damper.
        pub speed: Entry<DamperSpeed>,
        /// Force when it is pushed in.
        pub bump: Entry<Force>,
        /// Force when it is pulled out.
        pub rebound: Entry<Force>,
    }

    /// A damper that is thought of, from a catalogue or a test machine.
    pub struct NewDamper {
        /// Its number and what it is.
        pub what: String,
        /// What its clicks turn, and from where they are counted.
        pub adjuster: String,
        /// Its force against speed, click by click.
        pub rows: Vec<ClickRow>,
        /// Eye to eye, fully closed.
        pub closed_length: Entry<Length>,
        /// Eye to eye, fully open.
        pub open_length: Entry<Length>,
    }

    /// One row of the curve of a damper that is thought of.
    pub struct ClickRow {
        /// The click it was measured at; blank without an adjuster.
        pub click: Entry<Ratio>,
        /// Speed at the damper.
        pub speed: Entry<DamperSpeed>,
        /// Force when it is pushed in.
        pub bump: Entry<Force>,
        /// Force when it is pulled out.
        pub rebound: Entry<Force>,
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
        /// Step between stock rates.
        pub step: Entry<SpringRate>,
        /// Added to the free length, since a new spring settles.
        pub settle: Entry<Length>,
        /// Solid length of the new spring, if it is known.
        pub solid_length: Entry<Length>,
        /// Wire and coils of a coil on offer.
        pub coil: WireSizes,
        /// Step between wire sizes, to have a spring wound.
        pub wire_step: Entry<Length>,
        /// Step between torsion bar diameters.
        pub bar_step: Entry<Length>,
    }

    /// What a spring of the parts list must fit, beside the target.
    pub struct Choice {
        /// How far the height may be off, either way.
        pub height_band: Entry<Length>,
        /// Spacers may raise the spring's seat by so much.
        pub spacer_most: Entry<Length>,
        /// The seat can be lowered by so much, where it is on a collar.
        pub seat_down: Entry<Length>,
        /// The coil must be at least so wide inside.
        pub inside_least: Entry<Length>,
        /// The coil may be at most so wide outside.
        pub outside_most: Entry<Length>,
        /// In other load cases the frequency may leave the wanted range by this share.
        pub laden: Entry<Ratio>,
        /// Only springs of which two are on the shelf.
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
    }

    /// What things cost for one axle, in one currency.
    pub struct Prices {
        /// The currency, in words or as its sign.
        pub currency: String,
        /// A pair of spacers.
        pub spacers: Entry<Ratio>,
        /// A pair of springs, when none is taken from a list.
        pub springs: Entry<Ratio>,
        /// A pair of dampers.
        pub dampers: Entry<Ratio>,
        /// Work: springs or spacers of one axle out and in.
        pub work: Entry<Ratio>,
        /// Work for the dampers beside it.
        pub damper_work: Entry<Ratio>,
    }

    /// How sure a number is when nothing is said of it, by where it comes from; each is surely inside.
    pub struct Certainty {
        /// A guess, or a default that is one; share of the value.
        pub guessed: Entry<Ratio>,
        /// From a catalogue, a plate or a seller; share of the value.
        pub quoted: Entry<Ratio>,
        /// From a parts ledger; share of the value.
        pub ledger: Entry<Ratio>,
        /// One reading of the scales.
        pub scales: Entry<Mass>,
        /// A length read off a tape.
        pub tape: Entry<Length>,
    }

    /// The shop's limits; each is a warning, never a refusal.
    pub struct Limits {
        /// Left against right on one axle, share of the axle.
        pub left_right: Entry<Ratio>,
        /// Cross weight either side of one half.
        pub cross: Entry<Ratio>,
        /// Unsprung share of the reading, independent.
        pub unsprung_independent: Entry<Ratio>,
        /// Unsprung share of the reading, beam axle.
        pub unsprung_beam: Entry<Ratio>,
        /// Lowest credible ride frequency.
        pub frequency_low: Entry<Frequency>,
        /// Highest credible ride frequency.
        pub frequency_high: Entry<Frequency>,
        /// Lowest rear over front frequency.
        pub rear_front_low: Entry<Ratio>,
        /// Highest rear over front frequency.
        pub rear_front_high: Entry<Ratio>,
        /// Share of a rating from which it is amber.
        pub rating_amber: Entry<Ratio>,
        /// Least room to coil bind at metal.
        pub bind_room: Entry<Length>,
        /// Least grip of the spring on its seats at full droop.
        pub seat_room: Entry<Length>,
        /// Least room of the damper at both ends.
        pub damper_room: Entry<Length>,
        /// ± of a rate in a parts list that states none.
        pub rate_tolerance: Entry<Ratio>,
        /// ± of a free length in a parts list.
        pub length_tolerance: Entry<Length>,
        /// How far a weight after fitting may be from what was foretold, share of it.
        pub fitted_weight: Entry<Ratio>,
        /// How far a height may be from what was foretold or is wanted.
        pub fitted_height: Entry<Length>,
    }
}

impl Job {
    /// An axle by its side.
    pub fn axle(&self, side: Side) -> &Axle {
        match side {
            Side::Front => &self.front,
            Side::Rear => &self.rear,
        }
    }

    /// An axle by its side, to edit.
    pub fn axle_mut(&mut self, side: Side) -> &mut Axle {
        match side {
            Side::Front => &mut self.front,
            Side::Rear => &mut self.rear,
        }
    }
}

impl Job {
    /// The name of a row of parts or loads, by the row's path: `parts[2]`, `cases[0].loads[1]`.
    pub fn what_mut(&mut self, row: &str) -> Option<&mut String> {
        let (list, number) = row.strip_suffix(']')?.rsplit_once('[')?;
        let i: usize = number.parse().ok()?;
        let loads = match list {
            "parts" => return self.parts.get_mut(i).map(|p| &mut p.what),
            "before.loads" => &mut self.before.loads,
            "after.loads" => &mut self.after.loads,
            _ => {
                let case: usize = list.strip_prefix("cases[")?.strip_suffix("].loads")?.parse().ok()?;
                &mut self.cases.get_mut(case)?.loads
            }
        };
        loads.get_mut(i).map(|l| &mut l.what)
    }
}

impl CurveRow {
    /// Nothing is typed in it.
    pub fn is_blank(&self) -> bool {
        self.speed.is_blank() && self.bump.is_blank() && self.rebound.is_blank()
    }
}

impl ClickRow {
    /// Nothing is typed in it.
    pub fn is_blank(&self) -> bool {
        self.click.is_blank() && self.speed.is_blank() && self.bump.is_blank() && self.rebound.is_blank()
    }
}

impl Weighing {
    /// The four corner fields in walking order.
    pub fn corners_mut(&mut self) -> Corners<&mut Entry<Mass>> {
        Corners { lf: &mut self.lf, rf: &mut self.rf, lr: &mut self.lr, rr: &mut self.rr }
    }

    /// Nothing was weighed.
    pub fn is_blank(&self) -> bool {
        [&self.lf, &self.rf, &self.lr, &self.rr, &self.front, &self.rear].iter().all(|e| e.text.trim().is_empty())
    }
}
