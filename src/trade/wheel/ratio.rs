//! Motion ratio: how far the spring or damper moves for each unit of wheel travel.
//!
//! r = −dL/dz, spring over wheel, usually below 1, measured along the part's own
//! axis so that its lean is already inside. z is wheel travel from the reference
//! ride height, + in bump. Source `GIL` ch. 5, `MIL` ch. 16.

use std::sync::Arc;

use crate::base::math::fit::{self, Coefficients};
use crate::base::math::quintic::Quintic;
use crate::base::math::roots;
use crate::base::math::spread::student;
use crate::base::units::{Angle, Length, Quantity, Ratio, RatioSlope};

/// Length of a spring or damper against wheel travel: L = c0 + c1 z + c2 z² + c3 z³, or through the places of a linkage.
#[derive(Debug, Clone, PartialEq)]
pub struct LengthCurve {
    shape: Shape,
}

#[derive(Debug, Clone, PartialEq)]
enum Shape {
    /// L = c0 + c1 z + c2 z² + c3 z³.
    Cubic(Coefficients),
    /// Through what a linkage gives, longer by this length, m.
    Table(Arc<Quintic>, f64),
}

impl LengthCurve {
    /// A constant motion ratio.
    pub fn constant(ratio: Ratio, length_at_reference: Length) -> Self {
        Self::cubic([length_at_reference.si(), -ratio.si(), 0.0, 0.0])
    }

    /// Through lengths, −r and −r′ as a linkage gives them; straight on beyond its ends.
    pub fn through(table: Quintic) -> Self {
        LengthCurve { shape: Shape::Table(Arc::new(table), 0.0) }
    }

    fn cubic(coefficients: Coefficients) -> Self {
        LengthCurve { shape: Shape::Cubic(coefficients) }
    }

    /// The same ratio at the reference height, changing by this amount with wheel travel: dL/dz = −(r + r′ z). A
    /// linkage keeps its own. Source `DERIVED`.
    #[must_use]
    pub fn with_slope(mut self, slope: RatioSlope) -> Self {
        if let Shape::Cubic(coefficients) = &mut self.shape {
            coefficients[2] = -slope.si() / 2.0;
        }
        self
    }

    /// From how far the wheel and the part moved: r = part ÷ wheel.
    ///
    /// `None` when the wheel did not move. Source `GIL` ch. 5 (definition).
    pub fn from_movement(wheel: Length, part: Length, length_at_reference: Length) -> Option<Self> {
        let ratio = part / wheel;
        ratio.si().is_finite().then(|| Self::constant(ratio, length_at_reference))
    }

    /// A spring that sits on a beam axle or an arm and leans by an angle: r = arm ratio · cos(lean).
    ///
    /// Holds in two-wheel bump. The lean is counted here and nowhere else. Source `DERIVED`; `MIL` ch. 16.
    pub fn from_lean(lean: Angle, arm: Ratio, length_at_reference: Length) -> Self {
        Self::constant(Ratio::from_si(arm.si() * lean.si().cos()), length_at_reference)
    }

    /// From rows of (wheel travel, length), as [`Rows::fit`] fits them.
    ///
    /// `None` when the rows do not settle a curve (fewer than two distinct travels).
    ///
    /// ```
    /// use springwright::base::units::{Length, Quantity};
    /// use springwright::trade::wheel::LengthCurve;
    /// let mm = |v: f64| Length::from_si(v / 1000.0);
    /// let curve = LengthCurve::from_rows(&[(mm(-40.0), mm(304.0)), (mm(40.0), mm(256.0))]);
    /// assert!(curve.is_some_and(|c| (c.ratio(mm(0.0)).si() - 0.6).abs() < 1e-12));
    /// ```
    pub fn from_rows(rows: &[(Length, Length)]) -> Option<Self> {
        Self::from_points(&in_si(rows))
    }

    /// As [`LengthCurve::from_rows`], in metres.
    pub fn from_points(points_m: &[(f64, f64)]) -> Option<Self> {
        Self::of_degree(points_m, degree(points_m))
    }

