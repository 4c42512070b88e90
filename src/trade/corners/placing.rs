//! Where each spring is, from what its own corner carried and how high it stood.

use super::{Across, AxlePair, Sides};
use crate::base::units::{Force, Length, Quantity};
use crate::trade::wheel::{Acting, ForceTravel};

/// The curves of an axle's two sides, each spring with its seat where it carries its own load at its own height.
///
/// `loads_n` is what the body puts on the two wheels. On a beam the springs' forces follow from force and moment of the
/// axle: the mean as it is, the difference times track ÷ base, what bag, gas, stop and rubber carry taken off first.
/// Bars and leaves are not twisted. `None` where a spring cannot carry its share. Source `DERIVED` (statics).
pub fn placed(
    curves: Sides<&ForceTravel>,
    across: &Across,
    loads_n: Sides<f64>,
    wheels_m: Sides<f64>,
) -> Option<Sides<ForceTravel>> {
    let mut rest_n = loads_n;
    for part in Acting::ALL.into_iter().filter(|p| *p != Acting::Spring) {
        let at_m = across.part_travel(part, wheels_m);
        let carried = across.part_at_wheels(part, [0, 1].map(|i| curves[i].of_part(part, at_m[i]).0));
        rest_n = [0, 1].map(|i| rest_n[i] - carried[i]);
    }
    let at_seats_n = across.part_from_wheels(Acting::Spring, rest_n)?;
    let at_m = across.part_travel(Acting::Spring, wheels_m);
    let one = |i: usize| {
        let length = &curves[i].spring_length;
        let place = Length::from_si(at_m[i]);
        let along = Force::from_si(at_seats_n[i] / length.ratio(place).si());
        let spring = curves[i].spring.carrying(along, length.length(place))?;
        Some(ForceTravel { spring, ..curves[i].clone() })
    };
    Some([one(0)?, one(1)?])
}

/// How far the wheels stand from the mean of their axle where their heights were not measured: on a level floor the rigid
/// body leans until the springs, alike left and right, carry what the wheels were read to carry more on one side.
///
/// Of each axle its springs, what the wheels carried on the scales, N, and left less right travel where that was
/// measured, m; the lean is then that of what was measured. Returned: left less right travel of each axle, m.
/// φ = (ΣM_i + ΣK_i τ_i)/ΣK_i with M_i the axle's moment, τ_i how far its tyres tilt it; right less left travel is
/// t_i (φ − τ_i). Source `DERIVED` (statics).
pub fn left_above_right(
    axles: [(&AxlePair<'_>, Sides<f64>, f64); 2],
    measured_m: [Option<f64>; 2],
) -> Option<[f64; 2]> {
    let tilts = axles.map(|(axle, [left, right], _)| (right - left) / axle.across.tyre_n_per_m / axle.across.track_m);
    let lean = |i: usize| measured_m[i].map(|m| tilts[i] - m / axles[i].0.across.track_m);
    let known = match (lean(0), lean(1)) {
        (Some(front), Some(rear)) => Some(0.5 * (front + rear)),
        (one, other) => one.or(other),
    };
    let by_springs = || {
        let stiffness = axles.map(|(axle, _, mean_m)| axle.springs_in_roll([mean_m; 2]));
        let moment = axles.map(|(axle, [left, right], _)| 0.5 * (right - left) * axle.across.track_m);
        let sum = (0..2).map(|i| moment[i] + stiffness[i] * tilts[i]).sum::<f64>() / (stiffness[0] + stiffness[1]);
        (stiffness[0] + stiffness[1] > 0.0).then_some(sum)
    };
    let lean = known.or_else(by_springs)?;
    Some([0, 1].map(|i| measured_m[i].unwrap_or(-axles[i].0.across.track_m * (lean - tilts[i]))))
}
