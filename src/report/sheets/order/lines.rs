//! The lines of an order: what is known, and a blank with its fields for what is not.

use crate::base::language::inside;
use crate::base::units::{Entry, Quantity};
use crate::job::{Side, fields};
use crate::report::Block;
use crate::report::phrases;
use crate::report::sheets::page::{Page, one_line};

/// A line to write on, in a table.
const BLANK: &str = "________________________";
/// Texts of an axle's order that are typed in the step for dampers.
const OF_DAMPERS: [&str; 3] = ["upper_mount", "lower_mount", "damper_points"];

/// A blank: where its fields are, what it is called, and the fields that still lack, where the step alone does not name them.
struct Blank {
    place: String,
    what: String,
    fields: Vec<String>,
}

/// The blanks of a whole order.
#[derive(Default)]
pub(super) struct Blanks(Vec<Blank>);

impl Blanks {
    /// Which fields fill them, once per order: place by place, in the order of the blanks.
    pub fn blocks(self, page: &Page<'_>) -> Vec<Block> {
        let mut places: Vec<(String, Vec<String>)> = Vec::new();
        for blank in self.0 {
            let fields = blank.fields.join(&page.plain("order.open_and"));
            let said = match fields.is_empty() {
                true => blank.what,
                false => page.say("order.open_field", &[("what", &blank.what), ("field", &fields)]),
            };
            match places.iter_mut().find(|(place, _)| *place == blank.place) {
                Some((_, blanks)) => blanks.push(said),
                None => places.push((blank.place, vec![said])),
            }
        }
        let of_place = |(place, blanks): &(String, Vec<String>)| {
            page.say("order.open_place", &[("place", place), ("fields", &blanks.join("; "))])
        };
        Block::under(page.text("order.open_fields", &[]), places.iter().map(of_place).collect())
    }
}

/// Lines of one table, and which of them are still blank.
pub(super) struct Lines<'p, 'a> {
    page: &'p Page<'a>,
    /// The axle whose fields fill them; `None` for the whole order.
    side: Option<Side>,
    rows: Vec<Vec<String>>,
    blanks: &'p mut Blanks,
}

impl<'p, 'a> Lines<'p, 'a> {
    pub fn of(page: &'p Page<'a>, side: Option<Side>, blanks: &'p mut Blanks) -> Self {
        Lines { page, side, rows: Vec::new(), blanks }
    }

    /// A line, where there is something to say.
    pub fn push(&mut self, key: &str, text: Option<String>) {
        self.rows.extend(text.map(|t| vec![self.page.plain(key), t]));
    }

    /// A line that a supplier needs: with nothing to say a blank, which is filled by these fields of the axle; those
    /// that are typed are not named.
    pub fn ask(&mut self, key: &str, text: Option<String>, fields: &[&str]) {
        let what = self.page.plain(key);
        let text = text.filter(|t| !t.trim().is_empty()).unwrap_or_else(|| {
            self.fills(&what, fields);
            BLANK.to_owned()
        });
        self.rows.push(vec![what, text]);
    }

    /// The same of a field as it is typed, in these words.
    pub fn ask_typed<Q: Quantity>(&mut self, key: &str, field: &str, entry: &Entry<Q>, of: fn(&Page<'a>, Q) -> String) {
        let page = self.page;
        self.ask(key, page.typed(&self.path(field), entry).map(|q| of(page, q)), &[field]);
    }

    /// Names a blank above this table, too.
    pub fn asked_above(&mut self, key: &str, text: &str) {
        if text.trim().is_empty() {
            self.fills(&self.page.plain(key), &[]);
        }
    }

    fn path(&self, field: &str) -> String {
        self.side.map_or_else(|| field.to_owned(), |side| format!("{}.{field}", side.key()))
    }

    fn fills(&mut self, what: &str, fields: &[&str]) {
        let page = self.page;
        let paths: Vec<String> = fields.iter().map(|field| self.path(field)).collect();
        let is_missing = |path: &&String| page.job.text_at(path).is_none() || page.answer.refuses(path);
        let missing: Vec<&String> = paths.iter().filter(is_missing).collect();
        let named = if missing.is_empty() { paths.iter().collect() } else { missing };
        let place = self.place(named.first().copied());
        let labels = named.into_iter().filter_map(|path| Some(inside(fields::by_path(path)?.0.label().said())));
        // A blank that is called as its field names it.
        let fields = labels.filter(|label| label != what).collect();
        self.blanks.0.push(Blank { place, what: what.to_owned(), fields });
    }

    /// Where the field at a path is: its axle; the step for a text of the order, which has no label but the line's.
    fn place(&self, path: Option<&String>) -> String {
        let Some((side, path)) = self.side.zip(path) else { return self.page.plain("order.in_sheet") };
        let axle = self.page.axle_words(side);
        if fields::by_path(path).is_some() {
            return phrases::upper_first(&axle);
        }
        let is_of_dampers = path.rsplit('.').next().is_some_and(|field| OF_DAMPERS.contains(&field));
        self.page.say(if is_of_dampers { "order.in_dampers" } else { "order.in_springs" }, &[("axle", &axle)])
    }

    /// The same of a text of an axle's order.
    pub fn ask_text(&mut self, key: &str, text: &str, field: &str) {
        self.ask(key, Some(one_line(text)), &[&format!("order.{field}")]);
    }

    /// The same of a text of the whole job.
    pub fn ask_of_job(&mut self, key: &str, text: &str) {
        self.ask(key, Some(one_line(text)), &[]);
    }

    /// The table.
    pub fn table(self, head: String) -> Block {
        Block::Table { head: vec![head, String::new()], rows: self.rows }
    }
}
