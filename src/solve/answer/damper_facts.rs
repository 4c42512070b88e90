//! Dampers of one axle: the old one, the one needed, a candidate.

use super::{Answer, AxleAnswer, Band, State};
use crate::base::units::{DampingRate, Force, Frequency, Length, Quantity, Ratio, Velocity};
use crate::job::Side;
use crate::trade::damper::{self, BumpRebound, Clicks, Curve, Fit};
use crate::trade::wheel::ForceTravel;

/// Damper forces at one speed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ForceAtSpeed {
    /// Speed at the damper.
    pub speed: Velocity,
    /// Bump force.
    pub bump: Band<Force>,
    /// Rebound force.
    pub rebound: Band<Force>,
}

/// What the old damper is known by.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum OldDamperBy {
    /// Its curve, by equal work at the peak speed.
    Curve,
    /// A rate in bump and one in rebound.
    Rates,
    /// The damping ratio it gave before the change.
    RatioBefore,
}

/// The old damper.
#[derive(Debug, Clone, PartialEq)]
pub struct OldDamper {
    /// How it is known.
    pub by: OldDamperBy,
    /// Mean rate at the damper: the same wherever the wheel is.
    pub at_damper: DampingRate,
    /// Rates at the damper; `None` when only its damping ratio is known.
    pub rates: Option<BumpRebound>,
    /// Its curve.
    pub curve: Option<Curve>,
    /// Nothing is stated about it: its damping ratio is the default of a blank field.
    pub is_assumed: bool,
}

/// What an axle asks of its dampers on the springs that will be fitted: the engineer's numbers, no part.
#[derive(Debug, Clone, PartialEq)]
pub struct Damping {
    /// Wanted damping ratio.
    pub ratio: Band<Ratio>,
    /// Mean rate at the wheel.
    pub at_wheel: Band<DampingRate>,
    /// Peak speed at the damper at which a curve counts as one rate.
    pub peak_speed: Velocity,
    /// What a force loses when the damper is hot; `None` when it cannot be used.
    pub hot_loss: Option<Ratio>,
    /// What is left of it.
    pub hot_share: Option<Ratio>,
    /// The old damper's mean rate at the wheel, where the springs that will be fitted stand.
    pub old_at_wheel: Option<DampingRate>,
    /// How many times stiffer the damper must get to keep its damping ratio.
    pub scale: Option<Ratio>,
    /// Wheel hop on suspension and tyre.
    pub hop_frequency: Option<Frequency>,
    /// Damping ratio of wheel hop with the aim.
    pub hop_ratio: Option<Ratio>,
    /// Damping ratio of wheel hop with the old damper.
    pub old_hop_ratio: Option<Ratio>,
    /// Least travel that a damper must have left at both ends.
    pub least_room: Option<Length>,
    /// Push of the gas along the damper; `None` without gas.
    pub gas_force: Option<Force>,
    /// How far the gas lifts the body, at the wheel.
    pub gas_lift: Option<Length>,
}

impl OldDamper {
    /// Mean rate at the wheel where it is at a travel: c_w = c_d r_d². Source `DERIVED`.
    pub fn at_wheel(&self, curve: &ForceTravel, travel: Length) -> DampingRate {
        damper::wheel_from_damper(self.at_damper, curve.damper_length.ratio(travel))
    }
}

/// How the old dampers do on the springs as they will be fitted, held against what is wanted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum OldDampers {
    /// Not known, and what is missing.
    Open(DampersOpen),
    /// Inside; whether a limit is within the ±.
    Suit {
        /// A limit is within the ±.
        is_near: bool,
    },
    /// Below by less than the ±, or surely.
    Soft {
        /// By more than the ±.
        is_sure: bool,
    },
    /// Above by less than the ±, or surely.
    Stiff {
        /// By more than the ±.
        is_sure: bool,
    },
}

/// What is missing to judge the old dampers.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum DampersOpen {
    /// The springs that will be fitted.
    Springs,
    /// The motion ratio of the dampers.
    MotionRatio,
    /// Anything of the dampers themselves that can be used.
    Damper,
    /// The axle before the change: its weight or its spring.
    Before,
    /// A wanted range that can be used.
    Target,
}

