//! Heights of a road along the way of a wheel.

use std::f64::consts::{FRAC_PI_2, PI, TAU};

use rand_distr::{Distribution, Uniform};
use rand_xoshiro::Xoshiro256PlusPlus;
use rand_xoshiro::rand_core::SeedableRng;

use super::class::{RoadClass, displacement_psd_m3};
use crate::base::math::spectrum;
use crate::base::units::{Length, Quantity};

/// Heights of a rough road are this far apart, m.
const ROUGH_SPACING_M: f64 = 0.05;
/// No wave shorter than this is in it, m: a tyre's contact patch spans it. Common practice, no source.
const SHORTEST_WAVE_M: f64 = 0.2;
/// Heights of an obstacle are this far apart, m.
const FINE_SPACING_M: f64 = 0.005;
/// A tyre rolls over a sharp edge within this way, m: about its contact patch. Common practice, no source.
const EDGE_M: f64 = 0.12;
/// Flat road ahead of an obstacle, m.
const AHEAD_M: f64 = 1.0;

/// A road, smooth between its heights (cubic, without a bend in its slope).
#[derive(Debug, Clone, PartialEq)]
pub struct Profile {
    spacing_m: f64,
    per_m: f64,
    /// Coefficients of each piece in the share of the way through it.
    pieces: Vec<[f64; 4]>,
    repeats: bool,
}

impl Profile {
    /// A rough road of a class, of this length, then over again; the same for the same seed.
    ///
    /// Σ √(2 G_d(n) Δn) cos(2π n x + φ) over all n = k/length up to 5 cycles a metre, with φ drawn evenly: every road of a
    /// class has the same spectrum, only its waves fall together otherwise. Source `R8608`; the sum of waves is common practice.
    pub fn rough(class: RoadClass, length: Length, seed: u64) -> Profile {
        let count = ((length.si() / ROUGH_SPACING_M).round() as usize).max(4);
        let length_m = count as f64 * ROUGH_SPACING_M;
        let mut random = Xoshiro256PlusPlus::seed_from_u64(seed);
        let turn = |r: &mut Xoshiro256PlusPlus| Uniform::new(0.0, TAU).map_or(0.0, |even| even.sample(r));
        let phases: Vec<f64> = (0..count / 2 + 1).map(|_| turn(&mut random)).collect();
        let line = |k: usize| {
            let per_m = k as f64 / length_m;
            let density = displacement_psd_m3(class.mean_m3(), per_m);
            (
                if per_m * SHORTEST_WAVE_M > 1.0 { 0.0 } else { (2.0 * density / length_m).sqrt() },
                phases[k],
                TAU * per_m,
            )
        };
        let heights_m = spectrum::from_lines(count, |k| (line(k).0, line(k).1));
        let slopes = spectrum::from_lines(count, |k| (line(k).0 * line(k).2, line(k).1 + FRAC_PI_2));
        let piece = |i: usize| {
            let next = (i + 1) % count;
            let rises_m = [slopes[i], slopes[next]].map(|slope| slope * ROUGH_SPACING_M);
            cubic(heights_m[i], heights_m[next], rises_m)
        };
        Self::of((0..count).map(piece).collect(), ROUGH_SPACING_M, true)
    }

    /// A hump of rounded shape, H/2 (1 − cos 2πx/λ), on a flat road; a hollow for H below zero.
    pub fn hump(height: Length, length: Length) -> Profile {
        let (h, l) = (height.si(), length.si());
        Self::flat_but(AHEAD_M + l, |x| {
            let on = (x - AHEAD_M) / l;
            if (0.0..=1.0).contains(&on) { 0.5 * h * (1.0 - (TAU * on).cos()) } else { 0.0 }
        })
    }

    /// A hole with sharp edges, as a tyre rolls over them: each edge is rounded over 0.12 m.
    pub fn hole(depth: Length, length: Length) -> Profile {
        let (d, l) = (depth.si(), length.si().max(2.0 * EDGE_M));
        let down = |x: f64| 0.5 * (1.0 - (PI * (x / EDGE_M).clamp(0.0, 1.0)).cos());
        Self::flat_but(AHEAD_M + l, |x| {
            let on = x - AHEAD_M;
            -d * (down(on) - down(on - l + EDGE_M))
        })
    }

    fn flat_but(until_m: f64, height_m: impl Fn(f64) -> f64) -> Profile {
        let count = (until_m / FINE_SPACING_M).ceil() as usize + 3;
        let heights_m: Vec<f64> = (0..count).map(|i| height_m(i as f64 * FINE_SPACING_M)).collect();
        Self::through(&heights_m, FINE_SPACING_M, false)
    }

    /// Through heights `spacing_m` apart, with the slope at each from its neighbours. `repeats`: the first follows the last;
    /// otherwise the road stays level before the first and behind the last.
    pub fn through(heights_m: &[f64], spacing_m: f64, repeats: bool) -> Profile {
        let n = heights_m.len() as isize;
        let height = |i: isize| {
            let i = if repeats { i.rem_euclid(n.max(1)) } else { i.clamp(0, n - 1) };
            heights_m.get(i as usize).copied().unwrap_or(0.0)
        };
        let piece = |i: isize| {
            let (a, b) = (height(i), height(i + 1));
            cubic(a, b, [0.5 * (b - height(i - 1)), 0.5 * (height(i + 2) - a)])
        };
        let count = if repeats { n } else { n - 1 };
        Self::of((0..count.max(0)).map(piece).collect(), spacing_m, repeats)
    }

    fn of(pieces: Vec<[f64; 4]>, spacing_m: f64, repeats: bool) -> Profile {
        Profile { spacing_m, per_m: 1.0 / spacing_m, pieces, repeats }
    }

    /// How long it is until it repeats, or until it stays level.
    pub fn length(&self) -> Length {
        Length::from_si(self.pieces.len() as f64 * self.spacing_m)
    }

    /// Height, m, and slope at a place.
    #[inline]
    pub fn at(&self, x_m: f64) -> (f64, f64) {
        let count = self.pieces.len();
        let mut place = x_m * self.per_m;
        if self.repeats && place >= count as f64 {
            place %= count as f64;
        }
        let whole = place.max(0.0) as usize;
        if let Some([a, b, c, d]) = self.pieces.get(whole)
            && place >= 0.0
        {
            let t = place - whole as f64;
            let height_m = a + t * (b + t * (c + t * d));
            return (height_m, (b + t * (2.0 * c + t * 3.0 * d)) * self.per_m);
        }
        // Level road, before the first height or behind the last.
        let ends =
            if place < 0.0 { self.pieces.first().map(|p| p[0]) } else { self.pieces.last().map(|p| p.iter().sum()) };
        (ends.unwrap_or(0.0), 0.0)
    }

    /// The pieces as (spacing, coefficients), for a check by another program.
    pub fn pieces(&self) -> (f64, &[[f64; 4]]) {
        (self.spacing_m, &self.pieces)
    }

    /// It begins again at its end.
    pub fn repeats(&self) -> bool {
        self.repeats
    }
}

/// From a height to the next, with what it would rise at the slope of either end.
fn cubic(from_m: f64, to_m: f64, [first_m, last_m]: [f64; 2]) -> [f64; 4] {
    let rise_m = to_m - from_m;
    [from_m, first_m, 3.0 * rise_m - 2.0 * first_m - last_m, first_m + last_m - 2.0 * rise_m]
}
