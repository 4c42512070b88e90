//! Files that are no jobs, and jobs that hold values which cannot be: every message, word for word.
//!
//! For each `bad/NAME.ron` the expected text stands in `bad/NAME.txt`: one line, the refusal, if the file cannot be
//! opened; else one line `field: text` for each finding that is an error, with what mends it below. Run with `UPDATE=1` to write these texts
//! anew, then read every changed line: it must name the field and the value, say what is allowed and what to do.
//! What is too large to keep here is made on the spot. Nothing may panic.
#![allow(clippy::expect_used, reason = "a test says why it stops")]

use crate::common::effort::some;
use crate::common::{folders, kept};

use std::io::Write as _;

use springwright::job::file::{self, FileError, MOST_BYTES};
use springwright::job::{Job, Level};
use springwright::solve::solve;

/// All of them.
const BAD: [&str; 64] = [
    "arm-impossible",
    "arm-upright",
    "as-before-without-before",
    "axle-lifts",
    "bag-leaves-nothing",
    "bar-bore",
    "choice-unknown",
    "coil-rows-incomplete",
    "coils-not-counted",
    "commas-unclear",
    "cut-off",
    "cut-too-many",
    "damper-curve-at-rest",
    "damper-curve-one-way",
    "damper-curve-twice",
    "damper-hot-loss",
    "damper-row-incomplete",
    "empty",
    "escape-unknown",
    "field-twice",
    "field-unknown",
    "half-load",
    "helper-lengths",
    "job-missing",
    "json",
    "leaf-rises",
    "leaf-sizes",
    "linkage-swapped",
    "linkage-unknown",
    "mass-negative",
    "more-behind",
    "nested-deep",
    "no-coil-works",
    "no-free-length",
    "no-height",
    "not-a-number",
    "not-finite",
    "not-ron",
    "number-without-quotes",
    "part-mass-negative",
    "parts-without-wheelbase",
    "points-fall",
    "press-contradicts",
    "range-reversed",
    "row-incomplete",
    "rows-unreadable",
    "solid-above-fitted",
    "spread-unreadable",
    "stop-falls",
    "stop-row-incomplete",
    "string-not-closed",
    "string-to-the-end",
    "tongue-without-hitch",
    "unit-choice-unknown",
    "unit-missing",
    "unit-unknown",
    "unit-wrong",
    "unsprung-above-reading",
    "version-missing",
    "version-no-number",
    "version-unknown",
    "version-zero",
    "wheelbase-zero",
    "wire-too-thick",
];

/// What the program says about the text of a file that is wrong somewhere.
fn said(text: &str) -> String {
    match file::parse(text) {
        Err(refusal) => format!("{refusal}\n"),
        Ok(job) => solve(&job)
            .findings
            .iter()
            .filter(|f| f.level == Level::Error)
            .map(|f| format!("{}: {}\n{}", f.field, f.text, folders::mends(f)))
            .collect(),
    }
}

#[test]
fn every_bad_file_is_answered_as_expected() {
    folders::holds_exactly("bad", BAD);
    let mut differences = Vec::new();
    for path in folders::job_files("bad") {
        let text = std::fs::read_to_string(&path).expect("a text file");
        let said = said(&text);
        assert!(!said.is_empty(), "{}: nothing was said about it", path.display());
        differences.extend(folders::differs(&path, &said));
    }
    assert!(differences.is_empty(), "{}", differences.join("\n"));
}

/// A finding names its field by a label and quotes what was typed.
#[test]
fn errors_quote_the_typed_text() {
    for bad in kept::in_folders(&["bad"]) {
        let name = &bad.name;
        for finding in bad.answer().findings.iter().filter(|f| f.level == Level::Error) {
            let text = finding.text.to_string();
            assert!(!finding.field.is_empty(), "{name}: {text}");
            assert!(text.contains(": "), "{name}: names no field: {text}");
            if matches!(finding.rule, "unreadable" | "impossible") {
                assert!(text.contains('"'), "{name}: quotes nothing: {text}");
            }
        }
    }
}

