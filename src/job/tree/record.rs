//! Declares the records of the job: serde, defaults, a walk over every field, and the same records as they are read.

use crate::base::units::Quantity;
use crate::base::units::entry::{AnyEntry, Entry};

/// Visits every [`Entry`] below, with its path as written in files: `front.spring.rate`. A type without entries, lists
/// or texts inside leaves out the methods for them.
pub trait Walk {
    /// Calls `visit` for each entry in file order.
    fn walk(&self, _path: &mut String, _visit: &mut dyn FnMut(&str, &dyn AnyEntry)) {}
    /// Calls `visit` for each entry in file order, to change it.
    fn walk_mut(&mut self, _path: &mut String, _visit: &mut dyn FnMut(&str, &mut dyn AnyEntry)) {}
    /// The entry at a path, to change it.
    fn at_mut(&mut self, _path: &str) -> Option<&mut dyn AnyEntry> {
        None
    }
    /// The list of rows at a path, to change it.
    fn rows_mut(&mut self, _path: &str) -> Option<&mut dyn RowList> {
        None
    }
    /// Sets the field, choice or name at a path to a text as files write it (a name without quotes). False, and nothing
    /// is changed, when there is none or a choice has no such value.
    fn set_text(&mut self, path: &str, text: &str) -> bool;
    /// Calls `visit` for each list and each text that is not a number, in file order. It returns how many rows of a
    /// list are to be looked into.
    fn stores(&self, _path: &mut String, _visit: &mut dyn FnMut(&str, Store<'_>) -> usize) {}
    /// As [`Walk::stores`], to change them.
    fn stores_mut(&mut self, _path: &mut String, _visit: &mut dyn FnMut(&str, StoreMut<'_>)) {}
}

/// What can grow without end in a job.
#[derive(Debug, Clone, Copy)]
pub enum Store<'a> {
    /// A list of this number of rows.
    Rows(usize),
    /// A name, a line, notes.
    Text(&'a str),
}

/// The same, to change it.
pub enum StoreMut<'a> {
    /// A list.
    Rows(&'a mut dyn RowList),
    /// A text.
    Text(&'a mut String),
}

/// A list of rows of fields, whatever their kind.
pub trait RowList {
    /// How many rows.
    fn count(&self) -> usize;
    /// Adds a blank row at the end.
    fn add(&mut self);
    /// Takes a row away.
    fn take(&mut self, row: usize);
    /// Keeps the first `count` rows.
    fn keep(&mut self, count: usize);
}

impl<T: Default> RowList for Vec<T> {
    fn count(&self) -> usize {
        self.len()
    }

    fn add(&mut self) {
        self.push(T::default());
    }

    fn take(&mut self, row: usize) {
        if row < self.len() {
            self.remove(row);
        }
    }

    fn keep(&mut self, count: usize) {
        self.truncate(count);
    }
}

impl<Q: Quantity> Walk for Entry<Q> {
    fn walk(&self, path: &mut String, visit: &mut dyn FnMut(&str, &dyn AnyEntry)) {
        visit(path, self);
    }

    fn walk_mut(&mut self, path: &mut String, visit: &mut dyn FnMut(&str, &mut dyn AnyEntry)) {
        visit(path, self);
    }

    fn at_mut(&mut self, path: &str) -> Option<&mut dyn AnyEntry> {
        path.is_empty().then_some(self as &mut dyn AnyEntry)
    }

    fn set_text(&mut self, path: &str, text: &str) -> bool {
        if path.is_empty() {
            text.clone_into(&mut self.text);
        }
        path.is_empty()
    }
}

impl Walk for String {
    fn set_text(&mut self, path: &str, text: &str) -> bool {
        if path.is_empty() {
            text.clone_into(self);
        }
        path.is_empty()
    }

    fn stores(&self, path: &mut String, visit: &mut dyn FnMut(&str, Store<'_>) -> usize) {
        visit(path, Store::Text(self));
    }

    fn stores_mut(&mut self, path: &mut String, visit: &mut dyn FnMut(&str, StoreMut<'_>)) {
        visit(path, StoreMut::Text(self));
    }
}

impl<T: Walk + Default> Walk for Vec<T> {
    fn walk(&self, path: &mut String, visit: &mut dyn FnMut(&str, &dyn AnyEntry)) {
        for (i, item) in self.iter().enumerate() {
            within(path, &format!("[{i}]"), |path| item.walk(path, visit));
        }
    }

    fn walk_mut(&mut self, path: &mut String, visit: &mut dyn FnMut(&str, &mut dyn AnyEntry)) {
        for (i, item) in self.iter_mut().enumerate() {
            within(path, &format!("[{i}]"), |path| item.walk_mut(path, visit));
        }
    }

    fn at_mut(&mut self, path: &str) -> Option<&mut dyn AnyEntry> {
        let (number, rest) = path.strip_prefix('[')?.split_once(']')?;
        self.get_mut(number.parse::<usize>().ok()?)?.at_mut(rest.strip_prefix('.').unwrap_or(rest))
    }

    fn rows_mut(&mut self, path: &str) -> Option<&mut dyn RowList> {
        if path.is_empty() {
            return Some(self as &mut dyn RowList);
        }
        let (number, rest) = path.strip_prefix('[')?.split_once(']')?;
        self.get_mut(number.parse::<usize>().ok()?)?.rows_mut(rest.strip_prefix('.')?)
    }

    fn set_text(&mut self, path: &str, text: &str) -> bool {
        let Some((number, rest)) = path.strip_prefix('[').and_then(|p| p.split_once("].")) else { return false };
        let row = number.parse::<usize>().ok().and_then(|i| self.get_mut(i));
        row.is_some_and(|row| row.set_text(rest, text))
    }

    fn stores(&self, path: &mut String, visit: &mut dyn FnMut(&str, Store<'_>) -> usize) {
        let looked_into = visit(path, Store::Rows(self.len()));
        for (i, item) in self.iter().enumerate().take(looked_into) {
            within(path, &format!("[{i}]"), |path| item.stores(path, visit));
        }
    }

    fn stores_mut(&mut self, path: &mut String, visit: &mut dyn FnMut(&str, StoreMut<'_>)) {
        visit(path, StoreMut::Rows(self));
        for (i, item) in self.iter_mut().enumerate() {
            within(path, &format!("[{i}]"), |path| item.stores_mut(path, visit));
        }
    }
}

/// Splits `front.spring.rate` into `front` and `spring.rate`, `rows[2].wheel` into `rows` and `[2].wheel`.
pub(super) fn first_step(path: &str) -> (&str, &str) {
    match path.find(['.', '[']) {
        Some(i) if path[i..].starts_with('.') => (&path[..i], &path[i + 1..]),
        Some(i) => path.split_at(i),
        None => (path, ""),
    }
}

/// Runs `inside` with `step` behind `path`, and takes it off again.
pub(super) fn within<T>(path: &mut String, step: &str, inside: impl FnOnce(&mut String) -> T) -> T {
    let length = path.len();
    if length > 0 && !step.starts_with('[') {
        path.push('.');
    }
    path.push_str(step);
    let found = inside(path);
    path.truncate(length);
    found
}

/// True for a value that need not be written to a file.
pub(super) fn is_default<T: Default + PartialEq>(value: &T) -> bool {
    *value == T::default()
}

macro_rules! record {
    ($($(#[$doc:meta])* pub struct $name:ident { $($(#[$field_doc:meta])* pub $field:ident: $kind:ty,)* })*) => { $(
        $(#[$doc])*
        #[derive(Debug, Clone, PartialEq, Default, serde::Serialize, serde::Deserialize)]
        #[serde(default, deny_unknown_fields)]
        pub struct $name {
            $($(#[$field_doc])* #[serde(skip_serializing_if = "record::is_default")] pub $field: $kind,)*
        }

        impl crate::job::read::Shape for $name {
            type Read = twin::$name;
        }

        impl crate::job::read::Readable for $name {
            fn read(&self, path: &mut String, number_of: &mut crate::job::read::NumberOf<'_>) -> twin::$name {
                twin::$name {
                    $($field: record::within(path, stringify!($field), |path| {
                        crate::job::read::Readable::read(&self.$field, path, number_of)
                    }),)*
                }
            }
        }

        impl record::Walk for $name {
            fn walk(&self, path: &mut String, visit: &mut dyn FnMut(&str, &dyn crate::base::units::entry::AnyEntry)) {
                $(record::within(path, stringify!($field), |path| self.$field.walk(path, visit));)*
            }

            fn walk_mut(
                &mut self,
                path: &mut String,
                visit: &mut dyn FnMut(&str, &mut dyn crate::base::units::entry::AnyEntry),
            ) {
                $(record::within(path, stringify!($field), |path| self.$field.walk_mut(path, visit));)*
            }

            fn at_mut(&mut self, path: &str) -> Option<&mut dyn crate::base::units::entry::AnyEntry> {
                let (field, rest) = record::first_step(path);
                match field {
                    $(stringify!($field) => self.$field.at_mut(rest),)*
                    _ => None,
                }
            }

            fn rows_mut(&mut self, path: &str) -> Option<&mut dyn record::RowList> {
                let (field, rest) = record::first_step(path);
                match field {
                    $(stringify!($field) => self.$field.rows_mut(rest),)*
                    _ => None,
                }
            }

            fn set_text(&mut self, path: &str, text: &str) -> bool {
                let (field, rest) = record::first_step(path);
                match field {
                    $(stringify!($field) => self.$field.set_text(rest, text),)*
                    _ => false,
                }
            }

            fn stores(&self, path: &mut String, visit: &mut dyn FnMut(&str, record::Store<'_>) -> usize) {
                $(record::within(path, stringify!($field), |path| self.$field.stores(path, visit));)*
            }

            fn stores_mut(&mut self, path: &mut String, visit: &mut dyn FnMut(&str, record::StoreMut<'_>)) {
                $(record::within(path, stringify!($field), |path| self.$field.stores_mut(path, visit));)*
            }
        }
    )*

        /// The same records as they were read.
        pub mod twin {
            #[allow(unused_imports, reason = "a record needs only some of them")]
            use super::*;
            use crate::job::read::Shape;

            $(
                $(#[$doc])*
                pub struct $name {
                    $($(#[$field_doc])* pub $field: <$kind as Shape>::Read,)*
                }

                impl Shape for $name {
                    type Read = $name;
                }
            )*
        }
    };
}

/// Types without entries inside.
macro_rules! plain_values {
    ($($name:ty),*) => { $(
        impl crate::job::read::Shape for $name {
            type Read = $name;
        }

        impl crate::job::read::Readable for $name {
            fn read(&self, _: &mut String, _: &mut crate::job::read::NumberOf<'_>) -> $name {
                self.clone()
            }
        }

        impl record::Walk for $name {
            fn set_text(&mut self, path: &str, text: &str) -> bool {
                let value = ron::from_str(text).ok().filter(|_| path.is_empty());
                let is_one = value.is_some();
                if let Some(value) = value {
                    *self = value;
                }
                is_one
            }
        }
    )* };
}

pub(super) use {plain_values, record};
