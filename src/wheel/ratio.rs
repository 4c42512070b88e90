//! Motion ratio: how far the spring or damper moves for each unit of wheel travel.
//!
//! r = −dL/dz, spring over wheel, usually below 1, measured along the part's own
//! axis so that its lean is already inside. z is wheel travel from the reference
//! ride height, + in bump. Source `GIL` ch. 5, `MIL` ch. 16.

use crate::math::{fit, roots};
use crate::units::{Length, Quantity, Ratio, RatioSlope, ratio_slope_per_m};

/// Length of a spring or damper against wheel travel: L = c0 + c1 z + c2 z².
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LengthCurve {
    coefficients: [f64; 3],
}

impl LengthCurve {
    /// A constant motion ratio.
    pub fn constant(ratio: Ratio, length_at_reference: Length) -> Self {
        LengthCurve { coefficients: [length_at_reference.si(), -ratio.si(), 0.0] }
    }

    /// From how far the wheel and the part moved: r = part ÷ wheel.
    ///
    /// `None` when the wheel did not move.
    pub fn from_movement(wheel: Length, part: Length, length_at_reference: Length) -> Option<Self> {
        let ratio = part / wheel;
        ratio.si().is_finite().then(|| Self::constant(ratio, length_at_reference))
    }

    /// From rows of (wheel travel, length): a line through two rows, a least-squares parabola through more.
    ///
    /// `None` when the rows do not settle a curve (fewer than two distinct travels).
    ///
    /// ```
    /// use springwright::units::{Length, Quantity};
    /// use springwright::wheel::LengthCurve;
    /// let mm = |v: f64| Length::from_si(v / 1000.0);
    /// let curve = LengthCurve::from_rows(&[(mm(-40.0), mm(304.0)), (mm(40.0), mm(256.0))]);
    /// assert!(curve.is_some_and(|c| (c.ratio(mm(0.0)).si() - 0.6).abs() < 1e-12));
    /// ```
    pub fn from_rows(rows: &[(Length, Length)]) -> Option<Self> {
        let points: Vec<(f64, f64)> = rows.iter().map(|(z, l)| (z.si(), l.si())).collect();
        let degree = if points.len() < 3 { 1 } else { 2 };
        fit::polynomial(&points, degree).map(|f| LengthCurve { coefficients: f.coefficients })
    }

    /// The same curve, moved so that the part has this length at the reference height.
    #[must_use]
    pub fn with_length_at_reference(mut self, length: Length) -> Self {
        self.coefficients[0] = length.si();
        self
    }

    /// The part's length at this wheel travel.
    pub fn length(&self, travel: Length) -> Length {
        Length::from_si(self.length_m(travel.si()))
    }

    /// The motion ratio at this wheel travel.
    pub fn ratio(&self, travel: Length) -> Ratio {
        Ratio::from_si(self.ratio_at(travel.si()))
    }

    /// dr/dz: how the motion ratio changes with travel; the same everywhere on a parabola.
    pub fn slope(&self) -> RatioSlope {
        ratio_slope_per_m(self.slope_per_m())
    }

    /// The wheel travel at which the part has this length, within half a metre of the reference.
    pub fn travel_at(&self, length: Length) -> Option<Length> {
        const REACH_M: f64 = 0.5;
        roots::between(-REACH_M, REACH_M, 1e-9, |z| self.length_m(z) - length.si()).map(Length::from_si)
    }

    pub(super) fn length_m(&self, travel_m: f64) -> f64 {
        fit::evaluate(self.coefficients, travel_m)
    }

    pub(super) fn ratio_at(&self, travel_m: f64) -> f64 {
        -self.coefficients[1] - 2.0 * self.coefficients[2] * travel_m
    }

    pub(super) fn slope_per_m(&self) -> f64 {
        -2.0 * self.coefficients[2]
    }
}
