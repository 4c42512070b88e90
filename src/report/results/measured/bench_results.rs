//! Results of the suspension bench: predicted by closed form, measured, and run in time.

use crate::base::language::tr;
use crate::base::units::{Quantity, weight};
use crate::job::{LeftRight, Side};
use crate::report::results::collect::{OfAxle, Out, Wants, then};
use crate::report::results::row::{Row, put, rows, si};
use crate::report::results::{By, Figure, Say, Substitution, Why};
use crate::solve::answer::{BenchMeasured, BenchReading, OnBench, State};
use crate::solve::bench::{AMPLITUDE_M, PlateRuns, Shaken};
use crate::solve::road::NoRuns;

const COLD: &str = "mean of both sides, damper cold; plate running down from 25 Hz to rest";
const HOT: &str = "mean of both sides, damper hot; plate running down from 25 Hz to rest";
const ADHESION: &str = "1 − e H / F_static, H the largest |F_dyn / x_plate|; 0 where the wheel lifts";
const PHASE: &str = "least of 180° − arg(F_dyn / x_plate) from a third of wheel hop up to it";

fn adhesion_from(on: &OnBench, reading: &BenchReading) -> Option<Vec<Substitution>> {
    let standing = (!reading.lifts).then(|| weight(on.corner.sprung + on.corner.unsprung))?;
    put!["e": AMPLITUDE_M => Length, "H": reading.stiffness_n_per_m => SpringRate, "F_static": standing]
}

static PREDICTED: &[Row<OnBench>] = rows! { OnBench;
    "adhesion", "bench adhesion", Ratio, COLD;
        ADHESION, "BENCH", |b| Some(b.cold.adhesion.si()), say: Say::Percent(0), with: |b| adhesion_from(b, &b.cold);
    "adhesion_hot", "bench adhesion, damper hot", Ratio, HOT;
        ADHESION, "BENCH", |b| si(b.hot.map(|h| h.adhesion)), say: Say::Percent(0),
        with: |b| adhesion_from(b, b.hot.as_ref()?);
    "frequency", "frequency at minimum tyre load", Frequency, COLD;
        "where |F_dyn / x_plate| is largest", "BENCH", |b| Some(b.cold.at.si()), by: By::Solving;
    "phase", "bench phase angle", Angle, COLD;
        PHASE, "PHASE", |b| Some(b.cold.phase.si()), by: By::Solving;
    "phase_hot", "bench phase angle, damper hot", Angle, HOT;
        PHASE, "PHASE", |b| si(b.hot.map(|h| h.phase)), by: By::Solving;
    "phase_frequency", "frequency at minimum phase angle", Frequency, COLD;
        "where the phase angle is least", "PHASE", |b| Some(b.cold.phase_at.si()), by: By::Solving;
};

const AS_READ: &str = "as shown on the bench";
const OFF: &str = "measured mean of both sides minus predicted value, damper cold";

static MEASURED: &[Row<BenchMeasured>] = rows! { BenchMeasured;
    "left", "measured adhesion, left", Ratio, AS_READ;
        "as read", "PRACTICE", |b| si(b.adhesion.left), by: By::Reading, say: Say::Percent(0);
    "right", "measured adhesion, right", Ratio, AS_READ;
        "as read", "PRACTICE", |b| si(b.adhesion.right), by: By::Reading, say: Say::Percent(0);
    "left_right", "left–right difference in adhesion", Ratio, "difference between the two sides ÷ the larger value";
        "|L − R| / larger", "PRACTICE", |b| si(b.left_right()), say: Say::Percent(0),
        with: |b| {
            let [left, right] = [b.adhesion.left?, b.adhesion.right?];
            put!["L": left, "R": right, "larger": left.si().max(right.si()) => Ratio]
        };
    "adhesion_off", "measured minus predicted adhesion", Ratio, OFF;
        "(L + R)/2 − predicted", "DERIVED", |b| si(b.adhesion_off()), say: Say::Signed,
        with: |b| measured_and(b.adhesion, b.predicted.map(|p| p.adhesion));
    "left_phase", "measured phase angle, left", Angle, AS_READ;
        "as read", "PRACTICE", |b| si(b.phase.left), by: By::Reading;
    "right_phase", "measured phase angle, right", Angle, AS_READ;
        "as read", "PRACTICE", |b| si(b.phase.right), by: By::Reading;
    "phase_off", "measured minus predicted phase angle", Angle, OFF;
        "(L + R)/2 − predicted", "DERIVED", |b| si(b.phase_off()), say: Say::Signed,
        with: |b| measured_and(b.phase, b.predicted.map(|p| p.phase));
};

fn measured_and<Q: Quantity>(read: LeftRight<Option<Q>>, predicted: Option<Q>) -> Option<Vec<Substitution>> {
    put!["L": read.left?, "R": read.right?, "predicted": predicted?]
}

/// Of one axle: predicted in every state, measured before and after.
pub(in crate::report::results) fn add(out: &mut Out, of: OfAxle<'_>) {
    let words = State::ALL.map(|state| then(state.words().said()));
    out.part("bench.before", &words[0], PREDICTED, of, |a| a.bench.predicted.before.as_ref());
    out.part("bench.old_springs", &words[1], PREDICTED, of, |a| a.bench.predicted.old.as_ref());
    out.part("bench.new_springs", &words[2], PREDICTED, of, |a| a.bench.predicted.new.as_ref());
    out.part("bench.measured.before", &then(tr("before")), MEASURED, of, |a| Some(&a.bench.measured.before));
    out.part("bench.measured.after", &then(tr("after")), MEASURED, of, |a| Some(&a.bench.measured.after));
}

static RUN: &[Row<Shaken>] = rows! { Shaken;
    "adhesion", "bench adhesion, simulated over time", Ratio, "one wheel with its full damper curve and its stops, damper cold";
        "least tyre load / standing load, step by step", "BENCH", |s| Some(s.adhesion.si()), by: By::Solving, say: Say::Percent(0);
    "frequency", "frequency at minimum tyre load", Frequency, "frequency of the plate, from 25 Hz to rest in 10 s";
        "step by step", "BENCH", |s| Some(s.at.si()), by: By::Solving;
};

/// Every result of the runs on the plate; without values, with the reason, when there are none.
pub fn plate_runs(runs: Result<&PlateRuns, &NoRuns>) -> Vec<Figure> {
    let mut out = Out::new(Wants::Values);
    let why = runs.err().map(|why| Why::Told(why.to_string()));
    for side in Side::BOTH {
        for state in State::ALL {
            let shaken = runs.ok().and_then(|runs| runs.of(state)[side].as_ref());
            let key = format!("bench_runs.{}.{}", side.key(), state.key());
            let words = format!("{}, {}: ", side.word_inside(), state.words());
            out.of_other(&key, &words, RUN, shaken, why.as_ref());
        }
    }
    out.figures
}
