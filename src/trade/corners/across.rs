//! One axle between the body and its two wheels: what both wheels do to each other.

use super::{HARD, Sides};
use crate::trade::wheel::{Acting, ForceTravel};

/// Across a beam axle: between the two springs, bags, dampers and stops, m, where their axes cross roll-centre height.
/// Rubber acts at the wheels.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bases {
    /// Springs.
    pub spring_m: f64,
    /// Air bags that help.
    pub bag_m: f64,
    /// Dampers, for the push of their gas.
    pub gas_m: f64,
    /// Bump stops.
    pub stop_m: f64,
}

/// What an axle is across.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Across {
    /// Between the wheels, m.
    pub track_m: f64,
    /// Of a beam axle; `None` where each wheel hangs by itself.
    pub beam: Option<Bases>,
    /// What twists when the wheels move against each other, leaves and anti-roll bar, N·m for each rad of the axle against
    /// the body.
    pub twist_nm_per_rad: f64,
    /// Rate of one tyre, N/m.
    pub tyre_n_per_m: f64,
    /// Wheel travel to full droop, m below the reference height; there the damper or a strap holds the wheel.
    pub droop_m: Option<f64>,
}

/// An axle on a curve for each side.
#[derive(Debug, Clone, Copy)]
pub struct AxlePair<'a> {
    /// What it is across.
    pub across: Across,
    /// Left, right: against the travel of the spring's own place.
    pub curves: Sides<&'a ForceTravel>,
    /// Left less right wheel travel at which nothing is twisted, m.
    pub untwisted_m: f64,
}

/// Forces up on the body at the two wheels, N, and how each goes with the travel of each wheel, N/m.
pub(super) type AtWheels = (Sides<f64>, [[f64; 2]; 2]);

impl Across {
    /// Base of a part over the track.
    fn narrowed(&self, part: Acting) -> f64 {
        let base_m = self.beam.map_or(self.track_m, |b| match part {
            Acting::Spring => b.spring_m,
            Acting::Bag => b.bag_m,
            Acting::Gas => b.gas_m,
            Acting::Stop => b.stop_m,
            Acting::Rubber => self.track_m,
        });
        base_m / self.track_m
    }

    /// How far a part is moved on each side: in two-wheel bump as the wheels, in roll by its base over the track.
    pub fn part_travel(&self, part: Acting, wheels_m: Sides<f64>) -> Sides<f64> {
        through(self.narrowed(part), wheels_m)
    }

    /// What the forces of a part on each side do at the wheels. Source `DERIVED` (virtual work).
    pub(super) fn part_at_wheels(&self, part: Acting, forces: Sides<f64>) -> Sides<f64> {
        through(self.narrowed(part), forces)
    }

    /// The forces of a part that do this at the wheels; `None` without a base.
    pub(super) fn part_from_wheels(&self, part: Acting, wheels_n: Sides<f64>) -> Option<Sides<f64>> {
        let narrowed = self.narrowed(part);
        (narrowed > 0.0).then(|| through(narrowed.recip(), wheels_n))
    }
}

/// Mean as it is, difference times a share.
fn through(share: f64, [left, right]: Sides<f64>) -> Sides<f64> {
    let (own, other) = (0.5 * (1.0 + share), 0.5 * (1.0 - share));
    [own * left + other * right, other * left + own * right]
}

impl AxlePair<'_> {
    /// What the body gets at the wheels. Each part acts at its own base: in two-wheel bump as in the curve, in roll by
    /// base ÷ track both in travel and in force. What twists gives a pair of forces K ρ/t; a wheel at full droop is held.
    /// Source `DERIVED` (energy), `MIL` ch. 18.
    pub(super) fn at_wheels(&self, wheels_m: Sides<f64>) -> AtWheels {
        let mut sum = ([0.0; 2], [[0.0; 2]; 2]);
        if self.across.beam.is_none() {
            for (i, (curve, wheel_m)) in self.curves.into_iter().zip(wheels_m).enumerate() {
                (sum.0[i], sum.1[i][i]) = curve.force_and_rate(wheel_m);
            }
        } else {
            for part in Acting::ALL {
                self.add_part(part, wheels_m, &mut sum);
            }
        }
        self.add_twist(wheels_m, &mut sum);
        self.add_droop(wheels_m, &mut sum);
        sum
    }

    fn add_part(&self, part: Acting, wheels_m: Sides<f64>, sum: &mut AtWheels) {
        let share = self.across.narrowed(part);
        let (own, other) = (0.5 * (1.0 + share), 0.5 * (1.0 - share));
        let at_m = through(share, wheels_m);
        let [left, right] = [0, 1].map(|i| self.curves[i].of_part(part, at_m[i]));
        sum.0[0] += own * left.0 + other * right.0;
        sum.0[1] += other * left.0 + own * right.0;
        let across = own * other * (left.1 + right.1);
        sum.1[0][0] += own * own * left.1 + other * other * right.1;
        sum.1[1][1] += other * other * left.1 + own * own * right.1;
        sum.1[0][1] += across;
        sum.1[1][0] += across;
    }

    fn add_twist(&self, [left_m, right_m]: Sides<f64>, sum: &mut AtWheels) {
        let rate = self.across.twist_nm_per_rad / self.across.track_m.powi(2);
        let force = rate * (left_m - right_m - self.untwisted_m);
        for (i, sign) in [(0, 1.0), (1, -1.0)] {
            sum.0[i] += sign * force;
            sum.1[i][i] += rate;
            sum.1[i][1 - i] -= rate;
        }
    }

    fn add_droop(&self, wheels_m: Sides<f64>, sum: &mut AtWheels) {
        let Some(droop_m) = self.across.droop_m else { return };
        let rate = HARD * self.across.tyre_n_per_m;
        for (i, wheel_m) in wheels_m.into_iter().enumerate() {
            let beyond_m = -droop_m - wheel_m;
            if beyond_m > 0.0 {
                sum.0[i] -= rate * beyond_m;
                sum.1[i][i] += rate;
            }
        }
    }

    /// Wheel rate of each side where both wheels go up together, N/m: what twists is not in it.
    pub fn wheel_rates(&self, wheels_m: Sides<f64>) -> Sides<f64> {
        let of = |part: Acting| {
            let at_m = self.across.part_travel(part, wheels_m);
            [0, 1].map(|i| self.curves[i].of_part(part, at_m[i]).1)
        };
        let each = Acting::ALL.map(of);
        [0, 1].map(|i| each.iter().map(|rates| rates[i]).sum())
    }

    /// Moment that turns the axle against the body by one rad, what twists apart, N·m. Source `DERIVED`.
    pub(super) fn springs_in_roll(&self, wheels_m: Sides<f64>) -> f64 {
        let plain = AxlePair { across: Across { twist_nm_per_rad: 0.0, droop_m: None, ..self.across }, ..*self };
        let (_, [[ll, lr], [rl, rr]]) = plain.at_wheels(wheels_m);
        0.25 * self.across.track_m.powi(2) * (ll + rr - lr - rl)
    }
}
