//! Springs: every kind is a force at a length.
//!
//! Each kind answers two questions, force and rate at a length, so that all
//! later steps are one path. To add a kind, add a variant and its answers.

mod bag;
mod bar;
mod coil;
mod leaf;
mod material;
mod points;
pub mod press;
mod stack;
pub mod stock_wire;
mod winding;
mod wire;

pub use bag::{ATMOSPHERE_PA, AirBag};
pub use bar::{Bar, TorsionBar};
pub use coil::Coil;
pub use leaf::{Beside, Leaf, LeafPack, LeafRow, LeafTest, OnHelper};
pub use material::{Material, NOT_PRESET_SOLID};
pub use points::Points;
pub use stack::Stack;
pub use winding::{Wanted, WindingLimit, Wound};
pub use wire::{COLD_UP_TO_M, Ends, Wire};

use crate::base::math::roots;
use crate::base::units::{Angle, Force, Length, Quantity, SpringRate};

/// A spring of any kind.
#[derive(Debug, Clone, PartialEq)]
pub enum Spring {
    /// A coil of constant rate.
    Coil(Coil),
    /// A helper coil over a main coil.
    Stack(Stack),
    /// A progressive or dual-rate coil by points.
    Points(Points),
    /// A torsion bar with its arm.
    Bar(TorsionBar),
    /// A leaf.
    Leaf(Leaf),
    /// A leaf over a helper pack.
    OnHelper(OnHelper),
}

impl Spring {
    /// Force along the spring's own axis at this length, N, + in compression.
    pub fn force_n(&self, length_m: f64) -> f64 {
        match self {
            Spring::Coil(coil) => coil.force_n(length_m),
            Spring::Stack(stack) => stack.force_n(length_m),
            Spring::Points(points) => points.force_n(length_m),
            Spring::Bar(bar) => bar.force_n(length_m),
            Spring::Leaf(leaf) => leaf.force_n(length_m),
            Spring::OnHelper(leaves) => leaves.force_n(length_m),
        }
    }

    /// Slope of force against compression at this length, N/m.
    pub fn rate_n_per_m(&self, length_m: f64) -> f64 {
        match self {
            Spring::Coil(coil) => coil.rate_n_per_m(length_m),
            Spring::Stack(stack) => stack.rate_n_per_m(length_m),
            Spring::Points(points) => points.rate_n_per_m(length_m),
            Spring::Bar(bar) => bar.rate_n_per_m(length_m),
            Spring::Leaf(leaf) => leaf.rate_n_per_m,
            Spring::OnHelper(leaves) => leaves.rate_n_per_m(length_m),
        }
    }

    /// Work stored when compressed from loose to this length, J: the integral of force over compression.
    pub fn energy_j(&self, length_m: f64) -> f64 {
        match self {
            Spring::Coil(coil) => coil.energy_j(length_m),
            Spring::Stack(stack) => stack.energy_j(length_m),
            Spring::Points(points) => points.energy_j(length_m),
            Spring::Bar(bar) => bar.energy_j(length_m),
            Spring::Leaf(leaf) => leaf.energy_j(length_m),
            Spring::OnHelper(leaves) => leaves.energy_j(length_m),
        }
    }

    /// The length at which it carries nothing, m.
    pub fn free_length_m(&self) -> f64 {
        match self {
            Spring::Coil(coil) => coil.free_length_m,
            Spring::Stack(stack) => stack.free_length_m(),
            Spring::Points(points) => points.free_length_m(),
            Spring::Bar(bar) => bar.free_length_m(),
            Spring::Leaf(leaf) => leaf.free_height_m,
            Spring::OnHelper(leaves) => leaves.main.free_height_m,
        }
    }

    /// Length with all coils touching, m, if known and if there are coils.
    pub fn solid_length_m(&self) -> Option<f64> {
        match self {
            Spring::Coil(coil) => coil.solid_length_m,
            Spring::Stack(stack) => stack.solid_length_m(),
            Spring::Points(points) => points.solid_length_m(),
            Spring::Bar(_) | Spring::Leaf(_) | Spring::OnHelper(_) => None,
        }
    }

    /// It only pushes, so it can come loose; bars and leaves are clamped and pull.
    pub fn can_be_loose(&self) -> bool {
        matches!(self, Spring::Coil(_) | Spring::Stack(_) | Spring::Points(_))
    }

