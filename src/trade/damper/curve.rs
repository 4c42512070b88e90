//! A damper as force against speed: straight lines between points.

use std::f64::consts::FRAC_2_PI;
use std::fmt;

use thiserror::Error;

use super::BumpRebound;
use crate::base::language::Word;
use crate::base::message::Message;
use crate::base::units::{DampingRate, Force, Quantity, Ratio, Velocity};
use crate::message;

/// Which way a damper moves.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Direction {
    /// It gets shorter.
    Bump,
    /// It gets longer.
    Rebound,
}

impl Direction {
    /// What it pushes or pulls with, inside a sentence.
    pub fn force(self) -> Word {
        match self {
            Direction::Bump => Word("bump force"),
            Direction::Rebound => Word("rebound force"),
        }
    }
}

/// The forces of a damper at one speed; sizes, without signs. `None` is not known.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ForcePoint {
    /// Speed at the damper.
    pub speed: Velocity,
    /// Force when it is pushed in.
    pub bump: Option<Force>,
    /// Force when it is pulled out.
    pub rebound: Option<Force>,
}

/// Why points make no curve.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum CurveError {
    /// One direction has no point above speed 0.
    Nothing(Direction),
    /// A speed below zero.
    Speed(f64),
    /// A force below zero.
    Negative {
        /// Which way.
        direction: Direction,
        /// Speed.
        speed_m_per_s: f64,
    },
    /// A force where nothing moves.
    AtRest(Direction),
    /// Two forces at one speed.
    Twice {
        /// Which way.
        direction: Direction,
        /// Speed.
        speed_m_per_s: f64,
    },
}

impl CurveError {
    /// What is wrong, speeds in m/s.
    pub fn message(&self) -> Message {
        let plain = |m_per_s: f64| Message::Marked(m_per_s.to_string());
        match *self {
            CurveError::Nothing(direction) => {
                message!("no {force} is given at any speed above 0", force = direction.force())
            }
            CurveError::Speed(speed) => message!(
                "the speed {speed} m/s is below zero; bump and rebound have their own columns",
                speed = plain(speed)
            ),
            CurveError::Negative { direction, speed_m_per_s } => message!(
                "the {force} at {speed} m/s is below zero",
                force = direction.force(),
                speed = plain(speed_m_per_s)
            ),
            CurveError::AtRest(direction) => {
                message!("the {force} at speed 0 is not 0: subtract gas force and friction", force = direction.force())
            }
            CurveError::Twice { direction: Direction::Bump, speed_m_per_s } => {
                message!("there are two bump forces at {speed} m/s", speed = plain(speed_m_per_s))
            }
            CurveError::Twice { direction: Direction::Rebound, speed_m_per_s } => {
                message!("there are two rebound forces at {speed} m/s", speed = plain(speed_m_per_s))
            }
        }
    }
}

impl fmt::Display for CurveError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.message().fmt(f)
    }
}

/// One direction as ramps: F(v) = Σ Δk_i max(v − v_i, 0), the first at v = 0.
#[derive(Debug, Clone, PartialEq)]
struct Branch {
    /// Where each ramp begins, m/s, rising from 0; and what it adds to the slope, N·s/m.
    ramps: Vec<(f64, f64)>,
    /// The fastest point, m/s; `None` when it holds at any speed.
    last_m_per_s: Option<f64>,
}

/// Force of a damper against its speed: through the origin, straight between points, beyond the last one with the
/// last slope, or level where that would fall.
///
/// Sizes of forces at the damper itself; gas is not in them. Source `DERIVED`.
#[derive(Debug, Clone, PartialEq)]
pub struct Curve {
    bump: Branch,
    rebound: Branch,
}

