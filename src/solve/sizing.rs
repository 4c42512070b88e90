//! The spring rate for a wanted frequency, and what can be bought.

use super::answer::{Band, SameFactor, Sizing, Spacer, Standing, StockRates};
use super::axle::Known;
use crate::job::Goal;
use crate::ride;
use crate::units::{Frequency, Length, Quantity, Ratio, SpringRate, weight};
use crate::wheel::ForceTravel;

/// Low, aim, high if they are in order.
pub(super) fn band<Q: Quantity + PartialOrd>(low: Q, high: Q, aim: Q) -> Option<Band<Q>> {
    (low <= high).then_some(Band { low, aim, high })
}

/// Sizes the spring of one axle. Needs the weight after and the motion ratio; the old spring only for comparisons.
pub(super) fn size(
    known: &Known<'_>,
    before: Option<&Standing>,
    on_old: Option<&Standing>,
    old: Option<&ForceTravel>,
    overloaded: bool,
) -> Option<Sizing> {
    let sprung = known.sprung_after?;
    if old.is_some() && before.is_none() && on_old.is_none() {
        return None; // What was measured contradicts itself; a finding says so.
    }
    let load = weight(sprung);
    let frequency = wanted_frequency(known, before)?;
    let wanted_travel = wanted_travel(known, before)?;
    let curve = known.template(wanted_travel);
    let wheel_rate = frequency.map(|f| ride::rate_for(f, sprung));
    let spring_rate = wheel_rate.map(|k| curve.spring_rate_for(k, load, wanted_travel));
    if spring_rate.high.si() <= 0.0 {
        return None;
    }
    let step = known.reader.axle(known.side, "stock.step", &known.axle.stock.step)?;
    let pick = nearest_stock(spring_rate.aim, step);
    let spring_force = curve.spring_force_for(load, wanted_travel);
    let free = known.spring_length.length(wanted_travel) + spring_force / pick;
    let settle = known.reader.axle(known.side, "stock.settle", &known.axle.stock.settle);
    let free_length = known.lengths_known.then_some(free);
    Some(Sizing {
        frequency,
        wheel_rate,
        spring_rate,
        wanted_travel,
        spring_force,
        stock: stock_inside(&spring_rate, step),
        pick,
        pick_inside: is_inside(pick, &spring_rate),
        recommended: !overloaded,
        same_frequency: before.map(|b| curve.spring_rate_for(ride::rate_for(b.frequency, sprung), load, wanted_travel)),
        same_factor: same_factor(known),
        free_length,
        order_length: free_length.zip(settle).map(|(l, s)| l + s),
        spacer: before.and(on_old).and_then(|s| spacer(known, s, old?, wanted_travel)),
    })
}

fn wanted_frequency(known: &Known<'_>, before: Option<&Standing>) -> Option<Band<Frequency>> {
    let (reader, side, target) = (known.reader, known.side, &known.axle.target);
    match target.goal {
        Goal::Range => {
            let low = reader.axle(side, "target.low", &target.low)?;
            let high = reader.axle(side, "target.high", &target.high)?;
            band(low, high, (low + high) / 2.0)
        }
        Goal::AsBefore => {
            let aim = before?.frequency;
            let margin: Ratio = reader.axle(side, "target.margin", &target.margin)?;
            band(aim * (1.0 - margin.si()), aim * (1.0 + margin.si()), aim)
        }
    }
}

/// Travel at the wanted height: the old height, or the present one when the old is not known, less the raise.
fn wanted_travel(known: &Known<'_>, before: Option<&Standing>) -> Option<Length> {
    let raise = known.reader.axle(known.side, "target.raise", &known.axle.target.raise)?;
    let from = match before {
        Some(before) => before.travel,
        None => Length::from_si(0.0),
    };
    Some(from - raise)
}

/// The whole multiple of `step` nearest to `rate`, at least one step.
fn nearest_stock(rate: SpringRate, step: SpringRate) -> SpringRate {
    step * (rate / step).si().round().max(1.0)
}

/// Inside, the ends included, with room for rounding in the last digits.
fn is_inside(rate: SpringRate, band: &Band<SpringRate>) -> bool {
    let slack = 1e-9 * rate.si();
    rate.si() >= band.low.si() - slack && rate.si() <= band.high.si() + slack
}

fn stock_inside(band: &Band<SpringRate>, step: SpringRate) -> Option<StockRates> {
    const SLACK: f64 = 1e-9;
    let first = ((band.low / step).si() - SLACK).ceil().max(1.0);
    let last = ((band.high / step).si() + SLACK).floor();
    (last >= first).then(|| StockRates {
        step,
        lowest: step * first,
        highest: step * last,
        count: ((last - first) as usize).saturating_add(1),
    })
}

fn same_factor(known: &Known<'_>) -> Option<SameFactor> {
    let old_rate = known.reader.typed("spring.rate", &known.axle.spring.rate)?;
    let factor: Ratio = known.sprung_after? / known.sprung_before?;
    let exact = known.parallel_rate.si() == 0.0 && known.gas_force.si() == 0.0;
    Some(SameFactor { factor, spring_rate: old_rate * factor.si(), exact })
}

/// s = F_needed/k − F_now/k taken at the wanted height: the old spring needs this much more compression.
fn spacer(known: &Known<'_>, on_old: &Standing, old: &ForceTravel, wanted: Length) -> Option<Spacer> {
    let load = weight(on_old.sprung);
    let needed_n = old.spring_force_for(load, wanted).si();
    let length_m = known.spring_length.length(wanted).si();
    let rate_n_per_m = old.spring.rate_n_per_m(length_m);
    if rate_n_per_m <= 0.0 {
        return None;
    }
    let thickness_m = (needed_n - old.spring.force_n(length_m)) / rate_n_per_m;
    let with = ForceTravel { spring: old.spring.with_spacer(thickness_m), ..*old };
    let stands = with.ride_height(load).ok()?;
    Some(Spacer {
        thickness: Length::from_si(thickness_m),
        reserve: with.reserve(load),
        frequency: ride::frequency(stands.wheel_rate, on_old.sprung),
    })
}
