//! Findings about rows of tables: one that is off, one that is half filled in, columns that are swapped.

use crate::base::language::Word;
use crate::base::units::{Force, Length, Quantity};
use crate::job::read::Read;
use crate::job::{LeafBy, Level, Mend, RatioBy, Side, SpringKind, Walk as _};
use crate::message;
use crate::solve::answer::{Answer, AxleAnswer};
use crate::solve::findings::Say;
use crate::trade::wheel::Rows;

/// Rebound over bump of usual dampers; common practice, no source. A curve is swapped when it is so upside down.
const REBOUND_OVER_BUMP: std::ops::RangeInclusive<f64> = 1.5..=4.0;

impl Say<'_> {
    /// A row of a motion ratio that does not fit the others.
    pub(in crate::solve::findings) fn rows(&mut self, axle: &AxleAnswer, answer: &Answer) {
        let checked = answer.checked(axle.side);
        for (part, rows) in [("ratio", &checked.ratio_rows), ("damper_ratio", &checked.damper_rows)] {
            if let Some(Rows { off: Some((row, by)), typed_at, .. }) = rows {
                self.odd_row(axle, part, row.map(|i| typed_at[i]), *by);
            }
        }
    }

    fn odd_row(&mut self, axle: &AxleAnswer, part: &str, row: Option<usize>, by: Length) {
        let (who, key) = (axle.side.word(), axle.side.key());
        let by = self.length(Length::from_si(by.si().abs()));
        let rows = match part {
            "ratio" => message!("{who}, spring rows", who),
            _ => message!("{who}, damper rows", who),
        };
        match row {
            Some(row) => {
                let text = message!(
                    "{rows}: row {row} is {by} off the curve through the other rows. Measure it again.",
                    rows,
                    by,
                    row = row + 1
                );
                self.push(Level::Doubt, "row-off", format!("{key}.{part}.rows[{row}].length"), text);
            }
            None => {
                let text = message!(
                    "{rows}: the values are up to {by} off any smooth curve. Measure them again, with one extra row to show which is wrong.",
                    rows,
                    by
                );
                self.push(Level::Doubt, "rows-off", format!("{key}.{part}.rows[0].length"), text);
            }
        }
    }

    /// Rows that are half filled in: nothing in their table can be used until they are whole or gone.
    pub(in crate::solve::findings) fn half_rows(&mut self, axle: &AxleAnswer) {
        let data = self.job().axle(axle.side);
        let used = |list: &str| match list {
            "ratio.rows" => data.ratio.by == RatioBy::Rows && axle.kind != SpringKind::TorsionBar,
            "damper_ratio.rows" => data.damper_ratio.by == RatioBy::Rows,
            "spring.points" => axle.kind == SpringKind::Progressive,
            "spring.leaf.rows" => axle.kind == SpringKind::Leaf && data.spring.leaf.by == LeafBy::Test,
            _ => true,
        };
        // A height while unloading may be missing: it is only needed for the friction.
        let mut cells: Vec<(String, bool)> = Vec::new();
        self.texts().axle(axle.side).walk(&mut String::new(), &mut |path, entry| {
            if path.contains('[') && ![".unloading", ".click"].iter().any(|end| path.ends_with(end)) {
                cells.push((path.to_owned(), entry.text().trim().is_empty()));
            }
        });
        for (path, blank) in &cells {
            let (Some((row, _)), Some((list, _))) = (path.rsplit_once('.'), path.split_once('[')) else { continue };
            let in_row = |p: &str| p.strip_prefix(row).is_some_and(|cell| cell.starts_with('.'));
            let whole_row_blank = cells.iter().filter(|(p, _)| in_row(p)).all(|(_, b)| *b);
            // A damper's row may tell one direction only.
            let other = match path.rsplit_once('.') {
                Some((row, "bump")) => Some(format!("{row}.rebound")),
                Some((row, "rebound")) => Some(format!("{row}.bump")),
                _ => None,
            };
            let other_is_there = other.is_some_and(|other| cells.iter().any(|(p, blank)| *p == other && !blank));
            if *blank && !whole_row_blank && !other_is_there && used(list) {
                let field = format!("{}.{path}", axle.side.key());
                let label = crate::job::fields::full_label(&field);
                let text = message!(
                    "{label}: missing in a row that is only partly filled. Enter it, or remove the row.",
                    label
                );
                let typed = cells.iter().filter(|(p, blank)| in_row(p) && !blank);
                let clear = typed.fold(Mend::new(Word("Clear this row")), |mend, (cell, _)| {
                    mend.set(format!("{}.{cell}", axle.side.key()), "")
                });
                self.push_with(Level::Error, "row-incomplete", field, text, [clear]);
            }
        }
    }

    /// Damper rows whose forces in bump and rebound are the other way round.
    pub(in crate::solve::findings) fn damper_columns(&mut self, side: Side) {
        let data = self.job().axle(side);
        let forces = |bump: &Read<Force>, rebound: &Read<Force>| {
            Some([self.reading.typed(bump)?.si(), self.reading.typed(rebound)?.si()])
        };
        let old: Vec<_> = data.damper.rows.iter().map(|r| forces(&r.bump, &r.rebound)).collect();
        let new: Vec<_> = data.new_damper.rows.iter().map(|r| forces(&r.bump, &r.rebound)).collect();
        for (list, rows) in [("damper", old), ("new_damper", new)] {
            let [bump, rebound] = rows.iter().flatten().fold([0.0; 2], |sum, row| [sum[0] + row[0], sum[1] + row[1]]);
            if !(rebound > 0.0 && REBOUND_OVER_BUMP.contains(&(bump / rebound))) {
                continue;
            }
            let at = format!("{}.{list}", side.key());
            let text = message!(
                "{label}: bump is {ratio:.1} × rebound; usually rebound is 1.5 to 3 × bump. Check whether the two columns are swapped.",
                label = crate::job::fields::full_label(&format!("{at}.rows[0].bump")),
                ratio = bump / rebound
            );
            let swapped = (0..rows.len()).filter_map(|i| {
                let [bump, rebound] = ["bump", "rebound"].map(|force| format!("{at}.rows[{i}].{force}"));
                self.texts().swap("", &bump, &rebound).map(|m| m.edits)
            });
            let mend = Mend { label: message!("Swap bump and rebound"), edits: swapped.flatten().collect() };
            self.push_with(Level::Doubt, "damper-columns", format!("{at}.rows[0].bump"), text, [mend]);
        }
    }
}
