//! Recordings as sums: case C8, drawn bounces of quarter cars with two-slope dampers, scipy for fit, spectrum and W_k, the
//! body mode against eigenvalues, and what goes wrong on a vehicle.
//!
//! `cases/measuring.json` and `cases/bounce-c8.csv` were computed by an independent script. `recording/reference.json` is
//! the output of `recording/reference.py`, with the versions of numpy and scipy in it.

use std::f64::consts::{PI, TAU};
use std::path::Path;

use approx::assert_relative_eq;
use nalgebra::Matrix4;
use proptest::prelude::*;
use rand_distr::{Distribution, Normal, Uniform};
use rand_xoshiro::Xoshiro256PlusPlus;
use rand_xoshiro::rand_core::SeedableRng;
use serde_json::Value;
use springwright::base::math::spectrum;
use springwright::base::progress::Watch;
use springwright::base::units::{DampingRate, Mass, Quantity, Ratio, SpringRate};
use springwright::shop::recordings::{self, Ask};
use springwright::solve::recorded::{Analysed, analyse};
use springwright::trade::recording::bounce::{LeftOut, bounces};
use springwright::trade::recording::drive::drive;
use springwright::trade::recording::evenly::{Uneven, evenly};
use springwright::trade::recording::{BodyMode, Bounce, Signal, body_mode, decay_fit};
use springwright::trade::road::Corner;

fn json(path: &str) -> Value {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests").join(path);
    serde_json::from_str(&std::fs::read_to_string(path).expect("a file")).expect("JSON")
}

fn corner([ms, mu, k, kt, c]: [f64; 5]) -> Corner {
    Corner {
        sprung: Mass::from_si(ms),
        unsprung: Mass::from_si(mu),
        wheel_rate: SpringRate::from_si(k),
        tyre_rate: SpringRate::from_si(kt),
        damping: DampingRate::from_si(c),
    }
}

fn c8() -> Analysed {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/cases/bounce-c8.csv");
    let read = recordings::open(&path, &Ask::default(), &Watch::default()).expect("a recording");
    assert_eq!((read.record.stretches.len(), read.record.stretches[0].len()), (1, 600));
    assert!(read.cautions.is_empty(), "{:?}", read.cautions);
    analyse(&read.record, read.signal, None)
}

/// Found as the case states: three decays, f 1.20 ± 3 %, ζ 0.215 ± 10 %, 2u covering both; then k_w 24.6 N/mm ± 6 % and
/// ζ on springs 0.253 ± 10 %.
#[test]
fn c8_is_found_again() {
    let found = c8();
    let expected = json("cases/measuring.json")["C8"]["expected"].clone();
    let truth = |key: &str| expected[key].as_f64().expect(key);
    assert_eq!(found.bounce.decays.len(), 3, "{:?}", found.bounce);
    let (frequency, damping) = (found.bounce.frequency_hz.expect("known"), found.bounce.damping.expect("known"));
    for (found, truth, within) in [(frequency, truth("body_frequency_hz"), 0.03), (damping, truth("body_zeta"), 0.1)] {
        assert!((found.value / truth - 1.0).abs() < within, "{found:?} of {truth}");
        assert!((found.value - truth).abs() < 2.0 * found.u, "{found:?} of {truth}");
    }
    let mode = BodyMode { frequency: Quantity::from_si(frequency.value), damping: Ratio::from_si(damping.value) };
    let [ms, mu, kt] = [395.0, 42.0, 205e3];
    let (rate, c) =
        mode.rate_and_damping(Mass::from_si(ms), Mass::from_si(mu), SpringRate::from_si(kt)).expect("a corner");
    assert!((rate.si() / 24_600.0 - 1.0).abs() < 0.06, "{rate:?}");
    let on_springs = c.si() / (2.0 * (rate.si() * ms).sqrt());
    assert!((on_springs / truth("model_zeta_on_springs") - 1.0).abs() < 0.1, "{on_springs}");
    let directive = found.bounce.directive.expect("two peaks in each decay");
    let exact = truth("body_zeta") / (1.0 - truth("body_zeta").powi(2)).sqrt();
    assert!((directive.value - exact).abs() < 3.0 * directive.u, "{directive:?} of {exact}");
    assert!(
        (found.bounce.peak_speed_m_per_s.expect("known") / truth("peak_damper_speed_at_wheel_m_per_s") - 1.0).abs()
            < 0.25
    );
}

