//! [`Entry`]: one field of the job, exactly as the user typed it.

use std::fmt;
use std::marker::PhantomData;

use serde::de::value::MapAccessDeserializer;
use serde::de::{MapAccess, Visitor};
use serde::{Deserialize, Deserializer, Serialize, Serializer};

use super::parse::{self, DecimalMark, EntryError, Number};
use super::{Dim, Quantity, Unit};

/// Where a number comes from. Ordered by how far it can be trusted.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Origin {
    /// Somebody's estimate.
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

    /// The word shown on screen and sheets.
    pub fn word(self) -> &'static str {
        match self {
            Origin::Guessed => "guessed",
            Origin::Quoted => "quoted",
            Origin::Ledger => "from a parts ledger",
            Origin::Measured => "measured",
        }
    }
}

/// What a stated ± means.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
pub enum Spread {
    /// Surely inside: rectangular, standard uncertainty ± / √3 (source `GUM`, 4.3.7).
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

/// A number with its unit as typed, its origin and its ±. Blank when nothing was typed.
///
/// The text is never changed by the program: a text that cannot be read stays,
/// and [`Entry::read`] says what is wrong with it.
#[derive(Debug, Clone, PartialEq)]
pub struct Entry<Q> {
    /// Exactly what was typed, with the unit.
    pub text: String,
    /// Where the number comes from, if said.
    pub origin: Option<Origin>,
    /// The ± as typed, with a unit or in %; blank when not stated.
    pub pm: String,
    /// What the ± means.
    pub spread: Spread,
    /// What stood here before under another origin.
    pub earlier: Vec<Earlier>,
    quantity: PhantomData<Q>,
}

impl<Q> Default for Entry<Q> {
    fn default() -> Self {
        Entry {
            text: String::new(),
            origin: None,
            pm: String::new(),
            spread: Spread::default(),
            earlier: Vec::new(),
            quantity: PhantomData,
        }
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
    /// [`EntryError`] when the text is no number of this quantity.
    pub fn read(&self, mark: DecimalMark) -> Result<Option<Q>, EntryError> {
        Ok(self.number(mark)?.map(|n| Q::from_si(n.si())))
    }

    /// The stated standard uncertainty in SI; `None` when none was stated.
    ///
    /// # Errors
    /// [`EntryError`] when the ± is neither a number of this quantity nor a percentage.
    pub fn standard_uncertainty_si(&self, mark: DecimalMark) -> Result<Option<f64>, EntryError> {
        if self.pm.trim().is_empty() {
            return Ok(None);
        }
        let half_width_si = match parse::number(&self.pm, Dim::Ratio, mark) {
            Ok(share) if share.unit.symbol == "%" || Q::DIM == Dim::Ratio => {
                let whole_si = self.number(mark)?.map_or(0.0, |n| n.si());
                if share.unit.symbol == "%" { share.si() * whole_si } else { share.si() }
            }
            _ => parse::number(&self.pm, Q::DIM, mark)?.si(),
        };
        Ok(Some(match self.spread {
            Spread::Standard => half_width_si.abs(),
            Spread::Limits => half_width_si.abs() / 3.0_f64.sqrt(),
        }))
    }
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
    /// [`EntryError`] when the text is no number of this dimension.
    fn number(&self, mark: DecimalMark) -> Result<Option<Number>, EntryError>;
    /// Checks the ± as typed.
    ///
    /// # Errors
    /// [`EntryError`] when it cannot be read.
    fn check_spread(&self, mark: DecimalMark) -> Result<(), EntryError>;
    /// Where the number comes from, if said.
    fn origin(&self) -> Option<Origin>;
    /// Takes a text typed under a shown unit: a bare number gets that unit.
    fn type_text(&mut self, typed: &str, shown: &Unit, mark: DecimalMark);
    /// Names the origin. A reading under another origin moves to `earlier`.
    fn set_origin(&mut self, origin: Option<Origin>);
    /// What stood here before under another origin.
    fn earlier(&self) -> &[Earlier];
    /// The ± text and what it means, to edit.
    fn spread_mut(&mut self) -> (&mut String, &mut Spread);
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

    fn origin(&self) -> Option<Origin> {
        self.origin
    }

    fn type_text(&mut self, typed: &str, shown: &Unit, mark: DecimalMark) {
        self.text = if parse::is_bare(typed, mark) && !shown.symbol.is_empty() {
            format!("{} {}", typed.trim(), shown.symbol)
        } else {
            typed.to_owned()
        };
    }

    fn set_origin(&mut self, origin: Option<Origin>) {
        if self.origin == origin {
            return;
        }
        if let (Some(old), Some(_)) = (self.origin, origin)
            && !self.text.trim().is_empty()
        {
            self.earlier.retain(|e| e.origin != old);
            self.earlier.push(Earlier { text: self.text.clone(), origin: old });
        }
        self.origin = origin;
    }

    fn earlier(&self) -> &[Earlier] {
        &self.earlier
    }

    fn spread_mut(&mut self) -> (&mut String, &mut Spread) {
        (&mut self.pm, &mut self.spread)
    }
}

/// The long form of an entry in a file.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields, rename = "Entry")]
struct Full {
    text: String,
    #[serde(default, skip_serializing_if = "Option::is_none", serialize_with = "without_some")]
    origin: Option<Origin>,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pm: String,
    #[serde(default, skip_serializing_if = "is_limits")]
    spread: Spread,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    earlier: Vec<Earlier>,
}

/// Writes `Measured`, not `Some(Measured)`.
fn without_some<S: Serializer>(origin: &Option<Origin>, serializer: S) -> Result<S::Ok, S::Error> {
    match origin {
        Some(origin) => origin.serialize(serializer),
        None => serializer.serialize_none(),
    }
}

fn is_limits(spread: &Spread) -> bool {
    *spread == Spread::Limits
}

impl<Q> Serialize for Entry<Q> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        if self.origin.is_none() && self.pm.is_empty() && self.earlier.is_empty() && self.spread == Spread::Limits {
            return serializer.serialize_str(&self.text);
        }
        Full {
            text: self.text.clone(),
            origin: self.origin,
            pm: self.pm.clone(),
            spread: self.spread,
            earlier: self.earlier.clone(),
        }
        .serialize(serializer)
    }
}

