//! The buttons of the customer's view: large enough for a finger, with the mark of its step.

use std::fmt::Debug;
use std::hash::Hash;

use eframe::egui::{Color32, FontId, Id, Rect, Role, Sense, StrokeKind, Ui, Vec2, WidgetInfo, pos2, vec2};

use super::texts;
use crate::gui::widgets::theme;
use crate::solve::answer::State;

/// Something to press.
pub(super) struct Press<'a> {
    /// Its words.
    pub name: &'a str,
    /// It does something now.
    pub is_on: bool,
    /// It is what is shown.
    pub is_chosen: bool,
    /// The mark before its words.
    pub mark: Option<State>,
}

/// Of the size of the type: the radius of a mark; of that radius: what it takes before the words.
const MARK: f32 = 0.42;
const BEFORE: f32 = 3.2;

/// The size of type in which a name with its mark has room in a button of this size.
pub(super) fn fitting(ui: &Ui, name: &str, font: FontId, size: Vec2) -> f32 {
    let room = vec2(size.x - (1.0 + MARK * BEFORE) * font.size, size.y);
    texts::wrapped(ui, name, font, Color32::PLACEHOLDER, room).1
}

/// Draws it in its place; true when it was pressed.
pub(super) fn press(
    ui: &mut Ui,
    dark: bool,
    id: impl Hash + Debug,
    rect: Rect,
    what: &Press<'_>,
    font: FontId,
) -> bool {
    let sense = if what.is_on { Sense::click() } else { Sense::hover() };
    let response = ui.interact(rect, Id::unique(("customer", id)), sense);
    response.widget_info(|| match what.mark {
        Some(_) => WidgetInfo::selected(Role::Button, what.is_on, what.is_chosen, what.name),
        None => WidgetInfo::labeled(Role::Button, what.is_on, what.name),
    });
    let mut look = ui.style().interact_selectable(&response, what.is_chosen);
    if !what.is_on {
        look.fg_stroke.color = ui.visuals().weak_text_color().gamma_multiply(0.7);
    }
    let painter = ui.painter_at(rect.expand(2.0));
    painter.rect(rect, 6.0, look.weak_bg_fill, look.bg_stroke, StrokeKind::Inside);
    if response.has_focus() {
        painter.rect_stroke(rect, 6.0, ui.visuals().selection.stroke, StrokeKind::Inside);
    }
    let radius = if what.mark.is_some() { MARK * font.size } else { 0.0 };
    let before = BEFORE * radius;
    let room = vec2(rect.width() - before - font.size, rect.height());
    let (words, _) = texts::wrapped(ui, what.name, font, look.text_color(), room);
    let left = rect.center().x - 0.5 * (words.size().x + before);
    if let Some(state) = what.mark {
        theme::mark(&painter, state, pos2(left + radius, rect.center().y), radius, dark);
    }
    painter.galley(pos2(left, rect.center().y) + vec2(before, -0.5 * words.size().y), words, look.text_color());
    response.clicked()
}
