//! The menu, undo, redo and the units.

use eframe::egui::{self, Button, ThemePreference, Ui, vec2};

use super::step_marks;
use crate::base::language::{Language, path_text, spoken, tr};
use crate::base::units::{DecimalMark, Dim, UnitChoice, choice, table};
use crate::gui::state::Cx;
use crate::gui::state::command::{Command, CustomerCommand, FileCommand, HelpCommand, SheetCommand};
use crate::gui::state::files::Purpose;
use crate::gui::state::view::typed_path_id;
use crate::gui::widgets::theme;
use crate::job::Defaults;
use crate::say;
use crate::shop::presets::PRESETS;

/// What the menu shows of the job that is open.
pub(in crate::gui) struct Menu<'a> {
    pub can_undo: bool,
    pub can_redo: bool,
    /// Name of the job, and whether it was edited.
    pub title: &'a str,
}

/// Room left and right of a word of the menu.
const PAD: f32 = 7.0;

impl Menu<'_> {
    /// Draws the menus, and below them undo, redo and the units; as wide as its words.
    pub(super) fn show(&self, ui: &mut Ui, cx: &mut Cx<'_>) {
        let rows = [[tr("File"), tr("Units"), tr("View"), tr("Help")], [tr("Undo"), tr("Redo"), LB_IN, tr("metric")]];
        let font = egui::TextStyle::Button.resolve(ui.style());
        let wide = |row: &[&str; 4]| row.iter().map(|w| theme::text_width(ui, w, font.clone()) + 2.0 * PAD + 2.0).sum();
        let width = rows.iter().map(wide).fold(0.0, f32::max);
        ui.spacing_mut().item_spacing.y = 2.0;
        ui.allocate_ui_with_layout(vec2(width, 0.0), egui::Layout::top_down(egui::Align::Min), |ui| {
            ui.set_width(width);
            row(ui, |ui| menus(ui, cx));
            row(ui, |ui| self.undo_and_units(ui, cx));
        });
    }

    /// The same in one row; with very little room the menus have it all.
    pub(super) fn in_a_row(&self, ui: &mut Ui, cx: &mut Cx<'_>) {
        row(ui, |ui| {
            menus(ui, cx);
            if ui.available_width() > BESIDE_MENUS {
                self.undo_and_units(ui, cx);
            }
        });
    }

    fn undo_and_units(&self, ui: &mut Ui, cx: &mut Cx<'_>) {
        let keys = |name: &str, keys: &str| format!("{name} ({})", on_keyboard(keys));
        let undo = ui.add_enabled(self.can_undo, Button::new(tr("Undo")));
        let undo = undo.on_hover_text(keys(tr("Undo"), "Ctrl+Z"));
        cx.when(undo.on_disabled_hover_text(tr("Nothing to undo.")), Command::Undo);
        let redo = ui.add_enabled(self.can_redo, Button::new(tr("Redo")));
        let redo = redo.on_hover_text(keys(tr("Redo"), "Ctrl+Y"));
        cx.when(redo.on_disabled_hover_text(tr("Nothing to redo.")), Command::Redo);
        for (units, name) in [(UnitChoice::pound_inch(), LB_IN), (UnitChoice::metric(), tr("metric"))] {
            cx.when(ui.selectable_label(cx.job.units == units, name), Command::Units(units));
        }
    }
}

/// Room that undo, redo and the units need next to the menus.
const BESIDE_MENUS: f32 = 320.0;

fn menus(ui: &mut Ui, cx: &mut Cx<'_>) {
    ui.menu_button(tr("File"), |ui| file(ui, cx));
    ui.menu_button(tr("Units"), |ui| units(ui, cx));
    ui.menu_button(tr("View"), |ui| view(ui, cx));
    ui.menu_button(tr("Help"), |ui| help(ui, cx));
}

/// Pounds and inches, as the menu names them.
const LB_IN: &str = "lb · in";

/// One row of words to press.
fn row(ui: &mut Ui, draw: impl FnOnce(&mut Ui)) {
    egui::MenuBar::new().ui(ui, |ui| {
        ui.spacing_mut().button_padding = vec2(PAD, 2.0);
        ui.spacing_mut().item_spacing.x = 2.0;
        draw(ui);
    });
}

