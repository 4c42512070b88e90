//! The plans that the program adds to those of a job: the old springs stay, and are brought back to the height.

use super::{fits, keep, renewed};
use crate::base::language::with_mark;
use crate::base::message::Message;
use crate::base::units::entry::AnyEntry as _;
use crate::base::units::{Quantity, display};
use crate::job::{Axle, DamperPlan, Job, Plan, SpringKind};
use crate::message;
use crate::solve::answer::{Answer, Part, Raised};

/// The key of the old springs on spacers.
pub const SPACERS: &str = "spacers";

/// A plan that is added where every axle that would get new springs is offered what it needs; the old dampers stay.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Added {
    /// Old springs on spacers, or torsion bars re-indexed.
    Spacers,
    /// Old leaf springs with a leaf added to each.
    Leaf,
}

impl Added {
    pub const ALL: [Added; 2] = [Added::Spacers, Added::Leaf];

    /// The key in JSON and in the command line.
    pub fn key(self) -> &'static str {
        match self {
            Added::Spacers => SPACERS,
            Added::Leaf => "added-leaf",
        }
    }

    /// What it is called in a job.
    pub fn name(self, job: &Job) -> Message {
        let are_bars = renewed(job).iter().all(|side| job.axle(*side).spring.kind == SpringKind::TorsionBar);
        match self {
            Added::Spacers if are_bars => message!("old torsion bars, re-indexed"),
            Added::Spacers => message!("old springs with spacers"),
            Added::Leaf => message!("old leaf springs with an added leaf"),
        }
    }

    /// A plan does it already on every axle of the job that gets new springs.
    pub fn is_there(self, plan: &Job, job: &Job) -> bool {
        renewed(job).into_iter().all(|side| self.is_on(plan.axle(side)))
    }

    fn is_on(self, axle: &Axle) -> bool {
        let has_leaf = !axle.added_leaf.rate.is_blank();
        axle.plan == Plan::Keep
            && match self {
                Added::Spacers => !axle.leaves_springs() && !has_leaf,
                Added::Leaf => has_leaf,
            }
    }

    /// The job with this plan; `None` where an axle is offered none. Sizes are as they are shown: spacers in whole
    /// millimetres or sixteenths of an inch.
    pub fn job(self, job: &Job, answer: &Answer) -> Option<Job> {
        let renewed = renewed(job);
        let mut planned = job.clone();
        for side in &renewed {
            let part = answer.released(*side).ok()?;
            let axle = planned.axle_mut(*side);
            match self {
                Added::Spacers => raise(axle, part, job)?,
                Added::Leaf => add_leaf(axle, part, job)?,
            }
            axle.dampers = DamperPlan::Keep;
        }
        planned.plan_name.clear();
        (!renewed.is_empty()).then_some(planned)
    }
}

/// A size as it is shown.
fn shown<Q: Quantity>(size: Q, job: &Job) -> String {
    with_mark(display::rounded(size, &job.units), job.decimal)
}

fn raise(axle: &mut Axle, part: Part<'_>, job: &Job) -> Option<()> {
    match fits(part.spacer?)?.0 {
        Raised::Index(index) => keep(axle, "", &shown(index, job)),
        Raised::Spacer(thickness) => keep(axle, &shown(thickness, job), ""),
    }
    let set = [axle.spacer.number(job.decimal), axle.index.number(job.decimal)];
    set.into_iter().any(|number| number.is_ok_and(|n| n.is_some_and(|n| n.si() > 0.0))).then_some(())
}

/// A leaf that is clamped into the pack, or a helper pack.
fn add_leaf(axle: &mut Axle, part: Part<'_>, job: &Job) -> Option<()> {
    let beside = part.added_leaf?.beside;
    keep(axle, "", "");
    (axle.added_leaf.rate, axle.added_leaf.nip) =
        (shown(beside.rate, job).as_str().into(), shown(beside.nip, job).as_str().into());
    Some(())
}
