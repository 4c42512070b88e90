//! Short texts of many rows, searched for words between two frames.

use memchr::memmem::Finder;

/// A text for each row, in small letters, one after the other.
#[derive(Debug, Clone, Default)]
pub struct Texts {
    all: String,
    /// Where each ends; behind it is one blank, which no word has in it.
    ends: Vec<usize>,
}

impl Texts {
    /// These texts, a row each.
    pub fn new(rows: impl Iterator<Item = String>) -> Self {
        let mut texts = Texts::default();
        for row in rows {
            texts.all += &row.to_lowercase();
            texts.ends.push(texts.all.len());
            texts.all.push(' ');
        }
        texts
    }

    fn keep_those_with(&self, word: &str, found: &mut [bool]) {
        let finder = Finder::new(word);
        if found.iter().filter(|is| **is).count() < found.len() / 4 {
            for (row, is) in found.iter_mut().enumerate().filter(|(_, is)| **is) {
                let start = row.checked_sub(1).map_or(0, |before| self.ends[before] + 1);
                *is = finder.find(&self.all.as_bytes()[start..self.ends[row]]).is_some();
            }
            return;
        }
        // All rows at once: those without the word take no time one by one.
        let (mut row, mut start) = (0, 0);
        while let Some(at) = self.all.as_bytes().get(start..).and_then(|rest| finder.find(rest)) {
            while self.ends[row] <= start + at {
                found[row] = false;
                row += 1;
            }
            (start, row) = (self.ends[row] + 1, row + 1);
        }
        found[row..].fill(false);
    }
}

/// What was looked for last, and where it was found.
#[derive(Debug, Clone, Default)]
pub struct Search {
    words: String,
    found: Vec<bool>,
}

impl Search {
    /// For each row of these texts, which must be the same every time: are all words in it somewhere, in capitals or
    /// not?
    pub fn rows_with(&mut self, words: &str, texts: &Texts) -> &[bool] {
        let words = words.to_lowercase();
        // Where more was typed, only what had the words before can have these, and only the last of them is another.
        let known = if self.found.len() == texts.ends.len() && words.starts_with(&self.words) {
            self.words.rfind(char::is_whitespace).unwrap_or(0)
        } else {
            self.found.clear();
            self.found.resize(texts.ends.len(), true);
            0
        };
        // What is long is rare: the rest is looked for in few rows then.
        let mut wanted: Vec<&str> = words[known..].split_whitespace().collect();
        wanted.sort_by_key(|word| std::cmp::Reverse(word.len()));
        for word in wanted {
            texts.keep_those_with(word, &mut self.found);
        }
        self.words = words;
        &self.found
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn finds_what_looking_at_each_row_finds() {
        let rows = ["L-1 Front coil", "", "coil\nrear", "ÄRGER leaf", "coil", "fro", "nt"];
        let texts = Texts::new(rows.iter().map(|r| (*r).to_owned()));
        let typed = |text: &'static str| (0..=text.len()).filter_map(|n| text.get(..n));
        let all = ["coil rear", "CO", "c l", "ront coil", "ärger", "oil  r", "x", "front l-1 coil"];
        let mut search = Search::default();
        for words in all.into_iter().flat_map(typed).chain(all) {
            let has = |row: &&str| words.to_lowercase().split_whitespace().all(|w| row.to_lowercase().contains(w));
            assert_eq!(search.rows_with(words, &texts), rows.iter().map(has).collect::<Vec<_>>(), "{words}");
        }
    }
}
