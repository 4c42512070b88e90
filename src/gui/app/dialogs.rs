//! Asks the user for a file, without stopping the window.

use std::sync::mpsc::{Receiver, Sender, channel};
use std::time::{Duration, Instant};

use eframe::egui;

use crate::base::language::tr;
use crate::gui::state::command::Command;
use crate::gui::state::files::Purpose;

/// A dialog that ends sooner than a person can answer was never shown.
const NEVER_SHOWN: Duration = Duration::from_millis(600);

/// Open questions and their answers.
pub(in crate::gui) struct Dialogs {
    answers: Receiver<Command>,
    sender: Sender<Command>,
    can_show: bool,
}

impl Dialogs {
    /// Dialogs of the system; where it shows none, or `can_show` is false, the window asks for a path.
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
            Purpose::OpenList | Purpose::OpenCurve | Purpose::OpenRecording | Purpose::OpenDrive => dialog
                .set_title(match purpose {
                    Purpose::OpenList => tr("Open a parts list"),
                    Purpose::OpenCurve => tr("Open a damper curve"),
                    _ => tr("Open a recording"),
                })
                .add_filter(tr("text table"), &["csv", "tsv", "txt"])
                .add_filter(tr("all files"), &["*"]),
            Purpose::SaveJob => dialog
                .set_title(tr("Save the job"))
                .add_filter(tr("springwright job"), &["ron"])
                .set_file_name(suggested),
            Purpose::WriteSheet => dialog
                .set_title(tr("Save the sheet"))
                .add_filter(tr("by file extension: PDF, PNG, Markdown, plain text"), &["pdf", "png", "md", "txt"])
                .set_file_name(suggested),
            Purpose::OpenLogo => dialog.set_title(tr("Open a logo")).add_filter(tr("picture"), &["png", "svg"]),
            Purpose::PlotData => {
                dialog.set_title(tr("Save the data")).add_filter(tr("text table"), &["csv"]).set_file_name(suggested)
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
        if !purpose.writes() {
            let future = dialog.pick_file();
            builder.spawn(move || run(pollster::block_on(future)))?;
        } else {
            let future = dialog.save_file();
            builder.spawn(move || run(pollster::block_on(future)))?;
        }
        Ok(())
    }
}
