//! What to measure again first: each input's share of the doubt in the rate as a bar, with what it would buy.

use eframe::egui::{CollapsingHeader, Label, Rect, RichText, Sense, Stroke, StrokeKind, Ui, pos2, vec2};

use super::chances::beside;
use super::choosing::cell;
use super::field::Cx;
use super::screens::tables;
use super::theme::{self, UNIT};
use crate::choose::{Choice, Redo};
use crate::report::{Block, choose as words};

const HIGH: f32 = 14.0;
/// Room beside the longest bar for its words.
const BESIDE: f32 = 170.0;
/// So many are drawn; the table holds all.
const DRAWN: usize = 6;

/// Draws the picture and, to unfold, its numbers; `block` holds its words.
pub fn show(ui: &mut Ui, cx: &Cx<'_>, choice: &Choice, block: &Block) {
    let Block::Table { rows, .. } = block else { return };
    ui.label(RichText::new(title(choice)).heading());
    let words = "The bar: its share of what is not known of the rate. Beside it: by how much it moves the rate, and the chance of the spring to take now and with half its ±.";
    ui.add(Label::new(RichText::new(words).small()).wrap());
    // The table leaves out what hardly matters; rows and inputs are in the same order.
    let mut left = rows.iter().enumerate().take(DRAWN).peekable();
    for redo in &choice.redo {
        if let Some((i, _)) = left.next_if(|(_, row)| row.first().is_some_and(|what| *what == words::what(redo))) {
            one(ui, cx, redo, block, i);
        }
    }
    ui.add_space(0.5 * UNIT);
    CollapsingHeader::new("The same in numbers, the free length included").id_salt("redo").show(ui, |ui| {
        tables::table(ui, "redo", block);
    });
    ui.add_space(UNIT);
}

/// The title states the finding.
fn title(choice: &Choice) -> String {
    match choice.redo.first() {
        Some(first) => format!("Measure again first: {}", words::what(first)),
        None => "Measure again first".into(),
    }
}

fn one(ui: &mut Ui, cx: &Cx<'_>, redo: &Redo, block: &Block, row: usize) {
    ui.add_space(0.5 * UNIT);
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing.x = 4.0;
        ui.label(RichText::new(words::what(redo)).family(theme::bold()));
        ui.label(RichText::new(format!("{}.", words::how(redo, &cx.job.units))).small());
    });
    let (rect, _) = ui.allocate_exact_size(vec2(ui.available_width(), HIGH + 4.0), Sense::hover());
    let (ink, weak) = (ui.visuals().text_color(), ui.visuals().weak_text_color());
    let whole = rect.width() - BESIDE;
    let width = whole * redo.share.clamp(0.0, 1.0) as f32;
    let bar = Rect::from_min_size(rect.left_top() + vec2(0.0, 2.0), vec2(width.max(2.0), HIGH));
    let painter = ui.painter_at(rect);
    let track = Rect::from_min_size(bar.min, vec2(whole, HIGH));
    painter.hline(track.x_range(), track.bottom(), Stroke::new(1.0, weak));
    painter.rect_filled(bar, 0.0, ink.gamma_multiply(0.75));
    painter.rect_stroke(bar, 0.0, Stroke::new(1.0, ink), StrokeKind::Inside);
    let bought = cell(block, row, "chance");
    let moves = cell(block, row, "moves the rate by");
    let text = if bought.is_empty() { moves.to_owned() } else { format!("{moves}   {bought}") };
    beside(&painter, pos2(bar.right() + 6.0, bar.center().y), &text, ink);
}
