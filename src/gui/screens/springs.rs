//! Springs: what the axle should do, and the spring for it.

use eframe::egui::{Label, RichText, Ui};

use crate::base::language::tr;
use crate::gui::drawings::plots;
use crate::gui::screens::axle_choice;
use crate::gui::screens::axle_rows;
use crate::gui::screens::choose::plan_list;
use crate::gui::screens::pictures_of;
use crate::gui::screens::spring;
use crate::gui::screens::weigh::text_row;
use crate::gui::state::Cx;
use crate::gui::state::section::Section;
use crate::gui::widgets::choices;
use crate::gui::widgets::in_view;
use crate::gui::widgets::numbers;
use crate::gui::widgets::section::more;
use crate::gui::widgets::tables;
use crate::gui::widgets::theme::{self, NARROW, UNIT};
use crate::job::{BagFitted, Goal, HeldBy, Plan, Side, SpringKind};
use crate::report::pictures::plans;
use crate::report::write::page::kept_together;

/// What is done to old springs that stay.
fn kept(ui: &mut Ui, cx: &mut Cx<'_>, side: Side) {
    match cx.job.axle(side).spring.kind {
        SpringKind::TorsionBar => axle_rows(ui, cx, side, &["index"]),
        SpringKind::Leaf => axle_rows(ui, cx, side, &["spacer", "added_leaf.rate", "added_leaf.nip"]),
        _ => axle_rows(ui, cx, side, &["spacer"]),
    }
}

