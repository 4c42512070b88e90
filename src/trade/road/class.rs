//! Classes of road roughness.

use std::f64::consts::TAU;

use serde::{Deserialize, Serialize};

use crate::base::language::Word;
use crate::base::units::{Quantity, Velocity};

/// n₀, the spatial frequency at which roughness is stated, cycles per metre. Source `R8608`.
pub const REFERENCE_PER_M: f64 = 0.1;

/// How rough a road is, smooth to very poor. Source `R8608`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Hash, PartialOrd, Ord, Serialize, Deserialize)]
pub enum RoadClass {
    /// A new motorway.
    A,
    /// A good road.
    B,
    /// An ordinary road with patches.
    #[default]
    C,
    /// A poor road.
    D,
    /// A track.
    E,
}

impl RoadClass {
    /// All, the smoothest first.
    pub const ALL: [RoadClass; 5] = [RoadClass::A, RoadClass::B, RoadClass::C, RoadClass::D, RoadClass::E];

    /// Its letter.
    pub fn letter(self) -> &'static str {
        ["A", "B", "C", "D", "E"][self as usize]
    }

    /// What such a road looks like. Common practice, no source: the standard describes none.
    pub fn words(self) -> Word {
        match self {
            RoadClass::A => Word("a new motorway"),
            RoadClass::B => Word("a good road"),
            RoadClass::C => Word("an ordinary road with patches"),
            RoadClass::D => Word("a poor road"),
            RoadClass::E => Word("a rough track"),
        }
    }

    /// The class of a letter, capital or small.
    pub fn of(letter: &str) -> Option<RoadClass> {
        Self::ALL.into_iter().find(|c| c.letter().eq_ignore_ascii_case(letter.trim()))
    }

    /// G_d(n₀), m³: the geometric mean of the class, 16·10⁻⁶ for A and four times more from class to class. Source `R8608`.
    pub fn mean_m3(self) -> f64 {
        16e-6 * 4f64.powi(self as i32)
    }
}

/// Displacement spectrum of a road, m³: G_d(n) = G_d(n₀)(n/n₀)⁻², one-sided, n in cycles per metre. Source `R8608`.
pub fn displacement_psd_m3(roughness_m3: f64, per_m: f64) -> f64 {
    roughness_m3 * (per_m / REFERENCE_PER_M).powi(-2)
}

/// A road driven at a speed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Passage {
    /// The class of the road, at its geometric mean.
    pub class: RoadClass,
    /// The speed of the vehicle.
    pub speed: Velocity,
}

impl Passage {
    /// **G_v**, m²/s: the spectrum of the road's vertical velocity under the moving wheel, one-sided, per Hz; the same
    /// at every frequency: G_v = (2πn₀)² G_d(n₀) v. Source `R8608`, `DERIVED`.
    ///
    /// ```
    /// use springwright::trade::road::{Passage, RoadClass};
    /// use springwright::base::units::{Quantity, Velocity};
    /// let passage = Passage { class: RoadClass::D, speed: Velocity::from_si(10.0) };
    /// assert!((passage.velocity_psd_m2_per_s() - 4.0426e-3).abs() < 1e-7);
    /// ```
    pub fn velocity_psd_m2_per_s(&self) -> f64 {
        (TAU * REFERENCE_PER_M).powi(2) * self.class.mean_m3() * self.speed.si()
    }
}
