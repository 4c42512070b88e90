//! What four platform scales say: totals, shares, cross weight.
//!
//! Left is the driver's left facing forward; corners go LF, RF, LR, RR.

pub mod likely;

use uom::ConstZero;

use crate::base::units::{Mass, Quantity, Ratio};

/// One value per corner.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Corners<T> {
    /// Left front.
    pub lf: T,
    /// Right front.
    pub rf: T,
    /// Left rear.
    pub lr: T,
    /// Right rear.
    pub rr: T,
}

impl<T: Copy> Corners<T> {
    /// Of each corner, in walking order.
    pub fn each(of: impl FnMut(usize) -> T) -> Self {
        Corners::from(std::array::from_fn(of))
    }

    /// The corners in walking order: LF, RF, LR, RR.
    pub fn walk(&self) -> [T; 4] {
        [self.lf, self.rf, self.lr, self.rr]
    }
}

impl<T> From<[T; 4]> for Corners<T> {
    fn from([lf, rf, lr, rr]: [T; 4]) -> Self {
        Corners { lf, rf, lr, rr }
    }
}

/// The whole from four scale readings, kg.
pub fn total(readings: &Corners<Mass>) -> Mass {
    readings.walk().into_iter().fold(Mass::ZERO, |sum, m| sum + m)
}

/// Front axle over total, a plain number. Valid for a total above zero. Source `ISO8855`; `PRACTICE`.
pub fn front_share(readings: &Corners<Mass>) -> Ratio {
    (readings.lf + readings.rf) / total(readings)
}

/// Left side over total, a plain number. Valid for a total above zero. Source `PRACTICE`.
pub fn left_share(readings: &Corners<Mass>) -> Ratio {
    (readings.lf + readings.lr) / total(readings)
}

/// **Cross weight**: (right front + left rear) over total, a plain number. Valid for a total above zero.
/// Source `PRACTICE`.
///
/// ```
/// use springwright::base::units::{Mass, Quantity};
/// use springwright::trade::weights::{Corners, cross_weight};
/// let equal = Mass::from_si(300.0);
/// let four = Corners { lf: equal, rf: equal, lr: equal, rr: equal };
/// assert_eq!(cross_weight(&four).si(), 0.5);
/// ```
pub fn cross_weight(readings: &Corners<Mass>) -> Ratio {
    (readings.rf + readings.lr) / total(readings)
}

/// (left − right) over the axle's sum, a plain number: + when the left side is heavier. Valid for a sum above zero.
/// Source `PRACTICE`.
pub fn left_right_difference(left: Mass, right: Mass) -> Ratio {
    (left - right) / (left + right)
}

/// Sprung mass on one corner: the mean of the axle's two readings less the unsprung mass of a corner.
///
/// m_s = m_axle / 2 − m_u, kg. `None` when the unsprung mass is not below the reading.
/// Source `DERIVED` (definition, model convention: an axle is sized on its mean).
pub fn sprung_per_corner(axle: Mass, unsprung_per_corner: Mass) -> Option<Mass> {
    let sprung = axle / 2.0 - unsprung_per_corner;
    (sprung.si() > 0.0).then_some(sprung)
}
