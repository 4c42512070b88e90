//! Draws a [`Picture`] with axes: titles state the finding, labels stand beside lines.

use eframe::egui::{Align2, Color32, RichText, Role, Sense, Ui, Vec2b, WidgetInfo};
use egui_plot::{
    FilledArea, GridInput, GridMark, Line, Plot, PlotPoint, PlotPoints, PlotUi, Points, Span, Text, VLine,
};

use super::command::{Command, PlotTo};
use super::theme;
use crate::language::tr;
use crate::report::picture::{self, Axis, Picture, Words};
use crate::solve::answer::State;
use crate::units::{Unit, UnitChoice, display};

const HEIGHT: f32 = 270.0;

/// Draws a picture, or says that it is not known yet.
pub fn draw(
    ui: &mut Ui,
    picture: Option<&Picture>,
    id: &str,
    units: &UnitChoice,
    dark: bool,
    commands: &mut Vec<Command>,
) {
    match picture {
        Some(picture) => draw_high(ui, picture, id, units, dark, HEIGHT, commands),
        None => {
            let words = tr("A picture follows once weights, motion ratio and rate are known.");
            ui.label(RichText::new(words).weak().italics());
        }
    }
}

/// The title, and what can be done with the plot below it.
fn menu(ui: &mut Ui, picture: &Picture, commands: &mut Vec<Command>) {
    ui.label(RichText::new(&picture.title).heading());
    ui.menu_button(RichText::new(tr("Copy or save")).small(), |ui| {
        let own = || Box::new(picture.clone());
        let choices: [(&str, &dyn Fn() -> PlotTo); 4] = [
            (tr("Copy picture"), &|| PlotTo::CopyPicture(own())),
            (tr("Save picture as PNG…"), &|| PlotTo::SavePicture(own())),
            (tr("Copy data"), &|| PlotTo::CopyData(own())),
            (tr("Save data as CSV…"), &|| PlotTo::SaveData(own())),
        ];
        for (words, to) in choices {
            if ui.button(words).clicked() {
                commands.push(Command::Plot(to()));
                ui.close();
            }
        }
    });
}

