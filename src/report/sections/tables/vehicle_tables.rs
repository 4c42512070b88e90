//! Tables of the whole vehicle: nose and tail, bends.

use crate::base::language::tr;
use crate::base::units::{Quantity, UnitChoice, display};
use crate::job::Side;
use crate::report::Block;
use crate::report::results::{Column, NOT_DETERMINED, Results, of_states};
use crate::say;
use crate::solve::answer::{Answer, BarFor, NoBar, Roll, WantedBar, WantedBars, Whole};

/// The rows of the table of nose and tail.
const NOSE_AND_TAIL: [&str; 9] = [
    "whole.rear_over_front.{}",
    "whole.flat_ride_speed.{}",
    "whole.pitch.{}.slower.frequency",
    "whole.pitch.{}.slower.node",
    "whole.pitch.{}.quicker.frequency",
    "whole.pitch.{}.quicker.node",
    "whole.beam.{}",
    "whole.dive.{}.front",
    "whole.dive.{}.room_left",
];

/// Front and rear together: ratio of frequencies, pitch, lamps and braking, state by state.
pub fn nose_and_tail(answer: &Answer, results: &Results, units: &UnitChoice) -> Vec<Block> {
    if answer.rear_over_front.new.or(answer.rear_over_front.old).is_none() {
        return Vec::new();
    }
    let columns = of_states(|_| true, |s| s.key().to_owned());
    let is_shown = |key: &&str| key.starts_with("whole.flat_ride_speed") || results.is_told(key, &columns);
    let keys: Vec<&str> = NOSE_AND_TAIL.into_iter().filter(is_shown).collect();
    let open = keys.iter().any(|key| results.row_of(key, &columns).flatten().any(|f| !f.is_determined()));
    let table = results.table(String::new(), &columns, &keys, units);
    let mut blocks = vec![Block::Heading(tr("Front and rear together").into()), table];
    blocks.extend(open.then(|| Block::Text(tr(NOT_DETERMINED).into())));
    blocks
}

/// The rows of the table of bends; the last six only where they are known.
const BENDS: [&str; 17] = [
    "whole.roll.{}.front.stiffness",
    "whole.roll.{}.front.bar_share",
    "whole.roll.{}.rear.stiffness",
    "whole.roll.{}.rear.bar_share",
    "whole.roll.{}.front_share",
    "whole.roll.{}.gradient",
    "whole.roll.{}.gradient_on_tyres",
    "whole.roll.{}.front.transfer",
    "whole.roll.{}.rear.transfer",
    "whole.roll.{}.front_transfer",
    "whole.roll.{}.front_weight",
    "whole.roll.{}.front.bar_stress",
    "whole.roll.{}.rear.bar_stress",
    "whole.roll.{}.front.bar_one_wheel",
    "whole.roll.{}.rear.bar_one_wheel",
    "whole.roll.{}.old_damping",
    "whole.roll.{}.new_damping",
];

/// Roll, state by state, and what the old bars would do where new ones are planned; nothing without tracks.
pub fn bends(answer: &Answer, results: &Results, units: &UnitChoice) -> Vec<Block> {
    let whole = &answer.whole;
    let mut columns = of_states(|s| whole.roll.of(s).is_some(), |s| s.key().to_owned());
    if columns.is_empty() {
        return Vec::new();
    }
    columns.extend(
        whole
            .old_bars
            .map(|_| (tr("on the new springs, with the old anti-roll bars").to_owned(), "old_bars".to_owned())),
    );
    let may_lack = ["_damping", ".bar_stress", ".bar_one_wheel"];
    let is_shown = |key: &&str| !may_lack.iter().any(|end| key.ends_with(end)) || results.is_told(key, &columns);
    let keys: Vec<&str> = BENDS.into_iter().filter(is_shown).collect();
    let table = results.table(String::new(), &columns, &keys, units);
    let words = tr(
        "An anti-roll bar acts only when one side moves relative to the other: in roll and over one-wheel bumps. It does not affect ride frequency.",
    );
    let mut blocks = vec![Block::Heading(tr("Roll").into()), table, Block::Text(words.into())];
    blocks.extend(balance(answer).map(Block::Text));
    blocks
}

