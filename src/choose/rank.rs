//! Every spring of a list on one axle, as the job stands: which fit, and how near the others come.

use std::cmp::Ordering;

use super::judge::{Bench, Candidate, Judged, Limit};
use super::lanes::{Found, LANES, Lanes, Springs};
use crate::job::{Job, Side};
use crate::parts::Spring;
use crate::solve::ground::{Ground, Input, Survey, Wish};
use crate::spring::Wire;
use crate::units::Quantity;

use super::draws::{needed_rate, rate_for};

/// One spring of the list, ranked.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ranked {
    /// Its place in the list's springs.
    pub row: usize,
    /// The least of its margins, each in standard deviations of what is not known of it: below zero a limit is broken.
    pub score: f64,
}

/// All springs of a list on one axle, best first.
#[derive(Debug, Clone)]
pub struct Ranking {
    /// The axle as the job stands.
    pub ground: Ground,
    /// What the shop wishes.
    pub wish: Wish,
    /// What moves the axle's ground.
    pub inputs: Vec<Input>,
    /// Best first.
    pub ranked: Vec<Ranked>,
    /// How many fit.
    pub fitting: usize,
    /// How many springs break each limit, in the order of [`Limit::ALL`]; a spring may break several.
    pub broken: [usize; Limit::ALL.len()],
    /// How many were left out, since fewer than two are on the shelf.
    pub not_on_shelf: usize,
    /// Load cases that could not be looked at.
    pub cases_left_out: usize,
    spread: [f64; Limit::ALL.len()],
}

/// Nothing can be chosen from a list.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum Unable {
    /// The axle has no coils.
    #[error("a parts list holds coils; this axle is carried by something else")]
    NoCoils,
    /// The first answer is still missing.
    #[error(
        "weight after, motion ratio and wanted range are needed first; to ride as before, also the weights before and the old spring"
    )]
    NotKnown,
    /// A wish cannot be read.
    #[error("one of the fields of what a spring must fit cannot be used; the findings say which")]
    Wishes,
    /// What carries beside the spring makes more than the wanted rate.
    #[error(
        "rubber, bag, gas and geometry alone carry more than the wanted frequency asks for: nothing is left for a spring"
    )]
    NothingLeft,
    /// There are no springs to choose from.
    #[error("the list holds no spring")]
    Empty,
    /// There are no dampers to choose from.
    #[error("the list holds no damper")]
    NoDampers,
    /// A rating is exceeded.
    #[error("over its rating: a heavier spring raises no rating, so none is chosen")]
    Stopped,
}

impl Candidate {
    /// A spring of the list, settled, with what it does not say filled by the shop's own tolerances.
    pub fn of(spring: &Spring, wish: &Wish) -> Self {
        let si = |l: Option<crate::units::Length>| l.map(Quantity::si);
        let (wire_m, outside_m, inside_m) = (si(spring.wire), si(spring.outside_diameter), si(spring.inside_diameter));
        let mean_m = wire_m.and_then(|d| outside_m.map(|o| o - d).or(inside_m.map(|i| i + d)));
        let by_coils =
            wire_m.zip(mean_m).zip(spring.total_coils.zip(spring.ends)).and_then(|((d, mean), (all, ends))| {
                let active = all - ends.dead_coils()?;
                Wire { diameter_m: d, mean_m: mean, active, shear_modulus_pa: wish.shear_modulus_pa, ends }
                    .solid_length()
            });
        Candidate {
            rate_n_per_m: spring.rate.si(),
            rate_tolerance: spring.rate_tolerance.map_or(wish.rate_tolerance, |t| t.si()),
            free_m: si(spring.free_length).map(|l| l - wish.settle_m),
            length_tolerance_m: wish.length_tolerance_m,
            solid_m: si(spring.solid_length.or(by_coils)),
            inside_m: inside_m.or_else(|| Some(outside_m? - 2.0 * wire_m?)),
            outside_m: outside_m.or_else(|| Some(inside_m? + 2.0 * wire_m?)),
            stress: wire_m.zip(mean_m).and_then(|(d, mean)| Candidate::stress_of(wish, d, mean)),
            greatest_n: spring.max_load.map(|f| f.si()),
        }
    }
}

impl Ranking {
    /// Ranks all springs; uses all cores for a long list.
    ///
    /// # Errors
    /// [`Unable`] when the axle has no coils or too little is known of it.
    pub fn new(job: &Job, side: Side, springs: &[Spring]) -> Result<Ranking, Unable> {
        let asked = Self::asked(job, side)?;
        let shelf = Shelf::new(springs, &asked.wish);
        Ok(asked.rank(springs, &shelf))
    }

