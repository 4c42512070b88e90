//! How the old dampers of an axle do on its springs as they will be fitted.

use super::{Answer, AxleAnswer, State};
use crate::base::units::{DampingRate, Quantity, Ratio, Velocity};
use crate::job::Side;

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
        let u =
            self.checked(side).nudged.u_of(if is_low { AxleAnswer::below_wanted } else { AxleAnswer::above_wanted });
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

    /// The rate at the wheel of the damper that is fitted in a state.
    pub fn damper_at_wheel(&self, state: State) -> Option<DampingRate> {
        match self.has_new_dampers(state) {
            true => Some(self.damping.as_ref()?.at_wheel.aim),
            false => self.standing.of(state).as_ref()?.old_damper_at_wheel,
        }
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
