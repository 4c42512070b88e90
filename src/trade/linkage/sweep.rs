//! A linkage moved through its travel: the angle of its arm at every few millimetres, and where it locks.

use super::construction::Pose;
use super::{Construction, Fault, Foot, PointName};
use crate::base::language::Word;
use crate::base::math::quintic::Quintic;
use crate::base::units::{Length, Quantity};
use crate::trade::wheel::LengthCurve;

/// The travel considered, m either way from the reference height.
pub const REACH_M: f64 = 0.2;
/// Between two places that are solved, m. Quintic pieces of this length miss the length by less than 1e-9 m and r by
/// less than 1e-6 where nothing is near locking (held by a test to 1e-6 m and 1e-5).
const STEP_M: f64 = 0.005;
const STEPS: usize = 40;
/// Newton's steps end when one is shorter, rad.
const SETTLED: f64 = 1e-13;
/// Below this share of how fast the wheel rises at the reference height it is as good as at the end of its travel.
const STILL_RISES: f64 = 0.05;
/// r below this is none.
const LEAST_RATIO: f64 = 1e-3;
/// A piece of the curve may miss r by this amount.
const PIECE_MISSES: f64 = 5e-6;
/// An end is found to this, m.
const END_M: f64 = 1e-5;

/// Why travel ends.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Lock {
    /// The linkage is stretched straight, or the wheel rises no further.
    Linkage,
    /// The spring or damper stops getting shorter.
    Part,
}

impl Lock {
    /// What happens there.
    pub fn words(self) -> Word {
        match self {
            Lock::Linkage => Word("the linkage locks"),
            Lock::Part => Word("the spring or damper stops getting shorter"),
        }
    }
}

/// Where travel ends before [`REACH_M`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct End {
    /// Wheel travel from the reference height, + in bump.
    pub travel: Length,
    /// Why.
    pub lock: Lock,
}

/// Where travel ends on both sides of the reference height; `None` beyond [`REACH_M`].
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct TravelEnds {
    /// Towards droop.
    pub droop: Option<End>,
    /// Towards bump.
    pub bump: Option<End>,
}

/// Which part's length is wanted.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Mounts {
    /// One with ends of its own; named for messages: upper, lower end.
    Apart(Foot, [PointName; 2]),
    /// One on the strut's own axis: only differences of its length are known.
    Coaxial,
}

/// A linkage and the angles of its arm over its travel.
#[derive(Debug, Clone, PartialEq)]
pub struct Sweep {
    construction: Construction,
    /// The angle of the arm at each place that was solved, from the lowest to the highest.
    angles: Vec<f64>,
    /// Which of them is the reference height.
    reference: usize,
    /// Where it ends.
    pub ends: TravelEnds,
}

impl Sweep {
    /// Moves a linkage through its travel.
    ///
    /// # Errors
    /// [`Fault`] when the points cannot be a linkage.
    pub fn of(construction: Construction) -> Result<Self, Fault> {
        construction.check()?;
        let go = |direction: f64| march(&construction, direction);
        let ((mut low, droop), (high, bump)) = (go(-1.0), go(1.0));
        low.reverse();
        let reference = low.len();
        let angles = low.into_iter().chain([0.0]).chain(high).collect();
        Ok(Sweep { construction, angles, reference, ends: TravelEnds { droop, bump } })
    }

    /// What guides the wheel.
    pub fn construction(&self) -> &Construction {
        &self.construction
    }

    /// Wheel travel of the place `i`, m.
    fn travel_m(&self, i: usize) -> f64 {
        STEP_M * (i as f64 - self.reference as f64)
    }

    /// The lowest and highest wheel travel that was solved, m.
    pub fn range_m(&self) -> [f64; 2] {
        [self.travel_m(0), self.travel_m(self.angles.len() - 1)]
    }

    /// The parts at a wheel travel; `None` outside the range.
    pub(super) fn pose(&self, travel_m: f64) -> Option<Pose> {
        let place = travel_m / STEP_M + self.reference as f64;
        if !(-1e-9..=self.angles.len() as f64 - 1.0 + 1e-9).contains(&place) {
            return None;
        }
        let last = self.angles.len() - 1;
        let low = (place.max(0.0) as usize).min(last.saturating_sub(1));
        between(&self.construction, travel_m, [self.angles[low], self.angles[(low + 1).min(last)]])
    }

