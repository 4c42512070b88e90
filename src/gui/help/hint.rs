//! What to do at a step, in a sentence or two: until it is dismissed.

use eframe::egui::{Label, Ui};

use crate::base::language::tr;
use crate::gui::state::Cx;
use crate::gui::state::command::Command;
use crate::gui::state::step::Step;

/// A hint is shown: until dismissed, at each step that has form and pictures, and not next to the guide.
pub fn is_shown(cx: &Cx<'_>) -> bool {
    !cx.view.hide_hints && cx.view.guide.is_none() && !cx.view.has_list()
}

/// Draws the hint of the step that is open.
pub fn show(ui: &mut Ui, cx: &mut Cx<'_>) {
    let words = match cx.view.step {
        Step::Weigh => tr(
            "Type the four scale readings before and after the change. Enter moves round the vehicle. The first start shows a demo job; File, New begins yours.",
        ),
        Step::Measure => tr(
            "Enter the kind of spring, how far it moves with the wheel, and how its rate is known: enough for a first answer. All other measurements are compared with it.",
        ),
        Step::Springs => tr(
            "Enter how the axle should ride. The range of rates and the stock rate nearest its middle appear at once.",
        ),
        Step::Choose => tr(
            "Enter what a spring must fit and which list to search. On the right: the best spring, and how often it would meet every limit if you measured everything again. Optional: without a list, the stock rate from step Springs is used.",
        ),
        Step::Dampers => tr("Enter the damping you want. The forces to order by are on the right."),
        Step::Vehicle => {
            tr("Check the ratings first: no spring helps an axle over its rating. Then compare rear with front.")
        }
        Step::Sheet => tr(
            "Enter the names to print; the pages are shown on the right. Then print the sheet, or save it as a file.",
        ),
        Step::Road => tr(
            "Enter what it drives over. The table shows how often each remedy hits the bump stop; Play shows the drive.",
        ),
    };
    ui.horizontal_top(|ui| {
        if ui.small_button(tr("Hide hints")).clicked() {
            cx.run(Command::HideHints);
        }
        ui.add(Label::new(words).wrap());
    });
}
