//! Where the parts of the window stand: beside each other, below each other, or all on one long page.

mod answer;
mod findings;
pub(super) mod menu;
mod question;
mod steps;

use eframe::egui::{CentralPanel, Color32, Frame, Panel, Ui};

use crate::gui::state::Cx;
use crate::gui::widgets::scroll;
use crate::gui::widgets::theme::{NARROW, UNIT};
use crate::gui::{help, screens};

/// Below this height, points, the answer and the steps scroll with the rest: a small screen or a large zoom.
const LOW: f32 = 600.0;
/// The same where the answer stands above its strip.
const LOW_NARROW: f32 = 760.0;

/// The frame of a bar. The window was cleared in the panels' colour: filling them with it again would only take time.
pub(in crate::gui) fn bar(ui: &Ui) -> Frame {
    Frame::side_top_panel(ui.style()).fill(Color32::TRANSPARENT)
}

/// The frame of what the bars leave.
fn page(ui: &Ui) -> Frame {
    Frame::central_panel(ui.style()).fill(Color32::TRANSPARENT)
}

/// Draws all of it; the menu is there already.
pub(in crate::gui) fn show(ui: &mut Ui, cx: &mut Cx<'_>) {
    let size = ui.ctx().content_rect().size();
    if size.y < if size.x < NARROW { LOW_NARROW } else { LOW } {
        return on_one_page(ui, cx);
    }
    Panel::top("answer").frame(bar(ui)).show(ui, |ui| answer::show(ui, cx));
    Panel::top("steps").frame(bar(ui)).show(ui, |ui| steps::show(ui, cx));
    if cx.view.guide.is_some() {
        Panel::top("guide").frame(bar(ui)).show(ui, |ui| help::guide::show(ui, cx));
    }
    Panel::bottom("help").frame(bar(ui)).show(ui, |ui| help::line::show(ui, cx));
    Panel::bottom("findings").frame(bar(ui)).show(ui, |ui| findings::show(ui, cx));
    CentralPanel::default().frame(page(ui)).show(ui, |ui| {
        if list(ui, cx) {
            return;
        }
        if ui.available_width() < NARROW {
            scroll::page(ui, &of_step("page", cx), |ui| below_each_other(ui, cx));
        } else {
            beside_each_other(ui, cx);
        }
    });
}

/// A list that stands in place of form and pictures, if one is open.
fn list(ui: &mut Ui, cx: &mut Cx<'_>) -> bool {
    if cx.view.jobs.is_some() {
        screens::jobs::show(ui, cx);
    } else if cx.view.glossary.is_some() {
        help::words::show(ui, cx);
    } else {
        return false;
    }
    true
}

fn below_each_other(ui: &mut Ui, cx: &mut Cx<'_>) {
    screens::form(ui, cx);
    ui.add_space(2.0 * UNIT);
    screens::pictures(ui, cx);
}

fn beside_each_other(ui: &mut Ui, cx: &mut Cx<'_>) {
    let width = (0.46 * ui.available_width()).clamp(560.0, 640.0);
    Panel::left("form").frame(bar(ui)).exact_size(width).resizable(false).show(ui, |ui| {
        scroll::part(ui, &of_step("form", cx), |ui| screens::form(ui, cx));
    });
    CentralPanel::default().frame(page(ui)).show(ui, |ui| {
        scroll::page(ui, &of_step("pictures", cx), |ui| screens::pictures(ui, cx));
    });
}

/// Little room: the answer of the axle that is shown stays on one line, everything else scrolls.
fn on_one_page(ui: &mut Ui, cx: &mut Cx<'_>) {
    Panel::top("answer line").frame(bar(ui)).show(ui, |ui| answer::line(ui, cx));
    CentralPanel::default().frame(page(ui)).show(ui, |ui| {
        if list(ui, cx) {
            return;
        }
        scroll::page(ui, &of_step("all", cx), |ui| {
            help::guide::show(ui, cx);
            steps::show(ui, cx);
            ui.separator();
            below_each_other(ui, cx);
            ui.separator();
            answer::show(ui, cx);
            ui.separator();
            findings::show(ui, cx);
            help::line::show(ui, cx);
        });
    });
}

/// Each step keeps its own place on the page.
fn of_step(part: &str, cx: &Cx<'_>) -> String {
    format!("{part} {}", cx.view.step.key())
}
