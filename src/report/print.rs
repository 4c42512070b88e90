//! Prints a sheet: which report, on which paper, into which file.

use std::path::{Path, PathBuf};

use thiserror::Error;

use crate::base::bounds::LOGO_FILE;
use crate::base::language::{Language, path_text, speak, tr};
use crate::job::reading::{self, ReadError};
use crate::job::{Job, bounded, file};
use crate::report::Report;
use crate::report::sheets::{self, Kind, Printed, Words};
use crate::report::write::page::logo::{Logo, LogoError};
use crate::report::write::page::pdf::{self, PdfError};
use crate::report::write::page::raster::{self, PngError};
use crate::report::write::page::{Fit, Fonts, Foot, Letterhead, Paper, Printing, lay_out};
use crate::report::write::text::{self, Markup};
use crate::say;
use crate::solve::answer::Answer;

/// No sheet is larger: a larger file is something else.
const MOST_SHEET_BYTES: u64 = 100_000_000;

/// A PNG names its program before its pixels.
const PNG_HEAD_BYTES: usize = 1000;

/// A sheet could not be written to a file.
#[derive(Debug, Error)]
#[error(
    "{}\n  {}",
    say!("the sheet could not be saved: {cause}. {remedy}", cause = source, remedy),
    say!("file: {path}", path = path_text(path))
)]
pub struct WriteError {
    /// What went wrong.
    source: Wrong,
    /// What helps.
    remedy: &'static str,
    /// Which file.
    path: PathBuf,
}

/// What kept a sheet from being written.
#[derive(Debug, Error)]
enum Wrong {
    #[error(transparent)]
    Disk(#[from] std::io::Error),
    #[error(transparent)]
    Pdf(#[from] PdfError),
    #[error(transparent)]
    Png(#[from] PngError),
    #[error("{}", tr("this is a job file; a sheet must not replace it"))]
    OverJob,
    #[error("{}", tr("a file with this name already exists and is not a sheet of this program"))]
    OverOther,
}

impl WriteError {
    /// Whoever was to read it has closed the pipe.
    pub fn is_closed_pipe(&self) -> bool {
        matches!(&self.source, Wrong::Disk(error) if error.kind() == std::io::ErrorKind::BrokenPipe)
    }
}

/// What a sheet may take the place of; never of a job.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Over {
    /// Only a sheet of this program: it can be printed again.
    Sheets,
    /// Any file: with `--force`.
    AnyFile,
}

/// A logo that cannot be used.
#[derive(Debug, Error)]
pub enum LogoFileError {
    /// It is none that can be printed.
    #[error("{source}\n  {}", say!("file: {path}", path = path_text(path)))]
    Logo {
        /// Why.
        source: LogoError,
        /// Which file.
        path: PathBuf,
    },
    /// The disk refused, or it is not a file.
    #[error(
        "{}\n  {}",
        say!("the logo cannot be read: {cause}", cause = source),
        say!("file: {path}", path = path_text(path))
    )]
    Read {
        /// Why.
        source: ReadError,
        /// Which file.
        path: PathBuf,
    },
}

/// One sheet of a job, and on how many pages it should stand: the one place that says what is printed.
pub fn sheet(kind: Kind, job: &Job, answer: &Answer, printed: Printed<'_>, words: &Words) -> (Report, Fit) {
    let fit = match kind {
        Kind::Customer => Fit::OnePage,
        Kind::WorkingBrief => Fit::TwoPages,
        Kind::Fitting | Kind::Order | Kind::Working | Kind::Full => Fit::Pages,
    };
    (sheets::build_with(kind, job, answer, printed, words), fit)
}

/// How the sheet of a job is printed; `name` is the job's own, `date` year-month-day.
pub fn printing(job: &Job, paper: Paper, fit: Fit, logo: Option<Logo>, name: &str, date: &str) -> Printing {
    let language = sheets::language_of(job);
    let _voice = speak(Language::spoken_as(language));
    let used = bounded::used(job);
    let letterhead = Letterhead {
        name: used.shop.name.clone(),
        contact: used.shop.contact.clone(),
        logo: logo.map(std::sync::Arc::new),
    };
    Printing {
        paper,
        fit,
        letterhead,
        foot: Foot {
            job: name.to_owned(),
            state: state_of(job),
            // The customer's sheet is the one of one page.
            hides_state: fit == Fit::OnePage,
            date: date.to_owned(),
        },
        language: language.to_owned(),
    }
}

/// A mark that changes with anything in the job: two sheets with the same mark were printed from the same job.
pub fn state_of(job: &Job) -> String {
    sheets::check_value(job)
        .map_or_else(String::new, |check| say!("check value {check}", check = format!("{check:08x}")))
}

/// A file of this name holds pages, not plain text.
pub fn is_paged(path: &Path) -> bool {
    let ending = path.extension().and_then(|e| e.to_str()).unwrap_or_default();
    ["pdf", "png"].iter().any(|e| ending.eq_ignore_ascii_case(e))
}

/// Today's date here, year-month-day.
pub fn today() -> String {
    jiff::ZonedDateTime::now().date().to_string()
}

