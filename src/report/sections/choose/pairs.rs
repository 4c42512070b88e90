//! Left and right: which spring goes where, how the vehicle then sits, and what was not tried.

use super::{Told, seat, why, with_facts};
use crate::base::language::tr;
use crate::base::units::{Dim, UnitChoice, display};
use crate::choose::{Choice, Leaves, Limit, MOST, Pair, Pairs};
use crate::job::LeftRight;
use crate::report::Block;
use crate::report::results::{Results, spring_name};
use crate::say;
use crate::shop::parts::Spring;

/// What a choice says of left and right: the pair to fit, or that there is none and which comes nearest; how the vehicle then sits.
pub(super) fn lead(choice: &Choice, pair: &Pair, springs: &[Spring], units: &UnitChoice) -> Told {
    let side = choice.side.word();
    let fitted = fitted(pair, springs, units);
    let first = if pair.level {
        say!("{side}, left and right: {fitted}.", side, fitted)
    } else {
        say!(
            "{side}, left and right: no pair from this list meets the limits on both sides within the allowed seat travel. The best is {fitted}; {misses}.",
            side,
            fitted,
            misses = misses(choice, pair, units)
        )
    };
    let is_open = pair.level && pair.is_of_two() && choice.selected_pair(springs).is_none();
    let select =
        is_open.then(|| tr("Until you select this pair, every sheet names one spring for both sides.").to_owned());
    let why = [pair.leaves.map(|leaves| stands(&leaves, units)), select];
    Told { springs: first, why: why.into_iter().flatten().collect::<Vec<_>>().join(" ") }
}

/// "S-26 (60 N/mm) on the left, without a spacer, and S-28 (60 N/mm) on the right, on a spacer of 5 mm".
fn fitted(pair: &Pair, springs: &[Spring], units: &UnitChoice) -> String {
    let LeftRight { left: on_left, right: on_right } = pair.judged.map(|judged| {
        let on = Some(judged.spacer_m).filter(|m| m.is_finite()).and_then(|m| seat(m, units));
        on.unwrap_or_else(|| tr("without a spacer").to_owned())
    });
    let LeftRight { left, right } = pair.rows.map(|row| with_facts(&springs[row], units));
    if pair.is_of_two() {
        return say!(
            "{left} on the left, {on_left}, and {right} on the right, {on_right}",
            left,
            on_left,
            right,
            on_right
        );
    }
    if on_left == on_right {
        return say!("{spring} on both sides, {on}", spring = left, on = on_left);
    }
    say!("{spring} on both sides, left {on_left}, right {on_right}", spring = left, on_left, on_right)
}

/// What each side of a pair breaks.
fn misses(choice: &Choice, pair: &Pair, units: &UnitChoice) -> String {
    let sides = [tr("left"), tr("right")].into_iter().zip(pair.judged.both());
    let missed = sides.filter(|(_, judged)| !judged.stands());
    missed
        .map(|(side, judged)| format!("{side}: {}", why(&judged, &choice.ranking, units)))
        .collect::<Vec<_>>()
        .join("; ")
}

/// A body that is lower on one side by less is level, m.
const LEVEL_M: f64 = 5e-4;

fn stands(leaves: &Leaves, units: &UnitChoice) -> String {
    let lower = leaves.right_lower;
    let low = display::rounded_with_u(lower.value.abs(), Some(lower.u), Dim::Length, units);
    let of_cross = leaves.cross_weight;
    let percent = |share: f64| display::fixed(100.0 * share, 1);
    let cross = percent(of_cross.value) + &display::plus_minus(Some(100.0 * of_cross.u), 1);
    if lower.value.abs() < LEVEL_M {
        say!("With this pair, the body is level; the cross weight is {cross} %.", cross)
    } else if lower.value > 0.0 {
        say!("With this pair, the body is {low} lower on the right; the cross weight is {cross} %.", low, cross)
    } else {
        say!("With this pair, the body is {low} lower on the left; the cross weight is {cross} %.", low, cross)
    }
}

