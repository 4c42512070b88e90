//! Measure: motion ratio, the spring as fitted, and how far the wheel can move.

use eframe::egui::{RichText, Ui};

use super::{axle_choice, axle_rows, heading, more, numbers};
use crate::gui::field::Cx;
use crate::gui::theme::UNIT;
use crate::gui::{drawings, plots};
use crate::job::{MeasuredAt, MotionRatio, RatioBy, RatioRow, Side};
use crate::units::Quantity as _;

/// The form.
pub fn form(ui: &mut Ui, cx: &mut Cx<'_>) {
    let side = axle_choice(ui, cx);
    ratio(ui, cx, side, "ratio");
    heading(ui, "Spring as fitted");
    axle_rows(ui, cx, side, &["spring.rate", "spring.fitted_length"]);
    heading(ui, "Wheel travel from ride height");
    axle_rows(ui, cx, side, &["travel.stop_gap", "travel.metal", "travel.droop"]);
    let key = side.key();
    let inside: Vec<String> =
        ["spring.free_length", "spring.solid_length", "parallel", "tyre_rate"].map(|k| format!("{key}.{k}")).to_vec();
    more(ui, cx, "More: free and solid length, rubber, tyre, when it was measured", &inside, false, |ui, cx| {
        axle_rows(
            ui,
            cx,
            side,
            &["spring.free_length", "spring.solid_length", "parallel.rate", "parallel.neutral", "tyre_rate"],
        );
        ui.label("Lengths, gaps and travel were measured:");
        ui.radio_value(
            &mut cx.job.measured_at,
            MeasuredAt::Before,
            "before the change (or, without before-weights, as it stands now)",
        );
        ui.radio_value(&mut cx.job.measured_at, MeasuredAt::After, "after the change, on the old springs");
    });
}

/// One motion ratio, by its three ways.
pub fn ratio(ui: &mut Ui, cx: &mut Cx<'_>, side: Side, part: &str) {
    let is_spring = part == "ratio";
    let axle = cx.job.axle_mut(side);
    let data: &mut MotionRatio = if is_spring { &mut axle.ratio } else { &mut axle.damper_ratio };
    heading(
        ui,
        if is_spring {
            "How far does the spring move when the wheel moves?"
        } else {
            "How far does the damper move when the wheel moves?"
        },
    );
    ui.horizontal(|ui| {
        ui.radio_value(&mut data.by, RatioBy::Moved, "two lengths");
        ui.radio_value(&mut data.by, RatioBy::Rows, "rows");
        ui.radio_value(&mut data.by, RatioBy::Lean, "its lean");
        ui.radio_value(&mut data.by, RatioBy::Number, "a number");
    });
    match data.by {
        RatioBy::Moved => axle_rows(ui, cx, side, &[&format!("{part}.wheel_moved"), &format!("{part}.part_moved")]),
        RatioBy::Lean => axle_rows(ui, cx, side, &[&format!("{part}.lean"), &format!("{part}.arm")]),
        RatioBy::Number => axle_rows(ui, cx, side, &[&format!("{part}.number"), &format!("{part}.confirm")]),
        RatioBy::Rows => rows(ui, cx, side, part),
    }
    let found = cx.shown.answer.axle(side);
    let found = if is_spring { found.motion_ratio } else { found.damper_motion_ratio };
    let words = match found {
        Some(r) => format!("Motion ratio {:.3} (part ÷ wheel); rate at the wheel is × {:.3}.", r.si(), r.si() * r.si()),
        None => "Motion ratio not known yet.".into(),
    };
    ui.label(RichText::new(words).small());
}

fn rows(ui: &mut Ui, cx: &mut Cx<'_>, side: Side, part: &str) {
    let key = side.key();
    let list = |cx: &mut Cx<'_>| -> usize {
        let axle = cx.job.axle_mut(side);
        if part == "ratio" { axle.ratio.rows.len() } else { axle.damper_ratio.rows.len() }
    };
    let count = list(cx);
    ui.horizontal(|ui| {
        ui.add_space(36.0);
        ui.label(RichText::new("wheel travel, up is +").small());
        ui.add_space(UNIT);
        ui.label(RichText::new("length there").small());
    });
    for i in 0..count {
        let paths = [format!("{key}.{part}.rows[{i}].wheel"), format!("{key}.{part}.rows[{i}].length")];
        ui.horizontal(|ui| {
            ui.label(format!("{:>2}", i + 1));
            for path in &paths {
                if let Some((field, _)) = crate::job::fields::by_path(path) {
                    cx.entry(ui, path, field, eframe::egui::vec2(128.0, 30.0));
                }
            }
        });
        for path in &paths {
            cx.below(ui, path);
        }
    }
    ui.horizontal(|ui| {
        let axle = cx.job.axle_mut(side);
        let rows = if part == "ratio" { &mut axle.ratio.rows } else { &mut axle.damper_ratio.rows };
        if ui.button("Add a row").clicked() {
            rows.push(RatioRow::default());
        }
        if ui.add_enabled(count > 0, eframe::egui::Button::new("Take the last row away")).clicked() {
            rows.pop();
        }
    });
}

/// The travel ruler and the load picture.
pub fn pictures(ui: &mut Ui, cx: &mut Cx<'_>) {
    let side = cx.view.side();
    drawings::travel_ruler(ui, cx, side);
    ui.add_space(UNIT);
    let index = usize::from(side == Side::Rear);
    plots::draw(ui, cx.shown.load_travel[index].as_ref(), "load-travel", &cx.job.units, cx.dark);
    ui.add_space(UNIT);
    let key = side.key();
    numbers::show(
        ui,
        cx,
        &[
            format!("{key}.before."),
            format!("{key}.old_springs."),
            format!("{key}.motion_ratio"),
            format!("{key}.old_free"),
        ],
    );
}
