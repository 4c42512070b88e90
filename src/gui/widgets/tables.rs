//! Tables of the report, drawn in the window.

use eframe::egui::{Align, FontId, Label, Layout, Rect, RichText, Sense, TextStyle, Ui, UiBuilder, Vec2, pos2, vec2};

use crate::gui::widgets::theme;
use crate::job::Level;
use crate::report::{Block, decimal, is_unknown};

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

/// How wide the columns of a table are, and how far their cells keep from the right edge.
struct Columns {
    widths: Vec<f32>,
    gap: f32,
    /// Of each column, a row's distance from the edge; nothing where the column is too narrow for it.
    off: Vec<Vec<f32>>,
}

impl Columns {
    fn of(ui: &Ui, head: &[String], rows: &[Vec<String>]) -> Columns {
        let [body, bold] = fonts(ui);
        let width = |text: &str, font: &FontId| size(ui, text, font, f32::INFINITY).x;
        let unbroken = |text: &str, font: &FontId| {
            let whole = text.replace(" ± ", "\u{a0}±\u{a0}");
            whole.split([' ', '\n']).map(|word| width(word, font)).fold(0.0, f32::max)
        };
        let (mut widths, mut least, mut off) = (Vec::new(), Vec::new(), Vec::new());
        for (c, head_cell) in head.iter().enumerate() {
            let cells: Vec<&str> = rows.iter().map(|row| row[c].as_str()).collect();
            let points = if c > 0 && head.len() > 2 {
                decimal::off_the_edge(&cells, |text| width(text, &body))
            } else {
                vec![0.0; rows.len()]
            };
            let own = cells.iter().zip(&points).map(|(cell, off)| width(cell, &body) + off);
            widths.push(own.fold(width(head_cell, &bold), f32::max));
            least.push(cells.iter().map(|cell| unbroken(cell, &body)).fold(unbroken(head_cell, &bold), f32::max));
            off.push(points);
        }
        let wanted = widths.clone();
        let room = ui.available_width() - 2.0 * PAD;
        let gaps = (head.len() - 1) as f32;
        let is_tight = least.iter().sum::<f32>() + gaps * GAP > room;
        let gap = if is_tight || head.len() > MANY + 1 { 0.5 * GAP } else { GAP };
        squeeze(&mut widths, &least, room - gaps * gap);
        for (off, (width, wanted)) in off.iter_mut().zip(widths.iter().zip(&wanted)) {
            if width < wanted {
                off.clear();
            }
        }
        Columns { widths, gap, off }
    }

    fn total(&self) -> f32 {
        self.widths.iter().sum::<f32>() + (self.widths.len() - 1) as f32 * self.gap + 2.0 * PAD
    }
}

/// Brings columns into the room there is: the words at the left wrap first, then the widest columns; a word is broken
/// only where the longest words of all columns together are too wide.
fn squeeze(widths: &mut [f32], least: &[f32], room: f32) {
    let last = widths.len() - 1;
    let (words, figures) = if last > MANY { (90.0, 44.0) } else { (120.0, 60.0) };
    // Beside words alone a value keeps a third of the room.
    let words = if last == 1 { 2.0 / 3.0 * room } else { words };
    let too_much = widths.iter().sum::<f32>() - room;
    if too_much > 0.0 {
        widths[0] = (widths[0] - too_much).max(least[0].max(words).min(widths[0]));
    }
    narrow(widths, room, |c| least[c]);
    narrow(widths, room, |_| figures);
}

/// Takes from the widest columns that are above their least until all fit.
fn narrow(widths: &mut [f32], room: f32, least: impl Fn(usize) -> f32) {
    while widths.iter().sum::<f32>() > room {
        let above =
            (1..widths.len()).filter(|&c| widths[c] > least(c)).max_by(|&a, &b| widths[a].total_cmp(&widths[b]));
        let Some(widest) = above else { return };
        widths[widest] = (widths[widest] - 4.0).max(least(widest));
    }
}

/// Of the cells and of the head.
fn fonts(ui: &Ui) -> [FontId; 2] {
    let body = TextStyle::Body.resolve(ui.style());
    let bold = FontId::new(body.size, theme::bold());
    [body, bold]
}

fn size(ui: &Ui, text: &str, font: &FontId, width: f32) -> Vec2 {
    ui.painter().layout(text.to_owned(), font.clone(), ui.visuals().text_color(), width).size()
}

/// Draws a table block: words left, numbers right with their points in one line; long words of a two-column table wrap.
pub fn table(ui: &mut Ui, id: &str, block: &Block) {
    let Block::Table { head, rows } = block else { return };
    let columns = Columns::of(ui, head, rows);
    let [body, bold] = fonts(ui);
    let numbers_right = head.len() > 2;
    let spacing = std::mem::replace(&mut ui.spacing_mut().item_spacing.y, 0.0);
    for (n, row) in std::iter::once(head).chain(rows).enumerate() {
        let font = if n == 0 { &bold } else { &body };
        let heights = row.iter().zip(&columns.widths).map(|(cell, w)| size(ui, cell, font, *w + 1.0).y);
        let height = heights.fold(0.0, f32::max) + 6.0;
        let (rect, _) = ui.allocate_exact_size(vec2(columns.total(), height), Sense::hover());
        if n % 2 == 1 {
            ui.painter().rect_filled(rect, 2.0, ui.visuals().faint_bg_color);
        }
        let mut x = rect.left() + PAD;
        for (c, cell) in row.iter().enumerate() {
            let off = n.checked_sub(1).and_then(|row| columns.off[c].get(row)).copied().unwrap_or(0.0);
            let width = columns.widths[c];
            let place = Rect::from_min_size(pos2(x, rect.top() + 3.0), vec2(width + 1.0 - off, height - 6.0));
            x += width + columns.gap;
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
