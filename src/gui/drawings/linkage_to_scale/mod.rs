//! The linkage to scale at droop, ride height and bump; before its points are known, a sketch that says which is which.

use eframe::egui::{Color32, Painter, Pos2, Rect, RichText, Role, Sense, Stroke, Ui, WidgetInfo, pos2, vec2};

use crate::base::language::tr;
use crate::base::units::{Length, Quantity, display};
use crate::gui::drawings::labels::Board;
use crate::gui::state::Cx;
use crate::gui::widgets::theme::UNIT;
use crate::job::{MeasuredOn, RatioBy, Side, Suspension, point_key};
use crate::report::pictures::label_places::{Block, Corner, around};
use crate::report::pictures::linkage_drawn::{Pose, poses};
use crate::say;
use crate::solve::answer::PointName;

const HEIGHT: f32 = 270.0;
/// Room around the drawing for letters.
const MARGIN: f32 = 26.0;
/// Half the size of a joint.
const JOINT: f32 = 3.0;

/// The points are used, or one of them has the cursor.
pub fn is_wanted(cx: &Cx<'_>, side: Side) -> bool {
    let axle = cx.job.axle(side);
    let by_points = [&axle.ratio, &axle.damper_ratio].iter().any(|r| r.by == RatioBy::Points);
    by_points || cx.view.at.as_deref().is_some_and(|path| path.contains(".linkage.") && !path.contains("beam_"))
}

/// The linkage as measured, droop and bump behind it; the point with the cursor is ringed.
pub fn show(ui: &mut Ui, cx: &Cx<'_>, side: Side) {
    let axle = cx.shown.answer.axle(side);
    let typed = cx.view.last_at.as_deref().and_then(point_of);
    let found = poses(axle);
    let (title, drawn) = match found.as_slice() {
        [droop, _, bump] => {
            let length = |m: f64| display::rounded(Length::from_si(m.abs()), &cx.job.units);
            let title = say!(
                "{side}: linkage at ride height, {droop} below it and {bump} above it",
                side = measured(cx, side),
                droop = length(droop.travel_m),
                bump = length(bump.travel_m)
            );
            (title, found)
        }
        _ => match example(cx.job.axle(side).suspension) {
            Some(pose) => {
                (tr("How to measure: outward distance and height of each point, at ride height").to_owned(), vec![pose])
            }
            None => return,
        },
    };
    ui.add(eframe::egui::Label::new(RichText::new(&title).heading()).wrap());
    let (rect, response) = ui.allocate_exact_size(vec2(ui.available_width(), HEIGHT), Sense::hover());
    response.widget_info(|| WidgetInfo::labeled(Role::Image, true, &title));
    let Some(view) = Plan::of(&drawn, rect) else { return };
    let painter = ui.painter_at(rect);
    let (ink, weak) = (ui.visuals().text_color(), ui.visuals().weak_text_color());
    view.ground(&painter, weak);
    let ride = drawn.len() / 2;
    for (i, pose) in drawn.iter().enumerate().filter(|(i, _)| *i != ride) {
        view.pose(&painter, pose, Stroke::new(1.0, weak), i == 0);
    }
    if let Some(pose) = drawn.get(ride) {
        view.pose(&painter, pose, Stroke::new(2.0, ink), false);
        let back = ui.visuals().panel_fill;
        let mut board = Board::new(ui, rect, back);
        drawn.iter().for_each(|pose| view.keep_clear(&mut board, pose));
        view.letters(board, pose, typed, [ink, ui.visuals().hyperlink_color]);
    }
    ui.add_space(UNIT);
}

/// "Front", and on which side of the vehicle it was measured.
fn measured(cx: &Cx<'_>, side: Side) -> String {
    match cx.job.axle(side).linkage.measured_on {
        MeasuredOn::NotSaid => side.word().to_string(),
        on => say!("{side}, measured {on}", side = side.word(), on = on.words()),
    }
}

/// The point of a coordinate's path.
fn point_of(path: &str) -> Option<PointName> {
    let key = path.split_once(".linkage.")?.1.split('.').next()?;
    PointName::ALL.into_iter().find(|name| point_key(*name) == key)
}

/// From metres to the screen: one scale both ways.
struct Plan {
    origin: Pos2,
    scale: f32,
    rect: Rect,
}

