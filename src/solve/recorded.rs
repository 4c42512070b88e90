//! What a recorded bounce says of an axle, and how it compares with what the job predicts.

use crate::base::math::spread::{Measured, propagate};
use crate::base::units::{Frequency, Quantity, Ratio, SpringRate, Velocity};
use crate::job::Side;
pub use crate::solve::answer::BodyMode;
use crate::solve::answer::{Answer, AxleAnswer, State};
pub use crate::trade::recording::bounce::{Decay, Friction, LeftOut};
pub use crate::trade::recording::drive::Felt;
pub use crate::trade::recording::evenly::{FASTEST_HZ, SLOWEST_HZ};
pub use crate::trade::recording::{Bounce, Direction, Drive, Record, Signal, Vertical};
use crate::trade::recording::{body_mode, bounce, drive, vertical};
use crate::trade::road::Corner;

/// A record analysed.
#[derive(Debug, Clone, PartialEq)]
pub struct Analysed {
    /// Which way is up; `None` of a displacement.
    pub vertical: Option<Vertical>,
    /// Its free decays.
    pub bounce: Bounce,
    /// As a drive; `None` of a displacement, or of less than 32 s.
    pub drive: Option<Drive>,
}

/// Finds the vertical, the bounces and what a drive shows; `named` is the axis that someone named.
pub fn analyse(record: &Record, signal: Signal, named: Option<usize>) -> Analysed {
    match signal {
        Signal::Acceleration => {
            let up = vertical::vertical(record, named);
            let bounce = bounce::bounces(&up.stretches, record.every_s, signal, up.is_signed);
            let drive = drive::drive(&up.stretches, record.every_s);
            Analysed { vertical: Some(up), bounce, drive }
        }
        Signal::Displacement => {
            let stretches: Vec<(f64, Vec<f64>)> =
                displacement(record, named).map(|(from_s, moved)| (from_s, moved.clone())).collect();
            let bounce = bounce::bounces(&stretches, record.every_s, signal, false);
            Analysed { vertical: None, bounce, drive: None }
        }
    }
}

/// A recorded displacement: when each stretch begins, s, and its samples along the axis that was named, else the first.
pub fn displacement(record: &Record, named: Option<usize>) -> impl Iterator<Item = (f64, &Vec<f64>)> {
    let axis = named.unwrap_or(0);
    record.stretches.iter().map(move |s| (s.from_s, &s.axes[axis]))
}

/// A value predicted and one found.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Against {
    /// Predicted by the job.
    pub predicted: Measured,
    /// Found in the recording.
    pub found: Measured,
}

impl Against {
    /// They differ by no more than twice both ± together.
    pub fn is_accepted(&self) -> bool {
        (self.found.value - self.predicted.value).abs() <= 2.0 * self.found.u.hypot(self.predicted.u)
    }
}

/// What the bounces of an axle say in a state of the job.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct OfAxle {
    /// Frequency of the body mode, Hz.
    pub frequency_hz: Option<Against>,
    /// Damping ratio of the body mode.
    pub damping: Option<Against>,
    /// Damping rate at the wheel that gives this damping ratio at the job's wheel rate, at the bounce's speed, N·s/m.
    pub damping_rate: Option<Measured>,
    /// The rate of the axle's damper at the bounce's speed over its rate at the job's peak speed, by its curve.
    pub rate_at_speed: Option<Ratio>,
    /// The damping ratio on springs that it comes to at the job's peak speed, c/(2√(k_w m_s)); `None` when the damper's
    /// rate there is not known.
    pub on_springs: Option<Measured>,
    /// Wheel rate by frequency and damping alone, without a motion ratio, N/m.
    pub wheel_rate: Option<Measured>,
    /// The job's, where it is known.
    pub wheel_rate_of_job: Option<Measured>,
}

impl OfAxle {
    /// The wheel rate against the job's.
    pub fn wheel_rate_against(&self) -> Option<Against> {
        Some(Against { predicted: self.wheel_rate_of_job?, found: self.wheel_rate? })
    }

    /// The job predicts something of what was found.
    pub fn is_compared(&self) -> bool {
        self.frequency_hz.or(self.damping).or(self.wheel_rate_against()).is_some()
    }
}

