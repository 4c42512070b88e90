//! What the program has to say, as data: texts of the table with what fills their placeholders.
//!
//! Everything below the screens and sheets gives a [`Message`]; `Display` says it in the voice of the moment, so that
//! it can be shown in any language as often as one likes. [`message!`](crate::message) makes one.

use std::fmt::{self, Write as _};

use serde::{Serialize, Serializer};

use super::bounds::Bound;
use super::language::{Language, Voice, Word, fill, mark, speak, spoken};
use super::units::amount::{Amount, Exact};
use super::units::{Dim, EntryError, Unit, display, table};

/// Something to say. Two are equal when they say the same in every language.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Message {
    /// A text of the table.
    Word(Word),
    /// A text of the table, and what fills each of its placeholders.
    Filled(Word, Vec<(&'static str, Message)>),
    /// Several, with this between them.
    Row(Vec<Message>, &'static str),
    /// A word that is in a sentence ([`language::inside`](super::language::inside)).
    Inside(Box<Message>),
    /// With a capital at its beginning.
    FirstCapital(Box<Message>),
    /// The first without the second, with which it begins.
    Without(Box<Message>, Box<Message>),
    /// A text in quotation marks.
    Quoted(Box<Message>),
    /// A quantity in the form in which it is shown.
    Amount(Amount),
    /// "1 to 540 km/h": what a bound allows, in a unit.
    Range(&'static Bound, &'static Unit),
    /// "kg, lb, g or t": the units of a dimension.
    Units(Dim),
    /// A number as a table of the program has it, with a point; it is shown with the mark spoken.
    Marked(String),
    /// A number; its placeholder says to how many places.
    Number(Exact),
    /// A count.
    Count(i64),
    /// What was typed, and names, paths and symbols: the same in every language.
    Typed(String),
    /// The same, where the program has it by heart.
    Symbol(&'static str),
    /// Why a text is no number.
    Entry(Box<EntryError>),
}

impl Message {
    /// Nothing.
    pub const NOTHING: Message = Message::Symbol("");

    /// This and another sentence behind it.
    #[must_use]
    pub fn and(self, behind: impl Into<Message>) -> Message {
        Message::row([self, behind.into()], " ")
    }

    /// Several, with this between them.
    pub fn row<T: Into<Message>>(parts: impl IntoIterator<Item = T>, between: &'static str) -> Message {
        Message::Row(parts.into_iter().map(Into::into).collect(), between)
    }

    /// A person says this so, in one of the languages; capitals do not count.
    pub fn is_said(&self, by: &str) -> bool {
        Language::ALL.into_iter().any(|language| {
            let _voice = speak(Voice { language, ..spoken() });
            self.to_string().trim().to_lowercase() == by.trim().to_lowercase()
        })
    }

    /// As a word that is in a sentence.
    #[must_use]
    pub fn inside(self) -> Message {
        Message::Inside(Box::new(self))
    }

    /// Without what it begins with.
    #[must_use]
    pub fn without(self, head: Message) -> Message {
        Message::Without(Box::new(self), Box::new(head))
    }

    /// With a capital at its beginning.
    #[must_use]
    pub fn first_capital(self) -> Message {
        Message::FirstCapital(Box::new(self))
    }

    /// In quotation marks.
    #[must_use]
    pub fn quoted(self) -> Message {
        Message::Quoted(Box::new(self))
    }
}

impl fmt::Display for Message {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Message::Word(word) => f.write_str(word.said()),
            Message::Filled(text, with) => {
                let with: Vec<(&str, &dyn fmt::Display)> = with.iter().map(|(name, is)| (*name, is as _)).collect();
                f.write_str(&fill(text.0, &with))
            }
            Message::Row(parts, between) => {
                for (i, part) in parts.iter().enumerate() {
                    f.write_str(if i > 0 { between } else { "" })?;
                    write!(f, "{part}")?;
                }
                Ok(())
            }
            Message::Inside(word) => f.write_str(&super::language::inside(&word.to_string())),
            Message::FirstCapital(text) => {
                let text = text.to_string();
                let mut letters = text.chars();
                letters.next().into_iter().flat_map(char::to_uppercase).try_for_each(|c| f.write_char(c))?;
                f.write_str(letters.as_str())
            }
            Message::Without(text, head) => {
                let text = text.to_string();
                f.write_str(text.strip_prefix(&head.to_string()).unwrap_or(&text))
            }
            Message::Quoted(text) => write!(f, "\"{text}\""),
            Message::Amount(amount) => write!(f, "{amount}"),
            Message::Range(bound, unit) => f.write_str(&display::range(bound, unit)),
            Message::Units(dim) => f.write_str(&table::phrase(*dim)),
            Message::Marked(number) => f.write_str(&mark(number.clone())),
            // With the places that the placeholder asks for.
            Message::Number(number) => number.fmt(f),
            Message::Count(count) => count.fmt(f),
            Message::Typed(text) => f.write_str(text),
            Message::Symbol(text) => f.write_str(text),
            Message::Entry(error) => write!(f, "{error}"),
        }
    }
}

impl Serialize for Message {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}

impl From<Message> for String {
    fn from(message: Message) -> Self {
        message.to_string()
    }
}

macro_rules! from {
    ($($type:ty => |$value:ident| $message:expr),+ $(,)?) => { $(
        impl From<$type> for Message {
            fn from($value: $type) -> Self {
                $message
            }
        }
    )+ };
}

from!(
    Word => |word| Message::Word(word),
    &Word => |word| Message::Word(*word),
    Amount => |amount| Message::Amount(amount),
    f64 => |number| Message::Number(Exact(number)),
    usize => |count| Message::Count(i64::try_from(count).unwrap_or(i64::MAX)),
    i32 => |count| Message::Count(count.into()),
    u16 => |count| Message::Count(count.into()),
    u32 => |count| Message::Count(count.into()),
    String => |text| Message::Typed(text),
    &String => |text| Message::Typed(text.clone()),
    &str => |text| Message::Typed(text.to_owned()),
    char => |letter| Message::Typed(letter.into()),
    &Unit => |unit| Message::Symbol(unit.symbol),
    EntryError => |error| Message::Entry(Box::new(error)),
    &EntryError => |error| Message::Entry(Box::new(error.clone())),
    &Message => |message| message.clone(),
);

/// A [`Message`]: a text of the table, its placeholders filled as in [`say!`](crate::say), but put into words only
/// where it is shown.
///
/// ```
/// use springwright::base::language::{Language, Voice, Word, speak};
/// use springwright::message;
/// let share = message!("{side}: the unsprung mass is {share:.0} % of the corner reading; up to {limit:.0} % is usual here. Check both values.", side = Word("Front"), share = 31.4, limit = 25.0);
/// assert!(share.to_string().starts_with("Front: the unsprung mass is 31 %"));
/// let _voice = speak(Voice { language: Language::German, ..Voice::default() });
/// assert!(share.to_string().starts_with("Vorn: "));
/// ```
#[macro_export]
macro_rules! message {
    (@value $name:ident) => { $name };
    (@value $name:ident = $value:expr) => { $value };
    ($text:literal $(,)?) => {
        $crate::base::message::Message::Word($crate::base::language::Word($text))
    };
    ($text:literal, $($name:ident $(= $value:expr)?),+ $(,)?) => {{
        // Never run: the compiler holds the placeholders against the names.
        if false {
            let _ = ::std::format_args!($text, $($name = ""),+);
        }
        $crate::base::message::Message::Filled(
            $crate::base::language::Word($text),
            ::std::vec![$((
                ::std::stringify!($name),
                $crate::base::message::Message::from($crate::message!(@value $name $(= $value)?)),
            )),+],
        )
    }};
}
