//! The plans of a job side by side: which there are, and whether two of them do the same.

mod against;
mod leads;

use crate::base::language::with_mark;
use crate::base::message::Message;
use crate::base::units::entry::AnyEntry as _;
use crate::base::units::{Quantity, display};
use crate::job::{Axle, DamperPlan, Job, Plan, Side, SpringKind, Which, bounded};
use crate::message;
use crate::solve::answer::{Answer, Kept, Spacer};
use crate::solve::solve;

pub use against::{Against, against, raises_no_doubt, u_of_difference};
pub(super) use leads::leads;
pub use leads::led;

/// A plan, ready to be solved.
#[derive(Debug, Clone)]
pub struct Planned {
    /// Which it is; `None` for the old springs on spacers or re-indexed, which the program adds where they would do.
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
/// Its name, and that where all of them are torsion bars.
const ON_SPACERS: Message = message!("old springs with spacers");
const INDEXED: Message = message!("old torsion bars, re-indexed");

/// Every plan of a job; `chosen` is the answer to the job as it is.
pub fn every(job: &Job, chosen: &Answer) -> Vec<Planned> {
    let job = &*bounded::used(job);
    let planned = |which| Planned { which: Some(which), name: job.plan_words(which), job: job.on_plan(which) };
    let mut all: Vec<Planned> = job.every_plan().into_iter().map(planned).collect();
    let renewed = renewed(job);
    let is_there = |plan: &Planned| renewed.iter().all(|side| is_on_spacer(plan.job.axle(*side)));
    if !all.iter().any(is_there) {
        let are_bars = renewed.iter().all(|side| job.axle(*side).spring.kind == SpringKind::TorsionBar);
        let name = if are_bars { INDEXED } else { ON_SPACERS };
        all.extend(on_spacers(job, chosen).map(|job| Planned { which: None, name, job }));
    }
    all
}

/// The job with a plan chosen by its name or key. `None` when there is no such plan.
pub fn named(job: &Job, name: &str) -> Option<Job> {
    if let Some(which) = job.plan_named(name) {
        return Some(job.on_plan(which));
    }
    let is_spacers = SPACERS.eq_ignore_ascii_case(name.trim()) || ON_SPACERS.is_said(name) || INDEXED.is_said(name);
    is_spacers.then(|| on_spacers(job, &solve(job)))?
}

/// The axles that get new springs.
fn renewed(job: &Job) -> Vec<Side> {
    Side::BOTH.into_iter().filter(|side| job.axle(*side).plan == Plan::NewSprings).collect()
}

fn is_on_spacer(axle: &Axle) -> bool {
    axle.plan == Plan::Keep && !axle.leaves_springs()
}

/// The old springs on spacers, or re-indexed, on every axle that would get new ones, the old dampers with them; `None`
/// where one of them is offered none. Spacers come as lengths are shown: in whole millimetres or sixteenths of an inch.
fn on_spacers(job: &Job, answer: &Answer) -> Option<Job> {
    let renewed = renewed(job);
    let mut raised = job.clone();
    for side in &renewed {
        let (kept, _) = fits(answer.released(*side).ok()?.spacer?)?;
        let axle = raised.axle_mut(*side);
        match kept {
            Kept::Spacers([thickness, _]) => {
                keep(axle, &with_mark(display::rounded(thickness, &job.units), job.decimal), "")
            }
            Kept::Indexed([index, _]) => keep(axle, "", &with_mark(display::rounded(index, &job.units), job.decimal)),
        }
        axle.dampers = DamperPlan::Keep;
        let set = [axle.spacer.number(job.decimal), axle.index.number(job.decimal)];
        set.into_iter().any(|number| number.is_ok_and(|n| n.is_some_and(|n| n.si() > 0.0))).then_some(())?;
    }
    raised.plan_name.clear();
    (!renewed.is_empty()).then_some(raised)
}

/// A spacer that can be put under an old spring, and whether it is known that the coils then do not bind; how far an old
/// bar can be indexed again, and whether it is known to hold its stress. `None` where they would bind, or it would not.
fn fits(spacer: Spacer) -> Option<(Kept, bool)> {
    let binds_not = spacer.to_bind.is_none_or(|left| left.si() >= 0.0);
    (binds_not && spacer.holds_stress()).then_some(match spacer.index {
        Some(index) => (Kept::Indexed([index, index]), spacer.stress_bump.is_some() && spacer.allowed.is_some()),
        None => (Kept::Spacers([spacer.thickness, spacer.thickness]), spacer.to_bind.is_some()),
    })
}

/// The old springs stay on this spacer, or indexed again by this angle, alike left and right; blank is none.
fn keep(axle: &mut Axle, spacer: &str, index: &str) {
    (axle.plan, axle.spacer, axle.index) = (Plan::Keep, spacer.into(), index.into());
    (axle.left, axle.right) = Default::default();
}
