//! One axle, from its weights to its dampers.

use super::answer::{AxleAnswer, Damping, ForceAtSpeed, PerState, Room, Sizing, Standing, Travel, Weighed};
use super::read::{Reader, ratio_is_blank};
use super::sizing;
use crate::damper::{self, BumpRebound, TEST_SPEEDS_M_PER_S};
use crate::job::{Axle, MeasuredAt, Plan, Side};
use crate::ride;
use crate::spring::{Coil, Spring};
use crate::units::{DampingRate, Entry, Force, Length, Mass, Quantity, Ratio, SpringRate, Velocity, weight};
use crate::weights;
use crate::wheel::{BumpStop, ForceTravel, LengthCurve};

/// What was read of one axle, blanks filled by defaults.
pub(super) struct Known<'a> {
    pub reader: &'a Reader<'a>,
    pub side: Side,
    pub axle: &'a Axle,
    pub axle_before: Option<Mass>,
    pub axle_after: Option<Mass>,
    pub sprung_before: Option<Mass>,
    pub sprung_after: Option<Mass>,
    pub unsprung: Option<Mass>,
    pub tyre_rate: Option<SpringRate>,
    pub travel: Travel,
    pub spring_length: LengthCurve,
    pub damper_length: LengthCurve,
    /// Lengths are real ones, not only differences.
    pub lengths_known: bool,
    /// The damper's motion ratio is known; without gas the spring does not need it.
    pub damper_known: bool,
    pub damper_lengths_known: bool,
    pub parallel_rate: SpringRate,
    pub parallel_neutral: Option<Length>,
    pub gas_force: Force,
    /// The lengths were taken at the height before the swap.
    pub reference_is_before: bool,
}

pub(super) fn solve(reader: &Reader<'_>, side: Side, before: &Weighed, after: &Weighed) -> AxleAnswer {
    let axle = reader.job.axle(side);
    let unsprung = reader.axle(side, "unsprung", &axle.unsprung);
    let unsprung_before = match axle.unsprung_before.text.trim() {
        "" => unsprung,
        _ => reader.typed("unsprung_before", &axle.unsprung_before),
    };
    let sprung = |whole: Option<Mass>, unsprung: Option<Mass>| weights::sprung_per_corner(whole?, unsprung?);
    let mut answer = AxleAnswer {
        side,
        plan: axle.plan,
        missing: missing(reader, side, after),
        sprung_before: sprung(before.axle(side), unsprung_before),
        sprung_after: sprung(after.axle(side), unsprung),
        motion_ratio: None,
        damper_motion_ratio: None,
        standing: PerState::default(),
        sizing: None,
        room: Room::default(),
        damping: None,
        old_free_length: None,
        rating_share: rating_share(reader, side, after),
        overloaded: false,
        travel: Travel {
            stop: reader.typed("travel.stop_gap", &axle.travel.stop_gap),
            metal: reader.typed("travel.metal", &axle.travel.metal),
            droop: reader.typed("travel.droop", &axle.travel.droop),
            ..Travel::default()
        },
    };
    answer.overloaded = answer.rating_share.is_some_and(|s| s.si() > 1.0);
    let tyre_rate = reader.axle(side, "tyre_rate", &axle.tyre_rate);
    if let Some(known) = Known::read(reader, side, &answer, before, after, unsprung, tyre_rate) {
        known.fill(&mut answer);
    }
    answer
}

fn rating_share(reader: &Reader<'_>, side: Side, after: &Weighed) -> Option<Ratio> {
    let rating: Mass = reader.typed("rating", &reader.job.axle(side).rating)?;
    Some(after.axle(side)? / rating)
}

/// What a first answer still needs, as paths.
fn missing(reader: &Reader<'_>, side: Side, after: &Weighed) -> Vec<String> {
    let (axle, key) = (reader.job.axle(side), side.key());
    let mut missing = Vec::new();
    if after.axle(side).is_none() {
        missing.push(match side {
            Side::Front => "after.lf".to_owned(),
            Side::Rear => "after.lr".to_owned(),
        });
    }
    if reader.length_curve("ratio", &axle.ratio).is_none() {
        missing.push(format!("{key}.ratio.{}", axle.ratio.by.first_field()));
    }
    if reader.typed("spring.rate", &axle.spring.rate).is_none() {
        missing.push(format!("{key}.spring.rate"));
    }
    missing
}

