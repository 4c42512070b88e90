//! Choosing a spring from the parts list: which fit, how likely, which of them, and what to measure again first.
//!
//! 1. every spring is judged for the current job, over all load cases ([`Ranking`])
//! 2. the best of those that fit are judged again under many random draws of all uncertain values ([`draws`]): as first
//!    fitted, and with the spacer cut again when the axle was weighed on them, which is the chance that ranks
//! 3. chances within five points are a tie, decided on what the answer names already, seat margin, reserve, price; a
//!    spring without a pair in stock comes after those with one ([`Pick`])
//! 4. the least known values are examined: what would measuring it again buy ([`Redo`])

pub mod damper_choice;
pub mod draws;
mod found;
mod judge;
mod lanes;
mod pair;
mod pick;
mod rank;
mod redo;
pub mod take;

use crate::base::progress::Watch;
use crate::job::{Job, Side, bounded};
use crate::shop::parts::Spring;
use crate::solve::answer::{Answer, Reasons};
use draws::{Drawn, Draws, Moments, Tally};
pub use judge::{Bench, Candidate, Judged, Limit};
pub use pair::{Leaves, MOST, Pair, Pairing, Pairs};
pub use pick::{Decided, Named, Pick};
pub use rank::{Ranked, Ranking, Shelf, Unable};
pub use redo::{Again, Redo};

/// Number of fitting springs in the random trials.
pub const DRAWN: usize = 8;
/// Number named when none fits.
pub const NEAREST: usize = 3;
/// Chances within this are a tie.
pub const TIE: f64 = 0.05;
/// Below this best chance: measure before ordering.
pub const MEASURE_BELOW: f64 = 0.6;

/// A spring under all draws.
#[derive(Debug, Clone, PartialEq)]
pub struct Drafted {
    /// Its place in the list's springs.
    pub row: usize,
    /// For the current job.
    pub judged: Judged,
    /// The chance that every known limit holds, its spacer cut again when the axle was weighed on it.
    pub chance: f64,
    /// The same as first fitted, where a spacer may be cut at all.
    pub chance_as_fitted: Option<f64>,
    /// What the draws say, its spacer cut again.
    pub tally: Tally,
    /// What they say as first fitted.
    pub as_fitted: Tally,
}

/// What can be chosen for one axle.
#[derive(Debug, Clone)]
pub struct Choice {
    /// Which axle.
    pub side: Side,
    /// What the answer names for it.
    pub named: Option<Named>,
    /// All springs, for the current job.
    pub ranking: Ranking,
    /// Those that were drawn, best chance first: those that fit, or the nearest when none does.
    pub drafted: Vec<Drafted>,
    /// The spring to take; `None` when none fits.
    pub pick: Option<Pick>,
    /// Left and right, each with its own spring; `None` when the corners were not weighed.
    pub pairs: Option<Pairs>,
    /// The rate that is needed, N/m, under all draws.
    pub needed: Moments,
    /// Between these lie 95 % of the needed rates, N/m.
    pub needed_95: Option<[f64; 2]>,
    /// Draws, and those in which the axle could not be worked out.
    pub draws: (Draws, usize),
    /// What to measure again, most worth first.
    pub redo: Vec<Redo>,
}

impl Choice {
    /// The spring to take.
    pub fn picked(&self) -> Option<&Drafted> {
        self.drafted.get(self.pick.as_ref()?.of)
    }

    /// Places of those that were drawn, as they are listed: the spring to take leads, then the best chance first.
    pub fn in_order(&self) -> Vec<usize> {
        let leads = self.pick.as_ref().map(|p| p.of);
        let others = (0..self.drafted.len()).filter(|at| Some(*at) != leads);
        leads.into_iter().chain(others).collect()
    }

    /// The spring to take is what the answer names, or the answer names none, or a pair.
    pub fn agrees(&self, springs: &[Spring]) -> bool {
        self.selected_pair(springs).is_some()
            || self.picked().zip(self.named.as_ref()).is_none_or(|(picked, named)| named.is(&springs[picked.row]))
    }

    /// The pair that leads.
    pub fn pair(&self) -> Option<&Pair> {
        self.pairs.as_ref()?.best()
    }

    /// The pair that is selected in the job, if it is one of those named.
    pub fn selected_pair(&self, springs: &[Spring]) -> Option<&Pair> {
        let selected = self.named.as_ref()?.selected.as_ref()?;
        let is_it = |pair: &&Pair| pair.is_of_two() && take::number_of(pair.rows.map(|row| &springs[row])) == *selected;
        self.pairs.as_ref()?.named.iter().find(is_it)
    }

    /// Something must not be overlooked: too little is known to order the pick, its height is not known, or no pair holds on
    /// both sides.
    pub fn needs_caution(&self) -> bool {
        self.measure_first()
            || self.pair().is_some_and(|p| !p.level)
            || self.picked().is_some_and(|p| p.judged.margin(Limit::Height).is_none())
    }

