//! One axle and the whole vehicle with one field moved by its ±, and what that does to any of their results.

use std::ops::Deref;
use std::sync::Arc;

use super::{AxleAnswer, ByRoutes, CaseAnswer, Compared, PerState, Remedy, Routes, Weighed, Whole};
use crate::base::units::{Ratio, Velocity};
use crate::job::PerAxle;
use crate::trade::wheel::Rows;

/// All results of the whole vehicle, as solved or with one field moved. What a field cannot move is shared.
#[derive(Debug, Clone, PartialEq)]
pub struct Vehicle {
    /// The weigh-in before.
    pub before: Weighed,
    /// The weigh-in after.
    pub after: Weighed,
    /// The weights that the axles are sized on: at equal load, calculated where not weighed.
    pub compared: Arc<Compared>,
    /// As weighed, then every load case.
    pub cases: Arc<Vec<CaseAnswer>>,
    /// What can be done about each axle, front and rear, with its price.
    pub remedies: PerAxle<Arc<Vec<Remedy>>>,
    /// Rear over front frequency, on springs.
    pub rear_over_front: PerState<Option<Ratio>>,
    /// Flat-ride speed.
    pub flat_ride: PerState<Option<Velocity>>,
    /// Pitch, roll, four corners. With a field moved the ledger in it stays as it was: it carries its own ±.
    pub whole: Box<Whole>,
}

/// An axle or the whole vehicle solved again with one field moved by its standard uncertainty.
#[derive(Debug, Clone, PartialEq)]
pub struct Moved<T> {
    /// Path of the field.
    pub path: String,
    /// With the field moved up.
    /// Boxed: half a megabyte in one piece would be asked of the system again for every solve.
    pub up: Box<T>,
    /// With the field moved down.
    pub down: Box<T>,
}

/// An axle or the whole vehicle with each field moved by its ±, in the order of the file.
#[derive(Debug, Clone, PartialEq)]
pub struct EachMoved<T>(pub Vec<Moved<T>>);

impl<T> Default for EachMoved<T> {
    fn default() -> Self {
        EachMoved(Vec::new())
    }
}

impl<T> Deref for EachMoved<T> {
    type Target = [Moved<T>];

    fn deref(&self) -> &[Moved<T>] {
        &self.0
    }
}

impl<T> EachMoved<T> {
    /// The standard uncertainty of a result, SI: the root of the sum of squares of what each field moves.
    ///
    /// First order, independent fields. `None` when no field has a ± or the result is lost when one moves.
    /// Source `GUM`, 5.1.2.
    pub fn u_of(&self, result: impl Fn(&T) -> Option<f64>) -> Option<f64> {
        let (mut variance, mut any) = (0.0, false);
        for (_, step) in self.steps(result) {
            variance += step?.powi(2);
            any = true;
        }
        (any && variance.is_finite()).then(|| variance.sqrt())
    }

    /// How much of the variance of a result each field brings, by path, largest first; together 1.
    ///
    /// Fields that bring nothing are left out; empty when the ± is not known or nothing moves the result.
    pub fn shares(&self, result: impl Fn(&T) -> Option<f64>) -> Vec<(&str, f64)> {
        shares(self.steps(result))
    }

    /// How far a result moves for one standard uncertainty of each field, by path, in the order of the file; `None` where
    /// it is lost.
    pub fn steps(&self, result: impl Fn(&T) -> Option<f64>) -> impl Iterator<Item = (&str, Option<f64>)> {
        self.iter().map(move |m| (m.path.as_str(), step(result(&m.up), result(&m.down))))
    }
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
    pub nudged: EachMoved<AxleAnswer>,
}

/// How far a result moves for one standard uncertainty of a field: half of what lies between both ends.
pub(in crate::solve) fn step(up: Option<f64>, down: Option<f64>) -> Option<f64> {
    Some(0.5 * (up? - down?))
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
