//! The ledger of parts, what was aboard, and load cases.

use eframe::egui::{Button, ComboBox, Label, TextEdit, Ui, vec2};

use crate::base::language::tr;
use crate::base::units::{Dim, display};
use crate::gui::state::Cx;
use crate::gui::state::command::Command;
use crate::gui::widgets::choices;
use crate::gui::widgets::field::{MOST_IN_NAME, limited};
use crate::gui::widgets::heading;
use crate::gui::widgets::rows;
use crate::gui::widgets::theme::{FIELD, UNIT};
use crate::job::typical::{Place, TYPICAL};
use crate::job::{PartOn, Way, bounded};
use crate::say;

/// Parts that come out and go in.
pub fn parts(ui: &mut Ui, cx: &mut Cx<'_>) {
    ui.add(Label::new(tr("List every part with its fluids and brackets. From this list the program predicts the new weights before the work begins. Once the vehicle is weighed, the difference shows what is missing from the list.")).wrap());
    rows::at(ui, cx, "parts", "parts", |ui, cx, i| {
        choices(ui, |ui| {
            what(ui, cx, &format!("parts[{i}]"), &say!("Part {number}: description", number = i + 1));
            let part = &mut cx.job.parts[i];
            ui.radio_value(&mut part.way, Way::Out, tr("removed"));
            ui.radio_value(&mut part.way, Way::In, tr("added"));
            let chosen = on_words(part.on);
            let combo = ComboBox::from_id_salt(("part on", i)).selected_text(chosen).width(120.0);
            let shown = combo.show_ui(ui, |ui| {
                for on in [PartOn::Body, PartOn::FrontAxle, PartOn::RearAxle] {
                    ui.selectable_value(&mut part.on, on, on_words(on));
                }
            });
            let name = say!("Part {number}, position: {carrier}", number = i + 1, carrier = chosen);
            shown.response.widget_info(|| eframe::egui::WidgetInfo::labeled(eframe::egui::Role::ComboBox, true, &name));
        });
    });
    typical_part(ui, cx);
}

/// Chooses one of the typical parts.
fn typical_part(ui: &mut Ui, cx: &mut Cx<'_>) {
    let combo = ComboBox::from_id_salt("typical part").selected_text(tr("Add a typical part")).width(170.0);
    let shown = combo.show_ui(ui, |ui| {
        for (i, (what, kg, u)) in TYPICAL.iter().enumerate() {
            let mass = display::rounded_with_u(*kg, Some(*u), Dim::Mass, &cx.job.units);
            cx.when(ui.selectable_label(false, format!("{}: {mass}", tr(what))), Command::AddTypical(i));
        }
    });
    let name = tr("Add a typical part");
    shown.response.widget_info(|| eframe::egui::WidgetInfo::labeled(eframe::egui::Role::ComboBox, true, name));
    shown.response.on_hover_text(tr(
        "Usual masses, guessed from common practice. Weigh the part or ask for its mass, then overwrite the guess.",
    ));
}

fn on_words(on: PartOn) -> &'static str {
    match on {
        PartOn::Body => tr("on the body"),
        PartOn::FrontAxle => tr("on the front axle"),
        PartOn::RearAxle => tr("on the rear axle"),
    }
}

/// What was aboard at a weigh-in: "before" or "after".
pub fn aboard(ui: &mut Ui, cx: &mut Cx<'_>, when: &str) {
    let path = format!("{when}.loads");
    load_rows(ui, cx, &path, if when == "before" { tr("Before") } else { tr("After") });
}

/// The load cases.
pub fn cases(ui: &mut Ui, cx: &mut Cx<'_>) {
    ui.add(Label::new(tr("Enter how the vehicle is really used: people, fuel, cargo, a trailer. Each load case is checked against the ratings and compared with \"as weighed\"; what was aboard at the weigh-in is subtracted.")).wrap());
    let mut taken = None;
    for i in 0..cx.job.cases.len().min(bounded::most_rows("cases")) {
        heading(ui, &say!("Load case {number}", number = i + 1));
        ui.horizontal_wrapped(|ui| {
            let label = ui.label(tr("Name"));
            let edit = TextEdit::singleline(&mut cx.job.cases[i].name).desired_width(180.0).margin(vec2(8.0, 6.0));
            limited(ui, edit, MOST_IN_NAME).labelled_by(label.id);
            if ui.checkbox(&mut cx.job.cases[i].sized, tr("size springs for this load case")).changed() && cx.job.cases[i].sized {
                cx.job.cases.iter_mut().enumerate().filter(|(k, _)| *k != i).for_each(|(_, c)| c.sized = false);
            }
            let what_if = ui.checkbox(&mut cx.job.cases[i].what_if, tr("what-if only"));
            what_if.on_hover_text(tr(
                "The vehicle must not be driven like this. If a rating is exceeded, a what-if only warns; for permitted use, the program shows STOP.",
            ));
            if ui.small_button(tr("Remove load case")).clicked() {
                taken = Some(i);
            }
        });
        load_rows(ui, cx, &format!("cases[{i}].loads"), &say!("Load case {number}", number = i + 1));
        if cx.job.cases[i].loads.is_empty() {
            // What is wrong with a case hangs on its first row.
            for column in ["mass", "y"] {
                cx.below(ui, &format!("cases[{i}].loads[0].{column}"));
            }
        }
        cx.row(ui, &format!("cases[{i}].tongue"));
    }
    if let Some(row) = taken {
        cx.run(Command::TakeRow { list: "cases".into(), row });
    }
    cx.when(ui.button(tr("Add a load case")), Command::AddRow("cases".into()));
}

fn load_rows(ui: &mut Ui, cx: &mut Cx<'_>, path: &str, whose: &str) {
    rows::at(ui, cx, path, "loads", |ui, cx, i| {
        ui.horizontal(|ui| {
            what(ui, cx, &format!("{path}[{i}]"), &say!("{whose}, row {number}: description", whose, number = i + 1));
        });
    });
    usual_places(ui, cx, path);
    ui.add_space(0.5 * UNIT);
}

/// A button for each usual place of a load.
fn usual_places(ui: &mut Ui, cx: &mut Cx<'_>, path: &str) {
    ui.horizontal_wrapped(|ui| {
        ui.small(tr("Add with usual mass and position:"));
        for place in Place::ALL {
            let button = ui.add(Button::new(place.words()).min_size(vec2(0.0, FIELD)));
            let words = tr("These values are guesses from common practice: measure, then overwrite them.");
            cx.when(button.on_hover_text(words), Command::AddLoad(path.to_owned(), place));
        }
    });
}

/// The name of a row.
fn what(ui: &mut Ui, cx: &mut Cx<'_>, row: &str, name: &str) {
    let Some(text) = cx.job.what_mut(row) else { return };
    let number = row.rsplit_once('[').and_then(|(_, n)| n.trim_end_matches(']').parse::<usize>().ok()).unwrap_or(0) + 1;
    ui.add_sized(vec2(28.0, 30.0), Label::new(number.to_string()));
    let edit = TextEdit::singleline(text).desired_width(180.0).margin(vec2(8.0, 5.0)).hint_text(tr("description"));
    let response = limited(ui, edit.id(eframe::egui::Id::unique(("what", row))), MOST_IN_NAME);
    if cx.view.focus.take_if(|path| *path == format!("{row}.what")).is_some() {
        response.request_focus();
        response.scroll_to_me(None);
    }
    response.widget_info(|| eframe::egui::WidgetInfo::labeled(eframe::egui::Role::TextInput, true, name));
}
