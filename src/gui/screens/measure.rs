//! Measure: motion ratio, the spring as fitted, and how far the wheel can move.

use eframe::egui::Ui;

use crate::base::language::tr;
use crate::gui::drawings::linkage_to_scale;
use crate::gui::drawings::plots;
use crate::gui::drawings::routes;
use crate::gui::drawings::sketches;
use crate::gui::drawings::travel_ruler;
use crate::gui::screens::axle_choice;
use crate::gui::screens::axle_rows;
use crate::gui::screens::linkage_points;
use crate::gui::screens::pictures_of;
use crate::gui::screens::spring;
use crate::gui::state::Cx;
use crate::gui::state::section::Section;
use crate::gui::widgets::heading;
use crate::gui::widgets::in_view;
use crate::gui::widgets::numbers;
use crate::gui::widgets::rows;
use crate::gui::widgets::section::more;
use crate::gui::widgets::tables;
use crate::gui::widgets::theme::UNIT;
use crate::gui::widgets::{choices, choices_of};
use crate::job::{AxleKind, Coaxial, MeasuredAt, MotionRatio, RatioBy, Side, SpringKind, Suspension};
use crate::report::pictures::picture::Picture;
use crate::report::sections::spring_tables;

/// The form.
pub fn form(ui: &mut Ui, cx: &mut Cx<'_>) {
    let side = axle_choice(ui, cx);
    cx.section(ui, Section::Suspension);
    suspension(ui, cx, side);
    spring::kind(ui, cx, side);
    if cx.job.axle(side).spring.kind != SpringKind::TorsionBar {
        cx.section(ui, Section::Ratio);
        ratio(ui, cx, side, "ratio");
    }
    cx.section(ui, Section::OldSpring);
    spring::form(ui, cx, side);
    cx.section(ui, Section::Travel);
    ui.label(tr("Travel from ride height:"));
    axle_rows(ui, cx, side, &["travel.stop_gap", "travel.metal", "travel.droop"]);
    let key = side.key();
    let inside: Vec<String> = ["stop.", "parallel.", "tyre_rate"].map(|k| format!("{key}.{k}")).to_vec();
    more(ui, cx, tr("More: bump stop, bushes, tyre, time of measurement"), &inside, false, |ui, cx| {
        axle_rows(ui, cx, side, &["stop.rate", "stop.ratio"]);
        let by_design = &mut cx.job.axle_mut(side).stop.by_design;
        ui.checkbox(by_design, tr("body rests on the bump stop by design"));
        ui.small(tr("For a progressive bump stop: enter compression and load instead of a rate."));
        rows::table(ui, cx, side, "stop.rows");
        axle_rows(ui, cx, side, &["parallel.rate", "parallel.neutral", "tyre_rate"]);
        ui.label(tr("Lengths, gaps and travel were measured:"));
        ui.radio_value(
            &mut cx.job.measured_at,
            MeasuredAt::Before,
            tr("before the change (if the vehicle was not weighed then: as it is now)"),
        );
        ui.radio_value(&mut cx.job.measured_at, MeasuredAt::After, tr("after the change, on the old springs"));
    });
    let inside = [format!("{key}.checks.")];
    cx.folded_section(ui, Section::Routes, tr("Other ways of finding the wheel rate"), &inside, false, |ui, cx| {
        axle_rows(ui, cx, side, &["checks.arch_before", "checks.arch_after"]);
        axle_rows(ui, cx, side, &["checks.ballast", "checks.ballast_drop"]);
        axle_rows(ui, cx, side, &["checks.bounces", "checks.bounce_time"]);
        axle_rows(ui, cx, side, &["checks.friction"]);
    });
}

/// What guides the wheel, of those that suit the kind of axle.
fn suspension(ui: &mut Ui, cx: &mut Cx<'_>, side: Side) {
    heading(ui, tr("What guides the wheel?"));
    let axle = cx.job.axle_mut(side);
    let all = Suspension::ALL.into_iter().filter(|s| s.suits(axle.kind));
    choices_of(ui, None, &mut axle.suspension, all, Suspension::words);
    if axle.spring.kind.is_coil() || axle.damper.coaxial != Coaxial::NotSaid {
        let words = tr("Spring and damper:");
        choices_of(ui, Some(words), &mut axle.damper.coaxial, Coaxial::ALL, Coaxial::words);
    }
    if cx.job.axle(side).suspension == Suspension::Beam {
        let inside = [format!("{}.linkage.beam_", side.key())];
        more(ui, cx, tr("More: roll centre, from Panhard rod or leaf spring"), &inside, false, |ui, cx| {
            axle_rows(ui, cx, side, &["linkage.beam_first.out", "linkage.beam_first.up"]);
            axle_rows(ui, cx, side, &["linkage.beam_second.out", "linkage.beam_second.up"]);
        });
    }
}

