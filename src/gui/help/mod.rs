//! Help: the guide, the words explained, everything about one field.

pub mod about;
pub mod glossary;
pub mod guide;
pub mod line;
pub mod words;
