//! Where the parts of the window stand.
//!
//! Above: menu and answer, always of the same height. At the left the rail of steps and sections, then form and pictures.
//! At the foot one line of help. What comes and goes floats over the pictures or is below them, so that nothing moves
//! while one types.

mod answer;
mod findings;
mod floats;
mod menu;
mod question;
mod rail;
mod step_marks;

use eframe::egui::{Align, CentralPanel, Color32, Frame, Margin, Panel, Rect, Ui, vec2};

use crate::gui::state::Cx;
use crate::gui::state::step::Step;
use crate::gui::state::view::{Half, LaidOut};
use crate::gui::widgets::scroll;
use crate::gui::widgets::theme::{NARROW, UNIT};
use crate::gui::{help, screens};
pub(super) use menu::Menu;

/// Below this height, points, everything but menu and answer scrolls: a small screen or a large zoom.
const LOW: f32 = 520.0;
/// The same where pictures stand above the form.
const LOW_NARROW: f32 = 700.0;
/// Below this width the answer is below the menu.
const SMALL: f32 = 720.0;
/// Width of the rail.
const RAIL: f32 = 168.0;
/// Width of the form: a label, an entry, and what is next to it.
const FORM: f32 = 500.0;
/// The same where the vehicle from above is the form.
const FORM_OF_WEIGHTS: f32 = 560.0;
/// Share of the height that pictures take where they stand above the form.
const BAND: f32 = 0.46;

/// The frame of a bar. The window was cleared in the panels' colour: filling them with it again would only take time.
fn bar(ui: &Ui) -> Frame {
    Frame::side_top_panel(ui.style()).fill(Color32::TRANSPARENT).inner_margin(Margin::symmetric(8, 4))
}

/// The frame of what the bars leave.
fn page(ui: &Ui) -> Frame {
    Frame::central_panel(ui.style()).fill(Color32::TRANSPARENT).inner_margin(Margin::symmetric(8, 6))
}

/// Draws all of it.
pub(in crate::gui) fn show(ui: &mut Ui, cx: &mut Cx<'_>, menu: &Menu<'_>) {
    let size = ui.ctx().content_rect().size();
    cx.view.laid_out = LaidOut::default();
    head(ui, cx, menu);
    let is_narrow = size.x < NARROW;
    if size.y < if is_narrow { LOW_NARROW } else { LOW } {
        return on_one_page(ui, cx, menu);
    }
    Panel::bottom("help").frame(bar(ui)).show(ui, |ui| help::line::show(ui, cx));
    if is_narrow {
        Panel::top("steps").frame(bar(ui)).show(ui, |ui| rail::across(ui, cx, menu.title));
    } else {
        Panel::left("rail").frame(bar(ui)).exact_size(RAIL).resizable(false).show(ui, |ui| {
            scroll::part(ui, "rail", |ui| rail::down(ui, cx, menu.title));
        });
    }
    if cx.view.has_list() {
        CentralPanel::default().frame(page(ui)).show(ui, |ui| list(ui, cx));
    } else if is_narrow {
        below_each_other(ui, cx);
    } else {
        beside_each_other(ui, cx);
    }
    floats::show(ui, cx);
}

/// Menu and answer in one row.
fn head(ui: &mut Ui, cx: &mut Cx<'_>, menu: &Menu<'_>) {
    let is_small = ui.ctx().content_rect().width() < SMALL;
    Panel::top("head").frame(bar(ui)).show(ui, |ui| {
        if is_small {
            menu.in_a_row(ui, cx);
            answer::show(ui, cx);
            return;
        }
        ui.horizontal_top(|ui| {
            ui.vertical(|ui| menu.show(ui, cx));
            ui.separator();
            ui.vertical(|ui| answer::show(ui, cx));
        });
    });
}

/// A list that replaces form and pictures, if one is open.
fn list(ui: &mut Ui, cx: &mut Cx<'_>) {
    if cx.view.jobs.is_some() {
        screens::jobs::show(ui, cx);
    } else if cx.view.changes {
        help::changes::show(ui, cx);
    } else {
        help::words::show(ui, cx);
    }
}

