//! Which of the springs that were drawn is the one to take, and what decides.

use super::{Drafted, Limit, MEASURE_BELOW, Ranking, TIE};
use crate::base::units::Quantity;
use crate::job::Side;
use crate::shop::parts::Spring;
use crate::solve::answer::Answer;

/// Seat margins within this do not decide, m at the spring. Common practice, no source.
const SAME_SEAT_M: f64 = 0.005;
/// Reserves within this do not decide, g. Common practice, no source.
const SAME_RESERVE: f64 = 0.02;
/// Rates of the same spring, written in different units, agree to this share.
const SAME_RATE: f64 = 2e-3;

/// What decided between springs of about the same chance.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Decided {
    /// No other came near its chance.
    Chance,
    /// More of its limits could be checked.
    Known,
    /// The answer names it already: it has the rate that was sized, or it is the spring selected.
    Named,
    /// The most grip on its seats at droop.
    Seat,
    /// The most reserve before the bump stop.
    Reserve,
    /// The price.
    Price,
    /// Nothing: they are the same in all of these.
    Nothing,
}

/// The spring to take.
#[derive(Debug, Clone, PartialEq)]
pub struct Pick {
    /// Its place among the drafted ones.
    pub of: usize,
    /// Places of all that tie with it, itself included.
    pub tie: Vec<usize>,
    /// What decided.
    pub by: Decided,
    /// The one that would lead if the shelf held two of it; its place among the drafted ones.
    pub passed_over: Option<usize>,
}

/// What the answer names for an axle: the stock rate that was sized, or the spring selected in the job.
#[derive(Debug, Clone, PartialEq)]
pub struct Named {
    /// Its rate, N/m.
    pub rate_n_per_m: f64,
    /// The number or name of the spring selected; `None` for a stock rate.
    pub selected: Option<String>,
}

impl Named {
    /// `None` while the axle is withheld, or not sized.
    pub(super) fn of(answer: &Answer, side: Side) -> Option<Self> {
        let part = answer.released(side).ok()?;
        Some(Named { rate_n_per_m: part.spring?.pick.si(), selected: part.taken.clone() })
    }

    /// The spring selected, or one that has the stock rate that was sized.
    pub fn is(&self, spring: &Spring) -> bool {
        match &self.selected {
            Some(number) if spring.number.is_empty() => *number == spring.what,
            Some(number) => *number == spring.number,
            None => (spring.rate.si() / self.rate_n_per_m - 1.0).abs() < SAME_RATE,
        }
    }
}

/// The one that leads, one with a pair in stock before one without: such a one leads only where no pair holds as often
/// and none holds often enough to be ordered.
pub(super) fn decide(drafted: &[Drafted], springs: &[Spring], named: Option<&Named>) -> Pick {
    let all: Vec<usize> = (0..drafted.len()).collect();
    let is_pair = |i: &usize| Ranking::on_the_shelf(&springs[drafted[*i].row]);
    let first = lead(&all, drafted, springs, named);
    if is_pair(&first.of) {
        return first;
    }
    let pairs: Vec<usize> = all.iter().copied().filter(is_pair).collect();
    let enough = MEASURE_BELOW.min(drafted.get(first.of).map_or(0.0, |d| d.chance) - TIE);
    match pairs.iter().any(|i| drafted[*i].chance >= enough) {
        true => Pick { passed_over: Some(first.of), ..lead(&pairs, drafted, springs, named) },
        false => first,
    }
}

/// Among those within five points of the best of some: what is named already, the most seat preload, then the most
/// reserve, then the lowest price. Differences too small to notice do not decide.
fn lead(of: &[usize], drafted: &[Drafted], springs: &[Spring], named: Option<&Named>) -> Pick {
    let best = of.iter().map(|i| drafted[*i].chance).fold(0.0, f64::max);
    let tie: Vec<usize> = of.iter().copied().filter(|i| drafted[*i].chance >= best - TIE).collect();
    let value = |i: usize, by: Decided| {
        let (judged, spring) = (&drafted[i].judged, &springs[drafted[i].row]);
        let known = match by {
            Decided::Known => Some(-(judged.not_known().count() as f64)),
            Decided::Named => named.map(|named| f64::from(u8::from(named.is(spring)))),
            Decided::Seat => judged.margin(Limit::Seat),
            Decided::Reserve => Some(judged.reserve).filter(|r| !r.is_nan()),
            _ => spring.price.map(|p| -p),
        };
        known.unwrap_or(f64::NEG_INFINITY)
    };
    let mut left = tie.clone();
    let mut by = if tie.len() > 1 { Decided::Nothing } else { Decided::Chance };
    for (step, same) in [
        (Decided::Known, 0.0),
        (Decided::Named, 0.0),
        (Decided::Seat, SAME_SEAT_M),
        (Decided::Reserve, SAME_RESERVE),
        (Decided::Price, 0.0),
    ] {
        let most = left.iter().map(|i| value(*i, step)).fold(f64::NEG_INFINITY, f64::max);
        let kept: Vec<usize> = left.iter().copied().filter(|i| value(*i, step) >= most - same).collect();
        if kept.len() < left.len() && !kept.is_empty() {
            (left, by) = (kept, step);
        }
        if left.len() == 1 {
            break;
        }
    }
    Pick { of: left.first().copied().unwrap_or(0), tie, by, passed_over: None }
}
