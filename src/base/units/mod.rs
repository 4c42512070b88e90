//! Quantities, exact units, and numbers as the user typed them.
//!
//! Public borders speak in `uom` quantities; loops use bare `f64` in SI with
//! the unit in the name. The only place that knows conversion factors is
//! [`table`]; the only place that reads text is [`parse`].

pub mod amount;
pub mod choice;
pub mod display;
pub mod entry;
mod entry_error;
pub mod parse;
pub mod table;

use std::marker::PhantomData;
use uom::si::{ISQ, SI};
use uom::typenum::{N1, N2, P1, Z0};

use crate::base::bounds::{self, Bound};
use crate::base::language::Word;

pub use crate::base::language::DecimalMark;
pub use amount::Amount;
pub use choice::UnitChoice;
pub use entry::{Entry, Origin, Spread};
pub use entry_error::EntryError;
pub use table::Unit;
pub use uom::si::f64::{
    Acceleration, Angle, Area, Energy, Force, Frequency, Length, Mass, Pressure, Ratio, Time, Velocity, Volume,
};

/// Standard gravity in m/s², exact by definition. Source `SP811`, appendix B.8.
pub const G_M_PER_S2: f64 = 9.806_65;

/// Linear stiffness, force per length (N/m). `uom` has no name for it.
pub type SpringRate = uom::si::Quantity<ISQ<Z0, P1, N2, Z0, Z0, Z0, Z0>, SI<f64>, f64>;
/// Linear damping, force per speed (N·s/m). `uom` has no name for it.
pub type DampingRate = uom::si::Quantity<ISQ<Z0, P1, N1, Z0, Z0, Z0, Z0>, SI<f64>, f64>;
/// Rate of change of the motion ratio with wheel travel (1/m).
pub type RatioSlope = uom::si::Quantity<ISQ<N1, Z0, Z0, Z0, Z0, Z0, Z0>, SI<f64>, f64>;
/// A stress or an elastic modulus (Pa). `uom` gives it the type of a pressure; here its units differ.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct Stress(f64);
/// A speed along a damper (m/s). `uom` gives it the type of a road speed; no caller shows both in one unit.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct DamperSpeed(f64);
/// Torque per angle (N·m/rad) of a bar. `uom` gives it the type of an energy.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct TwistRate(f64);

/// What kind of thing a number measures; decides which units it may carry.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Dim {
    /// A scale reading or a mass, kilograms.
    Mass,
    /// A length or height, metres.
    Length,
    /// A spring or wheel rate, newtons per metre.
    SpringRate,
    /// A damping rate, newton seconds per metre.
    DampingRate,
    /// A frequency, hertz.
    Frequency,
    /// A plain number: motion ratio, damping ratio, share.
    Ratio,
    /// A speed, metres per second.
    Velocity,
    /// A speed along a damper, metres per second.
    DamperSpeed,
    /// A force, newtons.
    Force,
    /// A gauge pressure, pascals.
    Pressure,
    /// An angle, radians.
    Angle,
    /// A stress or an elastic modulus, pascals.
    Stress,
    /// Torque per angle of a bar, newton metres per radian.
    TwistRate,
    /// An area, square metres.
    Area,
    /// A volume, cubic metres.
    Volume,
    /// A time, seconds.
    Time,
    /// Stored work, joules.
    Energy,
    /// An acceleration, metres per second squared.
    Acceleration,
    /// Change of a motion ratio with wheel travel, per metre.
    RatioSlope,
}

