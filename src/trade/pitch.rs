//! Pitch and bounce of a rigid body on its two axles, braking dive, where the lamps point, and each end after a hump.

use std::f64::consts::{PI, TAU};

use crate::base::units::{Angle, Frequency, G_M_PER_S2, Length, Mass, Quantity, Ratio, SpringRate, Time, Velocity};

/// A sprung body on two axles.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TwoAxles {
    /// Sprung mass, whole.
    pub sprung: Mass,
    /// Rate of the front axle: both wheels.
    pub front_rate: SpringRate,
    /// Rate of the rear axle: both wheels.
    pub rear_rate: SpringRate,
    /// Front axle to the sprung centre of gravity.
    pub a: Length,
    /// Sprung centre of gravity to the rear axle.
    pub b: Length,
    /// κ², m²: pitch radius of gyration squared. Not measured: a·b, and say so.
    pub radius_squared_m2: f64,
}

/// One of the two ways in which the body swings by itself.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Mode {
    /// How often.
    pub frequency: Frequency,
    /// The point that stays still, + ahead of the centre of gravity; `None` when the body stays level.
    pub node: Option<Length>,
}

/// A node further off than this many pitch radii is no node: the body stays level.
const LEVEL_RADII: f64 = 1e6;

impl TwoAxles {
    /// The two modes, slower one first. Source `GIL` ch. 5 (formulas re-derived).
    ///
    /// α = (K_F + K_R)/m, β = (b K_R − a K_F)/m, γ = (a² K_F + b² K_R)/(m κ²), all in 1/s² (β in m/s²),
    /// ω² = (α + γ)/2 ± √((α − γ)²/4 + β²/κ²), node at −β/(α − ω²) ahead of the centre of gravity, m.
    ///
    /// Both ω² multiplied are K_F K_R L²/(m κ)²: the slower one follows from that, however far apart they are.
    /// The two nodes lie on both sides of it, their product is −κ²: the second follows from the first without loss of
    /// digits. With β = 0 bounce (no node) and pitch (node at the centre of gravity) do not mix.
    pub fn modes(&self) -> [Mode; 2] {
        let (m, kappa2) = (self.sprung.si(), self.radius_squared_m2);
        let (front, rear) = (self.front_rate.si(), self.rear_rate.si());
        let (a, b) = (self.a.si(), self.b.si());
        let alpha = (front + rear) / m;
        let beta = (b * rear - a * front) / m;
        let gamma = (a * a * front + b * b * rear) / (m * kappa2);
        let delta = 0.5 * (alpha - gamma);
        let half = (delta * delta + beta * beta / kappa2).sqrt();
        let quicker = 0.5 * (alpha + gamma) + half;
        let slower = front * rear * (a + b).powi(2) / (m * m * kappa2) / quicker;
        let mode = |square: f64, node_m: f64| Mode {
            frequency: Frequency::from_si(square.max(0.0).sqrt() / TAU),
            node: (node_m.abs() < LEVEL_RADII * kappa2.sqrt()).then(|| Length::from_si(node_m)),
        };
        // The mode nearer to pitch has its node near; the other's is −κ² over it. Both are 0/0 when α = γ and β = 0.
        let near_m = if beta == 0.0 { 0.0 } else { beta / (delta.abs() + half) };
        let far_m = if near_m == 0.0 { f64::INFINITY } else { -kappa2 / near_m };
        if delta > 0.0 {
            [mode(slower, 0.0 - near_m), mode(quicker, -far_m)]
        } else {
            [mode(slower, far_m), mode(quicker, near_m)]
        }
    }
}

/// What braking presses into one front corner, m: m a_x h / (2 L) · (1 − anti-dive share) / k_w. Source `GIL` ch. 3.
///
/// It uses the same bump room as the reserve.
pub fn braking_dive(
    whole: Mass,
    height: Length,
    wheelbase: Length,
    braking_g: Ratio,
    anti_dive: Ratio,
    wheel_rate: SpringRate,
) -> Length {
    let gained_n = whole.si() * braking_g.si() * G_M_PER_S2 * height.si() / wheelbase.si();
    Length::from_si(0.5 * gained_n * (1.0 - anti_dive.si()) / wheel_rate.si())
}

/// How far a lamp's beam moves up at a distance when the body pitches, m: D tan(pitch), + up, relative to the lamp.
/// Source `DERIVED`.
pub fn beam_shift(distance: Length, nose_up: Angle) -> Length {
    distance * nose_up.si().tan()
}

/// Nose-up angle, rad, from the rise of the body at both axles against the ground: atan((Δ_F − Δ_R)/L).
/// Source `DERIVED`.
///
/// ```
/// use springwright::trade::pitch::{beam_shift, nose_up};
/// use springwright::base::units::{Length, Quantity};
/// let m = Length::from_si;
/// let up = nose_up(m(0.010), m(-0.020), m(3.0));
/// assert!((beam_shift(m(10.0), up).si() - 0.100).abs() < 1e-12);
/// ```
pub fn nose_up(front_rise: Length, rear_rise: Length, wheelbase: Length) -> Angle {
    Angle::from_si(((front_rise - rear_rise).si() / wheelbase.si()).atan())
}