/// A path to type when the system shows no file dialog.
pub(super) fn typed_path(ui: &mut Ui, cx: &mut Cx<'_>) {
    let Some((purpose, path)) = &mut cx.view.typed_path else { return };
    let (words, done) = match purpose {
        Purpose::OpenJob => (tr("The file dialog could not be opened. Path of the job to open:"), tr("Open")),
        Purpose::OpenList => (tr("The file dialog could not be opened. Path of the parts list to open:"), tr("Open")),
        Purpose::OpenCurve => {
            (tr("The file dialog could not be opened. Path of the damper curve to open:"), tr("Open"))
        }
        Purpose::OpenRecording | Purpose::OpenDrive => {
            (tr("The file dialog could not be opened. Path of the recording to open:"), tr("Open"))
        }
        Purpose::SaveJob => (tr("The file dialog could not be opened. Path for saving the job:"), tr("Save")),
        Purpose::WriteSheet => {
            (tr("The file dialog could not be opened. Path for saving the sheet:"), tr("Save sheet"))
        }
        Purpose::OpenLogo => (tr("The file dialog could not be opened. Path of the logo to open:"), tr("Open")),
        Purpose::PlotData => (tr("The file dialog could not be opened. Path for saving the data:"), tr("Save")),
        Purpose::PlotPicture => (tr("The file dialog could not be opened. Path for saving the picture:"), tr("Save")),
    };
    let (mut take, mut cancel) = (false, false);
    ui.horizontal(|ui| {
        let label = ui.label(words);
        let width = (ui.available_width() - 160.0).max(120.0);
        let edit =
            ui.add(egui::TextEdit::singleline(path).id(typed_path_id()).desired_width(width)).labelled_by(label.id);
        take = edit.lost_focus() && ui.input(|i| i.key_pressed(egui::Key::Enter));
        take |= ui.button(done).clicked();
        let left = edit.lost_focus() && ui.input(|i| i.key_pressed(egui::Key::Escape));
        cancel = ui.button(tr("Cancel")).clicked() || left;
    });
    if cancel {
        cx.view.typed_path = None;
    } else if take {
        cx.run(Command::TypedPath);
    }
}

fn item(ui: &mut Ui, cx: &mut Cx<'_>, name: &str, keys: &str, command: Command) {
    if ui.add(Button::new(name).shortcut_text(on_keyboard(keys))).clicked() {
        cx.run(command);
        ui.close();
    }
}

/// One of several choices; it closes the menu.
fn radio(ui: &mut Ui, cx: &mut Cx<'_>, is_now: bool, name: &str, command: Command) {
    if ui.radio(is_now, name).clicked() {
        cx.run(command);
        ui.close();
    }
}

fn file(ui: &mut Ui, cx: &mut Cx<'_>) {
    item(ui, cx, tr("New"), "Ctrl+N", Command::New);
    item(ui, cx, tr("Open…"), "Ctrl+O", Command::Open);
    ui.menu_button(tr("Recent"), |ui| {
        if cx.view.recent.is_empty() {
            ui.label(tr("No recent jobs."));
        }
        for path in cx.view.recent.clone() {
            item(ui, cx, &path_text(&path), "", Command::OpenFile(path));
        }
    });
    item(ui, cx, tr("Find job"), "Ctrl+J", Command::File(FileCommand::Jobs(None)));
    ui.menu_button(tr("Start from example"), |ui| {
        for (i, preset) in PRESETS.iter().enumerate() {
            item(ui, cx, tr(preset.title), "", Command::OpenPreset(i));
        }
    });
    item(ui, cx, tr("Save"), "Ctrl+S", Command::Save);
    item(ui, cx, tr("Save as…"), "Ctrl+Shift+S", Command::SaveAs);
    item(ui, cx, tr("Save sheet as…"), "Ctrl+P", SheetCommand::As("pdf").into());
    item(ui, cx, tr("Print sheet…"), "", SheetCommand::Print.into());
    ui.separator();
    item(ui, cx, tr("Quit"), "Ctrl+Q", Command::Quit);
}

/// Keys as they are called on the keyboard.
fn on_keyboard(keys: &str) -> String {
    keys.replace("Ctrl", tr("Ctrl")).replace("Shift", tr("Shift"))
}

