//! The damped body mode of a quarter car: what a bounce shows, and what it says of wheel rate and damping.
//!
//! Roots s of m_s m_u s⁴ + c(m_s + m_u)s³ + (k_w(m_s + m_u) + k_t m_s)s² + c k_t s + k_w k_t = 0; the slower pair is the
//! body's, f = |s|/2π and ζ = −Re s/|s|. |s| is 1 to 3 % above the undamped frequency at ζ 0.2 to 0.35, and ζ is smaller
//! than c/(2√(k_w m_s)) by about (1 + k_w/k_t)^1.5: a bounce is compared with this mode and with nothing else. Source
//! `DERIVED`.

use std::f64::consts::TAU;

use crate::base::math::roots;
use crate::base::math::spectrum::Complex64;
use crate::base::units::{DampingRate, Frequency, Mass, Quantity, Ratio, SpringRate};
use crate::trade::road::Corner;

/// A mode as a bounce shows it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BodyMode {
    /// |s|/2π.
    pub frequency: Frequency,
    /// −Re s/|s|.
    pub damping: Ratio,
}

impl BodyMode {
    /// The body mode of a corner; `None` when it creeps back without swinging, or the corner is not sound.
    pub fn of(corner: &Corner) -> Option<BodyMode> {
        let sizes = [corner.sprung.si(), corner.unsprung.si(), corner.wheel_rate.si(), corner.tyre_rate.si()];
        let c = corner.damping.si();
        let is_sound = sizes.iter().all(|v| v.is_finite() && *v > 0.0) && c.is_finite() && c >= 0.0;
        if !is_sound {
            return None;
        }
        let [ms, mu, k, kt] = sizes;
        // In units of the body's own frequency, so that all coefficients are of like size.
        let unit = (k / ms).sqrt();
        let lead = ms * mu * unit.powi(4);
        let rest = [k * kt, c * kt * unit, (k * (ms + mu) + kt * ms) * unit.powi(2), c * (ms + mu) * unit.powi(3)];
        let slowest = quartic_roots(rest.map(|a| a / lead)).into_iter().min_by(|a, b| a.norm().total_cmp(&b.norm()))?;
        let size = slowest.norm();
        let swings = slowest.im.abs() > 1e-6 * size && size.is_finite();
        swings.then(|| BodyMode {
            frequency: Frequency::from_si(size * unit / TAU),
            damping: Ratio::from_si(-slowest.re / size),
        })
    }

    /// Where a body is at a time after it was let go at rest from 1: e^(−ζωt)(cos ω_d t + ζω/ω_d sin ω_d t). Valid for ζ from
    /// 0 to below 1. Source `DERIVED`.
    pub fn let_go_at(&self, time_s: f64) -> f64 {
        let (ratio, undamped) = (self.damping.si(), self.frequency.si() * TAU);
        let root = (1.0 - ratio * ratio).sqrt();
        let (sin, cos) = (undamped * root * time_s).sin_cos();
        (-ratio * undamped * time_s).exp() * (cos + ratio / root * sin)
    }

    /// Wheel rate and damping rate at the wheel that give this mode: s in the polynomial is two real equations, linear in
    /// both. `None` when they are not above zero.
    pub fn rate_and_damping(
        &self,
        sprung: Mass,
        unsprung: Mass,
        tyre: SpringRate,
    ) -> Option<(SpringRate, DampingRate)> {
        let (ms, mu, kt) = (sprung.si(), unsprung.si(), tyre.si());
        let ratio = self.damping.si();
        let s = Complex64::new(-ratio, (1.0 - ratio * ratio).sqrt()) * (self.frequency.si() * TAU);
        let (square, cube) = (s * s, s * s * s);
        let by_rate = square * (ms + mu) + kt;
        let by_damping = cube * (ms + mu) + s * kt;
        let right = -(square * square * ms * mu + square * kt * ms);
        let determinant = by_rate.re * by_damping.im - by_rate.im * by_damping.re;
        let k = (right.re * by_damping.im - right.im * by_damping.re) / determinant;
        let c = (by_rate.re * right.im - by_rate.im * right.re) / determinant;
        let is_one = k.is_finite() && c.is_finite() && k > 0.0 && c >= 0.0;
        is_one.then(|| (SpringRate::from_si(k), DampingRate::from_si(c)))
    }
}

/// The least damping rate at the wheel that gives a corner of known rate this damping ratio of its body mode: with much
/// more, body and wheel move as one on the tyre, and the ratio falls again. `None` when none does.
pub fn damping_for(corner: &Corner, damping: Ratio) -> Option<DampingRate> {
    const STEPS: u32 = 80;
    let of = |c: f64| {
        let mode = BodyMode::of(&Corner { damping: DampingRate::from_si(c), ..*corner });
        mode.map_or(1.0, |m| m.damping.si()) - damping.si()
    };
    // Critical damping of the body on its spring alone gives a mode that hardly swings.
    let critical = 2.0 * (corner.wheel_rate.si() * corner.sprung.si()).sqrt();
    let at = |i: u32| 2.0 * critical * f64::from(i.min(STEPS)) / f64::from(STEPS);
    // The first step at which the ratio is reached, or the top of a hill between two steps that reaches it.
    let (mut was, mut is) = (of(at(0)), of(at(1)));
    let (low, high) = (1..=STEPS).find_map(|i| {
        if is >= 0.0 {
            return Some((at(i - 1), at(i)));
        }
        let next = of(at(i + 1));
        let top = (was < is && next <= is).then(|| top_of(at(i - 1), at(i + 1), of));
        (was, is) = (is, next);
        top.filter(|top| of(*top) >= 0.0).map(|top| (at(i - 1), top))
    })?;
    let found = roots::between(low, high, 1e-9 * critical, of)?;
    // Where the body stops swinging the ratio leaps past what is sought.
    (of(found).abs() < 1e-6).then_some(DampingRate::from_si(found))
}

/// Where a function with one hill between two places is highest, by golden sections.
fn top_of(mut low: f64, mut high: f64, of: impl Fn(f64) -> f64) -> f64 {
    const SHARE: f64 = 0.381_966_011_250_105;
    for _ in 0..60 {
        let step = SHARE * (high - low);
        if of(low + step) < of(high - step) { low += step } else { high -= step }
    }
    0.5 * (low + high)
}

/// All roots of x⁴ + a₃x³ + a₂x² + a₁x + a₀, given a₀ to a₃, found at once by Durand's and Kerner's steps.
fn quartic_roots([a0, a1, a2, a3]: [f64; 4]) -> [Complex64; 4] {
    const STEPS: usize = 200;
    let value = |x: Complex64| (((x + a3) * x + a2) * x + a1) * x + a0;
    // Roots lie within this circle (Cauchy's bound).
    let size = 1.0 + [a0, a1, a2, a3].iter().fold(0.0_f64, |m, a| m.max(a.abs()));
    let size = size.powf(0.5);
    let mut x = [0.4, 1.9, 3.5, 5.1].map(|turn: f64| Complex64::from_polar(size, turn));
    for _ in 0..STEPS {
        let mut moved = 0.0_f64;
        for i in 0..4 {
            let others =
                (0..4).filter(|j| *j != i).fold(Complex64::new(1.0, 0.0), |product, j| product * (x[i] - x[j]));
            let by = value(x[i]) / others;
            if by.is_finite() {
                x[i] -= by;
                moved = moved.max(by.norm() / x[i].norm().max(1e-300));
            }
        }
        if moved < 1e-14 {
            break;
        }
    }
    x
}