impl Plan {
    fn of(poses: &[Pose], rect: Rect) -> Option<Self> {
        let all = poses.iter().flat_map(|p| p.joints.iter().map(|j| j.1).chain(p.wheel));
        let (mut low, mut high) = ([f64::MAX; 2], [f64::MIN; 2]);
        for at in all {
            for i in [0, 1] {
                (low[i], high[i]) = (low[i].min(at[i]), high[i].max(at[i]));
            }
        }
        let radius = poses.first().map_or(0.3, |p| (p.wheel[0][1] - p.wheel[1][1]).abs());
        let (low, high) = ([low[0] - 0.4 * radius, low[1]], [high[0] + 0.6 * radius, high[1]]);
        let size = [(high[0] - low[0]) as f32, (high[1] - low[1]) as f32];
        if !(size[0] > 0.0 && size[1] > 0.0 && size.iter().all(|s| s.is_finite())) {
            return None;
        }
        let scale = ((rect.width() - 2.0 * MARGIN) / size[0]).min((rect.height() - 2.0 * MARGIN) / size[1]);
        let origin = pos2(rect.left() + MARGIN - low[0] as f32 * scale, rect.bottom() - MARGIN + low[1] as f32 * scale);
        Some(Plan { origin, scale, rect })
    }

    fn at(&self, [out, up]: [f64; 2]) -> Pos2 {
        self.origin + self.scale * vec2(out as f32, -up as f32)
    }

    /// The floor at the height from which heights count.
    fn ground(&self, painter: &Painter, colour: Color32) {
        let y = self.at([0.0, 0.0]).y;
        painter.line_segment([pos2(self.rect.left(), y), pos2(self.rect.right(), y)], Stroke::new(1.0, colour));
    }

    fn pose(&self, painter: &Painter, pose: &Pose, stroke: Stroke, dashed: bool) {
        let line = |points: Vec<Pos2>, stroke: Stroke| match dashed {
            true => {
                painter.extend(eframe::egui::Shape::dashed_line(&points, stroke, 5.0, 4.0));
            }
            false => {
                painter.line(points, stroke);
            }
        };
        for part in &pose.parts {
            line(part.iter().map(|p| self.at(*p)).collect(), stroke);
        }
        let [centre, contact] = pose.wheel;
        let radius = self.scale * (centre[0] - contact[0]).hypot(centre[1] - contact[1]) as f32;
        let rim = Stroke::new(1.0, stroke.color);
        if pose.from_the_side {
            painter.circle_stroke(self.at(centre), radius, rim);
        } else {
            // The tyre from in front: as wide as two thirds of its radius.
            let up = (self.at(centre) - self.at(contact)) / radius.max(1.0);
            let across = vec2(-up.y, up.x) * radius / 3.0;
            let (low, high) = (self.at(contact), self.at(contact) + up * 2.0 * radius);
            line(vec![low - across, low + across, high + across, high - across, low - across], rim);
        }
        if let Some([top, foot]) = pose.spring {
            line(zigzag(self.at(top), self.at(foot)), Stroke::new(1.5, stroke.color));
        }
        if let Some([top, foot]) = pose.damper.filter(|d| Some(*d) != pose.spring) {
            line(vec![self.at(top), self.at(foot)], Stroke::new(3.0, stroke.color.gamma_multiply(0.6)));
        }
    }

    /// Letters stand on none of the lines of this pose.
    fn keep_clear(&self, board: &mut Board, pose: &Pose) {
        let ends = |[a, b]: [[f64; 2]; 2]| [self.at(a), self.at(b)];
        for part in &pose.parts {
            part.windows(2).for_each(|ends| board.line([self.at(ends[0]), self.at(ends[1])]));
        }
        if let Some([top, foot]) = pose.spring.map(ends) {
            zigzag(top, foot).windows(2).for_each(|w| board.line([w[0], w[1]]));
        }
        if let Some(damper) = pose.damper.filter(|d| Some(*d) != pose.spring) {
            board.line(ends(damper));
        }
    }

