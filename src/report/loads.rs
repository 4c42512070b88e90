//! Tables of the ledger of parts, of load cases and of ratings.

use super::sentence::height_or;
use super::{Block, UOf, or_unknown, with_u};
use crate::job::Side;
use crate::language::tr;
use crate::say;
use crate::solve::answer::{Answer, CaseAnswer, CaseStanding, Measured, State, Told};
use crate::units::{Dim, Length, Mass, Quantity, Ratio, UnitChoice, display};

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
pub fn cases(answer: &Answer, units: &UnitChoice) -> Vec<Block> {
    if answer.cases.len() < 2 {
        return Vec::new();
    }
    let mut blocks = vec![Block::Heading(tr("Load cases").into())];
    let all: Vec<usize> = (0..answer.cases.len()).collect();
    // A page holds the names of four.
    for some in all.chunks(4) {
        blocks.extend(side_by_side(tr("Load case"), some, &OF_CASE, answer, units, |c| Some(c)));
        for side in Side::BOTH {
            blocks.extend(axle(answer, some, side, units));
        }
    }
    blocks
}

fn name(case: &CaseAnswer) -> String {
    if case.sized && case.index.is_some() { say!("{case} (sized on)", case = case.name) } else { case.name.clone() }
}

/// The text of one cell.
type Cell<T> = fn(&T, &UOf<'_, T>, &UnitChoice) -> String;

/// A table with a column for every case in which `part` is known.
fn side_by_side<T>(
    what: &str,
    cases: &[usize],
    rows: &[(&'static str, Cell<T>)],
    answer: &Answer,
    units: &UnitChoice,
    part: impl Fn(&CaseAnswer) -> Option<&T>,
) -> Option<Block> {
    let found: Vec<(usize, &T)> = cases.iter().filter_map(|n| Some((*n, part(&answer.cases[*n])?))).collect();
    let head = std::iter::once(what.to_owned()).chain(found.iter().map(|f| name(&answer.cases[f.0]))).collect();
    let cells = |&(words, cell): &(&'static str, Cell<T>)| {
        let one = |(n, of): &(usize, &T)| {
            let u = |result: fn(&T) -> Option<f64>| answer.u_of(|v| result(part(v.cases.get(*n)?)?));
            cell(of, &u, units)
        };
        std::iter::once(tr(words).to_owned()).chain(found.iter().map(one)).collect()
    };
    (!found.is_empty()).then(|| Block::Table { head, rows: rows.iter().map(cells).collect() })
}

fn number(ratio: Option<Ratio>, u: Option<f64>) -> String {
    or_unknown(ratio, |r| format!("{}{}", display::fixed(r.si(), 2), display::plus_minus(u, 2)))
}

fn si<Q: Quantity>(value: Option<Q>) -> Option<f64> {
    value.map(Quantity::si)
}

const OF_CASE: [(&str, Cell<CaseAnswer>); 5] = [
    ("Front axle", |c, u, units| with_u(c.on_scales[0], u(|c| si(c.on_scales[0])), units)),
    ("Rear axle", |c, u, units| with_u(c.on_scales[1], u(|c| si(c.on_scales[1])), units)),
    ("Worst rating", |c, _, _| {
        or_unknown(c.worst(), |r| say!("{share:.0} % of {part}", share = r.share.si() * 100.0, part = r.part.words()))
    }),
    ("Rear ÷ front frequency, on springs", |c, u, _| match c.rear_over_front.new {
        Some(new) => number(Some(new), u(|c| si(c.rear_over_front.new))),
        None => number(c.rear_over_front.old, u(|c| si(c.rear_over_front.old))),
    }),
    ("Lamps' beam, at their distance", |c, u, units| match c.beam.new {
        Some(new) => beam(new, u(|c| si(c.beam.new)), units),
        None => or_unknown(c.beam.old, |old| beam(old, u(|c| si(c.beam.old)), units)),
    }),
];

const OF_CORNER: [(&str, Cell<CaseStanding>); 6] = [
    ("Height at the wheel", |s, u, units| height_or(tr("unchanged"), s.rise, u(|s| Some(s.rise.si())), units)),
    ("Ride frequency, on springs", |s, u, units| with_u(Some(s.frequency), u(|s| Some(s.frequency.si())), units)),
    ("Room to the bump stop", |s, u, units| match s.stop_room {
        Some(_) if s.on_stop => tr("stop touched").to_owned(),
        room => with_u(room, u(|s| si(s.stop_room)), units),
    }),
    ("Reserve before the stop", |s, u, _| reserve(s.reserve, u(|s| si(s.reserve)))),
    ("Damping ratio, old damper", |s, u, _| number(s.old_damper_ratio, u(|s| si(s.old_damper_ratio)))),
    ("Damping ratio, new damper in the middle", |s, u, _| number(s.new_damper_ratio, u(|s| si(s.new_damper_ratio)))),
];

/// "0.84 ± 0.03 g".
pub fn reserve(reserve: Option<Ratio>, u: Option<f64>) -> String {
    or_unknown(reserve, |r| format!("{}{} g", display::fixed(r.si(), 2), display::plus_minus(u, 2)))
}

const BY_AIR: [(&str, Cell<CaseStanding>); 2] = [
    ("Bag pressure that levels it", |s, u, units| match s.level {
        Some(bag) => with_u(Some(bag.pressure), u(|s| Some(s.level?.pressure.si())), units),
        None => tr("none needed").to_owned(),
    }),
    ("Ride frequency with it", |s, u, units| match s.level {
        Some(bag) => with_u(Some(bag.frequency), u(|s| Some(s.level?.frequency.si())), units),
        None => tr("as above").to_owned(),
    }),
];

/// "23 ± 4 mm up".
pub fn beam(shift: Length, u_si: Option<f64>, units: &UnitChoice) -> String {
    let text = display::rounded_with_u(shift.si().abs(), u_si, Dim::Length, units);
    match text.strip_prefix("0 ") {
        Some(u) if u.starts_with('±') => format!("{}, {u}", tr("unchanged")),
        Some(_) => tr("unchanged").to_owned(),
        None if shift.si() > 0.0 => say!("{amount} up", amount = text),
        None => say!("{amount} down", amount = text),
    }
}

/// One axle in every case, on the springs that will be fitted.
fn axle(answer: &Answer, cases: &[usize], side: Side, units: &UnitChoice) -> Option<Block> {
    let i = side as usize;
    let state = if answer.axle(side).standing.new.is_some() { State::NewSprings } else { State::OldSprings };
    let mut rows = OF_CORNER.to_vec();
    if cases.iter().filter_map(|n| answer.cases[*n].standing[i].of(state).as_ref()).any(|s| s.level.is_some()) {
        rows.extend(BY_AIR);
    }
    let what = format!("{} {}", side.axle(), state.words());
    side_by_side(&what, cases, &rows, answer, units, |c| c.standing[i].of(state).as_ref())
}
