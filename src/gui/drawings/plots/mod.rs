//! Draws a [`Picture`] with axes: titles state the finding, labels stand next to lines.

mod arrows;
mod labelled;

use eframe::egui::{Align, Color32, Label, Layout, RichText, Role, Sense, TextStyle, Ui, Vec2b, WidgetInfo, vec2};
use egui_plot::{
    AxisHints, FilledArea, GridInput, GridMark, Line, MarkerShape, Plot, PlotPoints, PlotUi, Points, Span, VLine,
};

use crate::base::language::tr;
use crate::base::units::{Unit, UnitChoice, display};
use crate::gui::state::command::{Command, PlotTo};
use crate::gui::widgets::in_view;
use crate::gui::widgets::theme;
use crate::report::pictures::picture::{Axis, Picture, PlanMark};
use crate::report::pictures::plot::Export;
use crate::report::pictures::wording::foot_of_ticks;
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
            let words = tr("The plot appears once weights, motion ratio and spring rate are known.");
            ui.label(RichText::new(words).weak().italics());
        }
    }
}

/// The title, and what can be done with the plot below it.
pub(super) fn menu(ui: &mut Ui, title: &str, plot: &dyn Fn() -> Export, commands: &mut Vec<Command>) {
    let width = theme::text_width(ui, tr("Copy or save"), TextStyle::Small.resolve(ui.style())) + 3.5 * theme::UNIT;
    let room = ui.available_width() - width;
    ui.horizontal_top(|ui| {
        ui.allocate_ui_with_layout(vec2(room, 0.0), Layout::top_down(Align::Min), |ui| {
            ui.set_width(room);
            ui.add(Label::new(RichText::new(title).heading()).wrap());
        });
        copy_or_save(ui, plot, commands);
    });
}

