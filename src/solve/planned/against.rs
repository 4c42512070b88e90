//! Whether two plans do the same, as far as the ± of their difference can tell.

use std::collections::HashMap;

use crate::base::units::Quantity;
use crate::job::{Level, Side, fields};
use crate::solve::answer::{Answer, AxleAnswer};

/// What another plan does, compared with the chosen one.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
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
pub(super) const SAME_FREQUENCY: f64 = 0.03;
pub(super) const SAME_HEIGHT_M: f64 = 0.005;
const SAME_RESERVE: f64 = 0.05;

/// A result of an axle, and from which difference on two values are not the same.
type Result = (fn(&AxleAnswer) -> Option<f64>, fn(f64) -> f64);

/// What decides whether two plans do the same.
const DECIDING: [Result; 3] = [
    (|a| Some(a.standing.new.as_ref()?.frequency.si()), |hz| SAME_FREQUENCY * hz),
    (|a| a.standing.new.as_ref()?.height_change.map(Quantity::si), |_| SAME_HEIGHT_M),
    (|a| a.standing.new.as_ref()?.reserve.map(Quantity::si), |_| SAME_RESERVE),
];

/// How far a field moves a result, by its path.
pub(super) type Step = (String, f64);

/// One result of an axle in two plans.
pub(super) struct Difference {
    /// By how much it differs, SI.
    is: f64,
    /// From how much on it is not the same.
    least: f64,
    /// How far each field moves the difference; `None` where the result is lost.
    pub moved_by: Option<Vec<Step>>,
}

impl Difference {
    /// What it says of the two plans.
    pub fn says(&self) -> Against {
        let u = self.moved_by.as_ref().map(|steps| root_sum(steps));
        match u {
            _ if self.is.abs() >= self.least => Against::Differs,
            Some(u) if u < self.least => Against::Same,
            _ => Against::Unclear,
        }
    }
}

/// What decides on one axle whether two plans do the same; `None` where a result is known in one of them alone.
///
/// Against old springs that stay, the tolerance of new ones does not count: it cannot be measured before they are there,
/// and is no reason to buy them.
pub(super) fn differences(plan: &Answer, other: &Answer, side: Side) -> Option<Vec<Difference>> {
    let mut found = Vec::new();
    for (result, least) in DECIDING {
        let (is, was) = match (result(plan.axle(side)), result(other.axle(side))) {
            (None, None) => continue,
            (Some(is), Some(was)) => (is, was),
            _ => return None,
        };
        let moved_by = steps(plan, side, result).zip(steps(other, side, result));
        let mut moved_by = moved_by.map(|(a, b)| steps_of_difference(&a, &b));
        if plan.axle(side).keeps() != other.axle(side).keeps() {
            moved_by.iter_mut().for_each(|steps| steps.retain(|(path, _)| !is_of_the_plan(path)));
        }
        found.push(Difference { is: is - was, least: least(was), moved_by });
    }
    Some(found)
}

/// What a plan does, compared with another one.
pub fn against(plan: &Answer, other: &Answer) -> Against {
    let bars = |of: &Answer| Side::BOTH.map(|side| of.axle(side).parts.roll_bar);
    // Another bar is felt in bends, whether or not this vehicle's roll is known.
    if bars(plan) != bars(other) {
        return Against::Differs;
    }
    Side::BOTH.map(|side| on_axle(plan, other, side)).into_iter().max().unwrap_or(Against::Same)
}

/// The same of one axle.
pub(super) fn on_axle(plan: &Answer, other: &Answer, side: Side) -> Against {
    let Some(found) = differences(plan, other, side) else { return Against::Differs };
    found.iter().map(Difference::says).max().unwrap_or(Against::Same)
}

/// A plan brings up no doubt that another one does not.
pub fn raises_no_doubt(plan: &Answer, other: &Answer) -> bool {
    let is_there = |rule: &str| other.findings.iter().any(|f| f.rule == rule && f.level >= Level::Doubt);
    plan.findings.iter().filter(|f| f.level >= Level::Doubt).all(|f| is_there(f.rule))
}

fn steps(of: &Answer, side: Side, result: fn(&AxleAnswer) -> Option<f64>) -> Option<Vec<Step>> {
    of.checked(side).nudged.steps(result).map(|(path, step)| Some((path.to_owned(), step?))).collect()
}

/// Standard uncertainty of the difference of a result in two plans, from how far each field moves it in either. Source
/// `GUM`, 5.2.
pub fn u_of_difference(a: &[Step], b: &[Step]) -> f64 {
    root_sum(&steps_of_difference(a, b))
}

fn root_sum(steps: &[Step]) -> f64 {
    steps.iter().map(|(_, step)| step.powi(2)).sum::<f64>().sqrt()
}

/// How far each field moves the difference: a field of the vehicle moves both plans together, what a plan has of its own
/// moves one alone.
fn steps_of_difference(a: &[Step], b: &[Step]) -> Vec<Step> {
    let mut rest: Vec<((&str, usize), f64)> = numbered(b).collect();
    let mut found = Vec::new();
    for (at, step) in numbered(a) {
        let same = rest.iter().position(|(of, _)| *of == at && !is_of_the_plan(at.0));
        let other = same.map_or(0.0, |i| rest.remove(i).1);
        found.push((at.0.to_owned(), step - other));
    }
    found.extend(rest.into_iter().map(|((path, _), step)| (path.to_owned(), -step)));
    found
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
    const OWN: [&str; 10] = [
        "spacer",
        "index",
        "added_leaf",
        "taken.",
        "left.",
        "right.",
        "stock.",
        "new_damper.",
        "roll_bar.new",
        "target.raise",
    ];
    fields::key_of(path).is_some_and(|(key, _)| OWN.iter().any(|own| key.starts_with(own)))
}
