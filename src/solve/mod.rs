//! [`solve`]: job in, answer out. The only place that knows the order of calculation.
//!
//! 1. `read`: each text once, into a tree of the job's own shape
//! 2. `decide`: which rate of each old spring counts, what is bought, what is fitted
//! 3. `evaluate`: weights at equal load; per axle motion ratios, the old spring's curve, the spring for the wanted
//!    frequency, where it is on either, dampers, springs in detail; load cases; the whole vehicle
//! 4. `spreads`: 3 again, each field moved by its ±, as far as it reaches; then the routes to the wheel rate side by
//!    side
//! 5. `findings`, worst first
//! 6. `planned`: a cheaper remedy that does what an axle's new springs do
//!
//! [`solve_values`] stops after 3.

pub mod answer;
pub mod bench;
mod compare;
mod decide;
pub mod drawn;
mod evaluate;
mod findings;
pub mod ground;
mod missing;
pub mod other_springs;
pub mod planned;
mod read;
pub mod recorded;
mod reweigh;
pub mod road;
mod spreads;

use crate::base::language::Word;
use crate::job::{Finding, Job, Level, PerAxle, Side, bounded, check};
use answer::{Answer, EachMoved};
use evaluate::Results;
use evaluate::decided::Decisions;
pub use findings::edge;
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
    let mut answer = without_leads(job);
    answer.leads = planned::leads(&bounded::used(job), &answer);
    answer
}

/// The same for what is planned, whatever leads in place of new springs.
pub fn without_leads(job: &Job) -> Answer {
    let used = bounded::used(job);
    let (mut reading, decisions, results) = evaluated(&used);
    let (checked, moved) = spreads::each_field_moved(&mut reading, &decisions, &results);
    let values = answer_of(&reading, &decisions, results);
    let findings = of_fields(job, &used);
    let mut answer = Answer { is_coming: false, checked, moved, findings, ..values };
    findings::add(&reading, &mut answer);
    finished(reading, answer)
}

/// The values alone, in a fraction of the time: every ±, and every finding that rests on results, is still to come. Until
/// then nothing is released ([`Answer::is_coming`]).
pub fn solve_values(job: &Job) -> Answer {
    let used = bounded::used(job);
    let (reading, decisions, results) = evaluated(&used);
    let mut findings = of_fields(job, &used);
    let text = Word("The ± values are still being calculated. Do not order until they are shown.");
    findings.push(Finding::new(Level::Withheld, "coming", "", text));
    let answer = Answer { findings, ..answer_of(&reading, &decisions, results) };
    finished(reading, answer)
}

/// A job read, decided and evaluated.
fn evaluated(job: &Job) -> (Reading<'_>, Decisions, Results) {
    let mut reading = Reading::of(job);
    let decisions = decide::decide(&mut reading);
    let results = evaluate::evaluate(&reading, &decisions);
    (reading, decisions, results)
}

/// Findings that fields show by themselves.
fn of_fields(job: &Job, used: &Job) -> Vec<Finding> {
    [bounded::findings(job), check::fields(used)].concat()
}

/// The answer with its findings in order, and the defaults that it and they rest on.
fn finished(reading: Reading<'_>, mut answer: Answer) -> Answer {
    answer.findings.sort_by_key(|f| std::cmp::Reverse(f.level));
    answer.defaults = reading.into_defaults();
    answer
}

/// The answer without its ± and its findings.
fn answer_of(reading: &Reading<'_>, decisions: &Decisions, results: Results) -> Answer {
    let Results { mut vehicle, mut axles, ledger, .. } = results;
    for side in Side::BOTH {
        let (axle, old) = (&mut axles[side], &decisions.axles[side].old_rate);
        axle.missing = missing::missing(reading, old, axle, &vehicle.compared.weighed.after);
        axle.instead = missing::instead(reading, old, axle, &vehicle.compared.weighed);
    }
    vehicle.whole.corners_missing = missing::of_corners(reading, &vehicle, axles.as_ref());
    let reweigh = reweigh::solve(reading, &vehicle, axles.as_ref());
    let checked = PerAxle::each(|side| spreads::still(reading, decisions, side));
    Answer {
        is_coming: true,
        vehicle,
        ledger,
        axles,
        checked,
        leads: PerAxle::default(),
        reweigh,
        moved: EachMoved::default(),
        findings: Vec::new(),
        defaults: Vec::new(),
        unmeasured: reading.unmeasured(),
        bench_marks: evaluate::on_bench::marks(reading),
    }
}
