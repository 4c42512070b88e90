//! What can be chosen from the parts list, in words and tables: the pick, its rivals, why the others are out, left and
//! right, and what to measure again first.

mod choice_json;
pub mod choose_dampers;
mod limits;
mod pairs;
pub mod parts_rows;
mod redo;
mod sized;

use crate::base::language::{inside, tr};
use crate::base::units::{Dim, UnitChoice, display};
use crate::choose::{Choice, Decided, Drafted, Judged, Limit, Pick, Unable};
use crate::job::{Job, Side};
use crate::report::Block;
use crate::report::Report;
pub use crate::report::results::chance;
use crate::report::results::{self, Results, spring_name};
use crate::report::{money, or_unknown};
use crate::say;
use crate::shop::parts::{List, Spring};
pub use choice_json::json;
pub use choose_dampers::DampersOfAxle;
pub use limits::{why, would_give};
pub use pairs::{pair, pair_names};
pub use redo::{bought, how, moves, of_hundred, redo, redo_title, worth_telling};

fn length(si: f64, units: &UnitChoice) -> String {
    display::rounded_si(si, Dim::Length, units)
}

fn rate(si: f64, units: &UnitChoice) -> String {
    display::rounded_si(si, Dim::SpringRate, units)
}

/// A ± to two figures.
fn plus_minus(si: f64, dim: Dim, units: &UnitChoice) -> String {
    let unit = units.unit(dim);
    format!("{} {}", display::significant(si / unit.si, 2), unit.symbol).trim_end().to_owned()
}

/// A price with its currency.
pub fn price(price: Option<f64>, currency: &str) -> String {
    or_unknown(price, |p| money(p, currency))
}

/// The spring's seat: "on a 4 mm spacer", "seat 3 mm down", or nothing.
fn seat(spacer_m: f64, units: &UnitChoice) -> Option<String> {
    const NONE_M: f64 = 0.0005;
    match spacer_m {
        s if s >= NONE_M => Some(say!("on a spacer of {thickness}", thickness = length(s, units))),
        s if s <= -NONE_M => Some(say!("with the seat lowered by {by}", by = length(-s, units))),
        _ => None,
    }
}

/// The spacer of a spring; not known where it carries the vehicle at no height.
pub fn spacer(judged: &Judged, units: &UnitChoice) -> String {
    if judged.spacer_m.is_finite() { length(judged.spacer_m, units) } else { tr("not known").into() }
}

/// The ride frequency of a spring with its ±; not known where it carries the vehicle at no height.
pub fn bounces(drafted: &Drafted, units: &UnitChoice) -> String {
    let (hz, sd_hz) = (drafted.judged.frequency_hz, drafted.as_fitted.frequency.sd());
    if hz.is_finite() { display::measured_si(hz, sd_hz, Dim::Frequency, units) } else { tr("not known").into() }
}

/// What a choice comes to: the springs to take, or that there are none, and what speaks for it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Told {
    /// In one sentence.
    pub springs: String,
    /// In further ones; none where there is nothing to add.
    pub why: String,
}

impl std::fmt::Display for Told {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let blank = if self.why.is_empty() { "" } else { " " };
        write!(f, "{}{blank}{}", self.springs, self.why)
    }
}

/// The spring to take for both sides, or why there is none; ahead of it the pair of left and right, where it is of two
/// springs, or no pair holds.
pub fn answer(choice: &Choice, springs: &[Spring], units: &UnitChoice) -> Told {
    let for_both = for_both(choice, springs, units);
    let Some(pair) = choice.pair() else { return for_both };
    let lead = pairs::lead(choice, pair, springs, units);
    if pair.level && !pair.is_of_two() {
        return Told { why: format!("{} {lead}", for_both.why), ..for_both };
    }
    let alike = say!("With the same spring on both sides: {for_both}", for_both);
    Told { why: format!("{} {alike}", lead.why).trim_start().to_owned(), ..lead }
}

