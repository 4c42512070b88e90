//! Looks at every field as typed: can it be read, is it possible, is it usual.
//!
//! Never stops at the first. What only shows in results is looked at in [`crate::solve`].

use super::fields::{self, Field};
use super::finding::{Finding, Level};
use super::{Job, Walk};
use crate::say;
use crate::units::entry::AnyEntry;
use crate::units::{DecimalMark, UnitChoice, display};

/// All findings about the fields themselves.
pub fn fields(job: &Job) -> Vec<Finding> {
    let mut found = Vec::new();
    job.walk(&mut String::with_capacity(64), &mut |path, entry| {
        if !entry.text().trim().is_empty()
            && let Some((field, _)) = fields::by_path(path)
        {
            one(path, field, entry, job.decimal, &job.units, &mut found);
        }
    });
    found
}

fn one(
    path: &str,
    field: &Field,
    entry: &dyn AnyEntry,
    mark: DecimalMark,
    units: &UnitChoice,
    found: &mut Vec<Finding>,
) {
    let mut say = |level, rule, text: String| {
        found.push(Finding::new(level, rule, path, format!("{}: {text}", fields::full_label(path))));
    };
    match entry.number(mark) {
        Err(error) => say(Level::Error, "unreadable", format!("{error}.")),
        Ok(None) => {}
        Ok(Some(number)) => {
            let si = number.si();
            let typed = entry.text().trim();
            if !field.possible.allows(si) {
                let text = say!(
                    "\"{typed}\" cannot be; it {must}. Type the measured value.",
                    typed,
                    must = field.possible.phrase()
                );
                say(Level::Error, "impossible", text);
            } else if let Some((low, high)) = field.usual
                && !(low..=high).contains(&si)
            {
                let usual = field.usual_phrase(units).unwrap_or_default();
                say(
                    Level::Doubt,
                    "unusual",
                    say!("\"{typed}\" is outside what is usual, {usual}. Check value and unit.", typed, usual),
                );
            }
            if number.ambiguous {
                let read = display::significant(number.value, 9);
                let text = say!(
                    "\"{typed}\" is read as {read} {unit}. If that is wrong, change the job's decimal mark.",
                    typed,
                    read,
                    unit = number.unit.symbol
                );
                say(Level::Note, "read-as", text);
            }
        }
    }
    if let Err(error) = entry.check_spread(mark) {
        say(Level::Error, "unreadable-spread", say!("its ± {error}.", error));
    }
}