    fn of_degree(points_m: &[(f64, f64)], degree: usize) -> Option<Self> {
        fit::polynomial(points_m, degree).map(Self::cubic)
    }

    /// The same curve, moved so that the part has this length at the reference height.
    #[must_use]
    pub fn with_length_at_reference(mut self, length: Length) -> Self {
        match &mut self.shape {
            Shape::Cubic(coefficients) => coefficients[0] = length.si(),
            Shape::Table(table, longer_m) => *longer_m = length.si() - table.value(0.0),
        }
        self
    }

    /// c0 to c3 of L = c0 + c1 z + c2 z² + c3 z³, SI; `None` for a linkage. `DERIVED` (definition).
    pub fn coefficients(&self) -> Option<Coefficients> {
        match &self.shape {
            Shape::Cubic(coefficients) => Some(*coefficients),
            Shape::Table(..) => None,
        }
    }

    /// The part's length at this wheel travel.
    pub fn length(&self, travel: Length) -> Length {
        Length::from_si(self.length_m(travel.si()))
    }

    /// The motion ratio at this wheel travel.
    pub fn ratio(&self, travel: Length) -> Ratio {
        Ratio::from_si(self.ratio_at(travel.si()))
    }

    /// The motion ratio at the reference height, as a bare number.
    pub fn ratio_at_reference(&self) -> f64 {
        self.ratio_at(0.0)
    }

    /// dr/dz: how the motion ratio changes with travel.
    pub fn slope(&self, travel: Length) -> RatioSlope {
        RatioSlope::from_si(self.slope_per_m(travel.si()))
    }

    /// The wheel travel at which the part has this length, within half a metre of the reference.
    pub fn travel_at(&self, length: Length) -> Option<Length> {
        const REACH_M: f64 = 0.5;
        let excess_m = |z: f64| self.length_m(z) - length.si();
        // From the reference along the slope; where that leads nowhere, by a bracket.
        let mut z = 0.0;
        for _ in 0..8 {
            let step_m = excess_m(z) / self.ratio_at(z);
            z += step_m;
            if step_m.abs() <= 1e-12 && self.ratio_at(z) > 0.0 && z.abs() <= REACH_M {
                return Some(Length::from_si(z));
            }
        }
        roots::between(-REACH_M, REACH_M, 1e-9, excess_m).map(Length::from_si)
    }

    pub(super) fn length_m(&self, travel_m: f64) -> f64 {
        match &self.shape {
            Shape::Cubic(coefficients) => fit::evaluate(*coefficients, travel_m),
            Shape::Table(table, longer_m) => table.value(travel_m) + longer_m,
        }
    }

    pub(super) fn ratio_at(&self, travel_m: f64) -> f64 {
        match &self.shape {
            Shape::Cubic([_, c1, c2, c3]) => -c1 - travel_m * (2.0 * c2 + travel_m * 3.0 * c3),
            Shape::Table(table, _) => -table.slope(travel_m),
        }
    }

    pub(super) fn slope_per_m(&self, travel_m: f64) -> f64 {
        match &self.shape {
            Shape::Cubic([_, _, c2, c3]) => -2.0 * c2 - 6.0 * c3 * travel_m,
            Shape::Table(table, _) => -table.curvature(travel_m),
        }
    }
}

/// The fit through rows, its degree decided once, ready for other readings of the same rows: at the same travels it is a
/// weighted sum of the lengths.
#[derive(Debug, Clone, PartialEq)]
pub struct RowFit {
    degree: usize,
    travels_m: Vec<f64>,
    by_length: Vec<Coefficients>,
}

impl RowFit {
    /// The fit that these rows ask for; `None` when they settle none.
    pub fn of(points_m: &[(f64, f64)]) -> Option<Self> {
        let degree = degree(points_m);
        let by_length = fit::sensitivities(points_m, degree)?;
        Some(RowFit { degree, travels_m: points_m.iter().map(|p| p.0).collect(), by_length })
    }

