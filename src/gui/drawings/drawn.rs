//! A [`Drawing`] of the report on screen: the shapes that paper has, in the colours of the window.

use eframe::egui::{
    Color32, FontId, Painter, Pos2, Role, Sense, Shape as Painted, Stroke as Line, Ui, WidgetInfo, vec2,
};

use crate::gui::drawings::plots;
use crate::gui::state::command::Command;
use crate::gui::widgets::{in_view, theme};
use crate::report::pictures::drawing::{Anchor, Drawing, Fill, Shape, Stroke};
use crate::report::pictures::plot::{Export, TYPE_MM};
use crate::solve::answer::State;

/// Points for a millimetre: words are as large as in any picture.
const SCALE: f32 = theme::SMALL / TYPE_MM;
/// No wider than that, points.
const WIDEST: f32 = 170.0 * SCALE;
/// What can be done with a picture is as high as that at least.
const MENU: f32 = 30.0;
/// Of the height of a line of type, what is above its base line: Noto Sans.
const ABOVE_BASE: f32 = 0.785;

/// What can be drawn of a picture. Nothing of it is made while it is out of view.
pub struct Pictured<'a> {
    /// Under which it keeps its room.
    pub id: &'a str,
    /// What it shows.
    pub title: &'a dyn Fn() -> String,
    /// Makes it of this width in millimetres.
    pub draw: &'a dyn Fn(f32) -> Drawing,
    /// As it is copied or saved.
    pub plot: &'a dyn Fn() -> Export,
}

/// How a picture was when it was in view last: the width there was, how high it was, its title.
type Remembered = (f32, f32, String);

/// A picture under its title, as wide as there is room.
pub fn show(ui: &mut Ui, picture: &Pictured<'_>, dark: bool, commands: &mut Vec<Command>) {
    let (place, wide) = (ui.scope_id().with(("picture", picture.id)), ui.available_width());
    let known: Option<Remembered> = ui.data(|d| d.get_temp(place)).filter(|known: &Remembered| known.0 == wide);
    if let Some((_, high, title)) = known.filter(|(_, high, _)| !in_view::is(ui, high + MENU)) {
        // What can be pressed is there all the same: the cursor goes to it, and it comes into view.
        plots::menu(ui, &title, picture.plot, commands);
        ui.allocate_space(vec2(wide, high));
        return;
    }
    let title = (picture.title)();
    plots::menu(ui, &title, picture.plot, commands);
    let drawing = (picture.draw)(wide.min(WIDEST) / SCALE);
    let size = vec2(drawing.width_mm, drawing.height_mm) * SCALE;
    ui.data_mut(|d| d.insert_temp(place, (wide, size.y, title)));
    let (rect, response) = ui.allocate_exact_size(size, Sense::hover());
    response.widget_info(|| WidgetInfo::labeled(Role::Image, true, &drawing.words));
    let visuals = ui.visuals();
    let (ink, back) = (visuals.text_color(), visuals.panel_fill);
    let canvas = Canvas { painter: ui.painter_at(rect), corner: rect.min, ink, back, dark };
    drawing.shapes.iter().for_each(|shape| canvas.shape(shape, ink));
}

/// Where and in which colours it is painted.
struct Canvas {
    painter: Painter,
    corner: Pos2,
    ink: Color32,
    back: Color32,
    dark: bool,
}

impl Canvas {
    fn at(&self, [x, y]: [f32; 2]) -> Pos2 {
        self.corner + vec2(x, y) * SCALE
    }

    fn shape(&self, shape: &Shape, ink: Color32) {
        match shape {
            Shape::Line { through, stroke } => self.line(through.iter().map(|at| self.at(*at)).collect(), *stroke, ink),
            Shape::Area { corners, fill, stroke } => {
                let mut round: Vec<Pos2> = corners.iter().map(|at| self.at(*at)).collect();
                if let Some(color) = self.fill(*fill, ink) {
                    self.painter.add(Painted::convex_polygon(round.clone(), color, Line::NONE));
                }
                round.extend(round.first().copied());
                self.line(round, *stroke, ink);
            }
            Shape::Circle { centre, radius_mm, fill, stroke } => {
                let color = self.fill(*fill, ink).unwrap_or(Color32::TRANSPARENT);
                let line = Line::new(width(*stroke), ink);
                self.painter.circle(self.at(*centre), radius_mm * SCALE, color, line);
            }
            Shape::Words { at, size_mm, anchor, bold, text } => {
                let family = if *bold { theme::bold() } else { eframe::egui::FontFamily::Proportional };
                let galley = self.painter.layout_no_wrap(text.clone(), FontId::new(size_mm * SCALE, family), ink);
                let left = match anchor {
                    Anchor::Start => 0.0,
                    Anchor::Middle => 0.5 * galley.size().x,
                    Anchor::End => galley.size().x,
                };
                let corner = self.at(*at) - vec2(left, ABOVE_BASE * galley.size().y);
                self.painter.galley(corner, galley, ink);
            }
            Shape::OfState(state, shapes) => {
                let ink = self.color(*state);
                shapes.iter().for_each(|shape| self.shape(shape, ink));
            }
        }
    }

    fn color(&self, state: State) -> Color32 {
        theme::state_color(state, self.dark)
    }

    fn line(&self, through: Vec<Pos2>, stroke: Stroke, ink: Color32) {
        let line = Line::new(width(stroke), ink);
        match stroke {
            Stroke::Full | Stroke::Heavy | Stroke::Thin => {
                self.painter.add(Painted::line(through, line));
            }
            Stroke::Dashed | Stroke::ThinDashed => self.painter.extend(Painted::dashed_line(&through, line, 6.0, 3.5)),
            Stroke::Dotted => self.painter.extend(Painted::dotted_line(&through, ink, 4.0, 0.5 * line.width)),
        }
    }

    /// White is the ground, black the ink, greys are in between.
    fn fill(&self, fill: Fill, ink: Color32) -> Option<Color32> {
        let grey = |share: f32| Some(self.back.lerp_to_gamma(self.ink, share));
        match fill {
            Fill::None => None,
            Fill::White => Some(self.back),
            Fill::Light => grey(0.15),
            Fill::Middle => grey(0.35),
            Fill::Dark => grey(0.6),
            Fill::Black => Some(ink),
        }
    }
}

fn width(stroke: Stroke) -> f32 {
    match stroke {
        Stroke::Full | Stroke::Dashed | Stroke::Dotted => 1.6,
        Stroke::Heavy => 2.4,
        Stroke::Thin | Stroke::ThinDashed => 1.0,
    }
}
