//! The spring rate for a wanted frequency, and what can be bought.

use crate::base::units::{Angle, Force, Frequency, Length, Pressure, Quantity, Ratio, SpringRate, TwistRate};
use crate::job::{Goal, SpringKind};
use crate::solve::answer::{
    AxleAnswer, Band, BeforeAfter, BesideSpring, SameFactor, Sizing, Spacer, SpringToBuy, Standing,
};
use crate::solve::evaluate::axle::known::{Known, Readings};
use crate::solve::evaluate::axle::standing::{self, OnOld};
use crate::solve::evaluate::axle::stock::{is_inside, stock_inside, stock_pick};
use crate::solve::evaluate::axle::torsion_bar;
use crate::solve::evaluate::decided::Bought;
use crate::trade::ride;
use crate::trade::spring::{Coil, Leaf, Spring, Stack};
use crate::trade::wheel::ForceTravel;

/// What carries in addition to the spring already makes more than the wanted wheel rate.
pub(in crate::solve) struct NothingLeft;

/// What the axle asks of its spring: it needs the weight after and the motion ratio. Where it stood on the old spring is
/// only needed for comparisons.
pub(in crate::solve) fn asked(known: &Known<'_>, on_old: &OnOld) -> Option<Result<Sizing, NothingLeft>> {
    let sprung = known.masses.sprung.after?;
    let before = on_old.before.as_ref();
    if on_old.curve.is_some() && before.is_none() && on_old.after.is_none() {
        return None; // What was measured contradicts itself; a finding says so.
    }
    let load = known.load(sprung);
    let was = before.map(|b| (b.travel, Some(b.frequency)));
    let frequency = wanted_frequency(known, was)?;
    let (from, raise) = raised_from(known, was)?;
    let wanted_travel = from - raise;
    let curve = known.final_template(wanted_travel);
    let wheel_rate = frequency.map(|f| ride::rate_for(f, sprung));
    let spring_rate = wheel_rate.map(|k| curve.spring_rate_for(k, load, wanted_travel));
    if !(spring_rate.low.si().is_finite() && spring_rate.high.si().is_finite()) {
        return None;
    }
    if spring_rate.high.si() <= 0.0 {
        return Some(Err(NothingLeft));
    }
    let spring_force = curve.spring_force_for(load, wanted_travel);
    let helper = if known.axle.spring.kind == SpringKind::WithHelper { Some(known.helper()?) } else { None };
    let open_helper = helper.filter(|h| is_in_series(h, &spring_rate, spring_force));
    let spring_rate = match &open_helper {
        Some(helper) => spring_rate.map(|k| SpringRate::from_si(Stack::main_rate_n_per_m(k.si(), helper))),
        None => spring_rate,
    };
    let same_wheel_rate = before.map(|b| ride::rate_for(b.frequency, sprung));
    Some(Ok(Sizing {
        frequency,
        wheel_rate,
        spring_rate,
        open_helper: open_helper.map(|h| SpringRate::from_si(h.rate_n_per_m)),
        wanted_travel,
        from,
        raise,
        load,
        at: beside_spring(&curve, spring_force, wanted_travel),
        spring_force,
        same_wheel_rate,
        same_frequency: same_wheel_rate.map(|k| curve.spring_rate_for(k, load, wanted_travel)),
    }))
}

/// What carries in addition to the spring of a curve at a height, under this force along it.
fn beside_spring(curve: &ForceTravel, spring_force: Force, travel: Length) -> BesideSpring {
    let z_m = travel.si();
    BesideSpring {
        rest: Force::from_si(curve.other_force_n(z_m) + curve.stop_force_n(z_m)),
        rest_rate: SpringRate::from_si(curve.other_rate_n_per_m(z_m) + curve.stop_rate_n_per_m(z_m)),
        geometry_rate: SpringRate::from_si(spring_force.si() * curve.spring_length.slope(travel).value),
        ratio: curve.spring_length.ratio(travel),
    }
}

