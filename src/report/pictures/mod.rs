//! Pictures as data: axes, lines, marks, and how they are drawn.

pub mod corners;
pub mod curve_table;
pub mod drawing;
pub mod label_places;
pub mod linkage_drawn;
pub mod motion;
pub mod picture;
pub mod plans;
pub mod plot;
pub mod rows;
pub mod ruler;
pub mod shift;
pub mod wording;
