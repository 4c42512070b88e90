//! Independent ways to the wheel rate, side by side: which one disagrees, and why.

use super::answer::{AxleAnswer, Checked, Measured, Route, RouteKind, Routes};
use super::known::Known;
use crate::job::{RatioBy, SpringKind};
use crate::language::tr;
use crate::math::spread;
use crate::ride;
use crate::say;
use crate::spring::Spring;
use crate::units::{Force, Frequency, Length, Mass, Quantity, Ratio, SpringRate, weight};
use crate::wheel::ForceTravel;

/// Two routes may differ by so many standard uncertainties.
const AGREE: f64 = 2.0;
/// And by this share, whatever the uncertainties say.
const AGREE_SHARE: f64 = 0.05;
/// How near a factor between two routes must be to a known one.
const NEAR: f64 = 0.08;
/// A pound in a kilogram.
const KG_LB: f64 = 2.204_623;
/// Factors that mean a mixed-up unit, with the words for it.
const UNIT_FACTORS: [(f64, &str); 4] = [
    (5.710_147, "N/mm and lb/in are 5.71 apart"),
    (9.806_65, "kgf/mm and N/mm are 9.81 apart"),
    (KG_LB, "kg and lb are 2.20 apart"),
    (25.4, "in and mm are 25.4 apart"),
];

/// The wheel rate at the reference height by every route that the data allow.
pub(super) fn rates(known: &Known<'_>, itself: Option<&Spring>, old: Option<&ForceTravel>, answer: &mut AxleAnswer) {
    let reference = Length::from_si(0.0);
    let template = known.template(reference);
    let Some(sprung) = known.sprung_at_reference() else { return };
    let force = template.spring_force_for(weight(sprung), reference);
    let ratio = known.spring_length.ratio(reference).si();
    let geometry = force.si() * known.spring_length.slope(reference).value;
    let others = template.other_rate_n_per_m(0.0);
    let at_wheel = |spring_rate: f64| SpringRate::from_si(spring_rate * ratio * ratio + geometry + others);
    let mut put = |kind: RouteKind, rate: Option<SpringRate>| {
        answer.route_rates[kind as usize] = rate.filter(|k| k.si().is_finite() && k.si() > 0.0);
    };
    let facts = &answer.old_spring;
    if known.axle.spring.kind == SpringKind::Coil {
        put(RouteKind::Stated, facts.stated.map(|m| at_wheel(m.value)));
        put(RouteKind::Wire, facts.by_wire.map(|m| at_wheel(m.value)));
        put(RouteKind::Press, facts.by_press.map(|m| at_wheel(m.value)));
    } else {
        put(RouteKind::Spring, facts.rate.map(|k| at_wheel(k.si())));
    }
    put(RouteKind::Closure, closure(known, itself, force).map(at_wheel));
    put(RouteKind::Swap, swap(known, old));
    put(RouteKind::Ballast, ballast(known, old, sprung));
    put(RouteKind::Bounce, bounce(known, sprung));
}

/// The rate that lets the spring, as measured by itself, carry the load at its fitted length: F / (L0 − L) for a
/// coil, and in the same proportion for the others, N/m along the spring at its fitted length. Source `DERIVED`.
fn closure(known: &Known<'_>, itself: Option<&Spring>, force: Force) -> Option<f64> {
    let data = &known.axle.spring;
    let absolute = data.kind == SpringKind::Progressive || known.reader.typed(&data.free_length).is_some();
    let fitted: Length = known.reader.typed(&data.fitted_length)?;
    let spring = itself.filter(|_| data.kind.is_coil() && absolute)?;
    let (shown_n, rate) = (spring.force_n(fitted.si()), spring.rate_n_per_m(fitted.si()));
    (shown_n > 0.0).then(|| rate * force.si() / shown_n)
}

/// Change of weight over change of hub-to-arch height: a secant, brought to the reference height by the curve. N/m at
/// the wheel at the reference height. Source `DERIVED`.
fn swap(known: &Known<'_>, old: Option<&ForceTravel>) -> Option<SpringRate> {
    let checks = &known.axle.checks;
    let (from, to): (Length, Length) =
        (known.reader.typed(&checks.arch_before)?, known.reader.typed(&checks.arch_after)?);
    let [before, after] = [weight(known.stood[0]?), weight(known.stood[1]?)];
    let added = after - before;
    let bend = old.and_then(|old| bend(old, before, after));
    Some(added / (from - to) * bend.unwrap_or(1.0))
}

