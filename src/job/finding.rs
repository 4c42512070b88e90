//! What the program has to say about a job: one list, worst first.

use super::Mend;
use crate::base::language::Word;
use crate::base::message::Message;

/// How much a finding weighs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Level {
    /// Worth knowing.
    Note,
    /// Doubtful: the answer is valid, but look again.
    Doubt,
    /// A doubt that makes the answer worthless: no part is named until it is settled.
    Withheld,
    /// Cannot be: this value is not used.
    Error,
    /// Stop: no spring is recommended.
    Stop,
}

impl Level {
    /// The key in results.
    pub fn key(self) -> &'static str {
        match self {
            Level::Note => "note",
            Level::Doubt => "check",
            Level::Withheld => "withheld",
            Level::Error => "error",
            Level::Stop => "STOP",
        }
    }

    /// The word in front of the text.
    pub fn word(self) -> Word {
        match self {
            Level::Note => Word("note"),
            Level::Doubt => Word("check"),
            Level::Withheld => Word("withheld"),
            Level::Error => Word("error"),
            Level::Stop => Word("STOP"),
        }
    }
}

/// One finding.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Finding {
    /// How much it weighs.
    pub level: Level,
    /// A stable name of the rule, for tests and scripts.
    pub rule: &'static str,
    /// The path of the field it concerns; empty for the whole job.
    pub field: String,
    /// What is wrong, with value, what is usual or allowed, and what to do.
    pub text: Message,
    /// What would mend it, the likeliest first; each by one click.
    pub mends: Vec<Mend>,
    /// Paths of the fields that the rule rests on, where it can be overruled; empty where it cannot.
    pub rests_on: Vec<String>,
}

impl Finding {
    /// A finding about a field.
    pub fn new(level: Level, rule: &'static str, field: impl Into<String>, text: impl Into<Message>) -> Self {
        Finding { level, rule, field: field.into(), text: text.into(), mends: Vec::new(), rests_on: Vec::new() }
    }
}

impl Finding {
    /// It would withhold an axle, if it were not overruled.
    pub fn is_overruled(&self) -> bool {
        self.level == Level::Doubt && !self.rests_on.is_empty()
    }

    /// It withholds an axle, and an engineer may overrule it.
    pub fn can_be_overruled(&self) -> bool {
        self.level == Level::Withheld && !self.rests_on.is_empty()
    }
}

/// The worst level in a list.
pub fn worst(findings: &[Finding]) -> Option<Level> {
    findings.iter().map(|f| f.level).max()
}
