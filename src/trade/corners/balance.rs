//! The whole vehicle in balance: seven equations, solved by Newton's steps.

use super::{Across, AxlePair, Four};
use crate::base::math::linear;
use crate::base::units::G_M_PER_S2;

/// Unknowns: heave, pitch and roll of the body, then how far down each hub goes.
const UNKNOWN: usize = 7;
type Unknowns = [f64; UNKNOWN];
/// Balanced to this share of the weight.
const BALANCED: f64 = 1e-11;
/// Good enough where rounding ends before that.
const NEAR_ENOUGH: f64 = 1e-9;
const STEPS: usize = 30;
const HALVINGS: usize = 10;

/// How the vehicle stood on the scales.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WeighIn {
    /// Under each wheel, N.
    pub loads_n: Four<f64>,
    /// Wheel travel there from the reference height, m.
    pub travel_m: Four<f64>,
}

/// What is carried.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Carried {
    /// Weight of each wheel with its parts, N.
    pub unsprung_n: Four<f64>,
    /// On the body, N.
    pub force_n: f64,
    /// Moment of it about the front axle, N·m, + with the tail down.
    pub tail_down_nm: f64,
    /// Moment of it about the middle, N·m, + with the right side down.
    pub right_down_nm: f64,
    /// What the weight shifts to the side adds for each rad of roll from the weigh-in: mass times height over the roll
    /// axis, kg·m; 0 where it is left out.
    pub over_axis_kg_m: f64,
}

/// A vehicle on its wheels.
#[derive(Debug, Clone, Copy)]
pub struct Vehicle<'a> {
    /// Front, rear.
    pub axles: [AxlePair<'a>; 2],
    /// Between them, m.
    pub wheelbase_m: f64,
    /// How it stood when it was weighed: heave, pitch, roll and hubs count from there.
    pub weigh_in: WeighIn,
}

/// Equilibrium of the vehicle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stand {
    /// Under each wheel, N.
    pub loads_n: Four<f64>,
    /// Wheel travel from the reference height, m.
    pub travel_m: Four<f64>,
    /// How far each hub went down from the weigh-in, m.
    pub hubs_down_m: Four<f64>,
    /// Roll from the weigh-in, rad, + right side down.
    pub roll_rad: f64,
    /// Pitch from the weigh-in, rad, + tail down.
    pub pitch_rad: f64,
    /// Wheels that are off the ground.
    pub lifted: Four<bool>,
}

impl Stand {
    /// How far the body went down over the floor at each corner, from the weigh-in, m.
    pub fn body_down_m(&self, weigh_in: &WeighIn) -> Four<f64> {
        std::array::from_fn(|i| self.travel_m[i] - weigh_in.travel_m[i] + self.hubs_down_m[i])
    }
}

/// What is out of balance, each in N, and how it goes with each unknown.
struct Out {
    rest: Unknowns,
    slope: [Unknowns; UNKNOWN],
}

impl Out {
    fn size(&self) -> f64 {
        self.rest.iter().fold(0.0, |most: f64, r| if r.is_nan() { f64::INFINITY } else { most.max(r.abs()) })
    }
}

impl Carried {
    /// What stood on the scales: the wheels as read, the unsprung weights taken off. Source `DERIVED` (statics).
    pub fn on_scales(loads_n: Four<f64>, unsprung_n: Four<f64>, places: &Four<(f64, f64)>) -> Self {
        let body: Four<f64> = std::array::from_fn(|i| loads_n[i] - unsprung_n[i]);
        let moment = |of: fn(&(f64, f64)) -> f64| body.iter().zip(places).map(|(n, p)| n * of(p)).sum();
        Carried {
            unsprung_n,
            force_n: body.iter().sum(),
            tail_down_nm: moment(|p| p.0),
            right_down_nm: moment(|p| p.1),
            over_axis_kg_m: 0.0,
        }
    }

    /// The same with a force more on the body at a place.
    #[must_use]
    pub fn with(self, force_n: f64, x_m: f64, y_m: f64) -> Self {
        Carried {
            force_n: self.force_n + force_n,
            tail_down_nm: self.tail_down_nm + force_n * x_m,
            right_down_nm: self.right_down_nm + force_n * y_m,
            ..self
        }
    }
}

/// Where the wheels are: behind the front axle, right of the middle, m. Source `DERIVED` (definition).
pub fn places(across: &[Across; 2], wheelbase_m: f64) -> Four<(f64, f64)> {
    let [front, rear] = across.map(|axle| axle.track_m / 2.0);
    [(0.0, -front), (0.0, front), (wheelbase_m, -rear), (wheelbase_m, rear)]
}

