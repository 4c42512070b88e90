//! What a first answer still needs, and what would say the old spring's rate instead.

use crate::base::units::{Length, Mass, Quantity};
use crate::job::read::{Axle, LeafTestRow, LoadPoint};
use crate::job::{AxleKind, BagFitted, LeafBy, PerAxle, RateBy, RatioBy, Side, SpringKind};
use crate::solve::answer::{AxleAnswer, BeforeAfter, RouteKind, Vehicle, Weighed};
use crate::solve::evaluate::axle::routes;
use crate::solve::evaluate::decided::OldRate;
use crate::solve::read::{Moves, Reading, ratio_is_blank};

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
        let bag = &axle.bag;
        let open = [
            ("pressure", reading.typed(&bag.pressure).is_none()),
            ("area", reading.typed(&bag.area).is_none()),
            ("volume", reading.typed(&bag.volume).is_none()),
        ];
        missing.extend(open.iter().filter(|o| o.1).map(|o| format!("{key}.bag.{}", o.0)));
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
    let wire = [
        ("wire.diameter", reading.typed(&spring.wire.diameter).is_none()),
        ("wire.outside_diameter", reading.typed(&spring.wire.outside_diameter).is_none()),
        (
            "wire.active_coils",
            reading.typed(&spring.wire.active_coils).or(reading.typed(&spring.wire.total_coils)).is_none(),
        ),
    ];
    let press = [
        ("press.first_length", reading.typed(&spring.press.first_length).is_none()),
        ("press.first_load", reading.typed(&spring.press.first_load).is_none()),
        ("press.second_length", reading.typed(&spring.press.second_length).is_none()),
        ("press.second_load", reading.typed(&spring.press.second_load).is_none()),
    ];
    let stated = [("rate", reading.typed(&spring.rate).is_none())];
    let of_coil: Vec<(&str, bool)> = match spring.rate_by {
        RateBy::Stated => stated.to_vec(),
        RateBy::Wire => wire.to_vec(),
        RateBy::Press => press.to_vec(),
        RateBy::Together => [wire.as_slice(), press.as_slice()].concat(),
    };
    let (helper, bar, leaf) = (&spring.helper, &spring.bar, &spring.leaf);
    let both = |a: bool, b: bool| a && b;
    let whole = |p: &&LoadPoint| both(reading.typed(&p.length).is_some(), reading.typed(&p.load).is_some());
    let points = spring.points.iter().filter(whole).count();
    let whole = |r: &&LeafTestRow| both(reading.typed(&r.load).is_some(), reading.typed(&r.loading).is_some());
    let rows = leaf.rows.iter().filter(whole).count();
    let open: Vec<(&'static str, bool)> = match spring.kind {
        SpringKind::Coil => of_coil,
        SpringKind::WithHelper => {
            let helper = [
                ("helper.rate", reading.typed(&helper.rate).is_none()),
                ("helper.free_length", reading.typed(&helper.free_length).is_none()),
                ("helper.solid_length", reading.typed(&helper.solid_length).is_none()),
            ];
            [of_coil.as_slice(), &helper].concat()
        }
        SpringKind::Progressive => vec![("points[0].length", points < 2)],
        SpringKind::TorsionBar => vec![
            ("bar.diameter", reading.typed(&bar.diameter).is_none()),
            ("bar.length", reading.typed(&bar.length).is_none()),
            ("bar.arm", reading.typed(&bar.arm).is_none()),
            ("bar.angle", reading.typed(&bar.angle).is_none()),
        ],
        SpringKind::Leaf => match leaf.by {
            LeafBy::Stated => stated.to_vec(),
            LeafBy::Test => vec![("leaf.rows[0].load", rows < 2)],
            LeafBy::Sizes => vec![
                ("leaf.span", reading.typed(&leaf.span).is_none()),
                ("leaf.width", reading.typed(&leaf.width).is_none()),
                ("leaf.thickness", reading.typed(&leaf.thickness).is_none()),
                ("leaf.leaves", reading.typed(&leaf.leaves).is_none()),
            ],
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
    let key = side.key();
    let field = |name: &str, is_open: bool| is_open.then(|| format!("{key}.{name}"));
    let checks = &axle.checks;
    let corner = if side == Side::Front { "lf" } else { "lr" };
    let weight = |w: &Weighed, when: &str| w.axle(side).is_none().then(|| format!("{when}.{corner}"));
    let of_route = |kind: RouteKind| match kind {
        RouteKind::Closure if axle.spring.kind.is_coil() => vec![
            field("spring.free_length", reading.typed(&axle.spring.free_length).is_none()),
            field("spring.fitted_length", reading.typed(&axle.spring.fitted_length).is_none()),
        ],
        RouteKind::Swap => {
            vec![weight(&weighed.before, "before"), arch(reading, side, true), arch(reading, side, false)]
        }
        RouteKind::Ballast => vec![
            field("checks.ballast", reading.typed(&checks.ballast).is_none()),
            field("checks.ballast_drop", reading.typed(&checks.ballast_drop).is_none()),
        ],
        RouteKind::Bounce => vec![
            field("checks.bounces", reading.typed(&checks.bounces).is_none()),
            field("checks.bounce_time", reading.typed(&checks.bounce_time).is_none()),
        ],
        _ => Vec::new(),
    };
    let mut open: Vec<Vec<String>> =
        RouteKind::ALL.into_iter().map(|kind| of_route(kind).into_iter().flatten().collect()).collect();
    open.retain(|fields: &Vec<String>| !fields.is_empty());
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
