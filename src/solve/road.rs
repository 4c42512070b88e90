//! Rough roads: closed forms of each corner, and the runs over them that are asked for.

use super::answer::{Answer, AxleAnswer, OnRoad, OverRoad, PerState, Standing, State};
use super::read::Reading;
use crate::bounds::{ROAD_LENGTH, RUN_TIME};
use crate::damper::{BumpRebound, Curve};
use crate::job::{Job, Side, bounded};
use crate::language::tr;
use crate::road::half::{Half, HalfCar};
use crate::road::quarter::Quarter;
use crate::road::run::Drive;
use crate::road::{Corner, Damper, Ends, Passage, Profile, Said, Stopped, Suspension, Wheel};
use crate::units::{DampingRate, Force, Length, Mass, Quantity, Ratio, SpringRate, Velocity};

/// A hump longer than this is a hill: not run.
const LONGEST_HUMP_M: f64 = 100.0;
/// A pothole is so long, m. Common practice, no source.
const HOLE_M: f64 = 0.6;

/// The road that is looked at.
pub(super) fn passage(reading: &Reading<'_>) -> Option<Passage> {
    Some(Passage { class: reading.job.road.class, speed: reading.known(&reading.job.chassis.speed)? })
}

/// Where a corner stands and how it is damped, for a closed form.
#[derive(Clone, Copy)]
pub(super) struct Damped {
    pub sprung: Mass,
    pub unsprung: Mass,
    pub wheel_rate: SpringRate,
    pub at_wheel: DampingRate,
    /// With the dampers as they will be, not with the old ones.
    pub is_new: bool,
    pub stop_room: Option<Length>,
}

/// What the road does to a corner; `None` as long as something of it is not known.
pub(super) fn on_road(reading: &Reading<'_>, answer: &AxleAnswer, damped: Damped) -> Option<OnRoad> {
    let axle = reading.job.axle(answer.side);
    let corner = Corner {
        sprung: damped.sprung,
        unsprung: damped.unsprung,
        wheel_rate: damped.wheel_rate,
        tyre_rate: reading.known(&axle.tyre_rate)?,
        damping: damped.at_wheel,
    };
    let passage = passage(reading).filter(|_| corner.is_sound())?;
    Some(OnRoad {
        travel: corner.travel_rms(&passage),
        acceleration: corner.body_acceleration_rms(&passage),
        tyre_load: corner.tyre_load_share(&passage),
        hits_per_km: damped.stop_room.map(|room| corner.stop_hits_per_km(room, &passage)),
        pulled_down: split(reading, answer, damped.is_new).map(|s| corner.pulled_down(s, &passage)),
        corner,
        passage,
    })
}

/// Rebound over bump: of the new dampers as wanted, of the old ones as measured or else the same.
fn split(reading: &Reading<'_>, answer: &AxleAnswer, is_new: bool) -> Option<Ratio> {
    let measured = || answer.old_damper.as_ref()?.rates.map(|r| r.rebound / r.bump).filter(|s| s.si().is_finite());
    let measured = if is_new { None } else { measured() };
    measured.or_else(|| reading.known(&reading.job.axle(answer.side).target.rebound_over_bump))
}

/// Both axles in every state: before and after on the old dampers, at last on what will be fitted.
pub(super) fn states(reading: &Reading<'_>, axles: [&AxleAnswer; 2]) -> PerState<[Option<OnRoad>; 2]> {
    PerState::each(|state| {
        axles.map(|axle| {
            let standing = axle.standing.of(state).as_ref()?;
            let damping = axle.damping.as_ref()?;
            let is_new = has_new_dampers(axle, state);
            let old = || Some(axle.old_damper.as_ref()?.at_wheel(&standing.curve, standing.travel));
            let at_wheel = if is_new { damping.at_wheel.aim } else { old()? };
            let (sprung, wheel_rate, stop_room) = (standing.sprung, standing.wheel_rate, standing.stop_room);
            let unsprung = unsprung(axle, state)?;
            on_road(reading, axle, Damped { sprung, unsprung, wheel_rate, at_wheel, is_new, stop_room })
        })
    })
}

