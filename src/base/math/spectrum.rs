//! Signals and their lines in frequency, over a library's Fourier transform.

use realfft::RealFftPlanner;
pub use realfft::num_complex::Complex64;

/// A periodic signal from the amplitude and phase of its lines: Σ aₖ cos(2πk i/n + φₖ), k from 1.
///
/// Lines at and above half of `count` are left out. Empty for fewer than two samples.
pub fn from_lines(count: usize, line: impl Fn(usize) -> (f64, f64)) -> Vec<f64> {
    if count < 2 {
        return Vec::new();
    }
    let back = RealFftPlanner::<f64>::new().plan_fft_inverse(count);
    let mut lines = back.make_input_vec();
    for (k, place) in lines.iter_mut().enumerate().skip(1) {
        if 2 * k < count {
            let (amplitude, phase) = line(k);
            *place = Complex64::from_polar(amplitude / 2.0, phase);
        }
    }
    let mut signal = back.make_output_vec();
    // The lengths fit by construction; a refusal would leave a flat signal.
    let _ = back.process(&mut lines, &mut signal);
    signal
}

/// Mean square of a signal whose lines are weighted by |H(f)|², its mean included at f = 0.
///
/// The signal is taken as one period, `every_s` apart. Zero for an empty signal.
pub fn weighted_mean_square(signal: &[f64], every_s: f64, gain: impl Fn(f64) -> f64) -> f64 {
    let count = signal.len();
    if count == 0 {
        return 0.0;
    }
    let forth = RealFftPlanner::<f64>::new().plan_fft_forward(count);
    let (mut input, mut lines) = (signal.to_vec(), forth.make_output_vec());
    let _ = forth.process(&mut input, &mut lines);
    let n = count as f64;
    let power = |(k, line): (usize, &Complex64)| {
        let twice = if k == 0 || 2 * k == count { 1.0 } else { 2.0 };
        twice * line.norm_sqr() * gain(k as f64 / (n * every_s)).powi(2)
    };
    lines.iter().enumerate().map(power).sum::<f64>() / (n * n)
}

/// A signal through a filter that was at rest before, by its transfer function at each frequency, Hz.
///
/// As long as the signal; this number of zeros behind it as `tail` keep what rings on from returning at the beginning.
pub fn filtered(signal: &[f64], every_s: f64, tail: usize, transfer: impl Fn(f64) -> Complex64) -> Vec<f64> {
    let count = (signal.len() + tail).next_power_of_two().max(2);
    let mut planner = RealFftPlanner::<f64>::new();
    let (forth, back) = (planner.plan_fft_forward(count), planner.plan_fft_inverse(count));
    let mut padded = signal.to_vec();
    padded.resize(count, 0.0);
    let mut lines = forth.make_output_vec();
    let _ = forth.process(&mut padded, &mut lines);
    for (k, line) in lines.iter_mut().enumerate() {
        *line *= transfer(k as f64 / (count as f64 * every_s)) / count as f64;
    }
    // Both ends of the spectrum of a real signal are real.
    for end in [0, count / 2] {
        lines[end].im = 0.0;
    }
    let _ = back.process(&mut lines, &mut padded);
    padded.truncate(signal.len());
    padded
}

/// Power spectral density by Welch's method: pieces of `piece_s` under Hann's window, each half over the next, their mean
/// taken out; frequency, Hz, and unit²/Hz, one-sided. Empty when no signal holds a piece.
///
/// P. D. Welch, *IEEE Transactions on Audio and Electroacoustics* 15 (1967), 70–73 (from memory); the same numbers as a
/// general library's in tests.
pub fn welch(signals: &[Vec<f64>], every_s: f64, piece_s: f64) -> Vec<[f64; 2]> {
    let width = ((piece_s / every_s).round() as usize).max(8);
    let hann: Vec<f64> =
        (0..width).map(|i| 0.5 - 0.5 * (std::f64::consts::TAU * i as f64 / width as f64).cos()).collect();
    let power: f64 = hann.iter().map(|w| w * w).sum();
    let forth = RealFftPlanner::<f64>::new().plan_fft_forward(width);
    let (mut input, mut lines) = (forth.make_input_vec(), forth.make_output_vec());
    let (mut density, mut pieces) = (vec![0.0; lines.len()], 0_usize);
    for signal in signals {
        let mut from = 0;
        while from + width <= signal.len() {
            let piece = &signal[from..from + width];
            let mean = piece.iter().sum::<f64>() / width as f64;
            input.iter_mut().zip(piece.iter().zip(&hann)).for_each(|(x, (a, w))| *x = (a - mean) * w);
            let _ = forth.process(&mut input, &mut lines);
            density.iter_mut().zip(&lines).for_each(|(d, line)| *d += line.norm_sqr());
            pieces += 1;
            from += width - width / 2;
        }
    }
    if pieces == 0 {
        return Vec::new();
    }
    let one_sided = |k: usize| if k == 0 || 2 * k == width { 1.0 } else { 2.0 };
    let each = density.iter().enumerate();
    each.map(|(k, d)| [k as f64 / (width as f64 * every_s), one_sided(k) * d * every_s / (power * pieces as f64)])
        .collect()
}
