//! The command line: check, solve, choose, road, list, jobs, sheet, presets, fields.

mod args;
pub mod desktop;
pub mod window;

use std::path::{Path, PathBuf};

use thiserror::Error;

use crate::choose;
use crate::choose::draws::{Draws, Watch};
use crate::job::file::{self, FileError};
use crate::job::finding::{Level, worst};
use crate::job::{Finding, Job, Plan, Side, fields};
use crate::jobs;
use crate::language::{Spoken, Voice, speak, spoken, tr};
use crate::parts::curve::{Ask, Direction};
use crate::presets::{self, PRESETS};
use crate::report::page::{Fonts, Paper};
use crate::report::print::{self, LogoFileError, WriteError};
use crate::report::sheets::{Kind, Printed, Words, WordsError};
use crate::report::text::{self, Markup};
use crate::report::{self, json, sheet};
use crate::say;
use crate::shop::{self, CurveFileError, Opened, Shop, ShopError};
use crate::solve::answer::Answer;
use crate::solve::{road, solve};
pub use args::{Args, Command};

/// Exit codes.
pub mod exit {
    /// Everything fine.
    pub const OK: u8 = 0;
    /// Something is withheld, or the job has findings of level error or stop.
    pub const FINDINGS: u8 = 1;
    /// Wrong usage.
    pub const USAGE: u8 = 2;
    /// A file could not be read or written.
    pub const FILE: u8 = 3;
}

