//! The job's plans: which is chosen, what they are called, and what each does and costs.

use eframe::egui::{Label, RichText, TextEdit, Ui, vec2};

use crate::base::language::tr;
use crate::gui::state::Cx;
use crate::gui::state::command::{Command, PlanCommand};
use crate::gui::state::section::Section;
use crate::gui::widgets::field::{MOST_IN_NAME, limited};
use crate::gui::widgets::tables;
use crate::gui::widgets::theme::UNIT;
use crate::job::Which;
use crate::report::sheets::plan_table::Plans;
use crate::say;

/// Width of a plan's name.
const NAME: f32 = 210.0;

/// The plans one below the other; the chosen one is what all steps show and change.
pub(super) fn form(ui: &mut Ui, cx: &mut Cx<'_>) {
    let words = tr("The steps Springs, Choose and Dampers show and change the chosen plan.");
    ui.add(Label::new(RichText::new(words).small()).wrap());
    for which in cx.job.every_plan() {
        ui.horizontal(|ui| one(ui, cx, which));
    }
    ui.horizontal_wrapped(|ui| {
        let hint = tr("Adds a copy of the chosen plan; the chosen plan stays in this list.");
        cx.when(ui.button(tr("Add plan")).on_hover_text(hint), Command::Plan(PlanCommand::Add));
        if cx.planning.plans().and_then(Plans::added).is_some()
            && ui
                .button(tr("Try old springs on spacers"))
                .on_hover_text(tr("Adds a plan in which the old springs stay and spacers restore the height."))
                .clicked()
        {
            cx.run(Command::Plan(PlanCommand::ChooseAdded));
        }
    });
}

fn one(ui: &mut Ui, cx: &mut Cx<'_>, which: Which) {
    let (is_chosen, words) = (which == Which::Chosen, cx.job.plan_words(which));
    let choose = ui.radio(is_chosen, "").on_hover_text(say!("Choose {plan}", plan = words));
    choose.widget_info(|| {
        let name = say!("Choose {plan}", plan = words);
        eframe::egui::WidgetInfo::selected(eframe::egui::Role::RadioButton, true, is_chosen, name)
    });
    if choose.clicked() && !is_chosen {
        cx.run(Command::Plan(PlanCommand::Choose(which)));
    }
    let name = match which {
        Which::Nothing => None,
        Which::Chosen => Some(&mut cx.job.plan_name),
        Which::Other(n) => cx.job.plans.get_mut(n).map(|plan| &mut plan.name),
    };
    let Some(name) = name else {
        ui.label(words);
        return;
    };
    let edit = TextEdit::singleline(name).desired_width(NAME).margin(vec2(8.0, 6.0)).hint_text(words.clone());
    let edit = limited(ui, edit, MOST_IN_NAME);
    edit.widget_info(|| {
        let label = say!("Name of {plan}", plan = words);
        eframe::egui::WidgetInfo::labeled(eframe::egui::Role::TextInput, true, label)
    });
    if let Which::Other(n) = which
        && ui.button(tr("Remove")).on_hover_text(tr("Removes this plan; Ctrl+Z brings it back.")).clicked()
    {
        cx.run(Command::Plan(PlanCommand::Remove(n)));
    }
}

/// The plans side by side, where there is something to decide between them or their section is worked in.
pub(super) fn pictures(ui: &mut Ui, cx: &mut Cx<'_>) {
    let blocks = cx.planning.blocks();
    let is_asked = cx.planning.plans().is_some_and(Plans::is_asked);
    if blocks.is_empty() || !is_asked && cx.view.sections.now() != Some(Section::Plans) {
        return;
    }
    if !cx.planning.is_current(cx.job) {
        ui.label(RichText::new(tr("Result from before your last change:")).italics());
    }
    tables::all(ui, "plans", blocks);
    ui.add_space(UNIT);
}

/// Which plan is chosen, and a way to another one, where there are several.
pub(in crate::gui) fn chosen(ui: &mut Ui, cx: &mut Cx<'_>) {
    if cx.job.plans.is_empty() {
        return;
    }
    ui.horizontal(|ui| {
        let now = cx.job.plan_words(Which::Chosen);
        ui.label(tr("Plan"));
        super::combo(ui, "chosen plan", tr("Plan"), &now.to_string(), 220.0, |ui| {
            for which in cx.job.every_plan() {
                if ui.selectable_label(which == Which::Chosen, cx.job.plan_words(which)).clicked() {
                    cx.run(Command::Plan(PlanCommand::Choose(which)));
                    ui.close();
                }
            }
        });
    });
    ui.add_space(0.5 * UNIT);
}