impl Curve {
    /// A curve through points, in any order. A direction that a point does not know is left out of it.
    ///
    /// # Errors
    /// [`CurveError`]: speeds and forces are zero or above, nothing pushes at rest, one force at a speed.
    ///
    /// ```
    /// use springwright::trade::damper::{Curve, ForcePoint};
    /// use springwright::base::units::{Force, Quantity, Velocity};
    /// let at = |speed, bump, rebound| ForcePoint {
    ///     speed: Velocity::from_si(speed), bump: Some(Force::from_si(bump)), rebound: Some(Force::from_si(rebound)),
    /// };
    /// let curve = Curve::through(&[at(0.1, 100.0, 200.0), at(0.5, 260.0, 520.0)]).unwrap();
    /// assert_eq!(curve.force_n(0.1), 100.0);
    /// assert!((curve.force_n(-0.3) + 360.0).abs() < 1e-9);
    /// assert!(curve.is_beyond(Velocity::from_si(0.6)));
    /// ```
    pub fn through(points: &[ForcePoint]) -> Result<Self, CurveError> {
        if let Some(wrong) = points.iter().find(|p| p.speed.si() < 0.0) {
            return Err(CurveError::Speed(wrong.speed.si()));
        }
        let of = |direction: Direction, force: fn(&ForcePoint) -> Option<Force>| {
            let known = points.iter().filter_map(|p| Some((p.speed.si(), force(p)?.si())));
            Branch::through(known.collect(), direction)
        };
        Ok(Curve { bump: of(Direction::Bump, |p| p.bump)?, rebound: of(Direction::Rebound, |p| p.rebound)? })
    }

    /// Two straight lines through the origin.
    pub fn straight(rates: BumpRebound) -> Self {
        let line = |rate: DampingRate| Branch { ramps: vec![(0.0, rate.si())], last_m_per_s: None };
        Curve { bump: line(rates.bump), rebound: line(rates.rebound) }
    }

    /// Lines of two slopes each, the knees at one speed, which hold at any speed.
    pub(super) fn with_knee(low: BumpRebound, knee: Velocity, upper_share: Ratio) -> Self {
        let of = |rate: DampingRate| Branch {
            ramps: vec![(0.0, rate.si()), (knee.si(), (upper_share.si() - 1.0) * rate.si())],
            last_m_per_s: None,
        };
        Curve { bump: of(low.bump), rebound: of(low.rebound) }
    }

    /// Every force times one factor: a hot damper, two in place of one.
    #[must_use]
    pub fn scaled(&self, factor: Ratio) -> Self {
        let of = |branch: &Branch| Branch {
            ramps: branch.ramps.iter().map(|(v, k)| (*v, k * factor.si())).collect(),
            last_m_per_s: branch.last_m_per_s,
        };
        Curve { bump: of(&self.bump), rebound: of(&self.rebound) }
    }

    /// Sizes of the forces at a speed of either sign: (bump, rebound).
    pub fn forces(&self, speed: Velocity) -> (Force, Force) {
        let speed = speed.si().abs();
        (Force::from_si(self.bump.force_n(speed)), Force::from_si(self.rebound.force_n(speed)))
    }

    /// Force along the damper on the body, N, for time runs.
    ///
    /// Speed is + in bump (the damper gets shorter), and so is the force: it pushes the body up. In rebound both are
    /// −: it pulls the body down. At the wheel, F_w = force_n(r_d ż) r_d with ż the wheel's speed towards the body.
    /// Source `DERIVED` (virtual work).
    #[inline]
    pub fn force_n(&self, speed_m_per_s: f64) -> f64 {
        if speed_m_per_s >= 0.0 { self.bump.force_n(speed_m_per_s) } else { -self.rebound.force_n(-speed_m_per_s) }
    }

    /// The fastest speed up to which both directions have points; infinite for a curve that holds at any speed.
    pub fn last_speed(&self) -> Velocity {
        let last = [&self.bump, &self.rebound].into_iter().filter_map(|b| b.last_m_per_s);
        Velocity::from_si(last.fold(f64::INFINITY, f64::min))
    }

