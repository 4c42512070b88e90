//! The state of each step, and what the marks mean.

use eframe::egui::{self, RichText, Sense, Ui, vec2};

use crate::base::language::tr;
use crate::gui::background::riding::Progress;
use crate::gui::state::Cx;
use crate::gui::state::step::Step;
use crate::gui::widgets::theme;
use crate::job::{Level, Plan, Side};

/// The state of a step.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Standing {
    /// Something is still to be done.
    Open,
    /// All is done, and nothing in it was assumed.
    Done,
    /// All is done, with defaults in it.
    OnDefaults,
    /// Something needs a check.
    InDoubt(Level),
}

impl Standing {
    /// The state of this step in the job.
    pub(super) fn of(cx: &Cx<'_>, step: Step) -> Standing {
        let answer = &cx.shown.answer;
        let doubts = answer.findings.iter().filter(|f| f.level > Level::Note && Step::of(&f.field) == step);
        if let Some(level) = doubts.map(|f| f.level).max() {
            return Standing::InDoubt(level);
        }
        let misses_a_field = answer.axles.iter().flat_map(|a| &a.missing).any(|path| Step::of(path) == step);
        if misses_a_field || !is_done(cx, step) {
            return Standing::Open;
        }
        let rests = match step {
            Step::Road => {
                let (chassis, road) = (&cx.job.chassis, &cx.job.road);
                let texts =
                    [&chassis.speed.text, &chassis.hump_height.text, &chassis.hump_length.text, &road.hole.text];
                texts.iter().any(|text| text.trim().is_empty())
            }
            _ => crate::report::sheets::sheet::listed_defaults(answer).any(|d| Step::of(&d.path) == step),
        };
        if rests { Standing::OnDefaults } else { Standing::Done }
    }

    /// In words.
    pub(super) fn words(self) -> &'static str {
        match self {
            Standing::Open => tr("still open"),
            Standing::Done => tr("done"),
            Standing::OnDefaults => tr("uses defaults"),
            Standing::InDoubt(Level::Stop) => tr("stop"),
            Standing::InDoubt(Level::Error) => tr("has errors"),
            Standing::InDoubt(Level::Withheld) => tr("answer withheld"),
            Standing::InDoubt(_) => tr("needs checking"),
        }
    }
}

/// What the step is there for has been done.
fn is_done(cx: &Cx<'_>, step: Step) -> bool {
    let answer = &cx.shown.answer;
    let both = |is_done: &dyn Fn(Side) -> bool| Side::BOTH.into_iter().all(is_done);
    // While every ± is still to come, nothing is released: a mark does not go back for that moment.
    let is_released =
        |side: Side| answer.axle(side).missing.is_empty() && (answer.is_coming || answer.released(side).is_ok());
    let is_typed = |text: &str| !text.trim().is_empty();
    match step {
        Step::Weigh => both(&|side| answer.axle(side).sprung_after.is_some()),
        Step::Measure => both(&|side| answer.axle(side).missing.is_empty()),
        Step::Springs => both(&is_released),
        Step::Choose => {
            both(&|side| cx.job.axle(side).plan == Plan::Keep || is_typed(&cx.job.axle(side).taken.rate.text))
        }
        Step::Dampers if answer.is_coming => true,
        Step::Dampers => both(&|side| answer.released(side).is_ok_and(|part| part.damper.is_some())),
        Step::Vehicle => both(&|side| is_typed(&cx.job.axle(side).rating.text)),
        Step::Road => matches!(cx.riding.found(), Some(Ok(_))) && cx.riding.progress() == Progress::Current,
        Step::Sheet => both(&is_released) && is_typed(&cx.job.customer.name) && is_typed(&cx.job.vehicle.name),
    }
}

/// Open ring, full disc, half disc, or the sign of the finding.
pub(super) fn sign(ui: &Ui, standing: Standing, at: egui::Pos2, dark: bool) {
    let color = ui.visuals().text_color();
    let stroke = egui::Stroke::new(1.5, color);
    let painter = ui.painter();
    match standing {
        Standing::Open => {
            painter.circle_stroke(at, 5.0, stroke);
        }
        Standing::Done => {
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

/// What the marks mean, a line each.
pub(super) fn legend(ui: &mut Ui, dark: bool) {
    ui.spacing_mut().item_spacing = vec2(3.0, 0.0);
    for standing in [Standing::Open, Standing::OnDefaults, Standing::Done, Standing::InDoubt(Level::Doubt)] {
        ui.horizontal(|ui| {
            let (rect, _) = ui.allocate_exact_size(vec2(14.0, 18.0), Sense::hover());
            sign(ui, standing, rect.center(), dark);
            ui.label(RichText::new(standing.words()).small().weak());
        });
    }
}