/// The spring to buy for what an axle asks, before it is ordered; `None` when none can be picked.
pub(in crate::solve) fn pick(known: &Known<'_>, sizing: &Sizing) -> Option<Bought> {
    if known.axle.spring.kind == SpringKind::TorsionBar {
        let bar = torsion_bar::pick(known, sizing)?;
        let pick = torsion_bar::rate(known, bar.diameter, sizing)?;
        return Some(Bought { pick, stock: None, bar: Some(bar), itself: None });
    }
    let step: Option<SpringRate> = known.reading.known(&known.axle.stock.step);
    let pick = match known.taken_rate() {
        Some(taken) => taken,
        None => stock_pick(&sizing.spring_rate, step?),
    };
    let stock = step.and_then(|step| stock_inside(&sizing.spring_rate, step));
    Some(Bought { pick, stock, bar: None, itself: None })
}

/// The spring that was decided on, under what the axle asks now; its lengths come once it is placed.
pub(in crate::solve) fn to_buy(known: &Known<'_>, sizing: &Sizing, old: Option<&ForceTravel>) -> Option<SpringToBuy> {
    let bought = known.decided.spring.as_ref()?;
    let bar = match &bought.bar {
        Some(bar) => Some(torsion_bar::choice(known, sizing, bar, old)?),
        None => None,
    };
    let pick = match (&bar, known.taken_rate()) {
        (Some(bar), _) => torsion_bar::rate(known, bar.pick, sizing)?,
        (None, Some(taken)) => taken,
        (None, None) => bought.pick,
    };
    Some(SpringToBuy {
        stock: bought.stock,
        aim: sizing.spring_rate.aim,
        force: sizing.spring_force,
        pick,
        is_taken: bar.is_none() && known.taken_rate().is_some(),
        pick_inside: is_inside(pick, &sizing.spring_rate),
        at_ride: None,
        allowance: None,
        free_length: None,
        no_length: false,
        order_length: None,
        bought_length: None,
        bar,
    })
}

/// The old springs already ride as wanted: frequency inside the range, height as near as the shop wants it, off the stop.
pub(in crate::solve) fn will_do(known: &Known<'_>, on_old: &Standing, sizing: &Sizing) -> Option<bool> {
    let near: Length = known.reading.known(&known.reading.job.limits.fitted_height)?;
    let off = (on_old.travel - sizing.wanted_travel).si().abs();
    let inside = on_old.frequency >= sizing.frequency.low && on_old.frequency <= sizing.frequency.high;
    Some(inside && off <= near.si() && !on_old.on_stop && !on_old.loose)
}

/// The helper is open at this force, so that rates of the whole stack are not the main coil's: 1/k_m = 1/k − 1/k_h.
/// A helper softer than the wanted rate can never be open there: the rates then stay, and a finding says that it is
/// open. Source `DERIVED` (in series).
fn is_in_series(helper: &Coil, stack: &Band<SpringRate>, force: Force) -> bool {
    let open = force.si() < helper.solid_force_n();
    open && stack.low.si() > 0.0 && stack.high.si() < helper.rate_n_per_m
}

/// The wanted range; `before` is where the axle stood before the change: wheel travel and ride frequency.
pub(in crate::solve) fn wanted_frequency(
    known: &Known<'_>,
    before: Option<(Length, Option<Frequency>)>,
) -> Option<Band<Frequency>> {
    let (reading, target) = (known.reading, &known.axle.target);
    match target.goal {
        Goal::Range => {
            let low = reading.known(&target.low)?;
            let high = reading.known(&target.high)?;
            Band::of(low, high, (low + high) / 2.0)
        }
        Goal::AsBefore => {
            let aim = before?.1?;
            let margin: Ratio = reading.known(&target.margin)?;
            Band::of(aim * (1.0 - margin.si()), aim * (1.0 + margin.si()), aim)
        }
    }
}

/// Travel at the old height, or at the present one when the old is not known, and how far above it is wanted.
pub(in crate::solve) fn raised_from(
    known: &Known<'_>,
    before: Option<(Length, Option<Frequency>)>,
) -> Option<(Length, Length)> {
    let from = before.map_or(Length::from_si(0.0), |(travel, _)| travel);
    Some((from, known.reading.known(&known.axle.target.raise)?))
}

