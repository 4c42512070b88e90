//! Every ±: the job evaluated again with one field moved up and down by its own, as far as that field can reach.

use crate::job::{PerAxle, Side};
use crate::solve::answer::{AxleAnswer, Checked, Moved, Nudged, OnSprings, Vehicle};
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
) -> (PerAxle<Checked>, Vec<Moved>) {
    let mut checked = PerAxle::each(|side| still(reading, decisions, side));
    // What is asked for only while a field is moved is not moved in turn.
    let fields: Vec<(usize, String, f64)> =
        reading.all_uncertain().map(|f| (f.index, f.path.to_owned(), f.u_si)).collect();
    let mut moved = Vec::with_capacity(fields.len());
    for (index, path, u_si) in fields {
        let rests = |fields: &Vec<usize>| fields.binary_search(&index).is_ok();
        let Some(reach) = reach(reading, &path, results.rests_on.as_ref().map(rests)) else { continue };
        let [up, down] =
            [u_si, -u_si].map(|by_si| reading.moved(index, by_si, |now| again(now, decisions, results, reach)));
        let sides = Side::BOTH.into_iter().zip(up.0.both().into_iter().zip(down.0.both()));
        for (side, (up, down)) in sides {
            if let Some((up, down)) = up.zip(down) {
                checked[side].nudged.push(Nudged { path: path.clone(), up, down });
            }
        }
        moved.push(Moved { path, up: up.1, down: down.1 });
    }
    for side in Side::BOTH {
        let by = reading.job.axle(side).ratio.by;
        checked[side].routes = compare::compare(&results.axles[side], by, &checked[side]);
    }
    (checked, moved)
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
) -> (PerAxle<Option<Box<AxleAnswer>>>, Vehicle) {
    let job = &reading.job;
    let weights = reach.weights.then(|| {
        let read = [weighed(reading, &job.before), weighed(reading, &job.after)];
        Box::new((read, equal_load::compared(reading)))
    });
    let ([before, after], compared) = match weights.as_deref() {
        Some(([before, after], compared)) => ([before, after], compared),
        None => ([&was.before, &was.after], &was.compared),
    };
    let axles = PerAxle::each(|side| {
        reach.axles[side].then(|| {
            let mut axle = Box::new(axle::evaluate(reading, side, compared, &decisions.axles[side]));
            axle.overloaded = was.axles[side].overloaded;
            axle
        })
    });
    let of_axles = PerAxle::each(|side| axles[side].as_deref().unwrap_or(&was.axles[side]));
    let on = RestsOn { axles: of_axles, before, after, compared };
    let whole = Box::new(pitch_and_roll::evaluate(reading, on, decisions.fitted).with_own_spread_of(&was.whole));
    let (cases, remedies) = reach
        .cases
        .then(|| {
            let now = reach.carried.then(|| load_cases::carried(reading, compared));
            let carried = now.as_deref().unwrap_or(&was.carried);
            let under = Under { axles: of_axles, compared, carried };
            let standings = PerAxle::each(|side| in_cases(reading, under, was, reach, side));
            let together = Together { on, whole: &whole, fitted: decisions.fitted };
            let cases = load_cases::evaluate(reading, carried, standings, together);
            let remedies = PerAxle::each(|side| {
                // An axle that nothing reaches stands as it did.
                let still = !reach.axles[side] && !reach.weights && !reach.carried;
                let raise = decisions.axles[side].raise.as_ref();
                (!still).then(|| remedies::remedies(reading, of_axles[side], carried, &cases, raise))
            });
            (cases, remedies)
        })
        .unzip();
    let (rear_over_front, flat_ride) = front_and_rear(reading, of_axles);
    (axles, Vehicle { weights, cases, remedies: remedies.unwrap_or_default(), rear_over_front, flat_ride, whole })
}

/// Equilibrium of one axle in each case: as it did, where nothing that counts for it is reached.
fn in_cases(reading: &Reading<'_>, under: Under<'_>, was: &Results, reach: Reach, side: Side) -> Vec<OnSprings> {
    let same =
        |(was, now): (&Carried, &Carried)| was.axles[side] == now.axles[side] && was.tongue[side] == now.tongue[side];
    let still = !reach.axles[side]
        && was.compared.stood.after[side] == under.compared.stood.after[side]
        && was.carried.iter().zip(under.carried).all(same);
    if still { was.in_cases(side).cloned().collect() } else { load_cases::axle_stands(reading, under, side) }
}
