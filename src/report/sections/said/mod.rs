//! Sentences of a report: the answer of an axle, what it still needs, what was not checked.

pub mod brief;
pub mod dampers_stay;
pub(in crate::report) mod kept;
pub mod needed;
pub mod sentence;
pub mod sides;
pub mod unchecked;
