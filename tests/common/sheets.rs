//! Sheets of jobs, and their parts.

use springwright::job::Job;
use springwright::report::Block;
use springwright::report::Report;
use springwright::report::sheets::{self, Kind, Printed, Words};
use springwright::report::write::text::{self, Markup};
use springwright::solve::answer::Answer;

use super::kept;

/// A job that ships, and its answer.
#[allow(dead_code, reason = "each test program uses its own part of this")]
#[track_caller]
pub fn preset(name: &str) -> (Job, Answer) {
    let kept = kept::named(name);
    (kept.job.clone(), kept.answer().clone())
}

/// A sheet printed on a day from a saved file.
pub fn sheet(kind: Kind, job: &Job, answer: &Answer) -> Report {
    let printed = Printed { date: Some("2026-04-02"), file: Some("my.ron"), saved: Some(true), on_pages: false };
    sheets::build_with(kind, job, answer, printed, sheets::words_of(job))
}

/// As plain text, each block in one line.
pub fn plain(report: &Report) -> String {
    let text = text::write(report, Markup::Plain);
    text.split_whitespace().filter(|w| *w != "!!").collect::<Vec<_>>().join(" ")
}

/// A customer's sheet as plain text.
#[allow(dead_code, reason = "each test program uses its own part of this")]
pub fn customer(job: &Job, answer: &Answer) -> String {
    plain(&sheet(Kind::Customer, job, answer))
}

/// The tables of a report: head and rows.
#[allow(dead_code, reason = "each test program uses its own part of this")]
pub fn tables(report: &Report) -> Vec<(&Vec<String>, &Vec<Vec<String>>)> {
    let table = |b: &'_ Block| matches!(b, Block::Table { .. });
    report
        .blocks
        .iter()
        .filter(|b| table(b))
        .filter_map(|b| match b {
            Block::Table { head, rows } => Some((head, rows)),
            _ => None,
        })
        .collect()
}

/// English.
#[allow(dead_code, reason = "each test program uses its own part of this")]
pub fn english(key: &str) -> String {
    Words::english().say(key, &[])
}

/// Everything that a report says, pictures included, in small letters.
pub fn everything(report: Report) -> String {
    let mut said = vec![report.title];
    for block in report.blocks {
        match block {
            Block::Heading(text) | Block::Text(text) | Block::Caution(text) => said.push(text),
            Block::List(texts) | Block::Steps(texts) | Block::Blanks(texts) => said.extend(texts),
            Block::Table { head, rows } => said.extend(head.into_iter().chain(rows.into_iter().flatten())),
            Block::Drawing(drawing) => said.push(drawing.words),
        }
    }
    said.join("\n").to_lowercase()
}
