//! One axle, from its weights to its dampers: the order of calculation.

use super::answer::{AxleAnswer, Compared, OldSpring, Parts, PerState, Room, RouteKind, Standing, Travel};
use super::decided::Decided;
use super::known::{Known, Readings};
use super::read::Reading;
use super::{routes, sizing};
use crate::job::read::{Axle, MotionRatio, Read};
use crate::job::{Plan, RatioBy, Side, SpringKind};
use crate::language::tr;
use crate::ride;
use crate::spring::Spring;
use crate::units::{Energy, Force, G_M_PER_S2, Length, Mass, Quantity, Ratio, SpringRate, weight};
use crate::weights;
use crate::wheel::ForceTravel;

/// One axle by what the reading says, with what was decided of it.
pub(super) fn evaluate<'a>(
    reading: &'a Reading<'a>,
    side: Side,
    compared: &Compared,
    decided: &'a Decided,
) -> AxleAnswer {
    let axle = reading.job.axle(side);
    let opening = Opening::read(reading, side, compared);
    let after = &compared.weighed[1];
    let on_hitch = Mass::from_si(compared.tongue[side as usize].si() / G_M_PER_S2);
    let rated = after.axle(side).map(|whole| whole + on_hitch).zip(reading.typed(&axle.rating));
    let mut answer = AxleAnswer {
        side,
        plan: axle.plan,
        missing: Vec::new(),
        instead: Vec::new(),
        sprung_before: opening.sprung[0],
        sprung_after: opening.sprung[1],
        weight: [0, 1].map(|i| compared.weighed[i].axle(side)),
        unsprung: opening.unsprung_of,
        stood: opening.stood,
        motion_ratio: None,
        ratio_slope: None,
        roll_ratio: None,
        damper_motion_ratio: None,
        damper_ratio_slope: None,
        kind: axle.spring.kind,
        old_spring: OldSpring::default(),
        route_rates: [None; RouteKind::ALL.len()],
        standing: PerState::default(),
        same_factor: None,
        sizing: None,
        old_will_do: None,
        nothing_left: false,
        room: Room::default(),
        old_damper: None,
        damping: None,
        offered: None,
        old_free_length: None,
        rated,
        overloaded: false,
        new_dampers: decided.new_dampers,
        dampers_off: false,
        parts: Parts { taken: taken(reading, axle), ..Parts::default() },
        travel: opening.travel,
    };
    let readings = Readings::of(reading, side);
    match Known::read(reading, &opening, decided, compared) {
        Some(known) => known.fill(&mut answer),
        None => readings.read_rates(&mut answer.old_spring),
    }
    answer.same_factor = sizing::same_factor(readings, &answer);
    answer
}

/// The spring taken from a list, by its number or what it is.
fn taken(reading: &Reading<'_>, axle: &Axle) -> Option<String> {
    reading.typed(&axle.taken.rate).filter(|_| axle.spring.kind.is_coil())?;
    let named = [&axle.taken.number, &axle.taken.what].into_iter().find(|n| !n.trim().is_empty());
    Some(named.map_or(tr("the spring taken from the list"), |n| n.trim()).to_owned())
}

/// What an axle's answer begins with.
pub(super) struct Opening {
    pub side: Side,
    /// Sprung mass of one corner that is compared, before and after.
    pub sprung: [Option<Mass>; 2],
    /// The same as the vehicle stood on the scales.
    pub stood: [Option<Mass>; 2],
    pub unsprung: Option<Mass>,
    /// The same before and after.
    pub unsprung_of: [Option<Mass>; 2],
    pub travel: Travel,
}

impl Opening {
    pub fn read(reading: &Reading<'_>, side: Side, compared: &Compared) -> Self {
        let axle = reading.job.axle(side);
        let unsprung = reading.known(&axle.unsprung);
        let before = if axle.unsprung_before.is_blank() { unsprung } else { reading.typed(&axle.unsprung_before) };
        let sprung = |whole: Option<Mass>, unsprung: Option<Mass>| weights::sprung_per_corner(whole?, unsprung?);
        let unsprung_of = [before, unsprung];
        Opening {
            side,
            sprung: [0, 1].map(|i| sprung(compared.weighed[i].axle(side), unsprung_of[i])),
            stood: [0, 1].map(|i| sprung(compared.stood[i][side as usize], unsprung_of[i])),
            unsprung,
            unsprung_of,
            travel: Travel {
                stop: reading.typed(&axle.travel.stop_gap),
                metal: reading.typed(&axle.travel.metal),
                droop: reading.typed(&axle.travel.droop),
                ..Travel::default()
            },
        }
    }
}

