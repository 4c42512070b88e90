//! Tables of the ledger of parts, of load cases and of ratings.

use crate::base::language::tr;
use crate::base::units::{Quantity, UnitChoice};
use crate::job::Side;
use crate::report::Block;
use crate::report::or_unknown;
use crate::report::results::{Column, Results, head, row, row_called};
use crate::say;
use crate::solve::answer::{Answer, CaseAnswer, State};

/// What the ledger says, axle by axle and corner by corner; nothing without parts.
pub fn ledger(answer: &Answer, results: &Results, units: &UnitChoice) -> Vec<Block> {
    let Some(ledger) = &answer.ledger else { return Vec::new() };
    let column = |words: &str, gap: &str| (words.to_owned(), gap.to_owned());
    let axles = [(tr("front axle"), "front"), (tr("rear axle"), "rear"), (tr("both axles"), "together")];
    let axles = axles.map(|(words, gap)| column(words, gap));
    let weighed = ["after.front_axle", "after.rear_axle", "after.total"];
    let heading = tr("Parts out and in");
    let is_foretold = ledger.axles.foretold.is_some();
    let mut blocks =
        vec![Block::Heading(heading.into()), told(results, (heading, &axles), &weighed, is_foretold, units)];
    if let Some(corners) = &answer.whole.ledger {
        let corners_of = [(tr("LF"), "lf"), (tr("RF"), "rf"), (tr("LR"), "lr"), (tr("RR"), "rr")];
        let columns = corners_of.map(|(words, gap)| column(words, gap));
        let weighed = ["after.lf", "after.rf", "after.lr", "after.rr"];
        let is_foretold = corners.told.foretold.is_some();
        blocks.push(told(results, (tr("Corner by corner"), &columns), &weighed, is_foretold, units));
        let ends = [column(tr("front axle"), "front"), column(tr("rear axle"), "rear")];
        let keys = ["ledger.left_right.{}.explained", "ledger.left_right.{}.remains"];
        blocks.extend(results.table_told(tr("Left-right difference").to_owned(), &ends, &keys, units));
    }
    blocks
}

/// Results of the ledger in these columns, and the scale readings in the same.
fn told(
    results: &Results,
    (what, columns): (&str, &[Column]),
    weighed: &[&str],
    is_foretold: bool,
    units: &UnitChoice,
) -> Block {
    let mut rows = results.rows_told(&["ledger.change.{}", "ledger.foretold.{}", "ledger.kept.{}"], columns, units);
    if weighed.iter().all(|key| results.find(key).is_some_and(|f| f.si.is_some())) {
        let scales: Vec<_> = weighed.iter().map(|key| results.find(key)).collect();
        rows.push(row_called(tr("Weighed after the change").to_owned(), &scales, units));
    }
    let reckoned: &[&str] = if is_foretold { &[] } else { &["ledger.reconstructed.{}"] };
    rows.extend(results.rows_told(reckoned, columns, units));
    rows.extend(results.rows_told(&["ledger.residual.{}"], columns, units));
    Block::Table { head: head(what.to_owned(), columns), rows }
}

/// Load cases side by side; nothing when there are none but "as weighed".
pub fn cases(answer: &Answer, results: &Results, units: &UnitChoice) -> Vec<Block> {
    if answer.cases.len() < 2 {
        return Vec::new();
    }
    let mut blocks = vec![Block::Heading(tr("Load cases").into())];
    let all: Vec<usize> = (0..answer.cases.len()).collect();
    // A page holds the names of four.
    for some in all.chunks(4) {
        blocks.push(of_case(answer, results, some, units));
        for side in Side::BOTH {
            blocks.extend(axle(answer, results, some, side, units));
        }
    }
    blocks
}

/// The weight of each axle against its rating.
pub fn ratings(results: &Results, units: &UnitChoice) -> Vec<Block> {
    let columns = Side::BOTH.map(|side| (side.axle().to_string(), side.key().to_owned()));
    let table = results.table(String::new(), &columns, &["{}.rating_share"], units);
    vec![Block::Heading(tr("Ratings").into()), table]
}

/// The cases as columns.
fn columns(answer: &Answer, cases: &[usize]) -> Vec<Column> {
    let name = |case: &CaseAnswer| match case.sized && case.index.is_some() {
        true => say!("{case} (used for sizing)", case = case.name),
        false => case.name.to_string(),
    };
    cases.iter().map(|n| &answer.cases[*n]).map(|case| (name(case), case.key())).collect()
}

/// Results of a case as a whole.
fn of_case(answer: &Answer, results: &Results, cases: &[usize], units: &UnitChoice) -> Block {
    let columns = columns(answer, cases);
    let mut rows = results.rows(&["{}.front.on_scales", "{}.rear.on_scales"], &columns, units);
    let worst = cases.iter().map(|n| {
        or_unknown(answer.cases[*n].worst(), |r| {
            say!("{share:.0} %: {part}", share = r.share.si() * 100.0, part = r.part.words())
        })
    });
    rows.push(std::iter::once(tr("Highest load, % of rating").to_owned()).chain(worst).collect());
    // On the springs that will be fitted, else on the old ones.
    rows.extend(["rear_over_front", "beam"].map(|key| {
        let keys = |case: &str| [State::NewSprings, State::OldSprings].map(|s| format!("{case}.{key}.{}", s.key()));
        row(columns.iter().map(|(_, case)| results.first_told(&keys(case))), units)
    }));
    Block::Table { head: head(tr("Load case").to_owned(), &columns), rows }
}

/// One axle in every case that has an equilibrium, on the springs that will be fitted.
fn axle(answer: &Answer, results: &Results, cases: &[usize], side: Side, units: &UnitChoice) -> Option<Block> {
    let state = if answer.axle(side).standing.new.is_some() { State::NewSprings } else { State::OldSprings };
    let standing = |n: &usize| answer.cases[*n].standing[side].of(state);
    let stands: Vec<usize> = cases.iter().copied().filter(|n| standing(n).is_some()).collect();
    let mut keys = vec!["rise", "frequency", "stop_room", "reserve", "old_damper_ratio", "new_damper_ratio"];
    if stands.iter().any(|n| standing(n).is_some_and(|s| s.level.is_some())) {
        keys.extend(["by_air.pressure", "by_air.frequency"]);
    }
    let keys: Vec<String> = keys.iter().map(|key| format!("{{}}.{}.{}.{key}", side.key(), state.key())).collect();
    let keys: Vec<&str> = keys.iter().map(String::as_str).collect();
    let what = format!("{} {}", side.axle(), state.words());
    (!stands.is_empty()).then(|| results.table(what, &columns(answer, &stands), &keys, units))
}
