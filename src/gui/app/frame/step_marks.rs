//! The state of each step, and what the marks mean.

use eframe::egui::{RichText, Ui, vec2};

use crate::gui::state::Cx;
use crate::gui::state::step::Step;
use crate::gui::widgets::signs::{self, Standing};
use crate::job::{Level, Plan, Side};
use crate::solve::answer::{Answer, State};

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
        Step::Weigh => both(&|side| answer.axle(side).masses.sprung.after.is_some()),
        Step::Measure => both(&|side| answer.axle(side).missing.is_empty()),
        Step::Springs => both(&is_released),
        Step::Choose => {
            both(&|side| cx.job.axle(side).plan == Plan::Keep || is_typed(&cx.job.axle(side).taken.rate.text))
        }
        Step::Dampers if answer.is_coming => true,
        Step::Dampers => both(&|side| answer.released(side).is_ok_and(|part| part.damper.is_some())),
        Step::Vehicle => both(&|side| is_typed(&cx.job.axle(side).rating.text)),
        // The runs come by themselves once the step is open: looking at it does nothing for the job.
        Step::Road => both(&|side| [State::OldSprings, State::NewSprings].iter().any(|s| is_on_road(answer, side, *s))),
        Step::Sheet => both(&is_released) && is_typed(&cx.job.customer.name) && is_typed(&cx.job.vehicle.name),
    }
}

/// What a rough road does to an axle is known.
fn is_on_road(answer: &Answer, side: Side, state: State) -> bool {
    answer.whole.road.of(state)[side].is_some()
}

/// What the marks mean, a line each.
pub(super) fn legend(ui: &mut Ui, dark: bool) {
    ui.spacing_mut().item_spacing = vec2(3.0, 0.0);
    for standing in Standing::USUAL {
        ui.horizontal(|ui| {
            signs::beside(ui, |painter, at, color| signs::step(painter, standing, at, color, dark));
            ui.label(RichText::new(standing.words()).small().weak());
        });
    }
}
