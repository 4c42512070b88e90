//! Many rows of one height; only those on screen are laid out.

use std::ops::Range;

use eframe::egui::{Align, Layout, Rect, ScrollArea, Ui, UiBuilder, pos2, vec2};

use crate::gui::widgets::scroll;

/// Draws the rows on screen, one more above and below so that Tab finds the next; gives back which that were.
pub fn show(
    ui: &mut Ui,
    id: &str,
    height: f32,
    count: usize,
    most: f32,
    mut row: impl FnMut(&mut Ui, usize),
) -> Range<usize> {
    // Inside a page that scrolls, too, it is as high as it may be.
    let least = most.min(height * count as f32);
    let area =
        ScrollArea::vertical().id_salt(id).max_height(most).min_scrolled_height(least).auto_shrink([false, true]);
    area.show_viewport(ui, |ui, seen| {
        ui.set_min_size(vec2(ui.available_width(), height * count as f32));
        let first = ((seen.min.y / height).floor().max(0.0) as usize).saturating_sub(1);
        let end = ((seen.max.y / height).ceil().max(0.0) as usize + 1).min(count);
        let (left, width) = (ui.max_rect().left(), ui.available_width());
        let top = f64::from(ui.max_rect().top()) + f64::from(seen.min.y);
        // A row is the same widget wherever the list is scrolled to.
        ui.skip_ahead_auto_ids(first);
        for i in first..end {
            // In f64: far down a long list an f32 has no tenths of a point left.
            let y = top + (i as f64 * f64::from(height) - f64::from(seen.min.y));
            let rect = Rect::from_min_size(pos2(left, y as f32), vec2(width, height));
            let builder = UiBuilder::new().id_salt((id, i)).max_rect(rect).layout(Layout::left_to_right(Align::Center));
            let mut child = ui.new_child(builder);
            if i % 2 == 1 {
                child.painter().rect_filled(rect, 2.0, child.visuals().faint_bg_color);
            }
            row(&mut child, i);
        }
        scroll::follow(ui);
        first..end
    })
    .inner
}
