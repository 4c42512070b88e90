//! The trade: quantities in, quantities out. Never sees a job.

pub mod bench;
pub mod corners;
pub mod damper;
pub mod ledger;
pub mod linkage;
pub mod pitch;
pub mod recording;
pub mod ride;
pub mod road;
pub mod roll;
pub mod spring;
pub mod tyre;
pub mod weights;
pub mod wheel;
