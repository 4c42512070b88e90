//! How the spring that leads a list relates to what the answer names: the stock rate that was sized, or the spring selected.

use super::{Told, chance, why};
use crate::base::language::tr;
use crate::base::units::{Quantity, SpringRate, UnitChoice, display};
use crate::choose::{Choice, Drafted, Named};
use crate::report::results::spring_name;
use crate::say;
use crate::shop::parts::Spring;

/// The spring to take, when the answer names it as well; else what the answer names, which spring leads, and why they differ:
/// neither is final then. `leads` is that spring with its facts and its seat.
pub fn first_line(choice: &Choice, picked: &Drafted, leads: &str, springs: &[Spring], units: &UnitChoice) -> Told {
    let side = choice.side.word();
    let take = say!("{side}: use {leads}.", side, leads);
    let Some(named) = &choice.named else { return Told { springs: take, why: String::new() } };
    let rate = display::rounded(SpringRate::from_si(named.rate_n_per_m), units);
    if let (Some(selected), Some(_)) = (&named.selected, choice.selected_pair(springs)) {
        let springs =
            say!("{side}: the pair {selected} is selected in the job; {leads} leads this list.", side, selected, leads);
        return Told { springs, why: String::new() };
    }
    let because = || because(choice, named, springs, units);
    let (springs, why) = match (&named.selected, named.is(&springs[picked.row])) {
        (Some(_), true) => (take, tr("It is the spring selected in the job.").to_owned()),
        (None, true) => (take, say!("Its rate is the stock rate from the calculation, {rate}.", rate)),
        (Some(selected), false) => (
            say!(
                "{side}: {selected} ({rate}) is selected in the job, but {leads} leads this list: {because}.",
                side,
                selected,
                rate,
                leads,
                because = because()
            ),
            tr("Keep the selected spring or select the other; every sheet names the selected spring.").to_owned(),
        ),
        (None, false) => (
            say!(
                "{side}: the stock rate from the calculation is {rate}, but {leads} leads this list: {because}.",
                side,
                rate,
                leads,
                because = because()
            ),
            tr("Neither is final until you select a spring; every sheet then names that spring.").to_owned(),
        ),
    };
    Told { springs, why }
}

/// Why what the answer names does not lead.
fn because(choice: &Choice, named: &Named, springs: &[Spring], units: &UnitChoice) -> String {
    let is_named = |row: usize| named.is(&springs[row]);
    if let Some(over) = choice.pick.as_ref().and_then(|p| p.passed_over).filter(|i| is_named(choice.drafted[*i].row)) {
        let spring = &springs[choice.drafted[over].row];
        return say!(
            "only {count} of {spring} in stock, and an axle needs two",
            count = spring.stock.unwrap_or(0),
            spring = spring_name(spring)
        );
    }
    let tie = choice.pick.as_ref().map_or(&[][..], |p| &p.tie);
    if let Some((place, rival)) = choice.drafted.iter().enumerate().find(|(_, d)| is_named(d.row)) {
        let spring = spring_name(&springs[rival.row]);
        return match tie.contains(&place) {
            true => say!("fewer limits could be checked for {spring}", spring),
            false => say!(
                "{spring} meets every limit in {chance} trials, the leading spring in more",
                spring,
                chance = chance(rival.chance)
            ),
        };
    }
    match choice.ranking.ranked.iter().map(|r| r.row).find(|row| is_named(*row)) {
        Some(row) => say!(
            "{spring} does not fit: {why}",
            spring = spring_name(&springs[row]),
            why = why(&choice.ranking.judge(&springs[row]), &choice.ranking, units)
        ),
        None if named.selected.is_some() => tr("the selected spring is not on this list").to_owned(),
        None => tr("no spring on this list has that rate").to_owned(),
    }
}

/// " Only 1 of S-26 in stock, …": where the shelf does not hold a pair of the spring that leads, or of one that would.
pub fn shelf(choice: &Choice, picked: &Drafted, springs: &[Spring]) -> String {
    let count = |row: usize| springs[row].stock.filter(|n| *n < 2);
    if let Some(count) = count(picked.row) {
        return say!(" Only {count} in stock, and an axle needs two: order the rest before you start fitting.", count);
    }
    let over = choice.pick.as_ref().and_then(|p| p.passed_over).map(|i| &choice.drafted[i]);
    // Where the answer names it, the first sentence says so.
    let is_said = |d: &Drafted| choice.named.as_ref().is_some_and(|n| n.is(&springs[d.row])) && !choice.agrees(springs);
    match over.filter(|d| !is_said(d)).and_then(|d| Some((d, count(d.row)?))) {
        Some((over, count)) => say!(
            " {spring} meets every limit in {chance} trials; with only {count} in stock it ranks below springs with a pair in stock.",
            spring = spring_name(&springs[over.row]),
            chance = chance(over.chance),
            count
        ),
        None => String::new(),
    }
}
