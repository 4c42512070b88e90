//! Writes a report as plain text or Markdown.

use std::fmt::Write as _;

use crate::base::language::turns_letters;
use crate::report::Block;
use crate::report::Report;
use crate::report::decimal;
use crate::say;

/// How the text is marked up.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Markup {
    /// For a terminal or a plain file.
    Plain,
    /// For a Markdown reader.
    Markdown,
}

/// The report as text.
pub fn write(report: &Report, markup: Markup) -> String {
    let mut out = String::new();
    match markup {
        Markup::Plain => {
            let _ = writeln!(out, "{}\n{}", report.title, "=".repeat(report.title.chars().count()));
        }
        Markup::Markdown => {
            let _ = writeln!(out, "# {}", escaped(&report.title));
        }
    }
    for block in &report.blocks {
        out.push('\n');
        match markup {
            Markup::Plain => plain(&mut out, block),
            Markup::Markdown => markdown(&mut out, block),
        }
    }
    harmless(out)
}

/// The same text, with a mark in place of what would steer a terminal or turn the direction of letters: names come
/// from job files of others. Line ends and tabs stay.
pub fn harmless(text: String) -> String {
    let steers = |c: char| c.is_control() && !matches!(c, '\n' | '\t') || turns_letters(c);
    if text.contains(steers) { text.replace(steers, "\u{FFFD}") } else { text }
}

const WIDTH: usize = 96;
/// A line to write on.
const BLANK: &str = "________________";

fn plain(out: &mut String, block: &Block) {
    match block {
        Block::Heading(text) => {
            let _ = writeln!(out, "{text}\n{}", "-".repeat(text.chars().count()));
        }
        Block::Text(text) => out.push_str(&wrapped(text, "", "")),
        Block::Caution(text) => out.push_str(&wrapped(text, "!! ", "!! ")),
        Block::List(items) => {
            for item in items {
                out.push_str(&wrapped(item, "- ", "  "));
            }
        }
        Block::Steps(steps) => {
            for (i, step) in steps.iter().enumerate() {
                let number = format!("{}. ", i + 1);
                out.push_str(&wrapped(step, &number, &" ".repeat(number.len())));
            }
        }
        Block::Drawing(drawing) => out.push_str(&wrapped(&say!("[picture: {words}]", words = drawing.words), "", "  ")),
        Block::Blanks(lines) => {
            for words in lines {
                let _ = writeln!(out, "{words}: {BLANK}");
            }
        }
        // A table without columns says nothing.
        Block::Table { head, .. } if head.is_empty() => {}
        Block::Table { head, rows } => {
            // A name with a line break in it stays in its cell.
            let one_line = |row: &Vec<String>| row.iter().map(|c| c.replace(['\n', '\r'], " ")).collect::<Vec<_>>();
            let lines: Vec<Vec<String>> = std::iter::once(head).chain(rows).map(one_line).collect();
            let columns: Vec<Column> = (0..head.len()).map(|c| Column::of(&lines, c)).collect();
            for (i, row) in lines.iter().enumerate() {
                let mut line = String::new();
                for (c, cell) in row.iter().enumerate() {
                    let (own, column) = (cell.chars().count(), &columns[c]);
                    let _ = match c {
                        0 => write!(line, "{cell}{}", " ".repeat(column.width - own)),
                        _ if head.len() == 2 => write!(line, "  {cell}"),
                        _ => {
                            let off = column.off[i];
                            write!(line, "  {}{cell}{}", " ".repeat(column.width - own - off), " ".repeat(off))
                        }
                    };
                }
                let _ = writeln!(out, "{}", line.trim_end());
            }
        }
    }
}

/// One column of a table in letters: how wide, and how far each line keeps from its right edge.
struct Column {
    width: usize,
    off: Vec<usize>,
}

impl Column {
    fn of(lines: &[Vec<String>], at: usize) -> Column {
        let letters = |text: &str| text.chars().count();
        // The head stands at the edge.
        let cells: Vec<(&str, &str)> = lines.iter().skip(1).map(|row| (row[0].as_str(), row[at].as_str())).collect();
        let off = decimal::off_the_edge(&cells, |_, text| letters(text) as f32);
        let off: Vec<usize> = std::iter::once(0).chain(off.into_iter().map(|o| o as usize)).collect();
        let width = lines.iter().zip(&off).map(|(row, off)| letters(&row[at]) + off).max().unwrap_or(0);
        Column { width, off }
    }
}

fn wrapped(text: &str, first: &str, next: &str) -> String {
    let mut out = String::new();
    let mut line = first.to_owned();
    let mut empty = true;
    for word in text.split_whitespace() {
        if !empty && line.chars().count() + 1 + word.chars().count() > WIDTH {
            let _ = writeln!(out, "{line}");
            line = next.to_owned();
            empty = true;
        }
        if !empty {
            line.push(' ');
        }
        line.push_str(word);
        empty = false;
    }
    let _ = writeln!(out, "{line}");
    out
}

fn markdown(out: &mut String, block: &Block) {
    match block {
        Block::Heading(text) => {
            let _ = writeln!(out, "## {}", escaped(text));
        }
        Block::Text(text) => {
            let _ = writeln!(out, "{}", escaped(text));
        }
        Block::Caution(text) => {
            let _ = writeln!(out, "> **{}**", escaped(text));
        }
        Block::List(items) => {
            for item in items {
                let _ = writeln!(out, "- {}", escaped(item));
            }
        }
        Block::Steps(steps) => {
            for (i, step) in steps.iter().enumerate() {
                let _ = writeln!(out, "{}. {}", i + 1, escaped(step));
            }
        }
        Block::Drawing(drawing) => {
            let _ = writeln!(out, "*{}*", say!("Picture: {words}", words = escaped(&drawing.words)));
        }
        Block::Blanks(lines) => {
            for words in lines {
                let _ = writeln!(out, "- {}: {BLANK}", escaped(words));
            }
        }
        Block::Table { head, .. } if head.is_empty() => {}
        Block::Table { head, rows } => {
            let line = |cells: &[String]| cells.iter().map(|c| escaped(c)).collect::<Vec<_>>().join(" | ");
            let _ = writeln!(out, "| {} |", line(head));
            let _ = writeln!(out, "|---|{}", "---:|".repeat(head.len() - 1));
            for row in rows {
                let _ = writeln!(out, "| {} |", line(row));
            }
        }
    }
}

/// What a name could contain that Markdown or HTML would act on.
fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '\n' | '\r' => out.push(' '),
            '<' => out.push_str("&lt;"),
            '\\' | '`' | '*' | '_' | '[' | ']' | '|' | '#' => {
                out.push('\\');
                out.push(c);
            }
            _ => out.push(c),
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_hostile_name_stays_a_name() {
        let report = Report {
            title: "T".into(),
            blocks: vec![Block::Table {
                head: vec!["a".into(), "b".into()],
                rows: vec![vec!["x|y".into(), "<b>*\n".into()]],
            }],
        };
        let text = write(&report, Markup::Markdown);
        assert!(text.contains("| x\\|y | &lt;b>\\*  |"), "{text}");
    }

    #[test]
    fn long_lines_are_wrapped() {
        let report = Report { title: "T".into(), blocks: vec![Block::List(vec!["word ".repeat(60)])] };
        assert!(write(&report, Markup::Plain).lines().all(|l| l.chars().count() <= WIDTH));
    }
}
