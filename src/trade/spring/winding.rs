//! The inverse: wire and coils for a wanted rate, to have a spring wound.

use super::material::Material;
use super::wire::{Ends, Wire};
use crate::base::units::{Force, Length, Quantity, Ratio, SpringRate, Stress};

/// Smallest and largest index D/d that is wound: the range for cold-coiled springs of EN 15800 (preview seen). Source `EN`.
const INDEX: [f64; 2] = [4.0, 20.0];

/// What a wound spring must do.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Wanted {
    /// Its rate.
    pub rate: SpringRate,
    /// Its outside diameter, given by the seats.
    pub outside: Length,
    /// Its greatest force, at full bump.
    pub greatest_force: Force,
    /// Its length at full bump, if known: solid, with the least gaps, it must be shorter.
    pub room: Option<Length>,
    /// The least room that the shop wants to coil bind at full bump.
    pub bind_room: Length,
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
    /// Allowed shear stress at the greatest force, with Wahl's factor, as a share of tensile strength.
    pub allowed_share: Ratio,
    /// Allowed shear stress when solid, without a factor, as a share of tensile strength.
    pub solid_share: Ratio,
    /// Its maker presses it solid until it no longer sets.
    pub is_preset: bool,
}

/// A spring to have wound.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Wound {
    /// Its wire.
    pub wire: Wire,
    /// The rate it is wound for.
    pub rate: SpringRate,
    /// Its outside diameter.
    pub outside: Length,
    /// All coils, dead ones included.
    pub total: f64,
    /// Length with all coils touching.
    pub solid_length: Length,
    /// The least that must be left between its coils at full bump: the standard's sum of gaps, or the shop's if that is
    /// more.
    pub clearance: Length,
    /// Its length at full bump, if known.
    pub at_bump: Option<Length>,
    /// Its greatest force, at full bump.
    pub greatest_force: Force,
    /// Its force when solid; `None` without a free length.
    pub solid_force: Option<Force>,
    /// What is left at full bump beyond solid length and clearance, below zero what is lacking; `None` when the length
    /// there is not known.
    pub spare: Option<Length>,
    /// Stress at the greatest force, with Wahl's factor.
    pub stress: Stress,
    /// Tensile strength of the wire: the least for its steel and size, or as typed.
    pub strength: Stress,
    /// The share of it that is allowed at the greatest force.
    pub allowed_share: Ratio,
    /// Allowed stress at the greatest force.
    pub allowed: Stress,
    /// Stress when solid, with Wahl's factor; `None` without a free length.
    pub stress_solid: Option<Stress>,
    /// The same without a factor: this is held against its limit.
    pub plain_solid: Option<Stress>,
    /// The share of the strength that is allowed when solid.
    pub solid_share: Ratio,
    /// Allowed stress when solid, without a factor.
    pub allowed_solid: Stress,
    /// The strength is read outside the wire sizes it was made for.
    pub is_extrapolated: bool,
    /// Its limits are those of a preset spring.
    pub is_preset: bool,
}

/// A limit of a spring to be wound.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum WindingLimit {
    /// Stress at full bump.
    Bump,
    /// Stress when solid.
    Solid,
    /// Solid length and gaps within the room at full bump.
    Room,
}

impl WindingLimit {
    /// All of them.
    pub const ALL: [WindingLimit; 3] = [WindingLimit::Bump, WindingLimit::Solid, WindingLimit::Room];
}

impl Wound {
    /// How much of each limit is used, 1 for all of it; a limit that is not known is left out.
    fn used(&self) -> impl Iterator<Item = (WindingLimit, f64)> {
        let needed = self.solid_length + self.clearance;
        let solid = self.plain_solid.map(|stress| stress.si() / self.allowed_solid.si());
        let room = self.spare.map(|spare| needed.si() / (needed + spare).si().max(f64::MIN_POSITIVE));
        [
            (WindingLimit::Bump, Some(self.stress.si() / self.allowed.si())),
            (WindingLimit::Solid, solid),
            (WindingLimit::Room, room),
        ]
        .into_iter()
        .filter_map(|(limit, used)| Some((limit, used?)))
    }

