//! Recordings of how the body moves: bounces that show frequency and damping, drives that show comfort.
//!
//! [`evenly`] puts samples on an even grid, [`vertical`] finds which way is up, `decay_search` finds free decays and
//! [`decay_fit`] fits them, [`bounce`] combines them; [`body_mode`] is what the quarter car predicts and what a measured
//! mode says of rate and damping; [`drive`] weighs a drive as people feel it and takes its spectrum.

pub mod body_mode;
pub mod bounce;
pub mod decay_fit;
mod decay_search;
pub mod drive;
pub mod evenly;
pub mod vertical;

pub use body_mode::BodyMode;
pub use bounce::{Bounce, Decay, Signal};
pub use drive::Drive;
pub use evenly::{Record, Stretch, Uneven};
pub use vertical::{Direction, Vertical};
