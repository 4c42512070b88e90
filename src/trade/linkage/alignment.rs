//! What a linkage does to the wheel over its travel: camber, track, toe, roll centre, swing arm.

use super::construction::{Pose, TrailingArm};
use super::{Carrier, Construction, Foot, Mounts, Point, PointName, Sweep};
use crate::base::units::{Angle, Length, Quantity, Ratio, RatioSlope};

/// The tie rod of a wheel, and the steering arm it holds.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TieRod {
    /// E: the inner joint, on the rack.
    pub inner: Point,
    /// F: the outer joint, carried by the upright.
    pub outer: Point,
    /// From the axle's line to F: + ahead of the axle, m.
    pub steering_arm_m: f64,
}

/// The wheel at one travel, against where it is at the reference height; one side.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Alignment {
    /// Change of camber, + with the top outward.
    pub camber: Angle,
    /// Change of half the track, + outward.
    pub half_track: Length,
    /// Change of toe, + in; `None` without tie-rod points on arms across the vehicle.
    pub toe: Option<Angle>,
    /// Height of the roll centre above the ground.
    pub roll_centre: Length,
    /// One over the swing arm's length y_W − y_IC: 0 for parallel arms. −d camber/dz.
    pub swing_arm: RatioSlope,
    /// How far the ground contact rose against the body.
    pub ground_rise: Length,
    /// Rise of the lower ball joint for each rise of the wheel; 1 for a trailing arm.
    pub joint_over_wheel: Ratio,
}

impl Sweep {
    /// The wheel at a wheel travel from the reference height; `None` outside [`Sweep::range_m`].
    ///
    /// Roll centre y_G·dy_G/dh_G: where the line from G to the instant centre meets the centreline, above the ground,
    /// with no special case for parallel arms. Source `MIL` ch. 17 (construction), `DERIVED` (this form).
    pub fn alignment(&self, travel: Length, rod: Option<&TieRod>) -> Option<Alignment> {
        let pose = self.pose(travel.si())?;
        match self.construction() {
            Construction::TrailingArm(arm) => Some(arm.alignment(&pose)),
            Construction::TwoArms(arms) => Some(across(&pose, arms.ground, arms.lower_outer, rod)),
            Construction::Strut(strut) => Some(across(&pose, strut.ground, strut.lower_outer, rod)),
        }
    }

    /// Where the named points are at a wheel travel, to draw them; `None` outside [`Sweep::range_m`].
    pub fn drawn(&self, travel: Length, others: &[(Point, Option<Carrier>)]) -> Option<Drawn> {
        let pose = self.pose(travel.si())?;
        use PointName as N;
        let own: Vec<(N, Point, Option<Carrier>)> = match self.construction() {
            Construction::TwoArms(a) => vec![
                (N::UpperInner, a.upper_inner, None),
                (N::UpperOuter, a.upper_outer, Some(Carrier::Upright)),
                (N::LowerInner, a.lower_inner, None),
                (N::LowerOuter, a.lower_outer, Some(Carrier::Upright)),
                (N::Wheel, a.wheel, Some(Carrier::Upright)),
                (N::Ground, a.ground, Some(Carrier::Upright)),
            ],
            Construction::Strut(s) => vec![
                (N::StrutTop, s.top, None),
                (N::StrutAxis, s.axis, Some(Carrier::Upright)),
                (N::LowerInner, s.lower_inner, None),
                (N::LowerOuter, s.lower_outer, Some(Carrier::Upright)),
                (N::Wheel, s.wheel, Some(Carrier::Upright)),
                (N::Ground, s.ground, Some(Carrier::Upright)),
            ],
            Construction::TrailingArm(t) => vec![
                (N::ArmPivot, t.pivot, None),
                (N::Wheel, t.wheel, Some(Carrier::TrailingArm)),
                (N::Ground, t.ground, Some(Carrier::TrailingArm)),
            ],
        };
        let place = |point: Point, on: Option<Carrier>| match on {
            Some(on) => pose.part(on).map(|body| body.carry(point).at),
            None => Some(point),
        };
        let points = own.into_iter().filter_map(|(name, point, on)| Some((name, place(point, on)?))).collect();
        let others = others.iter().map(|(point, on)| place(*point, *on)).collect();
        Some(Drawn { points, others })
    }

