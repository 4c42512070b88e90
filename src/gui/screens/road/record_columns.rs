//! What sections of recordings share: before or after, how far reading has come, and what the columns mean.

use eframe::egui::{ComboBox, ProgressBar, Ui};

use crate::base::language::tr;
use crate::gui::state::Cx;
use crate::gui::state::command::{Command, RecordCommand};
use crate::gui::widgets::choices;
use crate::gui::widgets::field::finding_line;
use crate::job::Level;
use crate::shop::recordings::{Ask, MOTION_UNITS, TIME_UNITS};

/// Whether recordings are of before the change.
pub fn before_or_after(ui: &mut Ui, cx: &mut Cx<'_>) {
    choices(ui, |ui| {
        for (is_before, words) in [(true, tr("before the change")), (false, tr("after the change"))] {
            let command = Command::Record(RecordCommand::Before(is_before));
            cx.when(ui.radio(cx.records.is_before() == is_before, words), command);
        }
    });
}

/// How far reading has come, and why it gave nothing; true when it is to be stopped.
pub fn progress(ui: &mut Ui, share: Option<f32>, trouble: Option<&str>, dark: bool) -> bool {
    let mut stops = false;
    if let Some(share) = share {
        ui.horizontal(|ui| {
            ui.add(ProgressBar::new(share).desired_width(240.0).text(tr("Reading the recording")));
            stops = ui.button(tr("Stop")).clicked();
        });
    }
    if let Some(trouble) = trouble {
        finding_line(ui, Level::Error, trouble, dark);
    }
    stops
}

/// Lets a user choose; what was chosen, when something was. `id` tells this place from others.
pub fn choose(ui: &mut Ui, id: &str, columns: &[String], asked: &Ask) -> Option<Ask> {
    let mut chosen = asked.clone();
    let names: Vec<&str> = columns.iter().map(String::as_str).collect();
    let units: Vec<&str> = MOTION_UNITS.split(", ").collect();
    let times: Vec<&str> = TIME_UNITS.split(", ").collect();
    ui.horizontal_wrapped(|ui| {
        one_of(ui, id, tr("Time column"), &names, &mut chosen.time);
        one_of(ui, id, tr("Time unit"), &times, &mut chosen.time_unit);
        one_of(ui, id, tr("Vertical motion column"), &names, &mut chosen.axis);
        one_of(ui, id, tr("Vertical motion unit"), &units, &mut chosen.unit);
    });
    (chosen != *asked).then_some(chosen)
}

fn one_of(ui: &mut Ui, id: &str, label: &str, all: &[&str], chosen: &mut Option<String>) {
    let itself = tr("found automatically");
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
