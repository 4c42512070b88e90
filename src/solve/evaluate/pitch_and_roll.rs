//! The whole vehicle: pitch, braking, roll. Everything rests on what the axles' answers say.

use crate::base::units::{DampingRate, Force, G_M_PER_S2, Length, Mass, Quantity, Ratio, SpringRate, TwistRate};
use crate::job::read::{Axle, Read};
use crate::job::{AxleKind, PerAxle, Side};
use crate::solve::answer::{
    AxleAnswer, BeforeAfter, Centre, Compared, Dive, Measured, PerState, Pitch, Roll, Standing, State, Weighed, Whole,
};
use crate::solve::evaluate::equal_load;
use crate::solve::evaluate::on_road;
use crate::solve::read::Reading;
use crate::trade::damper;
use crate::trade::ledger::{self, AxleLift, AxleLiftSpread, RollPath};
use crate::trade::pitch::{self, Swing, TwoAxles};
use crate::trade::roll::{self, AntiRollBar, AxleInRoll, Body};

/// What the whole vehicle rests on.
#[derive(Clone, Copy)]
pub(in crate::solve) struct RestsOn<'a> {
    pub axles: PerAxle<&'a AxleAnswer>,
    pub before: &'a Weighed,
    pub after: &'a Weighed,
    pub compared: &'a Compared,
}

impl<'a> RestsOn<'a> {
    fn of(&self, state: State) -> Option<PerAxle<&'a Standing>> {
        self.axles.map(|axle| axle.standing.of(state).as_ref()).known()
    }
}

/// Which anti-roll bars count.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(in crate::solve) enum Bars {
    /// Those of a state: with the new springs, the new ones that are planned.
    Of(State),
    /// None: their links are free on the scales, and while seats are moved.
    Free,
}

/// What was read for the whole vehicle.
pub(in crate::solve) struct Vehicle<'a> {
    pub reading: &'a Reading<'a>,
    pub on: RestsOn<'a>,
    pub wheelbase: Length,
    /// The springs considered where one state covers all.
    pub fitted: State,
    pub height: Option<Measured>,
}

/// Pitch, braking, roll, corners; without a wheelbase there is nothing to say.
pub(in crate::solve) fn evaluate(reading: &Reading<'_>, on: RestsOn<'_>, fitted: State) -> Whole {
    let road = on_road::states(reading, on.axles);
    let mut whole = Whole { road, drives: on_road::drives(reading), ..Whole::default() };
    if let Some(vehicle) = Vehicle::read(reading, on, fitted) {
        vehicle.fill(&mut whole);
    }
    whole
}

/// How the axles pass roll to the ground on the springs as they will be fitted.
pub(in crate::solve) fn roll_paths(reading: &Reading<'_>, on: RestsOn<'_>, fitted: State) -> Option<PerAxle<RollPath>> {
    Vehicle::read(reading, on, fitted)?.paths(fitted, Bars::Of(fitted))
}

/// Height of the centre of gravity: typed, or from the weighing with one axle raised.
fn height(reading: &Reading<'_>, after: &Weighed, wheelbase: Length) -> Option<Measured> {
    let chassis = &reading.job.chassis;
    if let Some(typed) = reading.measured(&chassis.cg_height) {
        return Some(typed);
    }
    let (level, lifted) = (reading.measured(&chassis.lift.level)?, reading.measured(&chassis.lift.lifted)?);
    let (rise, hub) = (reading.measured(&chassis.lift.rise)?, reading.measured(&chassis.lift.hub_height)?);
    let (m, kg) = (Length::from_si, Mass::from_si);
    let lift = AxleLift {
        total: after.total?,
        wheelbase,
        hub_height: m(hub.value),
        rise: m(rise.value),
        level: kg(level.value),
        lifted: kg(lifted.value),
    };
    let [front_u, rear_u] = equal_load::axle_u(reading, &reading.job.after);
    let spread = AxleLiftSpread {
        reading: kg(level.u.max(lifted.u)),
        total: kg(front_u.hypot(rear_u)),
        wheelbase: m(reading.measured(&reading.job.vehicle.wheelbase)?.u),
        hub_height: m(hub.u),
        rise: m(rise.u),
    };
    let height = lift.height().filter(|h| h.si() > 0.0)?;
    Some(Measured { value: height.si(), u: lift.height_spread(&spread)?.si() })
}

impl<'a> Vehicle<'a> {
    pub fn read(reading: &'a Reading<'a>, on: RestsOn<'a>, fitted: State) -> Option<Self> {
        let wheelbase = reading.typed(&reading.job.vehicle.wheelbase)?;
        Some(Vehicle { reading, on, wheelbase, fitted, height: height(reading, on.after, wheelbase) })
    }

