//! What comes and goes: questions, notices, the list of findings float over the pictures; the guide is below them, the hint
//! below them or, where they are above the form, below that.
//! None of it moves the form.

use eframe::egui::{Align2, Area, Frame, Id, Margin, Order, Panel, Rect, Ui, Vec2, vec2};

use super::{findings, menu, question};
use crate::base::language::tr;
use crate::gui::help::{guide, hint};
use crate::gui::state::Cx;
use crate::gui::widgets::field::finding_line;
use crate::gui::widgets::theme::UNIT;

/// Width of what floats, points, and the minimum of the window left next to it.
const WIDTH: f32 = 540.0;
/// Height of the line at the foot.
const FOOT: f32 = 26.0;
/// From the edges of the window.
const OFF: f32 = 12.0;

fn has_any(cx: &Cx<'_>) -> bool {
    let view = &cx.view;
    view.question.is_some() || view.typed_path.is_some() || view.notice.is_some() || view.findings
}

/// Draws what is open at the upper right, below the answer.
pub(super) fn show(ui: &mut Ui, cx: &mut Cx<'_>) {
    let window = ui.ctx().content_rect();
    guide_over_list(ui, cx, window);
    if !has_any(cx) {
        return;
    }
    let width = WIDTH.min(window.width() - 4.0 * OFF);
    let top = cx.view.laid_out.answer.map_or(60.0, |answer| answer.bottom());
    let area = Area::new(Id::unique("floats")).order(Order::Middle).anchor(Align2::RIGHT_TOP, vec2(-OFF, top + OFF));
    area.constrain(true).show(ui.ctx(), |ui| {
        ui.set_width(width);
        ui.set_max_height(window.bottom() - top - 3.0 * OFF);
        notices(ui, cx);
    });
}

/// The guide over a list, which has neither form nor pictures.
fn guide_over_list(ui: &mut Ui, cx: &mut Cx<'_>, window: Rect) {
    if cx.view.guide.is_none() || !cx.view.has_list() {
        return;
    }
    let area = Area::new(Id::unique("guide")).order(Order::Middle).pivot(Align2::RIGHT_BOTTOM);
    area.fixed_pos(window.right_bottom() - vec2(OFF, OFF + FOOT)).show(ui.ctx(), |ui| {
        ui.set_width(WIDTH.min(window.width() - 2.0 * OFF));
        card(ui, |ui| guide::show(ui, cx));
    });
}

/// The guide at the foot of the pictures: it takes from their height and covers nothing.
pub(super) fn guide_below(ui: &mut Ui, cx: &mut Cx<'_>) {
    if cx.view.guide.is_some() {
        at_the_foot(ui, "guide", |ui| guide::show(ui, cx));
    }
}

/// The hint of the step at the foot of a part of the window.
pub(super) fn hint_below(ui: &mut Ui, cx: &mut Cx<'_>) {
    if hint::is_shown(cx) {
        at_the_foot(ui, "hint", |ui| hint::show(ui, cx));
    }
}

fn at_the_foot(ui: &mut Ui, id: &str, draw: impl FnOnce(&mut Ui)) {
    let frame = Frame::NONE.inner_margin(Margin { top: 8, ..Margin::ZERO });
    Panel::bottom(id).frame(frame).show(ui, draw);
}

/// All of these where everything is on one page; the hint is at its foot.
pub(super) fn inside(ui: &mut Ui, cx: &mut Cx<'_>) {
    notices(ui, cx);
    if cx.view.guide.is_some() {
        card(ui, |ui| guide::show(ui, cx));
    }
}

/// The hint of the step at the foot of the page.
pub(super) fn hint_inside(ui: &mut Ui, cx: &mut Cx<'_>) {
    if hint::is_shown(cx) {
        card(ui, |ui| hint::show(ui, cx));
    }
}

fn notices(ui: &mut Ui, cx: &mut Cx<'_>) {
    if cx.view.typed_path.is_some() {
        card(ui, |ui| menu::typed_path(ui, cx));
    }
    if cx.view.question.is_some() {
        card(ui, |ui| question::show(ui, cx));
    }
    if let Some((level, text)) = cx.view.notice.clone() {
        card(ui, |ui| {
            ui.horizontal_top(|ui| {
                if ui.small_button(tr("Dismiss")).clicked() {
                    cx.view.notice = None;
                }
                finding_line(ui, level, &text, cx.dark);
            });
        });
    }
    if cx.view.findings {
        card(ui, |ui| findings::show(ui, cx));
    }
}

/// One of them, on ground of its own.
fn card(ui: &mut Ui, draw: impl FnOnce(&mut Ui)) {
    let frame = Frame::popup(ui.style()).inner_margin(UNIT).corner_radius(6.0);
    frame.show(ui, |ui| {
        ui.set_min_size(Vec2::new(ui.available_width(), 0.0));
        draw(ui);
    });
    ui.add_space(0.5 * UNIT);
}
