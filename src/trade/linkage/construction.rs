//! Two arms, strut, trailing arm: where every part is when the arm has turned by an angle.

use super::plane::{Body, Moving};
use super::{Carrier, Fault, Point, PointName};

/// Two points closer than this are one, m.
const APART_M: f64 = 1e-3;
/// Below this sine two lines are one: the linkage is at the point of locking.
const IN_LINE: f64 = 1e-4;
/// The wheel must rise by at least this for each length of the arm that turns.
const LIFTS: f64 = 1e-3;

/// An upper and a lower arm across the vehicle. Source `MIL` ch. 17.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TwoArms {
    /// A: inner pivot of the upper arm.
    pub upper_inner: Point,
    /// B: its outer joint.
    pub upper_outer: Point,
    /// C: inner pivot of the lower arm.
    pub lower_inner: Point,
    /// D: its outer joint.
    pub lower_outer: Point,
    /// W: wheel centre.
    pub wheel: Point,
    /// G: middle of the tyre's contact.
    pub ground: Point,
}

/// A strut on a lower arm. Source `MIL` ch. 17.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Strut {
    /// T: top of the strut.
    pub top: Point,
    /// P: a second point on the strut's axis, fixed in the upright.
    pub axis: Point,
    /// C: inner pivot of the lower arm.
    pub lower_inner: Point,
    /// D: its outer joint.
    pub lower_outer: Point,
    /// W: wheel centre.
    pub wheel: Point,
    /// G: middle of the tyre's contact.
    pub ground: Point,
}

/// A trailing or semi-trailing arm, in the plane square to its level pivot axis: x to the rear.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TrailingArm {
    /// P: pivot.
    pub pivot: Point,
    /// W: wheel centre.
    pub wheel: Point,
    /// G: middle of the tyre's contact.
    pub ground: Point,
    /// Plan angle of the pivot axis against square across the vehicle, rad; + with its inner end further back.
    pub plan_angle_rad: f64,
    /// From the centreline to the tyre contact, m.
    pub half_track_m: f64,
}

/// What guides the wheel.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Construction {
    /// Two arms.
    TwoArms(TwoArms),
    /// A strut.
    Strut(Strut),
    /// A trailing or semi-trailing arm.
    TrailingArm(TrailingArm),
}

/// The parts at one angle of the arm.
#[derive(Debug, Clone, Copy)]
pub(super) struct Pose {
    pub lower: Body,
    pub upper: Option<Body>,
    /// The upright; the arm itself for a trailing arm.
    pub upright: Body,
    pub wheel: Moving,
    pub ground: Moving,
}

impl Pose {
    fn of(lower: Body, upper: Option<Body>, upright: Body, wheel: Point, ground: Point) -> Self {
        Pose { lower, upper, upright, wheel: upright.carry(wheel), ground: upright.carry(ground) }
    }

    /// The part that carries a foot; `None` where there is none.
    pub fn part(&self, on: Carrier) -> Option<&Body> {
        match on {
            Carrier::LowerArm => Some(&self.lower),
            Carrier::UpperArm => self.upper.as_ref(),
            Carrier::Upright | Carrier::TrailingArm => Some(&self.upright),
        }
    }
}

impl Construction {
    /// W, G and the pivot of the arm that drives.
    pub fn wheel(&self) -> Point {
        match self {
            Construction::TwoArms(a) => a.wheel,
            Construction::Strut(s) => s.wheel,
            Construction::TrailingArm(t) => t.wheel,
        }
    }

    /// The parts when the lower or trailing arm has turned to the left by `angle`, rad; `None` where the linkage cannot
    /// be.
    pub(super) fn pose(&self, angle: f64) -> Option<Pose> {
        match self {
            Construction::TwoArms(a) => a.pose(angle),
            Construction::Strut(s) => s.pose(angle),
            Construction::TrailingArm(t) => {
                let arm = Body::about(t.pivot, angle);
                Some(Pose::of(arm, None, arm, t.wheel, t.ground))
            }
        }
    }

