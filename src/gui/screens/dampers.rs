//! Dampers: how well damped, and the forces to order by.

use eframe::egui::{RichText, Ui};

use super::{axle_choice, axle_rows, heading, measure, more, numbers, tables};
use crate::gui::field::Cx;
use crate::gui::theme::UNIT;
use crate::job::Side;
use crate::report::sheet;

/// The form.
pub fn form(ui: &mut Ui, cx: &mut Cx<'_>) {
    let side = axle_choice(ui, cx);
    heading(ui, "How well damped should it be?");
    axle_rows(ui, cx, side, &["target.damping_low", "target.damping_high", "target.rebound_over_bump"]);
    measure::ratio(ui, cx, side, "damper_ratio");
    if cx.shown.answer.defaults.iter().any(|d| d.path == format!("{}.damper_ratio", side.key())) {
        ui.label(
            RichText::new("Blank: taken as the spring's (default), right for a damper beside or inside the spring.")
                .italics()
                .small(),
        );
    }
    heading(ui, "Damper as fitted");
    axle_rows(ui, cx, side, &["damper.ratio_before"]);
    let key = side.key();
    more(ui, cx, "More: measured rates, lengths, gas", &[format!("{key}.damper.")], false, |ui, cx| {
        axle_rows(
            ui,
            cx,
            side,
            &[
                "damper.bump_rate",
                "damper.rebound_rate",
                "damper.fitted_length",
                "damper.closed_length",
                "damper.open_length",
                "damper.gas_pressure",
                "damper.rod_diameter",
            ],
        );
    });
}

/// The damper in numbers.
pub fn pictures(ui: &mut Ui, cx: &mut Cx<'_>) {
    let side = cx.view.side();
    let blocks = sheet::dampers(cx.shown.answer.axle(side), &cx.job.units);
    ui.heading(format!("{} damper: what to ask for", side.word()));
    if blocks.is_empty() {
        ui.label("Not known yet: weights, motion ratio and a spring come first.");
    }
    for (i, block) in blocks.iter().enumerate() {
        tables::table(ui, &format!("damper-{i}"), block);
        ui.add_space(2.0 * UNIT);
    }
    measure::row_pictures(ui, cx, &cx.shown.damper_rows[usize::from(side == Side::Rear)]);
    ui.label("A stiffer spring alone does not calm the motion: the spring holds the height and the room, the damper ends the bounce. Both are sized together here.");
    ui.add_space(UNIT);
    numbers::show(ui, cx, &[format!("{}.damping.", side.key()), format!("{}.damper_motion", side.key())]);
}
