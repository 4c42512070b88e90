//! Every spring of a list on one axle, for the current job: which fit, and how near the others come.

use std::cmp::Ordering;
use std::fmt;

use super::found::{Found, LANES};
use super::judge::{Bench, Candidate, Judged, Limit};
use super::lanes::{Lanes, Springs};
use crate::base::language::tr;
use crate::base::units::Quantity;
use crate::job::{Job, Side};
use crate::shop::parts::Spring;
use crate::solve::ground::{Ground, Input, Survey, Wish};
use crate::trade::spring::Wire;

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
    /// The axle for the current job.
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
    /// How many were left out, since fewer than two are in stock.
    pub not_on_shelf: usize,
    /// Load cases that could not be checked.
    pub cases_left_out: usize,
    spread: [f64; Limit::ALL.len()],
}

/// Nothing can be chosen from a list.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum Unable {
    /// The axle has no coils.
    NoCoils,
    /// The first answer is still missing.
    NotKnown,
    /// A wish cannot be read.
    Wishes,
    /// What carries in addition to the spring makes more than the wanted rate.
    NothingLeft,
    /// There are no springs to choose from.
    Empty,
    /// There are no dampers to choose from.
    NoDampers,
    /// A rating is exceeded.
    Stopped,
    /// The axle's answer is withheld.
    Withheld,
}

impl fmt::Display for Unable {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Unable::NoCoils => tr("a parts list contains only coil springs; this axle has another kind of spring"),
            Unable::NotKnown => tr("first enter the weight after the change, the motion ratio and the target range; for the target \"as before\", also the weights before the change and the old spring"),
            Unable::Wishes => tr("one of the limits for the spring cannot be used; see the findings"),
            Unable::NothingLeft => tr("bushes, air bag, gas and geometry alone exceed the wheel rate for the target frequency: nothing is left for the spring"),
            Unable::Empty => tr("the list contains no springs"),
            Unable::NoDampers => tr("the list contains no dampers"),
            Unable::Stopped => tr("a rating is exceeded: a heavier spring does not raise a rating, so nothing is chosen"),
            Unable::Withheld => tr("the answer is withheld, so nothing is chosen; first resolve the finding in the first line of the answer"),
        })
    }
}

impl Candidate {
    /// A spring of the list, settled, with what it does not say filled by the shop's own tolerances.
    pub fn of(spring: &Spring, wish: &Wish) -> Self {
        let si = |l: Option<crate::base::units::Length>| l.map(Quantity::si);
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

    /// What the axle asks, before any spring is judged.
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

    /// The same axle on another ground, before any spring is judged.
    pub(super) fn under(&self, ground: &Ground) -> Ranking {
        Ranking {
            ground: ground.clone(),
            wish: self.wish.clone(),
            inputs: Vec::new(),
            ranked: Vec::new(),
            fitting: 0,
            broken: Default::default(),
            ..*self
        }
    }

    /// Ranks the springs of a list whose shelf was laid out for these wishes.
    #[must_use]
    pub fn rank(mut self, springs: &[Spring], shelf: &Shelf) -> Ranking {
        (self.ranked, self.broken) = self.all(shelf);
        self.not_on_shelf = springs.len() - self.ranked.len();
        self.fitting = self.ranked.iter().filter(|r| r.score >= 0.0).count();
        self
    }

    /// One spring for the current job.
    pub fn judge(&self, spring: &Spring) -> Judged {
        Bench::new(self.ground.clone(), &self.wish).judge(&Candidate::of(spring, &self.wish))
    }

    /// Standard deviation of one margin, in its own SI unit, for the spring that would suit best.
    pub fn spread_of(&self, limit: Limit) -> f64 {
        self.spread[limit as usize]
    }

    /// A pair needs two in stock.
    pub fn on_the_shelf(spring: &Spring) -> bool {
        spring.stock.is_none_or(|n| n >= 2)
    }

    fn all(&self, shelf: &Shelf) -> (Vec<Ranked>, Broken) {
        const WORTH_A_THREAD: usize = 16;
        let helpers = std::thread::available_parallelism().map_or(1, |n| n.get());
        let part = LANES * shelf.blocks.len().div_ceil(helpers).max(WORTH_A_THREAD);
        let count = shelf.rows.len();
        let (mut scores, mut places) = (vec![0.0; count], vec![0; count]);
        let order = Order::of(count);
        let broken = std::thread::scope(|scope| {
            let work = |(i, (scores, places)): (usize, (&mut [f64], &mut [u64]))| {
                let broken = self.score(i * part, scores, shelf);
                let numbered = scores.iter().enumerate();
                places
                    .iter_mut()
                    .zip(numbered)
                    .for_each(|(place, (k, score))| *place = order.place(*score, i * part + k));
                places.sort_unstable();
                broken
            };
            let mut chunks = scores.chunks_mut(part).zip(places.chunks_mut(part)).enumerate();
            let first = chunks.next();
            let running: Vec<_> = chunks.map(|chunk| scope.spawn(move || work(chunk))).collect();
            let mut broken = first.map(work).unwrap_or_default();
            for counts in running.into_iter().map(|r| r.join().unwrap_or_else(|e| std::panic::resume_unwind(e))) {
                broken.iter_mut().zip(counts).for_each(|(sum, n)| *sum += n);
            }
            broken
        });
        // Sorted part by part: that is quick to put in order as a whole.
        places.sort();
        let ranked = places.iter().map(|place| order.number(*place));
        (ranked.map(|i| Ranked { row: shelf.rows[i], score: scores[i] }).collect(), broken)
    }

    /// The score of every spring from the `first` of the shelf on.
    fn score(&self, first: usize, scores: &mut [f64], shelf: &Shelf) -> Broken {
        let mut lanes = Lanes::new(&self.wish);
        lanes.put(0..LANES, &self.ground);
        let mut alone = Bench::new(self.ground.clone(), &self.wish);
        let mut found = Box::new(Found::default());
        let per_si = self.spread.map(|s| 1.0 / s);
        let mut broken = Broken::default();
        for (block, scores) in scores.chunks_mut(LANES).enumerate() {
            let first = first + block * LANES;
            lanes.judge(&shelf.blocks[first / LANES], None, &mut found);
            found.finish(scores.len(), |i| Some(alone.judge(&shelf.candidates[first + i])));
            found.broken(scores.len()).0.into_iter().zip(&mut broken).for_each(|(n, sum)| *sum += n);
            scores.copy_from_slice(&found.least(&per_si)[..scores.len()]);
        }
        broken
    }
}

/// Score and number in one whole number that sorts fast: the better score first, then the lower number. Scores that
/// agree to eight digits are equal.
#[derive(Clone, Copy)]
struct Order {
    numbers: u64,
}

impl Order {
    fn of(count: usize) -> Self {
        Order { numbers: (count as u64 + 1).next_power_of_two() - 1 }
    }