/// The pictures in a band above the form.
fn below_each_other(ui: &mut Ui, cx: &mut Cx<'_>) {
    let height = BAND * ui.available_height();
    // The form is drawn first: the pictures follow its cursor in the same frame.
    let whole = ui.available_rect_before_wrap();
    let (band, below) = whole.split_top_bottom_at_y(whole.top() + height);
    part(ui, below, |ui| {
        cx.view.laid_out.form = Some(below);
        floats::hint_below(ui, cx);
        scroll::page(ui, &of_step("form", cx), |ui| screens::form(ui, cx));
    });
    part(ui, band, |ui| {
        cx.view.laid_out.pictures = Some(band);
        floats::guide_below(ui, cx);
        scroll::part(ui, &of_step("pictures", cx), |ui| screens::pictures(ui, cx));
    });
    let stroke = ui.visuals().widgets.noninteractive.bg_stroke;
    ui.painter().hline(whole.x_range(), below.top(), stroke);
}

/// A part of the window with a margin.
fn part(ui: &mut Ui, rect: Rect, draw: impl FnOnce(&mut Ui)) {
    let mut inside = ui.new_child(eframe::egui::UiBuilder::new().max_rect(rect.shrink2(vec2(UNIT, 6.0))));
    inside.set_clip_rect(rect.intersect(ui.clip_rect()));
    draw(&mut inside);
}

fn beside_each_other(ui: &mut Ui, cx: &mut Cx<'_>) {
    let width = if cx.view.step == Step::Weigh { FORM_OF_WEIGHTS } else { FORM };
    let form = Panel::left("form").frame(bar(ui)).exact_size(width).resizable(false);
    let form = form.show(ui, |ui| scroll::part(ui, &of_step("form", cx), |ui| screens::form(ui, cx)));
    cx.view.laid_out.form = Some(form.response.rect);
    let pictures = CentralPanel::default().frame(page(ui)).show(ui, |ui| {
        floats::guide_below(ui, cx);
        floats::hint_below(ui, cx);
        scroll::page(ui, &of_step("pictures", cx), |ui| screens::pictures(ui, cx));
    });
    cx.view.laid_out.pictures = Some(pictures.response.rect);
}

/// Little room: the answer and the row of steps stay, everything else scrolls.
fn on_one_page(ui: &mut Ui, cx: &mut Cx<'_>, menu: &Menu<'_>) {
    if cx.view.has_list() {
        CentralPanel::default().frame(page(ui)).show(ui, |ui| list(ui, cx));
        return;
    }
    Panel::top("steps").frame(bar(ui)).show(ui, |ui| rail::folded(ui, cx, menu.title));
    CentralPanel::default().frame(page(ui)).show(ui, |ui| {
        scroll::page(ui, &of_step("all", cx), |ui| {
            floats::inside(ui, cx);
            half_begins(ui, cx, Half::Entries);
            screens::form(ui, cx);
            ui.add_space(2.0 * UNIT);
            half_begins(ui, cx, Half::Results);
            // The page stays where the cursor is.
            cx.view.sections.follow = 0;
            screens::pictures(ui, cx);
            floats::hint_inside(ui, cx);
            ui.separator();
            help::line::show(ui, cx);
        });
    });
}

/// Half of the one page begins: the page goes here if it was asked for, and the row of steps shows which half is seen.
fn half_begins(ui: &Ui, cx: &mut Cx<'_>, half: Half) {
    let at = scroll::here(ui);
    let view = &mut cx.view;
    if view.half_wanted.take_if(|wanted| *wanted == half).is_some() {
        ui.scroll_to_rect(at, Some(Align::TOP));
        scroll::hold(ui.ctx());
        ui.ctx().request_repaint();
    }
    if half == Half::Results {
        let is_seen = at.top() < ui.clip_rect().center().y;
        let seen = if is_seen { Half::Results } else { Half::Entries };
        if std::mem::replace(&mut view.half_seen, seen) != seen {
            ui.ctx().request_repaint();
        }
    }
}

/// Each step keeps its own place on the page.
fn of_step(part: &str, cx: &Cx<'_>) -> String {
    format!("{part} {}", cx.view.step.key())
}
