//! How to measure: a sketch for the field being edited, drawn with lines and words.

use eframe::egui::{Align2, Color32, FontId, Painter, Pos2, Rect, RichText, Sense, Stroke, Ui, vec2};

use super::field::Cx;
use super::theme::UNIT;
use crate::job::{RatioBy, Side, SpringKind};

const HEIGHT: f32 = 150.0;

/// Which sketch.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Sketch {
    Ratio,
    Lean,
    Wire,
    Press,
    Bar,
    Leaf,
    Stop,
}

/// Draws the sketch that belongs to the field with the cursor, else the one this axle begins with.
pub fn show(ui: &mut Ui, cx: &Cx<'_>, side: Side) {
    let (sketch, words) = wanted(cx, side);
    ui.label(RichText::new(words).heading());
    let width = ui.available_width().min(560.0);
    let (rect, _) = ui.allocate_exact_size(vec2(width, HEIGHT), Sense::hover());
    let pen = Pen {
        painter: ui.painter_at(rect),
        rect,
        ink: ui.visuals().text_color(),
        weak: ui.visuals().weak_text_color(),
    };
    match sketch {
        Sketch::Ratio => pen.ratio(),
        Sketch::Lean => pen.lean(),
        Sketch::Wire => pen.wire(),
        Sketch::Press => pen.press(),
        Sketch::Bar => pen.bar(),
        Sketch::Leaf => pen.leaf(),
        Sketch::Stop => pen.stop(),
    }
    ui.add_space(UNIT);
}

fn wanted(cx: &Cx<'_>, side: Side) -> (Sketch, &'static str) {
    let at = cx.view.at.as_deref().unwrap_or_default();
    let axle = cx.shown.answer.axle(side);
    let ratio = match cx.job.axle(side).ratio.by {
        RatioBy::Lean => (Sketch::Lean, "How to measure: the lean, from upright"),
        _ => (Sketch::Ratio, "How to measure: lift the wheel, read wheel and spring"),
    };
    let of_kind = match axle.kind {
        SpringKind::TorsionBar => (Sketch::Bar, "How to measure: bar, arm and angle"),
        SpringKind::Leaf => (Sketch::Leaf, "How to measure: load the leaf and read heights, down and back"),
        _ => ratio,
    };
    match at {
        a if a.contains(".wire.") || a.contains(".coil.") => {
            (Sketch::Wire, "How to measure: bare wire, outside, working coils")
        }
        a if a.contains(".press.") || a.contains(".points") => {
            (Sketch::Press, "How to measure: two lengths that bracket ride height")
        }
        a if a.contains(".stop") => (Sketch::Stop, "How to measure: the gap, as wheel travel"),
        a if a.contains("ratio.") => ratio,
        _ => of_kind,
    }
}

struct Pen {
    painter: Painter,
    rect: Rect,
    ink: Color32,
    weak: Color32,
}

impl Pen {
    fn at(&self, x: f32, y: f32) -> Pos2 {
        self.rect.left_top() + vec2(x, y)
    }

    fn line(&self, points: &[(f32, f32)]) {
        let points = points.iter().map(|(x, y)| self.at(*x, *y)).collect();
        self.painter.line(points, Stroke::new(2.0, self.ink));
    }

    fn thin(&self, a: (f32, f32), b: (f32, f32)) {
        self.painter.line_segment([self.at(a.0, a.1), self.at(b.0, b.1)], Stroke::new(1.0, self.weak));
    }

    fn words(&self, x: f32, y: f32, anchor: Align2, text: &str) {
        self.painter.text(self.at(x, y), anchor, text, FontId::proportional(12.5), self.ink);
    }

    /// A measure with an arrow head at both ends.
    fn measure(&self, a: (f32, f32), b: (f32, f32)) {
        let (a, b) = (self.at(a.0, a.1), self.at(b.0, b.1));
        let stroke = Stroke::new(1.5, self.ink);
        self.painter.line_segment([a, b], stroke);
        let along = (b - a).normalized() * 7.0;
        let across = vec2(-along.y, along.x) * 0.45;
        for (tip, back) in [(a, along), (b, -along)] {
            self.painter.line_segment([tip, tip + back + across], stroke);
            self.painter.line_segment([tip, tip + back - across], stroke);
        }
    }

