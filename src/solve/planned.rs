//! The plans of a job side by side: which there are, and whether two of them do the same.

use std::collections::HashMap;

use crate::base::language::with_mark;
use crate::base::message::Message;
use crate::base::units::entry::AnyEntry as _;
use crate::base::units::{Quantity, display};
use crate::job::{Axle, DamperPlan, Job, Level, Plan, Side, Which, bounded, fields};
use crate::message;
use crate::solve::answer::{Answer, AxleAnswer, Checked};
use crate::solve::solve;

/// A plan, ready to be solved.
#[derive(Debug, Clone)]
pub struct Planned {
    /// Which it is; `None` for the old springs on spacers, which the program adds where they would do.
    pub which: Option<Which>,
    /// What it is called.
    pub name: Message,
    /// The job with this plan chosen.
    pub job: Job,
}

impl Planned {
    /// The key in JSON and in the command line.
    pub fn key(&self) -> String {
        self.which.map_or_else(|| SPACERS.to_owned(), Which::key)
    }

    /// It is the chosen one.
    pub fn is_chosen(&self) -> bool {
        self.which == Some(Which::Chosen)
    }
}

/// The key of the plan that the program adds.
const SPACERS: &str = "spacers";
/// Its name.
const ON_SPACERS: Message = message!("old springs with spacers");

/// Every plan of a job; `chosen` is the answer to the job as it is.
pub fn every(job: &Job, chosen: &Answer) -> Vec<Planned> {
    let job = &*bounded::used(job);
    let planned = |which| Planned { which: Some(which), name: job.plan_words(which), job: job.on_plan(which) };
    let mut all: Vec<Planned> = job.every_plan().into_iter().map(planned).collect();
    let renewed = renewed(job);
    let is_there = |plan: &Planned| renewed.iter().all(|side| is_on_spacer(plan.job.axle(*side)));
    if !all.iter().any(is_there) {
        all.extend(on_spacers(job, chosen).map(|job| Planned { which: None, name: ON_SPACERS, job }));
    }
    all
}

/// The job with a plan chosen by its name or key. `None` when there is no such plan.
pub fn named(job: &Job, name: &str) -> Option<Job> {
    if let Some(which) = job.plan_named(name) {
        return Some(job.on_plan(which));
    }
    let is_spacers = SPACERS.eq_ignore_ascii_case(name.trim()) || ON_SPACERS.is_said(name);
    is_spacers.then(|| on_spacers(job, &solve(job)))?
}

/// The axles that get new springs.
fn renewed(job: &Job) -> Vec<Side> {
    Side::BOTH.into_iter().filter(|side| job.axle(*side).plan == Plan::NewSprings).collect()
}

fn is_on_spacer(axle: &Axle) -> bool {
    axle.plan == Plan::Keep && !axle.leaves_springs()
}

/// The old springs on spacers on every axle that would get new ones, the old dampers with them; `None` where one of them
/// is offered none. Spacers come as lengths are shown: in whole millimetres or sixteenths of an inch.
fn on_spacers(job: &Job, answer: &Answer) -> Option<Job> {
    let renewed = renewed(job);
    let mut raised = job.clone();
    for side in &renewed {
        let spacer = answer.released(*side).ok()?.spacer?;
        let is_free = spacer.index.is_none() && spacer.to_bind.is_none_or(|left| left.si() >= 0.0);
        let text = with_mark(display::rounded(spacer.thickness, &job.units), job.decimal);
        let axle = raised.axle_mut(*side);
        (axle.plan, axle.spacer, axle.dampers) = (Plan::Keep, text.as_str().into(), DamperPlan::Keep);
        (axle.left, axle.right) = Default::default();
        let has_one = axle.spacer.number(job.decimal).ok()?.is_some_and(|number| number.si() > 0.0);
        (is_free && has_one).then_some(())?;
    }
    raised.plan_name.clear();
    (!renewed.is_empty()).then_some(raised)
}

/// What another plan does, compared with the chosen one.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Against {
    /// The same, as far as anybody can tell.
    Same,
    /// It may be the same: the ± of the difference is too large to tell.
    Unclear,
    /// Something else.
    Differs,
}

impl Against {
    /// The key in JSON.
    pub fn key(self) -> &'static str {
        match self {
            Against::Same => "same",
            Against::Unclear => "unclear",
            Against::Differs => "differs",
        }
    }
}

/// Two plans with the same anti-roll bars are the same when frequency, height and reserve of both axles differ by less than this; common practice, no
/// source.
const SAME_FREQUENCY: f64 = 0.03;
const SAME_HEIGHT_M: f64 = 0.005;
const SAME_RESERVE: f64 = 0.05;

