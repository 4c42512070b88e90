//! What a first answer still needs, and what would say the old spring's rate instead.

use crate::base::units::{Length, Mass, Quantity};
use crate::job::read::{Axle, LeafTestRow, LoadPoint};
use crate::job::{AxleKind, BagFitted, LeafBy, PerAxle, RateBy, RatioBy, Side, SpringKind};
use crate::solve::answer::{AxleAnswer, BeforeAfter, RouteKind, Vehicle, Weighed};
use crate::solve::evaluate::axle::routes;
use crate::solve::evaluate::decided::OldRate;
use crate::solve::read::{Moves, Reading, ratio_is_blank};

/// Fields of a part, each with whether it still has no value.
macro_rules! open {
    ($reading:ident, $part:ident: $($first:ident $(.$more:ident)*),+) => {
        [$((
            concat!(stringify!($first) $(, ".", stringify!($more))*),
            $reading.typed(&$part.$first$(.$more)*).is_none(),
        )),+]
    };
}

/// Those fields of an axle that have no value, as paths.
fn paths(side: Side, open: &[(&str, bool)]) -> Vec<String> {
    open.iter().filter(|o| o.1).map(|o| format!("{}.{}", side.key(), o.0)).collect()
}

/// What a first answer still needs, as paths.
pub(super) fn missing(reading: &Reading<'_>, old: &OldRate, answer: &AxleAnswer, after: &Weighed) -> Vec<String> {
    let side = answer.side;
    let (axle, key) = (reading.job.axle(side), side.key());
    let mut missing = Vec::new();
    if after.axle(side).is_none() {
        missing.push(if side == Side::Front { "after.lf".to_owned() } else { "after.lr".to_owned() });
    }
    let needs_ratio = match axle.spring.kind {
        SpringKind::TorsionBar => false,
        SpringKind::Leaf => !ratio_is_blank(&axle.ratio),
        _ => true,
    };
    if needs_ratio && reading.length_curve(side, Moves::Spring).is_none() {
        missing.extend(ratio_missing(reading, side, Moves::Spring));
    }
    let gas = reading.known(&axle.damper.gas_pressure).is_some_and(|p| p.si() > 0.0);
    if gas && axle.spring.kind == SpringKind::TorsionBar && reading.length_curve(side, Moves::Damper).is_none() {
        missing.extend(ratio_missing(reading, side, Moves::Damper));
    }
    // A rate that other routes give need not be given.
    let needs_rate = old.by_routes.is_none();
    let of_rate = spring_missing(reading, axle).into_iter().filter(|(_, is_rate)| needs_rate || !is_rate);
    missing.extend(of_rate.map(|(field, _)| format!("{key}.spring.{field}")));
    if axle.bag.fitted != BagFitted::No {
        missing.extend(paths(side, &open!(reading, axle: bag.pressure, bag.area, bag.volume)));
    }
    missing
}

/// Fields that a motion ratio still needs by the way that was chosen, as paths.
fn ratio_missing(reading: &Reading<'_>, side: Side, moves: Moves) -> Vec<String> {
    let (axle, key) = (reading.job.axle(side), side.key());
    let ratio = moves.ratio(axle);
    match ratio.by {
        RatioBy::Points => reading.points_missing(side, moves),
        RatioBy::Arm if !ratio.seat_arm.is_blank() => vec![format!("{key}.linkage.arm_length")],
        by => vec![format!("{key}.{}", by.first_field(moves.key()))],
    }
}

/// Fields of the spring itself that a first answer still needs, and whether they only say its rate.
fn spring_missing(reading: &Reading<'_>, axle: &Axle) -> Vec<(&'static str, bool)> {
    let spring = &axle.spring;
    let mut wire = open!(reading, spring: wire.diameter, wire.outside_diameter, wire.active_coils);
    // All coils counted say the active ones, too.
    wire[2].1 &= reading.typed(&spring.wire.total_coils).is_none();
    let press = open!(reading, spring: press.first_length, press.first_load, press.second_length, press.second_load);
    let stated = open!(reading, spring: rate);
    let of_coil: Vec<(&str, bool)> = match spring.rate_by {
        RateBy::Stated => stated.to_vec(),
        RateBy::Wire => wire.to_vec(),
        RateBy::Press => press.to_vec(),
        RateBy::Together => [wire.as_slice(), press.as_slice()].concat(),
    };
    let both = |a: bool, b: bool| a && b;
    let whole = |p: &&LoadPoint| both(reading.typed(&p.length).is_some(), reading.typed(&p.load).is_some());
    let points = spring.points.iter().filter(whole).count();
    let whole = |r: &&LeafTestRow| both(reading.typed(&r.load).is_some(), reading.typed(&r.loading).is_some());
    let rows = spring.leaf.rows.iter().filter(whole).count();
    let open: Vec<(&'static str, bool)> = match spring.kind {
        SpringKind::Coil => of_coil,
        SpringKind::WithHelper => {
            let helper = open!(reading, spring: helper.rate, helper.free_length, helper.solid_length);
            [of_coil.as_slice(), &helper].concat()
        }
        SpringKind::Progressive => vec![("points[0].length", points < 2)],
        SpringKind::TorsionBar => open!(reading, spring: bar.diameter, bar.length, bar.arm, bar.angle).to_vec(),
        SpringKind::Leaf => match spring.leaf.by {
            LeafBy::Stated => stated.to_vec(),
            LeafBy::Test => vec![("leaf.rows[0].load", rows < 2)],
            LeafBy::Sizes => open!(reading, spring: leaf.span, leaf.width, leaf.thickness, leaf.leaves).to_vec(),
        },
    };
    let is_rate = |field: &str| routes::is_one_number(spring.kind) && !field.starts_with("helper.");
    open.into_iter().filter(|o| o.1).map(|o| (o.0, is_rate(o.0))).collect()
}

