//! Front and rear wheel of one side with the body between them, over a road that the rear meets later.

use super::corner::{Forces, Wheel};
use super::run::{self, Drive, Run, Stopped, Track, Work};
use crate::base::math::ode::{self, Pace, System};
use crate::base::units::{Length, Quantity};

/// Body height and speed, pitch (nose up) and its speed, front wheel height and speed, rear wheel height and speed.
pub type State = [f64; 8];

/// One side of a vehicle on its way. Its body's mass is what both springs carry.
#[derive(Debug, Clone, Copy)]
pub struct Half<'a> {
    wheels: [&'a Wheel; 2],
    drive: Drive<'a>,
    mass_kg: f64,
    inertia_kg_m2: f64,
    per_unsprung: [f64; 2],
    /// Places of the axles ahead of the centre of gravity, m: a, −b.
    ahead_m: [f64; 2],
    /// How far the axles are behind the first, m.
    behind_m: [f64; 2],
}

impl<'a> Half<'a> {
    /// Front wheel and rear wheel on this road. κ², m², is the pitch radius squared; `None` takes a·b, with which front and
    /// rear do not disturb each other.
    pub fn new(wheels: [&'a Wheel; 2], wheelbase: Length, radius_squared_m2: Option<f64>, drive: Drive<'a>) -> Self {
        let [front, rear] = wheels.map(|wheel| wheel.sprung.si());
        let (mass_kg, wheelbase_m) = (front + rear, wheelbase.si());
        let a_m = wheelbase_m * rear / mass_kg;
        let b_m = wheelbase_m - a_m;
        let inertia_kg_m2 = mass_kg * radius_squared_m2.unwrap_or(a_m * b_m);
        let per_unsprung = wheels.map(|wheel| 1.0 / wheel.unsprung.si());
        Half { wheels, drive, mass_kg, inertia_kg_m2, per_unsprung, ahead_m: [a_m, -b_m], behind_m: [0.0, wheelbase_m] }
    }

    /// Road height and speed under both wheels, and the forces at them.
    #[inline]
    fn at(&self, time_s: f64, state: &State) -> [(f64, f64, Forces); 2] {
        [self.at_wheel(0, time_s, state), self.at_wheel(1, time_s, state)]
    }

    #[inline(always)]
    fn at_wheel(&self, i: usize, time_s: f64, state: &State) -> (f64, f64, Forces) {
        let [body_m, body_v, pitch, pitch_v, ..] = *state;
        let (road_m, road_v) = self.drive.under(time_s, self.behind_m[i]);
        let (above_m, above_v) = (body_m + self.ahead_m[i] * pitch, body_v + self.ahead_m[i] * pitch_v);
        let (wheel_m, wheel_v) = (state[4 + 2 * i], state[5 + 2 * i]);
        let forces = self.wheels[i].forces(wheel_m - above_m, wheel_v - above_v, road_m - wheel_m);
        (road_m, road_v, forces)
    }

    fn body_slopes(&self, at: &[(f64, f64, Forces); 2]) -> (f64, f64) {
        let [front_n, rear_n] = [at[0].2.on_body_n, at[1].2.on_body_n];
        let moment = self.ahead_m[0] * front_n + self.ahead_m[1] * rear_n;
        ((front_n + rear_n) / self.mass_kg, moment / self.inertia_kg_m2)
    }
}

impl System<8> for Half<'_> {
    fn slopes(&self, time_s: f64, state: &State, slopes: &mut State) {
        let at = self.at(time_s, state);
        let (lift, turn) = self.body_slopes(&at);
        let of_wheel = |i: usize| at[i].2.on_wheel_n * self.per_unsprung[i];
        *slopes = [state[1], lift, state[3], turn, state[5], of_wheel(0), state[7], of_wheel(1)];
    }
}

impl Half<'_> {
    /// Runs it; as [`super::quarter::Quarter::run`].
    ///
    /// # Errors
    /// [`Stopped`]: by the watch, or because the motion cannot be followed.
    pub fn run(&self, watch: impl FnMut(f64) -> bool) -> Result<Run, Stopped> {
        self.run_at(self.drive.pace(self.behind_m[1]), watch)
    }

    /// As [`Half::run`], at a pace of one's own.
    ///
    /// # Errors
    /// As [`Half::run`].
    pub fn run_at(&self, pace: Pace, mut watch: impl FnMut(f64) -> bool) -> Result<Run, Stopped> {
        let road_m = self.drive.under(0.0, 0.0).0;
        let start = [road_m, 0.0, 0.0, 0.0, road_m, 0.0, road_m, 0.0];
        let room = || Track::with_room((pace.until_s / pace.every_s) as usize + 2);
        let mut tracks = [room(), room()];
        let (mut last, mut work) = (start, Work::default());
        let steps = ode::follow(self, &start, pace, |time_s, state| {
            work.add(self.note(time_s, state, &mut tracks), pace.every_s);
            last = *state;
            run::told(&mut watch, tracks[0].road_m.len(), time_s / pace.until_s)
        })?;
        let lasted_s = (tracks[0].road_m.len() - 1) as f64 * pace.every_s;
        let held_j = self.held_j(lasted_s, &last) - self.held_j(0.0, &start);
        Ok(Run::of(tracks.into(), &self.drive, pace, steps, work.held(held_j)))
    }

    /// Notes a sample; returns power into the dampers and from the road, W.
    fn note(&self, time_s: f64, state: &State, tracks: &mut [Track; 2]) -> (f64, f64) {
        let at = self.at(time_s, state);
        let (lift, turn) = self.body_slopes(&at);
        for (i, track) in tracks.iter_mut().enumerate() {
            let above_m = state[0] + self.ahead_m[i] * state[2];
            let acceleration = lift + self.ahead_m[i] * turn;
            track.add(at[i].0, state[4 + 2 * i], above_m, acceleration, at[i].2.tyre_n);
        }
        (at[0].2.lost_w + at[1].2.lost_w, at[0].2.tyre_n * at[0].1 + at[1].2.tyre_n * at[1].1)
    }

    /// Work of motion, springs and height against standing still on a level road, J.
    fn held_j(&self, time_s: f64, state: &State) -> f64 {
        let body = 0.5 * (self.mass_kg * state[1] * state[1] + self.inertia_kg_m2 * state[3] * state[3]);
        let held_at = |i: usize| {
            let wheel = self.wheels[i];
            let road_m = self.drive.under(time_s, self.behind_m[i]).0;
            let (wheel_m, wheel_v) = (state[4 + 2 * i], state[5 + 2 * i]);
            let pressed_m = wheel_m - state[0] - self.ahead_m[i] * state[2];
            0.5 * wheel.unsprung.si() * wheel_v * wheel_v
                + wheel.stored_j(pressed_m, road_m - wheel_m)
                + wheel.standing_load().si() * road_m
        };
        body + held_at(0) + held_at(1)
    }
}
