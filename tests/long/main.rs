//! What takes its time: programs killed, files and whole commands changed at random, anybody at the keyboard, coverage.
#![allow(clippy::expect_used, clippy::unwrap_used, clippy::panic, reason = "a test says why it stops")]

#[path = "../common/mod.rs"]
mod common;

mod bounds;
mod coverage;
mod fuzzed;
mod fuzzed_commands;
#[cfg(feature = "gui")]
mod killed;
#[cfg(feature = "gui-test")]
mod monkey;