/// The form.
pub fn form(ui: &mut Ui, cx: &mut Cx<'_>) {
    plan_list::chosen(ui, cx);
    let side = axle_choice(ui, cx);
    choices(ui, |ui| {
        let plan = &mut cx.job.axle_mut(side).plan;
        ui.radio_value(plan, Plan::NewSprings, tr("new springs where needed"));
        ui.radio_value(plan, Plan::Keep, tr("keep the old springs"));
    });
    let axle = cx.job.axle_mut(side);
    if axle.plan == Plan::NewSprings && (axle.new_anyway || cx.shown.answer.lead(side).is_some()) {
        ui.checkbox(&mut axle.new_anyway, tr("new springs even if the old ones do the same"));
    }
    let is_bar = cx.job.axle(side).spring.kind == SpringKind::TorsionBar;
    if cx.job.axle(side).plan == Plan::Keep {
        kept(ui, cx, side);
    }
    cx.section(ui, Section::Target);
    choices(ui, |ui| {
        let goal = &mut cx.job.axle_mut(side).target.goal;
        ui.radio_value(goal, Goal::Range, tr("within a frequency range"));
        ui.radio_value(goal, Goal::AsBefore, tr("as before"));
    });
    match cx.job.axle(side).target.goal {
        Goal::Range => axle_rows(ui, cx, side, &["target.low", "target.high"]),
        Goal::AsBefore => {
            axle_rows(ui, cx, side, &["target.margin"]);
            cx.below(ui, &format!("{}.target.low", side.key()));
        }
    }
    axle_rows(ui, cx, side, &["target.raise"]);
    cx.section(ui, Section::Stock);
    match cx.job.axle(side).spring.kind {
        SpringKind::TorsionBar => axle_rows(ui, cx, side, &["stock.bar_step"]),
        SpringKind::Leaf => axle_rows(ui, cx, side, &["stock.step"]),
        _ => axle_rows(ui, cx, side, &["stock.step", "stock.settle", "stock.solid_length"]),
    }
    let key = side.key();
    let is_loose = cx.shown.answer.axle(side).room.seat.is_some_and(|left| left.value < 0.0);
    if is_loose || cx.job.axle(side).held_by != HeldBy::NotSaid {
        held_by(ui, cx, side);
    }
    let as_delivered = ["rate_factor", "length_off"].map(|field| format!("{key}.stock.{field}"));
    more(ui, cx, tr("More: tolerance of the new springs"), &as_delivered, false, |ui, cx| {
        axle_rows(ui, cx, side, &["stock.rate_factor", "stock.length_off"]);
    });
    if cx.job.axle(side).spring.kind.is_coil() {
        let own = ["coil.", "wire_step", "solid_share"];
        let inside = own.map(|field| format!("{key}.stock.{field}"));
        more(ui, cx, tr("More: offered spring, or spring to be wound"), &inside, false, |ui, cx| {
            ui.small(tr("Enter wire and coils of an offered spring. If you enter only the outside diameter, a spring to be wound is calculated."));
            spring::wire(ui, cx, side, "stock.coil");
            text_row(ui, tr("Available wire sizes, separated by ;"), &mut cx.job.axle_mut(side).stock.wires);
            axle_rows(ui, cx, side, &["stock.wire_step"]);
            ui.checkbox(&mut cx.job.axle_mut(side).stock.preset, tr("preset: compressed solid by the maker"));
            axle_rows(ui, cx, side, &["stock.solid_share"]);
        });
        let inside = [format!("{key}.spring.cut")];
        more(ui, cx, tr("More: what if the old springs were cut?"), &inside, false, |ui, cx| {
            axle_rows(ui, cx, side, &["spring.cut"]);
        });
    }
    let inside = ["left", "right"].map(|own| format!("{key}.{own}."));
    more(ui, cx, tr("More: different spring or spacer on the left or right"), &inside, false, |ui, cx| {
        text_row(ui, tr("Left spring: part number"), &mut cx.job.axle_mut(side).left.number);
        let set = if is_bar { "left.index" } else { "left.spacer" };
        axle_rows(ui, cx, side, &["left.rate", "left.free_length", "left.solid_length", set, "left.price"]);
        text_row(ui, tr("Right spring: part number"), &mut cx.job.axle_mut(side).right.number);
        let set = if is_bar { "right.index" } else { "right.spacer" };
        axle_rows(ui, cx, side, &["right.rate", "right.free_length", "right.solid_length", set, "right.price"]);
    });
    let inside = [format!("{key}.order.")];
    more(ui, cx, tr("More: details for the supplier"), &inside, false, |ui, cx| order(ui, cx, side));
    let inside = [format!("{key}.bag.")];
    cx.folded_section(ui, Section::Bag, tr("Helper air bag"), &inside, false, |ui, cx| {
        choices(ui, |ui| {
            let fitted = &mut cx.job.axle_mut(side).bag.fitted;
            ui.radio_value(fitted, BagFitted::No, tr("only as a what-if"));
            ui.radio_value(fitted, BagFitted::WithNew, tr("to be fitted with the final springs"));
            ui.radio_value(fitted, BagFitted::Always, tr("already fitted before the change"));
        });
        axle_rows(
            ui,
            cx,
            side,
            &[
                "bag.area",
                "bag.volume",
                "bag.pressure",
                "bag.ratio",
                "bag.exponent",
                "bag.area_growth",
                "order.bag_height",
                "order.bag_room",
            ],
        );
        text_row(ui, tr("Air bag mounts and air fitting"), &mut cx.job.axle_mut(side).order.bag_fittings);
    });
}

/// What a supplier asks of a spring, and nothing else needs.
fn order(ui: &mut Ui, cx: &mut Cx<'_>, side: Side) {
    match cx.job.axle(side).spring.kind {
        SpringKind::TorsionBar => {
            axle_rows(ui, cx, side, &["order.bar_length"]);
            let order = &mut cx.job.axle_mut(side).order;
            text_row(ui, tr("Splines, both ends"), &mut order.splines);
            text_row(
                ui,
                tr("Left bar, seen from the arm end: wound clockwise or anticlockwise"),
                &mut order.bar_direction,
            );
        }
        SpringKind::Leaf => {
            axle_rows(ui, cx, side, &["order.camber", "order.centre_bolt"]);
            let order = &mut cx.job.axle_mut(side).order;
            text_row(ui, tr("Fixed eye: front or rear"), &mut order.fixed_eye);
            text_row(ui, tr("Centre bolt"), &mut order.bolt);
            text_row(ui, tr("Eyes and bushes"), &mut order.eyes);
            text_row(ui, tr("Clips"), &mut order.clips);
            text_row(ui, tr("U-bolts: axle diameter, inside width, thread"), &mut order.u_bolts);
        }
        SpringKind::Coil | SpringKind::WithHelper | SpringKind::Progressive => {
            let order = &mut cx.job.axle_mut(side).order;
            text_row(ui, tr("Ends and their orientation"), &mut order.ends);
            text_row(ui, tr("Winding direction, if it matters"), &mut order.hand);
        }
    }
    text_row(ui, tr("Finish"), &mut cx.job.axle_mut(side).order.finish);
}