    /// The motion ratio r = −dL/dz of a part at a wheel travel from velocities, exact, and its change dr/dz.
    pub fn exact_ratio(&self, mounts: Mounts, travel: Length) -> Option<(Ratio, RatioSlope)> {
        let [_, slope, bend] = mounts.knot(self.construction(), &self.pose(travel.si())?)?;
        Some((Ratio::from_si(-slope), RatioSlope::from_si(-bend)))
    }
}

/// A linkage at one wheel travel.
#[derive(Debug, Clone, PartialEq)]
pub struct Drawn {
    /// Its own points.
    pub points: Vec<(PointName, Point)>,
    /// The additional ones requested.
    pub others: Vec<Option<Point>>,
}

/// Arms across the vehicle. Toe to first order: (|EF′| − |EF|)/(ℓ cos ψ), ψ the rod's slope there. Source `DERIVED`.
fn across(pose: &Pose, ground: Point, joint: Point, rod: Option<&TieRod>) -> Alignment {
    let (wheel, lower) = (&pose.wheel, pose.upright.carry(joint));
    let toe = rod.and_then(|rod| {
        let at = pose.upright.carry(rod.outer).at - rod.inner;
        let stretched = at.size() - (rod.outer - rod.inner).size();
        let toe = stretched / (rod.steering_arm_m * at.out_m.abs() / at.size());
        toe.is_finite().then(|| Angle::from_si(toe))
    });
    Alignment {
        camber: Angle::from_si(-pose.upright.angle()),
        half_track: Length::from_si(pose.ground.at.out_m - ground.out_m),
        toe,
        roll_centre: Length::from_si(pose.ground.at.out_m * pose.ground.d.out_m / pose.ground.d.up_m),
        swing_arm: RatioSlope::from_si(pose.upright.d_turn / wheel.d.up_m),
        ground_rise: Length::from_si(pose.ground.at.up_m - ground.up_m),
        joint_over_wheel: Ratio::from_si(lower.d.up_m / wheel.d.up_m),
    }
}

impl TrailingArm {
    /// sin(camber change) = −sin δ sin φ; toe from the wheel axis turned about the pivot's; swing arm x_PW/sin δ; roll
    /// centre on the floor for δ = 0. Source `DERIVED` (a turn about a level axis), checked by Rodrigues' formula in tests.
    fn alignment(&self, pose: &Pose) -> Alignment {
        let (sin_plan, cos_plan) = self.plan_angle_rad.sin_cos();
        let (sin, cos) = pose.upright.turn;
        let half_track_m = sin_plan * (pose.ground.at.out_m - self.ground.out_m);
        let toe = (sin_plan * cos_plan * (1.0 - cos)).atan2(cos + cos_plan * cos_plan * (1.0 - cos));
        let per_rise = sin_plan * pose.ground.d.out_m / pose.ground.d.up_m;
        Alignment {
            camber: Angle::from_si(-(sin_plan * sin).asin()),
            half_track: Length::from_si(half_track_m),
            toe: Some(Angle::from_si(toe)),
            roll_centre: Length::from_si((self.half_track_m + half_track_m) * per_rise),
            swing_arm: RatioSlope::from_si(sin_plan / pose.wheel.d.up_m),
            ground_rise: Length::from_si(pose.ground.at.up_m - self.ground.up_m),
            joint_over_wheel: Ratio::from_si(1.0),
        }
    }
}

impl Foot {
    /// Both its points as [`Sweep::drawn`] takes them.
    pub fn drawn(&self) -> [(Point, Option<Carrier>); 2] {
        [(self.top, None), (self.foot, Some(self.on))]
    }
}
