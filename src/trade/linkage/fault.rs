//! What keeps points from being a linkage, in words.

use std::fmt;

use thiserror::Error;

use super::PointName;
use crate::base::message::Message;
use crate::message;

/// Why points cannot be a linkage at the reference height: each names the points to measure again.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Error)]
pub enum Fault {
    /// Two points that must be apart are one.
    NoLength(PointName, PointName),
    /// The inner point is further out than the outer one.
    Swapped(PointName, PointName),
    /// The lower point is above the upper one.
    UpsideDown(PointName, PointName),
    /// A point that must be outside the centreline is not.
    OtherSide(PointName),
    /// Upper arm and upright, or strut and lower arm, are in line: the linkage is locked as it is.
    InLine(PointName, PointName),
    /// Turning the arm does not lift the wheel.
    NoLift(PointName, PointName),
    /// The spring or damper gets longer in bump, or does not move.
    GetsLonger(PointName, PointName),
    /// What carries the foot is no part of this construction.
    NoSuchPart(PointName),
    /// An arm's length or angle leaves no motion ratio.
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

    /// What is wrong, and what to do.
    pub fn message(self) -> Message {
        match self {
            Fault::NoLength(a, b) => no_length(a, b),
            Fault::Swapped(inner, outer) => swapped(inner, outer),
            Fault::UpsideDown(low, high) => upside_down(low, high),
            Fault::OtherSide(point) => other_side(point),
            Fault::InLine(a, b) => in_line(a, b),
            Fault::NoLift(pivot, joint) => no_lift(pivot, joint),
            Fault::GetsLonger(top, foot) => gets_longer(top, foot),
            Fault::NoSuchPart(_) => {
                message!("this suspension does not have the part chosen for the lower end: choose another")
            }
            Fault::NoArm => message!(
                "an arm with these lengths and angles does not move the spring: angles must be below 90° and lengths above zero"
            ),
        }
    }
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.message().fmt(f)
    }
}

/// "B (upper arm, outer joint)".
fn full(point: PointName) -> Message {
    let [letter, open, close] = [point.letter(), " (", ")"].map(Message::Symbol);
    Message::row([letter, open, point.words().into(), close], "")
}

fn no_length(a: PointName, b: PointName) -> Message {
    message!("{a} and {b} are the same point: measure both again", a = full(a), b = full(b))
}

fn swapped(inner: PointName, outer: PointName) -> Message {
    message!(
        "{inner} is farther from the centreline than {outer}: the two are swapped, or measured from the wrong side",
        inner = full(inner),
        outer = full(outer)
    )
}

fn upside_down(low: PointName, high: PointName) -> Message {
    message!("{low} is higher than {high}: the two are swapped", low = full(low), high = full(high))
}

fn other_side(point: PointName) -> Message {
    message!(
        "{point} is not outboard of the centreline: measure all points of one side, outward from the centreline, as positive numbers",
        point = full(point)
    )
}

fn in_line(a: PointName, b: PointName) -> Message {
    message!(
        "with {a} and {b} in these positions, the linkage is locked: measure both points again",
        a = full(a),
        b = full(b)
    )
}

fn no_lift(pivot: PointName, joint: PointName) -> Message {
    message!(
        "an arm from {pivot} to {joint} does not lift the wheel: measure both again",
        pivot = full(pivot),
        joint = full(joint)
    )
}

fn gets_longer(top: PointName, foot: PointName) -> Message {
    message!(
        "between {top} and {foot} the spring or damper does not get shorter in bump: the two points are swapped, or the wrong part is chosen for the lower end",
        top = full(top),
        foot = full(foot)
    )
}
