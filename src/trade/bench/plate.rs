//! A wheel on the shaking plate, run in time with its real curves: the damper's, the stops', a tyre that only pushes.

use std::f64::consts::TAU;

use super::{AMPLITUDE_M, FASTEST_HZ};
use crate::base::math::ode::{self, Ended, Pace, System};
use crate::base::units::{Frequency, Quantity, Ratio};
use crate::trade::road::Wheel;

/// The plate keeps its frequency for so long, s, so that the start has died away; then it slows down.
const STEADY_S: f64 = 2.0;
/// It slows down evenly to rest within this time, s. Common practice, no source.
const SLOWS_S: f64 = 10.0;
/// Samples this far apart, s: 40 of each wave at the highest frequency.
const EVERY_S: f64 = 1e-3;
/// More steps than this are stiffer than any vehicle; usual runs take 10,000.
const MOST_STEPS: usize = 400_000;

/// What the plate measures in a run.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Shaken {
    /// Least tyre load over the standing load; 0 where the wheel leaves the plate.
    pub adhesion: Ratio,
    /// Frequency of the plate at that moment.
    pub at: Frequency,
}

struct OnPlate<'a>(&'a Wheel);

impl System<4> for OnPlate<'_> {
    fn slopes(&self, time_s: f64, state: &[f64; 4], slopes: &mut [f64; 4]) {
        let [body_m, body_v, wheel_m, wheel_v] = *state;
        let wheel = self.0;
        let forces = wheel.forces(wheel_m - body_m, wheel_v - body_v, plate_m(time_s) - wheel_m);
        let body = forces.on_body_n / wheel.sprung.si();
        *slopes = [body_v, body, wheel_v, forces.on_wheel_n / wheel.unsprung.si()];
    }
}

/// Frequency of the plate, Hz.
fn plate_hz(time_s: f64) -> f64 {
    FASTEST_HZ * (1.0 - ((time_s - STEADY_S) / SLOWS_S).clamp(0.0, 1.0))
}

/// Height of the plate above its middle, m: its phase is the integral of its frequency.
fn plate_m(time_s: f64) -> f64 {
    let slowing_s = (time_s - STEADY_S).clamp(0.0, SLOWS_S);
    let turns = FASTEST_HZ * (time_s.min(STEADY_S) + slowing_s - 0.5 * slowing_s * slowing_s / SLOWS_S);
    AMPLITUDE_M * (TAU * turns).sin()
}

/// Shakes a wheel from rest: 2 s at 25 Hz, which do not count, then slower and slower to rest in 10 s.
///
/// `watch` gets the share done, 0 to 1, now and then; `false` stops the run. Against the closed form it reads up to four
/// points higher where damping is light, since the resonance is passed before it has built up. Source `BENCH`, equations
/// `DERIVED`.
///
/// # Errors
/// [`Ended`]: stopped, or the motion cannot be followed.
pub fn shake(wheel: &Wheel, mut watch: impl FnMut(f64) -> bool) -> Result<Shaken, Ended> {
    const NOW_AND_THEN: usize = 256;
    let until_s = STEADY_S + SLOWS_S;
    let pace = Pace {
        until_s,
        every_s: EVERY_S,
        relative: 1e-6,
        absolute: 1e-8,
        longest_step_s: 5e-3,
        most_steps: MOST_STEPS,
    };
    let (mut least_n, mut at_s, mut samples) = (f64::INFINITY, 0.0, 0_usize);
    ode::follow(&OnPlate(wheel), &[0.0; 4], pace, |time_s, state| {
        let [body_m, body_v, wheel_m, wheel_v] = *state;
        let forces = wheel.forces(wheel_m - body_m, wheel_v - body_v, plate_m(time_s) - wheel_m);
        if time_s >= STEADY_S && forces.tyre_n < least_n {
            (least_n, at_s) = (forces.tyre_n, time_s);
        }
        samples += 1;
        !samples.is_multiple_of(NOW_AND_THEN) || watch(time_s / until_s)
    })?;
    let adhesion = Ratio::from_si(least_n / wheel.standing_load().si());
    Ok(Shaken { adhesion, at: Frequency::from_si(plate_hz(at_s)) })
}