    /// What the axle asks, before any spring is looked at.
    ///
    /// # Errors
    /// As [`Ranking::new`].
    pub fn asked(job: &Job, side: Side) -> Result<Ranking, Unable> {
        if !job.axle(side).spring.kind.is_coil() {
            return Err(Unable::NoCoils);
        }
        let survey = Survey::new(job, side);
        let ground = survey.ground().ok_or(Unable::NotKnown)?;
        let wish = survey.wish().ok_or(Unable::Wishes)?;
        if rate_for(&ground, ground.frequency_hz[1]) <= 0.0 {
            return Err(Unable::NothingLeft);
        }
        let cases_left_out = survey.cases_left_out(&ground);
        let spread = spread(&ground, &wish, survey.inputs());
        let inputs = survey.inputs().to_vec();
        Ok(Ranking {
            ground,
            wish,
            inputs,
            ranked: Vec::new(),
            fitting: 0,
            broken: Default::default(),
            not_on_shelf: 0,
            cases_left_out,
            spread,
        })
    }

    /// Ranks the springs of a shelf that was laid out for these wishes.
    #[must_use]
    pub fn rank(mut self, springs: &[Spring], shelf: &Shelf) -> Ranking {
        (self.ranked, self.broken) = self.all(springs, shelf);
        self.not_on_shelf = springs.len() - self.ranked.len();
        self.fitting = self.ranked.iter().filter(|r| r.score >= 0.0).count();
        self
    }

    /// One spring as the job stands.
    pub fn judge(&self, spring: &Spring) -> Judged {
        Bench::new(self.ground.clone(), &self.wish).judge(&Candidate::of(spring, &self.wish))
    }

    /// Standard deviation of one margin, in its own SI unit, for the spring that would suit best.
    pub fn spread_of(&self, limit: Limit) -> f64 {
        self.spread[limit as usize]
    }

    /// Only two on the shelf make a pair.
    pub fn on_the_shelf(spring: &Spring) -> bool {
        spring.stock.is_none_or(|n| n >= 2)
    }

    fn all(&self, springs: &[Spring], shelf: &Shelf) -> (Vec<Ranked>, Broken) {
        const WORTH_A_THREAD: usize = 16;
        let helpers = std::thread::available_parallelism().map_or(1, |n| n.get());
        let part = shelf.blocks.len().div_ceil(helpers).max(WORTH_A_THREAD);
        let (mut ranked, broken) = std::thread::scope(|scope| {
            let work = |(i, blocks)| self.some(i * part * LANES, blocks, shelf);
            let mut chunks = shelf.blocks.chunks(part).enumerate();
            let first = chunks.next();
            let running: Vec<_> = chunks.map(|chunk| scope.spawn(move || work(chunk))).collect();
            let (mut ranked, mut broken) = first.map(work).unwrap_or_default();
            for (more, counts) in running.into_iter().filter_map(|r| r.join().ok()) {
                ranked = merged(&ranked, &more);
                broken.iter_mut().zip(counts).for_each(|(sum, n)| *sum += n);
            }
            (ranked, broken)
        });
        // Equal scores: by what the spring is, so that the order of rows does not matter.
        for same in ranked.chunk_by_mut(|a, b| a.score == b.score).filter(|same| same.len() > 1) {
            let by_what = |r: &Ranked| key(&springs[r.row]);
            same.sort_by(|a, b| by_what(a).partial_cmp(&by_what(b)).unwrap_or(Ordering::Equal).then(a.row.cmp(&b.row)));
        }
        (ranked, broken)
    }

    fn some(&self, first: usize, blocks: &[Springs], shelf: &Shelf) -> (Vec<Ranked>, Broken) {
        let mut lanes = Lanes::new(&self.wish);
        lanes.put(0..LANES, &self.ground);
        let mut found = Box::new(Found::default());
        let mut ranked = Vec::with_capacity(blocks.len() * LANES);
        let per_si = self.spread.map(|s| 1.0 / s);
        let mut broken = Broken::default();
        for (block, springs) in blocks.iter().enumerate() {
            let first = first + block * LANES;
            let count = LANES.min(shelf.candidates.len() - first);
            lanes.judge(springs, &mut found);
            found.finish(count, &self.wish, |_| Some(self.ground.clone()), |i| shelf.candidates[first + i]);
            if self.wish.in_stock_only {
                // What is not on the shelf does not count among the reasons.
                (0..count).filter(|i| !shelf.pairs[first + i]).for_each(|i| found.forget(i));
            }
            found.broken(count).0.into_iter().zip(&mut broken).for_each(|(n, sum)| *sum += n);
            let least = found.least(&per_si);
            ranked.extend((0..count).map(|i| Ranked { row: first + i, score: least[i] }));
        }
        if self.wish.in_stock_only {
            ranked.retain(|r| shelf.pairs[r.row]);
        }
        ranked.sort_unstable_by_key(Ranked::order);
        (ranked, broken)
    }
}

/// Two rankings in one, both in order.
fn merged(a: &[Ranked], b: &[Ranked]) -> Vec<Ranked> {
    let mut all = Vec::with_capacity(a.len() + b.len());
    let (mut i, mut j) = (0, 0);
    while let (Some(x), Some(y)) = (a.get(i), b.get(j)) {
        let first = x.order() <= y.order();
        all.push(if first { *x } else { *y });
        (i, j) = if first { (i + 1, j) } else { (i, j + 1) };
    }
    all.extend_from_slice(&a[i..]);
    all.extend_from_slice(&b[j..]);
    all
}

/// How many springs break each limit.
type Broken = [usize; Limit::ALL.len()];

