//! "It will bottom, bind, fall out": a travel ruler per option.

use crate::base::language::tr;
use crate::base::units::{Length, Quantity, UnitChoice, display};
use crate::job::Plan;
use crate::say;
use crate::solve::answer::{AxleAnswer, Standing, State};

/// A place on the ruler.
#[derive(Debug, Clone, PartialEq)]
pub struct Place {
    /// Wheel travel, m, + in bump.
    pub at_m: f64,
    /// What is there.
    pub label: &'static str,
}

/// One option: a spring, and the position of the wheel on it.
#[derive(Debug, Clone, PartialEq)]
pub struct Choice {
    /// Its name.
    pub label: &'static str,
    /// Position of the wheel: state and travel, m.
    pub stands: Vec<(State, f64)>,
    /// Where this spring gets loose, m, if inside the travel.
    pub loose_m: Option<f64>,
}

/// The ruler of one axle.
#[derive(Debug, Clone, PartialEq)]
pub struct Ruler {
    /// The finding it shows.
    pub title: String,
    /// Full droop and metal, m.
    pub ends_m: [f64; 2],
    /// Ends, stop, bind, damper ends.
    pub places: Vec<Place>,
    /// Old and new spring.
    pub options: Vec<Choice>,
}

/// The ruler of one axle; `None` until travel is known and something is in it.
pub fn ruler(axle: &AxleAnswer, units: &UnitChoice) -> Option<Ruler> {
    let droop_m = -axle.travel.droop?.si();
    let metal_m = axle.travel.metal.or(axle.travel.stop)?.si();
    let mut places = vec![Place { at_m: droop_m, label: tr("full droop") }];
    for (at, label) in [
        (axle.travel.stop, tr("bump stop")),
        (axle.travel.metal, tr("metal contact")),
        (axle.travel.bind, tr("coil bind")),
        (axle.old_spring.crossover.and_then(|c| c.travel), tr("old helper spring solid")),
        (axle.travel.damper_closed, tr("damper closed")),
        (axle.travel.damper_open, tr("damper open")),
    ] {
        places.extend(at.map(|z| Place { at_m: z.si(), label }));
    }
    let standing = |state| axle.standing.of(state).as_ref();
    let option = |label, states: &[State]| {
        let found: Vec<(State, &Standing)> = states.iter().filter_map(|s| Some((*s, standing(*s)?))).collect();
        let loose = found.first().and_then(|(_, s)| s.loose_at).map(Quantity::si);
        let stands = found.iter().map(|(state, s)| (*state, s.travel.si())).collect::<Vec<_>>();
        (!stands.is_empty()).then(|| Choice { label, stands, loose_m: loose.filter(|z| *z >= droop_m) })
    };
    let mut options: Vec<Choice> = option(tr("old springs"), &[State::Before, State::OldSprings]).into_iter().collect();
    if axle.is_refitted() {
        options.extend(option(axle.short(State::NewSprings).said(), &[State::NewSprings]));
    }
    if options.is_empty() {
        return None;
    }
    Some(Ruler { title: title(axle, units), ends_m: [droop_m, metal_m], places, options })
}

fn title(axle: &AxleAnswer, units: &UnitChoice) -> String {
    let side = axle.side.word();
    let room = |state| axle.standing.of(state).as_ref().and_then(|s| s.stop_room);
    let said = |l: Length| display::rounded(l, units);
    match (room(State::OldSprings), room(State::NewSprings)) {
        (Some(old), Some(new)) if axle.plan == Plan::NewSprings => {
            say!(
                "{side}: gap to the bump stop {old} on the old springs, {new} on the new ones",
                side,
                old = said(old),
                new = said(new)
            )
        }
        (Some(old), _) => say!("{side}: gap to the bump stop {old}", side, old = said(old)),
        _ => say!("{side}: position of the wheel in its travel", side),
    }
}
