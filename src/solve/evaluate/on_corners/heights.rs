//! How high the corners stood when they were weighed.

use crate::base::units::{Length, Quantity};
use crate::job::read::{Arches, Read};
use crate::job::{MeasuredAt, Side};
use crate::solve::answer::{PerState, State};
use crate::solve::evaluate::pitch_and_roll::Vehicle;
use crate::trade::corners::{Across, AxlePair, Four, Stand, WeighIn, placing};

/// Wheel travel of each corner at a weigh-in, m: each axle's mean by its curve under what stood on the scales, left against
/// right by the arches, else by a level floor.
pub(super) fn at_weigh_in(
    vehicle: &Vehicle<'_>,
    state: State,
    axles: &[AxlePair<'_>; 2],
    loads_n: Four<f64>,
) -> Option<Four<f64>> {
    let mean = |side: Side| {
        let axle = vehicle.on.axles[side];
        let on_old = axle.on_scales(State::OldSprings, state).or_else(|| axle.on_scales(State::Before, state));
        // Without the old springs no height is told; the body's turning needs none.
        on_old.map_or(0.0, Length::si)
    };
    let mean_m = [mean(Side::Front), mean(Side::Rear)];
    let arch = &vehicle.weighing(state).arch;
    let typed = |entry: &Read<Length>| vehicle.reading.typed(entry);
    let both = |left, right| Some((typed(right)? - typed(left)?).si());
    let measured_m = [both(&arch.lf, &arch.rf), both(&arch.lr, &arch.rr)];
    let on_scales = [0, 1].map(|i| (&axles[i], [loads_n[2 * i], loads_n[2 * i + 1]], mean_m[i]));
    let apart_m = placing::left_above_right(on_scales, measured_m)?;
    let at = |axle: usize, sign: f64| mean_m[axle] + 0.5 * sign * apart_m[axle];
    Some([at(0, 1.0), at(0, -1.0), at(1, 1.0), at(1, -1.0)])
}

/// How far the body leaned at the weigh-in, tyres included, rad, + right side down: the mean of both axles.
pub(super) fn lean_rad(across: &[Across; 2], weigh_in: &WeighIn) -> f64 {
    let one = |i: usize| {
        let [left, right] = [2 * i, 2 * i + 1];
        let tyres_m = (weigh_in.loads_n[right] - weigh_in.loads_n[left]) / across[i].tyre_n_per_m;
        (weigh_in.travel_m[right] - weigh_in.travel_m[left] + tyres_m) / across[i].track_m
    };
    0.5 * (one(0) + one(1))
}

/// Hub centre to arch of one corner at this travel: as measured at the weigh-in of the state itself, where it is the old
/// springs'; else from a corner or axle that was measured before or after, that at the reference height first.
pub(super) fn arch(
    vehicle: &Vehicle<'_>,
    state: State,
    stands: &PerState<Option<Stand>>,
    corner: usize,
    travel_m: f64,
) -> Option<Length> {
    let (reading, job) = (vehicle.reading, &vehicle.reading.job);
    let checks = &job.axle(if corner < 2 { Side::Front } else { Side::Rear }).checks;
    let from = |at: State| {
        let (arches, mean) = match at {
            State::Before => (&job.before.arch, &checks.arch_before),
            _ => (&job.after.arch, &checks.arch_after),
        };
        let stood_m = stands.of(at).as_ref()?.travel_m;
        let own = reading.typed::<Length>(of_corner(arches, corner)).map(|arch| arch.si() + stood_m[corner]);
        // The mean of an axle is that of its two corners.
        let pair = corner / 2 * 2;
        let by_mean = || Some(reading.typed::<Length>(mean)?.si() + 0.5 * (stood_m[pair] + stood_m[pair + 1]));
        Some(Length::from_si(own.or_else(by_mean)? - travel_m))
    };
    let [first, other] = match (state, job.measured_at) {
        (State::Before, _) | (State::NewSprings, MeasuredAt::Before) => [State::Before, State::OldSprings],
        (State::OldSprings, _) | (State::NewSprings, MeasuredAt::After) => [State::OldSprings, State::Before],
    };
    from(first).or_else(|| from(other))
}

/// The entry of a corner in walking order.
fn of_corner(arches: &Arches, corner: usize) -> &Read<Length> {
    [&arches.lf, &arches.rf, &arches.lr, &arches.rr][corner]
}