impl Ranked {
    /// The smaller, the better.
    fn order(&self) -> i64 {
        !by_size(self.score)
    }
}

/// The springs of a list, laid out to be judged side by side.
pub struct Shelf {
    wish: Wish,
    candidates: Vec<Candidate>,
    /// Two are on the shelf.
    pairs: Vec<bool>,
    blocks: Vec<Springs>,
}

impl Shelf {
    /// Lays out a list; worth keeping while list and wishes stay the same.
    pub fn new(springs: &[Spring], wish: &Wish) -> Self {
        let candidates: Vec<Candidate> = springs.iter().map(|s| Candidate::of(s, wish)).collect();
        let blocks = candidates.chunks(LANES).map(|chunk| {
            let mut block = Springs::default();
            chunk.iter().enumerate().for_each(|(i, c)| block.put(i, c));
            block
        });
        Shelf {
            wish: wish.clone(),
            pairs: springs.iter().map(Ranking::on_the_shelf).collect(),
            blocks: blocks.collect(),
            candidates,
        }
    }

    /// It was laid out for these wishes.
    pub fn suits(&self, wish: &Wish) -> bool {
        self.wish == *wish
    }
}

/// Numbers in the order of their size, as whole numbers that sort fast.
fn by_size(number: f64) -> i64 {
    let bits = number.to_bits().cast_signed();
    bits ^ ((bits >> 63).cast_unsigned() >> 1).cast_signed()
}

/// What tells two springs of one score apart: what they are, not where they stand in the list.
pub(super) fn key(spring: &Spring) -> (f64, &str, f64, f64) {
    (
        spring.price.unwrap_or(f64::INFINITY),
        &spring.number,
        spring.rate.si(),
        spring.free_length.map_or(f64::INFINITY, Quantity::si),
    )
}

/// Standard deviation of each margin for the spring that would suit best, to first order. Source `GUM`, 5.1.2.
fn spread(ground: &Ground, wish: &Wish, inputs: &[Input]) -> [f64; Limit::ALL.len()] {
    // The seat stands still here, else it would take up what the height is off.
    let fixed = Wish { spacer_m: 0.0, seat_down_m: 0.0, ..wish.clone() };
    let rate = needed_rate(ground);
    let free_m = Bench::new(ground.clone(), &fixed).free_for_m(rate);
    let typical = wish.allowed_pa(0.013);
    let ideal = Candidate {
        rate_n_per_m: rate,
        rate_tolerance: wish.rate_tolerance,
        free_m,
        length_tolerance_m: wish.length_tolerance_m,
        solid_m: free_m.map(|l| l / 2.0),
        inside_m: None,
        outside_m: None,
        stress: None,
        greatest_n: Some(ground.load.load_n * 2.0),
    };
    let at = |ground: &Ground, rate: f64, free_m: Option<f64>| {
        let judged = Bench::new(ground.clone(), &fixed).judge(&Candidate { rate_n_per_m: rate, free_m, ..ideal });
        let mut margins = judged.margins;
        // The height's margin has a fold where it is best; the height itself has none.
        margins[Limit::Height as usize] = ground.wanted_m - judged.travel_m;
        margins
    };
    let mut variance = [0.0; Limit::ALL.len()];
    let mut add = |up: [f64; Limit::ALL.len()], down: [f64; Limit::ALL.len()]| {
        for (sum, (up, down)) in variance.iter_mut().zip(up.into_iter().zip(down)) {
            let half = 0.5 * (up - down);
            *sum += if half.is_finite() { half * half } else { 0.0 };
        }
    };
    for input in inputs {
        // A ± as large as its size loses one side: the other then counts twice.
        match input.moved.as_ref() {
            [Some(up), Some(down)] => add(at(up, rate, free_m), at(down, rate, free_m)),
            [Some(one), None] | [None, Some(one)] => {
                let (moved, still) = (at(one, rate, free_m), at(ground, rate, free_m));
                add(moved, std::array::from_fn(|i| 2.0 * still[i] - moved[i]));
            }
            [None, None] => {}
        }
    }
    let of_rate = rate * wish.rate_tolerance / 3.0_f64.sqrt();
    add(at(ground, rate + of_rate, free_m), at(ground, rate - of_rate, free_m));
    let of_length = wish.length_tolerance_m / 3.0_f64.sqrt();
    add(at(ground, rate, free_m.map(|l| l + of_length)), at(ground, rate, free_m.map(|l| l - of_length)));
    let mut spread = variance.map(f64::sqrt);
    // Stress goes with the force at metal; diameters are as they are, to a tenth of a millimetre.
    let force = spread[Limit::Load as usize] / (2.0 * ground.load.load_n);
    spread[Limit::Stress as usize] = force * typical.unwrap_or(1e9);
    (spread[Limit::Inside as usize], spread[Limit::Outside as usize]) = (1e-4, 1e-4);
    let least = [1e-6, 1e-6, 1e-6, 1e-6, 1e-6, 1e-6, 1e-6, 1e3, 1e-3, 1e-6, 1e-6];
    std::array::from_fn(|i| spread[i].max(least[i]))
}
