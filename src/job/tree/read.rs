//! A job as it was read: a tree of the same shape, where each field knows which number is its own.

use std::marker::PhantomData;

use super::Side;
use super::record::within;
use crate::base::units::entry::AnyEntry;
use crate::base::units::{Entry, Quantity};

pub use super::axle::twin::*;
pub use super::damper::twin::*;
pub use super::linkage::twin::*;
pub use super::overrule::twin::*;
pub use super::spring::twin::*;
pub use super::twin::*;
pub use super::vehicle::twin::*;
pub use super::weighing::twin::*;

/// What a record or field is in the tree that was read.
pub trait Shape {
    /// A record of the same shape; of an entry [`Read`]; what holds no entry is itself.
    type Read;
}

/// Tells the number of each entry, given with its path: where it is among all that were read; `None` for one that says
/// none.
pub type NumberOf<'a> = dyn FnMut(&str, &dyn AnyEntry) -> Option<u32> + 'a;

/// What can be read into such a tree.
pub trait Readable: Shape {
    /// Asks for the number of each entry below, in file order.
    fn read(&self, path: &mut String, number_of: &mut NumberOf<'_>) -> Self::Read;
}

/// A field that was read: which number is its own.
pub struct Read<Q> {
    number: Option<u32>,
    blank: bool,
    states_pm: bool,
    quantity: PhantomData<Q>,
}

impl<Q> Read<Q> {
    /// Where its number is among all that were read; `None` when it says none and has no default.
    pub fn number(&self) -> Option<usize> {
        self.number.map(|n| n as usize)
    }

    /// Nothing is typed.
    pub fn is_blank(&self) -> bool {
        self.blank
    }

    /// Its ± is typed.
    pub fn states_pm(&self) -> bool {
        self.states_pm
    }
}

impl<Q> Shape for Entry<Q> {
    type Read = Read<Q>;
}

impl<Q: Quantity> Readable for Entry<Q> {
    fn read(&self, path: &mut String, number_of: &mut NumberOf<'_>) -> Read<Q> {
        let states_pm = !self.pm().0.trim().is_empty();
        Read { number: number_of(path, self), blank: self.is_blank(), states_pm, quantity: PhantomData }
    }
}

impl Shape for String {
    type Read = String;
}

impl Readable for String {
    fn read(&self, _: &mut String, _: &mut NumberOf<'_>) -> String {
        self.clone()
    }
}

impl<T: Shape> Shape for Vec<T> {
    type Read = Vec<T::Read>;
}

impl<T: Readable> Readable for Vec<T> {
    fn read(&self, path: &mut String, number_of: &mut NumberOf<'_>) -> Vec<T::Read> {
        let rows = self.iter().enumerate();
        rows.map(|(i, row)| within(path, &format!("[{i}]"), |path| Readable::read(row, path, number_of))).collect()
    }
}

impl Job {
    /// An axle by its side.
    pub fn axle(&self, side: Side) -> &Axle {
        match side {
            Side::Front => &self.front,
            Side::Rear => &self.rear,
        }
    }
}

impl Weighing {
    /// Nothing was weighed.
    pub fn is_blank(&self) -> bool {
        [&self.lf, &self.rf, &self.lr, &self.rr, &self.front, &self.rear].iter().all(|e| e.is_blank())
    }
}

impl CurveRow {
    /// Nothing is typed in it.
    pub fn is_blank(&self) -> bool {
        self.speed.is_blank() && self.bump.is_blank() && self.rebound.is_blank()
    }
}

impl ClickRow {
    /// Nothing is typed in it.
    pub fn is_blank(&self) -> bool {
        self.click.is_blank() && self.speed.is_blank() && self.bump.is_blank() && self.rebound.is_blank()
    }
}

impl RatioRow {
    /// Nothing is typed in it.
    pub fn is_blank(&self) -> bool {
        self.wheel.is_blank() && self.length.is_blank()
    }
}