/// The truth of the case is that of the quarter car's polynomial.
#[test]
fn the_body_mode_of_c8() {
    let mode = BodyMode::of(&corner([395.0, 42.0, 24_600.0, 205_000.0, 1_579.5])).expect("it swings");
    assert_relative_eq!(mode.frequency.si(), 1.1999321793792594, max_relative = 1e-6);
    assert_relative_eq!(mode.damping.si(), 0.21499885, max_relative = 1e-4);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]
    /// Roots of the polynomial against eigenvalues of the equations of motion by a general library; back to k and c.
    #[test]
    fn the_body_mode_is_that_of_the_equations_of_motion(
        ms in 80.0..900.0_f64, mu in 18.0..130.0_f64, k in 8e3..120e3_f64, kt in 90e3..500e3_f64, ratio in 0.01..0.6_f64
    ) {
        let c = 2.0 * ratio * (k * ms).sqrt();
        let corner = corner([ms, mu, k, kt, c]);
        let matrix = Matrix4::new(
            0.0, 1.0, 0.0, 0.0,
            -k / ms, -c / ms, k / ms, c / ms,
            0.0, 0.0, 0.0, 1.0,
            k / mu, c / mu, -(k + kt) / mu, -c / mu,
        );
        let slowest = matrix.complex_eigenvalues().iter().copied().min_by(|a, b| a.norm().total_cmp(&b.norm())).unwrap();
        prop_assume!(slowest.im.abs() > 1e-3 * slowest.norm());
        let mode = BodyMode::of(&corner).expect("it swings");
        prop_assert!((mode.frequency.si() * TAU / slowest.norm() - 1.0).abs() < 1e-8);
        prop_assert!((mode.damping.si() + slowest.re / slowest.norm()).abs() < 1e-8);
        let (rate, damping) = mode.rate_and_damping(corner.sprung, corner.unsprung, corner.tyre_rate).expect("a corner");
        prop_assert!((rate.si() / k - 1.0).abs() < 1e-7 && (damping.si() / c - 1.0).abs() < 1e-7);
        let again = body_mode::damping_for(&corner, mode.damping).expect("it exists");
        // The least rate that gives it: of a light body with much damping there are two.
        let mode_again = BodyMode::of(&Corner { damping: again, ..corner }).expect("it swings");
        prop_assert!(again.si() < c * (1.0 + 1e-6), "{again:?} of {c}");
        prop_assert!((mode_again.damping.si() - mode.damping.si()).abs() < 1e-6, "{mode_again:?} of {mode:?}");
    }
}

/// A body lighter than what hangs on it: the damping ratio has a low hill before the body stops swinging, and the rate
/// sought lies at its top.
#[test]
fn a_damping_ratio_at_the_top_of_its_hill_is_found() {
    let [ms, mu, k, kt]: [f64; 4] = [105.340_158_551_893_25, 117.148_793_056_184_4, 43_033.464_205_269_294, 90_000.0];
    let c = 2.0 * 0.592_589_937_391_211 * (k * ms).sqrt();
    let corner = corner([ms, mu, k, kt, c]);
    let mode = BodyMode::of(&corner).expect("it swings");
    let again = body_mode::damping_for(&corner, mode.damping).expect("it exists");
    assert!(again.si() < c * (1.0 + 1e-6), "{again:?} of {c}");
    let mode_again = BodyMode::of(&Corner { damping: again, ..corner }).expect("it swings");
    assert_relative_eq!(mode_again.damping.si(), mode.damping.si(), epsilon = 1e-6);
}

#[test]
fn a_body_that_creeps_has_no_mode() {
    assert_eq!(BodyMode::of(&corner([400.0, 40.0, 25e3, 200e3, 9_000.0])), None);
    assert_eq!(BodyMode::of(&corner([400.0, 40.0, f64::NAN, 200e3, 1_000.0])), None);
}

/// `scipy.optimize.least_squares` over all five numbers at once, from the same samples.
#[test]
fn the_fit_is_that_of_scipy() {
    let reference = json("recording/reference.json");
    for fit in reference["fits"].as_array().expect("fits") {
        let samples: Vec<f64> = fit["samples"].as_array().unwrap().iter().map(|v| v.as_f64().unwrap()).collect();
        let found = decay_fit::fit(&samples, 0.02, false).expect("a decay");
        let is = |value: f64, key: &str, within: f64| {
            assert_relative_eq!(value, fit[key].as_f64().expect(key), max_relative = within);
        };
        is(found.frequency_hz.value, "frequency_hz", 1e-6);
        is(found.damping.value, "damping", 1e-5);
        is(found.residual, "residual", 1e-6);
        is(found.frequency_hz.u, "u_frequency_hz", 1e-3);
        is(found.damping.u, "u_damping", 1e-3);
    }
}