/// Draws a picture under its title, this many points high.
pub fn draw_high(
    ui: &mut Ui,
    picture: &Picture,
    id: &str,
    units: &UnitChoice,
    dark: bool,
    height: f32,
    commands: &mut Vec<Command>,
) {
    menu(ui, picture, commands);
    // Labels at a line's top, and words at its foot, need room of their own.
    let (low, high) = heights(picture);
    let with_room = picture.lines.iter().any(|l| l.label_at.is_some());
    let (over, under) = if with_room { (0.12 * (high - low), 0.25 * (high - low)) } else { (0.0, 0.0) };
    let (x, y) = (units.unit(picture.x.dim), units.unit(picture.y.dim));
    let text_color = ui.visuals().text_color();
    let back = ui.visuals().extreme_bg_color;
    let words =
        |text: &str, color: Color32| RichText::new(text.to_owned()).size(13.0).color(color).background_color(back);
    let number = |v: f64| display::significant(v, 4);
    let mut plot = Plot::new(id.to_owned());
    if with_room {
        plot = plot.include_y((high + over) / y.si).include_y((low - under) / y.si);
    }
    let shown = plot
        .sense(Sense::hover())
        .height(height)
        .allow_drag(false)
        .allow_zoom(false)
        .allow_scroll(false)
        .allow_boxed_zoom(false)
        .allow_double_click_reset(false)
        .show_grid(Vec2b::TRUE)
        .x_grid_spacer(|input| grid(input, 6.0))
        .y_grid_spacer(move |input| grid(input, f64::from(height) / 42.0))
        .x_axis_label(axis_label(&picture.x, x))
        .y_axis_label(axis_label(&picture.y, y))
        .x_axis_formatter(move |mark, _| number(mark.value))
        .y_axis_formatter(move |mark, _| number(mark.value))
        .label_formatter(|_| None)
        .show(ui, |plot| {
            if let Some((range, said)) = &picture.wanted {
                let fill = Color32::from_rgba_unmultiplied(0x2e, 0x8b, 0x57, if dark { 60 } else { 45 });
                plot.span(
                    Span::new("", range[0] / y.si..=range[1] / y.si)
                        .axis(egui_plot::Axis::Y)
                        .fill(fill)
                        .border_color(text_color.gamma_multiply(0.5)),
                );
                let right = picture.lines.iter().flat_map(|l| &l.points).map(|p| p[0]).fold(f64::MIN, f64::max) / x.si;
                let place = PlotPoint::new(right, range[0] / y.si);
                let said = RichText::new(said.as_str()).size(13.0).color(text_color);
                plot.text(Text::new("", place, said).anchor(Align2::RIGHT_BOTTOM));
            }
            if let Some(shade) = &picture.shade {
                shaded(plot, shade, [x.si, y.si], dark, text_color);
            }
            let color_of = |state: Option<State>| state.map_or(text_color, |s| theme::state_color(s, dark));
            let end_of = |line: &picture::Line| line.points.last().map_or(f64::NEG_INFINITY, |p| p[1]);
            let highest = picture.lines.iter().map(end_of).fold(f64::NEG_INFINITY, f64::max);
            for line in &picture.lines {
                // The highest line has its label above it and to the left, the others below and to the right: where
                // lines rise, no label crosses one.
                let (anchor, share) = match line.state {
                    _ if line.broken && line.label_at.is_some_and(|at| at < 1.0) => {
                        (Align2::LEFT_BOTTOM, line.label_at.unwrap_or(1.0))
                    }
                    _ if line.label_at.is_some() => (Align2::RIGHT_BOTTOM, line.label_at.unwrap_or(1.0)),
                    _ if end_of(line) >= highest => (Align2::RIGHT_BOTTOM, 0.75),
                    Some(State::OldSprings) => (Align2::LEFT_TOP, 0.2),
                    _ => (Align2::LEFT_TOP, 0.78),
                };
                let points: Vec<[f64; 2]> = line.points.iter().map(|p| [p[0] / x.si, p[1] / y.si]).collect();
                let end = label_point(&points, share);
                let color = color_of(line.state);
                plot.line(
                    Line::new(line.label.as_str(), PlotPoints::from(points))
                        .color(color)
                        .width(2.0)
                        .style(match line.state {
                            _ if line.broken => egui_plot::LineStyle::dashed_dense(),
                            Some(state) => theme::line_style(state),
                            None => egui_plot::LineStyle::Solid,
                        })
                        .allow_hover(false),
                );
                if let Some(end) = end.filter(|_| !line.label.is_empty()) {
                    plot.text(Text::new("", end, words(&line.label, color)).anchor(anchor));
                }
            }
            for (at, said) in &picture.uprights {
                plot.vline(VLine::new(said.as_str(), at / x.si).color(text_color).width(2.0).allow_hover(false));
                let bottom = heights(picture).0 - under;
                let place = PlotPoint::new(at / x.si, bottom / y.si);
                // Inside the picture, whichever side it stands on.
                let points = || picture.lines.iter().flat_map(|l| &l.points).map(|p| p[0]);
                let middle =
                    0.5 * (points().fold(f64::INFINITY, f64::min) + points().fold(f64::NEG_INFINITY, f64::max));
                let anchor = if *at < middle { Align2::LEFT_BOTTOM } else { Align2::RIGHT_BOTTOM };
                plot.text(Text::new("", place, words(&format!(" {said} "), text_color)).anchor(anchor));
            }
            if !picture.ticks.is_empty() {
                let low = picture.lines.iter().flat_map(|l| &l.points).map(|p| p[1]).fold(f64::INFINITY, f64::min);
                let points: Vec<[f64; 2]> = picture.ticks.iter().map(|t| [t / x.si, low / y.si]).collect();
                plot.points(
                    Points::new("stock rates", PlotPoints::from(points))
                        .shape(egui_plot::MarkerShape::Up)
                        .radius(4.0)
                        .color(text_color)
                        .allow_hover(false),
                );
                let last = picture.ticks[picture.ticks.len() - 1];
                let above = low / y.si + 0.035 * plot.plot_bounds().height();
                let place = PlotPoint::new(last / x.si, above);
                plot.text(Text::new("", place, words(tr("stock rates"), text_color)).anchor(Align2::RIGHT_BOTTOM));
            }
            for mark in &picture.marks {
                let at = [mark.at[0] / x.si, mark.at[1] / y.si];
                let (shape, filled) = theme::marker(mark.state);
                let color = theme::state_color(mark.state, dark);
                plot.points(
                    Points::new(mark.label.as_str(), PlotPoints::from(vec![at]))
                        .shape(shape)
                        .filled(filled)
                        .radius(7.0)
                        .color(color)
                        .allow_hover(false),
                );
                // The words stand off the mark, so that it stays clear.
                let off = 0.015 * plot.plot_bounds().width();
                let (anchor, dx) = match mark.words {
                    Words::RightBelow => (Align2::LEFT_TOP, off),
                    Words::RightAbove => (Align2::LEFT_BOTTOM, off),
                    Words::LeftBelow => (Align2::RIGHT_TOP, -off),
                    Words::LeftAbove => (Align2::RIGHT_BOTTOM, -off),
                };
                let place = PlotPoint::new(at[0] + dx, at[1]);
                plot.text(Text::new("", place, words(&mark.label, color)).anchor(anchor));
            }
            for dot in &picture.dots {
                let at = [dot.at[0] / x.si, dot.at[1] / y.si];
                let shape =
                    if dot.label.is_empty() { egui_plot::MarkerShape::Circle } else { egui_plot::MarkerShape::Cross };
                plot.points(
                    Points::new("measured", PlotPoints::from(vec![at]))
                        .shape(shape)
                        .radius(if dot.label.is_empty() { 4.0 } else { 7.0 })
                        .color(text_color)
                        .allow_hover(false),
                );
                if !dot.label.is_empty() {
                    let place = PlotPoint::new(at[0], at[1]);
                    plot.text(
                        Text::new("", place, words(&format!(" {} ", dot.label), text_color))
                            .anchor(Align2::LEFT_BOTTOM),
                    );
                }
            }
        });
    shown.response.widget_info(|| WidgetInfo::labeled(Role::Image, true, &picture.title));
}

