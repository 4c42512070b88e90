//! What the user edits: one tree of fields, exactly as typed.
//!
//! Blank means "not said": a default from [`fields`] is then used, if there is
//! one, and shown as such. The tree holds no results.

pub mod check;
pub mod fields;
pub mod file;
pub mod finding;
pub mod paste;
mod record;

use serde::{Deserialize, Serialize};

use crate::units::{DampingRate, DecimalMark, Entry, Frequency, Length, Mass, Pressure, Ratio, SpringRate, UnitChoice};
use crate::weights::Corners;
pub use finding::{Finding, Level};
pub use record::Walk;
use record::{plain_values, record};

/// Front or rear axle.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Side {
    /// The front axle.
    Front,
    /// The rear axle.
    Rear,
}

impl Side {
    /// Both, front first.
    pub const BOTH: [Side; 2] = [Side::Front, Side::Rear];

    /// The key in files and field paths.
    pub fn key(self) -> &'static str {
        match self {
            Side::Front => "front",
            Side::Rear => "rear",
        }
    }

    /// The word on screen.
    pub fn word(self) -> &'static str {
        match self {
            Side::Front => "Front",
            Side::Rear => "Rear",
        }
    }
}

/// What carries the wheel; decides what share of unsprung mass is usual.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
pub enum AxleKind {
    /// Each wheel on its own arms.
    #[default]
    Independent,
    /// Both wheels on one beam, driven or not.
    Beam,
}

/// What is planned for the axle's springs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
pub enum Plan {
    /// New springs are chosen.
    #[default]
    NewSprings,
    /// The springs stay.
    Keep,
}

/// How the motion ratio was found.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
pub enum RatioBy {
    /// Two lengths: the wheel moved so far, the part moved so far.
    #[default]
    Moved,
    /// Rows of wheel travel and length.
    Rows,
    /// A number, confirmed by "the wheel moved 1.00".
    Number,
}

impl RatioBy {
    /// The first field of this way, within its motion ratio.
    pub fn first_field(self) -> &'static str {
        match self {
            RatioBy::Moved => "wheel_moved",
            RatioBy::Rows => "rows[0].wheel",
            RatioBy::Number => "number",
        }
    }
}

/// When lengths, gaps and travel were measured: this height is the reference.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
pub enum MeasuredAt {
    /// Before the swap; or, when there are no before-weights, as it stands now.
    #[default]
    Before,
    /// After the swap, on the old springs.
    After,
}

/// What the new spring is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
pub enum Goal {
    /// A range of ride frequency.
    #[default]
    Range,
    /// The ride frequency the axle had before.
    AsBefore,
}

plain_values!(String, bool, UnitChoice, DecimalMark, AxleKind, Plan, RatioBy, MeasuredAt, Goal);

record! {
    /// One job: a vehicle whose weights have changed.
    pub struct Job {
        /// The unit in which each quantity is shown.
        pub units: UnitChoice,
        /// The decimal mark used in this job's numbers.
        pub decimal: DecimalMark,
        /// Who does the work.
        pub shop: Shop,
        /// Whose vehicle it is.
        pub customer: Customer,
        /// The vehicle.
        pub vehicle: Vehicle,
        /// The weigh-in before the swap.
        pub before: Weighing,
        /// The weigh-in after the swap, on the old springs.
        pub after: Weighing,
        /// When lengths, gaps and travel were measured.
        pub measured_at: MeasuredAt,
        /// The front axle.
        pub front: Axle,
        /// The rear axle.
        pub rear: Axle,
        /// The shop's limits for warnings.
        pub limits: Limits,
        /// Anything else worth keeping.
        pub notes: String,
    }

    /// The shop, as printed on its sheets.
    pub struct Shop {
        /// Its name.
        pub name: String,
        /// Address, telephone.
        pub contact: String,
        /// Who fills in the job.
        pub fitter: String,
    }

    /// The customer.
    pub struct Customer {
        /// Name.
        pub name: String,
        /// Address, telephone.
        pub contact: String,
    }

    /// The vehicle.
    pub struct Vehicle {
        /// What it is.
        pub name: String,
        /// Registration or frame number.
        pub identification: String,
        /// What is being changed.
        pub change: String,
        /// Front to rear axle.
        pub wheelbase: Entry<Length>,
    }

    /// One weigh-in: four corners, or the two axles alone.
    pub struct Weighing {
        /// Left front.
        pub lf: Entry<Mass>,
        /// Right front.
        pub rf: Entry<Mass>,
        /// Left rear.
        pub lr: Entry<Mass>,
        /// Right rear.
        pub rr: Entry<Mass>,
        /// Front axle, when its corners were not weighed.
        pub front: Entry<Mass>,
        /// Rear axle, when its corners were not weighed.
        pub rear: Entry<Mass>,
        /// Fuel, people and load aboard.
        pub aboard: String,
        /// When it was weighed.
        pub date: String,
    }

    /// One axle.
    pub struct Axle {
        /// Independent or beam.
        pub kind: AxleKind,
        /// New springs, or keep the old.
        pub plan: Plan,
        /// Between the wheels' centres.
        pub track: Entry<Length>,
        /// The axle's plated rating.
        pub rating: Entry<Mass>,
        /// Unsprung mass of one corner.
        pub unsprung: Entry<Mass>,
        /// Unsprung mass of one corner before the swap, if it was different.
        pub unsprung_before: Entry<Mass>,
        /// Spring travel over wheel travel.
        pub ratio: MotionRatio,
        /// Damper travel over wheel travel.
        pub damper_ratio: MotionRatio,
        /// The spring as fitted.
        pub spring: SpringFitted,
        /// Rubber pivots and whatever else carries beside the spring.
        pub parallel: Parallel,
        /// Wheel travel from the reference height.
        pub travel: Travel,
        /// Rate of one tyre.
        pub tyre_rate: Entry<SpringRate>,
        /// The damper as fitted.
        pub damper: DamperFitted,
        /// What is wanted.
        pub target: Target,
        /// What can be bought.
        pub stock: Stock,
    }

