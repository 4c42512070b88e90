//! The linkage by tape: lengths of an arm, or a table of points.

use eframe::egui::{Label, RichText, Ui, vec2};

use crate::base::language::tr;
use crate::base::units::Dim;
use crate::gui::screens::axle_rows;
use crate::gui::state::Cx;
use crate::gui::state::command::Command;
use crate::gui::state::view::PasteInto;
use crate::gui::widgets::choices_of;
use crate::gui::widgets::rows;
use crate::gui::widgets::section::more;
use crate::job::{FootOn, MeasuredOn, Side, Suspension, fields, paste, point_key, points_of};
use crate::say;
use crate::solve::answer::PointName;

/// The arm's lengths and angles.
pub fn arm(ui: &mut Ui, cx: &mut Cx<'_>, side: Side, part: &str) {
    axle_rows(ui, cx, side, &[&format!("{part}.seat_arm"), &format!("{part}.seat_angle")]);
    axle_rows(ui, cx, side, &["linkage.arm_length", "linkage.arm_slope"]);
    let is_trailing = Shape::of(cx.job.axle(side).suspension) == Shape::Trailing;
    if !is_trailing {
        let inside = ["joint_share", "instant_centre", "lower_outer.out", "wheel.out"];
        let inside = inside.map(|key| format!("{}.linkage.{key}", side.key()));
        more(ui, cx, tr("More: how far the ball joint moves up with the wheel"), &inside, false, |ui, cx| {
            let keys =
                ["linkage.joint_share", "linkage.instant_centre", "linkage.lower_outer.out", "linkage.wheel.out"];
            axle_rows(ui, cx, side, &keys);
        });
    }
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Shape {
    Across,
    Strut,
    Trailing,
    None,
}

impl Shape {
    fn of(suspension: Suspension) -> Self {
        match suspension {
            Suspension::TwoArms => Shape::Across,
            Suspension::Strut => Shape::Strut,
            Suspension::TrailingArm | Suspension::SemiTrailingArm | Suspension::TwistBeam => Shape::Trailing,
            Suspension::NotSaid | Suspension::Beam | Suspension::Other => Shape::None,
        }
    }
}

/// The table of points; of the damper only its own two, where the spring's table has the rest.
pub fn form(ui: &mut Ui, cx: &mut Cx<'_>, side: Side, part: &str) {
    let suspension = cx.job.axle(side).suspension;
    let shape = Shape::of(suspension);
    if shape == Shape::None {
        let words = tr(
            "Points apply only to a double wishbone, a strut or a trailing arm: choose above what guides the wheel.",
        );
        ui.add(Label::new(RichText::new(words).italics()).wrap());
        return;
    }
    let is_spring = part == "ratio";
    let words = match shape {
        Shape::Trailing => tr(
            "At ride height, in the plane square to the pivot axis: measure rearward from a plumb line and up from the floor.",
        ),
        _ => tr(
            "At ride height, on one side: measure outward from a chalk line on the centreline and up from the level floor.",
        ),
    };
    ui.add(Label::new(RichText::new(words).small()).wrap());
    pasted(ui, cx, side);
    if is_spring {
        let on = &mut cx.job.axle_mut(side).linkage.measured_on;
        choices_of(ui, Some(tr("Measured:")), on, MeasuredOn::ALL, MeasuredOn::words);
    }
    head(ui, shape);
    if is_spring {
        for point in points_of(suspension) {
            row(ui, cx, side, *point);
        }
        row(ui, cx, side, PointName::Ground);
    }
    let (ends, key) = if is_spring {
        ([PointName::SpringTop, PointName::SpringFoot], "spring_on")
    } else {
        ([PointName::DamperTop, PointName::DamperFoot], "damper_on")
    };
    if shape == Shape::Strut {
        let words = tr("A spring or damper on the strut itself does not need separate points.");
        ui.add(Label::new(RichText::new(words).small()).wrap());
    }
    ends.into_iter().for_each(|point| row(ui, cx, side, point));
    if shape != Shape::Trailing {
        carrier(ui, cx, side, key, shape);
    }
    cx.when(ui.button(tr("Paste points…")), Command::Paste(PasteInto::Points(side)));
    if is_spring {
        extras(ui, cx, side, shape);
    }
}

/// What carries the lower end.
fn carrier(ui: &mut Ui, cx: &mut Cx<'_>, side: Side, key: &str, shape: Shape) {
    let linkage = &mut cx.job.axle_mut(side).linkage;
    let on = if key == "spring_on" { &mut linkage.spring_on } else { &mut linkage.damper_on };
    let all = FootOn::ALL.into_iter().filter(|one| shape != Shape::Strut || *one != FootOn::UpperArm);
    choices_of(ui, Some(tr("Lower end fixed to:")), on, all, FootOn::words);
}

/// Plan angle, tie rod.
fn extras(ui: &mut Ui, cx: &mut Cx<'_>, side: Side, shape: Shape) {
    if shape == Shape::Trailing {
        axle_rows(ui, cx, side, &["linkage.plan_angle"]);
        return;
    }
    let inside = ["rod_inner.", "rod_outer.", "steering_arm"].map(|key| format!("{}.linkage.{key}", side.key()));
    more(ui, cx, tr("More: tie rod, for the toe change"), &inside, false, |ui, cx| {
        head(ui, shape);
        row(ui, cx, side, PointName::RodInner);
        row(ui, cx, side, PointName::RodOuter);
        axle_rows(ui, cx, side, &["linkage.steering_arm"]);
    });
}

const NAME: f32 = 190.0;
const CELL: f32 = 104.0;

fn head(ui: &mut Ui, shape: Shape) {
    ui.horizontal(|ui| {
        ui.add_space(NAME + ui.spacing().item_spacing.x);
        let out = if shape == Shape::Trailing { tr("to the rear") } else { tr("outward") };
        for caption in [out, tr("height")] {
            ui.add_sized(vec2(CELL, 16.0), Label::new(RichText::new(caption).small()));
        }
    });
}

/// One point: its letter and name, outward, height.
fn row(ui: &mut Ui, cx: &mut Cx<'_>, side: Side, point: PointName) {
    let cells = ["out", "up"].map(|way| format!("{}.linkage.{}.{way}", side.key(), point_key(point)));
    ui.horizontal_wrapped(|ui| {
        let name = format!("{}  {}", point.letter(), point.words());
        ui.add_sized(vec2(NAME, 30.0), Label::new(name).truncate());
        for cell in &cells {
            if let Some((field, _)) = fields::by_path(cell) {
                cx.entry(ui, cell, field, vec2(CELL, 30.0));
            }
        }
    });
    for cell in &cells {
        cx.below(ui, cell);
    }
}

/// The paste area for points.
fn pasted(ui: &mut Ui, cx: &mut Cx<'_>, side: Side) {
    let (units, mark, suspension) = (cx.job.units, cx.job.decimal, cx.job.axle(side).suspension);
    let words = say!(
        "One point per line: its letter, then both dimensions. Numbers without a unit are in {unit}.",
        unit = units.unit(Dim::Length).symbol
    );
    let read = |text: &str| paste::points(text, suspension, &units, mark);
    let echo = |ui: &mut Ui, found: paste::PastedPoints| {
        let one = |(point, [out, up]): &(PointName, [String; 2])| format!("{} {out}, {up}", point.letter());
        let points: Vec<String> = found.points.iter().map(one).collect();
        let echo = say!("Read as {count} points: {points}.", count = points.len(), points = points.join("; "));
        ui.add(Label::new(RichText::new(echo).small()).wrap());
    };
    let ways = [(true, tr("Use these points"), Command::TakePastedPoints(side))];
    rows::paste_area(ui, cx, &PasteInto::Points(side), &words, read, echo, &ways);
}
