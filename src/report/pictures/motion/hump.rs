//! Front and rear after one hump, each end on its own.

use crate::base::language::tr;
use crate::base::units::{Dim, Quantity, UnitChoice, display};
use crate::report::pictures::picture::{Line, Picture};
use crate::say;
use crate::solve::answer::{Answer, Hump, State, Swing, Whole};

const POINTS: usize = 241;

/// How both ends swing in a state.
fn swings(whole: &Whole, state: State) -> Option<[Swing; 2]> {
    (*whole.pitch.of(state)).and_then(|pitch| pitch.ends)
}

/// How both ends swing on the springs that will be fitted, else on the old ones.
pub(in crate::report::pictures) fn last_swings(answer: &Answer) -> Option<(State, [Swing; 2])> {
    let on = |state: State| Some((state, swings(&answer.whole, state)?));
    on(State::NewSprings).or_else(|| on(State::OldSprings))
}

/// The hump as the front wheels reach it, and as the rear ones do.
pub(in crate::report::pictures) fn humps(answer: &Answer) -> Option<[Hump; 2]> {
    let hump = answer.whole.hump?;
    Some([hump, hump.behind(answer.whole.wheelbase?)])
}

/// Body height at front and rear against time after one hump, each end on its own.
pub fn after_hump(answer: &Answer, units: &UnitChoice) -> Option<Picture> {
    let whole = &answer.whole;
    let (state, shown) = last_swings(answer)?;
    let humps = humps(answer)?;
    let slowest = shown[0].frequency.si().min(shown[1].frequency.si());
    let until_s = humps[1].arrival.si() + 2.5 / slowest;
    if !(until_s.is_finite() && until_s > 0.0) {
        return None;
    }
    let trace = |i: usize| -> Option<Vec<[f64; 2]>> {
        (0..POINTS)
            .map(|n| until_s * n as f64 / (POINTS - 1) as f64)
            .map(|t| Some([t, shown[i].body_height_m(&humps[i], t)?]))
            .collect()
    };
    // The label stands beside the highest point.
    let line = |i: usize, label: &str| {
        let points = trace(i)?;
        let highest = points.iter().enumerate().max_by(|a, b| a.1[1].total_cmp(&b.1[1])).map_or(0, |p| p.0);
        let label_at = Some(highest as f64 / (POINTS - 1) as f64);
        Some(Line { broken: i == 1, label_at, ..Line::new(None, label, points) })
    };
    let speed = display::rounded(humps[0].speed, units);
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
        lines: vec![line(0, tr("front"))?, line(1, tr("rear"))?],
        uprights: vec![(humps[1].arrival.si(), tr("rear wheels on the hump").to_owned())],
        ..Picture::new(title, x, (tr("body height above rest position"), Dim::Length))
    })
}

/// From when on front and rear differ by less than a tenth of the hump, s; `None` when that is not seen.
fn level_again_s(ends: &[Swing; 2], humps: &[Hump; 2], until_s: f64) -> Option<f64> {
    const SHARE: f64 = 0.1;
    let apart = |t: f64| Some((ends[0].body_height_m(&humps[0], t)? - ends[1].body_height_m(&humps[1], t)?).abs());
    let limit = SHARE * humps[0].height.si().abs();
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