impl<'de, Q> Deserialize<'de> for Entry<Q> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct TextOrFull<Q>(PhantomData<Q>);
        impl<'de, Q> Visitor<'de> for TextOrFull<Q> {
            type Value = Entry<Q>;

            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("a quoted number with its unit such as \"420 lb/in\", or (text: \"420 lb/in\", origin: Measured, pm: \"5 lb/in\")")
            }

            fn visit_str<E>(self, text: &str) -> Result<Self::Value, E> {
                Ok(Entry::from(text))
            }

            fn visit_map<A: MapAccess<'de>>(self, map: A) -> Result<Self::Value, A::Error> {
                let full = Full::deserialize(MapAccessDeserializer::new(map))?;
                Ok(Entry {
                    text: full.text,
                    origin: full.origin,
                    pm: full.pm,
                    spread: full.spread,
                    earlier: full.earlier,
                    quantity: PhantomData,
                })
            }
        }
        deserializer.deserialize_any(TextOrFull(PhantomData))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::{Mass, SpringRate, table};

    fn read(text: &str) -> Result<Entry<SpringRate>, ron::error::SpannedError> {
        let implicit_some = ron::extensions::Extensions::IMPLICIT_SOME;
        ron::Options::default().with_default_extension(implicit_some).from_str(text)
    }

    #[test]
    fn short_and_long_form_survive_a_file() {
        let short: Entry<SpringRate> = ron::from_str("\"420 lb/in\"").expect("short form");
        assert_eq!(short.text, "420 lb/in");
        assert_eq!(ron::to_string(&short).expect("writes"), "\"420 lb/in\"");
        let long: Entry<SpringRate> =
            read("(text: \"420 lb/in\", origin: Measured, pm: \"2 %\", spread: Standard)").expect("long form");
        let again: Entry<SpringRate> = read(&ron::to_string(&long).expect("writes")).expect("reads");
        assert_eq!(long, again);
        let u = long.standard_uncertainty_si(DecimalMark::Point).expect("reads").expect("stated");
        assert!((u - 0.02 * 420.0 * 175.126_835).abs() < 1e-3);
    }

    #[test]
    fn a_bare_number_takes_the_shown_unit_and_other_text_stays_as_typed() {
        let lb = table::find(Dim::Mass, "lb").expect("lb");
        let mut entry = Entry::<Mass>::default();
        entry.type_text("1,155", lb, DecimalMark::Point);
        assert_eq!(entry.text, "1,155 lb");
        entry.type_text("524 kg", lb, DecimalMark::Point);
        assert_eq!(entry.text, "524 kg");
        entry.type_text("about half", lb, DecimalMark::Point);
        assert_eq!(entry.text, "about half");
    }

    #[test]
    fn a_better_reading_keeps_the_earlier_one() {
        let mut entry = Entry::<SpringRate>::from("400 lb/in");
        entry.set_origin(Some(Origin::Quoted));
        entry.set_origin(Some(Origin::Measured));
        entry.text = "420 lb/in".into();
        assert_eq!(entry.earlier, [Earlier { text: "400 lb/in".into(), origin: Origin::Quoted }]);
    }
}