    /// A zigzag spring between two points.
    fn coil(&self, a: (f32, f32), b: (f32, f32), half_width: f32, turns: usize) {
        let (a, b) = (self.at(a.0, a.1), self.at(b.0, b.1));
        let along = b - a;
        let across = vec2(-along.y, along.x).normalized() * half_width;
        let mut points = vec![a];
        for i in 0..turns {
            let side = if i % 2 == 0 { across } else { -across };
            points.push(a + along * ((i as f32 + 0.5) / turns as f32) + side);
        }
        points.push(b);
        self.painter.line(points, Stroke::new(2.0, self.ink));
    }

    fn wheel(&self, x: f32, y: f32, radius: f32) {
        self.painter.circle_stroke(self.at(x, y), radius, Stroke::new(2.0, self.ink));
        self.painter.circle_filled(self.at(x, y), 3.0, self.ink);
    }

    fn ratio(&self) {
        self.line(&[(40.0, 20.0), (230.0, 20.0)]);
        self.line(&[(50.0, 100.0), (290.0, 112.0)]);
        self.painter.circle_filled(self.at(50.0, 100.0), 4.0, self.ink);
        self.coil((170.0, 106.0), (150.0, 20.0), 12.0, 9);
        self.wheel(320.0, 108.0, 34.0);
        self.measure((374.0, 74.0), (374.0, 142.0));
        self.words(382.0, 92.0, Align2::LEFT_CENTER, "wheel travel:");
        self.words(382.0, 108.0, Align2::LEFT_CENTER, "hub straight up and down,");
        self.words(382.0, 124.0, Align2::LEFT_CENTER, "not along an arc");
        self.measure((196.0, 102.0), (177.0, 22.0));
        self.words(204.0, 38.0, Align2::LEFT_CENTER, "spring length along its own axis:");
        self.words(204.0, 54.0, Align2::LEFT_CENTER, "its lean is then inside already");
        self.words(50.0, 126.0, Align2::LEFT_CENTER, "pivot");
    }

    fn lean(&self) {
        self.line(&[(40.0, 120.0), (300.0, 120.0)]);
        self.words(44.0, 136.0, Align2::LEFT_CENTER, "beam axle");
        self.coil((200.0, 120.0), (160.0, 22.0), 12.0, 9);
        self.thin((200.0, 120.0), (200.0, 14.0));
        self.words(206.0, 24.0, Align2::LEFT_CENTER, "upright");
        self.words(120.0, 70.0, Align2::RIGHT_CENTER, "lean: angle between");
        self.words(120.0, 86.0, Align2::RIGHT_CENTER, "spring and upright");
        self.wheel(330.0, 108.0, 34.0);
        self.words(372.0, 84.0, Align2::LEFT_CENTER, "in two-wheel bump the spring");
        self.words(372.0, 100.0, Align2::LEFT_CENTER, "moves cos(lean) of the wheel");
    }

    fn wire(&self) {
        for i in 0..5 {
            let y = 30.0 + 22.0 * i as f32;
            self.line(&[(120.0, y + 6.0), (240.0, y - 6.0)]);
            self.painter.circle_stroke(self.at(120.0, y + 6.0), 6.0, Stroke::new(2.0, self.ink));
            self.painter.circle_stroke(self.at(240.0, y - 6.0), 6.0, Stroke::new(2.0, self.ink));
        }
        self.line(&[(114.0, 138.0), (246.0, 138.0)]);
        self.measure((114.0, 8.0), (246.0, 8.0));
        self.words(252.0, 8.0, Align2::LEFT_CENTER, "outside diameter");
        self.measure((104.0, 74.0), (104.0, 86.0));
        self.words(98.0, 80.0, Align2::RIGHT_CENTER, "wire, paint off");
        self.words(262.0, 60.0, Align2::LEFT_CENTER, "working coils: from where one end coil");
        self.words(262.0, 76.0, Align2::LEFT_CENTER, "leaves its neighbour to where the other does;");
        self.words(262.0, 92.0, Align2::LEFT_CENTER, "halves and quarters count");
        self.words(262.0, 124.0, Align2::LEFT_CENTER, "closed ends: about one dead coil each");
    }

