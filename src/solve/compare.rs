//! Ways to the wheel rate side by side: fused, and which one disagrees, and why.

use crate::base::language::Word;
use crate::base::math::fuse::{self, Covariance};
use crate::base::message::Message;
use crate::base::units::Quantity;
use crate::job::RatioBy;
use crate::message;
use crate::solve::answer::{AxleAnswer, Checked, Measured, Route, RouteKind, Routes, step};

/// Number of standard uncertainties by which two routes may differ.
const AGREE: f64 = 2.0;
/// And by this share, whatever the uncertainties say.
const AGREE_SHARE: f64 = 0.05;
/// How near a factor between two routes must be to a known one.
const NEAR: f64 = 0.08;
/// A pound in a kilogram.
const KG_LB: f64 = 2.204_623;
/// Factors that mean a mixed-up unit, with the words for it.
fn unit_factors() -> [(f64, Word); 4] {
    [
        (5.710_147, Word("N/mm and lb/in differ by a factor of 5.71")),
        (9.806_65, Word("kgf/mm and N/mm differ by a factor of 9.81")),
        (KG_LB, Word("kg and lb differ by a factor of 2.20")),
        (25.4, Word("in and mm differ by a factor of 25.4")),
    ]
}

/// Gathers the routes with their ±, fuses them, and names the one that disagrees.
pub(super) fn compare(axle: &AxleAnswer, ratio_by: RatioBy, checked: &Checked) -> Routes {
    let of = |a: &AxleAnswer, kind: RouteKind| a.route_rates[kind as usize].map(Quantity::si);
    let known: Vec<(RouteKind, f64)> = RouteKind::ALL.into_iter().filter_map(|k| Some((k, of(axle, k)?))).collect();
    let moved: Vec<(&AxleAnswer, &AxleAnswer)> = checked.nudged.iter().map(|n| (&*n.up, &*n.down)).collect();
    let values: Vec<f64> = known.iter().map(|(_, value)| *value).collect();
    let steps = known.iter().map(|(kind, _)| moved.iter().map(|(up, down)| step(of(up, *kind), of(down, *kind))));
    let covariance = covariance(&values, steps.map(Iterator::collect).collect());
    let fused = fuse::fuse(&values, &covariance);
    let list: Vec<Route> = known
        .into_iter()
        .enumerate()
        .map(|(i, (kind, value))| Route {
            kind,
            wheel_rate: Measured { value, u: covariance.u(i) },
            weight: fused.as_ref().map_or(0.0, |f| f.weights[i]),
        })
        .collect();
    let odd = blame(axle, ratio_by, &list, &covariance);
    Routes { list, fused: fused.map(|f| f.measured()), covariance, odd }
}

/// What routes have in common, from how far each is moved by each field. A ± that reaches what cannot be says no more
/// than that a route is not known to better than its own size.
pub(super) fn covariance(values: &[f64], mut steps: Vec<Vec<Option<f64>>>) -> Covariance {
    let fields = steps.first().map_or(0, Vec::len);
    for (i, (value, steps)) in values.iter().zip(&mut steps).enumerate() {
        let lost = steps.iter().any(Option::is_none);
        if lost {
            steps.iter_mut().for_each(|s| *s = Some(0.0));
        }
        steps.extend((0..values.len()).map(|j| Some(if lost && i == j { *value } else { 0.0 })));
        debug_assert_eq!(steps.len(), fields + values.len());
    }
    let steps: Vec<Vec<f64>> = steps.into_iter().map(|s| s.into_iter().flatten().collect()).collect();
    Covariance::of_steps(&steps)
}

/// The route that disagrees, and the likeliest cause; nothing when they agree.
fn blame(
    axle: &AxleAnswer,
    ratio_by: RatioBy,
    list: &[Route],
    covariance: &Covariance,
) -> Option<(RouteKind, Message)> {
    let suspects = odd_ones(list, covariance)?;
    if let Some(found) = wrong_ratio(axle, ratio_by, list, covariance) {
        return Some(found);
    }
    for (i, off) in &suspects {
        if let Some(cause) = cause(axle, list[*i].kind, *off) {
            return Some((list[*i].kind, cause));
        }
    }
    let kind = if list.len() == 2 { list[0].kind } else { list[suspects[0].0].kind };
    let words = match kind {
        _ if list.len() == 2 => Word(
            "Measure rate, lengths and motion ratio again. Two routes cannot show which is wrong; a third (ballast, arch heights, a press) would.",
        ),
        RouteKind::Stated => {
            Word("Stamped rates can be wrong, and springs weaken with age: test the spring in a press.")
        }
        RouteKind::Swap | RouteKind::Ballast => {
            Word("Roll the vehicle back and forth, let it settle, and measure the heights again.")
        }
        RouteKind::Bounce => Word("Count the bounces again with the dampers off; friction shortens the period."),
        RouteKind::Recorded => {
            Word("Record the bounce test again, and push down only the end being tested; friction shortens the period.")
        }
        RouteKind::Closure => Word("Measure free and fitted length again, along the spring's axis."),
        _ => Word("Measure these values again."),
    };
    Some((kind, words.into()))
}

