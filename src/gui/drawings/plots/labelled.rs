//! The words in a plot.

use std::sync::Arc;

use eframe::egui::{Id, Painter, Stroke, Ui, pos2};
use egui_plot::{PlotPoint, PlotTransform};

use super::{Look, arrows};
use crate::gui::drawings::labels::{GAP, MARK, on_ground};
use crate::gui::widgets::theme;
use crate::report::pictures::label_places::{Block, Point};
use crate::report::pictures::picture::Picture;
use crate::report::pictures::wording::{self, Placed, Sizes, Surface};

/// Half the size of a tick or a dot.
const SMALL: f32 = 5.0;

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