    fn press(&self) {
        self.line(&[(60.0, 138.0), (180.0, 138.0)]);
        self.line(&[(70.0, 20.0), (170.0, 20.0)]);
        self.coil((120.0, 138.0), (120.0, 20.0), 18.0, 9);
        self.measure((196.0, 20.0), (196.0, 138.0));
        self.words(204.0, 60.0, Align2::LEFT_CENTER, "first length, a little longer than at ride height:");
        self.words(204.0, 76.0, Align2::LEFT_CENTER, "read the gauge; then a second one, a little shorter");
        self.words(204.0, 104.0, Align2::LEFT_CENTER, "never from the free length:");
        self.words(204.0, 120.0, Align2::LEFT_CENTER, "the end coils are not yet at work there");
    }

    fn bar(&self) {
        self.line(&[(40.0, 46.0), (150.0, 46.0)]);
        self.line(&[(40.0, 54.0), (150.0, 54.0)]);
        self.measure((40.0, 28.0), (150.0, 28.0));
        self.words(95.0, 14.0, Align2::CENTER_CENTER, "working length, between splines");
        self.painter.circle_stroke(self.at(260.0, 50.0), 8.0, Stroke::new(2.0, self.ink));
        self.line(&[(260.0, 50.0), (410.0, 100.0)]);
        self.thin((260.0, 50.0), (430.0, 50.0));
        self.words(434.0, 50.0, Align2::LEFT_CENTER, "level");
        self.words(372.0, 70.0, Align2::LEFT_CENTER, "angle below level");
        self.wheel(430.0, 106.0, 26.0);
        self.measure((256.0, 66.0), (404.0, 116.0));
        self.words(316.0, 112.0, Align2::RIGHT_CENTER, "arm: bar's axis to wheel's load");
        self.words(40.0, 76.0, Align2::LEFT_CENTER, "diameter: an error");
        self.words(40.0, 92.0, Align2::LEFT_CENTER, "counts four times");
    }

    fn leaf(&self) {
        self.line(&[(40.0, 30.0), (330.0, 30.0)]);
        self.words(44.0, 16.0, Align2::LEFT_CENTER, "frame");
        let arc = |sag: f32, from: f32, to: f32| -> Vec<(f32, f32)> {
            (0..=20)
                .map(|i| i as f32 / 20.0)
                .map(|t| (from + (to - from) * t, 56.0 + 4.0 * sag * t * (1.0 - t)))
                .collect()
        };
        self.line(&arc(40.0, 60.0, 310.0));
        self.line(&arc(30.0, 95.0, 275.0).iter().map(|(x, y)| (*x, y + 18.0)).collect::<Vec<_>>());
        self.painter.circle_filled(self.at(185.0, 114.0), 8.0, self.ink);
        self.words(198.0, 122.0, Align2::LEFT_CENTER, "axle");
        self.measure((148.0, 32.0), (148.0, 112.0));
        self.words(142.0, 128.0, Align2::RIGHT_CENTER, "height");
        self.words(344.0, 40.0, Align2::LEFT_CENTER, "add equal loads step by step,");
        self.words(344.0, 56.0, Align2::LEFT_CENTER, "read the height each time;");
        self.words(344.0, 72.0, Align2::LEFT_CENTER, "take them off again and read");
        self.words(344.0, 88.0, Align2::LEFT_CENTER, "at the same loads: the gap");
        self.words(344.0, 104.0, Align2::LEFT_CENTER, "between the two is friction");
    }

    fn stop(&self) {
        self.line(&[(60.0, 24.0), (260.0, 24.0)]);
        let cone = [(150.0, 24.0), (156.0, 66.0), (174.0, 66.0), (180.0, 24.0)];
        self.line(&cone);
        self.line(&[(60.0, 110.0), (270.0, 116.0)]);
        self.measure((165.0, 68.0), (165.0, 112.0));
        self.words(176.0, 90.0, Align2::LEFT_CENTER, "gap at the stop");
        self.wheel(310.0, 108.0, 34.0);
        self.words(354.0, 76.0, Align2::LEFT_CENTER, "lift the wheel until the stop is touched:");
        self.words(354.0, 92.0, Align2::LEFT_CENTER, "how far the wheel went is what counts here;");
        self.words(354.0, 108.0, Align2::LEFT_CENTER, "then on to metal, with the stop out");
    }
}
