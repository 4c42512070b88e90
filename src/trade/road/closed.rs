//! Closed forms of a corner with straight spring, damper and tyre on a road of white velocity.
//!
//! M = m_s + m_u, k = wheel rate, c = damping at the wheel, k_t = tyre, G_v = [`Passage::velocity_psd_m2_per_s`].
//! Source `DERIVED`; checked against integrals of the transfer functions and against long linear time runs.

use std::f64::consts::{PI, TAU};

use super::Passage;
use crate::base::units::{
    Acceleration, DampingRate, Force, Frequency, G_M_PER_S2, Length, Mass, Quantity, Ratio, SpringRate, Velocity,
};

/// One corner of a vehicle, all at the wheel.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Corner {
    /// What the spring carries.
    pub sprung: Mass,
    /// Wheel, hub and what moves with them.
    pub unsprung: Mass,
    /// Slope of the force–travel curve at ride height.
    pub wheel_rate: SpringRate,
    /// Rate of the tyre.
    pub tyre_rate: SpringRate,
    /// Mean of bump and rebound.
    pub damping: DampingRate,
}

impl Corner {
    /// All five are above zero and finite: the closed forms hold.
    pub fn is_sound(&self) -> bool {
        let Corner { sprung, unsprung, wheel_rate, tyre_rate, damping } = *self;
        [sprung.si(), unsprung.si(), wheel_rate.si(), tyre_rate.si(), damping.si()]
            .iter()
            .all(|v| v.is_finite() && *v > 0.0)
    }

    fn whole_kg(&self) -> f64 {
        self.sprung.si() + self.unsprung.si()
    }

    /// rms of the wheel's travel, m: σ² = G_v M/(4c). *No spring rate is in it*: only damping shrinks the motion.
    /// Source `DERIVED`, as all closed forms here; valid for a sound corner.
    pub fn travel_rms(&self, on: &Passage) -> Length {
        Length::from_si((on.velocity_psd_m2_per_s() * self.whole_kg() / (4.0 * self.damping.si())).sqrt())
    }

    /// rms of the speed of travel, m/s: σ² = G_v k_t/(4c). Source `DERIVED`.
    pub fn travel_speed_rms(&self, on: &Passage) -> Velocity {
        Velocity::from_si((on.velocity_psd_m2_per_s() * self.tyre_rate.si() / (4.0 * self.damping.si())).sqrt())
    }

    /// rms of the body's acceleration, not weighted, m/s²: σ² = G_v/4 · (k_t c/m_s² + M k²/(c m_s²)). Source `DERIVED`.
    pub fn body_acceleration_rms(&self, on: &Passage) -> Acceleration {
        let (k, c, kt) = (self.wheel_rate.si(), self.damping.si(), self.tyre_rate.si());
        let inside = kt * c + self.whole_kg() * k * k / c;
        Acceleration::from_si((on.velocity_psd_m2_per_s() / 4.0 * inside).sqrt() / self.sprung.si())
    }

    /// rms of the tyre's force about its mean, N:
    /// σ² = G_v/4 · (k_t c M²/m_s² + M³k²/(c m_s²) − 2 m_u M k k_t/(c m_s) + m_u k_t²/c). Source `DERIVED`.
    pub fn tyre_force_rms(&self, on: &Passage) -> Force {
        let (k, c, kt) = (self.wheel_rate.si(), self.damping.si(), self.tyre_rate.si());
        let (ms, mu, m) = (self.sprung.si(), self.unsprung.si(), self.whole_kg());
        let inside = kt * c * m * m / (ms * ms) + m * m * m * k * k / (c * ms * ms) - 2.0 * mu * m * k * kt / (c * ms)
            + mu * kt * kt / c;
        Force::from_si((on.velocity_psd_m2_per_s() / 4.0 * inside).sqrt())
    }

    /// [`Corner::tyre_force_rms`] over the standing load M g: the less, the better the tyre holds.
    pub fn tyre_load_share(&self, on: &Passage) -> Ratio {
        self.tyre_force_rms(on) / Force::from_si(self.whole_kg() * G_M_PER_S2)
    }

    /// How often a second the travel passes upward through a gap: √(k_t/M)/2π · exp(−b²/2σ²), by Rice's formula for a
    /// Gaussian motion (from memory; `DERIVED` with the variances above). A gap of zero or less counts as touched at
    /// every wave.
    pub fn stop_hits(&self, gap: Length, on: &Passage) -> Frequency {
        let waves_per_s = (self.tyre_rate.si() / self.whole_kg()).sqrt() / TAU;
        let in_sigma = gap.si().max(0.0) / self.travel_rms(on).si();
        Frequency::from_si(waves_per_s * (-0.5 * in_sigma * in_sigma).exp())
    }

    /// [`Corner::stop_hits`] for each kilometre driven.
    pub fn stop_hits_per_km(&self, gap: Length, on: &Passage) -> f64 {
        self.stop_hits(gap, on).si() * 1000.0 / on.speed.si()
    }

    /// How far a damper that is stiffer in rebound pulls the body down on a rough road (jacking):
    /// ½(c_reb − c_bump)·E|v|/k, E|v| = √(2/π) σ_v. It is gone from the bump room. Source `DERIVED`, `DIX` (memory).
    ///
    /// `split` = rebound over bump.
    pub fn pulled_down(&self, split: Ratio, on: &Passage) -> Length {
        let half_difference = self.damping.si() * (split.si() - 1.0) / (split.si() + 1.0);
        let mean_speed = (2.0 / PI).sqrt() * self.travel_speed_rms(on).si();
        Length::from_si(half_difference * mean_speed / self.wheel_rate.si())
    }
}
