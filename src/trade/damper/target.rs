//! The curve to ask for: two slopes with a knee.

use super::curve::{Curve, below_knee};
use super::{BumpRebound, Force};
use crate::base::units::{DampingRate, Quantity, Ratio, Velocity};

/// A target curve: steep up to a knee, flatter beyond, so that body motion is held and sharp bumps do not come through.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TwoSlope {
    /// Rates below the knee, at the damper.
    pub low: BumpRebound,
    /// Speed at the knee, at the damper.
    pub knee: Velocity,
    /// Slope beyond the knee over the slope below it.
    pub upper_share: Ratio,
}

impl TwoSlope {
    /// The curve that does the work of a rate `mean` in a sinusoid of this peak speed:
    /// c_low = c / (s + (1 − s) N(v_knee/V)), s the upper share, N(a) = (2/π)(asin a + a √(1 − a²)), 1 above the peak.
    ///
    /// Source `DIX` ch. 5 (equal work), closed form `DERIVED`; case C4.
    pub fn of_equal_work(
        mean: DampingRate,
        rebound_over_bump: Ratio,
        knee: Velocity,
        upper_share: Ratio,
        peak: Velocity,
    ) -> Self {
        let share = upper_share.si() + (1.0 - upper_share.si()) * below_knee(knee.si(), peak.si());
        TwoSlope { low: BumpRebound::split(mean / share, rebound_over_bump), knee, upper_share }
    }

    /// As a curve, which holds at any speed.
    pub fn curve(&self) -> Curve {
        Curve::with_knee(self.low, self.knee, self.upper_share)
    }

    /// Forces at a speed of either sign, (bump, rebound): c_low (v − (1 − s) max(v − v_knee, 0)), s the upper share.
    ///
    /// Source `DERIVED`: what [`TwoSlope::curve`] gives, for one speed.
    pub fn forces(&self, speed: Velocity) -> (Force, Force) {
        let speed = speed.si().abs();
        let past = (speed - self.knee.si()).max(0.0);
        let counts = speed - (1.0 - self.upper_share.si()) * past;
        let of = |low: DampingRate| Force::from_si(low.si() * counts);
        (of(self.low.bump), of(self.low.rebound))
    }
}
