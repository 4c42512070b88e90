//! The customer's picture: a vehicle from the side and, enlarged next to it, spring and stop gap of an axle in each
//! state.
//!
//! Within one axle everything vertical between axle and body is to one scale: the change of height and the stop gap are
//! true to each other. The marks of the three states are those of the window: open circle, open square, full diamond.

use super::aim;
use super::sheet_table::{Shown, states};
use super::silhouette::{self, Outline};
use crate::base::units::{Length, Quantity};
use crate::job::Side;
use crate::report::Block;
use crate::report::phrases;
use crate::report::pictures::drawing::{Anchor, Drawing, Fill, Place, Shape, Stroke, spring_line, stroke};
use crate::report::sheets::page::Page;
use crate::solve::answer::{AxleAnswer, State};

/// Width and height of the picture, mm: no wider than the frame of any paper, or it would be made smaller and its scale
/// untrue.
const SIZE_MM: [f32; 2] = [178.0, 42.6];
/// Width of the picture of the job next to one axle.
const AIM_MM: f32 = 70.0;
/// Between pictures.
const GAP_MM: f32 = 2.0;
/// Height of the type: 8.5 points, the least on any sheet, on the narrower paper.
const TYPE_MM: f32 = 3.05;
/// The axle's upper face, from the top.
const AXLE_MM: f32 = 28.0;
/// Length of the bump stop at rest, in the picture.
const STOP_MM: f32 = 4.5;
/// Gap that is drawn when none is known and only heights are.
const NO_GAP_MM: f32 = 6.0;
/// The most that a gap may take, and a squeezed stop may lose.
const MOST_GAP_MM: f32 = 11.0;
/// The lowest line of words.
const FOOT_MM: f32 = SIZE_MM[1] - 0.5;
/// Round scales, picture over vehicle.
const SCALES: [(f32, &str); 6] = [
    (2.0, "scale.double"),
    (1.0, "scale.full"),
    (0.5, "scale.half"),
    (0.25, "scale.quarter"),
    (0.2, "scale.fifth"),
    (0.1, "scale.tenth"),
];

/// The picture of these axles; `None` when neither heights nor gaps are known.
pub(super) fn draw(page: &Page<'_>, axles: &[&AxleAnswer]) -> Option<Block> {
    let seen: Vec<(&AxleAnswer, Vec<Shown>)> = axles
        .iter()
        .map(|a| (*a, states(page, a)))
        .filter(|(_, s)| s.iter().any(|s| s.room.is_some()) || s.iter().filter(|s| s.height.is_some()).count() > 1)
        .collect();
    let mut shapes = Vec::new();
    let mut words = vec![page.plain("picture.words")];
    let [width_mm, height_mm] = SIZE_MM;
    match seen.as_slice() {
        [] => None,
        [(axle, shown)] => {
            let aim = aim::draw(page, axle.side, [AIM_MM, height_mm]);
            let (vehicle_mm, right_mm) =
                if aim.is_some() { (36.0, width_mm - AIM_MM - GAP_MM) } else { (60.0, width_mm) };
            vehicle(page, &mut shapes, [0.0, 6.0 + 0.2 * (60.0 - vehicle_mm)], vehicle_mm, &[axle.side]);
            let scale = scale(shown);
            words.push(panel(page, &mut shapes, axle, shown, [vehicle_mm + 3.0, right_mm], scale)?);
            let said = page.say("picture.scale", &[("scale", &page.plain(scale.1))]);
            label(&mut shapes, [0.5 * (vehicle_mm + 3.0 + right_mm), FOOT_MM], &said, false);
            let drawing = Drawing { width_mm: right_mm, height_mm, words: words.join(" "), shapes };
            let drawings = std::iter::once(drawing).chain(aim).collect();
            Some(Block::Drawing(Drawing::side_by_side(drawings, GAP_MM)))
        }
        [(front, of_front), (rear, of_rear), ..] => {
            vehicle(page, &mut shapes, [70.0, 11.0], 38.0, &Side::BOTH);
            // Side by side, equal gaps are drawn alike.
            let one = [scale(of_front), scale(of_rear)].into_iter().min_by(|a, b| a.0.total_cmp(&b.0))?;
            for (axle, shown, ends) in [(front, of_front, [0.0, 68.0]), (rear, of_rear, [110.0, width_mm])] {
                words.push(panel(page, &mut shapes, axle, shown, ends, one)?);
                let name = phrases::upper_first(&page.axle_words(axle.side));
                let ratio = if one.0 < 1.0 { format!("1:{:.0}", 1.0 / one.0) } else { format!("{:.0}:1", one.0) };
                let said = page.say("picture.axle_scale", &[("axle", &name), ("ratio", &ratio)]);
                label(&mut shapes, [0.5 * (ends[0] + ends[1]), FOOT_MM], &said, true);
            }
            // Two axles fill the page without it.
            Some(Block::Drawing(Drawing { width_mm, height_mm, words: words.join(" "), shapes }))
        }
    }
}

/// The vehicle's outline, its nose to the left, and below it that only the rest is to scale.
fn vehicle(page: &Page<'_>, shapes: &mut Vec<Shape>, at: Place, width_mm: f32, ringed: &[Side]) {
    silhouette::draw(shapes, page.job.vehicle.body, at, width_mm, ringed);
    let below = at[1] + 0.01 * Outline::HIGH * width_mm + 1.75 * TYPE_MM;
    label(shapes, [at[0] + 0.5 * width_mm, below], &page.plain("picture.outline"), false);
}

fn mm(length: Length) -> f32 {
    (length.si() * 1e3) as f32
}

