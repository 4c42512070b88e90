//! When a value counts as outside: by more than its ±. And what was outside before the change, too.

use std::cmp::Ordering;

use super::Say;
use crate::base::language::Word;
use crate::base::message::Message;
use crate::base::units::{Amount, Quantity};
use crate::job::{Level, Side};
use crate::solve::answer::{AxleAnswer, EachMoved, Vehicle};

/// On which side of a range a value lies by more than its standard uncertainty; `None` inside, or not surely outside.
///
/// A ± that is not known counts as none. Not for ratings, coil bind, damper ends and stress: over these limits counts,
/// and a limit within the ± is reported, too ([`is_near`]).
pub fn outside(value: f64, [low, high]: [f64; 2], u: Option<f64>) -> Option<Ordering> {
    let u = u.unwrap_or(0.0);
    match value {
        v if v + u < low => Some(Ordering::Less),
        v if v - u > high => Some(Ordering::Greater),
        _ => None,
    }
}

/// Above a limit by more than its standard uncertainty.
pub fn above(value: f64, limit: f64, u: Option<f64>) -> bool {
    outside(value, [f64::NEG_INFINITY, limit], u).is_some()
}

/// Below a limit by more than its standard uncertainty.
pub fn below(value: f64, limit: f64, u: Option<f64>) -> bool {
    outside(value, [limit, f64::INFINITY], u).is_some()
}

/// A value is beyond a limit, or short of it, by less than its standard uncertainty.
pub fn is_near(value: f64, limit: f64, u: Option<f64>) -> bool {
    u.is_some_and(|u| (value - limit).abs() < u)
}

impl Say<'_> {
    /// A value held against a limit: with its ± where the limit lies within that.
    pub(super) fn against<Q: Quantity>(&self, value: Q, limit: Q, u: Option<f64>) -> Amount {
        let u = u.filter(|u| is_near(value.si(), limit.si(), Some(*u)));
        Amount::with_u(Q::from_si(value.si().abs()), u, self.units)
    }

    /// The standard uncertainty of a result of an axle, SI.
    pub(super) fn u_axle(&self, side: Side, result: impl Fn(&AxleAnswer) -> Option<f64>) -> Option<f64> {
        self.u_of(&self.answer.checked(side).nudged, result)
    }

    /// What was measured is off what was predicted by more than twice the standard uncertainty of the difference; false
    /// where that is not known.
    pub(super) fn is_off(&self, side: Side, off: impl Fn(&AxleAnswer) -> Option<f64>) -> bool {
        const DIFFERS_U: f64 = 2.0;
        let found = off(self.answer.axle(side));
        found.zip(self.u_axle(side, off)).is_some_and(|(found, u)| found.abs() > DIFFERS_U * u)
    }

    /// The standard uncertainty of a result of the whole vehicle, SI.
    pub(super) fn u_vehicle(&self, result: impl Fn(&Vehicle) -> Option<f64>) -> Option<f64> {
        self.u_of(&self.answer.moved, result)
    }

    fn u_of<T>(&self, moved: &EachMoved<T>, result: impl Fn(&T) -> Option<f64>) -> Option<f64> {
        Some(moved.u_of(&result)? * self.with_two_arms(|| moved.shares(&result)))
    }

    /// A finding about a state; no more than a note where it was so before the change.
    pub(super) fn push_state(
        &mut self,
        was_so: bool,
        level: Level,
        rule: &'static str,
        field: impl Into<String>,
        text: Message,
    ) {
        match was_so {
            true => self.push(
                level.min(Level::Note),
                rule,
                field,
                text.and(Word("This was already the case before the change.")),
            ),
            false => self.push(level, rule, field, text),
        }
    }
}
