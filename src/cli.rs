//! The command line: check, solve, choose, road, bench, record, list, jobs, sheet, presets, fields.

mod args;
pub mod desktop;
mod measured;
mod opened;
pub mod output;
pub mod window;

use std::path::{Path, PathBuf};

use serde_json::Value;
use thiserror::Error;

use crate::base::bounds;
use crate::base::language::{path_text, speak, tr};
use crate::base::progress::Watch;
use crate::choose;
use crate::choose::draws::Draws;
use crate::job::file::{self, FileError};
use crate::job::finding::{Level, worst};
use crate::job::{Finding, Job, PerAxle, Plan, Side, bounded, fields};
use crate::report;
use crate::report::print::{self, LogoFileError, Over, WriteError};
use crate::report::sheets::plan_table::Plans;
use crate::report::sheets::sheet;
use crate::report::sheets::{Kind, Printed, Words, WordsError};
use crate::report::write::json;
use crate::report::write::page::{Fonts, Paper};
use crate::report::write::text::{self, Markup};
use crate::say;
use crate::shop::jobs_folder;
use crate::shop::lists::{self, CurveFileError, Opened, Shop, ShopError};
use crate::shop::parts::test_sheet::{Ask, Direction};
use crate::shop::presets::{self, PRESETS};
use crate::shop::recordings::RecordFileError;
use crate::solve::answer::Answer;
use crate::solve::{road, solve};
pub use args::{Args, Command, JobArg, RecordArgs};
use opened::{Solved, open};

/// Exit codes.
pub mod exit {
    /// Everything fine.
    pub const OK: u8 = 0;
    /// Something is withheld, the job has findings of level error or stop, or there is nothing to answer.
    pub const FINDINGS: u8 = 1;
    /// Wrong usage.
    pub const USAGE: u8 = 2;
    /// A file, or standard output, could not be read or written.
    pub const FILE: u8 = 3;
}

