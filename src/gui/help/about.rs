//! All there is to say of the field with the cursor: F1 opens and closes it.

use eframe::egui::{Label, RichText, Ui};

use crate::base::language::tr;
use crate::gui::drawings::sketches;
use crate::gui::help::glossary;
use crate::gui::help::words::term;
use crate::gui::state::Cx;
use crate::gui::state::command::{Command, HelpCommand};
use crate::gui::widgets::theme::UNIT;
use crate::job::fields;
use crate::say;

/// Draws it above the pictures, if it is open. It follows the cursor from field to field.
pub fn show(ui: &mut Ui, cx: &mut Cx<'_>) {
    let Some(about) = &mut cx.view.about else { return };
    if let Some(at) = &cx.view.at {
        about.clone_from(at);
    }
    let path = about.clone();
    let Some((field, place)) = fields::by_path(&path) else { return };
    ui.horizontal_wrapped(|ui| {
        ui.label(RichText::new(fields::full_label(&path)).heading());
        cx.when(ui.small_button(tr("Close this help")), Command::Help(HelpCommand::Field));
    });
    let line = |ui: &mut Ui, text: &str| drop(ui.add(Label::new(text).wrap()));
    line(ui, field.help().said());
    line(
        ui,
        &say!(
            "Enter {kind}; the value {must}.",
            kind = field.dim.noun(),
            must = field.must(cx.job.units.unit(field.dim))
        ),
    );
    if let Some(usual) = field.usual_phrase(&cx.job.units) {
        line(
            ui,
            &say!("Usual: {usual}. The program asks you to check a value outside this range, but accepts it.", usual),
        );
    }
    match cx.default_of(&path) {
        Some((value, reason)) => line(ui, &say!("If left blank, {value} is used: {reason}.", value, reason)),
        None => line(ui, tr("If left blank, the value is not known, and results that need it are not shown.")),
    }
    if let Some(sketch) = sketches::of_field(&path, cx, place.scope.side()) {
        ui.add_space(UNIT);
        sketches::draw(ui, sketch);
    }
    for word in glossary::in_text(&format!("{} {}", field.label(), field.help())) {
        term(ui, &word);
    }
    ui.add_space(UNIT);
    ui.separator();
}
