//! Linkages: the points that were read, the linkage they make, and the length curves it gives.

use std::sync::Arc;

use super::Reading;
use crate::base::units::{Length, Quantity, Ratio};
use crate::job::read::{Axle, MotionRatio, Place};
use crate::job::{FootOn, Side, Suspension, Walk as _, point_key, points_of};
use crate::solve::answer::Checked;
use crate::trade::linkage::{
    ArmLengths, Carrier, Construction, Fault, Foot, Mounts, Point, PointName, Strut, Sweep, TieRod, TrailingArm,
    TravelEnds, TwoArms, beam_roll_centre, joint_over_wheel,
};
use crate::trade::wheel::{LengthCurve, Rows};

/// What moves with the wheel.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(in super::super) enum Moves {
    /// The spring.
    Spring,
    /// The damper.
    Damper,
}

impl Moves {
    /// Both.
    pub const BOTH: [Moves; 2] = [Moves::Spring, Moves::Damper];

    /// Its motion ratio.
    pub fn ratio(self, axle: &Axle) -> &MotionRatio {
        match self {
            Moves::Spring => &axle.ratio,
            Moves::Damper => &axle.damper_ratio,
        }
    }

    /// What the rows of its motion ratio say.
    pub fn rows(self, checked: &Checked) -> Option<&Rows> {
        match self {
            Moves::Spring => checked.ratio_rows.as_ref(),
            Moves::Damper => checked.damper_rows.as_ref(),
        }
    }

    /// The name of its motion ratio in paths.
    pub fn key(self) -> &'static str {
        match self {
            Moves::Spring => "ratio",
            Moves::Damper => "damper_ratio",
        }
    }
}

/// A linkage that was moved through its travel, or why it is none.
type Swept = Result<Arc<Sweep>, Fault>;
/// A length curve and where it ends, or why there is none.
pub(super) type Curved = Result<(LengthCurve, TravelEnds), Fault>;

/// What was last worked out of one axle's points, and for which: the same points give the same again.
#[derive(Default)]
pub(super) struct LastSwept {
    linkage: Option<(Construction, Swept)>,
    spring: Option<(Mounts, Curved)>,
    damper: Option<(Mounts, Curved)>,
}

