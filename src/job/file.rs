//! A job as one readable file.
//!
//! RON text `(version: 1, job: (...))`, quantities as typed (`"420 lb/in"`).
//! This module turns text into a job and back; only [`read_text()`] and [`write()`] touch a disk.

use std::fmt;
use std::io::{ErrorKind, Read as _};
use std::path::Path;

use ron::extensions::Extensions;
use serde::{Deserialize, Serialize};
use thiserror::Error;

pub use super::disk::{Backup, advice, backup_of, write_bytes, write_text};
use super::{Job, disk};
use crate::say;

/// The version written by this program, and the newest it reads.
pub const VERSION: u32 = 1;
/// No job is larger; a larger file is something else.
pub const MOST_BYTES: u64 = 2_000_000;
/// Brackets inside brackets: a job needs seven.
const MOST_NESTED: usize = 64;

/// Why a file is not a job, or could not be read or written. The path is added by the caller, last.
#[derive(Debug, Error)]
pub enum FileError {
    /// Too large to be a job.
    TooLarge {
        /// Its size.
        bytes: u64,
    },
    /// Not text.
    NotText,
    /// Too deeply nested to be a job.
    TooDeep {
        /// Where it went too deep.
        line: usize,
    },
    /// Readable, but something else.
    NotAJob,
    /// Written by another program, or a broken one.
    Syntax {
        /// Line, from 1.
        line: usize,
        /// Column, from 1.
        column: usize,
        /// What was found.
        what: String,
    },
    /// Written by a newer program.
    Version {
        /// The version in the file.
        found: u32,
    },
    /// The disk does not give it.
    Read {
        /// What the system said.
        source: std::io::Error,
    },
    /// The disk does not take it.
    Save {
        /// What the system said.
        source: std::io::Error,
    },
}

impl fmt::Display for FileError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&match self {
            FileError::TooLarge { bytes } => say!(
                "this file is {bytes} bytes; a job has at most {most}. It is something else: nothing was read",
                bytes,
                most = MOST_BYTES
            ),
            FileError::NotText => say!("this file is not UTF-8 text, so it is not a job. Nothing was read"),
            FileError::TooDeep { line } => say!(
                "line {line}: brackets are nested more than {most} deep, so it is not a job. Nothing was read",
                line,
                most = MOST_NESTED
            ),
            FileError::NotAJob => say!(
                "this is not a springwright job: a job begins with (version: 1, job: ( ... )). Nothing was read"
            ),
            FileError::Syntax { line, column, what } => say!(
                "line {line}, column {column}: {what}. Correct it in a text editor; nothing was read",
                line,
                column,
                what
            ),
            FileError::Version { found } => say!(
                "this job has file version {found}; this program reads version {newest}. Open it with the program that wrote it",
                found,
                newest = VERSION
            ),
            FileError::Read { source } => say!("the file could not be read: {reason}", reason = source),
            FileError::Save { source } => {
                say!("the file could not be saved: {reason}. {advice}", reason = source, advice = advice(source))
            }
        })
    }
}

/// What is common to all versions.
#[derive(Deserialize)]
struct Head {
    version: u32,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields, rename = "JobFile")]
struct JobFile {
    version: u32,
    job: Job,
}

/// Reads a job from its text.
///
/// # Errors
/// [`FileError`] with the position; never a partly read job.
pub fn parse(text: &str) -> Result<Job, FileError> {
    if text.len() as u64 > MOST_BYTES {
        return Err(FileError::TooLarge { bytes: text.len() as u64 });
    }
    refuse_deep(text)?;
    let head: Head = options().from_str(text).map_err(|error| match error.code {
        ron::Error::MissingStructField { field: "version", .. } | ron::Error::Eof => FileError::NotAJob,
        _ if !begins_like_a_job(text) => FileError::NotAJob,
        _ => syntax(error),
    })?;
    if head.version == 0 || head.version > VERSION {
        return Err(FileError::Version { found: head.version });
    }
    let file: JobFile = options().from_str(text).map_err(syntax)?;
    Ok(file.job)
}

