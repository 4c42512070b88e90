//! Many springs on one axle, or one spring under many draws, worked out side by side.
//!
//! What is nearly always so (one coil that carries, with rubber and gas) goes through plain loops over arrays of one
//! length, which the compiler turns into work on several numbers at once. A lane in which something else carries (a
//! bag, a helper coil, the bump stop, a coil that is loose) is judged alone by [`super::judge::Bench`]. Both give the
//! same: a test holds them together.

use std::f64::consts::TAU;

use super::found::{ABREAST, Found, LANES, Lane, NONE};
use super::judge::{Bought, Candidate, Limit};
use crate::base::units::{Force, Length, Quantity};
use crate::solve::ground::{Ground, Wish};

/// Newton's steps; each doubles the digits.
const STEPS: usize = 3;

/// A lane whose last step was longer is judged alone, m; what is left over after it is as good as its square.
const CLOSE_M: f64 = 1e-6;

/// What presses on the corner, N, and the mass that swings, kg.
#[derive(Clone)]
struct Load {
    load_n: Lane,
    sprung_kg: Lane,
}

/// The ground of each lane, number by number.
pub struct Lanes {
    wish: Wish,
    length: [Lane; 4],
    /// Gas force times the damper's c1, 2 c2, 3 c3: what the gas carries and its slope.
    gas: [Lane; 3],
    rubber: Lane,
    neutral_m: Lane,
    wanted_m: Lane,
    at_wanted_m: Lane,
    /// Motion ratio at the wanted height.
    ratio: Lane,
    needed_n: Lane,
    gap_m: Lane,
    at_metal_m: Lane,
    at_droop_m: Lane,
    low_hz: Lane,
    high_hz: Lane,
    loads: Vec<Load>,
    stop_carries: bool,
    plain: bool,
}

/// A spring for each lane; NaN for what is not known of it.
#[derive(Clone)]
pub struct Springs {
    /// Rate, N/m.
    pub rate: Lane,
    /// Free length, m.
    pub free_m: Lane,
    solid_m: Lane,
    pa_per_n: Lane,
    allowed_pa: Lane,
    greatest_n: Lane,
    inside_m: Lane,
    outside_m: Lane,
}

impl Default for Springs {
    fn default() -> Self {
        Springs {
            rate: NONE,
            free_m: NONE,
            solid_m: NONE,
            pa_per_n: NONE,
            allowed_pa: NONE,
            greatest_n: NONE,
            inside_m: NONE,
            outside_m: NONE,
        }
    }
}

impl Springs {
    /// The same spring in every lane, each as it was bought.
    pub fn drawn(&mut self, c: &Candidate, bought: &[Bought; LANES]) {
        let [pa_per_n, allowed_pa] = c.stress.unwrap_or([f64::NAN; 2]);
        for (i, bought) in bought.iter().enumerate() {
            let drawn = c.drawn(*bought);
            (self.rate[i], self.free_m[i]) = (drawn.rate_n_per_m, drawn.free_m.unwrap_or(f64::NAN));
        }
        self.solid_m = [c.solid_m.unwrap_or(f64::NAN); LANES];
        (self.pa_per_n, self.allowed_pa) = ([pa_per_n; LANES], [allowed_pa; LANES]);
        self.greatest_n = [c.greatest_n.unwrap_or(f64::NAN); LANES];
        (self.inside_m, self.outside_m) =
            ([c.inside_m.unwrap_or(f64::NAN); LANES], [c.outside_m.unwrap_or(f64::NAN); LANES]);
    }

    /// Puts a spring into one lane.
    pub fn put(&mut self, i: usize, c: &Candidate) {
        let [pa_per_n, allowed_pa] = c.stress.unwrap_or([f64::NAN; 2]);
        (self.rate[i], self.free_m[i]) = (c.rate_n_per_m, c.free_m.unwrap_or(f64::NAN));
        self.solid_m[i] = c.solid_m.unwrap_or(f64::NAN);
        (self.pa_per_n[i], self.allowed_pa[i]) = (pa_per_n, allowed_pa);
        self.greatest_n[i] = c.greatest_n.unwrap_or(f64::NAN);
        (self.inside_m[i], self.outside_m[i]) = (c.inside_m.unwrap_or(f64::NAN), c.outside_m.unwrap_or(f64::NAN));
    }
}

