//! The base of every module: bounds, language, messages, arithmetic, units, sources. Knows no trade.

pub mod bounds;
pub mod language;
pub mod math;
pub mod message;
pub mod progress;
pub mod sources;
pub mod table;
pub mod units;
