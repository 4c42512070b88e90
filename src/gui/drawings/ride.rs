//! The side view that moves: before, on the old springs and on the new, on the same road at the same moment.

use eframe::egui::{self, Align2, FontId, Pos2, Rect, Sense, Stroke, Ui, pos2, vec2};

use crate::base::language::tr;
use crate::base::units::{Length, Quantity, display};
use crate::gui::background::riding::Riding;
use crate::gui::state::Cx;
use crate::gui::widgets::theme;
use crate::job::Side;
use crate::say;
use crate::solve::answer::{OverRoad, PerState, State};
use crate::solve::road::{Driven, Ride, SAMPLE_S, Track};

/// Scale of heights relative to lengths.
pub const TALLER: f32 = 4.0;
const LANE: f32 = 100.0;
/// The state and its bump room stand in a column this wide, at the right: the body moves up and down in all the rest.
const COLUMN: f32 = 186.0;
const LARGEST_PX_PER_M: f32 = 56.0;
const WHEEL_M: f32 = 0.32;

/// Draws all three lanes at a moment of the runs.
pub fn show(ui: &mut Ui, cx: &Cx<'_>, driven: &Driven, over: OverRoad, at_s: f64) {
    let rides = &driven.over[over as usize];
    let size = vec2((ui.available_width() - 2.0 * theme::UNIT).min(720.0), 3.0 * LANE);
    let (rect, response) = ui.allocate_exact_size(size, Sense::hover());
    let said = words(cx, rides, at_s, over);
    response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Image, true, said.clone()));
    let painter = ui.painter_at(rect);
    for (i, state) in State::ALL.into_iter().enumerate() {
        let top = rect.top() + LANE * i as f32;
        let lane = Rect::from_min_size(pos2(rect.left(), top), vec2(rect.width(), LANE));
        painter.hline(lane.x_range(), lane.top(), Stroke::new(0.5, ui.visuals().weak_text_color()));
        let drawing = Lane { painter: &painter, lane, state, cx, driven, color: ui.visuals().text_color() };
        drawing.show(rides, over, at_s);
    }
}

/// The sample at a moment of what is shown.
fn sample(track: &Track, over: OverRoad, at_s: f64) -> usize {
    let from_s = Riding::shown_s(over).1;
    (((from_s + at_s) / SAMPLE_S).round() as usize).min(track.road_m.len().saturating_sub(1))
}

/// Bump room left at one wheel, m.
pub fn room_m(cx: &Cx<'_>, side: Side, state: State, track: &Track, sample: usize) -> Option<f64> {
    let room = cx.shown.answer.axle(side).standing.of(state).as_ref()?.stop_room?;
    Some(room.si() - track.pressed_m.get(sample)?)
}

/// What the picture shows, for those who do not see it.
fn words(cx: &Cx<'_>, rides: &PerState<Option<Ride>>, at_s: f64, over: OverRoad) -> String {
    let one = |state: State| {
        let track = rides.of(state).as_ref()?.runs[cx.view.side()].as_ref()?;
        let room = room_m(cx, cx.view.side(), state, track, sample(track, over, at_s))?;
        Some(format!("{}: {}", state.words(), room_words(room, cx)))
    };
    State::ALL.into_iter().filter_map(one).collect::<Vec<_>>().join("; ")
}

fn room_words(room_m: f64, cx: &Cx<'_>) -> String {
    match room_m {
        r if r > 0.0 => say!("{room} to bump stop", room = display::rounded(Length::from_si(r), &cx.job.units)),
        _ => tr("on the bump stop").to_owned(),
    }
}

struct Lane<'a> {
    painter: &'a egui::Painter,
    lane: Rect,
    state: State,
    cx: &'a Cx<'a>,
    driven: &'a Driven,
    color: egui::Color32,
}

