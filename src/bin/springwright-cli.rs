//! The headless program.

use std::io::Write as _;
use std::process::ExitCode;

use clap::Parser as _;
use springwright::cli;

fn main() -> ExitCode {
    match cli::run(&cli::Args::parse()) {
        Ok(outcome) => {
            // A closed pipe is the reader's business.
            let _ = std::io::stdout().write_all(outcome.text.as_bytes());
            ExitCode::from(outcome.code)
        }
        Err(error) => {
            let _ = writeln!(std::io::stderr(), "springwright-cli: {error}");
            ExitCode::from(error.exit_code())
        }
    }
}
