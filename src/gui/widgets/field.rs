//! The one field widget: label, entry, unit, origin, finding and help, tied together.

use eframe::egui::{
    self, Align, Id, Key, Label, Layout, Response, RichText, Sense, TextEdit, TextStyle, Ui, WidgetText, text::CCursor,
    text::CCursorRange, vec2,
};

use crate::base::bounds;
use crate::base::language::tr;
use crate::base::units::entry::AnyEntry;
use crate::base::units::{Origin, Spread, display};
use crate::gui::state::Cx;
use crate::gui::state::command::Command;
use crate::gui::state::view::View;
use crate::gui::widgets::mends;
use crate::gui::widgets::signs;
use crate::gui::widgets::theme::{self, FIELD, TALL};
use crate::job::fields::{self, Field};
use crate::job::{Finding, Level, Walk, how_sure};
use crate::say;

/// Characters that a field holds: no number with its unit has more.
pub const MOST_IN_FIELD: usize = bounds::NUMBER_TEXT.count();
/// Characters that a name of one line holds.
pub const MOST_IN_NAME: usize = bounds::NAME.count();
/// Characters that any other text holds, such as the notes, or rows that are pasted.
pub const MOST_IN_TEXT: usize = bounds::NOTES.count();

/// How many characters a place for text takes.
#[derive(Debug, Clone, Copy)]
struct Limit(usize);

/// A place for text that takes at most this number of characters; a longer paste is refused by the window.
pub fn limited(ui: &mut Ui, edit: TextEdit<'_>, most: usize) -> Response {
    let response = ui.add(edit.char_limit(most));
    remember_limit(ui, response.id, most);
    response
}

fn remember_limit(ui: &Ui, id: Id, most: usize) {
    ui.data_mut(|d| d.insert_temp(id.with("limit"), Limit(most)));
}

/// This is a place for text, drawn by [`limited`].
pub(in crate::gui) fn is_text(ctx: &egui::Context, id: Id) -> bool {
    ctx.data(|d| d.get_temp::<Limit>(id.with("limit"))).is_some()
}

/// How many characters the place with the cursor takes.
pub(in crate::gui) fn limit_of_focused(ctx: &egui::Context) -> usize {
    let focused = ctx.memory(|m| m.focused());
    let limit = focused.and_then(|id| ctx.data(|d| d.get_temp::<Limit>(id.with("limit"))));
    limit.map_or(MOST_IN_TEXT, |limit| limit.0)
}

/// The id of the field with this path, the same on every screen.
pub fn id(path: &str) -> Id {
    Id::unique(("field", path))
}

