//! What a run over a road shows, sample by sample and in a few figures.

use super::corner::Suspension;
use super::weighting;
use crate::base::bounds::RUN_STEPS;
use crate::base::language::Word;
use crate::base::math::ode::{Ended, Pace};
use crate::base::units::{Acceleration, Energy, Force, Length, Quantity, Ratio, Time, Velocity};

/// Samples so far apart, s: 256 a second, so that all that W_k weighs is seen.
pub const EVERY_S: f64 = 1.0 / 256.0;
/// So long a run over a rough road settles before it is counted, s.
pub const SETTLES_S: f64 = 3.0;
/// The end of a run over an obstacle: so long behind it, s.
const AFTER_S: f64 = 3.0;

/// Steps of one run: its share of all three roads in all three states.
const MOST_STEPS: usize = RUN_STEPS.count() / 9;

/// A road and how it is driven.
#[derive(Debug, Clone, Copy)]
pub struct Drive<'a> {
    /// The road.
    pub profile: &'a super::Profile,
    /// Speed of the vehicle, above zero.
    pub speed: Velocity,
}

impl Drive<'_> {
    /// The pace of a run whose last wheel is so far behind the first, m.
    pub fn pace(&self, behind_m: f64) -> Pace {
        let speed = self.speed.si();
        let after_s = if self.profile.repeats() { SETTLES_S } else { AFTER_S };
        // An obstacle is met in many steps; between the waves of a road the method chooses for itself.
        let longest_step_s = if self.profile.repeats() { 0.05 } else { (0.05 / speed).clamp(1e-3, 0.01) };
        Pace {
            until_s: (self.profile.length().si() + behind_m) / speed + after_s,
            every_s: EVERY_S,
            relative: 5e-6,
            absolute: 5e-8,
            longest_step_s,
            most_steps: MOST_STEPS,
        }
    }

    /// Height, m, and vertical speed, m/s, of the road under a wheel that is `behind_m` behind the first.
    #[inline]
    pub(super) fn under(&self, time_s: f64, behind_m: f64) -> (f64, f64) {
        let (height_m, slope) = self.profile.at(self.speed.si() * time_s - behind_m);
        (height_m, slope * self.speed.si())
    }
}

/// What one wheel and the body above it did, sample by sample, [`EVERY_S`] apart.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Track {
    /// Road under the wheel, m.
    pub road_m: Vec<f64>,
    /// Wheel above its rest, m.
    pub wheel_m: Vec<f64>,
    /// Body above its rest, over this wheel, m.
    pub body_m: Vec<f64>,
    /// Wheel compression from rest, m.
    pub pressed_m: Vec<f64>,
    /// Acceleration of the body over this wheel, m/s².
    pub acceleration_m_per_s2: Vec<f64>,
    /// Force of the tyre, N.
    pub tyre_n: Vec<f64>,
}

/// A whole run.
#[derive(Debug, Clone, PartialEq)]
pub struct Run {
    /// One wheel, or front and rear.
    pub tracks: Vec<Track>,
    /// From this sample on it is counted.
    pub counted_from: usize,
    /// How its weighted acceleration is expressed.
    pub weighted_by: WeightedBy,
    /// Work lost in the dampers over the whole run.
    pub lost: Energy,
    /// Work that the road put in over the whole run.
    pub put_in: Energy,
    /// What is held more at the end than at the start: motion, springs, tyres, height.
    pub held: Energy,
    /// Samples are so far apart.
    pub every: Time,
    /// Steps of the method.
    pub steps: usize,
}

/// Work summed up along a run, J, by the trapezium rule between samples.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Work {
    lost_j: f64,
    put_in_j: f64,
    held_j: f64,
    before: Option<(f64, f64)>,
}

impl Work {
    pub fn add(&mut self, (lost_w, put_in_w): (f64, f64), every_s: f64) {
        if let Some((lost_before_w, put_in_before_w)) = self.before {
            self.lost_j += 0.5 * every_s * (lost_before_w + lost_w);
            self.put_in_j += 0.5 * every_s * (put_in_before_w + put_in_w);
        }
        self.before = Some((lost_w, put_in_w));
    }

    pub fn held(self, held_j: f64) -> Work {
        Work { held_j, ..self }
    }
}

impl Run {
    pub(super) fn of(tracks: Vec<Track>, drive: &Drive<'_>, pace: Pace, steps: usize, work: Work) -> Run {
        let samples = tracks[0].road_m.len();
        // Of a road that repeats exactly one whole length is counted.
        let period = (drive.profile.length().si() / drive.speed.si() / pace.every_s).round() as usize;
        Run {
            counted_from: if drive.profile.repeats() { samples.saturating_sub(period) } else { 0 },
            weighted_by: if drive.profile.repeats() { WeightedBy::Rms } else { WeightedBy::Mtvv },
            lost: Energy::from_si(work.lost_j),
            put_in: Energy::from_si(work.put_in_j),
            held: Energy::from_si(work.held_j),
            every: Time::from_si(pace.every_s),
            tracks,
            steps,
        }
    }

    /// What is neither lost nor held of the work put in, as a share of all that went through: nothing if motion, springs
    /// and samples were followed well. Source `DERIVED` (conservation of energy).
    pub fn open_share(&self) -> Ratio {
        let (lost, put_in, held) = (self.lost.si(), self.put_in.si(), self.held.si());
        let most = lost.abs().max(put_in.abs()).max(held.abs());
        Ratio::from_si(if most > 0.0 { (put_in - lost - held).abs() / most } else { 0.0 })
    }

