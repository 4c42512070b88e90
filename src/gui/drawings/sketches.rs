//! How to measure: a sketch for the field being edited, drawn with lines and words.

use eframe::egui::{Align2, Pos2, Rect, RichText, Sense, Ui};

use super::pen::Pen;
use crate::base::language::tr;
use crate::gui::state::Cx;
use crate::gui::widgets::theme::UNIT;
use crate::job::{RatioBy, Side, SpringKind};

/// Which sketch.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Sketch {
    /// Scales under the wheels, from above.
    Scales,
    /// One axle raised.
    Lift,
    /// The hitch behind the rear axle.
    Hitch,
    /// Hub to arch.
    Arch,
    /// Wheel travel and spring length.
    Ratio,
    /// The lean of a spring on a beam axle.
    Lean,
    /// Wire, outside, active coils.
    Wire,
    /// Two readings of a press.
    Press,
    /// A torsion bar.
    Bar,
    /// A leaf under test.
    Leaf,
    /// The gap to the bump stop.
    Stop,
    /// A damper from eye to eye.
    Damper,
}

impl Sketch {
    /// What it shows.
    fn words(self) -> &'static str {
        match self {
            Sketch::Scales => tr("How to measure: level pads, brake off, vehicle rolled onto the pads"),
            Sketch::Lift => tr(
                "How to measure: weigh the axle on the ground, once with the vehicle level and once with the other axle raised",
            ),
            Sketch::Hitch => tr("How to measure: from the rear wheel centre back to the hitch ball"),
            Sketch::Arch => tr("How to measure: hub centre to the edge of the arch"),
            Sketch::Ratio => tr("How to measure: lift the wheel, read wheel travel and spring length"),
            Sketch::Lean => tr("How to measure: spring angle from vertical"),
            Sketch::Wire => tr("How to measure: bare wire diameter, outside diameter, active coils"),
            Sketch::Press => tr("How to measure: two spring lengths, one longer and one shorter than at ride height"),
            Sketch::Bar => tr("How to measure: torsion bar, arm and arm angle"),
            Sketch::Leaf => tr("How to measure: load and unload the leaf spring, reading the height each time"),
            Sketch::Stop => tr("How to measure: the gap to the bump stop, as wheel travel"),
            Sketch::Damper => tr("How to measure: the damper from eye to eye"),
        }
    }
}

/// Draws the sketch that belongs to the field with the cursor, else the one this axle begins with.
pub fn show(ui: &mut Ui, cx: &Cx<'_>, side: Side) {
    let at = cx.view.at.as_deref().and_then(|path| of_field(path, cx, side));
    draw(ui, at.unwrap_or_else(|| first(cx, side)));
}

/// A sketch under its title.
pub fn draw(ui: &mut Ui, sketch: Sketch) {
    ui.label(RichText::new(sketch.words()).heading());
    // Drawn once unseen: how far its words reach depends on the language.
    let mut unseen = ui.painter().clone();
    unseen.set_invisible();
    let reach = sketch_with(Pen::new(ui, unseen, Pos2::ZERO, 1.0), sketch);
    let scale = (ui.available_width() / reach.width()).min(1.0);
    let (rect, _) = ui.allocate_exact_size(scale * reach.size(), Sense::hover());
    let origin = rect.min - scale * reach.min.to_vec2();
    sketch_with(Pen::new(ui, ui.painter_at(rect), origin, scale), sketch);
    ui.add_space(UNIT);
}

/// Draws with a pen; gives back how far it went, at least from the origin down to the usual height.
fn sketch_with(pen: Pen, sketch: Sketch) -> Rect {
    match sketch {
        Sketch::Scales => pen.scales(),
        Sketch::Lift => pen.lift(),
        Sketch::Hitch => pen.hitch(),
        Sketch::Arch => pen.arch(),
        Sketch::Ratio => pen.ratio(),
        Sketch::Lean => pen.lean(),
        Sketch::Wire => pen.wire(),
        Sketch::Press => pen.press(),
        Sketch::Bar => pen.bar(),
        Sketch::Leaf => pen.leaf(),
        Sketch::Stop => pen.stop(),
        Sketch::Damper => pen.damper(),
    }
    pen.reach.get()
}

