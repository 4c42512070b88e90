//! Left and right: the two corners of an axle do not weigh the same, so each may want another spring of the list.
//!
//! 1. both corners together, to first order ([`Asks`]): what they ask with both wheels at the wanted height
//! 2. at each corner the springs that hold their limits there, whatever spring is at the other ([`Ready`]); of a longer list
//!    those that come nearest at that corner
//! 3. every pair of them, to first order; those within the band of heights, in the order of what a shop would rather fit
//! 4. of these, one after the other, the whole body ([`Pairing::settled`]), until enough hold

mod asks;
mod ready;

use super::judge::{Candidate, Judged};
use super::rank::{Ranking, Shelf, key};
use super::take;
use crate::base::progress::Watch;
use crate::base::units::Quantity;
use crate::job::{Job, LeftRight, Side};
use crate::shop::parts::Spring;
use crate::solve::answer::{Answer, Measured, SidesStand, State, Vehicle};
use crate::solve::ground::{CornerLoad, Survey};
use crate::solve::other_springs::OtherSprings;
use crate::solve::solve;
use asks::Asks;
use ready::{Corner, Ready, under};

/// Springs tried at each corner, at most.
pub const MOST: usize = 1000;
/// Pairs that are named.
const NAMED: usize = 3;
/// Pairs put on the whole body, at most.
const FOLLOWED: usize = 200;
/// Springs at each corner among which the nearest pair is sought where none holds.
const NEAR: usize = 8;
/// Rates of a pair are alike within this share. Common practice, no source.
const SAME_RATE: f64 = 0.03;
/// What is to first order may be off by this, m.
const SLACK_M: f64 = 1e-3;
/// Pairs whose wheels are off by about as much are ordered by their spacers, m: on a sheet such a body is level.
const SAME_HEIGHT_M: f64 = 2e-3;
/// Spacers that differ by less are alike, m.
const SAME_SPACER_M: f64 = 1e-4;
/// Spacers move the loads, and loads the spacers: this number of rounds at most, until no wheel moves by more than this, m.
const ROUNDS: usize = 40;
const SETTLED_M: f64 = 1e-6;

/// A spring for each side of an axle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pair {
    /// Places in the list's springs.
    pub rows: LeftRight<usize>,
    /// Each at its own corner, with its own spacer.
    pub judged: LeftRight<Judged>,
    /// Both sides come to the wanted height within what is allowed, and hold every limit but the range of frequency, which
    /// the axle holds.
    pub level: bool,
    /// Sprung mass of each corner, kg.
    pub sprung_kg: LeftRight<f64>,
    /// What each corner is judged under.
    pub loads: LeftRight<CornerLoad>,
    /// The whole body on this pair; `None` where the four corners are not known: each side is then judged under its own
    /// corner as weighed.
    pub body: Option<SidesStand>,
    /// How the vehicle sits on it, as the answer says it once the pair is taken.
    pub leaves: Option<Leaves>,
}

impl Pair {
    /// Left and right get different springs.
    pub fn is_of_two(&self) -> bool {
        self.rows.left != self.rows.right
    }
}

/// How the vehicle sits on a pair, with ±.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Leaves {
    /// How much lower the right side of the body is, m.
    pub right_lower: Measured,
    /// (Right front + left rear) over total.
    pub cross_weight: Measured,
}

/// What was found of left and right.
#[derive(Debug, Clone, PartialEq)]
pub struct Pairs {
    /// Best first: those that hold, or the one that comes nearest where none does; never empty.
    pub named: Vec<Pair>,
    /// How many springs were tried; the others of the list break a limit there with any spring on the other side.
    pub tried: LeftRight<usize>,
    /// Springs of the list that could be tried.
    pub springs: usize,
    /// Springs beyond [`MOST`], which come less near at either corner.
    pub left_out: usize,
    /// Pairs that may hold and were not followed on the whole body.
    pub not_followed: usize,
}

impl Pairs {
    /// The one that leads.
    pub fn best(&self) -> Option<&Pair> {
        self.named.first()
    }
}

