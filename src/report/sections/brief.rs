//! The answer of an axle in one line, its parts apart: what is bought, what the axle then does, how sure that is.

use crate::base::language::tr;
use crate::base::units::{Dim, Quantity, UnitChoice, display};
use crate::job::{Plan, Side};
use crate::report::sections::sentence;
use crate::say;
use crate::solve::answer::{Answer, AxleAnswer, State};

/// The answer of an axle in one line.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Brief {
    /// What is bought or kept; or what is said instead while nothing is released.
    pub pick: Result<String, String>,
    /// On which springs the axle then rides.
    pub state: State,
    /// Ride frequency with its ±; `None` when not known or not released.
    pub frequency: Option<String>,
    /// Height against before with its ±; `None` when not known or not released.
    pub height: Option<String>,
    /// How many values were not measured; blank when nothing is released.
    pub certainty: String,
}

/// The answer of one axle in one line; `sentence` is the whole of it.
pub fn axle(answer: &Answer, side: Side, sentence: &str, units: &UnitChoice) -> Brief {
    let axle = answer.axle(side);
    let state = if axle.plan == Plan::Keep { State::OldSprings } else { State::NewSprings };
    let (Some(pick), Some(stands)) = (pick(answer, axle, units), axle.standing.new.as_ref()) else {
        let words = if answer.is_coming { tr("being worked out") } else { sentence };
        let words = words.strip_prefix(side.word()).map_or(words, |rest| rest.trim_start_matches([':', ',', ' ']));
        return Brief {
            pick: Err(sentence::upper_first(words)),
            state,
            frequency: None,
            height: None,
            certainty: String::new(),
        };
    };
    let checked = answer.checked(side);
    let u = |of: fn(&AxleAnswer) -> Option<f64>| checked.u_of(of).filter(|u| *u > 0.0);
    let frequency_u = u(|a| a.standing.new.as_ref().map(|s| s.frequency.si()));
    // Less than this is rounding: such a spring is placed by its height.
    const LEAST_M: f64 = 5e-5;
    let height_u = u(|a| a.standing.new.as_ref()?.height_change.map(Quantity::si)).filter(|u| *u > LEAST_M);
    Brief {
        pick: Ok(pick),
        state,
        frequency: Some(display::rounded_with_u(stands.frequency.si(), frequency_u, Dim::Frequency, units)),
        height: stands.height_change.map(|rise| sentence::height_or(tr("as before"), rise, height_u, units)),
        certainty: certainty(answer, axle),
    }
}

/// What is bought or kept; `None` while nothing is released.
fn pick(answer: &Answer, axle: &AxleAnswer, units: &UnitChoice) -> Option<String> {
    let part = answer.released(axle.side).ok()?;
    if axle.plan == Plan::Keep {
        return Some(tr("old springs stay").to_owned());
    }
    let spring = part.spring.as_ref()?;
    Some(sentence::bought(part.parts().taken.as_deref(), spring, units))
}

/// "all measured", "2 assumed, 3 not measured".
fn certainty(answer: &Answer, axle: &AxleAnswer) -> String {
    let side = axle.side.key();
    let is_weighty = |path: &str| {
        path.strip_prefix(side).and_then(|p| p.strip_prefix('.')).is_some_and(|key| sentence::WEIGHTY.contains(&key))
    };
    let assumed = answer.defaults.iter().filter(|d| is_weighty(&d.path)).count();
    let unmeasured = answer.not_measured(axle.side).count();
    match (assumed, unmeasured) {
        (0, 0) => tr("all measured").to_owned(),
        (assumed, 0) => say!("{assumed} assumed", assumed),
        (0, unmeasured) => say!("{unmeasured} not measured", unmeasured),
        (assumed, unmeasured) => say!("{assumed} assumed, {unmeasured} not measured", assumed, unmeasured),
    }
}
