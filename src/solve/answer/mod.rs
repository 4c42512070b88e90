//! What [`solve`](super::solve) gives back: quantities with their conventions, nothing formatted.
//!
//! `None` always means "not known", never zero. Height changes are + when the
//! body rises; wheel travel is + in bump from the reference height.

mod axle;
mod facts;
mod moved;
mod old_dampers;
mod parts;
mod released;
mod remedies_found;

use std::ops::Deref;

use crate::base::language::Word;
pub use crate::base::math::spread::Measured;
use crate::base::message::Message;
use crate::base::units::{Mass, Origin, Quantity, Ratio};
use crate::job::{Finding, Level, PerAxle, Side};
pub use crate::trade::linkage::{Alignment, End, Fault, PointName};
pub use crate::trade::roll::wanted::NoBar;
pub use crate::trade::weights::{Corners, cross_weight};
pub use axle::{AxleAnswer, BesideSpring, Masses, Room, SameFactor, Sizing, Standing, Travel};
pub use facts::{
    Again, AlignmentMoved, AtRest, BarChoice, BarFacts, BarFor, BarFound, BenchFacts, BenchMarks, BenchMeasured,
    BenchReading, BodyMode, BounceMeasured, ByAir, ByRoutes, CaseAnswer, CaseStanding, Centre, CoilFacts, Compared,
    CornerLedger, CornersStand, Cross, Crossover, Cut, Damping, Dive, DriveMeasured, DrivesMeasured, FittedSprings,
    ForceAtSpeed, Hump, LeafFacts, Ledger, Levelling, LinkageFacts, LookedAt, Mode, OfferedDamper, OldDamper,
    OldDamperBy, OldSpring, OnBench, OnRoad, OnSprings, OverRoad, Passage, Pitch, Rated, RatedPart, RatioWays, Reweigh,
    RoadClass, Roll, Route, RouteKind, Routes, Said, SidesStand, StockBars, StockRates, Swing, Told, Trade, TradePoint,
    WantedBar, WantedBars, WeightedBy, Whole, degrees_per_g,
};
pub(super) use moved::step;
pub use moved::{Checked, EachMoved, Moved, Vehicle, shares};
pub use old_dampers::{DampersOpen, OldDampers};
pub use parts::{AddedLeaf, DamperTargets, Kept, Parts, Raised, Spacer, SpringToBuy};
pub use released::{Part, Reasons};
pub use remedies_found::{Lead, OptionStanding, Remedy, RemedyKind, Stands};

/// The one vehicle, three times.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum State {
    /// Before the change.
    Before,
    /// After the change, on the old springs.
    OldSprings,
    /// After the change, on the new springs.
    NewSprings,
}

impl State {
    /// All three, in order of time.
    pub const ALL: [State; 3] = [State::Before, State::OldSprings, State::NewSprings];

    /// The key in results.
    pub fn key(self) -> &'static str {
        match self {
            State::Before => "before",
            State::OldSprings => "old_springs",
            State::NewSprings => "new_springs",
        }
    }

    /// The words where there is little room.
    pub fn short(self) -> Word {
        match self {
            State::Before => Word("before"),
            State::OldSprings => Word("old springs"),
            State::NewSprings => Word("new springs"),
        }
    }

    /// The words where a sentence begins.
    pub fn words_first(self) -> Word {
        match self {
            State::Before => Word("Before"),
            State::OldSprings => Word("On the old springs"),
            State::NewSprings => Word("On the new springs"),
        }
    }

    /// The words on screen and paper.
    pub fn words(self) -> Word {
        match self {
            State::Before => Word("before"),
            State::OldSprings => Word("on the old springs"),
            State::NewSprings => Word("on the new springs"),
        }
    }
}

/// One value per state.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct PerState<T> {
    /// Before the change.
    pub before: T,
    /// After, on the old springs.
    pub old: T,
    /// After, on the new springs.
    pub new: T,
}

impl<T> PerState<T> {
    /// What `of` says of each state.
    pub fn each(of: impl Fn(State) -> T) -> Self {
        PerState { before: of(State::Before), old: of(State::OldSprings), new: of(State::NewSprings) }
    }

    /// The value of one state.
    pub fn of(&self, state: State) -> &T {
        match state {
            State::Before => &self.before,
            State::OldSprings => &self.old,
            State::NewSprings => &self.new,
        }
    }

