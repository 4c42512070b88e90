//! Left and right springs that are not the axle's.

use crate::base::units::{Angle, Length, Quantity, SpringRate};
use crate::job::read::{Axle, OwnSpring};
use crate::job::{LeftRight, Plan, SpringKind};
use crate::solve::answer::{AxleAnswer, FittedSprings, Kept};
use crate::solve::read::Reading;
use crate::trade::corners::Sides;
use crate::trade::spring::{OnHelper, Spring};
use crate::trade::wheel::ForceTravel;

/// What left and right of an axle have of their own.
pub(in crate::solve) struct OwnSprings<'a> {
    pub reading: &'a Reading<'a>,
    pub axle: &'a Axle,
    /// A free length of its own can be used: lengths are real ones, not differences, and the spring is a coil.
    pub takes_a_free_length: bool,
}

impl OwnSprings<'_> {
    /// The axle's spring, on its spacer, and the springs of both sides.
    pub fn fitted(&self, of_axle: Spring) -> FittedSprings {
        let [left, right] = self.on([of_axle.clone(), of_axle.clone()]);
        FittedSprings { of_axle, left, right }
    }

    /// Both springs, each on the axle's spacer, with what its side has of its own.
    fn on(&self, [left, right]: Sides<Spring>) -> Sides<Spring> {
        [self.one(&self.axle.left, left), self.one(&self.axle.right, right)]
    }

    /// A free length counts only where lengths are real ones: a finding says so.
    fn one(&self, own: &OwnSpring, mut spring: Spring) -> Spring {
        let of_axle = self.of_axle();
        let (rate, free): (Option<SpringRate>, Option<Length>) =
            (self.reading.typed(&own.rate), self.reading.typed(&own.free_length));
        if let Some(factor) = rate.zip(main_rate(&spring)).map(|(rate, is)| rate / is) {
            spring = spring.times(factor.si());
        }
        if let Some(free) = free.filter(|_| self.takes_a_free_length) {
            let settle = self.reading.known(&self.axle.stock.settle).unwrap_or(Length::from_si(0.0));
            let is = own_free_length(&spring) - of_axle;
            spring = spring.longer_by(free - settle - is);
        }
        if let Some(solid) = self.reading.typed(&own.solid_length).filter(|_| self.takes_a_free_length) {
            spring = spring.with_solid_length(Some(solid + of_axle));
        }
        spring.moved(self.spacer(own) - of_axle).indexed(self.index(own) - self.index_of_axle())
    }

    /// No side has a rate or a free length of its own.
    pub fn are_alike(&self) -> bool {
        [&self.axle.left, &self.axle.right].into_iter().all(|own| own.rate.is_blank() && own.free_length.is_blank())
    }

    /// The spacers of both sides.
    pub fn spacers(&self) -> LeftRight<Length> {
        LeftRight { left: self.spacer(&self.axle.left), right: self.spacer(&self.axle.right) }
    }

    fn spacer(&self, own: &OwnSpring) -> Length {
        self.reading.typed(&own.spacer).unwrap_or_else(|| self.of_axle())
    }

    /// How far an old bar that stays is indexed again.
    fn index(&self, own: &OwnSpring) -> Angle {
        let own: Option<Angle> = self.reading.typed(&own.index).filter(|_| self.axle.plan == Plan::Keep);
        own.unwrap_or_else(|| self.index_of_axle())
    }

    fn index_of_axle(&self) -> Angle {
        let index: Option<Angle> = self.reading.typed(&self.axle.index).filter(|_| self.axle.plan == Plan::Keep);
        index.unwrap_or(Angle::from_si(0.0))
    }

    /// What is done to old springs that stay; `None` where they stay as they are.
    pub fn kept(&self) -> Option<Kept> {
        if self.axle.plan != Plan::Keep {
            return None;
        }
        let own = LeftRight { left: &self.axle.left, right: &self.axle.right };
        let kept = match self.axle.spring.kind {
            SpringKind::Leaf if self.added_leaf().is_some() => self.added_leaf()?,
            SpringKind::TorsionBar => Kept::Indexed(own.map(|own| self.index(own))),
            _ => Kept::Spacers(own.map(|own| self.spacer(own))),
        };
        Some(kept).filter(Kept::is_something)
    }

    /// The leaf that is added to an old one that stays.
    fn added_leaf(&self) -> Option<Kept> {
        let counts = self.axle.plan == Plan::Keep && self.axle.spring.kind == SpringKind::Leaf;
        let rate = self.reading.typed(&self.axle.added_leaf.rate).filter(|_| counts)?;
        Some(Kept::AddedLeaf { rate, nip: self.reading.known(&self.axle.added_leaf.nip)?, blocks: self.spacers() })
    }

    /// An old spring that stays, on the axle's spacer, indexed again as the axle is, or with the leaf that is added.
    pub fn set(&self, old: Spring) -> Spring {
        let set = old.moved(self.of_axle()).indexed(self.index_of_axle());
        match self.added_leaf() {
            Some(Kept::AddedLeaf { rate, nip, .. }) => set.with_leaf(rate, nip),
            _ => set,
        }
    }

    /// The axle's spacer: of a spring taken from a list its own, of one that stays what is put under it.
    pub fn of_axle(&self) -> Length {
        let (reading, axle) = (self.reading, self.axle);
        let spacer: Option<Length> = match axle.plan {
            Plan::Keep => reading.typed(&axle.spacer),
            Plan::NewSprings => {
                reading.typed::<SpringRate>(&axle.taken.rate).and_then(|_| reading.known(&axle.taken.spacer))
            }
        };
        spacer.unwrap_or(Length::from_si(0.0))
    }
}

/// The curves of both sides on the springs that will be fitted. Springs that stay are each where its own load and height
/// placed it. `None` where the axle's are not known.
pub(super) fn curves(reading: &Reading<'_>, axle: &AxleAnswer, old: &Sides<ForceTravel>) -> Option<Sides<ForceTravel>> {
    let curve = &axle.standing.new.as_ref()?.curve;
    let data = reading.job.axle(axle.side);
    let own = OwnSprings { reading, axle: data, takes_a_free_length: takes_a_free_length(axle) };
    let springs = match (axle.plan, axle.fitted.as_ref()?) {
        (Plan::Keep, _) => own.on(old.each_ref().map(|old| own.set(old.spring.clone()))),
        (Plan::NewSprings, FittedSprings { left, right, .. }) => [left.clone(), right.clone()],
    };
    Some(springs.map(|spring| ForceTravel { spring, ..curve.clone() }))
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
        Spring::Leaf(leaf) | Spring::OnHelper(OnHelper { main: leaf, .. }) => {
            Some(SpringRate::from_si(leaf.rate_n_per_m))
        }
        Spring::Bar(_) | Spring::Points(_) => None,
    }
}

/// The free length of what is ordered: of a stack, the main coil's.
pub(in crate::solve) fn own_free_length(spring: &Spring) -> Length {
    Length::from_si(match spring {
        Spring::Stack(stack) => stack.main.free_length_m,
        other => other.free_length_m(),
    })
}