    /// Every joint with its letter, clear of lines and joints; the one that is typed is ringed.
    fn letters(&self, mut board: Board, pose: &Pose, typed: Option<PointName>, [ink, accent]: [Color32; 2]) {
        let radius = |name: PointName| if typed == Some(name) { 10.0 } else { JOINT };
        for (name, at) in &pose.joints {
            let at = self.at(*at);
            board.places.block(Block::around([at.x, at.y], radius(*name)));
        }
        for (name, at) in &pose.joints {
            let (at, colour) = (self.at(*at), if typed == Some(*name) { accent } else { ink });
            let half = radius(*name);
            board.painter.circle_filled(at, JOINT, colour);
            if typed == Some(*name) {
                board.painter.circle_stroke(at, half, Stroke::new(2.5, accent));
            }
            let first = Corner { is_right: true, is_above: true };
            let place = board.put(name.letter(), colour, |size| around([at.x, at.y], half + 2.0, size, first));
            if let Some(ends) = place.lead([at.x, at.y], half, 3.0 * half) {
                board.painter.line_segment(ends.map(|[x, y]| pos2(x, y)), Stroke::new(1.0, colour));
            }
        }
    }
}

fn zigzag(a: Pos2, b: Pos2) -> Vec<Pos2> {
    const TURNS: usize = 9;
    let along = b - a;
    let across = vec2(-along.y, along.x).normalized() * 7.0;
    let turn = |i: usize| {
        let side = if i.is_multiple_of(2) { across } else { -across };
        a + along * ((i as f32 + 0.5) / TURNS as f32) + side
    };
    std::iter::once(a).chain((0..TURNS).map(turn)).chain([b]).collect()
}

/// An invented linkage of this construction, to show which point is which.
fn example(suspension: Suspension) -> Option<Pose> {
    use PointName as N;
    let (joints, from_the_side): (Vec<(PointName, [f64; 2])>, bool) = match suspension {
        Suspension::TwoArms => (
            vec![
                (N::UpperInner, [0.38, 0.50]),
                (N::UpperOuter, [0.62, 0.52]),
                (N::LowerInner, [0.24, 0.22]),
                (N::LowerOuter, [0.65, 0.20]),
                (N::Wheel, [0.74, 0.32]),
                (N::Ground, [0.74, 0.0]),
                (N::SpringTop, [0.40, 0.62]),
                (N::SpringFoot, [0.49, 0.21]),
            ],
            false,
        ),
        Suspension::Strut => (
            vec![
                (N::StrutTop, [0.57, 0.86]),
                (N::StrutAxis, [0.62, 0.43]),
                (N::LowerInner, [0.36, 0.22]),
                (N::LowerOuter, [0.70, 0.19]),
                (N::Wheel, [0.75, 0.31]),
                (N::Ground, [0.75, 0.0]),
            ],
            false,
        ),
        Suspension::TrailingArm | Suspension::SemiTrailingArm | Suspension::TwistBeam => (
            vec![
                (N::ArmPivot, [0.0, 0.34]),
                (N::Wheel, [0.43, 0.31]),
                (N::Ground, [0.43, 0.0]),
                (N::SpringTop, [0.22, 0.63]),
                (N::SpringFoot, [0.25, 0.31]),
            ],
            true,
        ),
        Suspension::NotSaid | Suspension::Beam | Suspension::Other => return None,
    };
    let at = |name: PointName| joints.iter().find(|j| j.0 == name).map(|j| j.1);
    let line = |names: &[PointName]| names.iter().filter_map(|n| at(*n)).collect::<Vec<_>>();
    let parts = vec![
        line(&[N::UpperInner, N::UpperOuter, N::Wheel, N::LowerOuter, N::LowerInner]),
        line(&[N::StrutTop, N::StrutAxis, N::Wheel]),
        line(&[N::ArmPivot, N::Wheel]),
    ];
    let parts = parts.into_iter().filter(|p: &Vec<[f64; 2]>| p.len() > 1).collect();
    let spring = at(N::SpringTop).zip(at(N::SpringFoot)).or(at(N::StrutTop).zip(at(N::StrutAxis)));
    let wheel = [at(N::Wheel)?, at(N::Ground)?];
    let spring = spring.map(|(a, b)| [a, b]);
    Some(Pose { travel_m: 0.0, parts, spring, damper: None, wheel, joints, from_the_side })
}