    /// A coil on its seats: over a helper, or alone.
    pub fn seated(coil: Coil, helper: Option<Coil>) -> Spring {
        match helper {
            Some(helper) => Spring::Stack(Stack { helper, main: coil }),
            None => Spring::Coil(coil),
        }
    }

    /// The same coil on a spacer of this thickness, solid length included, a leaf on a block; − for a seat that is
    /// lowered. Bars stay as they are.
    #[must_use]
    pub fn moved(self, spacer: Length) -> Spring {
        match self {
            Spring::Coil(coil) => Spring::Coil(coil.moved(spacer.si())),
            Spring::Stack(stack) => Spring::Stack(Stack { main: stack.main.moved(spacer.si()), ..stack }),
            Spring::Points(points) => Spring::Points(points.moved(spacer.si())),
            Spring::Leaf(leaf) => Spring::Leaf(leaf.moved(spacer.si())),
            Spring::OnHelper(leaves) => Spring::OnHelper(leaves.moved(spacer.si())),
            Spring::Bar(bar) => Spring::Bar(bar),
        }
    }

    /// The same bar indexed again, + winds it up. Others stay as they are.
    #[must_use]
    pub fn indexed(self, by: Angle) -> Spring {
        match self {
            Spring::Bar(bar) => Spring::Bar(TorsionBar { free_angle_rad: bar.free_angle_rad + by.si(), ..bar }),
            other => other,
        }
    }

    /// The same leaf with another one of this rate and of more camber when both are free: clamped into the pack, both give
    /// way by as much. One of less camber is a helper pack, which carries only once the leaf has given way so far. Others
    /// stay as they are. Source `DERIVED`: k = k₁ + k₂, h = h₁ + n k₂ / k.
    #[must_use]
    pub fn with_leaf(self, rate: SpringRate, nip: Length) -> Spring {
        match self {
            Spring::Leaf(leaf) => {
                let added = Leaf { rate_n_per_m: rate.si(), free_height_m: leaf.free_height_m + nip.si() };
                match nip.si() < 0.0 {
                    true => Spring::OnHelper(OnHelper { main: leaf, helper: added }),
                    false => Spring::Leaf(leaf.clamped_with(&added)),
                }
            }
            other => other,
        }
    }

    /// The same spring with this multiple of its rate and of the same free length: what is bought, the main coil of a stack.
    /// A spring by points stays as it is.
    #[must_use]
    pub fn times(self, factor: f64) -> Spring {
        let coil = |coil: Coil| Coil { rate_n_per_m: coil.rate_n_per_m * factor, ..coil };
        match self {
            Spring::Coil(one) => Spring::Coil(coil(one)),
            Spring::Stack(stack) => Spring::Stack(Stack { main: coil(stack.main), ..stack }),
            Spring::Bar(bar) => {
                Spring::Bar(TorsionBar { twist_rate_nm_per_rad: bar.twist_rate_nm_per_rad * factor, ..bar })
            }
            Spring::Leaf(leaf) => Spring::Leaf(leaf.times(factor)),
            Spring::OnHelper(leaves) => Spring::OnHelper(leaves.times(factor)),
            points @ Spring::Points(_) => points,
        }
    }

    /// The same spring with another free length, its solid length as it is: of a stack the main coil, of a leaf its
    /// camber. Bars and springs by points stay as they are.
    #[must_use]
    pub fn longer_by(self, by: Length) -> Spring {
        let coil = |coil: Coil| Coil { free_length_m: coil.free_length_m + by.si(), ..coil };
        match self {
            Spring::Coil(one) => Spring::Coil(coil(one)),
            Spring::Stack(stack) => Spring::Stack(Stack { main: coil(stack.main), ..stack }),
            Spring::Leaf(leaf) => Spring::Leaf(leaf.moved(by.si())),
            Spring::OnHelper(leaves) => Spring::OnHelper(leaves.moved(by.si())),
            other => other,
        }
    }

