//! Which rate of the old spring counts: the one it was given, or that of the other routes fused.
//!
//! Decided once, before anything is solved: each route is moved by the ± of every field, what they share makes their
//! covariance, and the weights that follow stay while fields are moved. A ± of what rests on the rate then needs
//! nothing more. Source `AITKEN`; `GUM`, 5.2.

use crate::base::math::fuse;
use crate::base::math::spread::Measured;
use crate::base::units::entry::{self, Spread};
use crate::base::units::{Length, Quantity, Ratio};
use crate::job::{LeafBy, PerAxle, RateBy, Side, SpringKind};
use crate::solve::answer::{ByRoutes, OldSpring, RouteKind, step};
use crate::solve::compare;
use crate::solve::evaluate::axle::known::{self, Known};
use crate::solve::evaluate::axle::routes::{AtReference, ByRoute, is_one_number};
use crate::solve::evaluate::decided::{Decided, OldRate};
use crate::solve::evaluate::equal_load;
use crate::solve::read::Reading;

/// The fields of friction and of the rate itself: what they are off by goes under their names.
const FRICTION: &str = "checks.friction";
const RATE: &str = "spring.rate";

/// How the old spring of each axle is read. The reading gets the errors that only show when routes are compared.
pub(in crate::solve) fn old_rates(reading: &mut Reading<'_>) -> PerAxle<OldRate> {
    PerAxle::each(|side| {
        let mut decided = Decided::default();
        if !is_one_number(reading.job.axle(side).spring.kind) {
            decided.old_rate.friction = add_friction(reading, side);
            return decided.old_rate;
        }
        let Some(still) = rates(reading, side, &decided) else { return decided.old_rate };
        if still.all.iter().zip(RouteKind::ALL).any(|(rate, kind)| rate.is_some() && kind.reads_height()) {
            decided.old_rate.friction = add_friction(reading, side);
        }
        if still.all[RouteKind::Recorded as usize].is_some() {
            decided.old_rate.coupling = add_coupling(reading, side);
        }
        fuse_routes(reading, side, &still, decided)
    })
}

/// The old spring's rate, of a stack the main coil's, by every route and by the way that was chosen, N/m along it.
struct Rates {
    all: ByRoute<f64>,
    own: Option<f64>,
}

/// As the fields stand now.
fn rates(reading: &Reading<'_>, side: Side, decided: &Decided) -> Option<Rates> {
    let compared = equal_load::compared(reading);
    let known = Known::read(reading, side, decided, &compared)?;
    let mut facts = OldSpring::default();
    known.read_rates(&mut facts);
    Some(Rates { all: known.rates_along(&facts), own: known.own_rate(&facts) })
}

/// Adds what friction holds as a share of the load: typed, by the loop of a leaf's test, or usual for the kind of spring.
fn add_friction(reading: &mut Reading<'_>, side: Side) -> Option<usize> {
    let axle = reading.job.axle(side);
    let checks = &axle.checks;
    let no_arch = reading.arch_mean(side, false).is_none();
    let reads = [no_arch, checks.ballast_drop.is_blank(), axle.spring.free_length.is_blank()];
    if reads.iter().all(|blank| *blank) {
        return None;
    }
    let by_loop = || if checks.friction.is_blank() { by_loop(reading, side) } else { None };
    let share = by_loop().or_else(|| reading.known(&checks.friction).map(|f: Ratio| f.si()))?;
    reading.add_error(format!("{}.{FRICTION}", side.key()), entry::from_limits_si(share), Spread::Limits)
}

