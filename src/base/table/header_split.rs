//! The words of a header, however it is written.

/// A header cut into words: at spaces, brackets and underscores, and at signs other than those of numbers and units.
pub fn words(text: &str) -> Vec<&str> {
    let bytes = text.as_bytes();
    let digit = |i: usize| bytes.get(i).is_some_and(u8::is_ascii_digit);
    let mut cuts = Vec::new();
    for (i, c) in text.char_indices() {
        let between_digits = i > 0 && digit(i - 1) && digit(i + 1);
        match c {
            ',' | '.' if between_digits => {}
            '.' if digit(i + 1) => {}
            c if c.is_whitespace() || "_()[]{},.:;@=|".contains(c) => cuts.push((i, i + c.len_utf8())),
            '-' if !digit(i + 1) && !text[..i].ends_with('/') => cuts.push((i, i + 1)),
            '±' | '%' | '€' | '$' | '£' => cuts.extend([(i, i), (i + c.len_utf8(), i + c.len_utf8())]),
            _ => {}
        }
    }
    cuts.push((text.len(), text.len()));
    let mut from = 0;
    let mut words = Vec::new();
    for (end, next) in cuts {
        words.push(&text[from..end]);
        from = next;
    }
    words.retain(|w| !w.is_empty());
    words
}

/// A word in small letters without accents.
pub fn folded(word: &str) -> String {
    let mut out = String::with_capacity(word.len());
    for c in word.chars().flat_map(char::to_lowercase) {
        match c {
            'ä' | 'à' | 'á' | 'â' => out.push('a'),
            'é' | 'è' | 'ê' | 'ë' => out.push('e'),
            'í' | 'î' | 'ï' => out.push('i'),
            'ö' | 'ó' | 'ô' => out.push('o'),
            'ü' | 'ú' | 'û' => out.push('u'),
            'ß' => out.push_str("ss"),
            'ñ' => out.push('n'),
            'ç' => out.push('c'),
            '⌀' | 'ø' => out.push('ø'),
            _ => out.push(c),
        }
    }
    out
}
