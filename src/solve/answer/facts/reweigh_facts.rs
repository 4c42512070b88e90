//! The springs as fitted: weights and heights found against what was predicted.

use crate::base::units::{Length, Mass, Quantity, Ratio};
use crate::job::{PerAxle, Side};

/// One value after fitting.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Again<Q> {
    /// What was predicted.
    pub foretold: Option<Q>,
    /// What was found.
    pub found: Option<Q>,
    /// How far it may be off, either way.
    pub within: Option<Q>,
}

impl<Q> Default for Again<Q> {
    fn default() -> Self {
        Again { foretold: None, found: None, within: None }
    }
}

impl<Q: Quantity> Again<Q> {
    /// Found less predicted.
    pub fn difference(&self) -> Option<Q> {
        Some(Q::from_si(self.found?.si() - self.foretold?.si()))
    }

    /// It is near enough; `None` when either is not known.
    pub fn inside(&self) -> Option<bool> {
        Some(self.difference()?.si().abs() <= self.within?.si())
    }
}

/// The whole vehicle after fitting; corners in the order LF, RF, LR, RR.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Reweigh {
    /// Corner weights.
    pub corners: [Again<Mass>; 4],
    /// Axle weights: no spring changes them.
    pub axles: PerAxle<Again<Mass>>,
    /// Hub centre to arch.
    pub arch: [Again<Length>; 4],
    /// Cross weight.
    pub cross_weight: Again<Ratio>,
    /// The corners predicted are those after the cross weight has been set right.
    pub cross_set: bool,
}

impl Reweigh {
    /// Something was weighed or measured after fitting.
    pub fn is_known(&self) -> bool {
        let weighed = self.corners.iter().chain(&self.axles).any(|a| a.found.is_some());
        weighed || self.arch.iter().any(|a| a.found.is_some())
    }

    /// Mean height of an axle's two sides as found.
    pub fn arch_found(&self, axle: Side) -> Option<Length> {
        let [left, right] = axle.corners().map(|corner| self.arch[corner].found);
        Some((left? + right?) / 2.0)
    }
}
