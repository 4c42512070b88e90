//! Everything there is to say: its count, and the list; each line goes to its field.

use eframe::egui::{Label, RichText, Role, ScrollArea, Sense, TextEdit, Ui, WidgetInfo, pos2, vec2};

use crate::base::language::tr;
use crate::gui::state::Cx;
use crate::gui::state::command::Command;
use crate::gui::widgets::field::{finding_line, finding_link};
use crate::gui::widgets::mends;
use crate::gui::widgets::scroll;
use crate::gui::widgets::theme;
use crate::job::{Finding, Level, Overrule, overrule};
use crate::say;

/// How many findings there are, level by level: "2 to check, 1 note".
fn counted(findings: &[Finding]) -> String {
    let count = |level: Level| findings.iter().filter(|f| f.level == level).count();
    let (stops, errors, withheld) = (count(Level::Stop), count(Level::Error), count(Level::Withheld));
    let (doubts, notes) = (count(Level::Doubt), count(Level::Note));
    let counted = [
        (stops, tr("1 STOP").to_owned(), say!("{stops} STOP", stops)),
        (errors, tr("1 error").to_owned(), say!("{errors} errors", errors)),
        (withheld, tr("1 withheld").to_owned(), say!("{withheld} withheld", withheld)),
        (doubts, tr("1 to check").to_owned(), say!("{doubts} to check", doubts)),
        (notes, tr("1 note").to_owned(), say!("{notes} notes", notes)),
    ];
    let counted: Vec<String> =
        counted.into_iter().filter(|(n, ..)| *n > 0).map(|(n, one, many)| if n == 1 { one } else { many }).collect();
    counted.join(", ")
}

/// The count of findings with the worst one's sign; it opens the list.
pub(super) fn count(ui: &mut Ui, cx: &mut Cx<'_>) {
    let findings = &cx.shown.answer.findings;
    let title = if findings.is_empty() {
        tr("Findings: none").to_owned()
    } else {
        say!("Findings: {counted}", counted = counted(findings))
    };
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 3.0;
        let (rect, _) = ui.allocate_exact_size(vec2(14.0, 26.0), Sense::hover());
        let words = match findings.len() {
            0 => tr("No findings").to_owned(),
            1 => tr("1 finding").to_owned(),
            count => say!("{count} findings", count),
        };
        let button = ui.selectable_label(cx.view.findings, words);
        if let Some(worst) = findings.first() {
            let at = pos2(rect.center().x, button.rect.center().y);
            theme::level_sign(ui.painter(), worst.level, at, 6.0, cx.dark);
        }
        button.widget_info(|| WidgetInfo::selected(Role::Button, true, cx.view.findings, &title));
        cx.when(button.on_hover_text(say!("{title} (Ctrl+E)", title)), Command::Findings);
    });
}

/// Draws the list.
pub(super) fn show(ui: &mut Ui, cx: &mut Cx<'_>) {
    let findings = cx.shown.answer.findings.clone();
    ui.horizontal_top(|ui| {
        cx.when(ui.small_button(tr("Close findings")), Command::Findings);
        let words = if findings.is_empty() { tr("Findings: none").to_owned() } else { counted(&findings) };
        ui.label(RichText::new(words).family(theme::bold()));
    });
    ScrollArea::vertical().max_height(ui.available_height().max(120.0)).auto_shrink([false, true]).show(ui, |ui| {
        for finding in &findings {
            line(ui, cx, finding);
            overrule(ui, cx, finding);
        }
        overruled(ui, cx);
        scroll::follow(ui);
    });
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
            ui.small(tr("Enter your initials below to overrule the finding."));
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
            if ui.small_button(say!("Withdraw the overruling of {rule}", rule = overrule.rule)).clicked() {
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
        finding_line(ui, finding.level, &finding.text.to_string(), cx.dark);
    } else if finding_link(ui, finding.level, &finding.text.to_string(), cx.dark)
        .on_hover_text(tr("Go to the field"))
        .clicked()
    {
        cx.run(Command::GoTo(finding.field.clone()));
    }
    mends::buttons(ui, cx, finding);
}
