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

use crate::base::language::tr;
use crate::gui::drawings::sketches;
use crate::gui::help::about;
use crate::gui::state::Cx;
use crate::gui::state::command::Command;
use crate::gui::state::section::Section;
use crate::gui::state::step::Step;
use crate::gui::widgets::theme::UNIT;
use crate::job::{Side, fields};

/// The form of the step that is open.
pub fn form(ui: &mut Ui, cx: &mut Cx<'_>) {
    cx.view.sections.begin_form();
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
    cx.end_form(ui);
    ui.add_space(2.0 * UNIT);
}

/// The pictures and tables of the step that is open.
pub fn pictures(ui: &mut Ui, cx: &mut Cx<'_>) {
    cx.view.sections.begin_pictures(ui.clip_rect());
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
    cx.view.sections.end_pictures(ui.cursor().top());
    ui.add_space(2.0 * UNIT);
}

/// Pictures of these sections begin: above them what helps with the field that has the cursor, if it is in one of them.
/// True when that was drawn.
pub fn pictures_of(ui: &mut Ui, cx: &mut Cx<'_>, sections: &[Section]) -> bool {
    if !cx.pictures_begin(ui, sections) {
        return false;
    }
    if cx.view.about.is_some() {
        about::show(ui, cx);
        return true;
    }
    let Some(path) = cx.view.last_at.clone().filter(|path| Step::of(path) == cx.view.step) else { return false };
    let side = fields::by_path(&path).map_or(cx.view.side(), |(_, place)| place.scope.side());
    let sketch = sketches::of_field(&path, cx, side);
    if let Some(sketch) = sketch {
        sketches::draw(ui, sketch);
    }
    sketch.is_some()
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
