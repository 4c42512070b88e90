//! The vehicle from the side, its nose to the left, on a level road or on its way over the hump.

use eframe::egui::epaint::Mesh;
use eframe::egui::{Pos2, Rect, Shape, Stroke, Ui, pos2};

use super::pose::Pose;
use crate::gui::state::Cx;
use crate::gui::state::presenting::Presenting;
use crate::gui::widgets::theme;
use crate::job::{PerAxle, Side};
use crate::report::sheets::{Outline, Stage};

/// Scale of heights relative to lengths.
const TALLER: f32 = 3.0;
/// Front axle to rear axle where it is not known, m. Common practice, no source.
const USUAL_WHEELBASE_M: f64 = 2.6;
/// The outline with room above for a body that rises, and below for the road; in hundredths of its length.
const FIELD_HIGH: f32 = Outline::HIGH + 14.0;
const BELOW: f32 = 6.0;

/// Where the outline is on screen.
struct Place<'a> {
    outline: &'a Outline,
    left: f32,
    ground: f32,
    /// Points for a hundredth of the outline's length.
    unit: f32,
    /// Points for a metre along, and upwards.
    along: f32,
    up: f32,
    /// How far the body is lifted at either wheel, points.
    lift: PerAxle<f32>,
}

impl Place<'_> {
    /// A point of the body.
    fn body(&self, [x, y]: [f32; 2]) -> Pos2 {
        let PerAxle { front, rear } = self.outline.wheels;
        let share = (x - front) / (rear - front);
        let lift = self.lift.front + share * (self.lift.rear - self.lift.front);
        pos2(self.left + x * self.unit, self.ground - (Outline::HIGH - y) * self.unit - lift)
    }

    /// The middle of a wheel that is so far above its rest, m.
    fn wheel(&self, end: Side, above_m: f64) -> Pos2 {
        let x = self.left + self.outline.wheels[end] * self.unit;
        pos2(x, self.ground - Outline::RADIUS * self.unit - self.up * above_m as f32)
    }
}

/// Draws it in this place.
pub(super) fn draw(ui: &Ui, cx: &Cx<'_>, shown: &Presenting, stage: &Stage, pose: &Pose<'_>, rect: Rect) {
    let outline = shown.showing.outline;
    let PerAxle { front, rear } = outline.wheels;
    let unit = (rect.width() / 100.0).min(rect.height() / FIELD_HIGH);
    let along = unit * (rear - front) / shown.showing.wheelbase_m.unwrap_or(USUAL_WHEELBASE_M) as f32;
    let up = TALLER * along;
    let at_rest = |end: Side| stage.ends[end].height_m.unwrap_or(0.0);
    let place = Place {
        outline,
        left: rect.center().x - 50.0 * unit,
        ground: rect.bottom() - BELOW * unit,
        unit,
        along,
        up,
        lift: PerAxle::each(|end| up * (at_rest(end) + pose.body_m[end]) as f32),
    };
    let painter = ui.painter_at(rect);
    let (ink, back) = (ui.visuals().text_color(), ui.visuals().panel_fill);
    let color = theme::state_color(stage.state, cx.dark);
    let line = Stroke::new((0.35 * unit).max(1.5), color);
    for body in outline.body {
        let corners: Vec<Pos2> = body.iter().map(|at| place.body(*at)).collect();
        painter.add(filled(&place, body, color.gamma_multiply(0.16)));
        painter.add(Shape::closed_line(corners, line));
    }
    for window in outline.windows {
        let corners: Vec<Pos2> = window.iter().map(|at| place.body(*at)).collect();
        painter.add(Shape::convex_polygon(corners, back, Stroke::new(0.5 * line.width, color)));
    }
    for (end, above_m) in Side::BOTH.into_iter().zip(pose.wheel_m) {
        let (at, radius) = (place.wheel(end, above_m), Outline::RADIUS * unit);
        painter.circle_filled(at, radius, ink);
        painter.circle_filled(at, 0.47 * radius, back);
        if stage.ends[end].enlarged.is_some() {
            painter.circle_stroke(at, 1.5 * radius, Stroke::new((0.3 * unit).max(1.5), ink));
        }
    }
    painter.add(Shape::line(road(&place, pose, rect), Stroke::new((0.3 * unit).max(1.5), ink)));
}

/// A body is filled down to its lower edge: all outlines run from left to right above it.
fn filled(place: &Place<'_>, body: &[[f32; 2]], color: eframe::egui::Color32) -> Mesh {
    let lowest = body.iter().fold(0.0_f32, |low, at| low.max(at[1]));
    let mut mesh = Mesh::default();
    for (i, at) in body.iter().enumerate() {
        mesh.colored_vertex(place.body(*at), color);
        mesh.colored_vertex(place.body([at[0], lowest]), color);
        if i > 0 {
            let n = 2 * i as u32;
            mesh.add_triangle(n - 2, n - 1, n);
            mesh.add_triangle(n - 1, n, n + 1);
        }
    }
    mesh
}

/// The road from edge to edge.
fn road(place: &Place<'_>, pose: &Pose<'_>, rect: Rect) -> Vec<Pos2> {
    let Some(road) = &pose.road else {
        return vec![pos2(rect.left(), place.ground), pos2(rect.right(), place.ground)];
    };
    let wheel = place.wheel(road.end, 0.0).x;
    let steps = (rect.width() / 2.0).ceil() as usize;
    let x = |n: usize| rect.left() + rect.width() * n as f32 / steps.max(1) as f32;
    let height_m = |x: f32| road.height_m(f64::from((wheel - x) / place.along)) as f32;
    (0..=steps).map(|n| pos2(x(n), place.ground - place.up * height_m(x(n)))).collect()
}
