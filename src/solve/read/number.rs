//! The number of one field, and its ±.

use std::cell::Cell;

use crate::base::language::Word;
use crate::base::units::Origin;
use crate::base::units::entry::{AnyEntry, Spread};
use crate::base::units::parse::{self, DecimalMark};
use crate::job::fields::{self, Possible};
use crate::job::how_sure::HowSure;

/// What is known of a field that has a number; the number itself is in [`Now`].
pub(in super::super) struct Number {
    pub path: String,
    /// Standard uncertainty, SI.
    pub u_si: f64,
    /// What its ± means: a normal law, or limits.
    pub spread: Spread,
    /// The field of the job's certainty from which that is, if it is from one.
    pub u_from: Option<&'static str>,
    /// The default's text and reason, when nothing was typed.
    pub default: Option<(&'static str, Word)>,
    /// Its origin, if stated and measurable.
    pub origin: Option<Origin>,
}

impl Number {
    /// The number of a field: typed and possible, or the default of a blank one.
    pub(super) fn read(sure: &HowSure<'_>, path: &str, entry: &dyn AnyEntry) -> Option<(Self, Now)> {
        let job = sure.job;
        let blank = entry.text().trim().is_empty();
        let (field, place) = fields::by_path(path)?;
        let side = place.scope.side();
        let default = if blank { Some(field.when_blank(job, side)?) } else { None };
        let si = match default {
            Some((text, _)) => parse::number(text, field.dim, DecimalMark::Point).ok()?.si(),
            None => entry.number(job.decimal).ok()??.si(),
        };
        // A ± that cannot be read is not used; a finding says so.
        let (u_si, u_from) = match entry.pm().0.trim() {
            "" => sure
                .unstated(field, side, entry.origin(), default.is_some(), si)
                .map_or((0.0, None), |u| (u.standard_si(), u.from)),
            _ => (entry.stated_si(si, job.decimal).unwrap_or(0.0), None),
        };
        let spread = match entry.pm() {
            (pm, spread) if !pm.trim().is_empty() => spread,
            _ => Spread::Limits,
        };
        let origin = entry.origin().filter(|_| field.reading.is_some());
        field.allows(si).then(|| {
            let now = Now::of(si, field.possible == Possible::AboveZero, default.is_none());
            (Number { path: path.to_owned(), u_si, u_from, spread, default, origin }, now)
        })
    }

    /// An error around nothing.
    pub(super) fn error(path: String, u_si: f64, spread: Spread) -> (Self, Now) {
        (Number { path, u_si, spread, u_from: None, default: None, origin: None }, Now::of(0.0, false, true))
    }

    /// It is as sure as its readings scatter.
    pub fn scatters(&mut self, u_si: f64) {
        (self.u_si, self.spread, self.u_from) = (u_si, Spread::Standard, None);
    }
}

/// The number of a field, needed again and again: kept close together.
pub(super) struct Now {
    /// As moved at present, SI; NaN for a size that must be above zero and is moved below.
    si: f64,
    /// As read, SI.
    pub read_si: f64,
    /// A size that must be above zero.
    above_zero: bool,
    pub typed: bool,
    /// It was asked for.
    asked: Cell<bool>,
}

impl Now {
    fn of(si: f64, above_zero: bool, typed: bool) -> Self {
        Now { si, read_si: si, above_zero, typed, asked: Cell::new(false) }
    }

    #[inline]
    pub fn si(&self) -> Option<f64> {
        self.asked.set(true);
        Some(self.si).filter(|si| !si.is_nan())
    }

    pub fn was_asked(&self) -> bool {
        self.asked.get()
    }

    pub fn move_by(&mut self, by_si: f64) {
        let si = self.read_si + by_si;
        let lost = self.above_zero && si <= 0.0 && by_si != 0.0;
        self.si = if lost { f64::NAN } else { si };
    }
}
