//! Spring and stop gap of an axle, enlarged: as on the customer's sheet, true to each other in every step.

use eframe::egui::{Color32, FontId, Painter, Pos2, Rect, Shape, Stroke, StrokeKind, Ui, pos2, vec2};

use super::{Measure, texts};
use crate::gui::widgets::theme;
use crate::job::SpringKind;
use crate::report::pictures::drawing::spring_line;
use crate::report::sheets::{End, Stage};
use crate::solve::answer::State;

/// Of the height inside: the stop at rest, the axle's bar, the body's bar, what a gap may take at rest.
const STOP: f32 = 0.16;
const AXLE: f32 = 0.09;
const BODY: f32 = 0.08;
const MOST_GAP: f32 = 0.36;
/// The gap drawn when none is known and only heights are.
const NO_GAP: f32 = 0.2;

/// How many heights of a lens are a metre: one for all steps and both ends, so that they can be compared.
#[derive(Debug, Clone, Copy)]
pub(super) struct Scale {
    per_m: f32,
    has_gaps: bool,
}

impl Scale {
    /// The largest at which every gap has room; `None` when neither heights nor gaps are known.
    pub(super) fn of(stages: &[Stage]) -> Option<Scale> {
        let ends = || stages.iter().flat_map(|s| &s.ends).filter(|end| end.enlarged.is_some());
        let has_gaps = ends().any(|end| end.room_m.is_some());
        let known = |end: &End| end.room_m.or(end.height_m.filter(|_| !has_gaps));
        let all: Vec<f32> = ends().filter_map(known).map(|m| m as f32).collect();
        let (least, most) = (all.iter().copied().fold(0.0, f32::min), all.iter().copied().fold(0.0, f32::max));
        let (up, down) = if has_gaps { (MOST_GAP, 0.7 * STOP) } else { (MOST_GAP - NO_GAP, NO_GAP) };
        // A centimetre is never drawn higher than this, however small the gaps are.
        const MOST_PER_M: f32 = 12.0;
        let per_m = MOST_PER_M.min(up / most.max(1e-6)).min(down / (-least).max(1e-6));
        (!all.is_empty()).then_some(Scale { per_m, has_gaps })
    }

    /// From the stop's end at rest to the axle.
    fn gap(self, room_m: Option<f64>, height_m: Option<f64>) -> Option<f32> {
        match (room_m, height_m) {
            (Some(room), _) => Some(self.per_m * room as f32),
            (None, Some(height)) if !self.has_gaps => Some(NO_GAP + self.per_m * height as f32),
            _ => None,
        }
    }
}

/// One axle, enlarged.
pub(super) struct Lens<'a> {
    pub axle: &'a str,
    pub told: &'a [String],
    pub state: State,
    pub kind: SpringKind,
    pub room_m: Option<f64>,
    pub height_m: Option<f64>,
    /// How it stood before.
    pub before: Option<&'a End>,
    pub scale: Scale,
    pub measure: Measure,
    pub dark: bool,
}

impl Lens<'_> {
    pub(super) fn draw(&self, ui: &Ui, rect: Rect) {
        let painter = ui.painter_at(rect.expand(2.0));
        let (ink, weak) = (ui.visuals().text_color(), ui.visuals().weak_text_color());
        let thick = self.measure.of_window(2.0).max(1.5);
        painter.rect_stroke(rect, self.measure.of_window(10.0), Stroke::new(thick, ink), StrokeKind::Inside);
        let inner = rect.shrink(self.measure.of_window(12.0));
        let (title, column, told) = parts(inner);
        if let Some(gap) = self.scale.gap(self.room_m, self.height_m) {
            let drawing = Column { painter: &painter, rect: column, ink, weak, thick };
            let before = self.before.and_then(|end| self.scale.gap(end.room_m, end.height_m));
            drawing.draw(self, gap, before);
        }
        let size = |points: f32| self.measure.of_window(points);
        texts::painted(ui, &painter, title, self.axle, FontId::new(size(19.0), theme::bold()), ink);
        let each = told.height() / self.told.len().max(1) as f32;
        for (i, text) in self.told.iter().enumerate() {
            let at = Rect::from_min_size(pos2(told.left(), told.top() + each * i as f32), vec2(told.width(), each));
            texts::painted(ui, &painter, at, text, FontId::proportional(size(22.0)), ink);
        }
    }
}

