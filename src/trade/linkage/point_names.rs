//! The names of the points that are measured, and which part carries a spring's or damper's foot.

use super::Point;
use crate::base::language::Word;

/// A point that is measured, by the letter on the sketch.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum PointName {
    /// A: inner pivot of the upper arm.
    UpperInner,
    /// B: outer joint of the upper arm.
    UpperOuter,
    /// C: inner pivot of the lower arm.
    LowerInner,
    /// D: outer joint of the lower arm.
    LowerOuter,
    /// T: top of the strut.
    StrutTop,
    /// P: a second point on the strut's axis, at the upright.
    StrutAxis,
    /// P: pivot of a trailing arm.
    ArmPivot,
    /// W: wheel centre.
    Wheel,
    /// G: middle of the tyre's contact.
    Ground,
    /// Upper end of the spring.
    SpringTop,
    /// Lower end of the spring.
    SpringFoot,
    /// Upper end of the damper.
    DamperTop,
    /// Lower end of the damper.
    DamperFoot,
    /// E: inner end of the tie rod.
    RodInner,
    /// F: outer end of the tie rod.
    RodOuter,
}

impl PointName {
    /// The letter on the sketch and in the table.
    pub fn letter(self) -> &'static str {
        match self {
            PointName::UpperInner => "A",
            PointName::UpperOuter => "B",
            PointName::LowerInner => "C",
            PointName::LowerOuter => "D",
            PointName::StrutTop => "T",
            PointName::StrutAxis | PointName::ArmPivot => "P",
            PointName::Wheel => "W",
            PointName::Ground => "G",
            PointName::SpringTop => "S0",
            PointName::SpringFoot => "S1",
            PointName::DamperTop => "M0",
            PointName::DamperFoot => "M1",
            PointName::RodInner => "E",
            PointName::RodOuter => "F",
        }
    }

    /// What it is, in words.
    pub fn words(self) -> Word {
        match self {
            PointName::UpperInner => Word("upper arm, inner pivot"),
            PointName::UpperOuter => Word("upper arm, outer joint"),
            PointName::LowerInner => Word("lower arm, inner pivot"),
            PointName::LowerOuter => Word("lower arm, outer joint"),
            PointName::StrutTop => Word("strut top mount"),
            PointName::StrutAxis => Word("strut axis at the upright"),
            PointName::ArmPivot => Word("trailing arm, pivot"),
            PointName::Wheel => Word("wheel centre"),
            PointName::Ground => Word("tyre contact patch, centre"),
            PointName::SpringTop => Word("spring, upper seat"),
            PointName::SpringFoot => Word("spring, lower seat"),
            PointName::DamperTop => Word("damper, upper mount"),
            PointName::DamperFoot => Word("damper, lower mount"),
            PointName::RodInner => Word("tie rod, inner joint"),
            PointName::RodOuter => Word("tie rod, outer joint"),
        }
    }
}

/// The part to which the lower end of a spring or damper is fixed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Carrier {
    /// The lower arm.
    LowerArm,
    /// The upper arm.
    UpperArm,
    /// The upright.
    Upright,
    /// The trailing arm.
    TrailingArm,
}

/// Both ends of a spring or damper, and what carries the lower one.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Foot {
    /// On the body.
    pub top: Point,
    /// On the part that moves, at the reference height.
    pub foot: Point,
    /// That part.
    pub on: Carrier,
}