/// The work of one [`Lanes::judge`], to be compiled once for each width of arithmetic.
struct Judging<'a> {
    lanes: &'a Lanes,
    springs: &'a Springs,
    cut_m: Option<f64>,
    found: &'a mut Found,
}

impl pulp::NullaryFnOnce for Judging<'_> {
    type Output = ();

    #[inline(always)]
    fn call(self) {
        self.lanes.judge_plain(self.springs, self.cut_m, self.found);
    }
}

impl Lanes {
    /// Lanes without a ground yet.
    pub fn new(wish: &Wish) -> Box<Self> {
        Box::new(Lanes {
            wish: wish.clone(),
            length: [NONE; 4],
            gas: [NONE; 3],
            rubber: NONE,
            neutral_m: NONE,
            wanted_m: NONE,
            at_wanted_m: NONE,
            ratio: NONE,
            needed_n: NONE,
            gap_m: NONE,
            at_metal_m: NONE,
            at_droop_m: NONE,
            low_hz: NONE,
            high_hz: NONE,
            loads: Vec::new(),
            stop_carries: false,
            plain: true,
        })
    }

    /// Makes ready for other grounds.
    pub fn clear(&mut self) {
        (self.stop_carries, self.plain) = (false, true);
    }

    /// Puts a ground into lanes; all grounds are of one job.
    pub fn put(&mut self, into: std::ops::Range<usize>, ground: &Ground) {
        let curve = &ground.curve;
        let length_m = |z: f64| curve.spring_length.length(Length::from_si(z)).si();
        // A linkage is no cubic: its grounds are judged one by one.
        let cubics = curve.spring_length.coefficients().zip(curve.damper_length.coefficients());
        let (of_length, of_damper) = cubics.unwrap_or_default();
        let load = Force::from_si(ground.load.load_n);
        let needed_n = curve.spring_force_for(load, Length::from_si(ground.wanted_m)).si();
        let at_metal_m = ground.metal_m.map_or(f64::NAN, length_m);
        let at_droop_m = ground.droop_m.map_or(f64::NAN, |z| length_m(-z));
        let at_wanted_m = length_m(ground.wanted_m);
        let ratio = curve.spring_length.ratio(Length::from_si(ground.wanted_m)).si();
        self.loads.resize(1 + ground.others.len(), Load { load_n: NONE, sprung_kg: NONE });
        for i in into {
            self.length.iter_mut().zip(of_length).for_each(|(lane, c)| lane[i] = c);
            let [_, d1, d2, d3] = of_damper;
            let gas = [d1, 2.0 * d2, 3.0 * d3].map(|d| -curve.gas_force_n * d);
            self.gas.iter_mut().zip(gas).for_each(|(lane, g)| lane[i] = g);
            (self.rubber[i], self.neutral_m[i]) = (curve.parallel_rate_n_per_m, curve.parallel_neutral_m);
            (self.wanted_m[i], self.at_wanted_m[i], self.needed_n[i]) = (ground.wanted_m, at_wanted_m, needed_n);
            self.ratio[i] = ratio;
            self.gap_m[i] = curve.stop.as_ref().map_or(f64::NAN, |s| s.gap_m);
            (self.at_metal_m[i], self.at_droop_m[i]) = (at_metal_m, at_droop_m);
            [self.low_hz[i], self.high_hz[i]] = ground.frequency_hz;
            for (to, from) in self.loads.iter_mut().zip(std::iter::once(&ground.load).chain(&ground.others)) {
                (to.load_n[i], to.sprung_kg[i]) = (from.load_n, from.sprung_kg);
            }
        }
        self.stop_carries |= curve.stop.as_ref().is_some_and(|s| s.carries());
        self.plain &= cubics.is_some() && ground.helper.is_none() && curve.helper.is_none() && ground.lengths_known;
    }

