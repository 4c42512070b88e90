//! What a suspension bench measures on each axle, in closed form, and what a bench and recorded bounces measured.

use crate::base::units::{Angle, Quantity, Ratio};
use crate::job::Side;
use crate::job::read::{BenchReadings, BounceReading};
use crate::solve::answer::{
    AxleAnswer, BeforeAfter, BenchFacts, BenchMarks, BenchMeasured, BounceMeasured, OnBench, PerState, State,
};
use crate::solve::evaluate::on_road::damped;
use crate::solve::read::Reading;
use crate::trade::bench;
use crate::trade::road::Corner;

/// Predicted in every state, measured before and after.
pub(in crate::solve) fn facts(reading: &Reading<'_>, answer: &AxleAnswer) -> BenchFacts {
    let predicted = PerState::each(|state| on_bench(reading, answer, state));
    let readings = &reading.job.axle(answer.side).bench;
    let fitted = predicted.new.or(predicted.old);
    let measured = BeforeAfter {
        before: measured(reading, &readings.before, predicted.before),
        after: measured(reading, &readings.after, fitted),
    };
    BenchFacts { predicted, measured }
}

/// Recorded before and after, each with its predicted mode.
pub(in crate::solve) fn bounces(reading: &Reading<'_>, side: Side, bench: &BenchFacts) -> BeforeAfter<BounceMeasured> {
    let recorded = &reading.job.axle(side).bounce;
    let of = |read: &BounceReading, on: Option<&OnBench>| {
        let (frequency, damping) = (reading.typed(&read.frequency), reading.typed(&read.damping));
        // Nothing is predicted that nobody compares.
        let is_known = frequency.is_some() || damping.is_some();
        let predicted = on.filter(|_| is_known).and_then(OnBench::body_mode);
        BounceMeasured { frequency, damping, predicted }
    };
    BeforeAfter {
        before: of(&recorded.before, bench.predicted.before.as_ref()),
        after: of(&recorded.after, bench.as_fitted()),
    }
}

/// `None` as long as something of the corner is not known.
fn on_bench(reading: &Reading<'_>, answer: &AxleAnswer, state: State) -> Option<OnBench> {
    let damped = damped(answer, state)?;
    let corner = Corner {
        sprung: damped.sprung,
        unsprung: damped.unsprung,
        wheel_rate: damped.wheel_rate,
        tyre_rate: reading.known(&reading.job.axle(answer.side).tyre_rate)?,
        damping: damped.at_wheel,
    };
    let cold = bench::reading(&corner)?;
    let left = answer.damping.as_ref().and_then(|d| d.hot_share);
    let hot = left.and_then(|left| bench::reading(&Corner { damping: corner.damping * left.si(), ..corner }));
    Some(OnBench { corner, cold, hot })
}

fn measured(reading: &Reading<'_>, typed: &BenchReadings, predicted: Option<OnBench>) -> BenchMeasured {
    let adhesion: [Option<Ratio>; 2] = [&typed.left, &typed.right].map(|e| reading.typed(e));
    let phase: [Option<Angle>; 2] = [&typed.left_phase, &typed.right_phase].map(|e| reading.typed(e));
    BenchMeasured { adhesion, phase, predicted: predicted.map(|p| p.cold) }
}

/// The marks of the job, without noting that they were asked for: no result rests on them.
pub(in crate::solve) fn marks(reading: &Reading<'_>) -> BenchMarks {
    let limits = &reading.job.limits;
    BenchMarks {
        good: reading.as_read(&limits.bench_good),
        fair: reading.as_read(&limits.bench_fair),
        weak: reading.as_read(&limits.bench_weak),
        phase: reading.as_read(&limits.bench_phase),
        left_right: reading.as_read(&limits.bench_left_right),
    }
}
