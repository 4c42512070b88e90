//! Strips: pieces of a report that no page breaks, one below the other, and who makes them.

use super::setting::{Line, Setter, Type};
use super::{Item, Part, Pen, Placed};
use crate::report::Block;

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

    pub fn heading(self) -> Type {
        Type { size_pt: 1.2 * self.type_pt, bold: true }
    }

    pub fn title(self) -> Type {
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
    pub fn gap(&mut self, height: f32, is_glued: bool) {
        self.strips.push(Strip { height, is_glued, is_gap: true, ..Strip::default() });
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

/// Columns of all tables of a report that are called alike.
pub(super) struct Shared {
    /// What is above them, but for the first.
    pub names: Vec<String>,
    pub columns: Columns,
    /// Rows of those tables that are set already.
    pub used: usize,
}

/// Columns of a table.
#[derive(Clone)]
pub(super) struct Columns {
    pub left: Vec<f32>,
    pub width: Vec<f32>,
    pub is_number: Vec<bool>,
    /// How far each row's cell keeps from the right edge; nothing where it does not stand in one line.
    pub off: Vec<Vec<f32>>,
}
