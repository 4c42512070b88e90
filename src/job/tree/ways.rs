//! What can be chosen: kinds of springs, ways to know a rate or a ratio, what is wanted.

use serde::{Deserialize, Serialize};

use crate::base::language::Word;
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

/// What guides the wheel.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Hash, Serialize, Deserialize)]
pub enum Suspension {
    /// Not stated.
    #[default]
    NotSaid,
    /// Two arms across, one above the other.
    TwoArms,
    /// A strut, an arm below it.
    Strut,
    /// An arm along the vehicle.
    TrailingArm,
    /// An arm whose pivot is neither along nor across.
    SemiTrailingArm,
    /// A beam, driven or not.
    Beam,
    /// Two trailing arms on a beam that twists.
    TwistBeam,
    /// Something else.
    Other,
}

impl Suspension {
    /// All of them.
    pub const ALL: [Suspension; 8] = [
        Suspension::NotSaid,
        Suspension::TwoArms,
        Suspension::Strut,
        Suspension::TrailingArm,
        Suspension::SemiTrailingArm,
        Suspension::Beam,
        Suspension::TwistBeam,
        Suspension::Other,
    ];

    /// The words on screen and paper.
    pub fn words(self) -> Word {
        match self {
            Suspension::NotSaid => Word("not stated"),
            Suspension::TwoArms => Word("two arms (double wishbone)"),
            Suspension::Strut => Word("strut"),
            Suspension::TrailingArm => Word("trailing arm"),
            Suspension::SemiTrailingArm => Word("semi-trailing arm"),
            Suspension::Beam => Word("beam axle"),
            Suspension::TwistBeam => Word("twist beam"),
            Suspension::Other => Word("other type"),
        }
    }

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

/// Whether spring and damper are one unit.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Hash, Serialize, Deserialize)]
pub enum Coaxial {
    /// Blank: a strut is one unit, of anything else it is not known.
    #[default]
    NotSaid,
    /// The spring sits on the damper's own plates and comes out with it: strut, coil-over.
    Yes,
    /// Spring and damper come out one by one, even if the damper passes through the coil.
    No,
}

impl Coaxial {
    /// All of them.
    pub const ALL: [Coaxial; 3] = [Coaxial::NotSaid, Coaxial::Yes, Coaxial::No];

    /// The words on screen and paper.
    pub fn words(self) -> Word {
        match self {
            Coaxial::NotSaid => Word("according to suspension type"),
            Coaxial::Yes => Word("one unit (strut, coil-over)"),
            Coaxial::No => Word("two separate parts"),
        }
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

/// The part that carries the lower end of a spring or damper.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
pub enum FootOn {
    /// The lower arm; of a trailing arm, the arm.
    #[default]
    LowerArm,
    /// The upper arm.
    UpperArm,
    /// The upright.
    Upright,
}

impl FootOn {
    /// All of them.
    pub const ALL: [FootOn; 3] = [FootOn::LowerArm, FootOn::UpperArm, FootOn::Upright];

    /// The words on screen and paper.
    pub fn words(self) -> Word {
        match self {
            FootOn::LowerArm => Word("lower arm"),
            FootOn::UpperArm => Word("upper arm"),
            FootOn::Upright => Word("upright"),
        }
    }
}

/// The side of the vehicle on which a linkage was measured; the other one is taken for its mirror image.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
pub enum MeasuredOn {
    /// Not stated.
    #[default]
    NotSaid,
    /// The left.
    Left,
    /// The right.
    Right,
}

impl MeasuredOn {
    /// All of them.
    pub const ALL: [MeasuredOn; 3] = [MeasuredOn::NotSaid, MeasuredOn::Left, MeasuredOn::Right];

    /// The words on screen and paper.
    pub fn words(self) -> Word {
        match self {
            MeasuredOn::NotSaid => Word("not stated"),
            MeasuredOn::Left => Word("on the left"),
            MeasuredOn::Right => Word("on the right"),
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
    pub fn words(self) -> Word {
        match self {
            SpringKind::Coil => Word("coil spring"),
            SpringKind::WithHelper => Word("coil spring with helper spring"),
            SpringKind::Progressive => Word("progressive coil spring"),
            SpringKind::TorsionBar => Word("torsion bar"),
            SpringKind::Leaf => Word("leaf spring"),
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

/// What holds a spring on its seats at full droop where it is loose there by itself.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
pub enum HeldBy {
    /// Not stated.
    #[default]
    NotSaid,
    /// A helper spring.
    Helper,
    /// A damper that ends the droop before.
    ShorterDamper,
    /// Its seats: clamped, tied or clipped.
    Seat,
}

impl HeldBy {
    /// All of them.
    pub const ALL: [HeldBy; 4] = [HeldBy::NotSaid, HeldBy::Helper, HeldBy::ShorterDamper, HeldBy::Seat];

    /// The words on screen and paper.
    pub fn words(self) -> Word {
        match self {
            HeldBy::NotSaid => Word("not decided"),
            HeldBy::Helper => Word("a helper spring"),
            HeldBy::ShorterDamper => Word("a shorter damper"),
            HeldBy::Seat => Word("a spring retainer"),
        }
    }
}
