//! A picture on a sheet, as data: shapes in millimetres that every writer can draw.
//!
//! Everything is black, grey or white, so that it survives any print.

use crate::job::SpringKind;
use crate::solve::answer::State;

/// A drawing of a stated size; x to the right, y down, both in millimetres from the upper left corner.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Drawing {
    /// Width, mm.
    pub width_mm: f32,
    /// Height, mm.
    pub height_mm: f32,
    /// What it shows, in words: for text writers and screen readers.
    pub words: String,
    /// What is drawn, from the back to the front.
    pub shapes: Vec<Shape>,
}

/// A place in a drawing: right and down, mm.
pub type Place = [f32; 2];

/// How a line is drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Stroke {
    /// A full line.
    Full,
    /// A full line twice as wide.
    Heavy,
    /// A full line half as wide.
    Thin,
    /// The same in dashes.
    ThinDashed,
    /// Dashes.
    Dashed,
    /// Dots.
    Dotted,
}

/// How an area is filled.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Fill {
    /// Nothing but its outline.
    None,
    /// White.
    White,
    /// Light grey.
    Light,
    /// A grey on which black can be read.
    Middle,
    /// Dark grey.
    Dark,
    /// Black.
    Black,
}

/// To which side of its place a text is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Anchor {
    /// The text begins there.
    Start,
    /// The text is centred there.
    Middle,
    /// The text ends there.
    End,
}

/// One shape.
#[derive(Debug, Clone, PartialEq)]
pub enum Shape {
    /// A line through places.
    Line {
        /// The places in order.
        through: Vec<Place>,
        /// How it is drawn.
        stroke: Stroke,
    },
    /// A closed area with an outline.
    Area {
        /// Its corners in order.
        corners: Vec<Place>,
        /// How it is filled.
        fill: Fill,
        /// How its outline is drawn.
        stroke: Stroke,
    },
    /// A circle.
    Circle {
        /// Its centre.
        centre: Place,
        /// Its radius, mm.
        radius_mm: f32,
        /// How it is filled.
        fill: Fill,
        /// How its outline is drawn.
        stroke: Stroke,
    },
    /// A line of text; its base line runs through the place.
    Words {
        /// Where.
        at: Place,
        /// Height of the type, mm (1 mm ≈ 2.83 points).
        size_mm: f32,
        /// To which side of the place.
        anchor: Anchor,
        /// In bold.
        bold: bool,
        /// What it says.
        text: String,
    },
    /// What belongs to a state: in its colour where there are colours.
    OfState(State, Vec<Shape>),
}

impl Drawing {
    /// Every shape, those of states among them.
    pub fn flat(&self) -> Vec<&Shape> {
        fn each(shape: &Shape) -> Vec<&Shape> {
            match shape {
                Shape::OfState(_, shapes) => shapes.iter().flat_map(each).collect(),
                other => vec![other],
            }
        }
        self.shapes.iter().flat_map(each).collect()
    }

    /// Drawings side by side, from the left, this far apart; as high as the highest.
    pub fn side_by_side(drawings: Vec<Drawing>, gap_mm: f32) -> Drawing {
        let mut all = Drawing { width_mm: 0.0, height_mm: 0.0, words: String::new(), shapes: Vec::new() };
        for drawing in drawings {
            if all.width_mm > 0.0 {
                all.width_mm += gap_mm;
                all.words.push(' ');
            }
            let right_mm = all.width_mm;
            all.shapes.extend(drawing.shapes.into_iter().map(|shape| shape.moved(right_mm)));
            all.words.push_str(&drawing.words);
            all.width_mm += drawing.width_mm;
            all.height_mm = all.height_mm.max(drawing.height_mm);
        }
        all
    }
}

impl Shape {
    /// A line through these places.
    pub fn line(through: impl Into<Vec<Place>>, stroke: Stroke) -> Shape {
        Shape::Line { through: through.into(), stroke }
    }

    /// A box from its upper left to its lower right corner.
    pub fn rect([left, top]: Place, [right, bottom]: Place, fill: Fill, stroke: Stroke) -> Shape {
        let corners = vec![[left, top], [right, top], [right, bottom], [left, bottom]];
        Shape::Area { corners, fill, stroke }
    }

