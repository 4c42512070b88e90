//! Bounces: every free decay of a record, fitted and combined.

use std::f64::consts::{PI, TAU};

use super::decay_fit::{self, Fit};
use super::decay_search::{self, Found, Smooth};
use crate::base::math::spread::Measured;
use crate::base::units::G_M_PER_S2;

/// What was recorded.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Signal {
    /// Acceleration, m/s².
    Acceleration,
    /// Displacement, m.
    Displacement,
}

/// One free decay.
#[derive(Debug, Clone, PartialEq)]
pub struct Decay {
    /// From the body's first top after the last push, s.
    pub from_s: f64,
    /// Into stillness, or to the next push, s.
    pub until_s: f64,
    /// The fit.
    pub fit: Fit,
    /// Turns of the smoothed motion, from the first top on, about the fitted rest; in the unit of the samples.
    pub turns: Vec<f64>,
    /// Scatter of the smoothed motion at rest.
    pub noise: f64,
}

/// Why a decay does not count.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LeftOut {
    /// The residual of the fit is too large: no free decay of one mode.
    NotFree,
    /// Its frequency is far from that of the others.
    OtherFrequency,
}

/// Friction as the damping ratio shows it, which then grows as the motion gets smaller.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Friction {
    /// Damping ratio in the first and in the last cycle.
    pub damping: [f64; 2],
    /// Friction either way over the load, with its ±; `None` from a displacement.
    pub share: Option<Measured>,
}

/// All decays together.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Bounce {
    /// Those that count.
    pub decays: Vec<Decay>,
    /// When those begin that do not, s, and why.
    pub left_out: Vec<(f64, LeftOut)>,
    /// Undamped frequency of the mode, Hz; `None` without decays, or where damping hides it.
    pub frequency_hz: Option<Measured>,
    /// Damping ratio of the mode.
    pub damping: Option<Measured>,
    /// ln(A₁/A₂)/2π of successive peaks in one direction, which equals ζ/√(1 − ζ²). Source `96/53`, annex II, 3.
    pub directive: Option<Measured>,
    /// Damping that grows at small motion.
    pub friction: Option<Friction>,
    /// Cycles above the noise, in the mean.
    pub cycles: Option<f64>,
    /// Peak speed of the body after the first top, in the mean, m/s.
    pub peak_speed_m_per_s: Option<f64>,
}

/// Quicker than this is not the body and is averaged away, Hz.
const KEPT_HZ: f64 = 50.0;
/// The smallest swing that counts: m/s², m.
const LEAST: [f64; 2] = [0.12, 0.5e-3];
/// Largest residual of a fit, as a share of the swing.
const LEAVES: f64 = 0.3;
/// Decays differ in frequency by less than this share.
const SAME: f64 = 0.15;
/// The damper's shape (unequal strokes, a knee) is off by this share of ζ, and of f. Found in simulations.
const SHAPE_DAMPING: f64 = 0.04;
const SHAPE_FREQUENCY: f64 = 0.004;
/// Above this damping ratio too few cycles are left: its ± is this share at least, and the frequency is not known.
const HEAVY: f64 = 0.3;
const SHARE_WHEN_HEAVY: f64 = 0.15;
/// No more decays than this are considered.
const MOST_DECAYS: usize = 200;

/// Finds, fits and combines the free decays of stretches (when each begins, s, and its samples).
///
/// `is_signed`: plus is up.
pub fn bounces(stretches: &[(f64, Vec<f64>)], every_s: f64, signal: Signal, is_signed: bool) -> Bounce {
    let mut all = Vec::new();
    let mut bounce = Bounce::default();
    for (from_s, samples) in stretches {
        let (samples, step_s) = averaged(samples, every_s);
        let smooth = decay_search::smooth(&samples, step_s);
        let least = LEAST[usize::from(signal == Signal::Displacement)];
        let downward = is_signed.then_some(signal == Signal::Acceleration);
        for found in decay_search::search(&smooth, step_s, least, downward) {
            if all.len() + bounce.left_out.len() == MOST_DECAYS {
                break;
            }
            let at_s = from_s + found.range.0 as f64 * step_s;
            match decay(&samples, &smooth, &found, step_s, signal) {
                Some(decay) => all.push(Decay { from_s: at_s, until_s: at_s + decay.until_s, ..decay }),
                None => bounce.left_out.push((at_s, LeftOut::NotFree)),
            }
        }
    }
    let middle = median(all.iter().map(|d| d.fit.frequency_hz.value));
    let (same, other): (Vec<Decay>, Vec<Decay>) =
        all.into_iter().partition(|d| (d.fit.frequency_hz.value / middle - 1.0).abs() <= SAME);
    bounce.left_out.extend(other.iter().map(|d| (d.from_s, LeftOut::OtherFrequency)));
    bounce.left_out.sort_by(|a, b| a.0.total_cmp(&b.0));
    combined(Bounce { decays: same, ..bounce }, signal)
}