    /// What is left to a limit, below zero what is over it: Pa of a stress, m of room. `None` where it is not known.
    pub fn left_to(&self, limit: WindingLimit) -> Option<f64> {
        match limit {
            WindingLimit::Bump => Some(self.allowed.si() - self.stress.si()),
            WindingLimit::Solid => Some(self.allowed_solid.si() - self.plain_solid?.si()),
            WindingLimit::Room => Some(self.spare?.si()),
        }
    }

    /// The limits that give way; none when the spring can be wound as it is.
    pub fn gives_way(&self) -> Vec<WindingLimit> {
        self.used().filter(|(_, used)| *used > 1.0).map(|(limit, _)| limit).collect()
    }

    /// Every limit that is known holds.
    pub fn holds(&self) -> bool {
        self.used().all(|(_, used)| used <= 1.0)
    }

    /// Limits that could not be checked, since free length or room are not known.
    pub fn not_checked(&self) -> Vec<WindingLimit> {
        let open = [(WindingLimit::Solid, self.plain_solid.is_none()), (WindingLimit::Room, self.spare.is_none())];
        open.into_iter().filter(|(_, is_open)| *is_open).map(|(limit, _)| limit).collect()
    }

    /// So thick that it is coiled hot, where the standard has limits of its own.
    pub fn is_hot(&self) -> bool {
        self.wire.is_hot()
    }

    fn worst(&self) -> f64 {
        self.used().map(|(_, used)| used).fold(0.0, f64::max)
    }
}

impl Wanted {
    /// Of these wires (m) the thinnest that meets every limit; when none does, the one whose worst limit is exceeded
    /// least.
    ///
    /// N_a = G d⁴ / (8 D³ k) with D = outside − d. `None` when no wire makes an index of 4 to 20, when the ends do not
    /// tell the dead coils, or when no strength is known. Source `SHI`, springs chapter (design for a given rate and
    /// load).
    pub fn wind(&self, wires_m: &[f64]) -> Option<Wound> {
        let outside_m = self.outside.si();
        // Index D/d = (outside − d)/d, its ends included.
        let winds = |d: f64| (INDEX[0] - 1e-9..=INDEX[1] + 1e-9).contains(&(outside_m / d - 1.0));
        let mut sizes: Vec<f64> = wires_m.iter().copied().filter(|d| winds(*d)).collect();
        sizes.sort_by(f64::total_cmp);
        let wound: Vec<Wound> = sizes.into_iter().filter_map(|d| self.with_wire(d)).collect();
        let holds = wound.iter().find(|w| w.holds());
        holds.or_else(|| wound.iter().min_by(|a, b| a.worst().total_cmp(&b.worst()))).copied()
    }

    /// The spring with this wire, whether it meets its limits or not.
    pub fn with_wire(&self, diameter_m: f64) -> Option<Wound> {
        let mean_m = self.outside.si() - diameter_m;
        let unit = Wire { diameter_m, mean_m, active: 1.0, shear_modulus_pa: self.shear_modulus.si(), ends: self.ends };
        let wire = Wire { active: (unit.rate() / self.rate).si(), ..unit };
        let solid_length = wire.solid_length()?;
        let diameter = Length::from_si(diameter_m);
        let strength = self.tensile_strength.or_else(|| self.material.tensile_strength(diameter))?;
        let solid_force = self.free_length.map(|free| self.rate * (free - solid_length));
        let clearance = Length::from_si(wire.sum_of_gaps().si().max(self.bind_room.si()));
        Some(Wound {
            wire,
            rate: self.rate,
            outside: self.outside,
            total: wire.total()?,
            solid_length,
            clearance,
            at_bump: self.room,
            greatest_force: self.greatest_force,
            solid_force,
            spare: self.room.map(|room| room - solid_length - clearance),
            stress: wire.stress(self.greatest_force, wire.wahl()),
            strength,
            allowed_share: self.allowed_share,
            allowed: Stress::from_si(strength.si() * self.allowed_share.si()),
            stress_solid: solid_force.map(|force| wire.stress(force, wire.wahl())),
            plain_solid: solid_force.map(|force| wire.stress(force, Ratio::from_si(1.0))),
            solid_share: self.solid_share,
            allowed_solid: Stress::from_si(strength.si() * self.solid_share.si()),
            is_extrapolated: self.tensile_strength.is_none() && self.material.is_extrapolated(diameter),
            is_preset: self.is_preset,
        })
    }
}
