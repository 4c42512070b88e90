//! Files as broken disks and cables make them: every bit flipped, cut anywhere, far too large, nested without end.
#![allow(clippy::expect_used, reason = "a test says why it stops")]

use std::time::{Duration, Instant};

use springwright::base::units::Quantity as _;
use springwright::job::file::{self, FileError};
use springwright::shop::jobs_folder;
use springwright::shop::lists::{self, ShopError};
use springwright::shop::parts::{self, List};

use crate::common::effort::{IS_WHOLE, some};

const JOB: &str = include_str!("../versions/1-whole-vehicle.ron");

/// Every third of its 50,000 bits flipped alone: read, or refused with the line and column inside the file.
#[test]
fn a_job_with_one_flipped_bit_is_read_or_refused_with_its_place() {
    let (mut read, mut placed, mut other) = (0, 0, 0);
    let lines: Vec<&str> = JOB.lines().collect();
    for bit in some((0..8 * JOB.len()).step_by(3)) {
        let mut bytes = JOB.as_bytes().to_vec();
        bytes[bit / 8] ^= 1 << (bit % 8);
        let Ok(text) = String::from_utf8(bytes) else {
            other += 1;
            continue;
        };
        jobs_folder::from_text(&text);
        match file::parse(&text) {
            Ok(_) => read += 1,
            Err(FileError::Syntax { line, column, what }) => {
                // A flipped bit can make one line end more.
                assert!((1..=lines.len() + 2).contains(&line) && column >= 1, "bit {bit}: {line}:{column} {what}");
                placed += 1;
            }
            Err(FileError::NotAJob | FileError::Version { .. }) => other += 1,
            Err(error) => panic!("bit {bit}: {error}"),
        }
    }
    println!(
        "{read} read (a letter in a text), {placed} refused with line and column, {other} no text or no job at all"
    );
    assert!((placed > 8_000 || !IS_WHOLE) && other < placed, "{read} {placed} {other}");
}

#[test]
fn a_file_that_goes_on_without_end_is_refused_at_once() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("van.ron");
    std::fs::File::create(&path).expect("a file").set_len(1 << 40).expect("a terabyte of nothing");
    let began = Instant::now();
    assert!(matches!(file::read(&path), Err(FileError::TooLarge { bytes }) if bytes == 1 << 40));
    assert!(matches!(lists::open_file(&path, "van.ron"), Err(ShopError::Read { .. })));
    assert!(jobs_folder::list(folder.path()).expect("lists")[0].wrong.as_ref().is_some_and(|w| w.contains("bytes")));
    assert!(began.elapsed() < Duration::from_secs(1));
    #[cfg(unix)]
    assert!(file::read(std::path::Path::new("/dev/zero")).is_err(), "no size, but no end");
}

fn read(bytes: &[u8]) -> Option<List> {
    let columns = parts::guess(bytes).ok()?;
    parts::read(bytes, &columns).ok()
}

fn looks_well(list: &List) -> bool {
    list.springs.iter().all(|s| s.rate.si().is_finite() && s.rate.si() > 0.0)
        && list.bad.iter().all(|row| row.line >= 1)
}

/// Head, some springs and some dampers of the shipped list.
fn short_list() -> Vec<u8> {
    let text = String::from_utf8(parts::demo().to_vec()).expect("text");
    let lines: Vec<&str> = text.lines().collect();
    [&lines[..4], &lines[lines.len() - 3..]].concat().join("\n").into_bytes()
}

#[test]
fn a_parts_list_cut_anywhere_loses_no_whole_row() {
    let whole = short_list();
    let rows = |bytes: &[u8]| bytes.iter().filter(|b| **b == b'\n').count();
    for end in 0..=whole.len() {
        let Some(list) = read(&whole[..end]) else {
            assert!(rows(&whole[..end]) == 0, "cut at {end} all of it was refused");
            continue;
        };
        assert!(looks_well(&list));
        // The head is no part; the last row may be cut off.
        let found = list.springs.len() + list.dampers.len() + list.bad.len();
        assert!(found + 1 >= rows(&whole[..end]), "cut at {end}: {found} rows");
    }
}

#[test]
fn a_parts_list_with_one_flipped_bit_never_panics() {
    let whole = short_list();
    let mut read_well = 0;
    for bit in some(0..8 * whole.len()) {
        let mut bytes = whole.clone();
        bytes[bit / 8] ^= 1 << (bit % 8);
        if let Some(list) = read(&bytes) {
            assert!(looks_well(&list), "bit {bit}");
            read_well += 1;
        }
    }
    assert!(read_well > 0);
}

/// Marks that open and never close, and one row or one cell of a hundred thousand letters: done in seconds.
#[test]
fn endless_rows_and_marks_do_not_hold_it_up() {
    for (what, text) in [
        ("marks", "\"".repeat(20_000)),
        ("marks and ends", "a,\"b\n".repeat(20_000)),
        ("columns", format!("Rate (N/mm){}\n", ",x".repeat(200_000))),
        ("most columns", format!("Rate (N/mm){}\n", ",x".repeat(999))),
        ("one cell", format!("Number,Rate (N/mm)\nA,{}\n", "9".repeat(200_000))),
        ("rows without an end", format!("Number,Rate (N/mm)\n{}", "A,50\r".repeat(20_000))),
        ("brackets", format!("Number,Rate (N/mm)\nA,{}\n", "(".repeat(100_000))),
    ] {
        let began = Instant::now();
        if let Some(list) = read(text.as_bytes()) {
            assert!(looks_well(&list), "{what}");
        }
        println!("{what}: {:.1?}", began.elapsed());
        assert!(began.elapsed() < Duration::from_secs(20), "{what}: {:?}", began.elapsed());
    }
    let said = parts::guess(format!("Rate (N/mm){}\n", ",x".repeat(200_000)).as_bytes()).expect_err("no list");
    assert!(said.to_string().starts_with("The first row has 200001 columns; a parts list has at most 1000."), "{said}");
}

/// What is broken above was whole.
#[test]
fn whole_files_are_read() {
    assert!(
        file::parse(JOB).is_ok() && read(&short_list()).is_some_and(|l| l.springs.len() == 3 && l.dampers.len() == 3)
    );
}