/// Why a command could not do its work.
#[derive(Debug, Error)]
pub enum CliError {
    /// A job file.
    #[error("{}", say!("{source}\n  file: {path}", source, path = path_text(path)))]
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
    #[error("{}", say!("the folder cannot be read or written: {source}\n  folder: {path}", source, path = path_text(path)))]
    Folder {
        /// The system's message.
        source: std::io::Error,
        /// Which folder.
        path: PathBuf,
    },
    /// The shop's own texts of the sheets cannot be used.
    #[error("{}", say!("the shop's own sheet texts cannot be used: {reason}", reason = .0))]
    Words(#[from] WordsError),
    /// A logo cannot be used.
    #[error(transparent)]
    Logo(#[from] LogoFileError),
    /// No shipped job of this name.
    #[error("{}", say!("no shipped job is called \"{name}\"; `springwright-cli presets` lists the shipped jobs", name = path_text(Path::new(name))))]
    NoPreset {
        /// The name asked for.
        name: String,
    },
    /// No plan of this name.
    #[error("{}", say!("this job has no plan \"{name}\"; its plans are: {plans}", name, plans))]
    NoPlan {
        /// The name given.
        name: String,
        /// The names that there are.
        plans: String,
    },
    /// A parts list.
    #[error(transparent)]
    List(#[from] ShopError),
    /// A damper's curve.
    #[error(transparent)]
    Curve(#[from] CurveFileError),
    /// A recording.
    #[error(transparent)]
    Record(#[from] RecordFileError),
    /// The job names no list and none was given.
    #[error("{}", tr("this job does not name a parts list: add `list: \"name\"` to it, or give one with --list FILE"))]
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
            | CliError::Record(_)
            | CliError::Logo(_)
            | CliError::Folder { .. } => exit::FILE,
            // The job's own, as an error in it.
            CliError::Words(WordsError::Language { .. }) => exit::FINDINGS,
            CliError::Words(_) => exit::FILE,
            CliError::NoPreset { .. } | CliError::NoPlan { .. } | CliError::NoList => exit::USAGE,
        }
    }
}

/// What a command has to say, and with which code the program ends.
#[derive(Debug, PartialEq, Eq, Default)]
pub struct Outcome {
    /// For standard output.
    pub text: String,
    /// For standard error; blank when there is nothing to add.
    pub aside: String,
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
                let mut value = json::value(job, answer);
                value["plans"] = Plans::of(job, answer, || true).map_or(Value::Null, |plans| plans.json());
                serde_json::to_string_pretty(&value)? + "\n"
            } else {
                text::write(&sheet::build(job, answer), Markup::Plain)
            };
            Ok(about(answer, text))
        }
        Command::Check { job } => {
            let Solved { answer, .. } = &open(job)?;
            Ok(about(answer, findings(answer)))
        }
        Command::Choose { job, list, draws, seed, json } => {
            let Solved { job, answer, path, .. } = &open(job)?;
            let opened = match list {
                Some(name) => Shop::of_user().open_named(name)?,
                None if bounded::used(job).list.trim().is_empty() => return Err(CliError::NoList),
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
                serde_json::to_string_pretty(&report::sections::road_tables::json(&job, &driven))? + "\n"
            } else {
                findings_of(&answer, &["chassis.speed", "road."])
                    + &text::write(&report::sections::road_tables::build(&job, &answer, &driven), Markup::Plain)
            };
            Ok(Outcome {
                text,
                code: if driven.is_ok() { code(&answer) } else { exit::FINDINGS },
                ..Outcome::default()
            })
        }
        Command::Bench { job, json } => measured::bench(&open(job)?, *json),
        Command::Record(asked) => measured::record(asked),
        Command::List { list } => {
            let opened = Shop::of_user().open_named(list)?;
            let text = text::write(&report::sections::parts_rows::build(&opened.columns, &opened.list), Markup::Plain);
            let code = if opened.list.bad.is_empty() { exit::OK } else { exit::FINDINGS };
            Ok(Outcome { text, code, ..Outcome::default() })
        }
        Command::Curve { file, speed_unit, force_unit, plus_is_rebound } => {
            let plus = if *plus_is_rebound { Direction::Rebound } else { Direction::Bump };
            let read = lists::curve(file, &Ask { speed: *speed_unit, force: *force_unit, plus, decimal: None })?;
            let (report, is_curve) = report::pictures::curve_table::build(&read);
            let code = if is_curve { exit::OK } else { exit::FINDINGS };
            Ok(Outcome { text: text::write(&report, Markup::Plain), code, ..Outcome::default() })
        }
        Command::Sheet { job, out, force, kind, paper, logo, date } => {
            let date = date.clone().unwrap_or_else(print::today);
            let over = if *force { Over::AnyFile } else { Over::Sheets };
            write_sheet(job, (out, over), *kind, *paper, logo.as_deref(), &date)
        }
        Command::Presets { name: None } => {
            let lines = PRESETS.iter().map(|p| format!("{:<26} {}\n", p.name, tr(p.title)));
            Ok(Outcome { text: lines.collect(), ..Outcome::default() })
        }
        Command::Presets { name: Some(name) } => {
            let preset = presets::find(name).ok_or_else(|| CliError::NoPreset { name: name.clone() })?;
            Ok(Outcome { text: preset.text.to_owned(), ..Outcome::default() })
        }
        Command::Jobs { folder, find } => list_jobs(folder, find.as_deref().unwrap_or_default()),
        Command::Desktop { share, force } => put_on_desktop(share, *force),
        Command::Fields => {
            let text = format!("{}\n## Bounds\n\n{}", fields::markdown(), bounds::markdown());
            Ok(Outcome { text, ..Outcome::default() })
        }
    }
}

/// The jobs in a folder that contain these words.
fn list_jobs(folder: &Path, words: &str) -> Result<Outcome, CliError> {
    let wrong = |source| CliError::Folder { source, path: folder.to_owned() };
    let records = jobs_folder::list(folder).map_err(wrong)?;
    let text: String = records.iter().filter(|r| r.has(words)).map(|r| job_line(r, folder)).collect();
    let aside = match (text.is_empty(), records.len()) {
        (false, _) => String::new(),
        (true, 0) => say!("there are no jobs in {folder}", folder = path_text(folder)),
        (true, all) => say!("none of the {all} jobs in {folder} contains these words", all, folder = path_text(folder)),
    };
    Ok(Outcome { text: text::harmless(text), aside, ..Outcome::default() })
}

fn put_on_desktop(share: &Path, force: bool) -> Result<Outcome, CliError> {
    let written = desktop::write(share, force).map_err(|source| CliError::Folder { source, path: share.to_owned() })?;
    Ok(Outcome { text: written.iter().map(|p| path_text(p) + "\n").collect(), ..Outcome::default() })
}

