//! Runs over rough roads, the hump and the pothole, when they are asked for.

use crate::base::bounds::{ROAD_LENGTH, RUN_TIME};
use crate::base::language::tr;
use crate::base::units::{Force, Length, Quantity, Ratio, Velocity};
use crate::job::{Job, PerAxle, Side, bounded};
use crate::solve::answer::{Answer, AxleAnswer, OverRoad, PerState, Standing, State};
use crate::solve::evaluate::on_road::{passage, split};
use crate::solve::read::Reading;
use crate::trade::damper::{BumpRebound, Curve};
use crate::trade::road::half::Half;
use crate::trade::road::quarter::Quarter;
use crate::trade::road::run::Drive;
use crate::trade::road::{Damper, Ends, Profile, Said, Stopped, Suspension, Wheel};

/// A hump longer than this is a hill: not run.
const LONGEST_HUMP_M: f64 = 100.0;
/// A pothole is so long, m. Common practice, no source.
const HOLE_M: f64 = 0.6;

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
    pub runs: PerAxle<Option<Track>>,
    /// In a few figures.
    pub said: PerAxle<Option<Said>>,
    /// Share of the work that does not add up; of two runs the larger. `None` for the pothole: its edges fall between
    /// samples, from which work is booked.
    pub open_share: Option<Ratio>,
}

/// One axle's samples, how far apart they are, s, and how long a run on a rough road settles, s.
pub use crate::trade::road::Track;
pub use crate::trade::road::run::{EVERY_S as SAMPLE_S, SETTLES_S};

/// Why there are no runs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum NoRuns {
    /// It was stopped.
    #[error("{}", tr("stopped"))]
    Stopped,
    /// No axle is known well enough.
    #[error(
        "{}",
        tr("the simulation needs weights, unsprung mass, a spring, a damper and the tyre of at least one axle")
    )]
    NotKnown,
    /// The motion cannot be followed.
    #[error(
        "{}",
        tr("the motion cannot be calculated: it changes too fast for any time step; check masses, rates and dampers")
    )]
    TooStiff,
}

impl From<Stopped> for NoRuns {
    fn from(why: Stopped) -> Self {
        if why == Stopped::Stopped { NoRuns::Stopped } else { NoRuns::TooStiff }
    }
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
    let wheels = PerState::each(|state| PerAxle::each(|side| wheel(&reading, answer.axle(side), state)));
    if State::ALL.iter().all(|s| wheels.of(*s).iter().all(Option::is_none)) {
        return Err(NoRuns::NotKnown);
    }
    let wheelbase: Option<Length> = reading.known(&reading.job.vehicle.wheelbase);
    let radius: Option<Length> = reading.typed(&reading.job.chassis.pitch_radius);
    let between = wheelbase.map(|l| (l, radius.map(|r| r.si() * r.si())));
    let (mut done, mut over) = (0.0, <[PerState<Option<Ride>>; 3]>::default());
    for (kind, rides) in OverRoad::ALL.into_iter().zip(&mut over) {
        let Some(profile) = profile(&reading, kind, speed) else { continue };
        let drive = Drive { profile: &profile, speed };
        for state in State::ALL {
            let mut told = |share: f64| watch((done + share) / 9.0);
            let ride = ride_of(wheels.of(state), between, drive, &mut told)?;
            let open_share = |ride: &Ride| ride.open_share.filter(|_| kind != OverRoad::Hole);
            *rides.of_mut(state) = ride.map(|ride| Ride { open_share: open_share(&ride), ..ride });
            done += 1.0;
        }
    }
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
    wheels: &PerAxle<Option<Wheel>>,
    between: Option<(Length, Option<f64>)>,
    drive: Drive<'_>,
    watch: &mut impl FnMut(f64) -> bool,
) -> Result<Option<Ride>, NoRuns> {
    if let (Some(PerAxle { front, rear }), Some((wheelbase, radius_squared_m2))) =
        (wheels.as_ref().map(Option::as_ref).known(), between)
    {
        let run = Half::new([front, rear], wheelbase, radius_squared_m2, drive).run(watch)?;
        let said = PerAxle { front: run.said(0, &front.suspension), rear: run.said(1, &rear.suspension) };
        let open_share = Some(run.open_share());
        let mut tracks = run.tracks.into_iter();
        return Ok(Some(Ride { runs: PerAxle { front: tracks.next(), rear: tracks.next() }, said, open_share }));
    }
    let mut found = Ride { runs: PerAxle::default(), said: PerAxle::default(), open_share: Some(Ratio::from_si(0.0)) };
    for side in Side::BOTH {
        let Some(wheel) = &wheels[side] else { continue };
        let run = Quarter::new(wheel, drive).run(&mut *watch)?;
        found.said[side] = run.said(0, &wheel.suspension);
        found.open_share = found.open_share.map(|share| share.max(run.open_share()));
        found.runs[side] = run.tracks.into_iter().next();
    }
    let is_any = found.runs.iter().any(Option::is_some);
    Ok(is_any.then_some(found))
}

/// One wheel with its real curves; `None` as long as something of it is not known.
pub(super) fn wheel(reading: &Reading<'_>, answer: &AxleAnswer, state: State) -> Option<Wheel> {
    let axle = reading.job.axle(answer.side);
    let standing: &Standing = answer.standing.of(state).as_ref()?;
    let tyre_rate = reading.known(&axle.tyre_rate)?;
    let unsprung = answer.masses.unsprung.of(state).filter(|u| u.si() > 0.0)?;
    let load = Force::from_si(standing.curve.force_n(standing.travel.si()));
    let ends = Ends { stop: answer.travel.stop, metal: answer.travel.metal, droop: answer.travel.droop };
    let suspension = Suspension::sample(&standing.curve, load, ends, tyre_rate)?;
    let damper = damper(reading, answer, state)?;
    Some(Wheel { sprung: standing.sprung, unsprung, tyre_rate, suspension, damper })
}

/// The damper that is fitted in a state: its curve, the new one's with the knee that is wanted; for an old one known
/// only by its damping ratio, two straight lines.
fn damper(reading: &Reading<'_>, answer: &AxleAnswer, state: State) -> Option<Damper> {
    let new = answer.parts.damper.as_ref()?;
    if answer.has_new_dampers(state) {
        let straight = || Curve::straight(new.split.aim);
        return Damper::of(&new.two_slope.map_or_else(straight, |two| two.aim.curve()));
    }
    let old = answer.old_damper.as_ref()?;
    if let Some(curve) = &old.curve {
        return Damper::of(curve);
    }
    Damper::of(&Curve::straight(BumpRebound::split(old.at_damper, split(reading, answer, false)?)))
}
