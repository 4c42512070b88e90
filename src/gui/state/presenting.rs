//! The customer's view, while it is open: what it shows, and where in it one is.

use crate::report::sheets::{Showing, Stage};
use crate::solve::answer::OverRoad;

/// What can be done with the customer's view.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CustomerCommand {
    /// Open it; when it is open, leave it.
    Show,
    /// Back to the job.
    Leave,
    /// This number of steps forward or back.
    By(isize),
    /// To this step, from 0; beyond the last one to the last.
    To(usize),
    /// Over the hump, from the beginning.
    Drive,
}

/// The customer's view that is open.
#[derive(Debug, Clone)]
pub struct Presenting {
    /// What is shown.
    pub showing: Showing,
    /// The step, from 0.
    pub at: usize,
    /// Which solved job this is of.
    pub solves: u64,
    /// The window had the whole screen before.
    pub was_full: bool,
    /// What step Road showed before, and at which moment, s.
    pub road: (OverRoad, f64),
}

impl Presenting {
    /// The step that is shown.
    pub fn stage(&self) -> Option<&Stage> {
        self.showing.stages.get(self.at)
    }

    /// The place of the last step.
    pub fn last(&self) -> usize {
        self.showing.stages.len().saturating_sub(1)
    }
}
