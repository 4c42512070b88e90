//! The inverse: wire and coils for a wanted rate, to have a spring wound.

use super::material::Material;
use super::wire::{Ends, Wire};
use crate::units::{Force, Length, Quantity, Ratio, SpringRate, Stress};

/// What a wound spring must do.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Wanted {
    /// Its rate.
    pub rate: SpringRate,
    /// Its outside diameter, given by the seats.
    pub outside: Length,
    /// Its greatest force, at full bump.
    pub greatest_force: Force,
    /// The longest it may be when solid, if known.
    pub longest_solid: Option<Length>,
    /// Its free length, if known: the stress when solid follows from it.
    pub free_length: Option<Length>,
    /// Material of the wire.
    pub material: Material,
    /// Its tensile strength, when it is known better than by size.
    pub tensile_strength: Option<Stress>,
    /// Shear modulus.
    pub shear_modulus: Stress,
    /// How the ends are made.
    pub ends: Ends,
    /// Allowed shear stress at the greatest force as a share of tensile strength.
    pub allowed_share: Ratio,
    /// Step between wire sizes.
    pub wire_step: Length,
}

/// A spring to have wound.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Wound {
    /// Its wire.
    pub wire: Wire,
    /// All coils, dead ones included.
    pub total: f64,
    /// Length with all coils touching.
    pub solid_length: Length,
    /// Stress at the greatest force, with Wahl's factor.
    pub stress: Stress,
    /// Stress when solid, with Wahl's factor.
    pub stress_solid: Option<Stress>,
    /// Allowed stress.
    pub allowed: Stress,
    /// It is short enough when solid; true when no limit is known.
    pub solid_fits: bool,
}

impl Wanted {
    /// The thinnest wire whose stress is allowed: it has the fewest coils and the shortest solid length.
    ///
    /// N_a = G d⁴ / (8 D³ k) with D = outside − d, d in whole steps. `None` when no wire between an index of 20 and
    /// 4 stands the load, when the ends do not tell the dead coils, or when no strength is known.
    /// Source `SHI`, springs chapter (design for a given rate and load).
    pub fn wind(&self) -> Option<Wound> {
        let step_m = self.wire_step.si();
        let outside_m = self.outside.si();
        // Index D/d between 4 and 20 means a wire between OD/21 and OD/5.
        let first = (outside_m / 21.0 / step_m - 1e-9).ceil().max(1.0);
        let last = (outside_m / 5.0 / step_m + 1e-9).floor();
        let stands = |size: f64| self.with_wire(size * step_m).filter(|w| w.stress <= w.allowed);
        // A thicker wire has less stress by the cube of its size, and loses less than that in strength and curvature:
        // what one stands, every thicker one does.
        let (mut thin, mut found) = (first - 1.0, (last, stands(last).filter(|_| first <= last)?));
        while found.0 - thin > 1.0 {
            let middle = ((thin + found.0) / 2.0).floor();
            match stands(middle) {
                Some(wound) => found = (middle, wound),
                None => thin = middle,
            }
        }
        Some(found.1)
    }

    /// The spring with this wire, whether its stress is allowed or not.
    pub fn with_wire(&self, diameter_m: f64) -> Option<Wound> {
        let mean_m = self.outside.si() - diameter_m;
        let unit = Wire { diameter_m, mean_m, active: 1.0, shear_modulus_pa: self.shear_modulus.si(), ends: self.ends };
        let wire = Wire { active: (unit.rate() / self.rate).si(), ..unit };
        let solid_length = wire.solid_length()?;
        let diameter = Length::from_si(diameter_m);
        let strength = self.tensile_strength.or_else(|| self.material.tensile_strength(diameter))?;
        Some(Wound {
            wire,
            total: wire.total()?,
            solid_length,
            stress: wire.stress(self.greatest_force, wire.wahl()),
            stress_solid: self.free_length.map(|free| wire.stress(self.rate * (free - solid_length), wire.wahl())),
            allowed: Stress::from_si(strength.si() * self.allowed_share.si()),
            solid_fits: self.longest_solid.is_none_or(|longest| solid_length <= longest),
        })
    }
}
