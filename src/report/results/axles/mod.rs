//! Results of one axle.

mod axle_results;
mod coils;
mod damper_results;
mod fitted;
mod forces;
mod linkage_results;
mod old_dampers;
mod room_results;
mod sized;
mod spring_results;
mod standing;

pub(super) use axle_results::WEIGHED;

use super::collect::{OfAxle, Out, then};
use super::row::like;
use super::{By, Figure, Say};
use crate::base::language::tr;
use crate::base::units::Dim;
use crate::job::{Plan, Side};
use crate::say;
use crate::solve::answer::{Answer, ByRoutes, RouteKind, State};

const CORNER: &str = "per corner, mean of the two sides";
const AT_WHEEL: &str = "at the wheel, per corner, mean of the two sides";

fn of(answer: &Answer, side: Side) -> OfAxle<'_> {
    OfAxle { axle: answer.axle(side), checked: answer.checked(side), part: answer.released(side).ok() }
}

/// The axle itself, and how it is in every state.
pub(super) fn standing(out: &mut Out, answer: &Answer, side: Side) {
    let of = of(answer, side);
    out.part("", "", axle_results::AXLE, of, |a| Some(a));
    out.part("room", "", room_results::ROOM, of, |a| Some(a));
    out.part("on_scales", "", room_results::ON_SCALES, of, |a| Some(a));
    out.part("bag", "", room_results::BAG, of, |a| Some(a));
    out.part("before", &then(State::Before.words().said()), standing::STANDING, of, |a| a.standing.before.as_ref());
    out.part("old_springs", &then(State::OldSprings.words().said()), standing::STANDING, of, |a| {
        a.standing.old.as_ref()
    });
    out.part("new_springs", &then(State::NewSprings.words().said()), standing::STANDING, of, |a| {
        a.standing.new.as_ref()
    });
    if of.part.is_none() && of.axle.plan == Plan::NewSprings {
        // The rate of what would be bought.
        out.withhold(&format!("{}.new_springs.spring_rate", of.key()));
    }
}

/// Its old spring, by every route, and the new one.
pub(super) fn springs(out: &mut Out, answer: &Answer, side: Side) {
    let of = of(answer, side);
    out.part("old_spring", &then(tr("old spring")), spring_results::OLD_SPRING, of, |a| Some(&a.old_spring));
    old_rate(out, of);
    out.part("old_spring.coil", &then(tr("old coil spring")), coils::COIL, of, |a| a.old_spring.coil.as_ref());
    out.part("bar", "", spring_results::BAR, of, |a| a.old_spring.bar.as_ref());
    out.part("old_spring.leaf", "", spring_results::LEAF, of, |a| a.old_spring.leaf.as_ref());
    out.part("old_spring.crossover", "", spring_results::CROSSOVER, of, |a| a.old_spring.crossover.as_ref());
    out.part("cut", &then(tr("old spring with coils cut off")), spring_results::CUT, of, |a| {
        a.old_spring.cut.as_ref().map(|_| &a.old_spring)
    });
    routes(out, of);
    sized::size(out, of);
    out.part("offered", &then(tr("offered spring")), coils::COIL, of, |a| a.offered.as_ref());
    out.bought("wound", &format!("{}: ", tr("spring to be wound")), coils::WOUND, of, |p| p.wound.as_ref());
    out.bought("levelled", &then(tr("air bag on the old springs")), spring_results::LEVELLED, of, |p| {
        p.levelled.as_ref()
    });
    out.bought("added_leaf", &then(tr("added leaf")), spring_results::ADDED_LEAF, of, |p| p.added_leaf.as_ref());
}

/// Its old damper, and the new one.
pub(super) fn dampers(out: &mut Out, answer: &Answer, side: Side) {
    let of = of(answer, side);
    old_dampers::add(out, of);
    damper_results::add(out, of);
}

/// What was recorded and measured on a bench, and what is predicted for it.
pub(super) fn measured(out: &mut Out, answer: &Answer, side: Side) {
    let of = of(answer, side);
    super::measured::add_body_mode(out, of);
    super::measured::add_bench(out, of);
}

/// What the points and lengths of its linkage give.
pub(super) fn linkage(out: &mut Out, answer: &Answer, side: Side) {
    use linkage_results::{LINKAGE, WAYS, WHEEL};
    let of = of(answer, side);
    out.part("linkage.spring", &then(tr("spring")), WAYS, of, |a| Some(&a.linkage.spring));
    out.part("linkage.damper", &then(tr("damper")), WAYS, of, |a| Some(&a.linkage.damper));
    out.part("linkage", "", LINKAGE, of, |a| Some(&a.linkage));
    out.part("linkage.reference", &then(tr("at the reference height")), WHEEL, of, |a| a.linkage.reference.as_ref());
    let at = State::ALL.map(|state| then(state.words().said()));
    out.part("linkage.before", &at[0], WHEEL, of, |a| a.linkage.at.before.as_ref());
    out.part("linkage.old_springs", &at[1], WHEEL, of, |a| a.linkage.at.old.as_ref());
    out.part("linkage.new_springs", &at[2], WHEEL, of, |a| a.linkage.at.new.as_ref());
}