    /// The curve through these rows.
    pub fn curve(&self, points_m: &[(f64, f64)]) -> Option<LengthCurve> {
        if !self.travels_m.iter().eq(points_m.iter().map(|p| &p.0)) {
            return LengthCurve::of_degree(points_m, self.degree);
        }
        let mut coefficients = [0.0; 4];
        for (c, by_length) in self.by_length.iter().zip(points_m).map(|(s, p)| (p.1, s)) {
            coefficients.iter_mut().zip(by_length).for_each(|(sum, s)| *sum += c * s);
        }
        coefficients.iter().all(|c| c.is_finite()).then(|| LengthCurve::cubic(coefficients))
    }

    /// By how much the motion ratio at the reference height moves with the length of each row, 1/m.
    pub fn ratio_by_length(&self) -> impl Iterator<Item = f64> + '_ {
        self.by_length.iter().map(|[_, c1, ..]| -c1)
    }
}

fn in_si(rows: &[(Length, Length)]) -> Vec<(f64, f64)> {
    rows.iter().map(|(z, l)| (z.si(), l.si())).collect()
}

/// From this number of different travels on, rows may be fitted by a cubic.
const CUBIC_FROM: usize = 7;

/// A line through two rows, a parabola through more, a cubic only if seven rows or more ask for it; never more
/// than different travels can settle.
fn degree(points: &[(f64, f64)]) -> usize {
    let first_of_its_travel = |(i, p): &(usize, &(f64, f64))| points[..*i].iter().all(|q| q.0 != p.0);
    match points.iter().enumerate().filter(first_of_its_travel).take(CUBIC_FROM).count() {
        0..3 => 1,
        3..CUBIC_FROM => 2,
        _ if asks_for_cubic(points) => 3,
        _ => 2,
    }
}

/// F-test at 95 %: the cubic takes away more of the residuals than one more free number would by chance.
/// The critical values of F(1, ν), ν = n − 4, are those of printed tables (from memory); beyond them the square of
/// Student's t by its expansion in 1/ν, z = 1.96 (`DERIVED`; within 1 % there).
fn asks_for_cubic(points: &[(f64, f64)]) -> bool {
    const CRITICAL: [f64; 6] = [10.13, 7.71, 6.61, 5.99, 5.59, 5.32];
    let left = |degree| fit::polynomial(points, degree).map(|c| sum_of_squares(&fit::residuals(points, c)));
    let (Some(parabola), Some(cubic)) = (left(2), left(3)) else { return false };
    let freedom = points.len() - 4;
    let many = |freedom: f64| 3.841 + 9.300 / freedom + 16.69 / (freedom * freedom);
    let critical = CRITICAL.get(freedom - 3).copied().unwrap_or_else(|| many(freedom as f64));
    // Below a hundredth of a millimetre there is nothing to explain.
    let worth_it = parabola / points.len() as f64 > 1e-10;
    worth_it && parabola - cubic > critical * cubic / freedom as f64
}

fn sum_of_squares(values: &[f64]) -> f64 {
    values.iter().map(|v| v * v).sum()
}

/// What rows of (wheel travel, length) say beyond the curve itself.
#[derive(Debug, Clone, PartialEq)]
pub struct Rows {
    /// Wheel travel and length of each row, m, in the order typed.
    pub points_m: Vec<(f64, f64)>,
    /// The curve through them.
    pub curve: LengthCurve,
    /// Which row of the table each point is, counted from 0: blank rows count, too.
    pub typed_at: Vec<usize>,
    /// Measured less fitted, m, in the order typed.
    pub residuals_m: Vec<f64>,
    /// Standard deviation of one row, from the residuals; `None` with less than two readings to spare.
    pub scatter: Option<Length>,
    /// Readings beyond what the curve needs.
    pub spare: usize,
    /// The row that is off, counted from 0, and by how much (measured less what the others say).
    pub off: Option<(Option<usize>, Length)>,
}

