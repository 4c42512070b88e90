//! Asks the user for a file, without stopping the window.

use std::path::PathBuf;
use std::sync::mpsc::{Receiver, Sender, channel};

use eframe::egui;

use super::command::Command;

/// What the file is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Purpose {
    OpenJob,
    SaveJob,
    WriteSheet,
}

/// Open questions and their answers.
pub(super) struct Dialogs {
    answers: Receiver<Command>,
    sender: Sender<Command>,
}

impl Dialogs {
    pub fn new() -> Self {
        let (sender, answers) = channel();
        Dialogs { answers, sender }
    }

    /// Commands that came back from dialogs since the last frame.
    pub fn answered(&self) -> Vec<Command> {
        self.answers.try_iter().collect()
    }

    /// Shows a dialog; its answer arrives as a command in a later frame.
    pub fn ask(&self, ctx: &egui::Context, purpose: Purpose, suggested: &str) -> std::io::Result<()> {
        let dialog = rfd::AsyncFileDialog::new();
        let dialog = match purpose {
            Purpose::OpenJob => dialog.set_title("Open a job").add_filter("springwright job", &["ron"]),
            Purpose::SaveJob => {
                dialog.set_title("Save the job").add_filter("springwright job", &["ron"]).set_file_name(suggested)
            }
            Purpose::WriteSheet => dialog
                .set_title("Write the sheet")
                .add_filter("Markdown", &["md"])
                .add_filter("plain text", &["txt"])
                .set_file_name(suggested),
        };
        let (sender, ctx) = (self.sender.clone(), ctx.clone());
        let name = "file dialog".to_owned();
        let run = move |path: Option<rfd::FileHandle>| {
            if let Some(path) = path {
                // The window may be gone by now.
                let _ = sender.send(answer(purpose, path.path().to_owned()));
                ctx.request_repaint();
            }
        };
        let builder = std::thread::Builder::new().name(name);
        if purpose == Purpose::OpenJob {
            let future = dialog.pick_file();
            builder.spawn(move || run(pollster::block_on(future)))?;
        } else {
            let future = dialog.save_file();
            builder.spawn(move || run(pollster::block_on(future)))?;
        }
        Ok(())
    }
}

fn answer(purpose: Purpose, path: PathBuf) -> Command {
    match purpose {
        Purpose::OpenJob => Command::OpenFile(path),
        Purpose::SaveJob => Command::SaveTo(with_ending(path, "ron")),
        Purpose::WriteSheet => Command::WriteSheet(with_ending(path, "md")),
    }
}

/// Some dialogs leave the ending out.
fn with_ending(path: PathBuf, ending: &str) -> PathBuf {
    if path.extension().is_some() { path } else { path.with_extension(ending) }
}
