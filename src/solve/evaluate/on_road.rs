//! What a rough road does to each corner, in closed form.

use crate::base::units::{DampingRate, Length, Mass, Quantity, Ratio, SpringRate};
use crate::job::PerAxle;
use crate::job::read::DriveReading;
use crate::solve::answer::{AxleAnswer, BeforeAfter, DriveMeasured, DrivesMeasured, OnRoad, PerState, State};
use crate::solve::read::Reading;
use crate::trade::road::{Corner, Passage};

/// The road considered.
pub(in crate::solve) fn passage(reading: &Reading<'_>) -> Option<Passage> {
    Some(Passage { class: reading.job.road.class, speed: reading.known(&reading.job.chassis.speed)? })
}

/// What recorded drives showed.
pub(in crate::solve) fn drives(reading: &Reading<'_>) -> DrivesMeasured {
    let of = |read: &DriveReading| DriveMeasured { felt: reading.typed(&read.felt), rms: reading.typed(&read.rms) };
    let drive = &reading.job.drive;
    let each = BeforeAfter { before: of(&drive.before), after: of(&drive.after) };
    DrivesMeasured { each, are_alike: drive.same_stretch && drive.same_place }
}

/// What the road does to a corner with this room to the stop, the dampers as they will be or the old ones; `None` as
/// long as something of it is not known.
pub(in crate::solve) fn on_road(
    reading: &Reading<'_>,
    answer: &AxleAnswer,
    corner: Corner,
    stop_room: Option<Length>,
    is_new: bool,
) -> Option<OnRoad> {
    let passage = passage(reading).filter(|_| corner.is_sound())?;
    let rebound_over_bump = split(reading, answer, is_new);
    Some(OnRoad {
        stop_room,
        rebound_over_bump,
        travel: corner.travel_rms(&passage),
        acceleration: corner.body_acceleration_rms(&passage),
        tyre_load: corner.tyre_load_share(&passage),
        hits_per_km: stop_room.map(|room| corner.stop_hits_per_km(room, &passage)),
        pulled_down: rebound_over_bump.map(|s| corner.pulled_down(s, &passage)),
        corner,
        passage,
    })
}

/// Rebound over bump: of the new dampers as wanted, of the old ones as measured or else the same.
pub(in crate::solve) fn split(reading: &Reading<'_>, answer: &AxleAnswer, is_new: bool) -> Option<Ratio> {
    let measured = || answer.old_damper.as_ref()?.rates.map(|r| r.rebound / r.bump).filter(|s| s.si().is_finite());
    let measured = if is_new { None } else { measured() };
    measured.or_else(|| reading.known(&reading.job.axle(answer.side).target.rebound_over_bump))
}

/// Both axles in every state: before and after on the old dampers, at last on what will be fitted.
pub(in crate::solve) fn states(
    reading: &Reading<'_>,
    axles: PerAxle<&AxleAnswer>,
) -> PerState<PerAxle<Option<OnRoad>>> {
    PerState::each(|state| {
        axles.map(|axle| {
            axle.damping.as_ref()?;
            let stop_room = axle.standing.of(state).as_ref()?.stop_room;
            on_road(reading, axle, corner(reading, axle, state)?, stop_room, axle.has_new_dampers(state))
        })
    })
}

/// A corner in a state with the damper that is fitted then; `None` as long as something of it is not known.
pub(in crate::solve) fn corner(reading: &Reading<'_>, axle: &AxleAnswer, state: State) -> Option<Corner> {
    let standing = axle.standing.of(state).as_ref()?;
    corner_with(reading, axle, state, (standing.sprung, standing.wheel_rate), axle.damper_at_wheel(state)?)
}

/// The same of what is sprung on a wheel rate, with this damping at the wheel; unsprung mass and tyre are the axle's.
pub(in crate::solve) fn corner_with(
    reading: &Reading<'_>,
    axle: &AxleAnswer,
    state: State,
    (sprung, wheel_rate): (Mass, SpringRate),
    damping: DampingRate,
) -> Option<Corner> {
    let unsprung = (*axle.masses.unsprung.of(state))?;
    let tyre_rate = reading.known(&reading.job.axle(axle.side).tyre_rate)?;
    Some(Corner { sprung, unsprung, wheel_rate, tyre_rate, damping })
}
