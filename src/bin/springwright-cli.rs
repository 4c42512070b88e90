//! The headless program.

use std::process::ExitCode;

use clap::Parser as _;
use springwright::base::language::speak;
use springwright::cli::{self, output};

const NAME: &str = "springwright-cli";

fn main() -> ExitCode {
    let args = match cli::Args::try_parse() {
        Ok(args) => args,
        Err(wrong) => return ExitCode::from(output::usage(NAME, &wrong)),
    };
    // For what is told below.
    let _voice = speak(args.voice());
    ExitCode::from(match cli::run(&args) {
        Ok(outcome) => {
            let code = output::print(NAME, &outcome.text, outcome.code);
            if !outcome.aside.is_empty() {
                output::complain(NAME, &outcome.aside);
            }
            code
        }
        Err(error) => {
            output::complain(NAME, &error.to_string());
            error.exit_code()
        }
    })
}
