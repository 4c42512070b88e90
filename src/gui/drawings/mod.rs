//! Pictures: plots with axes, the vehicle from above and from the side, sketches of what to measure.

pub mod chances;
pub mod doubt;
pub mod drawn;
mod labels;
pub mod linkage_to_scale;
mod pen;
pub mod plain;
pub mod plots;
pub mod ride;
pub mod routes;
pub mod sketches;
pub mod travel_ruler;