/// This multiple of the reading error, and the scatter of the other rows, makes a row suspect.
const SUSPECT: f64 = 3.0;
/// From this many rows on the odd one can be named.
const ENOUGH_ROWS: usize = 5;
/// With this number of readings to spare the scatter says how sure a row is.
const ENOUGH_SPARE: usize = 2;

impl Rows {
    /// Fits the rows; `reading` is the standard uncertainty of one length as read.
    ///
    /// With five rows or more a row counts as off when it lies three times farther from the curve through the
    /// others than that curve and a reading together are sure there, by their scatter or by how well they can be read.
    /// With four, the residuals tell that one is off, not which.
    /// Source `DERIVED` (least squares with one row left out at a time); thresholds common practice, no source.
    pub fn fit(rows: &[(Length, Length)], reading: Length) -> Option<Rows> {
        Self::fit_points(in_si(rows), reading)
    }

    /// As [`Rows::fit`], in metres.
    pub fn fit_points(points_m: Vec<(f64, f64)>, reading: Length) -> Option<Rows> {
        let degree = degree(&points_m);
        let coefficients = fit::polynomial(&points_m, degree)?;
        let residuals_m = fit::residuals(&points_m, coefficients);
        let spare = points_m.len().saturating_sub(degree + 1);
        let scatter =
            (spare >= ENOUGH_SPARE).then(|| Length::from_si((sum_of_squares(&residuals_m) / spare as f64).sqrt()));
        let off = if points_m.len() >= ENOUGH_ROWS && spare > 0 {
            odd_row(&points_m, degree, reading.si())
        } else {
            // What spare readings there are err together as one row does.
            let together_m = (sum_of_squares(&residuals_m) / spare as f64).sqrt();
            let largest = residuals_m.iter().copied().fold(0.0, |a: f64, b| if b.abs() > a.abs() { b } else { a });
            (spare > 0 && together_m > SUSPECT * reading.si()).then_some((None, Length::from_si(largest)))
        };
        let typed_at = (0..points_m.len()).collect();
        Some(Rows { points_m, typed_at, curve: LengthCurve::cubic(coefficients), residuals_m, scatter, spare, off })
    }

    /// Standard uncertainty of one row by how the rows scatter: Student's factor is in it. `None` as for the scatter.
    /// Source `GUM`, 4.2.3 and G.3.2.
    pub fn u_of_row(&self) -> Option<Length> {
        Some(self.scatter? * student(self.spare))
    }
}

/// The row whose leaving makes the rest fit best, if it is off by more than reading and scatter explain.
fn odd_row(points: &[(f64, f64)], degree: usize, reading_m: f64) -> Option<(Option<usize>, Length)> {
    // A parabola through the others: a cubic would bend towards anything.
    let degree = degree.min(2);
    let without = |i: usize| {
        let others: Vec<_> = points.iter().enumerate().filter(|(j, _)| *j != i).map(|(_, p)| *p).collect();
        let fitted = fit::polynomial(&others, degree)?;
        let spare = others.len().checked_sub(degree + 1).filter(|s| *s > 0)?;
        let scatter_m = (sum_of_squares(&fit::residuals(&others, fitted)) / spare as f64).sqrt();
        Some((i, points[i].1 - fit::evaluate(fitted, points[i].0), scatter_m, others))
    };
    let (i, off_m, scatter_m, others) = (0..points.len()).filter_map(without).min_by(|a, b| a.2.total_cmp(&b.2))?;
    // The curve itself is known at this row with √h times the error of a row: at the ends it is extrapolated.
    let by_row = fit::sensitivities(&others, degree)?;
    let h: f64 = by_row.into_iter().map(|s| fit::evaluate(s, points[i].0).powi(2)).sum();
    let sure_m = scatter_m.max(reading_m) * (1.0 + h).sqrt();
    (off_m.abs() > SUSPECT * sure_m).then_some((Some(i), Length::from_si(off_m)))
}