    /// Whether the points can be a linkage at the reference height.
    ///
    /// # Errors
    /// [`Fault`], which names the points to measure again.
    pub fn check(&self) -> Result<(), Fault> {
        use PointName::{ArmPivot, Ground, LowerInner, LowerOuter, Wheel};
        let (pivot, joint) = match self {
            Construction::TwoArms(a) => {
                a.check()?;
                ((LowerInner, a.lower_inner), (LowerOuter, a.lower_outer))
            }
            Construction::Strut(s) => {
                s.check()?;
                ((LowerInner, s.lower_inner), (LowerOuter, s.lower_outer))
            }
            Construction::TrailingArm(t) => {
                apart((ArmPivot, t.pivot), (Wheel, t.wheel))?;
                above((Ground, t.ground), (Wheel, t.wheel))?;
                ((ArmPivot, t.pivot), (Wheel, t.wheel))
            }
        };
        let length = (joint.1 - pivot.1).size();
        let lifts = self.pose(0.0).is_some_and(|p| p.wheel.d.up_m.abs() >= LIFTS * length);
        if lifts { Ok(()) } else { Err(Fault::NoLift(pivot.0, joint.0)) }
    }
}

impl TwoArms {
    fn check(&self) -> Result<(), Fault> {
        use PointName::{Ground, LowerInner, LowerOuter, UpperInner, UpperOuter, Wheel};
        let (a, b) = ((UpperInner, self.upper_inner), (UpperOuter, self.upper_outer));
        let (c, d) = ((LowerInner, self.lower_inner), (LowerOuter, self.lower_outer));
        on_its_side(&[b, d, (Wheel, self.wheel), (Ground, self.ground)])?;
        apart(a, b)?;
        apart(c, d)?;
        apart(b, d)?;
        outside(a, b)?;
        outside(c, d)?;
        above(d, b)?;
        above((Ground, self.ground), (Wheel, self.wheel))?;
        let (arm, upright) = (self.upper_outer - self.upper_inner, self.upper_outer - self.lower_outer);
        let sine = arm.cross(upright) / (arm.size() * upright.size());
        if sine.abs() < IN_LINE { Err(Fault::InLine(UpperInner, LowerOuter)) } else { Ok(()) }
    }

    /// B is where the circles about A and D meet, on the side on which it is at the reference height. Source `DERIVED`;
    /// checked by Newton's steps on the constraints, and by a planar-mechanism library.
    fn pose(&self, angle: f64) -> Option<Pose> {
        let (a, d0) = (self.upper_inner, self.lower_outer);
        let lower = Body::about(self.lower_inner, angle);
        let d = lower.carry(d0);
        let (arm, upright) = ((self.upper_outer - a).size(), (self.upper_outer - d0).size());
        let branch = (d0 - a).cross(self.upper_outer - a).signum();
        let way = d.at - a;
        let apart = way.size();
        let along = (arm * arm - upright * upright + apart * apart) / (2.0 * apart);
        let off = (arm * arm - along * along).max(0.0).sqrt();
        if apart <= 0.0 || off < IN_LINE * arm.min(upright) * 0.1 {
            return None;
        }
        let b = a + (way * along + way.square() * (branch * off)) * (1.0 / apart);
        // (B − A)·Ḃ = 0 and (B − D)·(Ḃ − Ḋ) = 0, then once more.
        let (p, q) = (b - a, b - d.at);
        let det = p.cross(q);
        let solve = |s: f64, t: f64| Point::at(s * q.up_m - t * p.up_m, t * p.out_m - s * q.out_m) * (1.0 / det);
        let b_d = solve(0.0, q.dot(d.d));
        let turning = b_d - d.d;
        let b_dd = solve(-b_d.dot(b_d), q.dot(d.dd) - turning.dot(turning));
        let (q0, p0) = (self.upper_outer - d0, self.upper_outer - a);
        let size = |v: Point| v.dot(v);
        let upright = Body {
            carried: d,
            carried_at_reference: d0,
            turn: (q0.cross(q) / size(q0), q0.dot(q) / size(q0)),
            d_turn: q.cross(turning) / size(q),
            dd_turn: q.cross(b_dd - d.dd) / size(q),
        };
        let upper = Body {
            carried: Moving::fixed(a),
            carried_at_reference: a,
            turn: (p0.cross(p) / size(p0), p0.dot(p) / size(p0)),
            d_turn: p.cross(b_d) / size(p),
            dd_turn: p.cross(b_dd) / size(p),
        };
        Some(Pose::of(lower, Some(upper), upright, self.wheel, self.ground))
    }
}

