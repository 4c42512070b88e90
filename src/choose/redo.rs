//! What to measure again first, and what it would buy in chance.

use super::draws::{self, Draws, needed_rate};
use super::judge::Candidate;
use super::rank::Ranking;
use crate::base::progress::Watch;
use crate::job::{Job, RatioBy, Side};
use crate::solve::ground::{Ground, Input};

/// Number of inputs tried.
const TRIED: usize = 4;
/// One draw in this number is enough to show what measuring again gains.
const THINNED: usize = 4;
/// Standard uncertainty of a change of ratio that rows measure, 1/m: five of them over ± 70 mm, read to 0.5 mm. `DERIVED`.
const BY_ROWS_PER_M: f64 = 0.13;
/// Shares below this are not worth measuring again.
const LEAST_SHARE: f64 = 0.01;

/// How something is measured to half of its ±.
#[derive(Debug, Clone, PartialEq)]
pub enum Again {
    /// Wheel and part moved by twice as much: the same tape then errs half as much in the ratio. Wheel travel that was
    /// used, and that is to be used, m.
    LongerTravel {
        /// Used, m.
        from_m: f64,
        /// To be used, m.
        to_m: f64,
    },
    /// Rows of travel and length, twice as many and farther out.
    MoreRows,
    /// Rows of travel and length where two lengths, a lean or a number do not tell how the ratio changes: the ± of that
    /// change is then this share of what it was.
    Rows {
        /// The share.
        to: f64,
    },
    /// Weighed four times instead of once: the mean errs half as much.
    WeighFourTimes,
    /// The one field, to half of its ±.
    Closer {
        /// Its standard uncertainty now, SI.
        from_u_si: f64,
        /// Half of it.
        to_u_si: f64,
    },
}

impl Again {
    /// The ± is then this share of what it was.
    fn shrinks_to(&self) -> f64 {
        match self {
            Again::LongerTravel { from_m, to_m } => from_m / to_m,
            Again::Rows { to } => *to,
            _ => 0.5,
        }
    }
}

/// Something worth measuring again.
#[derive(Debug, Clone, PartialEq)]
pub struct Redo {
    /// The fields that belong together, by path.
    pub paths: Vec<String>,
    /// Their share of the variance of the rate that is needed.
    pub share: f64,
    /// Their share of the variance of the free length that is needed.
    pub share_of_length: f64,
    /// What they move the needed rate by: one standard uncertainty, N/m.
    pub moves_n_per_m: f64,
    /// How.
    pub how: Again,
    /// The ± is then this share of what it was.
    pub shrinks_to: f64,
    /// Chance of the spring now and with half the ±, under the same draws; `None` for what was not tried.
    pub chance: Option<[f64; 2]>,
}

/// How many draws that takes at most.
pub(super) fn draws_for(draws: Draws) -> usize {
    (TRIED + 1) * (draws.count / THINNED).max(1)
}

/// What measuring again would buy for this spring, most worth first. `None` when cancelled.
pub(super) fn worth(
    job: &Job,
    ranking: &Ranking,
    side: Side,
    spring: &Candidate,
    draws: Draws,
    watch: &Watch,
) -> Option<Vec<Redo>> {
    let mut found = shares(job, ranking, side);
    let fewer = Draws { count: (draws.count / THINNED).max(1), ..draws };
    let chance = |paths: &[String], to: f64| {
        let shrink = |input: &Input| if paths.contains(&input.path) { to } else { 1.0 };
        Some(draws::run(job, side, std::slice::from_ref(spring), shrink, fewer, watch)?.chance(0))
    };
    let now = chance(&[], 1.0)?;
    for redo in found.iter_mut().take(TRIED).filter(|r| r.matters() >= LEAST_SHARE) {
        redo.chance = Some([now, chance(&redo.paths, redo.shrinks_to)?]);
    }
    let gain = |r: &Redo| r.chance.map_or(0.0, |[now, then]| then - now);
    // By what it buys, to a tenth of a point; else by its share.
    found.sort_by(|a, b| {
        let tenth = |r: &Redo| (gain(r) * 1000.0).round();
        tenth(b).total_cmp(&tenth(a)).then(b.matters().total_cmp(&a.matters()))
    });
    Some(found)
}

