//! What the shop has: its lists of parts, recordings of vehicles, what it prints on every sheet, its folder of jobs,
//! and the jobs that ship.

pub mod jobs_folder;
mod letterhead;
pub mod lists;
pub mod parts;
pub mod presets;
pub mod recordings;
mod remembered;
mod used_lists;
