//! Outlines of vehicles from the side: simple ones, of no make and to no scale, the nose to the left.

use crate::job::{BodyShape, PerAxle, Side};
use crate::report::pictures::drawing::{Fill, Place, Shape, Stroke};

/// An outline on a field of 100 by [`Outline::HIGH`]: its body, its windows, and where its wheels stand.
#[derive(Debug, PartialEq)]
pub struct Outline {
    /// The parts of the body, each from its lower left corner over its upper edge to the lower right one.
    pub body: &'static [&'static [Place]],
    /// Its windows, without a corner that turns inwards.
    pub windows: &'static [&'static [Place]],
    /// The middles of the wheels, from the left.
    pub wheels: PerAxle<f32>,
}

impl Outline {
    /// From the top of the field down to the ground.
    pub const HIGH: f32 = 51.5;
    /// Of the wheels.
    pub const RADIUS: f32 = 8.5;
}

/// The places of numbers in a row.
const fn at(flat: &'static [f32]) -> &'static [Place] {
    flat.as_chunks().0
}

static CAR: Outline = Outline {
    body: &[at(&[
        2.0, 43.0, 2.0, 34.0, 6.0, 30.0, 28.0, 26.0, 41.0, 14.0, 66.0, 14.0, 80.0, 26.0, 96.0, 29.0, 98.0, 33.0, 98.0,
        43.0,
    ])],
    windows: &[
        at(&[33.0, 25.5, 42.0, 16.5, 53.0, 16.5, 53.0, 25.5]),
        at(&[56.0, 25.5, 56.0, 16.5, 65.0, 16.5, 75.0, 25.5]),
    ],
    wheels: PerAxle { front: 20.0, rear: 79.0 },
};

static VAN: Outline = Outline {
    body: &[at(&[2.0, 43.0, 2.0, 30.0, 5.0, 25.0, 15.0, 21.0, 25.0, 5.0, 29.0, 3.0, 96.0, 3.0, 98.0, 6.0, 98.0, 43.0])],
    windows: &[at(&[19.0, 21.0, 27.0, 8.0, 38.0, 8.0, 38.0, 21.0])],
    wheels: PerAxle { front: 18.0, rear: 79.0 },
};

static PICK_UP: Outline = Outline {
    body: &[at(&[
        2.0, 43.0, 2.0, 30.0, 5.0, 26.0, 27.0, 23.0, 37.0, 9.0, 57.0, 9.0, 59.0, 12.0, 59.0, 25.0, 98.0, 25.0, 98.0,
        43.0,
    ])],
    windows: &[at(&[32.0, 23.0, 39.5, 12.0, 54.5, 12.0, 54.5, 23.0])],
    wheels: PerAxle { front: 20.0, rear: 81.0 },
};

static TRUCK: Outline = Outline {
    body: &[
        at(&[24.0, 43.0, 24.0, 38.0, 98.0, 38.0, 98.0, 43.0]),
        at(&[2.0, 43.0, 2.0, 24.0, 5.0, 9.0, 8.0, 7.0, 25.0, 7.0, 25.0, 43.0]),
        at(&[28.0, 38.0, 28.0, 1.0, 98.0, 1.0, 98.0, 38.0]),
    ],
    windows: &[at(&[5.0, 23.0, 7.5, 11.0, 19.0, 11.0, 19.0, 23.0])],
    wheels: PerAxle { front: 16.0, rear: 76.0 },
};

/// Two wheels and what lies between them: it could be any of the others.
static ANY: Outline = Outline {
    body: &[at(&[3.0, 43.0, 3.0, 30.0, 8.0, 24.0, 20.0, 22.0, 28.0, 20.0, 92.0, 20.0, 97.0, 25.0, 97.0, 43.0])],
    windows: &[],
    wheels: PerAxle { front: 20.0, rear: 79.0 },
};

/// The outline of such a body.
pub(super) fn outline(shape: BodyShape) -> &'static Outline {
    match shape {
        BodyShape::NotSaid => &ANY,
        BodyShape::Car => &CAR,
        BodyShape::Van => &VAN,
        BodyShape::PickUp => &PICK_UP,
        BodyShape::Truck => &TRUCK,
    }
}

/// The outline of a vehicle this wide, mm, its field's upper left corner `at`; the wheels of `ringed` are shown
/// enlarged next to it.
pub(super) fn draw(shapes: &mut Vec<Shape>, shape: BodyShape, at: Place, width_mm: f32, ringed: &[Side]) {
    let unit = width_mm / 100.0;
    let place = |[x, y]: Place| [at[0] + x * unit, at[1] + y * unit];
    let area = |corners: &[Place], fill| Shape::Area {
        corners: corners.iter().map(|p| place(*p)).collect(),
        fill,
        stroke: Stroke::Full,
    };
    let Outline { body, windows, wheels } = outline(shape);
    shapes.extend(body.iter().map(|corners| area(corners, Fill::Light)));
    shapes.extend(windows.iter().map(|corners| area(corners, Fill::White)));
    for (side, x) in Side::BOTH.into_iter().zip(wheels) {
        let circle = |radius: f32, fill, stroke| Shape::Circle {
            centre: place([*x, Outline::HIGH - Outline::RADIUS]),
            radius_mm: radius * unit,
            fill,
            stroke,
        };
        shapes.push(circle(Outline::RADIUS, Fill::Dark, Stroke::Full));
        shapes.push(circle(0.47 * Outline::RADIUS, Fill::White, Stroke::Full));
        if ringed.contains(&side) {
            shapes.push(circle(1.5 * Outline::RADIUS, Fill::None, Stroke::Heavy));
        }
    }
    shapes.push(Shape::line([[0.0, Outline::HIGH], [100.0, Outline::HIGH]].map(place), Stroke::Full));
}
