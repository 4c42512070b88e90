//! The words of a step: as large as the window allows, smaller when there are many.

use std::sync::Arc;

use eframe::egui::text::{LayoutJob, TextWrapping};
use eframe::egui::{
    Color32, FontFamily, FontId, Galley, Label, Painter, Rect, Sense, Stroke, StrokeKind, Ui, Vec2, pos2, vec2,
};

use super::{FROM_LEFT, Measure};
use crate::gui::widgets::{scroll, theme};
use crate::job::Level;
use crate::report::sheets::Stage;

/// Type at 1280×800, and the least at any size, points.
const TYPE: f32 = 27.0;
const LEAST: f32 = 9.0;
/// From one size that is tried to the next.
const SMALLER: f32 = 0.94;

/// This font, smaller if the words have no room on a line of this width.
fn fitting(ui: &Ui, words: &str, font: FontId, width: f32) -> FontId {
    let needed = theme::text_width(ui, words, font.clone());
    let by = if needed > width { (width / needed).max(0.2) } else { 1.0 };
    FontId::new((by * font.size).floor().max(LEAST.min(font.size)), font.family)
}

/// One line in the middle of its place, from the left.
pub(super) fn line(ui: &mut Ui, rect: Rect, words: &str, font: FontId, is_weak: bool) {
    let color = if is_weak { ui.visuals().weak_text_color() } else { ui.visuals().text_color() };
    let galley = one_line(ui, words, font, color, rect.width());
    if !words.is_empty() {
        put(ui, FROM_LEFT.align_size_within_rect(galley.size(), rect).min, galley);
    }
}

/// Words on one line: as large as this font, smaller where they need it, and cut at last.
fn one_line(ui: &Ui, words: &str, font: FontId, color: Color32, width: f32) -> Arc<Galley> {
    let font = fitting(ui, words, font, width);
    let mut line = LayoutJob::simple_singleline(words.to_owned(), font, color);
    line.wrap = TextWrapping::truncate_at_width(width);
    ui.painter().layout_job(line)
}

/// Words that may take several lines, in the middle of their place.
pub(super) fn small(ui: &mut Ui, rect: Rect, words: &str, font: FontId) {
    let color = ui.visuals().weak_text_color();
    let (galley, _) = wrapped(ui, words, font, color, rect.size());
    put(ui, FROM_LEFT.align_size_within_rect(galley.size(), rect).min, galley);
}

/// The same as a part of a picture, which says it itself.
pub(super) fn painted(ui: &Ui, painter: &Painter, rect: Rect, words: &str, font: FontId, color: Color32) {
    let (galley, _) = wrapped(ui, words, font, color, rect.size());
    painter.galley(FROM_LEFT.align_size_within_rect(galley.size(), rect).min, galley, color);
}

/// Words in lines, as large as this font or smaller until they have room; and how large that is.
pub(super) fn wrapped(ui: &Ui, words: &str, font: FontId, color: Color32, room: Vec2) -> (Arc<Galley>, f32) {
    let mut size = font.size;
    loop {
        let font = FontId::new(size, font.family.clone());
        let galley = ui.painter().layout(words.to_owned(), font, color, room.x);
        if size <= LEAST || (galley.size().y <= room.y && galley.size().x <= room.x) {
            return (galley, size);
        }
        size *= SMALLER;
    }
}

fn put(ui: &mut Ui, at: eframe::egui::Pos2, galley: Arc<Galley>) {
    let rect = Rect::from_min_size(at, galley.size());
    ui.put(rect, Label::new(galley).selectable(false));
}

/// All texts of a step.
pub(super) fn show(ui: &mut Ui, stage: &Stage, rect: Rect, measure: Measure, dark: bool) {
    let mut size = measure.of_window(TYPE);
    let mut laid = Laid::of(ui, stage, rect.width(), size, dark);
    while (laid.high > rect.height() || laid.splits_a_word()) && size > LEAST {
        size *= SMALLER;
        laid = Laid::of(ui, stage, rect.width(), size, dark);
    }
    if laid.high <= rect.height() {
        return laid.put(ui, rect, dark);
    }
    // So long a text is typed by somebody, or the window is tiny.
    let mut inside = ui.new_child(eframe::egui::UiBuilder::new().max_rect(rect));
    scroll::part(&mut inside, "customer", |ui| {
        let (rect, _) = ui.allocate_exact_size(vec2(rect.width(), laid.high), Sense::hover());
        laid.put(ui, rect, dark);
    });
}

/// Words laid out, below each other.
struct Laid {
    words: Vec<(Vec2, Arc<Galley>)>,
    /// Frames of what must not be overlooked: from, to, and what it is.
    framed: Vec<(f32, f32, Level)>,
    /// The size of the type.
    size: f32,
    /// Thin lines between rows.
    rules: Vec<f32>,
    high: f32,
    width: f32,
}

