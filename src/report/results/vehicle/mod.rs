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
use super::collect::{Out, then};
use super::row::{figures, like, put, si};
use super::{Figure, Say, Substitution};
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
        let (label, dim, value) = (tr(row.label), row.dim, row.value);
        let like = like(format!("change.{}", row.key), label, dim, "after minus before", "after − before", "DERIVED");
        let with = || Some(vec![("after", value(&answer.after)?, dim), ("before", value(&answer.before)?, dim)]);
        let like = Figure { name: then(tr("change")) + label, say: Say::Signed, ..like.with(with) };
        out.told(like, answer, |v| Some(value(&v.after)? - value(&v.before)?));
    }
}

/// Rear against front.
pub(super) fn front_and_rear(out: &mut Out, answer: &Answer) {
    figures! { out;
        per_state "whole.rear_over_front", tr("rear ÷ front frequency, without tyre"), Ratio,
            "both without tyre deflection";
            "f_R / f_F", "GIL" => answer, |v| v.rear_over_front;
        per_state "whole.flat_ride_speed", tr("flat-ride speed"), Velocity,
            "n = 1, without tyre deflection; none unless the rear frequency is above the front frequency";
            "v = L / (n (1/f_F − 1/f_R))", "GIL" => answer, |v| v.flat_ride;
    }
}

/// What a move of the lamps' beam comes from.
fn of_beam(answer: &Answer, nose_up: Option<Angle>) -> Option<Vec<Substitution>> {
    put!["D": answer.whole.lamp_distance?, "nose up": nose_up?]
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

impl Out {
    /// A result of both axles' frequencies in each state.
    fn per_state<Q: Quantity>(
        &mut self,
        like: Figure,
        answer: &Answer,
        result: impl Fn(&Vehicle) -> PerState<Option<Q>>,
    ) {
        for state in State::ALL {
            let frequency = |side: Side| Some(answer.axle(side).standing.of(state).as_ref()?.frequency);
            let both = || put!["f_F": frequency(Side::Front)?, "f_R": frequency(Side::Rear)?];
            let with = || match like.dim {
                Dim::Velocity => put![..both()?, "L": answer.whole.wheelbase?, "n": 1.0 => Ratio],
                _ => both(),
            };
            let key = format!("{}.{}", like.key, state.key());
            let instead = far(like.dim, answer, state);
            let like = Figure { key, instead, ..like.clone() }.with(with).of(state.words().said());
            self.told(like, answer, |v| si(*result(v).of(state)));
        }
    }
}
