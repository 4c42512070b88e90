//! What keeps points from being a linkage, in words.

use thiserror::Error;

use super::PointName;
use crate::base::language::tr;
use crate::say;

/// Why points cannot be a linkage at the reference height: each names the points to measure again.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Error)]
pub enum Fault {
    /// Two points that must be apart are one.
    #[error("{}", no_length(*.0, *.1))]
    NoLength(PointName, PointName),
    /// The inner point is further out than the outer one.
    #[error("{}", swapped(*.0, *.1))]
    Swapped(PointName, PointName),
    /// The lower point is above the upper one.
    #[error("{}", upside_down(*.0, *.1))]
    UpsideDown(PointName, PointName),
    /// A point that must be outside the centreline is not.
    #[error("{}", other_side(*.0))]
    OtherSide(PointName),
    /// Upper arm and upright, or strut and lower arm, are in line: the linkage is locked as it is.
    #[error("{}", in_line(*.0, *.1))]
    InLine(PointName, PointName),
    /// Turning the arm does not lift the wheel.
    #[error("{}", no_lift(*.0, *.1))]
    NoLift(PointName, PointName),
    /// The spring or damper gets longer in bump, or does not move.
    #[error("{}", gets_longer(*.0, *.1))]
    GetsLonger(PointName, PointName),
    /// What carries the foot is no part of this construction.
    #[error("{}", tr("this suspension does not have the part chosen for the lower end: choose another"))]
    NoSuchPart(PointName),
    /// An arm's length or angle leaves no motion ratio.
    #[error(
        "{}",
        tr(
            "an arm with these lengths and angles does not move the spring: angles must be below 90° and lengths above zero"
        )
    )]
    NoArm,
}

impl Fault {
    /// The points to measure again.
    pub fn points(self) -> [Option<PointName>; 2] {
        match self {
            Fault::NoLength(a, b)
            | Fault::Swapped(a, b)
            | Fault::UpsideDown(a, b)
            | Fault::InLine(a, b)
            | Fault::NoLift(a, b)
            | Fault::GetsLonger(a, b) => [Some(a), Some(b)],
            Fault::OtherSide(a) | Fault::NoSuchPart(a) => [Some(a), None],
            Fault::NoArm => [None, None],
        }
    }
}

/// "B (upper arm, outer joint)".
fn full(point: PointName) -> String {
    format!("{} ({})", point.letter(), point.words())
}

fn no_length(a: PointName, b: PointName) -> String {
    say!("{a} and {b} are the same point: measure both again", a = full(a), b = full(b))
}

fn swapped(inner: PointName, outer: PointName) -> String {
    say!(
        "{inner} is farther from the centreline than {outer}: the two are swapped, or measured from the wrong side",
        inner = full(inner),
        outer = full(outer)
    )
}

fn upside_down(low: PointName, high: PointName) -> String {
    say!("{low} is higher than {high}: the two are swapped", low = full(low), high = full(high))
}

fn other_side(point: PointName) -> String {
    say!(
        "{point} is not outboard of the centreline: measure all points of one side, outward from the centreline, as positive numbers",
        point = full(point)
    )
}

fn in_line(a: PointName, b: PointName) -> String {
    say!(
        "with {a} and {b} in these positions, the linkage is locked: measure both points again",
        a = full(a),
        b = full(b)
    )
}

fn no_lift(pivot: PointName, joint: PointName) -> String {
    say!(
        "an arm from {pivot} to {joint} does not lift the wheel: measure both again",
        pivot = full(pivot),
        joint = full(joint)
    )
}

fn gets_longer(top: PointName, foot: PointName) -> String {
    say!(
        "between {top} and {foot} the spring or damper does not get shorter in bump: the two points are swapped, or the wrong part is chosen for the lower end",
        top = full(top),
        foot = full(foot)
    )
}
