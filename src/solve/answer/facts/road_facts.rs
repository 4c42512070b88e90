//! What a rough road does to one corner, and what a suspension bench measures on it.

use super::{BeforeAfter, PerState, State};
use crate::base::language::Word;
use crate::base::units::{Acceleration, Angle, Frequency, Length, Quantity, Ratio, SpringRate};
use crate::job::LeftRight;
pub use crate::trade::bench::BenchReading;
pub use crate::trade::recording::BodyMode;
pub use crate::trade::road::{Corner, Passage, RoadClass, Said, Trade, TradePoint, WeightedBy};

/// One corner on the rough road considered, by closed forms: straight spring and damper, a Gaussian road.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OnRoad {
    /// The corner.
    pub corner: Corner,
    /// The road and the speed.
    pub passage: Passage,
    /// rms of the wheel's travel.
    pub travel: Length,
    /// rms of the body's acceleration, not weighted.
    pub acceleration: Acceleration,
    /// rms of the tyre's force over its standing load.
    pub tyre_load: Ratio,
    /// Wheel travel left to the bump stop.
    pub stop_room: Option<Length>,
    /// Rebound rate over bump rate of the damper.
    pub rebound_over_bump: Option<Ratio>,
    /// How often the bump stop is met in a kilometre; `None` when its gap is not known.
    pub hits_per_km: Option<f64>,
    /// How far the damper's stiffer rebound pulls the body down meanwhile; not in [`OnRoad::hits_per_km`].
    pub pulled_down: Option<Length>,
}

/// What is driven over.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum OverRoad {
    /// A rough road.
    #[default]
    Rough,
    /// A rounded hump.
    Hump,
    /// A sharp-edged pothole.
    Hole,
}

impl OverRoad {
    /// All of them.
    pub const ALL: [OverRoad; 3] = [OverRoad::Rough, OverRoad::Hump, OverRoad::Hole];

    /// The words on screen and paper.
    pub fn words(self) -> Word {
        match self {
            OverRoad::Rough => Word("rough road"),
            OverRoad::Hump => Word("hump"),
            OverRoad::Hole => Word("pothole"),
        }
    }

    /// The key in results.
    pub fn key(self) -> &'static str {
        match self {
            OverRoad::Rough => "rough",
            OverRoad::Hump => "hump",
            OverRoad::Hole => "hole",
        }
    }
}

/// One corner on a suspension bench, by closed form.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OnBench {
    /// The corner, its damper cold.
    pub corner: Corner,
    /// With the damper cold.
    pub cold: BenchReading,
    /// With the damper hot; `None` when the loss cannot be used.
    pub hot: Option<BenchReading>,
}

impl OnBench {
    /// The damped mode of the body that a bounce shows; `None` when it creeps back without swinging.
    pub fn body_mode(&self) -> Option<BodyMode> {
        BodyMode::of(&self.corner)
    }

    /// The same at another speed, where the damper has this many times its rate.
    pub fn body_mode_at(&self, rate: Ratio) -> Option<BodyMode> {
        BodyMode::of(&Corner { damping: self.corner.damping * rate.si(), ..self.corner })
    }
}

/// What a bench measured on one axle, compared with what was predicted for the mean of its sides.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct BenchMeasured {
    /// Adhesion.
    pub adhesion: LeftRight<Option<Ratio>>,
    /// Least phase angle.
    pub phase: LeftRight<Option<Angle>>,
    /// What was predicted with the damper cold.
    pub predicted: Option<BenchReading>,
}

impl BenchMeasured {
    /// Something was measured.
    pub fn is_known(&self) -> bool {
        self.adhesion != LeftRight::default() || self.phase != LeftRight::default()
    }

    /// Left against right: the difference of both adhesions over the larger one.
    pub fn left_right(&self) -> Option<Ratio> {
        let [left, right] = [self.adhesion.left?.si(), self.adhesion.right?.si()];
        Some(Ratio::from_si((left - right).abs() / left.max(right))).filter(|share| share.si().is_finite())
    }