/// `scipy.signal.welch` on the upward acceleration of C8.
#[test]
fn the_spectrum_is_that_of_scipy() {
    let reference = json("recording/reference.json")["welch"].clone();
    let numbers =
        |key: &str| -> Vec<f64> { reference[key].as_array().unwrap().iter().map(|v| v.as_f64().unwrap()).collect() };
    let found = spectrum::welch(&[numbers("signal")], 0.02, 4.0);
    let (hz, density) = (numbers("hz"), numbers("density"));
    assert_eq!(found.len(), hz.len());
    let most = density.iter().copied().fold(0.0, f64::max);
    for (found, (hz, density)) in found.iter().zip(hz.iter().zip(&density)) {
        assert!(
            (found[0] - hz).abs() < 1e-12 && (found[1] - density).abs() < 1e-12 * most,
            "{found:?} of {hz} {density}"
        );
    }
}

/// W_k as an analogue filter through `scipy.signal.lsim` at ten times the rate. 0.5 %: the tail that rings on is cut.
#[test]
fn w_k_is_that_of_scipy() {
    let reference = json("recording/reference.json")["drive"].clone();
    let number = |v: &Value| v.as_f64().unwrap();
    let sines: Vec<[f64; 3]> =
        reference["sines"].as_array().unwrap().iter().map(|s| [number(&s[0]), number(&s[1]), number(&s[2])]).collect();
    let at = |t: f64| sines.iter().map(|[f, a, p]| a * (TAU * f * t + p).sin()).sum::<f64>();
    let samples: Vec<f64> = (0..8000).map(|i| at(f64::from(i) / 200.0)).collect();
    let found = drive(&[(0.0, samples)], 1.0 / 200.0).expect("40 s");
    let felt = found.felt.expect("200 Hz");
    assert_relative_eq!(felt.rms_m_per_s2, number(&reference["rms"]), max_relative = 5e-3);
    assert_relative_eq!(felt.crest, number(&reference["crest"]), max_relative = 1e-2);
    assert_relative_eq!(felt.dose, number(&reference["dose"]), max_relative = 5e-3);
    // 1.3 Hz is the strongest below 3.5 Hz, 11 Hz above 7 Hz; lines are 0.25 Hz apart.
    assert!((found.body_hz.expect("a peak") - 1.3).abs() < 0.25 && (found.hop_hz.expect("a peak") - 11.0).abs() < 0.25);
    let slow: Vec<f64> = (0..2000).map(|i| at(f64::from(i) / 50.0)).collect();
    assert_eq!(drive(&[(0.0, slow.clone())], 1.0 / 50.0).expect("40 s").felt, None, "50 Hz is too slow for W_k");
    assert_eq!(drive(&[(0.0, slow[..1500].to_vec())], 1.0 / 50.0), None, "30 s are too short");
}

/// A two-slope damper at the wheel.
#[derive(Clone, Copy)]
struct TwoSlope {
    mean: f64,
    split: f64,
    knee: f64,
    upper: f64,
}

impl TwoSlope {
    fn force(&self, speed: f64) -> f64 {
        let bump = 2.0 * self.mean / (1.0 + self.split);
        let rate = if speed > 0.0 { bump } else { bump * self.split };
        let size = speed.abs();
        speed.signum() * rate * (size.min(self.knee) + self.upper * (size - self.knee).max(0.0))
    }

    /// Mean rate of equal work at a peak speed.
    fn equal_work(&self, peak: f64) -> f64 {
        let a = (self.knee / peak).min(1.0);
        let below = 2.0 / PI * (a.asin() + a * (1.0 - a * a).sqrt());
        self.mean * (self.upper + (1.0 - self.upper) * below)
    }
}

/// A quarter car that is pushed: masses, rates, damper, Coulomb friction.
#[derive(Clone, Copy)]
struct Pushed {
    ms: f64,
    mu: f64,
    k: f64,
    kt: f64,
    damper: TwoSlope,
    friction_n: f64,
}

/// Pushes: when, force, how long.
type Pushes = Vec<(f64, f64, f64)>;

