//! Delimited text as it comes from anywhere: bytes to text, cells as messages quote them, the words of a header.
//!
//! Parts lists, test sheets of dampers and recordings are read through it; what their columns mean they know themselves.

mod decoded;
mod header_split;

pub use decoded::{Decoded, NotText, beyond_cell, decode, quoted};
pub use header_split::{folded, words};
