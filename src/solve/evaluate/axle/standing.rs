//! Equilibrium of an axle: on its old spring, and on any curve under any load.

use crate::base::units::{Energy, Force, Length, Mass, Quantity, Ratio, SpringRate, weight};
use crate::job::SpringKind;
use crate::solve::answer::{AtRest, ByAir, Masses, OldSpring, Standing, State};
use crate::solve::evaluate::axle::known::Known;
use crate::trade::ride;
use crate::trade::spring::{AirBag, Spring};
use crate::trade::wheel::ForceTravel;

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
            before: self.stand(curve.as_ref(), self.masses.sprung.before),
            after: self.stand(curve.as_ref(), self.masses.sprung.after),
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
        let found = curve.held(load)?;
        let length_m = self.spring_length.length(found.travel).si();
        let free = Length::from_si(curve.spring.free_length_m());
        Some(Standing {
            sprung,
            load,
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
            reserve: curve.force_at_contact().and_then(|force| ride::reserve(force, load)),
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
        let from = before.as_ref().map(|b| b.travel);
        let Masses { weight: axle, unsprung, .. } = &self.masses;
        for (stand, state) in [before, old, new].into_iter().zip(State::ALL) {
            let Some(stand) = stand else { continue };
            stand.of_axle = axle.of(state).zip(*unsprung.of(state));
            let Some(from) = from else { continue };
            let rise = from - stand.travel;
            let squash = || Some(weight(((*axle.of(state))? - axle.before?) / 2.0) / self.tyre_rate?);
            (stand.travel_before, stand.height_change, stand.squash) = (Some(from), Some(rise), squash());
            stand.height_change_at_ground = stand.squash.map(|s| rise - s);
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
    Some(ByAir {
        bag,
        ratio,
        springs_carry: Force::from_si(curve.force_n(height.si())),
        pressure: bag.gauge(Length::from_si(0.0)),
        bag_rate: SpringRate::from_si(bag.rate_n_per_m(0.0)),
        on: at_rest(&with_bag, sprung, load, stop_gap)?,
    })
}

/// Where a corner rests on a curve: what is sprung, and what presses. `None` where nothing holds it.
pub(in crate::solve) fn at_rest(
    curve: &ForceTravel,
    sprung: Mass,
    load: Force,
    stop_gap: Option<Length>,
) -> Option<AtRest> {
    let found = curve.held(load)?;
    Some(AtRest {
        wheel_rate: found.wheel_rate,
        sprung,
        load,
        at_contact: curve.force_at_contact(),
        travel: found.travel,
        stop_gap,
        on_stop: found.on_stop,
    })
}
