//! Pictures without axes: the vehicle from above, the travel ruler.

use eframe::egui::{self, Align2, FontId, Pos2, Rect, RichText, Sense, Stroke, Ui, UiBuilder, pos2, vec2};

use crate::base::language::tr;
use crate::base::units::{Entry, Length, Mass, Quantity, display};
use crate::gui::state::Cx;
use crate::gui::widgets::theme::{self, TALL, UNIT};
use crate::job::Side;
use crate::report::pictures::ruler::{self, Ruler};
use crate::report::sections::load_tables::told_mass;
use crate::report::sections::vehicle_tables as report_whole;
use crate::say;
use crate::solve::answer::{Measured, State, Weighed};

/// Width of a cell, where there is room; and the least that is left between the cells for the vehicle.
const CELL: f32 = 92.0;
const LEAST_CELL: f32 = 52.0;
const LEAST_VEHICLE: f32 = 90.0;
const SMALL: f32 = 12.5;
/// Room for words under the vehicle.
const UNDER: f32 = 16.0;

fn font(size: f32) -> FontId {
    FontId::proportional(size)
}

/// Places of things in the drawing of the vehicle.
struct Plan {
    rect: Rect,
    cell: f32,
    scale: f32,
    front_y: f32,
    rear_y: f32,
    half_track: [f32; 2],
}

impl Plan {
    fn new(rect: Rect, cx: &Cx<'_>) -> Self {
        let read = |entry: &Entry<Length>, fallback: f64| {
            let typed = entry.read(cx.job.decimal).ok().flatten().map(Quantity::si);
            typed.filter(|v| (0.5..=8.0).contains(v)).unwrap_or(fallback)
        };
        let wheelbase_m = read(&cx.job.vehicle.wheelbase, 2.7);
        let track_m = [read(&cx.job.front.track, 1.5), read(&cx.job.rear.track, 1.5)];
        let cell = (0.25 * (rect.width() - 6.0 * UNIT - LEAST_VEHICLE)).clamp(LEAST_CELL, CELL);
        let room = (rect.height() - 2.0 * 62.0, (rect.width() - 4.0 * cell - 6.0 * UNIT).max(0.5 * LEAST_VEHICLE));
        let scale = (f64::from(room.0) / wheelbase_m).min(f64::from(room.1) / track_m[0].max(track_m[1])) as f32;
        let half = 0.5 * wheelbase_m as f32 * scale;
        let middle = rect.center().y;
        Plan {
            rect,
            cell,
            scale,
            front_y: middle - half,
            rear_y: middle + half,
            half_track: track_m.map(|t| 0.5 * t as f32 * scale),
        }
    }

    /// LF, RF, LR, RR wheel centres.
    fn wheels(&self) -> [Pos2; 4] {
        let x = self.rect.center().x;
        let [f, r] = self.half_track;
        [pos2(x - f, self.front_y), pos2(x + f, self.front_y), pos2(x - r, self.rear_y), pos2(x + r, self.rear_y)]
    }

    /// Where the centre of gravity of a weigh-in is.
    fn centre_of_gravity(&self, weighed: &Weighed) -> Option<Pos2> {
        let front = weighed.front_share?.si() as f32;
        let left = weighed.left_share.map_or(0.5, |s| s.si() as f32);
        let half = front * self.half_track[0] + (1.0 - front) * self.half_track[1];
        let y = front * self.front_y + (1.0 - front) * self.rear_y;
        Some(pos2(self.rect.center().x + (1.0 - 2.0 * left) * half, y))
    }
}

/// The vehicle from above, to scale, with the corner readings on it. Enter walks LF, RF, LR, RR.
pub fn vehicle_from_above(ui: &mut Ui, cx: &mut Cx<'_>) {
    let (rect, _) = ui.allocate_exact_size(vec2(ui.available_width(), 340.0 + UNDER), Sense::hover());
    let rect = Rect::from_center_size(rect.center(), vec2(rect.width().min(640.0), rect.height()));
    let rect = Rect::from_min_max(rect.min, rect.max - vec2(0.0, UNDER));
    let plan = Plan::new(rect, cx);
    body(ui, &plan);
    signs(ui, cx, &plan);
    // Before is walked first, then after: drawing order is walking order.
    for (when, words, state) in [("before", tr("before"), State::Before), ("after", tr("after"), State::OldSprings)] {
        for (i, corner) in ["lf", "rf", "lr", "rr"].into_iter().enumerate() {
            let cell = cell_rect(&plan, i, when == "before");
            let caption = pos2(cell.left(), cell.top() - 9.0);
            theme::mark(ui.painter(), state, caption + vec2(6.0, 0.0), 4.0, cx.dark);
            let color = theme::state_color(state, cx.dark);
            ui.painter().text(caption + vec2(16.0, 0.0), Align2::LEFT_CENTER, words, font(SMALL), color);
            let mut inside = ui.new_child(UiBuilder::new().max_rect(cell));
            cx.cell(&mut inside, &format!("{when}.{corner}"), plan.cell);
        }
    }
    for i in 0..4 {
        change(ui, cx, &plan, i);
    }
}