/// One motion ratio, by its ways.
pub fn ratio(ui: &mut Ui, cx: &mut Cx<'_>, side: Side, part: &str) {
    let is_spring = part == "ratio";
    let axle = cx.job.axle_mut(side);
    let data: &mut MotionRatio = if is_spring { &mut axle.ratio } else { &mut axle.damper_ratio };
    heading(
        ui,
        if is_spring {
            tr("How far does the spring move when the wheel moves?")
        } else {
            tr("How far does the damper move when the wheel moves?")
        },
    );
    choices(ui, |ui| {
        ui.radio_value(&mut data.by, RatioBy::Moved, tr("two readings"));
        ui.radio_value(&mut data.by, RatioBy::Rows, tr("table"));
        ui.radio_value(&mut data.by, RatioBy::Lean, tr("by spring angle"));
        ui.radio_value(&mut data.by, RatioBy::Number, tr("known ratio"));
        ui.radio_value(&mut data.by, RatioBy::Arm, tr("arm lengths"));
        ui.radio_value(&mut data.by, RatioBy::Points, tr("points"));
    });
    match data.by {
        RatioBy::Moved => axle_rows(ui, cx, side, &[&format!("{part}.wheel_moved"), &format!("{part}.part_moved")]),
        RatioBy::Lean => axle_rows(ui, cx, side, &[&format!("{part}.lean"), &format!("{part}.arm")]),
        RatioBy::Number => axle_rows(ui, cx, side, &[&format!("{part}.number"), &format!("{part}.confirm")]),
        RatioBy::Rows => rows::table(ui, cx, side, &format!("{part}.rows")),
        RatioBy::Arm => linkage_points::arm(ui, cx, side, part),
        RatioBy::Points => linkage_points::form(ui, cx, side, part),
    }
    let axle = cx.job.axle(side);
    let data = if is_spring { &axle.ratio } else { &axle.damper_ratio };
    let by_rows = matches!(data.by, RatioBy::Rows | RatioBy::Points);
    if data.by != RatioBy::Number && !data.confirm.is_blank() {
        axle_rows(ui, cx, side, &[&format!("{part}.confirm")]);
    }
    if !by_rows {
        let inside = [format!("{}.{part}.slope", side.key())];
        more(ui, cx, tr("More: does the ratio change with travel?"), &inside, false, |ui, cx| {
            axle_rows(ui, cx, side, &[&format!("{part}.slope")]);
        });
    }
    if is_spring && cx.job.axle(side).kind == AxleKind::Beam {
        axle_rows(ui, cx, side, &["spring_base"]);
    }
    let answer = &cx.shown.answer;
    let words = spring_tables::ratio(answer.axle(side), answer.checked(side), !is_spring, &cx.job.units);
    ui.small(words);
}

/// Lengths against travel, what is left over, and the wheel rate.
pub fn row_pictures(ui: &mut Ui, cx: &mut Cx<'_>, pictures: &[Picture]) {
    for (picture, (id, height)) in pictures.iter().zip([("rows", 200.0), ("left", 140.0), ("rate", 180.0)]) {
        plots::draw_high(ui, picture, id, &cx.job.units, cx.dark, height, cx.commands);
        ui.add_space(UNIT);
    }
}

/// Motion ratio, camber and roll centre over the travel, by points.
fn linkage_pictures(ui: &mut Ui, cx: &mut Cx<'_>, pictures: &[Picture]) {
    for (i, picture) in pictures.iter().enumerate() {
        plots::draw_high(ui, picture, &format!("linkage-{i}"), &cx.job.units, cx.dark, 160.0, cx.commands);
        ui.add_space(UNIT);
    }
}

/// Sketch, travel ruler, load picture, rows and routes.
pub fn pictures(ui: &mut Ui, cx: &mut Cx<'_>) {
    let side = cx.view.side();
    let is_drawn = pictures_of(ui, cx, &[Section::Suspension, Section::Ratio]);
    if linkage_to_scale::is_wanted(cx, side) {
        linkage_to_scale::show(ui, cx, side);
    } else if !is_drawn && cx.shown.ratio_rows[side].is_empty() {
        sketches::show(ui, cx, side);
    }
    linkage_pictures(ui, cx, &cx.shown.linkage[side]);
    row_pictures(ui, cx, &cx.shown.ratio_rows[side]);
    pictures_of(ui, cx, &[Section::OldSpring]);
    in_view::only(ui, "old", |ui| tables::all(ui, "old", &*cx.shown.old_spring[side]));
    plots::draw(ui, cx.shown.load_travel[side].as_ref(), "load-travel", &cx.job.units, cx.dark, cx.commands);
    ui.add_space(UNIT);
    pictures_of(ui, cx, &[Section::Travel]);
    travel_ruler::show(ui, cx, side);
    ui.add_space(UNIT);
    pictures_of(ui, cx, &[Section::Routes]);
    routes::show(ui, cx, side);
    let key = side.key();
    if cx.job.axle(side).spring.kind.is_coil() {
        let title = tr("Spring steels and sources");
        eframe::egui::CollapsingHeader::new(title).id_salt("steels").show(ui, |ui| {
            tables::table(ui, "steels", &spring_tables::steels(&cx.job.units));
            ui.small(tr(spring_tables::STEEL_SOURCES));
        });
    }
    numbers::show(
        ui,
        cx,
        &[
            format!("{key}.before."),
            format!("{key}.old_spring"),
            format!("{key}.bar."),
            format!("{key}.motion_ratio"),
            format!("{key}.ratio_slope"),
            format!("{key}.roll_ratio"),
            format!("{key}.linkage."),
            format!("{key}.routes."),
            format!("{key}.old_free"),
        ],
    );
}
