//! What the signs in the window mean.

use eframe::egui::{Color32, Painter, Pos2, RichText, Ui};

use crate::base::language::tr;
use crate::base::units::Origin;
use crate::gui::widgets::heading;
use crate::gui::widgets::signs::{self, Standing};
use crate::gui::widgets::theme;
use crate::job::Level;
use crate::solve::answer::State;

/// A line for each kind of sign.
pub(in crate::gui) fn show(ui: &mut Ui, dark: bool) {
    heading(ui, tr("Signs next to a field: the origin of its value. F2 in the field changes it."));
    row(ui, Origin::ALL.map(Some).into_iter().chain([None]), |origin| {
        let words = origin.map_or(tr("not stated"), |origin| origin.word().said());
        (words, move |painter: &Painter, at, color| signs::origin(painter, origin, at, color))
    });
    heading(ui, tr("Signs of the axle, in the answer, in plots and on sheets"));
    row(ui, State::ALL, |state| {
        (state.words().said(), move |painter: &Painter, at, _| theme::mark(painter, state, at, 5.0, dark))
    });
    heading(ui, tr("Signs of findings"));
    row(ui, [Level::Note, Level::Doubt, Level::Withheld, Level::Error, Level::Stop], |level| {
        (level.word().said(), move |painter: &Painter, at, _| theme::level_sign(painter, level, at, 5.5, dark))
    });
    heading(ui, tr("Signs of steps"));
    row(ui, Standing::USUAL, |standing| {
        (standing.words(), move |painter: &Painter, at, color| signs::step(painter, standing, at, color, dark))
    });
}

/// Signs with their words, in a line that wraps.
fn row<T, D>(ui: &mut Ui, all: impl IntoIterator<Item = T>, one: impl Fn(T) -> (&'static str, D))
where
    D: FnOnce(&Painter, Pos2, Color32),
{
    ui.horizontal_wrapped(|ui| {
        for (words, draw) in all.into_iter().map(one) {
            signs::beside(ui, draw);
            ui.label(RichText::new(words));
            ui.add_space(theme::UNIT);
        }
    });
}