/// The entry's place: left cells left of the wheel, right cells right of it.
fn cell_rect(plan: &Plan, corner: usize, before: bool) -> Rect {
    let y = if corner < 2 { plan.front_y } else { plan.rear_y };
    let pair = 2.0 * plan.cell + UNIT;
    let start = if corner.is_multiple_of(2) { plan.rect.left() } else { plan.rect.right() - pair };
    let x = if before { start } else { start + plan.cell + UNIT };
    Rect::from_min_size(pos2(x, y - 0.5 * TALL), vec2(plan.cell, TALL))
}

fn body(ui: &Ui, plan: &Plan) {
    let stroke = Stroke::new(1.5, ui.visuals().weak_text_color());
    let painter = ui.painter();
    let width = plan.half_track[0].max(plan.half_track[1]) + 0.12 * plan.scale;
    let x = plan.rect.center().x;
    let overhang = (0.75 * plan.scale).min(plan.front_y - plan.rect.top() - 2.0);
    let shell = Rect::from_min_max(
        pos2(x - width, plan.front_y - overhang),
        pos2(x + width, plan.rear_y + overhang.min(plan.rect.bottom() - plan.rear_y - 2.0)),
    );
    painter.rect_stroke(shell, 0.25 * plan.scale, stroke, egui::StrokeKind::Inside);
    let glass_y = plan.front_y + 0.55 * plan.scale;
    painter.hline(x - 0.8 * width..=x + 0.8 * width, glass_y, stroke);
    for (y, half) in [(plan.front_y, plan.half_track[0]), (plan.rear_y, plan.half_track[1])] {
        painter.hline(x - half..=x + half, y, Stroke::new(1.0, stroke.color));
    }
    let wheel = vec2(0.2, 0.62) * plan.scale;
    for at in plan.wheels() {
        painter.rect_filled(Rect::from_center_size(at, wheel), 3.0, ui.visuals().weak_text_color());
    }
    painter.text(pos2(x, shell.top() + 4.0), Align2::CENTER_TOP, Side::Front.word_inside(), font(SMALL), stroke.color);
}

/// Cross weight along its diagonal, and the centres of gravity.
fn signs(ui: &Ui, cx: &Cx<'_>, plan: &Plan) {
    let painter = ui.painter();
    let [_, rf, lr, _] = plan.wheels();
    let weak = ui.visuals().weak_text_color();
    let answer = &cx.shown.answer;
    painter.add(egui::Shape::dashed_line(&[rf, lr], Stroke::new(1.0, weak), 4.0, 5.0));
    let percent = |w: &Weighed| w.cross_weight.map(|c| format!("{} %", display::fixed(c.si() * 100.0, 1)));
    let words = match (percent(&answer.before), percent(&answer.after)) {
        (Some(before), Some(after)) => say!("cross weight\n{before} to {after}", before, after),
        (None, Some(one)) | (Some(one), None) => say!("cross weight\n{share}", share = one),
        (None, None) => tr("cross weight\nnot known").into(),
    };
    let at = pos2(plan.rect.center().x, plan.rear_y - 0.2 * (plan.rear_y - plan.front_y));
    let galley = painter.layout_no_wrap(words, font(SMALL), ui.visuals().text_color());
    let box_ = Rect::from_center_size(at, galley.size()).expand(2.0);
    painter.rect_filled(box_, 2.0, ui.visuals().panel_fill);
    painter.galley(box_.min + vec2(2.0, 2.0), galley, weak);
    for (weighed, state) in [(&answer.before, State::Before), (&answer.after, State::OldSprings)] {
        if let Some(at) = plan.centre_of_gravity(weighed) {
            theme::mark(painter, state, at, 6.0, cx.dark);
        }
    }
    if let Some(words) = report_whole::lean_words(answer, &cx.job.units) {
        let at = pos2(plan.rect.center().x, plan.rect.bottom() + UNDER);
        painter.text(at, Align2::CENTER_BOTTOM, words, font(SMALL), ui.visuals().text_color());
    }
    if let Some(at) = plan.centre_of_gravity(&answer.after) {
        let words = tr("centre of\ngravity");
        painter.text(at + vec2(14.0, 0.0), Align2::LEFT_CENTER, words, font(11.5), ui.visuals().text_color());
    }
}

