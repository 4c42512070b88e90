//! From the spring to the wheel: motion ratio, and the one force–travel curve.

pub mod curve;
pub mod ratio;

pub use curve::{Acting, BumpStop, Equilibrium, ForceTravel, Helper, RateParts, StopForce};
pub use ratio::{LengthCurve, RowFit, Rows};
