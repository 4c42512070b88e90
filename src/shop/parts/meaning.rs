//! What a column of a file can mean.

use serde::{Deserialize, Serialize};

use crate::base::language::Word;
use crate::base::message::Message;
use crate::base::units::{Amount, Dim};
use crate::message;

/// What a column means.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub enum Meaning {
    /// The maker's or the shop's own number.
    Number,
    /// What it is, in words.
    What,
    /// Rate of a spring.
    Rate,
    /// ± of the rate, as limits: a share of it, or a rate.
    RateTolerance,
    /// Length of a spring without load.
    FreeLength,
    /// Length of a spring with all coils touching.
    SolidLength,
    /// Across the coil, inside.
    InsideDiameter,
    /// Across the coil, outside.
    OutsideDiameter,
    /// Wire diameter.
    Wire,
    /// All coils, end coils included.
    TotalCoils,
    /// How the ends of a spring are made.
    Ends,
    /// The load a spring may carry.
    MaxLoad,
    /// Price of one.
    Price,
    /// Pieces in stock.
    Stock,
    /// Length of a damper pushed in.
    ClosedLength,
    /// Length of a damper pulled out.
    OpenLength,
    /// How a damper is mounted, in words.
    Mounts,
    /// Force of a damper pushed in at this speed, m/s.
    Bump(f64),
    /// Force of a damper pulled out at this speed, m/s.
    Rebound(f64),
}

impl Meaning {
    /// All meanings but the forces of a damper, which need a speed.
    pub const WITHOUT_SPEED: [Meaning; 17] = [
        Meaning::Number,
        Meaning::What,
        Meaning::Rate,
        Meaning::RateTolerance,
        Meaning::FreeLength,
        Meaning::SolidLength,
        Meaning::InsideDiameter,
        Meaning::OutsideDiameter,
        Meaning::Wire,
        Meaning::TotalCoils,
        Meaning::Ends,
        Meaning::MaxLoad,
        Meaning::Price,
        Meaning::Stock,
        Meaning::ClosedLength,
        Meaning::OpenLength,
        Meaning::Mounts,
    ];

    /// What its numbers may measure; empty for words, counts and prices.
    pub fn dims(self) -> &'static [Dim] {
        use Meaning::{
            Bump, ClosedLength, Ends, FreeLength, InsideDiameter, MaxLoad, Mounts, Number, OpenLength, OutsideDiameter,
            Price, Rate, RateTolerance, Rebound, SolidLength, Stock, TotalCoils, What, Wire,
        };
        match self {
            Rate => &[Dim::SpringRate],
            RateTolerance => &[Dim::Ratio, Dim::SpringRate],
            FreeLength | SolidLength | InsideDiameter | OutsideDiameter | Wire | ClosedLength | OpenLength => {
                &[Dim::Length]
            }
            MaxLoad | Bump(_) | Rebound(_) => &[Dim::Force],
            Number | What | TotalCoils | Ends | Price | Stock | Mounts => &[],
        }
    }

    /// The words on screen; a header of these words is understood.
    pub fn words(self) -> Message {
        match self {
            Meaning::Number => Word("part number").into(),
            Meaning::What => Word("description").into(),
            Meaning::Rate => Word("spring rate").into(),
            Meaning::RateTolerance => Word("± of the rate").into(),
            Meaning::FreeLength => Word("free length").into(),
            Meaning::SolidLength => Word("solid length").into(),
            Meaning::InsideDiameter => Word("inside diameter").into(),
            Meaning::OutsideDiameter => Word("outside diameter").into(),
            Meaning::Wire => Word("wire diameter").into(),
            Meaning::TotalCoils => Word("total coils").into(),
            Meaning::Ends => Word("ends").into(),
            Meaning::MaxLoad => Word("maximum load").into(),
            Meaning::Price => Word("price").into(),
            Meaning::Stock => Word("pieces in stock").into(),
            Meaning::ClosedLength => Word("damper closed length").into(),
            Meaning::OpenLength => Word("damper open length").into(),
            Meaning::Mounts => Word("damper mounts").into(),
            Meaning::Bump(speed) => message!("bump force at {speed} m/s", speed = Amount::significant(speed, 15)),
            Meaning::Rebound(speed) => message!("rebound force at {speed} m/s", speed = Amount::significant(speed, 15)),
        }
    }

    /// The same meaning; speeds count as the same when they differ only by rounding.
    pub fn is_same(self, other: Meaning) -> bool {
        match (self, other) {
            (Meaning::Bump(a), Meaning::Bump(b)) | (Meaning::Rebound(a), Meaning::Rebound(b)) => is_same_speed(a, b),
            (a, b) => a == b,
        }
    }

    /// Makes a row a spring or a damper.
    pub(super) fn makes_a_part(self) -> bool {
        use Meaning::{Bump, ClosedLength, OpenLength, Rate, Rebound};
        matches!(self, Rate | ClosedLength | OpenLength | Bump(_) | Rebound(_))
    }

    /// The units its column takes, as a phrase.
    pub fn allowed_units(self) -> Message {
        match self.dims() {
            [] => Word("no unit").into(),
            [Dim::Ratio, rest @ ..] => {
                let others = rest.iter().map(|dim| Message::Units(*dim));
                Message::row(std::iter::once(Message::Symbol("%")).chain(others), ", ")
            }
            dims => Message::row(dims.iter().map(|dim| Message::Units(*dim)), ", "),
        }
    }

    pub(super) fn noun(self) -> Word {
        self.dims()
            .first()
            .map_or(Word("a column without a unit"), |d| if *d == Dim::Ratio { Word("a tolerance") } else { d.noun() })
    }
}

/// True when two speeds, in the same unit, differ by rounding at most.
pub(super) fn is_same_speed(a: f64, b: f64) -> bool {
    (a - b).abs() <= 1e-9 * a.abs()
}