/// A job of a folder in one line: date, customer, vehicle, file; or why it is none.
fn job_line(record: &jobs_folder::Record, folder: &Path) -> String {
    let file = path_text(record.path.strip_prefix(folder).unwrap_or(&record.path));
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
    asked: &JobArg,
    (out, over): (&Path, Over),
    kind: Kind,
    paper: Paper,
    logo: Option<&Path>,
    date: &str,
) -> Result<Outcome, CliError> {
    let Solved { job, answer, path, .. } = &open(asked)?;
    let shop = Shop::of_user();
    let own = logo.map(Path::to_owned).or_else(|| shop.logo());
    let logo = own.map(|path| print::read_logo(&path)).transpose()?.map(|(logo, _)| logo);
    let file =
        path.as_deref().and_then(Path::file_name).map_or(asked.name.as_str().into(), std::ffi::OsStr::to_string_lossy);
    let language = &bounded::used(job).shop.language;
    let words = match Words::of(language, shop.sheet_texts(language)?.as_deref()) {
        // The engineer's sheet has hardly any of these texts, and says that they are in English.
        Err(WordsError::Language { .. }) if kind == Kind::Full => Words::english().clone(),
        words => words?,
    };
    // It was read from there just now.
    let printed = Printed {
        date: Some(date),
        file: Some(&file),
        saved: path.is_some().then_some(true),
        on_pages: print::is_paged(out),
    };
    let (report, fit) = print::sheet(kind, job, answer, printed, &words);
    let printing = print::printing(job, paper, fit, logo, &file, date);
    let notes = match print::write(&report, &printing, &mut Fonts::with_system(), out, over) {
        Err(error) if error.is_closed_pipe() => Vec::new(),
        notes => notes?,
    };
    let said: String = notes.iter().map(|n| format!("{n}\n")).collect();
    let said = say!("Sheet saved: {path}", path = path_text(out)) + "\n" + &said;
    let Outcome { aside, code, .. } = about(answer, String::new());
    // What is written through standard output is the sheet alone.
    Ok(if file::is_stream(out) {
        Outcome { aside: (said + &aside).trim_end().to_owned(), code, ..Outcome::default() }
    } else {
        Outcome { text: said, aside, code }
    })
}

/// Both axles that get new springs.
fn choose(job: &Job, answer: &Answer, opened: &Opened, draws: Draws, json: bool) -> Result<Outcome, CliError> {
    let used = bounded::used(job);
    let job = &*used;
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
    let dampers = PerAxle::each(|side| choose::damper_choice::rank(job, answer, side, listed));
    let ranked = Side::BOTH.map(|side| (answer.axle(side), dampers[side].as_ref().map_err(|unable| *unable)));
    let text = if json {
        let value = report::sections::choose::json(job, &choices, &ranked, &opened.list);
        serde_json::to_string_pretty(&value)? + "\n"
    } else {
        let mut said = report::sections::choose::build(job, opened.name.as_str(), &opened.list, &choices);
        said.blocks.splice(0..0, sheet::withheld(job, answer));
        for (axle, found) in ranked {
            said.blocks.extend(report::sections::choose_dampers::blocks(job, axle, listed, found));
        }
        text::write(&said, Markup::Plain)
    };
    let none = choices.iter().any(|(_, c)| c.as_ref().map_or(true, |c| c.pick.is_none()));
    let aside = if choices.is_empty() {
        tr("there is nothing to choose: no axle of this job has the plan NewSprings").to_owned()
    } else {
        String::new()
    };
    let code = if none || choices.is_empty() { exit::FINDINGS } else { code(answer) };
    Ok(Outcome { text, aside, code })
}

/// What is wrong with some fields, one a line.
fn findings_of(answer: &Answer, fields: &[&str]) -> String {
    let wrong = answer.findings.iter().filter(|f| f.level >= Level::Error);
    let mine = wrong.filter(|f| fields.iter().any(|p| f.field.starts_with(p)));
    text::harmless(mine.map(|f| format!("{}: {}\n", f.level.word(), f.text)).collect())
}

/// The exit code that an answer comes to.
pub fn code(answer: &Answer) -> u8 {
    let is_fine = worst(&answer.findings) < Some(Level::Withheld) && answer.is_known();
    if is_fine { exit::OK } else { exit::FINDINGS }
}

/// What a command prints of an answer; or that there is none.
fn about(answer: &Answer, text: String) -> Outcome {
    let aside = if answer.is_known() { String::new() } else { no_answer() };
    Outcome { text, aside, code: code(answer) }
}

/// What to do when nothing can be worked out.
pub fn no_answer() -> String {
    tr("this job has no answer yet: enter the four scale readings after the change, and the motion ratio and spring rate of each axle").to_owned()
}

fn findings(answer: &Answer) -> String {
    if !answer.is_known() && answer.findings.is_empty() {
        return String::new();
    }
    if answer.findings.is_empty() {
        return tr("No findings.").to_owned() + "\n";
    }
    let said = |f: &Finding| {
        let mends: String = f.mends.iter().map(|m| format!("  {}\n", m.for_file())).collect();
        format!("{}: {}\n{mends}", f.level.word(), f.text)
    };
    text::harmless(answer.findings.iter().map(said).collect())
}
