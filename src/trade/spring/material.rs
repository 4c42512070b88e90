//! Spring steels: shear modulus, tensile strength by wire size, usual allowed share in shear.

use serde::{Deserialize, Serialize};

use crate::base::language::Word;
use crate::base::units::{Length, Quantity, Stress};

/// A spring that was not preset may see this share of its tensile strength when solid, without a factor.
/// Source `EN` (from memory), coiled cold.
pub const NOT_PRESET_SOLID: f64 = 0.56;

/// A spring steel.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Hash, Serialize, Deserialize)]
pub enum Material {
    /// Oil-tempered carbon steel.
    OilTempered,
    /// Music wire: small springs.
    MusicWire,
    /// Hard-drawn carbon steel.
    HardDrawn,
    /// Chrome-vanadium.
    ChromeVanadium,
    /// Chrome-silicon: usual for suspension coils (common practice, no source).
    #[default]
    ChromeSilicon,
    /// Silicon-manganese, mostly hot wound and for leaves.
    SiliconManganese,
}

/// Minimum tensile strength S = A / d^m, d in mm.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Strength {
    a_mpa: f64,
    m: f64,
    /// Wire sizes the constants were made for, mm.
    range_mm: (f64, f64),
}

impl Material {
    /// All materials.
    pub const ALL: [Material; 6] = [
        Material::OilTempered,
        Material::MusicWire,
        Material::HardDrawn,
        Material::ChromeVanadium,
        Material::ChromeSilicon,
        Material::SiliconManganese,
    ];

    /// The words on screen and paper.
    pub fn words(self) -> Word {
        match self {
            Material::OilTempered => Word("oil-tempered carbon steel"),
            Material::MusicWire => Word("music wire"),
            Material::HardDrawn => Word("hard-drawn carbon steel"),
            Material::ChromeVanadium => Word("chrome-vanadium"),
            Material::ChromeSilicon => Word("chrome-silicon"),
            Material::SiliconManganese => Word("silicon-manganese"),
        }
    }

    /// Shear modulus, as it could be typed. Source `MH` (seen): 11.2 Mpsi for oil-tempered, chrome-vanadium and
    /// chrome-silicon, 10.75 for silicon-manganese, 11.6 for music wire of 3.2 mm and more, 11.4 for thick hard-drawn
    /// wire.
    pub fn shear_modulus(self) -> &'static str {
        match self {
            Material::OilTempered | Material::ChromeVanadium | Material::ChromeSilicon => "77.2 GPa",
            Material::MusicWire => "80.0 GPa",
            Material::HardDrawn => "78.6 GPa",
            Material::SiliconManganese => "74.1 GPa",
        }
    }

    /// Minimum tensile strength S = A / d^m of a wire. `None` for silicon-manganese: no constants were at hand.
    ///
    /// Source `SHI` table 10-4 (music wire seen in worked solutions; oil-tempered and hard-drawn seen in `JIN`;
    /// chrome-vanadium and chrome-silicon from memory).
    pub fn tensile_strength(self, wire: Length) -> Option<Stress> {
        let s = self.strength()?;
        Some(Stress::from_si(1e6 * s.a_mpa / (wire.si() * 1e3).powf(s.m)))
    }

    /// True when the strength of this wire size is read outside the range its constants were made for.
    pub fn is_extrapolated(self, wire: Length) -> bool {
        let wire_mm = wire.si() * 1e3;
        self.strength().is_some_and(|s| !(s.range_mm.0..=s.range_mm.1).contains(&wire_mm))
    }

    /// Allowed shear stress as a share of tensile strength, as it could be typed: static, before set is taken out.
    ///
    /// Source `SHI` table 10-6: music wire 0.45 seen in worked solutions; oil-tempered 0.50 seen in `JIN`; the
    /// others from memory.
    pub fn allowed_share(self) -> &'static str {
        match self {
            Material::MusicWire | Material::HardDrawn => "45 %",
            _ => "50 %",
        }
    }

    /// A in MPa, m, and the wire sizes in mm the two were made for: S = A / d^m, d in mm. Source `SHI`, as
    /// [`Material::tensile_strength`].
    pub fn strength_law(self) -> Option<(f64, f64, (f64, f64))> {
        self.strength().map(|s| (s.a_mpa, s.m, s.range_mm))
    }

    /// The same after set has been taken out by pressing the spring solid, as usual for suspension springs: the lower
    /// end of 65 to 75 %, 60 to 70 % for music and hard-drawn wire. Source `SHI` table 10-6 (from memory), which holds
    /// it against direct shear alone; held against Wahl's stress it is on the safe side.
    pub fn allowed_share_set(self) -> &'static str {
        match self {
            Material::MusicWire | Material::HardDrawn => "60 %",
            _ => "65 %",
        }
    }

    /// Allowed shear stress when solid, without a factor, as a share of tensile strength, as it could be typed: 56 % for
    /// a cold-coiled spring; preset, the lower end of what is allowed against direct shear once set is taken out.
    ///
    /// Source `EN` (0.56, from memory), `SHI` table 10-6 (set taken out, from memory). Hot-coiled springs have a limit
    /// of their own by bar diameter in `EN`, which was not at hand: the same share is taken, and reported.
    pub fn solid_share(self, is_preset: bool) -> &'static str {
        if is_preset { self.allowed_share_set() } else { "56 %" }
    }

    fn strength(self) -> Option<Strength> {
        let of = |a_mpa, m, low, high| Some(Strength { a_mpa, m, range_mm: (low, high) });
        match self {
            Material::MusicWire => of(2211.0, 0.145, 0.10, 6.5),
            Material::OilTempered => of(1855.0, 0.187, 0.5, 12.7),
            Material::HardDrawn => of(1783.0, 0.190, 0.7, 12.7),
            Material::ChromeVanadium => of(2005.0, 0.168, 0.8, 11.1),
            Material::ChromeSilicon => of(1974.0, 0.108, 1.6, 9.5),
            Material::SiliconManganese => None,
        }
    }
}
