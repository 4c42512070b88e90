//! What a picture whose marks are joined by arrows has beside them: room for words, the wanted range of x, the limit of y.

use eframe::egui::Align2;
use egui_plot::{Arrows, PlotPoint, PlotPoints, PlotUi, Span, Text};

use super::plots::Look;
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
    let (left, right) = range(&mut picture.marks.iter().map(|m| m.at[0]).chain(ends));
    let (foot, top) = range(&mut picture.marks.iter().map(|m| m.at[1]).chain(picture.below.iter().map(|b| b.0)));
    let (wide, tall) = (right - left, top - foot);
    Some([left - 0.4 * wide, right + 0.4 * wide, foot - 0.2 * tall, top + 0.3 * tall])
}

/// A wanted range of x, with its words at the top.
pub(super) fn wanted(plot: &mut PlotUi<'_>, picture: &Picture, look: &Look) {
    let Some((range, said)) = &picture.wanted_across else { return };
    let [low, high] = range.map(|x| x / look.x);
    let span = Span::new("", low..=high).axis(egui_plot::Axis::X).fill(look.fill()).border_color(look.edge());
    plot.span(span);
    let top = plot.plot_bounds().max()[1];
    let said = look.bare(said, look.text);
    plot.text(Text::new("", PlotPoint::new(0.5 * (low + high), top), said).anchor(Align2::CENTER_TOP));
}

/// Where nothing may stand, with its words.
pub(super) fn limit(plot: &mut PlotUi<'_>, picture: &Picture, look: &Look) {
    let Some((at, said)) = &picture.below else { return };
    let (top, bounds) = (at / look.y, plot.plot_bounds());
    let foot = bounds.min()[1].min(top);
    let fill = theme::level_color(Level::Stop, look.dark).gamma_multiply(0.18);
    let span = Span::new("", foot..=top).axis(egui_plot::Axis::Y).fill(fill).border_color(look.edge());
    plot.span(span);
    let left = bounds.min()[0] + 0.02 * bounds.width();
    let said = look.bare(said, look.text);
    plot.text(Text::new("", PlotPoint::new(left, foot), said).anchor(Align2::LEFT_BOTTOM));
}

/// Arrows from mark to mark, which they do not touch.
pub(super) fn draw(plot: &mut PlotUi<'_>, picture: &Picture, look: &Look) {
    const OFF: f32 = 11.0;
    for ends in &picture.arrows {
        let [from, to] = ends.map(|p| look.at(p)).map(|[x, y]| plot.screen_from_plot(PlotPoint::new(x, y)));
        let way = to - from;
        if way.length() < 2.0 * OFF + 4.0 {
            continue;
        }
        let off = OFF * way.normalized();
        let [from, to] = [from + off, to - off].map(|at| plot.plot_from_screen(at));
        let arrow = Arrows::new("", PlotPoints::from(vec![[from.x, from.y]]), PlotPoints::from(vec![[to.x, to.y]]));
        plot.arrows(arrow.color(look.text).tip_length(9.0).allow_hover(false));
    }
}
