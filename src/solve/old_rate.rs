//! Which rate of the old spring counts: the one it was given, or that of the other routes fused.
//!
//! Decided once, before anything is solved: each route is moved by the ± of every field, what they share makes their
//! covariance, and the weights that follow stay while fields are moved. A ± of what rests on the rate then needs
//! nothing more. Source `AITKEN`; `GUM`, 5.2.

use super::answer::{ByRoutes, OldSpring, RouteKind};
use super::axle::Opening;
use super::known::Known;
use super::read::Reading;
use super::routes::{self, AtReference, ByRoute};
use super::{compare, loads};
use crate::job::{Job, LeafBy, RateBy, Side, SpringKind};
use crate::math::fuse;
use crate::math::spread::Measured;
use crate::units::entry::{self, Spread};
use crate::units::{Quantity, Ratio};

/// The fields of friction and of the rate itself: what they are off by goes under their names.
const FRICTION: &str = "checks.friction";
const RATE: &str = "spring.rate";

/// What was decided about one axle's old spring.
#[derive(Debug, Clone, Default)]
pub(super) struct OldRate {
    /// What friction holds, as a share of the load: an error around nothing.
    pub friction: Option<usize>,
    /// The other routes fused.
    pub by_routes: Option<ByRoutes>,
    /// By how much they disagree beyond their own ±: an error around nothing, N/m.
    disagreement: Option<usize>,
}

/// A spring that one number of rate describes.
pub(super) fn is_one_number(kind: SpringKind) -> bool {
    matches!(kind, SpringKind::Coil | SpringKind::WithHelper | SpringKind::Leaf)
}

/// The reading of a job, with the old rates decided.
pub(super) fn read(job: &Job) -> Reading<'_> {
    let mut reading = Reading::of(job);
    for side in Side::BOTH {
        if !is_one_number(job.axle(side).spring.kind) {
            add_friction(&mut reading, side);
            continue;
        }
        let Some(still) = rates(&reading, side) else { continue };
        if still.all.iter().zip(RouteKind::ALL).any(|(rate, kind)| rate.is_some() && kind.reads_height()) {
            add_friction(&mut reading, side);
        }
        decide(&mut reading, side, &still);
    }
    reading
}

/// The old spring's rate, of a stack the main coil's, by every route and by the way that was chosen, N/m along it.
struct Rates {
    all: ByRoute<f64>,
    own: Option<f64>,
}

/// As the fields stand now.
fn rates(reading: &Reading<'_>, side: Side) -> Option<Rates> {
    let compared = loads::compared(reading);
    let opening = Opening::read(reading, side, &compared);
    let known = Known::read(reading, &opening, None, &compared)?;
    let mut facts = OldSpring::default();
    known.read_rates(&mut facts);
    Some(Rates { all: known.rates_along(&facts), own: known.own_rate(&facts) })
}

/// Friction as a share of the load: typed, by the loop of a leaf's test, or usual for the kind of spring.
fn add_friction(reading: &mut Reading<'_>, side: Side) {
    let axle = reading.job.axle(side);
    let checks = &axle.checks;
    let reads = [checks.arch_after.is_blank(), checks.ballast_drop.is_blank(), axle.spring.free_length.is_blank()];
    if reads.iter().all(|blank| *blank) {
        return;
    }
    let by_loop = || if checks.friction.is_blank() { by_loop(reading, side) } else { None };
    let Some(share) = by_loop().or_else(|| reading.known(&checks.friction).map(|f: Ratio| f.si())) else { return };
    let u = entry::from_limits_si(share);
    let index = reading.add_error(format!("{}.{FRICTION}", side.key()), u, Spread::Limits);
    reading.old_rates[side as usize].friction = index;
}

/// Half the gap of a leaf's test over the load that it carries.
fn by_loop(reading: &Reading<'_>, side: Side) -> Option<f64> {
    let compared = loads::compared(reading);
    let known = Known::read(reading, &Opening::read(reading, side, &compared), None, &compared)?;
    let mut facts = OldSpring::default();
    known.read_rates(&mut facts);
    let friction = facts.leaf?.test?.friction?;
    let share = friction.si() / AtReference::of(&known)?.force.si();
    (share.is_finite() && share >= 0.0).then_some(share)
}

