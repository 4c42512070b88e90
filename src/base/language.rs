//! The language and the decimal mark in which this thread speaks, and the table of texts.
//!
//! The code has every text in English. What only calculates gives it as data, a [`Word`] or a
//! [`Message`](super::message::Message); what draws or writes says it: [`tr`] a whole one, [`say!`](crate::say) one with
//! `{placeholders}`. Another language is a file that gives each English text its own: `assets/words.de.ron`. Whoever
//! begins to draw or write (the window's frame, a worker, the command line, a sheet) says first in which voice:
//! [`speak`]. This is the only thing in the program that a thread carries with it.

use std::cell::Cell;
use std::collections::HashMap;
use std::fmt::{Display, Write as _};
use std::path::Path;
use std::sync::LazyLock;

use serde::{Deserialize, Serialize};

mod word;
pub use word::Word;
pub(crate) use word::worded;

/// A language that ships.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Language {
    /// As the code says it.
    #[default]
    English,
    /// From `assets/words.de.ron`.
    German,
    /// Every text of the table between marks: what shows without them on screen is not in the table. For tests.
    Marked,
}

/// Which sign separates the fraction in the job's numbers.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
pub enum DecimalMark {
    /// `1,155.5`
    #[default]
    Point,
    /// `1.155,5`
    Comma,
}

impl DecimalMark {
    /// The sign itself.
    pub fn sign(self) -> char {
        match self {
            DecimalMark::Point => '.',
            DecimalMark::Comma => ',',
        }
    }
}

/// How a text is rendered.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Voice {
    /// The language of texts.
    pub language: Language,
    /// What precedes the fraction of a number.
    pub mark: DecimalMark,
}

thread_local! {
    static SPOKEN: Cell<Voice> = const { Cell::new(Voice { language: Language::English, mark: DecimalMark::Point }) };
}

static GERMAN: LazyLock<HashMap<String, String>> =
    LazyLock::new(|| table(include_str!("../../assets/words.de.ron")).unwrap_or_default());

impl Language {
    /// The languages a user can choose.
    pub const ALL: [Language; 2] = [Language::English, Language::German];

    /// Its two letters.
    pub fn key(self) -> &'static str {
        match self {
            Language::English => "en",
            Language::German => "de",
            Language::Marked => "marked",
        }
    }

    /// Its name in itself.
    pub fn name(self) -> &'static str {
        match self {
            Language::English => "English",
            Language::German => "Deutsch",
            Language::Marked => "Marked",
        }
    }

    /// The language of these two letters, or of a system's name for a language such as `de_AT.UTF-8`.
    pub fn of(name: &str) -> Option<Language> {
        let letters = name.split(['_', '-', '.', '@']).next().unwrap_or_default();
        Language::ALL.into_iter().find(|l| l.key().eq_ignore_ascii_case(letters))
    }

    /// The system's, as far as it ships; else English.
    pub fn of_system() -> Language {
        sys_locale::get_locale().and_then(|name| Language::of(&name)).unwrap_or_default()
    }

    /// As this language is spoken here, with the decimal mark that is spoken now; English when it does not ship.
    pub fn spoken_as(name: &str) -> Voice {
        Voice { language: Language::of(name).unwrap_or_default(), ..spoken() }
    }

    /// The decimal mark that is usual in it.
    pub fn mark(self) -> DecimalMark {
        match self {
            Language::German => DecimalMark::Comma,
            Language::English | Language::Marked => DecimalMark::Point,
        }
    }
}

/// Reads a table of texts: each English text with that of the language.
///
/// # Errors
/// What is wrong, and where.
pub fn table(file: &str) -> Result<HashMap<String, String>, ron::error::SpannedError> {
    ron::from_str(file)
}

/// Speaks so on this thread until the guard is dropped; then as before.
#[must_use = "the voice is the former one again as soon as this is dropped"]
pub fn speak(voice: Voice) -> Spoken {
    Spoken(SPOKEN.replace(voice))
}

/// Gives the thread its former voice back.
#[derive(Debug)]
pub struct Spoken(Voice);

impl Drop for Spoken {
    fn drop(&mut self) {
        SPOKEN.set(self.0);
    }
}

/// How this thread speaks now.
pub fn spoken() -> Voice {
    SPOKEN.get()
}

