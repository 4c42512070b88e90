//! What pictures of the chosen plan show of the others.

use std::borrow::Cow;

use crate::base::message::Message;
use crate::job::{PerAxle, Side};
use crate::report::pictures::motion::hump;
use crate::report::pictures::picture::{Line, OfPlan, Picture, PlanMark, ThinLine};
use crate::report::pictures::shift;
use crate::solve::answer::{Answer, Swing};

/// The marks of other plans in their order; no more are shown.
pub const PLAN_MARKS: [PlanMark; 3] = [PlanMark::Up, PlanMark::Down, PlanMark::Star];

/// A plan that is not chosen.
#[derive(Debug, Clone)]
pub struct Seen {
    /// What it is called.
    pub name: Message,
    /// Frequency, Hz, and height change from before, m, of each axle; `None` where they are not known or withheld.
    pub places: PerAxle<Option<[f64; 2]>>,
    /// How both ends swing after a hump.
    pub swings: Option<PerAxle<Swing>>,
}

impl Seen {
    /// Of its answer. What is withheld is not shown.
    pub fn of(name: Message, answer: &Answer) -> Self {
        let is_free = answer.axles.iter().all(|axle| !axle.is_refitted() || answer.released(axle.side).is_ok());
        Seen {
            name,
            places: PerAxle::each(|side: Side| shift::last_place(answer, side)),
            swings: hump::last_swings(answer).filter(|_| is_free).map(|(_, swings)| swings),
        }
    }
}

/// The same picture with where other plans bring the axle; a plan that does there what a mark shows has none of its own.
/// Without other plans it is the picture itself.
#[must_use]
pub fn in_shift<'a>(picture: &'a Picture, side: Side, plans: &[&Seen]) -> Cow<'a, Picture> {
    if plans.is_empty() {
        return Cow::Borrowed(picture);
    }
    let mut found: Vec<OfPlan> = Vec::new();
    for (mark, plan) in PLAN_MARKS.into_iter().zip(plans) {
        let Some(at) = plan.places[side].filter(|at| !picture.marks.iter().any(|mark| is_same_mark(mark.at, *at)))
        else {
            continue;
        };
        let name = plan.name.to_string();
        match found.iter_mut().find(|other| is_same_mark(other.at, at)) {
            Some(same) => same.label = format!("{}, {name}", same.label),
            None => found.push(OfPlan { mark, label: name, at, lines: Vec::new() }),
        }
    }
    Cow::Owned(Picture { plans: found, ..picture.clone() })
}

/// Two marks there would cover each other.
fn is_same_mark(a: [f64; 2], b: [f64; 2]) -> bool {
    const SAME_HZ: f64 = 0.01;
    const SAME_M: f64 = 0.001;
    (a[0] - b[0]).abs() < SAME_HZ && (a[1] - b[1]).abs() < SAME_M
}

/// Lines that are nowhere further apart than this share of what is drawn are one.
const SAME: f64 = 0.03;

/// The same picture with other plans: their lines thin, only those that differ from the chosen plan's. Without other plans
/// it is the picture itself.
#[must_use]
pub fn after_hump<'a>(picture: &'a Picture, answer: &Answer, plans: &[&Seen]) -> Cow<'a, Picture> {
    let Some(humps) = hump::humps(answer).filter(|_| !plans.is_empty()) else { return Cow::Borrowed(picture) };
    let heights = || picture.lines.iter().flat_map(|line| &line.points).map(|p| p[1]);
    let high = heights().fold(f64::MIN, f64::max) - heights().fold(f64::MAX, f64::min);
    let differs = |points: &[[f64; 2]], chosen: &Line| {
        points.iter().zip(&chosen.points).any(|(a, b)| (a[1] - b[1]).abs() > SAME * high)
    };
    let lines_of = |swings: PerAxle<Swing>| -> Option<Vec<ThinLine>> {
        let mut lines = Vec::new();
        for (end, chosen) in Side::BOTH.into_iter().zip(&picture.lines) {
            let at = |t: f64| Some([t, swings[end].body_height_m(&humps[end], t)?]);
            let points: Vec<[f64; 2]> = chosen.points.iter().map(|p| at(p[0])).collect::<Option<_>>()?;
            if differs(&points, chosen) {
                lines.push(ThinLine { points, broken: chosen.broken });
            }
        }
        Some(lines).filter(|lines| !lines.is_empty())
    };
    let found: Vec<_> = PLAN_MARKS
        .into_iter()
        .zip(plans)
        .filter_map(|(mark, plan)| Some((mark, plan.name.to_string(), lines_of(plan.swings?)?)))
        .collect();
    // Those of each plan, then those of the chosen one.
    let chosen = picture.lines.iter().map(|line| line.points.as_slice());
    let mut drawn: Vec<Vec<&[[f64; 2]]>> =
        found.iter().map(|(.., lines)| lines.iter().map(|line| line.points.as_slice()).collect()).collect();
    drawn.push(chosen.collect());
    let marked = |(of, (mark, label, lines)): (usize, &(PlanMark, String, Vec<ThinLine>))| {
        let places = (0..lines.len()).filter_map(|line| clearest(&drawn, [of, line]));
        let at = places.max_by(|a, b| a.0.total_cmp(&b.0))?.1;
        Some(OfPlan { mark: *mark, label: label.clone(), at, lines: lines.clone() })
    };
    let plans = found.iter().enumerate().filter_map(marked).collect();
    Cow::Owned(Picture { plans, ..picture.clone() })
}

/// Where one line of a plan is furthest from all others, and how far.
fn clearest(drawn: &[Vec<&[[f64; 2]]>], [of, line]: [usize; 2]) -> Option<(f64, [f64; 2])> {
    let all =
        || drawn.iter().enumerate().flat_map(|(i, lines)| lines.iter().enumerate().map(move |(j, l)| ([i, j], l)));
    let points = drawn[of][line];
    let others = || all().filter(|(at, _)| *at != [of, line]);
    let clear = |n: usize| others().map(|(_, other)| (other[n][1] - points[n][1]).abs()).fold(f64::MAX, f64::min);
    (0..points.len()).map(|n| (clear(n), points[n])).max_by(|a, b| a.0.total_cmp(&b.0))
}
