//! Standard output and standard error of both programs.

use std::io::{Error, ErrorKind, Write as _, stderr, stdout};

use super::exit;
use crate::report::write::text::harmless;
use crate::say;

/// Prints on standard output; gives back the exit code: the one given, or [`exit::FILE`] when it could not be printed,
/// and why on standard error. Whoever closes the pipe has read enough: that is quiet.
pub fn print(program: &str, text: &str, code: u8) -> u8 {
    let mut out = stdout().lock();
    ended(program, out.write_all(text.as_bytes()).and_then(|()| out.flush()), code)
}

/// Says on standard error what is wrong, or how a command ended, in addition to what it printed.
pub fn complain(program: &str, text: &str) {
    // Nobody is left to be told.
    let _ = writeln!(stderr(), "{}", harmless(format!("{program}: {text}")));
}

/// Prints help, version, or what is wrong with the usage; gives back the exit code.
pub fn usage(program: &str, wrong: &clap::Error) -> u8 {
    let code = u8::try_from(wrong.exit_code()).unwrap_or(exit::USAGE);
    ended(program, wrong.print().and_then(|()| stdout().flush()), code)
}

fn ended(program: &str, printed: Result<(), Error>, code: u8) -> u8 {
    match printed {
        Err(error) if error.kind() != ErrorKind::BrokenPipe => {
            complain(program, &say!("the answer could not be printed: {error}", error));
            exit::FILE
        }
        _ => code,
    }
}
