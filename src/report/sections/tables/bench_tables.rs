//! Tables of the suspension bench: predicted, run in time, measured, and how it is judged.

use serde_json::{Value, json};

use crate::base::language::tr;
use crate::base::units::{Dim, Quantity, Ratio, UnitChoice, display};
use crate::job::{Job, Side};
use crate::report::results::as_json::head;
use crate::report::results::{Figure, Results, before_after, figures, of_states, plate_runs};
use crate::report::{Block, Report};
use crate::say;
use crate::solve::answer::{Answer, AxleAnswer, BenchMarks, OnBench, State};
use crate::solve::bench::PlateRuns;
use crate::solve::road::NoRuns;

const PREDICTED: [&str; 5] = ["adhesion", "adhesion_hot", "frequency", "phase", "phase_hot"];
const MEASURED: [&str; 7] = ["left", "right", "left_right", "adhesion_off", "left_phase", "right_phase", "phase_off"];

/// What may not be left out wherever a bench is spoken of.
const RULES: &str =
    "Suspension tests at inspections differ from country to country: local rules and the licensed inspector decide.";

/// Why closed form and run differ.
const CURVE: &str = "The simulation uses the damper curve and the bump stop; the other rows use one damper rate, at the peak speed given for the axle.";

/// The whole report.
pub fn build(job: &Job, answer: &Answer, runs: &Result<PlateRuns, NoRuns>) -> Report {
    let (results, units, marks) = (Results::of(answer), &job.units, &answer.bench_marks);
    let run: Results = plate_runs(runs.as_ref()).into();
    let mut blocks = Vec::new();
    for side in Side::BOTH {
        blocks.extend(predicted(answer.axle(side), marks, (&results, Some(&run)), units));
        blocks.extend(measured(answer.axle(side), marks, &results, units));
    }
    if let Err(why) = runs {
        blocks.push(Block::Caution(say!("No bench simulation: {why}.", why)));
    }
    let texts = [judged_by(marks, units).as_str(), tr(CURVE), tr(RULES)].join(" ");
    blocks.push(Block::Text(texts.trim().to_owned()));
    Report { title: tr("Suspension bench").into(), blocks }
}

/// One axle by closed form, and what was measured: what the window shows.
pub fn in_window(answer: &Answer, side: Side, results: &Results, units: &UnitChoice) -> Vec<Block> {
    let (axle, marks) = (answer.axle(side), &answer.bench_marks);
    let mut blocks = predicted(axle, marks, (results, None), units);
    blocks.extend(measured(axle, marks, results, units));
    blocks.push(Block::Text([judged_by(marks, units).as_str(), tr(RULES)].join(" ").trim().to_owned()));
    blocks
}

/// One axle in every state: the table, with the run in time where there is one, and in words what it means.
fn predicted(
    axle: &AxleAnswer,
    marks: &BenchMarks,
    (results, run): (&Results, Option<&Results>),
    units: &UnitChoice,
) -> Vec<Block> {
    let key = axle.side.key();
    let known: Vec<State> = State::ALL.into_iter().filter(|s| axle.bench.predicted.of(*s).is_some()).collect();
    if known.is_empty() {
        let why = say!(
            "{axle}: not known yet. Still needed: weights, unsprung mass, a spring, a damper and the tyre.",
            axle = axle.side.axle()
        );
        return vec![Block::Text(why)];
    }
    let columns = |of: &str| of_states(|s| known.contains(&s), |s| format!("{of}.{}", s.key()));
    let (predicted, shaken) = (columns(&format!("{key}.bench")), columns(&format!("bench_runs.{key}")));
    let mut rows = results.rows(&PREDICTED, &predicted, units);
    rows.extend(run.into_iter().flat_map(|run| run.rows_told(&["adhesion"], &shaken, units)));
    let head = crate::report::results::head(axle.side.axle().to_string(), &predicted);
    let verdicts = known.iter().filter_map(|s| Some((*s, axle.bench.predicted.of(*s).as_ref()?)));
    let mut said: Vec<String> = verdicts.map(|(state, on)| verdict(state, on, marks)).collect();
    said.extend(light_axle(axle, marks).map(str::to_owned));
    vec![
        Block::Heading(say!("Suspension bench: {axle}", axle = crate::base::language::inside(axle.side.axle().said()))),
        Block::Table { head, rows },
        Block::List(said),
    ]
}