    /// The value of one state, to change it.
    pub fn of_mut(&mut self, state: State) -> &mut T {
        match state {
            State::Before => &mut self.before,
            State::OldSprings => &mut self.old,
            State::NewSprings => &mut self.new,
        }
    }
}

/// One value before the change and one after it, whatever the springs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct BeforeAfter<T> {
    /// Before the change.
    pub before: T,
    /// After it.
    pub after: T,
}

impl<T> BeforeAfter<T> {
    /// The value that belongs to a state.
    pub fn of(&self, state: State) -> &T {
        match state {
            State::Before => &self.before,
            State::OldSprings | State::NewSprings => &self.after,
        }
    }

    /// The same two, each passed through `f`.
    pub fn map<U>(self, mut f: impl FnMut(T) -> U) -> BeforeAfter<U> {
        BeforeAfter { before: f(self.before), after: f(self.after) }
    }

    /// Before, after.
    pub fn both(self) -> [T; 2] {
        [self.before, self.after]
    }
}

/// Least and greatest, each where it is known.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Range<T> {
    /// Least.
    pub least: T,
    /// Greatest.
    pub most: T,
}

/// Lowest, aimed at, highest.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Band<T> {
    /// Lowest.
    pub low: T,
    /// Aimed at: the middle of the wanted range.
    pub aim: T,
    /// Highest.
    pub high: T,
}

impl<T: PartialOrd> Band<T> {
    /// `None` unless low and high are in order.
    pub fn of(low: T, high: T, aim: T) -> Option<Self> {
        (low <= high).then_some(Band { low, aim, high })
    }
}

impl<T: Copy> Band<T> {
    /// The same three, each passed through `f`.
    pub fn map<U>(&self, f: impl Fn(T) -> U) -> Band<U> {
        Band { low: f(self.low), aim: f(self.aim), high: f(self.high) }
    }
}

/// What one weigh-in says.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Weighed {
    /// Corner readings, when all four of them are known.
    pub corners: Option<Corners<Mass>>,
    /// Front axle.
    pub front: Option<Mass>,
    /// Rear axle.
    pub rear: Option<Mass>,
    /// Both axles.
    pub total: Option<Mass>,
    /// Front axle over total.
    pub front_share: Option<Ratio>,
    /// Left side over total.
    pub left_share: Option<Ratio>,
    /// (Right front + left rear) over total.
    pub cross_weight: Option<Ratio>,
    /// (Left − right) over the axle.
    pub left_right: PerAxle<Option<Ratio>>,
}

impl Weighed {
    /// One axle's reading.
    pub fn axle(&self, side: Side) -> Option<Mass> {
        match side {
            Side::Front => self.front,
            Side::Rear => self.rear,
        }
    }
}

/// A default that an answer rests on.
#[derive(Debug, Clone, PartialEq)]
pub struct UsedDefault {
    /// Path of the blank field.
    pub path: String,
    /// The value used, in the unit shown.
    pub text: Message,
    /// The same in SI; `None` for one that is described in words.
    pub si: Option<f64>,
    /// Why this value.
    pub reason: Word,
}

/// A number that an answer rests on and that was not measured.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Unmeasured {
    /// Path of the field.
    pub path: String,
    /// Where it comes from: guessed, quoted, a parts ledger.
    pub origin: Origin,
}

/// The answer to a job.
#[derive(Debug, Clone, PartialEq)]
pub struct Answer {
    /// Values alone: every ±, and every finding that rests on results, is still to come.
    pub is_coming: bool,
    /// The whole vehicle.
    pub vehicle: Vehicle,
    /// What the ledger of parts says.
    pub ledger: Option<Ledger>,
    /// Front, rear.
    pub axles: PerAxle<AxleAnswer>,
    /// Front, rear: rows, routes and ±.
    pub checked: PerAxle<Checked>,
    /// A cheaper remedy in place of new springs, front and rear, where it does the same or may.
    pub leads: PerAxle<Option<Lead>>,
    /// The springs as fitted: what was predicted and what was found.
    pub reweigh: Reweigh,
    /// The whole vehicle with each field moved by its ±.
    pub moved: EachMoved<Vehicle>,
    /// Everything there is to say, worst first.
    pub findings: Vec<Finding>,
    /// The defaults used.
    pub defaults: Vec<UsedDefault>,
    /// Typed numbers that the answer rests on and that were not measured.
    pub unmeasured: Vec<Unmeasured>,
    /// The marks by which a suspension bench judges.
    pub bench_marks: BenchMarks,
}

