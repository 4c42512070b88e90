//! One spring at one corner: where it would sit, whatever spring is at the other, and on which spacers it holds its limits.

use super::asks::Asks;
use crate::choose::judge::{Bench, Candidate, Judged, Limit};
use crate::choose::rank::Ranking;
use crate::solve::ground::CornerLoad;

/// A spacer is made this much thicker to see what follows, m.
const THICKER_M: f64 = 1e-3;
/// Room to the bump stop rests on what the corner carries in the end: only a spring that lacks more, and what the rest of the
/// body takes over, is out before that is known, m.
const STOP_M: f64 = 3e-3;
/// Limits whose margins go with the spacer alone.
const BY_SPACER: [Limit; 4] = [Limit::Bind, Limit::Seat, Limit::Stress, Limit::Load];
const OF_THE_COIL: [Limit; 2] = [Limit::Inside, Limit::Outside];

/// A spring at a corner, to first order around the wanted height.
#[derive(Debug, Clone, Copy)]
pub(super) struct Ready {
    /// Its place in the list's springs.
    pub row: usize,
    /// Its rate, N/m.
    pub rate_n_per_m: f64,
    /// Square of its ride frequency under the mean of the axle, Hz².
    pub hz_squared: f64,
    /// The thinnest and the thickest spacer on which it holds its limits, m.
    holds_m: [f64; 2],
    /// What the corner asks less what the spring gives with both wheels at the wanted height and no spacer, N.
    lacks_n: f64,
    /// The same for each m that the other wheel is lower, N/m.
    by_other_n_per_m: f64,
    /// For each m that its own wheel is lower, N/m.
    own_n_per_m: f64,
    /// Force for each m of spacer, N/m.
    spacer_n_per_m: f64,
    /// Spacers that may be cut, m.
    reach_m: [f64; 2],
}

impl Ready {
    /// Wheel travel from the wanted height and the spacer, m, with the other wheel off by this.
    pub fn stands(&self, other_m: f64) -> (f64, f64) {
        let lacks_n = self.lacks_n - self.by_other_n_per_m * other_m;
        let spacer_m = (lacks_n / self.spacer_n_per_m).clamp(self.reach_m[0], self.reach_m[1]);
        ((lacks_n - self.spacer_n_per_m * spacer_m) / self.own_n_per_m, spacer_m)
    }

    /// All its limits hold on this spacer, give or take.
    pub fn holds_on(&self, spacer_m: f64, slack_m: f64) -> bool {
        (self.holds_m[0] - slack_m..=self.holds_m[1] + slack_m).contains(&spacer_m)
    }

    /// With some other wheel that is off by no more than the band its own is, too: travel goes one way with the other's.
    pub fn can_stand_within(&self, band_m: f64) -> bool {
        let [one, other] = [band_m, -band_m].map(|at_m| self.stands(at_m).0);
        one.min(other) <= band_m && one.max(other) >= -band_m
    }

    /// Left and right together: travel from the wanted height of each, and their spacers, m.
    pub fn both(left: &Ready, right: &Ready) -> ([f64; 2], [f64; 2]) {
        const ROUNDS: usize = 40;
        const SETTLED_M: f64 = 1e-6;
        let (mut at_m, mut right_m) = (left.stands(0.0), right.stands(0.0));
        for _ in 0..ROUNDS {
            let was_m = right_m.0;
            at_m = left.stands(was_m);
            right_m = right.stands(at_m.0);
            if (right_m.0 - was_m).abs() <= SETTLED_M {
                break;
            }
        }
        ([at_m.0, right_m.0], [at_m.1, right_m.1])
    }
}

/// One corner, ready to look at springs.
pub(super) struct Corner<'a> {
    asks: &'a Asks,
    side: usize,
    own: Bench<'a>,
    mean: Bench<'a>,
    ranking: &'a Ranking,
}

impl<'a> Corner<'a> {
    pub fn new(asks: &'a Asks, side: usize, ranking: &'a Ranking) -> Self {
        let mean = Bench::new(ranking.ground.clone(), &ranking.wish);
        Corner { asks, side, own: under(ranking, asks.loads.both()[side]), mean, ranking }
    }

