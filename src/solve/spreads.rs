//! Every ±: the job evaluated again with one field moved up and down by its own, as far as that field can reach.

use std::sync::Arc;

use crate::job::{PerAxle, Side};
use crate::solve::answer::{AxleAnswer, Checked, EachMoved, Moved, OnSprings, Vehicle};
use crate::solve::compare;
use crate::solve::evaluate::axle;
use crate::solve::evaluate::decided::Decisions;
use crate::solve::evaluate::equal_load::{self, weighed};
use crate::solve::evaluate::load_cases::{self, Carried, Together, Under};
use crate::solve::evaluate::pitch_and_roll::{self, RestsOn};
use crate::solve::evaluate::remedies;
use crate::solve::evaluate::{Results, front_and_rear};
use crate::solve::read::{RatioRows, Reading};

/// What a field can reach.
#[derive(Clone, Copy)]
struct Reach {
    axles: PerAxle<bool>,
    weights: bool,
    /// What cases put on the axles.
    carried: bool,
    cases: bool,
}

/// Axles and vehicle with each field moved.
pub(super) fn each_field_moved(
    reading: &mut Reading<'_>,
    decisions: &Decisions,
    results: &Results,
) -> (PerAxle<Checked>, EachMoved<Vehicle>) {
    let mut checked = PerAxle::each(|side| still(reading, decisions, side));
    // What is asked for only while a field is moved is not moved in turn.
    let fields: Vec<(usize, String, f64)> =
        reading.all_uncertain().map(|(index, f)| (index, f.path.clone(), f.u_si)).collect();
    let mut moved = Vec::with_capacity(fields.len());
    for (index, path, u_si) in fields {
        let rests = |fields: &Vec<usize>| fields.binary_search(&index).is_ok();
        let Some(reach) = reach(reading, &path, results.rests_on.as_ref().map(rests)) else { continue };
        let [up, down] =
            [u_si, -u_si].map(|by_si| reading.moved(index, by_si, |now| again(now, decisions, results, reach)));
        let sides = Side::BOTH.into_iter().zip(up.0.both().into_iter().zip(down.0.both()));
        for (side, (up, down)) in sides {
            if let Some((up, down)) = up.zip(down) {
                checked[side].nudged.0.push(Moved { path: path.clone(), up, down });
            }
        }
        moved.push(Moved { path, up: up.1, down: down.1 });
    }
    for side in Side::BOTH {
        let by = reading.job.axle(side).ratio.by;
        checked[side].routes = compare::compare(&results.axles[side], by, &checked[side]);
    }
    (checked, EachMoved(moved))
}

/// What is examined in addition to an axle before anything is moved.
pub(super) fn still(reading: &Reading<'_>, decisions: &Decisions, side: Side) -> Checked {
    let rows = &reading.rows[side];
    let of = |rows: &Option<RatioRows>| rows.as_ref().map(|r| r.rows.clone());
    let by_routes = decisions.axles[side].old_rate.by_routes;
    Checked { ratio_rows: of(&rows.spring), damper_rows: of(&rows.damper), by_routes, ..Checked::default() }
}

/// What a field can reach; `None` for what only carries a ± of its own.
fn reach(reading: &Reading<'_>, path: &str, axles: PerAxle<bool>) -> Option<Reach> {
    let head = path.split(['.', '[']).next()?;
    let sized = reading.sized_at().is_some();
    let weights = matches!(head, "before" | "after" | "vehicle" | "parts") || head == "cases" && sized;
    let all = weights || axles.front || axles.rear;
    match head {
        "predicted" | "fitted" | "limits" | "certainty" => None,
        "cases" => Some(Reach { axles, weights, carried: true, cases: true }),
        _ => Some(Reach { axles, weights, carried: weights, cases: all }),
    }
}

/// What a field reaches, evaluated by what the reading says now; the rest as it was.
fn again(
    reading: &Reading<'_>,
    decisions: &Decisions,
    was: &Results,
    reach: Reach,
) -> (PerAxle<Option<Box<AxleAnswer>>>, Box<Vehicle>) {
    let (job, as_was) = (&reading.job, &was.vehicle);
    let (before, after, compared) = if reach.weights {
        (weighed(reading, &job.before), weighed(reading, &job.after), Arc::new(equal_load::compared(reading)))
    } else {
        (as_was.before, as_was.after, Arc::clone(&as_was.compared))
    };
    let axles = PerAxle::each(|side| {
        reach.axles[side].then(|| {
            let mut axle = Box::new(axle::evaluate(reading, side, &compared, &decisions.axles[side]));
            axle.overloaded = was.axles[side].overloaded;
            axle
        })
    });
    let of_axles = PerAxle::each(|side| axles[side].as_deref().unwrap_or(&was.axles[side]));
    let on = RestsOn { axles: of_axles, before: &before, after: &after, compared: &compared };
    let whole = Box::new(pitch_and_roll::evaluate(reading, on, decisions.fitted).with_own_spread_of(&as_was.whole));
    let (mut cases, mut remedies) = (Arc::clone(&as_was.cases), as_was.remedies.clone());
    if reach.cases {
        let now = reach.carried.then(|| load_cases::carried(reading, &compared));
        let carried = now.as_deref().unwrap_or(&was.carried);
        let under = Under { axles: of_axles, compared: &compared, carried };
        let standings = PerAxle::each(|side| in_cases(reading, under, was, reach, side));
        let together = Together { on, whole: &whole, fitted: decisions.fitted };
        cases = Arc::new(load_cases::evaluate(reading, carried, standings, together));
        // An axle that nothing reaches stands as it did.
        for side in Side::BOTH.into_iter().filter(|side| reach.axles[*side] || reach.weights || reach.carried) {
            let raise = decisions.axles[side].raise.as_ref();
            remedies[side] = Arc::new(remedies::remedies(reading, of_axles[side], carried, &cases, raise));
        }
    }
    let (rear_over_front, flat_ride) = front_and_rear(reading, of_axles);
    let vehicle = Vehicle { before, after, compared, cases, remedies, rear_over_front, flat_ride, whole };
    (axles, Box::new(vehicle))
}

/// Equilibrium of one axle in each case: as it did, where nothing that counts for it is reached.
fn in_cases(reading: &Reading<'_>, under: Under<'_>, was: &Results, reach: Reach, side: Side) -> Vec<OnSprings> {
    let same =
        |(was, now): (&Carried, &Carried)| was.axles[side] == now.axles[side] && was.tongue[side] == now.tongue[side];
    let still = !reach.axles[side]
        && was.vehicle.compared.stood.after[side] == under.compared.stood.after[side]
        && was.carried.iter().zip(under.carried).all(same);
    if still { was.in_cases(side).cloned().collect() } else { load_cases::axle_stands(reading, under, side) }
}
