//! Which unit each quantity is shown in. Part of the job, so that a change can be undone.

use serde::{Deserialize, Deserializer, Serialize, Serializer};

use super::table::{self, Unit};
use super::{Dim, Quantity};
use crate::say;

/// A reference to a row of the unit table, written to files by its symbol.
#[derive(Debug, Clone, Copy)]
pub struct Shown(pub &'static Unit);

impl PartialEq for Shown {
    fn eq(&self, other: &Self) -> bool {
        self.0.symbol == other.0.symbol && self.0.dim == other.0.dim
    }
}

/// The unit shown for each quantity. Changing it never changes a result.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct UnitChoice {
    shown: [Shown; DIMS.len()],
}

/// The dimensions a user can choose a unit for, with the key used in files.
pub const DIMS: [(Dim, &str); 15] = [
    (Dim::Mass, "mass"),
    (Dim::Length, "length"),
    (Dim::SpringRate, "spring_rate"),
    (Dim::DampingRate, "damping_rate"),
    (Dim::Frequency, "frequency"),
    (Dim::Velocity, "road_speed"),
    (Dim::Force, "force"),
    (Dim::Pressure, "pressure"),
    (Dim::Angle, "angle"),
    (Dim::Stress, "stress"),
    (Dim::TwistRate, "twist_rate"),
    (Dim::Area, "area"),
    (Dim::Volume, "volume"),
    (Dim::Energy, "energy"),
    (Dim::DamperSpeed, "damper_speed"),
];

impl UnitChoice {
    /// Pounds and inches.
    pub fn pound_inch() -> Self {
        Self::of([
            "lb",
            "in",
            "lb/in",
            "lb·s/in",
            "Hz",
            "mph",
            "lbf",
            "psi",
            "°",
            "ksi",
            "lbf·ft/°",
            "in²",
            "in³",
            "ft·lbf",
            "in/s",
        ])
    }

    /// Kilograms and millimetres.
    pub fn metric() -> Self {
        Self::of(["kg", "mm", "N/mm", "N·s/m", "Hz", "km/h", "N", "bar", "°", "MPa", "N·m/°", "cm²", "cm³", "J", "m/s"])
    }

    fn of(symbols: [&str; DIMS.len()]) -> Self {
        let mut i = 0;
        let shown = symbols.map(|symbol| {
            let dim = DIMS[i].0;
            i += 1;
            Shown(table::find(dim, symbol).unwrap_or(first(dim)))
        });
        UnitChoice { shown }
    }

    /// The unit in which `dim` is shown; what is not chosen by itself goes with the length.
    pub fn unit(&self, dim: Dim) -> &'static Unit {
        if dim == Dim::Acceleration && self.in_inches() {
            return table::find(dim, "ft/s²").unwrap_or(first(dim));
        }
        if dim == Dim::RatioSlope && self.in_inches() {
            return table::find(dim, "1/in").unwrap_or(first(dim));
        }
        DIMS.iter().position(|(d, _)| *d == dim).map_or(first(dim), |i| self.shown[i].0)
    }

    /// Lengths are shown in inches or feet.
    pub fn in_inches(&self) -> bool {
        matches!(self.unit(Dim::Length).symbol, "in" | "ft")
    }

    /// Distances on the road are shown in miles: where speeds are in miles per hour.
    pub fn in_miles(&self) -> bool {
        self.unit(Dim::Velocity).symbol == "mph"
    }

    /// Shows the unit's dimension in this unit from now on.
    pub fn set(&mut self, unit: &'static Unit) {
        if let Some(i) = DIMS.iter().position(|(d, _)| *d == unit.dim) {
            self.shown[i] = Shown(unit);
        }
    }

    /// A quantity's number in the unit in which it is shown.
    pub fn number<Q: Quantity>(&self, quantity: Q) -> f64 {
        quantity.si() / self.unit(Q::DIM).si
    }
}

fn first(dim: Dim) -> &'static Unit {
    table::of(dim).next().unwrap_or(&table::UNITS[0])
}

impl Default for UnitChoice {
    fn default() -> Self {
        Self::metric()
    }
}

/// The form in a file: a map from quantity to unit symbol.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields, default, rename = "Units")]
struct Symbols {
    mass: String,
    length: String,
    spring_rate: String,
    damping_rate: String,
    frequency: String,
    road_speed: String,
    force: String,
    pressure: String,
    angle: String,
    stress: String,
    twist_rate: String,
    area: String,
    volume: String,
    energy: String,
    damper_speed: String,
}

impl Default for Symbols {
    /// Metric; what is left blank goes with the unit of the spring rate.
    fn default() -> Self {
        let blank = String::new;
        Symbols {
            stress: blank(),
            twist_rate: blank(),
            area: blank(),
            volume: blank(),
            energy: blank(),
            damper_speed: blank(),
            ..Symbols::from(UnitChoice::metric())
        }
    }
}

impl From<UnitChoice> for Symbols {
    #[rustfmt::skip]
    fn from(choice: UnitChoice) -> Self {
        let [
            mass, length, spring_rate, damping_rate, frequency, road_speed, force, pressure, angle, stress, twist_rate,
            area, volume, energy, damper_speed,
        ] = choice.shown.map(|s| s.0.symbol.to_owned());
        Symbols {
            mass, length, spring_rate, damping_rate, frequency, road_speed, force, pressure, angle, stress, twist_rate,
            area, volume, energy, damper_speed,
        }
    }
}

impl Serialize for UnitChoice {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        Symbols::from(*self).serialize(serializer)
    }
}

impl<'de> Deserialize<'de> for UnitChoice {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let s = Symbols::deserialize(deserializer)?;
        let mut choice = if s.spring_rate == "lb/in" { UnitChoice::pound_inch() } else { UnitChoice::metric() };
        #[rustfmt::skip]
        let symbols = [
            s.mass, s.length, s.spring_rate, s.damping_rate, s.frequency, s.road_speed, s.force, s.pressure, s.angle,
            s.stress, s.twist_rate, s.area, s.volume, s.energy, s.damper_speed,
        ];
        for ((dim, key), symbol) in DIMS.iter().zip(&symbols).filter(|(_, symbol)| !symbol.is_empty()) {
            let unit = table::find(*dim, symbol).ok_or_else(|| {
                serde::de::Error::custom(say!(
                    "units.{key}: \"{symbol}\" is not a unit for {quantity}; use {allowed}",
                    key,
                    symbol,
                    quantity = dim.noun(),
                    allowed = table::phrase(*dim)
                ))
            })?;
            choice.set(unit);
        }
        Ok(choice)
    }
}
