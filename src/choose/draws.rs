//! Monte Carlo: every uncertain field drawn from its own law, the axle recalculated, each spring judged. Source
//! `GUM1` (JCGM 101:2008).
//!
//! A stated standard uncertainty is drawn from a normal law, limits from a rectangular one (6.4.7 and
//! 6.4.2 there). All springs meet the same draws, so what differs between two of them is the springs. Blocks of draws
//! have their own seeds and are put together in order: the result depends on seed and number of draws alone, not on how
//! many cores worked on it.

use std::sync::Mutex;
use std::sync::atomic::{AtomicUsize, Ordering};

use rand_xoshiro::Xoshiro256PlusPlus;
use rand_xoshiro::rand_core::SeedableRng;

use super::found::{Found, LANES, Lane};
use super::judge::{Bench, Bought, Candidate, Limit};
use super::lanes::{Lanes, Springs};
use crate::base::progress::Watch;
use crate::base::units::entry::Spread;
use crate::base::units::{Force, Frequency, Length, Mass, Quantity};
use crate::job::{Job, Side};
use crate::solve::drawn::law;
use crate::solve::ground::{Ground, Input, Survey, Wish};
use crate::trade::ride;
use crate::trade::spring::Stack;

/// How many draws, and from which seed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Draws {
    /// Number of draws.
    pub count: usize,
    /// The seed: the same seed gives the same result.
    pub seed: u64,
}

impl Default for Draws {
    fn default() -> Self {
        Draws { count: 100_000, seed: 1 }
    }
}

/// Mean and standard deviation of what was drawn.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Moments {
    /// How many values.
    pub count: usize,
    /// Mean.
    pub mean: f64,
    /// Sum of the squares of deviations from the mean.
    squares: f64,
}

impl Moments {
    /// Of some values; one that is not known does not count.
    fn of(values: &[f64]) -> Self {
        let count = summed(values, |_| 1.0);
        let mean = if count > 0.0 { summed(values, |v| v) / count } else { 0.0 };
        Moments { count: count as usize, mean, squares: summed(values, |v| (v - mean) * (v - mean)) }
    }

    /// Both together: pairwise update, as `DERIVED` from the sums.
    fn join(self, other: Moments) -> Moments {
        let count = self.count + other.count;
        if count == 0 {
            return self;
        }
        let (a, b, n) = (self.count as f64, other.count as f64, count as f64);
        let off = other.mean - self.mean;
        Moments { count, mean: self.mean + off * b / n, squares: self.squares + other.squares + off * off * a * b / n }
    }

    /// Standard deviation.
    pub fn sd(&self) -> f64 {
        if self.count < 2 { 0.0 } else { (self.squares / (self.count - 1) as f64).sqrt() }
    }
}

/// Σ f(v) of the values that are known, several abreast.
fn summed(values: &[f64], f: impl Fn(f64) -> f64) -> f64 {
    const ABREAST: usize = 8;
    let known = |v: f64| if v.is_finite() { f(v) } else { 0.0 };
    let (whole, rest) = values.as_chunks::<ABREAST>();
    let mut sums = [0.0; ABREAST];
    for chunk in whole {
        for (sum, v) in sums.iter_mut().zip(chunk) {
            *sum += known(*v);
        }
    }
    sums.iter().sum::<f64>() + rest.iter().map(|v| known(*v)).sum::<f64>()
}

/// What the draws say of one spring.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Tally {
    /// Draws in which every known limit held.
    pub held: usize,
    /// Draws in which each limit was broken, in the order of [`Limit::ALL`].
    pub broken: [usize; Limit::ALL.len()],
    /// Ride frequency on springs, Hz.
    pub frequency: Moments,
    /// Height above the wanted one, m.
    pub above: Moments,
    /// Spacer, m along the spring.
    pub spacer: Moments,
}

impl Tally {
    /// What the first `count` lanes say.
    fn of(found: &mut Found, wanted_m: &Lane, count: usize) -> Self {
        let (broken, held) = found.broken(count);
        let above: Lane = std::array::from_fn(|i| wanted_m[i] - found.travel_m[i]);
        Tally {
            held,
            broken,
            frequency: Moments::of(&found.frequency_hz[..count]),
            above: Moments::of(&above[..count]),
            spacer: Moments::of(&found.spacer_m[..count]),
        }
    }

    fn join(&mut self, other: &Tally) {
        self.held += other.held;
        for (count, more) in self.broken.iter_mut().zip(other.broken) {
            *count += more;
        }
        self.frequency = self.frequency.join(other.frequency);
        self.above = self.above.join(other.above);
        self.spacer = self.spacer.join(other.spacer);
    }
}