/// A motion ratio typed upside down or already squared is wrong in every route that uses it: with the right one all
/// routes agree. Against a route without it a rate is off by the square, the closure by the ratio itself.
fn wrong_ratio(
    axle: &AxleAnswer,
    ratio_by: RatioBy,
    list: &[Route],
    covariance: &Covariance,
) -> Option<(RouteKind, Message)> {
    let typed = axle.motion_ratio?.si();
    // Measured lengths are hardly squared by themselves: with two routes only, a low ratio must say so as well.
    let squared = typed < if list.len() > 2 || ratio_by == RatioBy::Number { 0.8 } else { 0.45 };
    let usual = |r: f64| (0.4..=1.02).contains(&r);
    let guesses = [
        (1.0 / typed, typed > 1.02, Word("The motion ratio appears to be inverted.")),
        (typed.sqrt(), squared, Word("The motion ratio appears to be squared already.")),
    ];
    for (right, possible, words) in guesses {
        let factor = |route: &Route| match route.kind {
            kind if kind.uses_ratio() => (right / typed).powi(2),
            RouteKind::Closure => right / typed,
            _ => 1.0,
        };
        let by: Vec<f64> = list.iter().map(factor).collect();
        let corrected: Vec<Route> = list.iter().zip(&by).map(|(route, by)| times(route, *by)).collect();
        if possible && usual(right) && odd_ones(&corrected, &covariance.scaled(&by)).is_none() {
            let named = list.iter().find(|r| r.kind.uses_ratio() || r.kind == RouteKind::Closure)?;
            return Some((named.kind, words.into()));
        }
    }
    None
}

/// None of these routes disagrees with the others, each times its factor.
pub(super) fn agree(routes: &Routes, keeps: impl Fn(RouteKind) -> bool, factor: impl Fn(RouteKind) -> f64) -> bool {
    let kept: Vec<usize> = (0..routes.list.len()).filter(|i| keeps(routes.list[*i].kind)).collect();
    let by: Vec<f64> = kept.iter().map(|i| factor(routes.list[*i].kind)).collect();
    let list: Vec<Route> = kept.iter().zip(&by).map(|(i, by)| times(&routes.list[*i], *by)).collect();
    odd_ones(&list, &routes.covariance.of(&kept).scaled(&by)).is_none()
}

/// A route with its rate times a factor.
fn times(route: &Route, by: f64) -> Route {
    let Measured { value, u } = route.wheel_rate;
    Route { wheel_rate: Measured { value: value * by, u: u * by }, ..*route }
}

/// The routes that stand farthest from the others fused, in the standard uncertainty of that difference, and their ratio
/// to them: one, or both of two.
fn odd_ones(list: &[Route], covariance: &Covariance) -> Option<Vec<(usize, f64)>> {
    let apart = |i: usize| {
        let others: Vec<usize> = (0..list.len()).filter(|j| *j != i).collect();
        let values: Vec<f64> = others.iter().map(|j| list[*j].wheel_rate.value).collect();
        let fused = fuse::fuse(&values, &covariance.of(&others))?;
        let mut difference = vec![0.0; list.len()];
        difference[i] = 1.0;
        others.iter().zip(&fused.weights).for_each(|(j, w)| difference[*j] = -w);
        let own = list[i].wheel_rate.value;
        let sigma = (own - fused.value).abs() / covariance.of_sum(&difference).sqrt();
        let ratio = own / fused.value;
        ((ratio - 1.0).abs() > AGREE_SHARE && sigma > AGREE).then_some((i, sigma, ratio))
    };
    let mut found: Vec<(usize, f64, f64)> = (0..list.len()).filter_map(apart).collect();
    found.sort_by(|a, b| b.1.total_cmp(&a.1));
    found.truncate(if list.len() == 2 { 2 } else { 1 });
    (!found.is_empty()).then(|| found.into_iter().map(|(i, _, ratio)| (i, ratio)).collect())
}

/// The likeliest cause, from the factor between a route and the others.
fn cause(axle: &AxleAnswer, kind: RouteKind, off: f64) -> Option<Message> {
    let near = |wanted: f64| (off / wanted - 1.0).abs() < NEAR;
    // A spring rate knows neither kg nor lb.
    let mut mixed = unit_factors().into_iter().filter(|(f, _)| !(kind.uses_ratio() && *f == KG_LB));
    if let Some((_, words)) = mixed.find(|(f, _)| near(*f) || near(1.0 / f)) {
        let factor = if off < 1.0 { 1.0 / off } else { off };
        return Some(message!(
            "The rates differ by a factor of {factor:.2}; {units}. Check the units.",
            factor,
            units = words
        ));
    }
    if let (RouteKind::Wire, Some(coil)) = (kind, &axle.old_spring.coil) {
        let n = coil.wire.active;
        // Against a motion ratio's own error this is a small factor, so it must be nearer.
        let close = |wanted: f64| (off / wanted - 1.0).abs() < 0.5 * NEAR;
        if [1.0, 1.5, 2.0].iter().any(|dead| close((n - dead) / n)) {
            return Some(message!("Dead coils seem to be counted as active coils."));
        }
        if (1.03..1.25).contains(&off) {
            return Some(message!(
                "Paint adds to the wire diameter, and this error counts four times: measure bare wire."
            ));
        }
    }
    None
}
