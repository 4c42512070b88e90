//! The steps of the job in order, each with its state.

use eframe::egui::{self, RichText, Sense, Ui, vec2};

use crate::gui::state::Cx;
use crate::gui::state::command::Command;
use crate::gui::state::step::Step;
use crate::gui::widgets::theme;
use crate::job::{Level, Plan, Side};
use crate::language::tr;
use crate::say;

/// Size of a step's name, points.
const NAME: f32 = 15.0;

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

/// Begins a new line unless a step's sign and name both have room on this one.
fn keep_together(ui: &mut Ui, name: &str) {
    let name = theme::text_width(ui, name, egui::FontId::proportional(NAME));
    let space = ui.spacing();
    if ui.available_size_before_wrap().x < 14.0 + space.item_spacing.x + name + 2.0 * space.button_padding.x {
        ui.end_row();
    }
}

/// Draws the row of steps.
pub fn show(ui: &mut Ui, cx: &mut Cx<'_>) {
    ui.add_space(2.0);
    let is_narrow = ui.available_width() < theme::NARROW;
    ui.horizontal_wrapped(|ui| {
        ui.set_min_height(30.0);
        if is_narrow {
            ui.spacing_mut().item_spacing.x = 3.0;
        }
        for (i, step) in Step::ALL.into_iter().enumerate() {
            let standing = standing(cx, step);
            let name = format!("{} {}", i + 1, step.word());
            keep_together(ui, &name);
            // The sign belongs to the name behind it.
            let apart = std::mem::replace(&mut ui.spacing_mut().item_spacing.x, 3.0);
            let (rect, _) = ui.allocate_exact_size(vec2(14.0, 30.0), Sense::hover());
            sign(ui, standing, rect.center(), cx.dark);
            let response = ui.selectable_label(cx.view.step == step, RichText::new(name).size(NAME));
            let hover = say!(
                "{step}: {standing}. Ctrl+{number}",
                step = step.word(),
                standing = standing.words(),
                number = i + 1
            );
            if response.on_hover_text(hover).clicked() {
                cx.run(Command::Step(step));
            }
            ui.spacing_mut().item_spacing.x = apart;
            ui.add_space(if is_narrow { 3.0 } else { 16.0 });
        }
    });
    ui.add_space(2.0);
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
    let rests = crate::report::sheet::listed_defaults(answer).any(|d| Step::of(&d.path) == step);
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