/// What all draws say, or those of one block.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Drawn {
    /// How many draws.
    pub count: usize,
    /// Draws in which the axle itself could not be worked out: no spring holds there.
    pub lost: usize,
    /// One for each spring: its spacer cut again after the axle was weighed on it, so far as the seat allows.
    pub springs: Vec<Tally>,
    /// One for each spring: on the spacer that is cut before anything is fitted.
    pub as_fitted: Vec<Tally>,
    /// The spring rate that gives the middle of the wanted range, N/m.
    pub needed: Moments,
    /// The same, draw by draw.
    rates: Vec<f64>,
}

impl Drawn {
    /// Share of the draws in which every limit of a spring held, its spacer cut again.
    pub fn chance(&self, spring: usize) -> f64 {
        self.share(&self.springs[spring])
    }

    /// The same as first fitted.
    pub fn chance_as_fitted(&self, spring: usize) -> f64 {
        self.share(&self.as_fitted[spring])
    }

    fn share(&self, tally: &Tally) -> f64 {
        tally.held as f64 / self.count.max(1) as f64
    }

    /// Between which the inner `share` of the needed rates lie, N/m.
    pub fn needed_within(&self, share: f64) -> Option<[f64; 2]> {
        let last = self.rates.len().checked_sub(1)?;
        let place = |share: f64| (share * last as f64).round() as usize;
        let mut rates = self.rates.clone();
        let (_, low, above) = rates.select_nth_unstable_by(place((1.0 - share) / 2.0), f64::total_cmp);
        let low = *low;
        let high = place((1.0 + share) / 2.0) - place((1.0 - share) / 2.0);
        let high = high.checked_sub(1).map_or(low, |i| *above.select_nth_unstable_by(i, f64::total_cmp).1);
        Some([low, high])
    }
}

/// Draws per block.
const BLOCK: usize = LANES;

/// Runs all draws on all cores; `None` when it was cancelled. `shrink` makes the ± of each input that much smaller: it
/// says what better measuring would buy.
pub fn run(
    job: &Job,
    side: Side,
    springs: &[Candidate],
    shrink: impl Fn(&Input) -> f64 + Sync,
    draws: Draws,
    watch: &Watch,
) -> Option<Drawn> {
    let blocks = draws.count.div_ceil(BLOCK);
    if !watch.has_begun() {
        watch.expect(draws.count);
    }
    let next = AtomicUsize::new(0);
    let finished: Mutex<Vec<(usize, Drawn)>> = Mutex::default();
    let work = || {
        let survey = Survey::new(job, side);
        let Some(wish) = survey.wish() else { return };
        let mut desk = Desk::new(survey, &wish, springs, &shrink);
        loop {
            let block = next.fetch_add(1, Ordering::Relaxed);
            if block >= blocks || watch.is_cancelled() {
                return;
            }
            let count = BLOCK.min(draws.count - block * BLOCK);
            let done = desk.one_block(seeded(draws.seed, block), count);
            watch.done(count);
            if let Ok(mut finished) = finished.lock() {
                finished.push((block, done));
            }
        }
    };
    std::thread::scope(|scope| {
        let helpers = std::thread::available_parallelism().map_or(1, |n| n.get()).min(blocks.max(1));
        for _ in 1..helpers {
            scope.spawn(work);
        }
        work();
    });
    let mut finished = finished.into_inner().ok()?;
    (!watch.is_cancelled() && finished.len() == blocks).then(|| {
        finished.sort_by_key(|(block, _)| *block);
        together(draws.count, springs.len(), finished)
    })
}

fn seeded(seed: u64, block: usize) -> Xoshiro256PlusPlus {
    // Blocks far apart: the seed is spread over the whole state by the generator's own seeding.
    Xoshiro256PlusPlus::seed_from_u64(seed.wrapping_mul(0x9E37_79B9_7F4A_7C15).wrapping_add(block as u64))
}

fn together(count: usize, springs: usize, blocks: Vec<(usize, Drawn)>) -> Drawn {
    let mut drawn = Drawn {
        count,
        springs: vec![Tally::default(); springs],
        as_fitted: vec![Tally::default(); springs],
        rates: Vec::with_capacity(count),
        ..Drawn::default()
    };
    for (_, block) in blocks {
        drawn.lost += block.lost;
        drawn.springs.iter_mut().zip(&block.springs).for_each(|(sum, more)| sum.join(more));
        drawn.as_fitted.iter_mut().zip(&block.as_fitted).for_each(|(sum, more)| sum.join(more));
        drawn.needed = drawn.needed.join(block.needed);
        drawn.rates.extend(block.rates);
    }
    drawn
}

/// What one thread works with, kept from block to block.
struct Desk<'a> {
    survey: Survey<'a>,
    wish: &'a Wish,
    springs: &'a [Candidate],
    /// The spacer of each spring for the current job, m, where it could be another one later.
    cut_m: Vec<Option<f64>>,
    /// Standard uncertainty of each input as it is drawn.
    scales: Vec<f64>,
    /// By how much each input was moved in each lane.
    moves: Vec<Vec<f64>>,
    bought: Box<[Bought; LANES]>,
    lanes: Box<Lanes>,
    fitted: Box<Springs>,
    found: Box<Found>,
}

