//! The picture of the job: where a renewed axle stood, where the load took it, where the new springs bring it.

use crate::base::language::tr;
use crate::base::units::Dim;
use crate::job::Side;
use crate::report::pictures::drawing::Drawing;
use crate::report::pictures::picture::{Axis, Picture};
use crate::report::pictures::{plot, shift};
use crate::report::sheets::page::Page;

/// The picture of an axle at this size, mm; its marks are those of the picture from the side, which names them. `None`
/// when its springs stay, or height and frequency are not known.
pub(super) fn draw(page: &Page<'_>, side: Side, size_mm: [f32; 2]) -> Option<Drawing> {
    page.refitted().iter().find(|axle| axle.side == side)?;
    let mut picture = shift::shift(page.answer, side, page.units())?;
    let words = std::mem::take(&mut picture.title);
    picture.marks.iter_mut().for_each(|mark| mark.label.clear());
    Some(Drawing { words, ..plot::sized(&in_plain_words(picture, page), size_mm, page.units()) })
}

/// Frequencies in hertz are bounces per second.
fn in_plain_words(shift: Picture, page: &Page<'_>) -> Picture {
    match page.units().unit(Dim::Frequency).symbol {
        "Hz" => Picture { x: Axis { name: tr("bounces per second"), dim: Dim::Frequency }, ..shift },
        _ => shift,
    }
}
