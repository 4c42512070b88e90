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

/// Equilibrium of a corner and how it is damped, for a closed form.
#[derive(Clone, Copy)]
pub(in crate::solve) struct Damped {
    pub sprung: Mass,
    pub unsprung: Mass,
    pub wheel_rate: SpringRate,
    pub at_wheel: DampingRate,
    /// With the dampers as they will be, not with the old ones.
    pub is_new: bool,
    pub stop_room: Option<Length>,
}

/// What recorded drives showed.
pub(in crate::solve) fn drives(reading: &Reading<'_>) -> DrivesMeasured {
    let of = |read: &DriveReading| DriveMeasured { felt: reading.typed(&read.felt), rms: reading.typed(&read.rms) };
    let drive = &reading.job.drive;
    let each = BeforeAfter { before: of(&drive.before), after: of(&drive.after) };
    DrivesMeasured { each, are_alike: drive.same_stretch && drive.same_place }
}

/// What the road does to a corner; `None` as long as something of it is not known.
pub(in crate::solve) fn on_road(reading: &Reading<'_>, answer: &AxleAnswer, damped: Damped) -> Option<OnRoad> {
    let axle = reading.job.axle(answer.side);
    let corner = Corner {
        sprung: damped.sprung,
        unsprung: damped.unsprung,
        wheel_rate: damped.wheel_rate,
        tyre_rate: reading.known(&axle.tyre_rate)?,
        damping: damped.at_wheel,
    };
    let passage = passage(reading).filter(|_| corner.is_sound())?;
    let rebound_over_bump = split(reading, answer, damped.is_new);
    Some(OnRoad {
        stop_room: damped.stop_room,
        rebound_over_bump,
        travel: corner.travel_rms(&passage),
        acceleration: corner.body_acceleration_rms(&passage),
        tyre_load: corner.tyre_load_share(&passage),
        hits_per_km: damped.stop_room.map(|room| corner.stop_hits_per_km(room, &passage)),
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
            on_road(reading, axle, damped(axle, state)?)
        })
    })
}

/// Equilibrium of a corner in a state, and the damper that is fitted then.
pub(in crate::solve) fn damped(axle: &AxleAnswer, state: State) -> Option<Damped> {
    let standing = axle.standing.of(state).as_ref()?;
    let is_new = axle.has_new_dampers(state);
    let new = || Some(axle.damping.as_ref()?.at_wheel.aim);
    let old = || Some(axle.old_damper.as_ref()?.at_wheel(&standing.curve, standing.travel));
    let at_wheel = if is_new { new()? } else { old()? };
    let (sprung, wheel_rate, stop_room) = (standing.sprung, standing.wheel_rate, standing.stop_room);
    Some(Damped { sprung, unsprung: unsprung(axle, state)?, wheel_rate, at_wheel, is_new, stop_room })
}

/// What one wheel weighs in a state.
pub(in crate::solve) fn unsprung(axle: &AxleAnswer, state: State) -> Option<Mass> {
    *axle.unsprung.of(state)
}