    /// Wheel travel at the wanted height, m.
    pub fn wanted_m(&self) -> &Lane {
        &self.wanted_m
    }

    /// Judges the spring of every lane, on the spacer that was cut before, m, else on the one that suits each lane best;
    /// with whatever width of arithmetic this processor has: the numbers are the same.
    pub fn judge(&self, springs: &Springs, cut_m: Option<f64>, found: &mut Found) {
        found.settled = [self.plain; LANES];
        if self.plain {
            pulp::Arch::new().dispatch(Judging { lanes: self, springs, cut_m, found });
        }
    }

    #[inline(always)]
    fn judge_plain(&self, springs: &Springs, cut_m: Option<f64>, found: &mut Found) {
        match cut_m {
            Some(cut_m) => on_cut(springs, cut_m, found),
            None => self.seat(springs, found),
        }
        found.at_m = self.wanted_m;
        self.settle(&self.loads[0], springs, found);
        found.travel_m = found.at_m;
        for i in 0..LANES {
            let f = (found.wheel_rate[i] / self.loads[0].sprung_kg[i]).sqrt() / TAU;
            found.frequency_hz[i] = f;
            found.margins[Limit::Slow as usize][i] = f - self.low_hz[i];
            found.margins[Limit::Quick as usize][i] = self.high_hz[i] - f;
            let per_m = springs.rate[i] * self.ratio[i] / found.wheel_rate[i];
            found.margins[Limit::Height as usize][i] =
                self.wish.height_m - (found.travel_m[i] - self.wanted_m[i]).abs() + found.left_m[i] * per_m;
            found.margins[Limit::Stop as usize][i] = self.gap_m[i] - found.travel_m[i];
        }
        self.other_loads(springs, found);
        self.ends(springs, found);
        if self.stop_carries {
            // Where the stop is touched it carries, too.
            for i in 0..LANES {
                let room_m = found.margins[Limit::Stop as usize][i];
                found.settled[i] &= room_m.is_nan() | (room_m >= 0.0);
            }
        }
    }

    /// The spacer within reach, and the free length upon it.
    #[inline(always)]
    fn seat(&self, springs: &Springs, found: &mut Found) {
        let (down, up) = (-self.wish.seat_down_m, self.wish.spacer_m);
        for i in 0..LANES {
            let wanted_free = self.at_wanted_m[i] + self.needed_n[i] / springs.rate[i];
            let wanted = wanted_free - springs.free_m[i];
            let spacer = wanted.max(down).min(up);
            found.left_m[i] = (up - wanted).min(wanted - down).max(0.0);
            found.spacer_m[i] = spacer;
            found.seat_m[i] = springs.free_m[i] + spacer;
        }
    }