/// A pair by its springs.
pub fn pair_names(pair: &Pair, springs: &[Spring]) -> String {
    let LeftRight { left, right } = pair.rows.map(|row| spring_name(&springs[row]));
    say!("{left} left, {right} right", left, right)
}

/// The pair that leads side by side, all that are named, and what was tried.
pub fn pair(choice: &Choice, results: &Results, springs: &[Spring], units: &UnitChoice) -> Vec<Block> {
    let Some((pairs, pair)) = choice.pairs.as_ref().zip(choice.pair()) else { return Vec::new() };
    let mut blocks = vec![both_sides(choice, pair, results, springs, units)];
    if pair.leaves.is_some() {
        let of =
            |(i, pair): (usize, &Pair)| (pair_names(pair, springs), format!("{}.choose.pairs[{i}]", choice.side.key()));
        let named: Vec<(String, String)> = pairs.named.iter().enumerate().map(of).collect();
        blocks.push(results.across(tr("Pairs"), &named, &["right_lower", "cross_weight"], units));
    }
    if !pair.level {
        blocks.push(Block::Text(tr("A thicker spacer on the low side, or a specially made spring, may help.").into()));
    }
    blocks.extend(tried(pairs).into_iter().map(Block::Text));
    blocks.extend(short(pair, springs).map(Block::Text));
    blocks
}

fn both_sides(choice: &Choice, pair: &Pair, results: &Results, springs: &[Spring], units: &UnitChoice) -> Block {
    let prefix = format!("{}.choose.pairs[0]", choice.side.key());
    let sides = [(tr("left"), "left"), (tr("right"), "right")];
    let sides = sides.map(|(words, key)| (words.to_owned(), format!("{prefix}.{key}")));
    let mut table = results.across(tr("Left and right"), &sides, &["sprung", "spacer", "above_wanted"], units);
    if let Block::Table { head, rows } = &mut table {
        head.insert(2, tr("spring").to_owned());
        let of_sides = pair.rows.both().into_iter().zip(pair.judged.both());
        for (row, (spring, judged)) in rows.iter_mut().zip(of_sides) {
            row.insert(2, spring_name(&springs[spring]).to_owned());
            if judged.margin(Limit::Height).is_some() && !judged.stands() {
                row.pop();
                row.push(why(&judged, &choice.ranking, units));
            }
        }
    }
    table
}

/// What was tried, and what was left out.
fn tried(pairs: &Pairs) -> Vec<String> {
    let (LeftRight { left, right }, count) = (pairs.tried, pairs.springs - pairs.left_out);
    let mut texts = vec![if left == count && right == count {
        say!("Pairs tried: each of {count} springs on the left with each on the right.", count)
    } else {
        say!(
            "Pairs tried: each of {left} springs on the left with each of {right} on the right. The others of {count} break a limit on that side, whichever spring is on the other.",
            left,
            right,
            count
        )
    }];
    if pairs.left_out > 0 {
        texts.push(say!(
            "Left out: {left_out} springs of the list. On each side only the {most} nearest are tried.",
            left_out = pairs.left_out,
            most = MOST
        ));
    }
    if pairs.not_followed > 0 {
        texts.push(say!(
            "Pairs that come near the limits and were not calculated in full: {count}.",
            count = pairs.not_followed
        ));
    }
    texts
}

/// What the shelf does not hold of the pair.
fn short(pair: &Pair, springs: &[Spring]) -> Option<String> {
    let wanted = if pair.is_of_two() { 1 } else { 2 };
    if !pair.rows.both().iter().any(|row| springs[*row].stock.is_some_and(|n| n < wanted)) {
        return None;
    }
    Some(match springs[pair.rows.left].stock.filter(|_| wanted == 2) {
        Some(count) => say!("Only {count} in stock. An axle needs two: order the rest.", count),
        None => tr("The two springs are not both in stock: order what is missing.").to_owned(),
    })
}