/// Fuses the routes that do without the way that was chosen, and sees which of the two is known better.
fn decide(reading: &mut Reading<'_>, side: Side, still: &Rates) {
    let own = if still.own.is_some() { own_routes(reading, side) } else { &[] };
    let kinds: Vec<RouteKind> =
        RouteKind::ALL.into_iter().filter(|k| !own.contains(k) && still.all[*k as usize].is_some()).collect();
    if kinds.is_empty() {
        return;
    }
    let values: Vec<f64> = kinds.iter().filter_map(|k| still.all[*k as usize]).chain(still.own).collect();
    let of = |rates: &Option<Rates>, i: usize| match rates {
        Some(rates) => kinds.get(i).map_or(rates.own, |kind| rates.all[*kind as usize]),
        None => None,
    };
    let mut steps = vec![Vec::new(); values.len()];
    let fields: Vec<(usize, f64)> = reading.uncertain(side).map(|f| (f.index, f.u_si)).collect();
    for (index, u_si) in fields {
        let [up, down] = [u_si, -u_si].map(|by_si| {
            reading.move_by(index, by_si);
            rates(reading, side)
        });
        reading.move_by(index, 0.0);
        for (i, steps) in steps.iter_mut().enumerate() {
            steps.push(of(&up, i).zip(of(&down, i)).map(|(up, down)| 0.5 * (up - down)));
        }
    }
    let covariance = compare::covariance(&values, steps);
    let routes: Vec<usize> = (0..kinds.len()).collect();
    let Some(fused) = fuse::fuse(&values[..kinds.len()], &covariance.of(&routes)) else { return };
    let own = still.own.map(|value| Measured { value, u: covariance.u(kinds.len()) });
    let mut weights = [0.0; RouteKind::ALL.len()];
    kinds.iter().zip(&fused.weights).for_each(|(kind, w)| weights[*kind as usize] = *w);
    // Who chose wire, press or a test meant it; a label is only as good as its ±.
    let counts = own.is_none_or(|own| is_stated(reading, side) && fused.u < own.u);
    let beyond = (fused.u * fused.u - fused.u_within * fused.u_within).max(0.0).sqrt();
    if counts {
        let path = format!("{}.{RATE}", side.key());
        reading.old_rates[side as usize].disagreement = reading.add_error(path, beyond, Spread::Standard);
    }
    reading.old_rates[side as usize].by_routes = Some(ByRoutes { rate: fused.measured(), weights, own, counts });
}

/// The way that was chosen is a label, a catalogue or hearsay.
fn is_stated(reading: &Reading<'_>, side: Side) -> bool {
    let spring = &reading.job.axle(side).spring;
    match spring.kind {
        SpringKind::Leaf => spring.leaf.by == LeafBy::Stated,
        _ => spring.rate_by == RateBy::Stated,
    }
}

/// The routes that are the way that was chosen itself.
fn own_routes(reading: &Reading<'_>, side: Side) -> &'static [RouteKind] {
    let spring = &reading.job.axle(side).spring;
    match (spring.kind, spring.rate_by) {
        (SpringKind::Coil | SpringKind::WithHelper, RateBy::Stated) => &[RouteKind::Stated],
        (SpringKind::Coil | SpringKind::WithHelper, RateBy::Wire) => &[RouteKind::Wire],
        (SpringKind::Coil | SpringKind::WithHelper, RateBy::Press) => &[RouteKind::Press],
        (SpringKind::Coil | SpringKind::WithHelper, RateBy::Together) => &[RouteKind::Wire, RouteKind::Press],
        _ => &[RouteKind::Spring],
    }
}

impl Known<'_> {
    /// What friction holds as a share of the load, as moved now; 0 as it stands.
    pub fn friction(&self) -> f64 {
        self.reading.old_rates[self.side as usize].friction.map_or(0.0, |i| self.reading.error(i))
    }

    /// The old spring's rate by every route, N/m along it: of a stack the main coil's.
    fn rates_along(&self, facts: &OldSpring) -> ByRoute<f64> {
        let Some(at) = AtReference::of(self) else { return [None; RouteKind::ALL.len()] };
        routes::rates(self, facts, None).map(|wheel| at.along(wheel?))
    }

    /// The rate that counts, N/m along the spring; of a stack the main coil's.
    pub fn counted_rate(&self, facts: &OldSpring) -> Option<f64> {
        let decided = &self.reading.old_rates[self.side as usize];
        let own = self.own_rate(facts);
        let Some(by_routes) = decided.by_routes.filter(|b| b.counts) else { return own };
        let rates = self.rates_along(facts);
        let mut fused = decided.disagreement.map_or(0.0, |i| self.reading.error(i));
        for (rate, weight) in rates.iter().zip(by_routes.weights).filter(|(_, w)| *w > 0.0) {
            fused += (*rate)? * weight;
        }
        (fused > 0.0).then_some(fused)
    }
}
