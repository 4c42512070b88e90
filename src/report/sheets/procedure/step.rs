//! One step of the work as data: what it supports, frees, unloads, joins and tightens.

/// What keeps body, wheel or spring where it is while something is loose.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Support {
    /// Chocks at the wheels that stay down.
    Chocks,
    /// Rated stands under the frame.
    Stands,
    /// A jack under what carries the wheel; one at each end of a beam.
    Jack,
    /// A strap from the upright to the body, so that no hose, lead or shaft carries it.
    Tie,
    /// A rated compressor on a coil that is still in the vehicle.
    SpringHeld,
    /// A rated compressor on the bench.
    Bench,
    /// A rated puller at the lever of a torsion bar.
    BarHeld,
}

/// What is taken apart and joined again.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Held {
    /// The road wheels.
    Wheel,
    /// Links of the anti-roll bar, brackets of hoses and leads.
    Links,
    /// The anti-roll bar in its brackets.
    RollBar,
    /// A rod that holds a beam sideways.
    SideRod,
    /// A damper that is not one unit with its spring; it ends the droop on most axles.
    Damper,
    /// The lower mount of a strut or coil-over.
    UnitFoot,
    /// The top mount of a strut or coil-over.
    UnitTop,
    /// The ball joint between arm and upright, or the joint that the vehicle's manual names.
    BallJoint,
    /// The nut in the middle of a strut or coil-over: it alone holds the spring on the damper.
    CentreNut,
    /// A coil.
    Coil,
    /// A torsion bar in its splines.
    Bar,
    /// The U-bolts of a leaf.
    LeafClamp,
    /// Eyes and shackle of a leaf.
    LeafEyes,
    /// Hoses, leads, cables, shafts and rods too short for what is lowered.
    TooShort,
}

/// Where something is tightened to a torque.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Place {
    /// Centre nut of a strut or coil-over.
    CentreNut,
    /// Top mount of a strut.
    StrutTop,
    /// Strut to hub.
    StrutFoot,
    /// The same, where it may be no strut.
    PerhapsStrut,
    /// Top mount of a coil-over.
    UnitTop,
    /// Ball joint.
    BallJoint,
    /// The joint that the manual names.
    OtherJoint,
    /// Lock of a torsion bar's adjuster.
    BarLock,
    /// U-bolts of a leaf.
    UBolts,
    /// The same, when the leaves have settled.
    UBoltsAgain,
    /// A drive shaft that was disconnected.
    Shaft,
    /// What was disconnected as too short.
    TooShort,
    /// Wheel nuts.
    WheelNuts,
    /// Pivots of a lower arm.
    LowerPivots,
    /// Pivots of an upper arm.
    UpperPivots,
    /// Pivots of a trailing or semi-trailing arm.
    ArmPivots,
    /// Pivots of a twist beam.
    BeamPivots,
    /// Links and side rod of a beam axle.
    AxleLinks,
    /// Whatever carries the wheel, where that is not stated.
    OtherPivots,
    /// Upper mount of a damper.
    DamperTop,
    /// Lower mount of a damper or coil-over.
    DamperFoot,
    /// Fixed eye of a leaf.
    LeafEye,
    /// Shackle of a leaf.
    Shackle,
    /// Links of the anti-roll bar.
    RollBarLinks,
    /// Brackets of the anti-roll bar.
    RollBarBrackets,
}

impl Place {
    /// The key of its words.
    pub fn key(self) -> &'static str {
        match self {
            Place::CentreNut => "torque.centre_nut",
            Place::StrutTop => "torque.strut_top",
            Place::StrutFoot => "torque.strut_foot",
            Place::PerhapsStrut => "torque.perhaps_strut",
            Place::UnitTop => "torque.unit_top",
            Place::BallJoint => "torque.ball_joint",
            Place::OtherJoint => "torque.other_joint",
            Place::BarLock => "torque.bar_lock",
            Place::UBolts => "torque.u_bolts",
            Place::UBoltsAgain => "torque.u_bolts_again",
            Place::Shaft => "torque.shaft",
            Place::TooShort => "torque.too_short",
            Place::WheelNuts => "torque.wheel_nuts",
            Place::LowerPivots => "torque.lower_pivots",
            Place::UpperPivots => "torque.upper_pivots",
            Place::ArmPivots => "torque.arm_pivots",
            Place::BeamPivots => "torque.beam_pivots",
            Place::AxleLinks => "torque.axle_links",
            Place::OtherPivots => "torque.other_pivots",
            Place::DamperTop => "torque.damper_top",
            Place::DamperFoot => "torque.damper_foot",
            Place::LeafEye => "torque.leaf_eye",
            Place::Shackle => "torque.shackle",
            Place::RollBarLinks => "torque.roll_bar_links",
            Place::RollBarBrackets => "torque.roll_bar_brackets",
        }
    }
}

/// One step. Common practice, no source; local codes, the vehicle's manual and a licensed inspection come first.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Step {
    /// The key of its text.
    pub text: &'static str,
    /// What supports from here on.
    pub supports: &'static [Support],
    /// What it takes apart.
    pub frees: &'static [Held],
    /// The load of the spring is off from here on.
    pub unloads: bool,
    /// What it joins again.
    pub joins: &'static [Held],
    /// Supports that go.
    pub removes: &'static [Support],
    /// What it tightens to a torque.
    pub tightens: &'static [Place],
}

impl Step {
    /// A step that only says something.
    pub(super) const fn of(text: &'static str) -> Step {
        Step { text, supports: &[], frees: &[], unloads: false, joins: &[], removes: &[], tightens: &[] }
    }

    /// A step that supports.
    pub(super) const fn supporting(text: &'static str, supports: &'static [Support]) -> Step {
        Step { supports, ..Step::of(text) }
    }

    /// A step that takes something apart.
    pub(super) const fn freeing(text: &'static str, frees: &'static [Held]) -> Step {
        Step { frees, ..Step::of(text) }
    }

    /// A step that takes the load off the spring.
    pub(super) const fn unloading(text: &'static str) -> Step {
        Step { unloads: true, ..Step::of(text) }
    }

    /// A step that takes the load off the spring by lowering: what is too short for it is disconnected.
    pub(super) const fn lowering(text: &'static str) -> Step {
        Step { frees: &[Held::TooShort], ..Step::unloading(text) }
    }

    /// A step that joins something again.
    pub(super) const fn joining(text: &'static str, joins: &'static [Held]) -> Step {
        Step { joins, ..Step::of(text) }
    }

    /// The same step, which takes supports away at its end.
    pub(super) const fn removing(self, removes: &'static [Support]) -> Step {
        Step { removes, ..self }
    }

    /// The same step, which tightens.
    pub(super) const fn tightening(self, tightens: &'static [Place]) -> Step {
        Step { tightens, ..self }
    }
}
