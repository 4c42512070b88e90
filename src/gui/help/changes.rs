//! What each version changed for its users.

use eframe::egui::{Label, RichText, Ui};

use crate::base::language::{Language, spoken, tr};
use crate::gui::state::Cx;
use crate::gui::state::command::{Command, HelpCommand};
use crate::gui::widgets::heading;
use crate::gui::widgets::scroll;
use crate::gui::widgets::theme::UNIT;

/// Draws the list, in place of form and pictures.
pub fn show(ui: &mut Ui, cx: &mut Cx<'_>) {
    ui.horizontal(|ui| {
        ui.label(RichText::new(tr("What changed")).heading());
        cx.when(ui.button(tr("Back to the job")), Command::Help(HelpCommand::Changes));
    });
    scroll::page(ui, "changes", |ui| {
        ui.set_max_width(ui.available_width().min(720.0));
        paragraphs(of_language()).iter().for_each(|words| paragraph(ui, words));
    });
}

fn of_language() -> &'static str {
    match spoken().language {
        Language::German => include_str!("../../../assets/changes.de.md"),
        Language::English | Language::Marked => include_str!("../../../assets/changes.md"),
    }
}

/// The file's headings, paragraphs and items, each in one line; its title is left out.
pub fn paragraphs(file: &str) -> Vec<String> {
    let mut found: Vec<String> = Vec::new();
    let mut is_open = false;
    for line in file.lines().skip(1).map(str::trim) {
        match found.last_mut().filter(|_| is_open && !line.starts_with(['#', '-'])) {
            Some(last) if !line.is_empty() => *last += &format!(" {line}"),
            _ if !line.is_empty() => found.push(line.to_owned()),
            _ => {}
        }
        is_open = !line.is_empty();
    }
    found
}

fn paragraph(ui: &mut Ui, words: &str) {
    if let Some(version) = words.strip_prefix("## ") {
        ui.add_space(UNIT);
        ui.label(RichText::new(version).heading());
    } else if let Some(matter) = words.strip_prefix("**").and_then(|w| w.strip_suffix("**")) {
        heading(ui, matter);
    } else {
        ui.add(Label::new(words.replace(['*', '`'], "")).wrap());
    }
}
