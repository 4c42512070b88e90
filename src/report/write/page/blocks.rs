//! Blocks of a report as strips: pieces that no page breaks, one below the other.

use super::setting::{Line, Setter, Type};
use super::tables::Shared;
use super::{Item, PT_PER_MM, Part, Pen, Placed, Spot};
use crate::report::Block;
use crate::report::pictures::drawing::Drawing;

/// A piece that no page breaks; places from its own upper left corner, points.
#[derive(Debug, Clone, Default)]
pub(super) struct Strip {
    pub height: f32,
    pub items: Vec<Placed>,
    /// It stays on one page with the next.
    pub is_glued: bool,
    /// It is only distance: at the head of a page it is left out.
    pub is_gap: bool,
    /// The head of the table that it belongs to.
    pub head: Option<usize>,
}

/// How large and how far apart.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Measure {
    pub type_pt: f32,
    pub spacing: f32,
}

impl Measure {
    /// From comfortable to the smallest that is readable.
    pub const STEPS: [Measure; 9] = [
        Measure { type_pt: 10.0, spacing: 1.0 },
        Measure { type_pt: 9.75, spacing: 0.85 },
        Measure { type_pt: 9.5, spacing: 0.7 },
        Measure { type_pt: 9.25, spacing: 0.6 },
        Measure { type_pt: 9.0, spacing: 0.5 },
        Measure { type_pt: super::SMALLEST_PT, spacing: 0.4 },
        Measure { type_pt: super::SMALLEST_PT, spacing: 0.25 },
        Measure { type_pt: super::SMALLEST_PT, spacing: 0.08 },
        Measure { type_pt: super::SMALLEST_PT, spacing: 0.0 },
    ];

    pub fn body(self) -> Type {
        Type { size_pt: self.type_pt, bold: false }
    }

    pub fn strong(self) -> Type {
        Type { size_pt: self.type_pt, bold: true }
    }

    fn heading(self) -> Type {
        Type { size_pt: 1.2 * self.type_pt, bold: true }
    }

    fn title(self) -> Type {
        Type { size_pt: 1.6 * self.type_pt, bold: true }
    }

    /// Between blocks.
    pub fn gap(self) -> f32 {
        0.65 * self.type_pt * self.spacing
    }
}

/// Height of a line per height of the type: loose or, where room is short, tight.
pub(super) fn line_height(style: Type, measure: Measure) -> f32 {
    style.size_pt * (1.22 + 0.12 * measure.spacing)
}

/// The line that parts rows.
pub(super) const HAIR: Pen = Pen { width_pt: 0.4, grey: 0.62, dash: None };
pub(super) const THIN: Pen = Pen { width_pt: 0.75, grey: 0.0, dash: None };

/// Makes strips of a report.
pub(super) struct Stripper<'s, 'f> {
    pub setter: &'s mut Setter<'f>,
    pub measure: Measure,
    pub width: f32,
    /// Of the page that a strip may fill.
    pub height: f32,
    /// Of the whole report: tables of one kind share their columns.
    pub blocks: &'s [Block],
    pub shared: Vec<Shared>,
    pub strips: Vec<Strip>,
    /// Heads of tables.
    pub heads: Vec<Vec<Strip>>,
}

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

    pub fn gap(&mut self, height: f32, is_glued: bool) {
        self.strips.push(Strip { height, is_glued, is_gap: true, ..Strip::default() });
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

    /// Keeps what is set so far together with what follows: its last strip, and as many before it as make up this
    /// height in points.
    pub fn glue_back(&mut self, least_pt: f32) {
        let mut kept_pt = 0.0;
        for strip in self.strips.iter_mut().rev() {
            strip.is_glued = true;
            if !strip.is_gap {
                kept_pt += strip.height;
                if kept_pt > least_pt {
                    return;
                }
            }
        }
    }

    /// In its own size if the page is wide enough, else as wide as the page; in the middle.
    fn drawing(&mut self, drawing: &Drawing, part: Part) {
        let size = [drawing.width_mm, drawing.height_mm].map(|mm| (mm * PT_PER_MM).max(1.0));
        let scale = (self.width / size[0]).min(self.height / size[1]).min(1.0);
        let left = 0.5 * (self.width - scale * size[0]);
        let items = super::shapes::items(drawing, scale, [left, 0.0], part, self.setter);
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

/// Position of the base line in a line of that height.
pub(super) fn base(style: Type, line_height: f32) -> f32 {
    // Noto Sans: 1.069 above and 0.293 below the base line, per height of the type (its table hhea).
    0.5 * (line_height - 1.362 * style.size_pt) + 1.069 * style.size_pt
}

pub(super) fn text_items(line: Line, left: f32, base: f32, part: Part) -> Vec<Placed> {
    let placed = |(x, run)| Placed { item: Item::Text { at: [left + x, base], run }, part };
    line.runs.into_iter().map(placed).collect()
}

pub(super) fn path(through: Vec<[f32; 2]>, is_closed: bool, fill: Option<f32>, pen: Option<Pen>) -> Placed {
    Placed { item: Item::Path { through, is_closed, fill, pen }, part: Part::Rule }
}

/// A circle through enough points.
pub(super) fn round(centre: [f32; 2], radius: f32) -> Vec<[f32; 2]> {
    const POINTS: usize = 40;
    let at = |i: usize| std::f32::consts::TAU * i as f32 / POINTS as f32;
    (0..POINTS).map(|i| [centre[0] + radius * at(i).cos(), centre[1] + radius * at(i).sin()]).collect()
}
