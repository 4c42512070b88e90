//! The steps of the job in order, each with its state, and the sections of the one that is open.

use eframe::egui::{self, Button, Label, RichText, Sense, Ui, pos2, vec2};

use super::findings;
use crate::base::language::tr;
use crate::gui::state::Cx;
use crate::gui::state::command::Command;
use crate::gui::state::section::Section;
use crate::gui::state::step::Step;
use crate::gui::widgets::theme::{self, UNIT};
use crate::job::{Level, Plan, Side};
use crate::say;

/// Size of a step's name, points.
const NAME: f32 = 14.5;
/// Height of a step, and of a section.
const HIGH: f32 = 28.0;
const SECTION_HIGH: f32 = 21.0;
/// The widest that the name of the job gets.
const MOST_OF_NAME: f32 = 220.0;

/// How a step stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Standing {
    Open,
    Answered,
    OnDefaults,
    InDoubt(Level),
}

impl Standing {
    fn words(self) -> &'static str {
        match self {
            Standing::Open => tr("still open"),
            Standing::Answered => tr("answered"),
            Standing::OnDefaults => tr("rests on defaults"),
            Standing::InDoubt(Level::Stop) => tr("stop"),
            Standing::InDoubt(Level::Error) => tr("has errors"),
            Standing::InDoubt(Level::Withheld) => tr("answer withheld"),
            Standing::InDoubt(_) => tr("look again"),
        }
    }
}

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
        for section in cx.view.sections.names().to_vec() {
            one_section(ui, cx, section);
        }
    });
}

/// Which job is open; whole when pointed at.
fn name_of_job(ui: &mut Ui, title: &str) {
    ui.scope(|ui| {
        ui.set_max_width(ui.available_width().min(MOST_OF_NAME));
        ui.add(Label::new(RichText::new(title).small().weak()).truncate());
    });
}

fn named(i: usize, step: Step) -> String {
    format!("{} {}", i + 1, step.word())
}

/// Begins a new line unless a step's sign and name both have room on this one.
fn keep_together(ui: &mut Ui, name: &str) {
    let name = theme::text_width(ui, name, egui::FontId::proportional(NAME));
    let space = ui.spacing();
    if ui.available_size_before_wrap().x < 14.0 + space.item_spacing.x + name + 2.0 * space.button_padding.x {
        ui.end_row();
    }
}

/// A step's sign and name.
fn one_step(ui: &mut Ui, cx: &mut Cx<'_>, i: usize, step: Step) {
    let standing = standing(cx, step);
    ui.spacing_mut().item_spacing.x = 3.0;
    ui.spacing_mut().button_padding.x = 6.0;
    let (rect, _) = ui.allocate_exact_size(vec2(14.0, HIGH), Sense::hover());
    let response = ui.selectable_label(cx.view.step == step, RichText::new(named(i, step)).size(NAME));
    sign(ui, standing, pos2(rect.center().x, response.rect.center().y), cx.dark);
    let hover =
        say!("{step}: {standing}. Ctrl+{number}", step = step.word(), standing = standing.words(), number = i + 1);
    if response.on_hover_text(hover).clicked() {
        cx.run(Command::Step(step));
    }
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
    let text = RichText::new(section.word()).small();
    if ui.add(Button::selectable(is_here, text).truncate()).clicked() {
        cx.run(Command::Section(section));
    }
}

fn standing(cx: &Cx<'_>, step: Step) -> Standing {
    let answer = &cx.shown.answer;
    let worst =
        answer.findings.iter().filter(|f| Step::of(&f.field) == step && f.level > Level::Note).map(|f| f.level).max();
    if let Some(level) = worst {
        return Standing::InDoubt(level);
    }
    if answer.axles.iter().flat_map(|a| &a.missing).any(|path| Step::of(path) == step) {
        return Standing::Open;
    }
    // What follows rests on what was weighed and measured: without an answer there is nothing.
    if !matches!(step, Step::Weigh | Step::Measure) && answer.axles.iter().all(|a| !a.missing.is_empty()) {
        return Standing::Open;
    }
    let gets_new = |side: &Side| cx.job.axle(*side).plan == Plan::NewSprings;
    let is_open = |side: &Side| cx.job.axle(*side).taken.rate.text.trim().is_empty();
    if step == Step::Choose && Side::BOTH.iter().any(|side| gets_new(side) && is_open(side)) {
        return Standing::Open;
    }
    let rests = crate::report::sheets::sheet::listed_defaults(answer).any(|d| Step::of(&d.path) == step);
    if rests { Standing::OnDefaults } else { Standing::Answered }
}

/// Open ring, full disc, half disc, or the sign of the finding.
fn sign(ui: &Ui, standing: Standing, at: egui::Pos2, dark: bool) {
    let color = ui.visuals().text_color();
    let stroke = egui::Stroke::new(1.5, color);
    let painter = ui.painter();
    match standing {
        Standing::Open => {
            painter.circle_stroke(at, 5.0, stroke);
        }
        Standing::Answered => {
            painter.circle_filled(at, 5.5, color);
        }
        Standing::OnDefaults => {
            painter.circle_stroke(at, 5.0, stroke);
            let left = egui::Rect::from_min_max(at - vec2(6.0, 6.0), at + vec2(0.0, 6.0));
            painter.with_clip_rect(left).circle_filled(at, 5.0, color);
        }
        Standing::InDoubt(level) => theme::level_sign(painter, level, at, 6.0, dark),
    }
}
