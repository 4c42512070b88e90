//! Writes a report as plain text or Markdown.

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
    let (title, written): (String, fn(&Block) -> String) = match markup {
        Markup::Plain => (underlined(&report.title, "="), plain),
        Markup::Markdown => (format!("# {}\n", escaped(&report.title)), markdown),
    };
    harmless(report.blocks.iter().fold(title, |text, block| text + "\n" + &written(block)))
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

fn plain(block: &Block) -> String {
    match block {
        Block::Heading(text) => underlined(text, "-"),
        Block::Text(text) => wrapped(text, "", ""),
        Block::Caution(text) => wrapped(text, "!! ", "!! "),
        Block::List(items) => items.iter().map(|item| wrapped(item, "- ", "  ")).collect(),
        Block::Steps(steps) => {
            let numbered = steps.iter().enumerate().map(|(i, step)| (format!("{}. ", i + 1), step));
            numbered.map(|(number, step)| wrapped(step, &number, &" ".repeat(number.len()))).collect()
        }
        Block::Drawing(drawing) => wrapped(&say!("[picture: {words}]", words = drawing.words), "", "  "),
        Block::Blanks(lines) => lines.iter().map(|words| format!("{words}: {BLANK}\n")).collect(),
        // A table without columns says nothing.
        Block::Table { head, .. } if head.is_empty() => String::new(),
        Block::Table { head, rows } => {
            // A name with a line break in it stays in its cell.
            let one_line = |row: &Vec<String>| row.iter().map(|c| c.replace(['\n', '\r'], " ")).collect::<Vec<_>>();
            let lines: Vec<Vec<String>> = std::iter::once(head).chain(rows).map(one_line).collect();
            let columns: Vec<Column> = (0..head.len()).map(|c| Column::of(&lines, c)).collect();
            let padded = |i: usize, c: usize, cell: &str| {
                let (own, column) = (cell.chars().count(), &columns[c]);
                let off = column.off[i];
                match c {
                    0 => format!("{cell}{}", " ".repeat(column.width - own)),
                    _ if head.len() == 2 => format!("  {cell}"),
                    _ => format!("  {}{cell}{}", " ".repeat(column.width - own - off), " ".repeat(off)),
                }
            };
            let line = |(i, row): (usize, &Vec<String>)| {
                let line: String = row.iter().enumerate().map(|(c, cell)| padded(i, c, cell)).collect();
                line.trim_end().to_owned() + "\n"
            };
            lines.iter().enumerate().map(line).collect()
        }
    }
}

fn underlined(text: &str, with: &str) -> String {
    format!("{text}\n{}\n", with.repeat(text.chars().count()))
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
            out += &(line + "\n");
            line = next.to_owned();
            empty = true;
        }
        if !empty {
            line.push(' ');
        }
        line.push_str(word);
        empty = false;
    }
    out + &line + "\n"
}

fn markdown(block: &Block) -> String {
    match block {
        Block::Heading(text) => format!("## {}\n", escaped(text)),
        Block::Text(text) => escaped(text) + "\n",
        Block::Caution(text) => format!("> **{}**\n", escaped(text)),
        Block::List(items) => items.iter().map(|item| format!("- {}\n", escaped(item))).collect(),
        Block::Steps(steps) => {
            steps.iter().enumerate().map(|(i, step)| format!("{}. {}\n", i + 1, escaped(step))).collect()
        }
        Block::Drawing(drawing) => format!("*{}*\n", say!("Picture: {words}", words = escaped(&drawing.words))),
        Block::Blanks(lines) => lines.iter().map(|words| format!("- {}: {BLANK}\n", escaped(words))).collect(),
        Block::Table { head, .. } if head.is_empty() => String::new(),
        Block::Table { head, rows } => {
            let line = |cells: &Vec<String>| cells.iter().map(|c| escaped(c)).collect::<Vec<_>>().join(" | ");
            let rows: String = rows.iter().map(|row| format!("| {} |\n", line(row))).collect();
            format!("| {} |\n|---|{}\n{rows}", line(head), "---:|".repeat(head.len() - 1))
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