impl Strut {
    fn check(&self) -> Result<(), Fault> {
        use PointName::{Ground, LowerInner, LowerOuter, StrutAxis, StrutTop, Wheel};
        let (t, p) = ((StrutTop, self.top), (StrutAxis, self.axis));
        let (c, d) = ((LowerInner, self.lower_inner), (LowerOuter, self.lower_outer));
        on_its_side(&[t, p, d, (Wheel, self.wheel), (Ground, self.ground)])?;
        apart(t, p)?;
        apart(c, d)?;
        apart(t, d)?;
        outside(c, d)?;
        above(p, t)?;
        above(d, t)?;
        above((Ground, self.ground), (Wheel, self.wheel))?;
        let (way, axis) = (self.top - self.lower_outer, self.top - self.axis);
        let cosine = way.dot(axis) / (way.size() * axis.size());
        if cosine < IN_LINE { Err(Fault::InLine(StrutTop, LowerOuter)) } else { Ok(()) }
    }

    /// D turns about C; the upright turns so that the strut's axis, fixed in it, keeps passing through T: the distance of
    /// D from that axis stays, (T − D) × u = const. Source `DERIVED`; checked as [`TwoArms::pose`].
    fn pose(&self, angle: f64) -> Option<Pose> {
        let d0 = self.lower_outer;
        let lower = Body::about(self.lower_inner, angle);
        let d = lower.carry(d0);
        let axis = self.top - self.axis;
        let u0 = axis * (1.0 / axis.size());
        let off = (self.top - d0).cross(u0);
        let way = self.top - d.at;
        let apart = way.size();
        let sine = off / apart;
        // The foot of the square from T's circle: beyond it the axis cannot reach T.
        if apart <= 0.0 || sine.abs() >= 1.0 - 1e-9 {
            return None;
        }
        let cosine = (1.0 - sine * sine).sqrt();
        let u = (way * cosine + way.square() * sine) * (1.0 / apart);
        let along = way.dot(u);
        let d_turn = d.d.cross(u) / along;
        let dd_turn = (d.dd.cross(u) + 2.0 * d_turn * d.d.dot(u) + d_turn * d_turn * off) / along;
        let turn = (u0.cross(u), u0.dot(u));
        let upright = Body { carried: d, carried_at_reference: d0, turn, d_turn, dd_turn };
        Some(Pose::of(lower, None, upright, self.wheel, self.ground))
    }
}

type Named = (PointName, Point);

fn apart(a: Named, b: Named) -> Result<(), Fault> {
    if (b.1 - a.1).size() < APART_M { Err(Fault::NoLength(a.0, b.0)) } else { Ok(()) }
}

fn outside(inner: Named, outer: Named) -> Result<(), Fault> {
    if outer.1.out_m <= inner.1.out_m { Err(Fault::Swapped(inner.0, outer.0)) } else { Ok(()) }
}

fn above(low: Named, high: Named) -> Result<(), Fault> {
    if high.1.up_m <= low.1.up_m { Err(Fault::UpsideDown(low.0, high.0)) } else { Ok(()) }
}

fn on_its_side(points: &[Named]) -> Result<(), Fault> {
    points.iter().find(|p| p.1.out_m <= 0.0).map_or(Ok(()), |p| Err(Fault::OtherSide(p.0)))
}
