//! The four corners in pictures: from above with what they carry, from behind with the lean.

mod board;
pub mod from_above;
pub mod from_behind;

use crate::base::language::{Word, tr};
use crate::base::message::Message;
use crate::base::units::{Dim, Length, Mass, Quantity, UnitChoice, display};
use crate::job::{PerAxle, Side, fields};
use crate::report::percent_with_u;
use crate::report::phrases::upper_first;
use crate::report::results::{CORNERS, Figure, Results, corners_key};
use crate::say;
use crate::solve::answer::{Answer, Corners, State, Vehicle};

/// What the corners do on the springs that will be fitted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Aim {
    /// As they are fitted.
    AsFitted,
    /// After the cross weight was corrected, where that is part of the work.
    Corrected,
}

/// The corners in every state that is known, and how their numbers are formatted.
struct Known<'a> {
    answer: &'a Answer,
    results: &'a Results,
    units: &'a UnitChoice,
    states: Vec<State>,
    wheelbase_m: f64,
    track_m: PerAxle<f64>,
    is_corrected: bool,
}

impl<'a> Known<'a> {
    /// Without corners: why, and which fields are missing.
    fn of(answer: &'a Answer, results: &'a Results, units: &'a UnitChoice, aim: Aim) -> Result<Self, String> {
        let (states, wheelbase, track) = seen_of(answer).ok_or_else(|| why_not(answer))?;
        let is_corrected = aim == Aim::Corrected && answer.reweigh.cross_set;
        Ok(Known {
            answer,
            results,
            units,
            states,
            wheelbase_m: wheelbase.si(),
            track_m: track.map(Quantity::si),
            is_corrected,
        })
    }

    /// The last state that is known: the one that the title is about.
    fn last(&self) -> State {
        self.states.last().copied().unwrap_or(State::Before)
    }

    /// What the scales show after the cross weight was corrected, not what the springs give by themselves.
    fn is_corrected(&self, state: State) -> bool {
        self.is_corrected && state == State::NewSprings
    }

    /// A result of a corner in a state: its weight, height or change of height.
    fn figure(&self, state: State, corner: usize, what: &str) -> Option<&Figure> {
        let corner = CORNERS[corner].0;
        let key = match what {
            "weight" if self.is_corrected(state) => format!("fitted.weight.{corner}.foretold"),
            _ => format!("whole.corners.{}.{corner}.{what}", corners_key(state)),
        };
        self.results.find(&key).filter(|figure| figure.is_told())
    }

    /// A result is known of every corner in every state, or of any in any.
    fn all(&self, what: &str) -> bool {
        (0..4).all(|i| self.states.iter().all(|state| self.figure(*state, i, what).is_some()))
    }

    fn any(&self, what: &str) -> bool {
        (0..4).any(|i| self.states.iter().any(|state| self.figure(*state, i, what).is_some()))
    }

    /// "cross weight 50.3 ± 0.2 %, body level".
    fn words(&self, state: State) -> String {
        let key = match self.is_corrected(state) {
            true => "fitted.cross_weight.foretold".to_owned(),
            false => format!("whole.corners.{}.cross_weight", corners_key(state)),
        };
        let cross = self.results.find(&key);
        let share = percent_with_u(cross.and_then(|c| Some(Quantity::from_si(c.si?))), cross.and_then(|c| c.u_si));
        let lean = self.lean(state).said(self.units);
        say!("{state}: cross weight {share}, {lean}", state = state_words(self.answer, state), share, lean)
    }

    /// How the body leans in a state, at the mean track.
    fn lean(&self, state: State) -> Lean {
        let lower = |v: &Vehicle| match self.is_corrected(state) {
            true => Some(v.whole.cross?.right_lower.si()),
            false => Some((*v.whole.corners.of(state))?.right_lower.si()),
        };
        let key = format!("whole.corners.{}.right_lower", corners_key(state));
        let is_told = self.results.find(&key).is_some_and(|figure| figure.u_si.is_some());
        Lean::of(self.answer, lower, is_told)
    }

    /// The same across one axle.
    fn lean_across(&self, state: State, side: Side) -> Lean {
        let track_m = self.track_m[side];
        Lean::of(self.answer, |v| Some((*v.whole.corners.of(state))?.lean.si().sin() * track_m), true)
    }

    /// The corners that carry most: one, or those that differ from it by less than the ± shows.
    fn heaviest(&self) -> Vec<usize> {
        let state = self.last();
        let weights = |v: &Vehicle| -> Option<Corners<Mass>> {
            match self.is_corrected(state) {
                true => Some(v.whole.cross?.corners),
                false => Some((*v.whole.corners.of(state))?.weight),
            }
        };
        let Some(kg) = weights(&self.answer.vehicle).map(|w| w.walk().map(Mass::si)) else { return Vec::new() };
        let most = (1..4).fold(0, |most, i| if kg[i] > kg[most] { i } else { most });
        let less = |v: &Vehicle, i: usize| weights(v).map(|w| (w.walk()[most] - w.walk()[i]).si());
        let is_alike = |i: &usize| {
            let u = self.answer.moved.u_of(|v| less(v, *i)).unwrap_or(0.0);
            *i == most || kg[most] == kg[*i] || !display::is_determined(kg[most] - kg[*i], u)
        };
        (0..4).filter(is_alike).collect()
    }
}

