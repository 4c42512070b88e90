//! One line of help about the field with the cursor.

use eframe::egui::{Label, RichText, TextStyle, Ui};

use crate::base::language::tr;
use crate::gui::state::Cx;
use crate::gui::widgets::theme;

/// Draws the line.
pub fn show(ui: &mut Ui, cx: &Cx<'_>) {
    let text = if cx.view.help.is_empty() { keys(ui) } else { &cx.view.help };
    ui.add(Label::new(RichText::new(text).small()).truncate());
}

/// The keys, as many of them as have room.
fn keys(ui: &Ui) -> &'static str {
    let all = tr(
        "Tab or Enter: next field. Ctrl+1 to 8: steps. Ctrl+F, Ctrl+R: front, rear axle. Ctrl+E: findings. F11: customer's view. F1 in a field: help. A number without a unit takes the unit shown.",
    );
    let font = TextStyle::Small.resolve(ui.style());
    if theme::text_width(ui, all, font) <= ui.available_width() {
        return all;
    }
    tr("Tab or Enter: next field. Ctrl+1 to 8: steps. Ctrl+E: findings. F1 in a field: help.")
}
