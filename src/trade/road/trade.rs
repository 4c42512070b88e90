//! Comfort against grip, over the damping ratio.

use super::{Corner, Passage};
use crate::base::units::{Acceleration, DampingRate, Quantity, Ratio};

/// One damping ratio and what it gives.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TradePoint {
    /// Damping ratio, on springs.
    pub damping_ratio: Ratio,
    /// rms of the body's acceleration, not weighted: comfort.
    pub body_acceleration: Acceleration,
    /// rms of the tyre's force over its standing load: grip.
    pub tyre_load: Ratio,
}

/// What a corner can be between soft and firm.
#[derive(Debug, Clone, PartialEq)]
pub struct Trade {
    /// From soft to firm.
    pub curve: Vec<TradePoint>,
    /// The point of least acceleration: c = k√(M/k_t).
    pub most_comfort: TradePoint,
    /// The point of least tyre force: the other damping that is worth having.
    pub most_grip: TradePoint,
}

/// The ends of the drawn curve and its steps.
const SOFTEST: f64 = 0.08;
const FIRMEST: f64 = 0.8;
const STEPS: usize = 72;

impl Corner {
    /// The same corner at another damping ratio.
    #[must_use]
    pub fn at_damping_ratio(&self, ratio: Ratio) -> Corner {
        Corner { damping: DampingRate::from_si(ratio.si() * self.critical()), ..*self }
    }

    /// Its damping ratio on springs: ζ = c/(2√(k m_s)). Valid for a sound corner. Source `GIL` ch. 5.
    pub fn damping_ratio(&self) -> Ratio {
        Ratio::from_si(self.damping.si() / self.critical())
    }

    fn critical(&self) -> f64 {
        2.0 * (self.wheel_rate.si() * self.sprung.si()).sqrt()
    }

    /// Where it is between comfort and grip.
    pub fn trade_point(&self, on: &Passage) -> TradePoint {
        TradePoint {
            damping_ratio: self.damping_ratio(),
            body_acceleration: self.body_acceleration_rms(on),
            tyre_load: self.tyre_load_share(on),
        }
    }

    /// The whole curve over the damping ratio, from 0.08 to 0.8, with its two ends of sense. Source `DERIVED`.
    ///
    /// Both variances are A c + B/c, least at c = √(B/A).
    pub fn trade(&self, on: &Passage) -> Trade {
        let at = |ratio: f64| self.at_damping_ratio(Ratio::from_si(ratio)).trade_point(on);
        let (k, kt) = (self.wheel_rate.si(), self.tyre_rate.si());
        let (ms, mu) = (self.sprung.si(), self.unsprung.si());
        let m = ms + mu;
        let for_comfort = k * (m / kt).sqrt();
        let over_c = m * m * m * k * k / (ms * ms) - 2.0 * mu * m * k * kt / ms + mu * kt * kt;
        let for_grip = (over_c / kt).sqrt() * ms / m;
        let step = (FIRMEST / SOFTEST).powf(1.0 / STEPS as f64);
        Trade {
            curve: (0..=STEPS).map(|i| at(SOFTEST * step.powi(i as i32))).collect(),
            most_comfort: at(for_comfort / self.critical()),
            most_grip: at(for_grip / self.critical()),
        }
    }
}
