//! Tables of the ledger of parts, of load cases and of ratings.

use super::Block;
use super::sentence::short_height;
use crate::job::Side;
use crate::solve::answer::{Answer, CaseAnswer, CaseStanding, Measured, State};
use crate::units::{Length, Mass, Quantity, Ratio, UnitChoice, display};

/// What the ledger says, axle by axle; nothing without parts.
pub fn ledger(answer: &Answer, units: &UnitChoice) -> Vec<Block> {
    let Some(ledger) = &answer.ledger else { return Vec::new() };
    let one = |m: Measured, signed: bool| {
        let text = display::rounded(Mass::from_si(m.value), units);
        let sign = if signed && m.value > 0.0 { "+" } else { "" };
        let u = if m.u > 0.0 {
            format!(" ± {}", display::rounded_number(m.u, units.unit(crate::units::Dim::Mass)))
        } else {
            String::new()
        };
        format!("{sign}{text}{u}")
    };
    let row = |what: &str, found: Option<[Measured; 2]>, signed: bool| {
        let [front, rear] = found?;
        let total = Measured { value: front.value + rear.value, u: front.u.hypot(rear.u) };
        Some(vec![what.to_owned(), one(front, signed), one(rear, signed), one(Measured { u: 0.0, ..total }, signed)])
    };
    let scales = |weighed: [Option<Mass>; 2]| {
        let [front, rear] = weighed.map(|m| m.map(|m| Measured { value: m.si(), u: 0.0 }));
        Some([front?, rear?])
    };
    let rows: Vec<Vec<String>> = [
        row("The parts change it by", Some(ledger.change), true),
        row("Foretold after", ledger.foretold, false),
        row("Foretold before the weigh-in", ledger.kept, false),
        row("Weighed after", scales([answer.after.front, answer.after.rear]), false),
        row("Reckoned before", ledger.reconstructed.filter(|_| ledger.foretold.is_none()), false),
        row("Scales less ledger", ledger.residual, true),
    ]
    .into_iter()
    .flatten()
    .collect();
    let head = ["Parts out and in", "front axle", "rear axle", "together"].map(str::to_owned).to_vec();
    vec![Block::Heading("Parts out and in".into()), Block::Table { head, rows }]
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

fn or_unknown<T>(value: Option<T>, text: impl Fn(T) -> String) -> String {
    value.map_or_else(|| "not known".to_owned(), text)
}

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