    fn place(self, score: f64, number: usize) -> u64 {
        let bits = score.to_bits();
        // All bits of what is below zero, else only the sign: whole numbers then fall as scores rise.
        let falling = if bits >> 63 == 1 { bits } else { !bits & (u64::MAX >> 1) };
        (falling & !self.numbers) | number as u64
    }

    fn number(self, place: u64) -> usize {
        (place & self.numbers) as usize
    }
}

/// How many springs break each limit.
type Broken = [usize; Limit::ALL.len()];

/// The springs of a list, laid out to be judged side by side, in the order in which equal scores are decided: by what a
/// spring is, so that the order of the list's rows does not matter.
pub struct Shelf {
    /// Rows of the list.
    rows: Vec<usize>,
    candidates: Vec<Candidate>,
    blocks: Vec<Springs>,
}

impl Shelf {
    /// Lays out a list, or what of it counts.
    pub fn new(springs: &[Spring], wish: &Wish) -> Self {
        Self::holding(springs, wish, 2)
    }

    /// Where only what is in stock counts, those with at least this many.
    pub(super) fn holding(springs: &[Spring], wish: &Wish, least: u32) -> Self {
        let counts = |row: &usize| !wish.in_stock_only || springs[*row].stock.is_none_or(|n| n >= least);
        let mut rows: Vec<usize> = (0..springs.len()).filter(counts).collect();
        rows.sort_by(|a, b| key(&springs[*a]).partial_cmp(&key(&springs[*b])).unwrap_or(Ordering::Equal));
        let candidates: Vec<Candidate> = rows.iter().map(|row| Candidate::of(&springs[*row], wish)).collect();
        let blocks = candidates.chunks(LANES).map(|chunk| {
            let mut block = Springs::default();
            chunk.iter().enumerate().for_each(|(i, c)| block.put(i, c));
            block
        });
        Shelf { rows, blocks: blocks.collect(), candidates }
    }
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
    let of_length = (wish.length_tolerance_m / 3.0_f64.sqrt()).hypot(wish.settle_u_m.0);
    add(at(ground, rate, free_m.map(|l| l + of_length)), at(ground, rate, free_m.map(|l| l - of_length)));
    let mut spread = variance.map(f64::sqrt);
    // Stress goes with the force at metal; diameters are as they are, to a tenth of a millimetre.
    let force = spread[Limit::Load as usize] / (2.0 * ground.load.load_n);
    spread[Limit::Stress as usize] = force * typical.unwrap_or(1e9);
    (spread[Limit::Inside as usize], spread[Limit::Outside as usize]) = (1e-4, 1e-4);
    let least = [1e-6, 1e-6, 1e-6, 1e-6, 1e-6, 1e-6, 1e-6, 1e3, 1e-3, 1e-6, 1e-6];
    std::array::from_fn(|i| spread[i].max(least[i]))
}