/// Rate at the reference height over the secant between two heights, by the shape of the curve alone: 1 for a
/// straight one, whatever its rate. Neither solid coils nor the stop count. Source `DERIVED`.
fn bend(old: &ForceTravel, from: Force, to: Force) -> Option<f64> {
    let open = ForceTravel { spring: old.spring.clone().with_solid_length(None), stop: None, ..old.clone() };
    let at = |load: Force| open.ride_height(load).ok().map(|e| e.travel);
    let secant = (to - from) / (at(to)? - at(from)?);
    let bend = open.rate_n_per_m(0.0) / secant.value;
    (bend.is_finite() && bend > 0.0).then_some(bend)
}

/// Ballast over the drop it made: a secant from the reference height on, brought back to it by the curve. N/m at the
/// wheel at the reference height. Source `DERIVED`.
fn ballast(known: &Known<'_>, old: Option<&ForceTravel>, sprung: Mass) -> Option<SpringRate> {
    let checks = &known.axle.checks;
    let (mass, drop): (Mass, Length) =
        (known.reader.typed(&checks.ballast)?, known.reader.typed(&checks.ballast_drop)?);
    let (own, added) = (weight(sprung), weight(mass) / 2.0);
    let bend = old.and_then(|old| bend(old, own, own + added)).unwrap_or(1.0);
    Some(added / drop * bend)
}

/// From the with-tyre frequency: k = m (2πf)², the tyre taken out of the series. N/m at the wheel at the reference
/// height; valid for a tyre stiffer than both together. Source `GIL` ch. 5.
fn bounce(known: &Known<'_>, sprung: Mass) -> Option<SpringRate> {
    let checks = &known.axle.checks;
    let count: Ratio = known.reader.typed(&checks.bounces)?;
    let time = known.reader.typed(&checks.bounce_time)?;
    let frequency = Frequency::from_si(count.si() / time.si());
    let (both, tyre) = (ride::rate_for(frequency, sprung).si(), known.tyre_rate?.si());
    Some(SpringRate::from_si(both * tyre / (tyre - both)))
}

/// Gathers the routes with their ±, fuses them, and names the one that stands apart.
pub(super) fn compare(axle: &AxleAnswer, ratio_by: RatioBy, checked: &Checked) -> Routes {
    let list: Vec<Route> = RouteKind::ALL
        .into_iter()
        .filter_map(|kind| {
            let value = axle.route_rates[kind as usize]?.si();
            // A ± that reaches what cannot be says no more than that it is not known to better than its own size.
            let lost = if checked.nudged.is_empty() { 0.0 } else { value };
            let u = checked.u_of(|a| a.route_rates[kind as usize].map(Quantity::si)).unwrap_or(lost);
            Some(Route { kind, wheel_rate: spread::Measured { value, u } })
        })
        .collect();
    let fused = spread::fuse(&list.iter().map(|r| r.wheel_rate).collect::<Vec<_>>());
    let odd = blame(axle, ratio_by, &list);
    Routes { list, fused, odd }
}

/// The route that stands apart, and the likeliest cause; nothing when they agree.
fn blame(axle: &AxleAnswer, ratio_by: RatioBy, list: &[Route]) -> Option<(RouteKind, String)> {
    let suspects = odd_ones(list)?;
    if let Some(found) = wrong_ratio(axle, ratio_by, list) {
        return Some(found);
    }
    for (i, off) in &suspects {
        if let Some(cause) = cause(axle, list[*i].kind, *off) {
            return Some((list[*i].kind, cause));
        }
    }
    let kind = if list.len() == 2 { list[0].kind } else { list[suspects[0].0].kind };
    let words = match kind {
        _ if list.len() == 2 => tr(
            "Measure rate, lengths and motion ratio again. Two ways do not tell which is wrong: a third (ballast, arch heights, a press) would.",
        ),
        RouteKind::Stated => tr("Stamped rates can be wrong, and springs tire: press it."),
        RouteKind::Swap | RouteKind::Ballast => tr("Roll the vehicle, let it settle, and measure the heights again."),
        RouteKind::Bounce => tr("Count again with the dampers off; friction shortens a bounce."),
        RouteKind::Closure => tr("Measure free and fitted length again, along the spring's own axis."),
        _ => tr("Measure it again."),
    };
    Some((kind, words.to_owned()))
}