/// Means of as many samples as fit into the quickest motion that is kept.
fn averaged(samples: &[f64], every_s: f64) -> (Vec<f64>, f64) {
    let count = ((1.0 / KEPT_HZ / every_s).floor() as usize).max(1);
    if count == 1 {
        return (samples.to_vec(), every_s);
    }
    let means = samples.chunks_exact(count).map(|c| c.iter().sum::<f64>() / count as f64).collect();
    (means, count as f64 * every_s)
}

/// Times within a decay count from its first sample.
fn decay(samples: &[f64], smooth: &Smooth, found: &Found, every_s: f64, signal: Signal) -> Option<Decay> {
    let (from, to) = found.range;
    let fit = decay_fit::fit(&samples[from..to], every_s, signal == Signal::Displacement)?;
    // Around the fitted rest: the fit has the level of the samples, the smoothed motion is about its median.
    let smoothed = &smooth.values[from..to];
    let off = |i: usize| fit.at(i as f64 * every_s) - smoothed[i];
    let level = fit.linear[2] - (0..smoothed.len()).map(off).sum::<f64>() / smoothed.len() as f64;
    let turns = found.turns.iter().map(|i| smooth.values[*i] - level).collect();
    let is_free = fit.residual < LEAVES * fit.size();
    let until_s = (to - from) as f64 * every_s;
    is_free.then_some(Decay { from_s: 0.0, until_s, fit, turns, noise: smooth.noise })
}

fn combined(bounce: Bounce, signal: Signal) -> Bounce {
    let of = |value: fn(&Fit) -> Measured| weighted(bounce.decays.iter().map(|d| value(&d.fit)));
    let (Some(frequency), Some(damping)) = (of(|f| f.frequency_hz), of(|f| f.damping)) else { return bounce };
    let with_shape = |m: Measured, share: f64| Measured { u: m.u.hypot(share * m.value), ..m };
    let is_heavy = damping.value > HEAVY;
    let mut damping = with_shape(damping, SHAPE_DAMPING);
    if is_heavy {
        damping.u = damping.u.max(SHARE_WHEN_HEAVY * damping.value);
    }
    let mean =
        |value: &dyn Fn(&Decay) -> f64| bounce.decays.iter().map(value).sum::<f64>() / bounce.decays.len() as f64;
    let undamped = TAU * frequency.value;
    let ratio = damping.value.clamp(0.0, 0.99);
    let root = (1.0 - ratio * ratio).sqrt();
    // From rest at x₀ a free decay is fastest at ω x₀ e^(−ζ acos ζ/√(1 − ζ²)).
    let fastest = (-ratio * ratio.acos() / root).exp();
    let power = if signal == Signal::Acceleration { -1 } else { 1 };
    Bounce {
        frequency_hz: (!is_heavy).then(|| with_shape(frequency, SHAPE_FREQUENCY)),
        damping: Some(damping),
        directive: directive(&bounce.decays),
        friction: friction(&bounce.decays, signal),
        cycles: Some(mean(&|d| (d.fit.size() / d.fit.residual).ln().max(0.0) * root / (TAU * ratio.max(1e-3)))),
        peak_speed_m_per_s: Some(mean(&|d| d.fit.size() * undamped.powi(power) * fastest)),
        ..bounce
    }
}

