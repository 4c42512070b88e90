//! A picture on a sheet, as data: shapes in millimetres that every writer can draw.
//!
//! Everything is black, grey or white, so that it survives any print.

/// A drawing of a stated size; x to the right, y down, both in millimetres from the upper left corner.
#[derive(Debug, Clone, PartialEq)]
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
}

impl Drawing {
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
    /// The same further to the right.
    fn moved(mut self, right_mm: f32) -> Shape {
        match &mut self {
            Shape::Line { through: places, .. } | Shape::Area { corners: places, .. } => {
                places.iter_mut().for_each(|place| place[0] += right_mm);
            }
            Shape::Circle { centre: place, .. } | Shape::Words { at: place, .. } => place[0] += right_mm,
        }
        self
    }
}
