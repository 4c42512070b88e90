//! The steps: each file draws form and pictures of one from [`Cx`] and asks for commands.

pub mod choose;
pub mod customer;
pub mod dampers;
pub mod jobs;
pub mod linkage_points;
pub mod loads;
pub mod measure;
pub mod road;
pub mod sheet;
pub mod spring;
pub mod springs;
pub mod vehicle;
pub mod weigh;

use eframe::egui::{RichText, Ui};

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

/// Chooses the axle; gives back the one shown.
pub fn axle_choice(ui: &mut Ui, cx: &mut Cx<'_>) -> Side {
    ui.horizontal(|ui| {
        for side in Side::BOTH {
            let name = RichText::new(side.axle()).heading();
            cx.when(ui.selectable_label(cx.view.side() == side, name), Command::Axle(side));
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
    cx.rows(ui, keys.iter().map(|key| format!("{}.{key}", side.key())));
}