/// The largest scale at which every gap fits.
fn scale(shown: &[Shown]) -> (f32, &'static str) {
    let gap = |s: &Shown| s.room.map_or_else(|| s.height.map(|h| mm(h.0)), |r| Some(mm(r.0)));
    let most = shown.iter().filter_map(gap).fold(0.0, f32::max);
    let least = shown.iter().filter_map(gap).fold(0.0, f32::min);
    let known = shown.iter().any(|s| s.room.is_some());
    // Without gaps, heights move about the middle.
    let (up, down) = if known { (MOST_GAP_MM, STOP_MM - 1.0) } else { (MOST_GAP_MM - NO_GAP_MM, NO_GAP_MM) };
    let fits = |s: &&(f32, &str)| most * s.0 <= up && -least * s.0 <= down;
    SCALES.iter().find(fits).copied().unwrap_or((0.05, "scale.twentieth"))
}

/// Spring and stop gap of one axle, a column for each state; gives back what it shows, in words.
fn panel(
    page: &Page<'_>,
    shapes: &mut Vec<Shape>,
    axle: &AxleAnswer,
    shown: &[Shown],
    [left, right]: [f32; 2],
    (scale, scale_key): (f32, &str),
) -> Option<String> {
    let column = (right - left) / shown.len() as f32;
    let body_at = |s: &Shown| match (s.room, s.height) {
        (Some((room, _)), _) => Some(AXLE_MM - STOP_MM - scale * mm(room)),
        (None, Some((rise, _))) => Some(AXLE_MM - STOP_MM - NO_GAP_MM - scale * mm(rise)),
        (None, None) => None,
    };
    let mut said = Vec::new();
    shapes.extend(shown.first().and_then(body_at).map(|y| Shape::line([[left, y], [right, y]], Stroke::Dotted)));
    for (i, s) in shown.iter().enumerate() {
        let middle = left + (i as f32 + 0.5) * column;
        mark(shapes, s.drawn(), [middle, 2.5]);
        let name = page.plain(s.keys(shown)[1]);
        label(shapes, [middle, 8.0], &name, true);
        let Some(y) = body_at(s) else { continue };
        one_column(shapes, s, middle, y);
        let told = told(page, s);
        for (text, y) in told.iter().zip([AXLE_MM + 6.9, AXLE_MM + 10.4]) {
            if let Some(text) = text {
                label(shapes, [middle, y], text, false);
            }
        }
        let told: Vec<String> = told.into_iter().flatten().collect();
        said.push(format!("{name}: {}", told.join(", ")));
    }
    let (axle, scale, states) = (page.axle_words(axle.side), page.plain(scale_key), said.join("; "));
    Some(page.say("picture.axle", &[("axle", &axle), ("scale", &scale), ("states", &states)]))
}

/// Height and gap as printed next to the spring, as far as known.
pub(super) fn told(page: &Page<'_>, shown: &Shown) -> [Option<String>; 2] {
    let height = shown.height.map(|(rise, _)| match shown.state {
        State::Before => page.plain("height.before"),
        _ => page.short_height(rise),
    });
    let gap = shown.room.map(|(room, _)| match room.si() {
        r if r <= 0.0 => page.plain("picture.no_gap"),
        _ => page.say("picture.gap", &[("room", &page.qty(room))]),
    });
    [height, gap]
}

fn fill(state: State) -> Fill {
    if state == State::NewSprings { Fill::Black } else { Fill::White }
}

fn label(shapes: &mut Vec<Shape>, at: Place, text: &str, bold: bool) {
    shapes.push(Shape::Words { at, size_mm: TYPE_MM, anchor: Anchor::Middle, bold, text: text.to_owned() });
}

/// Open circle, open square, full diamond.
fn mark(shapes: &mut Vec<Shape>, state: State, [x, y]: Place) {
    const R: f32 = 1.5;
    let area = |corners: Vec<Place>| Shape::Area { corners, fill: fill(state), stroke: Stroke::Full };
    shapes.push(match state {
        State::Before => Shape::Circle { centre: [x, y], radius_mm: R, fill: Fill::White, stroke: Stroke::Full },
        State::OldSprings => area(vec![[x - R, y - R], [x + R, y - R], [x + R, y + R], [x - R, y + R]]),
        State::NewSprings => {
            let r = 1.25 * R;
            area(vec![[x, y - r], [x + r, y], [x, y + r], [x - r, y]])
        }
    });
}

/// Body, spring, stop and axle of one state; the body's lower face is at `y`.
fn one_column(shapes: &mut Vec<Shape>, shown: &Shown, x: f32, y: f32) {
    shapes.push(Shape::rect([x - 9.0, AXLE_MM], [x + 9.0, AXLE_MM + 3.0], Fill::Dark, Stroke::Full));
    let lines = spring_line(shown.kind, [x - 6.5, x - 1.5], [y, AXLE_MM]);
    shapes.extend(lines.into_iter().map(|through| Shape::line(through, Stroke::Full)));
    if let Some((room, _)) = shown.room {
        let end = (y + STOP_MM).min(AXLE_MM);
        shapes.push(Shape::rect([x + 2.5, y], [x + 6.5, end], Fill::Light, Stroke::Full));
        if room.si() > 0.0 {
            shapes.push(Shape::line([[x + 4.5, end], [x + 4.5, AXLE_MM]], Stroke::Heavy));
        }
    }
    shapes.push(Shape::rect([x - 9.0, y - 2.5], [x + 9.0, y], fill(shown.drawn()), stroke(shown.drawn())));
}
