//! The words of the trade, as a ratchet: odd expressions in texts and doc comments, each with the number still allowed.
//! These numbers only fall.
//!
//! `tests/words/dictionary.ron` says what to leave and what to use instead. Read are the texts of window and command line
//! (`assets/words.de.ron`: English keys, German values), those of the sheets, the shipped documents, and the doc comments
//! of the sources. Upper and lower case count alike, and only whole words. `UPDATE=1` lowers the numbers to what is
//! found, and never raises one.
#![allow(clippy::expect_used, reason = "a test says why it stops")]

use std::collections::HashMap;
use std::path::Path;

use serde::{Deserialize, Serialize};
use springwright::job::file;

use crate::architecture::source_files;

/// An expression to lose.
#[derive(Debug, Clone, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Entry {
    leave: String,
    instead: String,
    /// Turns that hold the expression and are right: the trade's own words.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    except: Vec<String>,
    /// The most in texts for users, documents included.
    texts: usize,
    /// The most in doc comments; `None`: a turn that is looked for in texts only.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    code: Option<usize>,
}

#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Dictionary {
    english: Vec<Entry>,
    german: Vec<Entry>,
}

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

fn read(path: &str) -> String {
    std::fs::read_to_string(root().join(path)).unwrap_or_else(|e| panic!("{path}: {e}"))
}

fn table(path: &str) -> HashMap<String, String> {
    springwright::base::language::table(&read(path)).unwrap_or_else(|e| panic!("{path}: {e}"))
}

/// One line each, so that an expression that is broken over two lines is seen.
fn in_one_line(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ").to_lowercase()
}

/// What users read, in English and in German.
fn texts() -> [Vec<String>; 2] {
    let (english, german): (Vec<String>, Vec<String>) = table("assets/words.de.ron").into_iter().unzip();
    let documents =
        ["README.md", "assets/guide.md", "assets/job-format.md", "assets/parts-list.md", "assets/changes.md"];
    let english = english
        .into_iter()
        .chain(table("assets/sheets.en.ron").into_values())
        .chain(documents.iter().flat_map(|path| read(path).split("\n\n").map(str::to_owned).collect::<Vec<_>>()));
    let german = german.into_iter().chain(table("assets/sheets.de.ron").into_values());
    [english.map(|t| in_one_line(&t)).collect(), german.map(|t| in_one_line(&t)).collect()]
}

/// The doc comments of the sources, each whole.
fn descriptions() -> Vec<String> {
    let mut found = Vec::new();
    for path in source_files(&root().join("src")) {
        let text = std::fs::read_to_string(&path).expect("a source file");
        let mut comment = String::new();
        for line in text.lines().map(str::trim_start).chain([""]) {
            match line.strip_prefix("///").or_else(|| line.strip_prefix("//!")) {
                Some(words) => comment += words,
                None if comment.is_empty() => {}
                None => found.push(in_one_line(&std::mem::take(&mut comment))),
            }
        }
    }
    found
}

/// How often an expression is in the texts, as whole words, but for those in the turns that are right.
fn count(expression: &str, except: &[String], texts: &[String]) -> usize {
    let all = whole_words(expression, texts);
    all - except.iter().map(|turn| whole_words(turn, texts)).sum::<usize>()
}

fn whole_words(expression: &str, texts: &[String]) -> usize {
    let expression = expression.to_lowercase();
    let is_letter = |c: Option<char>| c.is_some_and(char::is_alphabetic);
    let here = |text: &String| {
        let whole = |at: &(usize, &str)| {
            !is_letter(text[..at.0].chars().next_back()) && !is_letter(text[at.0 + at.1.len()..].chars().next())
        };
        text.match_indices(expression.as_str()).filter(whole).count()
    };
    texts.iter().map(here).sum()
}

#[test]
fn what_is_to_be_left_becomes_rarer() {
    let path = root().join("tests/words/dictionary.ron");
    let mut dictionary: Dictionary = file::from_ron(&read("tests/words/dictionary.ron")).expect("a dictionary");
    let ([english, german], code) = (texts(), descriptions());
    assert!(english.len() > 1_000 && german.len() > 1_000 && code.len() > 1_000, "nothing was read");
    let mut more = Vec::new();
    let of_both = [(&mut dictionary.english, &english, &code), (&mut dictionary.german, &german, &Vec::new())];
    for (entries, texts, code) in of_both {
        for entry in entries {
            let in_texts = (texts, Some(&mut entry.texts), "texts");
            let in_code = (code, entry.code.as_mut(), "doc comments");
            for (read, most, place) in [in_texts, in_code] {
                let Some(most) = most else { continue };
                let found = count(&entry.leave, &entry.except, read);
                if found > *most {
                    let (leave, instead) = (&entry.leave, &entry.instead);
                    more.push(format!("{leave:?} is {found} times in {place}, at most {most}: use {instead:?}"));
                }
                *most = found.min(*most);
            }
        }
    }
    assert!(more.is_empty(), "{}", more.join("\n"));
    if std::env::var_os("UPDATE").is_some_and(|v| v == "1") {
        let pretty = ron::ser::PrettyConfig::new().depth_limit(2).indentor("  ".to_owned());
        let text = file::options().to_string_pretty(&dictionary, pretty).expect("text");
        file::write_text(&path, &(text + "\n")).expect("written");
    }
}

/// The count itself can fail: whole words only, whatever their case, and over the end of a line.
#[test]
fn expressions_are_found_as_whole_words() {
    let texts = ["Foretold, not foretolds or Unforetold", "a damper\n  thought of"].map(in_one_line);
    let count_in = |expression| count(expression, &[], &texts);
    assert_eq!(["foretold", "Thought of", "told"].map(count_in), [1, 1, 0]);
    let stands = ["Jack stands are where the answer stands"].map(in_one_line);
    assert_eq!(count("stands", &["jack stands".to_owned()], &stands), 1, "a noun of the trade does not count");
}
