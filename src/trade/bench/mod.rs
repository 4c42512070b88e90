//! The suspension bench of a vehicle inspection: a plate under the tyre shakes it from 25 Hz down to rest.
//!
//! The plate moves ±e = 3 mm. H(jω) is the dynamic tyre force over the plate's displacement, of the quarter car
//! m_u s² x_u = k_t(x_p − x_u) − (k + cs)(x_u − x_s), m_s s² x_s = (k + cs)(x_u − x_s), F = k_t(x_p − x_u). With
//! q = k + cs and Z = m_u s² + q m_s s²/(m_s s² + q) it is H = k_t Z/(Z + k_t). Closed forms here; [`plate`] runs the real
//! damper curve in time.

pub mod plate;

use std::f64::consts::{PI, TAU};

use crate::base::math::spectrum::Complex64;
use crate::base::units::{Angle, Frequency, Quantity, Ratio, weight};
use crate::trade::road::Corner;

/// The plate moves so far to either side of its middle, m. Source `BENCH` (from memory).
pub const AMPLITUDE_M: f64 = 0.003;
/// The plate starts at this frequency, Hz. Source `BENCH` (from memory).
pub const FASTEST_HZ: f64 = 25.0;
/// Lower frequencies than this are not searched, Hz: the plate has stopped, and the tyre force has too.
const SLOWEST_HZ: f64 = 0.5;
/// The phase counts from this share of the wheel hop frequency up to it. Source `PHASE` (band from secondary sources).
const PHASE_FROM: f64 = 1.0 / 3.0;

/// What the bench measures on one corner, by closed form.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BenchReading {
    /// Least tyre load over the standing load, 0 where the wheel leaves the plate.
    pub adhesion: Ratio,
    /// Largest dynamic tyre force for each metre of plate motion, N/m.
    pub stiffness_n_per_m: f64,
    /// Frequency at which the tyre load is least.
    pub at: Frequency,
    /// The wheel leaves the plate.
    pub lifts: bool,
    /// Least phase angle between plate and tyre force up to wheel hop, 180° − arg H.
    pub phase: Angle,
    /// Frequency of the least phase angle.
    pub phase_at: Frequency,
}

/// The corner on the bench: adhesion 1 − e·max|H|/F_static, least of 180° − arg H from a third of the hop resonance
/// √((k + k_t)/m_u)/2π up to it. The phase angle grows with damping; 35° is a hop damping ratio of about 0.09.
///
/// `None` unless masses and rates are above zero, damping is zero or above, and all are finite. Source `BENCH` and
/// `PHASE` for what is measured, the transfer function `DERIVED`.
pub fn reading(corner: &Corner) -> Option<BenchReading> {
    let transfer = Transfer::of(corner)?;
    // Squares and cotangents are highest where sizes and angles are, and cost neither a root nor an arc.
    let (at_hz, squared) = highest([SLOWEST_HZ, FASTEST_HZ], 32, |hz| transfer.at(hz).norm_sqr());
    let stiffness = squared.sqrt();
    let hop_hz = transfer.hop_hz();
    let (phase_hz, _) = highest([PHASE_FROM * hop_hz, hop_hz], 12, |hz| transfer.phase_cotangent(hz));
    let phase = transfer.phase_rad(phase_hz);
    let standing_n = weight(corner.sprung + corner.unsprung).si();
    let adhesion = 1.0 - AMPLITUDE_M * stiffness / standing_n;
    let found = BenchReading {
        adhesion: Ratio::from_si(adhesion.max(0.0)),
        stiffness_n_per_m: stiffness,
        at: Frequency::from_si(at_hz),
        lifts: adhesion < 0.0,
        phase: Angle::from_si(phase),
        phase_at: Frequency::from_si(phase_hz),
    };
    (adhesion.is_finite() && phase.is_finite()).then_some(found)
}

/// The quarter car between plate and tyre force, SI.
struct Transfer {
    sprung_kg: f64,
    unsprung_kg: f64,
    rate: f64,
    tyre: f64,
    damping: f64,
}

