//! The command line: check, solve, choose, road, list, jobs, sheet, presets, fields.

pub mod desktop;
pub mod window;

use std::path::{Path, PathBuf};

use clap::builder::PossibleValue;
use clap::{Parser, Subcommand, ValueEnum};
use thiserror::Error;

use crate::choose;
use crate::choose::draws::{Draws, Watch};
use crate::job::file::{self, FileError};
use crate::job::finding::{Level, worst};
use crate::job::{Job, Plan, RoadClass, Side, fields};
use crate::jobs;
use crate::language::{Language, Spoken, Voice, speak, spoken, tr};
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
use crate::units::{Dim, Unit, table};

/// Sizes springs and dampers for a vehicle whose axle weights have changed.
#[derive(Debug, Parser)]
#[command(name = "springwright-cli", version, about, after_help = EXAMPLES, subcommand_required = true, arg_required_else_help = true)]
pub struct Args {
    /// Language of what is printed. A sheet is in the language of its job.
    #[arg(long, global = true, default_value = "en")]
    pub language: Language,
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
  springwright-cli jobs ~/jobs --find quill        jobs of a folder by customer, vehicle or date
  springwright-cli sheet my.ron --out my.pdf       everything on a sheet: PDF, PNG, Markdown or text by its ending
  springwright-cli sheet my.ron --kind customer --paper letter --out page.pdf
  springwright-cli road my.ron --class D --speed 50km/h  runs over a rough road, a hump, a pothole
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
    /// Show how a damper's curve is read from a table file, and the rates it comes to.
    Curve {
        /// The table file: speed, bump and rebound; or speed and force with signs.
        file: PathBuf,
        /// Unit of its speeds where the header names none: m/s, mm/s or in/s.
        #[arg(long, value_parser = damper_speed_unit)]
        speed_unit: Option<&'static Unit>,
        /// Unit of its forces where the header names none: N, lbf, kN or kgf.
        #[arg(long, value_parser = force_unit)]
        force_unit: Option<&'static Unit>,
        /// In one column of forces, plus means rebound.
        #[arg(long)]
        plus_is_rebound: bool,
    },
    /// Write the answer as a sheet.
    Sheet {
        /// Job file, or name of a shipped job.
        job: String,
        /// File to write: .pdf, .png (150 dots per inch), .md for Markdown, anything else for plain text.
        #[arg(long)]
        out: PathBuf,
        /// Which sheet.
        #[arg(long, default_value = "full")]
        kind: Kind,
        /// The paper of a PDF or PNG.
        #[arg(long, default_value = "a4")]
        paper: Paper,
        /// A logo (PNG or SVG) in place of the one that the shop has chosen.
        #[arg(long)]
        logo: Option<PathBuf>,
        /// The date to print, such as 2026-11-25, in place of today's.
        #[arg(long, value_parser = date)]
        date: Option<String>,
    },
    /// List the shipped jobs, or print one of them as a file.
    Presets {
        /// Name of a shipped job.
        name: Option<String>,
    },
    /// List the jobs of a folder and of those inside it, the one saved last first.
    Jobs {
        /// The folder; the one you are in if none is given.
        #[arg(default_value = ".", value_hint = clap::ValueHint::DirPath)]
        folder: PathBuf,
        /// Only those in which all these words occur: customer, vehicle, number, what was changed, dates, file name.
        #[arg(long, value_name = "TEXT")]
        find: Option<String>,
    },
    /// Print the table of all fields of a job file, as Markdown.
    Fields,
    /// Write menu entry, file type, icon, manual pages and completions below a share folder.
    #[command(hide = true)]
    Desktop {
        /// The folder, such as ~/.local/share.
        #[arg(value_hint = clap::ValueHint::DirPath)]
        share: PathBuf,
    },
}

impl Args {
    /// How this run speaks; of a job with the decimal mark of that job.
    pub fn voice(&self) -> Voice {
        Voice { language: self.language, ..Voice::default() }
    }
}

impl ValueEnum for Language {
    fn value_variants<'a>() -> &'a [Self] {
        &Language::ALL
    }

    fn to_possible_value(&self) -> Option<PossibleValue> {
        Some(PossibleValue::new(self.key()).help(self.name()))
    }
}

impl ValueEnum for Kind {
    fn value_variants<'a>() -> &'a [Self] {
        &Kind::ALL
    }

    fn to_possible_value(&self) -> Option<PossibleValue> {
        // Help and manual pages are in English, in whatever language the rest is printed.
        let _english = speak(Voice::default());
        Some(PossibleValue::new(self.key()).help(self.words()))
    }
}

impl ValueEnum for Paper {
    fn value_variants<'a>() -> &'a [Self] {
        &Paper::ALL
    }

    fn to_possible_value(&self) -> Option<PossibleValue> {
        Some(match self {
            Paper::A4 => PossibleValue::new("a4").help("210 mm × 297 mm"),
            Paper::Letter => PossibleValue::new("letter").help("8.5 in × 11 in"),
        })
    }
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
    Ok(Outcome { text, code: exit::OK })
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

/// A date as year-month-day.
fn date(text: &str) -> Result<String, String> {
    let parsed: Result<jiff::civil::Date, _> = text.parse();
    parsed.map(|d| d.to_string()).map_err(|_| "a date as year-month-day, such as 2026-11-25".to_owned())
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
            let found = choose::choose(job, answer.axle(side), springs, draws, &Watch::default()).transpose()?;
            Some((side, found))
        })
        .collect();
    let listed = &opened.list.dampers;
    let dampers = Side::BOTH.map(|side| choose::dampers::rank(job, answer.axle(side), listed));
    let dampers = || Side::BOTH.into_iter().zip(dampers.iter().map(|d| d.as_ref().map_err(|unable| *unable)));
    let text = if json {
        let mut value = report::choose::json(&choices, springs);
        let found = dampers().map(|(side, d)| (side.key().to_owned(), report::choose_dampers::json(d, listed)));
        value["dampers"] = serde_json::Value::Object(found.collect());
        serde_json::to_string_pretty(&value)? + "\n"
    } else {
        let mut said = report::choose::build(job, opened.name.as_str(), &opened.list, &choices);
        for (side, d) in dampers() {
            said.blocks.extend(report::choose_dampers::blocks(job, answer.axle(side), listed, d));
        }
        text::write(&said, Markup::Plain)
    };
    let none = choices.iter().any(|(_, c)| c.as_ref().map_or(true, |c| c.pick.is_none()));
    let code = if none { exit::FINDINGS } else { code(answer) };
    Ok(Outcome { text, code })
}

fn damper_speed_unit(text: &str) -> Result<&'static Unit, String> {
    unit_of(Dim::DamperSpeed, text)
}

fn force_unit(text: &str) -> Result<&'static Unit, String> {
    unit_of(Dim::Force, text)
}

fn unit_of(dim: Dim, text: &str) -> Result<&'static Unit, String> {
    table::find(dim, text).ok_or_else(|| format!("{} is wanted: {}", dim.noun(), table::phrase(dim)))
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
        return tr("Nothing to question.").to_owned() + "\n";
    }
    answer.findings.iter().map(|f| format!("{}: {}\n", f.level.word(), f.text)).collect()
}
