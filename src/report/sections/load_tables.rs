//! Tables of the ledger of parts, of load cases and of ratings.

use crate::base::language::tr;
use crate::base::units::{Dim, Mass, Quantity, UnitChoice, display};
use crate::job::Side;
use crate::report::Block;
use crate::report::or_unknown;
use crate::report::results::{Column, Results, head, row};
use crate::say;
use crate::solve::answer::{Answer, CaseAnswer, Measured, State, Told};

/// What the ledger says, axle by axle and corner by corner; nothing without parts.
pub fn ledger(answer: &Answer, units: &UnitChoice) -> Vec<Block> {
    let Some(ledger) = &answer.ledger else { return Vec::new() };
    let scales = |weighed: [Option<Mass>; 2]| {
        let [front, rear] = weighed.map(|m| m.map(|m| Measured::exact(m.si())));
        Some([front?, rear?])
    };
    let mut rows = told(&ledger.axles, scales([answer.after.front, answer.after.rear]), units);
    for row in &mut rows {
        let (found, signed) = row.1;
        let total = found[0].value + found[1].value;
        row.0.push(told_mass(Measured::exact(total), signed, units));
    }
    let head = [tr("Parts out and in"), tr("front axle"), tr("rear axle"), tr("together")].map(str::to_owned).to_vec();
    let mut blocks = vec![
        Block::Heading(tr("Parts out and in").into()),
        Block::Table { head, rows: rows.into_iter().map(|r| r.0).collect() },
    ];
    if let Some(corners) = &answer.whole.ledger {
        let read = answer.after.corners.map(|c| c.walk().map(|m| Measured::exact(m.si())));
        let rows = told(&corners.told, read, units).into_iter().map(|r| r.0).collect();
        let head = [tr("Corner by corner"), tr("LF"), tr("RF"), tr("LR"), tr("RR")].map(str::to_owned).to_vec();
        blocks.push(Block::Table { head, rows });
    }
    blocks
}

/// A row of texts, with the values in it and whether they carry a sign.
type ToldRow<const N: usize> = (Vec<String>, ([Measured; N], bool));

fn told<const N: usize>(told: &Told<N>, scales: Option<[Measured; N]>, units: &UnitChoice) -> Vec<ToldRow<N>> {
    let row = |what: &str, found: Option<[Measured; N]>, signed: bool| {
        let texts = found?.into_iter().map(|m| told_mass(m, signed, units));
        Some((std::iter::once(what.to_owned()).chain(texts).collect(), (found?, signed)))
    };
    [
        row(tr("The parts change it by"), Some(told.change), true),
        row(tr("Foretold after"), told.foretold, false),
        row(tr("Foretold before the weigh-in"), told.kept, false),
        row(tr("Weighed after"), scales, false),
        row(tr("Reckoned before"), told.reconstructed.filter(|_| told.foretold.is_none()), false),
        row(tr("Scales less ledger"), told.residual, true),
    ]
    .into_iter()
    .flatten()
    .collect()
}

/// "253 kg ± 4", "+12 kg ± 3".
pub fn told_mass(m: Measured, signed: bool, units: &UnitChoice) -> String {
    let text = display::rounded(Mass::from_si(m.value), units);
    let sign = if signed && m.value > 0.0 && !text.starts_with("0 ") { "+" } else { "" };
    let number = |u: f64| display::rounded_number(u, units.unit(Dim::Mass));
    let u = if m.u > 0.0 { format!(" ± {}", number(m.u)) } else { String::new() };
    format!("{sign}{text}{u}")
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

/// The cases as columns.
fn columns(answer: &Answer, cases: &[usize]) -> Vec<Column> {
    let name = |case: &CaseAnswer| match case.sized && case.index.is_some() {
        true => say!("{case} (sized on)", case = case.name),
        false => case.name.clone(),
    };
    cases.iter().map(|n| &answer.cases[*n]).map(|case| (name(case), case.key())).collect()
}

/// What is told of a case as a whole.
fn of_case(answer: &Answer, results: &Results, cases: &[usize], units: &UnitChoice) -> Block {
    let columns = columns(answer, cases);
    let mut rows = results.rows(&["{}.front.on_scales", "{}.rear.on_scales"], &columns, units);
    let worst = cases.iter().map(|n| {
        or_unknown(answer.cases[*n].worst(), |r| {
            say!("{share:.0} % of {part}", share = r.share.si() * 100.0, part = r.part.words())
        })
    });
    rows.push(std::iter::once(tr("Worst rating").to_owned()).chain(worst).collect());
    // On the springs that will be fitted, else on the old ones.
    rows.extend(["rear_over_front", "beam"].map(|key| {
        let keys = |case: &str| [State::NewSprings, State::OldSprings].map(|s| format!("{case}.{key}.{}", s.key()));
        row(columns.iter().map(|(_, case)| results.first_told(&keys(case))), units)
    }));
    Block::Table { head: head(tr("Load case").to_owned(), &columns), rows }
}

/// One axle in every case in which it stands, on the springs that will be fitted.
fn axle(answer: &Answer, results: &Results, cases: &[usize], side: Side, units: &UnitChoice) -> Option<Block> {
    let state = if answer.axle(side).standing.new.is_some() { State::NewSprings } else { State::OldSprings };
    let standing = |n: &usize| answer.cases[*n].standing[side as usize].of(state).as_ref();
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
