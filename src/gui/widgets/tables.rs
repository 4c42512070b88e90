//! Tables of the report, drawn in the window.

use eframe::egui::{Align, FontId, Label, Layout, Rect, RichText, Sense, TextStyle, Ui, UiBuilder, pos2, vec2};

use crate::gui::widgets::theme;
use crate::job::Level;
use crate::report::Block;
use crate::report::is_unknown;

const GAP: f32 = 20.0;
const PAD: f32 = 4.0;

/// Draws any block.
pub fn any(ui: &mut Ui, id: &str, block: &Block) {
    match block {
        Block::Heading(text) => {
            ui.heading(text);
        }
        table_block @ Block::Table { .. } => {
            table(ui, id, table_block);
            ui.add_space(2.0 * theme::UNIT);
        }
        Block::Text(text) => {
            ui.add(Label::new(text).wrap());
            ui.add_space(2.0 * theme::UNIT);
        }
        Block::Caution(text) => {
            let color = theme::level_color(Level::Stop, ui.visuals().dark_mode);
            ui.add(Label::new(RichText::new(text).strong().color(color)).wrap());
            ui.add_space(2.0 * theme::UNIT);
        }
        Block::Drawing(drawing) => {
            ui.label(&drawing.words);
        }
        Block::Blanks(lines) => {
            for words in lines {
                ui.label(words);
            }
        }
        Block::Steps(steps) => {
            for (i, step) in steps.iter().enumerate() {
                ui.add(Label::new(format!("{}. {step}", i + 1)).wrap());
            }
            ui.add_space(2.0 * theme::UNIT);
        }
        Block::List(items) => {
            for item in items {
                ui.add(Label::new(format!("- {item}")).wrap());
            }
            ui.add_space(2.0 * theme::UNIT);
        }
    }
}

/// From more columns than this on they stand closer.
const MANY: usize = 6;

/// Draws a table block: words left, numbers right; long words of a two-column table wrap.
pub fn table(ui: &mut Ui, id: &str, block: &Block) {
    let Block::Table { head, rows } = block else { return };
    let body = TextStyle::Body.resolve(ui.style());
    let bold = FontId::new(body.size, theme::bold());
    let (painter, color) = (ui.painter().clone(), ui.visuals().text_color());
    let size =
        |text: &str, font: &FontId, width: f32| painter.layout(text.to_owned(), font.clone(), color, width).size();
    let mut widths: Vec<f32> = (0..head.len())
        .map(|c| {
            rows.iter()
                .map(|r| size(&r[c], &body, f32::INFINITY).x)
                .fold(size(&head[c], &bold, f32::INFINITY).x, f32::max)
        })
        .collect();
    let last = widths.len() - 1;
    let (gap, first_least, least) = if last > MANY { (0.5 * GAP, 90.0, 44.0) } else { (GAP, 120.0, 60.0) };
    let gaps = last as f32 * gap + 2.0 * PAD;
    // Too wide: the words at the left wrap first, then the widest columns.
    let too_much = widths.iter().sum::<f32>() + gaps - ui.available_width();
    if last > 1 && too_much > 0.0 {
        widths[0] = (widths[0] - too_much).max(first_least);
    }
    let room = (ui.available_width() - widths[0] - gaps).max(least * last as f32);
    while last > 1 && widths[1..].iter().sum::<f32>() > room {
        let widest = widths[1..].iter().copied().fold(0.0, f32::max);
        widths[1..].iter_mut().for_each(|w| *w = w.min(widest - 4.0));
    }
    let others: f32 = widths[..last].iter().map(|w| w + gap).sum();
    widths[last] = widths[last].min((ui.available_width() - others - 2.0 * PAD).max(least));
    let total = others + widths[last] + 2.0 * PAD;
    let numbers_right = head.len() > 2;
    let spacing = std::mem::replace(&mut ui.spacing_mut().item_spacing.y, 0.0);
    for (n, row) in std::iter::once(head).chain(rows).enumerate() {
        let font = if n == 0 { &bold } else { &body };
        let height = row.iter().zip(&widths).map(|(cell, w)| size(cell, font, *w + 1.0).y).fold(0.0, f32::max) + 6.0;
        let (rect, _) = ui.allocate_exact_size(vec2(total, height), Sense::hover());
        if n % 2 == 1 {
            ui.painter().rect_filled(rect, 2.0, ui.visuals().faint_bg_color);
        }
        let mut x = rect.left() + PAD;
        for (c, cell) in row.iter().enumerate() {
            let place = Rect::from_min_size(pos2(x, rect.top() + 3.0), vec2(widths[c] + 1.0, height - 6.0));
            x += widths[c] + gap;
            if cell.is_empty() {
                continue;
            }
            let mut text = RichText::new(cell).font(font.clone());
            if is_unknown(cell) {
                text = text.weak().italics();
            }
            let align = if numbers_right && c > 0 { Align::Max } else { Align::Min };
            let builder = UiBuilder::new().id_salt((id, n, c)).max_rect(place).layout(Layout::top_down(align));
            ui.new_child(builder).add(Label::new(text).wrap());
        }
    }
    ui.spacing_mut().item_spacing.y = spacing;
}
