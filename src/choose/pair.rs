//! Left and right: the two corners of an axle do not weigh the same.

use super::judge::{Bench, Candidate, Judged, Limit};
use super::rank::{Ranking, key};
use crate::job::{Job, Side};
use crate::shop::parts::Spring;
use crate::solve::ground::{CornerLoad, Survey};

/// Rates of a pair may differ by this share. Common practice, no source.
const SAME_RATE: f64 = 0.03;
/// So many of the springs that fit are looked at for the other side.
const LOOKED_AT: usize = 64;

/// A spring for each side of an axle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pair {
    /// Places in the list's springs: left, right.
    pub rows: [usize; 2],
    /// Each under its own corner's weight, with its own spacer.
    pub judged: [Judged; 2],
    /// Both sides come to the wanted height within what is allowed, and hold every limit but the range of frequency.
    pub level: bool,
    /// Sprung mass of each corner, kg.
    pub sprung_kg: [f64; 2],
}

/// The picked spring under each corner; where its spacers do not reach, another of the same rate for one side or both.
/// One whose length is wrong for the mean of the sides may be right for one of them: only its height may be what it is
/// out for.
/// `None` when the corners were not weighed.
pub(super) fn left_and_right(
    job: &Job,
    side: Side,
    ranking: &Ranking,
    springs: &[Spring],
    picked: usize,
) -> Option<Pair> {
    let loads = Survey::new(job, side).sides()?;
    let rate = springs[picked].rate;
    let near = |row: &usize| ((springs[*row].rate / rate).value - 1.0).abs() <= SAME_RATE && *row != picked;
    let only_height = |row: &usize| ranking.judge(&springs[*row]).broken().all(|l| l == Limit::Height);
    let others = ranking.ranked.iter().map(|r| r.row).filter(near).filter(only_height).take(LOOKED_AT);
    let rows: Vec<usize> = std::iter::once(picked).chain(others).collect();
    let under_each = loads.map(|load| {
        let mut bench = under(ranking, load);
        let on = |row: &usize| bench.judge(&Candidate::of(&springs[*row], &ranking.wish));
        rows.iter().map(on).collect::<Vec<Judged>>()
    });
    let pair = |left: usize, right: usize| {
        let judged = [under_each[0][left], under_each[1][right]];
        let level = judged.iter().all(Judged::stands);
        Pair { rows: [rows[left], rows[right]], judged, level, sprung_kg: loads.map(|l| l.sprung_kg) }
    };
    let same = pair(0, 0);
    if same.level {
        return Some(same);
    }
    let all = (0..rows.len()).flat_map(|left| (0..rows.len()).map(move |right| (left, right)));
    let best = all.map(|(left, right)| pair(left, right)).filter(|p| p.level).min_by(|a, b| {
        let changed = |p: &Pair| p.rows.iter().filter(|r| **r != picked).count();
        let spacers = |p: &Pair| p.judged.iter().map(|j| j.spacer_m.abs()).sum::<f64>();
        let by_what = |p: &Pair| p.rows.map(|r| key(&springs[r]));
        let same = || by_what(a).partial_cmp(&by_what(b)).unwrap_or(std::cmp::Ordering::Equal);
        changed(a).cmp(&changed(b)).then(spacers(a).total_cmp(&spacers(b))).then_with(same)
    });
    Some(best.unwrap_or(same))
}

/// The axle with the weight of one corner in place of the mean.
fn under(ranking: &Ranking, load: CornerLoad) -> Bench<'_> {
    let mut ground = ranking.ground.clone();
    // Every other case gets the same difference.
    let (more_n, more_kg) = (load.load_n - ground.load.load_n, load.sprung_kg - ground.load.sprung_kg);
    for other in &mut ground.others {
        *other = CornerLoad { load_n: other.load_n + more_n, sprung_kg: other.sprung_kg + more_kg };
    }
    ground.load = load;
    Bench::new(ground, &ranking.wish)
}
