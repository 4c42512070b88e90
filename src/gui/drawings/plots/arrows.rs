//! What a picture whose marks are joined by arrows has in addition: room for words, the wanted range of x, the limit of
//! y.

use eframe::egui::{Painter, Pos2, Shape, Stroke};
use egui_plot::{PlotUi, Span};

use super::Look;
use crate::gui::widgets::theme;
use crate::job::Level;
use crate::report::pictures::picture::Picture;

/// From where to where a picture with arrows reaches, left, right, foot and top, in SI: its marks have words on both sides.
pub(super) fn room(picture: &Picture) -> Option<[f64; 4]> {
    if picture.arrows.is_empty() {
        return None;
    }
    let range = |values: &mut dyn Iterator<Item = f64>| {
        values.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), v| (low.min(v), high.max(v)))
    };
    let ends = picture.wanted_across.iter().flat_map(|w| w.0).chain(picture.uprights.iter().map(|u| u.0));
    let marks = || picture.marks.iter().map(|m| m.at).chain(picture.plans.iter().map(|p| p.at));
    let (left, right) = range(&mut marks().map(|at| at[0]).chain(ends));
    let (foot, top) = range(&mut marks().map(|at| at[1]).chain(picture.below.iter().map(|b| b.0)));
    let (wide, tall) = (right - left, top - foot);
    // Names of plans are longer than those of states.
    let aside = if picture.plans.is_empty() { 0.4 } else { 0.9 };
    Some([left - aside * wide, right + aside * wide, foot - 0.2 * tall, top + 0.3 * tall])
}

/// A wanted range of x.
pub(super) fn wanted(plot: &mut PlotUi<'_>, picture: &Picture, look: &Look) {
    let Some((range, _)) = &picture.wanted_across else { return };
    let [low, high] = range.map(|x| look.across(x));
    let span = Span::new("", low..=high).axis(egui_plot::Axis::X).fill(look.fill()).border_color(look.edge());
    plot.span(span);
}

/// Where nothing may stand.
pub(super) fn limit(plot: &mut PlotUi<'_>, picture: &Picture, look: &Look) {
    let Some((at, _)) = &picture.below else { return };
    let (top, bounds) = (look.up(*at), plot.plot_bounds());
    let foot = bounds.min()[1].min(top);
    let fill = theme::level_color(Level::Stop, look.dark).gamma_multiply(0.18);
    let span = Span::new("", foot..=top).axis(egui_plot::Axis::Y).fill(fill).border_color(look.edge());
    plot.span(span);
}

/// An arrow from mark to mark, which it does not touch, if there is room for one.
pub(super) fn draw(painter: &Painter, [from, to]: [Pos2; 2], look: &Look) {
    const OFF: f32 = 11.0;
    const HEAD: f32 = 9.0;
    let way = to - from;
    if way.length() < 2.0 * OFF + 4.0 {
        return;
    }
    let along = way.normalized();
    let (from, to) = (from + OFF * along, to - OFF * along);
    let (back, aside) = (to - HEAD * along, 0.4 * HEAD * along.rot90());
    painter.line_segment([from, back], Stroke::new(1.5, look.text));
    painter.add(Shape::convex_polygon(vec![to, back + aside, back - aside], look.text, Stroke::NONE));
}