/// How the axle's motion ratio is measured.
fn ratio(cx: &Cx<'_>, side: Side) -> Sketch {
    if cx.job.axle(side).ratio.by == RatioBy::Lean { Sketch::Lean } else { Sketch::Ratio }
}

/// What this kind of spring begins with.
fn first(cx: &Cx<'_>, side: Side) -> Sketch {
    match cx.shown.answer.axle(side).kind {
        SpringKind::TorsionBar => Sketch::Bar,
        SpringKind::Leaf => Sketch::Leaf,
        _ => ratio(cx, side),
    }
}

/// The sketch that helps to measure a field, if there is one.
pub fn of_field(path: &str, cx: &Cx<'_>, side: Side) -> Option<Sketch> {
    let has = |parts: &[&str]| parts.iter().any(|p| path.contains(p));
    Some(match path {
        _ if has(&["chassis.lift."]) => Sketch::Lift,
        _ if has(&["vehicle.hitch", ".tongue"]) => Sketch::Hitch,
        _ if has(&["arch"]) => Sketch::Arch,
        p if ["before.", "after.", "fitted."].iter().any(|w| p.starts_with(w)) && !has(&["loads["]) => Sketch::Scales,
        _ if has(&[".wire.", ".coil."]) => Sketch::Wire,
        _ if has(&[".press.", ".points"]) => Sketch::Press,
        _ if has(&[".bar."]) => Sketch::Bar,
        _ if has(&[".leaf."]) => Sketch::Leaf,
        _ if has(&[".stop", ".travel."]) => Sketch::Stop,
        _ if has(&["_length"]) && has(&[".damper.", ".new_damper."]) => Sketch::Damper,
        _ if has(&["ratio."]) => ratio(cx, side),
        _ if has(&[".spring."]) => first(cx, side),
        _ => return None,
    })
}

impl Pen {
    fn ratio(&self) {
        self.line(&[(40.0, 20.0), (230.0, 20.0)]);
        self.line(&[(50.0, 100.0), (290.0, 112.0)]);
        self.dot(50.0, 100.0, 4.0);
        self.coil((170.0, 106.0), (150.0, 20.0), 12.0, 9);
        self.wheel(320.0, 108.0, 34.0);
        self.measure((374.0, 74.0), (374.0, 142.0));
        self.beside(382.0, 92.0, tr("wheel travel:\nhub straight up and down,\nnot along an arc"));
        self.measure((196.0, 102.0), (177.0, 22.0));
        self.beside(204.0, 38.0, tr("spring length along its own axis:\nthe spring angle is then already included"));
        self.beside(50.0, 126.0, tr("pivot"));
    }

    fn lean(&self) {
        self.line(&[(40.0, 120.0), (300.0, 120.0)]);
        self.beside(44.0, 136.0, tr("beam axle"));
        self.coil((200.0, 120.0), (160.0, 22.0), 12.0, 9);
        self.thin((200.0, 120.0), (200.0, 14.0));
        self.beside(206.0, 24.0, tr("vertical"));
        self.words(120.0, 70.0, Align2::RIGHT_CENTER, tr("spring angle\nfrom vertical"));
        self.wheel(330.0, 108.0, 34.0);
        self.beside(372.0, 84.0, tr("in two-wheel bump: spring travel =\nwheel travel × cos(spring angle)"));
    }

    fn wire(&self) {
        for i in 0..5 {
            let y = 30.0 + 22.0 * i as f32;
            self.line(&[(120.0, y + 6.0), (240.0, y - 6.0)]);
            self.ring(120.0, y + 6.0, 6.0);
            self.ring(240.0, y - 6.0, 6.0);
        }
        self.line(&[(114.0, 138.0), (246.0, 138.0)]);
        self.measure((114.0, 8.0), (246.0, 8.0));
        self.beside(252.0, 8.0, tr("outside diameter"));
        self.measure((104.0, 74.0), (104.0, 86.0));
        self.words(98.0, 80.0, Align2::RIGHT_CENTER, tr("bare wire"));
        self.beside(262.0, 60.0, tr("active coils: from where one end coil lifts off\nits neighbour to where the other end coil does;\ncount halves and quarters"));
        self.beside(262.0, 124.0, tr("closed ends: about one dead coil each"));
    }

