//! The base of every module: bounds, language, arithmetic, units, sources. Knows no trade.

pub mod bounds;
pub mod language;
pub mod math;
pub mod progress;
pub mod sources;
pub mod table;
pub mod units;