/// Compares the bounces with an axle in a state; without a motion ratio they still tell the wheel rate. `None` when the
/// job does not even know the masses and the tyre.
pub fn of_axle(answer: &Answer, side: Side, state: State, bounce: &Bounce) -> Option<OfAxle> {
    let wheel_rate = wheel_rate(answer, side, state, bounce);
    let Some(corner) = corner(answer.axle(side), state) else {
        return wheel_rate.map(|found| OfAxle { wheel_rate: Some(found), ..OfAxle::default() });
    };
    let u_of = |value: &dyn Fn(&AxleAnswer) -> Option<f64>| answer.checked(side).nudged.u_of(value).unwrap_or(0.0);
    let of_job =
        Measured { value: corner.wheel_rate.si(), u: u_of(&|a| Some(self::corner(a, state)?.wheel_rate.si())) };
    Some(OfAxle { wheel_rate, wheel_rate_of_job: Some(of_job), ..damping(answer, side, state, bounce, &corner) })
}

/// Masses and tyre tell with frequency and damping what the wheel rate is.
fn wheel_rate(answer: &Answer, side: Side, state: State, bounce: &Bounce) -> Option<Measured> {
    let (axle, checked) = (answer.axle(side), answer.checked(side));
    let [sprung, unsprung] = axle.hung(state)?;
    let tyre_of = |axle: &AxleAnswer| axle.bench.tyre_rate.map(Quantity::si);
    let tyre = Measured { value: tyre_of(axle)?, u: checked.nudged.u_of(tyre_of).unwrap_or(0.0) };
    let by_mode = |[hz, ratio, tyre]: [f64; 3]| {
        let mode = BodyMode { frequency: Frequency::from_si(hz), damping: Ratio::from_si(ratio) };
        let found = mode.rate_and_damping(sprung, unsprung, SpringRate::from_si(tyre));
        found.map_or(f64::NAN, |(rate, _)| rate.si())
    };
    let found = propagate([bounce.frequency_hz?, bounce.damping?, tyre], by_mode);
    found.value.is_finite().then_some(found)
}

/// Frequency and damping against what is predicted, and what the damping is at the job's own speed.
fn damping(answer: &Answer, side: Side, state: State, bounce: &Bounce, corner: &Corner) -> OfAxle {
    let axle = answer.axle(side);
    let speed = bounce.peak_speed_m_per_s.map(Velocity::from_si);
    let rate_at_speed = speed.and_then(|speed| axle.rate_at(state, speed));
    let mode_of = |axle: &AxleAnswer| {
        let rate = speed.and_then(|speed| axle.rate_at(state, speed)).unwrap_or(Ratio::from_si(1.0));
        axle.bench.predicted.of(state).as_ref()?.body_mode_at(rate)
    };
    let u_of = |value: &dyn Fn(&AxleAnswer) -> Option<f64>| answer.checked(side).nudged.u_of(value).unwrap_or(0.0);
    let tyre = Measured { value: corner.tyre_rate.si(), u: u_of(&|a| Some(self::corner(a, state)?.tyre_rate.si())) };
    let predicted = mode_of(axle);
    let frequency = predicted.zip(bounce.frequency_hz).map(|(mode, found)| Against {
        predicted: Measured { value: mode.frequency.si(), u: u_of(&|a| Some(mode_of(a)?.frequency.si())) },
        found,
    });
    let damping = predicted.zip(bounce.damping).map(|(mode, found)| Against {
        predicted: Measured { value: mode.damping.si(), u: u_of(&|a| Some(mode_of(a)?.damping.si())) },
        found,
    });
    let rate_for = |ratio: f64, tyre: f64| {
        let corner = Corner { tyre_rate: SpringRate::from_si(tyre), ..*corner };
        body_mode::damping_for(&corner, Ratio::from_si(ratio)).map_or(f64::NAN, Quantity::si)
    };
    let damping_rate = bounce.damping.map(|ratio| propagate([ratio, tyre], |[ratio, tyre]| rate_for(ratio, tyre)));
    let damping_rate = damping_rate.filter(|c| c.value.is_finite() && c.u.is_finite());
    let critical = 2.0 * (corner.wheel_rate.si() * corner.sprung.si()).sqrt();
    let on_springs = damping_rate.zip(rate_at_speed).map(|(c, rate)| {
        let one = critical * rate.si();
        Measured { value: c.value / one, u: c.u / one }
    });
    OfAxle { frequency_hz: frequency, damping, damping_rate, rate_at_speed, on_springs, ..OfAxle::default() }
}

fn corner(axle: &AxleAnswer, state: State) -> Option<Corner> {
    axle.bench.predicted.of(state).as_ref().map(|on| on.corner)
}
