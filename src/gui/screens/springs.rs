//! Springs: what the axle should do, and the spring for it.

use eframe::egui::Ui;

use super::{axle_choice, axle_rows, heading, numbers, tables};
use crate::gui::field::Cx;
use crate::gui::plots;
use crate::gui::theme::UNIT;
use crate::job::{Goal, Plan, Side};
use crate::report::sheet;

/// The form.
pub fn form(ui: &mut Ui, cx: &mut Cx<'_>) {
    let side = axle_choice(ui, cx);
    ui.horizontal(|ui| {
        let plan = &mut cx.job.axle_mut(side).plan;
        ui.radio_value(plan, Plan::NewSprings, "new springs");
        ui.radio_value(plan, Plan::Keep, "keep the old springs");
    });
    heading(ui, "How should it ride?");
    ui.horizontal(|ui| {
        let goal = &mut cx.job.axle_mut(side).target.goal;
        ui.radio_value(goal, Goal::Range, "within a range of bounces per second");
        ui.radio_value(goal, Goal::AsBefore, "as before");
    });
    match cx.job.axle(side).target.goal {
        Goal::Range => axle_rows(ui, cx, side, &["target.low", "target.high"]),
        Goal::AsBefore => {
            axle_rows(ui, cx, side, &["target.margin"]);
            cx.below(ui, &format!("{}.target.low", side.key()));
        }
    }
    axle_rows(ui, cx, side, &["target.raise"]);
    heading(ui, "What can be bought");
    axle_rows(ui, cx, side, &["stock.step", "stock.settle", "stock.solid_length"]);
}

/// Frequency against rate, load against travel, and the spring in numbers.
pub fn pictures(ui: &mut Ui, cx: &mut Cx<'_>) {
    let side = cx.view.side();
    let index = usize::from(side == Side::Rear);
    plots::draw(ui, cx.shown.frequency_rate[index].as_ref(), "frequency-rate", &cx.job.units, cx.dark);
    ui.add_space(UNIT);
    if let Some(block) = sheet::springs(cx.shown.answer.axle(side), &cx.job.units) {
        tables::table(ui, "spring", &block);
    }
    ui.add_space(UNIT);
    plots::draw(ui, cx.shown.load_travel[index].as_ref(), "load-travel", &cx.job.units, cx.dark);
    ui.add_space(UNIT);
    let key = side.key();
    numbers::show(ui, cx, &[format!("{key}.sizing."), format!("{key}.room."), format!("{key}.new_springs.")]);
}