    /// The figures of one wheel; `None` for a wheel that it has not.
    pub fn said(&self, wheel: usize, suspension: &Suspension) -> Option<Said> {
        self.tracks.get(wheel)?.said(self, suspension)
    }
}

/// How a weighted acceleration is expressed. Source `R2631`.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum WeightedBy {
    /// rms over the whole road.
    Rms,
    /// Largest running rms over 1 s: one hump counts the same however long the road behind it is.
    Mtvv,
}

impl WeightedBy {
    /// The key in results.
    pub fn key(self) -> &'static str {
        match self {
            WeightedBy::Rms => "rms",
            WeightedBy::Mtvv => "mtvv",
        }
    }
}

/// A run in a few figures.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Said {
    /// rms of the travel about its own mean.
    pub travel_rms: Length,
    /// Mean travel against rest: + when the damper pulls the body down.
    pub pulled_down: Length,
    /// The largest wheel compression from rest.
    pub most_pressed: Length,
    /// How often the bump stop was met; `None` when its gap is not known.
    pub stop_hits: Option<usize>,
    /// How often metal was met; `None` when it is not known where.
    pub metal_hits: Option<usize>,
    /// rms of the body's acceleration.
    pub acceleration_rms: Acceleration,
    /// The same, weighted as people feel it.
    pub weighted: Acceleration,
    /// By rms, or by the largest running rms.
    pub weighted_by: WeightedBy,
    /// rms of the tyre's force about its mean.
    pub tyre_rms: Force,
    /// Share of the time in which the wheel is off the ground.
    pub in_the_air: Ratio,
}

impl Track {
    pub(super) fn with_room(samples: usize) -> Track {
        let room = || Vec::with_capacity(samples);
        Track {
            road_m: room(),
            wheel_m: room(),
            body_m: room(),
            pressed_m: room(),
            acceleration_m_per_s2: room(),
            tyre_n: room(),
        }
    }

    pub(super) fn add(&mut self, road_m: f64, wheel_m: f64, body_m: f64, acceleration_m_per_s2: f64, tyre_n: f64) {
        self.road_m.push(road_m);
        self.wheel_m.push(wheel_m);
        self.body_m.push(body_m);
        self.pressed_m.push(wheel_m - body_m);
        self.acceleration_m_per_s2.push(acceleration_m_per_s2);
        self.tyre_n.push(tyre_n);
    }

    /// The figures of a run's counted samples; `None` when there are none.
    fn said(&self, run: &Run, suspension: &Suspension) -> Option<Said> {
        let (counted_from, every_s) = (run.counted_from, run.every.si());
        let pressed = self.pressed_m.get(counted_from..).filter(|p| !p.is_empty())?;
        let acceleration = self.acceleration_m_per_s2.get(counted_from..)?;
        let tyre = self.tyre_n.get(counted_from..)?;
        let weighted = match run.weighted_by {
            WeightedBy::Rms => weighting::weighted_rms(acceleration, every_s),
            WeightedBy::Mtvv => weighting::mtvv(acceleration, every_s),
        };
        let (ends, rest_m) = (suspension.ends(), suspension.rest().si());
        let met = |at: Option<Length>| at.map(|at| upward(pressed, at.si() - rest_m));
        let in_the_air = tyre.iter().filter(|f| **f <= 0.0).count() as f64 / tyre.len() as f64;
        Some(Said {
            travel_rms: Length::from_si(scatter(pressed)),
            pulled_down: Length::from_si(mean(pressed)),
            most_pressed: Length::from_si(pressed.iter().copied().fold(f64::NEG_INFINITY, f64::max)),
            stop_hits: met(ends.stop),
            metal_hits: met(ends.metal),
            acceleration_rms: Acceleration::from_si(mean_square(acceleration).sqrt()),
            weighted,
            weighted_by: run.weighted_by,
            tyre_rms: Force::from_si(scatter(tyre)),
            in_the_air: Ratio::from_si(in_the_air),
        })
    }
}

impl Said {
    /// The standard's words for how it feels: one, or two where its bands overlap; none for one obstacle, since the bands
    /// are for shaking that lasts.
    pub fn reactions(&self) -> Vec<Word> {
        match self.weighted_by {
            WeightedBy::Rms => weighting::reactions(self.weighted),
            WeightedBy::Mtvv => Vec::new(),
        }
    }
}

/// How often a signal passes a height upward.
fn upward(signal: &[f64], at: f64) -> usize {
    signal.windows(2).filter(|w| w[0] < at && w[1] >= at).count()
}

fn mean(values: &[f64]) -> f64 {
    values.iter().sum::<f64>() / values.len() as f64
}

fn mean_square(values: &[f64]) -> f64 {
    values.iter().map(|v| v * v).sum::<f64>() / values.len() as f64
}

fn scatter(values: &[f64]) -> f64 {
    let mean = mean(values);
    (values.iter().map(|v| (v - mean) * (v - mean)).sum::<f64>() / values.len() as f64).sqrt()
}

/// Tells how far a run has come, now and then; the answer `false` stops it.
pub(super) fn told(watch: &mut impl FnMut(f64) -> bool, sample: usize, share: f64) -> bool {
    const NOW_AND_THEN: usize = 128;
    !sample.is_multiple_of(NOW_AND_THEN) || watch(share)
}

/// Why a run gave nothing.
pub type Stopped = Ended;
