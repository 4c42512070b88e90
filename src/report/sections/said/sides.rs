//! Left and right of an axle in words, where they do not move alike.

use crate::base::units::{Length, Quantity, UnitChoice};
use crate::job::Side;
use crate::report::phrases::short_height;
use crate::say;
use crate::solve::answer::{Answer, AxleAnswer, State, Vehicle};

/// "Left 7 mm higher, right 7 mm lower.", on the springs that will be fitted; `None` where both move alike, or the corners
/// are not known as the axle is compared.
pub fn sides(answer: &Answer, axle: &AxleAnswer, units: &UnitChoice) -> Option<String> {
    axle.standing.new.as_ref()?;
    (axle.masses.stood == axle.masses.sprung).then_some(())?;
    let of = |v: &Vehicle| -> Option<[Length; 2]> {
        let rise = (*v.whole.corners.of(State::NewSprings))?.rise?;
        Some(match axle.side {
            Side::Front => [rise.lf, rise.rf],
            Side::Rear => [rise.lr, rise.rr],
        })
    };
    let apart = |v: &Vehicle| of(v).map(|[left, right]| (left - right).si());
    let [left, right] = of(&answer.vehicle)?;
    let is_sure = (left - right).si().abs() > answer.moved.u_of(apart).unwrap_or(0.0);
    let [left, right] = [left, right].map(|rise| short_height(rise, units));
    (is_sure && left != right).then(|| say!("Left {left}, right {right}.", left, right))
}
