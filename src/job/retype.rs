//! One field typed otherwise: what a person may have meant by a text that cannot be, or is not usual.

use super::Mend;
use super::fields::Field;
use crate::base::language::with_mark;
use crate::base::units::entry::AnyEntry;
use crate::base::units::parse::{self, Number};
use crate::base::units::{DecimalMark, Dim, EntryError, Unit, UnitChoice, display, table};
use crate::message;

/// The units that get mixed up: what a tape, a scale, a press or a catalogue shows.
const MIXED_UP: [(Dim, &[&str]); 8] = [
    (Dim::Mass, &["kg", "lb"]),
    (Dim::Length, &["mm", "in", "cm"]),
    (Dim::SpringRate, &["N/mm", "lb/in", "kgf/mm"]),
    (Dim::Force, &["N", "lbf", "kgf"]),
    (Dim::Pressure, &["bar", "psi", "kPa"]),
    (Dim::Velocity, &["km/h", "mph"]),
    (Dim::DamperSpeed, &["m/s", "mm/s", "in/s"]),
    (Dim::Stress, &["MPa", "ksi", "GPa"]),
];

/// The units that get mixed up with `unit`.
pub fn mixed_up_with(unit: &Unit) -> impl Iterator<Item = &'static Unit> {
    let symbols = MIXED_UP.iter().find(|m| m.0 == unit.dim).map_or(&[][..], |m| m.1);
    let (dim, own) = (unit.dim, unit.symbol);
    symbols.iter().filter(move |s| **s != own).filter_map(move |s| table::find(dim, s))
}

/// One field and what is typed into it.
pub(super) struct Typed<'a> {
    pub path: &'a str,
    pub field: &'a Field,
    pub entry: &'a dyn AnyEntry,
    pub mark: DecimalMark,
    pub units: &'a UnitChoice,
}

impl Typed<'_> {
    fn use_text(&self, text: String) -> Mend {
        Mend::new(message!("Use {text}", text = &text)).set(self.path, text)
    }

    /// The same number in the units in which it would be usual.
    pub fn usual_in(&self, number: &Number) -> Vec<Mend> {
        let Some((low, high)) = self.field.usual else { return Vec::new() };
        let usual = |unit: &&Unit| (low..=high).contains(&(number.value * unit.si));
        let texts = mixed_up_with(number.unit)
            .filter(usual)
            .filter_map(|unit| parse::with_unit(self.entry.text(), self.entry.dim(), self.mark, unit));
        texts.map(|text| self.use_text(text)).collect()
    }

    /// Without its minus, where a size cannot be below zero.
    pub fn without_minus(&self, number: &Number) -> Option<Mend> {
        let text = self.entry.text().trim();
        let bare = text.strip_prefix(['-', '\u{2212}', '\u{2013}'])?.trim_start().to_owned();
        self.field.possible.allows(-number.si()).then(|| self.use_text(bare))
    }

    /// With the unit that is missing: the one shown, and the other one that makes it usual.
    pub fn with_missing_unit(&self, error: &EntryError) -> Vec<Mend> {
        if !matches!(error, EntryError::MissingUnit { .. }) {
            return Vec::new();
        }
        let shown = self.units.unit(self.entry.dim());
        let usual = |text: &String| match (parse::number(text, self.entry.dim(), self.mark), self.field.usual) {
            (Ok(number), Some((low, high))) => (low..=high).contains(&number.si()),
            (read, None) => read.is_ok(),
            _ => false,
        };
        let texts = std::iter::once(shown).chain(mixed_up_with(shown));
        let texts = texts.map(|unit| format!("{} {}", self.entry.text().trim(), unit.symbol)).filter(usual);
        let most = if self.field.usual.is_some() { 2 } else { 1 };
        texts.take(most).map(|text| self.use_text(text)).collect()
    }

    /// Both readings of a number whose comma or point can be read two ways, each so that it can be read one way only.
    pub fn both_ways(&self, number: &Number) -> Vec<Mend> {
        let other = match self.mark {
            DecimalMark::Point => DecimalMark::Comma,
            DecimalMark::Comma => DecimalMark::Point,
        };
        let values = [Some(number.value), self.entry.number(other).ok().flatten().map(|n| n.value)];
        let written = |value: f64| {
            let digits = with_mark(display::significant(value, 9).replace(',', "."), self.mark);
            format!("{digits} {}", number.unit.symbol).trim_end().to_owned()
        };
        values.into_iter().flatten().map(|value| self.use_text(written(value))).collect()
    }
}
