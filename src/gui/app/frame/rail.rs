//! The steps of the job in order, each with its state, and the sections of the one that is open.

use eframe::egui::{self, Button, ComboBox, Label, RichText, Role, Sense, Ui, WidgetInfo, pos2, vec2};

use super::findings;
use super::step_marks;
use crate::base::language::tr;
use crate::gui::state::Cx;
use crate::gui::state::command::Command;
use crate::gui::state::section::Section;
use crate::gui::state::step::Step;
use crate::gui::state::view::Half;
use crate::gui::widgets::signs::{self, Standing};
use crate::gui::widgets::theme::{self, UNIT};
use crate::say;

/// Height of a step, and of a section.
const HIGH: f32 = 28.0;
const SECTION_HIGH: f32 = 21.0;
/// The widest that the name of the job gets.
const MOST_OF_NAME: f32 = 220.0;

/// The steps below each other, the sections of the open one under it, and the count of findings.
pub(super) fn down(ui: &mut Ui, cx: &mut Cx<'_>, title: &str) {
    name_of_job(ui, title);
    ui.spacing_mut().item_spacing.y = 2.0;
    for (i, step) in Step::ALL.into_iter().enumerate() {
        ui.horizontal(|ui| one_step(ui, cx, i, step));
        if cx.view.step == step && !cx.view.has_list() {
            sections_down(ui, cx);
        }
    }
    ui.add_space(UNIT);
    ui.separator();
    findings::count(ui, cx);
    ui.add_space(UNIT);
    step_marks::legend(ui, cx.dark);
}

/// The same where there is little width: steps in a row that wraps, sections in one below.
pub(super) fn across(ui: &mut Ui, cx: &mut Cx<'_>, title: &str) {
    ui.spacing_mut().item_spacing = vec2(3.0, 2.0);
    ui.horizontal_wrapped(|ui| {
        for (i, step) in Step::ALL.into_iter().enumerate() {
            keep_together(ui, &named(i, step));
            one_step(ui, cx, i, step);
            ui.add_space(3.0);
        }
        findings::count(ui, cx);
    });
    ui.horizontal_wrapped(|ui| {
        name_of_job(ui, title);
        ui.add_space(1.5 * UNIT);
        for section in cx.view.sections.names().to_vec() {
            one_section(ui, cx, section);
        }
    });
}

/// The same in one row, for a window with little height: steps and sections unfold, and one goes to entries or results.
pub(super) fn folded(ui: &mut Ui, cx: &mut Cx<'_>, title: &str) {
    ui.horizontal(|ui| {
        let steps = Step::ALL.into_iter().enumerate();
        let now = steps.clone().find(|(_, step)| *step == cx.view.step).map_or_else(String::new, |(i, s)| named(i, s));
        unfolds(ui, "steps", tr("Step"), &now, |ui| {
            steps.for_each(|(i, step)| drop(ui.horizontal(|ui| one_step(ui, cx, i, step))));
        });
        let sections = cx.view.sections.names().to_vec();
        let now = cx.view.sections.now().or(sections.first().copied());
        unfolds(ui, "sections", tr("Section"), now.map_or("", |s| s.words().said()), |ui| {
            sections.into_iter().for_each(|section| one_section(ui, cx, section));
        });
        for half in Half::ALL {
            if ui.selectable_label(cx.view.half_seen == half, half.words()).clicked() {
                cx.view.half_wanted = Some(half);
            }
        }
        findings::count(ui, cx);
        ui.add_space(UNIT);
        name_of_job(ui, title);
    });
}

fn unfolds(ui: &mut Ui, salt: &str, name: &str, now: &str, all: impl FnOnce(&mut Ui)) {
    let shown = ComboBox::from_id_salt(salt).selected_text(now).height(360.0).show_ui(ui, all);
    let name = format!("{name}: {now}");
    shown.response.widget_info(|| WidgetInfo::labeled(Role::ComboBox, true, &name));
}

/// Which job is open; whole when pointed at.
fn name_of_job(ui: &mut Ui, title: &str) {
    ui.scope(|ui| {
        ui.set_max_width(ui.available_width().min(MOST_OF_NAME));
        ui.add(Label::new(RichText::new(title).small().weak()).truncate());
    });
}

fn named(i: usize, step: Step) -> String {
    format!("{} {}", i + 1, step.words())
}

/// Begins a new line unless a step's sign and name both have room on this one.
fn keep_together(ui: &mut Ui, name: &str) {
    let name = theme::text_width(ui, name, egui::FontId::proportional(theme::TYPE));
    let space = ui.spacing();
    if ui.available_size_before_wrap().x < 14.0 + space.item_spacing.x + name + 2.0 * space.button_padding.x {
        ui.end_row();
    }
}

/// A step's sign and name.
fn one_step(ui: &mut Ui, cx: &mut Cx<'_>, i: usize, step: Step) {
    let standing = Standing::of(cx, step);
    ui.spacing_mut().item_spacing.x = 3.0;
    ui.spacing_mut().button_padding.x = 6.0;
    let (rect, _) = ui.allocate_exact_size(vec2(14.0, HIGH), Sense::hover());
    let response = ui.selectable_label(cx.view.step == step, named(i, step));
    let at = pos2(rect.center().x, response.rect.center().y);
    signs::step(ui.painter(), standing, at, ui.visuals().text_color(), cx.dark);
    let hover =
        say!("{step}: {standing}. Ctrl+{number}", step = step.words(), standing = standing.words(), number = i + 1);
    cx.when(response.on_hover_text(hover), Command::Step(step));
}

/// The sections of the open step, on a line of their own each.
fn sections_down(ui: &mut Ui, cx: &mut Cx<'_>) {
    let names = cx.view.sections.names().to_vec();
    let top = ui.cursor().top();
    for section in names {
        ui.horizontal(|ui| {
            ui.add_space(22.0);
            one_section(ui, cx, section);
        });
    }
    let x = ui.cursor().left() + 7.0;
    let stroke = ui.visuals().widgets.noninteractive.bg_stroke;
    ui.painter().vline(x, top..=ui.cursor().top() - 2.0, stroke);
}

fn one_section(ui: &mut Ui, cx: &mut Cx<'_>, section: Section) {
    ui.spacing_mut().button_padding = vec2(6.0, 1.0);
    ui.spacing_mut().interact_size.y = SECTION_HIGH;
    let is_here = cx.view.sections.now() == Some(section);
    let text = RichText::new(section.words()).small();
    cx.when(ui.add(Button::selectable(is_here, text).truncate()), Command::Section(section));
}
