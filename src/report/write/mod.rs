//! A report as text, Markdown, JSON and on paper.

pub mod json;
pub mod page;
pub mod text;