/// The states in which the corners are known and shown, wheelbase and tracks.
fn seen_of(answer: &Answer) -> Option<(Vec<State>, Length, PerAxle<Length>)> {
    let is_known = |state: &State| answer.whole.corners.of(*state).is_some() && is_shown(answer, *state);
    let states: Vec<State> = State::ALL.into_iter().filter(is_known).collect();
    (!states.is_empty()).then_some((states, answer.whole.wheelbase?, answer.whole.track.known()?))
}

/// There are pictures of the corners.
pub fn are_known(answer: &Answer) -> bool {
    seen_of(answer).is_some()
}

/// What is kept has no third state; what is withheld is not shown.
fn is_shown(answer: &Answer, state: State) -> bool {
    let mut renewed = answer.axles.iter().filter(|axle| axle.is_refitted()).peekable();
    state != State::NewSprings || renewed.peek().is_some() && renewed.all(|axle| answer.released(axle.side).is_ok())
}

/// Why there are no corners, with the fields that are missing.
fn why_not(answer: &Answer) -> String {
    let missing = &answer.whole.corners_missing;
    match missing.is_empty() {
        true => tr("The four corners are not known.").to_owned(),
        false => say!(
            "The four corners are not known. Missing: {fields}.",
            fields = Message::row(missing.iter().map(|path| fields::full_label(path)), "; ")
        ),
    }
}

/// Where every axle that is worked on keeps its old springs: what is done to them, "on spacers, re-indexed".
fn set_again(answer: &Answer) -> Option<String> {
    let mut refitted = answer.axles.iter().filter(|axle| axle.is_refitted());
    let mut words: Vec<Word> = refitted.clone().map(|axle| axle.short(State::NewSprings)).collect();
    words.dedup();
    refitted
        .all(|axle| axle.is_set_again())
        .then(|| Message::row(words.into_iter().map(Message::from), ", ").to_string())
}

/// A state inside a sentence: "on the new springs", "on spacers".
fn state_words(answer: &Answer, state: State) -> String {
    match state {
        State::NewSprings => set_again(answer).unwrap_or_else(|| state.words().to_string()),
        _ => state.words().to_string(),
    }
}

/// A state where a sentence begins.
fn state_first(answer: &Answer, state: State) -> String {
    match state {
        State::NewSprings => {
            set_again(answer).map_or_else(|| state.words_first().to_string(), |words| upper_first(&words))
        }
        _ => state.words_first().to_string(),
    }
}

/// "left front".
fn corner_words(corner: usize) -> &'static str {
    [tr("left front"), tr("right front"), tr("left rear"), tr("right rear")][corner]
}

/// How much lower the right side of the body is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Lean {
    /// As calculated, m.
    pub right_lower_m: f64,
    u_m: f64,
    /// Its ± is shown.
    is_told: bool,
}

impl Lean {
    fn of(answer: &Answer, lower: impl Fn(&Vehicle) -> Option<f64>, is_told: bool) -> Self {
        let right_lower_m = lower(&answer.vehicle).unwrap_or(0.0);
        Lean { right_lower_m, u_m: answer.moved.u_of(lower).unwrap_or(0.0), is_told }
    }

    /// No more than its ±, or too little to be seen in numbers.
    pub fn is_level(&self, units: &UnitChoice) -> bool {
        let unit = units.unit(Dim::Length);
        self.right_lower_m.abs() <= self.u_m || display::rounded_number(self.right_lower_m.abs(), unit) == "0"
    }

    fn amount(&self, u_m: Option<f64>, units: &UnitChoice) -> String {
        display::rounded_with_u(self.right_lower_m.abs(), u_m.filter(|_| self.is_told), Dim::Length, units)
    }

    /// "6 ± 2 mm lower on the right", "body level, ± 2 mm".
    pub fn said(&self, units: &UnitChoice) -> String {
        if self.is_level(units) {
            let zero = display::rounded_with_u(0.0, Some(self.u_m).filter(|_| self.is_told), Dim::Length, units);
            return match zero.strip_prefix("0 ").filter(|u| u.starts_with('±')) {
                Some(u) => say!("body level, {uncertainty}", uncertainty = u),
                None => tr("body level").to_owned(),
            };
        }
        let low = self.amount(Some(self.u_m), units);
        match self.right_lower_m > 0.0 {
            true => say!("{low} lower on the right", low),
            false => say!("{low} lower on the left", low),
        }
    }

    /// "the right side is 6 mm lower"; what its ± leaves open is about that.
    fn finding(&self, units: &UnitChoice) -> String {
        let low = self.amount(None, units);
        let is_sure = display::is_determined(self.right_lower_m, self.u_m);
        match (self.is_level(units), self.right_lower_m > 0.0, is_sure) {
            (true, ..) => tr("the body is level").to_owned(),
            (_, true, true) => say!("the right side is {low} lower", low),
            (_, true, false) => say!("the right side is about {low} lower", low),
            (_, false, true) => say!("the left side is {low} lower", low),
            (_, false, false) => say!("the left side is about {low} lower", low),
        }
    }
}
