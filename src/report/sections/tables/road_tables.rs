//! Tables of rough roads: tables, the trade-off between comfort and grip, and the runs.

use serde_json::{Value, json};

use crate::base::language::{inside, tr};
use crate::base::units::{Dim, Quantity, Ratio, UnitChoice, display};
use crate::job::{Job, Plan, Side};
use crate::report::Block;
use crate::report::pictures::picture::{Axis, Line, Mark, Picture, Words};
use crate::report::results::{Column, Results, runs};
use crate::report::write::json::head;
use crate::say;
use crate::solve::answer::{Answer, AxleAnswer, CaseAnswer, OverRoad, State};
use crate::solve::road::{Driven, NoRuns, SAMPLE_S, SETTLES_S};

/// What springs do and what dampers do.
const WHO_DOES_WHAT: &str = "Springs and spacers restore height and bump travel. They do not reduce wheel motion: wheel travel on a rough road depends on damping, not on spring rate.";
/// What these figures are for.
pub const COMPARATIVE: &str = "Use these results only to compare a corner before and after a change: real roads and potholes are less regular than the road simulated here.";

/// The rows of the table of closed forms.
const ROWS: [&str; 5] = ["stop_hits_per_km", "travel_rms", "body_acceleration_rms", "tyre_load_rms", "pulled_down"];

/// Every option of an axle on the rough road, by closed forms; nothing when nothing is known.
pub fn closed(answer: &Answer, results: &Results, side: Side, units: &UnitChoice) -> Vec<Block> {
    let (axle, key) = (side as usize, side.key());
    let of_state = |s: State| (answer.whole.road.of(s)[axle], format!("{key}.{}.road", s.key()));
    let mut columns = vec![(tr("before the change").to_owned(), of_state(State::Before))];
    let remedies = &answer.remedies[axle];
    if remedies.is_empty() {
        columns.extend([State::OldSprings, State::NewSprings].map(|s| (s.words().to_string(), of_state(s))));
    }
    let kind = answer.axles[axle].kind;
    // In the load that the state before is compared in.
    let sized = answer.compared_case();
    columns.extend(remedies.iter().map(|r| {
        let road = r.cases.get(sized).copied().flatten().and_then(|s| s.road);
        let case = answer.cases.get(sized).map_or(String::new(), CaseAnswer::key);
        (r.kind.words(kind).to_string(), (road, format!("{key}.remedies.{}.{case}.road", r.kind.key())))
    }));
    let Some(known) = columns.iter().find_map(|(_, (road, _))| *road) else { return Vec::new() };
    let columns: Vec<Column> = columns.into_iter().map(|(words, (_, gap))| (words, gap)).collect();
    let keys = ROWS.map(|key| format!("{{}}.{key}"));
    let table = results.table(side.axle().to_string(), &columns, &keys.each_ref().map(String::as_str), units);
    let passage = known.passage;
    let road = say!(
        "Road class {letter} ({kind}) at {speed}.",
        letter = passage.class.letter(),
        kind = passage.class.words(),
        speed = display::rounded(passage.speed, units)
    );
    let texts = [Some(tr(WHO_DOES_WHAT)), Some(tr(JACKING)), which_dampers(answer.axle(side)), Some(tr(COMPARATIVE))];
    vec![
        Block::Heading(say!("Rough road: {axle}", axle = inside(side.axle().said()))),
        Block::Text(road),
        table,
        Block::Text(texts.into_iter().flatten().collect::<Vec<_>>().join(" ")),
    ]
}

/// Which dampers an axle has on its new springs.
fn which_dampers(axle: &AxleAnswer) -> Option<&'static str> {
    (axle.plan == Plan::NewSprings && axle.standing.new.is_some()).then(|| match axle.new_dampers {
        true => tr("On the new springs, the simulation uses new dampers in the middle of the target range."),
        false => tr("On the new springs, the simulation uses the old dampers: they are within the target range and stay fitted."),
    })
}

const JACKING: &str = "A damper with more rebound than bump jacks the body down on a rough road. The bump stop hits listed above do not include this; the simulation does.";