    /// A motion ratio, by one of three ways.
    pub struct MotionRatio {
        /// Which way counts.
        pub by: RatioBy,
        /// How far the wheel moved.
        pub wheel_moved: Entry<Length>,
        /// How far the spring or damper moved meanwhile.
        pub part_moved: Entry<Length>,
        /// Rows of wheel travel and length.
        pub rows: Vec<RatioRow>,
        /// A bare number.
        pub number: Entry<Ratio>,
        /// "The wheel moved 1.00: how far did the part move?"
        pub confirm: Entry<Ratio>,
    }

    /// One row of a motion-ratio table.
    pub struct RatioRow {
        /// Wheel travel from the reference height, + in bump.
        pub wheel: Entry<Length>,
        /// Length of the spring or damper there.
        pub length: Entry<Length>,
    }

    /// The spring as found on the vehicle.
    pub struct SpringFitted {
        /// Its rate.
        pub rate: Entry<SpringRate>,
        /// Its length at the reference height.
        pub fitted_length: Entry<Length>,
        /// Its length off the vehicle.
        pub free_length: Entry<Length>,
        /// The old spring's length with all coils touching.
        pub solid_length: Entry<Length>,
    }

    /// A rate in parallel with the spring, at the wheel.
    pub struct Parallel {
        /// Rate at the wheel.
        pub rate: Entry<SpringRate>,
        /// Wheel travel at which it carries nothing.
        pub neutral: Entry<Length>,
    }

    /// Wheel travel from the reference height.
    pub struct Travel {
        /// To first touch of the bump stop.
        pub stop_gap: Entry<Length>,
        /// To metal, the stop squeezed flat.
        pub metal: Entry<Length>,
        /// To full droop.
        pub droop: Entry<Length>,
    }

    /// The damper as found on the vehicle.
    pub struct DamperFitted {
        /// Damping ratio before the swap, if that is what is known.
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
    }

    /// What the axle should do.
    pub struct Target {
        /// A range, or as before.
        pub goal: Goal,
        /// Lowest ride frequency wanted, on springs.
        pub low: Entry<Frequency>,
        /// Highest ride frequency wanted, on springs.
        pub high: Entry<Frequency>,
        /// Allowed either side of the frequency before, when that is the goal.
        pub margin: Entry<Ratio>,
        /// Lowest damping ratio wanted.
        pub damping_low: Entry<Ratio>,
        /// Highest damping ratio wanted.
        pub damping_high: Entry<Ratio>,
        /// Rebound over bump of the new damper.
        pub rebound_over_bump: Entry<Ratio>,
        /// Height wanted above the old one, at the wheel; + up.
        pub raise: Entry<Length>,
    }

    /// What can be bought.
    pub struct Stock {
        /// Step between stock rates.
        pub step: Entry<SpringRate>,
        /// Added to the free length, since a new spring settles.
        pub settle: Entry<Length>,
        /// Solid length of the new spring, if it is known.
        pub solid_length: Entry<Length>,
    }

    /// The shop's limits; each is a warning, never a refusal.
    pub struct Limits {
        /// Left against right on one axle, share of the axle.
        pub left_right: Entry<Ratio>,
        /// Cross weight either side of one half.
        pub cross: Entry<Ratio>,
        /// Unsprung share of the reading, independent.
        pub unsprung_independent: Entry<Ratio>,
        /// Unsprung share of the reading, beam axle.
        pub unsprung_beam: Entry<Ratio>,
        /// Lowest credible ride frequency.
        pub frequency_low: Entry<Frequency>,
        /// Highest credible ride frequency.
        pub frequency_high: Entry<Frequency>,
        /// Lowest rear over front frequency.
        pub rear_front_low: Entry<Ratio>,
        /// Highest rear over front frequency.
        pub rear_front_high: Entry<Ratio>,
        /// Share of a rating from which it is amber.
        pub rating_amber: Entry<Ratio>,
        /// Least room to coil bind at metal.
        pub bind_room: Entry<Length>,
        /// Least grip of the spring on its seats at full droop.
        pub seat_room: Entry<Length>,
        /// Least room of the damper at both ends.
        pub damper_room: Entry<Length>,
    }
}

impl Job {
    /// An axle by its side.
    pub fn axle(&self, side: Side) -> &Axle {
        match side {
            Side::Front => &self.front,
            Side::Rear => &self.rear,
        }
    }

    /// An axle by its side, to edit.
    pub fn axle_mut(&mut self, side: Side) -> &mut Axle {
        match side {
            Side::Front => &mut self.front,
            Side::Rear => &mut self.rear,
        }
    }
}

impl Weighing {
    /// The four corner fields in walking order.
    pub fn corners_mut(&mut self) -> Corners<&mut Entry<Mass>> {
        Corners { lf: &mut self.lf, rf: &mut self.rf, lr: &mut self.lr, rr: &mut self.rr }
    }

    /// Nothing was weighed.
    pub fn is_blank(&self) -> bool {
        [&self.lf, &self.rf, &self.lr, &self.rr, &self.front, &self.rear].iter().all(|e| e.text.trim().is_empty())
    }
}
