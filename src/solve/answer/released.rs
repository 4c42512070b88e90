//! The one gate to what is bought for an axle: [`Answer::released`].
//!
//! A sentence, a sheet and an exit code may not be more certain than the findings behind them. So nothing outside the
//! solver reaches a part but through the gate: the compiler holds it.

use super::{Answer, AxleAnswer, Checked, Kept, Parts, State};
use crate::base::language::Word;
use crate::job::finding::{Finding, Level};
use crate::job::{Plan, Side};

/// The parts of an axle whose answer is released, with their ±.
#[derive(Debug, Clone, Copy)]
pub struct Part<'a> {
    parts: &'a Parts,
    checked: &'a Checked,
}

impl std::ops::Deref for Part<'_> {
    type Target = Parts;

    fn deref(&self) -> &Parts {
        self.parts
    }
}

impl<'a> Part<'a> {
    /// What is bought, for as long as the answer lives.
    pub fn parts(self) -> &'a Parts {
        self.parts
    }

    /// The standard uncertainty of something about a part, SI, as [`super::EachMoved::u_of`].
    pub fn u_of(&self, result: impl Fn(&Parts) -> Option<f64>) -> Option<f64> {
        self.checked.nudged.u_of(|axle| result(&axle.parts))
    }

    /// How far something about a part moves for each field, as [`super::EachMoved::steps`].
    pub fn steps(&self, result: impl Fn(&Parts) -> Option<f64>) -> impl Iterator<Item = (&'a str, Option<f64>)> {
        self.checked.nudged.steps(move |axle| result(&axle.parts))
    }
}

impl AxleAnswer {
    /// What is done to its old springs where they stay.
    pub(in crate::solve) fn kept(&self) -> Option<Kept> {
        self.parts.kept
    }

    /// It keeps its springs, on spacers or indexed again.
    pub fn is_set_again(&self) -> bool {
        self.parts.kept.is_some()
    }

    /// It gets another anti-roll bar.
    pub fn gets_roll_bar(&self) -> bool {
        self.parts.roll_bar.is_some()
    }

    /// Its springs come out: new ones go in, or the old ones on spacers or indexed again.
    pub fn is_refitted(&self) -> bool {
        self.plan == Plan::NewSprings || self.is_set_again()
    }

    /// The words of a state where there is little room, as it is on this axle.
    pub fn short(&self, state: State) -> Word {
        self.kept().filter(|_| state == State::NewSprings).map_or_else(|| state.short(), |kept| kept.short())
    }
}

/// Why nothing may be bought for an axle: at least one finding, worst first.
#[derive(Debug, Clone, PartialEq)]
pub struct Reasons<'a> {
    /// The worst of them.
    pub first: &'a Finding,
    /// The others.
    pub more: Vec<&'a Finding>,
}

impl<'a> Reasons<'a> {
    /// All of them.
    pub fn all(&self) -> impl Iterator<Item = &'a Finding> + '_ {
        std::iter::once(self.first).chain(self.more.iter().copied())
    }

    /// The names of their rules, each once.
    pub fn rules(&self) -> Vec<&'static str> {
        let mut rules: Vec<&'static str> = Vec::new();
        for finding in self.all() {
            if !rules.contains(&finding.rule) {
                rules.push(finding.rule);
            }
        }
        rules
    }

    /// All of them are about the very spring that is in the job: another one may do.
    pub fn only_of_the_spring(&self) -> bool {
        self.all().all(|f| OF_THE_SPRING.contains(&f.rule))
    }

    /// A rating is exceeded: nothing is recommended for the whole vehicle.
    pub fn is_stop(&self) -> bool {
        self.first.level == Level::Stop
    }
}

impl Answer {
    /// The gate: what may be bought for an axle, or why nothing may.
    ///
    /// # Errors
    /// [`Reasons`]: a rating is exceeded somewhere on the vehicle, a value that the axle rests on cannot be used, or a
    /// doubt makes its answer worthless.
    pub fn released(&self, side: Side) -> Result<Part<'_>, Reasons<'_>> {
        let mut reasons = self.findings.iter().filter(|f| withholds(f, side));
        match reasons.next() {
            None => Ok(Part { parts: &self.axle(side).parts, checked: self.checked(side) }),
            Some(first) => Err(Reasons { first, more: reasons.collect() }),
        }
    }

    /// Some axle for which something would be sold is withheld: then the customer's page names no part. An axle without
    /// an answer has nothing to sell.
    pub fn sold_is_withheld(&self) -> bool {
        let is_sold = |axle: &AxleAnswer| {
            let springs = axle.sizing.is_some() && axle.plan == Plan::NewSprings;
            springs || axle.dampers_off || axle.is_set_again() || axle.gets_roll_bar()
        };
        self.axles.iter().filter(|axle| is_sold(axle)).any(|axle| self.released(axle.side).is_err())
    }
}

/// A finding that leaves nothing to buy for an axle.
fn withholds(finding: &Finding, side: Side) -> bool {
    match finding.level {
        Level::Note | Level::Doubt => false,
        Level::Withheld | Level::Error => rests_on(side, &finding.field),
        // Over one rating, nothing is recommended anywhere.
        Level::Stop => true,
    }
}

/// Rules about the spring that was picked or taken, not about what was measured.
const OF_THE_SPRING: [&str; 5] = ["on-stop", "loose", "bound", "bind", "wound-limit"];

/// What springs and dampers rest on nowhere.
const BESIDE: [&str; 9] =
    ["fitted.", "prices.", "road.", "chassis.", "predicted.", "vehicle.lamp_distance", "shop.", "list", "plans"];

/// The same of one axle.
const BESIDE_OF_AXLE: [&str; 6] =
    ["roll_bar.", "new_damper.", "spring.cut", "taken.price", "taken.in_stock", "thread_pitch"];

/// Ratings of one axle stop the other one, too.
const RATINGS: [&str; 5] = ["rating", "wheel_rating", "load_index", "tyre_pressure", "tyre_reference"];

/// The answer of an axle rests on this field.
fn rests_on(side: Side, field: &str) -> bool {
    if BESIDE.iter().any(|beside| field.starts_with(beside)) {
        return false;
    }
    let (head, rest) = field.split_once('.').unwrap_or((field, ""));
    if let Some(own) = Side::BOTH.into_iter().find(|s| s.key() == head) {
        let is_beside = BESIDE_OF_AXLE.iter().any(|beside| rest.starts_with(beside));
        return RATINGS.contains(&rest) || own == side && !is_beside;
    }
    let last = rest.rsplit('.').next().unwrap_or_default();
    match (head, last) {
        ("before" | "after", "lf" | "rf" | "front") if !rest.starts_with("pads") => side == Side::Front,
        ("before" | "after", "lr" | "rr" | "rear") if !rest.starts_with("pads") => side == Side::Rear,
        _ => true,
    }
}
