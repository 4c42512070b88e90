//! What pictures of the chosen plan show of the others.

use crate::base::message::Message;
use crate::job::{PerAxle, Side};
use crate::report::pictures::motion::hump;
use crate::report::pictures::picture::PlanMark;
use crate::report::pictures::shift;
use crate::solve::answer::{Answer, Swing};

/// The marks of other plans in their order; no more are shown.
pub const PLAN_MARKS: [PlanMark; 3] = [PlanMark::Up, PlanMark::Down, PlanMark::Star];

/// A plan that is not chosen.
#[derive(Debug, Clone)]
pub struct Seen {
    /// What it is called.
    pub name: Message,
    /// Frequency, Hz, and height change from before, m, of each axle; `None` where they are not known or withheld.
    pub places: PerAxle<Option<[f64; 2]>>,
    /// How both ends swing after a hump.
    pub swings: Option<[Swing; 2]>,
}

impl Seen {
    /// Of its answer. What is withheld is not shown.
    pub fn of(name: Message, answer: &Answer) -> Self {
        let is_free = answer.axles.iter().all(|axle| !axle.is_refitted() || answer.released(axle.side).is_ok());
        Seen {
            name,
            places: PerAxle::each(|side: Side| shift::last_place(answer, side)),
            swings: hump::last_swings(answer).filter(|_| is_free).map(|(_, swings)| swings),
        }
    }
}
