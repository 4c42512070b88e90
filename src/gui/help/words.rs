//! The words of the trade, explained.

use eframe::egui::{Label, RichText, TextEdit, Ui, vec2};

use crate::base::language::tr;
use crate::gui::help::glossary::{self, Term};
use crate::gui::help::signs;
use crate::gui::state::Cx;
use crate::gui::state::command::{Command, HelpCommand};
use crate::gui::widgets::scroll;
use crate::gui::widgets::theme::{self, UNIT};

/// Draws the list, in place of form and pictures.
pub fn show(ui: &mut Ui, cx: &mut Cx<'_>) {
    let Some(mut letters) = cx.view.glossary.take() else { return };
    ui.horizontal(|ui| {
        ui.label(RichText::new(tr("Glossary")).heading());
        cx.when(ui.button(tr("Back to the job")), Command::Help(HelpCommand::Words));
    });
    ui.horizontal(|ui| {
        let label = ui.label(tr("Find"));
        let edit = TextEdit::singleline(&mut letters).desired_width(320.0).margin(vec2(8.0, 5.0));
        let edit = ui.add(edit).labelled_by(label.id);
        if std::mem::take(&mut cx.view.focus_first) {
            edit.request_focus();
        }
    });
    let found = glossary::found(&letters);
    scroll::page(ui, "words", |ui| {
        if letters.trim().is_empty() {
            signs::show(ui, cx.dark);
            ui.separator();
        }
        if found.is_empty() {
            ui.label(tr("No term matches. Clear the search to see all."));
        }
        found.iter().for_each(|t| term(ui, t));
    });
    cx.view.glossary = Some(letters);
}

/// One word with its meaning below it.
pub fn term(ui: &mut Ui, term: &Term) {
    ui.add_space(0.5 * UNIT);
    ui.label(RichText::new(term.word).family(theme::bold()));
    ui.scope(|ui| {
        ui.set_max_width(ui.available_width().min(720.0));
        ui.add(Label::new(term.means).wrap());
    });
}
