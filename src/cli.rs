//! The command line: check, solve, choose, road, list, sheet, presets, fields.

use std::path::{Path, PathBuf};

use clap::{Parser, Subcommand};
use thiserror::Error;

use crate::choose;
use crate::choose::draws::{Draws, Watch};
use crate::job::file::{self, FileError};
use crate::job::finding::{Level, worst};
use crate::job::{Job, Plan, RoadClass, Side, fields};
use crate::presets::{self, PRESETS};
use crate::report::text::{self, Markup};
use crate::report::{self, WriteError, json, sheet};
use crate::shop::{self, Opened, Shop, ShopError};
use crate::solve::answer::Answer;
use crate::solve::{road, solve};

/// Sizes springs and dampers for a vehicle whose axle weights have changed.
#[derive(Debug, Parser)]
#[command(name = "springwright-cli", version, about, after_help = EXAMPLES, subcommand_required = true, arg_required_else_help = true)]
pub struct Args {
    /// What to do.
    #[command(subcommand)]
    pub command: Command,
}

const EXAMPLES: &str = "\
Examples:
  springwright-cli solve demo-orchard-van          the answer to a shipped job
  springwright-cli solve my.ron --json             every result: name, SI value, unit, convention
  springwright-cli check my.ron                    only what is wrong or doubtful
  springwright-cli choose demo-orchard-van         springs from the parts list, how likely each fits
  springwright-cli road my.ron --class D --speed 50km/h  runs over a rough road, a hump, a pothole
  springwright-cli sheet my.ron --out my.md        a sheet, Markdown or text by its ending
  springwright-cli presets demo-orchard-van        a shipped job as a file, to start from

JOB is a job file or the name of a shipped job. Exit code: 0 fine, 1 the job has
errors or a stop, 2 wrong usage, 3 a file could not be read or written.";

/// One command.
#[derive(Debug, Subcommand)]
pub enum Command {
    /// Solve a job and print the answer.
    Solve {
        /// Job file, or name of a shipped job.
        job: String,
        /// Print JSON with every result instead of text.
        #[arg(long)]
        json: bool,
    },
    /// Print what is wrong or doubtful in a job.
    Check {
        /// Job file, or name of a shipped job.
        job: String,
    },
    /// Choose springs from the parts list: which fit, how likely, and what to measure again first.
    Choose {
        /// Job file, or name of a shipped job.
        job: String,
        /// A parts list (a table file) in place of the one that the job names.
        #[arg(long)]
        list: Option<PathBuf>,
        /// How many draws of everything that is uncertain.
        #[arg(long, default_value_t = Draws::default().count, value_parser = draws)]
        draws: usize,
        /// Where the draws begin; the same seed gives the same result.
        #[arg(long, default_value_t = Draws::default().seed)]
        seed: u64,
        /// Print JSON instead of text.
        #[arg(long)]
        json: bool,
    },
    /// Run over a rough road, a hump and a pothole: before, on the old springs, on the new.
    Road {
        /// Job file, or name of a shipped job.
        job: String,
        /// How rough: A, B, C, D or E, in place of the job's.
        #[arg(long, value_parser = class)]
        class: Option<RoadClass>,
        /// Speed with its unit, such as "50 km/h", in place of the job's.
        #[arg(long)]
        speed: Option<String>,
        /// Which of the many roads of its class, in place of the job's.
        #[arg(long)]
        seed: Option<u64>,
        /// Print JSON instead of text.
        #[arg(long)]
        json: bool,
    },
    /// Show how a parts list is read: what each column means, and which rows cannot be used.
    List {
        /// The table file, or the name of one of the shop's lists.
        list: String,
    },
    /// Write the answer as a sheet.
    Sheet {
        /// Job file, or name of a shipped job.
        job: String,
        /// File to write: .md for Markdown, anything else for plain text.
        #[arg(long)]
        out: PathBuf,
    },
    /// List the shipped jobs, or print one of them as a file.
    Presets {
        /// Name of a shipped job.
        name: Option<String>,
    },
    /// Print the table of all fields of a job file, as Markdown.
    Fields,
}

