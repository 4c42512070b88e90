//! The damper an axle needs, and what the old one gives.

use super::answer::{Damping, ForceAtSpeed, Standing};
use super::known::Known;
use super::sizing;
use crate::damper::{self, BumpRebound, TEST_SPEEDS_M_PER_S};
use crate::ride;
use crate::units::{DampingRate, Length, Quantity, Ratio, Velocity};

impl Known<'_> {
    /// The old damper's mean rate at the wheel: measured, or from its damping ratio before the swap.
    pub fn old_damper_at_wheel(&self, before: Option<&Standing>) -> Option<DampingRate> {
        let damper = &self.axle.damper;
        let bump = self.reader.typed(&damper.bump_rate);
        let rebound = self.reader.typed(&damper.rebound_rate);
        if let (Some(bump), Some(rebound)) = (bump, rebound) {
            let ratio = self.damper_length?.ratio(Length::from_si(0.0));
            return Some(damper::wheel_from_damper(BumpRebound { bump, rebound }.mean(), ratio));
        }
        let before = before?;
        let ratio = self.reader.known(&damper.ratio_before)?;
        Some(damper::rate_for(ratio, before.wheel_rate, before.sprung))
    }

    pub fn damping(&self, new: &Standing, before: Option<&Standing>, old: Option<DampingRate>) -> Option<Damping> {
        let damper_ratio = self.damper_length?.ratio(new.travel);
        let target = &self.axle.target;
        let low = self.reader.known(&target.damping_low)?;
        let high = self.reader.known(&target.damping_high)?;
        let rebound_over_bump = self.reader.known(&target.rebound_over_bump)?;
        let ratio = sizing::band(low, high, (low + high) / 2.0)?;
        let at_wheel = ratio.map(|z| damper::rate_for(z, new.wheel_rate, new.sprung));
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
            forces,
            old_at_wheel: old,
            scale: before.map(|b| critical(new) / critical(b)),
            hop_frequency: self
                .tyre_rate
                .zip(self.unsprung.filter(|u| u.si() > 0.0))
                .map(|(tyre, unsprung)| ride::hop_frequency(new.wheel_rate, tyre, unsprung)),
        })
    }
}
