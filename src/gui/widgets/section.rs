//! Where sections begin: a heading in the form, and an anchor among the pictures that follows the cursor.

use eframe::egui::{Align, CollapsingHeader, Key, RichText, TextStyle, Ui, Vec2};

use crate::gui::state::Cx;
use crate::gui::state::section::Section;
use crate::gui::state::view::PasteInto;
use crate::gui::widgets::scroll;
use crate::gui::widgets::theme::UNIT;

/// Number of frames a section has to unfold and show its first field.
const FRAMES: u8 = 3;

impl Cx<'_> {
    /// A section of the form begins, under its name.
    pub fn section(&mut self, ui: &mut Ui, section: Section) {
        if !self.view.sections.is_first() {
            ui.add_space(1.5 * UNIT);
        }
        self.goes_here(ui, section);
        ui.label(RichText::new(section.words()).text_style(TextStyle::Heading));
    }

    /// The same for what needs no name: it says itself what it is.
    pub fn goes_here(&mut self, ui: &mut Ui, section: Section) {
        if self.view.sections.begins(section, ui.cursor().top()) {
            ui.scroll_to_rect(scroll::here(ui), Some(Align::TOP));
            (self.view.cursor_to, self.view.jumped) = (Some(section), FRAMES);
        }
        if self.view.jumped > 0 {
            self.view.focus_first = self.view.cursor_to == Some(section);
            ui.ctx().request_repaint();
        }
    }

    /// A section that is folded until it is opened, when it is `used`, or when a field inside is gone to.
    pub fn folded_section(
        &mut self,
        ui: &mut Ui,
        section: Section,
        title: &str,
        paths: &[String],
        is_used: bool,
        body: impl FnOnce(&mut Ui, &mut Self),
    ) {
        let is_wanted = self.view.sections.is_wanted(section);
        ui.add_space(0.5 * UNIT);
        self.goes_here(ui, section);
        fold(ui, self, title, paths, is_used, is_wanted, body);
    }

    /// Pictures of these sections begin; true when they are those of the section that is worked in.
    pub fn pictures_begin(&mut self, ui: &mut Ui, sections: &[Section]) -> bool {
        let at = scroll::here(ui);
        let is_now = self.view.sections.pictures_begin(sections, at);
        if is_now && self.view.sections.follow > 0 {
            self.view.sections.follow -= 1;
            ui.scroll_to_rect(at, Some(Align::TOP));
            scroll::hold(ui.ctx());
            ui.ctx().request_repaint();
        }
        is_now
    }

    /// The form is drawn: the section at its upper edge counts, if the form was scrolled by hand.
    pub fn end_form(&mut self, ui: &Ui) {
        let by_hand = ui.input(|i| {
            i.smooth_scroll_delta() != Vec2::ZERO
                || i.pointer.any_down()
                || i.key_down(Key::PageUp)
                || i.key_down(Key::PageDown)
        });
        if self.view.sections.end_form([ui.clip_rect().top(), ui.cursor().top()], by_hand) {
            ui.ctx().request_repaint();
        }
        self.view.jumped = self.view.jumped.saturating_sub(1);
        if self.view.jumped == 0 && self.view.cursor_to.take().is_some() {
            self.view.focus_first = false;
        }
    }
}

/// What unfolds: open when asked for, when `start_open`, or when a field inside is being gone to.
pub fn more(
    ui: &mut Ui,
    cx: &mut Cx<'_>,
    title: &str,
    paths: &[String],
    start_open: bool,
    body: impl FnOnce(&mut Ui, &mut Cx<'_>),
) {
    fold(ui, cx, title, paths, start_open, false, body);
}

fn fold<'a>(
    ui: &mut Ui,
    cx: &mut Cx<'a>,
    title: &str,
    paths: &[String],
    start_open: bool,
    is_wanted: bool,
    body: impl FnOnce(&mut Ui, &mut Cx<'a>),
) {
    let is_inside = |path: &String| paths.iter().any(|p| path.starts_with(p.as_str()));
    let pasted_into = cx.view.paste.as_ref().and_then(|p| match &p.into {
        PasteInto::Rows(path) => Some(path),
        PasteInto::Weighing | PasteInto::Points(_) => None,
    });
    let wanted = is_wanted || cx.view.focus.as_ref().is_some_and(is_inside) || pasted_into.is_some_and(is_inside);
    CollapsingHeader::new(title)
        .id_salt((paths, cx.view.side().key()))
        .default_open(start_open)
        .open(wanted.then_some(true))
        .show(ui, |ui| body(ui, cx));
}