/// What would say the old spring's rate without stating it: of each route the fields that are still blank, as paths, the
/// nearest to done first. Empty when a rate is known, or one number does not describe the spring.
pub(super) fn instead(
    reading: &Reading<'_>,
    old: &OldRate,
    answer: &AxleAnswer,
    weighed: &BeforeAfter<Weighed>,
) -> Vec<Vec<String>> {
    let (side, axle) = (answer.side, reading.job.axle(answer.side));
    let needs_rate = spring_missing(reading, axle).iter().any(|(_, is_rate)| *is_rate);
    if !needs_rate || old.by_routes.is_some() {
        return Vec::new();
    }
    let corner = if side == Side::Front { "lf" } else { "lr" };
    let weight = |w: &Weighed, when: &str| w.axle(side).is_none().then(|| format!("{when}.{corner}"));
    let of_route = |kind: RouteKind| match kind {
        RouteKind::Closure if axle.spring.kind.is_coil() => {
            paths(side, &open!(reading, axle: spring.free_length, spring.fitted_length))
        }
        RouteKind::Swap => {
            let heights = [arch(reading, side, true), arch(reading, side, false)];
            weight(&weighed.before, "before").into_iter().chain(heights.into_iter().flatten()).collect()
        }
        RouteKind::Ballast => paths(side, &open!(reading, axle: checks.ballast, checks.ballast_drop)),
        RouteKind::Bounce => paths(side, &open!(reading, axle: checks.bounces, checks.bounce_time)),
        _ => Vec::new(),
    };
    let mut open: Vec<Vec<String>> = RouteKind::ALL.map(of_route).into();
    open.retain(|fields| !fields.is_empty());
    open.sort_by_key(Vec::len);
    open
}

/// The field that still says hub to arch of an axle before or after: its mean, or the corner that is missing to the other.
fn arch(reading: &Reading<'_>, side: Side, is_before: bool) -> Option<String> {
    if reading.arch_mean(side, is_before).is_some() {
        return None;
    }
    let (when, arches) =
        if is_before { ("before", &reading.job.before.arch) } else { ("after", &reading.job.after.arch) };
    let corners = match side {
        Side::Front => [("lf", &arches.lf), ("rf", &arches.rf)],
        Side::Rear => [("lr", &arches.lr), ("rr", &arches.rr)],
    };
    let (read, blank): (Vec<_>, Vec<_>) =
        corners.into_iter().partition(|(_, arch)| reading.typed::<Length>(arch).is_some());
    Some(match (read.as_slice(), blank.as_slice()) {
        ([_], [(missing, _)]) => format!("{when}.arch.{missing}"),
        _ => format!("{}.checks.arch_{when}", side.key()),
    })
}

/// What four corner weights still need before each corner is known, as paths: fields of the vehicle, else what the axles
/// need for an answer. Without four readings, those of the weigh-in after. Empty once the corners are known.
pub(super) fn of_corners(reading: &Reading<'_>, vehicle: &Vehicle, axles: PerAxle<&AxleAnswer>) -> Vec<String> {
    if vehicle.whole.corners_fitted().is_some() {
        return Vec::new();
    }
    if vehicle.before.corners.or(vehicle.after.corners).is_none() {
        let after = &reading.job.after;
        let read = [("lf", &after.lf), ("rf", &after.rf), ("lr", &after.lr), ("rr", &after.rr)];
        let blank = read.into_iter().filter(|(_, entry)| reading.typed::<Mass>(entry).is_none());
        return blank.map(|(corner, _)| format!("after.{corner}")).collect();
    }
    let is_open = |entry| reading.typed::<Length>(entry).is_none();
    let wheelbase = is_open(&reading.job.vehicle.wheelbase).then(|| "vehicle.wheelbase".to_owned());
    let across = Side::BOTH.into_iter().flat_map(|side| {
        let axle = reading.job.axle(side);
        let base = axle.kind == AxleKind::Beam && is_open(&axle.spring_base);
        let open = [("track", is_open(&axle.track)), ("spring_base", base)];
        open.into_iter().filter(|(_, is_open)| *is_open).map(move |(field, _)| format!("{}.{field}", side.key()))
    });
    let missing: Vec<String> = wheelbase.into_iter().chain(across).collect();
    match missing.is_empty() {
        true => axles.both().into_iter().flat_map(|axle| axle.missing.iter().cloned()).collect(),
        false => missing,
    }
}