    /// The same further to the right.
    fn moved(mut self, right_mm: f32) -> Shape {
        match &mut self {
            Shape::Line { through: places, .. } | Shape::Area { corners: places, .. } => {
                places.iter_mut().for_each(|place| place[0] += right_mm);
            }
            Shape::Circle { centre: place, .. } | Shape::Words { at: place, .. } => place[0] += right_mm,
            Shape::OfState(_, shapes) => {
                *shapes = std::mem::take(shapes).into_iter().map(|shape| shape.moved(right_mm)).collect();
            }
        }
        self
    }
}

/// The mark of a state: open circle, open square, full diamond.
pub fn mark(state: State, [x, y]: Place, radius_mm: f32) -> Shape {
    match state {
        State::Before => Shape::Circle { centre: [x, y], radius_mm, fill: Fill::White, stroke: Stroke::Heavy },
        State::OldSprings => {
            let r = 0.9 * radius_mm;
            Shape::rect([x - r, y - r], [x + r, y + r], Fill::White, Stroke::Heavy)
        }
        State::NewSprings => {
            let r = 1.25 * radius_mm;
            let corners = vec![[x, y - r], [x + r, y], [x, y + r], [x - r, y]];
            Shape::Area { corners, fill: Fill::Black, stroke: Stroke::Full }
        }
    }
}

/// The mark of a plan that is not chosen.
pub fn plan_mark(mark: PlanMark, [x, y]: Place, radius_mm: f32) -> Vec<Shape> {
    let (wide, high) = (1.1 * radius_mm, 0.95 * radius_mm);
    let triangle = |up: f32| {
        let corners = vec![[x - wide, y + up * high], [x + wide, y + up * high], [x, y - up * high]];
        vec![Shape::Area { corners, fill: Fill::White, stroke: Stroke::Full }]
    };
    match mark {
        PlanMark::Up => triangle(1.0),
        PlanMark::Down => triangle(-1.0),
        PlanMark::Star => [0.0_f32, 60.0, 120.0]
            .map(|degrees| {
                let (sin, cos) = degrees.to_radians().sin_cos();
                let [dx, dy] = [radius_mm * cos, radius_mm * sin];
                Shape::line([[x - dx, y - dy], [x + dx, y + dy]], Stroke::Full)
            })
            .to_vec(),
    }
}

/// The stroke of a state: dotted, dashed, full.
pub fn stroke(state: State) -> Stroke {
    match state {
        State::Before => Stroke::Dotted,
        State::OldSprings => Stroke::Dashed,
        State::NewSprings => Stroke::Full,
    }
}

/// A spring, by its kind, as lines from the body's lower face at `top` to the axle's upper face at `bottom`; a coil is this wide, a leaf and the
/// arm of a torsion bar are wider. A coil has six turns, whatever its length.
pub fn spring_line(kind: SpringKind, [left, right]: [f32; 2], [top, bottom]: [f32; 2]) -> Vec<Vec<[f32; 2]>> {
    let (wide, high) = (right - left, bottom - top);
    let middle = 0.5 * (left + right);
    match kind {
        SpringKind::Leaf => {
            let arch = (0.6 * wide).min(high);
            let leaf = |half: f32, lift: f32| {
                let bow = |i: u8| {
                    let across = half * (f32::from(i) / 8.0 - 1.0);
                    [middle + across * wide, bottom - lift - (arch - lift) * across.powi(2)]
                };
                (0..=16).map(bow).collect()
            };
            // Hung from the body by its eyes; the short leaf is at the axle.
            let hanger = |x: f32| vec![[x, top], [x, bottom - arch]];
            vec![leaf(1.0, 0.12 * wide), leaf(0.5, 0.0), hanger(middle - wide), hanger(middle + wide)]
        }
        SpringKind::TorsionBar => {
            let radius = 0.18 * wide;
            let centre = [left + radius, top + radius];
            let ring = |i: u8| {
                let (sin, cos) = (f32::from(i) / 12.0 * std::f32::consts::TAU).sin_cos();
                [centre[0] + radius * cos, centre[1] + radius * sin]
            };
            vec![(0..=12).map(ring).collect(), vec![centre, [right + 0.3 * wide, bottom]]]
        }
        SpringKind::Coil | SpringKind::WithHelper | SpringKind::Progressive => {
            let turn = |i: u8| [if i.is_multiple_of(2) { left } else { right }, top + f32::from(i) / 12.0 * high];
            vec![(0..=12).map(turn).collect()]
        }
    }
}

/// The mark of a plan that is not chosen: none of the shapes of the three states.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PlanMark {
    /// An open triangle, its tip up.
    Up,
    /// An open triangle, its tip down.
    Down,
    /// A star of three lines.
    Star,
}