impl Laid {
    fn of(ui: &Ui, stage: &Stage, width: f32, size: f32, dark: bool) -> Laid {
        let mut laid = Laid { words: Vec::new(), framed: Vec::new(), size, rules: Vec::new(), high: 0.0, width };
        for (level, caution) in &stage.cautions {
            laid.caution(ui, *level, caution, size, dark);
        }
        laid.table(ui, stage, size);
        laid.prices(ui, &stage.prices, size);
        for text in &stage.says {
            let galley = ui.painter().layout(text.clone(), plain(size), ui.visuals().text_color(), width);
            laid.add(0.0, galley, 0.45 * size);
        }
        laid
    }

    /// Somewhere a line ends inside a word.
    fn splits_a_word(&self) -> bool {
        self.words.iter().any(|(_, galley)| splits_a_word(galley))
    }

    fn add(&mut self, left: f32, galley: Arc<Galley>, below: f32) {
        let high = galley.size().y;
        self.words.push((vec2(left, self.high), galley));
        self.high += high + below;
    }

    fn caution(&mut self, ui: &Ui, level: Level, text: &str, size: f32, dark: bool) {
        let pad = 0.6 * size;
        let left = pad + 2.2 * size;
        let color = theme::level_color(level, dark);
        let galley = ui.painter().layout(text.to_owned(), bold(1.05 * size), color, self.width - left - pad);
        let top = self.high;
        self.high += pad;
        self.add(left, galley, pad);
        self.framed.push((top, self.high, level));
        self.high += 0.6 * size;
    }

    fn table(&mut self, ui: &Ui, stage: &Stage, size: f32) {
        let columns = stage.head.len().max(1) as f32;
        let label = if stage.head.len() > 1 { 0.36 } else { 0.46 } * self.width;
        let each = (self.width - label) / columns;
        let (ink, weak) = (ui.visuals().text_color(), ui.visuals().weak_text_color());
        let row = |laid: &mut Laid, name: &str, cells: &[String], font: &FontId| {
            let gap = 0.5 * size;
            let mut all = vec![(0.0, ui.painter().layout(name.to_owned(), plain(size), weak, label - gap))];
            all.extend(cells.iter().enumerate().map(|(i, cell)| {
                let left = label + each * i as f32;
                (left, ui.painter().layout(cell.clone(), font.clone(), ink, each - gap))
            }));
            laid.row(all, 0.3 * size);
        };
        if !stage.head.is_empty() {
            row(self, "", &stage.head, &bold(size));
        }
        for (name, cells) in &stage.rows {
            row(self, name, cells, &bold(size));
        }
        self.high += if stage.rows.is_empty() { 0.0 } else { 0.5 * size };
    }

    fn prices(&mut self, ui: &Ui, prices: &[[String; 2]], size: f32) {
        let label = 0.6 * self.width;
        for [what, price] in prices {
            let (ink, weak) = (ui.visuals().text_color(), ui.visuals().weak_text_color());
            let what = ui.painter().layout(what.clone(), plain(size), weak, label - 0.5 * size);
            let price = ui.painter().layout(price.clone(), bold(1.15 * size), ink, self.width - label);
            self.row(vec![(0.0, what), (label, price)], 0.3 * size);
        }
        self.high += if prices.is_empty() { 0.0 } else { 0.5 * size };
    }

    /// Words next to each other, as high as the highest, and a thin line below.
    fn row(&mut self, all: Vec<(f32, Arc<Galley>)>, below: f32) {
        let high = all.iter().map(|(_, galley)| galley.size().y).fold(0.0, f32::max);
        let top = self.high;
        self.words.extend(all.into_iter().map(|(left, galley)| (vec2(left, top), galley)));
        self.high += high + below;
        self.rules.push(self.high - 0.5 * below);
    }

    fn put(self, ui: &mut Ui, rect: Rect, dark: bool) {
        let size = self.size;
        for (top, bottom, level) in self.framed {
            let color = theme::level_color(level, dark);
            let frame =
                Rect::from_min_max(pos2(rect.left(), rect.top() + top), pos2(rect.right(), rect.top() + bottom));
            ui.painter().rect_stroke(frame, 6.0, Stroke::new(0.12 * size, color), StrokeKind::Inside);
            let at = pos2(frame.left() + 1.5 * size, frame.center().y);
            theme::level_sign(ui.painter(), level, at, 0.7 * size, dark);
        }
        let stroke = ui.visuals().widgets.noninteractive.bg_stroke;
        for y in self.rules {
            ui.painter().hline(rect.x_range(), rect.top() + y, stroke);
        }
        for (at, galley) in self.words.into_iter().filter(|(_, galley)| !galley.is_empty()) {
            put(ui, rect.min + at, galley);
        }
    }
}

fn splits_a_word(galley: &Galley) -> bool {
    galley.rows.windows(2).any(|two| {
        let (end, start) = (two[0].glyphs.last(), two[1].glyphs.first());
        let inside =
            end.zip(start).is_some_and(|(end, start)| end.chr.is_alphanumeric() && start.chr.is_alphanumeric());
        inside && !two[0].ends_with_newline
    })
}

fn plain(size: f32) -> FontId {
    FontId::new(size, FontFamily::Proportional)
}

fn bold(size: f32) -> FontId {
    FontId::new(size, theme::bold())
}