fn copy_or_save(ui: &mut Ui, plot: &dyn Fn() -> Export, commands: &mut Vec<Command>) {
    ui.menu_button(RichText::new(tr("Copy or save")).small(), |ui| {
        let own = || Box::new(plot());
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
    menu(ui, &picture.title, &|| Export::of(picture, units), commands);
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
    copy_or_save(ui, &|| Export::of(picture, units), commands);
}

fn axes(ui: &mut Ui, picture: &Picture, id: &str, units: &UnitChoice, dark: bool, height: f32) {
    let (x, y) = (units.unit(picture.x.dim), units.unit(picture.y.dim));
    axis_title(ui, &picture.y, y, Align::Min);
    if in_view::is(ui, height) {
        between_axes(ui, picture, id, [x, y], dark, height);
    } else {
        ui.allocate_space(vec2(ui.available_width(), height));
    }
    axis_title(ui, &picture.x, x, Align::Max);
}

fn between_axes(ui: &mut Ui, picture: &Picture, id: &str, [x, y]: [&Unit; 2], dark: bool, height: f32) {
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
    // Numbers below the picture need about so much room each.
    let across = (f64::from(ui.available_width()) / 95.0).max(2.0);
    // The grid keeps them apart: none is paler for standing closer.
    let x_axis = AxisHints::new_x().formatter(move |mark, _| number(mark.value)).label_spacing(20.0..=21.0);
    let shown = plot
        .sense(Sense::hover())
        .height(height)
        .allow_drag(false)
        .allow_zoom(false)
        .allow_scroll(false)
        .allow_boxed_zoom(false)
        .allow_double_click_reset(false)
        .show_grid(Vec2b::TRUE)
        .x_grid_spacer(move |input| grid(input, across))
        .y_grid_spacer(move |input| grid(input, f64::from(height) / 42.0))
        .custom_x_axes(vec![x_axis])
        .y_axis_formatter(move |mark, _| number(mark.value))
        .label_formatter(|_| None)
        .show(ui, |plot| {
            wanted(plot, picture, &look);
            arrows::wanted(plot, picture, &look);
            arrows::limit(plot, picture, &look);
            shaded(plot, picture, &look);
            lines_of_plans(plot, picture, &look);
            lines(plot, picture, &look);
            uprights(plot, picture, &look);
            ticks(plot, picture, &look);
            marks_of_plans(plot, picture, &look);
            marks(plot, picture, &look);
            dots(plot, picture, &look);
        });
    shown.response.widget_info(|| WidgetInfo::labeled(Role::Image, true, &picture.title));
    labelled::draw(ui, id, picture, &look, &shown.transform);
}

/// What an axis shows: the upright one's above the picture, that of the other below it.
fn axis_title(ui: &mut Ui, axis: &Axis, unit: &Unit, align: Align) {
    let words = if unit.symbol.is_empty() { axis.name.to_owned() } else { format!("{} ({})", axis.name, unit.symbol) };
    let width = ui.available_width();
    ui.allocate_ui_with_layout(vec2(width, 0.0), Layout::top_down(align), |ui| {
        ui.set_width(width);
        ui.add(Label::new(RichText::new(words).small().weak()).wrap());
    });
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
struct Look {
    dark: bool,
    text: Color32,
    /// Behind words.
    back: Color32,
    x: f64,
    y: f64,
}

impl Look {
    /// A point in the units shown.
    fn at(&self, [x, y]: [f64; 2]) -> [f64; 2] {
        [x / self.x, y / self.y]
    }

    /// A place along the axis to the right, in the unit shown.
    fn across(&self, x: f64) -> f64 {
        x / self.x
    }

    /// A place along the upright axis, in the unit shown.
    fn up(&self, y: f64) -> f64 {
        y / self.y
    }

    fn color_of(&self, state: Option<State>) -> Color32 {
        state.map_or(self.text, |s| theme::state_color(s, self.dark))
    }

    /// What is wanted is filled, and has an edge that survives without colour.
    fn fill(&self) -> Color32 {
        theme::wanted_fill(self.dark)
    }

    fn edge(&self) -> Color32 {
        self.text.gamma_multiply(0.5)
    }
}

/// The wanted range.
fn wanted(plot: &mut PlotUi<'_>, picture: &Picture, look: &Look) {
    let Some((range, _)) = &picture.wanted else { return };
    let [low, high] = range.map(|y| look.up(y));
    let span = Span::new("", low..=high).axis(egui_plot::Axis::Y).fill(look.fill()).border_color(look.edge());
    plot.span(span);
}

/// A wanted range that changes along x.
fn shaded(plot: &mut PlotUi<'_>, picture: &Picture, look: &Look) {
    let Some(shade) = &picture.shade else { return };
    let x: Vec<f64> = shade.points.iter().map(|p| look.across(p[0])).collect();
    let bound = |pick: fn(f64, f64) -> f64| shade.points.iter().map(|p| look.up(pick(p[1], p[2]))).collect::<Vec<_>>();
    let (low, high) = (bound(f64::min), bound(f64::max));
    for edge in [&low, &high] {
        let points: Vec<[f64; 2]> = x.iter().zip(edge).map(|(x, y)| [*x, *y]).collect();
        let line = Line::new("", PlotPoints::from(points)).color(look.edge()).width(1.0);
        plot.line(line.allow_hover(false));
    }
    plot.add(FilledArea::new("", &x, &low, &high).fill_color(look.fill()));
}

fn lines(plot: &mut PlotUi<'_>, picture: &Picture, look: &Look) {
    for line in &picture.lines {
        let points: Vec<[f64; 2]> = line.points.iter().map(|p| look.at(*p)).collect();
        let style = match line.state {
            _ if line.broken => egui_plot::LineStyle::dashed_dense(),
            Some(state) => theme::line_style(state),
            None => egui_plot::LineStyle::Solid,
        };
        let drawn = Line::new(line.label.as_str(), PlotPoints::from(points)).width(2.0).style(style);
        plot.line(drawn.color(look.color_of(line.state)).allow_hover(false));
    }
}

/// Lines of plans that are not chosen: thin.
fn lines_of_plans(plot: &mut PlotUi<'_>, picture: &Picture, look: &Look) {
    for line in picture.plans.iter().flat_map(|plan| &plan.lines) {
        let points: Vec<[f64; 2]> = line.points.iter().map(|p| look.at(*p)).collect();
        let style = if line.broken { egui_plot::LineStyle::dashed_dense() } else { egui_plot::LineStyle::Solid };
        let drawn = Line::new("", PlotPoints::from(points)).width(1.0).style(style);
        plot.line(drawn.color(look.text).allow_hover(false));
    }
}

/// Upright lines.
fn uprights(plot: &mut PlotUi<'_>, picture: &Picture, look: &Look) {
    for (at, said) in &picture.uprights {
        plot.vline(VLine::new(said.as_str(), look.across(*at)).color(look.text).width(2.0).allow_hover(false));
    }
}

/// Stock rates along the foot.
fn ticks(plot: &mut PlotUi<'_>, picture: &Picture, look: &Look) {
    if picture.ticks.is_empty() {
        return;
    }
    let foot = foot_of_ticks(picture);
    let all: Vec<[f64; 2]> = picture.ticks.iter().map(|t| look.at([*t, foot])).collect();
    let drawn = Points::new("stock rates", PlotPoints::from(all)).shape(MarkerShape::Up).radius(4.0).color(look.text);
    plot.points(drawn.allow_hover(false));
}

/// The marks of the three states.
fn marks(plot: &mut PlotUi<'_>, picture: &Picture, look: &Look) {
    for mark in &picture.marks {
        let (shape, filled) = theme::marker(mark.state);
        let at = PlotPoints::from(vec![look.at(mark.at)]);
        let drawn = Points::new(mark.label.as_str(), at).shape(shape).filled(filled).radius(7.0);
        plot.points(drawn.color(look.color_of(Some(mark.state))).allow_hover(false));
    }
}

/// The marks of plans that are not chosen.
fn marks_of_plans(plot: &mut PlotUi<'_>, picture: &Picture, look: &Look) {
    for plan in &picture.plans {
        let shape = match plan.mark {
            PlanMark::Up => MarkerShape::Up,
            PlanMark::Down => MarkerShape::Down,
            PlanMark::Star => MarkerShape::Asterisk,
        };
        let at = PlotPoints::from(vec![look.at(plan.at)]);
        let drawn = Points::new(plan.label.as_str(), at).shape(shape).filled(false).radius(7.0);
        plot.points(drawn.color(look.text).allow_hover(false));
    }
}

/// What was measured; a dot with words is a cross.
fn dots(plot: &mut PlotUi<'_>, picture: &Picture, look: &Look) {
    for dot in &picture.dots {
        let (shape, radius) = if dot.label.is_empty() { (MarkerShape::Circle, 4.0) } else { (MarkerShape::Cross, 7.0) };
        let at = PlotPoints::from(vec![look.at(dot.at)]);
        plot.points(Points::new("measured", at).shape(shape).radius(radius).color(look.text).allow_hover(false));
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
