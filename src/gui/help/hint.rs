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
            "Enter the four scale readings before and after the change. Press Enter to move to the next wheel. On first start, a demo job is open; choose File, New to begin your own.",
        ),
        Step::Measure => tr(
            "Enter the kind of spring, its motion ratio and how its rate is known: this is enough for a first answer. All other measurements are used as checks.",
        ),
        Step::Springs => tr(
            "Enter how the axle should ride. The range of rates and the stock rate nearest its middle appear immediately.",
        ),
        Step::Choose => tr(
            "Enter the limits a spring must meet and the list to search. The best spring and its chance of meeting every limit are shown. Optional: without a list, the stock rate from the Springs step is used.",
        ),
        Step::Dampers => tr("Enter the target damping. The damper forces for the order are shown at once."),
        Step::Vehicle => tr(
            "Check the ratings first: no spring helps an axle that is over its rating. Then compare rear with front.",
        ),
        Step::Sheet => tr(
            "Enter the names to print; the pages are shown as they will be printed. Then print the sheet, or save it as a file.",
        ),
        Step::Road => tr(
            "Enter the road to simulate. The table shows how often the wheels hit the bump stop with each option; Play shows the simulation.",
        ),
    };
    ui.horizontal_top(|ui| {
        cx.when(ui.small_button(tr("Hide hints")), Command::HideHints);
        ui.add(Label::new(words).wrap());
    });
}
