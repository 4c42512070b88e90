//! What several test programs share.
#![allow(dead_code, reason = "no program uses all of it")]

#[cfg(feature = "gui-test")]
pub mod driven;
pub mod effort;
pub mod folders;
pub mod kept;
pub mod loaded;
pub mod mutated;
pub mod physics;
pub mod printed;
pub mod properties;
pub mod sheets;
pub mod told;
