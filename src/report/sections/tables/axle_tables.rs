//! Tables of what was weighed, and of one axle: its heights, its springs, its dampers.

use super::damper_tables;
use crate::base::language::tr;
use crate::base::units::{UnitChoice, display};
use crate::job::{Plan, Side};
use crate::report::Block;
use crate::report::results::{Results, of_states};
use crate::report::sections::dampers_stay;
use crate::report::sections::sentence;
use crate::say;
use crate::solve::answer::{Answer, Lead};

/// The rows of the table of both weigh-ins.
const WEIGHED: [&str; 10] = [
    "{}.lf",
    "{}.rf",
    "{}.lr",
    "{}.rr",
    "{}.front_axle",
    "{}.rear_axle",
    "{}.total",
    "{}.front_share",
    "{}.left_share",
    "{}.cross_weight",
];

/// The table of both weigh-ins.
pub fn weights(answer: &Answer, results: &Results, units: &UnitChoice) -> Vec<Block> {
    if answer.after.total.or(answer.before.total).is_none() {
        return Vec::new();
    }
    let columns = [(tr("before"), "before"), (tr("after"), "after"), (tr("change"), "change")];
    let columns = columns.map(|(words, gap)| (words.to_owned(), gap.to_owned()));
    let table = results.table(tr("Weights").to_owned(), &columns, &WEIGHED, units);
    let mut blocks = vec![Block::Heading(tr("Weights").into()), table];
    blocks.extend([tr("before"), tr("after")].into_iter().zip(answer.whole.scatter.both()).filter_map(|(when, scatter)| {
        let [lf, rf, lr, rr] = scatter?.walk().map(|s| display::rounded(s, units));
        Some(Block::Text(say!(
            "Weighed more than once ({when}): the mean is shown above. Single readings scatter by {lf} LF, {rf} RF, {lr} LR, {rr} RR (standard deviation).",
            when, lf, rf, lr, rr
        )))
    }));
    blocks
}

/// The rows of the table "one axle, three states".
const STANDING: [&str; 10] = [
    "sprung",
    "height_change",
    "height_change_at_ground",
    "wheel_rate",
    "frequency",
    "frequency_with_tyre",
    "spring_force",
    "stop_room",
    "reserve",
    "old_damper_ratio",
];

/// The tables of one axle.
pub fn axle(answer: &Answer, results: &Results, side: Side, units: &UnitChoice) -> Vec<Block> {
    let standing = standing(answer, results, side, units);
    let mut blocks: Vec<Block> = standing.iter().map(|_| Block::Heading(side.axle().to_string())).collect();
    blocks.extend(standing);
    blocks.extend(springs(answer, results, side, units));
    if answer.axle(side).standing.new.is_some() {
        blocks.push(Block::Text(dampers_stay::title(answer, side, units)));
    }
    blocks.extend(damper_tables::blocks(answer, results, side, units));
    blocks
}

/// One axle in its states; nothing while none is known.
pub fn standing(answer: &Answer, results: &Results, side: Side, units: &UnitChoice) -> Option<Block> {
    let standing = &answer.axle(side).standing;
    let columns = of_states(|s| standing.of(s).is_some(), |s| format!("{}.{}", side.key(), s.key()));
    (!columns.is_empty()).then(|| results.table(side.axle().to_string(), &columns, &STANDING, units))
}

/// What is asked of a spring, and what is bought.
const ASKED: [&str; 2] = ["sizing.frequency", "sizing.spring_rate"];
const BAR: [&str; 3] = ["sizing.bar.diameter", "sizing.bar.stock_lowest", "sizing.bar.stock_highest"];
/// What it comes from, and what the weights alone say.
const COMPARED: [&str; 4] =
    ["sizing.same_frequency", "sizing.same_factor.factor", "sizing.same_factor.spring_rate", "sizing.spring_force"];
/// What a spacer alone would do.
const SPACER: [&str; 7] = [
    "sizing.spacer.thickness",
    "sizing.spacer.index",
    "sizing.spacer.height_change",
    "sizing.spacer.frequency",
    "sizing.spacer.stop_room",
    "sizing.spacer.reserve",
    "sizing.spacer.to_bind",
];

/// The table of one axle's spring.
pub fn springs(answer: &Answer, results: &Results, side: Side, units: &UnitChoice) -> Option<Block> {
    let (axle, key) = (answer.axle(side), side.key());
    axle.sizing.as_ref()?;
    let keeps = axle.plan == Plan::Keep;
    let mut rows = results.pairs(key, &ASKED, units);
    if !keeps {
        rows.extend(to_buy(answer, results, side, units));
    }
    rows.extend(results.pairs(key, &COMPARED[..if keeps { 3 } else { 4 }], units));
    if !keeps && axle.kind.is_coil() {
        rows.extend(results.known(key, &["sizing.free_length"], units));
        let is_taken = answer.released(side).is_ok_and(|part| part.taken.is_some());
        rows.extend((!is_taken).then(|| results.known(key, &["sizing.order_length"], units)).into_iter().flatten());
    }
    rows.extend(spacer(answer, results, side, units));
    if axle.kind.is_coil() {
        rows.extend(results.pairs(key, &["room.seat", "room.to_bind"], units));
    }
    rows.extend(results.known(key, &["room.stored_at_metal"], units));
    rows.extend(results.pairs(key, &["room.damper_bump", "room.damper_droop"], units));
    let side = axle.side.word();
    let head = if keeps { say!("{side} spring (stays)", side) } else { say!("{side} spring", side) };
    Some(Block::Table { head: vec![head, String::new()], rows })
}

/// The rows of the spring to buy; one that says so while it is withheld.
fn to_buy(answer: &Answer, results: &Results, side: Side, units: &UnitChoice) -> Vec<Vec<String>> {
    // What is cheaper leads: this one is bought only if it is wanted all the same, or once that is measured.
    let name = match answer.lead(side).map(Lead::leads) {
        Some(true) => tr("New spring, only if wanted anyway"),
        Some(false) => tr("New spring, if still needed after measuring"),
        None => tr("Spring to buy"),
    };
    let named = |text: String| vec![name.to_owned(), text];
    let Ok(part) = answer.released(side) else {
        return vec![named(tr("withheld; see the first line of this axle for the reason").to_owned())];
    };
    let Some(spring) = &part.spring else { return Vec::new() };
    let mut rows = results.known(side.key(), &BAR, units);
    rows.push(named(sentence::bought(part.taken.as_deref(), spring, units)));
    rows.extend(results.known(side.key(), &["sizing.bar.index"], units));
    rows
}

/// What a spacer alone would do: its thickness, and the equilibrium of the axle; nothing more where none is needed.
fn spacer(answer: &Answer, results: &Results, side: Side, units: &UnitChoice) -> Vec<Vec<String>> {
    let Ok(part) = answer.released(side) else { return Vec::new() };
    let first = results.find(&format!("{}.sizing.spacer.thickness", side.key()));
    if part.spacer.is_none() || first.is_some_and(|thickness| thickness.instead.is_some()) {
        return first.map(|f| vec![f.head(units), f.said(units)]).into_iter().collect();
    }
    results.known(side.key(), &SPACER, units)
}
