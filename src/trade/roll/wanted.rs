//! Bars the other way round: from the roll that is wanted to the bars that give it.
//!
//! All of it with the tyres in series. A stiffness below nothing is no bar: [`NoBar`] says why there is none.

use std::f64::consts::PI;

use super::{AntiRollBar, AxleInRoll, Body, gradient_rad_s2_per_m, in_series, together};
use crate::base::units::{Angle, G_M_PER_S2, Length, Quantity, Ratio, Stress, TwistRate};

/// An axle whose bar is wanted.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AxleForBar {
    /// Its stiffness is that of the springs alone.
    pub axle: AxleInRoll,
    /// Its tyres in roll.
    pub tyres: TwistRate,
}

/// Why no bar does it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NoBar {
    /// The springs alone hold the body as much, or more.
    NoneNeeded,
    /// Not even a rigid bar would: the tyres give way more than that.
    BeyondTyres,
}

impl AxleForBar {
    /// To the ground with a bar, springs and bar in series with the tyres.
    fn to_ground(self, bar: TwistRate) -> TwistRate {
        in_series(together(&[self.axle.stiffness, bar]), self.tyres)
    }

    /// The bar that gives this stiffness to the ground. Source `DERIVED` (in series).
    fn bar_for(&self, to_ground_nm: f64) -> Result<TwistRate, NoBar> {
        if to_ground_nm >= self.tyres.si() {
            return Err(NoBar::BeyondTyres);
        }
        let on_tyres = 1.0 / (1.0 / to_ground_nm - 1.0 / self.tyres.si());
        let bar = on_tyres - self.axle.stiffness.si();
        if to_ground_nm > 0.0 && bar > 0.0 { Ok(TwistRate::from_si(bar)) } else { Err(NoBar::NoneNeeded) }
    }

    /// What the outer wheel gains for each unit of lateral acceleration, kg, with this stiffness to the ground.
    fn gains_kg(&self, to_ground: TwistRate, gradient: f64) -> f64 {
        AxleInRoll { stiffness: to_ground, ..self.axle }.transfer_kg(gradient)
    }
}

/// Roll gradient with bars, rad per m/s², tyres included; `None` when the body would fall over. Source `GIL` ch. 6.
pub fn gradient(axles: &[AxleForBar; 2], bars: [TwistRate; 2], body: Body) -> Option<f64> {
    gradient_rad_s2_per_m(body, together(&[axles[0].to_ground(bars[0]), axles[1].to_ground(bars[1])]))
}

/// Front share of the lateral load transfer with bars: ΔF_F/(ΔF_F + ΔF_R). Source `MIL` ch. 18.
pub fn front_transfer(axles: &[AxleForBar; 2], bars: [TwistRate; 2], body: Body) -> Option<Ratio> {
    let gradient = gradient(axles, bars, body)?;
    let [front, rear] = [0, 1].map(|i| axles[i].gains_kg(axles[i].to_ground(bars[i]), gradient));
    Some(Ratio::from_si(front / (front + rear)))
}

/// Stiffness to the ground of both axles together for a gradient, N·m/rad: m_s h/(φ/a_y) + m_s g h.
/// Source `DERIVED` (the gradient turned round).
fn stiffness_for(body: Body, gradient: f64) -> f64 {
    let moment = body.sprung.si() * body.above_axis.si();
    moment / gradient + moment * G_M_PER_S2
}

/// The bar of one axle (0 front, 1 rear) that gives a roll gradient while the other axle keeps its bar.
///
/// # Errors
/// [`NoBar`] when none does. Source `DERIVED`.
pub fn bar_alone(
    axles: &[AxleForBar; 2],
    body: Body,
    gradient: f64,
    which: usize,
    other: TwistRate,
) -> Result<TwistRate, NoBar> {
    let rest = axles[1 - which].to_ground(other).si();
    axles[which].bar_for(stiffness_for(body, gradient) - rest)
}

/// The bars of both axles that give a roll gradient and a front share of the lateral load transfer.
///
/// The share settles how the stiffness to the ground is split: a straight line. Each axle by itself may need none.
/// Source `DERIVED`.
pub fn both_bars(
    axles: &[AxleForBar; 2],
    body: Body,
    gradient: f64,
    front_share: Ratio,
) -> [Result<TwistRate, NoBar>; 2] {
    let [front, rear] = [&axles[0], &axles[1]];
    let none = TwistRate::from_si(0.0);
    let whole = stiffness_for(body, gradient);
    let rear_of = |front_nm: f64| TwistRate::from_si(whole - front_nm);
    // (1 − s) ΔF_F − s ΔF_R is straight in the front's stiffness: its zero from two points.
    let share = front_share.si();
    let miss = |front_nm: f64| {
        (1.0 - share) * front.gains_kg(TwistRate::from_si(front_nm), gradient)
            - share * rear.gains_kg(rear_of(front_nm), gradient)
    };
    let (at_none, at_all) = (miss(none.si()), miss(whole));
    let front_nm = whole * at_none / (at_none - at_all);
    [front.bar_for(front_nm), rear.bar_for(whole - front_nm)]
}

impl AntiRollBar {
    /// Diameter of the bar of this bore, length, blade and ratio that has a roll stiffness: d⁴ = d_i⁴ + 32 l K a²/(π G
    /// r_b² t²). Source `SHI` (twist rate turned round).
    pub fn diameter_for(&self, stiffness: TwistRate, track: Length) -> Length {
        let arm = self.link_ratio * track.si() / self.blade_m;
        let twist_rate = stiffness.si() / (arm * arm);
        let solid = 32.0 * self.length_m * twist_rate / (PI * self.shear_modulus_pa);
        Length::from_si((self.inside_m.powi(4) + solid).powf(0.25))
    }

    /// Shear stress when the axle leans against the body, Pa: G d r_b t φ/(2 a l). Source `DERIVED` (twist times G d/2l).
    pub fn stress(&self, track: Length, lean: Angle) -> Stress {
        let twist = self.link_ratio * track.si() * lean.si() / self.blade_m;
        Stress::from_si(self.shear_modulus_pa * self.diameter_m * twist / (2.0 * self.length_m))
    }

    /// What it adds at one wheel while the other is held, N/m: k_θ r_b²/a². Source `DERIVED` (energy).
    pub fn one_wheel_n_per_m(&self) -> f64 {
        self.twist_rate().si() * (self.link_ratio / self.blade_m).powi(2)
    }
}