fn for_both(choice: &Choice, springs: &[Spring], units: &UnitChoice) -> Told {
    let side = choice.side.word();
    let Some((pick, picked)) = choice.pick.as_ref().zip(choice.picked()) else {
        let none = say!("{side}: none of the {count} springs fits.", side, count = choice.ranking.ranked.len());
        return Told { springs: none, why: nearest(choice, springs, units) };
    };
    let on = seat(picked.judged.spacer_m, units).map_or(String::new(), |s| format!(", {s}"));
    let open: Vec<&str> = picked.judged.not_known().map(|limit| limit.words().said()).collect();
    let unknown = if open.is_empty() {
        String::new()
    } else {
        say!(" NOT checked, data missing: {open}.", open = open.join(", "))
    };
    let held = held(picked, open.is_empty());
    let first = if choice.measure_first() {
        tr(" This chance is too low to place an order: first measure the item at the top of the list below.")
    } else {
        ""
    };
    let leads = format!("{}{on}", with_facts(&springs[picked.row], units));
    let Told { springs: take, why } = sized::first_line(choice, picked, &leads, springs, units);
    let fit = say!(
        "Springs that fit the current job: {fitting} of {count}.",
        fitting = choice.ranking.fitting,
        count = choice.ranking.ranked.len()
    );
    let shelf = sized::shelf(choice, picked, springs);
    let why = format!("{why}{shelf} {held}{unknown}{first} {}. {fit}", decided(choice, pick)).trim_start().to_owned();
    Told { springs: take, why }
}

/// "S-26 (60 N/mm, free length 310 mm)".
fn with_facts(spring: &Spring, units: &UnitChoice) -> String {
    let mut facts = vec![rate(spring.rate.value, units)];
    facts.extend(spring.free_length.map(|l| say!("free length {length}", length = length(l.value, units))));
    format!("{} ({})", spring_name(spring), facts.join(", "))
}

/// In how many of 100 its limits hold: once, or as fitted and with the spacer cut again.
fn held(picked: &Drafted, all_known: bool) -> String {
    let again = chance(picked.chance);
    match (picked.chance_as_fitted.map(chance), all_known) {
        (None, true) => say!("Every limit is met in {chance} trials.", chance = again),
        (None, false) => say!("Every known limit is met in {chance} trials.", chance = again),
        (Some(fitted), true) => {
            say!(
                "Every limit is met in {fitted} trials as fitted, and in {again} with the spacer adjusted after the re-weigh.",
                fitted,
                again
            )
        }
        (Some(fitted), false) => say!(
            "Every known limit is met in {fitted} trials as fitted, and in {again} with the spacer adjusted after the re-weigh.",
            fitted,
            again
        ),
    }
}

/// Why it and no other.
fn decided(choice: &Choice, pick: &Pick) -> String {
    let Some(reason) = reason(choice, pick) else {
        return tr("No other spring is within 5 trials in 100 of this one").to_owned();
    };
    let tie = match pick.tie.len() - 1 {
        1 => tr("1 other spring is about as likely to fit").to_owned(),
        count => say!("{count} other springs are about as likely to fit", count),
    };
    format!("{tie}; {reason}")
}

/// What decides between springs of about the same chance; nothing where no other came near.
fn reason(choice: &Choice, pick: &Pick) -> Option<&'static str> {
    let is_selected = choice.named.as_ref().is_some_and(|n| n.selected.is_some());
    Some(match pick.by {
        Decided::Chance => return None,
        Decided::Known => tr("more limits could be checked for this one"),
        Decided::Named if is_selected => tr("this one is already selected"),
        Decided::Named => tr("this one has the calculated rate"),
        Decided::Seat => tr("this one has the most seat preload at full droop"),
        Decided::Reserve => tr("with equal seat preload, this one has the most reserve to the bump stop"),
        Decided::Price => tr("with equal seat preload and reserve, this one costs least"),
        Decided::Nothing => tr("all are equal in seat preload, reserve and price"),
    })
}

