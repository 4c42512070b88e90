//! A construction, drawn: where the spring is, what carries the wheel, and where the jack goes. Not to scale, one side;
//! a beam axle whole.

use super::sketch::{FLOOR_MM, Sketch};
use super::{Construction, Unit};
use crate::job::{SpringKind, Suspension};
use crate::report::pictures::drawing::{Drawing, Fill, Place, Stroke};
use crate::report::sheets::words::Words;

/// The drawing of a construction, its labels in these words.
pub fn of(words: &Words, construction: Construction) -> Drawing {
    let mut drawn = Drawn { sketch: Sketch::default(), words, construction };
    match (construction.suspension, construction.kind) {
        (Suspension::Beam | Suspension::TwistBeam, SpringKind::Leaf) => drawn.leaf_along(),
        (Suspension::Beam | Suspension::TwistBeam, _) => drawn.beam(),
        (Suspension::TrailingArm | Suspension::SemiTrailingArm, _) => drawn.trailing(),
        (Suspension::Strut, _) => drawn.strut(),
        (Suspension::TwoArms, _) => drawn.two_arms(),
        (Suspension::Other | Suspension::NotSaid, _) => drawn.unknown(),
    }
    let fill = [("suspension", construction.suspension.words().said()), ("spring", construction.kind.words().said())];
    let words = words.say("draw.words", &fill);
    drawn.sketch.finish(words)
}

struct Drawn<'w> {
    sketch: Sketch,
    words: &'w Words,
    construction: Construction,
}