impl<'a> Known<'a> {
    fn read(
        reader: &'a Reader<'a>,
        side: Side,
        answer: &AxleAnswer,
        before: &Weighed,
        after: &Weighed,
        unsprung: Option<Mass>,
        tyre_rate: Option<SpringRate>,
    ) -> Option<Self> {
        let axle = reader.job.axle(side);
        let ratio = reader.length_curve("ratio", &axle.ratio)?;
        let fitted = reader.typed("spring.fitted_length", &axle.spring.fitted_length);
        let (spring_length, lengths_known) = with_length(ratio, &axle.ratio, fitted);
        let damper_ratio = if ratio_is_blank(&axle.damper_ratio) {
            let reason = "taken as the spring's: right for a damper beside or inside the spring";
            reader.note_default(format!("{}.damper_ratio", side.key()), "as the spring's", reason);
            Some(ratio)
        } else {
            reader.length_curve("damper_ratio", &axle.damper_ratio)
        };
        let fitted = reader.typed("damper.fitted_length", &axle.damper.fitted_length);
        let damper_known = damper_ratio.is_some();
        let (damper_length, damper_lengths_known) =
            with_length(damper_ratio.unwrap_or(ratio), &axle.damper_ratio, fitted);
        let gas = reader.axle(side, "damper.gas_pressure", &axle.damper.gas_pressure);
        let rod = reader.axle(side, "damper.rod_diameter", &axle.damper.rod_diameter);
        let gas_force = damper::gas_force(gas?, rod?);
        if !damper_known && gas_force.si() > 0.0 {
            return None; // The gas pushes through a ratio that is not known.
        }
        Some(Known {
            reader,
            side,
            axle,
            axle_before: before.axle(side),
            axle_after: after.axle(side),
            sprung_before: answer.sprung_before,
            sprung_after: answer.sprung_after,
            unsprung,
            tyre_rate,
            travel: answer.travel,
            spring_length,
            damper_length,
            lengths_known,
            damper_known,
            damper_lengths_known: damper_lengths_known && damper_known,
            parallel_rate: reader.axle(side, "parallel.rate", &axle.parallel.rate)?,
            parallel_neutral: match axle.parallel.neutral.text.trim() {
                "" => None,
                _ => Some(reader.typed("parallel.neutral", &axle.parallel.neutral)?),
            },
            gas_force,
            reference_is_before: reader.job.measured_at == MeasuredAt::Before && answer.sprung_before.is_some(),
        })
    }

    fn fill(mut self, answer: &mut AxleAnswer) {
        let reference = Length::from_si(0.0);
        answer.motion_ratio = Some(self.spring_length.ratio(reference));
        answer.damper_motion_ratio = self.damper_known.then(|| self.damper_length.ratio(reference));
        let old = self.old_spring();
        if let Some(Spring::Coil(coil)) = old.map(|c| c.spring)
            && self.lengths_known
        {
            answer.old_free_length = Some(Length::from_si(coil.free_length_m));
        }
        let before = self.stand(old, self.sprung_before);
        let on_old = self.stand(old, self.sprung_after);
        answer.sizing = sizing::size(&self, before.as_ref(), on_old.as_ref(), old.as_ref(), answer.overloaded);
        let on_new = match (self.axle.plan, answer.sizing.as_ref()) {
            (Plan::Keep, _) => on_old,
            (Plan::NewSprings, Some(sizing)) => self.stand(Some(self.new_spring(sizing)), self.sprung_after),
            (Plan::NewSprings, None) => None,
        };
        let mut standing = PerState { before, old: on_old, new: on_new };
        if let Some(before) = standing.before {
            let squash = |axle: Option<Mass>| Some(weight((axle? - self.axle_before?) / 2.0) / self.tyre_rate?);
            for (stand, axle) in [
                (&mut standing.before, self.axle_before),
                (&mut standing.old, self.axle_after),
                (&mut standing.new, self.axle_after),
            ] {
                if let Some(stand) = stand {
                    let rise = before.travel - stand.travel;
                    stand.height_change = Some(rise);
                    stand.height_change_at_ground = squash(axle).map(|s| rise - s);
                }
            }
        }
        let old_damper = self.old_damper_at_wheel(standing.before.as_ref());
        for stand in [&mut standing.before, &mut standing.old, &mut standing.new].into_iter().flatten() {
            stand.old_damper_ratio = old_damper.map(|c| damper::damping_ratio(c, stand.wheel_rate, stand.sprung));
        }
        self.ends(&mut answer.travel);
        if let Some(new) = &standing.new {
            answer.room = self.room(new);
            answer.damping = self.damping(new, standing.before.as_ref(), old_damper);
        }
        answer.standing = standing;
    }