/// A wanted range that changes along x, with an edge that survives without colour.
fn shaded(plot: &mut PlotUi<'_>, shade: &picture::Shade, [x_si, y_si]: [f64; 2], dark: bool, text_color: Color32) {
    let x: Vec<f64> = shade.points.iter().map(|p| p[0] / x_si).collect();
    let bound = |pick: fn(f64, f64) -> f64| shade.points.iter().map(|p| pick(p[1], p[2]) / y_si).collect::<Vec<_>>();
    let (low, high) = (bound(f64::min), bound(f64::max));
    let fill = Color32::from_rgba_unmultiplied(0x2e, 0x8b, 0x57, if dark { 60 } else { 45 });
    for edge in [&low, &high] {
        let points: Vec<[f64; 2]> = x.iter().zip(edge).map(|(x, y)| [*x, *y]).collect();
        let line = Line::new("", PlotPoints::from(points)).color(text_color.gamma_multiply(0.5)).width(1.0);
        plot.line(line.allow_hover(false));
    }
    plot.add(FilledArea::new("", &x, &low, &high).fill_color(fill));
    // Below the range, where it rises to the right, nothing else is drawn.
    let third = x.len() / 3;
    if let Some((x, y)) = x.get(third).zip(low.get(third)) {
        let said = RichText::new(shade.label.as_str()).size(13.0).color(text_color);
        plot.text(Text::new("", PlotPoint::new(*x, *y), said).anchor(Align2::LEFT_TOP));
    }
}

/// Lowest and highest point of the lines and of what is shaded.
fn heights(picture: &Picture) -> (f64, f64) {
    let lines = picture.lines.iter().flat_map(|l| &l.points).map(|p| p[1]);
    let shaded = picture.shade.iter().flat_map(|s| &s.points).flat_map(|p| [p[1], p[2]]);
    lines.chain(shaded).fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), y| (low.min(y), high.max(y)))
}

/// Grid lines at 1, 2 or 5 times a power of ten, about `count` of them.
fn grid(input: GridInput, count: f64) -> Vec<GridMark> {
    let (low, high) = input.bounds;
    let rough = (high - low) / count;
    if !(rough.is_finite() && rough > 0.0) {
        return Vec::new();
    }
    let power = 10.0_f64.powf(rough.log10().floor());
    let step_size =
        [1.0, 2.0, 5.0, 10.0].map(|m| m * power).into_iter().find(|s| *s >= 0.65 * rough).unwrap_or(10.0 * power);
    let first = (low / step_size).ceil() as i64;
    let last = (high / step_size).floor() as i64;
    (first..=last).map(|n| GridMark { value: n as f64 * step_size, step_size }).collect()
}

fn axis_label(axis: &Axis, unit: &Unit) -> String {
    if unit.symbol.is_empty() { axis.name.to_owned() } else { format!("{} ({})", axis.name, unit.symbol) }
}

/// The point of a line at a share of its way.
fn label_point(points: &[[f64; 2]], share: f64) -> Option<PlotPoint> {
    let i = ((points.len().checked_sub(1)?) as f64 * share) as usize;
    points.get(i).map(|p| PlotPoint::new(p[0], p[1]))
}
