//! What scrolled out of view keeps its room and is neither built nor laid out, so that typing costs what one sees.

use eframe::egui::{Rect, Ui, Vec2, accesskit_root_id, vec2};

/// Draws something that has nothing to press, if it is in view. Out of view it keeps the room it took when it was drawn
/// last in this width.
pub fn only(ui: &mut Ui, id: &str, draw: impl FnOnce(&mut Ui)) {
    let (place, width) = (ui.scope_id().with(("room", id)), ui.available_width());
    let known: Option<Vec2> = ui.data(|d| d.get_temp(place)).filter(|room: &Vec2| room.x == width);
    if let Some(room) = known.filter(|room| !is(ui, room.y)) {
        ui.allocate_space(room);
        return;
    }
    let height = ui.scope(draw).response.rect.height();
    ui.data_mut(|d| d.insert_temp(place, vec2(width, height)));
}

/// What comes next, this many points high, is in view; or a screen reader is at work, which also reads what is not.
pub(in crate::gui) fn is(ui: &Ui, height: f32) -> bool {
    let next = Rect::from_min_size(ui.cursor().left_top(), vec2(ui.available_width(), height));
    ui.clip_rect().intersects(next) || ui.ctx().has_accesskit_node(accesskit_root_id())
}
