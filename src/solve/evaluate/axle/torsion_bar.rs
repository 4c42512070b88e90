//! The torsion bar for a range of rates: which stock diameters work, which is bought, where it is set.

use crate::base::units::{Angle, Force, Length, Quantity, SpringRate, Stress, TwistRate};
use crate::solve::answer::{Band, BarChoice, Sizing, StockBars};
use crate::solve::evaluate::axle::known::Known;
use crate::solve::evaluate::axle::stock::{multiples_inside, stock_pick};
use crate::solve::evaluate::decided::BarPick;
use crate::trade::spring::{Bar, Spring, TorsionBar};
use crate::trade::wheel::ForceTravel;

/// No more stock diameters than these are considered, those nearest the middle: a finer step tells nothing.
const LOOKED_AT: f64 = 500.0;

/// The bar to buy: of the stock diameters that hold their stress the nearest to the aim, else the nearest of all. `None`
/// without bar, arm or step, or when it would be no thicker than its own bore.
pub(in crate::solve) fn pick(known: &Known<'_>, sizing: &Sizing) -> Option<BarPick> {
    let at_ride = AtRide::read(known, sizing)?;
    let diameter = sizing.spring_rate.map(|k| at_ride.diameter_for(k));
    let step = known.reading.known(&known.axle.stock.bar_step)?;
    let allowed = allowed(known);
    let holds = |d: &Length| at_ride.stress_bump(known, *d).zip(allowed).is_none_or(|(is, may_be)| is <= may_be);
    let working: Vec<Length> = stock_inside(&diameter, step).into_iter().filter(holds).collect();
    let off = |d: &Length| (*d - diameter.aim).si().abs();
    let nearest = working.iter().copied().min_by(|a, b| off(a).total_cmp(&off(b)));
    let stock = working.first().zip(working.last());
    let stock = stock.map(|(lowest, highest)| StockBars { lowest: *lowest, highest: *highest, count: working.len() });
    let picked = BarPick { diameter: nearest.unwrap_or_else(|| stock_pick(&diameter, step)), stock };
    (picked.diameter.si() > at_ride.bar.inside_m).then_some(picked)
}

/// The bar that was picked, and the diameters for a range of rates at the arm's end. `None` as for [`pick`].
pub(in crate::solve) fn choice(
    known: &Known<'_>,
    sizing: &Sizing,
    picked: &BarPick,
    old: Option<&ForceTravel>,
) -> Option<BarChoice> {
    let at_ride = AtRide::read(known, sizing)?;
    let step = known.reading.known(&known.axle.stock.bar_step)?;
    let pick = picked.diameter;
    if pick.si() <= at_ride.bar.inside_m {
        return None;
    }
    let set = at_ride.carrying(pick);
    let old_free_angle = match old.map(|o| &o.spring) {
        Some(Spring::Bar(old)) => Some(Angle::from_si(old.free_angle_rad)),
        _ => None,
    };
    let index = old_free_angle.map(|old| Angle::from_si(set.free_angle_rad) - old);
    Some(BarChoice {
        diameter: sizing.spring_rate.map(|k| at_ride.diameter_for(k)),
        twist_rate: sizing.spring_rate.map(|k| at_ride.twist_rate_for(k)),
        old_free_angle,
        step,
        stock: picked.stock,
        pick,
        index,
        bar: at_ride.sized(pick),
        free_angle: Angle::from_si(set.free_angle_rad),
        angle_ride: set.angle(at_ride.length),
        angle_bump: known.travel.metal.map(|travel| set.angle(known.spring_length.length(travel))),
        rate_tolerance: known.reading.known(&known.reading.job.limits.rate_tolerance),
        stress_bump: at_ride.stress_bump(known, pick),
        allowed: allowed(known),
    })
}

fn allowed(known: &Known<'_>) -> Option<Stress> {
    known.reading.known(&known.axle.spring.bar.allowed_stress)
}

/// The rate at the arm's end of a bar of this diameter; `None` when the arm is so steep that it has none.
pub(in crate::solve) fn rate(known: &Known<'_>, diameter: Length, sizing: &Sizing) -> Option<SpringRate> {
    let at_ride = AtRide::read(known, sizing)?;
    let rate = SpringRate::from_si(at_ride.carrying(diameter).rate_n_per_m(at_ride.length.si()));
    (rate.si() > 0.0).then_some(rate)
}

/// Stress of the old bar at full bump once it is set so; `None` without bar or bump travel.
pub(in crate::solve) fn stress_set_to(known: &Known<'_>, set: &Spring) -> Option<Stress> {
    let Spring::Bar(set) = set else { return None };
    Some(set.stress(&known.bar()?, known.spring_length.length(known.travel.metal?)))
}

/// Stock diameters inside the band, thinnest first.
fn stock_inside(diameter: &Band<Length>, step: Length) -> Vec<Length> {
    let Some([first, last]) = multiples_inside(diameter, step) else { return Vec::new() };
    let middle = (diameter.aim / step).si().round().clamp(first, last);
    let (first, last) = (first.max(middle - LOOKED_AT), last.min(middle + LOOKED_AT));
    (0..=(last - first) as usize).map(|i| step * (first + i as f64)).collect()
}

/// A bar of any diameter on this arm, set so that it carries the load at the wanted height.
struct AtRide {
    bar: Bar,
    arm: TorsionBar,
    force: Force,
    length: Length,
}

impl AtRide {
    fn read(known: &Known<'_>, sizing: &Sizing) -> Option<Self> {
        let bar = known.bar()?;
        let arm_m = known.reading.typed(&known.axle.spring.bar.arm)?.si();
        let arm = TorsionBar { twist_rate_nm_per_rad: bar.twist_rate().si(), arm_m, free_angle_rad: 0.0 };
        let length = known.spring_length.length(sizing.wanted_travel);
        Some(AtRide { bar, arm, force: sizing.spring_force, length })
    }

    fn diameter_for(&self, rate: SpringRate) -> Length {
        self.bar.diameter_for(self.twist_rate_for(rate))
    }

    fn twist_rate_for(&self, rate: SpringRate) -> TwistRate {
        self.arm.twist_rate_for(rate.si(), self.force, self.length)
    }

    fn sized(&self, diameter: Length) -> Bar {
        Bar { diameter_m: diameter.si(), ..self.bar }
    }

    fn carrying(&self, diameter: Length) -> TorsionBar {
        let twist_rate_nm_per_rad = self.sized(diameter).twist_rate().si();
        TorsionBar { twist_rate_nm_per_rad, ..self.arm }.carrying(self.force, self.length)
    }

    /// Stress at full bump; `None` without bump travel.
    fn stress_bump(&self, known: &Known<'_>, diameter: Length) -> Option<Stress> {
        let length = known.spring_length.length(known.travel.metal?);
        Some(self.carrying(diameter).stress(&self.sized(diameter), length))
    }
}
