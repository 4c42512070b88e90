//! What to measure again first, and what it buys.

use super::{length, plus_minus};
use crate::base::language::tr;
use crate::base::units::{Dim, UnitChoice};
use crate::choose::{Again, Choice, Redo};
use crate::job::fields;
use crate::report::Block;
use crate::report::results::{Results, what_again};
use crate::say;

/// Points of a hundred by which a chance must rise to be worth measuring again: within them it is a tie.
const WORTH: f64 = 5.0;

/// The heading over what to measure again: the first of it, or that it is not worth it.
pub fn redo_title(choice: &Choice) -> String {
    let Some(first) = choice.redo.first() else { return tr("Measure again first").into() };
    let what = what_again(first);
    match first.chance.filter(|_| choice.pick.is_some()) {
        None => say!("Measure again first: {first}", first = what),
        Some(chance) if is_worth_it(chance) => say!("Measure again first: {first}", first = what),
        Some([now, then]) if gains([now, then]) => say!(
            "Measuring again ({first}) is not worth it: the chance only rises from {now:.0} to {then:.0} in 100",
            first = what,
            now = of_hundred(now),
            then = of_hundred(then)
        ),
        Some(_) if choice.measure_first() => tr("Measuring again is not worth it: there is no gain").into(),
        Some(_) => tr("Nothing needs measuring again before ordering; the remaining uncertainty comes from").into(),
    }
}

/// What to measure again first, and what it would buy.
pub fn redo(choice: &Choice, results: &Results, units: &UnitChoice) -> Option<Block> {
    let prefix = format!("{}.choose.measure_again", choice.side.key());
    let worth = choice.redo.iter().enumerate().filter(|(_, r)| is_worth_telling(r));
    let row = |(i, r): (usize, &Redo)| {
        let said =
            |key: &str| results.find(&format!("{prefix}[{i}].{key}")).map_or_else(String::new, |f| f.said(units));
        let share = format!("{} · {}", said("share"), said("share_of_length"));
        vec![what_again(r), share, said("moves_rate"), how(r, units), r.chance.map_or(String::new(), bought)]
    };
    let rows: Vec<Vec<String>> = worth.map(row).collect();
    let head = [
        tr("Measure again first"),
        tr("share of the uncertainty: rate · length"),
        tr("effect on the rate"),
        tr("how to measure"),
        tr("chance"),
    ];
    (!rows.is_empty()).then(|| Block::table(head, rows))
}

/// The rest hardly matters.
fn is_worth_telling(redo: &Redo) -> bool {
    redo.matters() >= 0.005
}

/// What is worth telling of what could be measured again: the rest hardly matters.
pub fn worth_telling(choice: &Choice) -> impl Iterator<Item = &Redo> {
    choice.redo.iter().filter(|r| is_worth_telling(r))
}

/// By how much it moves the rate: "± 1.2 N/mm".
pub fn moves(redo: &Redo, units: &UnitChoice) -> String {
    format!("± {}", plus_minus(redo.moves_n_per_m, Dim::SpringRate, units))
}

/// A chance as shown.
pub fn of_hundred(share: f64) -> f64 {
    (share * 100.0).round()
}

/// Measuring again buys something.
pub fn gains([now, then]: [f64; 2]) -> bool {
    of_hundred(then) > of_hundred(now)
}

/// Measuring again gains enough to be worth the work.
fn is_worth_it([now, then]: [f64; 2]) -> bool {
    of_hundred(then) - of_hundred(now) >= WORTH
}

/// "86 to 97 of 100", "86 to 89 of 100, not worth it", or that it buys nothing.
pub fn bought([now, then]: [f64; 2]) -> String {
    if !gains([now, then]) {
        return tr("no gain").into();
    }
    let chance = say!("{now:.0} to {then:.0} in 100", now = of_hundred(now), then = of_hundred(then));
    if is_worth_it([now, then]) { chance } else { say!("{chance}, not worth it", chance) }
}

/// How it is measured closer.
pub fn how(redo: &Redo, units: &UnitChoice) -> String {
    match redo.how {
        Again::LongerTravel { from_m, to_m } => {
            say!(
                "measure the motion ratio over {to} of travel instead of {from}",
                to = length(to_m, units),
                from = length(from_m, units)
            )
        }
        Again::MoreRows => tr("measure every row four times; the mean has half the error").into(),
        Again::Rows { .. } => tr("measure the motion ratio as a table: five or more rows from droop to bump").into(),
        Again::WeighFourTimes => {
            tr("weigh four times, rolling the vehicle off the scales in between; the mean has half the error").into()
        }
        Again::Closer { from_u_si, to_u_si } => {
            let dim = redo.paths.first().and_then(|p| fields::by_path(p)).map_or(Dim::Ratio, |(field, _)| field.dim);
            let pm = |si: f64| plus_minus(si, dim, units);
            say!("measure to ± {to} instead of ± {from}", to = pm(to_u_si), from = pm(from_u_si))
        }
    }
}
