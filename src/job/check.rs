//! Looks at every field as typed: can it be read, is it possible, is it usual.
//!
//! Never stops at the first. What only shows in results is checked in [`crate::solve`].

use super::fields::{self, Field};
use super::finding::{Finding, Level};
use super::how_sure::HowSure;
use super::retype::Typed;
use super::{Job, Mend, Walk};
use crate::base::message::Message;
use crate::base::units::parse::Number;
use crate::base::units::{Amount, Dim, Unit, UnitChoice};
use crate::message;

/// All findings about the fields themselves.
pub fn fields(job: &Job) -> Vec<Finding> {
    let mut found = Vec::new();
    let sure = HowSure::of(job);
    job.walk(&mut String::with_capacity(64), &mut |path, entry| {
        if !entry.text().trim().is_empty()
            && let Some((field, _)) = fields::by_path(path)
        {
            let typed = Typed { path, field, entry, mark: job.decimal, units: &job.units };
            one(&typed, &sure, &mut found);
        }
    });
    found
}

/// The unit a bound is shown in: the one shown in the job; of a plain number the one typed, "%" or none.
fn bound_unit(field: &Field, number: &Number, units: &UnitChoice) -> &'static Unit {
    if field.dim == Dim::Ratio { number.unit } else { units.unit(field.dim) }
}

fn one(typed: &Typed<'_>, sure: &HowSure<'_>, found: &mut Vec<Finding>) {
    let Typed { path, field, entry, mark, units } = *typed;
    let mut say = |level, rule, text: Message, mends: Vec<Mend>| {
        let text = Message::row([fields::full_label(path), text], ": ");
        found.push(Finding { mends, ..Finding::new(level, rule, path, text) });
    };
    match entry.number(mark) {
        Err(error) => say(
            Level::Error,
            "unreadable",
            Message::row([Message::from(&error), ".".into()], ""),
            typed.with_missing_unit(&error),
        ),
        Ok(None) => {}
        Ok(Some(number)) => {
            let si = number.si();
            let text = entry.text().trim();
            if !field.allows(si) {
                let words = message!(
                    "\"{typed}\" is not possible; the value {must}. Check the value and its unit.",
                    typed = text,
                    must = field.must(bound_unit(field, &number, units))
                );
                say(Level::Error, "impossible", words, typed.without_minus(&number).into_iter().collect());
            } else if let Some((low, high)) = field.usual
                && let u_si = sure.standard_si(field, entry, si)
                && (si + u_si < low || si - u_si > high)
            {
                let usual = field.usual_phrase(units).unwrap_or(Message::NOTHING);
                let words = message!(
                    "\"{typed}\" is outside the usual range, {usual}. Check the value and the unit.",
                    typed = text,
                    usual
                );
                say(Level::Doubt, "unusual", words, typed.usual_in(&number));
            }
            if number.ambiguous {
                let read = Amount::significant(number.value, 9);
                let words = message!(
                    "\"{typed}\" is read as {read} {unit}. If that is wrong, change the job's decimal mark.",
                    typed = text,
                    read,
                    unit = number.unit.symbol
                );
                say(Level::Note, "read-as", words, typed.both_ways(&number));
            }
        }
    }
    if let Err(error) = entry.check_spread(mark) {
        say(Level::Error, "unreadable-spread", message!("in the ± field, {error}.", error), Vec::new());
    }
}
