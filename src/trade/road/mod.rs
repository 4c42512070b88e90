//! Rough roads: what they do to a corner by closed forms, and what runs over them show.
//!
//! The closed forms (`closed`, `trade`) hold for a straight spring and damper on a Gaussian road. The time runs (`quarter`, `half`)
//! follow the real curves: a damper of straight lines, the bump stop, a spring that comes loose, a wheel that leaves the ground.
//! All figures compare one corner with itself; a pothole is not Gaussian.

pub mod class;
pub mod closed;
pub mod corner;
pub mod half;
pub mod profile;
pub mod quarter;
pub mod run;
pub mod trade;
pub mod weighting;

pub use class::{Passage, RoadClass};
pub use closed::Corner;
pub use corner::{Damper, Ends, Suspension, Wheel};
pub use profile::Profile;
pub use run::{Run, Said, Stopped, Track, WeightedBy};
pub use trade::{Trade, TradePoint};
