//! Tables of rough roads: what closed forms say, and the runs.

use serde_json::{Value, json};

use crate::base::language::{inside, tr};
use crate::base::units::{UnitChoice, display};
use crate::job::{Job, Plan, Side};
use crate::report::Block;
use crate::report::results::as_json::head;
use crate::report::results::{Column, Results, runs};
use crate::say;
use crate::solve::answer::{Answer, AxleAnswer, CaseAnswer, OverRoad, State};
use crate::solve::road::{Driven, NoRuns};

/// What springs do and what dampers do.
const WHO_DOES_WHAT: &str = "Springs and spacers restore height and bump travel. They do not reduce wheel motion: wheel travel on a rough road depends on damping, not on spring rate.";

/// What these figures are for.
pub const COMPARATIVE: &str = "Use these results only to compare a corner before and after a change: real roads and potholes are less regular than the road simulated here.";

/// The rows of the table of closed forms.
const ROWS: [&str; 5] = ["stop_hits_per_km", "travel_rms", "body_acceleration_rms", "tyre_load_rms", "pulled_down"];

/// Every option of an axle on the rough road, by closed forms; nothing when nothing is known.
pub fn closed(answer: &Answer, results: &Results, side: Side, units: &UnitChoice) -> Vec<Block> {
    let key = side.key();
    let of_state = |s: State| (answer.whole.road.of(s)[side], format!("{key}.{}.road", s.key()));
    let mut columns = vec![(tr("before the change").to_owned(), of_state(State::Before))];
    let remedies = &answer.remedies[side];
    if remedies.is_empty() {
        columns.extend([State::OldSprings, State::NewSprings].map(|s| (s.words().to_string(), of_state(s))));
    }
    let kind = answer.axle(side).kind;
    // In the load that the state before is compared in.
    let sized = answer.compared_case();
    columns.extend(remedies.iter().map(|r| {
        let road = r.cases.get(sized).copied().flatten().and_then(|s| s.road);
        let case = answer.cases.get(sized).map_or(String::new(), CaseAnswer::key);
        (r.kind.words(kind).to_string(), (road, format!("{key}.remedies.{}.{case}.road", r.kind.key())))
    }));
    let Some(known) = columns.iter().find_map(|(_, (road, _))| *road) else { return Vec::new() };
    let columns: Vec<Column> = columns.into_iter().map(|(words, (_, gap))| (words, gap)).collect();
    let table = results.table(side.axle().to_string(), &columns, &ROWS, units);
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
    let what = format!("{}, {}", side.word(), over.words());
    (!columns.is_empty()).then(|| results.table(what, &columns, &RUN_ROWS, units))
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
                let said = driven.over[over as usize].of(state).as_ref()?.said[side]?;
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