/// "Before: good; the phase angle passes."
fn verdict(state: State, on: &OnBench, marks: &BenchMarks) -> String {
    let adhesion = if on.cold.lifts { tr("the wheel leaves the plate") } else { graded(on.cold.adhesion, marks) };
    let passes = marks.phase.is_none_or(|least| on.cold.phase >= least);
    let phase = if passes { tr("phase angle test passed") } else { tr("phase angle test failed") };
    let state = crate::report::phrases::upper_first(state.words().said());
    say!("{state}: {adhesion}; {phase}.", state, adhesion, phase)
}

/// The customary word for an adhesion.
fn graded(adhesion: Ratio, marks: &BenchMarks) -> &'static str {
    let from = |mark: Option<Ratio>| mark.is_some_and(|mark| adhesion >= mark);
    match () {
        () if from(marks.good) => tr("good adhesion"),
        () if from(marks.fair) => tr("fair adhesion"),
        () if from(marks.weak) => tr("weak adhesion"),
        () => tr("poor adhesion"),
    }
}

/// A stiff tyre under a light axle reads low whatever the damper does.
fn light_axle(axle: &AxleAnswer, marks: &BenchMarks) -> Option<&'static str> {
    axle.is_light_on_bench(marks.good?).then(|| {
        tr("The dampers are within the target range, but the adhesion is not graded as good: a stiff tyre on a light axle gives a low reading even with sound dampers. Check the phase angle and the tyre pressure as well.")
    })
}

/// What was measured on one axle, and its texts.
fn measured(axle: &AxleAnswer, marks: &BenchMarks, results: &Results, units: &UnitChoice) -> Vec<Block> {
    let words = [tr("measured before"), tr("measured after")];
    let found = axle.bench.measured.both();
    let of = format!("{}.bench.measured", axle.side.key());
    let columns = before_after(words, found.map(|found| found.is_known()), &of);
    let table = results.table_told(axle.side.axle().to_string(), &columns, &MEASURED, units);
    let limit = marks.left_right.map_or(f64::INFINITY, Quantity::si);
    let found = words.into_iter().zip(found);
    let apart = found.filter_map(|(words, found)| Some((words, found.left_right().filter(|s| s.si() > limit)?)));
    let apart = apart.map(|(words, share)| {
        Block::Caution(say!(
            "{axle}, {when}: left and right differ by {share:.0} %, more than {limit:.0} %. Check tyre pressures first, then the damper on the weaker side.",
            axle = axle.side.axle(),
            when = words,
            share = 100.0 * share.si(),
            limit = 100.0 * limit
        ))
    });
    table.into_iter().chain(apart).collect()
}

/// The marks in words.
fn judged_by(marks: &BenchMarks, units: &UnitChoice) -> String {
    let percent = |mark: Option<Ratio>| mark.map(|m| display::fixed(100.0 * m.si(), 0));
    let (Some(good), Some(fair), Some(weak)) = (percent(marks.good), percent(marks.fair), percent(marks.weak)) else {
        return String::new();
    };
    let phase =
        marks.phase.map_or_else(|| tr("not known").to_owned(), |p| display::rounded_si(p.si(), Dim::Angle, units));
    say!(
        "Usual grading: {good} % or more is good, {fair} % or more is fair, {weak} % or more is weak, less is poor; a phase angle below {phase} is a fail.",
        good,
        fair,
        weak,
        phase
    )
}

/// As JSON, SI: the results of bench and plate.
pub fn json(job: &Job, answer: &Answer, runs: &Result<PlateRuns, NoRuns>) -> Value {
    let marks = &answer.bench_marks;
    let of_bench = |figure: &Figure| Side::BOTH.iter().any(|s| figure.key.starts_with(&format!("{}.bench.", s.key())));
    let mut all: Vec<Figure> = figures(answer).into_iter().filter(of_bench).collect();
    all.extend(plate_runs(runs.as_ref()));
    let mut value = head(job, &all);
    let si = |mark: Option<Ratio>| mark.map(Quantity::si);
    value["marks"] = json!({
        "good": si(marks.good), "fair": si(marks.fair), "weak": si(marks.weak),
        "phase_rad": marks.phase.map(Quantity::si), "left_right": si(marks.left_right),
    });
    value
}
