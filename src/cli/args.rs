//! The command line: what it takes, and how its values are read.

use std::path::PathBuf;

use clap::builder::PossibleValue;
use clap::{Parser, Subcommand, ValueEnum};

use crate::base::bounds::{self, Bound};
use crate::base::language::{Language, Voice, speak};
use crate::base::units::{Dim, Unit, table};
use crate::choose::draws::Draws;
use crate::job::{RoadClass, Side};
use crate::report::sheets::Kind;
use crate::report::write::page::Paper;
use crate::solve::answer::State;
use crate::solve::recorded::{FASTEST_HZ, SLOWEST_HZ};

/// Sizes springs and dampers for a vehicle whose axle weights have changed.
#[derive(Debug, Parser)]
#[command(name = "springwright-cli", version, about, after_help = EXAMPLES, subcommand_required = true, arg_required_else_help = true)]
pub struct Args {
    /// Language of the output. A sheet is in the language of its job.
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
  springwright-cli record bounce.csv --job my.ron --axle front  frequency and damping of a recorded bounce
  springwright-cli bench my.ron                    what the suspension bench of an inspection will measure
  springwright-cli presets demo-orchard-van        a shipped job as a file, to start from

JOB is a job file or the name of a shipped job. Exit code: 0 fine, 1 something is withheld, the job
has errors or a stop, or there is nothing to answer (files are written all the same), 2 wrong usage,
3 a file or standard output could not be read or written. A closed pipe is no error.";

/// One command.
#[derive(Debug, Subcommand)]
pub enum Command {
    /// Solve a job and print the answer.
    Solve {
        /// The job.
        #[command(flatten)]
        job: JobArg,
        /// Print JSON with every result instead of text.
        #[arg(long)]
        json: bool,
    },
    /// Print the errors and doubts in a job.
    Check {
        /// The job.
        #[command(flatten)]
        job: JobArg,
    },
    /// Choose springs from the parts list: which fit, with what chance, and what to measure again first.
    Choose {
        /// The job.
        #[command(flatten)]
        job: JobArg,
        /// A parts list (a table file) instead of the one named in the job.
        #[arg(long)]
        list: Option<PathBuf>,
        /// Number of random trials within the measuring errors.
        #[arg(long, default_value_t = Draws::default().count, value_parser = draws)]
        draws: usize,
        /// Seed of the trials; the same seed gives the same result.
        #[arg(long, default_value_t = Draws::default().seed, value_parser = seed)]
        seed: u64,
        /// Print JSON instead of text.
        #[arg(long)]
        json: bool,
    },
    /// Run over a rough road, a hump and a pothole: before, on the old springs, on the new.
    Road {
        /// The job.
        #[command(flatten)]
        job: JobArg,
        /// Road class: A, B, C, D or E, instead of the job's.
        #[arg(long, value_parser = class)]
        class: Option<RoadClass>,
        /// Speed with its unit, such as "50 km/h", instead of the job's.
        #[arg(long)]
        speed: Option<String>,
        /// Seed of the road, instead of the job's.
        #[arg(long, value_parser = seed)]
        seed: Option<u64>,
        /// Print JSON instead of text.
        #[arg(long)]
        json: bool,
    },
    /// Predict what a suspension bench will measure: adhesion and phase angle before, on the old springs, on the new.
    Bench {
        /// The job.
        #[command(flatten)]
        job: JobArg,
        /// Print JSON instead of text.
        #[arg(long)]
        json: bool,
    },
    /// Analyse a recording of the body's motion: bounces, or a drive.
    Record(RecordArgs),
    /// Show how a parts list is read: what each column means, and which rows cannot be used.
    List {
        /// The table file, or the name of one of the shop's lists.
        list: PathBuf,
    },
    /// Show how a damper's curve is read from a table file, and the rates it gives.
    Curve {
        /// The table file: speed, bump and rebound; or speed and force with signs.
        file: PathBuf,
        /// Unit of the speeds if the header names none: m/s, mm/s or in/s.
        #[arg(long, value_parser = damper_speed_unit)]
        speed_unit: Option<&'static Unit>,
        /// Unit of the forces if the header names none: N, lbf, kN or kgf.
        #[arg(long, value_parser = force_unit)]
        force_unit: Option<&'static Unit>,
        /// In a single column of forces, positive means rebound.
        #[arg(long)]
        plus_is_rebound: bool,
    },
    /// Write the answer as a sheet.
    Sheet {
        /// The job.
        #[command(flatten)]
        job: JobArg,
        /// File to write: .pdf, .png (150 dots per inch), .md for Markdown, anything else for plain text.
        #[arg(long)]
        out: PathBuf,
        /// Replace even a file that is not a sheet of this program; never a job.
        #[arg(long)]
        force: bool,
        /// Kind of sheet.
        #[arg(long, default_value = "full")]
        kind: Kind,
        /// Paper size of a PDF or PNG.
        #[arg(long, default_value = "a4")]
        paper: Paper,
        /// A logo (PNG or SVG) instead of the shop's.
        #[arg(long)]
        logo: Option<PathBuf>,
        /// Date to print, such as 2026-11-25, instead of today's.
        #[arg(long, value_parser = date)]
        date: Option<String>,
    },
    /// List the shipped jobs, or print one of them as a file.
    Presets {
        /// Name of a shipped job.
        name: Option<String>,
    },
    /// List the jobs in a folder and its subfolders, the last saved first.
    Jobs {
        /// The folder; the current one if not given.
        #[arg(default_value = ".", value_hint = clap::ValueHint::DirPath)]
        folder: PathBuf,
        /// Only jobs that contain all these words: customer, vehicle, number, what was changed, dates, file name.
        #[arg(long, value_name = "TEXT")]
        find: Option<String>,
    },
    /// Print the tables of all fields of a job file and of all bounds, as Markdown.
    Fields,
    /// Write menu entry, file type, icon, manual pages and completions below a share folder.
    #[command(hide = true)]
    Desktop {
        /// The folder, such as ~/.local/share.
        #[arg(value_hint = clap::ValueHint::DirPath)]
        share: PathBuf,
        /// Replace existing files with other contents.
        #[arg(long)]
        force: bool,
    },
}

/// A job, and which of its plans.
#[derive(Debug, Clone, clap::Args)]
pub struct JobArg {
    /// Job file, or name of a shipped job.
    #[arg(value_name = "JOB")]
    pub name: String,
    /// Another plan in place of the chosen one: its name, "nothing" for nothing done, "spacers" for the old springs on
    /// spacers.
    #[arg(long, value_name = "NAME")]
    pub plan: Option<String>,
}

impl From<&str> for JobArg {
    /// The job with its chosen plan.
    fn from(name: &str) -> Self {
        JobArg { name: name.to_owned(), plan: None }
    }
}

/// What `record` takes.
#[derive(Debug, clap::Args)]
pub struct RecordArgs {
    /// A table file: time, and one to three axes of acceleration, or a displacement.
    pub file: PathBuf,
    /// Compare with this job: a file, or the name of a shipped job.
    #[arg(long)]
    pub job: Option<String>,
    /// The axle of the job that was bounced.
    #[arg(long, value_parser = side, default_value = "front")]
    pub axle: Side,
    /// The state of the job: before, old (springs) or new (springs).
    #[arg(long, value_parser = state, default_value = "before")]
    pub state: State,
    /// An earlier recording of the same stretch and speed: gives the ratio after ÷ before.
    #[arg(long, value_name = "FILE")]
    pub compare: Option<PathBuf>,
    /// The column that is vertical: x, y, z or its name. Otherwise found from gravity, or the axis with the most
    /// motion.
    #[arg(long)]
    pub axis: Option<String>,
    /// The column of the time, by its name, if the header does not say it.
    #[arg(long, value_name = "NAME")]
    pub time: Option<String>,
    /// Unit of the columns if the header names none: m/s2, g, mg, mm and others.
    #[arg(long)]
    pub unit: Option<String>,
    /// Unit of the time if the header names none: s, ms, us, ns.
    #[arg(long)]
    pub time_unit: Option<String>,
    /// Samples per second, instead of a time column.
    #[arg(long, value_name = "HZ", value_parser = rate)]
    pub rate: Option<f64>,
    /// Print JSON instead of text.
    #[arg(long)]
    pub json: bool,
}

impl Args {
    /// Language and decimal mark of this run; a job's own mark for a job.
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

/// A date as year-month-day.
fn date(text: &str) -> Result<String, String> {
    let parsed: Result<jiff::civil::Date, _> = text.parse();
    parsed.map(|d| d.to_string()).map_err(|_| "a date as year-month-day, such as 2026-11-25".to_owned())
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

/// A number of draws within its bounds.
fn draws(text: &str) -> Result<usize, String> {
    whole(text, &bounds::DRAWS).and_then(|count| usize::try_from(count).map_err(|e| e.to_string()))
}

/// Seed of draws or of a road.
fn seed(text: &str) -> Result<u64, String> {
    whole(text, &bounds::SEED)
}

/// A whole number inside a bound.
fn whole(text: &str, bound: &Bound) -> Result<u64, String> {
    let inside = text.parse::<u64>().ok().filter(|n| bound.holds(*n as f64));
    let [least, most] = [bound.least, bound.most].map(bounds::grouped);
    inside.ok_or_else(|| format!("a whole number from {least} to {most}"))
}

/// A class of road.
fn class(text: &str) -> Result<RoadClass, String> {
    RoadClass::of(text).ok_or_else(|| "A, B, C, D or E, A being the smoothest".to_owned())
}

/// An axle by its key.
fn side(text: &str) -> Result<Side, String> {
    Side::BOTH.into_iter().find(|s| s.key() == text).ok_or_else(|| "front or rear".to_owned())
}

/// A state by its key, or the first word of it.
fn state(text: &str) -> Result<State, String> {
    let is_it = |s: &State| s.key() == text || s.key().split('_').next() == Some(text);
    State::ALL.into_iter().find(is_it).ok_or_else(|| "before, old or new".to_owned())
}

/// A rate of samples.
fn rate(text: &str) -> Result<f64, String> {
    let inside = text.parse::<f64>().ok().filter(|hz| (SLOWEST_HZ..=FASTEST_HZ).contains(hz));
    inside.ok_or_else(|| format!("samples a second, from {SLOWEST_HZ} to {FASTEST_HZ}"))
}
