//! Reads a job: each text once, into a tree of the job's own shape.
//!
//! A field is typed, or a default that is noted, or not known. Any number can be moved, by its ± or in a draw, to see what
//! moves with it; nothing that reads it afterwards can tell.

mod arches;
mod asked;
mod linkage;
mod number;
mod ratio;
mod repeats;

use std::cell::RefCell;

use crate::base::math::spread::Measured;
use crate::base::units::Quantity;
use crate::base::units::entry::Spread;
use crate::job::how_sure::HowSure;
use crate::job::read::{Read, Readable};
use crate::job::{self, Job, PerAxle};
use crate::solve::answer::UsedDefault;
use linkage::LastSwept;
pub(super) use linkage::Moves;
use number::Now;
pub(super) use number::Number;
use ratio::AxleRows;
pub(super) use ratio::{RatioRows, ratio_is_blank};
pub(super) use repeats::{corners, readings, scatter};

/// A job as it was read. Never reports a bad text: [`crate::job::check`] has done so; it is "not known" here.
pub(super) struct Reading<'a> {
    /// The job itself, where its texts are asked for.
    pub texts: &'a Job,
    /// The tree in which each field knows its number.
    pub job: job::read::Job,
    /// In the order of the file; errors that were added come last.
    numbers: Vec<Number>,
    /// The same numbers as they are now.
    now: Vec<Now>,
    /// What the rows of motion ratios say.
    pub rows: PerAxle<AxleRows>,
    /// The linkage of each axle as last moved through its travel, for its points.
    swept: RefCell<PerAxle<LastSwept>>,
    noted: RefCell<Vec<UsedDefault>>,
}

impl<'a> Reading<'a> {
    /// Reads every text of a job once.
    pub fn of(texts: &'a Job) -> Self {
        let (mut numbers, mut now) = (Vec::with_capacity(160), Vec::with_capacity(160));
        let sure = HowSure::of(texts);
        let job = Readable::read(texts, &mut String::with_capacity(64), &mut |path, entry| {
            // What is not chosen counts for nothing.
            let (number, as_read) = if path.starts_with("plans[") { None } else { Number::read(&sure, path, entry) }?;
            numbers.push(number);
            now.push(as_read);
            u32::try_from(numbers.len() - 1).ok()
        });
        let mut reading = Reading {
            texts,
            job,
            numbers,
            now,
            rows: Default::default(),
            swept: RefCell::default(),
            noted: RefCell::default(),
        };
        reading.read_rows();
        for is_before in [true, false] {
            reading.read_repeats(is_before);
        }
        reading
    }

    /// What was typed, if it can be read and is possible.
    pub fn typed<Q: Quantity>(&self, field: &Read<Q>) -> Option<Q> {
        let now = &self.now[field.number()?];
        if now.typed { now.si().map(Q::from_si) } else { None }
    }

    /// What was typed, or the default of a blank field; that is then noted.
    pub fn known<Q: Quantity>(&self, field: &Read<Q>) -> Option<Q> {
        self.now[field.number()?].si().map(Q::from_si)
    }

    /// As [`Reading::known`] was before anything was moved.
    pub fn as_read<Q: Quantity>(&self, field: &Read<Q>) -> Option<Q> {
        field.number().map(|i| Q::from_si(self.read_si(i)))
    }

    /// The number at a place, as it was read, SI.
    pub fn read_si(&self, index: usize) -> f64 {
        self.now[index].read_si
    }

    /// As [`Reading::known`], with its standard uncertainty.
    pub fn measured<Q: Quantity>(&self, field: &Read<Q>) -> Option<Measured> {
        let value = self.known(field)?.si();
        Some(Measured { value, u: self.law(field)?.0 })
    }

    /// Standard uncertainty of the field at a path, SI.
    pub fn u_at(&self, path: &str) -> Option<f64> {
        self.numbers.iter().find(|n| n.path == path).map(|n| n.u_si)
    }

    /// Standard uncertainty of a field, SI, and what it means.
    pub fn law<Q: Quantity>(&self, field: &Read<Q>) -> Option<(f64, Spread)> {
        field.number().map(|i| (self.numbers[i].u_si, self.numbers[i].spread))
    }

    /// What was typed, with its standard uncertainty.
    pub fn typed_with_u<Q: Quantity>(&self, field: &Read<Q>) -> Option<Measured> {
        self.typed(field).and_then(|_| self.measured(field))
    }

    /// Adds an error around nothing, moved like a field and listed under its path; `None` when it has no ±.
    pub fn add_error(&mut self, path: String, u_si: f64, spread: Spread) -> Option<usize> {
        (u_si.is_finite() && u_si > 0.0).then(|| {
            let (number, now) = Number::error(path, u_si, spread);
            now.si();
            self.now.push(now);
            self.numbers.push(number);
            self.numbers.len() - 1
        })
    }

    /// What an error is off by now.
    pub fn error(&self, index: usize) -> f64 {
        self.now.get(index).and_then(Now::si).unwrap_or(0.0)
    }

    /// Moves a number by this amount until it is moved again; by 0 it is as it was read.
    pub fn move_by(&mut self, index: usize, by_si: f64) {
        self.now[index].move_by(by_si);
    }

    /// What is found with one number moved by this amount.
    pub fn moved<T>(&mut self, index: usize, by_si: f64, find: impl FnOnce(&Self) -> T) -> T {
        self.move_by(index, by_si);
        let found = find(self);
        self.move_by(index, 0.0);
        found
    }
}
