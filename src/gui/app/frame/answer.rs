//! The answer, always in view: a line per axle of the same height, whatever it says.

use eframe::egui::text::{LayoutJob, TextFormat, TextWrapping};
use eframe::egui::{
    self, Color32, FontId, Id, Key, Label, Rect, Response, RichText, Role, Sense, Stroke, StrokeKind, TextStyle,
    Tooltip, Ui, WidgetInfo, pos2, vec2,
};

use crate::base::language::tr;
use crate::gui::state::Cx;
use crate::gui::state::command::Command;
use crate::gui::state::step::Step;
use crate::gui::widgets::signs;
use crate::gui::widgets::theme::{self, UNIT};
use crate::job::{Finding, Level, PerAxle, Side};
use crate::report::sections::brief::Brief;
use crate::say;

/// Height of a line.
const LINE: f32 = 25.0;
/// The same where a line has two rows: what is bought, and below it what the axle then does.
const TWO_ROWS: f32 = 38.0;
/// Below this width a line has two rows.
const TIGHT: f32 = 700.0;
/// A window as low as that has one row for a line all the same: three times the size on a small screen.
const LOW: f32 = 380.0;
/// Room for the mark of the worst finding, and how many there are.
const MARK: f32 = 40.0;
/// Width of what is shown when pointed at.
const WHOLE: f32 = 560.0;

/// Draws both lines. How high they are goes by the width alone, never by what they say.
pub fn show(ui: &mut Ui, cx: &mut Cx<'_>) {
    ui.spacing_mut().item_spacing.y = 2.0;
    let is_tight = ui.available_width() < TIGHT && ui.ctx().content_rect().height() > LOW;
    let high = if is_tight { TWO_ROWS } else { LINE };
    let (rect, _) = ui.allocate_exact_size(vec2(ui.available_width(), 2.0 * high + 2.0), Sense::hover());
    cx.view.laid_out.answer = Some(rect);
    let mut columns = Columns::of(ui, cx, is_tight);
    let line = |side: Side| {
        let top = rect.top() + if side == Side::Rear { high + 2.0 } else { 0.0 };
        let line = Rect::from_min_size(pos2(rect.left(), top), vec2(rect.width(), high));
        line.split_left_right_at_x(line.right() - MARK)
    };
    // Both lines count the same things.
    columns.is_short = Side::BOTH.into_iter().any(|side| {
        let brief = &cx.shown.briefs[side];
        place_of_certainty(ui, brief, &brief.certainty, line(side).0, &columns).is_none()
    });
    for side in Side::BOTH {
        let (words, mark) = line(side);
        one(ui, cx, side, words, &columns);
        worst_mark(ui, cx, side, mark);
    }
}

/// Where the parts of both lines begin, from the left.
struct Columns {
    /// The result for the axle is below what is bought.
    is_tight: bool,
    pick: f32,
    frequency: f32,
    height: f32,
    certainty: f32,
    /// How sure a line is has room in short only, on one of them.
    is_short: bool,
}

impl Columns {
    fn of(ui: &Ui, cx: &Cx<'_>, is_tight: bool) -> Columns {
        let briefs = &cx.shown.briefs;
        let widest = |texts: PerAxle<Option<&str>>, font: FontId| {
            texts.into_iter().flatten().map(|t| theme::text_width(ui, t, font.clone())).fold(0.0, f32::max)
        };
        let (bold, plain) = (answer_font(ui), TextStyle::Body.resolve(ui.style()));
        let gap = if is_tight { 1.5 * UNIT } else { 2.0 * UNIT };
        let pick = 8.0 + widest(PerAxle::each(|s| Some(s.word().said())), plain.clone()) + 1.5 * UNIT;
        let picks = widest(briefs.as_ref().map(|b| b.pick.as_deref().ok()), bold);
        let frequency = if is_tight { pick } else { pick + picks + gap };
        let of = |part: fn(&Brief) -> Option<&str>| widest(briefs.as_ref().map(part), plain.clone());
        let height = frequency + 18.0 + of(|b| b.frequency.as_deref()) + gap;
        let certainty = height + of(|b| b.height.as_deref()) + gap;
        Columns { is_tight, pick, frequency, height, certainty, is_short: false }
    }

    /// What is bought above, what the axle then does below; one row where there is room.
    fn rows(&self, line: Rect) -> [Rect; 2] {
        if !self.is_tight {
            return [line, line];
        }
        let (upper, lower) = line.split_top_bottom_at_y(line.top() + 0.55 * line.height());
        [upper, lower]
    }
}

fn answer_font(ui: &Ui) -> FontId {
    theme::answer_style().resolve(ui.style())
}