/// "Recommended.", with the reason where another spring has the better chance.
pub fn recommended(choice: &Choice) -> String {
    let plain = || tr("Recommended.").to_owned();
    let Some((pick, picked)) = choice.pick.as_ref().zip(choice.picked()) else { return plain() };
    let is_better = |d: &Drafted| d.chance > picked.chance && chance(d.chance) != chance(picked.chance);
    let is_tied_with_better = pick.tie.iter().any(|at| is_better(&choice.drafted[*at]));
    match reason(choice, pick).filter(|_| is_tied_with_better) {
        Some(reason) => say!("Recommended: about as likely to fit as the best, and {reason}.", reason),
        None if pick.passed_over.is_some() && choice.drafted.iter().any(is_better) => {
            tr("Recommended: fewer than two in stock of the spring with the better chance.").to_owned()
        }
        None => plain(),
    }
}

/// The spring that comes nearest, and what would have to give.
fn nearest(choice: &Choice, springs: &[Spring], units: &UnitChoice) -> String {
    let Some(first) = choice.ranking.ranked.first() else { return tr("No pair of springs is in stock.").into() };
    let judged = choice.ranking.judge(&springs[first.row]);
    say!(
        "The nearest is {spring}: {why}. To make it fit: {remedy}.",
        spring = spring_name(&springs[first.row]),
        why = why(&judged, &choice.ranking, units),
        remedy = would_give(&judged, &choice.ranking, units)
    )
}

/// The draws and what they say of the needed rate.
pub fn certainty(choice: &Choice, units: &UnitChoice) -> String {
    let (draws, lost) = choice.draws;
    let mut text = say!(
        "{count} trials with your measuring errors, seed {seed}: the rate needed is {rate}",
        count = display::significant(draws.count as f64, 6),
        seed = draws.seed,
        rate = display::measured_si(choice.needed.mean, choice.needed.sd(), Dim::SpringRate, units)
    );
    if let Some([low, high]) = choice.needed_95 {
        text += &say!(", 19 times in 20 between {low} and {high}", low = rate(low, units), high = rate(high, units));
    }
    text.push('.');
    if lost > 0 {
        text += &say!(" In {lost} of the trials the axle could not be calculated: a ± is as large as its value.", lost);
    }
    text
}

/// The results of a spring that stand in the table of those drawn.
const DRAFTED: [&str; 8] =
    ["rate", "free_length", "spacer", "frequency", "chance_as_fitted", "chance", "price", "in_stock"];

/// The springs that were drawn, side by side, the recommended one first.
pub fn drafted(choice: &Choice, results: &Results, springs: &[Spring], units: &UnitChoice) -> Block {
    let prefix = format!("{}.choose.springs", choice.side.key());
    let order = choice.in_order();
    let named = |&i: &usize| {
        let drafted = &choice.drafted[i];
        let picked = choice.picked().is_some_and(|p| p.row == drafted.row);
        let what = format!("{}{}", if picked { "→ " } else { "" }, spring_name(&springs[drafted.row]));
        (what, format!("{prefix}[{i}]"))
    };
    let rows: Vec<(String, String)> = order.iter().map(named).collect();
    let reason = |i: usize| breaks_most(&choice.drafted[i]).map_or(tr("nothing"), |limit| limit.words().said());
    let table = results.across(tr("Spring"), &rows, &DRAFTED, units);
    before_price(table, tr("usual reason to fail"), order.into_iter().map(reason))
}

/// A table of parts with one more column before price and stock, the last two.
fn before_price<'a>(mut table: Block, words: &str, cells: impl Iterator<Item = &'a str>) -> Block {
    if let Block::Table { head, rows } = &mut table {
        let at = head.len() - 2;
        head.insert(at, words.to_owned());
        rows.iter_mut().zip(cells).for_each(|(row, cell)| row.insert(at, cell.to_owned()));
    }
    table
}

/// The limit that most of the draws break, if any does.
pub fn breaks_most(drafted: &Drafted) -> Option<Limit> {
    let most = drafted.tally.broken.iter().zip(Limit::ALL).max_by_key(|(count, _)| **count).filter(|(n, _)| **n > 0);
    most.map(|(_, limit)| limit)
}

