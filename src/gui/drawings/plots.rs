//! Draws a [`Picture`] with axes: titles state the finding, labels stand beside lines.

use eframe::egui::{
    Align, Align2, Color32, Label, Layout, RichText, Role, Sense, TextStyle, Ui, Vec2b, WidgetInfo, vec2,
};
use egui_plot::{
    FilledArea, GridInput, GridMark, Line, MarkerShape, Plot, PlotPoint, PlotPoints, PlotUi, Points, Span, Text, VLine,
};

use crate::base::language::tr;
use crate::base::units::{Unit, UnitChoice, display};
use crate::gui::drawings::arrows;
use crate::gui::state::command::{Command, PlotTo};
use crate::gui::widgets::theme;
use crate::report::pictures::picture::{self, Axis, Picture, Words};
use crate::solve::answer::State;

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
    let width = theme::text_width(ui, tr("Copy or save"), TextStyle::Small.resolve(ui.style())) + 3.5 * theme::UNIT;
    let room = ui.available_width() - width;
    ui.horizontal_top(|ui| {
        ui.allocate_ui_with_layout(vec2(room, 0.0), Layout::top_down(Align::Min), |ui| {
            ui.set_width(room);
            ui.add(Label::new(RichText::new(&picture.title).heading()).wrap());
        });
        copy_or_save(ui, picture, commands);
    });
}

fn copy_or_save(ui: &mut Ui, picture: &Picture, commands: &mut Vec<Command>) {
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
    axes(ui, picture, id, units, dark, height);
}

/// Draws one of several pictures that stand side by side: a title of two lines, and what can be done with it below.
pub fn draw_beside(
    ui: &mut Ui,
    picture: &Picture,
    id: &str,
    units: &UnitChoice,
    dark: bool,
    height: f32,
    commands: &mut Vec<Command>,
) {
    let width = ui.available_width();
    ui.allocate_ui_with_layout(vec2(width, 0.0), Layout::top_down(Align::Min), |ui| {
        ui.set_min_size(vec2(width, 2.0 * ui.text_style_height(&TextStyle::Heading)));
        ui.add(Label::new(RichText::new(&picture.title).heading()).wrap());
    });
    axes(ui, picture, id, units, dark, height);
    copy_or_save(ui, picture, commands);
}

fn axes(ui: &mut Ui, picture: &Picture, id: &str, units: &UnitChoice, dark: bool, height: f32) {
    let (x, y) = (units.unit(picture.x.dim), units.unit(picture.y.dim));
    let number = |v: f64| display::significant(v, 4).replace('-', "\u{2212}");
    let room = Room::of(picture);
    let look = Look { dark, text: ui.visuals().text_color(), back: ui.visuals().extreme_bg_color, x: x.si, y: y.si };
    let mut plot = Plot::new(id.to_owned());
    if let Some([low, high, foot, top]) = arrows::room(picture) {
        plot = plot.include_x(low / x.si).include_x(high / x.si).include_y(foot / y.si).include_y(top / y.si);
    }
    if room.is_needed {
        plot = plot.include_y(room.top / y.si).include_y(room.foot / y.si);
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
            wanted(plot, picture, &look);
            arrows::wanted(plot, picture, &look);
            arrows::limit(plot, picture, &look);
            arrows::draw(plot, picture, &look);
            shaded(plot, picture, &look);
            lines(plot, picture, &look);
            uprights(plot, picture, &look, room.foot);
            ticks(plot, picture, &look);
            marks(plot, picture, &look);
            dots(plot, picture, &look);
        });
    shown.response.widget_info(|| WidgetInfo::labeled(Role::Image, true, &picture.title));
}

/// From where to where the picture reaches. Labels at a line's top, and words at its foot, need room of their own.
struct Room {
    is_needed: bool,
    top: f64,
    foot: f64,
}

impl Room {
    fn of(picture: &Picture) -> Room {
        let (low, high) = heights(picture);
        let is_needed = picture.lines.iter().any(|l| l.label_at.is_some());
        let share = if is_needed { high - low } else { 0.0 };
        Room { is_needed, top: high + 0.12 * share, foot: low - 0.25 * share }
    }
}

/// In which colours things are drawn, and the size of one unit shown along each axis, in SI.
pub(super) struct Look {
    pub(super) dark: bool,
    pub(super) text: Color32,
    back: Color32,
    pub(super) x: f64,
    pub(super) y: f64,
}

