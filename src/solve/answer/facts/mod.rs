//! What an answer is made of: facts of springs, dampers, linkages, loads, roads and the whole vehicle. None of them knows
//! the answer of an axle.

mod damper_facts;
mod linkage_facts;
mod load_facts;
mod reweigh_facts;
mod road_facts;
mod route_facts;
mod spring_facts;
mod vehicle_facts;

use super::{Band, BeforeAfter, Measured, PerState, Range, State, Weighed};
pub use damper_facts::{Damping, ForceAtSpeed, OfferedDamper, OldDamper, OldDamperBy};
pub use linkage_facts::{AlignmentMoved, LinkageFacts, RatioWays};
pub use load_facts::{AtRest, ByAir, CaseAnswer, CaseStanding, Compared, Ledger, OnSprings, Rated, RatedPart, Told};
pub use reweigh_facts::{Again, Reweigh};
pub use road_facts::{
    BenchFacts, BenchMarks, BenchMeasured, BenchReading, BodyMode, BounceMeasured, DriveMeasured, DrivesMeasured,
    OnBench, OnRoad, OverRoad, Passage, RoadClass, Said, Trade, TradePoint, WeightedBy,
};
pub use route_facts::{Route, RouteKind, Routes};
pub use spring_facts::{
    BarChoice, BarFacts, ByRoutes, CoilFacts, Crossover, Cut, FittedSprings, LeafFacts, OldSpring, StockBars,
    StockRates,
};
pub use vehicle_facts::{
    BarFor, BarFound, Centre, CornerLedger, CornersStand, Cross, Dive, Hump, Levelling, LookedAt, Mode, Pitch, Roll,
    SidesStand, Swing, WantedBar, WantedBars, Whole, degrees_per_g,
};
