//! Spring seats moved: what brings the cross weight to what is wanted, and what brings the body level.

use super::OnCorners;
use crate::base::units::{G_M_PER_S2, Length, Mass, Quantity, Ratio};
use crate::job::{BarLinks, PerAxle, Side, SpringKind};
use crate::solve::answer::{Corners, Cross, Levelling, State};
use crate::solve::evaluate::on_corners::heights;
use crate::trade::corners::{self, AxlePair, Carried, Four, Sides, Stand};
use crate::trade::wheel::ForceTravel;

/// Sought until what is wanted is missed by no more: a share of the weight, or rad.
const SETTLED: f64 = 1e-10;
const STEPS: usize = 5;
/// What is counted where seats have no thread, m of shims.
const SHIM_M: f64 = 1e-3;

impl OnCorners<'_> {
    /// The equal and opposite adjustment of the seats that brings the cross weight to what is wanted, the links of the bars
    /// free. `None` where no seat can be moved, or nothing is wanted.
    pub(super) fn cross(&self, state: State) -> Option<Cross> {
        let reading = self.vehicle.reading;
        let wanted: Ratio = reading.known(&reading.job.chassis.cross_wanted)?;
        let seats = PerAxle::each(|side| self.per_turn(side));
        let unit_m = [-seats.front.0, seats.front.0, seats.rear.0, -seats.rear.0];
        let miss = |stand: &Stand| corners::cross_share(stand.loads_n) - wanted.si();
        let (turns, stand) = self.sought(state, BarLinks::Off, unit_m, 1.0, miss)?;
        let lean_rad = heights::lean_rad(&self.across, &self.weigh_in) + stand.roll_rad;
        Some(Cross {
            turns,
            by_turns: seats.map(|s| s.1),
            at_seat: seats.map(|s| Length::from_si(s.0 * turns)),
            corners: Corners::each(|i| Mass::from_si(stand.loads_n[i] / G_M_PER_S2)),
            right_lower: self.right_lower(lean_rad),
        })
    }

    /// Of one axle: how far a seat moves with a turn, or 1 mm of shims, m, 0 where none can be moved; turns are counted.
    fn per_turn(&self, side: Side) -> (f64, bool) {
        let data = self.vehicle.reading.job.axle(side);
        if !data.spring.kind.is_coil() && data.spring.kind != SpringKind::Leaf {
            return (0.0, false);
        }
        let pitch: Option<Length> = self.vehicle.reading.typed(&data.thread_pitch);
        (pitch.map_or(SHIM_M, Length::si), pitch.is_some())
    }

    /// Seats of both axles raised on one side and lowered on the other by as much as the lean asks of each: on a body that
    /// turns as a whole nothing is wound up, so the cross weight stays but for what bars and leaves do. `None` where some
    /// spring has no seat that can be moved.
    pub(super) fn levelling(&self, state: State) -> Option<Levelling> {
        let links = self.vehicle.links(state);
        let set_up = self.set_up(state, links)?;
        let [front, rear] = &set_up.axles;
        let per_rad = PerAxle { front: seats_per_rad(front)?, rear: seats_per_rad(rear)? };
        let halves_m = per_rad.map(|m| 0.5 * m);
        let unit_m = [-halves_m.front, halves_m.front, -halves_m.rear, halves_m.rear];
        let weighed_rad = heights::lean_rad(&self.across, &self.weigh_in);
        let miss = |stand: &Stand| weighed_rad + stand.roll_rad;
        let (turned_rad, stand) = self.sought(state, links, unit_m, 1e-3, miss)?;
        Some(Levelling {
            at_seat: per_rad.map(|m| Length::from_si(m * turned_rad)),
            cross_weight: Ratio::from_si(corners::cross_share(stand.loads_n)),
        })
    }

    /// How many units the seats move until nothing is missed, by secants from none and from `first`.
    fn sought(
        &self,
        state: State,
        links: BarLinks,
        unit_m: Four<f64>,
        first: f64,
        miss: impl Fn(&Stand) -> f64,
    ) -> Option<(f64, Stand)> {
        let set_up = self.set_up(state, links)?;
        let carried = self.weighed_again(state)?;
        let at = |units: f64| on_seats(&set_up, &carried, unit_m.map(|m| m * units));
        let (mut from, mut stand) = (0.0, at(0.0)?);
        let mut next = first;
        for _ in 0..STEPS {
            if miss(&stand).abs() <= SETTLED {
                return Some((from, stand));
            }
            let found = at(next)?;
            let slope = (miss(&found) - miss(&stand)) / (next - from);
            (from, stand) = (next, found);
            next -= miss(&found) / slope;
            if !next.is_finite() {
                return None;
            }
        }
        None
    }
}

/// Between left and right seat of an axle, along the spring, for each rad that the body is turned left side down, m.
fn seats_per_rad(axle: &AxlePair<'_>) -> Option<f64> {
    let takes_a_spacer = axle.curves.iter().all(|c| c.spring.clone().moved(Length::from_si(1.0)) != c.spring);
    let base_m = axle.across.beam.map_or(axle.across.track_m, |b| b.spring_m);
    let ratio = axle.curves.map(|c| c.spring_length.ratio(Length::from_si(0.0)).si());
    takes_a_spacer.then_some(0.5 * (ratio[0] + ratio[1]) * base_m)
}

/// Where it is with each seat raised by this amount.
fn on_seats(set_up: &corners::Vehicle<'_>, carried: &Carried, by_m: Four<f64>) -> Option<Stand> {
    let moved = |axle: usize, side: usize| {
        let curve = set_up.axles[axle].curves[side];
        ForceTravel { spring: curve.spring.clone().moved(Length::from_si(by_m[2 * axle + side])), ..curve.clone() }
    };
    let moved: [Sides<ForceTravel>; 2] = [[moved(0, 0), moved(0, 1)], [moved(1, 0), moved(1, 1)]];
    let axle = |i: usize| AxlePair { curves: [&moved[i][0], &moved[i][1]], ..set_up.axles[i] };
    corners::Vehicle { axles: [axle(0), axle(1)], ..*set_up }.stand(carried)
}
