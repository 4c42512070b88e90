//! The steps: each file draws form and pictures of one from [`Cx`] and asks for commands.

pub mod choose;
pub mod dampers;
pub mod jobs;
pub mod loads;
pub mod measure;
pub mod road;
pub mod sheet;
pub mod spring;
pub mod springs;
pub mod vehicle;
pub mod weigh;

use eframe::egui::{RichText, Ui};

use crate::gui::state::Cx;
use crate::gui::state::command::Command;
use crate::gui::state::step::Step;
use crate::gui::state::view::PasteInto;
use crate::gui::widgets::theme::UNIT;
use crate::job::Side;
use crate::language::tr;

/// The form of the step that is open.
pub fn form(ui: &mut Ui, cx: &mut Cx<'_>) {
    hint(ui, cx);
    match cx.view.step {
        Step::Weigh => weigh::form(ui, cx),
        Step::Measure => measure::form(ui, cx),
        Step::Springs => springs::form(ui, cx),
        Step::Choose => choose::form(ui, cx),
        Step::Dampers => dampers::form(ui, cx),
        Step::Vehicle => vehicle::form(ui, cx),
        Step::Road => road::form(ui, cx),
        Step::Sheet => sheet::form(ui, cx),
    }
    ui.add_space(2.0 * UNIT);
}

/// The pictures and tables of the step that is open.
pub fn pictures(ui: &mut Ui, cx: &mut Cx<'_>) {
    crate::gui::help::about::show(ui, cx);
    match cx.view.step {
        Step::Weigh => weigh::pictures(ui, cx),
        Step::Measure => measure::pictures(ui, cx),
        Step::Springs => springs::pictures(ui, cx),
        Step::Choose => choose::pictures(ui, cx),
        Step::Dampers => dampers::pictures(ui, cx),
        Step::Vehicle => vehicle::pictures(ui, cx),
        Step::Road => road::pictures(ui, cx),
        Step::Sheet => sheet::pictures(ui, cx),
    }
    ui.add_space(2.0 * UNIT);
}

/// One line at each step that says what to do there, until dismissed.
fn hint(ui: &mut Ui, cx: &mut Cx<'_>) {
    if cx.view.hide_hints || cx.view.guide.is_some() {
        return;
    }
    let words = match cx.view.step {
        Step::Weigh => tr(
            "Type the four scale readings before and after the change. Enter walks round the vehicle. The first start shows a demo job; File, New begins yours.",
        ),
        Step::Measure => tr(
            "Say what kind of spring it is, how far it moves with the wheel, and how its rate is known; that is enough for a first answer. Whatever else is measured is compared with it.",
        ),
        Step::Springs => {
            tr("Say how the axle should ride. The range of rates and the stock rate nearest its middle follow at once.")
        }
        Step::Choose => tr(
            "Say what a spring must fit and which list to look in. The spring to take stands at the right, with how often it would hold if all were measured anew. Optional: without a list the stock rates of the step before hold.",
        ),
        Step::Dampers => tr("Say how well damped it should be. The forces to order by stand at the right."),
        Step::Vehicle => tr("Ratings first: over its rating no spring helps an axle. Then look at rear against front."),
        Step::Sheet => {
            tr("Names as they are to be printed; the pages stand beside them. Then print them, or save them as a file.")
        }
        Step::Road => tr(
            "Say what it drives over. How often the bump stop is met with each remedy stands in the table; Play shows it.",
        ),
    };
    ui.horizontal_top(|ui| {
        if ui.small_button(tr("Hide hints")).clicked() {
            cx.run(Command::HideHints);
        }
        ui.add(eframe::egui::Label::new(RichText::new(words).italics()).wrap());
    });
    ui.add_space(UNIT);
}

/// Chooses the axle; gives back the one shown.
pub fn axle_choice(ui: &mut Ui, cx: &mut Cx<'_>) -> Side {
    ui.horizontal(|ui| {
        for side in Side::BOTH {
            if ui.selectable_label(cx.view.side() == side, RichText::new(side.axle()).heading()).clicked() {
                cx.run(Command::Axle(side));
            }
        }
    });
    ui.add_space(0.5 * UNIT);
    cx.view.side()
}

/// A number typed with a point or a comma.
fn with_either_mark(text: &str) -> Option<f64> {
    text.trim().replace(',', ".").parse().ok()
}

/// Rows of fields of one axle.
pub fn axle_rows(ui: &mut Ui, cx: &mut Cx<'_>, side: Side, keys: &[&str]) {
    for key in keys {
        cx.row(ui, &format!("{}.{key}", side.key()));
    }
}

/// What unfolds: open when asked for, when `start_open`, or when a field inside is being gone to.
pub fn more(
    ui: &mut Ui,
    cx: &mut Cx<'_>,
    title: &str,
    paths: &[String],
    start_open: bool,
    body: impl FnOnce(&mut Ui, &mut Cx<'_>),
) {
    let is_inside = |path: &String| paths.iter().any(|p| path.starts_with(p.as_str()));
    let pasted_into = cx.view.paste.as_ref().and_then(|p| match &p.into {
        PasteInto::Rows(path) => Some(path),
        PasteInto::Weighing => None,
    });
    let wanted = cx.view.focus.as_ref().is_some_and(is_inside) || pasted_into.is_some_and(is_inside);
    eframe::egui::CollapsingHeader::new(title)
        .id_salt((paths, cx.view.side().key()))
        .default_open(start_open)
        .open(wanted.then_some(true))
        .show(ui, |ui| body(ui, cx));
}