impl Look {
    /// A point in the units shown.
    pub(super) fn at(&self, [x, y]: [f64; 2]) -> [f64; 2] {
        [x / self.x, y / self.y]
    }

    fn color_of(&self, state: Option<State>) -> Color32 {
        state.map_or(self.text, |s| theme::state_color(s, self.dark))
    }

    /// Words that stay readable over a line.
    fn words(&self, text: &str, color: Color32) -> RichText {
        self.bare(text, color).background_color(self.back)
    }

    pub(super) fn bare(&self, text: &str, color: Color32) -> RichText {
        RichText::new(text.to_owned()).size(13.0).color(color)
    }

    /// What is wanted is filled, and has an edge that survives without colour.
    pub(super) fn fill(&self) -> Color32 {
        Color32::from_rgba_unmultiplied(0x2e, 0x8b, 0x57, if self.dark { 60 } else { 45 })
    }

    pub(super) fn edge(&self) -> Color32 {
        self.text.gamma_multiply(0.5)
    }
}

/// All points of the lines.
fn points(picture: &Picture) -> impl Iterator<Item = [f64; 2]> {
    picture.lines.iter().flat_map(|l| &l.points).copied()
}

/// The wanted range, with its words at the right.
fn wanted(plot: &mut PlotUi<'_>, picture: &Picture, look: &Look) {
    let Some((range, said)) = &picture.wanted else { return };
    let [low, high] = range.map(|y| y / look.y);
    let span = Span::new("", low..=high).axis(egui_plot::Axis::Y).fill(look.fill()).border_color(look.edge());
    plot.span(span);
    let right = points(picture).map(|p| p[0]).fold(f64::MIN, f64::max) / look.x;
    let said = look.bare(said, look.text);
    plot.text(Text::new("", PlotPoint::new(right, low), said).anchor(Align2::RIGHT_BOTTOM));
}

/// A wanted range that changes along x.
fn shaded(plot: &mut PlotUi<'_>, picture: &Picture, look: &Look) {
    let Some(shade) = &picture.shade else { return };
    let x: Vec<f64> = shade.points.iter().map(|p| p[0] / look.x).collect();
    let bound = |pick: fn(f64, f64) -> f64| shade.points.iter().map(|p| pick(p[1], p[2]) / look.y).collect::<Vec<_>>();
    let (low, high) = (bound(f64::min), bound(f64::max));
    for edge in [&low, &high] {
        let points: Vec<[f64; 2]> = x.iter().zip(edge).map(|(x, y)| [*x, *y]).collect();
        let line = Line::new("", PlotPoints::from(points)).color(look.edge()).width(1.0);
        plot.line(line.allow_hover(false));
    }
    plot.add(FilledArea::new("", &x, &low, &high).fill_color(look.fill()));
    // Below the range, where it rises to the right, nothing else is drawn.
    let third = x.len() / 3;
    if let Some((x, y)) = x.get(third).zip(low.get(third)) {
        let said = look.bare(&shade.label, look.text);
        plot.text(Text::new("", PlotPoint::new(*x, *y), said).anchor(Align2::LEFT_TOP));
    }
}

fn lines(plot: &mut PlotUi<'_>, picture: &Picture, look: &Look) {
    let highest = picture.lines.iter().map(end_of).fold(f64::NEG_INFINITY, f64::max);
    for line in &picture.lines {
        let (anchor, share) = place_of_label(line, highest);
        let points: Vec<[f64; 2]> = line.points.iter().map(|p| look.at(*p)).collect();
        let end = label_point(&points, share);
        let color = look.color_of(line.state);
        let style = match line.state {
            _ if line.broken => egui_plot::LineStyle::dashed_dense(),
            Some(state) => theme::line_style(state),
            None => egui_plot::LineStyle::Solid,
        };
        let drawn = Line::new(line.label.as_str(), PlotPoints::from(points)).color(color).width(2.0).style(style);
        plot.line(drawn.allow_hover(false));
        if let Some(end) = end.filter(|_| !line.label.is_empty()) {
            plot.text(Text::new("", end, look.words(&line.label, color)).anchor(anchor));
        }
    }
}

/// How high a line ends.
fn end_of(line: &picture::Line) -> f64 {
    line.points.last().map_or(f64::NEG_INFINITY, |p| p[1])
}

