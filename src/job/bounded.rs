//! A job within its bounds: what is used of lists and texts that are longer than anything a vehicle has.
//!
//! A job keeps all that was typed or read; beyond a bound it counts for nothing, and a finding says so.

use std::borrow::Cow;

use super::fields::{self, Scope};
use super::tree::record::{Store, StoreMut};
use super::{Finding, Job, Level, Walk as _};
use crate::base::bounds::{self, Bound, NAME, NOTES};
use crate::base::language::Word;
use crate::base::message::Message;
use crate::base::units::Amount;
use crate::message;

/// The job as it is used: without rows beyond the bound of their list, texts that are too long left blank.
pub fn used(job: &Job) -> Cow<'_, Job> {
    if beyond(job).is_empty() {
        return Cow::Borrowed(job);
    }
    let mut used = job.clone();
    used.stores_mut(&mut String::new(), &mut |path, store| match store {
        StoreMut::Rows(rows) => rows.keep(most_rows(path)),
        StoreMut::Text(text) => {
            if is_too_long(text, text_bound(path)) {
                text.clear();
            }
        }
    });
    Cow::Owned(used)
}

/// One finding for each list or text that is beyond its bound.
pub fn findings(job: &Job) -> Vec<Finding> {
    let finding = |found: Beyond| {
        let (count, most) = (number(found.count), number(found.bound.count()));
        let (rule, text) = match found.list {
            Some(list) => (
                "too-many-rows",
                message!(
                    "{list}: {count}; at most {most} are used. The others stay in the file but are not used: keep those that matter and remove the rest.",
                    list,
                    count,
                    most
                ),
            ),
            None => (
                "too-long",
                message!(
                    "{path}: {count} characters; at most {most} are possible. The text stays in the file but is not used: shorten it.",
                    path = &found.path,
                    count,
                    most
                ),
            ),
        };
        Finding::new(Level::Error, rule, found.path, text)
    };
    beyond(job).into_iter().map(finding).collect()
}

/// How many more rows a list takes; `usize::MAX` for what is not a list.
pub fn room(path: &str, rows: usize) -> usize {
    most_rows(path).saturating_sub(rows)
}

/// The most rows of the list at a path.
pub fn most_rows(path: &str) -> usize {
    rows_bound(path).map_or(usize::MAX, Bound::count)
}

/// Why a list takes no more rows.
pub fn full(path: &str) -> Message {
    let most = number(most_rows(path));
    message!("{list}: at most {most} are allowed. Remove one before you add another.", list = list_words(path), most)
}

struct Beyond {
    path: String,
    /// The name of a list; `None` for a text.
    list: Option<Message>,
    count: usize,
    bound: &'static Bound,
}

fn beyond(job: &Job) -> Vec<Beyond> {
    let mut found = Vec::new();
    job.stores(&mut String::with_capacity(64), &mut |path, store| {
        let (list, count, bound) = match store {
            Store::Rows(count) => match rows_bound(path) {
                Some(bound) if count > bound.count() => (Some(list_words(path)), count, bound),
                bound => return bound.map_or(count, Bound::count),
            },
            Store::Text(text) if is_too_long(text, text_bound(path)) => (None, text.chars().count(), text_bound(path)),
            Store::Text(_) => return 0,
        };
        found.push(Beyond { path: path.to_owned(), list, count, bound });
        bound.count()
    });
    found
}

fn rows_bound(path: &str) -> Option<&'static Bound> {
    bounds::rows(&fields::key_of(path)?.0)
}

fn text_bound(path: &str) -> &'static Bound {
    // What an overrule rests on may be a whole table of rows.
    let is_long = path == "notes" || path.starts_with("overrules") && path.ends_with(".values");
    if is_long { &NOTES } else { &NAME }
}

fn is_too_long(text: &str, bound: &Bound) -> bool {
    text.len() > bound.count() && text.chars().count() > bound.count()
}

/// "Front: points of a damper's curve", "Load case 2: loads of a load case".
fn list_words(path: &str) -> Message {
    let Some((bound, place)) = fields::key_of(path).and_then(|(key, place)| Some((bounds::rows(&key)?, place))) else {
        return path.into();
    };
    let what = Message::from(Word(bound.what));
    let whose = match (place.scope, place.rows) {
        (Scope::Axle(side), _) => side.word().into(),
        (Scope::Weighing(true), _) => message!("Before"),
        (Scope::Weighing(false), _) => message!("After"),
        (Scope::Job, [Some(case), _]) => message!("Load case {case}", case),
        (Scope::Job, _) => return what.first_capital(),
    };
    Message::row([whose, what.inside()], ", ")
}

fn number(count: usize) -> Amount {
    Amount::places(count as f64, 0)
}
