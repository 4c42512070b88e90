//! Shapes of a drawing as items of a page.

use super::setting::{Setter, Type};
use super::{Item, PT_PER_MM, Part, Pen, Placed};
use crate::report::pictures::drawing::{Anchor, Drawing, Fill, Shape, Stroke};

/// Width of a full line, points.
const LINE_PT: f32 = 0.8;

/// A drawing at this scale, its upper left corner there. All of it is one part: its words describe it.
pub(super) fn items(
    drawing: &Drawing,
    scale: f32,
    corner: [f32; 2],
    part: Part,
    setter: &mut Setter<'_>,
) -> Vec<Placed> {
    let k = scale * PT_PER_MM;
    let place = |at: &[f32; 2]| [corner[0] + k * at[0], corner[1] + k * at[1]];
    let mut items = Vec::new();
    for shape in drawing.flat() {
        match shape {
            // Paper has no colours.
            Shape::OfState(..) => {}
            Shape::Line { through, stroke } => {
                let through = through.iter().map(place).collect();
                items.push(Item::Path { through, is_closed: false, fill: None, pen: Some(pen(*stroke)) });
            }
            Shape::Area { corners, fill, stroke } => {
                let through = corners.iter().map(place).collect();
                items.push(Item::Path { through, is_closed: true, fill: grey(*fill), pen: Some(pen(*stroke)) });
            }
            Shape::Circle { centre, radius_mm, fill, stroke } => {
                let through = round(place(centre), k * radius_mm);
                items.push(Item::Path { through, is_closed: true, fill: grey(*fill), pen: Some(pen(*stroke)) });
            }
            Shape::Words { at, size_mm, anchor, bold, text } => {
                let style = Type { size_pt: k * size_mm, bold: *bold };
                let whole = k * drawing.width_mm;
                let line = setter.cut_to(text, style, whole);
                let [x, y] = place(at);
                let left = match anchor {
                    Anchor::Start => x,
                    Anchor::Middle => x - 0.5 * line.width_pt,
                    Anchor::End => x - line.width_pt,
                };
                // Words stay on their drawing, whatever they say.
                let left = left.min(corner[0] + whole - line.width_pt).max(corner[0]);
                items.extend(line.runs.into_iter().map(|(dx, run)| Item::Text { at: [left + dx, y], run }));
            }
        }
    }
    items.into_iter().map(|item| Placed { item, part }).collect()
}

fn pen(stroke: Stroke) -> Pen {
    let full = Pen { width_pt: LINE_PT, grey: 0.0, dash: None };
    match stroke {
        Stroke::Full => full,
        Stroke::Heavy => Pen { width_pt: 2.0 * LINE_PT, ..full },
        Stroke::Thin => Pen { width_pt: 0.5 * LINE_PT, ..full },
        Stroke::ThinDashed => Pen { dash: Some([4.5, 2.5]), ..pen(Stroke::Thin) },
        Stroke::Dashed => Pen { dash: Some([4.5, 2.5]), ..full },
        Stroke::Dotted => Pen { dash: Some([1.0, 2.0]), ..full },
    }
}

fn grey(fill: Fill) -> Option<f32> {
    match fill {
        Fill::None => None,
        Fill::White => Some(1.0),
        Fill::Light => Some(0.86),
        Fill::Middle => Some(0.68),
        Fill::Dark => Some(0.4),
        Fill::Black => Some(0.0),
    }
}

/// A circle through enough points.
pub(super) fn round(centre: [f32; 2], radius: f32) -> Vec<[f32; 2]> {
    const POINTS: usize = 40;
    let at = |i: usize| std::f32::consts::TAU * i as f32 / POINTS as f32;
    (0..POINTS).map(|i| [centre[0] + radius * at(i).cos(), centre[1] + radius * at(i).sin()]).collect()
}