impl Cx<'_> {
    /// A labelled row: name at the left, entry next to it, finding below.
    pub fn row(&mut self, ui: &mut Ui, path: &str) {
        let Some((field, place)) = fields::by_path(path) else { return };
        let label = match place.rows[1].or(place.rows[0].filter(|_| !path.starts_with("cases["))) {
            Some(n) => format!("{} {n}", field.label()),
            None => field.label().to_string(),
        };
        ui.horizontal(|ui| {
            let width = (ui.available_width() - 190.0).clamp(130.0, 250.0);
            ui.allocate_ui_with_layout(vec2(width, FIELD), Layout::left_to_right(Align::Center), |ui| {
                ui.set_min_size(vec2(width, FIELD));
                ui.add(Label::new(label).wrap()).on_hover_text(field.help());
            });
            self.entry(ui, path, field, vec2(128.0, FIELD));
            self.origin_button(ui, path);
            self.aside(ui, path, field);
        });
        self.below(ui, path);
    }

    /// Labelled rows one below the other.
    pub fn rows(&mut self, ui: &mut Ui, paths: impl IntoIterator<Item = impl AsRef<str>>) {
        for path in paths {
            self.row(ui, path.as_ref());
        }
    }

    /// A tall cell for the corner grid: the entry alone, its findings are shown elsewhere.
    pub fn cell(&mut self, ui: &mut Ui, path: &str, width: f32) -> Option<Response> {
        let (field, _) = fields::by_path(path)?;
        Some(self.entry(ui, path, field, vec2(width, TALL)))
    }

    /// The entry itself.
    pub fn entry(&mut self, ui: &mut Ui, path: &str, field: &Field, size: egui::Vec2) -> Response {
        let id = id(path);
        let buffer_id = id.with(self.view.epoch);
        let (mark, unit) = (self.job.decimal, self.job.units.unit(field.dim));
        let level = self.worst(path);
        let hint = self.hint(path, field);
        let Some(entry) = self.job.at_mut(path) else {
            return ui.allocate_response(size, Sense::hover());
        };
        let had_focus = ui.memory(|m| m.has_focus(id));
        let kept: Option<String> = ui.data(|d| d.get_temp(buffer_id));
        let mut text = kept.filter(|_| had_focus).unwrap_or_else(|| entry.text().to_owned());
        let color = level.filter(|l| *l >= Level::Error).map(|l| theme::level_color(l, self.dark));
        let edit = TextEdit::singleline(&mut text)
            .id(id)
            .char_limit(MOST_IN_FIELD)
            .hint_text(RichText::new(hint).italics())
            .text_color_opt(color)
            .align(egui::Align2::LEFT_CENTER)
            .margin(vec2(8.0, 4.0))
            .min_size(size)
            .desired_width(size.x - 16.0);
        let response = ui.add_sized(size, edit);
        remember_limit(ui, id, MOST_IN_FIELD);
        if response.changed() {
            entry.type_text(&text, unit, mark);
        }
        if response.has_focus() {
            ui.data_mut(|d| d.insert_temp(buffer_id, text.clone()));
        } else if had_focus {
            ui.data_mut(|d| d.remove::<String>(buffer_id));
        }
        if let Some(level) = level {
            let at = response.rect.left_top() + vec2(1.0, 1.0);
            theme::level_sign(ui.painter(), level, at, 5.0, self.dark);
        }
        let name = fields::full_label(path);
        let text_or_default = entry_value(entry, self.view, path);
        ui.ctx().accesskit_node_builder(id, |node| {
            node.set_label(name);
            if let Some(description) = text_or_default {
                node.set_description(description);
            }
        });
        self.after_entry(ui, path, field, &response, &text);
        response
    }

    fn after_entry(&mut self, ui: &Ui, path: &str, field: &Field, response: &Response, text: &str) {
        let id = response.id;
        self.view.order.push(id);
        if response.lost_focus() && ui.input(|i| i.key_pressed(Key::Enter)) {
            self.view.next_after = Some((id, path.to_owned(), ui.input(|i| i.modifiers.shift)));
        }
        if response.has_focus() {
            let arrived = self.view.cursor_in.replace(id) != Some(id);
            if arrived && !ui.input(|i| i.pointer.any_down() || i.pointer.any_released()) {
                select_all(ui, id, text);
            }
            if ui.input(|i| i.key_pressed(Key::F2)) {
                self.run(Command::Details(path.to_owned()));
            }
            self.view.help_now = self.help(path, field);
            if arrived {
                self.view.sections.work_here();
            }
        }
        if std::mem::take(&mut self.view.focus_first) {
            self.view.focus = Some(path.to_owned());
        }
        self.reach(path, response);
    }

    /// The widget of a field: what names the field goes to it, and with the keyboard in it the field is the one in view.
    pub fn reach(&mut self, path: &str, response: &Response) {
        if response.has_focus() {
            self.view.at = Some(path.to_owned());
            self.view.last_at.clone_from(&self.view.at);
        }
        if self.view.focus.as_deref() == Some(path) {
            self.view.focus = None;
            response.request_focus();
            if std::mem::take(&mut self.view.jumped) == 0 {
                response.scroll_to_me(Some(Align::Center));
            }
        }
    }

    /// What is in a blank field: its default, or the unit it takes.
    fn hint(&self, path: &str, field: &Field) -> String {
        match self.default_of(path) {
            Some((text, _)) => text,
            None => self.job.units.unit(field.dim).symbol.to_owned(),
        }
    }

    /// What a blank field counts as, and why.
    pub fn default_of(&self, path: &str) -> Option<(String, String)> {
        let (field, place) = fields::by_path(path)?;
        let (text, reason) = field.when_blank(self.job, place.scope.side())?;
        Some((field.in_units(text, &self.job.units).to_string(), reason.to_string()))
    }

    fn help(&self, path: &str, field: &Field) -> String {
        let mut help = vec![format!("{}. {}", fields::full_label(path), field.help())];
        help.extend(field.usual_phrase(&self.job.units).map(|usual| say!("Usual: {usual}.", usual)));
        let blank = self.default_of(path);
        help.extend(blank.map(|(default, reason)| say!("If blank, {default} is used ({reason}).", default, reason)));
        help.push(tr("F2: origin and ±.").to_owned());
        help.join(" ")
    }

    /// Next to the entry: a default's word, or the value in the unit shown when it was typed in another.
    fn aside(&mut self, ui: &mut Ui, path: &str, field: &Field) {
        let default = self.default_of(path);
        let (decimal, units) = (self.job.decimal, self.job.units);
        let Some(entry) = self.job.at_mut(path) else { return };
        if entry.text().trim().is_empty() {
            if let Some((_, reason)) = default {
                ui.label(RichText::new(tr("default")).italics().small().weak()).on_hover_text(reason);
            }
        } else if let Ok(Some(number)) = entry.number(decimal)
            && number.unit.symbol != units.unit(field.dim).symbol
            && number.unit.symbol != "%"
        {
            ui.label(
                RichText::new(format!("= {}", display::rounded_si(number.si(), field.dim, &units))).small().weak(),
            );
        }
    }

    fn worst(&self, path: &str) -> Option<Level> {
        self.about(path).map(|f| f.level).max()
    }

    fn about(&self, path: &str) -> impl Iterator<Item = &Finding> {
        self.shown.answer.findings.iter().filter(move |f| f.field == path)
    }

    /// The sign of the worst finding about a row or one of its cells, over the row's number.
    pub fn row_sign(&self, ui: &Ui, row: &str, cells: &[String]) {
        let worst = std::iter::once(row).chain(cells.iter().map(String::as_str)).filter_map(|path| self.worst(path));
        if let Some(level) = worst.max() {
            let at = ui.min_rect().left_center() + vec2(4.0, 0.0);
            theme::level_sign(ui.painter(), level, at, 5.0, self.dark);
        }
    }

    /// Under a field: what was found about it, and its origin if that is open.
    pub fn below(&mut self, ui: &mut Ui, path: &str) {
        let found: Vec<Finding> = self.about(path).cloned().collect();
        for finding in found {
            finding_line(ui, finding.level, &finding.text.to_string(), self.dark);
            mends::buttons(ui, self, &finding);
        }
        if self.view.details.as_deref() == Some(path) {
            self.details(ui, path);
        }
    }

    /// The small button that shows the origin and opens its details.
    fn origin_button(&mut self, ui: &mut Ui, path: &str) {
        let Some(entry) = self.job.at_mut(path) else { return };
        let origin = entry.origin();
        let blank = entry.text().trim().is_empty();
        let (rect, response) = ui.allocate_exact_size(vec2(18.0, FIELD), Sense::CLICK);
        if !blank {
            signs::origin(ui.painter(), origin, rect.center(), ui.visuals().weak_text_color());
        }
        let origin = origin.map_or(tr("origin not stated"), |origin| origin.word().said());
        let name = say!("Origin and ± of {field}", field = fields::full_label(path));
        response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Button, true, &name));
        if response.on_hover_text(say!("{origin}. For origin and ±, click or press F2 in the field.", origin)).clicked()
        {
            self.run(Command::Details(path.to_owned()));
        }
    }

    /// Origin, ± and earlier readings of one field.
    fn details(&mut self, ui: &mut Ui, path: &str) {
        let unstated = how_sure::words(self.job, path);
        let Some(entry) = self.job.at_mut(path) else { return };
        let mut origin = entry.origin();
        ui.indent(("details", path), |ui| {
            ui.horizontal_wrapped(|ui| {
                ui.label(tr("Origin:"));
                for one in Origin::ALL.map(Some).into_iter().chain([None]) {
                    let words = one.map_or(tr("not stated"), |o| o.word().said());
                    signs::beside(ui, |painter, at, color| signs::origin(painter, one, at, color));
                    ui.radio_value(&mut origin, one, words);
                    ui.add_space(theme::UNIT);
                }
            });
            entry.set_origin(origin);
            ui.horizontal_wrapped(|ui| {
                let (pm, mut spread) = entry.pm();
                let mut pm = pm.to_owned();
                let label = ui.label("± ");
                let hint = unstated.map_or(tr("with unit, or %").to_owned(), |pm| say!("{pm} if left blank", pm));
                let edit = TextEdit::singleline(&mut pm).hint_text(hint).desired_width(150.0);
                limited(ui, edit, MOST_IN_FIELD).labelled_by(label.id);
                ui.radio_value(&mut spread, Spread::Limits, tr("within these limits"));
                ui.radio_value(&mut spread, Spread::Standard, tr("standard uncertainty"));
                entry.set_pm(&pm, spread);
            });
            for earlier in entry.earlier() {
                ui.small(say!("earlier, {origin}: {text}", origin = earlier.origin.word(), text = earlier.text));
            }
        });
    }
}