    /// A speed, of either sign, at which a force is not measured but continued with the last slope.
    pub fn is_beyond(&self, speed: Velocity) -> bool {
        speed.si().abs() > self.last_speed().si() * (1.0 + 1e-9)
    }

    /// The speeds at which the slope changes or the points end, of both directions, rising, m/s; without 0.
    pub fn corners_m_per_s(&self) -> Vec<f64> {
        let of = |b: &Branch| b.ramps.iter().map(|r| r.0).chain(b.last_m_per_s).collect::<Vec<_>>();
        let mut all = [of(&self.bump), of(&self.rebound)].concat();
        all.retain(|v| *v > 0.0);
        all.sort_by(f64::total_cmp);
        all.dedup();
        all
    }

    /// **Equivalent rate by equal work** per cycle of a sinusoid of this peak speed, bump and rebound apart; their mean
    /// is c_eq = ∮F dx / (π V X).
    ///
    /// Exact: a ramp Δk that begins at v_i gives Δk (1 − N(v_i/V)), N(a) = (2/π)(asin a + a √(1 − a²)).
    /// At speeds towards 0 it is the slope at the origin. Source `DIX` ch. 5 (equal work), closed form `DERIVED`.
    pub fn equal_work(&self, peak: Velocity) -> BumpRebound {
        let share = |begins: f64| 1.0 - below_knee(begins, peak.si());
        let of = |b: &Branch| DampingRate::from_si(b.ramps.iter().map(|(v, k)| k * share(*v)).sum());
        BumpRebound { bump: of(&self.bump), rebound: of(&self.rebound) }
    }
}

/// N(a), a = knee ÷ peak: the share of the work of a straight line that one bent level at its knee still does.
/// Source `DERIVED` (∮F dx of a sinusoid, as [`Curve::equal_work`]).
pub(super) fn below_knee(knee_m_per_s: f64, peak_m_per_s: f64) -> f64 {
    if knee_m_per_s <= 0.0 {
        return 0.0;
    }
    if knee_m_per_s >= peak_m_per_s {
        return 1.0;
    }
    let a = knee_m_per_s / peak_m_per_s;
    FRAC_2_PI * (a.asin() + a * (1.0 - a * a).sqrt())
}

impl Branch {
    fn through(mut points: Vec<(f64, f64)>, direction: Direction) -> Result<Self, CurveError> {
        points.sort_by(|a, b| a.0.total_cmp(&b.0));
        if let Some((speed_m_per_s, _)) = points.iter().find(|p| p.1 < 0.0) {
            return Err(CurveError::Negative { direction, speed_m_per_s: *speed_m_per_s });
        }
        if let Some(pair) = points.windows(2).find(|w| w[0].0 == w[1].0) {
            return Err(CurveError::Twice { direction, speed_m_per_s: pair[0].0 });
        }
        let at_rest = points.iter().take_while(|p| p.0 == 0.0).count();
        if points[..at_rest].iter().any(|p| p.1 > 0.0) {
            return Err(CurveError::AtRest(direction));
        }
        let moving = &points[at_rest..];
        let Some(last) = moving.last() else { return Err(CurveError::Nothing(direction)) };
        let mut ramps = Vec::with_capacity(moving.len() + 1);
        let (mut from, mut slope) = ((0.0, 0.0), 0.0);
        for &(speed, force) in moving {
            let next = (force - from.1) / (speed - from.0);
            ramps.push((from.0, next - slope));
            (from, slope) = ((speed, force), next);
        }
        if slope < 0.0 {
            ramps.push((last.0, -slope));
        }
        Ok(Branch { ramps, last_m_per_s: Some(last.0) })
    }

    #[inline]
    fn force_n(&self, speed_m_per_s: f64) -> f64 {
        let mut force_n = 0.0;
        for (begins, slope) in &self.ramps {
            if speed_m_per_s <= *begins {
                break;
            }
            force_n += slope * (speed_m_per_s - begins);
        }
        force_n
    }
}
