//! What the user edits: one tree of fields, exactly as typed.
//!
//! Blank means "not stated": a default from [`fields`] is then used, if there is
//! one, and shown as such. The tree holds no results.

pub mod bounded;
pub mod check;
pub mod fields;
pub mod finding;
pub mod how_sure;
pub mod mend;
pub mod paste;
mod plans;
pub mod retype;
mod store;
mod tree;
pub mod typical;

pub use finding::{Finding, Level};
pub use mend::Mend;
pub use plans::Which;
pub use store::{file, kept, reading};
pub use tree::*;