impl Drawn<'_> {
    fn label(&mut self, key: &str, at: Place) {
        self.sketch.label(self.words.say(key, &[]), at);
    }

    /// The body's rail and the shelf that the upper seats are under, the wheel and the upright, all in front view.
    fn front_view(&mut self, shelf_to: f32) {
        self.sketch.block([8.0, 2.0], [24.0, 40.0], Fill::Light);
        self.sketch.block([24.0, 2.0], [shelf_to, 5.0], Fill::Light);
        self.sketch.block([92.0, 9.0], [104.0, FLOOR_CLEAR], Fill::Light);
        self.label("draw.body", [shelf_to - 3.0, 3.5]);
    }

    /// Spring and damper between an arm and the shelf; the spring by its kind.
    fn spring_and_damper(&mut self, foot: Place, top: Place, damper_foot: Place, damper_top: Place) {
        let Construction { kind, unit, .. } = self.construction;
        let middle = |a: Place, b: Place| [0.5 * (a[0] + b[0]), 0.5 * (a[1] + b[1])];
        if kind.is_coil() && unit == Unit::One {
            self.sketch.damper(damper_foot, damper_top);
            let seat = [
                damper_foot[0] + 0.38 * (damper_top[0] - damper_foot[0]),
                damper_foot[1] + 0.38 * (damper_top[1] - damper_foot[1]),
            ];
            self.sketch.coil(seat, damper_top);
            self.label("draw.unit", middle(seat, damper_top));
            self.label("draw.centre_nut", damper_top);
            return;
        }
        self.sketch.damper(damper_foot, damper_top);
        self.label("draw.damper", middle(damper_foot, damper_top));
        if kind.is_coil() {
            self.sketch.coil(foot, top);
            // A damper's line that passes over the spring keeps off its mark.
            let high = if damper_foot[0] < foot[0] { 0.25 } else { 0.5 };
            self.label("draw.coil", [foot[0] + high * (top[0] - foot[0]), foot[1] + high * (top[1] - foot[1])]);
        }
    }

    /// A torsion bar seen from its end, with its lever.
    fn bar(&mut self, at: Place) {
        if self.construction.kind == SpringKind::TorsionBar {
            self.sketch.round(at, 2.6, Fill::Dark, Stroke::Full);
            self.label("draw.bar", at);
        }
    }

    /// A leaf across the vehicle, its end on the arm.
    fn leaf_across(&mut self, end: Place) {
        if self.construction.kind == SpringKind::Leaf {
            for lower in [0.0, 1.3] {
                let through =
                    [[2.0, 41.0 + lower], [16.0, 41.0 + lower], [40.0, 41.5 + lower], [end[0], end[1] + 2.5 + lower]];
                self.sketch.line(&through, Stroke::Heavy);
            }
            self.label("draw.leaf", [40.0, 42.0]);
            self.label("draw.u_bolts", [16.0, 41.0]);
        }
    }

    fn ball_joint(&mut self, at: Place) {
        self.sketch.round(at, 1.5, Fill::Black, Stroke::Full);
        if self.construction.kind.is_coil() && self.construction.unit != Unit::One {
            self.label("draw.ball_joint", at);
        }
    }

    fn jack(&mut self, under: Place, key: &str) {
        self.sketch.jack(under);
        self.label(key, [under[0], FLOOR_MM - 2.0]);
    }

    fn two_arms(&mut self) {
        self.front_view(84.0);
        self.sketch.line(&[[90.0, 13.0], [90.0, 36.0]], Stroke::Heavy);
        self.sketch.line(&[[24.0, 12.0], [90.0, 14.0]], Stroke::Heavy);
        self.sketch.line(&[[24.0, 33.0], [90.0, 36.0]], Stroke::Heavy);
        self.label("draw.upper_arm", [34.0, 12.3]);
        self.label("draw.lower_arm", [62.0, 34.7]);
        self.spring_and_damper([54.0, 33.5], [50.0, 5.5], [72.0, 34.0], [68.0, 5.0]);
        self.bar([24.0, 33.0]);
        self.leaf_across([78.0, 36.0]);
        self.ball_joint([90.0, 36.0]);
        self.jack([84.0, 37.0], "draw.jack");
    }

    fn strut(&mut self) {
        self.front_view(84.0);
        self.sketch.line(&[[90.0, 26.0], [90.0, 37.0]], Stroke::Heavy);
        self.sketch.line(&[[24.0, 35.0], [90.0, 37.0]], Stroke::Heavy);
        self.sketch.line(&[[83.0, 28.0], [90.0, 27.0]], Stroke::Heavy);
        self.label("draw.lower_arm", [62.0, 36.2]);
        self.spring_and_damper([52.0, 34.5], [50.0, 5.5], [83.0, 31.0], [75.0, 5.0]);
        self.bar([24.0, 35.0]);
        self.leaf_across([76.0, 37.0]);
        self.ball_joint([90.0, 37.0]);
        self.jack([80.0, 38.0], "draw.jack");
    }

    /// From the side, forward to the left.
    fn trailing(&mut self) {
        self.sketch.round([82.0, 31.0], 14.5, Fill::None, Stroke::Full);
        self.sketch.block([8.0, 2.0], [110.0, 6.0], Fill::Light);
        self.sketch.block([22.0, 6.0], [27.0, 29.0], Fill::Light);
        self.sketch.line(&[[24.5, 27.0], [82.0, 31.0]], Stroke::Heavy);
        self.sketch.round([82.0, 31.0], 2.0, Fill::Black, Stroke::Full);
        let is_semi = self.construction.suspension == Suspension::SemiTrailingArm;
        self.label("draw.body", [16.0, 4.0]);
        self.label(if is_semi { "draw.oblique_pivot" } else { "draw.pivot" }, [24.5, 27.0]);
        self.label("draw.arm", [61.0, 29.5]);
        self.spring_and_damper([54.0, 28.0], [54.0, 6.5], [68.0, 30.0], [74.0, 6.0]);
        self.bar([24.5, 27.0]);
        self.leaf_across([50.0, 30.0]);
        self.jack([76.0, 32.0], "draw.jack_arm");
    }

    /// From behind, the whole axle.
    fn beam(&mut self) {
        self.sketch.block([20.0, 2.0], [92.0, 6.0], Fill::Light);
        for left in [4.0, 98.0] {
            self.sketch.block([left, 12.0], [left + 10.0, FLOOR_CLEAR], Fill::Light);
        }
        self.sketch.line(&[[14.0, 30.0], [98.0, 30.0]], Stroke::Heavy);
        self.sketch.line(&[[14.0, 31.2], [98.0, 31.2]], Stroke::Heavy);
        self.label("draw.body", [56.0, 4.0]);
        let is_twist = self.construction.suspension == Suspension::TwistBeam;
        self.label(if is_twist { "draw.twist_beam" } else { "draw.beam" }, [56.0, 30.5]);
        self.sketch.damper([46.0, 29.0], [50.0, 6.0]);
        if self.construction.kind.is_coil() {
            let foot = if self.construction.unit == Unit::One { [46.5, 22.0] } else { [32.0, 29.0] };
            let top = if self.construction.unit == Unit::One { [50.0, 6.5] } else { [32.0, 6.5] };
            self.sketch.coil(foot, top);
        }
        self.spring_and_damper([80.0, 29.0], [80.0, 6.5], [66.0, 29.0], [62.0, 6.0]);
        self.bar([22.0, 25.5]);
        if !is_twist && self.construction.kind.is_coil() && self.construction.unit == Unit::Apart {
            self.sketch.line(&[[28.0, 6.0], [28.0, 34.5], [84.0, 31.0]], Stroke::Full);
            self.label("draw.side_rod", [40.0, 33.7]);
        }
        self.sketch.jack([24.0, 32.0]);
        self.jack([90.0, 32.0], "draw.jacks");
    }

    /// From the side, forward to the left.
    fn leaf_along(&mut self) {
        self.sketch.round([58.0, 33.0], 14.0, Fill::None, Stroke::Dashed);
        self.sketch.block([4.0, 4.0], [112.0, 9.0], Fill::Light);
        self.sketch.line(&[[14.0, 9.0], [14.0, 19.0]], Stroke::Heavy);
        for lower in [0.0_f32, 1.4, 2.8] {
            let inset = 6.0 * lower;
            let ends = [[14.0 + inset, 19.0 + 0.55 * inset + lower], [102.0 - inset, 19.0 + 0.55 * inset + lower]];
            let flat = [[40.0, 27.5 + lower], [76.0, 27.5 + lower]];
            self.sketch.line(&[ends[0], flat[0], flat[1], ends[1]], Stroke::Heavy);
        }
        self.sketch.line(&[[104.0, 9.0], [102.0, 19.0]], Stroke::Heavy);
        self.sketch.round([14.0, 19.0], 1.6, Fill::White, Stroke::Full);
        self.sketch.round([102.0, 19.0], 1.6, Fill::White, Stroke::Full);
        self.sketch.round([58.0, 35.0], 3.6, Fill::Dark, Stroke::Full);
        for x in [52.5, 63.5] {
            self.sketch.line(&[[x, 25.5], [x, 40.0]], Stroke::Full);
        }
        self.sketch.damper([66.0, 33.0], [84.0, 9.0]);
        self.label("draw.frame", [30.0, 6.5]);
        self.label("draw.shackle", [103.0, 14.0]);
        self.label("draw.eye", [14.0, 19.0]);
        self.label("draw.damper", [76.0, 19.5]);
        self.label("draw.leaf", [36.0, 26.5]);
        self.label("draw.u_bolts", [63.5, 38.5]);
        self.label("draw.axle", [58.0, 35.0]);
        self.jack([58.0, 40.0], "draw.jacks");
    }

    /// What carries the wheel is not stated: only body, wheel, spring and jack.
    fn unknown(&mut self) {
        self.front_view(84.0);
        self.sketch.line(&[[24.0, 33.0], [92.0, 35.0]], Stroke::Dashed);
        self.label("draw.carrier", [62.0, 34.1]);
        self.spring_and_damper([54.0, 33.0], [52.0, 5.5], [72.0, 33.5], [70.0, 5.0]);
        self.bar([24.0, 33.0]);
        self.leaf_across([78.0, 35.0]);
        self.jack([84.0, 36.0], "draw.jack_carrier");
    }
}

/// Where the tyres end above the floor: the wheels hang, mm from the top.
const FLOOR_CLEAR: f32 = 44.0;