/// Why a command could not do its work.
#[derive(Debug, Error)]
pub enum CliError {
    /// A job file.
    #[error("{}", say!("{source}\n  file: {path}", source, path = path.display()))]
    File {
        /// What is wrong.
        source: FileError,
        /// Which file.
        path: PathBuf,
    },
    /// A sheet could not be written.
    #[error(transparent)]
    Write(#[from] WriteError),
    /// A folder of jobs, or one to write to.
    #[error("{}", say!("{source}\n  folder: {path}", source, path = path.display()))]
    Folder {
        /// What the system said.
        source: std::io::Error,
        /// Which folder.
        path: PathBuf,
    },
    /// The shop's own texts of the sheets cannot be used.
    #[error("{}", say!("the shop's own texts of the sheets cannot be used: {reason}", reason = .0))]
    Words(#[from] WordsError),
    /// A logo cannot be used.
    #[error(transparent)]
    Logo(#[from] LogoFileError),
    /// No shipped job of this name.
    #[error("{}", say!("no shipped job is called \"{name}\"; `springwright-cli presets` lists them", name))]
    NoPreset {
        /// The name asked for.
        name: String,
    },
    /// A parts list.
    #[error(transparent)]
    List(#[from] ShopError),
    /// A damper's curve.
    #[error(transparent)]
    Curve(#[from] CurveFileError),
    /// The job names no list and none was given.
    #[error("{}", tr("this job names no parts list: add `list: \"name\"` to it, or give one with --list FILE"))]
    NoList,
    /// JSON could not be written; not known to happen.
    #[error("{}", say!("JSON could not be written: {reason}", reason = .0))]
    Json(#[from] serde_json::Error),
}

impl CliError {
    /// The exit code for this error.
    pub fn exit_code(&self) -> u8 {
        match self {
            CliError::File { .. }
            | CliError::Write(_)
            | CliError::Json(_)
            | CliError::List(_)
            | CliError::Curve(_)
            | CliError::Logo(_)
            | CliError::Words(_)
            | CliError::Folder { .. } => exit::FILE,
            CliError::NoPreset { .. } | CliError::NoList => exit::USAGE,
        }
    }
}

/// What a command has to say, and with which code the program ends.
#[derive(Debug, PartialEq, Eq)]
pub struct Outcome {
    /// For standard output.
    pub text: String,
    /// Exit code.
    pub code: u8,
}

/// Runs a command. Prints nothing itself.
///
/// # Errors
/// [`CliError`] when a file cannot be read or written.
pub fn run(args: &Args) -> Result<Outcome, CliError> {
    let _voice = speak(args.voice());
    match &args.command {
        Command::Solve { job, json } => {
            let Solved { job, answer, .. } = &open(job)?;
            let text = if *json {
                serde_json::to_string_pretty(&json::value(job, answer))? + "\n"
            } else {
                text::write(&sheet::build(job, answer), Markup::Plain)
            };
            Ok(Outcome { text, code: code(answer) })
        }
        Command::Check { job } => {
            let Solved { answer, .. } = &open(job)?;
            Ok(Outcome { text: findings(answer), code: code(answer) })
        }
        Command::Choose { job, list, draws, seed, json } => {
            let Solved { job, answer, path, .. } = &open(job)?;
            let opened = match list {
                Some(path) => shop::open_file(path, &path.display().to_string())?,
                None if job.list.trim().is_empty() => return Err(CliError::NoList),
                None => Shop::of_user().open(&job.list, path.as_deref())?,
            };
            choose(job, answer, &opened, Draws { count: *draws, seed: *seed }, *json)
        }
        Command::Road { job, class, speed, seed, json } => {
            let Solved { mut job, _voice, .. } = open(job)?;
            job.road.class = class.unwrap_or(job.road.class);
            if let Some(speed) = speed {
                job.chassis.speed = speed.as_str().into();
            }
            if let Some(seed) = seed {
                job.road.seed = seed.to_string().as_str().into();
            }
            let answer = solve(&job);
            let driven = road::drive(&job, &answer, |_| true);
            let text = if *json {
                serde_json::to_string_pretty(&report::road::json(&job, &driven))? + "\n"
            } else {
                findings_of(&answer, &["chassis.speed", "road."])
                    + &text::write(&report::road::build(&job, &answer, &driven), Markup::Plain)
            };
            Ok(Outcome { text, code: if driven.is_ok() { code(&answer) } else { exit::FINDINGS } })
        }
        Command::List { list } => {
            let path = Path::new(list);
            let opened =
                if path.is_file() { shop::open_file(path, list)? } else { Shop::of_user().open(list, None)? };
            let text = text::write(&report::list::build(&opened.columns, &opened.list), Markup::Plain);
            let code = if opened.list.bad.is_empty() { exit::OK } else { exit::FINDINGS };
            Ok(Outcome { text, code })
        }
        Command::Curve { file, speed_unit, force_unit, plus_is_rebound } => {
            let plus = if *plus_is_rebound { Direction::Rebound } else { Direction::Bump };
            let read = shop::curve(file, &Ask { speed: *speed_unit, force: *force_unit, plus, decimal: None })?;
            let (report, is_curve) = report::curve::build(&read);
            let code = if is_curve { exit::OK } else { exit::FINDINGS };
            Ok(Outcome { text: text::write(&report, Markup::Plain), code })
        }
        Command::Sheet { job, out, kind, paper, logo, date } => {
            let date = date.clone().unwrap_or_else(print::today);
            write_sheet(job, out, *kind, *paper, logo.as_deref(), &date)
        }
        Command::Presets { name: None } => {
            let lines = PRESETS.iter().map(|p| format!("{:<26} {}\n", p.name, tr(p.title)));
            Ok(Outcome { text: lines.collect(), code: exit::OK })
        }
        Command::Presets { name: Some(name) } => {
            let preset = presets::find(name).ok_or_else(|| CliError::NoPreset { name: name.clone() })?;
            Ok(Outcome { text: preset.text.to_owned(), code: exit::OK })
        }
        Command::Jobs { folder, find } => list_jobs(folder, find.as_deref().unwrap_or_default()),
        Command::Desktop { share } => put_on_desktop(share),
        Command::Fields => Ok(Outcome { text: fields::markdown(), code: exit::OK }),
    }
}

/// The jobs of a folder that have these words.
fn list_jobs(folder: &Path, words: &str) -> Result<Outcome, CliError> {
    let wrong = |source| CliError::Folder { source, path: folder.to_owned() };
    let records = jobs::list(folder).map_err(wrong)?;
    let text = records.iter().filter(|r| r.has(words)).map(|r| job_line(r, folder)).collect();
    Ok(Outcome { text: text::harmless(text), code: exit::OK })
}

fn put_on_desktop(share: &Path) -> Result<Outcome, CliError> {
    let written = desktop::write(share).map_err(|source| CliError::Folder { source, path: share.to_owned() })?;
    Ok(Outcome { text: written.iter().map(|p| format!("{}\n", p.display())).collect(), code: exit::OK })
}

/// A job of a folder in one line: date, customer, vehicle, file; or why it is none.
fn job_line(record: &jobs::Record, folder: &Path) -> String {
    let file = record.path.strip_prefix(folder).unwrap_or(&record.path).display();
    match &record.wrong {
        Some(wrong) => format!("{file}: {wrong}\n"),
        None => {
            let one_line = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ");
            let [date, customer, vehicle] = [record.date(), &record.customer, &record.vehicle].map(one_line);
            format!("{date:<12} {customer:<24} {vehicle:<40} {file}\n")
        }
    }
}

fn write_sheet(
    name: &str,
    out: &Path,
    kind: Kind,
    paper: Paper,
    logo: Option<&Path>,
    date: &str,
) -> Result<Outcome, CliError> {
    let Solved { job, answer, path, .. } = &open(name)?;
    let shop = Shop::of_user();
    let own = logo.map(Path::to_owned).or_else(|| shop.logo());
    let logo = own.map(|path| print::read_logo(&path)).transpose()?.map(|(logo, _)| logo);
    let file = path.as_deref().and_then(Path::file_name).map_or(name.into(), std::ffi::OsStr::to_string_lossy);
    let words = Words::of(&job.shop.language, shop.sheet_texts(&job.shop.language)?.as_deref())?;
    // It was read from there just now.
    let printed = Printed {
        date: Some(date),
        file: Some(&file),
        saved: path.is_some().then_some(true),
        on_pages: print::is_paged(out),
    };
    let (report, fit) = print::sheet(kind, job, answer, printed, &words);
    let printing = print::printing(job, paper, fit, logo, &file, date);
    let notes = print::write(&report, &printing, &mut Fonts::with_system(), out)?;
    let said: String = notes.iter().map(|n| format!("{n}\n")).collect();
    let written = say!("Sheet written: {path}", path = out.display());
    Ok(Outcome { text: format!("{written}\n{said}"), code: code(answer) })
}

/// A job with its answer, spoken of with its own decimal mark as long as this is held.
struct Solved {
    job: Job,
    answer: Answer,
    /// Its file; `None` for a shipped job.
    path: Option<PathBuf>,
    _voice: Spoken,
}

fn open(name: &str) -> Result<Solved, CliError> {
    let path = Path::new(name);
    let (job, path) = match presets::find(name) {
        Some(preset) if !path.exists() => (preset.job(), None),
        _ => {
            let job = file::read(path).map_err(|source| CliError::File { source, path: path.to_owned() })?;
            (job, Some(path.to_owned()))
        }
    };
    let voice = speak(Voice { mark: job.decimal, ..spoken() });
    Ok(Solved { answer: solve(&job), job, path, _voice: voice })
}

/// Both axles that get new springs.
fn choose(job: &Job, answer: &Answer, opened: &Opened, draws: Draws, json: bool) -> Result<Outcome, CliError> {
    let springs = &opened.list.springs;
    let axles = Side::BOTH.into_iter().filter(|side| job.axle(*side).plan == Plan::NewSprings);
    // Nobody cancels: there is a choice or a reason.
    let choices: Vec<_> = axles
        .filter_map(|side| {
            let found = choose::choose(job, answer, side, springs, draws, &Watch::default()).transpose()?;
            Some((side, found))
        })
        .collect();
    let listed = &opened.list.dampers;
    let dampers = Side::BOTH.map(|side| choose::dampers::rank(job, answer, side, listed));
    let dampers = || Side::BOTH.into_iter().zip(dampers.iter().map(|d| d.as_ref().map_err(|unable| *unable)));
    let text = if json {
        let mut value = report::choose::json(&choices, springs);
        let found = dampers().map(|(side, d)| (side.key().to_owned(), report::choose_dampers::json(d, listed)));
        value["dampers"] = serde_json::Value::Object(found.collect());
        serde_json::to_string_pretty(&value)? + "\n"
    } else {
        let mut said = report::choose::build(job, opened.name.as_str(), &opened.list, &choices);
        said.blocks.splice(0..0, sheet::withheld(job, answer));
        for (side, d) in dampers() {
            said.blocks.extend(report::choose_dampers::blocks(job, answer.axle(side), listed, d));
        }
        text::write(&said, Markup::Plain)
    };
    let none = choices.iter().any(|(_, c)| c.as_ref().map_or(true, |c| c.pick.is_none()));
    let code = if none { exit::FINDINGS } else { code(answer) };
    Ok(Outcome { text, code })
}

/// What is wrong with some fields, one a line.
fn findings_of(answer: &Answer, fields: &[&str]) -> String {
    let wrong = answer.findings.iter().filter(|f| f.level >= Level::Error);
    let mine = wrong.filter(|f| fields.iter().any(|p| f.field.starts_with(p)));
    text::harmless(mine.map(|f| format!("{}: {}\n", f.level.word(), f.text)).collect())
}

/// The exit code for an answer.
pub fn code(answer: &Answer) -> u8 {
    if worst(&answer.findings) >= Some(Level::Withheld) { exit::FINDINGS } else { exit::OK }
}

fn findings(answer: &Answer) -> String {
    if answer.findings.is_empty() {
        return tr("Nothing to question.").to_owned() + "\n";
    }
    let said = |f: &Finding| {
        let mends: String = f.mends.iter().map(|m| format!("  {}\n", m.for_file())).collect();
        format!("{}: {}\n{mends}", f.level.word(), f.text)
    };
    text::harmless(answer.findings.iter().map(said).collect())
}
