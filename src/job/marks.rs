//! What a file in RON holds outside its texts: brackets and comments, found without reading it.

/// One of them.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Mark {
    /// `(`, `[` or `{`.
    Open,
    /// `)`, `]` or `}`.
    Close,
    /// `// ...` or `/* ... */`, whole.
    Comment,
}

/// All of them, each with its line, from 1.
pub(super) fn marks(text: &str) -> impl Iterator<Item = (Mark, usize)> {
    let (mut rest, mut line) = (text, 1);
    std::iter::from_fn(move || {
        loop {
            let here = line;
            let first = rest.chars().next()?;
            let (mark, length) = match first {
                '(' | '[' | '{' => (Some(Mark::Open), 1),
                ')' | ']' | '}' => (Some(Mark::Close), 1),
                '"' => (None, end_of_text(rest)),
                '/' if rest.starts_with("//") => (Some(Mark::Comment), rest.find('\n').unwrap_or(rest.len())),
                '/' if rest.starts_with("/*") => (Some(Mark::Comment), end_of_comment(rest)),
                'r' => (None, end_of_raw_text(rest)),
                c if is_word(c) => (None, rest.find(|c| !is_word(c)).unwrap_or(rest.len())),
                c => (None, c.len_utf8()),
            };
            let (seen, behind) = rest.split_at(length);
            line += seen.matches('\n').count();
            rest = behind;
            if let Some(mark) = mark {
                return Some((mark, here));
            }
        }
    })
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

/// Length of `/* ... */` at the start; such comments stand inside each other.
fn end_of_comment(from: &str) -> usize {
    let (mut depth, mut at) = (0_usize, 0);
    while let Some(next) = from[at..].find(['/', '*']) {
        at += next;
        let (step, change) = match from.get(at..at + 2) {
            Some("/*") => (2, 1),
            Some("*/") => (2, -1),
            _ => (1, 0),
        };
        at += step;
        depth = depth.saturating_add_signed(change);
        if depth == 0 {
            return at;
        }
    }
    from.len()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn seen(text: &str) -> Vec<(Mark, usize)> {
        marks(text).collect()
    }

    #[test]
    fn texts_of_every_kind_hold_no_marks() {
        assert_eq!(seen("\"( // \\\" )\" [\n]"), [(Mark::Open, 1), (Mark::Close, 2)]);
        assert_eq!(seen("a: r\"\\\", b: r#\" // \" ( \"#, rate: 1, r#type: {"), [(Mark::Open, 1)]);
        assert_eq!(seen("\"never ends ( "), []);
    }

    #[test]
    fn comments_of_both_kinds() {
        assert_eq!(
            seen("// (\n(/* /* ( */ \n ) */)"),
            [(Mark::Comment, 1), (Mark::Open, 2), (Mark::Comment, 2), (Mark::Close, 3)]
        );
        assert_eq!(seen("/* never ends"), [(Mark::Comment, 1)]);
        assert_eq!(seen("ü / é */"), []);
    }
}
