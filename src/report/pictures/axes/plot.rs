//! Draws the data of a [`Picture`] in black and grey, with axes; and writes it as a table.

use crate::base::units::{Unit, UnitChoice, display};
use crate::report::pictures::drawing::{self, Anchor, Drawing, Fill, Shape, Stroke};
use crate::report::pictures::label_places::Block;
use crate::report::pictures::picture::{Axis, Line, OfPlan, Picture, Shade, ThinLine};
use crate::report::pictures::wording::{self, Sizes, Surface};
use crate::solve::answer::State;

/// Width and height of a picture that is copied by itself.
pub(in crate::report::pictures) const COPIED_MM: [f32; 2] = [170.0, 105.0];
/// Room for the numbers at the left, and for the last of those below at the right.
const SIDES_MM: [f32; 2] = [17.0, 5.0];
/// Room for the title and the upright axis' name above, for numbers and name below.
const ENDS_MM: [f32; 2] = [19.0, 12.0];
/// Room above without a title.
const UNTITLED_MM: f32 = 7.0;
/// Height of the type.
pub const TYPE_MM: f32 = 3.2;
/// Height of a title's type.
pub(in crate::report::pictures) const TITLE_MM: f32 = 3.6;
/// Mean width of a letter, per height of the type: bold Noto Sans, with some room.
const LETTER: f32 = 0.62;
/// Half the size of a mark.
pub(in crate::report::pictures) const MARK_MM: f32 = 1.7;

/// What is copied or saved of a picture, whatever it shows.
#[derive(Debug, Clone, PartialEq)]
pub struct Export {
    /// The picture, under its title.
    pub drawing: Drawing,
    /// Its data as a table file, or why there is none.
    pub table: Result<String, String>,
}

/// Of a picture that is not known.
impl Default for Export {
    fn default() -> Self {
        Export { drawing: Drawing::default(), table: Ok(String::new()) }
    }
}

impl Export {
    /// Of a picture with axes.
    pub fn of(picture: &Picture, units: &UnitChoice) -> Self {
        Export::new(drawing(picture, units), csv(picture, units))
    }

    pub(in crate::report::pictures) fn new(drawing: Drawing, table: Result<String, csv::Error>) -> Self {
        Export { drawing, table: table.map_err(|error| error.to_string()) }
    }
}

/// What was written to a table.
pub(in crate::report::pictures) fn text_of(table: csv::Writer<Vec<u8>>) -> Result<String, csv::Error> {
    let bytes = table.into_inner().map_err(|e| e.into_error())?;
    Ok(String::from_utf8_lossy(&bytes).into_owned())
}

/// The picture as a drawing of 170 mm × 105 mm.
pub fn drawing(picture: &Picture, units: &UnitChoice) -> Drawing {
    sized(picture, COPIED_MM, units)
}

/// The picture as a drawing of this width and height, mm; its type and marks stay as large.
pub fn sized(picture: &Picture, size_mm: [f32; 2], units: &UnitChoice) -> Drawing {
    let frame = Frame::of(picture, size_mm, units);
    let mut shapes: Vec<Shape> = picture.wanted_across.iter().map(|(range, _)| frame.band_across(*range)).collect();
    shapes.extend(picture.below.iter().map(|(at, _)| frame.below(*at)));
    shapes.extend(picture.shade.iter().map(|shade| frame.shade(shade)));
    shapes.extend(picture.wanted.iter().map(|(range, _)| frame.band(*range)));
    shapes.extend(frame.axes(picture));
    picture.arrows.iter().for_each(|arrow| shapes.extend(frame.arrow(*arrow)));
    let uprights = picture.uprights.iter().map(|(at, _)| frame.at([*at, 0.0])[0]);
    shapes.extend(uprights.map(|x| Shape::line([[x, frame.top], [x, frame.bottom]], Stroke::Full)));
    shapes.extend(picture.plans.iter().flat_map(|plan| frame.lines_of_plan(plan)));
    shapes.extend(picture.lines.iter().map(|line| frame.line(line)));
    shapes.extend(frame.ticks(picture));
    shapes.extend(picture.marks.iter().map(|mark| drawing::mark(mark.state, frame.at(mark.at), MARK_MM)));
    shapes.extend(picture.plans.iter().flat_map(|plan| drawing::plan_mark(plan.mark, frame.at(plan.at), MARK_MM)));
    let dot = |centre| Shape::Circle { centre, radius_mm: 0.9, fill: Fill::Black, stroke: Stroke::Full };
    shapes.extend(picture.dots.iter().map(|d| dot(frame.at(d.at))));
    for placed in wording::words(picture, &frame) {
        shapes.extend(placed.leads.map(|ends| Shape::line(ends, Stroke::Dotted)));
        // The base line lies as far below the upper edge as the type is high.
        let at = [placed.at.min[0], placed.at.min[1] + TYPE_MM];
        shapes.push(words(at, Anchor::Start, &placed.words));
    }
    let [width_mm, height_mm] = size_mm;
    Drawing { width_mm, height_mm, words: picture.title.clone(), shapes }
}