/// One line: pointed at, or with the focus on it, it says the whole sentence; pressed, it leads to step Springs.
fn one(ui: &mut Ui, cx: &mut Cx<'_>, side: Side, rect: Rect, columns: &Columns) {
    let response = ui.interact(rect, Id::unique(("answer", side.key())), Sense::click());
    let sentence = &cx.shown.sentences[side];
    response.widget_info(|| WidgetInfo::labeled(Role::Button, true, &sentence.answer));
    let is_cut = paint(ui, cx, side, rect, columns);
    cx.view.laid_out.is_answer_cut |= is_cut;
    if response.has_focus() {
        let stroke = ui.visuals().selection.stroke;
        ui.painter().rect_stroke(rect, 3.0, stroke, StrokeKind::Inside);
    }
    whole(ui, cx, side, &response);
    if response.clicked() {
        cx.run(Command::Axle(side));
        cx.run(Command::Step(Step::Springs));
    }
}

/// Paints a line; true when something in it had no room.
fn paint(ui: &Ui, cx: &mut Cx<'_>, side: Side, rect: Rect, columns: &Columns) -> bool {
    let brief = &cx.shown.briefs[side];
    let (ink, plain) = (ui.visuals().text_color(), TextStyle::Body.resolve(ui.style()));
    let [upper, lower] = columns.rows(rect);
    let end = rect.width() - 4.0;
    let text = |row: Rect, x: f32, words: &str, font: FontId, color: Color32| {
        on_one_row(ui, row, [x, end], words, font, color)
    };
    let beside = if brief.pick.is_ok() { upper } else { rect };
    let mut is_cut = text(beside, 8.0, side.word().said(), plain.clone(), ink);
    let pick = match &brief.pick {
        Ok(pick) => pick,
        Err(words) => return is_cut | instead(ui, cx, side, rect, columns, words),
    };
    is_cut |= text(upper, columns.pick, pick, answer_font(ui), ink);
    if let Some(frequency) = &brief.frequency {
        let at = pos2(rect.left() + columns.frequency + 6.0, lower.center().y);
        theme::mark(ui.painter(), brief.state, at, 5.0, cx.dark);
        is_cut |= text(lower, columns.frequency + 18.0, frequency, plain.clone(), ink);
    }
    if let Some(height) = &brief.height {
        is_cut |= text(lower, columns.height, height, plain, ink);
    }
    cx.view.laid_out.is_certainty_hidden |= certainty(ui, brief, rect, columns);
    is_cut
}

/// Paints how sure the answer is: behind the result or, where that has no room for it, behind the pick, in short if need
/// be. True when it has no room at all; it is then shown when the line is pointed at.
fn certainty(ui: &Ui, brief: &Brief, rect: Rect, columns: &Columns) -> bool {
    if brief.pick.is_err() {
        return false;
    }
    let words = if columns.is_short { &brief.short_certainty } else { &brief.certainty };
    let Some((row, start)) = place_of_certainty(ui, brief, words, rect, columns) else { return true };
    let (end, font) = (rect.width() - 4.0, TextStyle::Small.resolve(ui.style()));
    on_one_row(ui, row, [start, end], words, font, ui.visuals().weak_text_color())
}

/// The row with room for these words, and where they begin in it; `None` where none has.
fn place_of_certainty(ui: &Ui, brief: &Brief, words: &str, rect: Rect, columns: &Columns) -> Option<(Rect, f32)> {
    let [upper, lower] = columns.rows(rect);
    let pick = brief.pick.as_deref().unwrap_or_default();
    let behind_pick = columns.pick + theme::text_width(ui, pick, answer_font(ui)) + 1.5 * UNIT;
    let rows = [(lower, columns.certainty), (upper, behind_pick)];
    let width = theme::text_width(ui, words, TextStyle::Small.resolve(ui.style()));
    let rows = rows.into_iter().take(if columns.is_tight { 2 } else { 1 });
    rows.into_iter().find(|(_, start)| start + width <= rect.width() - 4.0)
}

/// Shown in place of the pick: as large as it has room for, on two rows where a line has them. True when it is cut.
fn instead(ui: &Ui, cx: &Cx<'_>, side: Side, rect: Rect, columns: &Columns, words: &str) -> bool {
    let answer = &cx.shown.answer;
    let level = answer.released(side).err().map(|reasons| reasons.first.level).filter(|_| !answer.is_coming);
    let color = level.map_or(ui.visuals().weak_text_color(), |level| theme::level_color(level, cx.dark));
    let (start, room) = (columns.pick, rect.width() - 4.0 - columns.pick);
    let sizes = [TextStyle::Body, TextStyle::Small].map(|style| style.resolve(ui.style()).size);
    let fonts = sizes.map(|size| FontId::new(size, theme::bold()));
    let fits = |font: &&FontId| theme::text_width(ui, words, (*font).clone()) <= room;
    let (font, rows) = match fonts.iter().find(fits) {
        Some(font) => (font, 1),
        None => (&fonts[1], if columns.is_tight { 2 } else { 1 }),
    };
    let wrap = TextWrapping { max_width: room.max(20.0), max_rows: rows, ..TextWrapping::default() };
    laid_out(ui, rect, start, words, font.clone(), color, wrap)
}

