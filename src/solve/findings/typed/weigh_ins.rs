//! What is likely of a job's two weigh-ins: of each as it is, and of the change that parts and loads explain.

use crate::base::math::spread::Measured;
use crate::base::units::{Length, Mass, Quantity};
use crate::solve::evaluate::equal_load::{parts_of, variance_of};
use crate::solve::evaluate::four_corners;
use crate::solve::findings::Say;
use crate::trade::ledger;
use crate::trade::weights::likely::{OnAxle, Spreads};

// Standard deviations as shares of the vehicle's weight; common practice, no source.
/// Change of an axle when no parts are listed, and beyond what they say.
const AXLE: [f64; 2] = [0.10, 0.02];
/// Change of what the right side carries more, the same.
const ROLL: [f64; 2] = [0.014, 0.008];
/// Change of the twist: pads, friction, settling.
const TWIST: f64 = 0.006;
/// What the right side of a vehicle carries more, and its twist, when only one weigh-in is there.
const SIDES: [f64; 2] = [0.04, 0.024];
/// What people and load that may not have been aboard both times are worth, for axles and roll.
const ABOARD: [f64; 2] = [0.05, 0.025];
/// A track when none is typed, m.
const TRACK_M: f64 = 1.5;

/// All readings, kg: before and after, each LF, RF, LR, RR, front axle, rear axle.
pub(in crate::solve::findings) type Readings = [[Option<f64>; 6]; 2];

/// A weigh-in axle by axle: by its corners, else as a whole.
pub(in crate::solve::findings) fn on_axles(read: [Option<f64>; 6]) -> [Option<OnAxle>; 2] {
    [0, 1].map(|axle| {
        let corners = read[2 * axle].zip(read[2 * axle + 1]);
        let by_corners = corners.map(|(l, r)| OnAxle { sum_kg: l + r, right_more_kg: Some(r - l) });
        by_corners.or_else(|| read[4 + axle].map(|sum_kg| OnAxle { sum_kg, right_more_kg: None }))
    })
}

/// What is likely of the readings of one job.
pub(in crate::solve::findings) struct Likely {
    /// Of the first weigh-in that is there.
    itself: Spreads,
    /// Of the change from before to after.
    change: Spreads,
}

impl Likely {
    pub fn log_density(&self, read: &Readings) -> f64 {
        let [before, after] = read.map(on_axles);
        let is_blank = |w: &[Option<OnAxle>; 2]| w.iter().all(Option::is_none);
        if is_blank(&before) || is_blank(&after) {
            return self.itself.log_density(if is_blank(&before) { &after } else { &before });
        }
        self.itself.log_density(&before) + self.change.log_density(&changes(read))
    }
}

/// Axle by axle, after less before.
pub(in crate::solve::findings) fn changes(read: &Readings) -> [Option<OnAxle>; 2] {
    let [before, after] = read.map(on_axles);
    [0, 1].map(|axle| {
        let (was, is) = (before[axle]?, after[axle]?);
        let right_more_kg = was.right_more_kg.zip(is.right_more_kg).map(|(was, is)| is - was);
        Some(OnAxle { sum_kg: is.sum_kg - was.sum_kg, right_more_kg })
    })
}

impl Say<'_> {
    /// What is likely of these readings; `None` without an axle that was read.
    pub(in crate::solve::findings) fn likely(&self, read: &Readings) -> Option<Likely> {
        let job = self.job();
        let totals = read.map(on_axles).map(|w| w.iter().flatten().map(|axle| axle.sum_kg).sum::<f64>());
        let weighed = totals.into_iter().filter(|t| *t > 0.0);
        // The lighter of the two: one reading typed in kg for lb makes a vehicle heavy.
        let total_kg = weighed.fold(f64::INFINITY, f64::min);
        if !total_kg.is_finite() {
            return None;
        }
        let share = |of: f64| Measured { value: 0.0, u: of * total_kg };
        let listed = !job.parts.is_empty();
        let expected = self.expected_change();
        let unlisted = usize::from(listed && expected.is_some());
        let beyond = |m: Measured, of: f64| Measured { u: m.u.hypot(of * total_kg), ..m };
        let aboard = self.aboard_unclear();
        let [axles, roll] = match expected {
            Some((axles, roll)) => [axles.map(|m| beyond(m, AXLE[unlisted])), [beyond(roll, ROLL[unlisted]); 2]],
            None => [[share(AXLE[0]); 2], [share(ROLL[0]); 2]],
        };
        let also = |m: Measured, of: f64| if aboard { beyond(m, of) } else { m };
        Some(Likely {
            itself: Spreads { axles: None, roll: share(SIDES[0]), twist: share(SIDES[1]) },
            change: Spreads {
                axles: Some(axles.map(|m| also(m, ABOARD[0]))),
                roll: also(roll[0], ABOARD[1]),
                twist: share(TWIST * if self.pads_uneven() { 3.0 } else { 1.0 }),
            },
        })
    }

    /// What was aboard is described in different words, and not subtracted.
    fn aboard_unclear(&self) -> bool {
        let (before, after) = (&self.job().before, &self.job().after);
        before.aboard.trim() != after.aboard.trim() && before.loads.is_empty() && after.loads.is_empty()
    }

    fn pads_uneven(&self) -> bool {
        let job = self.job();
        [&job.before.pads, &job.after.pads].into_iter().any(|p| four_corners::uneven(self.reading, p))
    }

    /// What parts and loads aboard change: axles, and what the right side carries more. `None` when a row of them has
    /// no place, or the wheelbase is not known.
    fn expected_change(&self) -> Option<([Measured; 2], Measured)> {
        let job = self.job();
        let (rows, before, after) =
            (self.reading.parts(), self.reading.loads(&job.before.loads), self.reading.loads(&job.after.loads));
        let all_placed = rows.len() == job.parts.len()
            && before.len() == job.before.loads.len()
            && after.len() == job.after.loads.len();
        if !all_placed {
            return None;
        }
        let [parts, was, is] = [&rows, &before, &after].map(|rows| self.reading.on_axles(rows));
        let (parts, was, is) = (parts?.both(), was?.both(), is?.both());
        let wheelbase: Option<Length> = self.reading.typed(&job.vehicle.wheelbase);
        let on_axles = |rows: &[_]| Some(ledger::axle_change(rows, wheelbase?));
        let tracks = [&job.front.track, &job.rear.track].map(|t| self.reading.typed(t).map(Length::si));
        let track_m = tracks.into_iter().flatten().next().unwrap_or(TRACK_M);
        let right_more = |rows: &[ledger::Part]| {
            Some([Mass::from_si(rows.iter().map(|p| p.mass.si() * p.y.si()).sum::<f64>() * 2.0 / track_m)])
        };
        let of = |list: &[_]| right_more(&parts_of(list)).map_or(0.0, |[m]| m.si());
        let mut variance = [0.0; 3];
        for list in [&rows, &before, &after] {
            let axles = if list.is_empty() { [0.0; 2] } else { variance_of(list, on_axles)? };
            let [roll] = variance_of(list, right_more)?;
            variance = [variance[0] + axles[0], variance[1] + axles[1], variance[2] + roll];
        }
        let axles = [0, 1].map(|i| Measured { value: (parts[i] + is[i] - was[i]).si(), u: variance[i].sqrt() });
        Some((axles, Measured { value: of(&rows) + of(&after) - of(&before), u: variance[2].sqrt() }))
    }
}