/// Comfort against grip over the damping ratio, with where the axle is, was and will be.
pub fn trade(answer: &Answer, side: Side) -> Option<Picture> {
    let of_state = |s: State| answer.whole.road.of(s)[side as usize];
    let shown = of_state(State::NewSprings).or(of_state(State::OldSprings))?;
    let trade = shown.corner.trade(&shown.passage);
    let point = |a: f64, grip: f64| [100.0 * grip, a];
    let points = trade.curve.iter().map(|p| point(p.body_acceleration.si(), p.tyre_load.si())).collect();
    let places = [Words::RightAbove, Words::RightBelow, Words::RightAbove];
    let mark = |(state, words): (State, Words)| {
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
    let dot = |p: &crate::solve::answer::TradePoint, what: &str| crate::report::pictures::picture::Dot {
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
    Some(Picture {
        lines: vec![Line { state: None, label: String::new(), points, broken: false, label_at: Some(1.0) }],
        marks: State::ALL.into_iter().zip(places).filter_map(mark).collect(),
        dots: vec![dot(&trade.most_comfort, tr("best comfort")), dot(&trade.most_grip, tr("best grip"))],
        ..Picture::new(
            say!("{axle}, damping ζ {ratio:.2}: {verdict}", axle = side.axle(), ratio, verdict),
            Axis { name: tr("tyre load variation, % of static load: lower means more grip"), dim: Dim::Ratio },
            Axis { name: tr("body acceleration, rms"), dim: Dim::Acceleration },
        )
    })
}

/// "ζ 0.27".
fn zeta(ratio: Ratio) -> String {
    format!("ζ {}", display::fixed(ratio.si(), 2))
}

/// The rows of a table of runs.
const RUN_ROWS: [&str; 7] =
    ["stop_hits", "metal_hits", "most_pressed", "travel_rms", "pulled_down", "weighted", "in_the_air"];

/// Share of a run's work that may be unaccounted for: ten times what sound runs leave. Common practice, no source.
const OPEN_AT_MOST: f64 = 0.02;

/// Every result of the runs.
pub fn results(driven: Result<&Driven, &NoRuns>) -> Results {
    runs(driven).into()
}

/// Warning for runs with unaccounted work.
pub fn open(results: &Results, over: OverRoad) -> Vec<Block> {
    let said = |state: State| {
        let share = results.find(&format!("runs.{}.{}.work_open", over.key(), state.key()))?.si?;
        let text = say!(
            "{road}, {state}: {share:.0} % of the work done by the road is neither dissipated nor stored. Do not rely on this simulation.",
            road = over.words(),
            state = state.words(),
            share = 100.0 * share
        );
        (share > OPEN_AT_MOST).then_some(Block::Caution(text))
    };
    State::ALL.into_iter().filter_map(said).collect()
}

/// The runs of one axle.
pub fn runs_of(results: &Results, over: OverRoad, side: Side, units: &UnitChoice) -> Option<Block> {
    let column = |s: State| (s.words().to_string(), format!("runs.{}.{}.{}", over.key(), s.key(), side.key()));
    let was_run = |(_, gap): &Column| results.find(&format!("{gap}.travel_rms")).is_some_and(|f| f.si.is_some());
    let columns: Vec<Column> = State::ALL.into_iter().map(column).filter(was_run).collect();
    let keys = RUN_ROWS.map(|key| format!("{{}}.{key}"));
    let what = format!("{}, {}", side.word(), over.words());
    (!columns.is_empty()).then(|| results.table(what, &columns, &keys.each_ref().map(String::as_str), units))
}

/// All runs as a report, or why there are none.
pub fn build(job: &Job, answer: &Answer, driven: &Result<Driven, NoRuns>) -> crate::report::Report {
    let (results, units) = (Results::of(answer), &job.units);
    let mut blocks: Vec<Block> = Side::BOTH.iter().flat_map(|s| closed(answer, &results, *s, units)).collect();
    match driven {
        Ok(driven) => {
            let runs = self::results(Ok(driven));
            let speed = display::rounded(driven.speed, units);
            blocks.push(Block::Heading(say!("Simulated at {speed} with the full damper curves", speed)));
            for over in OverRoad::ALL {
                blocks.extend(Side::BOTH.into_iter().filter_map(|side| runs_of(&runs, over, side, units)));
                blocks.extend(open(&runs, over));
            }
            let long = match units.in_miles() {
                true => tr("The rough road is 0.62 miles (1 km) long, shorter at low speed."),
                false => tr("The rough road is 1 km long, shorter at low speed."),
            };
            blocks.push(Block::Text([long, tr(COMPARATIVE)].join(" ")));
        }
        Err(why) => blocks.push(Block::Caution(say!("Not simulated: {why}.", why))),
    }
    crate::report::Report { title: tr("Rough roads").into(), blocks }
}

/// All runs as JSON, SI: their results, and in words how they feel.
pub fn json(job: &Job, driven: &Result<Driven, NoRuns>) -> Value {
    let words = driven.as_ref().map_or_else(
        |_| Vec::new(),
        |driven| {
            let all = OverRoad::ALL.into_iter().flat_map(|over| State::ALL.map(|state| (over, state)));
            let all = all.flat_map(|(over, state)| Side::BOTH.map(|side| (over, state, side)));
            let one = |(over, state, side): (OverRoad, State, Side)| {
                let said = driven.over[over as usize].of(state).as_ref()?.said[side as usize]?;
                let key = format!("runs.{}.{}.{}", over.key(), state.key(), side.key());
                Some(json!({"key": key, "weighted_by": said.weighted_by.key(), "felt": said.reactions()}))
            };
            all.filter_map(one).collect()
        },
    );
    let mut value = head(job, &runs(driven.as_ref()));
    value["class"] = job.road.class.letter().into();
    value["runs"] = words.into();
    value
}

/// Bump room left against time in all states, with the moment shown; `None` until the stop's gap is known.
pub fn room_over_time(answer: &Answer, driven: &Driven, over: OverRoad, side: Side, at_s: f64) -> Option<Picture> {
    const POINTS: usize = 600;
    let (lasts_s, from_s) = shown_s(over);
    let line = |state: State| {
        let room_m = answer.axle(side).standing.of(state).as_ref()?.stop_room?.si();
        let track = driven.over[over as usize].of(state).as_ref()?.runs[side as usize].as_ref()?;
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
        Some(Line { state: Some(state), label: state.words().into(), points, broken: false, label_at })
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
    lines.push(Line {
        state: None,
        label: tr("bump stop").into(),
        points: vec![[0.0, 0.0], [0.35 * end, 0.0], [end, 0.0]],
        broken: true,
        label_at: Some(0.5),
    });
    Some(Picture {
        lines,
        uprights: vec![(at_s, tr("now").to_owned())],
        ..Picture::new(
            title,
            Axis { name: tr("time"), dim: Dim::Time },
            Axis { name: tr("bump travel left"), dim: Dim::Length },
        )
    })
}

/// Of each run so long is shown, s, from this moment on.
pub fn shown_s(over: OverRoad) -> (f64, f64) {
    match over {
        OverRoad::Rough => (10.0, SETTLES_S),
        OverRoad::Hump | OverRoad::Hole => (2.0, 0.0),
    }
}
