//! An [`Entry`] in a file: its text alone, or with its origin and ±.

use std::fmt;
use std::marker::PhantomData;

use serde::de::value::MapAccessDeserializer;
use serde::de::{Error as _, MapAccess, Visitor};
use serde::{Deserialize, Deserializer, Serialize, Serializer};

use super::{About, Earlier, Entry, NOTHING, Origin, Spread};
use crate::base::bounds::EARLIER;

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
        let about = self.about();
        if *about == NOTHING {
            return serializer.serialize_str(&self.text);
        }
        let About { origin, pm, spread, earlier } = about.clone();
        Full { text: self.text.clone(), origin, pm, spread, earlier }.serialize(serializer)
    }
}

/// How many earlier readings are possible, for a message.
struct AtMost(usize);

impl serde::de::Expected for AtMost {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "at most {} earlier readings of one field", self.0)
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
                let Full { text, origin, pm, spread, earlier } = Full::deserialize(MapAccessDeserializer::new(map))?;
                if earlier.len() > EARLIER.count() {
                    return Err(A::Error::invalid_length(earlier.len(), &AtMost(EARLIER.count())));
                }
                let about = About { origin, pm, spread, earlier };
                Ok(Entry { text, about: (about != NOTHING).then(|| Box::new(about)), quantity: PhantomData })
            }
        }
        deserializer.deserialize_any(TextOrFull(PhantomData))
    }
}
