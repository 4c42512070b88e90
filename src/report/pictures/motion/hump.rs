//! Front and rear after one hump, each end on its own.

use crate::base::language::tr;
use crate::base::units::{Dim, Quantity, UnitChoice, display};
use crate::job::{PerAxle, Side};
use crate::report::pictures::picture::{Line, Picture};
use crate::say;
use crate::solve::answer::{Answer, Hump, State, Swing, Whole};

const POINTS: usize = 241;

/// How both ends swing in a state.
fn swings(whole: &Whole, state: State) -> Option<PerAxle<Swing>> {
    (*whole.pitch.of(state)).and_then(|pitch| pitch.ends)
}

/// How both ends swing on the springs that will be fitted, else on the old ones.
pub(in crate::report::pictures) fn last_swings(answer: &Answer) -> Option<(State, PerAxle<Swing>)> {
    let on = |state: State| Some((state, swings(&answer.whole, state)?));
    on(State::NewSprings).or_else(|| on(State::OldSprings))
}

/// The hump as the front wheels reach it, and as the rear ones do.
pub(in crate::report::pictures) fn humps(answer: &Answer) -> Option<PerAxle<Hump>> {
    let hump = answer.whole.hump?;
    Some(PerAxle { front: hump, rear: hump.behind(answer.whole.wheelbase?) })
}

/// Body height at front and rear against time after one hump, each end on its own.
pub fn after_hump(answer: &Answer, units: &UnitChoice) -> Option<Picture> {
    let whole = &answer.whole;
    let (state, shown) = last_swings(answer)?;
    let humps = humps(answer)?;
    let slowest = shown.front.frequency.si().min(shown.rear.frequency.si());
    let until_s = humps.rear.arrival.si() + 2.5 / slowest;
    if !(until_s.is_finite() && until_s > 0.0) {
        return None;
    }
    let trace = |end: Side| -> Option<Vec<[f64; 2]>> {
        (0..POINTS)
            .map(|n| until_s * n as f64 / (POINTS - 1) as f64)
            .map(|t| Some([t, shown[end].body_height_m(&humps[end], t)?]))
            .collect()
    };
    // The label stands beside the highest point.
    let line = |end: Side, label: &str| {
        let points = trace(end)?;
        let highest = points.iter().enumerate().max_by(|a, b| a.1[1].total_cmp(&b.1[1])).map_or(0, |p| p.0);
        let label_at = Some(highest as f64 / (POINTS - 1) as f64);
        Some(Line { broken: end == Side::Rear, label_at, ..Line::new(None, label, points) })
    };
    let speed = display::rounded(humps.front.speed, units);
    let level = |s: State| level_again_s(&swings(whole, s)?, &humps, until_s);
    let verdict = match (level(state), level(State::OldSprings).filter(|_| state == State::NewSprings)) {
        (Some(new), Some(old)) => {
            say!("the body is level again after {new:.1} s; on the old springs after {old:.1} s", new, old)
        }
        (Some(one), None) => say!("the body is level again after {time:.1} s", time = one),
        _ => tr("the body keeps pitching for a long time").to_owned(),
    };
    let title = say!("One hump at {speed}, {state}: {verdict}", speed, state = state.words(), verdict);
    let x = (tr("time since the front wheels reached the hump"), Dim::Time);
    Some(Picture {
        lines: vec![line(Side::Front, tr("front"))?, line(Side::Rear, tr("rear"))?],
        uprights: vec![(humps.rear.arrival.si(), tr("rear wheels on the hump").to_owned())],
        ..Picture::new(title, x, (tr("body height above rest position"), Dim::Length))
    })
}

/// From when on front and rear differ by less than a tenth of the hump, s; `None` when that is not seen.
fn level_again_s(ends: &PerAxle<Swing>, humps: &PerAxle<Hump>, until_s: f64) -> Option<f64> {
    const SHARE: f64 = 0.1;
    let apart =
        |t: f64| Some((ends.front.body_height_m(&humps.front, t)? - ends.rear.body_height_m(&humps.rear, t)?).abs());
    let limit = SHARE * humps.front.height.si().abs();
    let times = (0..POINTS).rev().map(|n| until_s * n as f64 / (POINTS - 1) as f64);
    let mut level_from = None;
    for t in times {
        if apart(t)? > limit {
            return level_from;
        }
        level_from = Some(t);
    }
    level_from
}
