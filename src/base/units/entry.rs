//! [`Entry`]: one field of the job, exactly as the user typed it.

mod written;

use std::marker::PhantomData;

use serde::{Deserialize, Serialize};

use super::entry_error::EntryError;
use super::parse::{self, Number};
use super::{DecimalMark, Dim, Quantity, Unit};
use crate::base::language::Word;

/// Where a number comes from. Ordered by how far it can be trusted.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Origin {
    /// Someone's estimate.
    Guessed,
    /// From a catalogue, a plate or a seller.
    Quoted,
    /// Computed from a list of parts.
    Ledger,
    /// Read from a scale, a tape or a press on this vehicle.
    Measured,
}

impl Origin {
    /// All origins, least to most trusted.
    pub const ALL: [Origin; 4] = [Origin::Guessed, Origin::Quoted, Origin::Ledger, Origin::Measured];

    /// The key in results.
    pub fn key(self) -> &'static str {
        match self {
            Origin::Guessed => "guessed",
            Origin::Quoted => "quoted",
            Origin::Ledger => "ledger",
            Origin::Measured => "measured",
        }
    }

    /// The word shown on screen and sheets.
    pub fn word(self) -> Word {
        match self {
            Origin::Guessed => Word("guessed"),
            Origin::Quoted => Word("quoted"),
            Origin::Ledger => Word("from a parts ledger"),
            Origin::Measured => Word("measured"),
        }
    }
}

/// What a stated ± means.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
pub enum Spread {
    /// Limits: rectangular, standard uncertainty ± / √3 (source `GUM`, 4.3.7).
    #[default]
    Limits,
    /// One standard uncertainty.
    Standard,
}

/// An earlier reading of the same field. It is kept when a better one arrives.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Earlier {
    /// The text as it stood.
    pub text: String,
    /// Where it came from.
    pub origin: Origin,
}

/// Where a number comes from and how sure it is.
#[derive(Debug, Clone, PartialEq, Default)]
struct About {
    origin: Option<Origin>,
    /// The ± as typed, with a unit or in %; blank when not stated.
    pm: String,
    spread: Spread,
    /// What stood here before under another origin.
    earlier: Vec<Earlier>,
}

static NOTHING: About = About { origin: None, pm: String::new(), spread: Spread::Limits, earlier: Vec::new() };

/// A number with its unit as typed, its origin and its ±. Blank when nothing was typed.
///
/// The text is never changed by the program: a text that cannot be read stays,
/// and [`Entry::read`] says what is wrong with it.
#[derive(Debug, Clone)]
pub struct Entry<Q> {
    /// Exactly what was typed, with the unit.
    pub text: String,
    /// Boxed, since most fields of a job say nothing here; `None` is the same as not stated.
    about: Option<Box<About>>,
    quantity: PhantomData<Q>,
}

impl<Q> Entry<Q> {
    /// Nothing is typed.
    pub fn is_blank(&self) -> bool {
        self.text.trim().is_empty()
    }

    fn about(&self) -> &About {
        self.about.as_deref().unwrap_or(&NOTHING)
    }

    fn about_mut(&mut self) -> &mut About {
        self.about.get_or_insert_default()
    }
}

impl<Q> PartialEq for Entry<Q> {
    fn eq(&self, other: &Self) -> bool {
        // Most fields are blank, and a job is compared several times in a frame: comparing nothing with nothing takes a
        // processor long where the C library reads, masked out, from where an empty text points to.
        let is_same_text = self.text.len() == other.text.len() && (self.text.is_empty() || self.text == other.text);
        is_same_text && ((self.about.is_none() && other.about.is_none()) || self.about() == other.about())
    }
}

impl<Q> Default for Entry<Q> {
    fn default() -> Self {
        Entry { text: String::new(), about: None, quantity: PhantomData }
    }
}

impl<Q> From<&str> for Entry<Q> {
    fn from(text: &str) -> Self {
        Entry { text: text.to_owned(), ..Entry::default() }
    }
}

impl<Q: Quantity> Entry<Q> {
    /// The quantity typed; `None` when the field is blank.
    ///
    /// # Errors
    /// [`EntryError`] when the text is not a number of this quantity.
    pub fn read(&self, mark: DecimalMark) -> Result<Option<Q>, EntryError> {
        Ok(self.number(mark)?.map(|n| Q::from_si(n.si())))
    }

    /// The stated standard uncertainty in SI; `None` when none was stated.
    ///
    /// # Errors
    /// [`EntryError`] when the ± is neither a number of this quantity nor a percentage.
    pub fn standard_uncertainty_si(&self, mark: DecimalMark) -> Result<Option<f64>, EntryError> {
        let about = self.about();
        if about.pm.trim().is_empty() {
            return Ok(None);
        }
        let whole_si = self.number(mark)?.map_or(0.0, |n| n.si());
        standard_si(&about.pm, about.spread, Q::DIM, whole_si, mark).map(Some)
    }
}