    /// A curve without a spring, for the rubber neutral at `neutral` unless one was typed.
    pub fn template(&self, neutral: Length) -> ForceTravel {
        ForceTravel {
            spring: Spring::Coil(Coil { rate_n_per_m: 0.0, free_length_m: 0.0, solid_length_m: None }),
            spring_length: self.spring_length,
            parallel_rate_n_per_m: self.parallel_rate.si(),
            parallel_neutral_m: self.parallel_neutral.unwrap_or(neutral).si(),
            gas_force_n: self.gas_force.si(),
            damper_length: self.damper_length,
            stop: self.travel.stop.map(|gap| BumpStop { gap_m: gap.si(), rate_n_per_m: None }),
        }
    }

    /// The old spring's curve, its preload taken from the load at the reference height.
    fn old_spring(&mut self) -> Option<ForceTravel> {
        let rate = self.reader.typed("spring.rate", &self.axle.spring.rate)?;
        let reference = Length::from_si(0.0);
        let load = weight(if self.reference_is_before { self.sprung_before? } else { self.sprung_after? });
        let mut curve = self.template(reference);
        let compressed = curve.spring_force_for(load, reference) / rate;
        if !self.lengths_known
            && let Some(free) = self.reader.typed("spring.free_length", &self.axle.spring.free_length)
        {
            self.spring_length = self.spring_length.with_length_at_reference(free - compressed);
            self.lengths_known = true;
            curve.spring_length = self.spring_length;
        }
        let free = curve.spring_length.length(reference) + compressed;
        curve.spring = Spring::Coil(Coil::by_rate(rate, free, self.solid_length()));
        Some(curve)
    }

    /// Solid length of the spring to be fitted: its own, or the old one's.
    fn new_solid_length(&self) -> Option<Length> {
        let own = self.reader.typed("stock.solid_length", &self.axle.stock.solid_length);
        own.filter(|_| self.lengths_known && self.axle.plan == Plan::NewSprings).or_else(|| self.solid_length())
    }

    fn solid_length(&self) -> Option<Length> {
        let solid = self.reader.typed("spring.solid_length", &self.axle.spring.solid_length);
        solid.filter(|_| self.lengths_known)
    }

    fn new_spring(&self, sizing: &Sizing) -> ForceTravel {
        let mut curve = self.template(sizing.wanted_travel);
        let free = curve.spring_length.length(sizing.wanted_travel) + sizing.spring_force / sizing.pick;
        curve.spring = Spring::Coil(Coil::by_rate(sizing.pick, free, self.new_solid_length()));
        curve
    }