/// The picture's data as a table file: what it is, its name, and its two coordinates in the units shown.
///
/// # Errors
/// What the table writer says; not known to happen.
pub fn csv(picture: &Picture, units: &UnitChoice) -> Result<String, csv::Error> {
    let (x, y) = (units.unit(picture.x.dim), units.unit(picture.y.dim));
    let mut table = csv::Writer::from_writer(Vec::new());
    table.write_record(["what", "name", &named(&picture.x, x), &named(&picture.y, y)])?;
    let cell = |si: Option<f64>, unit: &Unit| si.map_or(String::new(), |si| (si / unit.si).to_string());
    let mut put = |what: &str, name: &str, at: [Option<f64>; 2]| {
        table.write_record([what, name, &cell(at[0], x), &cell(at[1], y)])
    };
    for line in &picture.lines {
        line.points.iter().try_for_each(|at| put("line", &line.label, at.map(Some)))?;
    }
    for mark in &picture.marks {
        put("mark", &mark.label, mark.at.map(Some))?;
    }
    for dot in &picture.dots {
        put("measured", &dot.label, dot.at.map(Some))?;
    }
    for plan in &picture.plans {
        put("plan", &plan.label, plan.at.map(Some))?;
        let mut points = plan.lines.iter().flat_map(|line| &line.points);
        points.try_for_each(|at| put("plan line", &plan.label, at.map(Some)))?;
    }
    if let Some((range, said)) = &picture.wanted {
        range.iter().try_for_each(|up| put("range", said, [None, Some(*up)]))?;
    }
    if let Some((range, said)) = &picture.wanted_across {
        range.iter().try_for_each(|across| put("range", said, [Some(*across), None]))?;
    }
    if let Some((up, said)) = &picture.below {
        put("limit", said, [None, Some(*up)])?;
    }
    if let Some(Shade { points, label }) = &picture.shade {
        let mut ends = points.iter().flat_map(|[across, low, high]| [[*across, *low], [*across, *high]]);
        ends.try_for_each(|at| put("range", label, at.map(Some)))?;
    }
    for (across, said) in &picture.uprights {
        put("upright", said, [Some(*across), None])?;
    }
    for across in &picture.ticks {
        put("stock rate", "", [Some(*across), None])?;
    }
    text_of(table)
}

fn named(axis: &Axis, unit: &Unit) -> String {
    if unit.symbol.is_empty() { axis.name.to_owned() } else { format!("{} ({})", axis.name, unit.symbol) }
}

fn words(at: [f32; 2], anchor: Anchor, text: &str) -> Shape {
    Shape::Words { at, size_mm: TYPE_MM, anchor, bold: false, text: text.to_owned() }
}

/// Where values lie on the drawing.
struct Frame {
    left: f32,
    right: f32,
    top: f32,
    bottom: f32,
    x: [f64; 2],
    y: [f64; 2],
    units: [&'static Unit; 2],
}

impl Frame {
    fn of(picture: &Picture, size_mm: [f32; 2], units: &UnitChoice) -> Frame {
        let lines = picture.lines.iter().flat_map(|l| &l.points);
        let points: Vec<[f64; 2]> = lines
            .chain(picture.marks.iter().map(|m| &m.at))
            .chain(picture.dots.iter().map(|d| &d.at))
            .chain(picture.plans.iter().flat_map(|p| p.lines.iter().flat_map(|l| &l.points).chain([&p.at])))
            .copied()
            .chain(picture.shade.iter().flat_map(|s| &s.points).flat_map(|[x, low, high]| [[*x, *low], [*x, *high]]))
            .collect();
        let across = points.iter().map(|p| p[0]).chain(picture.uprights.iter().map(|u| u.0));
        let across = across.chain(picture.wanted_across.iter().flat_map(|w| w.0));
        let up = points.iter().map(|p| p[1]).chain(picture.wanted.iter().flat_map(|w| w.0));
        let up = up.chain(picture.below.iter().map(|b| b.0));
        // Marks that arrows join have words on both sides.
        let room = match (picture.arrows.is_empty(), picture.plans.is_empty()) {
            (true, _) => [0.03, 0.09],
            (false, true) => [0.25, 0.2],
            (false, false) => [0.45, 0.2],
        };
        let (top, bottom) = (if picture.title.is_empty() { UNTITLED_MM } else { ENDS_MM[0] }, size_mm[1] - ENDS_MM[1]);
        let mut y = span(up, room[1]);
        if let Some((at, _)) = &picture.below {
            // Room for its words.
            let share = f64::from(1.7 * TYPE_MM / (bottom - top)).min(0.4);
            y[0] = y[0].min(at - share / (1.0 - share) * (y[1] - at));
        }
        Frame {
            left: SIDES_MM[0],
            right: size_mm[0] - SIDES_MM[1],
            top,
            bottom,
            x: span(across, room[0]),
            y,
            units: [units.unit(picture.x.dim), units.unit(picture.y.dim)],
        }
    }