fn quantity(dim: Dim) -> &'static str {
    match dim {
        Dim::Mass => tr("mass"),
        Dim::Length => tr("length"),
        Dim::SpringRate => tr("spring rate"),
        Dim::DampingRate => tr("damper rate"),
        Dim::Frequency => tr("frequency"),
        Dim::Ratio => tr("ratio"),
        Dim::Velocity => tr("road speed"),
        Dim::DamperSpeed => tr("damper speed"),
        Dim::Force => tr("force"),
        Dim::Pressure => tr("pressure"),
        Dim::Angle => tr("angle"),
        Dim::Stress => tr("stress"),
        Dim::TwistRate => tr("torsional rate"),
        Dim::Area => tr("area"),
        Dim::Volume => tr("volume"),
        Dim::Time => tr("time"),
        Dim::Energy => tr("energy"),
        Dim::Acceleration => tr("acceleration"),
        Dim::RatioSlope => tr("motion ratio change"),
    }
}

fn units(ui: &mut Ui, cx: &mut Cx<'_>) {
    item(ui, cx, tr("All in pounds and inches (lb, in)"), "", Command::Units(UnitChoice::pound_inch()));
    item(ui, cx, tr("All metric"), "", Command::Units(UnitChoice::metric()));
    ui.separator();
    ui.menu_button(tr("Defaults"), |ui| {
        let pound_inch = cx.job.in_pounds_and_inches();
        for (is_now, name, defaults) in [
            (pound_inch, tr("Default values in round pounds and inches"), Defaults::PoundInch),
            (!pound_inch, tr("Default values in round metric units"), Defaults::Metric),
        ] {
            radio(ui, cx, is_now, name, Command::Defaults(defaults));
        }
    });
    for (dim, _) in choice::DIMS {
        let now = cx.job.units.unit(dim).symbol;
        ui.menu_button(format!("{}: {now}", quantity(dim)), |ui| {
            for unit in table::of(dim) {
                radio(ui, cx, unit.symbol == now, unit.symbol, Command::Unit(unit));
            }
        });
    }
    ui.separator();
    let now = cx.job.decimal;
    for (mark, name) in
        [(DecimalMark::Point, tr("Decimal point, 1,155.5")), (DecimalMark::Comma, tr("Decimal comma, 1.155,5"))]
    {
        radio(ui, cx, now == mark, name, Command::Decimal(mark));
    }
}

fn help(ui: &mut Ui, cx: &mut Cx<'_>) {
    item(ui, cx, tr("One-minute guide"), "", Command::Help(HelpCommand::Guide(Some(0))));
    item(ui, cx, tr("Help on this field"), "F1", Command::Help(HelpCommand::Field));
    item(ui, cx, tr("Glossary"), "", Command::Help(HelpCommand::Words));
    ui.separator();
    ui.label(tr("Step symbols"));
    step_marks::legend(ui, cx.dark);
    ui.separator();
    ui.label(say!("springwright {version}", version = env!("CARGO_PKG_VERSION")));
    item(ui, cx, tr("What changed"), "", Command::Help(HelpCommand::Changes));
}

fn view(ui: &mut Ui, cx: &mut Cx<'_>) {
    let now = ui.ctx().options(|o| o.theme_preference);
    for (theme, name) in [
        (ThemePreference::System, tr("Follow the system")),
        (ThemePreference::Light, tr("Light, for daylight")),
        (ThemePreference::Dark, tr("Dark")),
    ] {
        radio(ui, cx, now == theme, name, Command::Theme(theme));
    }
    ui.separator();
    for language in Language::ALL {
        radio(ui, cx, spoken().language == language, language.name(), Command::Language(language));
    }
    ui.separator();
    item(ui, cx, tr("Zoom in"), "Ctrl++", Command::Zoom(1.1));
    item(ui, cx, tr("Zoom out"), "Ctrl+-", Command::Zoom(1.0 / 1.1));
    item(ui, cx, tr("Normal size"), "Ctrl+0", Command::Zoom(0.0));
    ui.separator();
    item(ui, cx, tr("Findings"), "Ctrl+E", Command::Findings);
    item(ui, cx, tr("Customer's view"), "F11", Command::Customer(CustomerCommand::Show));
}
