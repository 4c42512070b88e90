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
const LONG: &[(&str, &str)] = &[("job/fields/table.rs", "one row for each field")];
/// Fuller than that.
const FULL: &[(&str, &str)] = &[];
/// Names that stand more often.
const NAMES: &[(&str, &str)] = &[];
/// Lines of a function, and of one that draws a screen.
const FUNCTION: usize = 60;
const SCREEN: usize = 100;
/// Where functions draw screens.
const SCREENS: [&str; 2] = ["gui/screens/", "gui/app/frame/"];
/// Longer than that.
const LONG_FUNCTIONS: &[(&str, &str)] =
    &[("cli.rs: run", "one arm for each command"), ("gui/app/actions.rs: run", "one arm for each command")];
/// So many exceptions there may be in all.
const EXCEPTIONS: usize = 5;

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

/// The functions of a source before its tests, each with its lines: a function ends at a brace as far in as it began.
fn functions(text: &str) -> Vec<(String, usize)> {
    let lines: Vec<&str> = text.split("#[cfg(test)]\nmod ").next().unwrap_or_default().lines().collect();
    let mut found = Vec::new();
    for (i, line) in lines.iter().enumerate() {
        let words = line.trim_start();
        let indent = &line[..line.len() - words.len()];
        let begins =
            ["fn ", "pub fn ", "pub(super) fn ", "const fn ", "pub const fn "].iter().any(|b| words.starts_with(b));
        let begins = begins || words.starts_with("pub(in ") && words.contains(") fn ");
        if !begins || line.trim_end().ends_with(';') || line.trim_end().ends_with('}') {
            continue;
        }
        let name = words.split("fn ").nth(1).and_then(|rest| rest.split(['(', '<']).next()).unwrap_or_default();
        let ends = |l: &str| l.strip_prefix(indent) == Some("}");
        let length = lines[i..].iter().position(|l| ends(l)).map_or(1, |n| n + 1);
        found.push((name.to_owned(), length));
    }
    found
}

#[test]
fn functions_are_short() {
    let (mut found, mut seen) = (Vec::new(), 0);
    for path in sources() {
        let file = below_src(&path);
        let most = if SCREENS.iter().any(|room| file.starts_with(room)) { SCREEN } else { FUNCTION };
        let all = functions(&std::fs::read_to_string(&path).expect("source can be read"));
        seen += all.len();
        found.extend(all.into_iter().filter(|(_, n)| *n > most).map(|(name, _)| format!("{file}: {name}")));
    }
    assert!(seen > 2000, "functions are seen at all: {seen}");
    are_the_exceptions(found, LONG_FUNCTIONS, "longer than a function may be");
}

#[test]
fn the_readme_is_read_in_minutes() {
    const README_LINES: usize = 130;
    let readme = std::fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join("README.md")).expect("is there");
    assert!(readme.lines().count() <= README_LINES, "{} lines, {README_LINES} at most", readme.lines().count());
}

/// What one system alone has is named below a `cfg`, so that nothing keeps the program from the others.
#[test]
fn what_one_system_alone_has_is_marked() {
    const NEAR: usize = 3;
    let (mut open, mut seen) = (Vec::new(), 0);
    for path in sources() {
        let text = std::fs::read_to_string(&path).expect("source can be read");
        let lines: Vec<&str> = text.lines().collect();
        for (n, line) in lines.iter().enumerate().filter(|(_, l)| l.contains("std::os::")) {
            seen += 1;
            if !lines[n.saturating_sub(NEAR)..=n].iter().any(|l| l.contains("cfg(")) {
                open.push(format!("{}:{}: {line}", below_src(&path), n + 1));
            }
        }
    }
    assert!(seen > 1 && open.is_empty(), "{seen} seen; without cfg: {open:#?}");
}

#[test]
fn exceptions_are_few() {
    let all = LONG.len() + FULL.len() + NAMES.len() + LONG_FUNCTIONS.len();
    assert!(all <= EXCEPTIONS, "{all} exceptions, {EXCEPTIONS} at most");
}

#[test]
fn the_counter_of_lines_counts() {
    let text = "fn one() {\n    two();\n}\n\nimpl A {\n    pub fn b(\n        c: u8,\n    ) {\n        if c > 0 {\n        }\n    }\n}\n";
    assert_eq!(functions(text), [("one".to_owned(), 3), ("b".to_owned(), 6)]);
}
