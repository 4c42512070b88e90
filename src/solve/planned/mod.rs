//! The plans of a job side by side: which there are, and whether two of them do the same.

mod added;
mod against;
mod leads;

use crate::base::message::Message;
use crate::base::units::Quantity as _;
use crate::job::{Axle, Job, Plan, Side, Which, bounded};
use crate::solve::answer::{Answer, Raised, Spacer};
use crate::solve::solve;

use added::Added;
pub use added::SPACERS;
pub use against::{Against, against, raises_no_doubt, u_of_difference};
pub(super) use leads::leads;
pub use leads::led;

/// A plan, ready to be solved.
#[derive(Debug, Clone)]
pub struct Planned {
    /// Which it is; `None` for one that the program adds where it would do.
    pub which: Option<Which>,
    /// The key in JSON and in the command line.
    key: String,
    /// What it is called.
    pub name: Message,
    /// The job with this plan chosen.
    pub job: Job,
}

impl Planned {
    /// The key in JSON and in the command line.
    pub fn key(&self) -> &str {
        &self.key
    }

    /// It is the chosen one.
    pub fn is_chosen(&self) -> bool {
        self.which == Some(Which::Chosen)
    }
}

/// Every plan of a job; `chosen` is the answer to the job as it is.
pub fn every(job: &Job, chosen: &Answer) -> Vec<Planned> {
    let job = &*bounded::used(job);
    let planned = |which: Which| {
        let (name, job) = (job.plan_words(which), job.on_plan(which));
        Planned { which: Some(which), key: which.key(), name, job }
    };
    let mut all: Vec<Planned> = job.every_plan().into_iter().map(planned).collect();
    for added in Added::ALL {
        if !all.iter().any(|plan| added.is_there(&plan.job, job)) {
            let (key, name) = (added.key().to_owned(), added.name(job));
            all.extend(added.job(job, chosen).map(|job| Planned { which: None, key, name, job }));
        }
    }
    all
}

/// The job with a plan chosen by its name or key. `None` when there is no such plan.
pub fn named(job: &Job, name: &str) -> Option<Job> {
    if let Some(which) = job.plan_named(name) {
        return Some(job.on_plan(which));
    }
    let is_it = |added: &Added| added.key().eq_ignore_ascii_case(name.trim()) || added.name(job).is_said(name);
    Added::ALL.into_iter().find(is_it)?.job(job, &solve(job))
}

/// The axles that get new springs.
fn renewed(job: &Job) -> Vec<Side> {
    Side::BOTH.into_iter().filter(|side| job.axle(*side).plan == Plan::NewSprings).collect()
}

/// A spacer that can be put under an old spring, and whether it is known that the coils then do not bind; how far an old
/// bar can be indexed again, and whether it is known to hold its stress. `None` where they would bind, or it would not.
fn fits(spacer: Spacer) -> Option<(Raised, bool)> {
    let binds_not = spacer.to_bind.is_none_or(|left| left.si() >= 0.0);
    (binds_not && spacer.holds_stress()).then_some(match spacer.index {
        Some(index) => (Raised::Index(index), spacer.stress_bump.is_some() && spacer.allowed.is_some()),
        None => (Raised::Spacer(spacer.thickness), spacer.to_bind.is_some()),
    })
}

/// The old springs stay on this spacer, or indexed again by this angle, alike left and right; blank is none.
fn keep(axle: &mut Axle, spacer: &str, index: &str) {
    (axle.plan, axle.spacer, axle.index) = (Plan::Keep, spacer.into(), index.into());
    (axle.added_leaf, axle.left, axle.right) = Default::default();
}