    /// The length of a spring or damper against wheel travel, and where it ends in droop and in bump: where the linkage
    /// locks, r is no longer above zero, or so near to locking that pieces miss it.
    ///
    /// # Errors
    /// [`Fault`] when it does not get shorter in bump at the reference height.
    pub fn length_curve(&self, mounts: Mounts) -> Result<(LengthCurve, TravelEnds), Fault> {
        let knot = |angle: f64| {
            let pose = self.construction.pose(angle)?;
            let found = mounts.knot(&self.construction, &pose)?;
            let travel_m = pose.wheel.at.up_m - self.construction.wheel().up_m;
            found.iter().all(|v| v.is_finite()).then_some((travel_m, found))
        };
        let knots: Vec<Option<[f64; 3]>> = self.angles.iter().map(|a| knot(*a).map(|k| k.1)).collect();
        let shortens = |i: usize| knots[i].is_some_and(|k| k[1] < -LEAST_RATIO);
        // A piece misses r most near t = (1 − 1/√5)/2, and hardly at its middle: there it is held to exact geometry.
        let is_good = |i: usize| {
            let (Some(from), Some(to)) = (knots[i], knots[i + 1]) else { return false };
            let Some(piece) = Quintic::through(self.travel_m(i), STEP_M, &[from, to]) else { return false };
            let between = knot(0.724 * self.angles[i] + 0.276 * self.angles[i + 1]);
            between.is_some_and(|(z, exact)| (piece.slope(z) - exact[1]).abs() < PIECE_MISSES)
        };
        let (at, last) = (self.reference, knots.len() - 1);
        let [top, foot] = mounts.names();
        if !shortens(at) {
            return Err(self.fault_of(mounts).unwrap_or(Fault::GetsLonger(top, foot)));
        }
        let low = (0..at).rev().take_while(|i| shortens(*i) && is_good(*i)).last().unwrap_or(at);
        let high = (at + 1..=last).take_while(|i| shortens(*i) && is_good(i - 1)).last().unwrap_or(at);
        let used: Vec<[f64; 3]> = knots[low..=high].iter().copied().flatten().collect();
        let table = Quintic::through(self.travel_m(low), STEP_M, &used).ok_or(Fault::InLine(top, foot))?;
        // Told is where the curve ends, at most a piece before the linkage itself does.
        let end = |i: usize, beyond: Option<usize>, own: Option<End>| {
            own.is_some()
                .then_some(Lock::Linkage)
                .filter(|_| beyond.is_none())
                .or_else(|| {
                    let lock = |i: usize| if shortens(i) { Lock::Linkage } else { Lock::Part };
                    beyond.map(lock)
                })
                .map(|lock| End { travel: Length::from_si(self.travel_m(i)), lock })
        };
        let ends = TravelEnds {
            droop: end(low, low.checked_sub(1), self.ends.droop),
            bump: end(high, Some(high + 1).filter(|i| *i <= last), self.ends.bump),
        };
        Ok((LengthCurve::through(table), ends))
    }

    fn fault_of(&self, mounts: Mounts) -> Option<Fault> {
        let pose = self.construction.pose(0.0)?;
        match mounts {
            Mounts::Apart(foot, [_, name]) if pose.part(foot.on).is_none() => Some(Fault::NoSuchPart(name)),
            Mounts::Apart(foot, [top, name]) if (foot.top - foot.foot).size() < 1e-3 => {
                Some(Fault::NoLength(top, name))
            }
            _ => None,
        }
    }
}

impl Mounts {
    fn names(self) -> [PointName; 2] {
        match self {
            Mounts::Apart(_, names) => names,
            Mounts::Coaxial => [PointName::StrutTop, PointName::StrutAxis],
        }
    }

