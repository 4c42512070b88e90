//! The answer of an axle in one line, its parts apart: what is bought, what the axle then does, how sure that is.

use crate::base::language::{inside, tr};
use crate::base::units::{Dim, Quantity, UnitChoice, display};
use crate::job::{Finding, Level, Plan, Side, fields};
use crate::report::phrases;
use crate::report::sections::said::kept;
use crate::report::sections::{needed, sentence};
use crate::say;
use crate::solve::answer::{Answer, AxleAnswer, Lead, RatedPart, RemedyKind, State};

/// The answer of an axle in one line.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Brief {
    /// What is bought or kept; or the text shown while nothing is released.
    pub pick: Result<String, String>,
    /// On which springs the axle then rides.
    pub state: State,
    /// Ride frequency with its ±; `None` when not known or not released.
    pub frequency: Option<String>,
    /// Height change from before with its ±; `None` when not known or not released.
    pub height: Option<String>,
    /// How many values were not measured; blank when nothing is released.
    pub certainty: String,
    /// The same where there is little room: what was assumed was not measured either.
    pub short_certainty: String,
}

/// The answer of one axle in one line.
pub fn axle(answer: &Answer, side: Side, units: &UnitChoice) -> Brief {
    let axle = answer.axle(side);
    let is_refitted = answer.lead(side).map_or(axle.is_refitted(), |lead| lead.kind == RemedyKind::Spacer);
    let state = if is_refitted { State::NewSprings } else { State::OldSprings };
    let lead = answer.lead(side);
    let measured_first = lead.filter(|lead| !lead.leads()).map(measure_first);
    let pick =
        measured_first.map_or_else(|| pick(answer, axle, units).ok_or_else(|| instead(answer, axle, units)), Err);
    let (Ok(pick), Some(stands)) = (&pick, answer.stands(side)) else {
        return Brief {
            pick: Err(pick.err().unwrap_or_else(|| instead(answer, axle, units))),
            state,
            frequency: None,
            height: None,
            certainty: String::new(),
            short_certainty: String::new(),
        };
    };
    let assumed = sentence::assumed(answer, axle).len();
    let unmeasured = answer.not_measured(axle.side).count();
    let (frequency, u) = stands.frequency;
    Brief {
        pick: Ok(pick.clone()),
        state,
        frequency: Some(display::rounded_with_u(frequency.si(), u, Dim::Frequency, units)),
        height: stands.height_change.map(|(rise, u)| phrases::height_or(tr("as before"), rise, u, units)),
        certainty: certainty(assumed, unmeasured),
        short_certainty: match assumed + unmeasured {
            0 => certainty(0, 0),
            unsure => say!("{unsure} unsure", unsure),
        },
    }
}

/// "Measure first: old rate".
fn measure_first(lead: &Lead) -> String {
    say!("Measure first: {fields}", fields = needed::fields_in_short(&lead.measure))
}

/// What is bought or kept; `None` while nothing is released.
fn pick(answer: &Answer, axle: &AxleAnswer, units: &UnitChoice) -> Option<String> {
    let part = answer.released(axle.side).ok()?;
    if let Some(lead) = answer.lead(axle.side) {
        return Some(kept::stay(lead.kept(), units));
    }
    if axle.plan == Plan::Keep {
        return Some(kept::stay(part.parts().kept, units));
    }
    let spring = part.spring.as_ref()?;
    let bought = sentence::bought(part.parts().taken.as_deref(), spring, units);
    Some(if spring.bar.is_some() { say!("torsion bars of {diameter}", diameter = bought) } else { bought })
}

/// Text in place of the pick, short enough for one line: the stop, what is in doubt, or what is still needed.
fn instead(answer: &Answer, axle: &AxleAnswer, units: &UnitChoice) -> String {
    let is_open = axle.plan == Plan::NewSprings && axle.sizing.is_none();
    if answer.is_coming && !is_open {
        return phrases::upper_first(tr("being calculated"));
    }
    match answer.released(axle.side) {
        Err(_) if axle.overloaded => stop(answer, axle),
        Err(reasons) if reasons.is_stop() => tr("STOP: nothing is recommended for this vehicle").to_owned(),
        Err(_) if is_open => still_needs(axle, units),
        Err(reasons) => in_doubt(reasons.first, axle.plan),
        Ok(_) => still_needs(axle, units),
    }
}

/// "STOP: 112 % of the axle's rating".
fn stop(answer: &Answer, axle: &AxleAnswer) -> String {
    let Some((_, worst)) = answer.worst_rated(axle.side) else {
        return tr("STOP: no spring is recommended").to_owned();
    };
    let share = sentence::percent_of_rating(worst);
    match worst.part {
        RatedPart::Axle(_) => say!("STOP: {share} % of the axle rating", share),
        RatedPart::Tyre(_) => say!("STOP: {share} % of the tyre rating", share),
        RatedPart::Wheel(_) => say!("STOP: {share} % of the wheel rating", share),
        RatedPart::Vehicle => say!("STOP: {share} % of the vehicle rating", share),
    }
}

/// "Not to be ordered: check old spring rate", "Old springs stay: check motion ratio".
fn in_doubt(first: &Finding, plan: Plan) -> String {
    let field = fields::by_path(&first.field).map_or_else(String::new, |(field, _)| inside(field.label().said()));
    match (plan, first.level, field.is_empty()) {
        (Plan::Keep, _, true) => tr("Old springs stay, result in doubt: see findings").to_owned(),
        (Plan::Keep, _, false) => say!("Old springs stay, result in doubt: {field}", field),
        (Plan::NewSprings, _, true) => tr("Do not order: see findings").to_owned(),
        (Plan::NewSprings, Level::Error, false) => say!("Do not order: error in {field}", field),
        (Plan::NewSprings, _, false) => say!("Do not order: check {field}", field),
    }
}

/// "Still needs: weights after, motion ratio, old rate".
fn still_needs(axle: &AxleAnswer, units: &UnitChoice) -> String {
    let needed = needed::in_short(axle);
    let rule = axle.same_factor.as_ref().filter(|_| axle.plan == Plan::NewSprings);
    match (rule, needed.is_empty()) {
        (_, true) => tr("No answer: see findings").to_owned(),
        (Some(rule), false) => match rule.spring_rate {
            Some(rate) => {
                say!(
                    "From the weights alone: {rate}; still needed: {needed}",
                    rate = display::rounded(rate, units),
                    needed
                )
            }
            None => say!(
                "From the weights alone: old rate × {factor}; still needed: {needed}",
                factor = display::fixed(rule.factor.si(), 3),
                needed
            ),
        },
        (None, false) => say!("Still needed: {needed}", needed),
    }
}

/// "all measured", "2 assumed, 3 not measured".
fn certainty(assumed: usize, unmeasured: usize) -> String {
    match (assumed, unmeasured) {
        (0, 0) => tr("all measured").to_owned(),
        (assumed, 0) => say!("{assumed} assumed", assumed),
        (0, unmeasured) => say!("{unmeasured} not measured", unmeasured),
        (assumed, unmeasured) => say!("{assumed} assumed, {unmeasured} not measured", assumed, unmeasured),
    }
}
