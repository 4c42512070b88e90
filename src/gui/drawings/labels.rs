//! The words in pictures: next to what they name, clear of lines, marks and each other.

use eframe::egui::{Color32, Painter, Pos2, Rect, Ui, pos2};

use crate::gui::widgets::theme;
use crate::report::pictures::label_places::{Block, Corner, Places, Point, around};

/// Between words and what they do not touch.
pub(super) const GAP: f32 = 2.0;

/// Half the size of a mark.
pub(super) const MARK: f32 = 9.0;

/// A part of a picture in which words find their places.
pub(super) struct Board {
    pub(super) painter: Painter,
    pub(super) places: Places,
    back: Color32,
}

impl Board {
    /// Words stand inside `frame`, on ground of this colour.
    pub(super) fn new(ui: &Ui, frame: Rect, back: Color32) -> Self {
        Board { painter: ui.painter_at(frame), places: Places::new(block(frame.shrink(3.0)), GAP), back }
    }

    /// Puts words at the first of these corners where they touch nothing, on ground of their own.
    pub(super) fn put(&mut self, words: &str, color: Color32, corners: impl FnOnce(Point) -> Vec<Point>) -> Block {
        let size = self.painter.layout_no_wrap(words.to_owned(), theme::small(), color).size();
        let size = [size.x, size.y];
        let at = self.places.take(size, corners(size));
        on_ground(&self.painter, words, color, pos2(at.min[0], at.min[1]), self.back);
        at
    }

    /// A mark, or something of its size, that words keep off.
    pub(super) fn mark(&mut self, at: Pos2) {
        self.places.block(Block::around([at.x, at.y], MARK));
    }

    /// A straight line that words keep off.
    pub(super) fn line(&mut self, ends: [Pos2; 2]) {
        self.places.line(&ends.map(|at| [at.x, at.y]));
    }
}

/// Corners around a mark, first on this side of it.
pub(super) fn beside_mark(at: Pos2, size: Point, is_right: bool, is_above: bool) -> Vec<Point> {
    around([at.x, at.y], MARK + GAP, size, Corner { is_right, is_above })
}

fn block(rect: Rect) -> Block {
    Block { min: [rect.left(), rect.top()], max: [rect.right(), rect.bottom()] }
}

pub(super) fn on_ground(painter: &Painter, words: &str, color: Color32, corner: Pos2, back: Color32) {
    let galley = painter.layout_no_wrap(words.to_owned(), theme::small(), color);
    painter.rect_filled(Rect::from_min_size(corner, galley.size()), 2.0, back);
    painter.galley(corner, galley, color);
}
