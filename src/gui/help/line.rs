//! One line of help about the field with the cursor.

use eframe::egui::{Label, RichText, Ui};

use crate::base::language::tr;
use crate::gui::state::Cx;

/// Draws the line.
pub fn show(ui: &mut Ui, cx: &Cx<'_>) {
    let text = if cx.view.help.is_empty() {
        tr(
            "Tab or Enter: next field. Ctrl+1 to 8: steps. Ctrl+F, Ctrl+R: front, rear axle. Ctrl+E: findings. F11: customer's view. F1 in a field: help. A number without a unit takes the unit shown.",
        )
    } else {
        &cx.view.help
    };
    ui.add(Label::new(RichText::new(text).small()).truncate());
}
