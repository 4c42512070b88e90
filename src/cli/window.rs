//! The arguments of the window program.

use std::path::PathBuf;

use clap::Parser;

use crate::base::bounds::{self, WINDOW_SIDE, ZOOM};
use crate::base::language::Language;

const CODES: &str = "\
Without a window, exit code: 0 fine, 1 the job has errors or a stop, or there is nothing to answer, 2 wrong usage,
3 a file or standard output could not be read or written. A closed pipe is no error.";

/// Sizes springs and dampers for a vehicle whose axle weights have changed.
#[derive(Debug, Parser)]
#[command(name = "springwright", version, about, after_help = CODES)]
pub struct WindowArgs {
    /// Job file to open, or name of a shipped job; the demo job if none is given.
    #[arg(value_hint = clap::ValueHint::FilePath)]
    pub job: Option<PathBuf>,
    /// Print the answer and write the sheet, without a window.
    #[arg(long)]
    pub no_window: bool,
    /// Show this step first.
    #[arg(long, value_parser = ["weigh", "measure", "springs", "choose", "dampers", "vehicle", "road", "sheet"])]
    pub step: Option<String>,
    /// Show the customer's view first: what changed, step by step; Esc leads to the job.
    #[arg(long)]
    pub customer: bool,
    /// Show the rear axle first.
    #[arg(long)]
    pub rear: bool,
    /// Size of the window, such as 1280x800.
    #[arg(long, value_parser = size)]
    pub size: Option<[f32; 2]>,
    /// Theme instead of the system's: light or dark.
    #[arg(long, value_parser = ["light", "dark"])]
    pub theme: Option<String>,
    /// Language instead of the system's.
    #[arg(long)]
    pub language: Option<Language>,
    /// Zoom factor, 1 for normal size.
    #[arg(long, value_parser = zoom)]
    pub zoom: Option<f32>,
    /// Print a line when a frame begins.
    #[arg(long, hide = true)]
    pub say_frames: bool,
}

fn size(text: &str) -> Result<[f32; 2], String> {
    let sides: Option<(f32, f32)> = text.split_once('x').and_then(|(w, h)| Some((w.parse().ok()?, h.parse().ok()?)));
    let inside = |side: f32| WINDOW_SIDE.holds(f64::from(side)) && side > 0.0;
    match sides {
        Some((w, h)) if inside(w) && inside(h) => Ok([w, h]),
        _ => Err(format!(
            "give width and height in points, each from {} to {}, such as 1280x800",
            bounds::grouped(WINDOW_SIDE.least),
            bounds::grouped(WINDOW_SIDE.most)
        )),
    }
}

fn zoom(text: &str) -> Result<f32, String> {
    let inside = text.parse::<f32>().ok().filter(|z| ZOOM.holds(f64::from(*z)) && *z > 0.0);
    inside.ok_or_else(|| format!("a number from {} to {}, 1 for normal size", ZOOM.least, ZOOM.most))
}