    /// Where a load stands on a curve.
    fn stand(&self, curve: Option<ForceTravel>, sprung: Option<Mass>) -> Option<Standing> {
        let (curve, sprung) = (curve?, sprung?);
        let load = weight(sprung);
        let found = curve.ride_height(load).ok().filter(|f| f.wheel_rate.si() > 0.0)?;
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
            spring_length: self.lengths_known.then(|| self.spring_length.length(found.travel)),
            stop_room: self.travel.stop.map(|gap| gap - found.travel),
            reserve: curve.reserve(load),
            old_damper_ratio: None,
            on_stop: found.on_stop,
            loose: found.loose,
            loose_at: self.spring_length.travel_at(Length::from_si(curve.spring.free_length_m())),
            curve,
        })
    }

    /// Where in the travel the spring binds and the damper ends.
    fn ends(&self, travel: &mut Travel) {
        let damper = &self.axle.damper;
        let damper_at = |key: &str, entry: &Entry<Length>| {
            let length = self.reader.typed(key, entry).filter(|_| self.damper_lengths_known)?;
            self.damper_length.travel_at(length)
        };
        travel.bind = self.new_solid_length().and_then(|solid| self.spring_length.travel_at(solid));
        travel.damper_closed = damper_at("damper.closed_length", &damper.closed_length);
        travel.damper_open = damper_at("damper.open_length", &damper.open_length);
    }

    fn room(&self, new: &Standing) -> Room {
        let metal = self.travel.metal;
        let droop = self.travel.droop.map(|d| -d);
        let spring_at = |z: Option<Length>| z.filter(|_| self.lengths_known).map(|z| self.spring_length.length(z));
        let damper_at =
            |z: Option<Length>| z.filter(|_| self.damper_lengths_known).map(|z| self.damper_length.length(z));
        let free = Length::from_si(new.curve.spring.free_length_m());
        let damper = &self.axle.damper;
        let closed = self.reader.typed("damper.closed_length", &damper.closed_length);
        let open = self.reader.typed("damper.open_length", &damper.open_length);
        Room {
            spring_at_metal: spring_at(metal),
            spring_at_droop: spring_at(droop),
            force_at_metal: metal.map(|z| Force::from_si(new.curve.spring.force_n(self.spring_length.length(z).si()))),
            to_bind: spring_at(metal).zip(self.new_solid_length()).map(|(length, solid)| length - solid),
            seat: droop.map(|z| free - self.spring_length.length(z)),
            damper_bump: damper_at(metal).zip(closed).map(|(length, closed)| length - closed),
            damper_droop: damper_at(droop).zip(open).map(|(length, open)| open - length),
        }
    }

    /// The old damper's mean rate at the wheel: measured, or from its damping ratio before the swap.
    fn old_damper_at_wheel(&self, before: Option<&Standing>) -> Option<DampingRate> {
        let damper = &self.axle.damper;
        let bump = self.reader.typed("damper.bump_rate", &damper.bump_rate);
        let rebound = self.reader.typed("damper.rebound_rate", &damper.rebound_rate);
        if let (Some(bump), Some(rebound)) = (bump, rebound) {
            if !self.damper_known {
                return None;
            }
            let ratio = self.damper_length.ratio(Length::from_si(0.0));
            return Some(damper::wheel_from_damper(BumpRebound { bump, rebound }.mean(), ratio));
        }
        let before = before?;
        let ratio = self.reader.axle(self.side, "damper.ratio_before", &damper.ratio_before)?;
        Some(damper::rate_for(ratio, before.wheel_rate, before.sprung))
    }

    fn damping(&self, new: &Standing, before: Option<&Standing>, old: Option<DampingRate>) -> Option<Damping> {
        if !self.damper_known {
            return None;
        }
        let target = &self.axle.target;
        let low = self.reader.axle(self.side, "target.damping_low", &target.damping_low)?;
        let high = self.reader.axle(self.side, "target.damping_high", &target.damping_high)?;
        let rebound_over_bump = self.reader.axle(self.side, "target.rebound_over_bump", &target.rebound_over_bump)?;
        let ratio = sizing::band(low, high, (low + high) / 2.0)?;
        let at_wheel = ratio.map(|z| damper::rate_for(z, new.wheel_rate, new.sprung));
        let damper_ratio = self.damper_length.ratio(new.travel);
        let at_damper = at_wheel.map(|c| damper::damper_from_wheel(c, damper_ratio));
        let pairs = at_damper.map(|c| BumpRebound::split(c, rebound_over_bump));
        let forces = TEST_SPEEDS_M_PER_S.map(|speed| {
            let speed = Velocity::from_si(speed);
            let both = pairs.map(|p| p.forces(speed));
            ForceAtSpeed { speed, bump: both.map(|f| f.0), rebound: both.map(|f| f.1) }
        });
        let critical = |s: &Standing| damper::rate_for(Ratio::from_si(1.0), s.wheel_rate, s.sprung);
        Some(Damping {
            ratio,
            at_wheel,
            at_damper,
            split: pairs.aim,
            forces: forces.to_vec(),
            old_at_wheel: old,
            scale: before.map(|b| critical(new) / critical(b)),
            hop_frequency: self
                .tyre_rate
                .zip(self.unsprung.filter(|u| u.si() > 0.0))
                .map(|(tyre, unsprung)| ride::hop_frequency(new.wheel_rate, tyre, unsprung)),
        })
    }
}

/// Puts the real length at the reference into a curve, if it is known: typed, or from the rows.
fn with_length(curve: LengthCurve, ratio: &crate::job::MotionRatio, fitted: Option<Length>) -> (LengthCurve, bool) {
    match fitted {
        Some(length) => (curve.with_length_at_reference(length), true),
        None => (curve, ratio.by == crate::job::RatioBy::Rows && !ratio_is_blank(ratio)),
    }
}