impl Deref for Answer {
    type Target = Vehicle;

    fn deref(&self) -> &Vehicle {
        &self.vehicle
    }
}

impl Answer {
    /// What was typed in a field cannot be used: an error is reported for it. No writer says it then.
    pub fn refuses(&self, path: &str) -> bool {
        self.findings.iter().any(|f| f.level == Level::Error && f.field == path)
    }

    /// The fields without which four corners that were weighed say nothing of left and right on their springs, by path.
    pub fn corners_unsolved(&self) -> &[String] {
        let are_read = self.before.corners.or(self.after.corners).is_some();
        if are_read { &self.whole.corners_missing } else { &[] }
    }

    /// One axle's answer.
    pub fn axle(&self, side: Side) -> &AxleAnswer {
        &self.axles[side]
    }

    /// The cheaper remedy in place of an axle's new springs, where there is one.
    pub fn lead(&self, side: Side) -> Option<&Lead> {
        self.leads[side].as_ref()
    }

    /// The words of a state of an axle where there is little room, as it is with what leads there.
    pub fn short(&self, side: Side, state: State) -> Word {
        let led = self.lead(side).filter(|lead| state == State::NewSprings && lead.leads()).and_then(Lead::kept);
        led.map_or_else(|| self.axle(side).short(state), |kept| kept.short())
    }

    /// Frequency and height of an axle on the springs that will be fitted, or on what leads in their place, with the ±.
    pub fn stands(&self, side: Side) -> Option<Stands> {
        if let Some(lead) = self.lead(side) {
            return lead.stands;
        }
        let (stands, checked) = (self.axle(side).standing.new.as_ref()?, self.checked(side));
        let u = |of: fn(&AxleAnswer) -> Option<f64>| checked.nudged.u_of(of).filter(|u| *u > 0.0);
        let frequency_u = u(|a| Some(a.standing.new.as_ref()?.frequency.si()));
        // Less than this is rounding: such a spring is placed by its height.
        const LEAST_M: f64 = 5e-5;
        let height_u = u(|a| a.standing.new.as_ref()?.height_change.map(Quantity::si)).filter(|u| *u > LEAST_M);
        Some(Stands {
            frequency: (stands.frequency, frequency_u),
            height_change: stands.height_change.map(|rise| (rise, height_u)),
        })
    }

    /// There is a result for at least one axle: its equilibrium is known, or what it needs, if only by the old rate.
    pub fn is_known(&self) -> bool {
        let stands = |a: &AxleAnswer| State::ALL.iter().any(|state| a.standing.of(*state).is_some());
        let by_factor = |a: &AxleAnswer| a.same_factor.is_some_and(|f| f.spring_rate.is_some());
        self.axles.iter().any(|a| a.sizing.is_some() || stands(a) || by_factor(a))
    }

    /// Index of the case in which the states are compared: the sized one, else as weighed.
    pub fn compared_case(&self) -> usize {
        self.cases.iter().position(|c| c.sized).unwrap_or(0)
    }

    /// The worst load over its rating that concerns this axle, and the case in which it is, of those that are driven.
    pub fn worst_rated(&self, side: Side) -> Option<(&CaseAnswer, &Rated)> {
        let driven = self.cases.iter().filter(|c| !c.what_if);
        let all = driven.flat_map(|c| c.rated.iter().map(move |r| (c, r)));
        let mine = all.filter(|(_, r)| r.part.concerns(side));
        mine.max_by(|a, b| a.1.share.si().total_cmp(&b.1.share.si()))
    }

    /// Typed numbers that an axle's answer rests on and that were not measured: of its own fields, its weights, and the
    /// parts or loads in them.
    pub fn not_measured(&self, side: Side) -> impl Iterator<Item = &Unmeasured> {
        let moved = move |path: &str| self.checked(side).nudged.iter().any(|n| n.path == path);
        self.unmeasured.iter().filter(move |u| moved(&u.path))
    }

    /// What was examined in addition to one axle's answer.
    pub fn checked(&self, side: Side) -> &Checked {
        &self.checked[side]
    }
}
