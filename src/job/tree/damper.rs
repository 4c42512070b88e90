//! The damper as fitted, a candidate, and what an inspection bench and recorded bounces say of the axle.

use serde::{Deserialize, Serialize};

use super::Coaxial;
use super::record::{self, record};
use crate::base::language::worded;
use crate::base::units::{
    Acceleration, Angle, DamperSpeed, DampingRate, Entry, Force, Frequency, Length, Pressure, Ratio,
};

record! {
    /// The damper as found on the vehicle.
    pub struct DamperFitted {
        /// Whether it is one unit with the spring.
        pub coaxial: Coaxial,
        /// Damping ratio before the change, if that is what is known.
        pub ratio_before: Entry<Ratio>,
        /// Rate in bump at the damper, if measured.
        pub bump_rate: Entry<DampingRate>,
        /// Rate in rebound at the damper, if measured.
        pub rebound_rate: Entry<DampingRate>,
        /// Eye to eye at the reference height.
        pub fitted_length: Entry<Length>,
        /// Eye to eye, fully closed.
        pub closed_length: Entry<Length>,
        /// Eye to eye, fully open.
        pub open_length: Entry<Length>,
        /// Gauge pressure of a gas damper.
        pub gas_pressure: Entry<Pressure>,
        /// Rod diameter of a gas damper.
        pub rod_diameter: Entry<Length>,
        /// Its force against speed, if it was on a test machine.
        pub rows: Vec<CurveRow>,
    }

    /// One row of a damper's curve.
    pub struct CurveRow {
        /// Speed at the damper.
        pub speed: Entry<DamperSpeed>,
        /// Force when it is pushed in.
        pub bump: Entry<Force>,
        /// Force when it is pulled out.
        pub rebound: Entry<Force>,
    }

    /// A candidate damper, from a catalogue or a test machine.
    pub struct NewDamper {
        /// Its number and what it is.
        pub what: String,
        /// What its clicks turn, and from where they are counted.
        pub adjuster: String,
        /// Its force against speed, click by click.
        pub rows: Vec<ClickRow>,
        /// Eye to eye, fully closed.
        pub closed_length: Entry<Length>,
        /// Eye to eye, fully open.
        pub open_length: Entry<Length>,
    }

    /// One row of a candidate damper's curve.
    pub struct ClickRow {
        /// The click it was measured at; blank without an adjuster.
        pub click: Entry<Ratio>,
        /// Speed at the damper.
        pub speed: Entry<DamperSpeed>,
        /// Force when it is pushed in.
        pub bump: Entry<Force>,
        /// Force when it is pulled out.
        pub rebound: Entry<Force>,
    }

    /// What recordings of bounces showed on this axle.
    pub struct Bounce {
        /// Before the change.
        pub before: BounceReading,
        /// After the work, as fitted.
        pub after: BounceReading,
    }

    /// What one recording showed, and which it was.
    pub struct BounceReading {
        /// Frequency of the damped body mode.
        pub frequency: Entry<Frequency>,
        /// Damping ratio of the body mode: smaller than that on springs.
        pub damping: Entry<Ratio>,
        /// Peak speed of the wheel's travel after the first peak: a damper's rate depends on it.
        pub speed: Entry<DamperSpeed>,
        /// The file of the recording; it stays where it is.
        pub file: String,
        /// Date, length and rate of the recording, and how many decays counted.
        pub about: String,
        /// CRC-32 of the file, so that another one of the same name is noticed.
        pub checksum: String,
    }

    /// What recordings of a drive showed: the same stretch before the change and after the work.
    pub struct Drives {
        /// Before the change.
        pub before: DriveReading,
        /// After the work.
        pub after: DriveReading,
        /// Both were driven over the same stretch at the same speed.
        pub same_stretch: bool,
        /// The sensor was in the same place both times.
        pub same_place: bool,
    }

    /// What one recording of a drive showed, and which it was.
    pub struct DriveReading {
        /// Acceleration of the body as felt (W_k), rms.
        pub felt: Entry<Acceleration>,
        /// The same, not weighted.
        pub rms: Entry<Acceleration>,
        /// The file of the recording; it stays where it is.
        pub file: String,
        /// Date, length and rate of the recording.
        pub about: String,
        /// CRC-32 of the file, so that another one of the same name is noticed.
        pub checksum: String,
    }

    /// What a suspension bench measured on this axle.
    pub struct Bench {
        /// Before the change.
        pub before: BenchReadings,
        /// After the work, as fitted.
        pub after: BenchReadings,
    }

    /// One visit to a suspension bench: adhesion, phase angle or both, as the bench shows them.
    pub struct BenchReadings {
        /// Adhesion, left wheel.
        pub left: Entry<Ratio>,
        /// Adhesion, right wheel.
        pub right: Entry<Ratio>,
        /// Least phase angle, left wheel.
        pub left_phase: Entry<Angle>,
        /// Least phase angle, right wheel.
        pub right_phase: Entry<Angle>,
    }
}

worded! {
    /// What is planned for the axle's dampers.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
    pub enum DamperPlan {
        /// New ones where the old ones do not suit the springs as they will be fitted.
        #[default]
        AsNeeded => Word("new dampers only where needed"),
        /// New ones, whatever the old ones do.
        New => Word("new dampers"),
        /// The old ones stay, whatever they do.
        Keep => Word("keep the old dampers"),
    }
}

impl CurveRow {
    /// Nothing is typed in it.
    pub fn is_blank(&self) -> bool {
        self.speed.is_blank() && self.bump.is_blank() && self.rebound.is_blank()
    }
}

impl ClickRow {
    /// Nothing is typed in it.
    pub fn is_blank(&self) -> bool {
        self.click.is_blank() && self.speed.is_blank() && self.bump.is_blank() && self.rebound.is_blank()
    }
}
