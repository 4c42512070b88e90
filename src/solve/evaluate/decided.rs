//! What is decided before a job is evaluated. Whatever is moved afterwards leaves it as it is.

use crate::base::units::{Length, SpringRate};
use crate::job::PerAxle;
use crate::solve::answer::{ByRoutes, State, StockBars, StockRates};
use crate::trade::spring::Spring;

/// What was decided of a whole job.
#[derive(Debug, Clone)]
pub(in crate::solve) struct Decisions {
    /// Of each axle.
    pub axles: PerAxle<Decided>,
    /// The springs considered where one state covers all: the new ones, once both axles stand on them.
    pub fitted: State,
}

/// What was decided of one axle. By default nothing.
#[derive(Debug, Clone, Default)]
pub(in crate::solve) struct Decided {
    /// How the old spring's rate is read.
    pub old_rate: OldRate,
    /// The spring that is bought.
    pub spring: Option<Bought>,
    /// What raises the old spring instead.
    pub raise: Option<Raise>,
    /// Wire that a spring to be wound is wound of, m.
    pub wire_m: Option<f64>,
    /// How many leaves are added to the old leaf instead of a new one.
    pub added_leaves: Option<f64>,
    /// New dampers go in with the new springs.
    pub new_dampers: bool,
}

/// How one axle's old spring is read.
#[derive(Debug, Clone, Default)]
pub(in crate::solve) struct OldRate {
    /// What friction holds, as a share of the load: an error around nothing.
    pub friction: Option<usize>,
    /// What the other end takes part in a recorded bounce, as a share of the sprung mass: an error around nothing.
    pub coupling: Option<usize>,
    /// The other routes fused.
    pub by_routes: Option<ByRoutes>,
    /// By how much they disagree beyond their own ±: an error around nothing, N/m.
    pub disagreement: Option<usize>,
}

/// The spring that is bought for an axle.
#[derive(Debug, Clone)]
pub(in crate::solve) struct Bought {
    /// Its rate, as it is sold.
    pub pick: SpringRate,
    /// The stock rates that would do.
    pub stock: Option<StockRates>,
    /// Of a torsion bar, its diameter.
    pub bar: Option<BarPick>,
    /// The spring as it comes, on its seats; `None` until it is ordered, and where only differences of length are known:
    /// it is then placed by the height that is wanted.
    pub itself: Option<Spring>,
}

/// The torsion bar that is bought.
#[derive(Debug, Clone, Copy)]
pub(in crate::solve) struct BarPick {
    /// Its diameter.
    pub diameter: Length,
    /// Stock diameters that work.
    pub stock: Option<StockBars>,
}

/// What raises the old spring to the wanted height.
#[derive(Debug, Clone, Copy)]
pub(in crate::solve) struct Raise {
    /// Of the spacer or block.
    pub thickness: Length,
    /// Wheel travel at the wanted height: a bar is set to it, whatever it carries.
    pub to: Length,
}
