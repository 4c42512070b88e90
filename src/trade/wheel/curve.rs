//! The one force–travel curve, from which height, rate, frequency and reserve all come.
//!
//! F_w(z) = F_s(L_s(z)) r(z) + k_par (z − z_0) + F_gas r_d(z) + F_bag r_bag + F_stop r_stop, at
//! the wheel, z in bump from the reference ride height. Force goes with r, rate with r²
//! and the geometry term F_s dr/dz (virtual work). Source `DERIVED`; r² in `GIL` ch. 5, `MIL` ch. 16.

use std::sync::Arc;

use thiserror::Error;

use super::ratio::LengthCurve;
use crate::base::language::tr;
use crate::base::math::pchip::Pchip;
use crate::base::math::roots;
use crate::base::units::{Force, Length, Quantity, Ratio, SpringRate};
use crate::trade::spring::{AirBag, Spring};

/// How far from the reference height an equilibrium is looked for, m of wheel travel.
const SEARCH_M: f64 = 1.0;
/// Equilibrium travel is solved to this, m.
const SETTLED_M: f64 = 1e-12;
/// A corner this far past its bump stop rests on it, m.
const TOUCHED_M: f64 = 1e-10;

/// How hard a bump stop is.
#[derive(Debug, Clone, PartialEq)]
pub enum StopForce {
    /// Not known: the stop only marks a place.
    Unknown,
    /// A constant rate at the stop, N/m.
    Rate(f64),
    /// Load against squeeze, both from zero.
    Table(Arc<Pchip>),
}

/// The bump stop of a corner.
#[derive(Debug, Clone, PartialEq)]
pub struct BumpStop {
    /// Wheel travel from the reference height to first touch, m.
    pub gap_m: f64,
    /// How far the stop is squeezed for each unit of wheel travel.
    pub ratio: f64,
    /// How hard it is.
    pub force: StopForce,
}

impl BumpStop {
    /// Force at the wheel, N.
    pub fn force_n(&self, travel_m: f64) -> f64 {
        let squeeze_m = self.squeeze_m(travel_m);
        match &self.force {
            _ if squeeze_m <= 0.0 => 0.0,
            StopForce::Unknown => 0.0,
            StopForce::Rate(rate) => rate * squeeze_m * self.ratio,
            StopForce::Table(table) => table.value(squeeze_m) * self.ratio,
        }
    }

    /// Rate at the wheel, N/m.
    pub fn rate_n_per_m(&self, travel_m: f64) -> f64 {
        let squeeze_m = self.squeeze_m(travel_m);
        match &self.force {
            _ if squeeze_m <= 0.0 => 0.0,
            StopForce::Unknown => 0.0,
            StopForce::Rate(rate) => rate * self.ratio * self.ratio,
            StopForce::Table(table) => table.slope(squeeze_m) * self.ratio * self.ratio,
        }
    }

    /// Its hardness is known, so it takes part in carrying.
    pub fn carries(&self) -> bool {
        self.force != StopForce::Unknown
    }

    fn squeeze_m(&self, travel_m: f64) -> f64 {
        self.ratio * (travel_m - self.gap_m)
    }
}

/// A helper bag on its own ratio.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Helper {
    /// The bag.
    pub bag: AirBag,
    /// How far it is compressed for each unit of wheel travel.
    pub ratio: f64,
    /// Wheel travel at which it has its set height, m.
    pub set_at_m: f64,
}

impl Helper {
    /// Force at the wheel, N.
    pub fn force_n(&self, travel_m: f64) -> f64 {
        self.bag.force_n(self.compressed_m(travel_m)) * self.ratio
    }

    /// Rate at the wheel, N/m.
    pub fn rate_n_per_m(&self, travel_m: f64) -> f64 {
        self.bag.rate_n_per_m(self.compressed_m(travel_m)) * self.ratio * self.ratio
    }

    /// Compression from its set height, + shorter.
    pub fn compressed(&self, travel: Length) -> Length {
        Length::from_si(self.compressed_m(travel.si()))
    }

    fn compressed_m(&self, travel_m: f64) -> f64 {
        self.ratio * (travel_m - self.set_at_m)
    }
}