/// Exit codes.
pub mod exit {
    /// Everything fine.
    pub const OK: u8 = 0;
    /// The job has findings of level error or stop.
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
    #[error("{source}\n  file: {}", path.display())]
    File {
        /// What is wrong.
        source: FileError,
        /// Which file.
        path: PathBuf,
    },
    /// A sheet could not be written.
    #[error(transparent)]
    Write(#[from] WriteError),
    /// No shipped job of this name.
    #[error("no shipped job is called \"{name}\"; `springwright-cli presets` lists them")]
    NoPreset {
        /// The name asked for.
        name: String,
    },
    /// A parts list.
    #[error(transparent)]
    List(#[from] ShopError),
    /// The job names no list and none was given.
    #[error("this job names no parts list: add `list: \"name\"` to it, or give one with --list FILE")]
    NoList,
    /// JSON could not be written; not known to happen.
    #[error("JSON could not be written: {0}")]
    Json(#[from] serde_json::Error),
}

impl CliError {
    /// The exit code for this error.
    pub fn exit_code(&self) -> u8 {
        match self {
            CliError::File { .. } | CliError::Write(_) | CliError::Json(_) | CliError::List(_) => exit::FILE,
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
    match &args.command {
        Command::Solve { job, json } => {
            let (job, answer) = open(job)?;
            let text = if *json {
                serde_json::to_string_pretty(&json::value(&job, &answer))? + "\n"
            } else {
                text::write(&sheet::build(&job, &answer), Markup::Plain)
            };
            Ok(Outcome { text, code: code(&answer) })
        }
        Command::Check { job } => {
            let (_, answer) = open(job)?;
            Ok(Outcome { text: findings(&answer), code: code(&answer) })
        }
        Command::Choose { job, list, draws, seed, json } => {
            let (job, answer, path) = open_at(job)?;
            let opened = match list {
                Some(path) => shop::open_file(path, &path.display().to_string())?,
                None if job.list.trim().is_empty() => return Err(CliError::NoList),
                None => Shop::of_user().open(&job.list, path.as_deref())?,
            };
            choose(&job, &answer, &opened, Draws { count: *draws, seed: *seed }, *json)
        }
        Command::Road { job, class, speed, seed, json } => {
            let (mut job, _, _) = open_at(job)?;
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
        Command::Sheet { job, out } => {
            let (job, answer) = open(job)?;
            report::write_sheet(&job, &answer, out)?;
            Ok(Outcome { text: format!("Sheet written: {}\n", out.display()), code: code(&answer) })
        }
        Command::Presets { name: None } => {
            let lines = PRESETS.iter().map(|p| format!("{:<26} {}\n", p.name, p.title));
            Ok(Outcome { text: lines.collect(), code: exit::OK })
        }
        Command::Presets { name: Some(name) } => {
            let preset = presets::find(name).ok_or_else(|| CliError::NoPreset { name: name.clone() })?;
            Ok(Outcome { text: preset.text.to_owned(), code: exit::OK })
        }
        Command::Fields => Ok(Outcome { text: fields::markdown(), code: exit::OK }),
    }
}

fn open(name: &str) -> Result<(Job, Answer), CliError> {
    open_at(name).map(|(job, answer, _)| (job, answer))
}

/// A job, its answer, and its file if it is not a shipped one.
fn open_at(name: &str) -> Result<(Job, Answer, Option<PathBuf>), CliError> {
    let path = Path::new(name);
    let (job, path) = match presets::find(name) {
        Some(preset) if !path.exists() => (preset.job(), None),
        _ => {
            let job = file::read(path).map_err(|source| CliError::File { source, path: path.to_owned() })?;
            (job, Some(path.to_owned()))
        }
    };
    let answer = solve(&job);
    Ok((job, answer, path))
}

/// Both axles that get new springs.
fn choose(job: &Job, answer: &Answer, opened: &Opened, draws: Draws, json: bool) -> Result<Outcome, CliError> {
    let springs = &opened.list.springs;
    let axles = Side::BOTH.into_iter().filter(|side| job.axle(*side).plan == Plan::NewSprings);
    // Nobody cancels: there is a choice or a reason.
    let choices: Vec<_> = axles
        .filter_map(|side| {
            let found = choose::choose(job, answer.axle(side), springs, draws, &Watch::default()).transpose()?;
            Some((side, found))
        })
        .collect();
    let text = if json {
        serde_json::to_string_pretty(&report::choose::json(&choices, springs))? + "\n"
    } else {
        text::write(&report::choose::build(job, opened.name.as_str(), &opened.list, &choices), Markup::Plain)
    };
    let none = choices.iter().any(|(_, c)| c.as_ref().map_or(true, |c| c.pick.is_none()));
    let code = if none { exit::FINDINGS } else { code(answer) };
    Ok(Outcome { text, code })
}

/// A number of draws that means something and ends.
fn draws(text: &str) -> Result<usize, String> {
    const ALLOWED: std::ops::RangeInclusive<usize> = 1_000..=10_000_000;
    match text.parse::<usize>() {
        Ok(count) if ALLOWED.contains(&count) => Ok(count),
        _ => Err(format!("a whole number from {} to {}", ALLOWED.start(), ALLOWED.end())),
    }
}

/// A class of road.
fn class(text: &str) -> Result<RoadClass, String> {
    RoadClass::of(text).ok_or_else(|| "A, B, C, D or E, A being the smoothest".to_owned())
}

/// What is wrong with some fields, one a line.
fn findings_of(answer: &Answer, fields: &[&str]) -> String {
    let wrong = answer.findings.iter().filter(|f| f.level >= Level::Error);
    let mine = wrong.filter(|f| fields.iter().any(|p| f.field.starts_with(p)));
    mine.map(|f| format!("{}: {}\n", f.level.word(), f.text)).collect()
}

fn code(answer: &Answer) -> u8 {
    if worst(&answer.findings) >= Some(Level::Error) { exit::FINDINGS } else { exit::OK }
}

fn findings(answer: &Answer) -> String {
    if answer.findings.is_empty() {
        return "Nothing to question.\n".into();
    }
    answer.findings.iter().map(|f| format!("{}: {}\n", f.level.word(), f.text)).collect()
}
