//! Blocks of a report as strips.

use super::setting::Type;
use super::shapes::{self, round};
use super::strips::{Strip, Stripper, THIN, base, line_height, path, text_items};
use super::{PT_PER_MM, Part, Spot};
use crate::report::Block;
use crate::report::pictures::drawing::Drawing;

impl Stripper<'_, '_> {
    pub fn title(&mut self, title: &str) {
        let style = self.measure.title();
        self.paragraph(title, style, 0.0, Part::Title, true);
        self.gap(0.5 * self.measure.gap(), true);
    }

    pub fn block(&mut self, at: usize, block: &Block) {
        let whole = Part::Block(at, Spot::Whole);
        match block {
            Block::Heading(text) => {
                self.gap(0.8 * self.measure.gap(), false);
                self.paragraph(text, self.measure.heading(), 0.0, whole, true);
                self.gap(0.5 * self.measure.gap(), true);
                return;
            }
            Block::Text(text) => self.paragraph(text, self.measure.body(), 0.0, whole, false),
            Block::Caution(text) => self.caution(text, whole),
            Block::List(entries) => self.list(at, entries),
            Block::Steps(steps) => self.steps(at, steps),
            Block::Table { head, rows } => self.table(at, head, rows),
            Block::Drawing(drawing) => self.drawing(drawing, whole),
            Block::Blanks(lines) => {
                self.glue_back(0.0);
                self.blanks(at, lines);
            }
        }
        self.gap(self.measure.gap(), false);
    }

    /// The last lines of a report are not left alone on a page.
    pub fn end(&mut self) {
        const LEAST_LINES: f32 = 9.0;
        // The gap behind the last block is glued to nothing.
        while self.strips.pop_if(|strip| strip.is_gap).is_some() {}
        let Some(last) = self.strips.pop() else { return };
        self.glue_back(LEAST_LINES * self.measure.type_pt);
        self.strips.push(last);
    }

    /// Lines of text, from `left` to the right edge. Neither its first nor its last line is alone on a page.
    pub fn paragraph(&mut self, text: &str, style: Type, left: f32, part: Part, is_glued: bool) {
        let lines = self.setter.lines(text, style, self.width - left);
        let (count, high) = (lines.len(), line_height(style, self.measure));
        for (i, line) in lines.into_iter().enumerate() {
            let glued = if i + 1 == count { is_glued } else { i == 0 || i + 2 == count || (is_glued && count <= 8) };
            let items = text_items(line, left, base(style, high), part);
            self.strips.push(Strip { height: high, items, is_glued: glued, ..Strip::default() });
        }
    }

    /// A box with a heavy bar at its left, and bold type.
    fn caution(&mut self, text: &str, part: Part) {
        const BAR: f32 = 5.5;
        let pad = 0.5 * self.measure.type_pt * (0.6 + 0.4 * self.measure.spacing);
        let style = self.measure.strong();
        let left = BAR + 1.2 * pad;
        let lines = self.setter.lines(text, style, self.width - left - pad);
        let (count, high) = (lines.len(), line_height(style, self.measure));
        for (i, line) in lines.into_iter().enumerate() {
            let (first, last) = (i == 0, i + 1 == count);
            let above = if first { pad } else { 0.0 };
            let height = high + above + if last { pad } else { 0.0 };
            let inset = 0.5 * THIN.width_pt;
            let right = self.width - inset;
            let rule = |through: Vec<[f32; 2]>| path(through, false, None, Some(THIN));
            let bar = vec![[0.0, 0.0], [BAR, 0.0], [BAR, height], [0.0, height]];
            let mut items = vec![path(bar, true, Some(0.0), None), rule(vec![[right, 0.0], [right, height]])];
            if first {
                items.push(rule(vec![[0.0, inset], [right, inset]]));
            }
            if last {
                items.push(rule(vec![[0.0, height - inset], [right, height - inset]]));
            }
            items.extend(text_items(line, left, above + base(style, high), part));
            self.strips.push(Strip { height, items, is_glued: !last && (count <= 12 || first), ..Strip::default() });
        }
    }

