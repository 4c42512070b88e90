//! The words in pictures: next to what they name, clear of lines, marks and each other.

use std::sync::Arc;

use eframe::egui::{Color32, Id, Painter, Pos2, Rect, Stroke, Ui, pos2};
use egui_plot::{PlotPoint, PlotTransform};

use super::plots::{Look, arrows};
use crate::gui::widgets::theme;
use crate::report::pictures::label_places::{Block, Corner, Places, Point, around};
use crate::report::pictures::picture::Picture;
use crate::report::pictures::wording::{self, Placed, Sizes, Surface};

/// Between words and what they do not touch.
const GAP: f32 = 2.0;
/// Half the size of a mark, and of a tick or a dot.
const MARK: f32 = 9.0;
const SMALL: f32 = 5.0;

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

fn on_ground(painter: &Painter, words: &str, color: Color32, corner: Pos2, back: Color32) {
    let galley = painter.layout_no_wrap(words.to_owned(), theme::small(), color);
    painter.rect_filled(Rect::from_min_size(corner, galley.size()), 2.0, back);
    painter.galley(corner, galley, color);
}

/// Draws arrows and words over a plot that was drawn.
pub(super) fn draw(ui: &Ui, id: &str, picture: &Picture, look: &Look, transform: &PlotTransform) {
    let painter = ui.painter_at(*transform.frame());
    let plot = Plotted { painter: &painter, look, transform };
    let corner = transform.frame().left_top();
    let on_screen = |[x, y]: Point| pos2(x, y) + corner.to_vec2();
    for ends in &picture.arrows {
        arrows::draw(&painter, ends.map(|p| on_screen(plot.at(p))), look);
    }
    for placed in &placed(ui, id, picture, &plot).words {
        let color = look.color_of(placed.state);
        if let Some(ends) = placed.leads {
            painter.line_segment(ends.map(on_screen), Stroke::new(1.5, color));
        }
        on_ground(&painter, &placed.words, color, on_screen(placed.at.min), look.back);
    }
}

/// Words with their places, and what these were found for.
struct Found {
    picture: Picture,
    /// How large the frame is, where two points lie in it, pixels for a point.
    scale: [f32; 7],
    words: Vec<Placed>,
}

/// Points. What is scrolled moves in itself by less, and its words stay where they are in it.
const STILL: f32 = 0.05;

/// The words of a plot in their places, found once: in a crowded picture that takes longer than all else in a frame.
fn placed(ui: &Ui, id: &str, picture: &Picture, plot: &Plotted<'_>) -> Arc<Found> {
    let ([width, height], [[a, b], [c, d]]) = (plot.frame().max, [[0.0; 2], [1.0; 2]].map(|point| plot.at(point)));
    let scale = [width, height, a, b, c, d, ui.pixels_per_point()];
    let place = Id::unique(("words of", id));
    let is_for = |found: &Arc<Found>| {
        let is_still = found.scale.iter().zip(scale).all(|(was, now)| (was - now).abs() <= STILL);
        is_still && found.picture == *picture
    };
    if let Some(found) = ui.data(|d| d.get_temp::<Arc<Found>>(place)).filter(is_for) {
        return found;
    }
    let found = Arc::new(Found { picture: picture.clone(), scale, words: wording::words(picture, plot) });
    ui.data_mut(|d| d.insert_temp(place, Arc::clone(&found)));
    found
}

/// A plot on screen, from the upper left corner of its frame.
struct Plotted<'a> {
    painter: &'a Painter,
    look: &'a Look,
    transform: &'a PlotTransform,
}

impl Surface for Plotted<'_> {
    fn at(&self, point: [f64; 2]) -> Point {
        let [x, y] = self.look.at(point);
        let at = self.transform.position_from_point(&PlotPoint::new(x, y)) - self.transform.frame().min;
        [at.x, at.y]
    }

    fn size(&self, words: &str) -> Point {
        let size = self.painter.layout_no_wrap(words.to_owned(), theme::small(), self.look.text).size();
        [size.x, size.y]
    }

    fn frame(&self) -> Block {
        let size = self.transform.frame().size();
        Block { min: [0.0; 2], max: [size.x, size.y] }
    }

    fn covers(&self) -> bool {
        false
    }

    fn sizes(&self) -> Sizes {
        Sizes { gap: GAP, off: 2.0 * GAP, mark: MARK, small: SMALL }
    }
}