    /// `None` for a spring that breaks one of its limits here whatever spring is at the other corner, its height apart.
    pub fn ready(&mut self, row: usize, spring: &Candidate, is_picked: bool) -> Option<Ready> {
        let (ground, wish) = (&self.ranking.ground, &self.ranking.wish);
        let any_length = Candidate { free_m: None, ..*spring };
        let [at_mean, at_own] = [&mut self.mean, &mut self.own].map(|bench| bench.judge(&any_length));
        let in_range = |judged: &Judged| !judged.broken().any(Limit::is_frequency);
        if !(is_picked || in_range(&at_mean) || in_range(&at_own)) {
            return None;
        }
        let of = |lacks_n: f64| Ready {
            row,
            rate_n_per_m: spring.rate_n_per_m,
            hz_squared: at_mean.frequency_hz.powi(2),
            holds_m: [0.0; 2],
            lacks_n,
            by_other_n_per_m: 0.0,
            own_n_per_m: 1.0,
            spacer_n_per_m: 1.0,
            reach_m: [0.0; 2],
        };
        if !ground.lengths_known || spring.free_m.is_none() {
            // It is bought as long as it must be: both wheels then stand as wanted.
            let holds_m = holds_within(&[at_own; 2], [0.0; 2], 0.0)?;
            return Some(Ready { holds_m, ..of(0.0) });
        }
        let reach_m = [-wish.seat_down_m, wish.spacer_m];
        let ends = reach_m.map(|spacer_m| self.own.judge_on(spring, Some(spacer_m)));
        let spacer_m = Some(self.own.judge(spring).spacer_m).filter(|m| m.is_finite())?;
        let (force_n, rate) = self.own.curve().force_and_rate(ground.wanted_m);
        self.own.judge_on(spring, Some(spacer_m + THICKER_M));
        let spacer_n_per_m = (self.own.curve().force_n(ground.wanted_m) - force_n) / THICKER_M;
        let i = self.side;
        let by = |wheel: usize| rate * self.asks.place[i][wheel] - self.asks.force_n_per_m[i][wheel];
        let (own_n_per_m, by_other_n_per_m) = (by(i), by(1 - i));
        // Judged under a load that stays, a spring goes farther than on the whole body, which takes its share.
        let taken_over = ((own_n_per_m - rate).abs() + by_other_n_per_m.abs()) / rate;
        let holds_m = holds_within(&ends, reach_m, STOP_M + wish.height_m * taken_over)?;
        let lacks_n = self.asks.loads.both()[i].load_n - force_n + spacer_n_per_m * spacer_m;
        Some(Ready { holds_m, by_other_n_per_m, own_n_per_m, spacer_n_per_m, reach_m, ..of(lacks_n) })
    }
}

/// The spacers on which all limits hold, between the thinnest and the thickest that may be cut: those that go with the
/// spacer do so in a straight line. Room to the bump stop may lack this much, m: it is judged in the end.
fn holds_within([thin, thick]: &[Judged; 2], reach_m: [f64; 2], stop_m: f64) -> Option<[f64; 2]> {
    let is_out = |l: Limit, by: f64| thin.margin(l).zip(thick.margin(l)).is_some_and(|(a, b)| a < -by && b < -by);
    if OF_THE_COIL.iter().any(|l| is_out(*l, 0.0)) || is_out(Limit::Stop, stop_m) {
        return None;
    }
    let mut holds_m = reach_m;
    for limit in BY_SPACER {
        let Some((at_thin, at_thick)) = thin.margin(limit).zip(thick.margin(limit)) else { continue };
        let zero_m = || reach_m[0] + (reach_m[1] - reach_m[0]) * at_thin / (at_thin - at_thick);
        match (at_thin < 0.0, at_thick < 0.0) {
            (true, true) => return None,
            (true, false) => holds_m[0] = holds_m[0].max(zero_m()),
            (false, true) => holds_m[1] = holds_m[1].min(zero_m()),
            (false, false) => {}
        }
    }
    (holds_m[0] <= holds_m[1]).then_some(holds_m)
}

/// The axle with the weight of one corner in place of the mean.
pub(super) fn under(ranking: &Ranking, load: CornerLoad) -> Bench<'_> {
    let mut ground = ranking.ground.clone();
    // Every other case gets the same difference.
    let (more_n, more_kg) = (load.load_n - ground.load.load_n, load.sprung_kg - ground.load.sprung_kg);
    for other in &mut ground.others {
        *other = CornerLoad { load_n: other.load_n + more_n, sprung_kg: other.sprung_kg + more_kg };
    }
    ground.load = load;
    Bench::new(ground, &ranking.wish)
}
