//! A torsion bar with its arm, as a spring whose length is how far the arm's end hangs below the bar.

use std::f64::consts::PI;

use crate::base::units::{Angle, Force, Length, Quantity, Ratio, Stress, TwistRate};

/// Beyond this angle of the arm its own geometry is no longer followed, rad.
const STEEPEST_RAD: f64 = 1.3;

/// The bar itself.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bar {
    /// Outside diameter, m.
    pub diameter_m: f64,
    /// Inside diameter, m; 0 for a solid bar.
    pub inside_m: f64,
    /// Working length between the splines, m.
    pub length_m: f64,
    /// Shear modulus, Pa.
    pub shear_modulus_pa: f64,
}

impl Bar {
    /// Twist rate k_θ = π G (d⁴ − d_i⁴) / (32 l). Source `SHI`; worked example C18 seen.
    pub fn twist_rate(&self) -> TwistRate {
        TwistRate::from_si(PI * self.shear_modulus_pa * self.fourth_powers() / (32.0 * self.length_m))
    }

    /// Shear stress 16 T d / (π (d⁴ − d_i⁴)) at the surface. Source `SHI`; worked example C18 seen.
    pub fn stress_pa(&self, torque_nm: f64) -> f64 {
        16.0 * torque_nm * self.diameter_m / (PI * self.fourth_powers())
    }

    /// The outside diameter that gives this twist rate, inside diameter, length and modulus unchanged.
    pub fn diameter_for(&self, twist_rate: TwistRate) -> Length {
        let fourth = 32.0 * self.length_m * twist_rate.si() / (PI * self.shear_modulus_pa) + self.inside_m.powi(4);
        Length::from_si(fourth.max(0.0).powf(0.25))
    }

    /// By how much the diameter may be off for a rate off by no more than this share: δ (d⁴ − d_i⁴) / (4 d³). Source
    /// `DERIVED` (the slope of d⁴).
    pub fn diameter_tolerance(&self, of_rate: Ratio) -> Length {
        Length::from_si(of_rate.si() * self.fourth_powers() / (4.0 * self.diameter_m.powi(3)))
    }

    fn fourth_powers(&self) -> f64 {
        self.diameter_m.powi(4) - self.inside_m.powi(4)
    }
}

/// Bar and arm. F = T / (R cos α), k = k_θ/(R² cos² α) − F tan α/(R cos α), α below level + at the arm's end.
/// Source `DERIVED` (virtual work; checked against the slope of the force).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TorsionBar {
    /// Twist rate, N·m/rad.
    pub twist_rate_nm_per_rad: f64,
    /// From the bar's axis to where the wheel's load acts, m.
    pub arm_m: f64,
    /// Arm angle below level at which the bar is unwound, rad.
    pub free_angle_rad: f64,
}

impl TorsionBar {
    /// Arm angle below level at a length (how far the arm's end hangs below the bar), rad.
    pub fn angle_rad(&self, length_m: f64) -> f64 {
        (length_m / self.arm_m).clamp(-STEEPEST_RAD.sin(), STEEPEST_RAD.sin()).asin()
    }

    /// How far the arm's end hangs below the bar when the bar is unwound, m.
    pub fn free_length_m(&self) -> f64 {
        self.arm_m * self.free_angle_rad.sin()
    }

    /// Arm angle below level at a length.
    pub fn angle(&self, length: Length) -> Angle {
        Angle::from_si(self.angle_rad(length.si()))
    }

    /// How far the bar is wound up at a length.
    pub fn twist(&self, length: Length) -> Angle {
        Angle::from_si(self.free_angle_rad - self.angle_rad(length.si()))
    }

    /// Torque in the bar at a length, N·m: T = k_θ (θ0 − α). Source `DERIVED` (definition of the twist rate).
    pub fn torque_nm(&self, length_m: f64) -> f64 {
        self.twist_rate_nm_per_rad * self.twist(Length::from_si(length_m)).si()
    }

    /// Force at the arm's end, upright, N. A bar is clamped at both ends: unwound past zero it pulls.
    pub fn force_n(&self, length_m: f64) -> f64 {
        let angle = self.angle_rad(length_m);
        let inside = self.torque_nm(length_m) / (self.arm_m * angle.cos());
        inside - (length_m - self.arm_m * angle.sin()) * self.rate_n_per_m(length_m)
    }

    /// Slope of force against compression at a length, N/m.
    pub fn rate_n_per_m(&self, length_m: f64) -> f64 {
        let angle = self.angle_rad(length_m);
        let reach_m = self.arm_m * angle.cos();
        let force_n = self.torque_nm(length_m) / reach_m;
        self.twist_rate_nm_per_rad / (reach_m * reach_m) - force_n * angle.tan() / reach_m
    }

    /// Work stored at a length, J.
    pub fn energy_j(&self, length_m: f64) -> f64 {
        let twist = self.twist(Length::from_si(length_m)).si();
        let beyond_m = length_m - self.arm_m * self.angle_rad(length_m).sin();
        let end_n = self.torque_nm(length_m) / (self.arm_m * self.angle_rad(length_m).cos());
        0.5 * self.twist_rate_nm_per_rad * twist * twist - end_n * beyond_m
            + 0.5 * self.rate_n_per_m(length_m) * beyond_m * beyond_m
    }

    /// The same bar indexed so that it carries a force at a length.
    #[must_use]
    pub fn carrying(self, force: Force, length: Length) -> Self {
        let angle = self.angle_rad(length.si());
        let torque_nm = force.si() * self.arm_m * angle.cos();
        TorsionBar { free_angle_rad: angle + torque_nm / self.twist_rate_nm_per_rad, ..self }
    }

    /// The twist rate that gives a rate at a length under a force, N·m/rad: k_θ = (k + F tan α/(R cos α)) R² cos² α.
    /// Source `DERIVED` (the rate at the arm's end, solved for k_θ).
    pub fn twist_rate_for(&self, rate_n_per_m: f64, force: Force, length: Length) -> TwistRate {
        let angle = self.angle_rad(length.si());
        let reach_m = self.arm_m * angle.cos();
        TwistRate::from_si((rate_n_per_m + force.si() * angle.tan() / reach_m) * reach_m * reach_m)
    }

    /// Shear stress of a bar of these sizes at a length.
    pub fn stress(&self, bar: &Bar, length: Length) -> Stress {
        Stress::from_si(bar.stress_pa(self.torque_nm(length.si())))
    }
}