/// What holds a spring that is loose at full droop.
fn held_by(ui: &mut Ui, cx: &mut Cx<'_>, side: Side) {
    ui.label(tr("The spring is loose at full droop. What keeps it seated?"));
    let held = &mut cx.job.axle_mut(side).held_by;
    for by in HeldBy::ALL {
        ui.radio_value(held, by, by.words());
    }
}

/// The answer of the axle that is shown, in a whole sentence, with what it rests on.
fn the_answer(ui: &mut Ui, cx: &Cx<'_>, side: Side) {
    let said = &cx.shown.sentences[side];
    let mut text = RichText::new(&said.answer).text_style(theme::answer_style());
    if let Err(reasons) = cx.shown.answer.released(side) {
        text = text.color(theme::level_color(reasons.first.level, cx.dark));
    }
    ui.add(Label::new(text).wrap());
    if !said.certainty.is_empty() {
        ui.add(Label::new(RichText::new(kept_together(&said.certainty)).small().weak()).wrap());
    }
    ui.add_space(UNIT);
}

/// Height against frequency of both axles, side by side; below each other where there is little room.
fn picture_of_the_job(ui: &mut Ui, cx: &mut Cx<'_>) {
    let others = cx.planning.others(cx.job);
    let of_axle = |side: Side| {
        let chosen = cx.shown.shift[side].as_ref()?;
        Some((side, plans::in_shift(chosen, side, &others)))
    };
    let pictures: Vec<_> = Side::BOTH.into_iter().filter_map(of_axle).collect();
    if pictures.is_empty() {
        let words = tr(
            "The plot of height and frequency appears once the weights before and after, the motion ratio and the spring rate are known.",
        );
        ui.label(RichText::new(words).weak().italics());
        ui.add_space(UNIT);
        return;
    }
    let half = 0.5 * (ui.available_width() - UNIT);
    let width = if half < LEAST_HALF { ui.available_width() } else { half };
    // In a band above the form answer and picture are in view together.
    let high = if ui.ctx().content_rect().width() < NARROW { JOB_HIGH_IN_BAND } else { JOB_HIGH };
    let one = |ui: &mut Ui, cx: &mut Cx<'_>, i: usize| {
        let (side, picture) = &pictures[i];
        ui.vertical(|ui| {
            ui.set_width(width);
            let id = format!("shift {}", side.key());
            plots::draw_beside(ui, picture, &id, &cx.job.units, cx.dark, high, cx.commands);
        });
    };
    if width < ui.available_width() {
        ui.horizontal_top(|ui| (0..pictures.len()).for_each(|i| one(ui, cx, i)));
    } else {
        (0..pictures.len()).for_each(|i| one(ui, cx, i));
    }
    ui.add_space(UNIT);
}

/// Height of the picture of the job, and the least width of one axle's half.
const JOB_HIGH: f32 = 250.0;
const JOB_HIGH_IN_BAND: f32 = 170.0;
const LEAST_HALF: f32 = 240.0;

/// Frequency against rate, load against travel, and the spring in numbers.
pub fn pictures(ui: &mut Ui, cx: &mut Cx<'_>) {
    let side = cx.view.side();
    pictures_of(ui, cx, &[Section::Target]);
    the_answer(ui, cx, side);
    picture_of_the_job(ui, cx);
    plots::draw(ui, cx.shown.frequency_rate[side].as_ref(), "frequency-rate", &cx.job.units, cx.dark, cx.commands);
    ui.add_space(UNIT);
    pictures_of(ui, cx, &[Section::Stock, Section::Bag]);
    in_view::only(ui, "springs", |ui| tables::all(ui, "spring", &*cx.shown.springs[side]));
    plots::draw(ui, cx.shown.load_travel[side].as_ref(), "load-travel", &cx.job.units, cx.dark, cx.commands);
    ui.add_space(UNIT);
    let key = side.key();
    let shown = ["sizing.", "room.", "new_springs.", "cut.", "offered.", "wound.", "levelled."];
    numbers::show(ui, cx, &shown.map(|part| format!("{key}.{part}")));
}