    fn axes(&self, picture: &Picture) -> Vec<Shape> {
        let Block { min, max } = self.frame();
        let mut shapes = vec![Shape::rect(min, max, Fill::None, Stroke::Full)];
        let [x, y] = self.units;
        for value in steps(self.x, x.si, f64::from((self.right - self.left) / 14.0).clamp(2.0, 7.0)) {
            let across = self.at([value * x.si, 0.0])[0];
            shapes.push(Shape::line([[across, self.bottom], [across, self.bottom + 1.2]], Stroke::Full));
            shapes.push(words([across, self.bottom + 1.8 + TYPE_MM], Anchor::Middle, &display::significant(value, 4)));
        }
        for value in steps(self.y, y.si, 6.0) {
            let down = self.at([0.0, value * y.si])[1];
            shapes.push(Shape::line([[self.left - 1.2, down], [self.left, down]], Stroke::Full));
            shapes.push(words([self.left - 2.0, down + 0.36 * TYPE_MM], Anchor::End, &display::significant(value, 4)));
        }
        let middle = 0.5 * (self.left + self.right);
        shapes.push(words([middle, self.bottom + ENDS_MM[1] - 3.0], Anchor::Middle, &named(&picture.x, x)));
        shapes.push(words([0.5, self.top - 2.2], Anchor::Start, &named(&picture.y, y)));
        let letters = ((self.right + SIDES_MM[1]) / (LETTER * TITLE_MM)) as usize;
        for (i, text) in in_two(&picture.title, letters).into_iter().enumerate() {
            let at = [0.5, (1.0 + 1.25 * i as f32) * TITLE_MM + 0.5];
            shapes.push(Shape::Words { at, size_mm: TITLE_MM, anchor: Anchor::Start, bold: true, text });
        }
        shapes
    }

    /// The wanted range, behind all else.
    fn band(&self, range: [f64; 2]) -> Shape {
        let [low, high] = range.map(|y| self.at([0.0, y])[1].clamp(self.top, self.bottom));
        Shape::rect([self.left, high], [self.right, low], Fill::Light, Stroke::Dotted)
    }

    /// A wanted range of x, behind all else.
    fn band_across(&self, range: [f64; 2]) -> Shape {
        let [low, high] = range.map(|x| self.at([x, 0.0])[0].clamp(self.left, self.right));
        Shape::rect([low, self.top], [high, self.bottom], Fill::Light, Stroke::Dotted)
    }

    /// What nothing may stand in, from this height down, behind all else.
    fn below(&self, at: f64) -> Shape {
        let top = self.at([0.0, at])[1].clamp(self.top, self.bottom);
        Shape::rect([self.left, top], [self.right, self.bottom], Fill::Middle, Stroke::Full)
    }

    /// An arrow between two marks, which it does not touch.
    fn arrow(&self, ends: [[f64; 2]; 2]) -> Vec<Shape> {
        const OFF_MM: f32 = 2.6;
        const HEAD_MM: f32 = 2.2;
        let [[ax, ay], [bx, by]] = ends.map(|p| self.at(p));
        let (dx, dy) = (bx - ax, by - ay);
        let long = dx.hypot(dy);
        if long < 2.0 * OFF_MM + HEAD_MM {
            return Vec::new();
        }
        let (ux, uy) = (dx / long, dy / long);
        let (start, end) = ([ax + OFF_MM * ux, ay + OFF_MM * uy], [bx - OFF_MM * ux, by - OFF_MM * uy]);
        let back = [end[0] - HEAD_MM * ux, end[1] - HEAD_MM * uy];
        let half = 0.4 * HEAD_MM;
        let corners = vec![end, [back[0] - half * uy, back[1] + half * ux], [back[0] + half * uy, back[1] - half * ux]];
        vec![Shape::line([start, back], Stroke::Full), Shape::Area { corners, fill: Fill::Black, stroke: Stroke::Full }]
    }