/// Under a corner: how much it changed, with its ±, and what the ledger of parts says of it.
fn change(ui: &Ui, cx: &Cx<'_>, plan: &Plan, corner: usize) {
    let weights = |w: &Weighed| -> Option<Mass> { w.corners.map(|c| c.walk()[corner]) };
    let (answer, units) = (&cx.shown.answer, &cx.job.units);
    let told = answer.whole.ledger.map(|l| l.told);
    let of = |found: Option<[Measured; 4]>| found.map(|f| f[corner]);
    let mut lines = Vec::new();
    if let (Some(before), Some(after)) = (weights(&answer.before), weights(&answer.after)) {
        let change = after - before;
        let u = answer.whole.reading_u.map_or(0.0, |u| u[0][corner].hypot(u[1][corner]));
        let amount = told_mass(Measured { value: change.si().abs(), u }, false, units);
        lines.push(match change.si() < 0.0 {
            _ if amount.starts_with("0 ") => tr("unchanged").to_owned(),
            true => say!("{amount} lighter", amount),
            false => say!("{amount} heavier", amount),
        });
    }
    if let Some(left) = told.and_then(|t| of(t.residual)) {
        lines.push(say!("off the ledger {left}", left = told_mass(left, true, units)));
    } else if let Some(foretold) = told.and_then(|t| of(t.foretold)) {
        lines.push(say!("foretold {foretold}", foretold = told_mass(foretold, false, units)));
    } else if let Some(reckoned) = told.and_then(|t| of(t.reconstructed)) {
        lines.push(say!("before, reckoned {reckoned}", reckoned = told_mass(reckoned, false, units)));
    }
    let cell = cell_rect(plan, corner, true);
    for (i, text) in lines.into_iter().enumerate() {
        let at = pos2(cell.left() + plan.cell + 0.5 * UNIT, cell.bottom() + 11.0 + 16.0 * i as f32);
        ui.painter().text(at, Align2::CENTER_CENTER, text, font(SMALL), ui.visuals().text_color());
    }
}

/// The travel ruler of one axle: from full droop to metal, a line per spring.
pub fn travel_ruler(ui: &mut Ui, cx: &Cx<'_>, side: Side) {
    let Some(ruler) = ruler::ruler(cx.shown.answer.axle(side), &cx.job.units) else {
        let words = tr("The travel ruler follows once bump and droop travel, weights, ratio and rate are known.");
        ui.label(RichText::new(words).weak().italics());
        return;
    };
    ui.label(RichText::new(&ruler.title).heading());
    let height = 76.0 + 58.0 * ruler.options.len() as f32;
    let (rect, _) = ui.allocate_exact_size(vec2(ui.available_width(), height), Sense::hover());
    draw_ruler(ui, cx, &ruler, rect);
}

fn draw_ruler(ui: &Ui, cx: &Cx<'_>, ruler: &Ruler, rect: Rect) {
    let painter = ui.painter_at(rect);
    let color = ui.visuals().text_color();
    let weak = ui.visuals().weak_text_color();
    let places = ruler.places.iter().map(|p| p.at_m);
    let low = places.clone().fold(ruler.ends_m[0], f64::min);
    let high = places.fold(ruler.ends_m[1], f64::max);
    let (left, right) = (rect.left() + 96.0, rect.right() - 40.0);
    let x = |m: f64| left + ((m - low) / (high - low)) as f32 * (right - left);
    let bottom = rect.bottom() - 50.0;
    let mut rows = [f32::NEG_INFINITY; 3];
    let mut sorted: Vec<_> = ruler.places.iter().collect();
    sorted.sort_by(|a, b| a.at_m.total_cmp(&b.at_m));
    for place in sorted {
        let at = x(place.at_m);
        painter.vline(at, rect.top() + 4.0..=bottom, Stroke::new(1.5, weak));
        let number = display::rounded(Length::from_si(place.at_m), &cx.job.units);
        let galley = painter.layout_no_wrap(format!("{} {number}", place.label), font(11.5), color);
        let half = 0.5 * galley.size().x;
        let start = (at - half).clamp(rect.left(), rect.right() - 2.0 * half);
        let row = rows.iter().position(|end| start > *end + 6.0).unwrap_or(2);
        rows[row] = start + 2.0 * half;
        painter.galley(pos2(start, bottom + 1.0 + 15.0 * row as f32), galley, color);
    }
    for (i, option) in ruler.options.iter().enumerate() {
        let y = rect.top() + 30.0 + 58.0 * i as f32;
        painter.text(pos2(rect.left(), y), Align2::LEFT_CENTER, option.label, font(13.5), color);
        painter.hline(x(ruler.ends_m[0])..=x(ruler.ends_m[1]), y, Stroke::new(5.0, weak.gamma_multiply(0.45)));
        if let Some(loose) = option.loose_m {
            let dashes = egui::Shape::dashed_line(
                &[pos2(x(ruler.ends_m[0]), y), pos2(x(loose), y)],
                Stroke::new(5.0, theme::level_color(crate::job::Level::Doubt, cx.dark)),
                3.0,
                3.0,
            );
            painter.extend(dashes);
            painter.text(pos2(x(loose), y - 6.0), Align2::RIGHT_BOTTOM, tr("loose"), font(11.5), color);
        }
        for (state, m) in &option.stands {
            theme::mark(&painter, *state, pos2(x(*m), y), 7.0, cx.dark);
            let (dy, anchor) =
                if *state == State::OldSprings { (11.0, Align2::CENTER_TOP) } else { (-11.0, Align2::CENTER_BOTTOM) };
            let words = match state {
                State::Before => tr("before"),
                State::OldSprings | State::NewSprings => tr("after"),
            };
            painter.text(pos2(x(*m), y + dy), anchor, words, font(12.0), theme::state_color(*state, cx.dark));
        }
    }
}