    fn press(&self) {
        self.line(&[(60.0, 138.0), (180.0, 138.0)]);
        self.line(&[(70.0, 20.0), (170.0, 20.0)]);
        self.coil((120.0, 138.0), (120.0, 20.0), 18.0, 9);
        self.measure((196.0, 20.0), (196.0, 138.0));
        self.beside(204.0, 60.0, tr("first length, a little longer than at ride height:\nread the force; then a second length, a little shorter"));
        self.beside(204.0, 104.0, tr("do not start at the free length:\nthe end coils are not seated there yet"));
    }

    fn bar(&self) {
        self.line(&[(40.0, 46.0), (150.0, 46.0)]);
        self.line(&[(40.0, 54.0), (150.0, 54.0)]);
        self.measure((40.0, 28.0), (150.0, 28.0));
        self.words(95.0, 14.0, Align2::CENTER_CENTER, tr("working length, between splines"));
        self.ring(260.0, 50.0, 8.0);
        self.line(&[(260.0, 50.0), (410.0, 100.0)]);
        self.thin((260.0, 50.0), (430.0, 50.0));
        self.beside(434.0, 50.0, tr("horizontal"));
        self.beside(372.0, 70.0, tr("angle below horizontal"));
        self.wheel(430.0, 106.0, 26.0);
        self.measure((256.0, 66.0), (404.0, 116.0));
        self.words(316.0, 112.0, Align2::RIGHT_CENTER, tr("arm: from bar axis to wheel load"));
        self.beside(40.0, 76.0, tr("diameter: an error\ncounts four times"));
    }

    fn leaf(&self) {
        self.line(&[(40.0, 30.0), (330.0, 30.0)]);
        self.beside(44.0, 16.0, tr("frame"));
        let arc = |sag: f32, from: f32, to: f32| -> Vec<(f32, f32)> {
            (0..=20)
                .map(|i| i as f32 / 20.0)
                .map(|t| (from + (to - from) * t, 56.0 + 4.0 * sag * t * (1.0 - t)))
                .collect()
        };
        self.line(&arc(40.0, 60.0, 310.0));
        self.line(&arc(30.0, 95.0, 275.0).iter().map(|(x, y)| (*x, y + 18.0)).collect::<Vec<_>>());
        self.dot(185.0, 114.0, 8.0);
        self.beside(198.0, 122.0, tr("axle"));
        self.measure((148.0, 32.0), (148.0, 112.0));
        self.words(142.0, 128.0, Align2::RIGHT_CENTER, tr("height"));
        self.beside(344.0, 40.0, tr("add equal loads step by step,\nread the height each time;\ntake them off again and read\nat the same loads: the\ndifference shows the friction"));
    }

    /// A vehicle from the side on two wheels at these heights, its nose to the left.
    fn side_view(&self, front: (f32, f32), rear: (f32, f32)) {
        self.wheel(front.0, front.1, 22.0);
        self.wheel(rear.0, rear.1, 22.0);
        let body = [(-30.0, -24.0), (-26.0, -50.0), (20.0, -56.0), (40.0, -82.0)];
        let tail = [(-10.0, -82.0), (34.0, -78.0), (36.0, -24.0)];
        let from = |at: (f32, f32), by: (f32, f32)| (at.0 + by.0, at.1 + by.1);
        let mut outline: Vec<(f32, f32)> = body.map(|by| from(front, by)).to_vec();
        outline.extend(tail.map(|by| from(rear, by)));
        outline.push(outline[0]);
        self.line(&outline);
    }

