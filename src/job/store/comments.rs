//! Whether a file in RON holds comments, found without reading it: a reader skips them without a word.

/// `// ...` or `/* ... */` somewhere outside the texts.
pub(super) fn has_comments(text: &str) -> bool {
    let mut rest = text;
    while let Some(first) = rest.chars().next() {
        if rest.starts_with("//") || rest.starts_with("/*") {
            return true;
        }
        let length = match first {
            '"' => end_of_text(rest),
            'r' => end_of_raw_text(rest),
            c if is_word(c) => rest.find(|c| !is_word(c)).unwrap_or(rest.len()),
            c => c.len_utf8(),
        };
        rest = &rest[length..];
    }
    false
}

fn is_word(c: char) -> bool {
    c.is_alphanumeric() || c == '_'
}

/// Length of the text in quotation marks at the start; all of it when the text never ends.
fn end_of_text(from: &str) -> usize {
    let mut is_escaped = false;
    for (at, c) in from.char_indices().skip(1) {
        match c {
            _ if is_escaped => is_escaped = false,
            '\\' => is_escaped = true,
            '"' => return at + 1,
            _ => {}
        }
    }
    from.len()
}

/// Length of `r"..."` or `r#"..."#` at the start, or of the word that only begins with an r.
fn end_of_raw_text(from: &str) -> usize {
    let hashes = from[1..].len() - from[1..].trim_start_matches('#').len();
    if from[1 + hashes..].starts_with('"') {
        let end = format!("\"{}", "#".repeat(hashes));
        let start = hashes + 2;
        return from[start..].find(&end).map_or(from.len(), |at| start + at + end.len());
    }
    from.find(|c| !is_word(c)).unwrap_or(from.len())
}