impl Lane<'_> {
    fn show(&self, rides: &PerState<Option<Ride>>, over: OverRoad, at_s: f64) {
        let color = theme::state_color(self.state, self.cx.dark);
        let head = self.lane.right_top() + vec2(18.0 - COLUMN, 14.0);
        theme::mark(self.painter, self.state, head, 5.0, self.cx.dark);
        self.painter.text(head + vec2(14.0, 0.0), Align2::LEFT_CENTER, self.state.words(), theme::small(), color);
        let Some(ride) = rides.of(self.state) else {
            self.painter.text(self.lane.center(), Align2::CENTER_CENTER, tr("not known"), theme::small(), self.color);
            return;
        };
        let wheelbase_m = self.driven.wheelbase.map_or(2.6, Quantity::si) as f32;
        let width = self.lane.width() - COLUMN;
        let scale = (width * 0.5 / wheelbase_m).min(LARGEST_PX_PER_M);
        let up = TALLER * scale;
        let ground = self.lane.bottom() - 12.0;
        let front_x = self.lane.left() + 0.55 * width + 0.5 * wheelbase_m * scale;
        self.road(ride, over, at_s, (front_x, ground, scale, up));
        let mut ends: Vec<Pos2> = Vec::new();
        for side in Side::BOTH {
            let Some(track) = ride.runs[side].as_ref() else { continue };
            let x = if side == Side::Front { front_x } else { front_x - wheelbase_m * scale };
            let i = sample(track, over, at_s);
            let radius = WHEEL_M * scale;
            let wheel = pos2(x, ground - radius - up * track.wheel_m[i] as f32);
            let standing = self.cx.shown.answer.axle(side).standing.of(self.state).as_ref();
            let higher_m = standing.and_then(|s| s.height_change).map_or(0.0, Quantity::si);
            let body = pos2(x, ground - 2.0 * radius - 2.0 - up * (track.body_m[i] + higher_m) as f32);
            self.painter.circle_stroke(wheel, radius, Stroke::new(3.0, self.color));
            self.painter.circle_filled(wheel, 3.0, self.color);
            self.painter.line_segment([wheel, body], Stroke::new(2.0, color));
            self.room(side, track, i);
            ends.push(body);
        }
        if let [front, rear] = ends[..] {
            self.body(front, rear, scale, color);
        }
    }

    /// The road under and around the wheels: the front wheel's way, ahead and behind.
    fn road(&self, ride: &Ride, over: OverRoad, at_s: f64, (front_x, ground, scale, up): (f32, f32, f32, f32)) {
        let known = ride.runs.iter().enumerate().find_map(|(i, r)| Some((i, r.as_ref()?)));
        let Some((axle, track)) = known else { return };
        let wheelbase_m = self.driven.wheelbase.map_or(2.6, Quantity::si) as f32;
        let x0 = if axle == 0 { front_x } else { front_x - wheelbase_m * scale };
        let here = sample(track, over, at_s) as f32;
        let per_sample = self.driven.speed.si() as f32 * SAMPLE_S as f32 * scale;
        let mut points = Vec::new();
        let mut x = self.lane.left();
        while x <= self.lane.right() - COLUMN {
            let at = here + (x - x0) / per_sample;
            let low = (at.floor().max(0.0) as usize).min(track.road_m.len() - 1);
            let high = (low + 1).min(track.road_m.len() - 1);
            let share = (at - low as f32).clamp(0.0, 1.0);
            let height = track.road_m[low] as f32 * (1.0 - share) + track.road_m[high] as f32 * share;
            points.push(pos2(x, ground - up * height));
            x += 2.0;
        }
        self.painter.add(egui::Shape::line(points, Stroke::new(2.0, self.color)));
    }

    /// The bump room left, in words at the right; framed and bold where none is.
    fn room(&self, side: Side, track: &Track, sample: usize) {
        let Some(room_m) = room_m(self.cx, side, self.state, track, sample) else { return };
        let at = pos2(self.lane.right() - COLUMN + 8.0, self.lane.top() + 40.0 + 26.0 * side as usize as f32);
        let font = FontId::new(theme::SMALL, if room_m > 0.0 { egui::FontFamily::Proportional } else { theme::bold() });
        let text = format!("{}: {}", side.word(), room_words(room_m, self.cx));
        let placed = self.painter.layout_no_wrap(text, font, self.color);
        let rect = Align2::LEFT_CENTER.anchor_size(at, placed.size()).expand2(vec2(4.0, 1.0));
        if room_m <= 0.0 {
            self.painter.rect_stroke(rect, 2.0, Stroke::new(2.0, self.color), egui::StrokeKind::Outside);
        }
        self.painter.galley(rect.shrink2(vec2(4.0, 1.0)).min, placed, self.color);
    }

    /// The outline of a body on its two ends.
    fn body(&self, front: Pos2, rear: Pos2, scale: f32, color: egui::Color32) {
        let along = (front - rear) / (front.x - rear.x);
        let at = |x_m: f32, above: f32| {
            let base = rear + along * (x_m * scale + (front.x - rear.x) * 0.5);
            base - vec2(0.0, above)
        };
        let half = 0.5 * (front.x - rear.x) / scale;
        let low = 0.30 * scale;
        let roof = 0.62 * scale;
        let outline = vec![
            at(-half - 0.55, 0.0),
            at(half + 0.6, 0.0),
            at(half + 0.62, low),
            at(half - 0.1, low + 4.0),
            at(half - 0.65, roof),
            at(-half - 0.45, roof),
            at(-half - 0.6, low),
        ];
        let fill = color.gamma_multiply(0.15);
        self.painter.add(egui::Shape::closed_line(outline.clone(), Stroke::new(2.0, color)));
        self.painter.add(egui::Shape::convex_polygon(outline, fill, Stroke::NONE));
    }
}
