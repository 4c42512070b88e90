//! Job files: read, written, kept; the disk beneath.

mod comments;
mod disk;
pub mod file;
pub mod kept;
pub mod reading;
