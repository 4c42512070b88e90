//! Room at both ends of the travel.

use crate::base::units::{Energy, Force, Length, Quantity};
use crate::job::LeftRight;
use crate::job::read::Read;
use crate::solve::answer::{FittedSprings, Room, Standing, Travel};
use crate::solve::evaluate::axle::known::Known;
use crate::trade::spring::Spring;

impl Known<'_> {
    /// Where in the travel the spring binds and the damper ends.
    pub fn ends(&self, travel: &mut Travel, fitted: Option<&FittedSprings>) {
        let damper_at = |length: Option<Length>| {
            self.damper_length.as_ref()?.travel_at(length.filter(|_| self.damper_lengths_known)?)
        };
        let damper = &self.axle.damper;
        let solid = fitted.and_then(FittedSprings::solid_length);
        travel.bind = solid.and_then(|solid| self.spring_length.travel_at(solid));
        travel.damper_closed = damper_at(self.reading.typed(&damper.closed_length));
        travel.damper_open = damper_at(self.reading.typed(&damper.open_length));
    }

    /// Of the axle's spring, which is ordered: the length between its seats under this force, where the axle's is this long,
    /// and what is there in addition to it.
    fn seats_and_beside(&self, fitted: &FittedSprings, force: Force, length: Length) -> [Length; 2] {
        let own = self.own_springs();
        let LeftRight { left, right } = own.spacers();
        let (length, spacer) = match own.are_alike() {
            true => (length, (left + right) / 2.0),
            false => (fitted.of_axle.length_for_m(force.si()).map_or(length, Length::from_si), own.of_axle()),
        };
        let beside = spacer + helper(&fitted.of_axle, force);
        [length, beside]
    }

    pub fn room(&self, new: &Standing, fitted: &FittedSprings) -> Room {
        let metal = self.travel.metal;
        let droop = self.travel.droop.map(|d| -d);
        let spring = &new.curve.spring;
        let length_m = |z: Length| self.reached_m(&new.curve, self.spring_length.length(z));
        let coil_at = |z: Option<Length>| {
            z.filter(|_| self.lengths_known && self.axle.spring.kind.is_coil()).map(|z| self.spring_length.length(z))
        };
        let damper_at_metal = metal.and_then(|z| self.damper_at(z));
        let damper_at_droop = droop.and_then(|z| self.damper_at(z));
        let damper = &self.axle.damper;
        let closed = self.reading.typed(&damper.closed_length);
        let open = self.reading.typed(&damper.open_length);
        let limits = &self.reading.job.limits;
        let room = |limit: &Read<Length>| -> Option<Length> { self.reading.known(limit) };
        let at_metal_n = metal.map(|z| spring.force_n(length_m(z)));
        let at_metal = at_metal_n.map(Force::from_si);
        let at_ride = new.spring_length.map(|length| self.seats_and_beside(fitted, new.spring_force, length));
        let own = |[seats, beside]: [Length; 2]| seats - beside;
        let LeftRight { left, right } = self.own_springs().spacers();
        let thicker = if left > right { left } else { right };
        let beside_solid = at_metal.map(|force| thicker + helper(&fitted.of_axle, force));
        let own_solid = |((length, room), beside): ((Length, Length), Length)| length - room - beside;
        Room {
            longest_solid: coil_at(metal).zip(room(&limits.bind_room)).zip(beside_solid).map(own_solid),
            bind_room: room(&limits.bind_room),
            seats_at_ride: at_ride.map(|[seats, _]| seats),
            own_at_ride: at_ride.map(own),
            own_at_metal: coil_at(metal)
                .zip(at_metal)
                .map(|(length, force)| own(self.seats_and_beside(fitted, force, length))),
            beside_at_ride: at_ride.map(|[_, beside]| beside),
            beside_solid,
            damper_at_ride: self.damper_at(new.travel),
            damper_closed_most: damper_at_metal.zip(room(&limits.damper_room)).map(|(length, room)| length - room),
            damper_open_least: damper_at_droop.zip(room(&limits.damper_room)).map(|(length, room)| length + room),
            stored_at_metal: metal.map(|z| Energy::from_si(spring.energy_j(length_m(z)))),
            spring_at_metal: coil_at(metal),
            spring_at_droop: coil_at(droop),
            force_at_metal: at_metal,
            to_bind: coil_at(metal).zip(fitted.solid_length()).map(|(length, solid)| length - solid),
            seat: droop.filter(|_| spring.can_be_loose()).map(|z| fitted.free_length() - self.spring_length.length(z)),
            damper_at_metal,
            damper_at_droop,
            damper_closed: closed,
            damper_open: open,
            damper_bump: damper_at_metal.zip(closed).map(|(length, closed)| length - closed),
            damper_droop: damper_at_droop.zip(open).map(|(length, open)| open - length),
        }
    }
}

/// What a helper coil takes of a spring's length under this force.
pub(super) fn helper(spring: &Spring, force: Force) -> Length {
    Length::from_si(match spring {
        Spring::Stack(stack) => stack.helper_length_m(force.si()),
        _ => 0.0,
    })
}