/// A result of an axle, and from which difference on two values are not the same.
type Result = (fn(&AxleAnswer) -> Option<f64>, fn(f64) -> f64);

/// What decides whether two plans do the same.
const DECIDING: [Result; 3] = [
    (|a| Some(a.standing.new.as_ref()?.frequency.si()), |hz| SAME_FREQUENCY * hz),
    (|a| a.standing.new.as_ref()?.height_change.map(Quantity::si), |_| SAME_HEIGHT_M),
    (|a| a.standing.new.as_ref()?.reserve.map(Quantity::si), |_| SAME_RESERVE),
];

/// What a plan does, compared with another one.
pub fn against(plan: &Answer, other: &Answer) -> Against {
    let bars = |of: &Answer| Side::BOTH.map(|side| of.axle(side).parts.roll_bar);
    // Another bar is felt in bends, whether or not this vehicle's roll is known.
    if bars(plan) != bars(other) {
        return Against::Differs;
    }
    let mut found = Against::Same;
    for (side, (result, least)) in Side::BOTH.into_iter().flat_map(|side| DECIDING.map(|of| (side, of))) {
        let (is, was) = match (result(plan.axle(side)), result(other.axle(side))) {
            (None, None) => continue,
            (Some(is), Some(was)) => (is, was),
            _ => return Against::Differs,
        };
        let least = least(was);
        if (is - was).abs() >= least {
            return Against::Differs;
        }
        let steps = |of: &Answer| steps(of.checked(side), result);
        let u = steps(plan).zip(steps(other)).map(|(a, b)| u_of_difference(&a, &b));
        if u.is_none_or(|u| u >= least) {
            found = Against::Unclear;
        }
    }
    found
}

/// A plan brings up no doubt that another one does not.
pub fn raises_no_doubt(plan: &Answer, other: &Answer) -> bool {
    let is_there = |rule: &str| other.findings.iter().any(|f| f.rule == rule && f.level >= Level::Doubt);
    plan.findings.iter().filter(|f| f.level >= Level::Doubt).all(|f| is_there(f.rule))
}

fn steps(checked: &Checked, result: fn(&AxleAnswer) -> Option<f64>) -> Option<Vec<(String, f64)>> {
    checked.steps(result).map(|(path, step)| Some((path.to_owned(), step?))).collect()
}

/// Standard uncertainty of the difference of a result in two plans, from how far each field moves it in either: a field of
/// the vehicle moves both together, what a plan has of its own moves one alone. Source `GUM`, 5.2.
pub fn u_of_difference(a: &[(String, f64)], b: &[(String, f64)]) -> f64 {
    let mut rest: HashMap<(&str, usize), f64> = numbered(b).collect();
    let mut variance = 0.0;
    for (at, step) in numbered(a) {
        let other = if is_of_the_plan(at.0) { None } else { rest.remove(&at) };
        variance += (step - other.unwrap_or(0.0)).powi(2);
    }
    (variance + rest.values().map(|step| step.powi(2)).sum::<f64>()).sqrt()
}

/// Steps with their path and the how manieth of that path each is.
fn numbered(steps: &[(String, f64)]) -> impl Iterator<Item = ((&str, usize), f64)> {
    let mut seen: HashMap<&str, usize> = HashMap::new();
    steps.iter().map(move |(path, step)| {
        let count = seen.entry(path.as_str()).or_default();
        *count += 1;
        ((path.as_str(), *count), *step)
    })
}

/// The field is about the parts of one plan.
fn is_of_the_plan(path: &str) -> bool {
    const OWN: [&str; 8] =
        ["spacer", "taken.", "left.", "right.", "stock.", "new_damper.", "roll_bar.new", "target.raise"];
    fields::key_of(path).is_some_and(|(key, _)| OWN.iter().any(|own| key.starts_with(own)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_moves_both_plans_alike_leaves_their_difference_alone() {
        let of = |steps: &[(&str, f64)]| steps.iter().map(|(p, s)| ((*p).to_owned(), *s)).collect::<Vec<_>>();
        let (a, b) = (of(&[("before.lf", 3.0), ("front.taken.rate", 1.0)]), of(&[("before.lf", 3.0)]));
        assert_eq!(u_of_difference(&a, &b), 1.0);
        assert_eq!(u_of_difference(&b, &b), 0.0);
        // Springs of two plans are two pairs of springs.
        assert_eq!(u_of_difference(&of(&[("front.taken.rate", 3.0)]), &of(&[("front.taken.rate", 4.0)])), 5.0);
        // A field may move a result by itself and by what the routes disagree.
        let twice = of(&[("front.spring.rate", 1.0), ("front.spring.rate", 2.0)]);
        assert_eq!(u_of_difference(&twice, &of(&[("front.spring.rate", 1.0)])), 2.0);
    }
}
