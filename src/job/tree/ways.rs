//! What can be chosen: kinds of springs, ways to know a rate or a ratio, what is wanted.

use serde::{Deserialize, Serialize};

use crate::base::language::worded;
use crate::base::units::{Dim, UnitChoice};

/// What carries the wheel; decides what share of unsprung mass is usual.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
pub enum AxleKind {
    /// Each wheel on its own arms.
    #[default]
    Independent,
    /// Both wheels on one beam, driven or not.
    Beam,
}

/// The system of units in which the defaults of blank fields are round: stock steps, tape, scales.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
pub enum Defaults {
    /// By the unit in which spring rates are shown: only until the job is read from a file or its units change.
    #[default]
    AsShown,
    /// Kilograms and millimetres.
    Metric,
    /// Pounds and inches.
    PoundInch,
}

impl Defaults {
    /// The system that goes with the units shown.
    pub fn of(units: &UnitChoice) -> Defaults {
        match units.unit(Dim::SpringRate).symbol {
            "lb/in" => Defaults::PoundInch,
            _ => Defaults::Metric,
        }
    }
}

worded! {
    /// What guides the wheel.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Hash, Serialize, Deserialize)]
    pub enum Suspension {
        /// Not stated.
        #[default]
        NotSaid => Word("not stated"),
        /// Two arms across, one above the other.
        TwoArms => Word("two arms (double wishbone)"),
        /// A strut, an arm below it.
        Strut => Word("strut"),
        /// An arm along the vehicle.
        TrailingArm => Word("trailing arm"),
        /// An arm whose pivot is neither along nor across.
        SemiTrailingArm => Word("semi-trailing arm"),
        /// A beam, driven or not.
        Beam => Word("beam axle"),
        /// Two trailing arms on a beam that twists.
        TwistBeam => Word("twist beam"),
        /// Something else.
        Other => Word("other type"),
    }
}

impl Suspension {
    /// It can be what an axle of this kind has.
    pub fn suits(self, kind: AxleKind) -> bool {
        match self {
            Suspension::NotSaid | Suspension::Other => true,
            Suspension::Beam | Suspension::TwistBeam => kind == AxleKind::Beam,
            _ => kind == AxleKind::Independent,
        }
    }

    /// Surely no more than this is the change of a motion ratio that was not measured, per metre of wheel travel;
    /// common practice, no source. What does not suit the axle counts as not stated: then the widest of its kind.
    pub fn unknown_slope_per_m(self, kind: AxleKind) -> f64 {
        match (self, kind) {
            (Suspension::TwoArms | Suspension::TrailingArm | Suspension::SemiTrailingArm, AxleKind::Independent) => 0.3,
            (Suspension::TwistBeam, AxleKind::Beam) => 0.3,
            (_, AxleKind::Independent) => 0.8,
            (_, AxleKind::Beam) => 0.0,
        }
    }
}

worded! {
    /// Whether spring and damper are one unit.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Hash, Serialize, Deserialize)]
    pub enum Coaxial {
        /// Blank: a strut is one unit, of anything else it is not known.
        #[default]
        NotSaid => Word("according to suspension type"),
        /// The spring sits on the damper's own plates and comes out with it: strut, coil-over.
        Yes => Word("one unit (strut, coil-over)"),
        /// Spring and damper come out one by one, even if the damper passes through the coil.
        No => Word("two separate parts"),
    }
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

/// The links of the anti-roll bars while the vehicle is weighed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
pub enum BarLinks {
    /// Connected.
    #[default]
    On,
    /// Taken off, or hanging free.
    Off,
}

/// The same when it is weighed again on the springs as fitted.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
pub enum LinksAgain {
    /// As at the weigh-in after the change.
    #[default]
    AsAfter,
    /// Connected.
    On,
    /// Taken off, or hanging free.
    Off,
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
    /// The spring sits on the axle or an arm: its lean, and the arm's ratio.
    Lean,
    /// The spring sits on an arm across or along the vehicle: lengths and angles of the arm.
    Arm,
    /// Points of the linkage: two arms, strut or trailing arm, as the suspension says.
    Points,
}

impl RatioBy {
    /// The first field of this way, as a path within the axle; `part` is `ratio` or `damper_ratio`.
    pub fn first_field(self, part: &str) -> String {
        let own = match self {
            RatioBy::Moved => "wheel_moved",
            RatioBy::Rows => "rows[0].wheel",
            RatioBy::Number => "number",
            RatioBy::Lean => "lean",
            RatioBy::Arm => "seat_arm",
            RatioBy::Points => return "linkage.wheel.out".to_owned(),
        };
        format!("{part}.{own}")
    }
}

worded! {
    /// The part that carries the lower end of a spring or damper.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
    pub enum FootOn {
        /// The lower arm; of a trailing arm, the arm.
        #[default]
        LowerArm => Word("lower arm"),
        /// The upper arm.
        UpperArm => Word("upper arm"),
        /// The upright.
        Upright => Word("upright"),
    }
}

worded! {
    /// The side of the vehicle on which a linkage was measured; the other one is taken for its mirror image.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
    pub enum MeasuredOn {
        /// Not stated.
        #[default]
        NotSaid => Word("not stated"),
        /// The left.
        Left => Word("on the left"),
        /// The right.
        Right => Word("on the right"),
    }
}

worded! {
    /// What kind of spring carries the axle.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Hash, Serialize, Deserialize)]
    pub enum SpringKind {
        /// A coil of constant rate.
        #[default]
        Coil => Word("coil spring"),
        /// A coil with a soft helper coil in line.
        WithHelper => Word("coil spring with helper spring"),
        /// A progressive or dual-rate coil, by points.
        Progressive => Word("progressive coil spring"),
        /// A torsion bar.
        TorsionBar => Word("torsion bar"),
        /// A leaf.
        Leaf => Word("leaf spring"),
    }
}

impl SpringKind {
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
    /// Wire, coil diameter and active coils.
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
    /// Before the change; or, when there are no before-weights, as it is now.
    #[default]
    Before,
    /// After the change, on the old springs.
    After,
}

/// What a new spring or damper is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
pub enum Goal {
    /// A range, of ride frequency or damping ratio.
    #[default]
    Range,
    /// What the axle had before.
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

worded! {
    /// What holds a spring on its seats at full droop where it is loose there by itself.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
    pub enum HeldBy {
        /// Not stated.
        #[default]
        NotSaid => Word("not decided"),
        /// A helper spring.
        Helper => Word("a helper spring"),
        /// A damper that ends the droop before.
        ShorterDamper => Word("a shorter damper"),
        /// Its seats: clamped, tied or clipped.
        Seat => Word("a spring retainer"),
    }
}