    /// Equilibrium of a load: Newton's steps from where the lanes are.
    #[inline(always)]
    fn settle(&self, load: &Load, springs: &Springs, found: &mut Found) {
        for first in (0..LANES).step_by(ABREAST) {
            let of = |lane: &Lane| -> [f64; ABREAST] { std::array::from_fn(|i| lane[first + i]) };
            let [c0, c1, c2, c3] = [0, 1, 2, 3].map(|c| of(&self.length[c]));
            let [g0, g1, g2] = [0, 1, 2].map(|c| of(&self.gas[c]));
            let (rubber, neutral, load_n) = (of(&self.rubber), of(&self.neutral_m), of(&load.load_n));
            let (k, free, mut z) = (of(&springs.rate), of(&found.seat_m), of(&found.at_m));
            let (mut step, mut rate, mut squeeze) = ([0.0; ABREAST], [0.0; ABREAST], [0.0; ABREAST]);
            for _ in 0..STEPS {
                for i in 0..ABREAST {
                    squeeze[i] = free[i] - (c0[i] + z[i] * (c1[i] + z[i] * (c2[i] + z[i] * c3[i])));
                    let ratio = -c1[i] - z[i] * (2.0 * c2[i] + z[i] * 3.0 * c3[i]);
                    let slope = -2.0 * c2[i] - 6.0 * c3[i] * z[i];
                    let spring_n = k[i] * squeeze[i];
                    let gas_n = g0[i] + z[i] * (g1[i] + z[i] * g2[i]);
                    let force_n = spring_n * ratio + rubber[i] * (z[i] - neutral[i]) + gas_n;
                    rate[i] = k[i] * ratio * ratio + spring_n * slope + rubber[i] + (g1[i] + 2.0 * g2[i] * z[i]);
                    step[i] = (load_n[i] - force_n) / rate[i];
                    z[i] += step[i];
                }
                if step.iter().fold(0.0, |most, s| if s.abs() > most { s.abs() } else { most }) <= CLOSE_M {
                    break;
                }
            }
            for i in 0..ABREAST {
                (found.at_m[first + i], found.wheel_rate[first + i]) = (z[i], rate[i]);
                found.settled[first + i] &= (step[i].abs() <= CLOSE_M) & (rate[i] > 0.0) & (squeeze[i] > 0.0);
            }
        }
    }

    #[inline(always)]
    fn other_loads(&self, springs: &Springs, found: &mut Found) {
        found.margins[Limit::Laden as usize] = [f64::NAN; LANES];
        let (less, more) = (1.0 - self.wish.laden, 1.0 + self.wish.laden);
        for load in self.loads.iter().skip(1) {
            found.at_m = found.travel_m;
            self.settle(load, springs, found);
            for i in 0..LANES {
                let f = (found.wheel_rate[i] / load.sprung_kg[i]).sqrt() / TAU;
                let room = (f - self.low_hz[i] * less).min(self.high_hz[i] * more - f);
                let laden = &mut found.margins[Limit::Laden as usize][i];
                *laden = laden.min(room);
                let stop = &mut found.margins[Limit::Stop as usize][i];
                *stop = if self.gap_m[i].is_nan() { f64::NAN } else { stop.min(self.gap_m[i] - found.at_m[i]) };
            }
        }
    }

    /// Bind, seat, stress, load and diameters.
    #[inline(always)]
    fn ends(&self, springs: &Springs, found: &mut Found) {
        let (inside_m, outside_m) = (self.wish.inside_m.unwrap_or(f64::NAN), self.wish.outside_m.unwrap_or(f64::NAN));
        let [.., bind, seat, stress, load, inside, outside] = &mut found.margins;
        for i in 0..LANES {
            let solid = springs.solid_m[i] + found.spacer_m[i];
            bind[i] = self.at_metal_m[i] - solid - self.wish.bind_m;
            seat[i] = found.seat_m[i] - self.at_droop_m[i] - self.wish.seat_m;
            // A coil gets no shorter than solid; one without a solid length goes on.
            let shortest = if solid > self.at_metal_m[i] { solid } else { self.at_metal_m[i] };
            let squeeze = found.seat_m[i] - shortest;
            let force_n = springs.rate[i] * if squeeze < 0.0 { 0.0 } else { squeeze };
            stress[i] = springs.allowed_pa[i] - springs.pa_per_n[i] * force_n;
            load[i] = springs.greatest_n[i] - force_n;
            inside[i] = springs.inside_m[i] - inside_m;
            outside[i] = outside_m - springs.outside_m[i];
        }
    }
}

/// Every lane on the same spacer; the seat has nothing left.
#[inline(always)]
fn on_cut(springs: &Springs, cut_m: f64, found: &mut Found) {
    for i in 0..LANES {
        (found.spacer_m[i], found.left_m[i]) = (cut_m, 0.0);
        found.seat_m[i] = springs.free_m[i] + cut_m;
    }
}
