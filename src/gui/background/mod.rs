//! What goes on in the background: lists, choosing, pages, runs, folders. Knows neither commands of the window nor screens.

pub mod choosing;
pub mod drive_reader;
pub mod jobs;
pub mod planning;
pub mod preview;
pub mod record_loader;
pub mod record_reader;
pub mod riding;
pub mod texts;
pub(in crate::gui) mod worker;