/// An English text in the language spoken; itself when the table does not have it.
pub fn tr(english: &'static str) -> &'static str {
    match spoken().language {
        Language::English => english,
        Language::German => GERMAN.get(english).map_or(english, String::as_str),
        Language::Marked => marked(english),
    }
}

/// A word that is in a sentence: English writes it small there, a language with capital nouns does not.
pub fn inside(word: &str) -> String {
    match spoken().language {
        Language::German => word.to_owned(),
        Language::English | Language::Marked => word.to_lowercase(),
    }
}

/// A path in a message: one line, whatever its name holds. What would break the line, steer a terminal or turn letters
/// becomes its escape.
pub fn path_text(path: &Path) -> String {
    let mut out = String::new();
    for c in path.to_string_lossy().chars() {
        if c.is_control() || turns_letters(c) || matches!(c, '\u{2028}' | '\u{2029}') {
            out.extend(c.escape_default());
        } else {
            out.push(c);
        }
    }
    out
}

/// Characters that only turn the direction of others.
pub fn turns_letters(c: char) -> bool {
    matches!(c, '\u{061C}' | '\u{200E}' | '\u{200F}' | '\u{202A}'..='\u{202E}' | '\u{2066}'..='\u{2069}')
}

/// A number as written by the program, with the decimal mark that is spoken and a minus sign that is one.
pub fn mark(number: String) -> String {
    let number = decimal(number, spoken().mark);
    if number.starts_with('-') { number.replacen('-', MINUS, 1) } else { number }
}

/// The minus sign; a hyphen is shorter than the plus.
pub const MINUS: &str = "\u{2212}";

/// A number as it is typed into a field: with this decimal mark, with whichever it was written, and a hyphen for a minus.
pub fn with_mark(number: String, mark: DecimalMark) -> String {
    let number = decimal(number, mark);
    if number.starts_with(MINUS) { number.replacen(MINUS, "-", 1) } else { number }
}

fn decimal(number: String, mark: DecimalMark) -> String {
    let (other, sign) = match mark {
        DecimalMark::Point => (',', "."),
        DecimalMark::Comma => ('.', ","),
    };
    if number.contains(other) { number.replace(other, sign) } else { number }
}

/// A text of the table with its placeholders filled, see [`filled`]. [`say!`](crate::say) is its caller.
pub fn fill(english: &'static str, with: &[(&str, &dyn Display)]) -> String {
    filled(tr(english), with)
}

/// A text with its placeholders filled: `{name}` by what is given, `{name:.2}` by a number to this number of places, `{{` and
/// `}}` by one brace. What fills them is not looked into again; what nothing fills stays as it is.
pub fn filled(template: &str, with: &[(&str, &dyn Display)]) -> String {
    let mut out = String::with_capacity(template.len() + 16 * with.len());
    let mut rest = template;
    while let Some(at) = rest.find(['{', '}']) {
        let (before, behind) = rest.split_at(at);
        out.push_str(before);
        let placeholder = behind.strip_prefix('{').filter(|b| !b.starts_with('{')).and_then(|b| b.split_once('}'));
        if let Some((inside, after)) = placeholder {
            let (name, form) = inside.split_once(':').unwrap_or((inside, ""));
            match with.iter().find(|w| w.0 == name) {
                Some((_, value)) => put(&mut out, *value, form),
                None => out.extend(["{", inside, "}"]),
            }
            rest = after;
        } else {
            out.push_str(&behind[..1]);
            let is_twice = behind.starts_with("{{") || behind.starts_with("}}");
            rest = &behind[if is_twice { 2 } else { 1 }..];
        }
    }
    out.push_str(rest);
    out
}

/// A value, or a number in the form `.2` or `+.2`.
fn put(out: &mut String, value: &dyn Display, form: &str) {
    let places = form.trim_start_matches('+').strip_prefix('.').and_then(|p| p.parse::<usize>().ok());
    // Writing to a string cannot fail.
    let _ = match places {
        None => write!(out, "{value}"),
        Some(places) if form.starts_with('+') => write!(out, "{}", mark(no_sign_on_zero(format!("{value:+.places$}")))),
        Some(places) => write!(out, "{}", mark(no_sign_on_zero(format!("{value:.places$}")))),
    };
}

/// A number that was rounded to nothing is neither above nor below it.
pub fn no_sign_on_zero(number: String) -> String {
    match number.strip_prefix(['+', '-']) {
        Some(zero) if zero.bytes().all(|b| matches!(b, b'0' | b'.' | b',')) => zero.to_owned(),
        _ => number,
    }
}

/// Before and behind every text of the table in [`Language::Marked`].
pub const MARKS: [char; 2] = ['«', '»'];

type Asked = std::sync::Mutex<HashMap<&'static str, &'static str>>;

/// Kept for as long as the program runs: there are as many as there are texts.
static ASKED: LazyLock<Asked> = LazyLock::new(Default::default);

fn marked(english: &'static str) -> &'static str {
    let Ok(mut asked) = ASKED.lock() else { return english };
    asked.entry(english).or_insert_with(|| Box::leak(format!("{}{english}{}", MARKS[0], MARKS[1]).into_boxed_str()))
}

/// Every text that was asked for in [`Language::Marked`] so far. For tests.
pub fn asked_for() -> Vec<&'static str> {
    ASKED.lock().map(|asked| asked.keys().copied().collect()).unwrap_or_default()
}

/// A text in the language spoken, its placeholders filled: as `format!`, each placeholder by its name.
///
/// ```
/// use springwright::say;
/// let side = "Front";
/// assert_eq!(say!("{side}: {share:.1} % of the weight", side, share = 51.26), "Front: 51.3 % of the weight");
/// ```
#[macro_export]
macro_rules! say {
    (@value $name:ident) => { $name };
    (@value $name:ident = $value:expr) => { $value };
    ($text:literal $(,)?) => { $crate::base::language::tr($text).to_owned() };
    ($text:literal, $($name:ident $(= $value:expr)?),+ $(,)?) => {{
        // Never run: the compiler holds the placeholders against the names.
        if false {
            let _ = ::std::format_args!($text, $($name = ""),+);
        }
        $crate::base::language::fill(
            $text,
            &[$((::std::stringify!($name), &$crate::say!(@value $name $(= $value)?) as &dyn ::std::fmt::Display)),+],
        )
    }};
}
