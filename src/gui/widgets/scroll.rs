//! Scrolling by keys: what the keyboard goes to comes into view, and Page Up and Page Down turn the page.

use eframe::egui::{Context, Id, Key, Modifiers, Rect, ScrollArea, Ui, Vec2, vec2};

/// Room left around it, points.
const MARGIN: f32 = 8.0;

/// Share of the view that one press of a page key scrolls.
const PAGE: f32 = 0.85;

/// So long after it moved, s, the focus is kept in view: what it opened may still be growing.
const GROWS_S: f64 = 0.6;

/// What has the focus, and until when it is brought into view.
#[derive(Clone, Copy, Default)]
struct Focus {
    on: Option<Id>,
    until_s: f64,
}

fn place() -> Id {
    Id::unique("focus to follow")
}

/// Looks, once in a frame and before anything is drawn, whether keys moved the focus.
pub(in crate::gui) fn look(ctx: &Context) {
    let on = ctx.memory(|m| m.focused());
    let (now_s, by_hand) = ctx.input(|i| {
        let pressed = i.pointer.any_down() || i.pointer.any_released();
        (i.time, pressed || i.smooth_scroll_delta() != Vec2::ZERO)
    });
    ctx.data_mut(|d| {
        let focus = d.get_temp_mut_or_default::<Focus>(place());
        if by_hand {
            focus.until_s = 0.0;
        } else if focus.on != on {
            focus.until_s = now_s + GROWS_S;
        }
        focus.on = on;
    });
}

/// Asks for the frame that follows a focus that moved in this one.
pub(in crate::gui) fn end(ctx: &Context) {
    let looked: Focus = ctx.data(|d| d.get_temp(place())).unwrap_or_default();
    if looked.on != ctx.memory(|m| m.focused()) {
        ctx.request_repaint();
    }
}

/// A part of the window that scrolls up and down: by wheel, and to what has got the focus.
pub(in crate::gui) fn part(ui: &mut Ui, id: &str, draw: impl FnOnce(&mut Ui)) {
    ScrollArea::vertical().id_salt(id).auto_shrink(false).show(ui, |ui| {
        draw(ui);
        follow(ui);
    });
}

/// The one part that Page Up and Page Down scroll, too.
pub(in crate::gui) fn page(ui: &mut Ui, id: &str, draw: impl FnOnce(&mut Ui)) {
    part(ui, id, |ui| {
        draw(ui);
        let turns = |key| f32::from(ui.input_mut(|i| i.consume_key(Modifiers::NONE, key)));
        let pages = turns(Key::PageUp) - turns(Key::PageDown);
        if pages != 0.0 {
            ui.scroll_with_delta(vec2(0.0, pages * PAGE * ui.clip_rect().height()));
        }
    });
}

/// A line across where what is drawn next begins, to scroll to.
pub(in crate::gui) fn here(ui: &Ui) -> Rect {
    Rect::from_min_size(ui.cursor().left_top(), vec2(ui.available_width(), 1.0))
}

/// In this frame no part that is still to be drawn follows the focus: it goes somewhere else.
pub(in crate::gui) fn hold(ctx: &Context) {
    let pass = ctx.cumulative_pass_nr();
    ctx.data_mut(|d| d.insert_temp(place(), Held(pass)));
}

/// The frame in which a part goes somewhere else.
#[derive(Clone, Copy)]
struct Held(u64);

/// Scrolls what this is called in as far as needed, when what has got the focus is in it and not wholly in view.
pub(in crate::gui) fn follow(ui: &Ui) {
    let pass = ui.ctx().cumulative_pass_nr();
    if ui.data(|d| d.get_temp::<Held>(place())).is_some_and(|held| held.0 == pass) {
        return;
    }
    let focus: Focus = ui.data(|d| d.get_temp(place())).unwrap_or_default();
    let is_new = ui.input(|i| i.time) < focus.until_s;
    let Some(widget) = focus.on.filter(|_| is_new).and_then(|id| ui.ctx().read_response(id)) else { return };
    // Parts that stand above each other reach behind one another: what is seen elsewhere, or would be seen here, is not here.
    let (clip, seen) = (ui.clip_rect(), widget.interact_rect);
    let is_elsewhere = if seen.is_positive() { !clip.intersects(seen) } else { clip.contains(widget.rect.center()) };
    let is_inside = widget.layer_id == ui.layer_id() && ui.min_rect().contains(widget.rect.center()) && !is_elsewhere;
    // What is higher than the window is in view as far as it can be.
    let has_room = widget.rect.height() < ui.clip_rect().height();
    if is_inside && has_room && !ui.clip_rect().contains_rect(widget.rect) {
        ui.scroll_to_rect(widget.rect.expand(MARGIN), None);
        ui.request_repaint();
    }
}