/// What one wheel weighs in a state.
fn unsprung(axle: &AxleAnswer, state: State) -> Option<Mass> {
    axle.unsprung[usize::from(state != State::Before)]
}

fn has_new_dampers(axle: &AxleAnswer, state: State) -> bool {
    state == State::NewSprings && axle.new_dampers
}

/// Runs over every road in every state.
#[derive(Debug, Clone, PartialEq)]
pub struct Driven {
    /// In the order of [`OverRoad::ALL`].
    pub over: [PerState<Option<Ride>>; 3],
    /// Front axle to rear axle; `None`: each axle was run alone.
    pub wheelbase: Option<Length>,
    /// The speed.
    pub speed: Velocity,
}

/// One run, and what it shows of front and rear.
#[derive(Debug, Clone, PartialEq)]
pub struct Ride {
    /// Front, rear; `None` for an axle that is not known.
    pub runs: [Option<Track>; 2],
    /// In a few figures.
    pub said: [Option<Said>; 2],
    /// Share of the work that does not add up; of two runs the larger. `None` for the pothole: its edges fall between
    /// samples, from which work is booked.
    pub open_share: Option<Ratio>,
}

/// One axle's samples, how far apart they are, s, and how long a run on a rough road settles, s.
pub use crate::road::Track;
pub use crate::road::run::{EVERY_S as SAMPLE_S, SETTLES_S};

/// Why there are no runs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum NoRuns {
    /// It was stopped.
    #[error("{}", tr("stopped"))]
    Stopped,
    /// No axle is known well enough.
    #[error("{}", tr("the runs need weights, unsprung mass, a spring, a damper and the tyre of at least one axle"))]
    NotKnown,
    /// The motion cannot be followed.
    #[error(
        "{}",
        tr("the motion cannot be followed: it changes faster than any step; check masses, rates and dampers")
    )]
    TooStiff,
}

/// Runs a job over the rough road, the hump and the pothole, before, on the old springs and on the new.
///
/// `watch` gets the share done, 0 to 1, now and then; `false` stops it.
///
/// # Errors
/// [`NoRuns`]: stopped, not enough is known, or too stiff to follow.
pub fn drive(job: &Job, answer: &Answer, mut watch: impl FnMut(f64) -> bool) -> Result<Driven, NoRuns> {
    let used = bounded::used(job);
    let job = &*used;
    let reading = Reading::of(job);
    let speed = passage(&reading).ok_or(NoRuns::NotKnown)?.speed;
    let wheels = PerState::each(|state| Side::BOTH.map(|side| wheel(&reading, answer.axle(side), state)));
    if State::ALL.iter().all(|s| wheels.of(*s).iter().all(Option::is_none)) {
        return Err(NoRuns::NotKnown);
    }
    let wheelbase: Option<Length> = reading.known(&reading.job.vehicle.wheelbase);
    let radius: Option<Length> = reading.typed(&reading.job.chassis.pitch_radius);
    let profiles = OverRoad::ALL.map(|over| profile(&reading, over, speed));
    let mut done = 0.0;
    let mut over = Vec::new();
    for (kind, profile) in OverRoad::ALL.into_iter().zip(&profiles) {
        let mut rides = [None, None, None];
        for (ride, state) in rides.iter_mut().zip(State::ALL) {
            let Some(profile) = profile else { continue };
            let mut told = |share: f64| watch((done + share) / 9.0);
            let between = wheelbase.map(|l| (l, radius.map(|r| r.si() * r.si())));
            *ride = ride_of(wheels.of(state), between, Drive { profile, speed }, &mut told)?;
            if let Some(ride) = ride.as_mut().filter(|_| kind == OverRoad::Hole) {
                ride.open_share = None;
            }
            done += 1.0;
        }
        let [before, old, new] = rides;
        over.push(PerState { before, old, new });
    }
    let over = over.try_into().map_err(|_| NoRuns::NotKnown)?;
    Ok(Driven { over, wheelbase, speed })
}

