//! The texts of the sheets: one file per language, `assets/sheets.en.ron` and the like, each key with its text.
//!
//! A text may hold `{placeholders}`. A shop may lay a file of its own over a shipped one ([`Words::with`]): any of the
//! keys, with the placeholders of the English text.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Display;
use std::sync::LazyLock;

use thiserror::Error;

use crate::base::language::{self, tr};
use crate::job::file;
use crate::say;

/// The languages that ship: two letters and the file.
const SHIPPED: [(&str, &str); 2] =
    [("en", include_str!("../../../assets/sheets.en.ron")), ("de", include_str!("../../../assets/sheets.de.ron"))];

/// Why a file of texts cannot be used.
#[derive(Debug, Error)]
pub enum WordsError {
    /// It is no map from key to text.
    #[error("{0}")]
    Syntax(#[from] ron::error::SpannedError),
    /// A key that no sheet uses.
    #[error("{}", say!("no sheet has a text with the key \"{key}\"; compare the keys with those of the file supplied", key = .0))]
    Key(String),
    /// A placeholder that is left out: what fills it would be on no sheet.
    #[error(
        "{}",
        say!("the text \"{key}\" has no {{{placeholder}}}. Add it; otherwise its value is missing on the sheet", key, placeholder)
    )]
    LeftOut {
        /// Whose text.
        key: String,
        /// What it leaves out.
        placeholder: String,
    },
    /// A language that neither ships nor has texts of the shop's.
    #[error(
        "{}",
        say!(
            "there are no sheet texts in the language \"{language}\", only in {known}. Correct the job's shop.language, or add the shop's own texts as sheets.{language}.ron to the folder of the shop's lists",
            language,
            known = Words::languages().collect::<Vec<_>>().join(", ")
        )
    )]
    Language {
        /// The language asked for.
        language: String,
    },
    /// A placeholder that this text is not given.
    #[error(
        "{}",
        say!("the text \"{key}\" uses {{{placeholder}}}; it can use {allowed}", key, placeholder, allowed)
    )]
    Placeholder {
        /// Whose text.
        key: String,
        /// What it asks for.
        placeholder: String,
        /// What there is, if anything.
        allowed: String,
    },
}

/// The texts of one language.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Words {
    texts: BTreeMap<String, String>,
}

impl Words {
    /// The two letters of every language that ships.
    pub fn languages() -> impl Iterator<Item = &'static str> {
        SHIPPED.iter().map(|s| s.0)
    }

    /// The shipped texts of a language, by its two letters; blank is English. `None` when it does not ship.
    pub fn shipped(language: &str) -> Option<&'static Words> {
        static ALL: LazyLock<Vec<Words>> =
            LazyLock::new(|| SHIPPED.iter().map(|s| Words { texts: read(s.1).unwrap_or_default() }).collect());
        let wanted = if language.trim().is_empty() { "en" } else { language.trim() };
        ALL.get(SHIPPED.iter().position(|s| s.0.eq_ignore_ascii_case(wanted))?)
    }

    /// English.
    pub fn english() -> &'static Words {
        static NONE: Words = Words { texts: BTreeMap::new() };
        Words::shipped("en").unwrap_or(&NONE)
    }

    /// These texts with those of a file laid over them.
    ///
    /// # Errors
    /// [`WordsError`] for a file that is no map, a key that is not there, a placeholder that is not given.
    pub fn with(&self, file: &str) -> Result<Words, WordsError> {
        let english = Words::english();
        let mut texts = self.texts.clone();
        for (key, text) in read(file)? {
            let known = english.texts.get(&key).ok_or_else(|| WordsError::Key(key.clone()))?;
            let allowed = placeholders(known);
            if let Some(placeholder) = placeholders(&text).difference(&allowed).next() {
                let allowed: Vec<&str> = allowed.iter().copied().collect();
                let allowed = if allowed.is_empty() { tr("none").to_owned() } else { allowed.join(", ") };
                return Err(WordsError::Placeholder { key, placeholder: (*placeholder).to_owned(), allowed });
            }
            if let Some(placeholder) = allowed.difference(&placeholders(&text)).next() {
                return Err(WordsError::LeftOut { key, placeholder: (*placeholder).to_owned() });
            }
            texts.insert(key, text);
        }
        Ok(Words { texts })
    }

    /// The texts of a language with the shop's own over them; a language that does not ship is laid over English.
    ///
    /// # Errors
    /// [`WordsError`], see [`Words::with`]; or neither ships it nor has the shop texts in it.
    pub fn of(language: &str, own: Option<&str>) -> Result<Words, WordsError> {
        match (Words::shipped(language), own) {
            (None, None) => Err(WordsError::Language { language: language.trim().to_owned() }),
            (base, Some(own)) => base.unwrap_or_else(Words::english).with(own),
            (Some(base), None) => Ok(base.clone()),
        }
    }

    /// Every key with its text.
    pub fn texts(&self) -> impl Iterator<Item = (&str, &str)> {
        self.texts.iter().map(|(k, t)| (k.as_str(), t.as_str()))
    }

    /// The text of a key, its placeholders filled; what fills them is not looked into again.
    pub fn say(&self, key: &str, fill: &[(&str, &str)]) -> String {
        let Some(text) = self.texts.get(key) else { return format!("[{key}]") };
        let with: Vec<(&str, &dyn Display)> = fill.iter().map(|(name, value)| (*name, value as &dyn Display)).collect();
        language::filled(text, &with)
    }
}

fn read(file: &str) -> Result<BTreeMap<String, String>, ron::error::SpannedError> {
    file::from_ron(file)
}

/// The names in braces.
pub fn placeholders(text: &str) -> BTreeSet<&str> {
    text.split('{').skip(1).filter_map(|behind| Some(behind.split_once('}')?.0)).collect()
}