/// How a pair is ordered among those that hold: rates alike, the fewest that are not the spring picked, wheels as wanted,
/// thin spacers; then as a list is ordered.
type Rank = (bool, u8, u32, u32, [usize; 2]);
type Guess = (Rank, [usize; 2]);

/// An axle whose corners were weighed, and the springs that may be put on it.
pub struct Pairing<'a> {
    job: &'a Job,
    side: Side,
    ranking: &'a Ranking,
    springs: &'a [Spring],
    body: OtherSprings<'a>,
    asks: Asks,
    picked: Option<usize>,
}

impl<'a> Pairing<'a> {
    /// `None` when the corners were not weighed. `picked` is the spring to take for both sides.
    pub fn of(
        job: &'a Job,
        answer: &'a Answer,
        side: Side,
        ranking: &'a Ranking,
        springs: &'a [Spring],
        picked: Option<usize>,
    ) -> Option<Self> {
        answer.after.corners?;
        let body = OtherSprings::of(job, answer, side);
        let typical = picked.or_else(|| Some(ranking.ranked.first()?.row))?;
        let of_any_length = Candidate { free_m: None, ..Candidate::of(&springs[typical], &ranking.wish) };
        let asks = match Asks::of(&body, ranking, &of_any_length) {
            Some(asks) => asks,
            None => Asks::apart(Survey::new(job, side).sides()?),
        };
        Some(Pairing { job, side, ranking, springs, body, asks, picked })
    }

    /// The pairs to name, with how the vehicle sits on each. Counts as `draws` draws of work; whatever was found when it was
    /// cancelled is of no use.
    pub fn named(&self, watch: &Watch, draws: usize) -> Option<Pairs> {
        let for_stands = draws / 4;
        let mut pairs = self.found(watch, draws - for_stands);
        for pair in pairs.iter_mut().flat_map(|pairs| &mut pairs.named).filter(|_| !watch.is_cancelled()) {
            pair.leaves = self.leaves(pair);
        }
        watch.done(for_stands);
        pairs
    }

    /// The pairs to name, as [`Pairing::named`], without how the vehicle sits on them.
    pub fn found(&self, watch: &Watch, draws: usize) -> Option<Pairs> {
        let told = |part: usize| watch.done((part + 1) * draws / 4 - part * draws / 4);
        let (rows, springs) = self.rows();
        let ready = [0, 1].map(|side| self.ready(side, &rows[side]));
        told(0);
        let (guesses, count) = self.guesses(&ready, watch);
        told(1);
        let mut pairs = Pairs {
            named: Vec::new(),
            tried: LeftRight { left: ready[0].len(), right: ready[1].len() },
            springs,
            left_out: springs.saturating_sub(MOST),
            not_followed: count.saturating_sub(FOLLOWED),
        };
        let mut missed = Vec::new();
        for guess in &guesses {
            if pairs.named.len() == NAMED || watch.is_cancelled() {
                break;
            }
            match self.settled(guess.1.into()) {
                Some(pair) if pair.level => pairs.named.push(pair),
                Some(pair) => missed.push(pair),
                None => {}
            }
        }
        told(2);
        if pairs.named.is_empty() {
            pairs.named.extend(self.nearest(&ready, missed));
        } else {
            pairs.not_followed = 0;
        }
        told(3);
        (!pairs.named.is_empty()).then_some(pairs)
    }

    /// The springs to try left and right, by row, in the order in which equal pairs are decided; and how many there are.
    fn rows(&self) -> ([Vec<usize>; 2], usize) {
        let shelf = Shelf::holding(self.springs, &self.ranking.wish, 1);
        let of_corner = |load: CornerLoad| {
            let ranked = self.ranking.under(under(self.ranking, load).ground()).rank(self.springs, &shelf);
            let mut rows: Vec<usize> = ranked.ranked.iter().take(MOST).map(|r| r.row).collect();
            rows.sort_by(|a, b| {
                let of = |row: &usize| key(&self.springs[*row]);
                of(a).partial_cmp(&of(b)).unwrap_or(std::cmp::Ordering::Equal)
            });
            (rows, ranked.ranked.len())
        };
        let ((left, springs), (right, _)) = (of_corner(self.asks.loads.left), of_corner(self.asks.loads.right));
        ([left, right], springs)
    }

