//! Left and right springs that are not the axle's.

use crate::base::units::{Length, Quantity, SpringRate};
use crate::job::Plan;
use crate::job::read::OwnSpring;
use crate::solve::answer::AxleAnswer;
use crate::solve::evaluate::axle::{fitted_spacer, own_free_length};
use crate::solve::read::Reading;
use crate::trade::corners::Sides;
use crate::trade::spring::Spring;
use crate::trade::wheel::ForceTravel;

/// The curves of both sides on the springs that will be fitted: the axle's, or what a side has of its own. Springs that
/// stay are each where its own load and height placed it. `None` where the axle's are not known.
pub(super) fn fitted(reading: &Reading<'_>, axle: &AxleAnswer, old: &Sides<ForceTravel>) -> Option<Sides<ForceTravel>> {
    let curve = &axle.standing.new.as_ref()?.curve;
    let data = reading.job.axle(axle.side);
    let of_axle = fitted_spacer(reading, data);
    let one = |i: usize, own: &OwnSpring| {
        let spring = match axle.plan {
            Plan::Keep => old[i].spring.clone().moved(of_axle),
            Plan::NewSprings => curve.spring.clone(),
        };
        ForceTravel { spring: own_spring(reading, axle, own, spring, of_axle), ..curve.clone() }
    };
    Some([one(0, &data.left), one(1, &data.right)])
}

/// The axle's spring, on its spacer, with what one side has of its own. A spacer means nothing to a torsion bar; a free length counts only
/// where lengths are real ones, not differences: a finding says so.
fn own_spring(
    reading: &Reading<'_>,
    axle: &AxleAnswer,
    own: &OwnSpring,
    mut spring: Spring,
    of_axle: Length,
) -> Spring {
    let (rate, free): (Option<SpringRate>, Option<Length>) =
        (reading.typed(&own.rate), reading.typed(&own.free_length));
    let spacer: Option<Length> = reading.typed(&own.spacer);
    if let Some(factor) = rate.zip(main_rate(&spring)).map(|(rate, is)| rate / is) {
        spring = spring.times(factor.si());
    }
    if let Some(free) = free.filter(|_| takes_a_free_length(axle)) {
        let settle = reading.known(&reading.job.axle(axle.side).stock.settle).unwrap_or(Length::from_si(0.0));
        let is = own_free_length(&spring) - of_axle;
        spring = spring.longer_by(free - settle - is);
    }
    spring.moved(spacer.unwrap_or(of_axle) - of_axle)
}

/// A free length of its own can be used: lengths are real ones, and the spring is a coil.
pub(in crate::solve) fn takes_a_free_length(axle: &AxleAnswer) -> bool {
    let known = axle.standing.new.as_ref().is_some_and(|s| s.spring_length.is_some());
    known && axle.kind.is_coil()
}

/// A rate of its own can be used.
pub(in crate::solve) fn has_a_rate(spring: &Spring) -> bool {
    main_rate(spring).is_some()
}

/// The rate by which a spring is bought: of a stack the main coil's. `None` for bars and springs by points.
fn main_rate(spring: &Spring) -> Option<SpringRate> {
    match spring {
        Spring::Coil(coil) => Some(SpringRate::from_si(coil.rate_n_per_m)),
        Spring::Stack(stack) => Some(SpringRate::from_si(stack.main.rate_n_per_m)),
        Spring::Leaf(leaf) => Some(SpringRate::from_si(leaf.rate_n_per_m)),
        Spring::Bar(_) | Spring::Points(_) => None,
    }
}
