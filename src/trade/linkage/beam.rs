//! The roll centre of a beam axle.

use super::Point;
use crate::base::units::{Length, Quantity};

/// Height of the roll centre of a beam axle, from two points on what holds it sideways: the height of their line where it
/// crosses 0.
///
/// A Panhard rod: both ends (y from the centreline, h). Leaf springs: both eyes of the main leaf (x from the axle, h).
/// `None` when both points have the same place. Source `MIL` ch. 17, `DIX2` (Panhard rod, leaf springs).
///
/// ```
/// use springwright::base::units::Quantity;
/// use springwright::trade::linkage::{Point, beam_roll_centre};
/// let height = beam_roll_centre([Point::at(-0.4, 0.30), Point::at(0.6, 0.40)]);
/// assert!(height.is_some_and(|h| (h.si() - 0.34).abs() < 1e-12));
/// ```
pub fn beam_roll_centre([a, b]: [Point; 2]) -> Option<Length> {
    let height_m = a.up_m - a.out_m * (b.up_m - a.up_m) / (b.out_m - a.out_m);
    ((b.out_m - a.out_m).abs() > 1e-3 && height_m.is_finite()).then(|| Length::from_si(height_m))
}
