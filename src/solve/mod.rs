//! [`solve`]: job in, answer out. The only place that knows the order of calculation.
//!
//! 0. the old springs' rates: by which way they count, decided once
//! 1. weights: what the scales say, before and after; brought to equal load, or reckoned by the ledger of parts
//! 2. ratings of every load case; those of tyres and wheels again once step 5 tells how the axles share roll
//! 3. per axle: motion ratios, the old spring's curve, where it stands before and after
//! 4. per axle: the spring rate for the wanted frequency, the stock rate, its lengths
//! 5. per axle: where it stands on the new springs, room at both ends, dampers, springs in detail
//! 6. every load case on the old springs and the new; the whole vehicle: rear against front, pitch, roll, corners
//! 7. axles and vehicle again, each field moved by its ±: what moves with it; then the routes to the wheel rate side
//!    by side
//! 8. findings, worst first

pub mod answer;
mod axle;
mod bars;
mod cases;
mod compare;
mod corners;
mod damping;
mod detail;
pub mod drawn;
mod findings;
pub mod ground;
mod known;
mod loads;
mod missing;
mod moved;
mod old_rate;
mod old_spring;
mod options;
mod read;
mod reweigh;
pub mod road;
mod routes;
mod sizing;
mod whole;

use crate::job::read::{Read, Weighing};
use crate::job::{Job, Plan, Side, bounded, check};
use crate::ride;
use crate::units::{Length, Mass, Quantity, Ratio, Velocity};
use crate::weights::{self, Corners};
use answer::{Answer, AxleAnswer, CaseAnswer, PerState, State, Weighed};
use read::Reading;

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
    let given = job;
    let used = bounded::used(given);
    let job = &*used;
    let reading = old_rate::read(job);
    let before = weighed(&reading, &reading.job.before);
    let after = weighed(&reading, &reading.job.after);
    let compared = loads::compared(&reading);
    let carried = cases::carried(&reading, &compared);
    let mut cases = cases::rated(&reading, &carried, &after, None);
    let mut axles = Side::BOTH.map(|side| axle::solve(&reading, side, &compared, over(&cases, side), None));
    let leans = cases::some_lean(&reading);
    if leans {
        let on = whole::RestsOn { axles: axles.each_ref(), before: &before, after: &after, compared: &compared };
        cases = cases::rated(&reading, &carried, &after, Some(&cases::Lean(whole::roll_paths(&reading, on))));
        axles.iter_mut().for_each(|axle| axle.overloaded = over(&cases, axle.side));
    }
    for axle in &mut axles {
        axle.missing = missing::missing(&reading, axle, &compared.weighed[1]);
        axle.instead = missing::instead(&reading, axle, compared.weighed.each_ref());
    }
    let by_axle = Side::BOTH.map(|side| reading.uncertain(side).collect::<Vec<_>>());
    let ledger = loads::ledger(&reading);
    let of_axles = axles.each_ref();
    let under = cases::Under { axles: of_axles, compared: &compared, carried: &carried };
    cases::stand(&reading, under, None, &mut cases);
    let on = whole::RestsOn { axles: of_axles, before: &before, after: &after, compared: &compared };
    let whole = whole::solve(&reading, on, ledger.as_ref());
    let solved = moved::Solved { reading: &reading, under, on, cases: &cases, leans, whole: &whole };
    let (checked, moved) = solved.each_field_moved(&by_axle);
    let (rear_over_front, flat_ride) = front_and_rear(&reading, of_axles);
    let remedies = of_axles.map(|axle| options::remedies(&reading, axle, &carried, &cases, None));
    let reweigh = reweigh::solve(&reading, &after, &compared, of_axles, &whole);
    let findings = [bounded::findings(given), check::fields(job)].concat();
    let defaults = Vec::new();
    let mut answer = Answer {
        before,
        after,
        compared,
        ledger,
        cases,
        axles,
        checked,
        remedies,
        rear_over_front,
        flat_ride,
        whole,
        reweigh,
        moved,
        findings,
        defaults,
        unmeasured: reading.unmeasured(),
    };
    findings::add(&reading, &mut answer);
    answer.findings.sort_by_key(|f| std::cmp::Reverse(f.level));
    answer.defaults = reading.into_defaults();
    answer
}

/// A rating of this axle, or of the whole vehicle, is exceeded in some load case that is driven.
fn over(cases: &[CaseAnswer], side: Side) -> bool {
    cases.iter().filter(|c| !c.what_if).flat_map(|c| &c.rated).any(|r| r.part.concerns(side) && r.is_over())
}

fn per_state<T>(f: impl Fn(State) -> T) -> PerState<T> {
    PerState { before: f(State::Before), old: f(State::OldSprings), new: f(State::NewSprings) }
}

/// What one weigh-in says: corners if all four are there, else the axles alone.
fn weighed(reading: &Reading<'_>, weighing: &Weighing) -> Weighed {
    let read = |entry: &Read<Mass>| reading.typed(entry);
    // The mean of all readings of a corner.
    let [lf, rf, lr, rr] = loads::corners(weighing).map(|corner| {
        let all = loads::readings(reading, weighing, corner);
        let (sum, count) = all.fold((Mass::from_si(0.0), 0.0), |(sum, n), m| (sum + m, n + 1.0));
        (count > 0.0).then(|| sum / count)
    });
    let pair = |l: Option<Mass>, r: Option<Mass>| Some(l? + r?);
    let corners = lf.zip(rf).zip(lr.zip(rr)).map(|((lf, rf), (lr, rr))| Corners { lf, rf, lr, rr });
    let front = pair(lf, rf).or_else(|| read(&weighing.front));
    let rear = pair(lr, rr).or_else(|| read(&weighing.rear));
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

/// Rear over front frequency, and the flat-ride speed.
fn front_and_rear(
    reading: &Reading<'_>,
    [front, rear]: [&AxleAnswer; 2],
) -> (PerState<Option<Ratio>>, PerState<Option<Velocity>>) {
    let wheelbase: Option<Length> = reading.known(&reading.job.vehicle.wheelbase);
    let both = |state: State| {
        let frequency = |axle: &AxleAnswer| Some(axle.standing.of(state).as_ref()?.frequency);
        Some((frequency(front)?, frequency(rear)?))
    };
    (
        per_state(|s| both(s).map(|(front, rear)| ride::rear_over_front(front, rear))),
        per_state(|s| both(s).and_then(|(front, rear)| ride::flat_ride_speed(wheelbase?, front, rear))),
    )
}

/// True when the axle keeps its springs.
pub(crate) fn keeps(axle: &AxleAnswer) -> bool {
    axle.plan == Plan::Keep
}
