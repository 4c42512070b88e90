//! What the money buys: remedies side by side, per load case, with their price.

use super::loads::reserve;
use super::road::hits_label;
use super::sentence::short_height_with_u;
use super::{Block, UOf, or_unknown, with_u};
use crate::job::Side;
use crate::language::{inside, tr};
use crate::say;
use crate::solve::answer::{Answer, OfVehicle, OptionStanding, Remedy};
use crate::units::{Quantity, UnitChoice, display};

/// The text of one cell.
type Cell = fn(&OptionStanding, &UOf<'_, OptionStanding>, &UnitChoice) -> String;

const ROWS: [(&str, Cell); 5] = [
    ("Height at the wheel, against before", |s, u, units| {
        let u = u(|s| s.above_before.map(Quantity::si));
        or_unknown(s.above_before, |rise| short_height_with_u(rise, u, units))
    }),
    ("Ride frequency, on springs", |s, u, units| with_u(Some(s.frequency), u(|s| Some(s.frequency.si())), units)),
    ("Room to the bump stop", |s, u, units| match s.stop_room {
        Some(_) if s.on_stop => tr("stop touched").to_owned(),
        room => with_u(room, u(|s| s.stop_room.map(Quantity::si)), units),
    }),
    ("Reserve before the stop", |s, u, _| reserve(s.reserve, u(|s| s.reserve.map(Quantity::si)))),
    ("Damping ratio", |s, u, _| {
        let u = u(|s| s.damping_ratio.map(Quantity::si));
        or_unknown(s.damping_ratio, |z| format!("{}{}", display::fixed(z.si(), 2), display::plus_minus(u, 2)))
    }),
];

/// Stop hits on the rough road, by the kilometre or the mile.
fn hits(s: &OptionStanding, u: &UOf<'_, OptionStanding>, units: &UnitChoice) -> String {
    super::road::hits_words(s.road.and_then(|r| r.hits_per_km), u(|s| s.road?.hits_per_km), units)
}

/// The remedies for one axle, a table for each load case; nothing when it keeps its springs.
pub fn remedies(answer: &Answer, side: Side, units: &UnitChoice, currency: &str) -> Vec<Block> {
    let remedies = &answer.remedies[side as usize];
    if remedies.len() < 2 {
        return Vec::new();
    }
    let mut blocks = vec![Block::Heading(say!("What the money buys: {axle}", axle = inside(side.axle())))];
    if answer.released(side).is_err() {
        blocks.push(Block::Caution(tr("Withheld: nothing here is a recommendation.").into()));
    }
    for (n, case) in answer.cases.iter().enumerate() {
        let what =
            if answer.cases.len() > 1 { format!("{}, {}", side.word(), case.name) } else { side.word().to_owned() };
        let head = std::iter::once(what)
            .chain(remedies.iter().map(|r| r.kind.words(answer.axle(side).kind).to_owned()))
            .collect();
        let row = |(words, cell): (&'static str, Cell)| {
            let one = |(i, r): (usize, &Remedy)| {
                let same = |v: &OfVehicle<'_>| v.remedies[side as usize].get(i)?.cases.get(n).copied().flatten();
                let u = |result: fn(&OptionStanding) -> Option<f64>| answer.u_of(|v| result(&same(v)?));
                or_unknown(r.cases.get(n).copied().flatten(), |s| cell(&s, &u, units))
            };
            std::iter::once(words.to_owned()).chain(remedies.iter().enumerate().map(one)).collect::<Vec<_>>()
        };
        let all = ROWS.into_iter().map(|(words, cell)| (tr(words), cell));
        let mut rows: Vec<Vec<String>> = all.chain([(hits_label(units), hits as Cell)]).map(row).collect();
        if n == 0 {
            let price = |r: &Remedy| {
                or_unknown(r.price, |p| format!("{} {currency}", display::fixed(p, 2)).trim_end().to_owned())
            };
            rows.push(std::iter::once(tr("Parts and work").to_owned()).chain(remedies.iter().map(price)).collect());
        }
        blocks.push(Block::Table { head, rows });
    }
    blocks
}
