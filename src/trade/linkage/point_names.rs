//! The names of the points that are measured, and which part carries a spring's or damper's foot.

use super::Point;
use crate::base::language::worded;

worded! {
    /// A point that is measured, by the letter on the sketch.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
    pub enum PointName {
        /// A: inner pivot of the upper arm.
        UpperInner => Word("upper arm, inner pivot"),
        /// B: outer joint of the upper arm.
        UpperOuter => Word("upper arm, outer joint"),
        /// C: inner pivot of the lower arm.
        LowerInner => Word("lower arm, inner pivot"),
        /// D: outer joint of the lower arm.
        LowerOuter => Word("lower arm, outer joint"),
        /// T: top of the strut.
        StrutTop => Word("strut top mount"),
        /// P: a second point on the strut's axis, at the upright.
        StrutAxis => Word("strut axis at the upright"),
        /// P: pivot of a trailing arm.
        ArmPivot => Word("trailing arm, pivot"),
        /// W: wheel centre.
        Wheel => Word("wheel centre"),
        /// G: middle of the tyre's contact.
        Ground => Word("tyre contact patch, centre"),
        /// Upper end of the spring.
        SpringTop => Word("spring, upper seat"),
        /// Lower end of the spring.
        SpringFoot => Word("spring, lower seat"),
        /// Upper end of the damper.
        DamperTop => Word("damper, upper mount"),
        /// Lower end of the damper.
        DamperFoot => Word("damper, lower mount"),
        /// E: inner end of the tie rod.
        RodInner => Word("tie rod, inner joint"),
        /// F: outer end of the tie rod.
        RodOuter => Word("tie rod, outer joint"),
    }
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