/// The same-factor rule: it needs weights before and after, and no motion ratio. Source `DERIVED`.
pub(in crate::solve) fn same_factor(of: Readings<'_>, answer: &AxleAnswer) -> Option<SameFactor> {
    let factor: Ratio = answer.masses.sprung.after? / answer.masses.sprung.before?;
    let straight = matches!(answer.kind, SpringKind::Coil | SpringKind::Leaf);
    let bag = of.axle.bag.fitted != crate::job::BagFitted::No;
    let rubber = of.reading.known(&of.axle.parallel.rate).is_none_or(|k: SpringRate| k.si() != 0.0);
    let gas = of.reading.known(&of.axle.damper.gas_pressure).is_none_or(|p: Pressure| p.si() != 0.0);
    let own = || of.any_rate(&answer.old_spring).map(SpringRate::from_si);
    let old = answer.old_spring.rate.or_else(own);
    Some(SameFactor {
        sprung: BeforeAfter { before: answer.masses.sprung.before?, after: answer.masses.sprung.after? },
        factor,
        old_rate: old,
        spring_rate: old.map(|k| k * factor.si()),
        exact: straight && !(bag || rubber || gas),
    })
}

/// The old spring with its seat moved until it carries the load at the wanted height: s = ΔF/k for a coil, m along the
/// spring. Source `DERIVED`.
pub(in crate::solve) fn spacer(known: &Known<'_>, springs: &OnOld, wanted: Length) -> Option<Spacer> {
    let (before, on_old, old) = (springs.before.as_ref()?, springs.after.as_ref()?, springs.curve.as_ref()?);
    let load = known.load(on_old.sprung);
    let needed = old.spring_force_for(load, wanted);
    let length = known.spring_length.length(wanted);
    let moved = old.spring.carrying(needed, length)?;
    let thickness_m = moved.free_length_m() - old.spring.free_length_m();
    let index = match (&moved, &old.spring) {
        (Spring::Bar(new), Spring::Bar(old)) => Some(Angle::from_si(new.free_angle_rad - old.free_angle_rad)),
        _ => None,
    };
    let stress_bump = torsion_bar::stress_set_to(known, &moved);
    let allowed = stress_bump.and_then(|_| known.reading.known(&known.axle.spring.bar.allowed_stress));
    let lifts = needed - Force::from_si(force_n(&old.spring, length));
    let rate = match &old.spring {
        Spring::Coil(Coil { rate_n_per_m, .. }) | Spring::Leaf(Leaf { rate_n_per_m, .. }) => Some(*rate_n_per_m),
        _ => None,
    };
    let on_bar = match &old.spring {
        Spring::Bar(bar) => {
            let reach = (Length::from_si(bar.arm_m), bar.angle(length));
            Some((reach, TwistRate::from_si(bar.twist_rate_nm_per_rad)))
        }
        _ => None,
    };
    let with = ForceTravel { spring: moved, ..old.clone() };
    let on = standing::at_rest(&with, on_old.sprung, load, known.travel.stop)?;
    let solid = with.spring.solid_length_m().map(Length::from_si);
    let at_metal = known.travel.metal.map(|z| known.spring_length.length(z));
    Some(Spacer {
        to_bind: at_metal.zip(solid).map(|(length, solid)| length - solid),
        thickness: Length::from_si(thickness_m),
        index,
        stress_bump,
        allowed,
        lifts,
        rate: rate.map(SpringRate::from_si),
        on_bar,
        on,
        travel_before: before.travel,
        height_change: before.travel - on.travel,
    })
}

/// Force along a spring at a length, N; of one of a single rate also where it would be loose or solid.
fn force_n(spring: &Spring, length: Length) -> f64 {
    match spring {
        Spring::Coil(Coil { rate_n_per_m, .. }) | Spring::Leaf(Leaf { rate_n_per_m, .. }) => {
            rate_n_per_m * (spring.free_length_m() - length.si())
        }
        other => other.force_n(length.si()),
    }
}
