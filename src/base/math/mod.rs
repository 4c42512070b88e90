//! Plain numerical tools on `f64`. Nothing here knows the trade.

pub mod fit;
pub mod fuse;
pub mod linear;
pub mod ode;
pub mod pchip;
pub mod quintic;
pub mod roots;
pub mod spectrum;
pub mod spread;
