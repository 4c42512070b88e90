//! Everything there is to say, in one list; each line goes to its field.

use eframe::egui::{ScrollArea, Sense, Ui};

use crate::gui::command::Command;
use crate::gui::field::{Cx, finding_line};
use crate::job::{Finding, Level};

/// Draws the bar, and the list when it is open.
pub fn show(ui: &mut Ui, cx: &mut Cx<'_>) {
    let findings = cx.shown.answer.findings.clone();
    let count = |level: Level| findings.iter().filter(|f| f.level == level).count();
    let title = match (count(Level::Stop), count(Level::Error), count(Level::Doubt), count(Level::Note)) {
        (0, 0, 0, 0) => "Findings: nothing to question".to_owned(),
        (stops, errors, doubts, notes) => {
            let parts = [(stops, "stop"), (errors, "error"), (doubts, "to check"), (notes, "note")];
            let words: Vec<String> = parts
                .iter()
                .filter(|(n, _)| *n > 0)
                .map(|(n, w)| {
                    let s = if *n > 1 && *w != "to check" { "s" } else { "" };
                    format!("{n} {w}{s}")
                })
                .collect();
            format!("Findings: {}", words.join(", "))
        }
    };
    ui.horizontal(|ui| {
        let arrow = if cx.view.findings { "hide" } else { "show" };
        if ui.button(format!("{title} ({arrow})")).clicked() {
            cx.run(Command::Findings);
        }
        if !cx.view.findings
            && let Some(first) = findings.first()
        {
            line(ui, cx, first);
        }
    });
    if cx.view.findings {
        ScrollArea::vertical().max_height(180.0).auto_shrink([false, true]).show(ui, |ui| {
            for finding in &findings {
                line(ui, cx, finding);
            }
        });
    }
}

fn line(ui: &mut Ui, cx: &mut Cx<'_>, finding: &Finding) {
    let response = finding_line(ui, finding.level, &finding.text, cx.dark).interact(Sense::click());
    if !finding.field.is_empty() && response.on_hover_text("Go to the field").clicked() {
        cx.run(Command::GoTo(finding.field.clone()));
    }
}
