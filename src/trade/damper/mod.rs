//! Dampers: what an axle asks of one, and what a measured or catalogue curve gives.
//!
//! Force goes with the damper's motion ratio, rate with its square: c_w = c_d r_d². A damper is a [`Curve`] of force
//! against speed; [`Curve::equal_work`] makes one rate of it, which is why that rate is never shown without its speed.
//! Source `DIX` ch. 1 and 5, `GIL` ch. 5.

mod clicks;
mod curve;
mod target;

pub use clicks::{Click, Clicks, Fit};
pub use curve::{Curve, CurveError, Direction, ForcePoint};
pub use target::TwoSlope;

use crate::base::units::{
    Area, DampingRate, Force, Length, Mass, Pressure, Quantity, Ratio, SpringRate, TwistRate, Velocity,
};

/// Customary test speeds at the damper, m/s: a crank machine of 100 mm stroke at
/// 10, 25, 50, 75 and 100 turns a minute, rounded. Source: common practice.
pub const TEST_SPEEDS_M_PER_S: [f64; 5] = [0.05, 0.13, 0.26, 0.39, 0.52];

/// Bump and rebound rates of one damper.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BumpRebound {
    /// Rate in bump.
    pub bump: DampingRate,
    /// Rate in rebound.
    pub rebound: DampingRate,
}

impl BumpRebound {
    /// Splits a mean rate: c_bump = 2c/(1+ρ), c_reb = ρ c_bump, ρ = rebound ÷ bump. Source `DERIVED`.
    ///
    /// ```
    /// use springwright::trade::damper::BumpRebound;
    /// use springwright::base::units::{DampingRate, Quantity, Ratio};
    /// let pair = BumpRebound::split(DampingRate::from_si(3_000.0), Ratio::from_si(2.0));
    /// assert_eq!((pair.bump.si(), pair.rebound.si()), (2_000.0, 4_000.0));
    /// ```
    pub fn split(mean: DampingRate, rebound_over_bump: Ratio) -> Self {
        let bump = 2.0 * mean / (1.0 + rebound_over_bump.si());
        BumpRebound { bump, rebound: bump * rebound_over_bump.si() }
    }

    /// The mean (c_bump + c_reb)/2, which is also the equal-work rate of a two-rate damper. Source `DIX` ch. 5.
    pub fn mean(&self) -> DampingRate {
        (self.bump + self.rebound) / 2.0
    }

    /// Both rates times one factor: a hot damper, another motion ratio.
    pub fn scaled(&self, factor: Ratio) -> Self {
        BumpRebound { bump: self.bump * factor.si(), rebound: self.rebound * factor.si() }
    }

    /// Forces at a damper speed: (bump, rebound).
    pub fn forces(&self, speed: Velocity) -> (Force, Force) {
        (self.bump * speed, self.rebound * speed)
    }
}

/// Damping ratio ζ = c_w / (2√(k_w m_s)), a plain number, all at the wheel, on springs. Valid for k_w m_s above zero.
/// Source `GIL` ch. 5.
pub fn damping_ratio(at_wheel: DampingRate, wheel_rate: SpringRate, sprung: Mass) -> Ratio {
    Ratio::from_si(at_wheel.si() / (2.0 * (wheel_rate.si() * sprung.si()).sqrt()))
}

/// Damping ratio of wheel hop, ζ_u = c_w / (2√((k_w + k_t) m_u)), a plain number, all at the wheel. Valid for
/// (k_w + k_t) m_u above zero. Source `GIL` ch. 5.
pub fn hop_ratio(at_wheel: DampingRate, wheel_rate: SpringRate, tyre_rate: SpringRate, unsprung: Mass) -> Ratio {
    damping_ratio(at_wheel, wheel_rate + tyre_rate, unsprung)
}

/// Damping of one axle in roll, N·m·s/rad: c_φ = c_w t² / 2, t where the rate counts: the track. Source `DERIVED`
/// (energy; as a pair of springs in [`crate::trade::roll`]).
pub fn roll_rate(at_wheel: DampingRate, track: Length) -> f64 {
    0.5 * at_wheel.si() * track.si().powi(2)
}

/// Damping ratio in roll: ζ_φ = c_φ / (2√(K_φ I)), with c_φ in N·m·s/rad of all axles, their roll stiffness and the
/// sprung body's inertia about the roll axis, I = m κ². Valid for K_φ I above zero. Source `DERIVED`; `DIX` ch. 5.
pub fn roll_ratio(rate_n_m_s: f64, stiffness: TwistRate, sprung: Mass, roll_radius: Length) -> Ratio {
    let inertia_kg_m2 = sprung.si() * roll_radius.si().powi(2);
    Ratio::from_si(rate_n_m_s / (2.0 * (stiffness.si() * inertia_kg_m2).sqrt()))
}

/// The wheel damping rate that gives ζ, N·s/m: c_w = 2ζ√(k_w m_s). Valid for k_w m_s of zero or more.
/// Source `GIL` ch. 5.
pub fn rate_for(damping_ratio: Ratio, wheel_rate: SpringRate, sprung: Mass) -> DampingRate {
    DampingRate::from_si(2.0 * damping_ratio.si() * (wheel_rate.si() * sprung.si()).sqrt())
}

/// A rate at the damper, seen at the wheel, N·s/m: c_w = c_d r_d². Source `DERIVED` (force and speed each by r_d);
/// `DIX` ch. 5.
pub fn wheel_from_damper(at_damper: DampingRate, damper_ratio: Ratio) -> DampingRate {
    at_damper * damper_ratio.si().powi(2)
}

/// A rate at the wheel, as the damper must give it, N·s/m: c_d = c_w / r_d². Valid for r_d other than zero.
/// Source `DERIVED`; `DIX` ch. 5.
pub fn damper_from_wheel(at_wheel: DampingRate, damper_ratio: Ratio) -> DampingRate {
    at_wheel / damper_ratio.si().powi(2)
}

/// Push of a gas damper: gauge pressure × rod area. Source `DIX` ch. 3.
pub fn gas_force(gauge_pressure: Pressure, rod_diameter: Length) -> Force {
    let area: Area = rod_diameter * rod_diameter * std::f64::consts::FRAC_PI_4;
    gauge_pressure * area
}

/// How far the push of a gas damper lifts the body, at the wheel: F_gas r_d / k_w. Source `DERIVED`.
pub fn gas_lift(gas_force: Force, damper_ratio: Ratio, wheel_rate: SpringRate) -> Length {
    gas_force * damper_ratio.si() / wheel_rate
}
