//! Bounds: the least and the most that is taken of anything that comes from outside, in one table.
//!
//! What is beyond a bound is refused, or a finding names it and it is not used; nothing is cut off without a word.
//! `springwright-cli fields` prints the table into the description of the file. Each number has its reason, and the
//! tests run the program at the bounds: no command takes a gigabyte or ten seconds there.

mod least_and_most;

pub use least_and_most::*;

/// The least and the most that is taken of something.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bound {
    /// What is bounded, in English.
    pub what: &'static str,
    /// The least; 0 where only the most matters. A value's size is meant, whatever its sign.
    pub least: f64,
    /// The most.
    pub most: f64,
    /// The unit of both; blank for a plain number.
    pub unit: &'static str,
    /// Why this number.
    pub why: &'static str,
}

/// No bound is NaN.
impl Eq for Bound {}

impl Bound {
    const fn up_to(what: &'static str, most: f64, unit: &'static str, why: &'static str) -> Self {
        Bound { what, least: 0.0, most, unit, why }
    }

    const fn between(what: &'static str, least: f64, most: f64, unit: &'static str, why: &'static str) -> Self {
        Bound { what, least, most, unit, why }
    }

    /// The most as a whole number: rows, characters, columns.
    pub const fn count(&self) -> usize {
        self.most as usize
    }

    /// The most as a whole number of bytes.
    pub const fn bytes(&self) -> u64 {
        self.most as u64
    }

    /// True for a value inside both ends; its sign does not count. False for NaN.
    pub fn holds(&self, value: f64) -> bool {
        (self.least..=self.most).contains(&value.abs())
    }
}

/// The most rows of a list, by its path without axle, weigh-in and row numbers: `ratio.rows`, `cases.loads`. `None` for
/// what is not a list.
pub fn rows(list: &str) -> Option<&'static Bound> {
    LISTS.iter().find(|(path, _)| *path == list).map(|(_, bound)| bound)
}

/// Every bound, in the order of the table.
pub fn all() -> impl Iterator<Item = &'static Bound> {
    TABLE.iter().copied().chain(LISTS.iter().map(|(_, bound)| bound)).chain(VALUES.iter().copied())
}

/// The table as Markdown, for the description of the file.
pub fn markdown() -> String {
    let mut out = String::from("| bound | least | most | why |\n|---|---|---|---|\n");
    for bound in all() {
        let with_unit = |value: f64| format!("{} {}", grouped(value), bound.unit).trim_end().to_owned();
        let least = if bound.least > 0.0 { with_unit(bound.least) } else { String::new() };
        out += &format!("| {} | {least} | {} | {} |\n", bound.what, with_unit(bound.most), bound.why);
    }
    out
}

/// A number with commas between thousands: `200,000`; below one as it is.
pub fn grouped(value: f64) -> String {
    if value.fract() != 0.0 || value.abs() >= 1e15 {
        return value.to_string();
    }
    let digits = format!("{value:.0}");
    let groups: Vec<&str> = digits.as_bytes().rchunks(3).rev().filter_map(|g| std::str::from_utf8(g).ok()).collect();
    groups.join(",")
}
