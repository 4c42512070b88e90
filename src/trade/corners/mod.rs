//! All four corners at once: a rigid body (heave, pitch, roll) on four force–travel curves, anti-roll bars, tyres in
//! series, beam axles with their own heave and roll.
//!
//! Everything is relative to the weigh-in: there the wheel loads and the travel of each wheel are known, bars and
//! leaves are not twisted, and [`placing`] puts each spring where it carries its own load at its own height. What the
//! body carries afterwards, or what it is on, moves it from there, and [`Vehicle::stand`] finds where forces and
//! moments balance. Small angles; no friction; the frame does not twist. z is wheel travel from the reference height, +
//! in bump; x is behind the front axle, y + right, roll + with the right side down. Corners go LF, RF, LR, RR.

mod across;
mod balance;
pub mod placing;

pub use across::{Across, AxlePair, Bases};
pub use balance::{Carried, Stand, Vehicle, WeighIn, places};

/// Left, right.
pub type Sides<T> = [T; 2];
/// LF, RF, LR, RR.
pub type Four<T> = [T; 4];

/// Metal, and a damper pulled out, are harder than the tyre by this factor. Common practice, no source.
const HARD: f64 = 10.0;

/// Cross weight of four wheel loads: (RF + LR) over all. Source `PRACTICE`.
pub fn cross_share([lf, rf, lr, rr]: Four<f64>) -> f64 {
    (rf + lr) / (lf + rf + lr + rr)
}
