//! A job as one readable file.
//!
//! RON text `(version: 3, job: (...))`, quantities as typed (`"420 lb/in"`).
//! This module turns text into a job and back; only [`read_text()`] and [`write()`] touch a disk.

use std::borrow::Cow;
use std::fmt;
use std::io::ErrorKind;
use std::path::{Path, PathBuf};

use ron::extensions::Extensions;
use serde::de::IgnoredAny;
use serde::{Deserialize, Serialize};
use thiserror::Error;

use super::comments;
use super::disk;
pub use super::disk::{Backup, advice, backup_of, is_stream, read_bytes, write_bytes, write_text};
use super::reading::{self, ReadError};
use crate::base::bounds::{FILE_PLANS, JOB_FILE, SETTINGS_FILE};
use crate::base::language::path_text;
use crate::base::message::Message;
use crate::job::{Job, Walk as _, fields};
use crate::{message, say};

/// The version written by this program, and the newest it reads.
pub const VERSION: u32 = 3;
/// From this version on an anti-roll bar that is typed is fitted with its plan; before, it was a candidate.
const BARS_ARE_PLANNED: u32 = 3;
/// No job is larger; a larger file is something else.
pub const MOST_BYTES: u64 = JOB_FILE.bytes();

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
    /// More plans than any job has.
    Plans {
        /// How many there are.
        found: usize,
    },
    /// The disk does not give it.
    Read {
        /// The system's message, or what it is instead of a file.
        source: ReadError,
    },
    /// It would be too large to be opened again.
    TooMuch {
        /// The size it would have.
        bytes: usize,
        /// Its longest text, and how many characters that has.
        longest: (Message, usize),
    },
    /// It would not open again for another reason; not known to happen.
    WouldNotOpen {
        /// Why.
        why: Box<FileError>,
    },
    /// The disk does not take it.
    Save {
        /// The system's message.
        source: std::io::Error,
    },
}

impl fmt::Display for FileError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&match self {
            FileError::TooLarge { bytes } => say!(
                "this file has {bytes} bytes; a job has at most {most}. It is not a job: nothing was read",
                bytes,
                most = MOST_BYTES
            ),
            FileError::NotText => say!("this file is not UTF-8 text, so it is not a job. Nothing was read"),
            FileError::TooDeep { line } => say!(
                "line {line}: brackets are nested deeper than in any job, so this file is not a job. Nothing was read",
                line
            ),
            FileError::NotAJob => say!(
                "this is not a springwright job: a job begins with (version: 3, job: ( ... )). Nothing was read"
            ),
            FileError::Syntax { line, column, what } => say!(
                "line {line}, column {column}: {what}. Correct it in a text editor; nothing was read",
                line,
                column,
                what
            ),
            FileError::Version { found } => say!(
                "this job has file version {found}; this program reads version {newest}. Open it with the program version that saved it",
                found,
                newest = VERSION
            ),
            FileError::Plans { found } => say!(
                "this job has {found} plans; a job file has at most {most}. Remove some in a text editor; nothing was read",
                found,
                most = FILE_PLANS.count()
            ),
            FileError::Read { source } => say!("the file could not be read: {reason}", reason = source),
            FileError::TooMuch { bytes, longest: (name, characters) } => say!(
                "the job would be {bytes} bytes; a job file has at most {most}. The longest text is {name}, with {characters} characters: shorten it",
                bytes,
                most = MOST_BYTES,
                name,
                characters
            ),
            FileError::WouldNotOpen { why } => say!("if saved, the file would no longer open: {why}", why),
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

/// A job file whose plans are only counted: blank ones are three characters of text and far more of memory.
#[derive(Deserialize)]
struct Counted {
    job: CountedJob,
}

#[derive(Deserialize)]
struct CountedJob {
    #[serde(default)]
    plans: Vec<IgnoredAny>,
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
    let text = &*plain(text);
    let head: Head = options().from_str(text).map_err(|error| match error.code {
        ron::Error::MissingStructField { field: "version", .. } | ron::Error::Eof => FileError::NotAJob,
        ron::Error::ExceededRecursionLimit => syntax(error),
        _ if !begins_like_a_job(text) => FileError::NotAJob,
        _ => syntax(error),
    })?;
    if head.version == 0 || head.version > VERSION {
        return Err(FileError::Version { found: head.version });
    }
    if text.contains("plans") {
        let counted: Counted = options().from_str(text).map_err(syntax)?;
        let found = counted.job.plans.len();
        if found > FILE_PLANS.count() {
            return Err(FileError::Plans { found });
        }
    }
    let mut file: JobFile = options().from_str(text).map_err(syntax)?;
    // A file from before the field existed: as its units said then.
    file.job.settle_defaults();
    if head.version < BARS_ARE_PLANNED {
        file.job.plan_candidate_bars();
    }
    Ok(file.job)
}

/// Reads any other file of the program's: what the shop may write with an editor of its own.
///
/// # Errors
/// What is wrong, and where.
pub fn from_ron<T: serde::de::DeserializeOwned>(text: &str) -> Result<T, ron::error::SpannedError> {
    options().from_str(&plain(text))
}

/// A text without the mark that some editors put first, its lines ended as today's are: an old Mac ended them with a
/// carriage return alone, and a comment would go on to the end of the file.
pub(crate) fn plain(text: &str) -> Cow<'_, str> {
    let text = text.strip_prefix('\u{FEFF}').unwrap_or(text);
    if text.split("\r\n").any(|piece| piece.contains('\r')) {
        let pieces: Vec<String> = text.split("\r\n").map(|piece| piece.replace('\r', "\n")).collect();
        Cow::Owned(pieces.join("\r\n"))
    } else {
        Cow::Borrowed(text)
    }
}

