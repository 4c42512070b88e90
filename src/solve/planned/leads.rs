//! A cheaper remedy in place of an axle's new springs: it leads where it does what they do, or names what must be
//! measured first to know.

use super::{Against, against, fits, keep, raises_no_doubt};
use crate::base::language::with_mark;
use crate::base::units::{Angle, Length, Quantity};
use crate::job::{Job, PerAxle, Plan, Side, SpringKind};
use crate::solve::answer::{Answer, Lead, Raised, RemedyKind};
use crate::solve::without_leads;

/// A sixteenth of an inch, m.
const SIXTEENTH_M: f64 = 0.0254 / 16.0;
/// Half a degree, rad: an adjuster is set no finer. Common practice, no source.
const HALF_DEGREE_RAD: f64 = std::f64::consts::PI / 360.0;

/// What leads on each axle in place of its new springs: nothing done, else spacers under the old ones. The rear is judged
/// together with what leads at the front.
pub(in crate::solve) fn leads(job: &Job, answer: &Answer) -> PerAxle<Option<Lead>> {
    let front = of_axle(job, answer, Side::Front);
    let at_front = front.as_ref().filter(|lead| lead.leads()).map(|lead| on_lead(job, Side::Front, lead));
    let rear = match at_front {
        Some(job) => of_axle(&job, &without_leads(&job), Side::Rear),
        None => of_axle(job, answer, Side::Rear),
    };
    PerAxle { front, rear }
}

/// The job with what leads in place of what was planned; `None` where nothing does.
pub fn led(job: &Job, answer: &Answer) -> Option<Job> {
    let mut led: Option<Job> = None;
    for side in Side::BOTH {
        if let Some(lead) = answer.lead(side).filter(|lead| lead.leads()) {
            led = Some(on_lead(led.as_ref().unwrap_or(job), side, lead));
        }
    }
    led
}

fn of_axle(job: &Job, answer: &Answer, side: Side) -> Option<Lead> {
    let axle = answer.axle(side);
    let is_asked = axle.plan == Plan::NewSprings && !job.axle(side).new_anyway && axle.standing.new.is_some();
    let spacer = answer.released(side).ok().filter(|_| is_asked)?.spacer;
    let nothing = Some((RemedyKind::Nothing, None, true));
    // Leaves do not bind.
    let holds_anyway = axle.kind == SpringKind::Leaf;
    let set = spacer.and_then(fits).map(|(raised, holds)| (in_steps(job, raised), holds || holds_anyway));
    let set = set.filter(|(raised, _)| is_up(*raised));
    let set = set.map(|(raised, holds)| (RemedyKind::Spacer, Some(raised), holds));
    nothing.into_iter().chain(set).find_map(|remedy| judged(job, answer, side, remedy))
}

/// A spacer of the next size that is sold, whatever units are shown; a bar by half degrees.
fn in_steps(job: &Job, raised: Raised) -> Raised {
    let step_m = if job.in_pounds_and_inches() { SIXTEENTH_M } else { 1e-3 };
    let next = |value: f64, step: f64| (value / step).round() * step;
    match raised {
        Raised::Spacer(thickness) => Raised::Spacer(Length::from_si(next(thickness.si(), step_m))),
        Raised::Index(index) => Raised::Index(Angle::from_si(next(index.si(), HALF_DEGREE_RAD))),
    }
}

fn is_up(raised: Raised) -> bool {
    match raised {
        Raised::Spacer(thickness) => thickness.si() > 0.0,
        Raised::Index(index) => index.si() > 0.0,
    }
}

/// One remedy, where it does the same as the new springs, or may.
fn judged(
    job: &Job,
    answer: &Answer,
    side: Side,
    (kind, raised, holds): (RemedyKind, Option<Raised>, bool),
) -> Option<Lead> {
    let does_wanted = kind == RemedyKind::Nothing && answer.axle(side).old_will_do == Some(true);
    (does_wanted || is_near(answer, side, kind)).then_some(())?;
    let mut lead = Lead { kind, raised, does_wanted, stands: None, measure: Vec::new() };
    let job = on_lead(job, side, &lead);
    let other = without_leads(&job);
    let would_do = other.released(side).is_ok() && raises_no_doubt(&other, answer);
    would_do.then_some(())?;
    if !does_wanted {
        lead.measure = match against::on_axle(&other, answer, side) {
            Against::Same => Vec::new(),
            Against::Unclear => unclear(&other, answer, side),
            Against::Differs => return None,
        };
    }
    if !holds {
        lead.measure.extend(unknown_limit(&job, side));
    }
    lead.stands = other.stands(side);
    Some(lead)
}

/// By the values alone it may be the same: what is not needs no second answer.
fn is_near(answer: &Answer, side: Side, kind: RemedyKind) -> bool {
    let remedy = answer.remedies[side].iter().find(|remedy| remedy.kind == kind);
    let old = remedy.and_then(|remedy| remedy.cases.get(answer.compared_case()).copied().flatten());
    old.zip(answer.axle(side).standing.new.as_ref()).is_some_and(|(old, new)| {
        let apart = old.above_before.zip(new.height_change).map_or(0.0, |(old, new)| (old - new).si().abs());
        // A spacer brings the height back, but for the size it comes in.
        let sits_alike = kind == RemedyKind::Spacer || apart < against::SAME_HEIGHT_M;
        sits_alike && ((old.on.frequency() / new.frequency).si() - 1.0).abs() < against::SAME_FREQUENCY
    })
}

/// The job with this remedy in place of new springs.
fn on_lead(job: &Job, side: Side, lead: &Lead) -> Job {
    let mut job = job.clone();
    let (spacer, index) = match lead.raised {
        Some(Raised::Spacer(thickness)) => (format!("{} m", thickness.si()), String::new()),
        Some(Raised::Index(index)) => (String::new(), format!("{:.1}°", index.si().to_degrees())),
        None => Default::default(),
    };
    let [spacer, index] = [spacer, index].map(|text| with_mark(text, job.decimal));
    keep(job.axle_mut(side), &spacer, &index);
    job
}

/// The fields that make most of the ± of a difference that is not clear, as paths.
fn unclear(plan: &Answer, other: &Answer, side: Side) -> Vec<String> {
    /// What makes less of it than this is not named.
    const COUNTS: f64 = 0.15;
    let unclear = against::differences(plan, other, side).unwrap_or_default();
    let unclear = unclear.iter().filter(|d| d.says() == Against::Unclear).filter_map(|d| d.moved_by.as_deref());
    let mut paths: Vec<String> = Vec::new();
    for (path, share) in unclear.flat_map(shares) {
        if share >= COUNTS && !paths.contains(&path) {
            paths.push(path);
        }
    }
    paths
}

/// What each field brings to a sum of squares, by path, largest first; together 1.
fn shares(steps: &[against::Step]) -> Vec<(String, f64)> {
    let steps = steps.iter().map(|(path, step)| (path.as_str(), Some(*step)));
    crate::solve::answer::shares(steps).into_iter().map(|(path, share)| (path.to_owned(), share)).collect()
}

/// What is missing to know whether the coils of a raised spring bind, or a bar indexed again holds its stress.
fn unknown_limit(job: &Job, side: Side) -> Vec<String> {
    let axle = job.axle(side);
    let solid = axle.spring.kind.is_coil() && axle.spring.solid_length.is_blank();
    let blank = [("spring.solid_length", solid), ("travel.metal", axle.travel.metal.is_blank())];
    let blank = blank.into_iter().filter(|(_, is_blank)| *is_blank);
    blank.map(|(key, _)| format!("{}.{key}", side.key())).collect()
}
