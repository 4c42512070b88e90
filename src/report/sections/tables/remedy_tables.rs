//! What the money buys: remedies side by side, per load case, with their price.

use crate::base::language::{inside, tr};
use crate::base::units::UnitChoice;
use crate::job::Side;
use crate::report::Block;
use crate::report::results::{Column, Results, head};
use crate::report::{money, or_unknown};
use crate::say;
use crate::solve::answer::{Answer, Remedy};

const ROWS: [&str; 6] = ["above_before", "frequency", "stop_room", "reserve", "damping_ratio", "road.stop_hits_per_km"];

/// The remedies for one axle, a table for each load case; nothing when it keeps its springs.
pub fn remedies(answer: &Answer, results: &Results, side: Side, units: &UnitChoice, currency: &str) -> Vec<Block> {
    let remedies = &answer.remedies[side];
    if remedies.len() < 2 {
        return Vec::new();
    }
    let mut blocks = vec![Block::Heading(say!("Cost and effect: {axle}", axle = inside(side.axle().said())))];
    if answer.released(side).is_err() {
        blocks.push(Block::Caution(
            tr("The result for this axle is withheld: nothing in the tables below is a recommendation.").into(),
        ));
    }
    let words = |r: &Remedy| r.kind.words(answer.axle(side).kind).to_string();
    for (n, case) in answer.cases.iter().enumerate() {
        let what =
            if answer.cases.len() > 1 { format!("{}, {}", side.word(), case.name) } else { side.word().to_string() };
        let gap = |r: &Remedy| format!("{}.remedies.{}.{}", side.key(), r.kind.key(), case.key());
        let columns: Vec<Column> = remedies.iter().map(|r| (words(r), gap(r))).collect();
        let mut rows = results.rows(&ROWS, &columns, units);
        if n == 0 {
            let price = |r: &Remedy| or_unknown(r.price, |price| money(price, currency));
            rows.push(std::iter::once(tr("Parts and labour").to_owned()).chain(remedies.iter().map(price)).collect());
        }
        blocks.push(Block::Table { head: head(what, &columns), rows });
    }
    blocks
}