    /// Length, its slope −r and curvature −r′ by wheel travel, from velocities and accelerations (exact).
    ///
    /// dL/dz = L̇/ż and d²L/dz² = (L̈ ż − L̇ z̈)/ż³, dots by the arm's angle. Source `DERIVED`.
    pub(super) fn knot(self, construction: &Construction, pose: &Pose) -> Option<[f64; 3]> {
        let (fixed, moving) = match (self, construction) {
            (Mounts::Apart(mounts, _), _) => (mounts.top, pose.part(mounts.on)?.carry(mounts.foot)),
            (Mounts::Coaxial, Construction::Strut(strut)) => (strut.top, pose.upright.carry(strut.axis)),
            (Mounts::Coaxial, _) => return None,
        };
        let [length, d, dd] = moving.distance_from(fixed)?;
        let (rises, bends) = (pose.wheel.d.up_m, pose.wheel.dd.up_m);
        Some([length, d / rises, (dd * rises - d * bends) / (rises * rises * rises)])
    }
}

/// The angles from the reference on in one direction, without the reference itself, and where they end.
fn march(construction: &Construction, direction: f64) -> (Vec<f64>, Option<End>) {
    let mut angles = Vec::with_capacity(STEPS);
    let Some(rises) = construction.pose(0.0).map(|p| p.wheel.d.up_m) else { return (angles, None) };
    let mut angle = 0.0;
    for i in 1..=STEPS {
        let travel_m = direction * STEP_M * i as f64;
        match settle(construction, travel_m, angle, rises) {
            Some((next, _)) => angle = next,
            None => {
                let end = end_between(construction, travel_m - direction * STEP_M, travel_m, angle, rises);
                return (angles, Some(End { travel: Length::from_si(end), lock: Lock::Linkage }));
            }
        }
        angles.push(angle);
    }
    (angles, None)
}

/// The farthest travel between one that can be reached and one that cannot, by halving, m.
fn end_between(construction: &Construction, mut good_m: f64, mut bad_m: f64, near: f64, rises: f64) -> f64 {
    let mut angle = near;
    while (bad_m - good_m).abs() > END_M {
        let middle_m = 0.5 * (good_m + bad_m);
        match settle(construction, middle_m, angle, rises) {
            Some((next, _)) => (good_m, angle) = (middle_m, next),
            None => bad_m = middle_m,
        }
    }
    good_m
}

/// The parts at this travel, by Newton's steps kept between the angles of two places around it: there it can be reached,
/// however little the wheel rises on the way.
fn between(construction: &Construction, travel_m: f64, [mut low, mut high]: [f64; 2]) -> Option<Pose> {
    const MOST_STEPS: usize = 80;
    let reference_m = construction.wheel().up_m;
    let mut angle = 0.5 * (low + high);
    for _ in 0..MOST_STEPS {
        let pose = construction.pose(angle)?;
        let off_m = pose.wheel.at.up_m - reference_m - travel_m;
        if off_m < 0.0 {
            low = angle
        } else {
            high = angle
        }
        let newton = angle - off_m / pose.wheel.d.up_m;
        let is_inside = (newton - low) * (newton - high) < 0.0;
        let next = if is_inside { newton } else { 0.5 * (low + high) };
        if (next - angle).abs() <= SETTLED {
            return Some(pose);
        }
        angle = next;
    }
    None
}

/// The angle at which the wheel has this travel, by Newton's steps from one nearby. `None` where the linkage cannot be, or
/// the wheel hardly rises any more: `rises` is how fast it does at the reference height.
fn settle(construction: &Construction, travel_m: f64, near: f64, rises: f64) -> Option<(f64, Pose)> {
    const LONGEST: f64 = 0.1;
    let wheel = construction.wheel();
    let mut angle = near;
    for _ in 0..40 {
        let pose = construction.pose(angle)?;
        let slope = pose.wheel.d.up_m;
        if slope / rises < STILL_RISES {
            return None;
        }
        let step = ((travel_m - (pose.wheel.at.up_m - wheel.up_m)) / slope).clamp(-LONGEST, LONGEST);
        if step.abs() <= SETTLED {
            return Some((angle, pose));
        }
        angle += step;
    }
    None
}
