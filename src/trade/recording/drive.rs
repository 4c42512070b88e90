//! A drive: how the body's acceleration is felt, its spectrum, and how two drives compare.

use crate::base::math::spectrum;
use crate::base::math::spread::Measured;
use crate::trade::road::weighting;

/// A drive in a few figures.
#[derive(Debug, Clone, PartialEq)]
pub struct Drive {
    /// How long it lasted, s.
    pub lasted_s: f64,
    /// rms of the acceleration about its mean, m/s².
    pub rms_m_per_s2: f64,
    /// As felt; `None` below 100 samples a second.
    pub felt: Option<Felt>,
    /// Power spectral density: frequency, Hz, and (m/s²)²/Hz.
    pub spectrum: Vec<[f64; 2]>,
    /// The strongest frequency of the body, Hz.
    pub body_hz: Option<f64>,
    /// The strongest frequency of the wheels, Hz.
    pub hop_hz: Option<f64>,
    /// Mean squares of pieces of 4 s: as felt, else not weighted, (m/s²)².
    pieces: Vec<f64>,
    /// The same, not weighted.
    plain: Vec<f64>,
}

/// Acceleration weighted by W_k. Source `R2631`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Felt {
    /// rms, m/s².
    pub rms_m_per_s2: f64,
    /// Largest value over rms.
    pub crest: f64,
    /// Fourth-power dose (∫ a_w⁴ dt)^¼, m/s^1.75.
    pub dose: f64,
}

/// W_k weighs up to 100 Hz; with fewer samples a second than this too much of it is missing.
const FELT_FROM_HZ: f64 = 99.5;
/// Pieces of the spectrum and of the comparison, s.
const PIECE_S: f64 = 4.0;
/// W_k rings on for this long, s.
const RINGS_S: f64 = 10.0;
/// Fewer pieces than this say nothing of their scatter.
const FEWEST_PIECES: usize = 8;
/// Where body and wheels swing, Hz.
const BODY_HZ: [f64; 2] = [0.7, 3.5];
const HOP_HZ: [f64; 2] = [7.0, 20.0];

/// A drive from stretches of upward acceleration, m/s²; `None` when it is shorter than 32 s.
pub fn drive(stretches: &[(f64, Vec<f64>)], every_s: f64) -> Option<Drive> {
    let samples: usize = stretches.iter().map(|s| s.1.len()).sum();
    let lasted_s = samples as f64 * every_s;
    if lasted_s < FEWEST_PIECES as f64 * PIECE_S {
        return None;
    }
    let mean = stretches.iter().flat_map(|s| &s.1).sum::<f64>() / samples as f64;
    let centred: Vec<Vec<f64>> = stretches.iter().map(|s| s.1.iter().map(|a| a - mean).collect()).collect();
    let square = |part: &[f64]| part.iter().map(|a| a * a).sum::<f64>();
    let rms = (centred.iter().map(|c| square(c)).sum::<f64>() / samples as f64).sqrt();
    let spectrum = spectrum::welch(&centred, every_s, PIECE_S);
    let weighed = 1.0 / every_s >= FELT_FROM_HZ;
    let tail = (RINGS_S / every_s) as usize;
    let width = (PIECE_S / every_s).round() as usize;
    let of_pieces = |part: &[f64]| -> Vec<f64> { part.chunks_exact(width).map(|p| square(p) / width as f64).collect() };
    let plain = centred.iter().flat_map(|part| of_pieces(part)).collect();
    let (mut pieces, mut squares, mut fourths, mut largest) = (Vec::new(), 0.0, 0.0, 0.0_f64);
    for part in centred {
        let part = if weighed { spectrum::filtered(&part, every_s, tail, weighting::transfer_at) } else { part };
        pieces.extend(of_pieces(&part));
        for a in part {
            let a2 = a * a;
            (squares, fourths, largest) = (squares + a2, fourths + a2 * a2, largest.max(a.abs()));
        }
    }
    let felt_rms = (squares / samples as f64).sqrt();
    let felt = Felt { rms_m_per_s2: felt_rms, crest: largest / felt_rms, dose: (fourths * every_s).powf(0.25) };
    Some(Drive {
        lasted_s,
        rms_m_per_s2: rms,
        felt: (weighed && felt_rms > 0.0).then_some(felt),
        body_hz: peak(&spectrum, BODY_HZ),
        hop_hz: peak(&spectrum, HOP_HZ),
        spectrum,
        pieces,
        plain,
    })
}

impl Drive {
    /// rms as felt with its ±, by how mean squares of pieces of 4 s scatter; `None` below 100 samples a second.
    pub fn felt_with_u(&self) -> Option<Measured> {
        rms_with_u(self.felt?.rms_m_per_s2, &self.pieces)
    }

    /// rms, not weighted, with its ±.
    pub fn rms_with_u(&self) -> Option<Measured> {
        rms_with_u(self.rms_m_per_s2, &self.plain)
    }

    /// rms after over rms before, as felt where both are, else not weighted: the ± is from how mean squares of pieces of
    /// 4 s scatter. `None` with fewer than eight pieces, or when only one of them is as felt.
    pub fn ratio_to(&self, before: &Drive) -> Option<Measured> {
        if self.felt.is_some() != before.felt.is_some() {
            return None;
        }
        let [after, before] = [mean_square(&self.pieces)?, mean_square(&before.pieces)?];
        let value = (after.value / before.value).sqrt();
        let u = 0.5 * value * (after.u / after.value).hypot(before.u / before.value);
        value.is_finite().then_some(Measured { value, u })
    }
}

/// u(rms) = rms u(ms)/(2 ms). Source `GUM`, 5.1.2.
fn rms_with_u(rms: f64, pieces: &[f64]) -> Option<Measured> {
    let square = mean_square(pieces)?;
    Some(Measured { value: rms, u: 0.5 * rms * square.u / square.value })
}

/// Mean of the pieces' mean squares, and its standard uncertainty.
fn mean_square(pieces: &[f64]) -> Option<Measured> {
    let count = pieces.len() as f64;
    let mean = pieces.iter().sum::<f64>() / count;
    let scatter = pieces.iter().map(|p| (p - mean).powi(2)).sum::<f64>() / (count - 1.0);
    (pieces.len() >= FEWEST_PIECES && mean > 0.0).then(|| Measured { value: mean, u: (scatter / count).sqrt() })
}

/// The highest peak of a spectrum between two frequencies; `None` when it only rises or falls there.
fn peak(spectrum: &[[f64; 2]], [from, to]: [f64; 2]) -> Option<f64> {
    let inside = |w: &&[[f64; 2]]| w[1][0] >= from && w[1][0] <= to;
    let peaks = spectrum.windows(3).filter(inside).filter(|w| w[1][1] > w[0][1] && w[1][1] >= w[2][1]);
    peaks.max_by(|a, b| a[1][1].total_cmp(&b[1][1])).map(|w| w[1][0])
}