/// The anti-roll bars that give the roll that is wanted; nothing where no axle has a bar's sizes.
pub fn wanted_bars(answer: &Answer, results: &Results, units: &UnitChoice) -> Vec<Block> {
    answer.whole.bars.iter().flat_map(|bars| for_target(bars, results, units)).collect()
}

fn for_target(bars: &WantedBars, results: &Results, units: &UnitChoice) -> Vec<Block> {
    let axles: Vec<(Side, &WantedBar)> =
        Side::BOTH.into_iter().filter_map(|side| Some((side, bars.axles[side].as_ref()?))).collect();
    if axles.is_empty() {
        return Vec::new();
    }
    let column = |(side, _): &(Side, &WantedBar)| (side.axle().to_string(), format!("whole.bars.{}", side.key()));
    let columns: Vec<Column> = axles.iter().map(column).collect();
    let gradient = range([bars.gradient.least, bars.gradient.most].map(|angle| display::rounded(angle, units)));
    let mut said = vec![say!("Target: roll gradient {gradient}, tyres included, on the new springs.", gradient)];
    let both: Vec<BarFor> = axles.iter().filter_map(|(_, bar)| bar.both).collect();
    said.extend(bars.front.filter(|_| !both.is_empty()).map(|front| {
        let share = range([front.least, front.most].map(|share| percent(share.si())));
        say!("Both bars together: front share of the load transfer {share}, tyres included.", share)
    }));
    if both.iter().any(Result::is_ok) && both.iter().any(Result::is_err) {
        said.push(tr("No pair of bars meets both targets: one of the two would have to be less than none, or more than the tyres allow.").to_owned());
    }
    let is_there = |why: NoBar| axles.iter().any(|(_, b)| b.every().any(|bar| bar == Err(why)));
    if is_there(NoBar::NoneNeeded) {
        said.push(tr("None needed: the springs alone hold the body at least as well. No bar makes the body lean more: a bar stiffness below zero is no answer.").to_owned());
    }
    if is_there(NoBar::BeyondTyres) {
        said.push(tr("Not possible: the tyres alone give way by more than that.").to_owned());
    }
    let title = tr("Anti-roll bars for the target roll").to_owned();
    let keys = ["thinnest", "thickest", "stock", "both"];
    let table = results.table_told(title, &columns, &keys, units);
    table.into_iter().chain([Block::Text(said.join(" "))]).collect()
}

/// "4.5°", "4.5° to 5.0°".
fn range([low, high]: [String; 2]) -> String {
    if low == high { low } else { say!("{low} to {high}", low, high) }
}

/// "54.3 %".
fn percent(share: f64) -> String {
    say!("{share:.1} %", share = 100.0 * share)
}

/// A change of the balance in bends by less is not named: a share. Common practice, no source.
const UNFELT: f64 = 0.01;

/// What the front share of the load transfer against that of the weight feels like, and how it changes; no promise.
fn balance(answer: &Answer) -> Option<String> {
    let over = |roll: &Roll| Some(roll.front_transfer()? - roll.front_weight()?);
    let change = |w: &Whole| Some(over(w.roll.new.as_ref()?)? - over(w.roll.before.as_ref()?)?);
    let is_known = [&answer.whole.roll.new, &answer.whole.roll.old].into_iter().flatten().any(|r| over(r).is_some());
    let rule = is_known.then(|| tr(
        "In bends, a larger front share of the load transfer than of the weight makes a vehicle tend to run wide; a smaller one makes the tail tend to step out. Tyres, tyre pressures and wheel alignment count at least as much: only a road test shows what this vehicle does.",
    ))?;
    let Some(by) = change(&answer.whole) else { return Some(rule.to_owned()) };
    let u = answer.moved.u_of(|v| change(&v.whole)).unwrap_or(0.0);
    let changed = match by {
        _ if by.abs() < UNFELT.max(u) => tr("Compared with before, this balance stays about the same."),
        by if by > 0.0 => tr("Compared with before, the vehicle will tend more to run wide."),
        _ => tr("Compared with before, the tail will tend more to step out."),
    };
    Some(format!("{rule} {changed}"))
}