impl Pushed {
    /// Acceleration of the body and speed of the damper, each so often, by Runge's and Kutta's steps of a millisecond.
    fn run(&self, pushes: &Pushes, until_s: f64, rate_hz: f64) -> (Vec<f64>, Vec<f64>) {
        const STEP_S: f64 = 1e-3;
        let push = |t: f64| -> f64 {
            let one = |(from, force, lasts): &(f64, f64, f64)| {
                let x = (t - from) / lasts;
                if (0.0..1.0).contains(&x) { force * (PI * x).sin() } else { 0.0 }
            };
            pushes.iter().map(one).sum()
        };
        let slopes = |t: f64, [xs, vs, xu, vu]: [f64; 4]| {
            let speed = vu - vs;
            let rub = self.friction_n * (speed / 2e-3).tanh();
            let force = self.k * (xu - xs) + self.damper.force(speed) + rub;
            [vs, (force - push(t)) / self.ms, vu, (-self.kt * xu - force) / self.mu]
        };
        let add = |y: [f64; 4], by: f64, d: [f64; 4]| std::array::from_fn(|i| y[i] + by * d[i]);
        let every = (1.0 / rate_hz / STEP_S).round() as usize;
        let (mut y, mut accelerations, mut speeds) = ([0.0; 4], Vec::new(), Vec::new());
        for i in 0..(until_s / STEP_S) as usize {
            let t = i as f64 * STEP_S;
            let a = slopes(t, y);
            if i % every == 0 {
                accelerations.push(a[1]);
                speeds.push(y[3] - y[1]);
            }
            let b = slopes(t + 0.5 * STEP_S, add(y, 0.5 * STEP_S, a));
            let c = slopes(t + 0.5 * STEP_S, add(y, 0.5 * STEP_S, b));
            let d = slopes(t + STEP_S, add(y, STEP_S, c));
            y = std::array::from_fn(|i| y[i] + STEP_S / 6.0 * (a[i] + 2.0 * b[i] + 2.0 * c[i] + d[i]));
        }
        (accelerations, speeds)
    }
}

struct Draw(Xoshiro256PlusPlus);

impl Draw {
    fn of(seed: u64) -> Draw {
        Draw(Xoshiro256PlusPlus::seed_from_u64(seed))
    }

    fn from(&mut self, low: f64, high: f64) -> f64 {
        Uniform::new(low, high).expect("a range").sample(&mut self.0)
    }

    fn noise(&mut self, values: &mut [f64], scatter: f64) {
        let normal = Normal::new(0.0, scatter).expect("a scatter");
        values.iter_mut().for_each(|v| *v += normal.sample(&mut self.0));
    }
}

/// One bounced vehicle: a body mode of this damping ratio at low speed, three decays, each after two pushes that swing
/// it to about 1 m/s².
struct Vehicle {
    car: Pushed,
    pushes: Pushes,
    until_s: f64,
}

fn vehicle(draw: &mut Draw, [low, high]: [f64; 2]) -> Vehicle {
    let (ms, mu, kt) = (draw.from(250.0, 600.0), draw.from(30.0, 60.0), draw.from(180e3, 260e3));
    let k = ms * (TAU * draw.from(1.0, 1.6)).powi(2);
    let ratio = draw.from(low, high);
    let mean = body_mode::damping_for(&corner([ms, mu, k, kt, 0.0]), Ratio::from_si(ratio)).expect("there is one").si();
    let damper = TwoSlope { mean, split: draw.from(1.5, 3.0), knee: draw.from(0.1, 0.25), upper: draw.from(0.3, 0.6) };
    let mode = BodyMode::of(&corner([ms, mu, k, kt, mean])).expect("it swings");
    let period = 1.0 / mode.frequency.si();
    // Two half waves in step: what the first leaves and what the second adds.
    let reach = 1.2 * ((-PI * ratio).exp() + (-3.0 * PI * ratio).exp());
    let force = draw.from(0.8, 1.3) * ms / reach;
    let mut pushes = Vec::new();
    for bounce in 0..3 {
        let force = force * draw.from(0.9, 1.1);
        let from = 1.5 + 5.0 * f64::from(bounce);
        pushes.extend([(from, force, 0.5 * period), (from + period, force, 0.5 * period)]);
    }
    Vehicle { car: Pushed { ms, mu, k, kt, damper, friction_n: 0.0 }, pushes, until_s: 16.5 }
}

fn found(accelerations: Vec<f64>, rate_hz: f64) -> Bounce {
    bounces(&[(0.0, accelerations)], 1.0 / rate_hz, Signal::Acceleration, true)
}

/// Shares of trials: decays all found, ζ and f near the truth, 2u covering ζ and f.
#[derive(Debug, Default)]
struct Shares {
    all_found: usize,
    damping_near: usize,
    frequency_near: usize,
    damping_covered: usize,
    frequency_covered: usize,
}

