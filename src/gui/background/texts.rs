//! Short texts of many rows, searched for words between two frames.

use memchr::memmem::Finder;

/// A text for each row, in small letters, one after the other.
#[derive(Debug, Clone, Default)]
pub struct Texts {
    all: String,
    /// Where each ends; behind it is one blank, which no word has in it.
    ends: Vec<usize>,
    /// The letters in each: a word with others is not in it.
    letters: Vec<u64>,
}

/// A bit for each letter and digit; the other bytes share what is left.
fn letters(text: &str) -> u64 {
    let bit = |byte: u8| match byte {
        b'a'..=b'z' => byte - b'a',
        b'0'..=b'9' => 26 + byte - b'0',
        _ => 36 + byte % 28,
    };
    text.bytes().fold(0, |all, byte| all | 1 << bit(byte))
}

impl Texts {
    /// These texts, a row each.
    pub fn new(rows: impl Iterator<Item = String>) -> Self {
        let mut texts = Texts::default();
        for row in rows {
            let row = row.to_lowercase();
            texts.letters.push(letters(&row));
            texts.all += &row;
            texts.ends.push(texts.all.len());
            texts.all.push(' ');
        }
        texts
    }

    fn row(&self, row: usize) -> &[u8] {
        let start = row.checked_sub(1).map_or(0, |before| self.ends[before] + 1);
        &self.all.as_bytes()[start..self.ends[row]]
    }

    /// In how many rows a word is, by a sample: what is rare is looked for first, and the rest in few rows then.
    fn about_with(&self, word: &str) -> usize {
        let finder = Finder::new(word);
        let every = (self.ends.len() / SAMPLE).max(1);
        every * (0..self.ends.len()).step_by(every).filter(|row| finder.find(self.row(*row)).is_some()).count()
    }

    /// `about`: the number of rows that it is in, by the sample.
    fn keep_those_with(&self, word: &str, about: usize, found: &mut [bool]) {
        let wanted = letters(word);
        found.iter_mut().zip(&self.letters).for_each(|(is, has)| *is &= has & wanted == wanted);
        if word.len() == 1 && word.bytes().all(|byte| byte.is_ascii_alphanumeric()) {
            return;
        }
        let finder = Finder::new(word);
        let left = found.iter().filter(|is| **is).count();
        if left < found.len() / 4 || left <= about {
            for (row, is) in found.iter_mut().enumerate().filter(|(_, is)| **is) {
                *is = finder.find(self.row(row)).is_some();
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

/// Rows of a sample.
const SAMPLE: usize = 200;
/// Searches that are remembered: as many letters can be deleted without searching again.
const REMEMBERED: usize = 24;

/// What was looked for as it was typed, and where it was found: each text begins with the one before.
#[derive(Debug, Clone, Default)]
pub struct Search {
    typed: Vec<(String, Vec<bool>)>,
}

impl Search {
    /// For each row of these texts, which must be the same every time: are all words in it somewhere, in capitals or
    /// not?
    pub fn rows_with(&mut self, words: &str, texts: &Texts) -> &[bool] {
        let words = words.to_lowercase();
        let rows = texts.ends.len();
        while self.typed.pop_if(|(typed, found)| found.len() != rows || !words.starts_with(typed.as_str())).is_some() {}
        if self.typed.last().is_none_or(|(typed, _)| *typed != words) {
            if self.typed.len() == REMEMBERED {
                self.typed.remove(0);
            }
            let found = self.narrowed(&words, texts);
            self.typed.push((words, found));
        }
        self.typed.last().map_or(&[], |(_, found)| found)
    }

    /// Where more was typed, only what had the words before can have these, and only the last of them is another.
    fn narrowed(&self, words: &str, texts: &Texts) -> Vec<bool> {
        let (known, mut found) = match self.typed.last() {
            Some((typed, found)) => (typed.rfind(char::is_whitespace).unwrap_or(0), found.clone()),
            None => (0, vec![true; texts.ends.len()]),
        };
        let mut wanted: Vec<(usize, &str)> =
            words[known..].split_whitespace().map(|word| (texts.about_with(word), word)).collect();
        wanted.sort_unstable();
        for (about, word) in wanted {
            texts.keep_those_with(word, about, &mut found);
        }
        found
    }
}
