//! Every field moved up and down by its ±: what moves with it, axle by axle and for the whole vehicle.

use super::answer::{AxleAnswer, CaseAnswer, Checked, Moved, Nudged, Vehicle, Whole};
use super::cases::{self, Stood, Under};
use super::read::{RatioRows, Reading, Uncertain};
use super::whole::{self, RestsOn};
use super::{axle, compare, front_and_rear, loads, options, weighed};
use crate::job::Side;

/// A job as solved, before anything is moved.
#[derive(Clone, Copy)]
pub(super) struct Solved<'a> {
    pub reading: &'a Reading<'a>,
    pub under: Under<'a>,
    pub on: RestsOn<'a>,
    pub cases: &'a [CaseAnswer],
    /// Some case has loads beside the middle.
    pub leans: bool,
    pub whole: &'a Whole,
}

/// What a field can move.
#[derive(Clone, Copy)]
struct Reach {
    axles: [bool; 2],
    weights: bool,
    /// What cases put on the axles.
    carried: bool,
    cases: bool,
    whole: bool,
}

impl Solved<'_> {
    /// Axles and vehicle with each field moved; `by_axle` are the fields that each axle rests on.
    pub fn each_field_moved(&self, by_axle: &[Vec<Uncertain<'_>>; 2]) -> ([Checked; 2], Vec<Moved>) {
        let mut checked = Side::BOTH.map(|side| {
            let rows = &self.reading.rows[side as usize];
            let of = |rows: &Option<RatioRows>| rows.as_ref().map(|r| r.rows.clone());
            let (ratio_rows, damper_rows) = (of(&rows.spring), of(&rows.damper));
            let by_routes = self.reading.old_rates[side as usize].by_routes;
            Checked { ratio_rows, damper_rows, by_routes, ..Checked::default() }
        });
        // What is asked for only while a field is moved is not moved in turn.
        let fields: Vec<Uncertain<'_>> = self.reading.all_uncertain().collect();
        let mut moved = Vec::with_capacity(fields.len());
        for field in fields {
            let rests = |fields: &Vec<Uncertain<'_>>| fields.binary_search_by_key(&field.index, |f| f.index).is_ok();
            let Some(reach) = self.reach(field.path, by_axle.each_ref().map(rests)) else { continue };
            let [up, down] = [field.u_si, -field.u_si].map(|by_si| {
                self.reading.move_by(field.index, by_si);
                self.again(reach)
            });
            self.reading.move_by(field.index, 0.0);
            for (i, (up, down)) in up.0.into_iter().zip(down.0).enumerate() {
                if let Some((up, down)) = up.zip(down) {
                    checked[i].nudged.push(Nudged { path: field.path.to_owned(), up, down });
                }
            }
            moved.push(Moved { path: field.path.to_owned(), up: up.1, down: down.1 });
        }
        for (side, checked) in Side::BOTH.into_iter().zip(&mut checked) {
            let (axle, by) = (self.on.axles[side as usize], self.reading.job.axle(side).ratio.by);
            checked.routes = compare::compare(axle, by, checked);
        }
        (checked, moved)
    }

    /// What a field can move; `None` for what only carries a ± of its own.
    fn reach(&self, path: &str, axles: [bool; 2]) -> Option<Reach> {
        let head = path.split(['.', '[']).next()?;
        let sized = self.reading.sized_at().is_some();
        let weights = matches!(head, "before" | "after" | "vehicle" | "parts") || head == "cases" && sized;
        let all = weights || axles.contains(&true);
        match head {
            "predicted" | "fitted" | "limits" | "certainty" => None,
            "cases" => Some(Reach { axles, weights, carried: true, cases: true, whole: all }),
            _ => Some(Reach { axles, weights, carried: weights, cases: all, whole: true }),
        }
    }

    /// What can move, solved with what the reading says now.
    fn again(&self, reach: Reach) -> ([Option<Box<AxleAnswer>>; 2], Vehicle) {
        let (reading, job) = (self.reading, &self.reading.job);
        let weights = reach.weights.then(|| {
            let read = [weighed(reading, &job.before), weighed(reading, &job.after)];
            Box::new((read, loads::compared(reading)))
        });
        let ([before, after], compared) = match weights.as_deref() {
            Some(([before, after], compared)) => ([before, after], compared),
            None => ([self.on.before, self.on.after], self.on.compared),
        };
        let axles = Side::BOTH.map(|side| {
            let was = self.on.axles[side as usize];
            reach.axles[side as usize]
                .then(|| Box::new(axle::solve(reading, side, compared, was.overloaded, Some(was))))
        });
        let of_axles = [0, 1].map(|i| axles[i].as_deref().unwrap_or(self.on.axles[i]));
        let on = RestsOn { axles: of_axles, before, after, compared };
        let (cases, remedies) = reach
            .cases
            .then(|| {
                let now = reach.carried.then(|| cases::carried(reading, compared));
                let carried = now.as_deref().unwrap_or(self.under.carried);
                let lean = self.leans.then(|| cases::Lean(whole::roll_paths(reading, on)));
                let mut found = cases::rated(reading, carried, after, lean.as_ref());
                let stood = Stood { under: self.under, cases: self.cases, moved: reach.axles };
                cases::stand(reading, Under { axles: of_axles, compared, carried }, Some(stood), &mut found);
                let remedies = [0, 1].map(|i| {
                    // An axle that nothing moved stands as it did.
                    let still = !reach.axles[i] && !reach.weights && !reach.carried;
                    let decided = Some(self.on.axles[i]);
                    (!still).then(|| options::remedies(reading, of_axles[i], carried, &found, decided))
                });
                (found, remedies)
            })
            .unzip();
        let whole = reach.whole.then(|| whole::moved(reading, on, self.whole, self.on.fitted()));
        let (rear_over_front, flat_ride) = front_and_rear(reading, of_axles);
        (axles, Vehicle { weights, cases, remedies: remedies.unwrap_or_default(), rear_over_front, flat_ride, whole })
    }
}
