//! Pictures with axes: as data, where their words stand, and how they are drawn.

pub mod label_places;
pub mod picture;
pub mod plot;
pub mod wording;
