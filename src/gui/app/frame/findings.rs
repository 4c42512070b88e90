//! Everything there is to say, in one list; each line goes to its field.

use eframe::egui::{Label, RichText, ScrollArea, TextEdit, Ui};

use crate::gui::state::Cx;
use crate::gui::state::command::Command;
use crate::gui::widgets::field::{finding_line, finding_link};
use crate::gui::widgets::mends;
use crate::gui::widgets::scroll;
use crate::job::{Finding, Level, Overrule, overrule};
use crate::language::tr;
use crate::say;

/// Draws the bar, and the list when it is open.
pub fn show(ui: &mut Ui, cx: &mut Cx<'_>) {
    let findings = cx.shown.answer.findings.clone();
    let count = |level: Level| findings.iter().filter(|f| f.level == level).count();
    let title = match (
        count(Level::Stop),
        count(Level::Error),
        count(Level::Withheld),
        count(Level::Doubt),
        count(Level::Note),
    ) {
        (0, 0, 0, 0, 0) => tr("Findings: nothing to question").to_owned(),
        (stops, errors, withheld, doubts, notes) => {
            let counted = [
                (stops, tr("1 stop").to_owned(), say!("{stops} stops", stops)),
                (errors, tr("1 error").to_owned(), say!("{errors} errors", errors)),
                (withheld, tr("1 withheld").to_owned(), say!("{withheld} withheld", withheld)),
                (doubts, tr("1 to check").to_owned(), say!("{doubts} to check", doubts)),
                (notes, tr("1 note").to_owned(), say!("{notes} notes", notes)),
            ];
            let counted = counted.into_iter().filter(|(n, ..)| *n > 0);
            let counted: Vec<String> = counted.map(|(n, one, many)| if n == 1 { one } else { many }).collect();
            say!("Findings: {counted}", counted = counted.join(", "))
        }
    };
    ui.horizontal(|ui| {
        let words = if cx.view.findings { say!("{title} (hide)", title) } else { say!("{title} (show)", title) };
        if ui.button(words).clicked() {
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
                overrule(ui, cx, finding);
            }
            overruled(ui, cx);
            scroll::follow(ui);
        });
    }
}

/// A doubt that withholds an axle can be overruled: a button, and then whose word it is.
fn overrule(ui: &mut Ui, cx: &mut Cx<'_>, finding: &Finding) {
    if !finding.can_be_overruled() {
        return;
    }
    let values = overrule::values(cx.job, &finding.rests_on);
    let is_asked = cx.job.overrules.iter().any(|o: &Overrule| o.is_about(finding.rule, &values));
    ui.horizontal(|ui| {
        ui.add_space(22.0);
        if is_asked {
            ui.label(RichText::new(tr("Initials below put it in force.")).small());
        } else if ui.small_button(say!("Overrule {rule}", rule = finding.rule)).clicked() {
            cx.run(Command::Overrule { rule: finding.rule, values });
        }
    });
}

/// What was overruled, with whose word it is, each to be taken back.
fn overruled(ui: &mut Ui, cx: &mut Cx<'_>) {
    let mut taken = None;
    for (i, overrule) in cx.job.overrules.iter_mut().enumerate() {
        ui.horizontal(|ui| {
            let name = say!("Initials for {rule}", rule = overrule.rule);
            let label = ui.label(&name);
            ui.add(TextEdit::singleline(&mut overrule.initials).desired_width(70.0)).labelled_by(label.id);
            if ui.small_button(say!("Withdraw {rule}", rule = overrule.rule)).clicked() {
                taken = Some(i);
            }
            ui.add(Label::new(RichText::new(&overrule.values).small()).truncate());
        });
    }
    if let Some(row) = taken {
        cx.run(Command::TakeRow { list: "overrules".into(), row });
    }
}

fn line(ui: &mut Ui, cx: &mut Cx<'_>, finding: &Finding) {
    if finding.field.is_empty() {
        finding_line(ui, finding.level, &finding.text, cx.dark);
    } else if finding_link(ui, finding.level, &finding.text, cx.dark).on_hover_text(tr("Go to the field")).clicked() {
        cx.run(Command::GoTo(finding.field.clone()));
    }
    if cx.view.findings {
        mends::buttons(ui, cx, finding);
    }
}
