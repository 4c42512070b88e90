//! Pictures: plots with axes, the vehicle from above and from the side, sketches of what to measure.

mod arrows;
pub mod chances;
pub mod doubt;
mod labels;
pub mod linkage_to_scale;
mod pen;
pub mod plain;
pub mod plots;
pub mod ride;
pub mod routes;
pub mod sketches;
pub mod travel_ruler;