/// All that carries one corner, against wheel travel.
#[derive(Debug, Clone, PartialEq)]
pub struct ForceTravel {
    /// The spring.
    pub spring: Spring,
    /// Spring length against wheel travel.
    pub spring_length: LengthCurve,
    /// Rate of rubber pivots and the like, at the wheel, N/m.
    pub parallel_rate_n_per_m: f64,
    /// Wheel travel at which the rubber carries nothing, m.
    pub parallel_neutral_m: f64,
    /// Push of a gas damper along its axis, N.
    pub gas_force_n: f64,
    /// Damper length against wheel travel.
    pub damper_length: LengthCurve,
    /// An air bag that helps.
    pub helper: Option<Helper>,
    /// The bump stop, if its gap is known.
    pub stop: Option<BumpStop>,
}

/// Where a load sits on a curve.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Equilibrium {
    /// Wheel travel from the reference height, + in bump.
    pub travel: Length,
    /// Slope of the curve there: the wheel rate.
    pub wheel_rate: SpringRate,
    /// Force along the spring there.
    pub spring_force: Force,
    /// The bump stop is already touched: the spring rate alone does not apply.
    pub on_stop: bool,
    /// The spring is loose there: something else carries.
    pub loose: bool,
}

/// What makes the wheel rate, each at the wheel, N/m; their sum is it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RateParts {
    /// The spring, its geometry term included: k_s r² + F_s dr/dz.
    pub spring: f64,
    /// Gas in the damper: F_gas dr_d/dz.
    pub gas: f64,
    /// An air bag that helps.
    pub bag: f64,
    /// The bump stop.
    pub stop: f64,
    /// Rubber pivots and the like.
    pub rubber: f64,
}

/// What works between body and wheel, each across a beam axle on a base of its own.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Acting {
    /// The spring.
    Spring,
    /// An air bag that helps.
    Bag,
    /// Gas in the damper.
    Gas,
    /// The bump stop.
    Stop,
    /// Rubber pivots and the like.
    Rubber,
}

impl Acting {
    /// All of them.
    pub const ALL: [Acting; 5] = [Acting::Spring, Acting::Bag, Acting::Gas, Acting::Stop, Acting::Rubber];
}

/// No height was found at which the corner carries its load.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Error)]
#[error(
    "{}",
    tr(
        "this load cannot be carried at any ride height within 1 m of the reference height; check rate, motion ratio and lengths"
    )
)]
pub struct NoEquilibrium;

impl ForceTravel {
    /// The same with a bag pumped until it is at `height` under `load`; `None` when there is nothing to lift.
    pub fn levelled_by(&self, bag: AirBag, ratio: Ratio, height: Length, load: Force) -> Option<(AirBag, ForceTravel)> {
        let lacking_n = load.si() - self.force_n(height.si());
        let pumped = bag.pumped_to(lacking_n / ratio.si());
        let helper = Some(Helper { bag: pumped, ratio: ratio.si(), set_at_m: height.si() });
        (pumped.gauge_pa > 0.0).then(|| (pumped, ForceTravel { helper, ..self.clone() }))
    }

    /// What the spring, rubber and gas carry, without the bump stop, N.
    pub fn force_without_stop_n(&self, travel_m: f64) -> f64 {
        self.spring.force_n(self.spring_length.length_m(travel_m)) * self.spring_length.ratio_at(travel_m)
            + self.other_force_n(travel_m)
    }

    /// All that carries at the wheel, N.
    pub fn force_n(&self, travel_m: f64) -> f64 {
        self.force_without_stop_n(travel_m) + self.stop_force_n(travel_m)
    }

    /// **Wheel rate**: the slope of [`ForceTravel::force_n`], N/m. Source `DERIVED`.
    pub fn rate_n_per_m(&self, travel_m: f64) -> f64 {
        self.force_and_rate(travel_m).1
    }

    /// [`ForceTravel::force_n`] and [`ForceTravel::rate_n_per_m`] at once.
    pub fn force_and_rate(&self, travel_m: f64) -> (f64, f64) {
        let length_m = self.spring_length.length_m(travel_m);
        let ratio = self.spring_length.ratio_at(travel_m);
        let spring_n = self.spring.force_n(length_m);
        let stop_rate = self.stop_rate_n_per_m(travel_m);
        let force_n = spring_n * ratio + self.other_force_n(travel_m) + self.stop_force_n(travel_m);
        let rate = self.spring.rate_n_per_m(length_m) * ratio * ratio
            + spring_n * self.spring_length.slope_per_m(travel_m)
            + self.other_rate_n_per_m(travel_m)
            + stop_rate;
        (force_n, rate)
    }

