//! Evaluates a job by what was read and decided. It knows neither what was moved nor why.

pub(super) mod axle;
pub(super) mod decided;
pub(super) mod equal_load;
pub(super) mod four_corners;
pub(super) mod load_cases;
pub(super) mod on_bench;
pub(super) mod on_corners;
pub(super) mod on_road;
pub(super) mod own_springs;
pub(super) mod pitch_and_roll;
pub(super) mod remedies;
mod wanted_bars;
pub(super) mod wheel_geometry;

use std::sync::Arc;

use crate::base::units::{Length, Quantity, Ratio, Time, Velocity};
use crate::job::{PerAxle, Side};
use crate::solve::answer::{self, AxleAnswer, CaseAnswer, Ledger, LookedAt, OnSprings, PerState, Range, State, Whole};
use crate::solve::evaluate::decided::Decisions;
use crate::solve::evaluate::equal_load::weighed;
use crate::solve::evaluate::load_cases::{Carried, Together, Under};
use crate::solve::evaluate::pitch_and_roll::{RestsOn, Vehicle};
use crate::solve::read::Reading;
use crate::trade::pitch::Hump;
use crate::trade::ride;

/// All that is evaluated; it keeps what it rests on, so that what nothing moves need not be evaluated again.
pub(in crate::solve) struct Results {
    pub vehicle: answer::Vehicle,
    pub axles: PerAxle<AxleAnswer>,
    pub carried: Vec<Carried>,
    pub ledger: Option<Ledger>,
    /// The numbers that have a ± and that each axle rests on.
    pub rests_on: PerAxle<Vec<usize>>,
}

/// Evaluates everything.
pub(in crate::solve) fn evaluate(reading: &Reading<'_>, decisions: &Decisions) -> Results {
    let job = &reading.job;
    let (before, after) = (weighed(reading, &job.before), weighed(reading, &job.after));
    let compared = equal_load::compared(reading);
    let carried = load_cases::carried(reading, &compared);
    let mut axles = PerAxle::each(|side| axle::evaluate(reading, side, &compared, &decisions.axles[side]));
    for side in Side::BOTH {
        axles[side].parts.roll_bar = reading.typed(&job.axle(side).roll_bar.new_diameter);
    }
    let rests_on = PerAxle::each(|side| reading.uncertain(side).map(|(index, _)| index).collect());
    let ledger = equal_load::ledger(reading);
    let of_axles = axles.as_ref();
    let under = Under { axles: of_axles, compared: &compared, carried: &carried };
    let standings = PerAxle::each(|side| load_cases::axle_stands(reading, under, side));
    let on = RestsOn { axles: of_axles, before: &before, after: &after, compared: &compared };
    let swings = pitch_and_roll::evaluate(reading, on, decisions.fitted);
    let together = Together { on, whole: &swings, fitted: decisions.fitted };
    let cases = load_cases::evaluate(reading, &carried, standings, together);
    let whole = Box::new(with_own_spread(reading, on, decisions.fitted, ledger.as_ref(), swings));
    let (rear_over_front, flat_ride) = front_and_rear(reading, of_axles);
    let remedies = PerAxle::each(|side| {
        let raise = decisions.axles[side].raise.as_ref();
        Arc::new(remedies::remedies(reading, of_axles[side], &carried, &cases, raise))
    });
    for side in Side::BOTH {
        axles[side].overloaded = over(&cases, side);
    }
    let (compared, cases) = (Arc::new(compared), Arc::new(cases));
    let vehicle = answer::Vehicle { before, after, compared, cases, remedies, rear_over_front, flat_ride, whole };
    Results { vehicle, axles, carried, ledger, rests_on }
}

/// A rating of this axle, or of the whole vehicle, is exceeded in some load case that is driven.
fn over(cases: &[CaseAnswer], side: Side) -> bool {
    cases.iter().filter(|c| !c.what_if).flat_map(|c| &c.rated).any(|r| r.part.concerns(side) && r.is_over())
}

/// Rear over front frequency, and the flat-ride speed.
pub(in crate::solve) fn front_and_rear(
    reading: &Reading<'_>,
    PerAxle { front, rear }: PerAxle<&AxleAnswer>,
) -> (PerState<Option<Ratio>>, PerState<Option<Velocity>>) {
    let wheelbase: Option<Length> = reading.known(&reading.job.vehicle.wheelbase);
    let both = |state: State| {
        let frequency = |axle: &AxleAnswer| Some(axle.standing.of(state).as_ref()?.frequency);
        Some((frequency(front)?, frequency(rear)?))
    };
    (
        PerState::each(|s| both(s).map(|(front, rear)| ride::rear_over_front(front, rear))),
        PerState::each(|s| both(s).and_then(|(front, rear)| ride::flat_ride_speed(wheelbase?, front, rear))),
    )
}

impl Results {
    /// Equilibrium of one axle in each case, as evaluated.
    pub fn in_cases(&self, side: Side) -> impl Iterator<Item = &OnSprings> {
        self.vehicle.cases.iter().map(move |case| &case.standing[side])
    }
}

/// What carries its own ±, or none, and so is not evaluated again for every field: limits, the hump, how readings scatter,
/// the ledger by corners.
fn with_own_spread(
    reading: &Reading<'_>,
    on: RestsOn<'_>,
    fitted: State,
    ledger: Option<&Ledger>,
    swings: Whole,
) -> Whole {
    let (limits, chassis) = (&reading.job.limits, &reading.job.chassis);
    let mut whole = Whole {
        scatter: four_corners::scatter(reading),
        reading_u: four_corners::reading_u(reading),
        ratio_limits: Range {
            least: reading.known(&limits.rear_front_low),
            most: reading.known(&limits.rear_front_high),
        },
        ..swings
    };
    let Some(vehicle) = Vehicle::read(reading, on, fitted) else { return whole };
    whole.hump = hump(reading).filter(|_| State::ALL.iter().any(|s| whole.pitch.of(*s).is_some()));
    if vehicle.height.is_some() {
        whole.looked_at =
            LookedAt { braking: reading.known(&chassis.braking), cornering: reading.known(&chassis.cornering) };
    }
    whole.ledger = vehicle.ledger(ledger, whole.level);
    whole
}

/// The hump that is driven over.
fn hump(reading: &Reading<'_>) -> Option<Hump> {
    let chassis = &reading.job.chassis;
    Some(Hump {
        height: reading.known(&chassis.hump_height)?,
        length: reading.known(&chassis.hump_length)?,
        speed: reading.known(&chassis.speed)?,
        arrival: Time::from_si(0.0),
    })
}