/// Against the body mode with the damping rate of equal work at the peak speed after the first top.
fn trials(count: u64, range: [f64; 2], near: f64) -> Shares {
    let mut shares = Shares::default();
    for seed in 0..count {
        let mut draw = Draw::of(1_000 + seed);
        let Vehicle { car, pushes, until_s } = vehicle(&mut draw, range);
        let (mut acceleration, speed) = car.run(&pushes, until_s, 50.0);
        draw.noise(&mut acceleration, 0.05);
        let found = found(acceleration, 50.0);
        shares.all_found += usize::from(found.decays.len() == 3);
        let (Some(frequency), Some(damping)) = (found.frequency_hz, found.damping) else { continue };
        let peak = |from_s: f64, until_s: f64| {
            let part = &speed[(from_s * 50.0) as usize..((until_s * 50.0) as usize).min(speed.len())];
            part.iter().fold(0.0_f64, |m, v| m.max(v.abs()))
        };
        let peaks: f64 = found.decays.iter().map(|d| peak(d.from_s, d.until_s)).sum();
        let c = car.damper.equal_work(peaks / found.decays.len() as f64);
        let truth = BodyMode::of(&corner([car.ms, car.mu, car.k, car.kt, c])).expect("it swings");
        let (f, z) = (truth.frequency.si(), truth.damping.si());
        shares.damping_near += usize::from((damping.value / z - 1.0).abs() < 0.1);
        shares.frequency_near += usize::from((frequency.value / f - 1.0).abs() < near);
        shares.damping_covered += usize::from((damping.value - z).abs() < 2.0 * damping.u);
        shares.frequency_covered += usize::from((frequency.value - f).abs() < 2.0 * frequency.u);
    }
    println!("{range:?}: {shares:?} of {count}");
    shares
}

/// What the method is good to: ζ within 10 %, f within 1 % to ζ 0.2 and 3 % to ζ 0.3, each in 90 of 100 drawn vehicles,
/// and 2u covers as often.
#[test]
fn bounces_are_as_good_as_stated() {
    for (range, near) in [([0.08, 0.2], 0.01), ([0.2, 0.29], 0.03)] {
        let shares = trials(100, range, near);
        assert!(shares.all_found >= 90, "{range:?}: {shares:?}");
        assert!(shares.damping_near >= 90 && shares.frequency_near >= 90, "{range:?}: {shares:?}");
        assert!(shares.damping_covered >= 90 && shares.frequency_covered >= 90, "{range:?}: {shares:?}");
    }
}

/// A quarter car with an even damper, bounced three times, sampled at a rate.
fn plain(rate_hz: f64, friction_n: f64) -> (Pushed, Vec<f64>) {
    let damper = TwoSlope { mean: 1_200.0, split: 1.0, knee: 10.0, upper: 1.0 };
    let car = Pushed { ms: 400.0, mu: 40.0, k: 25e3, kt: 200e3, damper, friction_n };
    let pushes =
        (0..3).flat_map(|i| [(1.5 + 5.0 * f64::from(i), 480.0, 0.42), (2.34 + 5.0 * f64::from(i), 480.0, 0.42)]);
    let (mut acceleration, _) = car.run(&pushes.collect(), 16.5, rate_hz);
    Draw::of(3).noise(&mut acceleration, 0.03);
    (car, acceleration)
}

fn mode_of(car: &Pushed) -> BodyMode {
    BodyMode::of(&corner([car.ms, car.mu, car.k, car.kt, car.damper.mean])).expect("it swings")
}

#[track_caller]
fn is_near(found: &Bounce, truth: &BodyMode, [f_within, z_within]: [f64; 2]) {
    let (frequency, damping) = (found.frequency_hz.expect("known"), found.damping.expect("known"));
    assert!((frequency.value / truth.frequency.si() - 1.0).abs() < f_within, "{frequency:?} of {truth:?}");
    assert!((damping.value / truth.damping.si() - 1.0).abs() < z_within, "{damping:?} of {truth:?}");
}

#[test]
fn an_even_damper_is_found_at_any_rate() {
    for rate in [10.0, 25.0, 50.0, 100.0, 500.0] {
        let (car, acceleration) = plain(rate, 0.0);
        let found = found(acceleration, rate);
        assert_eq!(found.decays.len(), 3, "{rate} Hz: {:?}", found.left_out);
        is_near(&found, &mode_of(&car), [0.01, 0.06]);
        assert_eq!(found.friction, None, "{rate} Hz");
    }
}

