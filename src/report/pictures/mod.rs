//! Pictures as data: axes, lines, marks, and how they are drawn.

mod axes;
pub mod corners;
pub mod curve_table;
pub mod drawing;
pub mod force_speed;
pub mod linkage_drawn;
pub mod motion;
pub mod on_road;
pub mod plans;
pub mod rows;
pub mod ruler;
pub mod shift;

pub use axes::{label_places, picture, plot, wording};
