//! Ride frequency and what follows from it.
//!
//! "On springs" is the headline: f = √(k_w/m_s)/2π. "With tyre" puts the tyre in
//! series. Never one without its name.

use std::f64::consts::TAU;

use crate::base::units::{Force, Frequency, G_M_PER_S2, Length, Mass, Quantity, Ratio, SpringRate, Velocity};

/// Undamped frequency of a mass on a rate, Hz, not rad/s: f = √(k/m)/2π. Valid for k/m of zero or more.
/// Source `GIL` ch. 5.
///
/// ```
/// use springwright::trade::ride::frequency;
/// use springwright::base::units::{Mass, Quantity, SpringRate};
/// let f = frequency(SpringRate::from_si(25_794.08), Mass::from_si(398.0273));
/// assert!((f.si() - 1.2812).abs() < 1e-4);
/// ```
pub fn frequency(rate: SpringRate, mass: Mass) -> Frequency {
    Frequency::from_si((rate.si() / mass.si()).sqrt() / TAU)
}

/// The wheel rate that gives a frequency, N/m, f in Hz: k = m (2πf)². Source `GIL` ch. 5.
pub fn rate_for(frequency: Frequency, mass: Mass) -> SpringRate {
    SpringRate::from_si(mass.si() * (TAU * frequency.si()).powi(2))
}

/// Two rates in series, as wheel rate and tyre, N/m: k₁k₂/(k₁+k₂). Valid for k₁ + k₂ other than zero.
/// Source `GIL` ch. 5.
pub fn in_series(a: SpringRate, b: SpringRate) -> SpringRate {
    SpringRate::from_si(a.si() * b.si() / (a.si() + b.si()))
}

/// Equivalent static deflection m g / k, m: the drop that a linear spring of this rate would show. Valid for k above
/// zero. Source `GIL` ch. 5.
pub fn static_deflection(rate: SpringRate, mass: Mass) -> Length {
    Length::from_si(mass.si() * G_M_PER_S2 / rate.si())
}

/// **Reserve**: (force at first contact − W) / W: the extra g before the stop, or before the coils bind where they do so
/// first. Negative when there is contact already. Source `DERIVED`.
pub fn reserve(at_contact: Force, load: Force) -> Option<Ratio> {
    let reserve = at_contact / load - Ratio::from_si(1.0);
    Some(reserve).filter(|r| r.si().is_finite())
}

/// Wheel hop on suspension and tyre, Hz: √((k_w + k_t)/m_u)/2π. Source `GIL` ch. 5.
pub fn hop_frequency(wheel_rate: SpringRate, tyre_rate: SpringRate, unsprung: Mass) -> Frequency {
    frequency(SpringRate::from_si(wheel_rate.si() + tyre_rate.si()), unsprung)
}

/// Rear over front frequency, both on springs, a plain number: f_R/f_F. Source `GIL` ch. 5 (Olley).
pub fn rear_over_front(front: Frequency, rear: Frequency) -> Ratio {
    rear / front
}

/// **Flat-ride speed**, m/s, frequencies in Hz: v = L/(n(1/f_F − 1/f_R)) with n = 1.
///
/// At this speed the rear, excited later but quicker, comes into step with the
/// front after one of its cycles. `None` when the rear is not quicker. Source `GIL` ch. 5 (Olley).
pub fn flat_ride_speed(wheelbase: Length, front: Frequency, rear: Frequency) -> Option<Velocity> {
    let lag_s = 1.0 / front.si() - 1.0 / rear.si();
    (lag_s > 0.0).then(|| Velocity::from_si(wheelbase.si() / lag_s))
}
