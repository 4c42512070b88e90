//! What scrolled out of view keeps its room and is neither built nor laid out, so that typing costs what one sees.

use eframe::egui::{Rect, Ui, Vec2, accesskit_root_id, vec2};

/// Draws something that has nothing to press, if it is in view. Out of view it keeps the room it took when it was drawn
/// last in this width.
pub(in crate::gui) fn only(ui: &mut Ui, id: &str, draw: impl FnOnce(&mut Ui)) {
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

#[cfg(test)]
mod tests {
    use super::*;
    use eframe::egui::{Context, RawInput, ScrollArea, pos2};

    /// How often a block below others is drawn in each of these frames, and how high all of it is.
    fn frames(ctx: &Context, offsets: &[f32]) -> Vec<(u32, f32)> {
        let frame = |offset: &f32| {
            let mut found = (0, 0.0);
            let window = Rect::from_min_size(pos2(0.0, 0.0), vec2(300.0, 200.0));
            let input = RawInput { screen_rect: Some(window), ..RawInput::default() };
            let mut output = ctx.run_ui(input, |ui| {
                let area = ScrollArea::vertical().vertical_scroll_offset(*offset).show(ui, |ui| {
                    ui.add_space(600.0);
                    only(ui, "block", |ui| {
                        found.0 += 1;
                        ui.add_space(70.0);
                    });
                    ui.add_space(600.0);
                });
                found.1 = area.content_size.y;
            });
            output.textures_delta.clear();
            found
        };
        offsets.iter().map(frame).collect()
    }

    #[test]
    fn what_is_out_of_view_keeps_its_room_and_is_not_drawn() {
        let found = frames(&Context::default(), &[0.0, 0.0, 0.0, 500.0, 1000.0]);
        assert_eq!(found.iter().map(|f| f.0).collect::<Vec<_>>(), [1, 0, 0, 1, 0]);
        assert!(found.iter().all(|f| f.1 == found[0].1), "{found:?}");
    }

    #[test]
    fn a_screen_reader_reads_what_is_out_of_view() {
        let ctx = Context::default();
        ctx.enable_accesskit();
        assert!(frames(&ctx, &[0.0, 0.0, 0.0]).iter().all(|f| f.0 == 1));
    }
}