    fn list(&mut self, at: usize, entries: &[String]) {
        let (style, left) = (self.measure.body(), 1.3 * self.measure.type_pt);
        for (i, entry) in entries.iter().enumerate() {
            let first = self.strips.len();
            self.paragraph(entry, style, left, Part::Block(at, Spot::Entry(i)), false);
            if let Some(strip) = self.strips.get_mut(first) {
                let (high, radius) = (strip.height, 0.13 * style.size_pt);
                let centre = [0.45 * left, base(style, high) - 0.32 * style.size_pt];
                strip.items.insert(0, path(round(centre, radius), true, Some(0.0), None));
            }
            if i + 1 < entries.len() {
                self.gap(0.35 * self.measure.gap(), false);
            }
        }
    }

    /// Numbered steps, the numbers right-aligned in front of them.
    fn steps(&mut self, at: usize, steps: &[String]) {
        let (style, left) = (self.measure.body(), 2.1 * self.measure.type_pt);
        for (i, step) in steps.iter().enumerate() {
            let (first, part) = (self.strips.len(), Part::Block(at, Spot::Entry(i)));
            self.paragraph(step, style, left, part, false);
            let number = self.setter.lines(&format!("{}.", i + 1), style, left).into_iter().next();
            if let Some((strip, number)) = self.strips.get_mut(first).zip(number) {
                let right = left - 0.5 * style.size_pt;
                let base = base(style, line_height(style, self.measure));
                let items = text_items(number.clone(), right - number.width_pt, base, part);
                strip.items.splice(0..0, items);
            }
            if i + 1 < steps.len() {
                self.gap(0.35 * self.measure.gap(), false);
            }
        }
    }

    /// Keeps a text whose strips begin here on one page with what follows: a short one whole, of a long one its end.
    pub fn keep_with_next(&mut self, first: usize) {
        const SHORT: usize = 8;
        let lines = self.strips[first..].iter().filter(|strip| !strip.is_gap).count();
        match lines <= SHORT {
            true => self.strips[first..].iter_mut().for_each(|strip| strip.is_glued = true),
            false => self.glue_back(0.0),
        }
    }

    /// In its own size if the page is wide enough, else as wide as the page; in the middle.
    fn drawing(&mut self, drawing: &Drawing, part: Part) {
        let size = [drawing.width_mm, drawing.height_mm].map(|mm| (mm * PT_PER_MM).max(1.0));
        let scale = (self.width / size[0]).min(self.height / size[1]).min(1.0);
        let left = 0.5 * (self.width - scale * size[0]);
        let items = shapes::items(drawing, scale, [left, 0.0], part, self.setter);
        self.strips.push(Strip { height: scale * size[1], items, ..Strip::default() });
    }

    /// Ruled lines to write on, each behind its words; short ones two in a row. They stay on one page, with what is
    /// above them.
    fn blanks(&mut self, at: usize, lines: &[String]) {
        let (style, gap) = (self.measure.body(), 1.4 * self.measure.type_pt);
        let widest = lines.iter().map(|l| self.setter.width(l, style)).fold(0.0, f32::max);
        let share = |columns: usize| (self.width + gap) / columns as f32 - gap;
        // Beside each other as long as more than the words is left to write on.
        let columns = (2..=lines.len().min(3)).rev().find(|n| widest < 0.55 * share(*n)).unwrap_or(1);
        let room = share(columns);
        let last = lines.len().div_ceil(columns).saturating_sub(1);
        for (i, pair) in lines.chunks(columns).enumerate() {
            let mut strip = Strip { is_glued: i < last, ..Strip::default() };
            let high = line_height(style, self.measure);
            let above = (0.9 * self.measure.spacing + 0.35) * self.measure.type_pt;
            for (c, words) in pair.iter().enumerate() {
                let left = c as f32 * (room + gap);
                let part = Part::Block(at, Spot::Entry(i * columns + c));
                let set = self.setter.lines(words, style, 0.6 * room);
                let wide = set.iter().map(|l| l.width_pt).fold(0.0, f32::max);
                let mut y = above;
                for line in set {
                    strip.items.extend(text_items(line, left, y + base(style, high), part));
                    y += high;
                }
                let under = y - high + base(style, high) + 1.5;
                let rule = vec![[left + wide + 4.0, under], [left + room, under]];
                strip.items.push(path(rule, false, None, Some(THIN)));
                strip.height = strip.height.max(y);
            }
            self.strips.push(strip);
        }
    }
}