/// A job file's text holds words of someone's that no job has room for.
pub fn has_comments(text: &str) -> bool {
    comments::has_comments(&plain(text))
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
/// [`FileError`]; the size is checked before anything is read.
pub fn read(path: &Path) -> Result<Job, FileError> {
    parse(&read_text(path)?)
}

/// The text of a file that may be a job.
///
/// # Errors
/// [`FileError`]; the size is checked before anything is read.
pub fn read_text(path: &Path) -> Result<String, FileError> {
    let raw = reading::bytes(path, &JOB_FILE).map_err(|error| match error {
        ReadError::TooLarge { bytes, .. } => FileError::TooLarge { bytes },
        source => FileError::Read { source },
    })?;
    String::from_utf8(raw).map_err(|_| FileError::NotText)
}

/// Saves a job so that at every moment either the old or the new file is whole; says what became of the old one. What
/// could not be opened again is not saved.
///
/// # Errors
/// [`FileError`]; the old file is then untouched.
pub fn write(path: &Path, job: &Job) -> Result<Backup, FileError> {
    let text = text(job)?;
    match parse(&text) {
        Ok(_) => {}
        Err(FileError::TooLarge { .. }) => {
            return Err(FileError::TooMuch { bytes: text.len(), longest: longest(job) });
        }
        Err(why) => return Err(FileError::WouldNotOpen { why: Box::new(why) }),
    }
    disk::write_with_backup(path, text.as_bytes()).map_err(|source| FileError::Save { source })
}

/// Writes a settings file, which people may edit too. One that says the same already stays as it is, comments and all;
/// from one that says something else the comments would be lost, so it is kept first ([`keep_original`]).
///
/// Returns where that original lies; `None` when there were no comments to lose.
///
/// # Errors
/// Whatever the disk says; the old file is then untouched.
pub fn write_settings<T>(path: &Path, settings: &T) -> std::io::Result<Option<PathBuf>>
where
    T: Serialize + serde::de::DeserializeOwned + PartialEq,
{
    let pretty = ron::ser::PrettyConfig::default();
    let text = options().to_string_pretty(settings, pretty).map_err(std::io::Error::other)?;
    let old = reading::text(path, &SETTINGS_FILE).unwrap_or_default();
    let original = match has_comments(&old) {
        true if from_ron::<T>(&old).is_ok_and(|same| same == *settings) => return Ok(None),
        true => Some(keep_original(path)?),
        false => None,
    };
    write_text(path, &(text + "\n")).map(|()| original)
}

/// Says where the original of a settings file with comments lies.
pub fn original_kept(original: &Path) -> String {
    say!("The original file, with its comments, is kept as {path}", path = path_text(original))
}

/// Keeps a file as it is under a name of its own next to it, `NAME.ron.original`, and says under which.
///
/// # Errors
/// Whatever the disk says.
pub fn keep_original(path: &Path) -> std::io::Result<PathBuf> {
    let bytes = read_bytes(path)?;
    let name = |n: u32| {
        let mut name = path.as_os_str().to_owned();
        name.push(".original");
        if n > 1 {
            name.push(n.to_string());
        }
        PathBuf::from(name)
    };
    let free = (1..=u32::MAX).map(name).find(|p| std::fs::symlink_metadata(p).is_err());
    let original = free.ok_or(ErrorKind::AlreadyExists)?;
    write_bytes(&original, &bytes)?;
    Ok(original)
}

/// The name of a job's longest text, and how many characters it has.
fn longest(job: &Job) -> (Message, usize) {
    let mut longest = (message!("the notes"), job.notes.chars().count());
    job.walk(&mut String::new(), &mut |path, entry| {
        let characters = entry.text().chars().count();
        if characters > longest.1 {
            longest = (fields::full_label(path), characters);
        }
    });
    longest
}

/// How the program reads and writes RON: `Measured` means `Some(Measured)`.
pub fn options() -> ron::Options {
    ron::Options::default().with_default_extension(Extensions::IMPLICIT_SOME)
}

/// The first thing that is neither space nor comment is a bracket, or the name before it.
fn begins_like_a_job(text: &str) -> bool {
    let first = text.lines().map(str::trim).find(|l| !l.is_empty() && !l.starts_with("//"));
    first.is_some_and(|l| l.starts_with('(') || l.starts_with("JobFile"))
}

fn syntax(error: ron::error::SpannedError) -> FileError {
    if error.code == ron::Error::ExceededRecursionLimit {
        return FileError::TooDeep { line: error.span.start.line };
    }
    let what = error.code.to_string();
    FileError::Syntax {
        line: error.span.start.line,
        column: error.span.start.col,
        what: what.trim_end_matches('.').to_owned(),
    }
}
