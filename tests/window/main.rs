//! The window, drawn and operated without a display: one program, so that the window stack is linked once.
#![allow(clippy::expect_used, clippy::unwrap_used, clippy::panic, reason = "a test says why it stops")]

#[path = "../common/mod.rs"]
mod common;

mod everyone;
mod hands;
mod long_lists;
mod pictures;
mod room;
mod window;
mod window_choose;
mod window_customer;
mod window_dampers;
mod window_files;
mod window_help;
mod window_loads;
mod window_plans;
mod window_recordings;
mod window_road;
mod window_sheet;
mod window_withheld;
mod words;
