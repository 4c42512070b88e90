//! What the money buys: nothing done, a spacer, springs, springs and dampers, side by side in every load case.

use crate::base::units::{DampingRate, Force, Quantity, Ratio, weight};
use crate::job::{Plan, SpringKind};
use crate::solve::answer::{AtRest, AxleAnswer, CaseAnswer, CaseStanding, OptionStanding, Remedy, RemedyKind, State};
use crate::solve::evaluate::axle::standing;
use crate::solve::evaluate::decided::Raise;
use crate::solve::evaluate::load_cases::Carried;
use crate::solve::evaluate::on_road::{corner_with, on_road};
use crate::solve::evaluate::own_springs::OwnSprings;
use crate::solve::read::Reading;
use crate::trade::spring::Spring;
use crate::trade::weights;
use crate::trade::wheel::ForceTravel;

/// The remedies for one axle, the cheapest first; none when it keeps its springs or rests on nothing known.
pub(in crate::solve) fn remedies(
    reading: &Reading<'_>,
    axle: &AxleAnswer,
    carried: &[Carried],
    cases: &[CaseAnswer],
    raise: Option<&Raise>,
) -> Vec<Remedy> {
    let Some(old) = axle.standing.old.as_ref().filter(|_| axle.plan == Plan::NewSprings) else { return Vec::new() };
    let side = axle.side;
    let sized = carried.iter().find(|c| c.sized);
    let load = weight(old.sprung) + sized.map_or(Force::from_si(0.0), |c| c.tongue[side] / 2.0);
    let raised = raise.and_then(|raise| raised(raise, &old.curve, load));
    let new = axle.standing.new.is_some();
    let known = |kind: &RemedyKind| match kind {
        RemedyKind::Nothing => true,
        RemedyKind::Spacer => raised.is_some(),
        RemedyKind::Springs | RemedyKind::SpringsAndDampers => new,
    };
    let damped = |s: &CaseStanding, at_wheel, is_new| with_dampers(reading, axle, s.on, at_wheel, is_new);
    let stands = |kind: RemedyKind, n: usize| {
        let case = &cases.get(n)?.standing[side];
        match kind {
            RemedyKind::Nothing => case.old.as_ref().map(|s| damped(s, s.old_damper_at_wheel, false)),
            RemedyKind::Spacer => on(reading, axle, raised.as_ref()?, &carried[n]),
            RemedyKind::Springs => case.new.as_ref().map(|s| damped(s, s.old_damper_at_wheel, false)),
            RemedyKind::SpringsAndDampers => case.new.as_ref().map(|s| damped(s, s.new_damper_at_wheel, true)),
        }
    };
    let remedy = |kind: RemedyKind| Remedy {
        kind,
        price: price(reading, axle, kind),
        cases: (0..carried.len()).map(|n| stands(kind, n)).collect(),
    };
    RemedyKind::ALL.into_iter().filter(known).map(remedy).collect()
}

/// The old springs on the spacer or block that was decided; a bar is set to the height again, whatever it carries.
fn raised(raise: &Raise, old: &ForceTravel, load: Force) -> Option<ForceTravel> {
    let spring = match &old.spring {
        bar @ Spring::Bar(_) => {
            bar.carrying(old.spring_force_for(load, raise.to), old.spring_length.length(raise.to))?
        }
        spring => spring.clone().moved(raise.thickness),
    };
    Some(ForceTravel { spring, ..old.clone() })
}

/// A corner at rest with dampers of this rate at the wheel, on the road too.
fn with_dampers(
    reading: &Reading<'_>,
    axle: &AxleAnswer,
    on: AtRest,
    damper: Option<DampingRate>,
    is_new: bool,
) -> OptionStanding {
    let corner = |damping| corner_with(reading, axle, State::NewSprings, (on.sprung, on.wheel_rate), damping);
    OptionStanding {
        road: damper.and_then(|c| on_road(reading, axle, corner(c)?, on.stop_room(), is_new)),
        above_before: axle.standing.before.as_ref().map(|b| b.travel - on.travel),
        damper_at_wheel: damper,
        on,
    }
}

/// Equilibrium of one load case on a curve of its own, with the old dampers.
fn on(reading: &Reading<'_>, axle: &AxleAnswer, curve: &ForceTravel, case: &Carried) -> Option<OptionStanding> {
    let sprung = weights::sprung_per_corner(case.axles[axle.side]?, axle.masses.unsprung.after?)?;
    let load = weight(sprung) + case.tongue[axle.side] / 2.0;
    let on = standing::at_rest(curve, sprung, load, axle.travel.stop)?;
    let old_damper = axle.old_damper.as_ref().map(|d| d.at_wheel(curve, on.travel));
    Some(with_dampers(reading, axle, on, old_damper, false))
}

/// What it costs, parts and work; `None` as soon as one of its prices is not known.
fn price(reading: &Reading<'_>, axle: &AxleAnswer, kind: RemedyKind) -> Option<f64> {
    let prices = &reading.job.prices;
    let of = |entry| reading.typed(entry).map(|p: Ratio| p.si());
    let data = reading.job.axle(axle.side);
    let spacers = OwnSprings { reading, axle: data, takes_a_free_length: false }.spacers();
    let on_spacers = axle.kind != SpringKind::TorsionBar && spacers.both().iter().any(|s| s.si() > 0.0);
    let springs = || {
        let each = [&data.left, &data.right].map(|own| of(&own.price).or_else(|| of(&data.taken.price)));
        let pair = each[0].zip(each[1]).map(|(left, right)| left + right).or_else(|| of(&prices.springs))?;
        Some(pair + if on_spacers { of(&prices.spacers)? } else { 0.0 })
    };
    Some(match kind {
        RemedyKind::Nothing => 0.0,
        // A bar is only set up again.
        RemedyKind::Spacer if axle.kind == SpringKind::TorsionBar => of(&prices.work)?,
        RemedyKind::Spacer => of(&prices.spacers)? + of(&prices.work)?,
        RemedyKind::Springs => springs()? + of(&prices.work)?,
        RemedyKind::SpringsAndDampers => {
            springs()? + of(&prices.work)? + of(&prices.dampers)? + of(&prices.damper_work)?
        }
    })
}