fn read_bytes(bytes: &[u8]) -> Result<Job, FileError> {
    let mut file = tempfile::Builder::new().suffix(".ron").tempfile().expect("a temporary file");
    file.write_all(bytes).expect("the disk takes it");
    file::read(file.path())
}

#[track_caller]
fn refused(bytes: &[u8]) -> FileError {
    read_bytes(bytes).expect_err("this is no job")
}

#[test]
fn ten_megabytes_are_refused_before_they_are_read() {
    for fill in [b'(', b'[', b'{', b' ', b'a', b'"', b'\n', b'\\'] {
        let error = refused(&vec![fill; 10_000_000]);
        assert!(matches!(error, FileError::TooLarge { bytes: 10_000_000 }), "{error}");
    }
    assert_eq!(
        refused(&vec![b'('; 10_000_000]).to_string(),
        "this file has 10000000 bytes; a job has at most 2000000. It is not a job: nothing was read"
    );
}

/// A file larger than memory: its size is looked at before anything is read. It takes no room on the disk.
#[test]
fn a_terabyte_is_refused_by_its_size() {
    let file = tempfile::NamedTempFile::new().expect("a temporary file");
    if file.as_file().set_len(1 << 40).is_err() {
        return; // This disk keeps no file with holes.
    }
    assert!(matches!(file::read(file.path()), Err(FileError::TooLarge { bytes: 0x100_0000_0000 })));
}

/// As much nesting as the size allows: plain, and hidden from a simple count of brackets behind things that hold a
/// quotation mark but are no string.
#[test]
fn nesting_is_refused_wherever_it_hides() {
    let room = usize::try_from(MOST_BYTES).expect("two million") - 100;
    for open in ["(", "[", "{", "Some(", "a:(", "(x:"] {
        for lead in [
            "",
            "/* \" */",
            "('\"',",
            "r#\" \" \"#",
            "(version: 1, job: (notes: r#\"\"\"#, front: ",
            "\"\\\\\"",
            "// \"\n",
        ] {
            let deep = format!("{lead}{}", open.repeat((room - lead.len()) / open.len()));
            let error = refused(deep.as_bytes());
            assert!(
                matches!(error, FileError::TooDeep { .. } | FileError::Syntax { .. } | FileError::NotAJob),
                "{lead:?} before {open:?}: {error}"
            );
        }
    }
}

#[test]
fn bytes_that_are_no_text_are_refused() {
    for bytes in [&b"(version: 1, job: (notes: \"\xff\xfe\"))"[..], &[0x00, 0xd8, 0x28, 0x00], &[0x80; 50]] {
        let error = refused(bytes);
        assert!(matches!(error, FileError::NotText), "{error}");
        assert_eq!(error.to_string(), "this file is not UTF-8 text, so it is not a job. Nothing was read");
    }
}

#[test]
fn a_file_that_is_not_there_says_so() {
    let folder = tempfile::tempdir().expect("a temporary folder");
    let error = file::read(&folder.path().join("none.ron")).expect_err("there is no such file");
    assert!(error.to_string().starts_with("the file could not be read: "), "{error}");
    assert!(matches!(file::read(folder.path()), Err(FileError::Read { .. })), "a folder is no file");
}

/// A good file cut at any byte is refused, never half read, and nothing panics.
#[test]
fn a_job_cut_off_anywhere_is_refused() {
    let whole = include_str!("../cases/c1.ron").trim_end();
    file::parse(whole).expect("the whole file is a job");
    for end in (0..whole.len()).filter(|&i| whole.is_char_boundary(i)) {
        assert!(file::parse(&whole[..end]).is_err(), "cut at byte {end} it was taken for a job");
    }
}

/// Any one byte of a good file replaced: refused or read, never a panic; what is read can be solved.
#[test]
fn a_job_with_one_wrong_character_never_panics() {
    let whole = include_str!("../cases/c1.ron").trim_end();
    for (at, c) in some(whole.char_indices()) {
        for other in ["(", ")", "\"", "\\", "-", "9", "e", "\u{0}", "é"] {
            let text = format!("{}{other}{}", &whole[..at], &whole[at + c.len_utf8()..]);
            if let Ok(job) = file::parse(&text) {
                solve(&job);
            }
        }
    }
}
