//! What a suspension bench measures on each axle, in closed form, and what a bench and recorded bounces measured.

use crate::base::units::{Quantity, Ratio, Velocity};
use crate::job::LeftRight;
use crate::job::read::{BenchReadings, BounceReading};
use crate::solve::answer::{
    AxleAnswer, BeforeAfter, BenchFacts, BenchMarks, BenchMeasured, BounceMeasured, OnBench, PerState, State,
};
use crate::solve::evaluate::on_road::corner;
use crate::solve::read::Reading;
use crate::trade::bench;
use crate::trade::recording::BodyMode;
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
    BenchFacts { predicted, measured, tyre_rate: reading.as_read(&reading.job.axle(answer.side).tyre_rate) }
}

/// Recorded before and after, each with the mode predicted at its speed.
pub(in crate::solve) fn bounces(reading: &Reading<'_>, answer: &AxleAnswer) -> BeforeAfter<BounceMeasured> {
    let recorded = &reading.job.axle(answer.side).bounce;
    let of = |read: &BounceReading, state: State| {
        let (frequency, damping) = (reading.typed(&read.frequency), reading.typed(&read.damping));
        let speed = reading.typed(&read.speed).map(Velocity::from);
        // Nothing is predicted that nobody compares.
        let is_known = frequency.is_some() || damping.is_some();
        let on = answer.bench.predicted.of(state).as_ref().filter(|_| is_known);
        let rate = speed.and_then(|speed| answer.rate_at(state, speed)).unwrap_or(Ratio::from_si(1.0));
        let mode = frequency.zip(damping).map(|(frequency, damping)| BodyMode { frequency, damping });
        let wheel_rate = mode.zip(answer.hung(state)).and_then(|(mode, [sprung, unsprung])| {
            let tyre_rate = reading.known(&reading.job.axle(answer.side).tyre_rate)?;
            Some(mode.rate_and_damping(sprung, unsprung, tyre_rate)?.0)
        });
        BounceMeasured { frequency, damping, predicted: on.and_then(|on| on.body_mode_at(rate)), wheel_rate }
    };
    BeforeAfter { before: of(&recorded.before, State::Before), after: of(&recorded.after, answer.bench.fitted_state()) }
}

/// `None` as long as something of the corner is not known.
fn on_bench(reading: &Reading<'_>, answer: &AxleAnswer, state: State) -> Option<OnBench> {
    let corner = corner(reading, answer, state)?;
    let cold = bench::reading(&corner)?;
    let left = answer.damping.as_ref().and_then(|d| d.hot_share);
    let hot = left.and_then(|left| bench::reading(&Corner { damping: corner.damping * left.si(), ..corner }));
    Some(OnBench { corner, cold, hot })
}

fn measured(reading: &Reading<'_>, typed: &BenchReadings, predicted: Option<OnBench>) -> BenchMeasured {
    let adhesion = LeftRight { left: &typed.left, right: &typed.right }.map(|e| reading.typed(e));
    let phase = LeftRight { left: &typed.left_phase, right: &typed.right_phase }.map(|e| reading.typed(e));
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
