//! What is pasted: refused whole where it has no room, put into an area of its own where it is more
//! than one number, and from there into its fields.

use std::path::Path;

use eframe::egui;

use crate::base::units::Dim;
use crate::base::units::entry::AnyEntry as _;
use crate::gui::app::App;
use crate::gui::state::step::Step;
use crate::gui::state::view::{PasteInto, Pasting};
use crate::gui::widgets::field::{MOST_IN_TEXT, limit_of_focused};
use crate::gui::widgets::rows;
use crate::job::{Level, Side, Walk as _, Way, paste, point_key};
use crate::say;
use crate::shop::lists;

impl App {
    /// A text that no field can hold is not pasted, with a notice; cut off it would be another one.
    pub(super) fn refuse_endless_paste(&mut self, ctx: &egui::Context) {
        let most = limit_of_focused(ctx);
        let mut refused = None;
        ctx.input_mut(|i| {
            i.events.retain(|event| {
                let (egui::Event::Paste(text) | egui::Event::Text(text)) = event else { return true };
                // A block of readings or rows goes into an area of its own.
                let most = if paste::is_block(text) { MOST_IN_TEXT } else { most };
                let characters = text.trim().chars().count();
                let fits = characters <= most;
                refused = (!fits).then_some((characters, most)).or(refused);
                fits
            });
        });
        if let Some((characters, most)) = refused {
            let text = say!(
                "Nothing was pasted: the text has {characters} characters, and at most {most} fit here.",
                characters,
                most
            );
            self.say(Level::Error, text);
        }
    }

    /// A block pasted into a weight field is readings, into a row it is rows: not one number.
    pub(super) fn catch_pasted_block(&mut self, ctx: &egui::Context) {
        let job = &mut self.doc.now.job;
        // A paste area whose list is gone is drawn nowhere.
        self.view.paste.take_if(|p| matches!(&p.into, PasteInto::Rows(list) if job.rows_mut(list).is_none()));
        if self.view.paste.is_some() {
            return;
        }
        let at = self.view.at.as_deref();
        let into = match (at.and_then(rows::list_of), self.view.step) {
            (Some(list), _) => PasteInto::Rows(list.to_owned()),
            (None, Step::Weigh) => PasteInto::Weighing,
            (None, Step::Measure) if at.is_some_and(|path| path.contains(".linkage.")) => {
                PasteInto::Points(self.view.side())
            }
            (None, _) => return,
        };
        // One line is one text in a name, and readings elsewhere.
        let in_a_name = self.view.at.is_none() && ctx.memory(|m| m.focused()).is_some();
        let is_one = |text: &str| in_a_name && !text.trim().contains('\n');
        let is_block = |text: &str| paste::is_block(text) && !is_one(text);
        let pasted = ctx.input_mut(|i| {
            let at = i.events.iter().position(|e| matches!(e, egui::Event::Paste(text) if is_block(text)))?;
            match i.events.remove(at) {
                egui::Event::Paste(text) => Some(text),
                _ => None,
            }
        });
        if let Some(text) = pasted {
            self.view.paste = Some(Pasting::new(into, text));
        }
    }

    /// Puts pasted points into the linkage of an axle, every coordinate as it is in the text; one step of undo.
    pub(super) fn take_pasted_points(&mut self, side: Side) {
        let Some(Pasting { into: PasteInto::Points(into), text, .. }) = &self.view.paste else { return };
        let job = &self.doc.now.job;
        let read = paste::points(text, job.axle(side).suspension, &job.units, job.decimal);
        let Some(found) = read.ok().filter(|_| *into == side) else { return };
        self.doc.checkpoint();
        let job = &mut self.doc.now.job;
        let (unit, mark) = (job.units.unit(Dim::Length), job.decimal);
        for (point, texts) in found.points {
            for (way, text) in ["out", "up"].into_iter().zip(texts) {
                let path = format!("{}.linkage.{}.{way}", side.key(), point_key(point));
                if let Some(entry) = job.at_mut(&path).filter(|_| !text.is_empty()) {
                    entry.type_text(&text, unit, mark);
                }
            }
        }
        self.view.paste = None;
        self.view.epoch += 1;
    }

    /// Puts pasted readings into a weigh-in.
    pub(super) fn take_pasted(&mut self, before: bool) {
        let Some(pasting) = self.view.paste.as_ref().filter(|p| p.into == PasteInto::Weighing) else { return };
        let job = &mut self.doc.now.job;
        let unit = job.units.unit(Dim::Mass);
        let Ok(pasted) = paste::corners(&pasting.text, unit, job.decimal) else { return };
        self.doc.checkpoint();
        let job = &mut self.doc.now.job;
        let mark = job.decimal;
        let weighing = if before { &mut job.before } else { &mut job.after };
        let fields = weighing.corners_mut();
        for (field, text) in [
            (fields.lf, &pasted.corners.lf),
            (fields.rf, &pasted.corners.rf),
            (fields.lr, &pasted.corners.lr),
            (fields.rr, &pasted.corners.rr),
        ] {
            field.type_text(text, unit, mark);
        }
        self.view.paste = None;
        self.view.epoch += 1;
    }

    /// A file's text in the paste area: shown as read there, and taken only when asked.
    pub(super) fn curve_from(&mut self, path: &Path) {
        let Some(pasting) = &mut self.view.paste else { return };
        match lists::curve_text_of(path) {
            Ok(text) => *pasting = Pasting::new(pasting.into.clone(), text),
            Err(error) => self.say(Level::Error, error.to_string()),
        }
    }

    /// Puts pasted rows into their list, every cell as it is in the text.
    pub(super) fn take_pasted_rows(&mut self, add: bool) {
        let Some(Pasting { into: PasteInto::Rows(path), text, .. }) = &self.view.paste else { return };
        let (path, text) = (path.clone(), text.clone());
        let Some(table) = rows::at_path(&path) else { return };
        let (units, mark) = (table.units(&self.doc.now.job.units), self.doc.now.job.decimal);
        let Ok((names, pasted)) = table.read(&text, &units, mark) else { return };
        if add && !self.has_room(&path, pasted.rows.len()) {
            return;
        }
        self.doc.checkpoint();
        let job = &mut self.doc.now.job;
        let Some(start) = job.rows_mut(&path).map(|rows| {
            if !add {
                (0..rows.count()).rev().for_each(|i| rows.take(i));
            }
            let start = rows.count();
            pasted.rows.iter().for_each(|_| rows.add());
            start
        }) else {
            return;
        };
        for (i, row) in pasted.rows.iter().enumerate() {
            let place = format!("{path}[{}]", start + i);
            if let (Some(what), Some(name)) = (job.what_mut(&place), names.get(i)) {
                what.clone_from(name);
            }
            for ((column, _), (cell, unit)) in table.columns.iter().zip(row.iter().zip(&units)) {
                let mut cell = cell.as_str();
                // In the ledger a mass with a minus is a part that comes out.
                if let (true, Some(mass), Some(part)) =
                    (path == "parts" && *column == "mass", cell.strip_prefix('-'), job.parts.get_mut(start + i))
                {
                    (part.way, cell) = (Way::Out, mass);
                }
                if let Some(entry) = job.at_mut(&format!("{place}.{column}")) {
                    entry.type_text(cell, unit, mark);
                }
            }
        }
        self.view.paste = None;
        self.view.epoch += 1;
    }
}