/// Reads a logo from a file.
///
/// # Errors
/// [`LogoFileError`]; a file that is too large is not read.
pub fn read_logo(path: &Path) -> Result<(Logo, Vec<u8>), LogoFileError> {
    let wrong = |source| LogoFileError::Logo { source, path: path.to_owned() };
    let bytes = reading::bytes(path, &LOGO_FILE).map_err(|error| match error {
        ReadError::TooLarge { bytes, .. } => {
            wrong(LogoError::TooLarge { bytes: usize::try_from(bytes).unwrap_or(usize::MAX) })
        }
        source => LogoFileError::Read { source, path: path.to_owned() },
    })?;
    let logo = Logo::read(&bytes).map_err(wrong)?;
    Ok((logo, bytes))
}

/// Writes a report as its file's ending says: .pdf, .png, .md for Markdown, anything else plain text. Gives back the
/// notes for the reader of the print. A job file is refused.
///
/// # Errors
/// [`WriteError`]; an older file of that name is then untouched.
pub fn write(
    report: &Report,
    printing: &Printing,
    fonts: &mut Fonts,
    path: &Path,
    over: Over,
) -> Result<Vec<String>, WriteError> {
    write_as(report, printing, fonts, path, over).map_err(|source| {
        let remedy = match source {
            Wrong::Disk(_) => tr("Choose another location."),
            Wrong::OverJob => tr("Use a name that ends in .pdf, .png, .md or .txt."),
            Wrong::OverOther => tr("Choose another name, or replace the file with --force."),
            Wrong::Pdf(_) | Wrong::Png(_) => tr("Nothing was saved. Save the sheet as text or Markdown instead."),
        };
        WriteError { source, remedy, path: path.to_owned() }
    })
}

/// The file is called like a job, or is one: nothing that can be written again from a job takes its place.
pub fn is_of_a_job(path: &Path) -> bool {
    let ending = path.extension().and_then(|e| e.to_str()).unwrap_or_default();
    // A job's backup ends in ron~.
    ending.trim_end_matches('~').eq_ignore_ascii_case("ron") || file::read(path).is_ok()
}

/// A sheet may be written there without asking: no file is there, or a sheet of this program, or none is replaced.
pub fn is_free(path: &Path) -> bool {
    !is_of_a_job(path) && (!path.exists() || file::is_stream(path) || is_a_sheet(path))
}

/// A file that this program printed, of whichever version: a PDF or PNG says so in its metadata, a text at its end.
fn is_a_sheet(path: &Path) -> bool {
    let Ok(about) = std::fs::metadata(path) else { return false };
    if !about.is_file() || about.len() > MOST_SHEET_BYTES {
        return false;
    }
    let bytes = file::read_bytes(path).unwrap_or_default();
    if bytes.starts_with(b"%PDF-") {
        holds(&bytes, pdf::MARK)
    } else if bytes.starts_with(b"\x89PNG") {
        holds(&bytes[..bytes.len().min(PNG_HEAD_BYTES)], raster::MARK)
    } else {
        std::str::from_utf8(&bytes).is_ok_and(ends_with_a_stamp)
    }
}

fn holds(bytes: &[u8], mark: &str) -> bool {
    bytes.windows(mark.len()).any(|w| w == mark.as_bytes())
}

/// The last paragraphs name program and version, whatever the language, and the check value; a customer's sheet has none,
/// but its own title.
fn ends_with_a_stamp(text: &str) -> bool {
    let text = text.replace("\r\n", "\n");
    let is_customers = is_titled_for_a_customer(&text);
    let end: Vec<&str> = text.trim_end().rsplit("\n\n").take(2).collect();
    end.into_iter().any(|paragraph| {
        let words: Vec<&str> =
            paragraph.split_whitespace().map(|w| w.trim_matches(['.', ',', ';', '*', '_'])).collect();
        let is_version = |w: &&str| w.starts_with(|c: char| c.is_ascii_digit()) && w.contains('.');
        let is_check = |w: &&str| w.len() == 8 && w.bytes().all(|b| matches!(b, b'0'..=b'9' | b'a'..=b'f'));
        let is_by_us = words.windows(2).any(|w| w[0] == "springwright" && is_version(&w[1]));
        is_by_us && (is_customers || words.iter().any(is_check))
    })
}

fn is_titled_for_a_customer(text: &str) -> bool {
    let title = text.trim_start_matches(['#', ' ']).lines().next().unwrap_or_default();
    let mut titles = Words::languages().filter_map(Words::shipped).map(|words| words.say("customer.title", &[]));
    titles.any(|own| own == title.trim())
}

fn write_as(
    report: &Report,
    printing: &Printing,
    fonts: &mut Fonts,
    path: &Path,
    over: Over,
) -> Result<Vec<String>, Wrong> {
    if is_of_a_job(path) {
        return Err(Wrong::OverJob);
    }
    if over == Over::Sheets && !path.is_dir() && !is_free(path) {
        return Err(Wrong::OverOther);
    }
    let ending = path.extension().and_then(|e| e.to_str()).unwrap_or_default().to_lowercase();
    let (bytes, notes) = match ending.as_str() {
        "pdf" => {
            let pages = lay_out(report, printing, fonts);
            (pdf::write(&pages)?, pages.notes)
        }
        "png" => {
            let pages = lay_out(report, printing, fonts);
            (raster::png(&pages)?, pages.notes)
        }
        "md" => (text::write(report, Markup::Markdown).into_bytes(), Vec::new()),
        _ => (text::write(report, Markup::Plain).into_bytes(), Vec::new()),
    };
    file::write_bytes(path, &bytes)?;
    Ok(notes)
}