/// A text on one row; true when it is cut with an ellipsis for lack of room.
fn on_one_row(ui: &Ui, rect: Rect, [start, end]: [f32; 2], words: &str, font: FontId, color: Color32) -> bool {
    laid_out(ui, rect, start, words, font, color, TextWrapping::truncate_at_width((end - start).max(20.0)))
}

fn laid_out(ui: &Ui, rect: Rect, start: f32, words: &str, font: FontId, color: Color32, wrap: TextWrapping) -> bool {
    let mut job = LayoutJob::single_section(words.to_owned(), TextFormat::simple(font, color));
    job.wrap = wrap;
    let galley = ui.painter().layout_job(job);
    let at = pos2(rect.left() + start, rect.center().y - 0.5 * galley.size().y);
    let is_cut = galley.elided;
    ui.painter().galley(at, galley, color);
    is_cut
}

/// The whole sentence, what it rests on, and the worst finding: when pointed at, and for the keyboard.
fn whole(ui: &Ui, cx: &Cx<'_>, side: Side, response: &Response) {
    let sentence = &cx.shown.sentences[side];
    let by_keyboard = response.has_focus() && !ui.input(|i| i.key_down(Key::Escape));
    let tooltip = if by_keyboard {
        Tooltip::always_open(ui.ctx().clone(), ui.layer_id(), response.id, response)
    } else {
        Tooltip::for_enabled(response)
    };
    tooltip.width(WHOLE).show(|ui| {
        ui.add(Label::new(RichText::new(&sentence.answer).family(theme::bold())).wrap());
        if !sentence.certainty.is_empty() {
            ui.add(Label::new(RichText::new(&sentence.certainty).small()).wrap());
        }
        let brief = &cx.shown.briefs[side];
        if brief.pick.is_ok() {
            ui.horizontal(|ui| {
                signs::beside(ui, |painter, at, _| theme::mark(painter, brief.state, at, 5.0, cx.dark));
                ui.small(cx.shown.answer.short(side, brief.state).said());
            });
        }
        if let Some((finding, _)) = worst(cx, side) {
            crate::gui::widgets::field::finding_line(ui, finding.level, &finding.text.to_string(), cx.dark);
        }
        ui.label(RichText::new(tr("Click to open the Springs step.")).small().weak());
    });
}

/// The worst finding about an axle, and how many there are.
fn worst(cx: &Cx<'_>, side: Side) -> Option<(Finding, usize)> {
    let of_axle = |f: &&Finding| f.level > Level::Note && f.field.starts_with(side.key());
    let all: Vec<&Finding> = cx.shown.answer.findings.iter().filter(of_axle).collect();
    all.first().map(|f| ((*f).clone(), all.len()))
}

/// The sign of the worst finding about an axle with how many there are; it leads to its field.
fn worst_mark(ui: &mut Ui, cx: &mut Cx<'_>, side: Side, rect: Rect) {
    let Some((finding, count)) = worst(cx, side) else { return };
    let response = ui.interact(rect, Id::unique(("worst finding", side.key())), Sense::click());
    let name = match count {
        1 => say!("{side}: 1 finding. Go to its field.", side = side.word()),
        _ => say!("{side}: {count} findings. Go to the field of the most serious one.", side = side.word(), count),
    };
    response.widget_info(|| WidgetInfo::labeled(Role::Button, true, &name));
    let is_pointed_at = response.hovered() || response.has_focus();
    if is_pointed_at {
        ui.painter().rect_filled(rect.shrink(1.0), 4.0, ui.visuals().widgets.hovered.weak_bg_fill);
    }
    if response.has_focus() {
        ui.painter().rect_stroke(
            rect.shrink(1.0),
            4.0,
            Stroke::new(2.0, ui.visuals().selection.stroke.color),
            StrokeKind::Inside,
        );
    }
    theme::level_sign(ui.painter(), finding.level, pos2(rect.left() + 16.0, rect.center().y), 6.0, cx.dark);
    if count > 1 {
        let color = theme::level_color(finding.level, cx.dark);
        let at = pos2(rect.left() + 27.0, rect.center().y);
        ui.painter().text(
            at,
            egui::Align2::LEFT_CENTER,
            count.to_string(),
            TextStyle::Small.resolve(ui.style()),
            color,
        );
    }
    let response = response.on_hover_text(say!("{text}\nClick to go to the field.", text = finding.text));
    cx.when(response, Command::GoTo(finding.field));
}
