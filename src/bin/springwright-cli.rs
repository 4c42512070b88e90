//! The headless program.

use std::io::Write as _;
use std::process::ExitCode;

use clap::Parser as _;
use springwright::cli;
use springwright::language::speak;
use springwright::report::text::harmless;

fn main() -> ExitCode {
    let args = cli::Args::parse();
    // For what is told below.
    let _voice = speak(args.voice());
    match cli::run(&args) {
        Ok(outcome) => {
            // A closed pipe is the reader's business.
            let _ = std::io::stdout().write_all(outcome.text.as_bytes());
            ExitCode::from(outcome.code)
        }
        Err(error) => {
            let _ = writeln!(std::io::stderr(), "{}", harmless(format!("springwright-cli: {error}")));
            ExitCode::from(error.exit_code())
        }
    }
}