impl Dim {
    /// The name used in messages: "a mass", "a spring rate".
    pub fn noun(self) -> Word {
        match self {
            Dim::Mass => Word("a mass"),
            Dim::Length => Word("a length"),
            Dim::SpringRate => Word("a spring rate"),
            Dim::DampingRate => Word("a damping rate"),
            Dim::Frequency => Word("a frequency"),
            Dim::Ratio => Word("a plain number"),
            Dim::Velocity => Word("a speed"),
            Dim::DamperSpeed => Word("a damper speed"),
            Dim::Force => Word("a force"),
            Dim::Pressure => Word("a pressure"),
            Dim::Angle => Word("an angle"),
            Dim::Stress => Word("a stress or modulus"),
            Dim::TwistRate => Word("a torsional rate"),
            Dim::Area => Word("an area"),
            Dim::Volume => Word("a volume"),
            Dim::Time => Word("a time"),
            Dim::Energy => Word("an energy"),
            Dim::Acceleration => Word("an acceleration"),
            Dim::RatioSlope => Word("a motion ratio change per unit length"),
        }
    }
}

impl Dim {
    /// How small and how large a value of it can be, in SI.
    pub fn bound(self) -> &'static Bound {
        match self {
            Dim::Mass => &bounds::MASS,
            Dim::Length => &bounds::LENGTH,
            Dim::SpringRate => &bounds::SPRING_RATE,
            Dim::DampingRate => &bounds::DAMPING_RATE,
            Dim::Frequency => &bounds::FREQUENCY,
            Dim::Ratio => &bounds::RATIO,
            Dim::Velocity => &bounds::SPEED,
            Dim::DamperSpeed => &bounds::DAMPER_SPEED,
            Dim::Force => &bounds::FORCE,
            Dim::Pressure => &bounds::PRESSURE,
            Dim::Angle => &bounds::ANGLE,
            Dim::Stress => &bounds::STRESS,
            Dim::TwistRate => &bounds::TWIST_RATE,
            Dim::Area => &bounds::AREA,
            Dim::Volume => &bounds::VOLUME,
            Dim::Time => &bounds::TIME,
            Dim::Energy => &bounds::ENERGY,
            Dim::Acceleration => &bounds::ACCELERATION,
            Dim::RatioSlope => &bounds::RATIO_SLOPE,
        }
    }
}

/// A quantity that a field can hold: known by its [`Dim`] and its value in SI.
pub trait Quantity: Copy + PartialEq + std::fmt::Debug + 'static {
    /// What it measures.
    const DIM: Dim;
    /// From a value in the coherent SI unit.
    fn from_si(si: f64) -> Self;
    /// The value in the coherent SI unit.
    fn si(self) -> f64;
}

macro_rules! quantities {
    ($($name:ident),*) => { $(
        impl Quantity for $name {
            const DIM: Dim = Dim::$name;
            fn from_si(si: f64) -> Self { bare(si) }
            fn si(self) -> f64 { self.value }
        }
    )* };
}

quantities!(
    Mass,
    Length,
    SpringRate,
    DampingRate,
    Frequency,
    Velocity,
    Force,
    Pressure,
    Ratio,
    Angle,
    Area,
    Volume,
    Time,
    Energy,
    Acceleration,
    RatioSlope
);

macro_rules! newtypes {
    ($($name:ident),*) => { $(
        impl Quantity for $name {
            const DIM: Dim = Dim::$name;
            fn from_si(si: f64) -> Self { $name(si) }
            fn si(self) -> f64 { self.0 }
        }
    )* };
}

newtypes!(Stress, TwistRate, DamperSpeed);

impl From<DamperSpeed> for Velocity {
    fn from(speed: DamperSpeed) -> Self {
        Velocity::from_si(speed.0)
    }
}

impl From<Velocity> for DamperSpeed {
    fn from(speed: Velocity) -> Self {
        DamperSpeed(speed.si())
    }
}

/// Wraps a value already in SI; `uom`'s own constructors would need a unit type.
fn bare<D, U>(value: f64) -> uom::si::Quantity<D, U, f64>
where
    D: uom::si::Dimension + ?Sized,
    U: uom::si::Units<f64> + ?Sized,
{
    uom::si::Quantity { dimension: PhantomData, units: PhantomData, value }
}

/// The weight, a force, of a mass under standard gravity.
pub fn weight(mass: Mass) -> Force {
    Force::from_si(mass.si() * G_M_PER_S2)
}
