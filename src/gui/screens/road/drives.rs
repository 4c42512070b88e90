//! Recorded drives over the same stretch before the change and after the work, and their spectra.

use eframe::egui::{Label, RichText, Ui};

use crate::base::language::tr;
use crate::gui::drawings::plots;
use crate::gui::screens::pictures_of;
use crate::gui::screens::road::record_columns;
use crate::gui::state::Cx;
use crate::gui::state::command::{Command, Loading, RecordCommand};
use crate::gui::state::section::Section;
use crate::gui::widgets::tables;

fn drive(command: Loading) -> Command {
    Command::Record(RecordCommand::Drive(command))
}

/// The section of the form.
pub fn form(ui: &mut Ui, cx: &mut Cx<'_>) {
    let was = cx.job.drive != Default::default() || cx.records.drives().said().is_some();
    cx.folded_section(ui, Section::Drive, tr("Recorded drive"), &["drive.".to_owned()], was, |ui, cx| {
        ui.add(Label::new(tr("Drive the same stretch at the same speed before and after, for half a minute or more, with the phone fixed in the same place.")).wrap());
        record_columns::before_or_after(ui, cx);
        let is_before = cx.records.is_before();
        reader(ui, cx, is_before);
        let when = if is_before { "before" } else { "after" };
        cx.rows(ui, ["felt", "rms"].map(|reading| format!("drive.{when}.{reading}")));
        let held = if is_before { &cx.job.drive.before } else { &cx.job.drive.after };
        if !held.file.is_empty() {
            ui.add(Label::new(RichText::new(format!("{}: {}", held.file, held.about)).small().weak()).wrap());
        }
        ui.checkbox(&mut cx.job.drive.same_stretch, tr("the same stretch at the same speed both times"));
        ui.checkbox(&mut cx.job.drive.same_place, tr("the sensor in the same place both times"));
    });
}

/// Opens a recording, and takes over what it says.
fn reader(ui: &mut Ui, cx: &mut Cx<'_>, is_before: bool) {
    let drives = cx.records.drives();
    if record_columns::progress(ui, drives.share(), drives.trouble(), cx.dark) {
        cx.run(drive(Loading::Stop));
    }
    let has = drives.has(is_before);
    ui.horizontal_wrapped(|ui| {
        let buttons = [(true, tr("Open a recorded drive…"), Loading::Open), (has, tr("Use this drive"), Loading::Take)];
        for (_, words, command) in buttons.into_iter().filter(|(is_there, ..)| *is_there) {
            cx.when(ui.button(words), drive(command));
        }
    });
    let columns = drives.columns(is_before);
    let chosen = columns.and_then(|(columns, asked)| record_columns::choose(ui, "drive", columns, asked));
    if let Some(columns) = chosen {
        cx.run(drive(Loading::Columns(columns)));
    }
}

/// What the job holds of drives, and the recordings that were read.
pub fn pictures(ui: &mut Ui, cx: &mut Cx<'_>) {
    pictures_of(ui, cx, &[Section::Drive]);
    tables::all(ui, "drives", &*cx.shown.drives);
    let Some(said) = cx.records.drives().said() else { return };
    if let Some(picture) = &said.picture {
        plots::draw_high(ui, picture, "drives", &cx.job.units, cx.dark, 240.0, cx.commands);
    }
    let blocks = if cx.records.is_before() { &said.blocks.before } else { &said.blocks.after };
    tables::all(ui, "drive", blocks);
}
