//! One free decay fitted: y(t) = e^(−σt)(A cos ω_d t + B sin ω_d t) + c₀ (+ c₁ t), by variable projection.
//!
//! For any σ and ω_d the rest is linear and solved by least squares, so that only two numbers are sought, by Gauss–Newton
//! steps that shorten until the residual falls. Method: Golub and Pereyra (from memory); checked against a general
//! nonlinear least-squares routine in tests.

use std::f64::consts::TAU;

use crate::base::math::spectrum::Complex64;
use crate::base::math::spread::Measured;

/// What was fitted.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fit {
    /// σ, 1/s.
    pub decay_per_s: f64,
    /// ω_d, rad/s.
    pub omega_rad_per_s: f64,
    /// A, B, c₀ and c₁ (0 without drift), in the unit of the samples.
    pub linear: [f64; 4],
    /// Undamped frequency √(σ² + ω_d²)/2π, Hz, with its ± from the residual.
    pub frequency_hz: Measured,
    /// Damping ratio σ/√(σ² + ω_d²), with its ± from the residual.
    pub damping: Measured,
    /// Scatter of the residual, in the unit of the samples.
    pub residual: f64,
}

impl Fit {
    /// The fitted motion so long after its first sample, s.
    pub fn at(&self, time_s: f64) -> f64 {
        let [a, b, level, drift] = self.linear;
        let (sin, cos) = (self.omega_rad_per_s * time_s).sin_cos();
        (-self.decay_per_s * time_s).exp() * (a * cos + b * sin) + level + drift * time_s
    }

    /// Size of the swing at the first sample.
    pub fn size(&self) -> f64 {
        self.linear[0].hypot(self.linear[1])
    }
}

/// Starts: this number of frequencies from 0.6 to 4 Hz, each with these damping ratios.
const FREQUENCIES: u32 = 22;
const RATIOS: [f64; 5] = [0.04, 0.1, 0.2, 0.3, 0.45];
/// Gauss–Newton ends after this number of steps, or when a step changes nothing.
const STEPS: usize = 40;

/// Fits a decay; `with_drift` for displacements. `None` for too few samples, or when no decay fits: a frequency outside
/// 0.5 to 5 Hz, or a motion that grows.
pub fn fit(samples: &[f64], every_s: f64, with_drift: bool) -> Option<Fit> {
    let columns = if with_drift { 4 } else { 3 };
    if samples.len() < columns + 6 {
        return None;
    }
    let problem = Problem { samples, every_s, columns };
    let mut best = problem.start()?;
    for _ in 0..STEPS {
        let Some(next) = problem.step(&best) else { break };
        let moved = ((next.at.0 - best.at.0) / best.at.1).hypot(next.at.1 / best.at.1 - 1.0);
        best = next;
        if moved < 1e-10 {
            break;
        }
    }
    problem.finish(&best)
}

struct Problem<'a> {
    samples: &'a [f64],
    every_s: f64,
    columns: usize,
}

/// A place: σ and ω_d, the linear part there, the sum of squares left.
#[derive(Clone, Copy)]
struct Place {
    at: (f64, f64),
    linear: [f64; 4],
    squares: f64,
}

