//! The buttons next to a finding that correct it with one click.

use eframe::egui::{Button, Role, Ui, WidgetInfo, vec2};

use crate::base::message::Message;
use crate::gui::state::Cx;
use crate::gui::state::command::Command;
use crate::gui::widgets::theme::FIELD;
use crate::job::Finding;

/// A button for each mend of a finding; what it types is its description, and shown when pointed at.
pub fn buttons(ui: &mut Ui, cx: &mut Cx<'_>, finding: &Finding) {
    if finding.mends.is_empty() {
        return;
    }
    ui.horizontal_wrapped(|ui| {
        ui.add_space(FIELD);
        for mend in &finding.mends {
            let button = ui.add(Button::new(mend.label.clone()).min_size(vec2(0.0, FIELD)));
            button.widget_info(|| WidgetInfo::labeled(Role::Button, true, mend.label.to_string()));
            let typed = Message::row(mend.by_label(), "\n").to_string();
            ui.ctx().accesskit_node_builder(button.id, |node| node.set_description(typed.clone()));
            if button.on_hover_text(typed).clicked() {
                cx.run(Command::Mend(mend.clone()));
            }
        }
    });
}
