//! Mends: what a finding offers to do about a slip, as data. The window runs one as a single command.

use thiserror::Error;

use super::{Job, Walk, fields};
use crate::base::language::with_mark;
use crate::base::message::Message;
use crate::base::units::entry::AnyEntry;
use crate::base::units::{Unit, display, parse};
use crate::{message, say};

/// A way to mend a slip: fields and choices, each with its new text.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Mend {
    /// What it does, as a button says it: "Swap LF and RF".
    pub label: Message,
    /// Paths of fields and choices, each with its new text as a file writes it: `("after.lf", "402 kg")`.
    pub edits: Vec<(String, String)>,
}

/// A mend that names something no job has.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
#[error("{}", say!("\"{path}\" cannot be set to \"{text}\": this field or choice does not exist", path, text))]
pub struct NoSuchField {
    /// The path.
    pub path: String,
    /// What should stand there.
    pub text: String,
}

impl Mend {
    /// A mend that changes nothing yet.
    pub fn new(label: impl Into<Message>) -> Self {
        Mend { label: label.into(), edits: Vec::new() }
    }

    /// The same mend, with one more field or choice.
    #[must_use]
    pub fn set(mut self, path: impl Into<String>, text: impl Into<String>) -> Self {
        self.edits.push((path.into(), text.into()));
        self
    }

    /// "to mend: Swap LF and RF: after.lf = 402 kg, after.rf = 391 kg": for those who edit the file.
    pub fn for_file(&self) -> Message {
        let edits = self.edits.iter().map(|(path, text)| Message::row([path.into(), as_typed(path, text)], " = "));
        message!("correction: {label} ({edits})", label = &self.label, edits = Message::row(edits, ", "))
    }

    /// "After, left front: 402 kg", a line for each field; choices have no label and are left out.
    pub fn by_label(&self) -> Vec<Message> {
        let fields = self.edits.iter().filter(|(path, _)| fields::by_path(path).is_some());
        fields.map(|(path, text)| Message::row([fields::full_label(path), as_typed(path, text)], ": ")).collect()
    }
}

/// What was typed moves as it is. In a field a text without a digit is no number: it is quoted, so that "NaN" is not
/// taken for a result.
fn as_typed(path: &str, text: &str) -> Message {
    if text.trim().is_empty() {
        return message!("blank");
    }
    let is_odd = fields::by_path(path).is_some() && !text.contains(|c: char| c.is_ascii_digit());
    if is_odd { Message::from(text).quoted() } else { text.into() }
}

impl Job {
    /// Applies a mend: all of its edits, or none.
    ///
    /// # Errors
    /// [`NoSuchField`] when a path leads nowhere, or a choice has no such value.
    pub fn mend(&mut self, mend: &Mend) -> Result<(), NoSuchField> {
        let mut mended = self.clone();
        for (path, text) in &mend.edits {
            if !mended.set_text(path, text) {
                return Err(NoSuchField { path: path.clone(), text: text.clone() });
            }
        }
        *self = mended;
        Ok(())
    }

    /// The text of the field at a path, as typed; `None` when there is no such field or nothing is typed.
    pub fn text_at(&self, path: &str) -> Option<String> {
        self.look_at(path, |entry| Some(entry.text().to_owned())).filter(|text| !text.trim().is_empty())
    }

    /// Each of two fields with the other's text; `None` unless both are typed.
    pub fn swap(&self, label: impl Into<Message>, one: &str, other: &str) -> Option<Mend> {
        let (a, b) = (self.text_at(one)?, self.text_at(other)?);
        Some(Mend::new(label).set(one, b).set(other, a))
    }

    /// The unit in which the field at a path was typed; `None` without a number that can be read.
    pub fn unit_at(&self, path: &str) -> Option<&'static Unit> {
        self.look_at(path, |entry| Some(entry.number(self.decimal).ok()??.unit))
    }

    /// The number typed in a field, with another unit behind it: "310 N/mm" as "310 lb/in".
    pub fn in_unit(&self, path: &str, unit: &'static Unit) -> Option<String> {
        self.look_at(path, |entry| parse::with_unit(entry.text(), entry.dim(), self.decimal, unit))
    }

    /// The number typed in a field, its sign turned round.
    pub fn negated(&self, path: &str) -> Option<String> {
        self.look_at(path, |entry| {
            let number = entry.number(self.decimal).ok().flatten()?;
            let text = entry.text().trim();
            let bare = text.strip_prefix(['-', '\u{2212}', '\u{2013}', '+']).map_or(text, str::trim_start);
            Some(if number.value < 0.0 { bare.to_owned() } else { format!("-{bare}") })
        })
    }

    /// The value of a field times `by`, in the unit typed and with this number of figures.
    pub fn times(&self, path: &str, by: f64, figures: usize) -> Option<String> {
        self.look_at(path, |entry| {
            let number = entry.number(self.decimal).ok().flatten()?;
            Some(self.written(number.value * by, number.unit, figures))
        })
    }

    /// A number with its unit as it would be typed into this job.
    pub fn written(&self, value: f64, unit: &Unit, figures: usize) -> String {
        // Written in the job's decimal mark, whichever is spoken.
        let number = with_mark(display::significant(value, figures).replace(',', "."), self.decimal);
        let gap = if matches!(unit.symbol, "°" | "%" | "") { "" } else { " " };
        format!("{number}{gap}{}", unit.symbol)
    }

    fn look_at<T>(&self, path: &str, look: impl Fn(&dyn AnyEntry) -> Option<T>) -> Option<T> {
        let mut found = None;
        self.walk(&mut String::with_capacity(64), &mut |at, entry| {
            if at == path {
                found = look(entry);
            }
        });
        found
    }
}
