//! Declares the records of the job: serde, defaults and a walk over every field.

use crate::units::Quantity;
use crate::units::entry::{AnyEntry, Entry};

/// Visits every [`Entry`] below, with its path as written in files: `front.spring.rate`.
pub trait Walk {
    /// Calls `visit` for each entry in file order.
    fn walk(&self, path: &mut String, visit: &mut dyn FnMut(&str, &dyn AnyEntry));
    /// Calls `visit` for each entry in file order, to change it.
    fn walk_mut(&mut self, path: &mut String, visit: &mut dyn FnMut(&str, &mut dyn AnyEntry));
}

impl<Q: Quantity> Walk for Entry<Q> {
    fn walk(&self, path: &mut String, visit: &mut dyn FnMut(&str, &dyn AnyEntry)) {
        visit(path, self);
    }

    fn walk_mut(&mut self, path: &mut String, visit: &mut dyn FnMut(&str, &mut dyn AnyEntry)) {
        visit(path, self);
    }
}

impl<T: Walk> Walk for Vec<T> {
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
}

/// Runs `inside` with `step` behind `path`, and takes it off again.
pub(super) fn within(path: &mut String, step: &str, inside: impl FnOnce(&mut String)) {
    let length = path.len();
    if length > 0 && !step.starts_with('[') {
        path.push('.');
    }
    path.push_str(step);
    inside(path);
    path.truncate(length);
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

        impl record::Walk for $name {
            fn walk(&self, path: &mut String, visit: &mut dyn FnMut(&str, &dyn crate::units::entry::AnyEntry)) {
                $(record::within(path, stringify!($field), |path| self.$field.walk(path, visit));)*
            }

            fn walk_mut(
                &mut self,
                path: &mut String,
                visit: &mut dyn FnMut(&str, &mut dyn crate::units::entry::AnyEntry),
            ) {
                $(record::within(path, stringify!($field), |path| self.$field.walk_mut(path, visit));)*
            }
        }
    )* };
}

/// Types without entries inside.
macro_rules! plain_values {
    ($($name:ty),*) => { $(
        impl record::Walk for $name {
            fn walk(&self, _: &mut String, _: &mut dyn FnMut(&str, &dyn crate::units::entry::AnyEntry)) {}
            fn walk_mut(&mut self, _: &mut String, _: &mut dyn FnMut(&str, &mut dyn crate::units::entry::AnyEntry)) {}
        }
    )* };
}

pub(super) use {plain_values, record};
