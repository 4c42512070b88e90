//! What every screen is built of: the field, tables, lists of rows, lines of findings, colours and sizes.

pub mod field;
pub mod in_view;
pub mod long;
pub mod mends;
pub mod numbers;
pub mod rows;
pub mod scroll;
pub mod section;
pub mod signs;
pub mod tables;
pub mod theme;

use eframe::egui::{RichText, Ui, WidgetText};

use crate::base::language::Word;
use crate::base::message::Message;

impl From<Word> for WidgetText {
    fn from(word: Word) -> Self {
        word.said().into()
    }
}

impl From<Message> for WidgetText {
    fn from(message: Message) -> Self {
        message.to_string().into()
    }
}

/// Choices in a row that wraps: each ring is nearer to its own words than to the ones before.
pub fn choices(ui: &mut Ui, draw: impl FnOnce(&mut Ui)) {
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing.x = 2.5 * theme::UNIT;
        draw(ui);
    });
}

/// A choice among several with their words, behind a label where there is one.
pub fn choices_of<T: Copy + PartialEq, W: Into<WidgetText>>(
    ui: &mut Ui,
    label: Option<&str>,
    now: &mut T,
    all: impl IntoIterator<Item = T>,
    words: impl Fn(T) -> W,
) {
    choices(ui, |ui| {
        if let Some(label) = label {
            ui.label(label);
        }
        for one in all {
            let words: WidgetText = words(one).into();
            ui.radio_value(now, one, words);
        }
    });
}

/// A small heading inside a form.
pub fn heading(ui: &mut Ui, text: &str) {
    ui.add_space(theme::UNIT);
    ui.label(RichText::new(text).family(theme::bold()));
}
