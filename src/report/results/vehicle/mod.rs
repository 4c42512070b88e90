//! Results of the whole vehicle.

mod bar_results;
mod corner_results;
mod drive_results;
mod load_results;
mod remedy_results;
mod reweigh_results;
mod road_results;
mod roll;
mod run_results;
mod shared_rows;
mod vehicle_results;

use super::axles::WEIGHED;
use super::collect::{Out, like, then};
use super::row::si;
use super::{By, Figure, Say, Substitution, Why};
use crate::base::language::tr;
use crate::base::units::{Angle, Dim, Quantity};
use crate::job::Side;
use crate::solve::answer::{Answer, PerState, State, Vehicle};
pub(super) use corner_results::add as corners;
pub use corner_results::corners_key;
pub(super) use drive_results::add as drives;
pub(super) use load_results::add as loads;
pub(super) use remedy_results::add as remedies;
pub(super) use reweigh_results::add as reweigh;
pub(super) use road_results::add as road;
pub use run_results::runs;
pub(super) use vehicle_results::add as whole;

/// What the scales say.
pub(super) fn weights(out: &mut Out, answer: &Answer) {
    out.of_vehicle("before", &then(tr("before")), WEIGHED, answer, |v| Some(&v.before));
    out.of_vehicle("after", &then(tr("after")), WEIGHED, answer, |v| Some(&v.after));
    for row in WEIGHED {
        let label = tr(row.label);
        let like =
            like(&format!("change.{}", row.key), label, row.dim, "after minus before", "after − before", "DERIVED");
        let (before, after) = ((row.value)(&answer.before), (row.value)(&answer.after));
        let with =
            before.zip(after).map(|(before, after)| vec![("after", after, row.dim), ("before", before, row.dim)]);
        let like = Figure { name: then(tr("change")) + label, say: Say::Signed, ..like.put_in(with) };
        out.told(like, answer, |v| Some((row.value)(&v.after)? - (row.value)(&v.before)?));
    }
}

/// Rear against front.
pub(super) fn front_and_rear(out: &mut Out, answer: &Answer) {
    per_state(
        out,
        &like(
            "whole.rear_over_front",
            tr("rear ÷ front frequency, without tyre"),
            Dim::Ratio,
            "both without tyre deflection",
            "f_R / f_F",
            "GIL",
        ),
        answer,
        |v| v.rear_over_front,
    );
    per_state(
        out,
        &like(
            "whole.flat_ride_speed",
            tr("flat-ride speed"),
            Dim::Velocity,
            "n = 1, without tyre deflection; none unless the rear frequency is above the front frequency",
            "v = L / (n (1/f_F − 1/f_R))",
            "GIL",
        ),
        answer,
        |v| v.flat_ride,
    );
}

/// What a move of the lamps' beam comes from.
fn of_beam(answer: &Answer, nose_up: Option<Angle>) -> Option<Vec<Substitution>> {
    Some(vec![("D", answer.whole.lamp_distance?.si(), Dim::Length), ("nose up", nose_up?.si(), Dim::Angle)])
}

/// Text in place of a flat-ride speed outside road speeds.
fn far(dim: Dim, answer: &Answer, state: State) -> Option<&'static str> {
    // Faster than this nobody drives, m/s.
    const FASTEST_M_PER_S: f64 = 90.0;
    let ratio = *answer.rear_over_front.of(state);
    match *answer.flat_ride.of(state) {
        _ if dim != Dim::Velocity => None,
        Some(speed) if speed.si() > FASTEST_M_PER_S => Some(tr("far above road speeds")),
        Some(_) => None,
        None => ratio.filter(|r| r.si() <= 1.0).map(|_| tr("none")),
    }
}

/// A result of both axles' frequencies in each state.
fn per_state<Q: Quantity>(
    out: &mut Out,
    like: &Figure,
    answer: &Answer,
    result: impl Fn(&Vehicle) -> PerState<Option<Q>>,
) {
    for state in State::ALL {
        let key = format!("{}.{}", like.key, state.key());
        let frequency = |side: Side| answer.axle(side).standing.of(state).as_ref().map(|s| s.frequency.si());
        let with = || -> Option<Vec<Substitution>> {
            let mut with =
                vec![("f_F", frequency(Side::Front)?, Dim::Frequency), ("f_R", frequency(Side::Rear)?, Dim::Frequency)];
            if like.dim == Dim::Velocity {
                with.extend([("L", si(answer.whole.wheelbase)?, Dim::Length), ("n", 1.0, Dim::Ratio)]);
            }
            Some(with)
        };
        let with = with().unwrap_or_default();
        let instead = far(like.dim, answer, state);
        let like = Figure { key, with, instead, ..like.clone() }.of(state.words().said());
        out.told(like, answer, |v| si(*result(v).of(state)));
    }
}

/// What is put down of one result.
fn said(
    key: impl AsRef<str>,
    name: impl Into<String>,
    dim: Dim,
    convention: &'static str,
    formula: &'static str,
    source: &'static str,
) -> Figure {
    like(&format!("whole.{}", key.as_ref()), name, dim, convention, formula, source)
}

impl Figure {
    /// The same with the numbers put into its formula.
    fn put_in(self, with: Option<Vec<Substitution>>) -> Self {
        Figure { with: with.unwrap_or_default(), ..self }
    }

    /// The same, its name beginning with these words.
    pub(in crate::report::results) fn of(self, words: &str) -> Self {
        Figure { name: format!("{words}: {}", self.label), ..self }
    }

    /// The same, formatted this way in a table.
    fn said_as(self, say: Say) -> Self {
        Figure { say, ..self }
    }

    /// The same, come about step by step.
    fn solved(self) -> Self {
        Figure { by: By::Solving, ..self }
    }

    /// The same, with the field without which it is not known.
    fn without(self, field: &str) -> Self {
        Figure { why: Some(Why::Missing(vec![field.to_owned()])), ..self }
    }
}