    fn ready(&self, side: usize, rows: &[usize]) -> Vec<Ready> {
        let mut corner = Corner::new(&self.asks, side, self.ranking);
        let one = |row: &usize| {
            let spring = Candidate::of(&self.springs[*row], &self.ranking.wish);
            corner.ready(*row, &spring, Some(*row) == self.picked)
        };
        rows.iter().filter_map(one).collect()
    }

    /// Every pair that may hold, to first order, in the order in which they are followed: those that are, and how many.
    fn guesses(&self, ready: &[Vec<Ready>; 2], watch: &Watch) -> (Vec<Guess>, usize) {
        let band_m = self.ranking.wish.height_m + SLACK_M;
        let within = |side: usize| -> Vec<(usize, &Ready)> {
            ready[side].iter().enumerate().filter(|(_, spring)| spring.can_stand_within(band_m)).collect()
        };
        let (lefts, rights) = (within(0), within(1));
        let (mut first, mut count) = (Vec::new(), 0);
        for (i, left) in lefts {
            if watch.is_cancelled() {
                break;
            }
            for (k, right) in &rights {
                if !self.may_go_together(left, right) {
                    continue;
                }
                let (at_m, spacers_m) = Ready::both(left, right);
                let is_within = at_m.iter().all(|m| m.abs() <= band_m);
                if is_within && left.holds_on(spacers_m[0], SLACK_M) && right.holds_on(spacers_m[1], SLACK_M) {
                    count += 1;
                    first.push((self.rank([left, right], at_m, spacers_m, [i, *k]), [left.row, right.row]));
                }
            }
            if first.len() > FOLLOWED {
                first.sort_unstable();
                first.truncate(FOLLOWED);
            }
        }
        first.sort_unstable();
        (first, count)
    }

    /// The axle's frequency is in its range, and where both sides get the same spring there are two of it.
    fn may_go_together(&self, left: &Ready, right: &Ready) -> bool {
        let is_picked = |spring: &Ready| Some(spring.row) == self.picked;
        let [low, high] = self.ranking.ground.frequency_hz.map(|hz| hz * hz);
        let mean = 0.5 * (left.hz_squared + right.hz_squared);
        let in_range = (low..=high).contains(&mean) || is_picked(left) && is_picked(right);
        let is_there =
            left.row != right.row || !self.ranking.wish.in_stock_only || Ranking::on_the_shelf(&self.springs[left.row]);
        in_range && is_there
    }

    fn rank(&self, [left, right]: [&Ready; 2], at_m: [f64; 2], spacers_m: [f64; 2], places: [usize; 2]) -> Rank {
        let apart = (left.rate_n_per_m / right.rate_n_per_m).ln().abs() > SAME_RATE;
        let changed = match self.picked {
            Some(picked) => u8::from(left.row != picked) + u8::from(right.row != picked),
            None => u8::from(left.row != right.row),
        };
        let steps = |m: f64, step_m: f64| (m / step_m) as u32;
        let off_m = at_m[0].abs().max(at_m[1].abs());
        let spacers_m = spacers_m[0].abs() + spacers_m[1].abs();
        (apart, changed, steps(off_m, SAME_HEIGHT_M), steps(spacers_m, SAME_SPACER_M), places)
    }