/// A ± as typed, as a standard uncertainty in SI, about a value.
fn standard_si(pm: &str, spread: Spread, dim: Dim, whole_si: f64, mark: DecimalMark) -> Result<f64, EntryError> {
    let pm_si = within_si(pm, dim, whole_si, mark)?;
    Ok(match spread {
        Spread::Standard => pm_si,
        Spread::Limits => from_limits_si(pm_si),
    })
}

/// A ± as written, in SI about a value: with its unit, or in % of it.
///
/// # Errors
/// [`EntryError`] when it is neither a number of this dimension nor a percentage.
pub fn within_si(pm: &str, dim: Dim, whole_si: f64, mark: DecimalMark) -> Result<f64, EntryError> {
    let (pm_si, of) = match parse::number(pm, Dim::Ratio, mark) {
        Ok(share) if share.unit.symbol == "%" => (share.si(), whole_si.abs()),
        Ok(share) if dim == Dim::Ratio => (share.si(), 1.0),
        _ => (parse::number(pm, dim, mark)?.si(), 1.0),
    };
    if pm_si < 0.0 {
        return Err(EntryError::Negative { text: pm.trim().to_owned() });
    }
    Ok(pm_si * of)
}

/// The standard uncertainty of limits so far either way: rectangular. Source `GUM`, 4.3.7.
pub fn from_limits_si(within_si: f64) -> f64 {
    within_si / 3.0_f64.sqrt()
}

/// A field of the job without its quantity's type, for what treats all fields alike.
pub trait AnyEntry {
    /// What the field measures.
    fn dim(&self) -> Dim;
    /// The text as typed.
    fn text(&self) -> &str;
    /// The number typed; `None` when blank.
    ///
    /// # Errors
    /// [`EntryError`] when the text is not a number of this dimension.
    fn number(&self, mark: DecimalMark) -> Result<Option<Number>, EntryError>;
    /// Checks the ± as typed.
    ///
    /// # Errors
    /// [`EntryError`] when it cannot be read.
    fn check_spread(&self, mark: DecimalMark) -> Result<(), EntryError>;
    /// The standard uncertainty in SI about a value, as stated.
    ///
    /// `None` when nothing is stated, or nothing that can be read.
    fn stated_si(&self, whole_si: f64, mark: DecimalMark) -> Option<f64>;
    /// Origin of the number, if stated.
    fn origin(&self) -> Option<Origin>;
    /// Takes a text typed under a shown unit: a bare number gets that unit.
    fn type_text(&mut self, typed: &str, shown: &Unit, mark: DecimalMark);
    /// Names the origin. A reading under another origin moves to `earlier`.
    fn set_origin(&mut self, origin: Option<Origin>);
    /// What stood here before under another origin.
    fn earlier(&self) -> &[Earlier];
    /// The ± text and what it means.
    fn pm(&self) -> (&str, Spread);
    /// Takes a ± as typed and what it means.
    fn set_pm(&mut self, pm: &str, spread: Spread);
}

impl<Q: Quantity> AnyEntry for Entry<Q> {
    fn dim(&self) -> Dim {
        Q::DIM
    }

    fn text(&self) -> &str {
        &self.text
    }

    fn number(&self, mark: DecimalMark) -> Result<Option<Number>, EntryError> {
        if self.text.trim().is_empty() {
            return Ok(None);
        }
        parse::number(&self.text, Q::DIM, mark).map(Some)
    }

    fn check_spread(&self, mark: DecimalMark) -> Result<(), EntryError> {
        self.standard_uncertainty_si(mark).map(|_| ())
    }

    fn stated_si(&self, whole_si: f64, mark: DecimalMark) -> Option<f64> {
        let about = self.about();
        standard_si(&about.pm, about.spread, Q::DIM, whole_si, mark).ok()
    }

    fn origin(&self) -> Option<Origin> {
        self.about().origin
    }

    fn type_text(&mut self, typed: &str, shown: &Unit, mark: DecimalMark) {
        self.text = if parse::is_bare(typed, mark) && !shown.symbol.is_empty() {
            format!("{} {}", typed.trim(), shown.symbol)
        } else {
            typed.to_owned()
        };
    }

    fn set_origin(&mut self, origin: Option<Origin>) {
        let before = self.about().origin;
        if before == origin {
            return;
        }
        let text = self.text.clone();
        let about = self.about_mut();
        if let (Some(old), Some(_)) = (before, origin)
            && !text.trim().is_empty()
        {
            about.earlier.retain(|e| e.origin != old);
            about.earlier.push(Earlier { text, origin: old });
        }
        about.origin = origin;
    }

    fn earlier(&self) -> &[Earlier] {
        &self.about().earlier
    }

    fn pm(&self) -> (&str, Spread) {
        (&self.about().pm, self.about().spread)
    }

    fn set_pm(&mut self, pm: &str, spread: Spread) {
        if (pm, spread) != self.pm() {
            let about = self.about_mut();
            (about.pm, about.spread) = (pm.to_owned(), spread);
        }
    }
}
