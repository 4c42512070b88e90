//! Where the cursor goes at Enter.

use eframe::egui::{self, FocusDirection, Id};

use crate::gui::app::App;
use crate::gui::state::command::Command;
use crate::gui::widgets::field::is_text;
use crate::gui::widgets::rows;
use crate::job::Walk as _;

impl App {
    /// Enter walks to the next field in drawing order, Shift+Enter back; behind the last cell of a list it begins the next
    /// row. It never drops the cursor: where nothing follows, it stays.
    pub(super) fn move_focus(&mut self, ctx: &egui::Context, earlier: Option<Id>) {
        let Some((from, path, back)) = self.view.next_after.take() else {
            return self.keep_focus(ctx, earlier);
        };
        if !back && let Some(list) = self.list_to_go_on(&path) {
            self.commands.push(Command::AddRow(list));
            return;
        }
        let order = &self.view.order;
        let here = order.iter().position(|id| *id == from);
        let next = here.and_then(|i| if back { i.checked_sub(1) } else { Some(i + 1) });
        let id = next.and_then(|i| order.get(i)).copied().unwrap_or(from);
        ctx.memory_mut(|m| m.request_focus(id));
        ctx.request_repaint();
    }

    /// The list whose last cell this is, if something was typed into its row.
    fn list_to_go_on(&mut self, cell: &str) -> Option<String> {
        let (row, column) = cell.rsplit_once('.')?;
        let list = rows::list_of(cell)?.to_owned();
        let table = rows::at_path(&list)?;
        let count = self.doc.now.job.rows_mut(&list)?.count();
        let is_last = row == format!("{list}[{}]", count.checked_sub(1)?) && table.columns.last()?.0 == column;
        let mut cells = table.columns.iter().map(|(c, _)| format!("{row}.{c}"));
        let is_used = cells.any(|c| self.doc.now.job.at_mut(&c).is_some_and(|e| !e.text().trim().is_empty()));
        (is_last && is_used).then_some(list)
    }

    /// A text of one line drops the cursor at Enter: it goes on to what Tab would go to.
    fn keep_focus(&mut self, ctx: &egui::Context, earlier: Option<Id>) {
        let Some(id) = earlier.filter(|id| is_text(ctx, *id)) else { return };
        let is_dropped = ctx.memory(|m| m.focused()).is_none() && ctx.input(|i| i.key_pressed(egui::Key::Enter));
        if is_dropped {
            let back = ctx.input(|i| i.modifiers.shift);
            self.view.walk = Some(if back { FocusDirection::Previous } else { FocusDirection::Next });
            ctx.memory_mut(|m| m.request_focus(id));
            ctx.request_repaint();
        }
    }

    /// Before anything is drawn: goes on from a text in which Enter was pressed.
    pub(super) fn walk(&mut self, ctx: &egui::Context) {
        if let Some(way) = self.view.walk.take() {
            ctx.memory_mut(|m| m.move_focus(way));
        }
    }
}
