//! The job in one minute: a line of words at each station, which brings its step and its field along.

use eframe::egui::{Label, Ui};

use crate::base::language::{Word, tr};
use crate::gui::state::Cx;
use crate::gui::state::command::{Command, HelpCommand};
use crate::gui::state::step::Step;
use crate::say;

/// The stations: the text of each, the step shown, the field that gets the cursor.
pub const STATIONS: [(Word, Step, Option<&str>); 7] = [
    (
        Word(
            "On first start, the program opens a demo job: a workshop van with a heavier engine. The answer is at the top, one line per axle; hover over it to see the whole sentence. It changes as you type.",
        ),
        Step::Weigh,
        None,
    ),
    (
        Word(
            "Weigh: the scale reading at each wheel, before and after the change. The cursor is at the left front. Enter another weight and watch the answer above.",
        ),
        Step::Weigh,
        Some("after.lf"),
    ),
    (
        Word(
            "Measure: how far the wheel moves up, how far the spring is compressed, and the spring rate. F1 shows what to measure, with a sketch.",
        ),
        Step::Measure,
        Some("front.ratio.wheel_moved"),
    ),
    (
        Word(
            "Springs: how the axle should ride. The suitable rates appear immediately; the plot shows the nearest stock rate.",
        ),
        Step::Springs,
        None,
    ),
    (
        Word(
            "Dampers and Whole vehicle: the damper forces for the order, and what springs cannot cure. If a rating is exceeded, the program shows STOP.",
        ),
        Step::Vehicle,
        None,
    ),
    (
        Word(
            "Sheet: the page that shows the customer the reasons; F11 shows them on screen, step by step. The findings, counted on the left, lead to the fields to check; \"All results of this step, with formulas\" explains the numbers in the other steps.",
        ),
        Step::Sheet,
        None,
    ),
    (
        Word(
            "Now your own job: File, New. Four weights, one motion ratio and one rate give a first answer; everything else refines it. Undo brings back the previous job.",
        ),
        Step::Weigh,
        None,
    ),
];

/// What brings the window to a station; nothing beyond the last.
pub fn go_to(n: usize) -> Option<Command> {
    let (_, step, field) = STATIONS.get(n)?;
    Some(field.map_or(Command::Step(*step), |field| Command::GoTo(field.to_owned())))
}

/// Draws the station that is open.
pub fn show(ui: &mut Ui, cx: &mut Cx<'_>) {
    let Some(n) = cx.view.guide else { return };
    let guide = |n| Command::Help(HelpCommand::Guide(n));
    let (words, ..) = STATIONS[n.min(STATIONS.len() - 1)];
    ui.vertical(|ui| {
        ui.add(Label::new(words).wrap());
        ui.horizontal(|ui| {
            let place = say!("One-minute guide: {station} of {stations}", station = n + 1, stations = STATIONS.len());
            ui.small(place);
            let is_last = n + 1 == STATIONS.len();
            if !is_last && ui.button(tr("Next")).clicked() {
                cx.run(guide(Some(n + 1)));
            }
            if n > 0 && ui.button(tr("Back")).clicked() {
                cx.run(guide(Some(n.saturating_sub(1))));
            }
            cx.when(ui.button(tr("Close guide")), guide(None));
        });
    });
}
