//! Roll: axle and bar stiffness, roll gradient, load moved from side to side.
//!
//! Heights are from the ground, roll is about the axis through the two roll centres. The anti-roll bar is not in
//! heave, so it is in no ride frequency. Source `GIL` ch. 6, `MIL` ch. 18.

pub mod wanted;

use std::f64::consts::PI;

use crate::base::units::{G_M_PER_S2, Length, Mass, Quantity, Ratio, SpringRate, TwistRate};

/// Roll stiffness of an independent axle, N·m/rad: k_w t² / 2. A pair of tyres on its track is the same: k_t t² / 2.
/// Source `GIL` ch. 6.
///
/// ```
/// use springwright::trade::roll::independent;
/// use springwright::base::units::{Length, Quantity, SpringRate};
/// assert_eq!(independent(SpringRate::from_si(20_000.0), Length::from_si(1.5)).si(), 22_500.0);
/// ```
pub fn independent(wheel_rate: SpringRate, track: Length) -> TwistRate {
    TwistRate::from_si(0.5 * wheel_rate.si() * track.si().powi(2))
}

/// Roll stiffness of a beam axle, N·m/rad: ½ Σ k b², each wheel rate on the base b across which it acts.
///
/// The spring with its geometry term, bag, gas and stop act between body and beam, on bases of their own, measured
/// where their axes cross roll-centre height; rubber acts at the wheels, on the track. What twists with the axle
/// (leaves, links) is added by [`together`]. Source `DERIVED` (second derivative of the energy stored); `MIL` ch. 18.
pub fn beam(parts: &[(SpringRate, Length)]) -> TwistRate {
    TwistRate::from_si(parts.iter().map(|(rate, base)| 0.5 * rate.si() * base.si().powi(2)).sum())
}

/// Roll stiffnesses side by side on one axle or one body, N·m/rad: K = ΣK_i.
/// Source `DERIVED` (same roll angle, moments add).
pub fn together(parts: &[TwistRate]) -> TwistRate {
    TwistRate::from_si(parts.iter().map(|k| k.si()).sum())
}

/// Two roll stiffnesses one behind the other, N·m/rad: 1 / (1/K₁ + 1/K₂). In series with a rigid
/// (infinite) one a stiffness keeps its value; with none at all it is none. Source `DERIVED` (same moment, angles add).
pub fn in_series(a: TwistRate, b: TwistRate) -> TwistRate {
    TwistRate::from_si(1.0 / (1.0 / a.si() + 1.0 / b.si()))
}

/// An anti-roll bar.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AntiRollBar {
    /// Outside diameter, m.
    pub diameter_m: f64,
    /// Bore, m; 0 when solid.
    pub inside_m: f64,
    /// Length that twists, m.
    pub length_m: f64,
    /// Blade: square from the bar's axis to the link, m.
    pub blade_m: f64,
    /// Link travel over wheel travel, in roll.
    pub link_ratio: f64,
    /// Shear modulus, Pa.
    pub shear_modulus_pa: f64,
}

impl AntiRollBar {
    /// Twist rate, N·m/rad: k_θ = π G (d⁴ − d_i⁴) / (32 l). Source `SHI`; worked example C18 seen.
    pub fn twist_rate(&self) -> TwistRate {
        let fourth = self.diameter_m.powi(4) - self.inside_m.powi(4);
        TwistRate::from_si(PI * self.shear_modulus_pa * fourth / (32.0 * self.length_m))
    }

    /// Roll stiffness it adds, N·m/rad: k_θ (r_b t / a)².
    ///
    /// The wheels move ± φ t / 2, the links r_b times that, so the bar twists by r_b t φ / a.
    /// Source `DERIVED` (energy); `MIL` ch. 18.
    pub fn roll_stiffness(&self, track: Length) -> TwistRate {
        let arm = self.link_ratio * track.si() / self.blade_m;
        TwistRate::from_si(self.twist_rate().si() * arm * arm)
    }
}

/// The sprung body over its roll axis.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Body {
    /// The whole sprung mass.
    pub sprung: Mass,
    /// From the roll axis up to its centre of gravity.
    pub above_axis: Length,
}

/// **Roll gradient**, rad per m/s²: φ/a_y = m_s h / (ΣK − m_s g h). `None` when the body would fall over.
///
/// On the suspension alone or, with every axle put on its tyres by [`in_series`], with them: never one without its name.
/// Source `BF` p. 174; `GIL` ch. 6.
pub fn gradient_rad_s2_per_m(body: Body, stiffness: TwistRate) -> Option<f64> {
    let moment = body.sprung.si() * body.above_axis.si();
    let left = stiffness.si() - moment * G_M_PER_S2;
    (left > 0.0).then(|| moment / left)
}

/// A roll gradient in degrees per g: φ/a_y · g · 180/π. Source `SP811` (units only).
pub fn degrees_per_g(gradient_rad_s2_per_m: f64) -> f64 {
    (gradient_rad_s2_per_m * G_M_PER_S2).to_degrees()
}

/// What one axle needs for its load transfer.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AxleInRoll {
    /// Its roll stiffness, springs and bar.
    pub stiffness: TwistRate,
    /// Sprung mass on the axle.
    pub sprung: Mass,
    /// Height of its roll centre.
    pub roll_centre: Length,
    /// Unsprung mass of the axle.
    pub unsprung: Mass,
    /// Height of its unsprung centre of gravity.
    pub unsprung_height: Length,
    /// Its track.
    pub track: Length,
}

impl AxleInRoll {
    /// What the outer wheel gains and the inner one loses per unit of lateral acceleration, N per m/s² (that is, kg):
    /// ΔF/a_y = [K φ/a_y + m_s h_rc + m_u h_u] / t. Source `BF` p. 174; `GIL` ch. 6, `MIL` ch. 18.
    pub fn transfer_kg(&self, gradient_rad_s2_per_m: f64) -> f64 {
        (self.stiffness.si() * gradient_rad_s2_per_m
            + self.sprung.si() * self.roll_centre.si()
            + self.unsprung.si() * self.unsprung_height.si())
            / self.track.si()
    }
}

/// Front over the whole roll stiffness: K_F / (K_F + K_R). `None` when there is none. Source `MIL` ch. 18.
pub fn front_share(front: TwistRate, rear: TwistRate) -> Option<Ratio> {
    let whole = front.si() + rear.si();
    (whole > 0.0).then(|| Ratio::from_si(front.si() / whole))
}
