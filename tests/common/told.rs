//! What the headless program tells.
#![allow(clippy::expect_used, reason = "a test says why it stops")]

use std::process::Command;

/// Its exit code, and all that it says: standard output, then standard error.
pub fn cli(args: &[&str]) -> (Option<i32>, String) {
    let out = Command::new(env!("CARGO_BIN_EXE_springwright-cli")).args(args).output().expect("the program runs");
    (out.status.code(), String::from_utf8(out.stdout).expect("UTF-8") + &String::from_utf8(out.stderr).expect("UTF-8"))
}