    /// Force of one part at the wheel, N, and its rate there, N/m; all parts together are the curve. Source `DERIVED`.
    pub fn of_part(&self, part: Acting, travel_m: f64) -> (f64, f64) {
        match part {
            Acting::Spring => {
                let (length_m, ratio) = (self.spring_length.length_m(travel_m), self.spring_length.ratio_at(travel_m));
                let force_n = self.spring.force_n(length_m);
                let geometry = force_n * self.spring_length.slope_per_m(travel_m);
                (force_n * ratio, self.spring.rate_n_per_m(length_m) * ratio * ratio + geometry)
            }
            Acting::Bag => self.helper.as_ref().map_or((0.0, 0.0), |h| (h.force_n(travel_m), h.rate_n_per_m(travel_m))),
            Acting::Gas => (
                self.gas_force_n * self.damper_length.ratio_at(travel_m),
                self.gas_force_n * self.damper_length.slope_per_m(travel_m),
            ),
            Acting::Stop => (self.stop_force_n(travel_m), self.stop_rate_n_per_m(travel_m)),
            Acting::Rubber => {
                let rate = self.parallel_rate_n_per_m;
                (rate * (travel_m - self.parallel_neutral_m), rate)
            }
        }
    }

    /// What makes [`ForceTravel::rate_n_per_m`], part by part. Source `DERIVED`.
    pub fn rate_parts(&self, travel_m: f64) -> RateParts {
        let rate = |part| self.of_part(part, travel_m).1;
        RateParts {
            spring: rate(Acting::Spring),
            gas: rate(Acting::Gas),
            bag: rate(Acting::Bag),
            stop: rate(Acting::Stop),
            rubber: rate(Acting::Rubber),
        }
    }

    /// What carries in addition to the main spring and the stop, N: rubber, gas and bag.
    pub fn other_force_n(&self, travel_m: f64) -> f64 {
        self.parallel_rate_n_per_m * (travel_m - self.parallel_neutral_m)
            + self.gas_force_n * self.damper_length.ratio_at(travel_m)
            + self.helper.as_ref().map_or(0.0, |h| h.force_n(travel_m))
    }

    /// What adds to the wheel rate in addition to the main spring and the stop, N/m.
    pub fn other_rate_n_per_m(&self, travel_m: f64) -> f64 {
        self.parallel_rate_n_per_m
            + self.gas_force_n * self.damper_length.slope_per_m(travel_m)
            + self.helper.as_ref().map_or(0.0, |h| h.rate_n_per_m(travel_m))
    }

    /// The force that the spring must give along its axis to carry `load` at this travel.
    ///
    /// F_s = (W − F_gas r_d − F_par − F_bag r_bag − F_stop r_stop) / r: it follows from the load alone. Source `DERIVED`.
    pub fn spring_force_for(&self, load: Force, travel: Length) -> Force {
        let rest_n = load.si() - self.other_force_n(travel.si()) - self.stop_force_n(travel.si());
        Force::from_si(rest_n / self.spring_length.ratio_at(travel.si()))
    }

    /// The spring rate that gives `wheel_rate` under `load` at this travel.
    ///
    /// k_s = (k_w − k_par − F_s r′ − F_gas r_d′ − bag and stop terms) / r². Source `DERIVED`. May be
    /// zero or negative when the other terms already exceed the wheel rate.
    pub fn spring_rate_for(&self, wheel_rate: SpringRate, load: Force, travel: Length) -> SpringRate {
        let ratio = self.spring_length.ratio_at(travel.si());
        let geometry = self.spring_force_for(load, travel).si() * self.spring_length.slope_per_m(travel.si());
        let others = self.other_rate_n_per_m(travel.si()) + self.stop_rate_n_per_m(travel.si());
        SpringRate::from_si((wheel_rate.si() - others - geometry) / (ratio * ratio))
    }