/// A motion ratio typed upside down or already squared is wrong in every route that uses it: with the right one all
/// routes agree. Against a route without it a rate is off by the square, the closure by the ratio itself.
fn wrong_ratio(axle: &AxleAnswer, ratio_by: RatioBy, list: &[Route]) -> Option<(RouteKind, String)> {
    let typed = axle.motion_ratio?.si();
    // Measured lengths are hardly squared by themselves: with two routes only, a low ratio must say so as well.
    let squared = typed < if list.len() > 2 || ratio_by == RatioBy::Number { 0.8 } else { 0.45 };
    let usual = |r: f64| (0.4..=1.02).contains(&r);
    let guesses = [
        (1.0 / typed, typed > 1.02, tr("The motion ratio looks upside down.")),
        (typed.sqrt(), squared, tr("The motion ratio looks already squared.")),
    ];
    for (right, possible, words) in guesses {
        let corrected: Vec<Route> = list
            .iter()
            .map(|route| {
                let by = match route.kind {
                    kind if kind.uses_ratio() => (right / typed).powi(2),
                    RouteKind::Closure => right / typed,
                    _ => 1.0,
                };
                let Measured { value, u } = route.wheel_rate;
                Route { wheel_rate: Measured { value: value * by, u: u * by }, ..*route }
            })
            .collect();
        if possible && usual(right) && odd_ones(&corrected).is_none() {
            let named = list.iter().find(|r| r.kind.uses_ratio() || r.kind == RouteKind::Closure)?;
            return Some((named.kind, words.to_owned()));
        }
    }
    None
}

/// None of these routes stands apart.
pub(super) fn agree(list: &[Route]) -> bool {
    odd_ones(list).is_none()
}

/// The routes that stand farthest from the others fused, in their own uncertainty, and their ratio to them: one, or
/// both of two.
fn odd_ones(list: &[Route]) -> Option<Vec<(usize, f64)>> {
    let apart = |i: usize| {
        let others: Vec<_> = list.iter().enumerate().filter(|(j, _)| *j != i).map(|(_, r)| r.wheel_rate).collect();
        let others = spread::fuse(&others)?;
        let own = list[i].wheel_rate;
        let sigma = (own.value - others.value).abs() / (own.u * own.u + others.u * others.u).sqrt();
        let ratio = own.value / others.value;
        ((ratio - 1.0).abs() > AGREE_SHARE && sigma > AGREE).then_some((i, sigma, ratio))
    };
    let mut found: Vec<(usize, f64, f64)> = (0..list.len()).filter_map(apart).collect();
    found.sort_by(|a, b| b.1.total_cmp(&a.1));
    found.truncate(if list.len() == 2 { 2 } else { 1 });
    (!found.is_empty()).then(|| found.into_iter().map(|(i, _, ratio)| (i, ratio)).collect())
}

/// The likeliest cause, from the factor between a route and the others.
fn cause(axle: &AxleAnswer, kind: RouteKind, off: f64) -> Option<String> {
    let near = |wanted: f64| (off / wanted - 1.0).abs() < NEAR;
    // A spring rate knows neither kg nor lb.
    let mixed = UNIT_FACTORS.iter().filter(|(f, _)| !(kind.uses_ratio() && *f == KG_LB));
    if let Some((_, words)) = mixed.clone().find(|(f, _)| near(*f) || near(1.0 / f)) {
        let factor = if off < 1.0 { 1.0 / off } else { off };
        return Some(say!("The factor is {factor:.2}: {units}. Check the units.", factor, units = tr(words)));
    }
    if let (RouteKind::Wire, Some(coil)) = (kind, &axle.old_spring.coil) {
        let n = coil.wire.active;
        // Against a motion ratio's own error this is a small factor, so it must be nearer.
        let close = |wanted: f64| (off / wanted - 1.0).abs() < 0.5 * NEAR;
        if [1.0, 1.5, 2.0].iter().any(|dead| close((n - dead) / n)) {
            return Some(tr("Dead coils look counted as working ones.").into());
        }
        if (1.03..1.25).contains(&off) {
            return Some(tr("Paint on the wire counts four times: measure bare wire.").into());
        }
    }
    None
}