/// The text of a job, as it is saved.
///
/// # Errors
/// [`FileError::Syntax`] if the writer refuses; not known to happen.
pub fn text(job: &Job) -> Result<String, FileError> {
    let pretty = ron::ser::PrettyConfig::new().indentor("  ".to_owned());
    let file = JobFile { version: VERSION, job: job.clone() };
    let body = ron::ser::to_string_pretty(&file, pretty).map_err(|e| FileError::Syntax {
        line: 0,
        column: 0,
        what: e.to_string(),
    })?;
    Ok(body + "\n")
}

/// Reads a job from a file.
///
/// # Errors
/// [`FileError`]; the size is looked at before anything is read.
pub fn read(path: &Path) -> Result<Job, FileError> {
    parse(&read_text(path)?)
}

/// The text of a file that may be a job.
///
/// # Errors
/// [`FileError`]; the size is looked at before anything is read.
pub fn read_text(path: &Path) -> Result<String, FileError> {
    let disk = |source| FileError::Read { source };
    let about = std::fs::metadata(path).map_err(disk)?;
    if about.is_dir() {
        return Err(disk(ErrorKind::IsADirectory.into()));
    }
    if !about.is_file() {
        return Err(FileError::NotText);
    }
    // It may grow meanwhile.
    let mut raw = Vec::with_capacity(about.len().min(MOST_BYTES) as usize + 1);
    std::fs::File::open(path).map_err(disk)?.take(MOST_BYTES + 1).read_to_end(&mut raw).map_err(disk)?;
    let bytes = about.len().max(raw.len() as u64);
    if bytes > MOST_BYTES {
        return Err(FileError::TooLarge { bytes });
    }
    String::from_utf8(raw).map_err(|_| FileError::NotText)
}

/// Saves a job so that at every moment either the old or the new file is whole; says what became of the old one.
///
/// # Errors
/// [`FileError::Save`]; the old file is then untouched.
pub fn write(path: &Path, job: &Job) -> Result<Backup, FileError> {
    disk::write_with_backup(path, text(job)?.as_bytes()).map_err(|source| FileError::Save { source })
}

/// How the program reads and writes RON: `Measured` stands for `Some(Measured)`.
pub fn options() -> ron::Options {
    ron::Options::default().with_default_extension(Extensions::IMPLICIT_SOME)
}

/// The first thing that is neither space nor comment is a bracket, or the name before it.
fn begins_like_a_job(text: &str) -> bool {
    let first = text.lines().map(str::trim).find(|l| !l.is_empty() && !l.starts_with("//"));
    first.is_some_and(|l| l.starts_with('(') || l.starts_with("JobFile"))
}

fn syntax(error: ron::error::SpannedError) -> FileError {
    let what = error.code.to_string();
    FileError::Syntax {
        line: error.span.start.line,
        column: error.span.start.col,
        what: what.trim_end_matches('.').to_owned(),
    }
}

/// Counts brackets outside strings and comments, before a recursive reader sees them.
fn refuse_deep(text: &str) -> Result<(), FileError> {
    let (mut depth, mut line, mut in_string) = (0_usize, 1, false);
    let mut chars = text.chars().peekable();
    while let Some(c) = chars.next() {
        match c {
            '\n' => line += 1,
            '\\' if in_string => {
                chars.next();
            }
            '"' => in_string = !in_string,
            '/' if !in_string && chars.peek() == Some(&'/') => {
                while chars.peek().is_some_and(|c| *c != '\n') {
                    chars.next();
                }
            }
            '(' | '[' | '{' if !in_string => depth += 1,
            ')' | ']' | '}' if !in_string => depth = depth.saturating_sub(1),
            _ => {}
        }
        if depth > MOST_NESTED {
            return Err(FileError::TooDeep { line });
        }
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_job_survives_its_file() {
        let mut job = Job::default();
        job.front.spring.rate = "420 lb/in".into();
        job.front.plan = crate::job::Plan::Keep;
        job.notes = "Ωμέγα \"quoted\" \\ and\nlines".into();
        let text = text(&job).expect("writes");
        assert!(text.contains("rate: \"420 lb/in\""), "{text}");
        assert_eq!(parse(&text).expect("reads"), job);
    }

    #[test]
    fn an_empty_job_is_short() {
        assert_eq!(text(&Job::default()).expect("writes"), "(\n  version: 1,\n  job: (),\n)\n");
    }
}
