//! The tree of fields, exactly as typed; it holds no results.

mod axle;
mod damper;
mod linkage;

pub mod overrule;
pub mod read;
pub(in crate::job) mod record;
mod side;
mod spring;
mod vehicle;
mod ways;
mod weighing;

use crate::base::units::{DecimalMark, UnitChoice};
pub use crate::trade::road::RoadClass;
pub use crate::trade::spring::{Ends, Material};
pub use axle::{
    Axle, AxlePlan, Checks, Choice, MotionRatio, OwnSpring, Parallel, PlannedBag, PlannedBar, PlannedHeight, RatioRow,
    Stock, Taken, Target, Travel,
};
pub use damper::{
    Bench, BenchReadings, Bounce, BounceReading, ClickRow, CurveRow, DamperFitted, DamperPlan, DriveReading, Drives,
    NewDamper,
};
pub use linkage::{Linkage, Place, point_key, points_of};
pub use overrule::Overrule;
pub use record::{RowList, Store, Walk};
use record::{plain_values, record};
pub use side::{LeftRight, PerAxle, Side};
pub use spring::{
    Bag, BarSizes, HelperCoil, LeafSizes, LeafTestRow, LoadPoint, PressReadings, SpringFitted, SqueezeRow, Stop,
    WireSizes,
};
pub use vehicle::{
    AxleOrder, BodyShape, Certainty, Chassis, Customer, Lift, Limits, Order, Prices, Road, RollBar, Shop, Vehicle,
    WantedRoll,
};
pub use ways::{
    AxleKind, BagFitted, BarLinks, Coaxial, Defaults, FootOn, Goal, HeldBy, LeafBy, LinksAgain, MeasuredAt, MeasuredOn,
    PartOn, Plan, RateBy, RatioBy, SpringKind, Suspension, Way,
};
pub use weighing::{Again, Arches, Fitted, Load, LoadCase, Pads, Part, Predicted, Weighing};

plain_values!(
    bool,
    UnitChoice,
    DecimalMark,
    Defaults,
    AxleKind,
    BarLinks,
    LinksAgain,
    Suspension,
    Coaxial,
    Plan,
    DamperPlan,
    RatioBy,
    FootOn,
    MeasuredAt,
    MeasuredOn,
    Goal,
    SpringKind,
    RateBy,
    LeafBy,
    BagFitted,
    HeldBy,
    Material,
    Ends,
    Way,
    PartOn,
    BodyShape,
    RoadClass
);

record! {
    /// One job: a vehicle whose weights have changed.
    pub struct Job {
        /// The unit in which each quantity is shown.
        pub units: UnitChoice,
        /// The system of units in which defaults are round; the units shown do not change it.
        pub defaults: Defaults,
        /// The decimal mark used in this job's numbers.
        pub decimal: DecimalMark,
        /// Who does the work.
        pub shop: Shop,
        /// Whose vehicle it is.
        pub customer: Customer,
        /// The vehicle.
        pub vehicle: Vehicle,
        /// Parts that come out and go in.
        pub parts: Vec<Part>,
        /// What the ledger of parts predicted when the weigh-in after arrived.
        pub predicted: Predicted,
        /// Heights, pitch and the manoeuvres considered.
        pub chassis: Chassis,
        /// The rough road considered; its speed is that over the hump.
        pub road: Road,
        /// How the vehicle is loaded, besides as it was weighed.
        pub cases: Vec<LoadCase>,
        /// The weigh-in before the change.
        pub before: Weighing,
        /// The weigh-in after the change, on the old springs.
        pub after: Weighing,
        /// The vehicle on the springs as fitted: weighed and measured again.
        pub fitted: Fitted,
        /// What recordings of the same drive before and after showed.
        pub drive: Drives,
        /// When lengths, gaps and travel were measured.
        pub measured_at: MeasuredAt,
        /// The front axle.
        pub front: Axle,
        /// The rear axle.
        pub rear: Axle,
        /// The name of the plan that the axles hold: the chosen one.
        pub plan_name: String,
        /// The plans that are not chosen.
        pub plans: Vec<OtherPlan>,
        /// Doubts that an engineer has overruled.
        pub overrules: Vec<Overrule>,
        /// The shop's limits for warnings.
        pub limits: Limits,
        /// The shop's parts list that is used: its name, or a file in the job's folder.
        pub list: String,
        /// Prices, other than those of the list's parts.
        pub prices: Prices,
        /// The order to a supplier.
        pub order: Order,
        /// Default uncertainty of a number.
        pub certainty: Certainty,
        /// Anything else worth keeping.
        pub notes: String,
    }

    /// A plan that is not the chosen one.
    pub struct OtherPlan {
        /// What it is called.
        pub name: String,
        /// The front axle.
        pub front: AxlePlan,
        /// The rear axle.
        pub rear: AxlePlan,
    }
}

impl Job {
    /// Whether defaults are round in pounds and inches.
    pub fn in_pounds_and_inches(&self) -> bool {
        match self.defaults {
            Defaults::AsShown => Defaults::of(&self.units) == Defaults::PoundInch,
            said => said == Defaults::PoundInch,
        }
    }

    /// Keeps the system of defaults when the units shown change later.
    pub fn settle_defaults(&mut self) {
        if self.defaults == Defaults::AsShown {
            self.defaults = Defaults::of(&self.units);
        }
    }

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

impl Job {
    /// The name of a row of parts or loads, by the row's path: `parts[2]`, `cases[0].loads[1]`.
    pub fn what_mut(&mut self, row: &str) -> Option<&mut String> {
        let (list, number) = row.strip_suffix(']')?.rsplit_once('[')?;
        let i: usize = number.parse().ok()?;
        if list == "parts" {
            return self.parts.get_mut(i).map(|p| &mut p.what);
        }
        self.loads_mut(list)?.get_mut(i).map(|l| &mut l.what)
    }

    /// A list of loads by its path: `before.loads`, `cases[0].loads`.
    pub fn loads_mut(&mut self, list: &str) -> Option<&mut Vec<Load>> {
        match list {
            "before.loads" => Some(&mut self.before.loads),
            "after.loads" => Some(&mut self.after.loads),
            _ => {
                let case: usize = list.strip_prefix("cases[")?.strip_suffix("].loads")?.parse().ok()?;
                Some(&mut self.cases.get_mut(case)?.loads)
            }
        }
    }
}