/// Adds what the other end takes part in a bounce of this one, as a share of the sprung mass: with the other end held,
/// (κ²/b − a)/(a + b) more of it moves, a from the centre of gravity to this axle, b to the other. Without a radius of
/// gyration κ² is a·b within a fifth: common practice, no source. Source `DERIVED`.
fn add_coupling(reading: &mut Reading<'_>, side: Side) -> Option<usize> {
    const USUAL: f64 = 0.2;
    let compared = equal_load::compared(reading);
    let sprung = |side: Side| known::masses(reading, side, &compared).stood.before.map(Quantity::si);
    let [front, rear] = Side::BOTH.map(sprung);
    let (own, other) = if side == Side::Front { (front?, rear) } else { (rear?, front) };
    // Of the wheelbase, from the centre of gravity to the other axle.
    let far = other.map_or(0.5, |other| own / (own + other));
    let radius: Option<Length> = reading.typed(&reading.job.chassis.pitch_radius);
    let wheelbase: Option<Length> = reading.typed(&reading.job.vehicle.wheelbase);
    let known = radius.zip(wheelbase).map(|(radius, base)| (radius / base).value.powi(2) / far - (1.0 - far));
    let share = known.map_or(USUAL * (1.0 - far), f64::abs);
    let path = format!("{}.bounce.before.frequency", side.key());
    reading.add_error(path, entry::from_limits_si(share), Spread::Limits)
}

/// Half the gap of a leaf's test over the load that it carries.
fn by_loop(reading: &Reading<'_>, side: Side) -> Option<f64> {
    let compared = equal_load::compared(reading);
    let decided = Decided::default();
    let known = Known::read(reading, side, &decided, &compared)?;
    let mut facts = OldSpring::default();
    known.read_rates(&mut facts);
    let friction = facts.leaf?.test?.friction?;
    let share = friction.si() / AtReference::of(&known)?.force.si();
    (share.is_finite() && share >= 0.0).then_some(share)
}

/// Fuses the routes that do without the way that was chosen, and sees which of the two is known better.
fn fuse_routes(reading: &mut Reading<'_>, side: Side, still: &Rates, mut decided: Decided) -> OldRate {
    let own = if still.own.is_some() { own_routes(reading, side) } else { &[] };
    let kinds: Vec<RouteKind> =
        RouteKind::ALL.into_iter().filter(|k| !own.contains(k) && still.all[*k as usize].is_some()).collect();
    if kinds.is_empty() {
        return decided.old_rate;
    }
    let values: Vec<f64> = kinds.iter().filter_map(|k| still.all[*k as usize]).chain(still.own).collect();
    let covariance = compare::covariance(&values, steps(reading, side, &kinds, values.len(), &decided));
    let routes: Vec<usize> = (0..kinds.len()).collect();
    let Some(fused) = fuse::fuse(&values[..kinds.len()], &covariance.of(&routes)) else { return decided.old_rate };
    let own = still.own.map(|value| Measured { value, u: covariance.u(kinds.len()) });
    let mut weights = [0.0; RouteKind::ALL.len()];
    kinds.iter().zip(&fused.weights).for_each(|(kind, w)| weights[*kind as usize] = *w);
    // Who chose wire, press or a test meant it; a label is only as good as its ±.
    let counts = own.is_none_or(|own| is_stated(reading, side) && fused.u < own.u);
    let beyond = (fused.u * fused.u - fused.u_within * fused.u_within).max(0.0).sqrt();
    if counts {
        let path = format!("{}.{RATE}", side.key());
        decided.old_rate.disagreement = reading.add_error(path, beyond, Spread::Standard);
    }
    decided.old_rate.by_routes = Some(ByRoutes { rate: fused.measured(), weights, own, counts });
    decided.old_rate
}

/// How far each route of these kinds, and last the way that was chosen, is moved by each field's ±; `None` where it is
/// lost.
fn steps(
    reading: &mut Reading<'_>,
    side: Side,
    kinds: &[RouteKind],
    count: usize,
    decided: &Decided,
) -> Vec<Vec<Option<f64>>> {
    let of = |rates: &Option<Rates>, i: usize| match rates {
        Some(rates) => kinds.get(i).map_or(rates.own, |kind| rates.all[*kind as usize]),
        None => None,
    };
    let mut steps = vec![Vec::new(); count];
    let fields: Vec<(usize, f64)> = reading.uncertain(side).map(|(index, f)| (index, f.u_si)).collect();
    for (index, u_si) in fields {
        let [up, down] = [u_si, -u_si].map(|by_si| reading.moved(index, by_si, |moved| rates(moved, side, decided)));
        for (i, steps) in steps.iter_mut().enumerate() {
            steps.push(step(of(&up, i), of(&down, i)));
        }
    }
    steps
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
