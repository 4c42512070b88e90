//! The table of fields: label, meaning, what is usual, what is allowed, and the default.
//!
//! One row per field; the window, the findings, the file documentation and the
//! solver all read this table. To add a field: add it to the tree in
//! [`crate::job`], add its row here, use it in [`crate::solve`].

mod place;
mod table;

use std::borrow::Cow;
use std::collections::HashMap;
use std::sync::LazyLock;

use super::{Defaults, Job, Side};
use crate::base::bounds::Bound;
use crate::base::language::Word;
use crate::base::message::Message;
use crate::base::units::amount::Exact;
use crate::base::units::{Amount, DecimalMark, Dim, Unit, UnitChoice, parse};
use crate::message;
pub use place::{Place, Scope, full_label};
pub use table::FIELDS;

/// Which values are possible at all. Anything else is refused, not repaired.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Possible {
    /// Any finite number.
    Any,
    /// Above zero.
    AboveZero,
    /// Zero or above.
    NotNegative,
}

impl Possible {
    /// Whether a value in SI is possible.
    pub fn allows(self, si: f64) -> bool {
        match self {
            Possible::Any => true,
            Possible::AboveZero => si > 0.0,
            Possible::NotNegative => si >= 0.0,
        }
    }

    /// "must be above zero".
    pub fn phrase(self) -> Word {
        match self {
            Possible::Any => Word("may be any number"),
            Possible::AboveZero => Word("must be above zero"),
            Possible::NotNegative => Word("must be zero or above"),
        }
    }
}

/// A default: a text as it could have been typed, and why.
pub type DefaultOf = fn(&Job, Side) -> (&'static str, &'static str);

/// How well a field can be read.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Reading {
    /// So far either way, with its unit or in % of the value.
    Within(&'static str),
    /// As the scales do, this number of them together.
    Scales(f64),
    /// As a tape does.
    Tape,
    /// A change of ratio: when it was not measured, whatever the suspension may have.
    Slope,
    /// A rate as bought: true to the shop's tolerance, whatever its origin.
    BoughtRate,
    /// A length as bought: true to the shop's tolerance, whatever its origin.
    BoughtLength,
}

/// One row of the table.
#[derive(Debug, Clone, Copy)]
pub struct Field {
    /// Path within the axle, the weighing or the job, row numbers left out.
    pub key: &'static str,
    /// The name on screen and in messages.
    label: &'static str,
    /// What it measures.
    pub dim: Dim,
    /// Which values are possible.
    pub possible: Possible,
    /// How small and how large it can be, in SI, where that is less than what its quantity can be.
    pub bound: Option<&'static Bound>,
    /// What is usual, in SI; outside is a question, not a refusal.
    pub usual: Option<(f64, f64)>,
    /// What is used when the field is blank.
    pub default: Option<DefaultOf>,
    /// How well it can be read: the ± (limits) of a value that states none; common practice, no source. `None`:
    /// no measurement, but a wish, a limit or a step.
    pub reading: Option<Reading>,
    /// The default is no guess: a handbook's value, or a gauge that is believed. It is as sure as a reading.
    pub firm: bool,
    /// How to measure it, where it counts.
    help: &'static str,
}

impl Field {
    const fn new(key: &'static str, label: &'static str, dim: Dim, possible: Possible, help: &'static str) -> Self {
        let bound = None;
        Field { key, label, dim, possible, bound, usual: None, default: None, reading: None, firm: false, help }
    }

    const fn usual(mut self, low_si: f64, high_si: f64) -> Self {
        self.usual = Some((low_si, high_si));
        self
    }

    const fn bound(mut self, bound: &'static Bound) -> Self {
        self.bound = Some(bound);
        self
    }

    const fn default(mut self, default: DefaultOf) -> Self {
        self.default = Some(default);
        self
    }

    const fn reading(mut self, pm: &'static str) -> Self {
        self.reading = Some(Reading::Within(pm));
        self
    }

    /// Read off that many scales.
    const fn scales(mut self, count: f64) -> Self {
        self.reading = Some(Reading::Scales(count));
        self
    }

    const fn tape(mut self) -> Self {
        self.reading = Some(Reading::Tape);
        self
    }

    /// Its ± is that of what is bought, or by the suspension.
    const fn sure(mut self, reading: Reading) -> Self {
        self.reading = Some(reading);
        self
    }

    const fn firm(mut self) -> Self {
        self.firm = true;
        self
    }

    /// The name on screen and in messages.
    pub fn label(&self) -> Word {
        Word(self.label)
    }

    /// How to measure it, where it counts.
    pub fn help(&self) -> Word {
        Word(self.help)
    }

    /// Whether a value in SI is possible, and within the field's own bound.
    pub fn allows(&self, si: f64) -> bool {
        self.possible.allows(si) && self.bound.is_none_or(|b| b.holds(si))
    }

    /// "must be above zero, 0.9 to 540 km/h".
    pub fn must(&self, unit: &'static Unit) -> Message {
        let range = self.bound.map(|bound| Message::Range(bound, unit));
        Message::row([Message::from(self.possible.phrase())].into_iter().chain(range), ", ")
    }

    /// What a blank field means: a text as it could have been typed, and why.
    pub fn when_blank(&self, job: &Job, side: Side) -> Option<(&'static str, Word)> {
        let (text, reason) = (self.default?)(job, side);
        Some((text, Word(reason)))
    }

    /// A default or a ± of this field in the unit shown, to three figures where it is written in another one.
    pub fn in_units(&self, text: &str, units: &UnitChoice) -> Message {
        let shown = units.unit(self.dim);
        match parse::number(text, self.dim, DecimalMark::Point) {
            Ok(number) if self.dim != Dim::Ratio && number.unit.symbol != shown.symbol => {
                Amount::figures(number.si(), 3, shown).into()
            }
            _ => Message::Marked(text.to_owned()),
        }
    }