/// Variance shares of the needed rate and of the equilibrium of the vehicle, by what is measured together, largest
/// first.
fn shares(job: &Job, ranking: &Ranking, side: Side) -> Vec<Redo> {
    let mut found: Vec<(Redo, f64, f64)> = Vec::new();
    let ideal = needed_rate(&ranking.ground);
    let free_m = super::judge::Bench::new(ranking.ground.clone(), &ranking.wish).free_for_m(ideal);
    for input in &ranking.inputs {
        // A ± as large as its size loses one side: the other counts against where the axle stands.
        let (up, down, half) = match input.moved.as_ref() {
            [Some(up), Some(down)] => (up, down, 0.5),
            [Some(one), None] | [None, Some(one)] => (one, &ranking.ground, 1.0),
            [None, None] => continue,
        };
        let rate = half * (needed_rate(up) - needed_rate(down));
        let free =
            |g: &Ground| super::judge::Bench::new(g.clone(), &ranking.wish).free_for_m(ideal).unwrap_or(f64::NAN);
        let length = if free_m.is_some() { half * (free(up) - free(down)) } else { 0.0 };
        let (group, how) = together(job, side, input, &ranking.ground);
        let shrinks_to = how.shrinks_to();
        let at = found.iter().position(|(r, ..)| group(&r.paths[0]));
        match at {
            Some(i) => {
                found[i].0.paths.push(input.path.clone());
                found[i].1 += rate * rate;
                found[i].2 += length * length;
            }
            None => {
                let redo = Redo {
                    paths: vec![input.path.clone()],
                    share: 0.0,
                    share_of_length: 0.0,
                    moves_n_per_m: 0.0,
                    how,
                    shrinks_to,
                    chance: None,
                };
                found.push((redo, rate * rate, length * length));
            }
        }
    }
    let sum = |of: fn(&(Redo, f64, f64)) -> f64| found.iter().map(of).filter(|v| v.is_finite()).sum::<f64>();
    let (rates, lengths) = (sum(|f| f.1), sum(|f| f.2));
    let share = |part: f64, whole: f64| if whole > 0.0 && part.is_finite() { part / whole } else { 0.0 };
    let mut order: Vec<Redo> = found
        .into_iter()
        .map(|(redo, rate, length)| Redo {
            share: share(rate, rates),
            share_of_length: share(length, lengths),
            moves_n_per_m: rate.sqrt(),
            ..redo
        })
        .collect();
    order.sort_by(|a, b| b.matters().total_cmp(&a.matters()));
    order
}

impl Redo {
    /// The larger of its shares.
    pub fn matters(&self) -> f64 {
        self.share.max(self.share_of_length)
    }
}

/// Which other fields are measured with this one, and how all of them are measured closer.
fn together(job: &Job, side: Side, input: &Input, ground: &Ground) -> (impl Fn(&str) -> bool + use<>, Again) {
    let key = side.key();
    let ratio = format!("{key}.ratio.");
    let is_slope = input.path == format!("{ratio}slope");
    let prefix = [ratio.as_str(), "before.", "after."].into_iter().find(|p| input.path.starts_with(p) && !is_slope);
    let axle = job.axle(side);
    let how = match prefix {
        None if is_slope && input.u_si > BY_ROWS_PER_M => Again::Rows { to: BY_ROWS_PER_M / input.u_si },
        Some(p) if p == ratio && axle.ratio.by == RatioBy::Rows => Again::MoreRows,
        Some(p) if p == ratio && axle.ratio.by == RatioBy::Moved => {
            let moved_m = axle.ratio.wheel_moved.read(job.decimal).ok().flatten();
            let from_m = moved_m.map_or(0.0, crate::base::units::Quantity::si);
            let whole_m = ground.metal_m.zip(ground.droop_m).map_or(f64::INFINITY, |(bump, droop)| bump + droop);
            let to_m = (2.0 * from_m).min(whole_m);
            // Nothing longer can be had: the lengths themselves, then.
            if to_m > 1.2 * from_m {
                Again::LongerTravel { from_m, to_m }
            } else {
                Again::Closer { from_u_si: input.u_si, to_u_si: input.u_si / 2.0 }
            }
        }
        Some("before." | "after.") if !input.path.contains("loads") && !input.path.contains("pads") => {
            Again::WeighFourTimes
        }
        _ => Again::Closer { from_u_si: input.u_si, to_u_si: input.u_si / 2.0 },
    };
    let own = input.path.clone();
    let prefix = prefix.map(str::to_owned).filter(|_| !matches!(how, Again::Closer { .. }));
    let slope = format!("{ratio}slope");
    (move |other: &str| prefix.as_ref().map_or(other == own, |p| other.starts_with(p.as_str()) && other != slope), how)
}
