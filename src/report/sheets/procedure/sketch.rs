//! What drawings of constructions are made of: springs, dampers, bodies, jacks, and labels with their lines.

use crate::report::pictures::drawing::{Anchor, Drawing, Fill, Place, Shape, Stroke};

/// Width and height of a drawing, mm.
const SIZE_MM: [f32; 2] = [170.0, 50.0];
/// Height of the type: 8.5 points at least, on the narrower paper.
const TYPE_MM: f32 = 3.05;
/// Where labels begin, from the left; between their lines, mm.
const LABELS_MM: f32 = 122.0;
const LABEL_STEP_MM: f32 = 5.2;
/// The floor on which jacks stand, from the top, mm.
pub(super) const FLOOR_MM: f32 = 48.5;

/// A drawing that grows.
#[derive(Default)]
pub(super) struct Sketch {
    shapes: Vec<Shape>,
    labels: Vec<(String, Place)>,
}

impl Sketch {
    /// A bar, link or rod.
    pub fn line(&mut self, through: &[Place], stroke: Stroke) {
        self.shapes.push(Shape::line(through, stroke));
    }

    /// A box from its upper left to its lower right corner.
    pub fn block(&mut self, min: Place, max: Place, fill: Fill) {
        self.shapes.push(Shape::rect(min, max, fill, Stroke::Full));
    }

    /// A joint, bar or wheel seen along its axis.
    pub fn round(&mut self, centre: Place, radius_mm: f32, fill: Fill, stroke: Stroke) {
        self.shapes.push(Shape::Circle { centre, radius_mm, fill, stroke });
    }

    /// A coil between two seats.
    pub fn coil(&mut self, from: Place, to: Place) {
        const TURNS: usize = 7;
        const HALF_MM: f32 = 4.5;
        let [dx, dy] = [to[0] - from[0], to[1] - from[1]];
        let long = dx.hypot(dy).max(1.0);
        let across = [-dy / long * HALF_MM, dx / long * HALF_MM];
        let at = |i: usize| {
            let (share, sign) = (i as f32 / (2 * TURNS) as f32, if i.is_multiple_of(2) { -1.0 } else { 1.0 });
            [from[0] + share * dx + sign * across[0], from[1] + share * dy + sign * across[1]]
        };
        self.line(&(0..=2 * TURNS).map(at).collect::<Vec<Place>>(), Stroke::Heavy);
    }

    /// A damper: its rod above, its body below.
    pub fn damper(&mut self, foot: Place, top: Place) {
        const HALF_MM: f32 = 1.6;
        let middle = [foot[0] + 0.55 * (top[0] - foot[0]), foot[1] + 0.55 * (top[1] - foot[1])];
        let [dx, dy] = [top[0] - foot[0], top[1] - foot[1]];
        let long = dx.hypot(dy).max(1.0);
        let across = [-dy / long * HALF_MM, dx / long * HALF_MM];
        let corner = |at: Place, sign: f32| [at[0] + sign * across[0], at[1] + sign * across[1]];
        let corners = vec![corner(foot, -1.0), corner(foot, 1.0), corner(middle, 1.0), corner(middle, -1.0)];
        self.line(&[middle, top], Stroke::Full);
        self.shapes.push(Shape::Area { corners, fill: Fill::Light, stroke: Stroke::Full });
    }

    /// A jack from the floor to what it carries.
    pub fn jack(&mut self, under: Place) {
        let [x, y] = under;
        // Saddle, ram and foot.
        let foot = FLOOR_MM - 3.6;
        self.block([x - 2.6, y], [x + 2.6, y + 1.2], Fill::Dark);
        self.block([x - 1.0, y + 1.2], [x + 1.0, foot], Fill::White);
        self.block([x - 3.4, foot], [x + 3.4, FLOOR_MM], Fill::Dark);
    }

    /// Words for what is at a place.
    pub fn label(&mut self, words: String, at: Place) {
        self.labels.push((words, at));
    }

    /// The drawing: labels one below the other at the right, in the order of their heights, each with a line to its
    /// place.
    pub fn finish(mut self, words: String) -> Drawing {
        let [width_mm, height_mm] = SIZE_MM;
        self.labels.sort_by(|a, b| a.1[1].total_cmp(&b.1[1]));
        let count = self.labels.len();
        let high = LABEL_STEP_MM * count.saturating_sub(1) as f32;
        let first = 0.5 * (height_mm - high) + 0.35 * TYPE_MM;
        let end = |i: usize| [LABELS_MM - 5.0, first + i as f32 * LABEL_STEP_MM - 0.35 * TYPE_MM];
        // Two lines that cross change places: both become shorter together, so this ends.
        let crossing = |labels: &[(String, Place)]| {
            let mut pairs = (0..count).flat_map(|i| (i + 1..count).map(move |j| (i, j)));
            pairs.find(|(i, j)| cross([labels[*i].1, end(*i)], [labels[*j].1, end(*j)]))
        };
        while let Some((i, j)) = crossing(&self.labels) {
            self.labels.swap(i, j);
        }
        for (i, (text, at)) in self.labels.into_iter().enumerate() {
            let y = first + i as f32 * LABEL_STEP_MM;
            self.shapes.push(Shape::line([at, end(i), [LABELS_MM - 1.2, y - 0.35 * TYPE_MM]], Stroke::Dotted));
            self.shapes.push(Shape::Circle { centre: at, radius_mm: 0.6, fill: Fill::Black, stroke: Stroke::Full });
            let at = [LABELS_MM, y];
            self.shapes.push(Shape::Words { at, size_mm: TYPE_MM, anchor: Anchor::Start, bold: false, text });
        }
        Drawing { width_mm, height_mm, words, shapes: self.shapes }
    }
}

/// Two lines have a point inside both in common.
fn cross([a, b]: [Place; 2], [c, d]: [Place; 2]) -> bool {
    let side = |[from, to]: [Place; 2], at: Place| {
        (to[0] - from[0]) * (at[1] - from[1]) - (to[1] - from[1]) * (at[0] - from[0])
    };
    side([a, b], c) * side([a, b], d) < 0.0 && side([c, d], a) * side([c, d], b) < 0.0
}