    /// "70 to 1,400 kg" in the units shown.
    pub fn usual_phrase(&self, units: &UnitChoice) -> Option<Message> {
        let (low, high) = self.usual?;
        let unit = units.unit(self.dim);
        Some(message!("{low} to {high}", low = Amount::number(low, unit), high = Amount::Rounded(Exact(high), unit)))
    }
}

/// Lists of rows in an axle, by path.
pub const LISTS: [&str; 7] = [
    "ratio.rows",
    "damper_ratio.rows",
    "spring.points",
    "spring.leaf.rows",
    "stop.rows",
    "damper.rows",
    "new_damper.rows",
];

/// ± of a change of ratio that was typed: what rows read with a tape give; common practice, no source.
pub(super) const TYPED_SLOPE: &str = "0.2 1/m";

const PRACTICE: &str = "common practice, no source";

fn by_units<'a>(job: &Job, metric: &'a str, pound_inch: &'a str) -> &'a str {
    if job.in_pounds_and_inches() { pound_inch } else { metric }
}

/// The row with this key. Every solve asks for each field: found by hash, not by comparing texts.
pub fn by_key(key: &str) -> Option<&'static Field> {
    static ROWS: LazyLock<HashMap<&str, &Field>> = LazyLock::new(|| FIELDS.iter().map(|f| (f.key, f)).collect());
    ROWS.get(key).copied()
}

/// The row for a path in the job, and which axle or weighing it belongs to.
///
/// `front.ratio.rows[2].wheel` is `ratio.rows.wheel` of "Front, row 3".
pub fn by_path(path: &str) -> Option<(&'static Field, Place)> {
    let (key, place) = key_of(path)?;
    by_key(&key).map(|field| (field, place))
}

/// The key of a path in the job, of a field or of a list, and where it is.
///
/// `before.loads` is `weighing.loads` of the weigh-in before, `plans[0].front.taken.rate` the axle's `taken.rate`. `None` for a path that is not well formed.
pub fn key_of(path: &str) -> Option<(Cow<'_, str>, Place)> {
    let (head, tail) = path.split_once('.').unwrap_or((path, ""));
    if let Some(plan) = head.strip_prefix("plans[").filter(|_| !tail.is_empty() && tail != "name") {
        let plan = plan.strip_suffix(']')?.parse::<usize>().ok()?;
        return key_of(tail).map(|(key, place)| (key, Place { plan: Some(plan + 1), ..place }));
    }
    let (scope, key) = match head {
        "front" => (Scope::Axle(Side::Front), tail),
        "rear" => (Scope::Axle(Side::Rear), tail),
        "before" | "after" => (Scope::Weighing(head == "before"), tail),
        _ => (Scope::Job, path),
    };
    let (bare, rows) = without_rows(key)?;
    let key = if matches!(scope, Scope::Weighing(_)) { Cow::from(format!("weighing.{bare}")) } else { bare };
    Some((key, Place { plan: None, scope, rows }))
}

/// `cases[1].loads[0].mass` as `cases.loads.mass` and its rows as people count them, 2 and 1.
fn without_rows(key: &str) -> Option<(Cow<'_, str>, [Option<usize>; 2])> {
    let mut rows = [None; 2];
    if !key.contains('[') {
        return Some((Cow::from(key), rows));
    }
    let mut bare = String::with_capacity(key.len());
    let mut rest = key;
    let mut found = rows.iter_mut();
    while let Some((list, behind)) = rest.split_once('[') {
        let (number, field) = behind.split_once(']')?;
        *found.next()? = number.parse::<usize>().ok().map(|n| n + 1);
        bare.push_str(list);
        rest = field;
    }
    bare.push_str(rest);
    Some((Cow::from(bare), rows))
}

/// The table as Markdown, for the description of the file format.
pub fn markdown() -> String {
    let job = Job::default();
    let pound_inch = Job { defaults: Defaults::PoundInch, ..Job::default() };
    let mut out = String::from(
        "| field | meaning | kind | possible | usual | ± unless stated | when blank |\n|---|---|---|---|---|---|---|\n",
    );
    for f in FIELDS {
        let when_blank = match f.when_blank(&job, Side::Front) {
            Some((text, reason)) => match f.when_blank(&pound_inch, Side::Front) {
                Some((inches, _)) if inches != text => format!("{text}, in pounds and inches {inches} ({reason})"),
                _ => format!("{text} ({reason})"),
            },
            None => "not known".to_owned(),
        };
        let usual = f.usual_phrase(&job.units).unwrap_or(Message::NOTHING);
        out += &format!(
            "| `{}` | **{}.** {} | {} | {} | {usual} | {} | {when_blank} |\n",
            f.key,
            f.label(),
            f.help(),
            f.dim.noun(),
            f.must(job.units.unit(f.dim)),
            f.reading.map(reading_words).unwrap_or_default()
        );
    }
    out
}

fn reading_words(reading: Reading) -> String {
    match reading {
        Reading::Within(pm) => pm.to_owned(),
        Reading::Scales(1.0) => "`certainty.scales`".to_owned(),
        Reading::Scales(count) => format!("{count} × `certainty.scales`"),
        Reading::Tape => "`certainty.tape`".to_owned(),
        Reading::Slope => format!("{TYPED_SLOPE}; blank: by `suspension`, two arms 0.3, strut 0.8, beam 0 1/m"),
        Reading::BoughtRate => "`limits.rate_tolerance`".to_owned(),
        Reading::BoughtLength => "`limits.length_tolerance`".to_owned(),
    }
}
