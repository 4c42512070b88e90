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

/// To which side of its place a text stands.
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