    /// The height at which the corner carries `load`.
    ///
    /// # Errors
    /// [`NoEquilibrium`] when no travel within ± 1 m of the reference carries it.
    pub fn ride_height(&self, load: Force) -> Result<Equilibrium, NoEquilibrium> {
        let excess_n = |z: f64| self.force_n(z) - load.si();
        let by_bracket = || {
            let (low, high) = self.bracket(&excess_n)?;
            roots::between(low, high, SETTLED_M, excess_n)
        };
        let z = self.settled_near(0.0, load.si()).or_else(by_bracket).ok_or(NoEquilibrium)?;
        let spring_force_n = self.spring.force_n(self.spring_length.length_m(z));
        Ok(Equilibrium {
            travel: Length::from_si(z),
            wheel_rate: SpringRate::from_si(self.rate_n_per_m(z)),
            spring_force: Force::from_si(spring_force_n),
            on_stop: self.stop.as_ref().is_some_and(|s| z > s.gap_m + TOUCHED_M),
            loose: self.spring.can_be_loose() && spring_force_n <= 0.0,
        })
    }

    /// The same where a corner stays there: at a wheel rate above zero.
    pub fn held(&self, load: Force) -> Option<Equilibrium> {
        self.ride_height(load).ok().filter(|found| found.wheel_rate.si() > 0.0)
    }

    /// Equilibrium of a load, by Newton's steps from a travel nearby; `None` when they do not settle within a hand's
    /// breadth, or lead over a place that carries less when it is pressed.
    pub fn settled_near(&self, near_m: f64, load_n: f64) -> Option<f64> {
        const REACH_M: f64 = 0.2;
        let mut z = near_m;
        for _ in 0..8 {
            let (force_n, rate) = self.force_and_rate(z);
            if rate.is_nan() || rate <= 0.0 || self.spring_length.ratio_at(z) <= 0.0 {
                return None;
            }
            let step_m = (load_n - force_n) / rate;
            if step_m.abs() <= SETTLED_M {
                return Some(z);
            }
            z += step_m;
            if (z - near_m).abs() > REACH_M {
                return None;
            }
        }
        None
    }

    /// Wheel travel, m, at which the bump stop is touched, or the coils where they touch each other before that;
    /// `None` when the gap is not known. Source `DERIVED`: L_s(z) = L_solid.
    pub fn first_contact_m(&self) -> Option<f64> {
        let gap_m = self.stop.as_ref()?.gap_m;
        let solid_m = self.spring.solid_length_m().filter(|solid| self.spring_length.length_m(gap_m) < *solid);
        let binds = solid_m.and_then(|solid| self.spring_length.travel_at(Length::from_si(solid)));
        Some(binds.map_or(gap_m, |z| z.si().min(gap_m)))
    }

    /// What carries where the bump stop is first touched or, if that comes first, the coils bind. `None` where that is
    /// not known.
    pub fn force_at_contact(&self) -> Option<Force> {
        let force_n = self.force_without_stop_n(self.first_contact_m()?);
        force_n.is_finite().then(|| Force::from_si(force_n))
    }

    /// What the bump stop adds to the wheel rate, N/m.
    pub fn stop_rate_n_per_m(&self, travel_m: f64) -> f64 {
        self.stop.as_ref().map_or(0.0, |s| s.rate_n_per_m(travel_m))
    }

    /// What the bump stop carries at the wheel, N.
    pub fn stop_force_n(&self, travel_m: f64) -> f64 {
        self.stop.as_ref().map_or(0.0, |s| s.force_n(travel_m))
    }

    /// Two travels around the reference between which the excess changes sign, found by growing steps
    /// and only where the motion ratio is still positive.
    fn bracket(&self, excess_n: &impl Fn(f64) -> f64) -> Option<(f64, f64)> {
        let at_reference = excess_n(0.0);
        let direction = if at_reference > 0.0 { -1.0 } else { 1.0 };
        let (mut near, mut step_m) = (0.0, 0.02);
        while near < SEARCH_M {
            let far = f64::min(near + step_m, SEARCH_M);
            let z = direction * far;
            if self.spring_length.ratio_at(z) <= 0.0 {
                return None;
            }
            if excess_n(z) * at_reference <= 0.0 {
                return Some((direction * near, z));
            }
            (near, step_m) = (far, step_m * 2.0);
        }
        None
    }
}
