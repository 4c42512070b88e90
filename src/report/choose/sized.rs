//! How the recommended spring relates to what the answer names: the stock rate that was sized, or the spring selected.

use super::{chance, name, why};
use crate::choose::{Choice, Decided, Drafted};
use crate::language::tr;
use crate::parts::Spring;
use crate::say;
use crate::units::{Quantity, SpringRate, UnitChoice, display};

/// Rates of the same spring, written in different units, agree to this share.
const SAME_RATE: f64 = 2e-3;

/// " The answer above names 25 N/mm: …", in one sentence; nothing when no spring is recommended.
pub fn relation(choice: &Choice, springs: &[Spring], units: &UnitChoice) -> String {
    let Some((picked, named)) = choice.picked().zip(choice.named.as_ref()) else { return String::new() };
    let rate = display::rounded(SpringRate::from_si(named.rate_n_per_m), units);
    if let Some(number) = &named.selected {
        return match number == name(&springs[picked.row]) {
            true => tr(" It is the spring selected in the job.").to_owned(),
            false => {
                say!(" The job has {number} ({rate}) selected: {instead}.", number, rate, instead = instead(choice))
            }
        };
    }
    let has_rate = |row: usize| (springs[row].rate.si() / named.rate_n_per_m - 1.0).abs() < SAME_RATE;
    if has_rate(picked.row) {
        return say!(" It has the stock rate that was sized, {rate}.", rate);
    }
    let rival = choice.drafted.iter().find(|d| has_rate(d.row));
    let out = || choice.ranking.ranked.iter().map(|r| r.row).find(|row| has_rate(*row));
    let because = match (rival, out()) {
        (Some(rival), _) => say!(
            "{spring} has it and holds in {chance}: {instead}",
            spring = name(&springs[rival.row]),
            chance = chance(rival.chance),
            instead = instead_of(choice, rival, picked)
        ),
        (None, Some(row)) => {
            let judged = choice.ranking.judge(&springs[row]);
            match judged.holds() {
                true => say!("{spring} has it, with less to spare", spring = name(&springs[row])),
                false => say!(
                    "{spring} has it: {why}",
                    spring = name(&springs[row]),
                    why = why(&judged, &choice.ranking, units)
                ),
            }
        }
        (None, None) => tr("no spring of this list has it").to_owned(),
    };
    say!(
        " The stock rate that was sized is {rate}; {because}. Select the spring, and every sheet names it.",
        rate,
        because
    )
}

fn instead(choice: &Choice) -> &'static str {
    match choice.pick.as_ref().map(|p| p.by) {
        Some(Decided::Chance) => tr("this one holds more often"),
        _ => tr("this one has the better margins"),
    }
}

/// Why the pick and not its rival: the chance, or among about equal ones the margins.
fn instead_of(choice: &Choice, rival: &Drafted, picked: &Drafted) -> &'static str {
    let ties = choice.pick.as_ref().is_some_and(|p| p.tie.iter().any(|i| choice.drafted[*i].row == rival.row));
    match ties {
        true => instead(choice),
        false if picked.chance > rival.chance => tr("this one holds more often"),
        false => tr("this one has the better margins"),
    }
}

/// " Only 1 in stock, and an axle takes two." where the shelf does not hold a pair.
pub fn shelf(spring: &Spring) -> String {
    match spring.stock.filter(|n| *n < 2) {
        Some(count) => say!(" Only {count} in stock, and an axle takes two.", count),
        None => String::new(),
    }
}
