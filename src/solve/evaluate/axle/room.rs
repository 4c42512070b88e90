//! Room at both ends of the travel.

use crate::base::units::{Energy, Force, Length, Quantity};
use crate::job::read::Read;
use crate::solve::answer::{Room, Standing, Travel};
use crate::solve::evaluate::axle::fitted_spacer;
use crate::solve::evaluate::axle::known::Known;
use crate::trade::spring::Spring;
use crate::trade::wheel::ForceTravel;

impl Known<'_> {
    /// Where in the travel the spring binds and the damper ends.
    pub fn ends(&self, travel: &mut Travel, new: Option<&ForceTravel>) {
        let damper_at = |length: Option<Length>| {
            self.damper_length.as_ref()?.travel_at(length.filter(|_| self.damper_lengths_known)?)
        };
        let damper = &self.axle.damper;
        let solid = new.and_then(|c| c.spring.solid_length_m()).map(Length::from_si);
        travel.bind = solid.and_then(|solid| self.spring_length.travel_at(solid));
        travel.damper_closed = damper_at(self.reading.typed(&damper.closed_length));
        travel.damper_open = damper_at(self.reading.typed(&damper.open_length));
    }

    /// How much of the length between the seats is not the spring's own under this force.
    fn beside_own(&self, spring: &Spring, force_n: f64) -> Option<Length> {
        let spacer = fitted_spacer(self.reading, self.axle);
        let helper_m = match spring {
            Spring::Stack(stack) => stack.helper_length_m(force_n),
            _ => 0.0,
        };
        Some(spacer + Length::from_si(helper_m))
    }

    pub fn room(&self, new: &Standing) -> Room {
        let metal = self.travel.metal;
        let droop = self.travel.droop.map(|d| -d);
        let spring = &new.curve.spring;
        let length_m = |z: Length| self.reached_m(&new.curve, self.spring_length.length(z));
        let coil_at = |z: Option<Length>| {
            z.filter(|_| self.lengths_known && self.axle.spring.kind.is_coil()).map(|z| self.spring_length.length(z))
        };
        let [at_metal, at_droop] = self.damper_at_ends();
        let free = Length::from_si(spring.free_length_m());
        let damper = &self.axle.damper;
        let closed = self.reading.typed(&damper.closed_length);
        let open = self.reading.typed(&damper.open_length);
        let limits = &self.reading.job.limits;
        let room = |limit: &Read<Length>| -> Option<Length> { self.reading.known(limit) };
        let at_metal_n = metal.map(|z| spring.force_n(length_m(z)));
        let beside_own = [Some(new.spring_force.si()), at_metal_n].map(|force_n| self.beside_own(spring, force_n?));
        let own_solid = |((length, room), beside): ((Length, Length), Length)| length - room - beside;
        Room {
            longest_solid: coil_at(metal).zip(room(&limits.bind_room)).zip(beside_own[1]).map(own_solid),
            own_at_ride: new.spring_length.zip(beside_own[0]).map(|(length, beside)| length - beside),
            beside_own,
            damper_at_ride: self.damper_at(new.travel),
            damper_closed_most: at_metal.zip(room(&limits.damper_room)).map(|(length, room)| length - room),
            damper_open_least: at_droop.zip(room(&limits.damper_room)).map(|(length, room)| length + room),
            stored_at_metal: metal.map(|z| Energy::from_si(spring.energy_j(length_m(z)))),
            spring_at_metal: coil_at(metal),
            spring_at_droop: coil_at(droop),
            force_at_metal: at_metal_n.map(Force::from_si),
            to_bind: coil_at(metal).zip(spring.solid_length_m()).map(|(length, s)| length - Length::from_si(s)),
            seat: droop.filter(|_| spring.can_be_loose()).map(|z| free - self.spring_length.length(z)),
            damper_at_ends: [at_metal, at_droop],
            damper_bump: at_metal.zip(closed).map(|(length, closed)| length - closed),
            damper_droop: at_droop.zip(open).map(|(length, open)| open - length),
        }
    }
}
