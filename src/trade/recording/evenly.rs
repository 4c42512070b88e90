//! Samples as recorded, put on an even grid.

use thiserror::Error;

use crate::base::language::tr;
use crate::say;

/// A record with even steps, cut where samples are missing.
#[derive(Debug, Clone, PartialEq)]
pub struct Record {
    /// Samples this far apart, s.
    pub every_s: f64,
    /// Its parts without a gap, in order.
    pub stretches: Vec<Stretch>,
    /// How many gaps there were.
    pub gaps: usize,
    /// Steps were uneven: samples were interpolated.
    pub interpolated: bool,
}

/// Samples without a gap.
#[derive(Debug, Clone, PartialEq)]
pub struct Stretch {
    /// When it begins, s.
    pub from_s: f64,
    /// One to three axes, each with as many samples.
    pub axes: Vec<Vec<f64>>,
}

impl Stretch {
    /// How many samples each axis has.
    pub fn len(&self) -> usize {
        self.axes.first().map_or(0, Vec::len)
    }

    /// No samples at all.
    pub fn is_empty(&self) -> bool {
        self.len() == 0
    }
}

impl Record {
    /// How long all stretches are together, s.
    pub fn length_s(&self) -> f64 {
        self.stretches.iter().map(|s| s.len() as f64 * self.every_s).sum()
    }

    /// Samples a second, Hz.
    pub fn rate_hz(&self) -> f64 {
        1.0 / self.every_s
    }
}

/// A step of more than this many usual ones is a gap.
const GAP: f64 = 3.0;
/// Times off an even grid by less than this share of a step were rounded, not uneven.
const ROUNDED: f64 = 0.25;
/// A stretch shorter than this is left out, samples.
const SHORTEST: usize = 8;
/// The body moves at 0.8 to 3.5 Hz: slower rates than this cannot show it, Hz.
pub const SLOWEST_HZ: f64 = 8.0;
/// No sensor of a vehicle is as fast, Hz.
pub const FASTEST_HZ: f64 = 20_000.0;

/// Why times give no even grid.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum Uneven {
    /// Too few samples.
    #[error("{}", say!("the recording has {count} samples; at least {least} are needed", count, least))]
    TooShort {
        /// How many.
        count: usize,
        /// The fewest.
        least: usize,
    },
    /// Too few samples a second.
    #[error(
        "{}",
        say!("the recording has {rate:.2} samples per second; at least {least:.0} are needed to follow the body motion. Record at a higher rate, or check the unit of time", rate, least = SLOWEST_HZ)
    )]
    TooSlow {
        /// Samples a second.
        rate: f64,
    },
    /// Too many samples a second.
    #[error(
        "{}",
        say!("the recording has {rate:.0} samples per second, more than any sensor of this kind delivers. Check the unit of time", rate)
    )]
    TooFast {
        /// Samples a second.
        rate: f64,
    },
    /// No stretch without gaps is long enough.
    #[error("{}", tr("samples are missing throughout the recording: no part without gaps is long enough"))]
    OnlyGaps,
}

/// Puts samples at rising times on an even grid: as they are where times are even but for rounding, else interpolated
/// straight to the median rate. A step over three usual ones parts the record.
///
/// # Errors
/// [`Uneven`]: too short, too slow, too fast, or nothing but gaps.
pub fn evenly(times_s: &[f64], axes: Vec<Vec<f64>>) -> Result<Record, Uneven> {
    if times_s.len() < SHORTEST {
        return Err(Uneven::TooShort { count: times_s.len(), least: SHORTEST });
    }
    let median_s = median_step(times_s);
    let rate = 1.0 / median_s;
    if rate.is_nan() || rate < SLOWEST_HZ {
        return Err(Uneven::TooSlow { rate });
    }
    if rate > FASTEST_HZ {
        return Err(Uneven::TooFast { rate });
    }
    let parts = parts(times_s, GAP * median_s);
    let gaps = parts.len() - 1;
    let whole = |&(from, to): &(usize, usize)| to - from >= SHORTEST;
    let parts: Vec<(usize, usize)> = parts.into_iter().filter(whole).collect();
    // One rate for all parts: the mean of the longest, which clock rounding does not bias.
    let longest = parts.iter().max_by_key(|(from, to)| to - from).ok_or(Uneven::OnlyGaps)?;
    let mean_s = (times_s[longest.1 - 1] - times_s[longest.0]) / (longest.1 - 1 - longest.0) as f64;
    let is_even = parts.iter().all(|&(from, to)| off_grid(&times_s[from..to], mean_s) < ROUNDED * mean_s);
    if is_even && let [(from, to)] = parts.as_slice() {
        let cut = |mut axis: Vec<f64>| {
            axis.truncate(*to);
            axis.drain(..from);
            axis
        };
        let stretch = Stretch { from_s: times_s[*from], axes: axes.into_iter().map(cut).collect() };
        return Ok(Record { every_s: mean_s, stretches: vec![stretch], gaps, interpolated: false });
    }
    let every_s = if is_even { mean_s } else { median_s };
    let stretch = |&(from, to): &(usize, usize)| {
        let on_grid = |axis: &Vec<f64>| match is_even {
            true => axis[from..to].to_vec(),
            false => interpolated(&times_s[from..to], &axis[from..to], every_s),
        };
        Stretch { from_s: times_s[from], axes: axes.iter().map(on_grid).collect() }
    };
    Ok(Record { every_s, stretches: parts.iter().map(stretch).collect(), gaps, interpolated: !is_even })
}

/// The median step, of up to 100,000 steps evenly chosen.
fn median_step(times_s: &[f64]) -> f64 {
    const LOOKED_AT: usize = 100_000;
    let every = (times_s.len() / LOOKED_AT).max(1);
    let mut steps: Vec<f64> = times_s.windows(2).step_by(every).map(|w| w[1] - w[0]).collect();
    let middle = steps.len() / 2;
    *steps.select_nth_unstable_by(middle, f64::total_cmp).1
}

/// Where the record is cut: from, to.
fn parts(times_s: &[f64], gap_s: f64) -> Vec<(usize, usize)> {
    let cuts = (1..times_s.len()).filter(|i| times_s[*i] - times_s[*i - 1] > gap_s);
    let ends: Vec<usize> = [0].into_iter().chain(cuts).chain([times_s.len()]).collect();
    ends.windows(2).map(|w| (w[0], w[1])).collect()
}

/// The most that times are off an even grid, s.
fn off_grid(times_s: &[f64], every_s: f64) -> f64 {
    let off = |(i, t): (usize, &f64)| t - times_s[0] - i as f64 * every_s;
    let (least, most) = times_s.iter().enumerate().map(off).fold((0.0_f64, 0.0_f64), |(l, m), o| (l.min(o), m.max(o)));
    0.5 * (most - least)
}

fn interpolated(times_s: &[f64], values: &[f64], every_s: f64) -> Vec<f64> {
    let count = ((times_s[times_s.len() - 1] - times_s[0]) / every_s) as usize + 1;
    let mut at = 0;
    let value = |i: usize| {
        let time_s = times_s[0] + i as f64 * every_s;
        while at + 2 < times_s.len() && times_s[at + 1] < time_s {
            at += 1;
        }
        let share = ((time_s - times_s[at]) / (times_s[at + 1] - times_s[at])).clamp(0.0, 1.0);
        values[at] + share * (values[at + 1] - values[at])
    };
    (0..count).map(value).collect()
}
