//! Where a field is in the job, in words.

use super::{Side, by_path};
use crate::base::language::Word;
use crate::base::message::Message;
use crate::message;

/// The part of the job a field belongs to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Scope {
    /// The whole job.
    Job,
    /// One axle.
    Axle(Side),
    /// A weigh-in; true for the one before.
    Weighing(bool),
}

impl Scope {
    /// Its axle; the front one for what belongs to neither.
    pub fn side(self) -> Side {
        match self {
            Scope::Axle(side) => side,
            Scope::Job | Scope::Weighing(_) => Side::Front,
        }
    }
}

/// Where a field is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Place {
    /// The number of another plan, as counted by people.
    pub plan: Option<usize>,
    /// The part of the job.
    pub scope: Scope,
    /// The row numbers as counted by people: of the list, and of a list inside it.
    pub rows: [Option<usize>; 2],
}

/// "Front, old spring rate", "Before, left front", "Rear, row 4, spring length".
pub fn full_label(path: &str) -> Message {
    let Some((field, place)) = by_path(path) else { return path.into() };
    let scope = match place.scope {
        Scope::Job => None,
        Scope::Axle(side) => Some(side.word()),
        Scope::Weighing(true) => Some(Word("Before")),
        Scope::Weighing(false) => Some(Word("After")),
    };
    let row = match (place.rows, path.split('[').next()) {
        ([Some(part), _], Some("parts")) => Some(message!("Part {part}", part)),
        ([Some(case), None], Some("cases")) => Some(message!("Load case {case}", case)),
        ([Some(case), Some(row)], _) => Some(message!("Load case {case}, row {row}", case, row)),
        ([Some(row), _], _) => Some(message!("row {row}", row)),
        _ => None,
    };
    let label = match (scope, row) {
        (None, None) => field.label().into(),
        (scope, row) => {
            let label = Message::from(field.label()).inside();
            Message::row(scope.map(Message::from).into_iter().chain(row).chain([label]), ", ")
        }
    };
    match place.plan {
        Some(plan) => message!("Plan {plan}: {label}", plan, label),
        None => label,
    }
}