fn entry_value(entry: &dyn AnyEntry, view: &View, path: &str) -> Option<String> {
    (view.details.as_deref() == Some(path))
        .then(|| entry.origin().map_or(tr("origin not stated"), |origin| origin.word().said()).to_owned())
}

fn select_all(ui: &Ui, id: Id, text: &str) {
    if let Some(mut state) = TextEdit::load_state(ui.ctx(), id) {
        let end = CCursor::new(text.chars().count());
        state.cursor.set_char_range(Some(CCursorRange::two(CCursor::new(0), end)));
        TextEdit::store_state(ui.ctx(), id, state);
    }
}

/// One finding: its sign and its words.
pub fn finding_line(ui: &mut Ui, level: Level, text: &str, dark: bool) -> Response {
    signed(ui, level, text, dark, Sense::hover())
}

/// One finding that leads to its field when it is clicked or, with the focus on it, Enter is pressed.
pub fn finding_link(ui: &mut Ui, level: Level, text: &str, dark: bool) -> Response {
    let link = signed(ui, level, text, dark, Sense::click());
    link.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Link, true, text));
    if link.has_focus() {
        let stroke = ui.visuals().selection.stroke;
        ui.painter().rect_stroke(link.rect.expand(2.0), 3.0, stroke, egui::StrokeKind::Outside);
    }
    link
}

fn signed(ui: &mut Ui, level: Level, text: &str, dark: bool, sense: Sense) -> Response {
    ui.horizontal_top(|ui| {
        let (rect, _) = ui.allocate_exact_size(vec2(16.0, 18.0), Sense::hover());
        theme::level_sign(ui.painter(), level, rect.center(), 5.5, dark);
        let words: WidgetText =
            RichText::new(text).text_style(TextStyle::Small).color(theme::level_color(level, dark)).into();
        ui.add(Label::new(words).wrap().sense(sense))
    })
    .inner
}
