//! Keys that are commands, taken in the order in which they were pressed.

use eframe::egui::{self, Event, KeyboardShortcut};

use crate::gui::state::command::Command;

/// Takes the first such key out of this frame, and what was typed behind it into `later`: that is typed in the next
/// frame, after the command. What was typed before it stays.
pub(in crate::gui) fn take(
    ctx: &egui::Context,
    keys: fn() -> Vec<(KeyboardShortcut, Command)>,
    later: &mut Vec<Event>,
) -> Option<Command> {
    ctx.input_mut(|input| {
        input.events.splice(0..0, later.drain(..));
        let of = |(at, event)| Some((at, command_of(event, keys)?));
        let (at, command) = input.events.iter().enumerate().find_map(of)?;
        input.events.remove(at);
        later.extend(input.events.extract_if(at.., is_typed));
        Some(command)
    })
}

/// Drops what is typed where there is nothing to type into.
pub(in crate::gui) fn drop_typed(ctx: &egui::Context) {
    let is_text =
        |event: &Event| matches!(event, Event::Text(_) | Event::Paste(_) | Event::Ime(_) | Event::Copy | Event::Cut);
    ctx.input_mut(|input| input.events.retain(|event| !is_text(event)));
}

fn command_of(event: &Event, keys: fn() -> Vec<(KeyboardShortcut, Command)>) -> Option<Command> {
    let Event::Key { key, pressed: true, modifiers, .. } = event else { return None };
    let is_mine = |k: &KeyboardShortcut| k.logical_key == *key && modifiers.matches_logically(k.modifiers);
    keys().into_iter().find(|(k, _)| is_mine(k)).map(|(_, command)| command)
}

/// Comes from the keyboard, or counts in its order.
fn is_typed(event: &mut Event) -> bool {
    matches!(event, Event::Key { .. } | Event::Text(_) | Event::Paste(_) | Event::Ime(_) | Event::Copy | Event::Cut)
}
