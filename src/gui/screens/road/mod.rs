//! Rough roads: what springs and dampers do there, by closed forms and in runs.

mod bounce_and_bench;
mod drives;
mod record_columns;

use eframe::egui::{Label, ProgressBar, RichText, Slider, Ui};

use crate::base::language::tr;
use crate::base::units::display;
use crate::gui::background::riding::{Progress, Riding};
use crate::gui::drawings::plots;
use crate::gui::drawings::ride;
use crate::gui::screens::axle_choice;
use crate::gui::screens::choose::combo;
use crate::gui::screens::pictures_of;
use crate::gui::screens::with_either_mark;
use crate::gui::state::Cx;
use crate::gui::state::command::{Command, RoadCommand};
use crate::gui::state::section::Section;
use crate::gui::widgets::in_view;
use crate::gui::widgets::numbers;
use crate::gui::widgets::tables;
use crate::gui::widgets::theme::UNIT;
use crate::job::RoadClass;
use crate::report::pictures::on_road;
use crate::report::sections::road_tables;
use crate::say;
use crate::solve::answer::OverRoad;
use crate::solve::road::Driven;

/// The form.
pub fn form(ui: &mut Ui, cx: &mut Cx<'_>) {
    axle_choice(ui, cx);
    cx.section(ui, Section::Road);
    let words = |c: RoadClass| say!("class {letter}: {roughness}", letter = c.letter(), roughness = c.words());
    let class = &mut cx.job.road.class;
    let label = ui.label(tr("Road class"));
    let chosen = combo(ui, "road class", tr("Road class"), &words(*class), 280.0, |ui| {
        for one in RoadClass::ALL {
            ui.selectable_value(class, one, words(one));
        }
    });
    chosen.labelled_by(label.id);
    cx.rows(ui, ["chassis.speed", "chassis.hump_height", "chassis.hump_length", "road.hole", "road.seed"]);
    bounce_and_bench::form(ui, cx);
}

/// What closed forms say of this class of road.
fn closed(ui: &mut Ui, cx: &mut Cx<'_>) {
    let blocks = &*cx.shown.road[cx.view.side()];
    if blocks.is_empty() {
        ui.label(tr("Not known yet: weights, unsprung mass, a spring and a damper are needed."));
    }
    in_view::only(ui, "closed", |ui| tables::all(ui, "closed", blocks));
    ui.add_space(UNIT);
}

/// The runs with the picture that moves, and the trade-off.
pub fn pictures(ui: &mut Ui, cx: &mut Cx<'_>) {
    pictures_of(ui, cx, &[Section::Road]);
    closed(ui, cx);
    ui.horizontal(|ui| {
        for over in OverRoad::ALL {
            let words = RichText::new(over.words()).heading();
            cx.when(ui.selectable_label(cx.riding.over() == over, words), Command::Road(RoadCommand::Over(over)));
        }
    });
    progress(ui, cx);
    match cx.riding.found() {
        Some(Ok(driven)) => runs(ui, cx, driven),
        Some(Err(why)) => {
            ui.add(Label::new(say!("Not simulated: {why}.", why)).wrap());
        }
        None => {}
    }
    ui.add_space(UNIT);
    let trade = &cx.shown.trade[cx.view.side()];
    plots::draw(ui, trade.as_ref(), "trade", &cx.job.units, cx.dark, cx.commands);
    let side = cx.view.side();
    bounce_and_bench::pictures(ui, cx);
    numbers::show(
        ui,
        cx,
        &[
            format!("{}.bounce.", side.key()),
            format!("{}.body_mode.", side.key()),
            format!("{}.bench.", side.key()),
            format!("{}.before.road", side.key()),
            format!("{}.old_springs.road", side.key()),
            format!("{}.new_springs.road", side.key()),
            format!("{}.remedies.", side.key()),
        ],
    );
}

fn progress(ui: &mut Ui, cx: &mut Cx<'_>) {
    if let Some(trouble) = cx.riding.trouble() {
        ui.add(Label::new(trouble).wrap());
    }
    ui.horizontal(|ui| match cx.riding.progress() {
        Progress::Current => {
            ui.label(RichText::new(tr("Simulated for the current job with the full damper curves.")).small().weak());
        }
        Progress::Resting => {
            ui.label(RichText::new(tr("The result shown is from before your last change to the job.")).small().weak());
        }
        Progress::Running(share) => {
            ui.add(ProgressBar::new(share).desired_width(240.0).text(tr("Simulating")));
            cx.when(ui.button(tr("Stop")), Command::Road(RoadCommand::Stop));
        }
        Progress::Stopped => {
            ui.label(tr("Stopped."));
            cx.when(ui.button(tr("Simulate")), Command::Road(RoadCommand::WorkOut));
        }
    });
}

/// The picture that moves, its keys, and the table of the runs.
fn runs(ui: &mut Ui, cx: &mut Cx<'_>, driven: &Driven) {
    let (over, at_s) = (cx.riding.over(), cx.riding.at_s());
    let found = on_road::room_over_time(&cx.shown.answer, driven, over, cx.view.side(), at_s);
    keys(ui, cx, over, at_s);
    ride::show(ui, cx, driven, over, at_s);
    if let Some(picture) = &found {
        plots::draw_high(ui, picture, "room over time", &cx.job.units, cx.dark, 200.0, cx.commands);
    }
    in_view::only(ui, "runs", |ui| {
        let results = road_tables::results(Ok(driven));
        let runs = road_tables::runs_of(&results, over, cx.view.side(), &cx.job.units);
        tables::all(ui, "runs", &runs);
        tables::all(ui, "open", &road_tables::open(&results, over));
    });
    ui.add(Label::new(RichText::new(tr(road_tables::COMPARATIVE)).small()).wrap());
}

/// Play, pause, step; the moment shown.
fn keys(ui: &mut Ui, cx: &mut Cx<'_>, over: OverRoad, at_s: f64) {
    ui.horizontal_wrapped(|ui| {
        let playing = cx.riding.is_playing();
        cx.when(ui.button(if playing { tr("Pause") } else { tr("Play") }), Command::Road(RoadCommand::Play(!playing)));
        for (words, steps) in [(tr("Previous frame"), -1), (tr("Next frame"), 1)] {
            cx.when(ui.button(words), Command::Road(RoadCommand::Step(steps)));
        }
        // Shown rounded, kept in full: a slider that rounds would hold the picture.
        let mut moment = at_s;
        let slider = Slider::new(&mut moment, 0.0..=Riding::shown_s(over).0)
            .text("s")
            .custom_formatter(|s, _| display::fixed(s, 2))
            .custom_parser(with_either_mark);
        if ui.add(slider).changed() {
            cx.run(Command::Road(RoadCommand::At(moment)));
        }
    });
    let slower = Riding::slower(over);
    let mut words = say!("Heights are drawn {taller:.0} times larger than lengths.", taller = ride::TALLER);
    if slower > 1.0 {
        words = format!("{words} {}", say!("Shown at 1/{slower:.0} of real speed.", slower));
    }
    ui.small(words);
}