/// An engine that idles: 0.5 m/s² at 24 Hz, more than half of the swing.
#[test]
fn an_idling_engine_does_no_harm() {
    for rate in [100.0, 500.0] {
        let (car, mut acceleration) = plain(rate, 0.0);
        acceleration.iter_mut().enumerate().for_each(|(i, a)| *a += 0.5 * (TAU * 24.0 * i as f64 / rate).sin());
        let found = found(acceleration, rate);
        assert_eq!(found.decays.len(), 3, "{rate} Hz: {:?}", found.left_out);
        is_near(&found, &mode_of(&car), [0.02, 0.1]);
    }
}

/// Friction of 1 % of the load under a weak damper: the damping ratio grows as the motion gets smaller, and its size is
/// told within a factor of two.
#[test]
fn friction_is_seen() {
    let (mut car, _) = plain(100.0, 0.01 * 400.0 * 9.806_65);
    car.damper.mean = 500.0;
    let pushes =
        (0..3).flat_map(|i| [(1.5 + 5.0 * f64::from(i), 480.0, 0.42), (2.34 + 5.0 * f64::from(i), 480.0, 0.42)]);
    let (mut acceleration, _) = car.run(&pushes.collect(), 16.5, 100.0);
    Draw::of(3).noise(&mut acceleration, 0.03);
    let found = found(acceleration, 100.0);
    let friction = found.friction.unwrap_or_else(|| panic!("it is seen: {found:#?}"));
    let share = friction.share.expect("an acceleration").value;
    assert!(friction.damping[1] > friction.damping[0]);
    assert!((0.5..2.0).contains(&(share / 0.01)), "{friction:?}");
}

/// Both ends coupled: a little of another mode near by is in each decay. It is right within its ±, or it is left out.
#[test]
fn a_coupled_end_is_right_or_left_out() {
    let (car, mut acceleration) = plain(50.0, 0.0);
    for start in [2.76, 7.76, 12.76] {
        for (i, a) in acceleration.iter_mut().enumerate() {
            let t = i as f64 / 50.0 - start;
            if t > 0.0 && t < 4.0 {
                *a += 0.15 * (-0.25 * TAU * 1.5 * t).exp() * (TAU * 1.5 * t).sin();
            }
        }
    }
    let found = found(acceleration, 50.0);
    let truth = mode_of(&car);
    let (frequency, damping) = (found.frequency_hz.expect("known"), found.damping.expect("known"));
    assert!((frequency.value / truth.frequency.si() - 1.0).abs() < 0.06, "{frequency:?}");
    assert!((damping.value / truth.damping.si() - 1.0).abs() < 0.2, "{damping:?}");
}

/// A phone that slips in the second bounce: that decay is left out, or the others carry the result.
#[test]
fn a_phone_that_slips_is_left_out() {
    let (car, mut acceleration) = plain(50.0, 0.0);
    for (i, a) in acceleration.iter_mut().enumerate() {
        // A knock of 3 m/s² for 0.1 s in the middle of the second decay, then another rest.
        *a += if (395..400).contains(&i) { 3.0 } else { 0.0 } + if i >= 400 { 0.4 } else { 0.0 };
    }
    let found = found(acceleration, 50.0);
    assert!((2..=3).contains(&found.decays.len()), "{found:?}");
    assert!(found.decays.iter().all(|d| !(d.from_s..d.until_s).contains(&7.95)), "the knock is in no decay: {found:?}");
    is_near(&found, &mode_of(&car), [0.02, 0.12]);
}

#[test]
fn heavy_damping_gives_no_frequency() {
    let (mut car, _) = plain(50.0, 0.0);
    car.damper.mean = 3_000.0;
    let pushes =
        (0..3).flat_map(|i| [(1.5 + 5.0 * f64::from(i), 900.0, 0.42), (2.34 + 5.0 * f64::from(i), 900.0, 0.42)]);
    let (mut acceleration, _) = car.run(&pushes.collect(), 16.5, 100.0);
    Draw::of(4).noise(&mut acceleration, 0.02);
    let found = found(acceleration, 100.0);
    if let Some(damping) = found.damping {
        assert!(damping.value > 0.3 && damping.u >= 0.15 * damping.value, "{damping:?}");
        assert_eq!(found.frequency_hz, None);
    }
}

#[test]
fn noise_and_stillness_show_no_bounce() {
    for scatter in [0.0_f64, 0.02, 0.5] {
        let mut still = vec![0.0; 3000];
        Draw::of(5).noise(&mut still, scatter.max(1e-12));
        let found = found(still, 50.0);
        assert!(found.decays.len() <= 1, "{scatter}: {:?}", found.decays);
    }
}

