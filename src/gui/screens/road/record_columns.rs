//! What the columns of a recording mean, where they were not found as they should be.

use eframe::egui::{ComboBox, Ui};

use crate::base::language::tr;
use crate::shop::recordings::{Ask, MOTION_UNITS, TIME_UNITS};

/// Lets a user choose; what was chosen, when something was. `id` tells this place from others.
pub fn choose(ui: &mut Ui, id: &str, columns: &[String], asked: &Ask) -> Option<Ask> {
    let mut chosen = asked.clone();
    let names: Vec<&str> = columns.iter().map(String::as_str).collect();
    let units: Vec<&str> = MOTION_UNITS.split(", ").collect();
    let times: Vec<&str> = TIME_UNITS.split(", ").collect();
    ui.horizontal_wrapped(|ui| {
        one_of(ui, id, tr("Time column"), &names, &mut chosen.time);
        one_of(ui, id, tr("Unit of the time"), &times, &mut chosen.time_unit);
        one_of(ui, id, tr("Vertical"), &names, &mut chosen.axis);
        one_of(ui, id, tr("Unit of the motion"), &units, &mut chosen.unit);
    });
    (chosen != *asked).then_some(chosen)
}

fn one_of(ui: &mut Ui, id: &str, label: &str, all: &[&str], chosen: &mut Option<String>) {
    let itself = tr("found by itself");
    let shown = chosen.as_deref().unwrap_or(itself).to_owned();
    ui.push_id((id, label), |ui| {
        ComboBox::from_label(label).width(140.0).selected_text(shown).show_ui(ui, |ui| {
            if ui.selectable_label(chosen.is_none(), itself).clicked() {
                *chosen = None;
            }
            for one in all {
                if ui.selectable_label(chosen.as_deref() == Some(one), *one).clicked() {
                    *chosen = Some((*one).to_owned());
                }
            }
        });
    });
}