/// A single smooth hump: half a sine wave, u(t) = H sin(π v t/λ) while the wheel is on it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Hump {
    /// Height at its middle, H; − for a hollow.
    pub height: Length,
    /// Length along the road, λ.
    pub length: Length,
    /// Speed of the vehicle, v.
    pub speed: Velocity,
    /// When the wheel reaches it.
    pub arrival: Time,
}

impl Hump {
    /// The same hump under the wheels that follow: they reach it L/v later. Source `GIL` ch. 5.
    #[must_use]
    pub fn behind(self, wheelbase: Length) -> Self {
        Hump { arrival: self.arrival + wheelbase / self.speed, ..self }
    }

    /// Height of the road under the wheel at a time, m.
    pub fn road_m(&self, time_s: f64) -> f64 {
        let on_s = time_s - self.arrival.si();
        if on_s <= 0.0 || on_s >= self.length.si() / self.speed.si() {
            return 0.0;
        }
        self.height.si() * (PI * self.speed.si() / self.length.si() * on_s).sin()
    }
}

/// One end of the body as a mass on spring and damper whose wheel follows the road.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Swing {
    /// Undamped frequency of this end.
    pub frequency: Frequency,
    /// Damping ratio; from 1 on the end creeps back without swinging.
    pub damping_ratio: Ratio,
}

impl Swing {
    /// Height of the body above its rest at a time, m, exactly: driven through spring and damper,
    /// ẍ + 2ζω ẋ + ω² x = 2ζω u̇ + ω² u with u = H sin Ωt, Ω = π v/λ, from rest. Source `DERIVED`.
    ///
    /// On the hump x is the steady answer A sin Ωt + B cos Ωt and the free swing that makes x and ẋ start from zero;
    /// behind it, the free swing from where the hump's end leaves the body. With D = (ω² − Ω²)² + (2ζωΩ)²:
    /// A = H [(ω² − Ω²) ω² + (2ζωΩ)²]/D, B = −2ζω H Ω³/D.
    ///
    /// `None` for a negative damping ratio, and without a frequency, a length or a speed.
    pub fn body_height_m(&self, hump: &Hump, time_s: f64) -> Option<f64> {
        let (omega, zeta) = (TAU * self.frequency.si(), self.damping_ratio.si());
        let on_hump_s = hump.length.si() / hump.speed.si();
        if !(omega > 0.0 && zeta >= 0.0 && on_hump_s > 0.0 && on_hump_s.is_finite()) {
            return None;
        }
        let since_s = time_s - hump.arrival.si();
        if since_s <= 0.0 {
            return Some(0.0);
        }
        let end = on_hump(omega, zeta, PI / on_hump_s, since_s.min(on_hump_s));
        let height = if since_s <= on_hump_s { end.height } else { free(omega, zeta, end, since_s - on_hump_s).height };
        Some(hump.height.si() * height)
    }
}

/// Height and speed of the body, per unit of the hump's height.
#[derive(Clone, Copy)]
struct Moving {
    height: f64,
    speed_per_s: f64,
}

/// On a half-sine of unit height, from rest.
fn on_hump(omega: f64, zeta: f64, drive: f64, t_s: f64) -> Moving {
    let (apart, damped) = (omega * omega - drive * drive, 2.0 * zeta * omega * drive);
    let (sin, cos) = (drive * t_s).sin_cos();
    let below = apart * apart + damped * damped;
    if below < 1e-16 * omega.powi(4) {
        // In step and undamped: x = (sin ωt − ωt cos ωt)/2, the limit of the expressions below.
        return Moving { height: 0.5 * (sin - drive * t_s * cos), speed_per_s: 0.5 * drive * drive * t_s * sin };
    }
    let a = (apart * omega * omega + damped * damped) / below;
    let b = -damped * drive * drive / below;
    let swing = free(omega, zeta, Moving { height: -b, speed_per_s: -a * drive }, t_s);
    Moving { height: a * sin + b * cos + swing.height, speed_per_s: drive * (a * cos - b * sin) + swing.speed_per_s }
}

/// The free swing from a state: x = C x₀ + S (v₀ + ζω x₀), ẋ = C v₀ − S (ζω v₀ + ω² x₀), with C = e^(−ζωt) cos ω_d t,
/// S = e^(−ζωt) sin ω_d t / ω_d; hyperbolic from ζ = 1 on. Heights in m, speeds in m/s. Source `DERIVED` (solution of
/// ẍ + 2ζω ẋ + ω² x = 0).
fn free(omega: f64, zeta: f64, from: Moving, t_s: f64) -> Moving {
    let decay = zeta * omega;
    let under_root = 1.0 - zeta * zeta;
    let damped = omega * under_root.abs().sqrt();
    let (c, s) = if damped * t_s < 1e-6 {
        let fading = (-decay * t_s).exp();
        (fading, fading * t_s)
    } else if under_root > 0.0 {
        let fading = (-decay * t_s).exp();
        (fading * (damped * t_s).cos(), fading * (damped * t_s).sin() / damped)
    } else {
        let (slow, quick) = (((damped - decay) * t_s).exp(), (-(damped + decay) * t_s).exp());
        (0.5 * (slow + quick), 0.5 * (slow - quick) / damped)
    };
    Moving {
        height: c * from.height + s * (from.speed_per_s + decay * from.height),
        speed_per_s: c * from.speed_per_s - s * (decay * from.speed_per_s + omega * omega * from.height),
    }
}
