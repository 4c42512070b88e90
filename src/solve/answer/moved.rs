//! The whole vehicle with one field moved by its ±, and what that does to any of its results.

use super::{Answer, CaseAnswer, Compared, PerState, Remedy, Weighed, Whole, checked};
use crate::base::units::{Ratio, Velocity};

/// The whole vehicle solved again with one field moved by its standard uncertainty.
#[derive(Debug, Clone, PartialEq)]
pub struct Moved {
    /// Path of the field.
    pub path: String,
    /// With the field moved up.
    pub up: Vehicle,
    /// With the field moved down.
    pub down: Vehicle,
}

/// What a field that was moved does to the whole vehicle; `None` is what it cannot move.
#[derive(Debug, Clone, PartialEq)]
pub struct Vehicle {
    /// Weights as read before and after, and as compared.
    pub weights: Option<Box<([Weighed; 2], Compared)>>,
    /// Load cases.
    pub cases: Option<Vec<CaseAnswer>>,
    /// What can be done about each axle.
    pub remedies: [Option<Vec<Remedy>>; 2],
    /// Rear over front frequency.
    pub rear_over_front: PerState<Option<Ratio>>,
    /// Flat-ride speed.
    pub flat_ride: PerState<Option<Velocity>>,
    /// Pitch, roll, corners. The ledger in it stays as it was: it carries its own ±.
    pub whole: Box<Whole>,
}

/// All results of the whole vehicle, as solved or with one field moved.
#[derive(Debug, Clone, Copy)]
pub struct OfVehicle<'a> {
    /// The weigh-in before.
    pub before: &'a Weighed,
    /// The weigh-in after.
    pub after: &'a Weighed,
    /// The weights that the axles are sized on.
    pub compared: &'a Compared,
    /// As weighed, then every load case.
    pub cases: &'a [CaseAnswer],
    /// What can be done about each axle.
    pub remedies: [&'a [Remedy]; 2],
    /// Rear over front frequency.
    pub rear_over_front: &'a PerState<Option<Ratio>>,
    /// Flat-ride speed.
    pub flat_ride: &'a PerState<Option<Velocity>>,
    /// Pitch, roll, corners.
    pub whole: &'a Whole,
}

impl Answer {
    /// The results of the whole vehicle as solved.
    pub fn of_vehicle(&self) -> OfVehicle<'_> {
        OfVehicle {
            before: &self.before,
            after: &self.after,
            compared: &self.compared,
            cases: &self.cases,
            remedies: self.remedies.each_ref().map(Vec::as_slice),
            rear_over_front: &self.rear_over_front,
            flat_ride: &self.flat_ride,
            whole: &self.whole,
        }
    }

    /// The results of the whole vehicle with a field moved.
    fn with<'a>(&'a self, moved: &'a Vehicle) -> OfVehicle<'a> {
        let (before, after, compared) = match moved.weights.as_deref() {
            Some(([before, after], compared)) => (before, after, compared),
            None => (&self.before, &self.after, &self.compared),
        };
        OfVehicle {
            before,
            after,
            compared,
            cases: moved.cases.as_ref().unwrap_or(&self.cases),
            remedies: [0, 1].map(|i| moved.remedies[i].as_ref().unwrap_or(&self.remedies[i]).as_slice()),
            rear_over_front: &moved.rear_over_front,
            flat_ride: &moved.flat_ride,
            whole: &moved.whole,
        }
    }

    /// The standard uncertainty of a result of the whole vehicle, SI, as [`super::Checked::u_of`] has it for an axle.
    ///
    /// First order, independent fields. `None` when no field has a ± or the result is lost when one moves.
    /// Source `GUM`, 5.1.2.
    pub fn u_of(&self, result: impl Fn(&OfVehicle<'_>) -> Option<f64>) -> Option<f64> {
        checked::root_sum(self.steps(result).map(|(_, step)| step))
    }

    /// How much of the variance of a result of the whole vehicle each field brings, as [`super::Checked::shares`].
    pub fn shares(&self, result: impl Fn(&OfVehicle<'_>) -> Option<f64>) -> Vec<(&str, f64)> {
        checked::shares(self.steps(result))
    }

    /// How far a result of the whole vehicle moves for each field, as [`super::Checked::steps`].
    pub fn steps(&self, result: impl Fn(&OfVehicle<'_>) -> Option<f64>) -> impl Iterator<Item = (&str, Option<f64>)> {
        let step = move |m: &Moved| checked::step(result(&self.with(&m.up)), result(&self.with(&m.down)));
        self.moved.iter().map(move |m| (m.path.as_str(), step(m)))
    }
}
