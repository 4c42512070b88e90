//! The answer, always in view: a sentence per axle, its certainty, its worst finding, and the shift.

use eframe::egui::text::LayoutJob;
use eframe::egui::{self, Button, Label, RichText, Sense, TextStyle, Ui, vec2};

use crate::gui::drawings::plain;
use crate::gui::state::Cx;
use crate::gui::state::command::Command;
use crate::gui::widgets::theme::{self, NARROW, UNIT};
use crate::job::{Finding, Level, Side};
use crate::say;

/// Draws the strip.
pub fn show(ui: &mut Ui, cx: &mut Cx<'_>) {
    ui.add_space(4.0);
    let shift_width = 500.0;
    if ui.available_width() < NARROW {
        sentences(ui, cx);
        plain::shift(ui, cx, ui.available_width());
    } else {
        ui.horizontal_top(|ui| {
            let width = ui.available_width() - shift_width - 2.0 * UNIT;
            ui.allocate_ui_with_layout(vec2(width, 0.0), egui::Layout::top_down(egui::Align::Min), |ui| {
                ui.set_width(width);
                sentences(ui, cx);
            });
            ui.add_space(UNIT);
            ui.vertical(|ui| plain::shift(ui, cx, shift_width));
        });
    }
    ui.add_space(4.0);
}

/// The sentence of the axle that is shown, on one line; whole when pointed at.
pub fn line(ui: &mut Ui, cx: &mut Cx<'_>) {
    let side = cx.view.side();
    let said = &cx.shown.sentences[usize::from(side == Side::Rear)];
    let mut text = RichText::new(&said.answer).family(theme::bold());
    if let Some(level) = withheld(cx, side) {
        text = text.color(theme::level_color(level, cx.dark));
    }
    ui.add(Label::new(text).truncate());
}

/// The level of what withholds an axle's answer; `None` when it is released.
fn withheld(cx: &Cx<'_>, side: Side) -> Option<Level> {
    cx.shown.answer.released(side).err().map(|reasons| reasons.first.level)
}

fn sentences(ui: &mut Ui, cx: &mut Cx<'_>) {
    // What belongs to one axle stands close together.
    ui.spacing_mut().item_spacing.y = 1.0;
    for side in Side::BOTH {
        if side == Side::Rear {
            ui.add_space(UNIT);
        }
        let withheld = withheld(cx, side);
        let said = &cx.shown.sentences[usize::from(side == Side::Rear)];
        let color = withheld.map(|level| theme::level_color(level, cx.dark));
        let mut text = RichText::new(&said.answer).text_style(theme::answer_style());
        if let Some(color) = color {
            text = text.color(color).strong();
        }
        ui.horizontal_top(|ui| {
            if let Some(level) = withheld {
                let (rect, _) = ui.allocate_exact_size(vec2(20.0, 22.0), Sense::hover());
                theme::level_sign(ui.painter(), level, rect.center(), 8.0, cx.dark);
            }
            ui.add(Label::new(text).wrap());
        });
        if !said.certainty.is_empty() {
            ui.add(Label::new(two_lines(ui, &said.certainty)).wrap());
        }
        if let Some((finding, more)) = worst(cx, side) {
            ui.horizontal_top(|ui| worst_line(ui, cx, &finding, more));
        }
    }
}

/// A small text of two lines at most, so that the form keeps its room; the whole of it is shown when pointed at.
fn two_lines(ui: &Ui, text: &str) -> LayoutJob {
    let font = TextStyle::Small.resolve(ui.style());
    let mut job = LayoutJob::simple(text.to_owned(), font, ui.visuals().weak_text_color(), f32::INFINITY);
    job.wrap.max_rows = 2;
    job
}

/// The worst finding about an axle, and how many more there are.
fn worst(cx: &Cx<'_>, side: Side) -> Option<(Finding, usize)> {
    let of_axle = |f: &&Finding| f.level > Level::Note && f.field.starts_with(side.key());
    let all: Vec<&Finding> = cx.shown.answer.findings.iter().filter(of_axle).collect();
    all.first().map(|f| ((*f).clone(), all.len() - 1))
}

fn worst_line(ui: &mut Ui, cx: &mut Cx<'_>, finding: &Finding, more: usize) {
    let (rect, _) = ui.allocate_exact_size(vec2(14.0, 16.0), Sense::hover());
    theme::level_sign(ui.painter(), finding.level, rect.center(), 5.0, cx.dark);
    let first = first_clause(&finding.text).trim_end_matches('.');
    let words = if more == 0 { format!("{first}.") } else { say!("{first} (and {more} more).", first, more) };
    let words = RichText::new(words).text_style(TextStyle::Small).color(theme::level_color(finding.level, cx.dark));
    let response = ui.add(Button::new(words).frame(false).wrap());
    if response.on_hover_text(say!("{text}\nClick: go to the field.", text = finding.text)).clicked() {
        cx.run(Command::GoTo(finding.field.clone()));
    }
}

/// Up to the first full stop or semicolon that stands in no bracket.
fn first_clause(text: &str) -> &str {
    let mut open = 0_usize;
    for (i, c) in text.char_indices() {
        match c {
            '(' => open += 1,
            ')' => open = open.saturating_sub(1),
            '.' | ';' if open == 0 && text[i + 1..].starts_with(' ') => return &text[..i],
            _ => {}
        }
    }
    text
}