impl<'a> Desk<'a> {
    fn new(survey: Survey<'a>, wish: &'a Wish, springs: &'a [Candidate], shrink: impl Fn(&Input) -> f64) -> Self {
        let scales: Vec<f64> = survey.inputs().iter().map(|i| i.u_si * shrink(i)).collect();
        let ground = survey.ground();
        let cut_m = |spring: &Candidate| {
            let can_be_cut = wish.is_seat_free() && spring.free_m.is_some();
            let spacer_m = Bench::new(ground.clone().filter(|_| can_be_cut)?, wish).judge(spring).spacer_m;
            spacer_m.is_finite().then_some(spacer_m)
        };
        Desk {
            survey,
            wish,
            springs,
            cut_m: springs.iter().map(cut_m).collect(),
            moves: vec![vec![0.0; scales.len()]; LANES],
            scales,
            bought: Box::new([Bought::default(); LANES]),
            lanes: Lanes::new(wish),
            fitted: Box::default(),
            found: Box::default(),
        }
    }

    fn one_block(&mut self, random: Xoshiro256PlusPlus, count: usize) -> Drawn {
        let rates = self.draw(random, count);
        let known = rates.len();
        let mut block = Drawn { count, lost: count - known, needed: Moments::of(&rates), rates, ..Drawn::default() };
        for i in 0..self.springs.len() {
            let again = self.tally(i, None, known);
            block.as_fitted.push(match self.cut_m[i] {
                Some(cut_m) => self.tally(i, Some(cut_m), known),
                None => again.clone(),
            });
            block.springs.push(again);
        }
        block
    }

    /// One spring on every ground that is known, on the spacer that was cut before, m, or on the best one.
    fn tally(&mut self, spring: usize, cut_m: Option<f64>, known: usize) -> Tally {
        if known == 0 {
            return Tally::default();
        }
        let Desk { survey, moves, bought, lanes, fitted, found, .. } = self;
        let spring = &self.springs[spring];
        fitted.drawn(spring, bought);
        lanes.judge(fitted, cut_m, found);
        found.finish(known, |i| {
            survey.move_by(&moves[i]);
            Some(Bench::new(survey.ground()?, self.wish).judge_on(&spring.drawn(bought[i]), cut_m))
        });
        Tally::of(found, lanes.wanted_m(), known)
    }

    /// Draws grounds into the lanes; gives back the needed rate of each that is known.
    fn draw(&mut self, mut random: Xoshiro256PlusPlus, count: usize) -> Vec<f64> {
        let mut rates = Vec::with_capacity(count);
        // A rectangular law of standard deviation one reaches √3 either way.
        let flat = |random: &mut Xoshiro256PlusPlus| law(Spread::Limits, random) / 3.0_f64.sqrt();
        let (settle_u_m, settle_spread) = self.wish.settle_u_m;
        self.lanes.clear();
        for _ in 0..count {
            let lane = rates.len();
            let moves = &mut self.moves[lane];
            for ((by_si, u_si), input) in moves.iter_mut().zip(&self.scales).zip(self.survey.inputs()) {
                *by_si = u_si * law(input.spread, &mut random);
            }
            let (of_rate, of_length) = (flat(&mut random), flat(&mut random));
            self.bought[lane] =
                Bought { of_rate, of_length, settles_more_m: settle_u_m * law(settle_spread, &mut random) };
            self.survey.move_by(moves);
            if let Some(ground) = self.survey.ground() {
                self.lanes.put(lane..lane + 1, &ground);
                rates.push(needed_rate(&ground));
            }
        }
        rates
    }
}

/// The spring rate that gives the middle of the wanted range, N/m.
pub fn needed_rate(ground: &Ground) -> f64 {
    let [low, high] = ground.frequency_hz;
    rate_for(ground, (low + high) / 2.0)
}

/// The rate of the spring that is bought for a ride frequency, N/m: with an open helper, the main coil's.
pub fn rate_for(ground: &Ground, frequency_hz: f64) -> f64 {
    let wheel = ride::rate_for(Frequency::from_si(frequency_hz), Mass::from_si(ground.load.sprung_kg));
    let (load, wanted) = (Force::from_si(ground.load.load_n), Length::from_si(ground.wanted_m));
    let whole = ground.curve.spring_rate_for(wheel, load, wanted).si();
    let force_n = ground.curve.spring_force_for(load, wanted).si();
    match ground.helper {
        Some(helper) if force_n < helper.solid_force_n() && (0.0..helper.rate_n_per_m).contains(&whole) => {
            Stack::main_rate_n_per_m(whole, &helper)
        }
        _ => whole,
    }
}
