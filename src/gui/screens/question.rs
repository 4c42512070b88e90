//! What must be decided before a file is written or the window closes: asked in words, with every way out.

use eframe::egui::Ui;

use crate::gui::command::{Command, FileCommand};
use crate::gui::field::{self, Cx};
use crate::gui::file_actions::Question;
use crate::job::Level;

/// Draws the question, if there is one.
pub fn show(ui: &mut Ui, cx: &mut Cx<'_>) {
    let Some(question) = cx.view.question.clone() else { return };
    let not_now = Command::File(FileCommand::NotNow);
    let (words, ways) = match question {
        Question::ChangedByOthers(path) => (
            format!(
                "Not saved yet: somebody else changed {} after you opened it. Whichever you take, the other is put aside and stays.",
                path.display()
            ),
            vec![
                ("Save mine over it", Command::File(FileCommand::SaveOver(path.clone()))),
                ("Open theirs", Command::OpenFile(path)),
                ("Save mine elsewhere…", Command::SaveAs),
                ("Not now", not_now),
            ],
        ),
        Question::Exists(path) => (
            format!("Not saved yet: {} is there already. If it is replaced, it stays as its backup.", path.display()),
            vec![
                ("Replace it", Command::File(FileCommand::SaveOver(path))),
                ("Save elsewhere…", Command::SaveAs),
                ("Not now", not_now),
            ],
        ),
        Question::NotKept => (
            "This job is not saved, and its text cannot be kept for the next start. Save it before you close."
                .to_owned(),
            vec![
                ("Save…", Command::Save),
                ("Close without it", Command::File(FileCommand::QuitAnyway)),
                ("Not now", not_now),
            ],
        ),
    };
    ui.horizontal_wrapped(|ui| {
        field::finding_line(ui, Level::Doubt, &words, cx.dark);
    });
    ui.horizontal_wrapped(|ui| {
        for (name, command) in ways {
            if ui.button(name).clicked() {
                cx.run(command);
            }
        }
    });
}