impl Reading<'_> {
    fn point(&self, place: &Place) -> Option<Point> {
        Some(Point::new(self.typed(&place.out)?, self.typed(&place.up)?))
    }

    /// The tyre's contact: straight below the wheel centre on the floor, unless typed.
    fn ground(&self, axle: &Axle, wheel: Point) -> Option<Point> {
        let ground = &axle.linkage.ground;
        let out = if ground.out.is_blank() { Length::from_si(wheel.out_m) } else { self.typed(&ground.out)? };
        Some(Point::new(out, self.known(&ground.up)?))
    }

    /// The linkage that the points of an axle make, as its suspension says; `None` while one of them is not known.
    fn construction(&self, axle: &Axle) -> Option<Construction> {
        let at = &axle.linkage;
        let (lower_inner, lower_outer) = (&at.lower_inner, &at.lower_outer);
        match axle.suspension {
            Suspension::TwoArms => {
                let wheel = self.point(&at.wheel)?;
                Some(Construction::TwoArms(TwoArms {
                    upper_inner: self.point(&at.upper_inner)?,
                    upper_outer: self.point(&at.upper_outer)?,
                    lower_inner: self.point(lower_inner)?,
                    lower_outer: self.point(lower_outer)?,
                    wheel,
                    ground: self.ground(axle, wheel)?,
                }))
            }
            Suspension::Strut => {
                let wheel = self.point(&at.wheel)?;
                Some(Construction::Strut(Strut {
                    top: self.point(&at.strut_top)?,
                    axis: self.point(&at.strut_axis)?,
                    lower_inner: self.point(lower_inner)?,
                    lower_outer: self.point(lower_outer)?,
                    wheel,
                    ground: self.ground(axle, wheel)?,
                }))
            }
            Suspension::TrailingArm | Suspension::SemiTrailingArm | Suspension::TwistBeam => {
                let wheel = self.point(&at.wheel)?;
                Some(Construction::TrailingArm(TrailingArm {
                    pivot: self.point(&at.pivot)?,
                    wheel,
                    ground: self.ground(axle, wheel)?,
                    plan_angle_rad: self.known(&at.plan_angle)?.si(),
                    half_track_m: self.known(&axle.track)?.si() / 2.0,
                }))
            }
            Suspension::NotSaid | Suspension::Beam | Suspension::Other => None,
        }
    }

    /// The linkage of an axle moved through its travel; the same points are moved once.
    pub fn sweep(&self, side: Side) -> Option<Swept> {
        let construction = self.construction(self.job.axle(side))?;
        let last = &mut self.swept.borrow_mut()[side];
        match &last.linkage {
            Some((of, found)) if *of == construction => Some(found.clone()),
            _ => {
                let found = Sweep::of(construction).map(Arc::new);
                *last = LastSwept { linkage: Some((construction, found.clone())), ..LastSwept::default() };
                Some(found)
            }
        }
    }

    /// Where a spring or damper is fixed. On a strut one without points of its own is coaxial.
    pub fn mounts(&self, axle: &Axle, moves: Moves) -> Option<Mounts> {
        let at = &axle.linkage;
        let (top, foot, on, names) = match moves {
            Moves::Spring => {
                (&at.spring_top, &at.spring_foot, at.spring_on, [PointName::SpringTop, PointName::SpringFoot])
            }
            Moves::Damper => {
                (&at.damper_top, &at.damper_foot, at.damper_on, [PointName::DamperTop, PointName::DamperFoot])
            }
        };
        let all_blank = [&top.out, &top.up, &foot.out, &foot.up].iter().all(|e| e.is_blank());
        if all_blank && axle.suspension == Suspension::Strut {
            return Some(Mounts::Coaxial);
        }
        let on = match (axle.suspension, on) {
            (Suspension::TwoArms | Suspension::Strut, FootOn::LowerArm) => Carrier::LowerArm,
            (Suspension::TwoArms | Suspension::Strut, FootOn::UpperArm) => Carrier::UpperArm,
            (Suspension::TwoArms | Suspension::Strut, FootOn::Upright) => Carrier::Upright,
            _ => Carrier::TrailingArm,
        };
        Some(Mounts::Apart(Foot { top: self.point(top)?, foot: self.point(foot)?, on }, names))
    }

    /// The length curve that the points give, and where it ends in droop and in bump.
    pub fn by_points(&self, side: Side, moves: Moves) -> Option<Curved> {
        let mounts = self.mounts(self.job.axle(side), moves)?;
        let swept = self.sweep(side)?;
        let last = &mut self.swept.borrow_mut()[side];
        let last = match moves {
            Moves::Spring => &mut last.spring,
            Moves::Damper => &mut last.damper,
        };
        match last {
            Some((of, found)) if *of == mounts => Some(found.clone()),
            _ => {
                let found = swept.and_then(|sweep| sweep.length_curve(mounts));
                *last = Some((mounts, found.clone()));
                Some(found)
            }
        }
    }

    /// The motion ratio that the lengths of the arm give.
    pub fn by_arm(&self, side: Side, moves: Moves) -> Option<Result<Ratio, Fault>> {
        let axle = self.job.axle(side);
        let (ratio, at) = (moves.ratio(axle), &axle.linkage);
        let arm = ArmLengths {
            seat: self.typed(&ratio.seat_arm)?,
            joint: self.typed(&at.arm_length)?,
            off_square: self.known(&ratio.seat_angle)?,
            slope: self.known(&at.arm_slope)?,
            joint_over_wheel: match self.joint_over_wheel(axle)? {
                Ok(share) => share,
                Err(fault) => return Some(Err(fault)),
            },
        };
        Some(arm.ratio())
    }

    /// Rise of the joint for each rise of the wheel: 1 on a trailing arm, by the instant centre where that is known.
    fn joint_over_wheel(&self, axle: &Axle) -> Option<Result<Ratio, Fault>> {
        let at = &axle.linkage;
        match axle.suspension {
            Suspension::TrailingArm | Suspension::SemiTrailingArm | Suspension::TwistBeam => {
                return Some(Ok(Ratio::from_si(1.0)));
            }
            _ => {}
        }
        match self.typed(&at.instant_centre) {
            Some(centre) if at.joint_share.is_blank() => {
                Some(joint_over_wheel(self.typed(&at.lower_outer.out)?, self.typed(&at.wheel.out)?, centre))
            }
            _ => self.known(&at.joint_share).map(Ok),
        }
    }

    /// The coordinates that a motion ratio by points rests on, as paths.
    pub fn point_paths(&self, side: Side, moves: Moves) -> Vec<String> {
        let axle = self.job.axle(side);
        let ends: &[&str] = match (moves, self.mounts(axle, moves)) {
            (_, Some(Mounts::Coaxial)) => &[],
            (Moves::Spring, _) => &["spring_top", "spring_foot"],
            (Moves::Damper, _) => &["damper_top", "damper_foot"],
        };
        let own = points_of(axle.suspension).iter().map(|point| point_key(*point));
        let both = |key: &str| ["out", "up"].map(|way| format!("{}.linkage.{key}.{way}", side.key()));
        own.chain(ends.iter().copied()).flat_map(both).collect()
    }

    /// Those of them that are still blank, as far as one can be asked for them at once.
    pub fn points_missing(&self, side: Side, moves: Moves) -> Vec<String> {
        const AT_ONCE: usize = 4;
        let mut open = self.point_paths(side, moves);
        let mut texts = self.texts.clone();
        open.retain(|path| texts.at_mut(path).is_some_and(|entry| entry.text().trim().is_empty()));
        if points_of(self.job.axle(side).suspension).is_empty() {
            open = vec![format!("{}.linkage.wheel.out", side.key())];
        }
        open.truncate(AT_ONCE);
        open
    }

    /// The tie rod, where all of it is known.
    pub fn tie_rod(&self, axle: &Axle) -> Option<TieRod> {
        let at = &axle.linkage;
        Some(TieRod {
            inner: self.point(&at.rod_inner)?,
            outer: self.point(&at.rod_outer)?,
            steering_arm_m: self.typed(&at.steering_arm)?.si(),
        })
    }

    /// The roll centre of a beam axle by its Panhard rod or its leaf.
    pub fn beam_roll_centre(&self, axle: &Axle) -> Option<Length> {
        let at = &axle.linkage;
        beam_roll_centre([self.point(&at.beam_first)?, self.point(&at.beam_second)?])
            .filter(|_| axle.suspension == Suspension::Beam)
    }
}