    /// All that a ± of a field can move.
    fn fill(&self, whole: &mut Whole) {
        let reading = self.reading;
        whole.wheelbase = Some(self.wheelbase);
        whole.track = PerAxle::each(|side| self.track(side));
        whole.centre = self.centre();
        whole.pitch = PerState::each(|s| self.pitch(s));
        whole.nose_up = PerState::each(|s| self.nose_up(s));
        whole.lamp_distance = reading.known(&reading.job.vehicle.lamp_distance);
        whole.beam = PerState::each(|s| Some(pitch::beam_shift(whole.lamp_distance?, (*whole.nose_up.of(s))?)));
        whole.dive = PerState::each(|s| self.dive(s));
        whole.roll = PerState::each(|s| self.roll(s, Bars::Of(s)));
        let changes = |side: Side| {
            let [old, new] = [State::OldSprings, State::NewSprings].map(|s| self.bar(side, Bars::Of(s)));
            old != new
        };
        if Side::BOTH.into_iter().any(changes) {
            whole.old_bars = self.roll(State::NewSprings, Bars::Of(State::OldSprings));
        }
        whole.bars = self.wanted_bars(&whole.roll);
        whole.level = BeforeAfter { before: self.on_level_pads(true), after: self.on_level_pads(false) };
        self.fill_corners(whole);
    }

