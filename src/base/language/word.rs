//! An English text of the table as data: each voice says it where it is shown.

use std::fmt;
use std::ops::Deref;

use serde::{Serialize, Serializer};

use super::tr;

/// A text of the table, in English. As a `str` it is in the voice spoken when it is read; two are equal when their
/// English is.
///
/// ```
/// use springwright::base::language::{Language, Voice, Word, speak};
/// let side = Word("Front");
/// let _voice = speak(Voice { language: Language::German, ..Voice::default() });
/// assert_eq!(side.to_string(), "Vorn");
/// assert_eq!(side, Word("Front"));
/// ```
#[derive(Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Word(pub &'static str);

impl Word {
    /// In the voice spoken now.
    pub fn said(self) -> &'static str {
        tr(self.0)
    }
}

impl Deref for Word {
    type Target = str;

    fn deref(&self) -> &str {
        self.said()
    }
}

impl fmt::Display for Word {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.said().fmt(f)
    }
}

impl fmt::Debug for Word {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.fmt(f)
    }
}

impl Serialize for Word {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(self)
    }
}

impl From<Word> for String {
    fn from(word: Word) -> Self {
        word.said().to_owned()
    }
}

/// An enum with the words of each variant: `ALL` lists the variants in the order written, `words` gives their words.
macro_rules! worded {
    ($(#[$of_enum:meta])* pub enum $name:ident {
        $($(#[$of_variant:meta])* $variant:ident => Word($words:literal),)+
    }) => {
        $(#[$of_enum])*
        pub enum $name {
            $($(#[$of_variant])* $variant,)+
        }

        impl $name {
            /// All of them, in the order in which they are shown.
            pub const ALL: [$name; [$($name::$variant),+].len()] = [$($name::$variant),+];

            /// The words on screen and paper.
            pub fn words(self) -> $crate::base::language::Word {
                match self {
                    $($name::$variant => $crate::base::language::Word($words),)+
                }
            }
        }
    };
}
pub(crate) use worded;
