//! Pictures of rough roads: comfort against grip, and the bump travel left while driving.

use crate::base::language::tr;
use crate::base::units::{Dim, Quantity, Ratio, display};
use crate::job::Side;
use crate::report::pictures::label_places::Corner;
use crate::report::pictures::picture::{Dot, Line, Mark, Picture};
use crate::say;
use crate::solve::answer::{Answer, OverRoad, State, TradePoint};
use crate::solve::road::{Driven, SAMPLE_S, SETTLES_S};

/// Comfort against grip over the damping ratio, with where the axle is, was and will be.
pub fn trade(answer: &Answer, side: Side) -> Option<Picture> {
    let of_state = |s: State| answer.whole.road.of(s)[side];
    let shown = of_state(State::NewSprings).or(of_state(State::OldSprings))?;
    let trade = shown.corner.trade(&shown.passage);
    let point = |a: f64, grip: f64| [100.0 * grip, a];
    let points = trade.curve.iter().map(|p| point(p.body_acceleration.si(), p.tyre_load.si())).collect();
    let places = [Corner::RIGHT_ABOVE, Corner::RIGHT_BELOW, Corner::RIGHT_ABOVE];
    let mark = |(state, words): (State, Corner)| {
        let on = of_state(state)?;
        // Short words: the three may lie close.
        let short = match state {
            State::Before => tr("before"),
            State::OldSprings => tr("old springs"),
            State::NewSprings => tr("new springs"),
        };
        let label = format!("{short}, {}", zeta(on.corner.damping_ratio()));
        Some(Mark { state, label, at: point(on.acceleration.si(), on.tyre_load.si()), words })
    };
    let dot = |p: &TradePoint, what: &str| Dot {
        at: point(p.body_acceleration.si(), p.tyre_load.si()),
        label: format!("{what}, {}", zeta(p.damping_ratio)),
    };
    let (comfort, grip) = (trade.most_comfort.damping_ratio.si(), trade.most_grip.damping_ratio.si());
    let ratio = shown.corner.damping_ratio().si();
    let verdict = match ratio {
        z if z < comfort => tr("too soft even for best comfort: more damping improves comfort and grip"),
        z if z > grip => tr("too stiff even for best grip: less damping improves comfort and grip"),
        _ => tr("between best comfort and best grip: more of one means less of the other"),
    };
    let title = say!("{axle}, damping ζ {ratio:.2}: {verdict}", axle = side.axle(), ratio, verdict);
    let x = (tr("tyre load variation, % of static load: lower means more grip"), Dim::Ratio);
    Some(Picture {
        lines: vec![Line { label_at: Some(1.0), ..Line::new(None, "", points) }],
        marks: State::ALL.into_iter().zip(places).filter_map(mark).collect(),
        dots: vec![dot(&trade.most_comfort, tr("best comfort")), dot(&trade.most_grip, tr("best grip"))],
        ..Picture::new(title, x, (tr("body acceleration, rms"), Dim::Acceleration))
    })
}

/// "ζ 0.27".
fn zeta(ratio: Ratio) -> String {
    format!("ζ {}", display::fixed(ratio.si(), 2))
}

/// Bump room left against time in all states, with the moment shown; `None` until the stop's gap is known.
pub fn room_over_time(answer: &Answer, driven: &Driven, over: OverRoad, side: Side, at_s: f64) -> Option<Picture> {
    const POINTS: usize = 600;
    let (lasts_s, from_s) = shown_s(over);
    let line = |state: State| {
        let room_m = answer.axle(side).standing.of(state).as_ref()?.stop_room?.si();
        let track = driven.over[over as usize].of(state).as_ref()?.runs[side].as_ref()?;
        let from = (from_s / SAMPLE_S) as usize;
        let shown = track.pressed_m.get(from..)?;
        let count = ((lasts_s / SAMPLE_S) as usize).min(shown.len());
        let every = count.div_ceil(POINTS).max(1);
        let point = |(i, pressed): (usize, &f64)| [i as f64 * SAMPLE_S, room_m - pressed];
        let points: Vec<[f64; 2]> = shown.iter().take(count).enumerate().step_by(every).map(point).collect();
        let label_at = Some(match state {
            State::Before => 0.45,
            State::OldSprings => 0.7,
            State::NewSprings => 0.95,
        });
        Some(Line { label_at, ..Line::new(Some(state), state.words(), points) })
    };
    let mut lines: Vec<Line> = State::ALL.into_iter().filter_map(line).collect();
    if lines.is_empty() {
        return None;
    }
    let least = |s: State| {
        let line = lines.iter().find(|l| l.state == Some(s))?;
        Some(line.points.iter().map(|p| p[1]).fold(f64::INFINITY, f64::min))
    };
    let is_met = |s: State| least(s).map(|l| l <= 0.0);
    let verdict = match (is_met(State::OldSprings), is_met(State::NewSprings)) {
        (Some(true), Some(true)) => tr("the bump stop is hit on both the old and the new springs"),
        (Some(true), Some(false)) => tr("the bump stop is hit on the old springs, but not on the new ones"),
        (Some(false), Some(true)) => tr("the bump stop is hit on the new springs, but not on the old ones"),
        (Some(false), Some(false)) => tr("the bump stop is not hit on the old springs or on the new ones"),
        _ => tr("distance to the bump stop"),
    };
    let title = format!("{}, {}: {verdict}", side.word(), over.words());
    let end = lines[0].points.last().map_or(lasts_s, |p| p[0]);
    let points = vec![[0.0, 0.0], [0.35 * end, 0.0], [end, 0.0]];
    lines.push(Line { broken: true, label_at: Some(0.5), ..Line::new(None, tr("bump stop"), points) });
    Some(Picture {
        lines,
        uprights: vec![(at_s, tr("now").to_owned())],
        ..Picture::new(title, (tr("time"), Dim::Time), (tr("bump travel left"), Dim::Length))
    })
}

/// Of each run so long is shown, s, from this moment on.
pub fn shown_s(over: OverRoad) -> (f64, f64) {
    match over {
        OverRoad::Rough => (10.0, SETTLES_S),
        OverRoad::Hump | OverRoad::Hole => (2.0, 0.0),
    }
}
