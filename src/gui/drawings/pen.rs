//! The pen of sketches: lines, measures, coils, wheels and words at any scale.

use std::cell::Cell;

use eframe::egui::{Align2, Color32, FontId, Painter, Pos2, Rect, Stroke, Ui, vec2};

use crate::gui::widgets::theme;

/// Height of a sketch at scale 1.
pub(super) const HEIGHT: f32 = 160.0;

/// What a sketch is drawn with.
pub(super) struct Pen {
    pub painter: Painter,
    origin: Pos2,
    pub scale: f32,
    /// All that was drawn is in this.
    pub reach: Cell<Rect>,
    pub ink: Color32,
    pub weak: Color32,
}

impl Pen {
    pub fn new(ui: &Ui, painter: Painter, origin: Pos2, scale: f32) -> Self {
        let reach = Cell::new(Rect::from_min_size(origin, vec2(1.0, scale * HEIGHT)));
        Pen { painter, origin, scale, reach, ink: ui.visuals().text_color(), weak: ui.visuals().weak_text_color() }
    }

    pub fn at(&self, x: f32, y: f32) -> Pos2 {
        let at = self.origin + self.scale * vec2(x, y);
        self.goes_to(Rect::from_pos(at));
        at
    }

    pub fn goes_to(&self, rect: Rect) {
        self.reach.set(self.reach.get().union(rect));
    }

    pub fn line(&self, points: &[(f32, f32)]) {
        let points = points.iter().map(|(x, y)| self.at(*x, *y)).collect();
        self.painter.line(points, Stroke::new(2.0, self.ink));
    }

    pub fn thin(&self, a: (f32, f32), b: (f32, f32)) {
        self.painter.line_segment([self.at(a.0, a.1), self.at(b.0, b.1)], Stroke::new(1.0, self.weak));
    }

    /// Words, each line below the one before.
    pub fn words(&self, x: f32, y: f32, anchor: Align2, text: &str) {
        for (i, line) in text.lines().enumerate() {
            let at = self.at(x, y + 16.0 * i as f32);
            let font = FontId::proportional(theme::SMALL * self.scale);
            self.goes_to(self.painter.text(at, anchor, line, font, self.ink));
        }
    }

    /// Words to the right of a point.
    pub fn beside(&self, x: f32, y: f32, text: &str) {
        self.words(x, y, Align2::LEFT_CENTER, text);
    }

    /// A measure with an arrow head at both ends.
    pub fn measure(&self, a: (f32, f32), b: (f32, f32)) {
        let (a, b) = (self.at(a.0, a.1), self.at(b.0, b.1));
        let stroke = Stroke::new(1.5, self.ink);
        self.painter.line_segment([a, b], stroke);
        let along = (b - a).normalized() * (7.0 * self.scale);
        let across = vec2(-along.y, along.x) * 0.45;
        for (tip, back) in [(a, along), (b, -along)] {
            self.painter.line_segment([tip, tip + back + across], stroke);
            self.painter.line_segment([tip, tip + back - across], stroke);
        }
    }

    /// A zigzag spring between two points.
    pub fn coil(&self, a: (f32, f32), b: (f32, f32), half_width: f32, turns: usize) {
        let (a, b) = (self.at(a.0, a.1), self.at(b.0, b.1));
        let along = b - a;
        let across = vec2(-along.y, along.x).normalized() * (self.scale * half_width);
        let mut points = vec![a];
        for i in 0..turns {
            let side = if i % 2 == 0 { across } else { -across };
            points.push(a + along * ((i as f32 + 0.5) / turns as f32) + side);
        }
        points.push(b);
        self.painter.line(points, Stroke::new(2.0, self.ink));
    }

    pub fn ring(&self, x: f32, y: f32, radius: f32) {
        self.at(x + radius, y + radius);
        self.painter.circle_stroke(self.at(x, y), self.scale * radius, Stroke::new(2.0, self.ink));
    }

    pub fn dot(&self, x: f32, y: f32, radius: f32) {
        self.painter.circle_filled(self.at(x, y), self.scale * radius, self.ink);
    }

    pub fn wheel(&self, x: f32, y: f32, radius: f32) {
        self.ring(x, y, radius);
        self.dot(x, y, 3.0);
    }
}
