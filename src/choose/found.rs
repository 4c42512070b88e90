//! What was found of many springs side by side, and how it is counted.

use super::judge::{Judged, Limit};

/// Number of lanes at a time.
pub const LANES: usize = 256;
/// Number of these in one go.
pub(super) const ABREAST: usize = 8;

/// One number for each lane.
pub type Lane = [f64; LANES];

pub(super) const NONE: Lane = [f64::NAN; LANES];

/// What was found in each lane.
pub struct Found {
    /// Margins, limit by limit, as in [`Judged`].
    pub margins: [Lane; Limit::ALL.len()],
    /// Ride frequency, Hz.
    pub frequency_hz: Lane,
    /// Wheel travel, m.
    pub travel_m: Lane,
    /// Spacer, m.
    pub spacer_m: Lane,
    /// Worked out here; else the lane is to be judged alone.
    pub settled: [bool; LANES],
    /// What the seat has left either way, m along the spring.
    pub(super) left_m: Lane,
    pub(super) seat_m: Lane,
    pub(super) at_m: Lane,
    pub(super) wheel_rate: Lane,
}

impl Default for Found {
    fn default() -> Self {
        Found {
            margins: [NONE; Limit::ALL.len()],
            frequency_hz: NONE,
            travel_m: NONE,
            spacer_m: NONE,
            settled: [true; LANES],
            left_m: NONE,
            seat_m: NONE,
            at_m: NONE,
            wheel_rate: NONE,
        }
    }
}

/// The work of [`Found::broken`].
struct Counting<'a>(&'a Found);

impl pulp::NullaryFnOnce for Counting<'_> {
    type Output = ([usize; Limit::ALL.len()], usize);

    #[inline(always)]
    fn call(self) -> Self::Output {
        let mut any = [0_u64; LANES];
        let broken = std::array::from_fn(|limit| {
            let margin = &self.0.margins[limit];
            let mut sums = [0_u64; ABREAST];
            for first in (0..LANES).step_by(ABREAST) {
                for i in 0..ABREAST {
                    let is = u64::from(margin[first + i] < 0.0);
                    sums[i] += is;
                    any[first + i] |= is;
                }
            }
            sums.iter().sum::<u64>() as usize
        });
        (broken, LANES - any.iter().sum::<u64>() as usize)
    }
}

impl Found {
    /// Takes a lane that was judged alone.
    pub fn put(&mut self, i: usize, judged: &Judged) {
        for (lane, margin) in self.margins.iter_mut().zip(judged.margins) {
            lane[i] = margin;
        }
        (self.frequency_hz[i], self.travel_m[i], self.spacer_m[i]) =
            (judged.frequency_hz, judged.travel_m, judged.spacer_m);
    }

    /// How many of the first `count` lanes break each limit, and how many break none; the others are forgotten.
    pub fn broken(&mut self, count: usize) -> ([usize; Limit::ALL.len()], usize) {
        self.margins.iter_mut().for_each(|lane| lane[count..].fill(f64::NAN));
        let (broken, held) = pulp::Arch::new().dispatch(Counting(self));
        (broken, held - (LANES - count))
    }

    /// The least margin of each lane, each limit in its own measure.
    pub fn least(&self, per_si: &[f64; Limit::ALL.len()]) -> Lane {
        let mut least = [f64::INFINITY; LANES];
        for (margin, per_si) in self.margins.iter().zip(per_si) {
            for i in 0..LANES {
                // A margin that is not known is not less.
                let z = margin[i] * per_si;
                least[i] = if z < least[i] { z } else { least[i] };
            }
        }
        least
    }

    /// Takes from `alone`, of the first `count` lanes, what could not be worked out side by side.
    pub fn finish(&mut self, count: usize, mut alone: impl FnMut(usize) -> Option<Judged>) {
        for i in 0..count {
            if let Some(judged) = Some(i).filter(|i| !self.settled[*i]).and_then(&mut alone) {
                self.put(i, &judged);
            }
        }
    }
}