    /// Mean adhesion of both sides less the predicted one.
    pub fn adhesion_off(&self) -> Option<Ratio> {
        Some((self.adhesion.left? + self.adhesion.right?) / 2.0 - self.predicted?.adhesion)
    }

    /// Mean phase angle of both sides less the predicted one.
    pub fn phase_off(&self) -> Option<Angle> {
        Some((self.phase.left? + self.phase.right?) / 2.0 - self.predicted?.phase)
    }
}

/// What recorded bounces showed of one axle, compared with what was predicted.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct BounceMeasured {
    /// Frequency of the damped body mode.
    pub frequency: Option<Frequency>,
    /// Its damping ratio.
    pub damping: Option<Ratio>,
    /// What was predicted, the damper cold.
    pub predicted: Option<BodyMode>,
    /// Wheel rate by both, which needs no motion ratio.
    pub wheel_rate: Option<SpringRate>,
}

impl BounceMeasured {
    /// Something was measured.
    pub fn is_known(&self) -> bool {
        self.frequency.is_some() || self.damping.is_some()
    }

    /// Measured minus predicted frequency.
    pub fn frequency_off(&self) -> Option<Frequency> {
        Some(self.frequency? - self.predicted?.frequency)
    }

    /// Measured minus predicted damping ratio.
    pub fn damping_off(&self) -> Option<Ratio> {
        Some(self.damping? - self.predicted?.damping)
    }
}

/// One recorded drive.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct DriveMeasured {
    /// Acceleration of the body as felt (W_k), rms.
    pub felt: Option<Acceleration>,
    /// The same, not weighted.
    pub rms: Option<Acceleration>,
}

/// Recorded drives, before the change and after the work.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct DrivesMeasured {
    /// Each by itself.
    pub each: BeforeAfter<DriveMeasured>,
    /// They were declared to be over the same stretch at the same speed, with the sensor in the same place.
    pub are_alike: bool,
}

impl DrivesMeasured {
    /// Something was measured.
    pub fn is_known(&self) -> bool {
        *self != DrivesMeasured { are_alike: self.are_alike, ..DrivesMeasured::default() }
    }

    /// What is compared, before and after: as felt where both are, else not weighted.
    pub fn compared(&self) -> Option<[Acceleration; 2]> {
        let DrivesMeasured { each: BeforeAfter { before, after }, .. } = self;
        let felt = before.felt.zip(after.felt);
        felt.or(before.rms.zip(after.rms)).map(|(before, after)| [before, after]).filter(|both| both[0].si() > 0.0)
    }

    /// After over before.
    pub fn ratio(&self) -> Option<Ratio> {
        let [before, after] = self.compared()?;
        Some(after / before)
    }
}

/// One axle on a suspension bench.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct BenchFacts {
    /// Predicted in each state.
    pub predicted: PerState<Option<OnBench>>,
    /// Measured before the change and after the work.
    pub measured: BeforeAfter<BenchMeasured>,
    /// Rate of one tyre.
    pub tyre_rate: Option<SpringRate>,
}

impl BenchFacts {
    /// As the axle will be fitted: on the new springs where they are known, else on the old ones.
    pub fn as_fitted(&self) -> Option<&OnBench> {
        self.predicted.of(self.fitted_state()).as_ref()
    }

    /// The state of [`BenchFacts::as_fitted`].
    pub fn fitted_state(&self) -> State {
        if self.predicted.new.is_some() { State::NewSprings } else { State::OldSprings }
    }
}

/// The marks by which adhesion and phase angle are judged, and how far left and right may differ.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct BenchMarks {
    /// Good from this adhesion on.
    pub good: Option<Ratio>,
    /// Fair from this one on.
    pub fair: Option<Ratio>,
    /// Weak from this one on; poor below.
    pub weak: Option<Ratio>,
    /// Least phase angle.
    pub phase: Option<Angle>,
    /// Left against right, as a share of the larger adhesion.
    pub left_right: Option<Ratio>,
}