/// Readings weighted by 1/u²: the ± from their own, or from how they scatter, whichever is larger.
fn weighted(readings: impl Iterator<Item = Measured> + Clone) -> Option<Measured> {
    let weight = |m: &Measured| 1.0 / m.u.powi(2).max(1e-18);
    let (sum, count) = readings.clone().fold((0.0, 0_usize), |(s, n), m| (s + weight(&m), n + 1));
    let value = readings.clone().map(|m| weight(&m) * m.value).sum::<f64>() / sum;
    let off: f64 = readings.map(|m| weight(&m) * (m.value - value).powi(2)).sum();
    let scatter = if count > 1 { (off / sum / (count - 1) as f64).sqrt() } else { 0.0 };
    (count > 0).then(|| Measured { value, u: (1.0 / sum).sqrt().max(scatter) })
}

fn median(values: impl Iterator<Item = f64>) -> f64 {
    let mut sorted: Vec<f64> = values.collect();
    sorted.sort_by(f64::total_cmp);
    sorted.get(sorted.len() / 2).copied().unwrap_or(f64::NAN)
}

/// Two turns a whole cycle apart, in one direction: logarithm of their ratio over 2π with its ±, and their mean size.
fn pairs(decay: &Decay) -> impl Iterator<Item = (Measured, f64)> + '_ {
    const ABOVE_NOISE: f64 = 3.0;
    decay.turns.windows(3).filter_map(|turns| {
        let [first, later] = [turns[0], turns[2]].map(f64::abs);
        let is_one = turns[0] * turns[2] > 0.0 && first.min(later) > ABOVE_NOISE * decay.noise && first > later;
        is_one.then(|| {
            let u = decay.noise / TAU * (1.0 / first.powi(2) + 1.0 / later.powi(2)).sqrt();
            (Measured { value: (first / later).ln() / TAU, u }, (first * later).sqrt())
        })
    })
}

/// The directive's D: successive peaks of each decay in the direction of its first top.
fn directive(decays: &[Decay]) -> Option<Measured> {
    let first: Vec<Measured> = decays.iter().filter_map(|d| pairs(d).next().map(|p| p.0)).collect();
    weighted(first.iter().copied())
}

/// ζ over 1/size by least squares: Coulomb friction F adds 2F/(π k X), which is 2 φ g/(π A) with φ = F/(m g) and A the
/// size of the acceleration. `None` unless it is more than twice its ±. Source `DERIVED`.
fn friction(decays: &[Decay], signal: Signal) -> Option<Friction> {
    const DIFFERS: f64 = 2.0;
    const FEWEST: usize = 4;
    let all: Vec<(f64, f64, f64)> = decays
        .iter()
        .flat_map(pairs)
        .map(|(d, size)| {
            let ratio = d.value / (1.0 + d.value * d.value).sqrt();
            (1.0 / size, ratio, 1.0 / d.u.powi(2).max(1e-12))
        })
        .collect();
    let sum = |of: &dyn Fn(&(f64, f64, f64)) -> f64| all.iter().map(of).sum::<f64>();
    let (w, wx, wy) = (sum(&|p| p.2), sum(&|p| p.2 * p.0), sum(&|p| p.2 * p.1));
    let (wxx, wxy) = (sum(&|p| p.2 * p.0 * p.0), sum(&|p| p.2 * p.0 * p.1));
    let determinant = w * wxx - wx * wx;
    let (slope, level) = ((w * wxy - wx * wy) / determinant, (wxx * wy - wx * wxy) / determinant);
    let off = sum(&|p| p.2 * (p.1 - level - slope * p.0).powi(2)) / (all.len().max(3) - 2) as f64;
    let u = (w / determinant * off.max(1.0)).sqrt();
    let is_seen = all.len() >= FEWEST && slope > DIFFERS * u;
    if !is_seen {
        return None;
    }
    let at = |pick: fn(f64, f64) -> f64| level + slope * all.iter().map(|p| p.0).reduce(pick).unwrap_or(f64::NAN);
    let of_load = PI / (2.0 * G_M_PER_S2);
    let share = Measured { value: slope * of_load, u: u * of_load };
    Some(Friction { damping: [at(f64::min), at(f64::max)], share: (signal == Signal::Acceleration).then_some(share) })
}
