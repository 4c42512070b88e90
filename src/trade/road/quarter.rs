//! One wheel and its share of the body over a road.

use super::corner::Wheel;
use super::run::{self, Drive, Run, Stopped, Track, Work};
use crate::base::math::ode::{self, Pace, System};
use crate::base::units::Quantity;

/// Body height and speed, wheel height and speed.
pub type State = [f64; 4];

/// A wheel on its way.
#[derive(Debug, Clone, Copy)]
pub struct Quarter<'a> {
    wheel: &'a Wheel,
    drive: Drive<'a>,
    per_sprung: f64,
    per_unsprung: f64,
}

impl System<4> for Quarter<'_> {
    fn slopes(&self, time_s: f64, state: &State, slopes: &mut State) {
        let [body_m, body_v, wheel_m, wheel_v] = *state;
        let (road_m, _) = self.drive.under(time_s, 0.0);
        let forces = self.wheel.forces(wheel_m - body_m, wheel_v - body_v, road_m - wheel_m);
        *slopes = [body_v, forces.on_body_n * self.per_sprung, wheel_v, forces.on_wheel_n * self.per_unsprung];
    }
}

impl<'a> Quarter<'a> {
    /// On this road.
    pub fn new(wheel: &'a Wheel, drive: Drive<'a>) -> Self {
        let (per_sprung, per_unsprung) = (1.0 / wheel.sprung.si(), 1.0 / wheel.unsprung.si());
        Quarter { wheel, drive, per_sprung, per_unsprung }
    }

    /// Runs it, from rest on the height at which the road begins.
    ///
    /// `watch` gets the share done, 0 to 1, now and then; `false` stops the run.
    ///
    /// # Errors
    /// [`Stopped`]: by the watch, or because the motion cannot be followed.
    pub fn run(&self, watch: impl FnMut(f64) -> bool) -> Result<Run, Stopped> {
        self.run_at(self.drive.pace(0.0), watch)
    }

    /// As [`Quarter::run`], at a pace of one's own.
    ///
    /// # Errors
    /// As [`Quarter::run`].
    pub fn run_at(&self, pace: Pace, mut watch: impl FnMut(f64) -> bool) -> Result<Run, Stopped> {
        let road_m = self.drive.under(0.0, 0.0).0;
        let start = [road_m, 0.0, road_m, 0.0];
        let mut track = Track::with_room((pace.until_s / pace.every_s) as usize + 2);
        let (mut last, mut work) = (start, Work::default());
        let steps = ode::follow(self, &start, pace, |time_s, state| {
            work.add(self.note(time_s, state, &mut track), pace.every_s);
            last = *state;
            run::told(&mut watch, track.road_m.len(), time_s / pace.until_s)
        })?;
        let lasted_s = (track.road_m.len() - 1) as f64 * pace.every_s;
        let held_j = self.held_j(lasted_s, &last) - self.held_j(0.0, &start);
        Ok(Run::of(vec![track], &self.drive, pace, steps, work.held(held_j)))
    }

    /// Notes a sample; returns power into the damper and from the road, W.
    fn note(&self, time_s: f64, state: &State, track: &mut Track) -> (f64, f64) {
        let [body_m, body_v, wheel_m, wheel_v] = *state;
        let (road_m, road_v) = self.drive.under(time_s, 0.0);
        let forces = self.wheel.forces(wheel_m - body_m, wheel_v - body_v, road_m - wheel_m);
        track.add(road_m, wheel_m, body_m, forces.on_body_n * self.per_sprung, forces.tyre_n);
        (forces.lost_w, forces.tyre_n * road_v)
    }

    /// Work of motion, springs and height against standing still on a level road, J.
    fn held_j(&self, time_s: f64, state: &State) -> f64 {
        let [body_m, body_v, wheel_m, wheel_v] = *state;
        let road_m = self.drive.under(time_s, 0.0).0;
        let moving = 0.5 * (self.wheel.sprung.si() * body_v * body_v + self.wheel.unsprung.si() * wheel_v * wheel_v);
        // The weights' work in travel and squeeze is inside `stored_j`; what is left of it goes with the road's height.
        moving + self.wheel.stored_j(wheel_m - body_m, road_m - wheel_m) + self.wheel.standing_load().si() * road_m
    }
}
