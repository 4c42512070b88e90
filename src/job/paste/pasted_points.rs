//! Points of a linkage from a pasted table: a letter or name, outward, height.

use super::named_rows;
use crate::base::message::Message;
use crate::base::units::parse::DecimalMark;
use crate::base::units::{Dim, UnitChoice};
use crate::job::{Suspension, point_key, points_of};
use crate::message;
use crate::trade::linkage::PointName;

/// Points found in a text, each coordinate as it will be typed into its field.
#[derive(Debug, Clone, PartialEq)]
pub struct PastedPoints {
    /// The point, outward, height.
    pub points: Vec<(PointName, [String; 2])>,
    /// Lines that were left out, as found.
    pub ignored: Vec<String>,
}

/// Points that any suspension can have in addition to its own.
const OTHERS: [PointName; 7] = [
    PointName::Ground,
    PointName::SpringTop,
    PointName::SpringFoot,
    PointName::DamperTop,
    PointName::DamperFoot,
    PointName::RodInner,
    PointName::RodOuter,
];

/// Reads lines such as "A 386 493" or "W; 736.6 mm; 320 mm"; the letters are those of the sketch.
///
/// # Errors
/// A sentence: a letter that this suspension does not have, one given twice, or a line that cannot be read.
pub fn points(
    text: &str,
    suspension: Suspension,
    units: &UnitChoice,
    mark: DecimalMark,
) -> Result<PastedPoints, Message> {
    let unit = units.unit(Dim::Length);
    let (names, found) = named_rows(text, &[unit, unit], mark)?;
    let own = || points_of(suspension).iter().copied().chain(OTHERS);
    let mut points: Vec<(PointName, [String; 2])> = Vec::with_capacity(names.len());
    for (name, row) in names.iter().zip(found.rows) {
        let is_it = |point: &PointName| {
            point.letter().eq_ignore_ascii_case(name) || point_key(*point).eq_ignore_ascii_case(name)
        };
        let Some(point) = own().find(is_it) else {
            let letters: Vec<&str> = own().map(PointName::letter).collect();
            return Err(message!(
                "\"{name}\" is not a point of this suspension; its points are {letters}",
                name,
                letters = letters.join(" ")
            ));
        };
        if points.iter().any(|p| p.0 == point) {
            return Err(message!("point {letter} is given twice", letter = point.letter()));
        }
        let mut cells = row.into_iter();
        points.push((point, [cells.next().unwrap_or_default(), cells.next().unwrap_or_default()]));
    }
    Ok(PastedPoints { points, ignored: found.ignored })
}
