//! Decides, before anything is evaluated: how each old spring is read, what is bought, what is fitted.
//!
//! Decided once, on the job as it was read, by evaluating it as far as each decision needs. Moving a field afterwards
//! changes none of it.

mod old_rate;

use crate::base::units::Quantity;
use crate::job::{DamperPlan, PerAxle, Plan, Side};
use crate::solve::answer::{Compared, OldSpring, Spacer, State};
use crate::solve::evaluate::axle;
use crate::solve::evaluate::axle::known::{Known, Readings};
use crate::solve::evaluate::axle::sizing;
use crate::solve::evaluate::decided::{Bought, Decided, Decisions, OldRate, Raise};
use crate::solve::evaluate::equal_load;
use crate::solve::read::Reading;
pub(super) use old_rate::old_rates;

/// Decides everything.
pub(super) fn decide(reading: &mut Reading<'_>) -> Decisions {
    let PerAxle { front, rear } = old_rates(reading);
    let compared = equal_load::compared(reading);
    let (front, on_new_front) = axle(reading, Side::Front, &compared, front);
    let (rear, on_new_rear) = axle(reading, Side::Rear, &compared, rear);
    let fitted = if on_new_front && on_new_rear { State::NewSprings } else { State::OldSprings };
    Decisions { axles: PerAxle { front, rear }, fitted }
}

/// What is bought for one axle, and whether it rests on it.
pub(super) fn axle(reading: &Reading<'_>, side: Side, compared: &Compared, old_rate: OldRate) -> (Decided, bool) {
    let bare = Decided { old_rate, ..Decided::default() };
    let ordered = Decided { spring: spring(reading, side, compared, &bare), ..bare };
    let answer = axle::evaluate(reading, side, compared, &ordered);
    let of = Readings::of(reading, side);
    let is_new = of.axle.plan == Plan::NewSprings;
    let new = answer.standing.new.as_ref();
    let itself = answer.fitted.as_ref().filter(|_| is_new).map(|springs| springs.of_axle.clone());
    let helps = |spacer: &Spacer| spacer.thickness.si() > 0.0 && spacer.holds_stress();
    let raise = answer.parts.spacer.filter(helps).zip(answer.sizing.as_ref());
    let knows_wheel = answer.motion_ratio.is_some();
    let decided = Decided {
        raise: raise.map(|(spacer, sizing)| Raise { thickness: spacer.thickness, to: sizing.wanted_travel }),
        wire_m: of.wire_to_wind(&answer),
        added_leaves: answer.parts.added_leaf.and_then(|added| of.leaf_pack()?.leaves_to_add(added.beside.rate)),
        new_dampers: knows_wheel
            && match of.axle.dampers {
                DamperPlan::AsNeeded => is_new && axle::dampers_suit(&answer) != Some(true),
                DamperPlan::New => true,
                DamperPlan::Keep => false,
            },
        old_rate: ordered.old_rate,
        spring: ordered.spring.map(|bought| Bought { itself, ..bought }),
    };
    (decided, new.is_some())
}

/// The spring to order.
fn spring(reading: &Reading<'_>, side: Side, compared: &Compared, decided: &Decided) -> Option<Bought> {
    let mut known = Known::read(reading, side, decided, compared)?;
    let on_old = known.on_old_springs(&mut OldSpring::default());
    sizing::pick(&known, &sizing::asked(&known, &on_old)?.ok()?)
}
