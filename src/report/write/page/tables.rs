//! Tables: column widths by content, wrapped cells, a head that is repeated on the next page.

use super::setting::{Line, Type};
use super::strips::{Columns, HAIR, Shared, Strip, Stripper, THIN, base, line_height, path, text_items};
use super::{Part, Spot};
use crate::report::{Block, decimal, is_unknown};

/// A table up to this share of a page is not parted.
const UNBROKEN: f32 = 0.25;

impl Stripper<'_, '_> {
    pub(super) fn table(&mut self, at: usize, head: &[String], rows: &[Vec<String>]) {
        if head.is_empty() {
            return;
        }
        let columns = self.columns(head, rows);
        let strong = self.measure.strong();
        let mut strips = self.row((at, 0), head, &columns, strong, true);
        self.heads.push(strips.clone());
        let head_at = self.heads.len() - 1;
        strips.iter_mut().for_each(|s| s.is_glued = true);
        self.strips.append(&mut strips);
        let style = self.measure.body();
        let first = self.strips.len();
        for (i, cells) in rows.iter().enumerate() {
            let mut strips = self.row((at, i + 1), cells, &columns, style, false);
            // Neither the first nor the last row stands alone.
            let last = strips.len() - 1;
            strips[last].is_glued = rows.len() > 2 && (i == 0 || i + 2 == rows.len());
            strips.iter_mut().for_each(|s| s.head = Some(head_at));
            self.strips.append(&mut strips);
        }
        let rows = &mut self.strips[first..];
        if rows.iter().map(|strip| strip.height).sum::<f32>() <= UNBROKEN * self.height {
            let last = rows.len().saturating_sub(1);
            rows[..last].iter_mut().for_each(|strip| strip.is_glued = true);
        }
    }

    /// One row: a strip for each line of its highest cell, kept together unless it is very high.
    fn row(
        &mut self,
        (block, row): (usize, usize),
        cells: &[String],
        columns: &Columns,
        style: Type,
        is_head: bool,
    ) -> Vec<Strip> {
        const KEPT_TOGETHER: usize = 16;
        let high = line_height(style, self.measure);
        let pad = 0.16 * self.measure.type_pt * self.measure.spacing + 0.4;
        let mut set: Vec<std::vec::IntoIter<Line>> = columns
            .width
            .iter()
            .zip(cells.iter().map(String::as_str).chain(std::iter::repeat("")))
            .map(|(width, cell)| self.setter.lines(cell, style, *width).into_iter())
            .collect();
        let count = set.iter().map(ExactSizeIterator::len).max().unwrap_or(1);
        let mut strips = Vec::with_capacity(count);
        for n in 0..count {
            let (above, below) = (if n == 0 { pad } else { 0.0 }, if n + 1 == count { pad } else { 0.0 });
            let mut strip = Strip { height: high + above + below, is_glued: n + 1 < count, ..Strip::default() };
            if count > KEPT_TOGETHER && n > 0 {
                strip.is_glued = false;
            }
            for (c, lines) in set.iter_mut().enumerate() {
                let Some(line) = lines.next() else { continue };
                let off = if is_head { 0.0 } else { columns.off[c].get(row - 1).copied().unwrap_or(0.0) };
                let spare = if columns.is_number[c] { (columns.width[c] - off - line.width_pt).max(0.0) } else { 0.0 };
                let part = Part::Block(block, Spot::Cell(row, c));
                strip.items.extend(text_items(line, columns.left[c] + spare, above + base(style, high), part));
            }
            if n + 1 == count {
                let y = strip.height - 0.2;
                let pen = if is_head { THIN } else { HAIR };
                strip.items.push(path(vec![[0.0, y], [self.width, y]], false, None, Some(pen)));
            }
            strips.push(strip);
        }
        strips
    }

    /// The columns of the next table: those of all tables of the report with the same columns, so that their values stand
    /// below one another.
    fn columns(&mut self, head: &[String], rows: &[Vec<String>]) -> Columns {
        if head.len() <= 2 {
            return self.fitted_to(&[head], rows);
        }
        let names = &head[1..];
        let at = self.shared.iter().position(|shared| shared.names == names).unwrap_or_else(|| {
            let alike = self.blocks.iter().filter_map(|block| match block {
                Block::Table { head, rows } if head.get(1..) == Some(names) => Some((head.as_slice(), rows.as_slice())),
                _ => None,
            });
            let (heads, rows): (Vec<_>, Vec<_>) = alike.unzip();
            let columns = self.fitted_to(&heads, &rows.concat());
            self.shared.push(Shared { names: names.to_vec(), columns, used: 0 });
            self.shared.len() - 1
        });
        let Shared { columns, used, .. } = &mut self.shared[at];
        let own = *used..*used + rows.len();
        *used = own.end;
        let off = columns.off.iter().map(|off| off.get(own.clone()).map_or_else(Vec::new, <[f32]>::to_vec));
        Columns { off: off.collect(), ..columns.clone() }
    }