/// All routes fused.
const FUSED: &str = "k = Σ w_i k_i, w = C⁻¹ 1 / (1ᵀ C⁻¹ 1), C the covariance of the routes";

/// The old spring's rate by the routes that do without the way that was chosen, and from what the one that counts comes.
fn old_rate(out: &mut Out, of: OfAxle<'_>) {
    let by_routes = of.checked.by_routes.as_ref();
    let listed =
        by_routes.map(|by| by.routes().into_iter().map(|(kind, _)| kind.words().said()).collect::<Vec<_>>().join("; "));
    let counted = format!("{}.old_spring.rate", of.key());
    if let Some((_, routes)) = by_routes.filter(|by| by.counts).zip(listed.as_ref())
        && let Some(rate) = out.figures.iter_mut().rfind(|f| f.key == counted)
    {
        rate.name = say!("{name}, calculated from: {routes}", name = rate.name, routes);
    }
    let name = match &listed {
        Some(routes) => say!("old spring, rate from the other routes: {routes}", routes),
        None => tr("old spring, rate from the other routes").to_owned(),
    };
    let label = tr("rate from the other routes");
    let convention = "along the spring; main spring only, if there is a helper spring; uncertainty × Birge ratio if the routes disagree";
    let like = Figure {
        name: of.words() + &name,
        by: By::Solving,
        say: Say::Measured,
        remark: by_routes.map_or_else(String::new, |by| format!(" ({})", routes_words(by))),
        ..like(format!("{}.old_spring.by_routes", of.key()), label, Dim::SpringRate, convention, FUSED, "AITKEN")
    };
    out.put(like, by_routes.map(|by| by.rate.value), by_routes.map(|by| by.rate.u));
}

/// Wheel rate by every route, and all of them fused.
fn routes(out: &mut Out, of: OfAxle<'_>) {
    let routes = &of.checked.routes;
    let one = |key: &str, name: &str, label: &str, convention, formula, source| Figure {
        name: of.words() + name,
        by: By::Solving,
        say: Say::Measured,
        ..like(format!("{}.routes.{key}", of.key()), label, Dim::SpringRate, convention, formula, source)
    };
    let convention = "at the wheel, at the reference height";
    for kind in RouteKind::ALL {
        let name = say!("wheel rate from {route}", route = kind.words());
        let rate = routes.list.iter().find(|route| route.kind == kind).map(|route| route.wheel_rate);
        let like = one(kind.key(), &name, kind.words().said(), convention, formula(kind), "DERIVED");
        out.put(like, rate.map(|r| r.value), rate.map(|r| r.u));
    }
    let (name, label) = (tr("wheel rate, weighted mean of all routes"), tr("weighted mean of all routes"));
    let convention = "at the wheel; a field used by several routes counts once";
    let like = one("fused", name, label, convention, FUSED, "AITKEN");
    out.put(like, routes.fused.map(|r| r.value), routes.fused.map(|r| r.u));
}

/// How a route comes to the wheel rate.
fn formula(kind: RouteKind) -> &'static str {
    match kind {
        RouteKind::Stated | RouteKind::Wire | RouteKind::Press | RouteKind::Spring => {
            "k_w = k_s r² + F_s r′ + k_rest (rubber, gas, bag)"
        }
        RouteKind::Closure => "k_s = F_s / (L0 − L), then as above",
        RouteKind::Swap => "k_w = ΔW / Δh, a secant brought to the reference height by the curve",
        RouteKind::Ballast => "k_w = m g / (2 Δh)",
        RouteKind::Bounce => "k = m_s (2π n/t)², then k_w = k k_t / (k_t − k)",
        RouteKind::Recorded => {
            "k_w and c for which s = 2π f (−ζ + i√(1 − ζ²)) is a root of the quarter car, brought to the reference height by the curve"
        }
    }
}

/// "the change itself: weight over height 62 %; timed bounce, dampers off 38 %".
pub(in crate::report) fn routes_words(by: &ByRoutes) -> String {
    match by.routes().as_slice() {
        [(only, _)] => only.words().to_string(),
        many => {
            let share = |(kind, weight): &(RouteKind, f64)| format!("{} {:.0} %", kind.words(), weight * 100.0);
            many.iter().map(share).collect::<Vec<_>>().join("; ")
        }
    }
}
