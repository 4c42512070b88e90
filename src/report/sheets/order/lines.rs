//! The lines of an order: what is known, and a blank with its field for what is not.

use crate::job::{Side, fields};
use crate::report::Block;
use crate::report::sheets::page::{Page, one_line};

/// A line to write on, in a table.
const BLANK: &str = "________________________";

/// Lines of one table, and which of them are still blank.
pub(super) struct Lines<'p, 'a> {
    page: &'p Page<'a>,
    rows: Vec<Vec<String>>,
    open: Vec<String>,
}

impl<'p, 'a> Lines<'p, 'a> {
    pub fn of(page: &'p Page<'a>) -> Self {
        Lines { page, rows: Vec::new(), open: Vec::new() }
    }

    /// A line, where there is something to say.
    pub fn push(&mut self, key: &str, text: Option<String>) {
        self.rows.extend(text.map(|t| vec![self.page.plain(key), t]));
    }

    /// A line that a supplier needs: with nothing to say a blank, which is filled by the field of the job at this path.
    pub fn ask(&mut self, key: &str, text: Option<String>, path: &str) {
        let what = self.page.plain(key);
        let text = text.filter(|t| !t.trim().is_empty()).unwrap_or_else(|| {
            self.fills(&what, path);
            BLANK.to_owned()
        });
        self.rows.push(vec![what, text]);
    }

    /// A blank above this table is named below it, too.
    pub fn asked_above(&mut self, key: &str, text: &str, path: &str) {
        if text.trim().is_empty() {
            self.fills(&self.page.plain(key), path);
        }
    }

    fn fills(&mut self, what: &str, path: &str) {
        let field = self.named(path);
        self.open.push(self.page.say("order.open_field", &[("what", what), ("field", &field)]));
    }

    /// The field at a path as the window names it; texts of the order have no label but the line's: the step in which
    /// they stand.
    fn named(&self, path: &str) -> String {
        let side = Side::BOTH.into_iter().find(|side| path.split('.').next() == Some(side.key()));
        match (fields::by_path(path), side) {
            (Some(_), _) => fields::full_label(path),
            (None, Some(side)) => {
                let of_dampers = path.ends_with("_mount");
                let key = if of_dampers { "order.in_dampers" } else { "order.in_springs" };
                self.page.say(key, &[("axle", &self.page.axle_words(side))])
            }
            (None, None) => self.page.plain("order.in_sheet"),
        }
    }

    /// The same of a text of an axle's order.
    pub fn ask_text(&mut self, key: &str, text: &str, side: Side, field: &str) {
        self.ask(key, Some(one_line(text)), &format!("{}.order.{field}", side.key()));
    }

    /// The same of a text of the whole job.
    pub fn ask_of_job(&mut self, key: &str, text: &str, path: &str) {
        self.ask(key, Some(one_line(text)), path);
    }

    /// The table, and below it which fields fill its blanks.
    pub fn blocks(self, head: String) -> Vec<Block> {
        let table = Block::Table { head: vec![head, String::new()], rows: self.rows };
        let open =
            (!self.open.is_empty()).then(|| self.page.text("order.open_fields", &[("fields", &self.open.join("; "))]));
        std::iter::once(table).chain(open).collect()
    }
}
