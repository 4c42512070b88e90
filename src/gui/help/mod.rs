//! Help: the guide, the hint of each step, the words explained, everything about one field.

pub mod about;
pub mod changes;
pub mod glossary;
pub mod guide;
pub mod hint;
pub mod line;
pub mod signs;
pub mod words;