/// An axle on its old spring.
pub(super) struct OnOld {
    /// The spring by itself, wherever its seats are.
    pub itself: Option<Spring>,
    pub curve: Option<ForceTravel>,
    pub before: Option<Standing>,
    pub after: Option<Standing>,
}

impl Known<'_> {
    fn fill(mut self, answer: &mut AxleAnswer) {
        let reference = Length::from_si(0.0);
        answer.motion_ratio = Some(self.spring_length.ratio(reference));
        // Two lengths or a number say nothing about a change.
        let measured = |ratio: &MotionRatio| match ratio.by {
            RatioBy::Rows => ratio.rows.len() > 2,
            _ => !ratio.slope.is_blank(),
        };
        answer.ratio_slope = measured(&self.axle.ratio).then(|| self.spring_length.slope(reference));
        answer.roll_ratio = self.roll_ratio(answer.motion_ratio);
        answer.damper_motion_ratio = self.damper_length.map(|d| d.ratio(reference));
        answer.damper_ratio_slope =
            self.damper_length.filter(|_| measured(&self.axle.damper_ratio)).map(|d| d.slope(reference));
        let mut on_old = self.on_old_springs(&mut answer.old_spring);
        if let Some(old) = on_old.curve.as_ref().filter(|_| self.lengths_known && self.axle.spring.kind.is_coil()) {
            answer.old_free_length = Some(own_free_length(&old.spring));
        }
        let asked = sizing::asked(&self, &on_old);
        answer.nothing_left = matches!(asked, Some(Err(sizing::NothingLeft)));
        let mut sized = asked.and_then(Result::ok).and_then(|asked| sizing::size(&self, asked, &on_old));
        answer.sizing = sized.map(|s| s.sizing);
        answer.old_will_do =
            on_old.after.as_ref().zip(answer.sizing.as_ref()).and_then(|(o, s)| sizing::will_do(&self, o, s));
        let wanted = answer.sizing.as_ref().map(|s| s.wanted_travel);
        let new_curve = match (self.axle.plan, sized.as_ref()) {
            (Plan::Keep, _) => on_old.curve.as_ref().map(|old| self.kept(old, wanted.unwrap_or(reference))),
            (Plan::NewSprings, Some(sized)) => self.new_spring(sized),
            (Plan::NewSprings, None) => None,
        };
        let mut on_new = self.stand(new_curve.as_ref(), self.sprung_after);
        if let Some(sized) = &mut sized {
            sizing::set_lengths(&self, sized);
        }
        answer.parts.spring = sized.map(|s| s.to_buy);
        answer.parts.spacer = sized.and_then(|s| s.spacer);
        let OnOld { itself, curve: old, before, after } = &mut on_old;
        self.heights(before, after, &mut on_new);
        let old_damper = self.old_damper(before.as_ref());
        for stand in [&mut *before, &mut *after, &mut on_new].into_iter().flatten() {
            let at_wheel = old_damper.as_ref().map(|d| d.at_wheel(&stand.curve, stand.travel));
            stand.old_damper_ratio = at_wheel.map(|c| crate::damper::damping_ratio(c, stand.wheel_rate, stand.sprung));
        }
        self.ends(&mut answer.travel, new_curve.as_ref());
        if let Some(new) = &on_new {
            answer.room = self.room(new);
            if let Some((damping, targets)) = self.damping(new, before.as_ref(), old_damper.as_ref()) {
                answer.parts.offered_damper = self.offered_damper(&damping, new);
                (answer.damping, answer.parts.damper) = (Some(damping), Some(targets));
            }
        }
        answer.old_damper = old_damper;
        let shape = itself.as_ref().zip(old.as_ref()).filter(|_| !routes::is_one_number(answer.kind));
        answer.route_rates = routes::rates(&self, &answer.old_spring, shape);
        answer.standing = PerState { before: on_old.before, old: on_old.after, new: on_new };
        answer.dampers_off = dampers_suit(answer) == Some(false);
        self.springs_in_detail(on_old.curve.as_ref(), answer);
    }

    /// The old spring, and where the axle stands on it before and after.
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

    /// Beam axle: in roll the spring moves less, by its base over the track. Source `DERIVED`; `MIL` ch. 16.
    fn roll_ratio(&self, ratio: Option<Ratio>) -> Option<Ratio> {
        let base: Length = self.reading.typed(&self.axle.spring_base)?;
        let track: Length = self.reading.typed(&self.axle.track)?;
        (self.axle.kind == crate::job::AxleKind::Beam).then_some(ratio? * (base / track))
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
            self.spring_length = self.spring_length.with_length_at_reference(fitted);
            self.lengths_known = true;
            curve.spring_length = self.spring_length;
        }
        let placed = spring.carrying(force, curve.spring_length.length(reference))?;
        curve.spring = placed.with_solid_length(self.solid_length());
        Some(curve)
    }

    /// The old springs as they stay, with a bag that is new.
    fn kept(&self, old: &ForceTravel, wanted: Length) -> ForceTravel {
        ForceTravel { helper: self.final_template(wanted).helper, ..old.clone() }
    }

    /// Where a load stands on a curve.
    pub fn stand(&self, curve: Option<&ForceTravel>, sprung: Option<Mass>) -> Option<Standing> {
        let (curve, sprung) = (curve?, sprung?);
        let load = self.load(sprung);
        let found = curve.ride_height(load).ok().filter(|f| f.wheel_rate.si() > 0.0)?;
        let length_m = self.spring_length.length(found.travel).si();
        let free = Length::from_si(curve.spring.free_length_m());
        Some(Standing {
            sprung,
            travel: found.travel,
            height_change: None,
            height_change_at_ground: None,
            wheel_rate: found.wheel_rate,
            frequency: ride::frequency(found.wheel_rate, sprung),
            frequency_with_tyre: self.tyre_rate.map(|t| ride::frequency(ride::in_series(found.wheel_rate, t), sprung)),
            static_deflection: ride::static_deflection(found.wheel_rate, sprung),
            spring_force: found.spring_force,
            spring_rate: SpringRate::from_si(curve.spring.rate_n_per_m(length_m)),
            stored: Energy::from_si(curve.spring.energy_j(length_m)),
            spring_length: (self.lengths_known && self.axle.spring.kind != SpringKind::TorsionBar)
                .then(|| Length::from_si(length_m)),
            stop_room: self.travel.stop.map(|gap| gap - found.travel),
            reserve: curve.reserve(load),
            old_damper_ratio: None,
            on_stop: found.on_stop,
            loose: found.loose,
            loose_at: self.spring_length.travel_at(free).filter(|_| curve.spring.can_be_loose()),
            curve: curve.clone(),
        })
    }

    /// Height changes against before, at the wheel and at the ground.
    fn heights(&self, before: &mut Option<Standing>, old: &mut Option<Standing>, new: &mut Option<Standing>) {
        let Some(from) = before.as_ref().map(|b| b.travel) else { return };
        let squash = |axle: Option<Mass>| Some(weight((axle? - self.axle_before?) / 2.0) / self.tyre_rate?);
        for (stand, axle) in [(before, self.axle_before), (old, self.axle_after), (new, self.axle_after)] {
            if let Some(stand) = stand {
                let rise = from - stand.travel;
                stand.height_change = Some(rise);
                stand.height_change_at_ground = squash(axle).map(|s| rise - s);
            }
        }
    }

    /// Where in the travel the spring binds and the damper ends.
    fn ends(&self, travel: &mut Travel, new: Option<&ForceTravel>) {
        let damper_at =
            |length: Option<Length>| self.damper_length?.travel_at(length.filter(|_| self.damper_lengths_known)?);
        let damper = &self.axle.damper;
        let solid = new.and_then(|c| c.spring.solid_length_m()).map(Length::from_si);
        travel.bind = solid.and_then(|solid| self.spring_length.travel_at(solid));
        travel.damper_closed = damper_at(self.reading.typed(&damper.closed_length));
        travel.damper_open = damper_at(self.reading.typed(&damper.open_length));
    }

    /// How much of the length between the seats is not the spring's own under this force.
    fn beside_own(&self, spring: &Spring, force_n: f64) -> Option<Length> {
        let taken = &self.axle.taken;
        let is_taken = self.axle.plan == Plan::NewSprings && self.reading.typed(&taken.rate).is_some();
        let spacer = if is_taken { self.reading.known(&taken.spacer)? } else { Length::from_si(0.0) };
        let helper_m = match spring {
            Spring::Stack(stack) => stack.helper_length_m(force_n),
            _ => 0.0,
        };
        Some(spacer + Length::from_si(helper_m))
    }

    fn room(&self, new: &Standing) -> Room {
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

/// The old dampers are inside the wanted range on the springs as they will be fitted; `None` when not known.
pub(super) fn dampers_suit(answer: &AxleAnswer) -> Option<bool> {
    let known = answer.old_damper.as_ref().is_some_and(|old| !old.is_assumed);
    let on_new = answer.standing.new.as_ref().and_then(|s| s.old_damper_ratio).filter(|_| known)?;
    let wanted = &answer.damping.as_ref()?.ratio;
    Some((wanted.low..=wanted.high).contains(&on_new))
}

/// The free length of what is ordered: of a stack, the main coil's.
pub(super) fn own_free_length(spring: &Spring) -> Length {
    Length::from_si(match spring {
        Spring::Stack(stack) => stack.main.free_length_m,
        other => other.free_length_m(),
    })
}
