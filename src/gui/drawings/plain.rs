//! The vehicle from above, to scale: the form for weights.

use eframe::egui::{self, Align2, Pos2, Rect, Role, Sense, Stroke, Ui, UiBuilder, WidgetInfo, pos2, vec2};

use crate::base::language::tr;
use crate::base::units::{Dim, Entry, Length, Mass, Quantity, UnitChoice, display};
use crate::gui::drawings::labels::{Board, beside_mark};
use crate::gui::state::Cx;
use crate::gui::widgets::theme::{self, TALL, UNIT};
use crate::job::{PerAxle, Side};
use crate::report::pictures::label_places::{Block, along};
use crate::report::sections::corner_tables;
use crate::say;
use crate::solve::answer::{Answer, Measured, State, Weighed};

/// Width of a cell, where there is room; and the least that is left between the cells for the vehicle.
const CELL: f32 = 92.0;
const LEAST_CELL: f32 = 52.0;
const LEAST_VEHICLE: f32 = 90.0;
/// Room for words under the vehicle.
const UNDER: f32 = 16.0;

/// Places of things in the drawing of the vehicle.
struct Plan {
    rect: Rect,
    cell: f32,
    scale: f32,
    front_y: f32,
    rear_y: f32,
    half_track: PerAxle<f32>,
}

