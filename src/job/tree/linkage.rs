//! The linkage as measured by tape: lengths of an arm, points of one side, the rod of a beam axle.

use super::record::{self, record};
use super::{FootOn, MeasuredOn, Suspension};
use crate::base::units::{Angle, Entry, Length, Ratio};
use crate::trade::linkage::PointName;

record! {
    /// What guides a wheel, measured at the reference height on one side: y outward from the centreline, h up from the
    /// level floor; of a trailing arm, x to the rear in the plane square to its pivot's axis.
    pub struct Linkage {
        /// On which side it was measured.
        pub measured_on: MeasuredOn,
        /// Pivot's axis to the ball joint, or to the wheel centre of a trailing arm: b.
        pub arm_length: Entry<Length>,
        /// The line from pivot to joint against level: α.
        pub arm_slope: Entry<Angle>,
        /// Rise of the ball joint for each rise of the wheel: j.
        pub joint_share: Entry<Ratio>,
        /// The instant centre, outward from the centreline.
        pub instant_centre: Entry<Length>,
        /// A: inner pivot of the upper arm.
        pub upper_inner: Place,
        /// B: its outer joint.
        pub upper_outer: Place,
        /// C: inner pivot of the lower arm.
        pub lower_inner: Place,
        /// D: its outer joint.
        pub lower_outer: Place,
        /// T: top of the strut.
        pub strut_top: Place,
        /// P: a second point on the strut's axis, at the upright.
        pub strut_axis: Place,
        /// P: pivot of a trailing arm.
        pub pivot: Place,
        /// W: wheel centre.
        pub wheel: Place,
        /// G: middle of the tyre's contact.
        pub ground: Place,
        /// S0: upper seat of the spring.
        pub spring_top: Place,
        /// S1: its lower seat.
        pub spring_foot: Place,
        /// M0: upper mount of the damper.
        pub damper_top: Place,
        /// M1: its lower mount.
        pub damper_foot: Place,
        /// E: inner joint of the tie rod.
        pub rod_inner: Place,
        /// F: its outer joint.
        pub rod_outer: Place,
        /// From the axle's line to F, + ahead of the axle.
        pub steering_arm: Entry<Length>,
        /// Plan angle of a trailing arm's pivot axis, + with its inner end further back.
        pub plan_angle: Entry<Angle>,
        /// What carries the spring's lower seat.
        pub spring_on: FootOn,
        /// What carries the damper's lower mount.
        pub damper_on: FootOn,
        /// One end of a beam axle's Panhard rod, or the front eye of its leaf.
        pub beam_first: Place,
        /// The other end, or the rear eye.
        pub beam_second: Place,
    }

    /// A point.
    pub struct Place {
        /// Outward from the centreline; of a trailing arm or a leaf, to the rear.
        pub out: Entry<Length>,
        /// Above the floor.
        pub up: Entry<Length>,
    }
}

/// The points that a suspension is measured by; none where points give no motion ratio.
pub fn points_of(suspension: Suspension) -> &'static [PointName] {
    use PointName as N;
    match suspension {
        Suspension::TwoArms => &[N::UpperInner, N::UpperOuter, N::LowerInner, N::LowerOuter, N::Wheel],
        Suspension::Strut => &[N::StrutTop, N::StrutAxis, N::LowerInner, N::LowerOuter, N::Wheel],
        Suspension::TrailingArm | Suspension::SemiTrailingArm | Suspension::TwistBeam => &[N::ArmPivot, N::Wheel],
        Suspension::NotSaid | Suspension::Beam | Suspension::Other => &[],
    }
}

/// The name of a point in paths.
pub fn point_key(point: PointName) -> &'static str {
    match point {
        PointName::UpperInner => "upper_inner",
        PointName::UpperOuter => "upper_outer",
        PointName::LowerInner => "lower_inner",
        PointName::LowerOuter => "lower_outer",
        PointName::StrutTop => "strut_top",
        PointName::StrutAxis => "strut_axis",
        PointName::ArmPivot => "pivot",
        PointName::Wheel => "wheel",
        PointName::Ground => "ground",
        PointName::SpringTop => "spring_top",
        PointName::SpringFoot => "spring_foot",
        PointName::DamperTop => "damper_top",
        PointName::DamperFoot => "damper_foot",
        PointName::RodInner => "rod_inner",
        PointName::RodOuter => "rod_outer",
    }
}
