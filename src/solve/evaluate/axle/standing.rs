//! Equilibrium of an axle: on its old spring, and on any curve under any load.

use crate::base::units::{Energy, Force, Length, Mass, Quantity, Ratio, SpringRate, weight};
use crate::job::SpringKind;
use crate::solve::answer::{ByAir, OldSpring, Standing, StandsOn};
use crate::solve::evaluate::axle::known::Known;
use crate::trade::ride;
use crate::trade::spring::{AirBag, Spring};
use crate::trade::wheel::{Equilibrium, ForceTravel};

/// An axle on its old spring.
pub(in crate::solve) struct OnOld {
    /// The spring by itself, wherever its seats are.
    pub itself: Option<Spring>,
    pub curve: Option<ForceTravel>,
    pub before: Option<Standing>,
    pub after: Option<Standing>,
}

impl Known<'_> {
    /// The old spring, and the equilibrium of the axle on it before and after.
    pub fn on_old_springs(&mut self, facts: &mut OldSpring) -> OnOld {
        let itself = self.old_spring_itself(facts);
        let curve = itself.as_ref().and_then(|spring| self.placed(spring));
        facts.rate = curve
            .as_ref()
            .map(|c| SpringRate::from_si(c.spring.rate_n_per_m(c.spring_length.length(Length::from_si(0.0)).si())));
        OnOld {
            before: self.stand(curve.as_ref(), self.sprung_before),
            after: self.stand(curve.as_ref(), self.sprung_after),
            itself,
            curve,
        }
    }

    /// The old spring's curve: its seats are where it carries the load at the reference height.
    pub fn placed(&mut self, spring: &Spring) -> Option<ForceTravel> {
        let reference = Length::from_si(0.0);
        let load = weight(self.sprung_at_reference()?);
        let mut curve = self.template(reference);
        let force = curve.spring_force_for(load, reference);
        // Without a fitted length, the free one gives it: free length less what the load compresses.
        let absolute = self.axle.spring.kind == SpringKind::Progressive
            || self.reading.typed(&self.axle.spring.free_length).is_some();
        if !self.lengths_known && self.axle.spring.kind.is_coil() && absolute {
            let fitted = Length::from_si(spring.length_for_m(force.si())?);
            self.spring_length = self.spring_length.clone().with_length_at_reference(fitted);
            self.lengths_known = true;
            curve.spring_length = self.spring_length.clone();
        }
        let placed = spring.carrying(force, curve.spring_length.length(reference))?;
        curve.spring = placed.with_solid_length(self.solid_length());
        Some(curve)
    }

    /// The old springs as they stay, on their spacer or indexed again, with a bag that is new.
    pub fn kept(&self, old: &ForceTravel, wanted: Length) -> ForceTravel {
        let spring = self.own_springs().set(old.spring.clone());
        ForceTravel { spring, helper: self.final_template(wanted).helper, ..old.clone() }
    }

    /// Equilibrium of a load on a curve.
    pub fn stand(&self, curve: Option<&ForceTravel>, sprung: Option<Mass>) -> Option<Standing> {
        let (curve, sprung) = (curve?, sprung?);
        let load = self.load(sprung);
        let found = curve.ride_height(load).ok().filter(|f| f.wheel_rate.si() > 0.0)?;
        let length_m = self.spring_length.length(found.travel).si();
        let free = Length::from_si(curve.spring.free_length_m());
        Some(Standing {
            sprung,
            of_axle: None,
            travel: found.travel,
            travel_before: None,
            height_change: None,
            squash: None,
            height_change_at_ground: None,
            wheel_rate: found.wheel_rate,
            frequency: ride::frequency(found.wheel_rate, sprung),
            tyre_rate: self.tyre_rate,
            frequency_with_tyre: self.tyre_rate.map(|t| ride::frequency(ride::in_series(found.wheel_rate, t), sprung)),
            static_deflection: ride::static_deflection(found.wheel_rate, sprung),
            spring_force: found.spring_force,
            spring_rate: SpringRate::from_si(curve.spring.rate_n_per_m(length_m)),
            stored: Energy::from_si(curve.spring.energy_j(length_m)),
            spring_length: (self.lengths_known && self.axle.spring.kind != SpringKind::TorsionBar)
                .then(|| Length::from_si(length_m)),
            stop_room: self.travel.stop.map(|gap| gap - found.travel),
            reserve: curve.reserve(load),
            old_damper_at_wheel: None,
            old_damper_ratio: None,
            on_stop: found.on_stop,
            loose: found.loose,
            loose_at: self.spring_length.travel_at(free).filter(|_| curve.spring.can_be_loose()),
            curve: curve.clone(),
        })
    }

    /// What the axle weighs in each state, and height changes from before, at the wheel and at the ground.
    pub fn heights(&self, before: &mut Option<Standing>, old: &mut Option<Standing>, new: &mut Option<Standing>) {
        let (was, is) = (self.axle_before.zip(self.unsprung_before), self.axle_after.zip(self.unsprung));
        for (stand, of_axle) in [(&mut *before, was), (&mut *old, is), (&mut *new, is)] {
            if let Some(stand) = stand {
                stand.of_axle = of_axle;
            }
        }
        let Some(from) = before.as_ref().map(|b| b.travel) else { return };
        let squash = |axle: Option<Mass>| Some(weight((axle? - self.axle_before?) / 2.0) / self.tyre_rate?);
        for (stand, axle) in [(before, self.axle_before), (old, self.axle_after), (new, self.axle_after)] {
            if let Some(stand) = stand {
                let rise = from - stand.travel;
                (stand.travel_before, stand.height_change, stand.squash) = (Some(from), Some(rise), squash(axle));
                stand.height_change_at_ground = stand.squash.map(|s| rise - s);
            }
        }
    }
}

/// A bag pumped until a height is back under what is sprung and what presses. `None` when there is nothing to lift.
pub(in crate::solve) fn levelled(
    curve: &ForceTravel,
    (bag, ratio): (AirBag, Ratio),
    height: Length,
    (sprung, load): (Mass, Force),
    stop_gap: Option<Length>,
) -> Option<ByAir> {
    let (bag, with_bag) = curve.levelled_by(bag, ratio, height, load)?;
    let found = with_bag.ride_height(load).ok().filter(|f| f.wheel_rate.si() > 0.0)?;
    Some(ByAir {
        bag,
        ratio,
        lifts: load - Force::from_si(curve.force_n(height.si())),
        pressure: bag.gauge(Length::from_si(0.0)),
        bag_rate: SpringRate::from_si(bag.rate_n_per_m(0.0)),
        frequency: ride::frequency(found.wheel_rate, sprung),
        reserve: with_bag.reserve(load),
        on: stands_on(&with_bag, &found, sprung, load, stop_gap),
    })
}

/// What the figures of a corner on a curve are worked out from.
pub(in crate::solve) fn stands_on(
    curve: &ForceTravel,
    found: &Equilibrium,
    sprung: Mass,
    load: Force,
    stop_gap: Option<Length>,
) -> StandsOn {
    let at_contact_n = curve.first_contact_m().map(|z_m| curve.force_without_stop_n(z_m));
    StandsOn {
        wheel_rate: found.wheel_rate,
        sprung,
        load,
        at_contact: at_contact_n.filter(|n| n.is_finite()).map(Force::from_si),
        travel: found.travel,
        stop_gap,
    }
}