/// On which side of the line its label stands, and at which share of its way. The highest line has its label above it
/// and to the left, the others below and to the right: where lines rise, no label crosses one.
fn place_of_label(line: &picture::Line, highest: f64) -> (Align2, f64) {
    match (line.label_at, line.state) {
        (Some(at), _) if line.broken && at < 1.0 => (Align2::LEFT_BOTTOM, at),
        (Some(at), _) => (Align2::RIGHT_BOTTOM, at),
        (None, _) if end_of(line) >= highest => (Align2::RIGHT_BOTTOM, 0.75),
        (None, Some(State::OldSprings)) => (Align2::LEFT_TOP, 0.2),
        (None, _) => (Align2::LEFT_TOP, 0.78),
    }
}

/// Upright lines, with their words at the foot of the picture.
fn uprights(plot: &mut PlotUi<'_>, picture: &Picture, look: &Look, foot: f64) {
    let across = || points(picture).map(|p| p[0]);
    let middle = 0.5 * (across().fold(f64::INFINITY, f64::min) + across().fold(f64::NEG_INFINITY, f64::max));
    for (at, said) in &picture.uprights {
        let [x, y] = look.at([*at, foot]);
        plot.vline(VLine::new(said.as_str(), x).color(look.text).width(2.0).allow_hover(false));
        // Inside the picture, whichever side it stands on.
        let anchor = if *at < middle { Align2::LEFT_BOTTOM } else { Align2::RIGHT_BOTTOM };
        let said = look.words(&format!(" {said} "), look.text);
        plot.text(Text::new("", PlotPoint::new(x, y), said).anchor(anchor));
    }
}

/// Stock rates along the foot.
fn ticks(plot: &mut PlotUi<'_>, picture: &Picture, look: &Look) {
    let Some(last) = picture.ticks.last() else { return };
    let low = points(picture).map(|p| p[1]).fold(f64::INFINITY, f64::min);
    let [last_x, foot] = look.at([*last, low]);
    let all: Vec<[f64; 2]> = picture.ticks.iter().map(|t| look.at([*t, low])).collect();
    let drawn = Points::new("stock rates", PlotPoints::from(all)).shape(MarkerShape::Up).radius(4.0).color(look.text);
    plot.points(drawn.allow_hover(false));
    let place = PlotPoint::new(last_x, foot + 0.035 * plot.plot_bounds().height());
    plot.text(Text::new("", place, look.words(tr("stock rates"), look.text)).anchor(Align2::RIGHT_BOTTOM));
}

/// The marks of the three states.
fn marks(plot: &mut PlotUi<'_>, picture: &Picture, look: &Look) {
    for mark in &picture.marks {
        let at = look.at(mark.at);
        let (shape, filled) = theme::marker(mark.state);
        let color = look.color_of(Some(mark.state));
        let drawn = Points::new(mark.label.as_str(), PlotPoints::from(vec![at])).shape(shape).filled(filled);
        plot.points(drawn.radius(7.0).color(color).allow_hover(false));
        // The words stand off the mark, so that it stays clear.
        let off = 0.015 * plot.plot_bounds().width();
        let (anchor, dx) = match mark.words {
            Words::RightBelow => (Align2::LEFT_TOP, off),
            Words::RightAbove => (Align2::LEFT_BOTTOM, off),
            Words::LeftBelow => (Align2::RIGHT_TOP, -off),
            Words::LeftAbove => (Align2::RIGHT_BOTTOM, -off),
        };
        let place = PlotPoint::new(at[0] + dx, at[1]);
        plot.text(Text::new("", place, look.words(&mark.label, color)).anchor(anchor));
    }
}

/// What was measured; a dot with words is a cross.
fn dots(plot: &mut PlotUi<'_>, picture: &Picture, look: &Look) {
    for dot in &picture.dots {
        let at = look.at(dot.at);
        let (shape, radius) = if dot.label.is_empty() { (MarkerShape::Circle, 4.0) } else { (MarkerShape::Cross, 7.0) };
        let drawn = Points::new("measured", PlotPoints::from(vec![at])).shape(shape).radius(radius).color(look.text);
        plot.points(drawn.allow_hover(false));
        if !dot.label.is_empty() {
            let said = look.words(&format!(" {} ", dot.label), look.text);
            plot.text(Text::new("", PlotPoint::new(at[0], at[1]), said).anchor(Align2::LEFT_BOTTOM));
        }
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
