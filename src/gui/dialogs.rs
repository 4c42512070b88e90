//! Asks the user for a file, without stopping the window.

use std::path::PathBuf;
use std::sync::mpsc::{Receiver, Sender, channel};
use std::time::{Duration, Instant};

use eframe::egui;

use super::command::{Command, FileCommand, ListCommand, PlotTo, SheetCommand};
use crate::language::tr;

/// What the file is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Purpose {
    /// A job to open.
    OpenJob,
    /// A place to save the job.
    SaveJob,
    /// A place for the sheet.
    WriteSheet,
    /// A parts list to open.
    OpenList,
    /// A damper's curve to put into the paste area.
    OpenCurve,
    /// A logo to open.
    OpenLogo,
    /// A place for the data of a plot.
    PlotData,
    /// A place for the picture of a plot.
    PlotPicture,
}

impl Purpose {
    /// The usual ending of such a file.
    pub fn ending(self) -> &'static str {
        match self {
            Purpose::OpenJob | Purpose::SaveJob => "ron",
            Purpose::WriteSheet => "pdf",
            Purpose::OpenList | Purpose::OpenCurve | Purpose::PlotData => "csv",
            Purpose::OpenLogo | Purpose::PlotPicture => "png",
        }
    }

    /// A file is written, not read.
    pub fn writes(self) -> bool {
        matches!(self, Purpose::SaveJob | Purpose::WriteSheet | Purpose::PlotData | Purpose::PlotPicture)
    }

    /// The path with the usual ending, where it has none and needs one.
    pub fn complete(self, path: PathBuf) -> PathBuf {
        let is_complete = path.extension().is_some() || !(self.writes() || self == Purpose::OpenJob);
        if is_complete { path } else { path.with_extension(self.ending()) }
    }

    /// What to do with the path that a dialog gave. Some leave the ending out: then they asked about another file.
    fn answered(self, path: PathBuf) -> Command {
        let complete = self.complete(path.clone());
        let is_asked = complete == path || !self.writes();
        if is_asked { self.command(complete) } else { Command::File(FileCommand::Write(self, complete)) }
    }

    /// What to do with a path.
    pub fn command(self, path: PathBuf) -> Command {
        match self {
            Purpose::OpenJob => Command::OpenFile(path),
            Purpose::SaveJob => Command::SaveTo(path),
            Purpose::WriteSheet => Command::Sheet(SheetCommand::Write(path)),
            Purpose::OpenLogo => Command::Sheet(SheetCommand::TakeLogo(path)),
            Purpose::PlotData | Purpose::PlotPicture => Command::Plot(PlotTo::Write(path)),
            Purpose::OpenList => Command::List(ListCommand::Look(path)),
            Purpose::OpenCurve => Command::CurveFrom(path),
        }
    }
}

/// A dialog that ends sooner than a person can answer was never shown.
const NEVER_SHOWN: Duration = Duration::from_millis(600);

/// Open questions and their answers.
pub(super) struct Dialogs {
    answers: Receiver<Command>,
    sender: Sender<Command>,
    can_show: bool,
}

impl Dialogs {
    /// Dialogs of the system; where it shows none, or `can_show` is false, a path is asked for in the window.
    pub fn new(can_show: bool) -> Self {
        let (sender, answers) = channel();
        Dialogs { answers, sender, can_show }
    }

    /// Commands that came back from dialogs since the last frame.
    pub fn answered(&self) -> Vec<Command> {
        self.answers.try_iter().collect()
    }

    /// Shows a dialog; its answer arrives as a command in a later frame.
    pub fn ask(&self, ctx: &egui::Context, purpose: Purpose, suggested: &str) -> std::io::Result<()> {
        if !self.can_show {
            // The receiver lives as long as this does.
            let _ = self.sender.send(Command::NoDialog(purpose));
            return Ok(());
        }
        let dialog = rfd::AsyncFileDialog::new();
        let dialog = match purpose {
            Purpose::OpenJob => dialog.set_title(tr("Open a job")).add_filter(tr("springwright job"), &["ron"]),
            Purpose::OpenList | Purpose::OpenCurve => dialog
                .set_title(if purpose == Purpose::OpenList {
                    tr("Open a parts list")
                } else {
                    tr("Open a damper's curve")
                })
                .add_filter(tr("table as text"), &["csv", "tsv", "txt"])
                .add_filter(tr("any file"), &["*"]),
            Purpose::SaveJob => dialog
                .set_title(tr("Save the job"))
                .add_filter(tr("springwright job"), &["ron"])
                .set_file_name(suggested),
            Purpose::WriteSheet => dialog
                .set_title(tr("Write the sheet"))
                .add_filter(tr("by its ending: PDF, PNG, Markdown, plain text"), &["pdf", "png", "md", "txt"])
                .set_file_name(suggested),
            Purpose::OpenLogo => dialog.set_title(tr("Open a logo")).add_filter(tr("picture"), &["png", "svg"]),
            Purpose::PlotData => {
                dialog.set_title(tr("Save the data")).add_filter(tr("table as text"), &["csv"]).set_file_name(suggested)
            }
            Purpose::PlotPicture => {
                dialog.set_title(tr("Save the picture")).add_filter(tr("picture"), &["png"]).set_file_name(suggested)
            }
        };
        let (sender, ctx) = (self.sender.clone(), ctx.clone());
        let name = "file dialog".to_owned();
        let asked = Instant::now();
        let run = move |path: Option<rfd::FileHandle>| {
            let command = match path {
                Some(path) => purpose.answered(path.path().to_owned()),
                None if asked.elapsed() < NEVER_SHOWN => Command::NoDialog(purpose),
                None => return,
            };
            // The window may be gone by now.
            let _ = sender.send(command);
            ctx.request_repaint();
        };
        let builder = std::thread::Builder::new().name(name);
        if matches!(purpose, Purpose::OpenJob | Purpose::OpenList | Purpose::OpenCurve | Purpose::OpenLogo) {
            let future = dialog.pick_file();
            builder.spawn(move || run(pollster::block_on(future)))?;
        } else {
            let future = dialog.save_file();
            builder.spawn(move || run(pollster::block_on(future)))?;
        }
        Ok(())
    }
}