/// A displacement in m, with drift, upside down or not.
#[test]
fn a_displacement_is_fitted_with_its_drift() {
    let (zeta, omega) = (0.2_f64, TAU * 1.2);
    let decay = |t: f64| 0.03 * (-zeta * omega * t).exp() * ((1.0 - zeta * zeta).sqrt() * omega * t).cos();
    let at = |i: usize| {
        let t = i as f64 / 100.0;
        let bounce = [2.0, 7.0, 12.0].iter().rfind(|s| t >= **s);
        let push = [2.0, 7.0, 12.0].iter().find(|s| t < **s && t > **s - 0.4);
        let motion = bounce.map_or(0.0, |s| decay(t - s));
        let pushed = push
            .map_or(0.0, |s| 0.03 * 0.5 * (1.0 - (TAU * 1.25 * (s - t)).cos()) - 0.045 * (PI * (s - t) / 0.4).sin());
        motion + pushed + 2e-4 * t
    };
    let samples: Vec<f64> = (0..1600).map(at).collect();
    let found = bounces(&[(0.0, samples)], 0.01, Signal::Displacement, false);
    let damping = found.damping.expect("found");
    assert!((damping.value - 0.2).abs() < 0.02, "{damping:?} {:?}", found.left_out);
    assert!((found.frequency_hz.expect("found").value - 1.2).abs() < 0.03);
    assert!(found.friction.is_none_or(|f| f.share.is_none()), "no share of the load from a displacement");
}

/// The directive's D of a pure decay, by its own definition.
#[test]
fn the_directives_damping_is_the_logarithm_of_successive_peaks() {
    let (zeta, omega) = (0.15_f64, TAU * 1.2);
    let at = |i: usize| {
        let t = i as f64 / 100.0 - 2.0;
        let damped = (1.0 - zeta * zeta).sqrt() * omega;
        if t < 0.0 {
            1.6 * (-4.0 * t * t).exp() * (damped * t).cos()
        } else {
            1.6 * (-zeta * omega * t).exp() * (damped * t).cos()
        }
    };
    let found = found((0..800).map(at).collect(), 100.0);
    let directive = found.directive.expect("two peaks").value;
    assert_relative_eq!(directive, zeta / (1.0 - zeta * zeta).sqrt(), max_relative = 0.02);
}

#[test]
fn two_drives_differ_only_beyond_their_scatter() {
    let noise = |seed: u64, scatter: f64| {
        let mut samples = vec![0.0; 12_000];
        Draw::of(seed).noise(&mut samples, scatter);
        drive(&[(0.0, samples)], 1.0 / 200.0).expect("60 s")
    };
    let (before, after) = (noise(1, 1.0), noise(2, 0.8));
    let ratio = after.ratio_to(&before).expect("both are long enough");
    assert!((ratio.value - 0.8).abs() < 3.0 * ratio.u && (1.0 - ratio.value) > 2.0 * ratio.u, "{ratio:?}");
    let same = noise(3, 1.0).ratio_to(&before).expect("both");
    assert!((same.value - 1.0).abs() < 2.5 * same.u, "{same:?}");
}

#[test]
fn times_are_put_on_an_even_grid() {
    let wave = |t: f64| (TAU * 1.2 * t).sin();
    let record = |times: &[f64]| evenly(times, vec![times.iter().map(|t| wave(*t)).collect()]);
    let even: Vec<f64> = (0..200).map(|i| f64::from(i) / 50.0).collect();
    let found = record(&even).expect("even");
    assert_eq!((found.gaps, found.interpolated, found.stretches[0].len()), (0, false, 200));
    assert_relative_eq!(found.rate_hz(), 50.0, max_relative = 1e-12);
    // Milliseconds of a 400 Hz sensor: rounded, not uneven.
    let rounded: Vec<f64> = (0..4000).map(|i| (f64::from(i) * 2.5).round() / 1e3).collect();
    let found = record(&rounded).expect("rounded");
    assert!(!found.interpolated);
    assert_relative_eq!(found.rate_hz(), 400.0, max_relative = 1e-3);
    // Steps between 12 and 28 ms.
    let mut draw = Draw::of(6);
    let mut time = 0.0;
    let uneven: Vec<f64> = (0..500)
        .map(|_| {
            time += draw.from(0.012, 0.028);
            time
        })
        .collect();
    let found = record(&uneven).expect("uneven");
    assert!(found.interpolated);
    let stretch = &found.stretches[0];
    let off = (0..stretch.len())
        .map(|i| (stretch.axes[0][i] - wave(stretch.from_s + i as f64 * found.every_s)).abs())
        .fold(0.0, f64::max);
    assert!(off < 0.01, "{off}");
    // A second is missing.
    let gap: Vec<f64> = even.iter().map(|t| if *t < 2.0 { *t } else { t + 1.0 }).collect();
    let found = record(&gap).expect("two parts");
    assert_eq!((found.gaps, found.stretches.len(), found.stretches[1].from_s), (1, 2, 3.0));
    let slow: Vec<f64> = (0..20).map(f64::from).collect();
    assert!(matches!(record(&slow), Err(Uneven::TooSlow { .. })));
    assert!(matches!(record(&[0.0, 0.1]), Err(Uneven::TooShort { .. })));
    let fast: Vec<f64> = (0..20).map(|i| f64::from(i) * 1e-6).collect();
    assert!(matches!(record(&fast), Err(Uneven::TooFast { .. })));
}