/// How many springs of the list break each limit, and the nearest of them.
pub fn rejected(choice: &Choice, springs: &[Spring], units: &UnitChoice) -> Vec<Block> {
    let ranking = &choice.ranking;
    let head = [tr("Why springs are rejected"), tr("springs")];
    let mut rows: Vec<Vec<String>> = Limit::ALL
        .iter()
        .zip(ranking.broken)
        .filter(|(_, n)| *n > 0)
        .map(|(limit, n)| vec![limit.words().to_string(), n.to_string()])
        .collect();
    if ranking.not_on_shelf > 0 {
        rows.push(vec![tr("fewer than two in stock").into(), ranking.not_on_shelf.to_string()]);
    }
    let mut blocks = if rows.is_empty() { Vec::new() } else { vec![Block::table(head, rows)] };
    let out = ranking.ranked.iter().skip(ranking.fitting).take(NEAREST_OUT);
    let rows: Vec<Vec<String>> = out
        .map(|r| vec![spring_name(&springs[r.row]).to_owned(), why(&ranking.judge(&springs[r.row]), ranking, units)])
        .collect();
    if !rows.is_empty() {
        blocks.push(Block::table([tr("Nearest rejected springs"), tr("reason")], rows));
    }
    if ranking.cases_left_out > 0 {
        blocks.push(Block::Text(say!(
            "Load cases not checked: {count}. Data missing: weights, wheelbase or hitch position.",
            count = ranking.cases_left_out
        )));
    }
    blocks
}

/// Number of rejected springs listed one by one.
const NEAREST_OUT: usize = 5;

/// Everything about one axle's choice, for text and paper.
pub fn blocks(
    side: Side,
    choice: Result<&Choice, Unable>,
    springs: &[Spring],
    units: &UnitChoice,
    currency: &str,
) -> Vec<Block> {
    let mut blocks =
        vec![Block::Heading(say!("Springs from the parts list: {axle}", axle = inside(side.axle().said())))];
    let choice = match choice {
        Ok(choice) => choice,
        Err(why) => return [blocks, vec![unable(side, why)]].concat(),
    };
    let said = answer(choice, springs, units).to_string();
    blocks.push(if choice.needs_caution() { Block::Caution(said) } else { Block::Text(said) });
    blocks.push(Block::Text(certainty(choice, units)));
    let results = results(choice, springs, currency);
    blocks.push(drafted(choice, &results, springs, units));
    blocks.extend(pair(choice, &results, springs, units));
    if let Some(table) = redo(choice, &results, units) {
        blocks.push(Block::Text(format!("{}:", redo_title(choice))));
        blocks.push(table);
    }
    blocks.extend(rejected(choice, springs, units));
    blocks
}

/// Why nothing can be chosen for an axle.
fn unable(side: Side, why: Unable) -> Block {
    let said = format!("{}: {why}.", side.word());
    match why {
        Unable::Stopped | Unable::Withheld => Block::Caution(said),
        _ => Block::Text(said),
    }
}

/// Every result of a choice.
pub fn results(choice: &Choice, springs: &[Spring], currency: &str) -> Results {
    results::choice(choice.side, Ok(choice), springs, currency).into()
}

/// One axle, and what can be chosen for it.
pub type ForAxle = (Side, Result<Choice, Unable>);

/// The choice for every axle that gets new springs, as a report.
pub fn build(job: &Job, list_name: &str, list: &List, choices: &[ForAxle]) -> Report {
    let (springs, dampers) = (list.springs.len(), list.dampers.len());
    let counted = match list.bad.len() {
        0 => say!("Parts list {name}: {springs} springs, {dampers} dampers.", name = list_name, springs, dampers),
        bad => say!(
            "Parts list {name}: {springs} springs, {dampers} dampers; rows that could not be used: {bad}.",
            name = list_name,
            springs,
            dampers,
            bad
        ),
    };
    let mut blocks = vec![Block::Text(counted)];
    if !list.notes.is_empty() {
        blocks.push(Block::list(&list.notes));
    }
    if choices.is_empty() {
        blocks.push(Block::Text(tr("Both axles keep their springs: there is nothing to choose.").into()));
    }
    for (side, choice) in choices {
        blocks.extend(self::blocks(
            *side,
            choice.as_ref().map_err(|u| *u),
            &list.springs,
            &job.units,
            &job.prices.currency,
        ));
    }
    Report { title: tr("Springs from the parts list").into(), blocks }
}