/// `None` for what would last too long.
fn profile(reading: &Reading<'_>, over: OverRoad, speed: Velocity) -> Option<Profile> {
    let (road, chassis) = (&reading.job.road, &reading.job.chassis);
    Some(match over {
        OverRoad::Rough => {
            let seed: Ratio = reading.known(&road.seed)?;
            Profile::rough(
                road.class,
                Length::from_si(ROAD_LENGTH.most.min(RUN_TIME.most * speed.si())),
                seed.si().to_bits(),
            )
        }
        OverRoad::Hump => {
            let length: Length = reading.known(&chassis.hump_length)?;
            let is_hump = length.si() <= LONGEST_HUMP_M && length.si() <= RUN_TIME.most * speed.si();
            Profile::hump(reading.known(&chassis.hump_height)?, Some(length).filter(|_| is_hump)?)
        }
        OverRoad::Hole => {
            let length = Some(Length::from_si(HOLE_M)).filter(|l| l.si() <= RUN_TIME.most * speed.si())?;
            Profile::hole(reading.known(&road.hole)?, length)
        }
    })
}

/// Front and rear together when both and the wheelbase are known; else each alone.
fn ride_of(
    wheels: &[Option<Wheel>; 2],
    between: Option<(Length, Option<f64>)>,
    drive: Drive<'_>,
    watch: &mut impl FnMut(f64) -> bool,
) -> Result<Option<Ride>, NoRuns> {
    let failed = |why: Stopped| if why == Stopped::Stopped { NoRuns::Stopped } else { NoRuns::TooStiff };
    if let ([Some(front), Some(rear)], Some((wheelbase, radius_squared_m2))) = (wheels, between) {
        let car = HalfCar { wheels: [front.clone(), rear.clone()], wheelbase, radius_squared_m2 };
        let run = Half::new(&car, drive).run(watch).map_err(failed)?;
        let said = [run.said(0, &front.suspension), run.said(1, &rear.suspension)];
        let open_share = Some(run.open_share());
        let mut tracks = run.tracks.into_iter();
        return Ok(Some(Ride { runs: [tracks.next(), tracks.next()], said, open_share }));
    }
    let mut found = Ride { runs: [None, None], said: [None, None], open_share: Some(Ratio::from_si(0.0)) };
    for (i, wheel) in wheels.iter().enumerate() {
        let Some(wheel) = wheel else { continue };
        let run = Quarter::new(wheel, drive).run(&mut *watch).map_err(failed)?;
        found.said[i] = run.said(0, &wheel.suspension);
        found.open_share = found.open_share.map(|share| share.max(run.open_share()));
        found.runs[i] = run.tracks.into_iter().next();
    }
    Ok(found.runs.iter().any(Option::is_some).then_some(found))
}

/// One wheel with its real curves; `None` as long as something of it is not known.
fn wheel(reading: &Reading<'_>, answer: &AxleAnswer, state: State) -> Option<Wheel> {
    let axle = reading.job.axle(answer.side);
    let standing: &Standing = answer.standing.of(state).as_ref()?;
    let tyre_rate = reading.known(&axle.tyre_rate)?;
    let unsprung = unsprung(answer, state).filter(|u| u.si() > 0.0)?;
    let load = Force::from_si(standing.curve.force_n(standing.travel.si()));
    let ends = Ends { stop: answer.travel.stop, metal: answer.travel.metal, droop: answer.travel.droop };
    let suspension = Suspension::sample(&standing.curve, load, ends, tyre_rate)?;
    let damper = damper(reading, answer, state)?;
    Some(Wheel { sprung: standing.sprung, unsprung, tyre_rate, suspension, damper })
}

/// The damper that is fitted in a state: its curve, the new one's with the knee that is wanted; of an old one of which
/// only the damping ratio is known, two straight lines.
fn damper(reading: &Reading<'_>, answer: &AxleAnswer, state: State) -> Option<Damper> {
    let new = answer.parts.damper.as_ref()?;
    if has_new_dampers(answer, state) {
        let straight = || Curve::straight(new.split);
        return Damper::of(&new.two_slope.map_or_else(straight, |two| two.aim.curve()));
    }
    let old = answer.old_damper.as_ref()?;
    if let Some(curve) = &old.curve {
        return Damper::of(curve);
    }
    Damper::of(&Curve::straight(BumpRebound::split(old.at_damper, split(reading, answer, false)?)))
}