    /// Two springs of one kind as one: at any length it carries the mean of what both carry, while both work. Their solid
    /// length is the mean, too. Springs by points and bars have one rate and differ in their seats alone. Source `DERIVED`:
    /// k = (k₁ + k₂)/2, L0 = (k₁ L0₁ + k₂ L0₂)/(k₁ + k₂); of bars θ0 = (θ0₁ + θ0₂)/2.
    #[must_use]
    pub fn shared_with(self, other: &Spring) -> Spring {
        match (self, other) {
            (one, other) if one == *other => one,
            (Spring::Coil(one), Spring::Coil(other)) => Spring::Coil(one.shared_with(other)),
            (Spring::Stack(one), Spring::Stack(other)) => {
                Spring::Stack(Stack { main: one.main.shared_with(&other.main), ..one })
            }
            (Spring::Leaf(one), Spring::Leaf(other)) => Spring::Leaf(one.clamped_with(other).times(0.5)),
            (Spring::OnHelper(one), Spring::OnHelper(other)) => Spring::OnHelper(OnHelper {
                main: one.main.clamped_with(&other.main).times(0.5),
                helper: one.helper.clamped_with(&other.helper).times(0.5),
            }),
            (Spring::Bar(one), Spring::Bar(other)) => {
                let half_rad = (other.free_angle_rad - one.free_angle_rad) / 2.0;
                Spring::Bar(TorsionBar { free_angle_rad: one.free_angle_rad + half_rad, ..one })
            }
            (one, other) => {
                let half_m = (other.free_length_m() - one.free_length_m()) / 2.0;
                one.moved(Length::from_si(half_m))
            }
        }
    }

    /// The same spring with its seat moved so that it carries `force` at `length`: a spacer under a coil, a bar indexed
    /// again, a leaf on a block. `None` when it cannot carry that force at all. A negative force, where a bag more than
    /// carries the wheel, is answered by the kinds that can pull, and by a coil of constant rate: loose by as much as
    /// it would have to pull, so that it can be reported. Other coils give `None`.
    ///
    /// The seat moved by the difference of the free lengths.
    pub fn carrying(&self, force: Force, length: Length) -> Option<Spring> {
        Some(match self {
            Spring::Coil(coil) => Spring::Coil(coil.moved(length.si() - coil.length_for_m(force.si()))),
            Spring::Stack(stack) => {
                let by_m = length.si() - self.length_for_m(force.si())?;
                Spring::Stack(Stack { main: stack.main.moved(by_m), ..*stack })
            }
            Spring::Points(points) => {
                Spring::Points(points.clone().moved(length.si() - points.length_for_m(force.si())?))
            }
            Spring::Bar(bar) => Spring::Bar(bar.carrying(force, length)),
            Spring::Leaf(leaf) => {
                Spring::Leaf(Leaf { free_height_m: length.si() + force.si() / leaf.rate_n_per_m, ..*leaf })
            }
            Spring::OnHelper(leaves) => Spring::OnHelper(leaves.moved(length.si() - leaves.length_for_m(force.si()))),
        })
    }

    /// The length at which it carries a force, m; `None` when no length does.
    pub fn length_for_m(&self, force_n: f64) -> Option<f64> {
        const BEYOND_M: f64 = 2.0;
        let free_m = self.free_length_m();
        match self {
            Spring::Coil(coil) => Some(coil.length_for_m(force_n)),
            Spring::Leaf(leaf) => Some(free_m - force_n / leaf.rate_n_per_m),
            Spring::OnHelper(leaves) => Some(leaves.length_for_m(force_n)),
            Spring::Points(points) => points.length_for_m(force_n),
            Spring::Stack(_) | Spring::Bar(_) => {
                roots::between(free_m - BEYOND_M, free_m, 1e-12, |l| self.force_n(l) - force_n)
            }
        }
    }

    /// The same spring with its length when all coils touch, as measured; a bar or a leaf has none.
    #[must_use]
    pub fn with_solid_length(self, solid: Option<Length>) -> Spring {
        let solid_length_m = solid.map(Quantity::si);
        match self {
            Spring::Coil(coil) => Spring::Coil(Coil { solid_length_m, ..coil }),
            Spring::Stack(stack) => Spring::Stack(Stack { main: Coil { solid_length_m, ..stack.main }, ..stack }),
            Spring::Points(points) => Spring::Points(points.with_solid_length(solid_length_m)),
            other => other,
        }
    }
}
