//! What takes its time: programs killed, files and whole commands changed at random, anybody at the keyboard, coverage. The quick command of
//! the core alone leaves it out.
#![allow(clippy::expect_used, clippy::unwrap_used, clippy::panic, reason = "a test says why it stops")]

#[path = "../common/mod.rs"]
mod common;

mod bounds;
mod coverage;
mod fuzzed;
mod fuzzed_commands;
mod killed;
mod monkey;