#[test]
fn what_is_left_out_is_told_in_order() {
    let found = c8();
    assert!(found.bounce.left_out.iter().all(|l| l.1 == LeftOut::NotFree || l.1 == LeftOut::OtherFrequency));
    assert!(found.bounce.left_out.windows(2).all(|w| w[0].0 <= w[1].0));
}

/// The demo van's front axle as the job predicts it, bounced four times with a phone on the wing, 6° off upright: before
/// the swap on dampers that have lost a tenth, after the work on dampers that give what was wanted.
fn demo_recording(is_before: bool) -> (Pushed, String) {
    let answer = springwright::solve::solve(&springwright::shop::presets::PRESETS[0].job());
    let predicted = &answer.axle(springwright::job::Side::Front).bench.predicted;
    let on = if is_before { predicted.before } else { predicted.new };
    let corner = on.expect("the demo knows it").corner;
    let mean = corner.damping.si() * if is_before { 0.9 } else { 1.0 };
    let damper = TwoSlope { mean, split: 2.0, knee: 0.25, upper: 0.5 };
    let car = Pushed {
        ms: corner.sprung.si(),
        mu: corner.unsprung.si(),
        k: corner.wheel_rate.si(),
        kt: corner.tyre_rate.si(),
        damper,
        friction_n: 0.0,
    };
    let period = 1.0 / mode_of(&car).frequency.si();
    let pushes = (0..4).flat_map(|i| {
        let from = 1.5 + 5.5 * f64::from(i);
        [(from, 900.0, 0.5 * period), (from + period, 900.0, 0.5 * period)]
    });
    let (mut up, _) = car.run(&pushes.collect(), 24.0, 50.0);
    let mut draw = Draw::of(if is_before { 11 } else { 12 });
    draw.noise(&mut up, 0.04);
    let mut across = vec![0.0; up.len()];
    draw.noise(&mut across, 0.03);
    let when = if is_before { "before the swap" } else { "after the work" };
    let mut text = format!(
        "# Made by springwright's own simulation, not on a vehicle: the demo van's front axle {when},\n\
         # pushed down and let go four times, a phone on the wing.\ntime_s,ax_m_s2,ay_m_s2,az_m_s2\n"
    );
    let (sin, cos) = 6.0_f64.to_radians().sin_cos();
    for (i, (up, across)) in up.iter().zip(&across).enumerate() {
        let along = 9.806_65 + up;
        let (t, x, z) = (i as f64 / 50.0, along * sin + across, along * cos);
        text += &format!("{t:.2},{x:.3},{across:.3},{z:.3}\n");
    }
    (car, text)
}

/// What ships is what the simulation gives, and what was put into it is found again. `UPDATE=1` writes it anew.
#[test]
fn the_demo_recordings_are_those_of_the_demo_van() {
    for (is_before, (name, shipped)) in [true, false].into_iter().zip(recordings::DEMO) {
        let (car, text) = demo_recording(is_before);
        if std::env::var_os("UPDATE").is_some() {
            let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(format!("presets/{name}.csv"));
            springwright::job::file::write_text(&path, &text).expect("it is written");
            continue;
        }
        assert!(shipped == text, "{name} is another one: run with UPDATE=1");
        let read = recordings::open(Path::new(name), &Ask::default(), &Watch::default()).expect("a recording");
        assert!(read.cautions.is_empty(), "{:?}", read.cautions);
        let found = analyse(&read.record, read.signal, None).bounce;
        assert_eq!((found.decays.len(), found.left_out.len()), (4, 0), "{found:?}");
        let peak = found.peak_speed_m_per_s.expect("known");
        let mode = mode_of(&Pushed { damper: TwoSlope { mean: car.damper.equal_work(peak), ..car.damper }, ..car });
        is_near(&found, &mode, [0.02, 0.1]);
    }
}
