//! Points of a plane and rigid bodies in it, with their first and second derivatives by the angle that drives them.

use std::ops::{Add, Mul, Sub};

use crate::base::units::{Length, Quantity};

/// A point, or the way from one to another, m: outward from the centreline (to the rear for a trailing arm), and up.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Point {
    /// Outward from the centreline, or to the rear, m.
    pub out_m: f64,
    /// Up from the floor, m.
    pub up_m: f64,
}

impl Point {
    /// From two readings of a tape.
    pub fn new(out: Length, up: Length) -> Self {
        Point { out_m: out.si(), up_m: up.si() }
    }

    /// From metres.
    pub const fn at(out_m: f64, up_m: f64) -> Self {
        Point { out_m, up_m }
    }

    /// How far it is from the origin, m.
    pub fn size(self) -> f64 {
        self.out_m.hypot(self.up_m)
    }

    pub(super) fn dot(self, other: Point) -> f64 {
        self.out_m * other.out_m + self.up_m * other.up_m
    }

    /// Above zero where `other` points to the left of this.
    pub(super) fn cross(self, other: Point) -> f64 {
        self.out_m * other.up_m - self.up_m * other.out_m
    }

    /// A quarter turn to the left.
    pub(super) fn square(self) -> Point {
        Point { out_m: -self.up_m, up_m: self.out_m }
    }

    pub(super) fn turned(self, (sin, cos): (f64, f64)) -> Point {
        Point { out_m: self.out_m * cos - self.up_m * sin, up_m: self.out_m * sin + self.up_m * cos }
    }
}

impl Add for Point {
    type Output = Point;

    fn add(self, other: Point) -> Point {
        Point { out_m: self.out_m + other.out_m, up_m: self.up_m + other.up_m }
    }
}

impl Sub for Point {
    type Output = Point;

    fn sub(self, other: Point) -> Point {
        Point { out_m: self.out_m - other.out_m, up_m: self.up_m - other.up_m }
    }
}

impl Mul<f64> for Point {
    type Output = Point;

    fn mul(self, by: f64) -> Point {
        Point { out_m: self.out_m * by, up_m: self.up_m * by }
    }
}

/// Where a point is, and its first and second derivative by the driving angle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Moving {
    pub at: Point,
    pub d: Point,
    pub dd: Point,
}

impl Moving {
    pub fn fixed(at: Point) -> Self {
        Moving { at, d: Point::default(), dd: Point::default() }
    }

    /// The distance from a fixed point, m, and its two derivatives. `None` where both are one.
    pub fn distance_from(&self, fixed: Point) -> Option<[f64; 3]> {
        let way = self.at - fixed;
        let length = way.size();
        let d = way.dot(self.d) / length;
        let dd = (self.d.dot(self.d) + way.dot(self.dd) - d * d) / length;
        (length > 0.0).then_some([length, d, dd])
    }
}

/// A rigid body: a point of it that moves, and how far it has turned to the left since the reference height.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Body {
    pub carried: Moving,
    /// Where that point is at the reference height.
    pub carried_at_reference: Point,
    /// Sine and cosine of the turn.
    pub turn: (f64, f64),
    pub d_turn: f64,
    pub dd_turn: f64,
}

impl Body {
    /// One that turns about a fixed pivot by the driving angle itself.
    pub fn about(pivot: Point, angle: f64) -> Self {
        Body {
            carried: Moving::fixed(pivot),
            carried_at_reference: pivot,
            turn: angle.sin_cos(),
            d_turn: 1.0,
            dd_turn: 0.0,
        }
    }

    /// A point of the body by its place at the reference height.
    pub fn carry(&self, at_reference: Point) -> Moving {
        let arm = (at_reference - self.carried_at_reference).turned(self.turn);
        Moving {
            at: self.carried.at + arm,
            d: self.carried.d + arm.square() * self.d_turn,
            dd: self.carried.dd + arm.square() * self.dd_turn - arm * (self.d_turn * self.d_turn),
        }
    }

    /// How far it has turned to the left, rad.
    pub fn angle(&self) -> f64 {
        self.turn.0.atan2(self.turn.1)
    }
}