impl Transfer {
    fn of(corner: &Corner) -> Option<Transfer> {
        let sizes = [corner.sprung.si(), corner.unsprung.si(), corner.wheel_rate.si(), corner.tyre_rate.si()];
        let [sprung_kg, unsprung_kg, rate, tyre] = sizes;
        let damping = corner.damping.si();
        let is_sound = sizes.iter().all(|v| v.is_finite() && *v > 0.0) && damping.is_finite() && damping >= 0.0;
        is_sound.then_some(Transfer { sprung_kg, unsprung_kg, rate, tyre, damping })
    }

    fn at(&self, hz: f64) -> Complex64 {
        let w = TAU * hz;
        let spring = Complex64::new(self.rate, self.damping * w);
        let body = -self.sprung_kg * w * w;
        let wheel = spring * body / (spring + body) - self.unsprung_kg * w * w;
        wheel * self.tyre / (wheel + self.tyre)
    }

    fn phase_rad(&self, hz: f64) -> f64 {
        PI - self.at(hz).arg()
    }

    /// Of the phase angle; the higher, the smaller the angle, which is between 0 and π.
    fn phase_cotangent(&self, hz: f64) -> f64 {
        let at = self.at(hz);
        -at.re / at.im
    }

    fn hop_hz(&self) -> f64 {
        ((self.rate + self.tyre) / self.unsprung_kg).sqrt() / TAU
    }
}

/// Where a function of frequency is highest, and how high: every peak of an even grid (on a scale of ratios) is narrowed
/// by golden sections, so that a sharp one is not stepped over.
fn highest([from_hz, to_hz]: [f64; 2], steps: u32, value: impl Fn(f64) -> f64) -> (f64, f64) {
    let ratio = (to_hz / from_hz).powf(1.0 / f64::from(steps));
    let hz = |i: u32| from_hz * ratio.powi(i as i32);
    let at: Vec<f64> = (0..=steps).map(|i| value(hz(i))).collect();
    let is_peak = |i: usize| (i == 0 || at[i] >= at[i - 1]) && (i + 1 == at.len() || at[i] >= at[i + 1]);
    let peaks = (0..=steps).filter(|i| is_peak(*i as usize));
    let narrowed = peaks.map(|i| narrowed([hz(i.saturating_sub(1)), hz((i + 1).min(steps))], &value));
    narrowed.fold((from_hz, f64::NEG_INFINITY), |best, found| if found.1 > best.1 { found } else { best })
}

/// The highest place between two frequencies with one peak between them: golden sections, then the vertex of a parabola,
/// which leaves the height exact to about 1e-7 of itself. The place may be an end of the band.
fn narrowed(ends: [f64; 2], value: &impl Fn(f64) -> f64) -> (f64, f64) {
    const GOLDEN: f64 = 0.618_033_988_749_894_8;
    const ROUNDS: usize = 8;
    let with_value = |hz: f64| (hz, value(hz));
    let [mut low, mut high] = ends.map(with_value);
    let left = |low: f64, high: f64| high - GOLDEN * (high - low);
    let mut a = with_value(left(low.0, high.0));
    let mut b = with_value(low.0 + high.0 - a.0);
    for _ in 0..ROUNDS {
        if a.1 >= b.1 {
            (high, b) = (b, a);
            a = with_value(low.0 + high.0 - b.0);
        } else {
            (low, a) = (a, b);
            b = with_value(low.0 + high.0 - a.0);
        }
    }
    let top = if a.1 >= b.1 { vertex(low, a, b) } else { vertex(a, b, high) };
    let all = [a, b, low, high, with_value(top)];
    all.into_iter().fold(all[0], |best, found| if found.1 > best.1 { found } else { best })
}

/// Where the parabola through three points is highest; the middle point where it is none.
fn vertex(low: (f64, f64), middle: (f64, f64), high: (f64, f64)) -> f64 {
    let [down, up] = [low, high].map(|end| (end.0 - middle.0, end.1 - middle.1));
    let above = down.0 * down.0 * up.1 - up.0 * up.0 * down.1;
    let at = middle.0 - 0.5 * above / (up.0 * down.1 - down.0 * up.1);
    if (low.0..=high.0).contains(&at) { at } else { middle.0 }
}