impl Plan {
    fn new(rect: Rect, cx: &Cx<'_>) -> Self {
        let read = |entry: &Entry<Length>, fallback: f64| {
            let typed = entry.read(cx.job.decimal).ok().flatten().map(Quantity::si);
            typed.filter(|v| (0.5..=8.0).contains(v)).unwrap_or(fallback)
        };
        let wheelbase_m = read(&cx.job.vehicle.wheelbase, 2.7);
        let track_m = PerAxle { front: read(&cx.job.front.track, 1.5), rear: read(&cx.job.rear.track, 1.5) };
        let cell = (0.25 * (rect.width() - 6.0 * UNIT - LEAST_VEHICLE)).clamp(LEAST_CELL, CELL);
        let room = (rect.height() - 2.0 * 62.0, (rect.width() - 4.0 * cell - 6.0 * UNIT).max(0.5 * LEAST_VEHICLE));
        let scale = (f64::from(room.0) / wheelbase_m).min(f64::from(room.1) / track_m.front.max(track_m.rear)) as f32;
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

    /// The outline of the body.
    fn shell(&self) -> Rect {
        let half = self.half_track.front.max(self.half_track.rear) + 0.12 * self.scale;
        let x = self.rect.center().x;
        let overhang = (0.75 * self.scale).min(self.front_y - self.rect.top() - 2.0);
        Rect::from_min_max(
            pos2(x - half, self.front_y - overhang),
            pos2(x + half, self.rear_y + overhang.min(self.rect.bottom() - self.rear_y - 2.0)),
        )
    }

    /// Where the windscreen is.
    fn glass_y(&self) -> f32 {
        self.front_y + 0.55 * self.scale
    }

    /// LF, RF, LR, RR wheel centres.
    fn wheels(&self) -> [Pos2; 4] {
        let x = self.rect.center().x;
        let PerAxle { front: f, rear: r } = self.half_track;
        [pos2(x - f, self.front_y), pos2(x + f, self.front_y), pos2(x - r, self.rear_y), pos2(x + r, self.rear_y)]
    }

    /// Where the centre of gravity of a weigh-in is.
    fn centre_of_gravity(&self, weighed: &Weighed) -> Option<Pos2> {
        let front = weighed.front_share?.si() as f32;
        let left = weighed.left_share.map_or(0.5, |s| s.si() as f32);
        let half = front * self.half_track.front + (1.0 - front) * self.half_track.rear;
        let y = front * self.front_y + (1.0 - front) * self.rear_y;
        Some(pos2(self.rect.center().x + (1.0 - 2.0 * left) * half, y))
    }
}

/// The vehicle from above, to scale, with the corner readings on it. Enter walks LF, RF, LR, RR.
pub fn vehicle_from_above(ui: &mut Ui, cx: &mut Cx<'_>) {
    let (rect, response) = ui.allocate_exact_size(vec2(ui.available_width(), 340.0 + UNDER), Sense::hover());
    response.widget_info(|| WidgetInfo::labeled(Role::Image, true, tr("The vehicle from above")));
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
            ui.painter().text(caption + vec2(16.0, 0.0), Align2::LEFT_CENTER, words, theme::small(), color);
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
    let (x, shell) = (plan.rect.center().x, plan.shell());
    painter.rect_stroke(shell, 0.25 * plan.scale, stroke, egui::StrokeKind::Inside);
    let half = 0.4 * shell.width();
    painter.hline(x - half..=x + half, plan.glass_y(), stroke);
    for (y, half) in [(plan.front_y, plan.half_track.front), (plan.rear_y, plan.half_track.rear)] {
        painter.hline(x - half..=x + half, y, Stroke::new(1.0, stroke.color));
    }
    let wheel = vec2(0.2, 0.62) * plan.scale;
    for at in plan.wheels() {
        painter.rect_filled(Rect::from_center_size(at, wheel), 3.0, ui.visuals().weak_text_color());
    }
}

/// Cross weight along its diagonal, and the centres of gravity.
fn signs(ui: &Ui, cx: &Cx<'_>, plan: &Plan) {
    let (ink, weak) = (ui.visuals().text_color(), ui.visuals().weak_text_color());
    let answer = &cx.shown.answer;
    if let Some(words) = corner_tables::lean_words(answer, State::OldSprings, &cx.job.units) {
        let at = pos2(plan.rect.center().x, plan.rect.bottom() + UNDER);
        ui.painter().text(at, Align2::CENTER_BOTTOM, words, theme::small(), ink);
    }
    let inside = plan.shell();
    let mut board = Board::new(ui, inside, ui.visuals().panel_fill);
    let [lf, rf, lr, rr] = plan.wheels();
    board.painter.add(egui::Shape::dashed_line(&[rf, lr], Stroke::new(1.0, weak), 4.0, 5.0));
    let glass_y = plan.glass_y();
    let glass = [pos2(inside.left(), glass_y), pos2(inside.right(), glass_y)];
    [[rf, lr], [lf, rf], [lr, rr], glass].into_iter().for_each(|ends| board.line(ends));
    plan.wheels().into_iter().for_each(|at| board.places.block(Block::around([at.x, at.y], 0.31 * plan.scale)));
    let front = Side::Front.word_inside();
    board.put(front.said(), weak, |size| vec![[inside.center().x - 0.5 * size[0], inside.top() + 3.0]]);
    let marks = [(&answer.before, State::Before), (&answer.after, State::OldSprings)]
        .map(|(weighed, state)| plan.centre_of_gravity(weighed).map(|at| (at, state)));
    for (at, state) in marks.into_iter().flatten() {
        theme::mark(&board.painter, state, at, 6.0, cx.dark);
        board.mark(at);
    }
    if let Some((at, _)) = marks[1] {
        board.put(tr("centre of\ngravity"), ink, |size| beside_mark(at, size, false, false));
    }
    let percent = |w: &Weighed| w.cross_weight.map(|c| format!("{} %", display::fixed(c.si() * 100.0, 1)));
    let words = match (percent(&answer.before), percent(&answer.after)) {
        (Some(before), Some(after)) => say!("cross weight\n{before} to {after}", before, after),
        (None, Some(one)) | (Some(one), None) => say!("cross weight\n{share}", share = one),
        (None, None) => tr("cross weight\nnot known").into(),
    };
    let diagonal = [rf, lr].map(|at| [at.x, at.y]);
    board.put(&words, ink, |size| along(&diagonal, 0.72, 4.0, size, false));
}

/// "253 ± 4 kg", "+12 ± 3 kg".
fn told_mass(m: Measured, signed: bool, units: &UnitChoice) -> String {
    let text = display::rounded_with_u(m.value, Some(m.u), Dim::Mass, units);
    let sign = if signed && m.value > 0.0 && !text.starts_with("0 ") { "+" } else { "" };
    format!("{sign}{text}")
}

/// "± 1 kg".
fn plus_minus(u: f64, units: &UnitChoice) -> String {
    format!("± {}", display::rounded(Mass::from_si(u), units))
}

/// Under a corner: how much it changed, with its ±, and what the ledger of parts says of it.
fn change(ui: &Ui, cx: &Cx<'_>, plan: &Plan, corner: usize) {
    let weights = |w: &Weighed| -> Option<Mass> { w.corners.map(|c| c.walk()[corner]) };
    let (answer, units) = (&cx.shown.answer, &cx.job.units);
    let told = answer.whole.ledger.map(|l| l.told);
    let of = |found: Option<[Measured; 4]>| found.map(|f| f[corner]);
    let mut lines = Vec::new();
    let mut moved = None;
    if let (Some(before), Some(after)) = (weights(&answer.before), weights(&answer.after)) {
        let change = after - before;
        let u = answer.whole.reading_u.map_or(0.0, |u| u.before[corner].hypot(u.after[corner]));
        let amount = told_mass(Measured { value: change.si().abs(), u }, false, units);
        // What is within its ±, both as they are shown, may as well be none.
        let shown = |kg: f64| display::as_shown(kg.abs(), units.unit(Dim::Mass));
        moved = Some(change.si()).filter(|kg| shown(*kg) > shown(u));
        lines.push(match change.si() < 0.0 {
            _ if amount.starts_with("0 ") => tr("unchanged").to_owned(),
            _ if moved.is_none() => say!("the same within {u}", u = plus_minus(u, units)),
            true => say!("{amount} lighter", amount),
            false => say!("{amount} heavier", amount),
        });
    }
    if let Some(left) = told.and_then(|t| of(t.residual)) {
        lines.push(say!("differs from parts ledger by {left}", left = told_mass(left, true, units)));
    } else if let Some(foretold) = told.and_then(|t| of(t.foretold)) {
        lines.push(say!("predicted {mass}", mass = told_mass(foretold, false, units)));
    } else if let Some(reckoned) = told.and_then(|t| of(t.reconstructed)) {
        lines.push(say!("before, calculated {mass}", mass = told_mass(reckoned, false, units)));
    }
    let cell = cell_rect(plan, corner, true);
    for (i, text) in lines.into_iter().enumerate() {
        let at = pos2(cell.left() + plan.cell + 0.5 * UNIT, cell.bottom() + 11.0 + 18.0 * i as f32);
        let drawn = ui.painter().text(at, Align2::CENTER_CENTER, text, theme::small(), ui.visuals().text_color());
        if let Some(share) = moved.take().map(|kg| kg / largest_change(answer)) {
            arrow(ui, drawn.left_center() - vec2(UNIT, 0.0), share as f32);
        }
    }
}

/// The largest change of any corner, kg.
fn largest_change(answer: &Answer) -> f64 {
    let of = |w: &Weighed| w.corners.map(|c| c.walk().map(|m: Mass| m.si()));
    let changes = of(&answer.before).zip(of(&answer.after)).map(|(b, a)| [0, 1, 2, 3].map(|i| (a[i] - b[i]).abs()));
    changes.into_iter().flatten().fold(0.0, f64::max)
}

/// Down for more weight, up for less; the longer, the larger the change is compared with the largest.
fn arrow(ui: &Ui, middle: Pos2, share: f32) {
    let along = vec2(0.0, share.signum() * (11.0 + 5.0 * share.abs()));
    ui.painter().arrow(middle - 0.5 * along, along, Stroke::new(1.5, ui.visuals().text_color()));
}