    /// A wanted range that changes along x, behind all else.
    fn shade(&self, shade: &Shade) -> Shape {
        let edge = |pick: fn(f64, f64) -> f64| shade.points.iter().map(move |[x, a, b]| [*x, pick(*a, *b)]);
        let low: Vec<[f64; 2]> = edge(f64::min).collect();
        let corners = low.iter().copied().chain(edge(f64::max).collect::<Vec<_>>().into_iter().rev());
        Shape::Area { corners: corners.map(|p| self.at(p)).collect(), fill: Fill::Light, stroke: Stroke::Dotted }
    }

    fn line(&self, line: &Line) -> Shape {
        let stroke = match line.state {
            _ if line.broken => Stroke::Dashed,
            Some(State::Before) => Stroke::Dotted,
            Some(State::OldSprings) => Stroke::Dashed,
            Some(State::NewSprings) => Stroke::Heavy,
            None => Stroke::Full,
        };
        Shape::Line { through: line.points.iter().map(|p| self.at(*p)).collect(), stroke }
    }

    fn lines_of_plan(&self, plan: &OfPlan) -> Vec<Shape> {
        let through = |line: &ThinLine| line.points.iter().map(|p| self.at(*p)).collect::<Vec<_>>();
        let stroke = |line: &ThinLine| if line.broken { Stroke::ThinDashed } else { Stroke::Thin };
        plan.lines.iter().map(|line| Shape::line(through(line), stroke(line))).collect()
    }

    fn ticks(&self, picture: &Picture) -> Vec<Shape> {
        let foot = wording::foot_of_ticks(picture);
        let places = picture.ticks.iter().map(|t| self.at([*t, foot]));
        places.map(|[x, y]| Shape::line([[x, y], [x, y - 1.8]], Stroke::Heavy)).collect()
    }
}

impl Surface for Frame {
    fn at(&self, point: [f64; 2]) -> [f32; 2] {
        let share = |v: f64, [low, high]: [f64; 2]| ((v - low) / (high - low)) as f32;
        let (x, y) = (share(point[0], self.x), share(point[1], self.y));
        [self.left + x * (self.right - self.left), self.bottom - y * (self.bottom - self.top)]
    }

    fn size(&self, words: &str) -> [f32; 2] {
        [LETTER * TYPE_MM * words.chars().count() as f32, 1.3 * TYPE_MM]
    }

    fn frame(&self) -> Block {
        Block { min: [self.left, self.top], max: [self.right, self.bottom] }
    }

    fn covers(&self) -> bool {
        true
    }

    fn sizes(&self) -> Sizes {
        Sizes { gap: 0.4, off: 1.0, mark: 2.2, small: 1.0 }
    }
}

/// From the least to the most, with some room; never empty.
fn span(values: impl Iterator<Item = f64>, room: f64) -> [f64; 2] {
    let finite = values.filter(|v| v.is_finite());
    let [low, high] = finite.fold([f64::INFINITY, f64::NEG_INFINITY], |[l, h], v| [l.min(v), h.max(v)]);
    if low > high {
        return [0.0, 1.0];
    }
    let wide = if high > low { high - low } else { low.abs().max(1.0) };
    [low - room * wide, high + room * wide]
}

/// Round values within a range, about this number, in a unit of this size.
fn steps([low, high]: [f64; 2], unit_si: f64, about: f64) -> Vec<f64> {
    let (low, high) = (low / unit_si, high / unit_si);
    let rough = (high - low) / about;
    let power = 10.0_f64.powf(rough.log10().floor());
    let step = [1.0, 2.0, 5.0, 10.0].map(|m| m * power).into_iter().find(|s| *s >= 0.8 * rough).unwrap_or(power);
    let (first, last) = ((low / step).ceil() as i64, (high / step).floor() as i64);
    (first..=last).map(|n| n as f64 * step).collect()
}

/// A title in one line or two.
fn in_two(text: &str, letters: usize) -> Vec<String> {
    if text.chars().count() <= letters {
        return vec![text.to_owned()];
    }
    let end = text.char_indices().nth(letters).map_or(text.len(), |(i, _)| i);
    match text[..end].rfind(' ') {
        Some(space) => vec![text[..space].to_owned(), text[space + 1..].to_owned()],
        None => vec![text.to_owned()],
    }
}