    /// The widths: as wide as the content asks if there is room, else narrower in the measure of what can be wrapped.
    fn fitted_to(&mut self, heads: &[&[String]], rows: &[Vec<String>]) -> Columns {
        let count = heads.first().map_or(0, |head| head.len());
        let gap = (1.3 * self.measure.type_pt).min(0.3 * self.width / count as f32);
        let room = self.width - gap * (count - 1) as f32;
        let (mut least, mut wanted) = (vec![0.0_f32; count], vec![0.0_f32; count]);
        let styles = heads.iter().map(|head| (*head, self.measure.strong()));
        for (cells, style) in styles.chain(rows.iter().map(|r| (r.as_slice(), self.measure.body()))) {
            for (c, cell) in cells.iter().take(count).enumerate() {
                least[c] = least[c].max(self.setter.widest_word(cell, style));
                let cell = self.setter.clean(cell);
                wanted[c] = wanted[c].max(self.setter.width(&cell, style) + 1.0);
            }
        }
        let is_number: Vec<bool> = (0..count).map(|c| c > 0 && count > 2 && holds_numbers(rows, c)).collect();
        let off: Vec<Vec<f32>> =
            (0..count).map(|c| if is_number[c] { self.off_the_edge(rows, c) } else { Vec::new() }).collect();
        for (c, off) in off.iter().enumerate() {
            for (row, off) in rows.iter().zip(off) {
                let cell = self.setter.clean(row.get(c).map_or("", String::as_str));
                wanted[c] = wanted[c].max(self.setter.width(&cell, self.measure.body()) + off + 1.0);
            }
        }
        // A word without end does not take the room of the other columns.
        least.iter_mut().for_each(|l| *l = l.min(0.4 * room));
        // A number is not parted from its ± and unit while words can make room.
        let whole: Vec<f32> = (0..count)
            .map(|c| if is_number[c] { self.widest_number(rows, c).max(least[c]) } else { least[c] })
            .collect();
        let least = if whole.iter().sum::<f32>() <= room { whole } else { least };
        let width = fitted(&least, &wanted, room);
        let mut left = Vec::with_capacity(count);
        let mut x = 0.0;
        for w in &width {
            left.push(x);
            x += w + gap;
        }
        // Where a column is narrower than that, its cells stand at the edge.
        let off = off.into_iter().zip(wanted.iter().zip(&width));
        let off = off.map(|(off, (wanted, width))| if width < wanted { Vec::new() } else { off }).collect();
        Columns { left, width, is_number, off }
    }
}

impl Stripper<'_, '_> {
    fn off_the_edge<'a>(&mut self, rows: &'a [Vec<String>], column: usize) -> Vec<f32> {
        let cell = |row: &'a [String], at: usize| row.get(at).map_or("", String::as_str);
        let cells: Vec<(&str, &str)> = rows.iter().map(|row| (cell(row, 0), cell(row, column))).collect();
        let style = self.measure.body();
        decimal::off_the_edge(&cells, |_, text| self.setter.width(text, style))
    }

    fn widest_number(&mut self, rows: &[Vec<String>], column: usize) -> f32 {
        let style = self.measure.body();
        let cells = rows.iter().filter_map(|r| r.get(column)).filter(|c| begins_like_a_number(c));
        cells.map(|c| self.setter.width(c, style) + 1.0).fold(0.0, f32::max)
    }
}

/// Most filled cells begin like a number.
fn holds_numbers(rows: &[Vec<String>], column: usize) -> bool {
    let filled = rows.iter().filter_map(|r| r.get(column)).filter(|c| !c.trim().is_empty());
    let (mut all, mut numbers) = (0, 0);
    for cell in filled {
        all += 1;
        numbers += usize::from(begins_like_a_number(cell) || is_unknown(cell));
    }
    2 * numbers >= all
}

/// A number, or room to write one.
fn begins_like_a_number(cell: &str) -> bool {
    cell.trim_start()
        .starts_with(|c: char| c.is_ascii_digit() || matches!(c, '+' | '-' | '−' | '±' | '<' | '>' | '×' | '_'))
}

/// Widths of columns that fill the room, at least as wide as their widest words where that can be.
fn fitted(least: &[f32], wanted: &[f32], room: f32) -> Vec<f32> {
    let (sum_least, sum_wanted): (f32, f32) = (least.iter().sum(), wanted.iter().sum());
    if sum_wanted <= room {
        let spare = room - sum_wanted;
        // Two columns are words and their value, side by side; of more, the numbers share what is left.
        if wanted.len() <= 2 {
            let first = wanted[0].max(0.42 * room).min(room - wanted.iter().skip(1).sum::<f32>());
            return [first, room - first].into_iter().take(wanted.len()).collect();
        }
        let others = (wanted.len() - 1) as f32;
        return wanted
            .iter()
            .enumerate()
            .map(|(c, w)| if c == 0 { w + 0.25 * spare } else { w + 0.75 * spare / others })
            .collect();
    }
    if sum_least < room {
        let share = (room - sum_least) / (sum_wanted - sum_least);
        return least.iter().zip(wanted).map(|(l, w)| l + share * (w - l)).collect();
    }
    // Not even the widest words fit: every column gets its even share, and what it does not need goes to the others.
    let even = room / least.len() as f32;
    let need: f32 = least.iter().map(|l| (l - even).max(0.0)).sum();
    let spare: f32 = least.iter().map(|l| (even - l).max(0.0)).sum();
    least.iter().map(|l| if *l <= even { *l } else { even + spare * (l - even) / need }).collect()
}
