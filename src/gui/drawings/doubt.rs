//! What to measure again first: each input's share of the doubt in the rate as a bar, with what it would buy.

use eframe::egui::{CollapsingHeader, Label, Rect, RichText, Sense, Stroke, StrokeKind, Ui, pos2, vec2};

use crate::base::language::tr;
use crate::choose::{Choice, Redo};
use crate::gui::drawings::chances::beside;
use crate::gui::state::Cx;
use crate::gui::widgets::tables;
use crate::gui::widgets::theme::{self, UNIT};
use crate::report::Block;
use crate::report::results;
use crate::report::sections::choose as words;
use crate::say;

const HIGH: f32 = 15.0;
/// Room next to the longest bar for its words.
const BESIDE: f32 = 270.0;
/// Number drawn; the table holds all.
const DRAWN: usize = 6;

/// Draws the picture and, to unfold, its numbers, which `block` holds.
pub fn show(ui: &mut Ui, cx: &Cx<'_>, choice: &Choice, block: &Block) {
    ui.label(RichText::new(words::redo_title(choice)).heading());
    let legend = tr(
        "Solid bar: share of the rate uncertainty; open bar: share of the free length uncertainty. On the right: effect on the rate, and the best spring's chance of meeting every limit, now and with this ± halved.",
    );
    ui.add(Label::new(RichText::new(legend).small()).wrap());
    for redo in words::worth_telling(choice).take(DRAWN) {
        ui.scope(|ui| one(ui, cx, redo));
    }
    ui.add_space(0.5 * UNIT);
    CollapsingHeader::new(tr("These values as a table, with the free length")).id_salt("redo").show(ui, |ui| {
        tables::table(ui, "redo", block);
    });
    ui.add_space(UNIT);
}

fn one(ui: &mut Ui, cx: &Cx<'_>, redo: &Redo) {
    ui.add_space(0.5 * UNIT);
    ui.spacing_mut().item_spacing.y = 2.0;
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing.x = 4.0;
        ui.label(RichText::new(results::what_again(redo)).family(theme::bold()));
        ui.small(format!("{}.", words::how(redo, &cx.job.units)));
    });
    let percent = |share: f64| format!("{:.0} %", share * 100.0);
    let (share, moves) = (percent(redo.share), words::moves(redo, &cx.job.units));
    let of_rate = match redo.chance {
        None => say!("rate {share}, {moves}", share, moves),
        Some(chance) => {
            say!("rate {share}, {moves}, chance: {bought}", share, moves, bought = words::bought(chance))
        }
    };
    bar(ui, redo.share, true, &of_rate);
    let of_length = say!("free length {share}", share = percent(redo.share_of_length));
    bar(ui, redo.share_of_length, false, &of_length);
}

/// A bar with its words next to it: full for the rate, open for the length.
fn bar(ui: &mut Ui, share: f64, is_full: bool, text: &str) {
    let (rect, _) = ui.allocate_exact_size(vec2(ui.available_width(), HIGH), Sense::hover());
    let ink = ui.visuals().text_color();
    let width = (rect.width() - BESIDE) * share.clamp(0.0, 1.0) as f32;
    let bar = Rect::from_min_size(rect.min, vec2(width.max(2.0), HIGH - 2.0));
    let painter = ui.painter_at(rect);
    if is_full {
        painter.rect_filled(bar, 0.0, ink.gamma_multiply(0.75));
    }
    painter.rect_stroke(bar, 0.0, Stroke::new(1.0, ink), StrokeKind::Inside);
    beside(&painter, pos2(bar.right() + 6.0, bar.center().y), text, ink);
}
