//! Keys that are commands, taken in the order in which they were pressed.

use eframe::egui::{self, Event};

use crate::gui::state::command::{Command, shortcuts};

/// Takes the first such key out of this frame, and what was typed behind it into `later`: that is typed in the next
/// frame, after the command. What was typed before it stays.
pub(in crate::gui) fn take(ctx: &egui::Context, later: &mut Vec<Event>) -> Option<Command> {
    ctx.input_mut(|input| {
        input.events.splice(0..0, later.drain(..));
        let (at, command) = input.events.iter().enumerate().find_map(|(at, event)| Some((at, command_of(event)?)))?;
        input.events.remove(at);
        later.extend(input.events.extract_if(at.., is_typed));
        Some(command)
    })
}

fn command_of(event: &Event) -> Option<Command> {
    let Event::Key { key, pressed: true, modifiers, .. } = event else { return None };
    let keys = shortcuts().into_iter();
    let mut mine = keys.filter(|(k, _)| k.logical_key == *key && modifiers.matches_logically(k.modifiers));
    mine.next().map(|(_, command)| command)
}

/// Comes from the keyboard, or counts in its order.
fn is_typed(event: &mut Event) -> bool {
    matches!(event, Event::Key { .. } | Event::Text(_) | Event::Paste(_) | Event::Ime(_) | Event::Copy | Event::Cut)
}
