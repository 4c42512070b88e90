//! Left and right: the two corners of an axle do not weigh the same.

use super::judge::{Bench, Candidate, Judged, Limit};
use super::rank::{Ranking, key};
use crate::job::{Job, Side};
use crate::shop::parts::Spring;
use crate::solve::answer::{Answer, SidesStand};
use crate::solve::ground::{CornerLoad, Survey};
use crate::solve::other_springs::OtherSprings;

/// Rates of a pair may differ by this share. Common practice, no source.
const SAME_RATE: f64 = 0.03;
/// Number of fitting springs tried on the other side.
const LOOKED_AT: usize = 64;
/// Spacers move the loads, and loads the spacers: this number of rounds at most, until no wheel moves by more than this, m.
const ROUNDS: usize = 12;
const SETTLED_M: f64 = 1e-6;

/// A spring for each side of an axle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pair {
    /// Places in the list's springs: left, right.
    pub rows: [usize; 2],
    /// Each at its own corner, with its own spacer.
    pub judged: [Judged; 2],
    /// Both sides come to the wanted height within what is allowed, and hold every limit but the range of frequency.
    pub level: bool,
    /// Sprung mass of each corner, kg.
    pub sprung_kg: [f64; 2],
    /// What each corner is judged under.
    pub loads: [CornerLoad; 2],
    /// The whole body on this pair; `None` where the four corners are not known: each side is then judged under its own
    /// corner as weighed.
    pub body: Option<SidesStand>,
}

/// The axle, and what may be put on it.
struct Choosing<'a> {
    ranking: &'a Ranking,
    springs: &'a [Spring],
    body: OtherSprings<'a>,
}

/// The picked spring at each corner; where its spacers do not reach, another of the same rate for one side or both.
/// One whose length is wrong for the mean of the sides may be right for one of them: only its height may be what it is
/// out for. Loads and heights are those of all four corners at once.
/// `None` when the corners were not weighed.
pub(super) fn left_and_right(
    job: &Job,
    answer: &Answer,
    side: Side,
    ranking: &Ranking,
    springs: &[Spring],
    picked: usize,
) -> Option<Pair> {
    answer.after.corners?;
    let on = Choosing { ranking, springs, body: OtherSprings::of(job, answer, side) };
    let mean = ranking.ground.load;
    let alike = on.settled([picked, picked], [mean, mean]);
    let same = match alike {
        Some(same) => same,
        None => on.pair([picked, picked], Survey::new(job, side).sides()?),
    };
    if same.level {
        return Some(same);
    }
    let loads = same.loads;
    let rate = springs[picked].rate;
    let near = |row: &usize| ((springs[*row].rate / rate).value - 1.0).abs() <= SAME_RATE && *row != picked;
    let only_height = |row: &usize| ranking.judge(&springs[*row]).broken().all(|l| l == Limit::Height);
    let others = ranking.ranked.iter().map(|r| r.row).filter(near).filter(only_height).take(LOOKED_AT);
    let rows: Vec<usize> = std::iter::once(picked).chain(others).collect();
    let best = on.best(&rows, loads);
    let best = best.and_then(|rows| on.settled(rows, loads).or_else(|| Some(on.pair(rows, loads))));
    Some(best.filter(|pair| pair.level).unwrap_or(same))
}

impl Choosing<'_> {
    fn judge(&self, row: usize, bench: &mut Bench<'_>) -> Judged {
        bench.judge(&Candidate::of(&self.springs[row], &self.ranking.wish))
    }

    /// A pair under loads that stay as they are.
    fn pair(&self, rows: [usize; 2], loads: [CornerLoad; 2]) -> Pair {
        let judged = [0, 1].map(|i| self.judge(rows[i], &mut under(self.ranking, loads[i])));
        let level = judged.iter().all(Judged::stands);
        Pair { rows, judged, level, sprung_kg: loads.map(|l| l.sprung_kg), loads, body: None }
    }

    /// A pair as the whole body then is, each spring on the spacer that its own corner asks for.
    fn settled(&self, rows: [usize; 2], mut loads: [CornerLoad; 2]) -> Option<Pair> {
        for _ in 0..ROUNDS {
            let mut benches = loads.map(|load| under(self.ranking, load));
            let judged = [0, 1].map(|i| self.judge(rows[i], &mut benches[i]));
            let curves = [0, 1].map(|i| benches[i].curve().clone());
            // What the curve carries where the wheel is: on a beam that is not what the wheel itself carries.
            let body = self.body.stand(curves.clone())?;
            loads = [0, 1]
                .map(|i| CornerLoad { load_n: curves[i].force_n(body.travel_m[i]), sprung_kg: body.sprung_kg[i] });
            if (0..2).all(|i| (body.travel_m[i] - judged[i].travel_m).abs() <= SETTLED_M) {
                let level = judged.iter().all(Judged::stands);
                return Some(Pair { rows, judged, level, sprung_kg: body.sprung_kg, loads, body: Some(body) });
            }
        }
        None
    }

    /// Of all that are level under these loads those that change least, then with the thinnest spacers.
    fn best(&self, rows: &[usize], loads: [CornerLoad; 2]) -> Option<[usize; 2]> {
        let under_each = loads.map(|load| {
            let mut bench = under(self.ranking, load);
            rows.iter().map(|row| self.judge(*row, &mut bench)).collect::<Vec<Judged>>()
        });
        let judged = |[left, right]: [usize; 2]| [under_each[0][left], under_each[1][right]];
        let all = (0..rows.len()).flat_map(|left| (0..rows.len()).map(move |right| [left, right]));
        let level = all.filter(|pair| judged(*pair).iter().all(Judged::stands));
        let changed = |pair: &[usize; 2]| pair.iter().filter(|r| **r != 0).count();
        let spacers = |pair: &[usize; 2]| judged(*pair).iter().map(|j| j.spacer_m.abs()).sum::<f64>();
        let by_what = |pair: &[usize; 2]| pair.map(|r| key(&self.springs[rows[r]]));
        let best = level.min_by(|a, b| {
            let same = || by_what(a).partial_cmp(&by_what(b)).unwrap_or(std::cmp::Ordering::Equal);
            changed(a).cmp(&changed(b)).then(spacers(a).total_cmp(&spacers(b))).then_with(same)
        })?;
        Some(best.map(|r| rows[r]))
    }
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
