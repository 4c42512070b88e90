//! Dampers of one axle: the old one, the one needed, a candidate.

use super::Band;
use crate::base::units::{DampingRate, Force, Frequency, Length, Mass, Pressure, Ratio, SpringRate, Velocity};
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
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum OldDamperBy {
    /// Its curve, by equal work at the peak speed.
    Curve,
    /// A rate in bump and one in rebound.
    Rates,
    /// The damping ratio it gave before the change.
    RatioBefore(Ratio),
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
    /// Gauge pressure of the gas, and the diameter of the rod; `None` without gas.
    pub gas: Option<(Pressure, Length)>,
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
    /// Their mean at the wheel.
    pub at_wheel: DampingRate,
    /// What it damps: wheel rate and sprung mass.
    pub damps: (SpringRate, Mass),
    /// The same of wheel hop: rate of the tyre and unsprung mass.
    pub hops: Option<(SpringRate, Mass)>,
    /// Damping ratio of wheel hop at that click.
    pub hop_ratio: Option<Ratio>,
    /// Length of a damper at metal and its own closed length.
    pub closed: Option<(Length, Length)>,
    /// Its own open length and the length of a damper at droop.
    pub open: Option<(Length, Length)>,
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
