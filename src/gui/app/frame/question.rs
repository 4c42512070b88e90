//! What must be decided before a file is written or the window closes: asked in words, with every way out.

use eframe::egui::Ui;

use crate::base::language::{path_text, tr};
use crate::gui::state::Cx;
use crate::gui::state::command::{Command, FileCommand};
use crate::gui::state::files::Question;
use crate::gui::widgets::field;
use crate::job::Level;
use crate::say;

/// Draws the question, if there is one.
pub fn show(ui: &mut Ui, cx: &mut Cx<'_>) {
    let Some(question) = cx.view.question.clone() else { return };
    let not_now = Command::File(FileCommand::NotNow);
    let (words, ways) = match question {
        Question::ChangedByOthers(path) => (
            say!(
                "Not saved yet: someone else changed {path} after you opened it. Whichever version you keep, the other is saved in a separate file.",
                path = path_text(&path)
            ),
            vec![
                (tr("Save my version"), Command::File(FileCommand::SaveOver(path.clone()))),
                (tr("Open the other version"), Command::OpenFile(path)),
                (tr("Save my version elsewhere…"), Command::SaveAs),
                (tr("Not now"), not_now),
            ],
        ),
        Question::Comments(path) => (
            say!(
                "Not saved yet: {path} contains comments, which are lost when the job is saved. The original can be kept under another name.",
                path = path_text(&path)
            ),
            vec![
                (tr("Keep original and save"), Command::File(FileCommand::SaveWithoutComments(path))),
                (tr("Save elsewhere…"), Command::SaveAs),
                (tr("Not now"), not_now),
            ],
        ),
        Question::Exists(path) => (
            say!(
                "Not saved yet: {path} already exists. If you replace it, the old file is kept as a backup.",
                path = path_text(&path)
            ),
            vec![
                (tr("Replace file"), Command::File(FileCommand::SaveOver(path))),
                (tr("Save elsewhere…"), Command::SaveAs),
                (tr("Not now"), not_now),
            ],
        ),
        Question::Taken(purpose, path) => (
            say!("Not saved yet: {path} already exists and would be overwritten.", path = path_text(&path)),
            vec![
                (tr("Replace file"), Command::File(FileCommand::WriteOver(purpose, path))),
                (tr("Choose another file…"), Command::NoDialog(purpose)),
                (tr("Not now"), not_now),
            ],
        ),
        Question::NotKept => (
            tr("This job is not saved, and your changes cannot be kept for the next start. Save the job before you close.")
                .to_owned(),
            vec![
                (tr("Save…"), Command::Save),
                (tr("Close without saving"), Command::File(FileCommand::QuitAnyway)),
                (tr("Not now"), not_now),
            ],
        ),
    };
    ui.horizontal_wrapped(|ui| {
        field::finding_line(ui, Level::Doubt, &words, cx.dark);
    });
    ui.horizontal_wrapped(|ui| {
        for (name, command) in ways {
            cx.when(ui.button(name), command);
        }
    });
}