    /// The pair that breaks least where none holds: of those that were followed, the springs that come nearest at each
    /// corner, and the spring to take on both sides.
    fn nearest(&self, ready: &[Vec<Ready>; 2], mut missed: Vec<Pair>) -> Option<Pair> {
        let near = [0, 1].map(|side| {
            let mut near: Vec<&Ready> = ready[side].iter().collect();
            near.sort_by(|a, b| a.stands(0.0).0.abs().total_cmp(&b.stands(0.0).0.abs()));
            near.truncate(NEAR);
            near
        });
        let off_m =
            |left: &Ready, right: &Ready| Ready::both(left, right).0.iter().fold(0.0, |m: f64, z| m.max(z.abs()));
        let all = near[0].iter().flat_map(|left| near[1].iter().map(move |right| (*left, *right)));
        let all = all.filter(|(left, right)| self.may_go_together(left, right));
        let nearest = all.min_by(|a, b| off_m(a.0, a.1).total_cmp(&off_m(b.0, b.1)));
        let first = self.ranking.ranked.first().map(|r| r.row);
        let alike = self.picked.or(first).map(|row| [row, row]);
        missed.extend(
            nearest.map(|(l, r)| [l.row, r.row]).into_iter().chain(alike).filter_map(|rows| self.settled(rows.into())),
        );
        missed.into_iter().max_by(|a, b| self.least(a).total_cmp(&self.least(b)))
    }

    /// The least of both sides' margins, each in standard deviations of what is not known of it.
    fn least(&self, pair: &Pair) -> f64 {
        let of = |judged: &Judged| {
            let broken = judged.broken().filter(|l| !l.is_frequency());
            broken.map(|l| judged.margins[l as usize] / self.ranking.spread_of(l)).fold(0.0, f64::min)
        };
        of(&pair.judged.left).min(of(&pair.judged.right))
    }

    /// A pair as the whole body then is, each spring on the spacer that its own corner asks for. `None` where the body does
    /// not come to rest on it.
    pub fn settled(&self, rows: LeftRight<usize>) -> Option<Pair> {
        let candidates = rows.map(|row| Candidate::of(&self.springs[row], &self.ranking.wish)).both();
        let mut loads = self.asks.loads;
        for _ in 0..ROUNDS {
            let mut benches = loads.map(|load| under(self.ranking, load)).both();
            let judged = LeftRight::from([0, 1].map(|i| benches[i].judge(&candidates[i])));
            let level = judged.left.stands() && judged.right.stands();
            let pair =
                Pair { rows, judged, level, sprung_kg: loads.map(|l| l.sprung_kg), loads, body: None, leaves: None };
            if !self.asks.is_of_the_body {
                return Some(pair);
            }
            let curves = [0, 1].map(|i| benches[i].curve().clone());
            // What the curve carries where the wheel is: on a beam that is not what the wheel itself carries.
            let body = self.body.stand(curves.clone())?;
            let (at_m, judged_at_m) = (body.travel_m.both(), judged.map(|j| j.travel_m).both());
            if (0..2).all(|i| (at_m[i] - judged_at_m[i]).abs() <= SETTLED_M) {
                return Some(Pair { sprung_kg: body.sprung_kg, body: Some(body), ..pair });
            }
            let sprung_kg = body.sprung_kg.both();
            let load = |i: usize| CornerLoad { load_n: curves[i].force_n(at_m[i]), sprung_kg: sprung_kg[i] };
            loads = LeftRight { left: load(0), right: load(1) };
        }
        None
    }

    /// How the vehicle sits on a pair once it is taken: under the load that springs are sized on.
    fn leaves(&self, pair: &Pair) -> Option<Leaves> {
        let mut job = self.job.clone();
        take::pair(&mut job, self.side, pair.rows.map(|row| &self.springs[row]), pair.judged.map(|j| j.spacer_m));
        let (answer, sized) = (solve(&job), job.cases.iter().position(|c| c.sized));
        let stand = |of: &Vehicle| {
            let corners = sized.map_or(Some(&of.whole.corners), |i| of.whole.in_cases.get(i))?;
            *corners.of(State::NewSprings)
        };
        let measured = |value: &dyn Fn(&Vehicle) -> Option<f64>| {
            Some(Measured { value: value(&answer.vehicle)?, u: answer.moved.u_of(value)? })
        };
        Some(Leaves {
            right_lower: measured(&|of| Some(stand(of)?.right_lower.si()))?,
            cross_weight: measured(&|of| Some(stand(of)?.cross_weight.si()))?,
        })
    }
}