    pub fn of(&self, state: State) -> Option<PerAxle<&'a Standing>> {
        self.on.of(state)
    }

    /// Only a track that was measured: roll goes with its square.
    pub(super) fn track(&self, side: Side) -> Option<Length> {
        self.reading.typed(&self.reading.job.axle(side).track)
    }

    /// Height of the roll centre: as typed, else from the linkage at the axle's equilibrium, else the default.
    fn roll_centre(&self, state: State, side: Side) -> Option<Length> {
        let typed = &self.reading.job.axle(side).roll_centre;
        let by_linkage = || self.on.axles[side].linkage.roll_centre(state);
        match typed.is_blank().then(by_linkage).flatten() {
            Some(height) => Some(height),
            None => self.reading.known(typed),
        }
    }

    /// Unsprung mass of one axle: what was weighed less what is sprung.
    fn unsprung(&self, state: State, side: Side, stands: &Standing) -> Option<Mass> {
        let whole = self.on.compared.weighed.of(state).axle(side)?;
        Some(whole - stands.sprung * 2.0)
    }

    fn centre(&self) -> Option<Centre> {
        let after = self.on.after;
        let behind_front = self.wheelbase * (after.rear? / after.total?).si();
        let tracks = [self.track(Side::Front), self.track(Side::Rear)];
        let plan = || ledger::centre_of_gravity(after.corners.as_ref()?, self.wheelbase, [tracks[0]?, tracks[1]?]);
        Some(Centre { behind_front, right: plan().map(|p| p.right), height: self.height })
    }

    fn pitch(&self, state: State) -> Option<Pitch> {
        let stands = self.of(state)?;
        let PerAxle { front, rear } = stands.map(|s| s.sprung * 2.0);
        let sprung = front + rear;
        let a = self.wheelbase * (rear / sprung).si();
        let b = self.wheelbase - a;
        let typed: Option<Length> = self.reading.typed(&self.reading.job.chassis.pitch_radius);
        let radius_squared_m2 = typed.map_or(a.si() * b.si(), |r| r.si().powi(2));
        let PerAxle { front: front_rate, rear: rear_rate } = stands.map(|s| s.wheel_rate * 2.0);
        let modes = TwoAxles { sprung, front_rate, rear_rate, a, b, radius_squared_m2 }.modes();
        let end = |side: Side| {
            let axle = self.on.axles[side];
            let stands = stands[side];
            let is_new = state == State::NewSprings && axle.new_dampers;
            let new = axle.damping.as_ref().filter(|_| is_new).map(|d| d.ratio.aim);
            let damping_ratio = new.or(stands.old_damper_ratio)?;
            Some(Swing { frequency: stands.frequency, damping_ratio })
        };
        let ends = PerAxle::each(end).known();
        let radius = Length::from_si(radius_squared_m2.max(0.0).sqrt());
        Some(Pitch { a, b, radius, assumed: typed.is_none(), modes, ends })
    }

    fn nose_up(&self, state: State) -> Option<crate::base::units::Angle> {
        let PerAxle { front, rear } = self.of(state)?;
        Some(pitch::nose_up(front.height_change_at_ground?, rear.height_change_at_ground?, self.wheelbase))
    }

    fn dive(&self, state: State) -> Option<Dive> {
        let front = self.of(state)?.front;
        let chassis = &self.reading.job.chassis;
        let whole = self.on.compared.weighed.of(state).total?;
        let height = Length::from_si(self.height?.value);
        let (braking, anti_dive) = (self.reading.known(&chassis.braking)?, self.reading.known(&chassis.anti_dive)?);
        let front_dives = pitch::braking_dive(whole, height, self.wheelbase, braking, anti_dive, front.wheel_rate);
        Some(Dive { anti_dive, front: front_dives, room_left: front.stop_room.map(|room| room - front_dives) })
    }

    /// How one axle passes roll to the ground.
    fn path(&self, side: Side, stands: &Standing, bars: Bars) -> Option<RollPath> {
        let data = self.reading.job.axle(side);
        let track = self.track(side)?;
        let springs = match data.kind {
            AxleKind::Independent => roll::independent(stands.wheel_rate, track),
            AxleKind::Beam => self.beam(data, stands, track)?,
        };
        let bar = self.bar(side, bars).map_or(TwistRate::from_si(0.0), |bar| bar.roll_stiffness(track));
        let tyre: SpringRate = self.reading.known(&data.tyre_rate)?;
        Some(RollPath { springs, bar, tyres: roll::independent(tyre, track), track })
    }

    /// Roll stiffness of a beam axle without its bar: spring, bag, gas and stop each on its own base, rubber on the
    /// track, and what twists with the axle. `None` without the springs' base.
    fn beam(&self, data: &Axle, stands: &Standing, track: Length) -> Option<TwistRate> {
        let springs: Length = self.reading.typed(&data.spring_base)?;
        let base = |entry: &Read<Length>| self.reading.typed(entry).unwrap_or(springs);
        let rates = stands.curve.rate_parts(stands.travel.si());
        let parts = [
            (rates.spring, springs),
            (rates.bag, base(&data.bag.base)),
            (rates.gas, base(&data.damper_base)),
            (rates.stop, base(&data.stop.base)),
            (rates.rubber, track),
        ];
        let twist = self.reading.typed(&data.twist).unwrap_or(TwistRate::from_si(0.0));
        let on_bases = roll::beam(&parts.map(|(rate, base)| (SpringRate::from_si(rate), base)));
        Some(roll::together(&[on_bases, twist]))
    }

    pub fn paths(&self, state: State, bars: Bars) -> Option<PerAxle<RollPath>> {
        let stands = self.of(state)?;
        PerAxle::each(|side| self.path(side, stands[side], bars)).known()
    }

    fn roll(&self, state: State, bars: Bars) -> Option<Roll> {
        let paths = self.paths(state, bars)?;
        let stands = self.of(state)?;
        let own = paths.map(|p| roll::together(&[p.springs, p.bar]));
        let sprung = (stands.front.sprung + stands.rear.sprung) * 2.0;
        let body = self.body(state, stands);
        let gradient = body.and_then(|b| roll::gradient_rad_s2_per_m(b, roll::together(&own.both())));
        let to_ground = paths.map(|p| p.to_ground());
        let grounded = roll::together(&to_ground.both());
        let on_tyres = body.and_then(|b| roll::gradient_rad_s2_per_m(b, grounded));
        let weighed = &self.on.compared.weighed.of(state);
        let old_damper = |axle: &AxleAnswer| stands[axle.side].old_damper_at_wheel;
        let fitted_damper = |axle: &AxleAnswer| axle.damper_at_wheel(State::NewSprings);
        Some(Roll {
            springs: paths.map(|p| p.springs),
            bars: paths.map(|p| p.bar),
            tyres: paths.map(|p| p.tyres),
            to_ground,
            body,
            front_share_on_tyres: roll::front_share(to_ground.front, to_ground.rear),
            front_share: roll::front_share(own.front, own.rear),
            gradient_rad_s2_per_m: gradient,
            on_tyres_rad_s2_per_m: on_tyres,
            old_damping: self.roll_damping(own, sprung, old_damper),
            new_damping: self.roll_damping(own, sprung, fitted_damper).filter(|_| state == State::NewSprings),
            transfer: self.transfer(state, own, gradient),
            transfer_on_tyres: self.transfer(state, to_ground, on_tyres),
            weighs: PerAxle::each(|side| weighed.axle(side)).known(),
            fitted: PerAxle::each(|side| self.bar(side, bars)),
            tracks: paths.map(|p| p.track),
            lean: self.reading.known(&self.reading.job.chassis.roll.lean),
        })
    }

    /// What the outer wheel of each axle gains in the bend considered, with these roll stiffnesses and the gradient that
    /// they give.
    fn transfer(&self, state: State, stiffness: PerAxle<TwistRate>, gradient: Option<f64>) -> Option<PerAxle<Force>> {
        let cornering: Ratio = self.reading.known(&self.reading.job.chassis.cornering)?;
        let of = |side: Side| {
            let gains_kg = self.in_roll(state, side, stiffness[side])?.transfer_kg(gradient?);
            Some(Force::from_si(gains_kg * cornering.si() * G_M_PER_S2))
        };
        PerAxle::each(of).known()
    }

    /// What one axle needs for its load transfer, with this roll stiffness.
    pub(super) fn in_roll(&self, state: State, side: Side, stiffness: TwistRate) -> Option<AxleInRoll> {
        let stands = self.of(state)?[side];
        Some(AxleInRoll {
            stiffness,
            sprung: stands.sprung * 2.0,
            roll_centre: self.roll_centre(state, side)?,
            unsprung: self.unsprung(state, side, stands)?,
            unsprung_height: self.reading.known(&self.reading.job.axle(side).unsprung_height)?,
            track: self.track(side)?,
        })
    }

    /// Damping ratio in roll, the dampers of a beam axle on their own base, else on that of its springs.
    fn roll_damping(
        &self,
        stiffness: PerAxle<TwistRate>,
        sprung: Mass,
        at_wheel: impl Fn(&AxleAnswer) -> Option<DampingRate>,
    ) -> Option<Ratio> {
        let radius: Length = self.reading.typed(&self.reading.job.chassis.roll_radius)?;
        let mut rate_n_m_s = 0.0;
        for side in Side::BOTH {
            let data = self.reading.job.axle(side);
            let base = match data.kind {
                AxleKind::Independent => self.track(side)?,
                AxleKind::Beam => {
                    self.reading.typed(&data.damper_base).or_else(|| self.reading.typed(&data.spring_base))?
                }
            };
            rate_n_m_s += damper::roll_rate(at_wheel(self.on.axles[side])?, base);
        }
        // Without stiffness of its own the body does not swing in roll.
        Some(damper::roll_ratio(rate_n_m_s, roll::together(&stiffness.both()), sprung, radius))
            .filter(|ratio| ratio.si().is_finite())
    }

    /// The sprung body over the axis through both roll centres; `None` without the height of the centre of gravity.
    pub(super) fn body(&self, state: State, stands: PerAxle<&Standing>) -> Option<Body> {
        let height_m = self.height?.value;
        let sprung_kg = 2.0 * (stands.front.sprung + stands.rear.sprung).si();
        let (mut moment_kg_m, mut axis_kg_m) = (0.0, 0.0);
        for side in Side::BOTH {
            let data = self.reading.job.axle(side);
            let stands = stands[side];
            let own_height: Length = self.reading.known(&data.unsprung_height)?;
            let centre = self.roll_centre(state, side)?;
            let unsprung_kg = self.unsprung(state, side, stands)?.si();
            moment_kg_m += (2.0 * stands.sprung.si() + unsprung_kg) * height_m - unsprung_kg * own_height.si();
            axis_kg_m += 2.0 * stands.sprung.si() * centre.si();
        }
        let above_axis = Length::from_si((moment_kg_m - axis_kg_m) / sprung_kg);
        Some(Body { sprung: Mass::from_si(sprung_kg), above_axis })
    }

    /// The anti-roll bar of an axle; `None` without its sizes.
    pub(super) fn bar(&self, side: Side, bars: Bars) -> Option<AntiRollBar> {
        let (reading, data) = (self.reading, &self.reading.job.axle(side).roll_bar);
        let old = || reading.typed::<Length>(&data.diameter);
        let diameter = match bars {
            Bars::Of(State::NewSprings) => reading.typed(&data.new_diameter).or_else(old)?,
            Bars::Of(State::Before | State::OldSprings) => old()?,
            Bars::Free => return None,
        };
        let bar = AntiRollBar { diameter_m: diameter.si(), ..self.bar_sizes(side)? };
        // A bore as wide as the bar leaves no bar; a finding says so.
        (bar.inside_m < bar.diameter_m).then_some(bar)
    }

    /// What a bar of this axle is besides its diameter.
    pub(super) fn bar_sizes(&self, side: Side) -> Option<AntiRollBar> {
        let (reading, data) = (self.reading, &self.reading.job.axle(side).roll_bar);
        Some(AntiRollBar {
            diameter_m: 0.0,
            inside_m: reading.known::<Length>(&data.inside_diameter)?.si(),
            length_m: reading.typed(&data.length)?.si(),
            blade_m: reading.typed(&data.blade)?.si(),
            link_ratio: reading.known(&data.ratio)?.si(),
            shear_modulus_pa: reading.known(&data.shear_modulus)?.si(),
        })
    }
}