impl Answer {
    /// How the old dampers of an axle do on the springs as they will be fitted.
    pub fn old_dampers(&self, side: Side) -> OldDampers {
        let axle = self.axle(side);
        let (below, above) = match axle.dampers_open() {
            Some(open) => return OldDampers::Open(open),
            None => (axle.below_wanted(), axle.above_wanted()),
        };
        let Some((below, above)) = below.zip(above) else { return OldDampers::Open(DampersOpen::Target) };
        let is_low = below > above;
        let off = below.max(above);
        let u = self.checked(side).u_of(if is_low { AxleAnswer::below_wanted } else { AxleAnswer::above_wanted });
        let is_sure = off.abs() >= u.unwrap_or(0.0);
        match (off > 0.0, is_low) {
            (false, _) => OldDampers::Suit { is_near: !is_sure },
            (true, true) => OldDampers::Soft { is_sure },
            (true, false) => OldDampers::Stiff { is_sure },
        }
    }
}

impl AxleAnswer {
    /// What is missing to judge the old dampers; `None` when nothing is.
    pub fn dampers_open(&self) -> Option<DampersOpen> {
        let has_before = self.standing.before.is_some();
        match &self.old_damper {
            _ if self.standing.new.is_none() => Some(DampersOpen::Springs),
            _ if self.damper_motion_ratio.is_none() => Some(DampersOpen::MotionRatio),
            None if !has_before && self.ratio_before_stated => Some(DampersOpen::Before),
            None => Some(DampersOpen::Damper),
            // A ratio that nobody typed says nothing about these dampers.
            Some(old) if old.is_assumed => Some(DampersOpen::Damper),
            Some(_) if self.damping.is_some() => None,
            Some(_) if !has_before => Some(DampersOpen::Before),
            Some(_) => Some(DampersOpen::Target),
        }
    }

    fn below_wanted(&self) -> Option<f64> {
        Some(self.damping.as_ref()?.ratio.low.si() - self.standing.new.as_ref()?.old_damper_ratio?.si())
    }

    fn above_wanted(&self) -> Option<f64> {
        Some(self.standing.new.as_ref()?.old_damper_ratio?.si() - self.damping.as_ref()?.ratio.high.si())
    }

    /// New dampers are fitted in a state.
    pub fn has_new_dampers(&self, state: State) -> bool {
        state == State::NewSprings && self.new_dampers
    }

    /// The damper's rate at a peak speed of the wheel over its rate at the job's peak speed, both by equal work: by the
    /// old one's curve, by the two slopes wanted of a new one; 1 for straight lines. `None` when the speeds are not known.
    /// Source `DIX` ch. 5.
    pub fn rate_at(&self, state: State, wheel_speed: Velocity) -> Option<Ratio> {
        let curve = match self.has_new_dampers(state) {
            true => self.parts.damper.as_ref()?.two_slope.map(|two| two.aim.curve()),
            false => self.old_damper.as_ref()?.curve.clone(),
        };
        let Some(curve) = curve else { return Some(Ratio::from_si(1.0)) };
        let standing = self.standing.of(state).as_ref()?;
        let at_damper = wheel_speed * standing.curve.damper_length.ratio(standing.travel).si().abs();
        let rate = |speed: Velocity| curve.equal_work(speed).mean();
        let share = rate(at_damper) / rate(self.damping.as_ref()?.peak_speed);
        Some(share).filter(|s| s.si().is_finite() && s.si() > 0.0)
    }
}

impl Damping {
    /// A damping ratio with a hot damper.
    pub fn hot(&self, ratio: Ratio) -> Option<Ratio> {
        Some(ratio * self.hot_share?)
    }
}

/// A candidate damper, on the springs that will be fitted.
#[derive(Debug, Clone, PartialEq)]
pub struct OfferedDamper {
    /// Its curves, click by click.
    pub clicks: Clicks,
    /// Damping ratio at each click.
    pub ratios: Vec<Ratio>,
    /// The click that comes nearest the aim, and those inside the range.
    pub fit: Fit,
    /// Rates at the damper at that click.
    pub rates: BumpRebound,
    /// Damping ratio of wheel hop at that click.
    pub hop_ratio: Option<Ratio>,
    /// Length at metal less its closed length.
    pub to_closed: Option<Length>,
    /// Its open length less the length at droop.
    pub to_open: Option<Length>,
}

impl OfferedDamper {
    /// Its curve at the click that fits best.
    pub fn curve(&self) -> &Curve {
        &self.clicks.all()[self.fit.best].curve
    }

    /// The number of the click that fits best; `None` without an adjuster.
    pub fn click(&self) -> Option<f64> {
        self.clicks.all()[self.fit.best].number
    }

    /// Its damping ratio at the click that fits best.
    pub fn ratio(&self) -> Ratio {
        self.fit.ratio
    }

    /// Numbers of the first and last click inside the range; `None` without an adjuster or without such a click.
    pub fn clicks_inside(&self) -> Option<[f64; 2]> {
        let (first, last) = self.fit.inside?;
        Some([self.clicks.all()[first].number?, self.clicks.all()[last].number?])
    }
}