    /// It fits for the current job, but what is not known is too much to order it.
    pub fn measure_first(&self) -> bool {
        self.picked().is_some_and(|p| p.chance < MEASURE_BELOW)
    }
}

/// Chooses a spring for one axle. `Ok(None)` when it was cancelled.
///
/// # Errors
/// [`Unable`] when nothing can be chosen, and why.
pub fn choose(
    job: &Job,
    answer: &Answer,
    side: Side,
    springs: &[Spring],
    draws: Draws,
    watch: &Watch,
) -> Result<Option<Choice>, Unable> {
    let used = bounded::used(job);
    let job = &*used;
    let reasons = answer.released(side).err();
    if reasons.as_ref().is_some_and(Reasons::is_stop) {
        return Err(Unable::Stopped);
    }
    if springs.is_empty() {
        return Err(Unable::Empty);
    }
    let ranking = Ranking::new(job, side, springs)?;
    // A doubt about the spring that stands in the job is none about those of the list: each is judged by itself.
    if reasons.is_some_and(|r| !r.only_of_the_spring()) {
        return Err(Unable::Withheld);
    }
    let named = Named::of(answer, side);
    let rows = drawn_rows(&ranking, springs, named.as_ref());
    let candidates: Vec<Candidate> = rows.iter().map(|r| Candidate::of(&springs[*r], &ranking.wish)).collect();
    // Pairs take about as long as a tenth of the draws.
    let for_pairs = draws.count.div_ceil(10);
    watch.expect(draws.count + redo::draws_for(draws) + for_pairs);
    let Some(drawn) = draws::run(job, side, &candidates, |_| 1.0, draws, watch) else { return Ok(None) };
    let drafted = drafted(&ranking, springs, &rows, &drawn);
    let pick = if ranking.fitting > 0 { Some(pick::decide(&drafted, springs, named.as_ref())) } else { None };
    let best = pick.as_ref().map_or(0, |p| p.of);
    let worth = drafted.get(best).map(|d| Candidate::of(&springs[d.row], &ranking.wish));
    let redo = match worth {
        Some(spring) => redo::worth(job, &ranking, side, &spring, draws, watch),
        None => Some(Vec::new()),
    };
    let Some(redo) = redo else { return Ok(None) };
    let picked = pick.as_ref().map(|p| drafted[p.of].row);
    let pairs = match Pairing::of(job, answer, side, &ranking, springs, picked) {
        Some(pairing) => pairing.named(watch, for_pairs),
        None => {
            watch.done(for_pairs);
            None
        }
    };
    if watch.is_cancelled() {
        return Ok(None);
    }
    let needed_95 = drawn.needed_within(0.95);
    let needed = drawn.needed;
    let draws = (draws, drawn.lost);
    Ok(Some(Choice { side, named, ranking, drafted, pick, pairs, needed, needed_95, draws, redo }))
}

/// Those that are drawn: the best that fit, and in any case the best that the answer names and the best with a pair in
/// stock; or the nearest when none fits.
fn drawn_rows(ranking: &Ranking, springs: &[Spring], named: Option<&Named>) -> Vec<usize> {
    let rows = |count: usize| ranking.ranked.iter().take(count).map(|r| r.row);
    if ranking.fitting == 0 {
        return rows(NEAREST).collect();
    }
    let mut drawn: Vec<usize> = rows(DRAWN.min(ranking.fitting)).collect();
    let is_named = |row: usize| named.is_some_and(|n| n.is(&springs[row]));
    let is_pair = |row: usize| Ranking::on_the_shelf(&springs[row]);
    for counts in [&is_named as &dyn Fn(usize) -> bool, &is_pair] {
        if !drawn.iter().any(|row| counts(*row)) {
            drawn.extend(rows(ranking.fitting).find(|row| counts(*row)));
        }
    }
    drawn
}

/// Best chance first; equal chances in the order of the ranking.
fn drafted(ranking: &Ranking, springs: &[Spring], rows: &[usize], drawn: &Drawn) -> Vec<Drafted> {
    let can_be_cut = |row: usize| ranking.wish.is_seat_free() && springs[row].free_length.is_some();
    let one = |(i, row): (usize, &usize)| Drafted {
        row: *row,
        judged: ranking.judge(&springs[*row]),
        chance: drawn.chance(i),
        chance_as_fitted: can_be_cut(*row).then(|| drawn.chance_as_fitted(i)),
        tally: drawn.springs[i].clone(),
        as_fitted: drawn.as_fitted[i].clone(),
    };
    let mut drafted: Vec<Drafted> = rows.iter().enumerate().map(one).collect();
    drafted.sort_by(|a, b| b.chance.total_cmp(&a.chance));
    drafted
}
