//! The menu, undo and redo, and the name of the open job.

use eframe::egui::{self, Button, ThemePreference, Ui};

use crate::gui::command::{Command, FileCommand, SheetCommand};
use crate::gui::dialogs::Purpose;
use crate::gui::field::Cx;
use crate::presets::PRESETS;
use crate::units::{DecimalMark, UnitChoice, choice, table};

/// Draws the menu bar.
pub fn show(ui: &mut Ui, cx: &mut Cx<'_>, can_undo: bool, can_redo: bool, title: &str) {
    egui::MenuBar::new().ui(ui, |ui| {
        ui.menu_button("File", |ui| file(ui, cx));
        ui.menu_button("Units", |ui| units(ui, cx));
        ui.menu_button("View", |ui| view(ui, cx));
        let keys = |name: &str, keys: &str| format!("{name} ({keys})");
        if ui.add_enabled(can_undo, Button::new("Undo")).on_hover_text(keys("Undo", "Ctrl+Z")).clicked() {
            cx.run(Command::Undo);
        }
        if ui.add_enabled(can_redo, Button::new("Redo")).on_hover_text(keys("Redo", "Ctrl+Y")).clicked() {
            cx.run(Command::Redo);
        }
        ui.separator();
        let us = UnitChoice::pound_inch();
        let is_us = cx.job.units == us;
        if ui.selectable_label(is_us, "lb · in").clicked() {
            cx.run(Command::Units(us));
        }
        if ui.selectable_label(cx.job.units == UnitChoice::metric(), "metric").clicked() {
            cx.run(Command::Units(UnitChoice::metric()));
        }
        ui.separator();
        ui.add(egui::Label::new(title).truncate());
    });
    typed_path(ui, cx);
    super::question::show(ui, cx);
    if let Some((level, text)) = cx.view.notice.clone() {
        ui.horizontal_top(|ui| {
            if ui.small_button("Dismiss").clicked() {
                cx.view.notice = None;
            }
            crate::gui::field::finding_line(ui, level, &text, cx.dark);
        });
    }
}

/// A path to type when the system shows no file dialog.
fn typed_path(ui: &mut Ui, cx: &mut Cx<'_>) {
    let Some((purpose, path)) = &mut cx.view.typed_path else { return };
    let (words, done) = match purpose {
        Purpose::OpenJob => ("No file dialog could be shown. Path of the job to open:", "Open"),
        Purpose::OpenList => ("No file dialog could be shown. Path of the parts list to open:", "Open"),
        Purpose::OpenCurve => ("No file dialog could be shown. Path of the damper's curve to open:", "Open"),
        Purpose::SaveJob => ("No file dialog could be shown. Path to save the job:", "Save"),
        Purpose::WriteSheet => ("No file dialog could be shown. Path to write the sheet:", "Write"),
        Purpose::OpenLogo => ("No file dialog could be shown. Path of the logo to open:", "Open"),
        Purpose::PlotData => ("No file dialog could be shown. Path to save the data:", "Save"),
        Purpose::PlotPicture => ("No file dialog could be shown. Path to save the picture:", "Save"),
    };
    let (mut take, mut cancel) = (false, false);
    ui.horizontal(|ui| {
        let label = ui.label(words);
        let width = (ui.available_width() - 160.0).max(120.0);
        let edit = ui.add(egui::TextEdit::singleline(path).desired_width(width)).labelled_by(label.id);
        take = edit.lost_focus() && ui.input(|i| i.key_pressed(egui::Key::Enter));
        take |= ui.button(done).clicked();
        cancel = ui.button("Cancel").clicked();
    });
    if cancel {
        cx.view.typed_path = None;
    } else if take {
        cx.run(Command::TypedPath);
    }
}

fn item(ui: &mut Ui, cx: &mut Cx<'_>, name: &str, keys: &str, command: Command) {
    if ui.add(Button::new(name).shortcut_text(keys)).clicked() {
        cx.run(command);
        ui.close();
    }
}

fn file(ui: &mut Ui, cx: &mut Cx<'_>) {
    item(ui, cx, "New", "Ctrl+N", Command::New);
    item(ui, cx, "Open…", "Ctrl+O", Command::Open);
    ui.add_enabled_ui(!cx.view.recent.is_empty(), |ui| {
        ui.menu_button("Open again", |ui| {
            for path in cx.view.recent.clone() {
                item(ui, cx, &path.display().to_string(), "", Command::OpenFile(path));
            }
        });
    });
    item(ui, cx, "Jobs of a folder", "Ctrl+J", Command::File(FileCommand::Jobs(None)));
    ui.menu_button("Start from", |ui| {
        for (i, preset) in PRESETS.iter().enumerate() {
            item(ui, cx, preset.title, "", Command::OpenPreset(i));
        }
    });
    item(ui, cx, "Save", "Ctrl+S", Command::Save);
    item(ui, cx, "Save as…", "Ctrl+Shift+S", Command::SaveAs);
    item(ui, cx, "Write sheet…", "Ctrl+P", SheetCommand::As("pdf").into());
    item(ui, cx, "Print sheet…", "", SheetCommand::Print.into());
    ui.separator();
    item(ui, cx, "Quit", "Ctrl+Q", Command::Quit);
}

fn units(ui: &mut Ui, cx: &mut Cx<'_>) {
    item(ui, cx, "All in lb and in", "", Command::Units(UnitChoice::pound_inch()));
    item(ui, cx, "All metric", "", Command::Units(UnitChoice::metric()));
    ui.separator();
    for (dim, key) in choice::DIMS {
        let name = key.replace('_', " ");
        let now = cx.job.units.unit(dim).symbol;
        ui.menu_button(format!("{name}: {now}"), |ui| {
            for unit in table::of(dim) {
                if ui.radio(unit.symbol == now, unit.symbol).clicked() {
                    cx.run(Command::Unit(unit));
                    ui.close();
                }
            }
        });
    }
    ui.separator();
    for (mark, name) in [(DecimalMark::Point, "Decimal point, 1,155.5"), (DecimalMark::Comma, "Decimal comma, 1.155,5")]
    {
        if ui.radio(cx.job.decimal == mark, name).clicked() {
            cx.run(Command::Decimal(mark));
            ui.close();
        }
    }
}

fn view(ui: &mut Ui, cx: &mut Cx<'_>) {
    let now = ui.ctx().options(|o| o.theme_preference);
    for (theme, name) in [
        (ThemePreference::System, "Light or dark as the system"),
        (ThemePreference::Light, "Light, for daylight"),
        (ThemePreference::Dark, "Dark"),
    ] {
        if ui.radio(now == theme, name).clicked() {
            cx.run(Command::Theme(theme));
            ui.close();
        }
    }
    ui.separator();
    item(ui, cx, "Larger", "Ctrl++", Command::Zoom(1.1));
    item(ui, cx, "Smaller", "Ctrl+-", Command::Zoom(1.0 / 1.1));
    item(ui, cx, "Normal size", "Ctrl+0", Command::Zoom(0.0));
    ui.separator();
    item(ui, cx, "Findings", "Ctrl+E", Command::Findings);
}
