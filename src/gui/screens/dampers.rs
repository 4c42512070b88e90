//! Dampers: how well damped, the forces to order by, the old damper and a candidate.

use eframe::egui::{Label, RichText, Ui};

use crate::base::language::tr;
use crate::gui::drawings::plots;
use crate::gui::screens::axle_choice;
use crate::gui::screens::axle_rows;
use crate::gui::screens::measure;
use crate::gui::screens::pictures_of;
use crate::gui::screens::weigh::text_row;
use crate::gui::state::Cx;
use crate::gui::state::section::Section;
use crate::gui::widgets::in_view;
use crate::gui::widgets::numbers;
use crate::gui::widgets::rows;
use crate::gui::widgets::section::more;
use crate::gui::widgets::tables;
use crate::gui::widgets::theme::UNIT;
use crate::gui::widgets::{choices, choices_of};
use crate::job::{DamperPlan, Goal, Side};
use crate::report::sections::{damper_tables, dampers_stay};

const OLD: [&str; 7] = [
    "damper.bump_rate",
    "damper.rebound_rate",
    "damper.fitted_length",
    "damper.closed_length",
    "damper.open_length",
    "damper.gas_pressure",
    "damper.rod_diameter",
];
const CURVES: [&str; 4] = ["target.peak_speed", "target.knee_speed", "target.upper_share", "target.hot_loss"];

/// The form.
pub fn form(ui: &mut Ui, cx: &mut Cx<'_>) {
    let side = axle_choice(ui, cx);
    let key = side.key();
    choices_of(ui, None, &mut cx.job.axle_mut(side).dampers, DamperPlan::ALL, DamperPlan::words);
    cx.section(ui, Section::Damping);
    choices(ui, |ui| {
        let goal = &mut cx.job.axle_mut(side).target.damping_goal;
        ui.radio_value(goal, Goal::Range, tr("within a range of damping ratio"));
        ui.radio_value(goal, Goal::AsBefore, tr("damping as before"));
    });
    match cx.job.axle(side).target.damping_goal {
        Goal::Range => axle_rows(ui, cx, side, &["target.damping_low", "target.damping_high"]),
        Goal::AsBefore => axle_rows(ui, cx, side, &["target.damping_margin"]),
    }
    axle_rows(ui, cx, side, &["target.rebound_over_bump"]);
    cx.section(ui, Section::DamperRatio);
    measure::ratio(ui, cx, side, "damper_ratio");
    if cx.shown.answer.defaults.iter().any(|d| d.path == format!("{key}.damper_ratio")) {
        let words = tr("Blank: same as the spring (default). This is right for a damper next to or inside the spring.");
        ui.label(RichText::new(words).italics().small());
    }
    cx.section(ui, Section::OldDamper);
    axle_rows(ui, cx, side, &["damper.ratio_before"]);
    more(ui, cx, tr("Old damper curve, from a damper dyno"), &[format!("{key}.damper.rows")], false, |ui, cx| {
        curve_words(ui, tr("The damping ratio before the change is then calculated from this curve."));
        rows::table(ui, cx, side, "damper.rows");
    });
    let inside = OLD.map(|field| format!("{key}.{field}"));
    more(ui, cx, tr("More: measured rates, lengths, gas"), &inside, false, |ui, cx| {
        axle_rows(ui, cx, side, &OLD);
    });
    let inside = [format!("{key}.new_damper.")];
    cx.folded_section(
        ui,
        Section::NewDamper,
        tr("Candidate damper: length, curve, clicks"),
        &inside,
        false,
        |ui, cx| {
            let thought_of = &mut cx.job.axle_mut(side).new_damper;
            text_row(ui, tr("Candidate damper: description"), &mut thought_of.what);
            text_row(ui, tr("What the clicks adjust, and where counting starts"), &mut thought_of.adjuster);
            axle_rows(ui, cx, side, &["new_damper.closed_length", "new_damper.open_length"]);
            curve_words(ui, tr("If the damper has an adjuster, enter the click setting first in each row."));
            rows::table(ui, cx, side, "new_damper.rows");
        },
    );
    let inside = ["bore", "body", "spring_plate"].map(|field| format!("{key}.order.{field}"));
    more(ui, cx, tr("More: details for the damper supplier"), &inside, false, |ui, cx| {
        let order = &mut cx.job.axle_mut(side).order;
        text_row(ui, tr("Strut: lengths measured between (lower and upper point)"), &mut order.damper_points);
        text_row(ui, tr("Upper mount"), &mut order.upper_mount);
        text_row(ui, tr("Lower mount"), &mut order.lower_mount);
        axle_rows(ui, cx, side, &["order.bore", "order.body", "order.spring_plate"]);
    });
    let inside = CURVES.map(|field| format!("{key}.{field}"));
    more(ui, cx, tr("More: peak speed, two slopes, heat"), &inside, false, |ui, cx| {
        axle_rows(ui, cx, side, &CURVES);
    });
}

fn curve_words(ui: &mut Ui, more: &str) {
    let words = tr(
        "Enter speeds and forces at the damper, without signs and without gas force. The curve is straight between the points.",
    );
    let words = format!("{words} {more}");
    ui.add(Label::new(RichText::new(words).small()).wrap());
}

/// Force against speed, and the damper in numbers.
pub fn pictures(ui: &mut Ui, cx: &mut Cx<'_>) {
    let side = cx.view.side();
    pictures_of(ui, cx, &[Section::Damping, Section::OldDamper, Section::NewDamper]);
    let blocks = &*cx.shown.dampers[side];
    ui.heading(dampers_stay::title(&cx.shown.answer, side, &cx.job.units));
    // The forces are what is ordered by, and lead; then what they come from.
    let (facts, forces) = blocks.split_at(blocks.len().min(1));
    in_view::only(ui, "damper forces", |ui| tables::all(ui, "damper forces", forces));
    in_view::only(ui, "damper", |ui| tables::all(ui, "damper", facts));
    if let Some(picture) = cx.shown.force_speed[side].as_ref().filter(|_| !blocks.is_empty()) {
        plots::draw_high(ui, picture, "force-speed", &cx.job.units, cx.dark, 330.0, cx.commands);
    }
    ui.add(Label::new(tr(damper_tables::WHAT_EACH_DOES)).wrap());
    ui.add_space(UNIT);
    from_list(ui, cx, side);
    pictures_of(ui, cx, &[Section::DamperRatio]);
    measure::row_pictures(ui, cx, &cx.shown.damper_rows[side]);
    let keys = ["damping.", "damper_motion", "old_damper.", "new_damper."].map(|k| format!("{}.{k}", side.key()));
    numbers::show(ui, cx, &keys);
}

/// Dampers of the parts list, once step Choose has read it.
fn from_list(ui: &mut Ui, cx: &Cx<'_>, side: Side) {
    let said = cx.choosing.dampers(side);
    if said.is_empty() {
        ui.small(tr("The Choose step also searches the parts list for dampers."));
        return;
    }
    if !cx.choosing.is_current() {
        ui.label(RichText::new(tr("Result from before your last change:")).italics());
    }
    tables::all(ui, "list-damper", said);
}
