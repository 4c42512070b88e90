//! Dampers of the parts list on one axle, with the springs that will be fitted: which fit, which of them, why others not.

use super::Unable;
use crate::base::units::{Length, Quantity, Ratio};
use crate::job::{Job, Side};
use crate::shop::parts::Damper;
use crate::solve::answer::{Answer, AxleAnswer, DamperTargets, Damping, Reasons};
use crate::trade::damper::{BumpRebound, Curve, CurveError};

/// What keeps a damper of the list out.
#[derive(Debug, Clone, PartialEq)]
pub enum DamperLimit {
    /// The list gives no forces: nothing says how much it damps.
    NoForces,
    /// The forces of the list make no curve.
    NoCurve(CurveError),
    /// It damps less than the wanted range, by this amount of the damping ratio.
    Soft(Ratio),
    /// It damps more than the wanted range, by this amount of the damping ratio.
    Stiff(Ratio),
    /// Shortfall of the room wanted at full bump: it would be the stop.
    TooLong(Length),
    /// Shortfall of the room wanted at full droop: it would be the droop stop.
    TooShort(Length),
    /// Fewer than two are in stock.
    NotOnShelf,
}

/// A damper of the list on the axle.
#[derive(Debug, Clone, PartialEq)]
pub struct JudgedDamper {
    /// Its place in the list's dampers.
    pub row: usize,
    /// Its rates by equal work at the peak speed; `None` without a curve.
    pub rates: Option<BumpRebound>,
    /// Its damping ratio on the springs that will be fitted.
    pub ratio: Option<Ratio>,
    /// The peak speed lies beyond the fastest of its points.
    pub is_beyond: bool,
    /// Length at metal less its closed length; `None` when one of them is not known.
    pub to_closed: Option<Length>,
    /// Its open length less the length at droop.
    pub to_open: Option<Length>,
    /// All that keeps it out; empty when it fits.
    pub out: Vec<DamperLimit>,
}

impl JudgedDamper {
    /// Nothing keeps it out.
    pub fn fits(&self) -> bool {
        self.out.is_empty()
    }
}

/// All dampers of a list on one axle, best first.
#[derive(Debug, Clone, PartialEq)]
pub struct DamperRanking {
    /// Best first: those that fit, then the others, nearest first.
    pub ranked: Vec<JudgedDamper>,
    /// How many fit.
    pub fitting: usize,
}

/// Number of dampers listed one by one, of those that fit and of the others.
const TOLD: usize = 8;

impl DamperRanking {
    /// The best of those that fit.
    pub fn fit(&self) -> &[JudgedDamper] {
        &self.ranked[..self.fitting.min(TOLD)]
    }

    /// The nearest of the others.
    pub fn others(&self) -> &[JudgedDamper] {
        let others = &self.ranked[self.fitting..];
        &others[..others.len().min(TOLD)]
    }

    /// Those listed one by one.
    pub fn told(&self) -> impl Iterator<Item = &JudgedDamper> {
        self.fit().iter().chain(self.others())
    }

    /// Number not listed one by one.
    pub fn not_told(&self) -> usize {
        (self.ranked.len() - self.fitting).saturating_sub(TOLD)
    }
}

/// Damping ratios within this of each other do not decide; then the price does. Common practice, no source.
const SAME_RATIO: f64 = 0.02;

/// Ranks the dampers of a list for the springs that will be fitted for the current job.
///
/// # Errors
/// [`Unable`]: a rating is exceeded, the axle is withheld or has no springs yet, or the list has no damper.
pub fn rank(job: &Job, answer: &Answer, side: Side, dampers: &[Damper]) -> Result<DamperRanking, Unable> {
    let released = answer.released(side);
    if released.as_ref().is_err_and(Reasons::is_stop) {
        return Err(Unable::Stopped);
    }
    if dampers.is_empty() {
        return Err(Unable::NoDampers);
    }
    let axle = answer.axle(side);
    let needed = axle.damping.as_ref().ok_or(Unable::NotKnown)?;
    let part = released.map_err(|_| Unable::Withheld)?;
    let targets = part.parts().damper.as_ref().ok_or(Unable::NotKnown)?;
    let only_shelf = job.axle(axle.side).choice.in_stock_only;
    let judged =
        dampers.iter().enumerate().map(|(row, damper)| judge(row, damper, axle, (needed, targets), only_shelf));
    let mut ranked: Vec<JudgedDamper> = judged.collect();
    let off = |j: &JudgedDamper| j.ratio.map_or(f64::INFINITY, |z| (z.si() - needed.ratio.aim.si()).abs());
    // Steps, so that the order is one: what is alike in damping is told apart by its price.
    let key = |j: &JudgedDamper| ((off(j) / SAME_RATIO).round(), dampers[j.row].price.unwrap_or(f64::INFINITY));
    ranked.sort_by(|a, b| {
        let (a_key, b_key) = (key(a), key(b));
        (a.out.len().cmp(&b.out.len()))
            .then(a_key.0.total_cmp(&b_key.0))
            .then(a_key.1.total_cmp(&b_key.1))
            .then(dampers[a.row].number.cmp(&dampers[b.row].number))
            .then(a.row.cmp(&b.row))
    });
    let fitting = ranked.iter().filter(|j| j.fits()).count();
    Ok(DamperRanking { ranked, fitting })
}

fn judge(
    row: usize,
    damper: &Damper,
    axle: &AxleAnswer,
    (needed, targets): (&Damping, &DamperTargets),
    only_shelf: bool,
) -> JudgedDamper {
    let curve = Curve::through(&damper.points);
    let (curve, no_curve) = match curve {
        Ok(curve) => (Some(curve), None),
        Err(error) => (None, Some(error).filter(|_| !damper.points.is_empty())),
    };
    let rates = curve.as_ref().map(|c| c.equal_work(needed.peak_speed));
    // ζ goes with the rate: the aim's rate gives the aim's ratio.
    let ratio = rates.map(|r| needed.ratio.aim * (r.mean() / targets.at_damper.aim).si());
    let to_closed = axle.room.damper_at_metal.zip(damper.closed_length).map(|(length, closed)| length - closed);
    let to_open = axle.room.damper_at_droop.zip(damper.open_length).map(|(length, open)| open - length);
    let least = needed.least_room.unwrap_or(Length::from_si(0.0));
    let short = |left: Option<Length>| left.map(|l| least - l).filter(|by| by.si() > 0.0);
    let mut out = Vec::new();
    match ratio {
        None => out.push(no_curve.map_or(DamperLimit::NoForces, DamperLimit::NoCurve)),
        Some(z) if z < needed.ratio.low => out.push(DamperLimit::Soft(needed.ratio.low - z)),
        Some(z) if z > needed.ratio.high => out.push(DamperLimit::Stiff(z - needed.ratio.high)),
        Some(_) => {}
    }
    out.extend(short(to_closed).map(DamperLimit::TooLong));
    out.extend(short(to_open).map(DamperLimit::TooShort));
    if only_shelf && damper.stock.is_some_and(|n| n < 2) {
        out.push(DamperLimit::NotOnShelf);
    }
    let is_beyond = curve.is_some_and(|c| c.is_beyond(needed.peak_speed));
    JudgedDamper { row, rates, ratio, is_beyond, to_closed, to_open, out }
}
