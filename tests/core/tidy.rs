//! How large the rooms are, and what stands on their doors. Exceptions are named here, each with its reason; one that is none
//! any more fails too.
#![allow(clippy::expect_used, reason = "a test says why it stops")]

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use crate::architecture::source_files;

const LINES: usize = 400;
/// Files of a folder.
const FILES: usize = 12;
/// How often a file's name may stand in `src`.
const SAME_NAME: usize = 2;

/// Longer than that: the file, and why.
const LONG: &[(&str, &str)] = &[
    ("gui/background/choosing/mod.rs", "what was chosen, and for which job"),
    ("job/fields/table.rs", "one row for each field"),
    ("report/results/axles/damper_results.rs", "one row for each result"),
    ("report/sections/choose.rs", "to be cut: what the list offers, in sentences and tables"),
    ("report/sheets/customer.rs", "to be cut: the customer's page"),
    ("report/sheets/page.rs", "to be cut: how numbers are said on a sheet"),
];
/// Fuller than that.
const FULL: &[(&str, &str)] = &[("report/sections", "one file for each part of the full sheet")];
/// Names that stand more often.
const NAMES: &[(&str, &str)] = &[];

fn sources() -> Vec<PathBuf> {
    let found = source_files(&Path::new(env!("CARGO_MANIFEST_DIR")).join("src"));
    assert!(found.len() > 200, "the sources were found");
    found
}

fn below_src(path: &Path) -> String {
    let src = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    path.strip_prefix(src).expect("below src").to_string_lossy().replace('\\', "/")
}

fn are_the_exceptions(mut found: Vec<String>, allowed: &[(&str, &str)], what: &str) {
    found.sort();
    let mut allowed: Vec<String> = allowed.iter().map(|(name, _)| (*name).to_owned()).collect();
    allowed.sort();
    assert_eq!(found, allowed, "{what}: left what there is, right what this test allows");
}

#[test]
fn files_are_short() {
    let long = |p: &PathBuf| std::fs::read_to_string(p).expect("source can be read").lines().count() > LINES;
    let found = sources().into_iter().filter(long).map(|p| below_src(&p)).collect();
    are_the_exceptions(found, LONG, "longer than 400 lines");
}

#[test]
fn folders_hold_few_files() {
    let mut count: BTreeMap<String, usize> = BTreeMap::new();
    for path in &sources() {
        *count.entry(below_src(path.parent().expect("a folder"))).or_default() += 1;
    }
    let found = count.into_iter().filter(|(_, n)| *n > FILES).map(|(folder, _)| folder).collect();
    are_the_exceptions(found, FULL, "more than 12 files");
}

#[test]
fn names_say_what_is_inside() {
    let mut count: BTreeMap<String, usize> = BTreeMap::new();
    for path in sources().iter().filter(|p| !p.ends_with("mod.rs")) {
        *count.entry(path.file_stem().expect("a name").to_string_lossy().into_owned()).or_default() += 1;
    }
    let found = count.into_iter().filter(|(_, n)| *n > SAME_NAME).map(|(name, _)| name).collect();
    are_the_exceptions(found, NAMES, "a name more than twice");
}