    fn scales(&self) {
        self.line(&[(90.0, 20.0), (250.0, 20.0), (250.0, 130.0), (90.0, 130.0), (90.0, 20.0)]);
        for (x, y, corner) in
            [(110.0, 10.0, tr("RF")), (110.0, 140.0, tr("LF")), (230.0, 10.0, tr("RR")), (230.0, 140.0, tr("LR"))]
        {
            self.line(&[
                (x - 14.0, y - 6.0),
                (x + 14.0, y - 6.0),
                (x + 14.0, y + 6.0),
                (x - 14.0, y + 6.0),
                (x - 14.0, y - 6.0),
            ]);
            self.words(x, if y < 75.0 { y + 24.0 } else { y - 24.0 }, Align2::CENTER_CENTER, corner);
        }
        self.words(80.0, 75.0, Align2::RIGHT_CENTER, tr("front"));
        self.beside(270.0, 34.0, tr("left and right as seen by the driver;\nall four pads level and at the same height;\nbrake off, anti-roll bars disconnected,\nvehicle rolled on, bounced once, driver out;\nsame fuel and load both times"));
    }

    fn lift(&self) {
        self.side_view((110.0, 118.0), (290.0, 84.0));
        self.line(&[(70.0, 142.0), (150.0, 142.0)]);
        self.words(110.0, 150.0, Align2::CENTER_CENTER, tr("scales"));
        self.thin((250.0, 140.0), (400.0, 140.0));
        self.measure((340.0, 108.0), (340.0, 140.0));
        self.beside(350.0, 124.0, tr("raised by"));
        self.beside(
            350.0,
            30.0,
            tr("suspension locked, brakes off,\nwheels on the ground chocked;\nno one in or under the vehicle"),
        );
    }

    fn hitch(&self) {
        self.side_view((90.0, 108.0), (250.0, 108.0));
        self.line(&[(286.0, 92.0), (330.0, 92.0)]);
        self.dot(332.0, 88.0, 5.0);
        self.thin((250.0, 108.0), (250.0, 146.0));
        self.thin((332.0, 92.0), (332.0, 146.0));
        self.measure((250.0, 142.0), (332.0, 142.0));
        self.beside(342.0, 136.0, tr("wheel centre to hitch ball"));
        self.beside(350.0, 60.0, tr("load on the hitch: scale reading\nunder the trailer's coupling,\ntrailer level"));
    }

    fn arch(&self) {
        self.wheel(150.0, 100.0, 40.0);
        let arch: Vec<(f32, f32)> = (0..=20)
            .map(|i| std::f32::consts::PI * (1.0 + i as f32 / 20.0))
            .map(|a| (150.0 + 58.0 * a.cos(), 92.0 + 66.0 * a.sin()))
            .collect();
        self.line(&arch);
        self.line(&[(20.0, 92.0), (92.0, 92.0)]);
        self.line(&[(208.0, 92.0), (290.0, 92.0)]);
        self.measure((150.0, 28.0), (150.0, 98.0));
        self.thin((60.0, 142.0), (260.0, 142.0));
        self.beside(230.0, 40.0, tr("straight up from the hub centre\nto the lower edge of the arch"));
        self.beside(
            300.0,
            100.0,
            tr("roll the vehicle back and forth and let it settle first;\nuse the mean of left and right"),
        );
    }

    fn damper(&self) {
        for y in [20.0, 130.0] {
            self.ring(110.0, y, 7.0);
        }
        self.line(&[(110.0, 28.0), (110.0, 60.0)]);
        self.line(&[(98.0, 60.0), (122.0, 60.0), (122.0, 122.0), (98.0, 122.0), (98.0, 60.0)]);
        self.measure((150.0, 20.0), (150.0, 130.0));
        self.beside(160.0, 52.0, tr("open: rod fully out\nclosed: rod fully in\nat ride height: on the vehicle"));
        self.beside(160.0, 118.0, tr("a gas damper extends by itself: release it slowly"));
    }

    fn stop(&self) {
        self.line(&[(60.0, 24.0), (260.0, 24.0)]);
        let cone = [(150.0, 24.0), (156.0, 66.0), (174.0, 66.0), (180.0, 24.0)];
        self.line(&cone);
        self.line(&[(60.0, 110.0), (270.0, 116.0)]);
        self.measure((165.0, 68.0), (165.0, 112.0));
        self.beside(176.0, 90.0, tr("gap to the bump stop"));
        self.wheel(310.0, 108.0, 34.0);
        self.beside(354.0, 76.0, tr("lift the wheel until the bump stop is touched:\nthe wheel travel up to this point is the gap;\nthen take the bump stop out and lift to metal contact"));
    }
}
