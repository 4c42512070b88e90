//! How a parts list was read: what each column means, what was interpreted, and the rows that cannot be used.

use crate::base::language::tr;
use crate::report::Block;
use crate::report::Report;
use crate::say;
use crate::shop::parts::{Columns, List};

/// Number of bad rows listed one by one.
const BAD_TOLD: usize = 200;

/// The reading of a list as a report.
pub fn build(columns: &Columns, list: &List) -> Report {
    let rows = columns.columns.iter().map(|c| {
        let means = c.means.as_ref().map_or(tr("not used").to_owned(), |m| m.words().to_string());
        vec![c.header.clone(), means, c.unit.clone().unwrap_or_default()]
    });
    let mut blocks = vec![
        Block::Text(say!(
            "{rows} rows: {springs} springs, {dampers} dampers, {bad} that cannot be used.",
            rows = list.rows,
            springs = list.springs.len(),
            dampers = list.dampers.len(),
            bad = list.bad.len()
        )),
        Block::table([tr("Column"), tr("read as"), tr("unit")], rows.collect()),
    ];
    if !list.notes.is_empty() {
        blocks.push(Block::list(&list.notes));
    }
    let bad: Vec<Vec<String>> = list
        .bad
        .iter()
        .take(BAD_TOLD)
        .map(|b| vec![say!("line {line}", line = b.line), b.reason.to_string(), b.text.clone()])
        .collect();
    if !bad.is_empty() {
        blocks.push(Block::table([tr("Unusable line"), tr("reason"), tr("text of the line")], bad));
    }
    if list.bad.len() > BAD_TOLD {
        blocks.push(Block::Text(say!("… and {count} more.", count = list.bad.len() - BAD_TOLD)));
    }
    Report { title: tr("How a parts list is read").into(), blocks }
}
