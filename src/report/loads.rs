//! Tables of the ledger of parts, of load cases and of ratings.

use super::sentence::short_height;
use super::{Block, or_unknown};
use crate::job::Side;
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
        row.0.push(with_u(Measured::exact(total), signed, units));
    }
    let head = ["Parts out and in", "front axle", "rear axle", "together"].map(str::to_owned).to_vec();
    let mut blocks = vec![
        Block::Heading("Parts out and in".into()),
        Block::Table { head, rows: rows.into_iter().map(|r| r.0).collect() },
    ];
    if let Some(corners) = &answer.whole.ledger {
        let read = answer.after.corners.map(|c| c.walk().map(|m| Measured::exact(m.si())));
        let rows = told(&corners.told, read, units).into_iter().map(|r| r.0).collect();
        let head = ["Corner by corner", "LF", "RF", "LR", "RR"].map(str::to_owned).to_vec();
        blocks.push(Block::Table { head, rows });
    }
    blocks
}

/// A row of texts, with the values in it and whether they carry a sign.
type ToldRow<const N: usize> = (Vec<String>, ([Measured; N], bool));

fn told<const N: usize>(told: &Told<N>, scales: Option<[Measured; N]>, units: &UnitChoice) -> Vec<ToldRow<N>> {
    let row = |what: &str, found: Option<[Measured; N]>, signed: bool| {
        let texts = found?.into_iter().map(|m| with_u(m, signed, units));
        Some((std::iter::once(what.to_owned()).chain(texts).collect(), (found?, signed)))
    };
    [
        row("The parts change it by", Some(told.change), true),
        row("Foretold after", told.foretold, false),
        row("Foretold before the weigh-in", told.kept, false),
        row("Weighed after", scales, false),
        row("Reckoned before", told.reconstructed.filter(|_| told.foretold.is_none()), false),
        row("Scales less ledger", told.residual, true),
    ]
    .into_iter()
    .flatten()
    .collect()
}

/// "253 kg ± 4", "+12 kg ± 3".
pub fn with_u(m: Measured, signed: bool, units: &UnitChoice) -> String {
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
    let mut blocks = vec![Block::Heading("Load cases".into())];
    // A page holds the names of four.
    for cases in answer.cases.chunks(4) {
        blocks.push(weights(cases, units));
        for side in Side::BOTH {
            blocks.extend(axle(answer, cases, side, units));
        }
    }
    blocks
}

fn name(case: &CaseAnswer) -> String {
    if case.sized && case.index.is_some() { format!("{} (sized on)", case.name) } else { case.name.clone() }
}

/// A table with a column for every case.
fn side_by_side<T>(what: &str, found: &[(String, &T)], rows: &[(&str, Cell<T>)], units: &UnitChoice) -> Block {
    let head = std::iter::once(what.to_owned()).chain(found.iter().map(|f| f.0.clone())).collect();
    let cells = |(words, cell): &(&str, Cell<T>)| {
        std::iter::once((*words).to_owned()).chain(found.iter().map(|f| cell(f.1, units))).collect()
    };
    Block::Table { head, rows: rows.iter().map(cells).collect() }
}

/// The text of one cell.
type Cell<T> = fn(&T, &UnitChoice) -> String;

fn number(ratio: Option<Ratio>) -> String {
    or_unknown(ratio, |r| format!("{:.2}", r.si()))
}

const OF_CASE: [(&str, Cell<CaseAnswer>); 5] = [
    ("Front axle", |c, units| or_unknown(c.on_scales[0], |m| display::rounded(m, units))),
    ("Rear axle", |c, units| or_unknown(c.on_scales[1], |m| display::rounded(m, units))),
    ("Worst rating", |c, _| or_unknown(c.worst(), |r| format!("{:.0} % of {}", r.share.si() * 100.0, r.part.words()))),
    ("Rear ÷ front frequency, on springs", |c, _| number(c.rear_over_front.new.or(c.rear_over_front.old))),
    ("Lamps' beam, at their distance", |c, units| or_unknown(c.beam.new.or(c.beam.old), |b| beam(b, units))),
];

const OF_CORNER: [(&str, Cell<CaseStanding>); 6] = [
    ("Height at the wheel", |s, units| short_height(s.rise, units).replace("as before", "unchanged")),
    ("Bounces per second, on springs", |s, units| display::rounded(s.frequency, units)),
    ("Room to the bump stop", |s, units| match s.stop_room {
        Some(_) if s.on_stop => "stop touched".to_owned(),
        room => or_unknown(room, |r| display::rounded(r, units)),
    }),
    ("Reserve before the stop", |s, _| or_unknown(s.reserve, |r| format!("{:.2} g", r.si()))),
    ("Damping ratio, old damper", |s, _| number(s.old_damper_ratio)),
    ("Damping ratio, new damper in the middle", |s, _| number(s.new_damper_ratio)),
];

const BY_AIR: [(&str, Cell<CaseStanding>); 2] = [
    ("Bag pressure that levels it", |s, units| {
        s.level.map_or("none needed".to_owned(), |l| display::rounded(l.pressure, units))
    }),
    ("Bounces per second with it", |s, units| {
        s.level.map_or("as above".to_owned(), |l| display::rounded(l.frequency, units))
    }),
];

fn weights(cases: &[CaseAnswer], units: &UnitChoice) -> Block {
    let found: Vec<(String, &CaseAnswer)> = cases.iter().map(|c| (name(c), c)).collect();
    side_by_side("Load case", &found, &OF_CASE, units)
}

/// "23 mm up".
pub fn beam(shift: Length, units: &UnitChoice) -> String {
    let text = display::rounded(Length::from_si(shift.si().abs()), units);
    if text.starts_with("0 ") {
        return "unchanged".to_owned();
    }
    format!("{text} {}", if shift.si() > 0.0 { "up" } else { "down" })
}

/// One axle in every case, on the springs that will be fitted.
fn axle(answer: &Answer, cases: &[CaseAnswer], side: Side, units: &UnitChoice) -> Option<Block> {
    let i = side as usize;
    let state = if answer.axle(side).standing.new.is_some() { State::NewSprings } else { State::OldSprings };
    let found: Vec<(String, &CaseStanding)> =
        cases.iter().filter_map(|c| Some((name(c), c.standing[i].of(state).as_ref()?))).collect();
    let mut rows = OF_CORNER.to_vec();
    if found.iter().any(|f| f.1.level.is_some()) {
        rows.extend(BY_AIR);
    }
    let what = format!("{} axle {}", side.word(), state.words());
    (!found.is_empty()).then(|| side_by_side(&what, &found, &rows, units))
}
