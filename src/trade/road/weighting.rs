//! How a person feels vertical shaking: the weighting W_k and what the standard says of the result.

use std::f64::consts::FRAC_1_SQRT_2;

use crate::base::language::Word;
use crate::base::math::spectrum::{self, Complex64};
use crate::base::units::{Acceleration, Frequency, Quantity, Ratio};

/// |W_k| at a frequency: band limits 0.4 and 100 Hz (Butterworth), acceleration–velocity transition 12.5 Hz, Q 0.63,
/// upward step 2.37 Hz and 3.35 Hz, Q 0.91 both. Source `R2631`, annex A (parameters seen, form from memory).
///
/// ```
/// use springwright::trade::road::weighting::gain;
/// use springwright::base::units::{Frequency, Quantity};
/// assert!((gain(Frequency::from_si(5.0)).si() - 1.039).abs() < 0.001);
/// ```
pub fn gain(frequency: Frequency) -> Ratio {
    Ratio::from_si(gain_at(frequency.si()))
}

pub(super) fn gain_at(hz: f64) -> f64 {
    transfer_at(hz).norm()
}

/// W_k at a frequency, with its phase.
pub(in crate::trade) fn transfer_at(hz: f64) -> Complex64 {
    const F1_HZ: f64 = 0.4;
    const F2_HZ: f64 = 100.0;
    const F3_HZ: f64 = 12.5;
    const Q4: f64 = 0.63;
    const F5_HZ: f64 = 2.37;
    const F6_HZ: f64 = 3.35;
    const Q56: f64 = 0.91;
    // 1 + j x/Q − x² with x = f/f₀: a block of second order.
    let block = |f0: f64, q: f64| {
        let x = hz / f0;
        Complex64::new(1.0 - x * x, x / q)
    };
    let high_pass = -(hz / F1_HZ).powi(2) / block(F1_HZ, FRAC_1_SQRT_2);
    let low_pass = block(F2_HZ, FRAC_1_SQRT_2).inv();
    let transition = Complex64::new(1.0, hz / F3_HZ) / block(F3_HZ, Q4);
    let step = block(F5_HZ, Q56) / block(F6_HZ, Q56) * (F5_HZ / F6_HZ).powi(2);
    high_pass * low_pass * transition * step
}

/// Weighted rms of an acceleration, m/s², sampled `every_s` apart and taken as one period of what goes on. Source `R2631`.
pub fn weighted_rms(acceleration_m_per_s2: &[f64], every_s: f64) -> Acceleration {
    Acceleration::from_si(spectrum::weighted_mean_square(acceleration_m_per_s2, every_s, gain_at).sqrt())
}

/// The running rms is taken over this time, s: the standard's integration time for the MTVV.
const RUNNING_S: f64 = 1.0;
/// W_k rings on after a signal for this long at most, s; its slowest pole decays by e each 0.56 s.
const RINGS_S: f64 = 10.0;

/// Largest running rms over 1 s of an acceleration weighted by W_k, m/s² (MTVV), sampled `every_s` apart and at rest
/// before. Source `R2631`, 6.3.1 (from memory).
pub fn mtvv(acceleration_m_per_s2: &[f64], every_s: f64) -> Acceleration {
    let tail = (RINGS_S / every_s) as usize;
    let weighted = spectrum::filtered(acceleration_m_per_s2, every_s, tail, transfer_at);
    let window = ((RUNNING_S / every_s).round() as usize).max(1);
    let (mut sum, mut most) = (0.0, 0.0_f64);
    for (i, a) in weighted.iter().enumerate() {
        sum += a * a;
        sum -= i.checked_sub(window).map_or(0.0, |gone| weighted[gone] * weighted[gone]);
        most = most.max(sum);
    }
    Acceleration::from_si((most / window as f64).sqrt())
}

/// A word for a weighted acceleration and the band it covers; the bands overlap.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reaction {
    /// The standard's words, in English.
    pub words: &'static str,
    /// From this weighted rms, m/s².
    pub from_m_per_s2: f64,
    /// To this one, m/s²; open above for the last.
    pub to_m_per_s2: Option<f64>,
}

/// The standard's bands for public transport, mildest first. Source `R2631`, annex C (upper edges seen, lower from memory).
pub const REACTIONS: [Reaction; 6] = [
    Reaction { words: "not uncomfortable", from_m_per_s2: 0.0, to_m_per_s2: Some(0.315) },
    Reaction { words: "a little uncomfortable", from_m_per_s2: 0.315, to_m_per_s2: Some(0.63) },
    Reaction { words: "fairly uncomfortable", from_m_per_s2: 0.5, to_m_per_s2: Some(1.0) },
    Reaction { words: "uncomfortable", from_m_per_s2: 0.8, to_m_per_s2: Some(1.6) },
    Reaction { words: "very uncomfortable", from_m_per_s2: 1.25, to_m_per_s2: Some(2.5) },
    Reaction { words: "extremely uncomfortable", from_m_per_s2: 2.0, to_m_per_s2: None },
];

/// Texts of the bands of weighted acceleration: one, or two where they overlap.
pub fn reactions(weighted: Acceleration) -> Vec<Word> {
    let a = weighted.si();
    let holds = |r: &&Reaction| a >= r.from_m_per_s2 && r.to_m_per_s2.is_none_or(|to| a < to);
    REACTIONS.iter().filter(holds).map(|r| Word(r.words)).collect()
}