impl Vehicle<'_> {
    fn places(&self) -> Four<(f64, f64)> {
        places(&self.axles.map(|axle| axle.across), self.wheelbase_m)
    }

    /// Where forces and moments balance: Newton's steps with a line search, from the weigh-in. Tyres only push; a wheel
    /// that hangs is held by its spring and at full droop.
    ///
    /// `None` where nothing balances: it would turn over, or a wheel hangs and its droop is not known. Source `DERIVED`.
    pub fn stand(&self, carried: &Carried) -> Option<Stand> {
        let least_n = carried.force_n.abs().max(1.0);
        let mut at: Unknowns = [0.0; UNKNOWN];
        let mut out = self.out_of_balance(carried, &at);
        for _ in 0..STEPS {
            if out.size() <= BALANCED * least_n {
                break;
            }
            let step = linear::solve(out.slope, out.rest)?;
            let Some((next, better)) = self.along(carried, &at, &step, out.size()) else { break };
            (at, out) = (next, better);
        }
        (out.size() <= NEAR_ENOUGH * least_n).then(|| self.found(&at))
    }

    /// The longest of ever shorter steps that brings it nearer.
    fn along(&self, carried: &Carried, at: &Unknowns, step: &Unknowns, size: f64) -> Option<(Unknowns, Out)> {
        let mut share = 1.0;
        for _ in 0..HALVINGS {
            let next: Unknowns = std::array::from_fn(|i| at[i] - share * step[i]);
            let out = self.out_of_balance(carried, &next);
            if out.size() < size {
                return Some((next, out));
            }
            share *= 0.5;
        }
        None
    }

    fn travel_m(&self, at: &Unknowns) -> Four<f64> {
        let places = self.places();
        let [heave, pitch, roll, hubs @ ..] = at;
        std::array::from_fn(|i| self.weigh_in.travel_m[i] + heave + pitch * places[i].0 + roll * places[i].1 - hubs[i])
    }

    fn load_n(&self, i: usize, hub_down_m: f64) -> f64 {
        (self.weigh_in.loads_n[i] + self.axles[i / 2].across.tyre_n_per_m * hub_down_m).max(0.0)
    }

    fn found(&self, at: &Unknowns) -> Stand {
        let [_, pitch_rad, roll_rad, hubs_down_m @ ..] = *at;
        let loads_n: Four<f64> = std::array::from_fn(|i| self.load_n(i, hubs_down_m[i]));
        let lifted = loads_n.map(|n| n <= 0.0);
        Stand { loads_n, travel_m: self.travel_m(at), hubs_down_m, roll_rad, pitch_rad, lifted }
    }

    /// Body: ΣF, ΣF x, ΣF y; each hub: tyre less unsprung weight less what goes up into the body. Moments are expressed
    /// as forces at the wheelbase and at half a track, so that all seven weigh alike.
    fn out_of_balance(&self, carried: &Carried, at: &Unknowns) -> Out {
        let (places, travel_m) = (self.places(), self.travel_m(at));
        let arms_m = [1.0, self.wheelbase_m, 0.25 * (self.axles[0].across.track_m + self.axles[1].across.track_m)];
        let aside_nm_per_rad = carried.over_axis_kg_m * G_M_PER_S2;
        let on_body = [carried.force_n, carried.tail_down_nm, carried.right_down_nm + aside_nm_per_rad * at[2]];
        let mut out = Out { rest: [0.0; UNKNOWN], slope: [[0.0; UNKNOWN]; UNKNOWN] };
        for row in 0..3 {
            out.rest[row] = -on_body[row] / arms_m[row];
        }
        out.slope[2][2] = -aside_nm_per_rad / arms_m[2];
        for (n, axle) in self.axles.iter().enumerate() {
            let (forces_n, rates) = axle.at_wheels([travel_m[2 * n], travel_m[2 * n + 1]]);
            for side in 0..2 {
                let wheel = 2 * n + side;
                // How this force goes with each unknown: through the travel of either wheel.
                let mut goes: Unknowns = [0.0; UNKNOWN];
                for other in 0..2 {
                    let (rate, place) = (rates[side][other], places[2 * n + other]);
                    goes[0] += rate;
                    goes[1] += rate * place.0;
                    goes[2] += rate * place.1;
                    goes[3 + 2 * n + other] -= rate;
                }
                let levers = [1.0, places[wheel].0, places[wheel].1];
                for row in 0..3 {
                    let lever = levers[row] / arms_m[row];
                    out.rest[row] += forces_n[side] * lever;
                    out.slope[row].iter_mut().zip(&goes).for_each(|(slope, goes)| *slope += goes * lever);
                }
                let row = 3 + wheel;
                let load_n = self.load_n(wheel, at[row]);
                out.rest[row] = load_n - carried.unsprung_n[wheel] - forces_n[side];
                out.slope[row].iter_mut().zip(&goes).for_each(|(slope, goes)| *slope -= goes);
                if load_n > 0.0 {
                    out.slope[row][row] += axle.across.tyre_n_per_m;
                }
            }
        }
        out
    }
}
