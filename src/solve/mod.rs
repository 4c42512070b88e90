//! [`solve`]: job in, answer out. The only place that knows the order of calculation.
//!
//! 1. weights: what the scales say, before and after
//! 2. per axle: motion ratios, the old spring's curve, where it stands before and after
//! 3. per axle: the spring rate for the wanted frequency, the stock rate, its lengths
//! 4. per axle: where it stands on the new springs, room at both ends, dampers
//! 5. both axles: rear against front
//! 6. findings, worst first

pub mod answer;
mod axle;
mod findings;
mod read;
mod sizing;

use crate::job::{Job, Plan, Weighing, check};
use crate::ride;
use crate::units::{Entry, Length, Mass, Ratio};
use crate::weights::{self, Corners};
use answer::{Answer, AxleAnswer, PerState, State, Weighed};
use read::Reader;

/// Solves a job. Never fails: what cannot be known is `None`, and a finding says why.
///
/// ```
/// use springwright::{job::Job, solve::solve};
/// let mut job = Job::default();
/// (job.after.front, job.after.rear) = ("620 kg".into(), "500 kg".into());
/// let answer = solve(&job);
/// assert!(answer.after.front_share.is_some());
/// assert!(answer.after.cross_weight.is_none(), "not known from axle weights alone");
/// ```
pub fn solve(job: &Job) -> Answer {
    let reader = Reader::new(job);
    let before = weighed(&reader, &job.before);
    let after = weighed(&reader, &job.after);
    let axles = crate::job::Side::BOTH.map(|side| axle::solve(&reader, side, &before, &after));
    let rear_over_front = per_state(|state| frequency_ratio(&axles, state));
    let wheelbase = reader.job("vehicle.wheelbase", &job.vehicle.wheelbase);
    let flat_ride = per_state(|state| flat_ride(&axles, wheelbase, state));
    let mut answer =
        Answer { before, after, axles, rear_over_front, flat_ride, findings: check::fields(job), defaults: Vec::new() };
    findings::add(&reader, &mut answer);
    answer.findings.sort_by_key(|f| std::cmp::Reverse(f.level));
    answer.defaults = reader.into_defaults();
    answer
}

fn per_state<T>(f: impl Fn(State) -> T) -> PerState<T> {
    PerState { before: f(State::Before), old: f(State::OldSprings), new: f(State::NewSprings) }
}

/// What one weigh-in says: corners if all four are there, else the axles alone.
fn weighed(reader: &Reader<'_>, weighing: &Weighing) -> Weighed {
    let read = |key: &str, entry: &Entry<Mass>| reader.typed(key, entry);
    let lf = read("weighing.lf", &weighing.lf);
    let rf = read("weighing.rf", &weighing.rf);
    let lr = read("weighing.lr", &weighing.lr);
    let rr = read("weighing.rr", &weighing.rr);
    let pair = |l: Option<Mass>, r: Option<Mass>| Some(l? + r?);
    let corners = lf.zip(rf).zip(lr.zip(rr)).map(|((lf, rf), (lr, rr))| Corners { lf, rf, lr, rr });
    let front = pair(lf, rf).or_else(|| read("weighing.front", &weighing.front));
    let rear = pair(lr, rr).or_else(|| read("weighing.rear", &weighing.rear));
    let total = pair(front, rear);
    let spread = |l: Option<Mass>, r: Option<Mass>| Some(weights::left_right_difference(l?, r?));
    Weighed {
        corners,
        front,
        rear,
        total,
        front_share: front.zip(total).map(|(f, t)| -> Ratio { f / t }),
        left_share: corners.as_ref().map(weights::left_share),
        cross_weight: corners.as_ref().map(weights::cross_weight),
        left_right: [spread(lf, rf), spread(lr, rr)],
    }
}

fn frequency_ratio(axles: &[AxleAnswer; 2], state: State) -> Option<Ratio> {
    let [front, rear] = axles;
    let front = front.standing.of(state).as_ref()?;
    let rear = rear.standing.of(state).as_ref()?;
    Some(ride::rear_over_front(front.frequency, rear.frequency))
}

fn flat_ride(axles: &[AxleAnswer; 2], wheelbase: Option<Length>, state: State) -> Option<crate::units::Velocity> {
    let [front, rear] = axles;
    let front = front.standing.of(state).as_ref()?;
    let rear = rear.standing.of(state).as_ref()?;
    ride::flat_ride_speed(wheelbase?, front.frequency, rear.frequency)
}

/// True when the axle keeps its springs.
pub(crate) fn keeps(axle: &AxleAnswer) -> bool {
    axle.plan == Plan::Keep
}
