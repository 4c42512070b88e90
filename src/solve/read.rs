//! Reads fields as quantities: typed if typed, else the default, which is noted.

use std::cell::RefCell;

use super::answer::UsedDefault;
use crate::job::{Job, MotionRatio, RatioBy, Side, fields};
use crate::units::{Entry, Length, Quantity, parse};
use crate::wheel::LengthCurve;

/// Reads one job. Never reports a bad text: [`crate::job::check`] has done so; it is "not known" here.
pub(super) struct Reader<'a> {
    pub job: &'a Job,
    defaults: RefCell<Vec<UsedDefault>>,
}

impl<'a> Reader<'a> {
    pub fn new(job: &'a Job) -> Self {
        Reader { job, defaults: RefCell::default() }
    }

    pub fn into_defaults(self) -> Vec<UsedDefault> {
        self.defaults.into_inner()
    }

    /// What was typed, if it can be read and is possible.
    pub fn typed<Q: Quantity>(&self, key: &str, entry: &Entry<Q>) -> Option<Q> {
        let value = entry.read(self.job.decimal).ok().flatten()?;
        fields::by_key(key).is_some_and(|f| f.possible.allows(value.si())).then_some(value)
    }

    /// What was typed, or the default of a blank field of an axle.
    pub fn axle<Q: Quantity>(&self, side: Side, key: &str, entry: &Entry<Q>) -> Option<Q> {
        self.or_default(side.key(), side, key, entry)
    }

    /// What was typed, or the default of a blank field of the job.
    pub fn job<Q: Quantity>(&self, key: &str, entry: &Entry<Q>) -> Option<Q> {
        self.or_default("", Side::Front, key, entry)
    }

    fn or_default<Q: Quantity>(&self, scope: &str, side: Side, key: &str, entry: &Entry<Q>) -> Option<Q> {
        if !entry.text.trim().is_empty() {
            return self.typed(key, entry);
        }
        let (text, reason) = (fields::by_key(key)?.default?)(self.job, side);
        let value = parse::number(text, Q::DIM, parse::DecimalMark::Point).ok()?;
        let path = if scope.is_empty() { key.to_owned() } else { format!("{scope}.{key}") };
        self.note_default(path, text, reason);
        Some(Q::from_si(value.si()))
    }

    /// Notes that an answer rests on a default.
    pub fn note_default(&self, path: String, text: &str, reason: &str) {
        let mut defaults = self.defaults.borrow_mut();
        if !defaults.iter().any(|d| d.path == path) {
            defaults.push(UsedDefault { path, text: text.to_owned(), reason: reason.to_owned() });
        }
    }

    /// A motion ratio by whichever way the job says; the length at the reference is 0 when rows do not give it.
    pub fn length_curve(&self, part: &str, ratio: &MotionRatio) -> Option<LengthCurve> {
        let none = Length::from_si(0.0);
        match ratio.by {
            RatioBy::Moved => {
                let wheel = self.typed(&format!("{part}.wheel_moved"), &ratio.wheel_moved)?;
                let moved = self.typed(&format!("{part}.part_moved"), &ratio.part_moved)?;
                LengthCurve::from_movement(wheel, moved, none)
            }
            RatioBy::Number => {
                let number = self.typed(&format!("{part}.number"), &ratio.number)?;
                Some(LengthCurve::constant(number, none))
            }
            RatioBy::Rows => {
                let mut rows = Vec::with_capacity(ratio.rows.len());
                for row in ratio.rows.iter().filter(|r| !is_blank(r)) {
                    let wheel = self.typed(&format!("{part}.rows.wheel"), &row.wheel)?;
                    let length = self.typed(&format!("{part}.rows.length"), &row.length)?;
                    rows.push((wheel, length));
                }
                LengthCurve::from_rows(&rows)
            }
        }
        .filter(|curve| curve.ratio(none).si() > 0.0)
    }
}

/// Nothing was typed in this row.
fn is_blank(row: &crate::job::RatioRow) -> bool {
    row.wheel.text.trim().is_empty() && row.length.text.trim().is_empty()
}

/// Nothing was typed for this ratio, by the way that counts.
pub(super) fn ratio_is_blank(ratio: &MotionRatio) -> bool {
    let blank = |text: &str| text.trim().is_empty();
    match ratio.by {
        RatioBy::Moved => blank(&ratio.wheel_moved.text) && blank(&ratio.part_moved.text),
        RatioBy::Number => blank(&ratio.number.text),
        RatioBy::Rows => ratio.rows.iter().all(is_blank),
    }
}
