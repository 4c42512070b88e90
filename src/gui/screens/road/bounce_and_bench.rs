//! What was measured on the road and in the inspection: recorded bounces, the suspension bench.

use std::sync::LazyLock;

use eframe::egui::{Label, RichText, Ui};

use crate::base::language::tr;
use crate::gui::background::record_reader::Of;
use crate::gui::drawings::plots;
use crate::gui::screens::pictures_of;
use crate::gui::screens::road::{drives, record_columns};
use crate::gui::state::Cx;
use crate::gui::state::command::{Command, Loading, RecordCommand};
use crate::gui::state::section::Section;
use crate::gui::widgets::tables;
use crate::job::Side;
use crate::shop::presets::PRESETS;
use crate::shop::recordings::DEMO;

/// The vehicle of the shipped recordings.
static DEMO_VEHICLE: LazyLock<String> = LazyLock::new(|| PRESETS[0].job().vehicle.name);

/// All of them in the form.
pub fn form(ui: &mut Ui, cx: &mut Cx<'_>) {
    bounce(ui, cx);
    drives::form(ui, cx);
    bench(ui, cx);
}

/// The axle whose recording is shown.
fn shown(cx: &Cx<'_>) -> Of {
    Of { side: cx.view.side(), is_before: cx.records.is_before() }
}

/// What recorded bounces of the axle shown say.
fn bounce(ui: &mut Ui, cx: &mut Cx<'_>) {
    let key = cx.view.side().key();
    let was = cx.job.axle(cx.view.side()).bounce != Default::default() || cx.records.said(shown(cx)).is_some();
    let inside = [format!("{key}.bounce.")];
    cx.folded_section(ui, Section::Bounce, tr("Bounce test"), &inside, was, |ui, cx| {
        ui.add(Label::new(tr("Fix a phone to the wing and start recording the acceleration. Push this end of the vehicle down, let go and let it come to rest. Do this at least three times.")).wrap());
        record_columns::before_or_after(ui, cx);
        let of = shown(cx);
        reader(ui, cx, of);
        let when = if of.is_before { "before" } else { "after" };
        cx.rows(ui, ["damping", "frequency", "speed"].map(|reading| format!("{key}.bounce.{when}.{reading}")));
        let held = of.reading(cx.job);
        if !held.file.is_empty() {
            ui.add(Label::new(RichText::new(format!("{}: {}", held.file, held.about)).small().weak()).wrap());
        }
    });
}

/// Opens a recording, and takes over what it says.
fn reader(ui: &mut Ui, cx: &mut Cx<'_>, of: Of) {
    if record_columns::progress(ui, cx.records.share(), cx.records.trouble(), cx.dark) {
        cx.run(Command::Record(RecordCommand::Bounce(Loading::Stop)));
    }
    let (is_found, has_ratio) = cx.records.said(of).map_or((false, false), |s| (true, s.on_springs.is_some()));
    let is_demo = of.side == Side::Front && cx.job.vehicle.name == *DEMO_VEHICLE;
    let demo = DEMO[usize::from(!of.is_before)].0;
    ui.horizontal_wrapped(|ui| {
        let buttons = [
            (true, tr("Open a recording…"), RecordCommand::Bounce(Loading::Open)),
            (is_demo, tr("Open the demo recording"), RecordCommand::Bounce(Loading::Read(demo.into()))),
            (is_found, tr("Use this result"), RecordCommand::Bounce(Loading::Take)),
            (has_ratio, tr("Use as damping ratio before the change"), RecordCommand::TakeRatio),
        ];
        for (_, words, command) in buttons.into_iter().filter(|(is_there, ..)| *is_there) {
            cx.when(ui.button(words), Command::Record(command));
        }
    });
    let chosen =
        cx.records.columns(of).and_then(|(columns, asked)| record_columns::choose(ui, "bounce", columns, asked));
    if let Some(columns) = chosen {
        cx.run(Command::Record(RecordCommand::Bounce(Loading::Columns(columns))));
    }
}

/// What a suspension bench measured on the axle shown, and its marks.
fn bench(ui: &mut Ui, cx: &mut Cx<'_>) {
    let side = cx.view.side();
    let key = side.key();
    let inside = [format!("{key}.bench."), "limits.bench_".to_owned()];
    let was = cx.job.axle(side).bench != Default::default();
    cx.folded_section(ui, Section::Bench, tr("Suspension bench"), &inside, was, |ui, cx| {
        for when in ["before", "after"] {
            let readings = ["left", "right", "left_phase", "right_phase"];
            cx.rows(ui, readings.map(|reading| format!("{key}.bench.{when}.{reading}")));
        }
        cx.rows(ui, ["good", "fair", "weak", "phase", "left_right"].map(|limit| format!("limits.bench_{limit}")));
    });
}

/// What was recorded and measured on the axle shown, compared with what the job predicts.
pub fn pictures(ui: &mut Ui, cx: &mut Cx<'_>) {
    let side = cx.view.side();
    pictures_of(ui, cx, &[Section::Bounce]);
    tables::all(ui, "bounces", &*cx.shown.bounces[side]);
    if let Some(picture) = cx.shown.decays[side].as_ref() {
        plots::draw_high(ui, picture, "decays", &cx.job.units, cx.dark, 220.0, cx.commands);
    }
    if let Some(said) = cx.records.said(shown(cx)) {
        if let Some(picture) = &said.picture {
            plots::draw_high(ui, picture, "bounce", &cx.job.units, cx.dark, 220.0, cx.commands);
        }
        tables::all(ui, "recording", &said.blocks);
    }
    drives::pictures(ui, cx);
    pictures_of(ui, cx, &[Section::Bench]);
    tables::all(ui, "bench", &*cx.shown.bench[side]);
}
