//! One axle and the whole vehicle with one field moved by its ±, and what that does to any of their results.

use super::{Answer, AxleAnswer, ByRoutes, CaseAnswer, Compared, PerState, Remedy, Routes, Weighed, Whole};
use crate::base::units::{Ratio, Velocity};
use crate::job::PerAxle;
use crate::trade::wheel::Rows;

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
    pub remedies: PerAxle<Option<Vec<Remedy>>>,
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
    pub remedies: PerAxle<&'a [Remedy]>,
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
            remedies: self.remedies.as_ref().map(Vec::as_slice),
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
            remedies: PerAxle::each(|side| moved.remedies[side].as_ref().unwrap_or(&self.remedies[side]).as_slice()),
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
        root_sum(self.steps(result).map(|(_, step)| step))
    }

    /// How much of the variance of a result of the whole vehicle each field brings, as [`super::Checked::shares`].
    pub fn shares(&self, result: impl Fn(&OfVehicle<'_>) -> Option<f64>) -> Vec<(&str, f64)> {
        shares(self.steps(result))
    }

    /// How far a result of the whole vehicle moves for each field, as [`super::Checked::steps`].
    pub fn steps(&self, result: impl Fn(&OfVehicle<'_>) -> Option<f64>) -> impl Iterator<Item = (&str, Option<f64>)> {
        let step = move |m: &Moved| step(result(&self.with(&m.up)), result(&self.with(&m.down)));
        self.moved.iter().map(move |m| (m.path.as_str(), step(m)))
    }
}

/// One axle solved again with one field moved by its standard uncertainty.
#[derive(Debug, Clone, PartialEq)]
pub struct Nudged {
    /// Path of the field.
    pub path: String,
    /// With the field moved up.
    /// Boxed: half a megabyte in one piece would be asked of the system again for every solve.
    pub up: Box<AxleAnswer>,
    /// With the field moved down.
    pub down: Box<AxleAnswer>,
}

/// What was examined in addition to the answer of one axle: rows, routes and what each ± does.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Checked {
    /// Rows of the spring's motion ratio.
    pub ratio_rows: Option<Rows>,
    /// Rows of the damper's motion ratio.
    pub damper_rows: Option<Rows>,
    /// All ways to the wheel rate.
    pub routes: Routes,
    /// The old spring's rate by the routes that do without the way that was chosen for it; `None` when there is none.
    pub by_routes: Option<ByRoutes>,
    /// The axle with each field moved by its ±.
    pub nudged: Vec<Nudged>,
}

impl Checked {
    /// The standard uncertainty of a result, SI: the root of the sum of squares of what each field moves.
    ///
    /// First order, independent fields. `None` when no field has a ± or the result is lost when one moves.
    /// Source `GUM`, 5.1.2.
    pub fn u_of(&self, result: impl Fn(&AxleAnswer) -> Option<f64>) -> Option<f64> {
        root_sum(self.steps(result).map(|(_, step)| step))
    }

    /// How much of the variance of a result each field brings, by path, largest first; together 1.
    ///
    /// Fields that bring nothing are left out; empty when the ± is not known or nothing moves the result.
    pub fn shares(&self, result: impl Fn(&AxleAnswer) -> Option<f64>) -> Vec<(&str, f64)> {
        shares(self.steps(result))
    }

    /// How far a result moves for one standard uncertainty of each field, by path, in the order of the file; `None` where
    /// it is lost.
    pub fn steps(&self, result: impl Fn(&AxleAnswer) -> Option<f64>) -> impl Iterator<Item = (&str, Option<f64>)> {
        self.nudged.iter().map(move |n| (n.path.as_str(), step(result(&n.up), result(&n.down))))
    }
}

/// How far a result moves for one standard uncertainty of a field: half of what lies between both ends.
pub(in crate::solve) fn step(up: Option<f64>, down: Option<f64>) -> Option<f64> {
    Some(0.5 * (up? - down?))
}

/// The root of the sum of squares; `None` without steps, or when one is not known.
fn root_sum(steps: impl Iterator<Item = Option<f64>>) -> Option<f64> {
    let (mut variance, mut any) = (0.0, false);
    for step in steps {
        variance += step?.powi(2);
        any = true;
    }
    (any && variance.is_finite()).then(|| variance.sqrt())
}

/// What each step brings to the sum of squares, by path, largest first; together 1.
pub fn shares<'a>(steps: impl Iterator<Item = (&'a str, Option<f64>)>) -> Vec<(&'a str, f64)> {
    let squares: Option<Vec<(&str, f64)>> = steps.map(|(path, step)| Some((path, step?.powi(2)))).collect();
    let mut shares: Vec<(&str, f64)> = Vec::new();
    for (path, square) in squares.unwrap_or_default() {
        // A field that was typed, and what the routes disagree by instead of it, are one thing to measure.
        match shares.iter_mut().find(|s| s.0 == path) {
            Some(known) => known.1 += square,
            None => shares.push((path, square)),
        }
    }
    let variance: f64 = shares.iter().map(|s| s.1).sum();
    if !(variance.is_finite() && variance > 0.0) {
        return Vec::new();
    }
    shares.retain(|s| s.1 > 0.0);
    shares.iter_mut().for_each(|s| s.1 /= variance);
    shares.sort_by(|a, b| b.1.total_cmp(&a.1));
    shares
}
