//! A coil spring by its wire: rate, stress, solid length, and what cutting it does.

use std::f64::consts::PI;

use serde::{Deserialize, Serialize};

use crate::base::language::Word;
use crate::base::units::{Force, Length, Quantity, Ratio, SpringRate, Stress};

/// Wire above this is coiled hot, m. Source `EN` (scope seen: cold-coiled springs up to about 16 mm).
pub const COLD_UP_TO_M: f64 = 0.016;

/// How the ends of a coil are made.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Hash, Serialize, Deserialize)]
pub enum Ends {
    /// Cut off, as wound.
    Plain,
    /// Cut off and ground flat.
    PlainGround,
    /// Last coil laid against its neighbour, not ground.
    #[default]
    Closed,
    /// Last coil laid against its neighbour and ground flat.
    ClosedGround,
    /// Pigtail or tangential: the active coils are counted, not computed.
    Counted,
}

impl Ends {
    /// All kinds of ends.
    pub const ALL: [Ends; 5] = [Ends::Plain, Ends::PlainGround, Ends::Closed, Ends::ClosedGround, Ends::Counted];

    /// The words on screen and paper.
    pub fn words(self) -> Word {
        match self {
            Ends::Plain => Word("plain"),
            Ends::PlainGround => Word("plain and ground"),
            Ends::Closed => Word("closed"),
            Ends::ClosedGround => Word("closed and ground"),
            Ends::Counted => Word("pigtail or tangential (count the active coils)"),
        }
    }

    /// Coils that do not work. Source `SHI` table 10-1 (from memory; plain-ground and closed-ground seen in worked
    /// solutions). `None` when the active coils have to be counted.
    pub fn dead_coils(self) -> Option<f64> {
        match self {
            Ends::Plain => Some(0.0),
            Ends::PlainGround => Some(1.0),
            Ends::Closed | Ends::ClosedGround => Some(2.0),
            Ends::Counted => None,
        }
    }
}

/// A coil by its wire.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Wire {
    /// Wire diameter, m.
    pub diameter_m: f64,
    /// Mean coil diameter, m: outside minus one wire.
    pub mean_m: f64,
    /// Active coils.
    pub active: f64,
    /// Shear modulus, Pa.
    pub shear_modulus_pa: f64,
    /// How its ends are made.
    pub ends: Ends,
}

impl Wire {
    /// Rate k = G d⁴ / (8 D³ N_a). Source `SHI` eq. 10-9, `EN`.
    ///
    /// ```
    /// use springwright::trade::spring::{Ends, Wire};
    /// use springwright::base::units::Quantity;
    /// let wire = Wire { diameter_m: 0.0142, mean_m: 0.1238, active: 5.6, shear_modulus_pa: 78.5e9, ends: Ends::Closed };
    /// assert!((wire.rate().si() - 37_547.7).abs() < 0.1);
    /// ```
    pub fn rate(&self) -> SpringRate {
        SpringRate::from_si(self.shear_modulus_pa * self.diameter_m.powi(4) / (8.0 * self.mean_m.powi(3) * self.active))
    }

    /// Spring index C = D / d. Source `SHI`.
    pub fn index(&self) -> Ratio {
        Ratio::from_si(self.mean_m / self.diameter_m)
    }

    /// Wahl's factor K_W = (4C−1)/(4C−4) + 0.615/C: direct shear and curvature. Source `SHI`. Valid for C > 1.
    pub fn wahl(&self) -> Ratio {
        let c = self.index().si();
        Ratio::from_si((4.0 * c - 1.0) / (4.0 * c - 4.0) + 0.615 / c)
    }

    /// The factor (C + 0.5)/(C − 0.75). Source `EN` (from memory; the same as Bergsträsser's (4C+2)/(4C−3) in `SHI`).
    /// It differs from Wahl's by at most 1.4 % from C = 4 on.
    pub fn en_factor(&self) -> Ratio {
        let c = self.index().si();
        Ratio::from_si((c + 0.5) / (c - 0.75))
    }

    /// Shear stress K · 8 F D / (π d³) with a curvature factor K. Source `SHI`.
    pub fn stress(&self, force: Force, factor: Ratio) -> Stress {
        Stress::from_si(factor.si() * 8.0 * force.si() * self.mean_m / (PI * self.diameter_m.powi(3)))
    }

    /// All coils, dead ones included; `None` when the ends do not tell.
    pub fn total(&self) -> Option<f64> {
        self.ends.dead_coils().map(|dead| self.active + dead)
    }

    /// Length with all coils touching: d N_t ground, d (N_t + 1) not ground. Source `SHI` table 10-1 (from memory).
    /// `EN` lets an unground cold coil be half a wire longer.
    pub fn solid_length(&self) -> Option<Length> {
        let coils = match self.ends {
            Ends::PlainGround | Ends::ClosedGround => self.total()?,
            Ends::Plain | Ends::Closed => self.total()? + 1.0,
            Ends::Counted => return None,
        };
        Some(Length::from_si(self.diameter_m * coils))
    }

    /// Distance from coil to coil when free: (L0 − n d) / N, n and N by the ends ([`Wire::pitches`]). Source `SHI` table
    /// 10-1 (from memory).
    pub fn pitch(&self, free_length: Length) -> Option<Length> {
        let (thicknesses, pitches) = self.pitches()?;
        Some(Length::from_si((free_length.si() - thicknesses * self.diameter_m) / pitches))
    }

    /// How many thicknesses of wire the free length holds at the ends, and how many pitches between them.
    pub fn pitches(&self) -> Option<(f64, f64)> {
        match self.ends {
            Ends::Plain => Some((1.0, self.active)),
            Ends::PlainGround => Some((0.0, self.active + 1.0)),
            Ends::Closed => Some((3.0, self.active)),
            Ends::ClosedGround => Some((2.0, self.active)),
            Ends::Counted => None,
        }
    }

    /// Wire so thick that it is coiled hot. Source `EN`.
    pub fn is_hot(&self) -> bool {
        self.diameter_m > COLD_UP_TO_M
    }

    /// The least sum of gaps between the coils at the shortest length, load at rest: S_a = n (0.0015 D²/d + 0.1 d)
    /// coiled cold, 0.02 n (D + d) coiled hot. Source `EN` (from secondary sources).
    pub fn sum_of_gaps(&self) -> Length {
        let (d, mean, n) = (self.diameter_m, self.mean_m, self.active);
        Length::from_si(match self.is_hot() {
            false => n * (0.0015 * mean * mean / d + 0.1 * d),
            true => 0.02 * n * (mean + d),
        })
    }

    /// The same for a moving load: 1.5 times as much coiled cold, twice coiled hot. Source `EN` (from secondary sources).
    pub fn least_gaps(&self) -> Length {
        self.sum_of_gaps() * if self.is_hot() { 2.0 } else { 1.5 }
    }

    /// The longest free length that is stable between flat parallel seats: 2.63 D / 0.5. Source `SHI`, steel; a longer
    /// one may buckle unless something guides it.
    pub fn longest_unguided(&self) -> Length {
        Length::from_si(2.63 * self.mean_m / 0.5)
    }

    /// The same wire with some active coils cut off; the new end is not closed. `None` when nothing is left.
    pub fn cut(&self, coils: f64) -> Option<Wire> {
        (coils >= 0.0 && coils < self.active).then_some(Wire { active: self.active - coils, ..*self })
    }
}
