//! The picture of the job: ride height against ride frequency, and how an axle moves through both.
//!
//! The load takes it down and slows it; the new springs bring it back.

use crate::base::language::tr;
use crate::base::units::{Dim, Quantity, UnitChoice};
use crate::job::Side;
use crate::report::phrases;
use crate::report::pictures::label_places::Corner;
use crate::report::pictures::picture::{Mark, Picture};
use crate::say;
use crate::solve::answer::{Answer, AxleAnswer, Lead, Standing, State};

/// The states of one axle by ride frequency and height change from before, joined by arrows.
///
/// `None` until height and frequency of two states are known. New springs that are withheld are not in it.
pub fn shift(answer: &Answer, side: Side, units: &UnitChoice) -> Option<Picture> {
    let axle = answer.axle(side);
    let points: Vec<(State, [f64; 2])> =
        State::ALL.into_iter().filter_map(|state| Some((state, place_in(answer, axle, state)?))).collect();
    if points.len() < 2 {
        return None;
    }
    let arrows = points.windows(2).map(|pair| [pair[0].1, pair[1].1]).collect();
    let sizing = axle.sizing.as_ref();
    let range = sizing.map(|s| [s.frequency.low.si(), s.frequency.high.si()]);
    let title = title(answer, axle, &points, units);
    Some(Picture {
        marks: marks(answer, axle, &points, range),
        wanted_across: range.filter(|[low, high]| low < high).map(|range| (range, tr("target").to_owned())),
        uprights: range
            .filter(|[low, high]| low >= high)
            .map(|[low, _]| (low, tr("target").to_owned()))
            .into_iter()
            .collect(),
        arrows,
        below: stop_height_m(axle).map(|at_m| (at_m, tr("on the bump stop").to_owned())),
        ..Picture::new(title, (tr("ride frequency"), Dim::Frequency), (tr("height change from before"), Dim::Length))
    })
}

/// Where an axle is in a state; what leads in place of new springs is the last one.
fn place_in(answer: &Answer, axle: &AxleAnswer, state: State) -> Option<[f64; 2]> {
    if let Some(lead) = answer.lead(axle.side).filter(|lead| state == State::NewSprings && lead.leads()) {
        let stands = lead.stands.filter(|_| lead.raised.is_some())?;
        return Some([stands.frequency.0.si(), stands.height_change?.0.si()]);
    }
    axle.standing.of(state).as_ref().filter(|_| is_shown(answer, axle, state)).and_then(place)
}

/// What is kept has no third state; what is withheld is not shown.
fn is_shown(answer: &Answer, axle: &AxleAnswer, state: State) -> bool {
    state != State::NewSprings || axle.is_refitted() && answer.released(axle.side).is_ok()
}

/// Frequency, Hz, and height change from before, m.
fn place(stands: &Standing) -> Option<[f64; 2]> {
    Some([stands.frequency.si(), stands.height_change?.si()])
}

/// Where an axle is in the end: on what will be fitted, else on the old springs; `None` while the first is withheld.
pub(super) fn last_place(answer: &Answer, side: Side) -> Option<[f64; 2]> {
    let axle = answer.axle(side);
    let state = if axle.is_refitted() { State::NewSprings } else { State::OldSprings };
    axle.standing.of(state).as_ref().filter(|_| is_shown(answer, axle, state)).and_then(place)
}

/// The height change from before at which the bump stop is touched, m; `None` when the gap is not known.
fn stop_height_m(axle: &AxleAnswer) -> Option<f64> {
    State::ALL.into_iter().find_map(|state| {
        let stands = axle.standing.of(state).as_ref()?;
        Some(stands.height_change?.si() - stands.stop_room?.si())
    })
}

/// The marks of the states; words keep off the arrows, which lie on the side of the old springs.
fn marks(answer: &Answer, axle: &AxleAnswer, points: &[(State, [f64; 2])], range: Option<[f64; 2]>) -> Vec<Mark> {
    let of = |state: State| points.iter().find(|(s, _)| *s == state).map(|(_, at)| *at);
    let is_lower = of(State::OldSprings).is_none_or(|[_, height]| height <= 0.0);
    let is_quicker = of(State::Before).zip(of(State::NewSprings)).is_some_and(|(before, new)| new[0] > before[0]);
    let across = points.iter().map(|(_, at)| at[0]).chain(range.into_iter().flatten());
    let (low, high) = across.fold((f64::MAX, f64::MIN), |(low, high), x| (low.min(x), high.max(x)));
    let middle = 0.5 * (low + high);
    let mark = |&(state, at): &(State, [f64; 2])| {
        let is_left = match state {
            State::Before => is_quicker,
            State::NewSprings => !is_quicker,
            // Inside the picture, whichever side it stands on.
            State::OldSprings => at[0] > middle,
        };
        let words = Corner { is_right: !is_left, is_above: is_lower != (state == State::OldSprings) };
        Mark { state, label: answer.short(axle.side, state).to_string(), at, words }
    };
    points.iter().map(mark).collect()
}

fn title(answer: &Answer, axle: &AxleAnswer, points: &[(State, [f64; 2])], units: &UnitChoice) -> String {
    let is_set_again = axle.is_set_again() || answer.lead(axle.side).is_some_and(Lead::leads);
    let height = |state: State| {
        let (_, at) = points.iter().find(|(s, _)| *s == state)?;
        Some(phrases::short_height(Quantity::from_si(at[1]), units))
    };
    let side = axle.side.word();
    match (height(State::OldSprings), height(State::NewSprings)) {
        (Some(old), Some(new)) if is_set_again => {
            let set = answer.short(axle.side, State::NewSprings);
            say!("{side}: {old} on old springs, {new} {set}", side, old, new, set)
        }
        (Some(old), Some(new)) => say!("{side}: {old} on old springs, {new} on new ones", side, old, new),
        (Some(old), None) => say!("{side}: {old} on old springs", side, old),
        (None, Some(new)) => say!("{side}: {new} on new springs", side, new),
        (None, None) => say!("{side}: height and frequency", side),
    }
}
