//! Tables of the report, drawn in the window.

use std::sync::Arc;

use eframe::egui::text::LayoutJob;
use eframe::egui::{
    Align, FontId, Galley, Label, Layout, Rect, RichText, Sense, TextFormat, TextStyle, Ui, UiBuilder, pos2, vec2,
};

use crate::gui::widgets::theme;
use crate::job::Level;
use crate::report::{Block, decimal, is_unknown};

const GAP: f32 = 20.0;
const PAD: f32 = 4.0;

/// Draws blocks one below the other.
pub fn all<'a>(ui: &mut Ui, id: &str, blocks: impl IntoIterator<Item = &'a Block>) {
    for (i, block) in blocks.into_iter().enumerate() {
        any(ui, &format!("{id} {i}"), block);
    }
}

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
    fn of(ui: &Ui, cells: &[Vec<Arc<Galley>>]) -> Columns {
        let count = cells.first().map_or(0, Vec::len);
        let (mut widths, mut off) = (Vec::with_capacity(count), Vec::with_capacity(count));
        for c in 0..count {
            let column: Vec<&Galley> = cells.iter().map(|row| &*row[c]).collect();
            let texts: Vec<(&str, &str)> = cells[1..].iter().map(|row| (row[0].text(), row[c].text())).collect();
            let points = if c > 0 && count > 2 {
                decimal::off_the_edge(&texts, |row, end| end_width(column[row + 1], end))
            } else {
                vec![0.0; texts.len()]
            };
            let own = column[1..].iter().zip(&points).map(|(cell, off)| cell.size().x + off);
            widths.push(own.fold(column[0].size().x, f32::max));
            off.push(points);
        }
        let room = ui.available_width() - 2.0 * PAD;
        let gaps = (count - 1) as f32;
        let mut gap = if count > MANY + 1 { 0.5 * GAP } else { GAP };
        if widths.iter().sum::<f32>() + gaps * gap > room {
            let wanted = widths.clone();
            let least: Vec<f32> =
                (0..count).map(|c| cells.iter().map(|row| unbroken(ui, &row[c])).fold(0.0, f32::max)).collect();
            if least.iter().sum::<f32>() + gaps * GAP > room {
                gap = 0.5 * GAP;
            }
            squeeze(&mut widths, &least, room - gaps * gap);
            for (off, (width, wanted)) in off.iter_mut().zip(widths.iter().zip(&wanted)) {
                if width < wanted {
                    off.clear();
                }
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

/// A cell as wide as it asks to be; what is not known is pale.
fn laid_out(ui: &Ui, text: &str, font: &FontId) -> Arc<Galley> {
    let plain = TextFormat::simple(font.clone(), ui.visuals().text_color());
    let format = match is_unknown(text) {
        true => TextFormat { italics: true, color: ui.visuals().weak_text_color(), ..plain },
        false => plain,
    };
    ui.painter().layout_job(LayoutJob::single_section(text.to_owned(), format))
}

/// How wide the end of a cell is.
fn end_width(cell: &Galley, end: &str) -> f32 {
    let glyphs = cell.rows.first().map_or(&[][..], |row| &row.glyphs);
    let first = glyphs.len().checked_sub(end.chars().count()).and_then(|at| glyphs.get(at));
    first.map_or(0.0, |glyph| cell.size().x - glyph.pos.x)
}

/// How wide the longest word of a cell is; a number is one word with its ±.
fn unbroken(ui: &Ui, cell: &Galley) -> f32 {
    let whole = cell.text().replace(" ± ", "\u{a0}±\u{a0}");
    let width = |word: &str, format: &TextFormat| {
        ui.painter().layout_job(LayoutJob::single_section(word.to_owned(), format.clone())).size().x
    };
    let format = cell.job.sections.first().map(|section| &section.format);
    format.map_or(0.0, |format| whole.split([' ', '\n']).map(|word| width(word, format)).fold(0.0, f32::max))
}

/// Draws a table block: words left, numbers right with their points in one line; long words of a two-column table wrap.
pub fn table(ui: &mut Ui, id: &str, block: &Block) {
    let Block::Table { head, rows } = block else { return };
    let body = TextStyle::Body.resolve(ui.style());
    let bold = FontId::new(body.size, theme::bold());
    let fonts = std::iter::once(&bold).chain(std::iter::repeat(&body));
    let lay_out = |(row, font): (&Vec<String>, &FontId)| row.iter().map(|cell| laid_out(ui, cell, font)).collect();
    let cells: Vec<Vec<Arc<Galley>>> = std::iter::once(head).chain(rows).zip(fonts).map(lay_out).collect();
    let columns = Columns::of(ui, &cells);
    let numbers_right = head.len() > 2;
    let spacing = std::mem::replace(&mut ui.spacing_mut().item_spacing.y, 0.0);
    for (n, row) in cells.into_iter().enumerate() {
        let align = |c: usize| if numbers_right && c > 0 { Align::Max } else { Align::Min };
        let cells = row.into_iter().zip(&columns.widths).enumerate();
        let row: Vec<Arc<Galley>> = cells.map(|(c, (cell, width))| wrapped(ui, cell, *width, align(c))).collect();
        let height = row.iter().map(|cell| cell.size().y).fold(0.0, f32::max) + 6.0;
        let (rect, _) = ui.allocate_exact_size(vec2(columns.total(), height), Sense::hover());
        if n % 2 == 1 {
            ui.painter().rect_filled(rect, 2.0, ui.visuals().faint_bg_color);
        }
        let mut x = rect.left() + PAD;
        for (c, cell) in row.into_iter().enumerate() {
            let off = n.checked_sub(1).and_then(|row| columns.off[c].get(row)).copied().unwrap_or(0.0);
            let width = columns.widths[c];
            let place = Rect::from_min_size(pos2(x, rect.top() + 3.0), vec2(width + 1.0 - off, height - 6.0));
            x += width + columns.gap;
            if cell.text().is_empty() {
                continue;
            }
            let builder = UiBuilder::new().id_salt((id, n, c)).max_rect(place).layout(Layout::top_down(align(c)));
            ui.new_child(builder).add(Label::new(cell));
        }
    }
    ui.spacing_mut().item_spacing.y = spacing;
}

/// The cell in lines, where it is wider than its column.
fn wrapped(ui: &Ui, cell: Arc<Galley>, width: f32, align: Align) -> Arc<Galley> {
    if cell.size().x <= width + 1.0 {
        return cell;
    }
    let mut job = (*cell.job).clone();
    job.wrap.max_width = width + 1.0;
    job.halign = align;
    ui.painter().layout_job(job)
}
