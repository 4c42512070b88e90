//! The jobs in a folder with customer and date: searched, opened, or taken as the start of a new one.

use std::path::{Path, PathBuf};

use eframe::egui::{Key, Label, RichText, TextEdit, Ui, WidgetInfo, vec2};

use crate::base::language::{path_text, tr};
use crate::gui::state::Cx;
use crate::gui::state::command::{Command, FileCommand};
use crate::gui::widgets::long;
use crate::gui::widgets::theme::{self, UNIT};
use crate::say;
use crate::shop::jobs_folder::Record;

const ROW: f32 = 48.0;

/// Draws the list.
pub fn show(ui: &mut Ui, cx: &mut Cx<'_>) {
    let Some(mut jobs) = cx.view.jobs.take() else { return };
    ui.horizontal(|ui| {
        ui.label(RichText::new(tr("Find job")).heading());
        cx.when(ui.button(tr("Back to the job")), Command::File(FileCommand::JobsNot));
    });
    ui.horizontal(|ui| {
        let label = ui.label(tr("Folder"));
        let width = (ui.available_width() - 120.0).max(120.0);
        let edit = ui.add(TextEdit::singleline(&mut jobs.typed).desired_width(width)).labelled_by(label.id);
        let entered = edit.lost_focus() && ui.input(|i| i.key_pressed(Key::Enter));
        if ui.button(tr("Search folder")).clicked() || entered {
            cx.run(Command::File(FileCommand::Jobs(Some(PathBuf::from(jobs.typed.trim())))));
        }
    });
    ui.horizontal(|ui| {
        let label = ui.label(tr("Find"));
        let edit = TextEdit::singleline(&mut jobs.words).hint_text(tr("customer, vehicle, number or date"));
        let edit = ui.add(edit.desired_width(320.0).margin(vec2(8.0, 5.0))).labelled_by(label.id);
        if std::mem::take(&mut cx.view.focus_first) {
            edit.request_focus();
        }
    });
    jobs.search();
    match jobs.records() {
        None => drop(ui.label(tr("Reading the folder…"))),
        Some(Err(error)) => {
            let text = say!(
                "{folder} cannot be read: {error}. Enter another folder above.",
                error,
                folder = path_text(&jobs.folder)
            );
            ui.label(text);
        }
        Some(Ok(all)) => {
            let found = jobs.found();
            ui.small(say!("{found} of {all} jobs, most recently saved first", found = found.len(), all = all.len()));
            let height = (ui.available_height() - UNIT).max(ROW);
            long::show(ui, "jobs", ROW, found.len(), height, |ui, i| {
                if let Some(record) = found.get(i) {
                    row(ui, cx, record);
                }
            });
        }
    }
    cx.view.jobs = Some(jobs);
}

/// Two lines: whose and what; when, what was changed, and the file.
fn row(ui: &mut Ui, cx: &mut Cx<'_>, record: &Record) {
    let name = path_text(Path::new(record.path.file_name().unwrap_or_default()));
    ui.horizontal(|ui| {
        let mut button = |text: &str, spoken: String, command: Command| {
            let button = ui.add_enabled(record.wrong.is_none(), eframe::egui::Button::new(text));
            button.widget_info(|| WidgetInfo::labeled(eframe::egui::Role::Button, record.wrong.is_none(), &spoken));
            cx.when(button, command);
        };
        button(tr("Open"), say!("Open {name}", name), Command::OpenFile(record.path.clone()));
        let start = Command::File(FileCommand::StartFrom(record.path.clone()));
        button(tr("Use as template"), say!("New job from {name}", name), start);
        ui.vertical(|ui| {
            ui.spacing_mut().item_spacing.y = 0.0;
            ui.add(Label::new(RichText::new(who_and_what(record)).family(theme::bold())).truncate());
            let below = match &record.wrong {
                Some(wrong) => format!("{name}: {wrong}"),
                None => when_and_where(record, &name),
            };
            ui.add(Label::new(RichText::new(below).small()).truncate());
        });
    });
}

/// Customer and vehicle.
fn who_and_what(record: &Record) -> String {
    let customer = match record.customer.trim() {
        "" => tr("no customer name"),
        customer => customer,
    };
    joined([customer, &record.vehicle])
}

/// When it was weighed and saved, its number, what was changed, and the file.
fn when_and_where(record: &Record, name: &str) -> String {
    let weighed = match record.date().trim() {
        "" => String::new(),
        date => say!("weighed {date}", date),
    };
    let saved = record.saved_on().map_or(String::new(), |date| say!("saved {date}", date));
    joined([&weighed, &saved, &record.identification, &record.change, name])
}

/// What is not blank, with dots between.
fn joined<const N: usize>(parts: [&str; N]) -> String {
    parts.map(str::trim).into_iter().filter(|s| !s.is_empty()).collect::<Vec<_>>().join(" · ")
}
