//! Outlines of vehicles from the side: simple ones, of no make and to no scale, the nose to the left.

use crate::report::pictures::drawing::Place;

/// An outline on a field of 100 by [`Outline::HIGH`]: its body, its windows, and where its wheels stand.
#[derive(Debug, PartialEq)]
pub struct Outline {
    /// The parts of the body, each from its lower left corner over its upper edge to the lower right one.
    pub body: &'static [&'static [Place]],
    /// Its windows, without a corner that turns inwards.
    pub windows: &'static [&'static [Place]],
    /// The middles of the front and of the rear wheel, from the left.
    pub wheels: [f32; 2],
}

impl Outline {
    /// From the top of the field down to the ground.
    pub const HIGH: f32 = 51.5;
    /// Of the wheels.
    pub const RADIUS: f32 = 8.5;
}

static ANY: Outline = Outline {
    body: &[&[
        [3.0, 43.0],
        [3.0, 30.0],
        [8.0, 24.0],
        [20.0, 22.0],
        [28.0, 20.0],
        [92.0, 20.0],
        [97.0, 25.0],
        [97.0, 43.0],
    ]],
    windows: &[],
    wheels: [20.0, 79.0],
};

pub(super) fn outline() -> &'static Outline {
    &ANY
}