/// Where the axle's name, the column and its texts are: with the words next to the column, or below it where that is
/// high.
fn parts(inner: Rect) -> (Rect, Rect, Rect) {
    if inner.height() > 1.15 * inner.width() {
        let (title, rest) = inner.split_top_bottom_at_fraction(0.1);
        let (column, words) = rest.split_top_bottom_at_fraction(0.78);
        return (title, column.shrink2(vec2(0.14 * inner.width(), 0.03 * inner.height())), words);
    }
    let (column, words) = inner.split_left_right_at_fraction(0.5);
    let (title, words) = words.with_min_x(words.left() + 0.05 * inner.width()).split_top_bottom_at_fraction(0.32);
    (title, column, words)
}

/// The column of spring, stop and gap.
struct Column<'a> {
    painter: &'a Painter,
    rect: Rect,
    ink: Color32,
    weak: Color32,
    thick: f32,
}

impl Column<'_> {
    /// `gap`: from the stop at rest to the axle, in heights of the lens; below zero the stop is squeezed.
    fn draw(&self, lens: &Lens<'_>, gap: f32, before: Option<f32>) {
        let (high, wide) = (self.rect.height(), self.rect.width());
        let axle = self.rect.bottom() - AXLE * high;
        let least = self.rect.top() + BODY * high;
        let body_at = |gap: f32| (axle - (STOP + gap) * high).clamp(least, axle - 0.04 * high);
        let (left, right) = (self.rect.left() + 0.04 * wide, self.rect.right() - 0.06 * wide);
        let x = |share: f32| left + share * (right - left);
        if let Some(before) = before {
            let y = body_at(before);
            let ends = [pos2(self.rect.left(), y), pos2(self.rect.right(), y)];
            self.painter.extend(Shape::dotted_line(&ends, self.weak, 3.5 * self.thick, 0.7 * self.thick));
        }
        let y = body_at(gap);
        let bar = |from: Pos2, to: Pos2| Rect::from_two_pos(from, to);
        self.painter.rect_filled(bar(pos2(left, axle), pos2(right, axle + AXLE * high)), 2.0, self.ink);
        for line in spring_line(lens.kind, [x(0.06), x(0.4)], [y, axle]) {
            let through = line.into_iter().map(|[x, y]| pos2(x, y)).collect();
            self.painter.add(Shape::line(through, Stroke::new(1.4 * self.thick, self.ink)));
        }
        if lens.room_m.is_some() {
            let end = (y + STOP * high).min(axle);
            let stop = bar(pos2(x(0.62), y), pos2(x(0.88), end));
            let line = Stroke::new(self.thick, self.ink);
            self.painter.rect(stop, 2.0, self.weak.gamma_multiply(0.35), line, StrokeKind::Inside);
            if axle - end > self.thick {
                self.measured(x(0.75), end, axle);
            }
        }
        self.body(lens, bar(pos2(left, y - BODY * high), pos2(right, y)));
    }

    /// The gap, with a head at either end where there is room for them.
    fn measured(&self, x: f32, top: f32, bottom: f32) {
        let line = Stroke::new(1.6 * self.thick, self.ink);
        self.painter.line_segment([pos2(x, top), pos2(x, bottom)], line);
        let head = 4.0 * self.thick;
        if bottom - top > 3.0 * head {
            for (tip, back) in [(top, head), (bottom, -head)] {
                for side in [-0.6 * head, 0.6 * head] {
                    self.painter.line_segment([pos2(x, tip), pos2(x + side, tip + back)], line);
                }
            }
        }
    }

    /// The body's bar: dotted, dashed, or full and filled.
    fn body(&self, lens: &Lens<'_>, rect: Rect) {
        let color = theme::state_color(lens.state, lens.dark);
        let line = Stroke::new(1.3 * self.thick, color);
        let corners = [rect.left_top(), rect.right_top(), rect.right_bottom(), rect.left_bottom(), rect.left_top()];
        match lens.state {
            State::Before => self.painter.extend(Shape::dotted_line(&corners, color, 3.0 * self.thick, self.thick)),
            State::OldSprings => {
                self.painter.extend(Shape::dashed_line(&corners, line, 5.0 * self.thick, 3.0 * self.thick));
            }
            State::NewSprings => {
                self.painter.rect(rect, 2.0, color, line, StrokeKind::Inside);
            }
        }
    }
}