impl Problem<'_> {
    /// Columns at every sample: e^(−σt) cos, e^(−σt) sin, 1, t.
    fn rows(&self, (sigma, omega): (f64, f64)) -> impl Iterator<Item = (f64, [f64; 4], f64)> + '_ {
        let turn = Complex64::new(-sigma * self.every_s, omega * self.every_s).exp();
        let mut now = Complex64::new(1.0, 0.0);
        self.samples.iter().enumerate().map(move |(i, y)| {
            let time_s = i as f64 * self.every_s;
            let row = [now.re, now.im, 1.0, time_s];
            now *= turn;
            (time_s, row, *y)
        })
    }

    /// The best linear part at a place.
    fn place(&self, at: (f64, f64)) -> Option<Place> {
        let n = self.columns;
        let (mut normal, mut right) = ([[0.0; 4]; 4], [0.0; 4]);
        for (_, row, y) in self.rows(at) {
            for i in 0..n {
                right[i] += row[i] * y;
                for j in 0..=i {
                    normal[i][j] += row[i] * row[j];
                }
            }
        }
        let linear = solve(&normal, &right, n)?;
        let off = |(_, row, y): (f64, [f64; 4], f64)| y - (0..n).map(|i| row[i] * linear[i]).sum::<f64>();
        let squares = self.rows(at).map(|r| off(r).powi(2)).sum::<f64>();
        squares.is_finite().then_some(Place { at, linear, squares })
    }

    fn start(&self) -> Option<Place> {
        let each = (0..FREQUENCIES).flat_map(|i| RATIOS.map(|ratio| (0.6 * 1.0945_f64.powi(i as i32), ratio)));
        let at = |(hz, ratio): (f64, f64)| (ratio * TAU * hz, (1.0 - ratio * ratio).sqrt() * TAU * hz);
        each.filter_map(|s| self.place(at(s))).min_by(|a, b| a.squares.total_cmp(&b.squares))
    }

    /// JᵀJ and Jᵀr of σ and ω_d, the linear part eliminated: J = D − Φ(ΦᵀΦ)⁻¹ΦᵀD.
    fn normal(&self, place: &Place) -> Option<([f64; 3], [f64; 2])> {
        let n = self.columns;
        let (mut normal, mut cross) = ([[0.0; 4]; 4], [[0.0; 4]; 2]);
        let (mut own, mut right) = ([0.0; 3], [0.0; 2]);
        let [a, b, ..] = place.linear;
        for (time_s, row, y) in self.rows(place.at) {
            let slopes = [-time_s * (a * row[0] + b * row[1]), time_s * (b * row[0] - a * row[1])];
            let off = y - (0..n).map(|i| row[i] * place.linear[i]).sum::<f64>();
            for i in 0..n {
                (0..=i).for_each(|j| normal[i][j] += row[i] * row[j]);
                (0..2).for_each(|s| cross[s][i] += row[i] * slopes[s]);
            }
            own = [own[0] + slopes[0] * slopes[0], own[1] + slopes[0] * slopes[1], own[2] + slopes[1] * slopes[1]];
            right = [right[0] + slopes[0] * off, right[1] + slopes[1] * off];
        }
        let solved = [solve(&normal, &cross[0], n)?, solve(&normal, &cross[1], n)?];
        let less = |i: usize, j: usize| (0..n).map(|k| cross[i][k] * solved[j][k]).sum::<f64>();
        Some(([own[0] - less(0, 0), own[1] - less(0, 1), own[2] - less(1, 1)], right))
    }

    /// One step, shortened until the squares do not grow; `None` when none is short enough.
    fn step(&self, from: &Place) -> Option<Place> {
        let ([ss, so, oo], [s, o]) = self.normal(from)?;
        let determinant = ss * oo - so * so;
        let step = ((oo * s - so * o) / determinant, (ss * o - so * s) / determinant);
        let shortened = (0..12).map(|halved| 0.5_f64.powi(halved));
        let to = |share: f64| (from.at.0 + share * step.0, from.at.1 + share * step.1);
        let fine = |at: &(f64, f64)| at.0.is_finite() && at.1 > 0.5 && at.1 < 60.0 && at.0.abs() < 60.0;
        shortened.map(to).filter(fine).filter_map(|at| self.place(at)).find(|p| p.squares <= from.squares)
    }

    fn finish(&self, place: &Place) -> Option<Fit> {
        const SLOWEST_HZ: f64 = 0.5;
        const FASTEST_HZ: f64 = 5.0;
        let ([ss, so, oo], _) = self.normal(place)?;
        let spare = (self.samples.len() - self.columns - 2) as f64;
        let variance = place.squares / spare / (ss * oo - so * so);
        let (sigma, omega) = place.at;
        let undamped = sigma.hypot(omega);
        let (ratio, hz) = (sigma / undamped, undamped / TAU);
        // Covariance of σ and ω_d, seen along two slopes.
        let u = |by_sigma: f64, by_omega: f64| {
            let square = oo * by_sigma.powi(2) - 2.0 * so * by_sigma * by_omega + ss * by_omega.powi(2);
            (variance * square).max(0.0).sqrt()
        };
        let u_hz = u(sigma / undamped, omega / undamped) / TAU;
        let u_ratio = u(omega.powi(2), -sigma * omega) / undamped.powi(3);
        let is_decay = (SLOWEST_HZ..=FASTEST_HZ).contains(&hz) && ratio > -0.02 && ratio < 0.8;
        (is_decay && u_hz.is_finite() && u_ratio.is_finite()).then_some(Fit {
            decay_per_s: sigma,
            omega_rad_per_s: omega,
            linear: place.linear,
            frequency_hz: Measured { value: hz, u: u_hz },
            damping: Measured { value: ratio, u: u_ratio },
            residual: (place.squares / spare).sqrt(),
        })
    }
}

/// Solves normal equations given by their lower triangle, by Cholesky's factors; `None` when they are singular.
fn solve(normal: &[[f64; 4]; 4], right: &[f64; 4], n: usize) -> Option<[f64; 4]> {
    let mut l = [[0.0; 4]; 4];
    for i in 0..n {
        for j in 0..=i {
            let rest = normal[i][j] - (0..j).map(|k| l[i][k] * l[j][k]).sum::<f64>();
            l[i][j] = if i == j { rest.sqrt() } else { rest / l[j][j] };
        }
        if l[i][i].is_nan() || l[i][i] <= 0.0 {
            return None;
        }
    }
    let mut x = *right;
    for i in 0..n {
        x[i] = (x[i] - (0..i).map(|k| l[i][k] * x[k]).sum::<f64>()) / l[i][i];
    }
    for i in (0..n).rev() {
        x[i] = (x[i] - (i + 1..n).map(|k| l[k][i] * x[k]).sum::<f64>()) / l[i][i];
    }
    (n..4).for_each(|i| x[i] = 0.0);
    Some(x)
}
