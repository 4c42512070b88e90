//! What a rough road does to one corner.

use crate::base::language::tr;
use crate::base::units::{Acceleration, Length, Ratio};
pub use crate::trade::road::{Corner, Passage, RoadClass, Said, Trade, TradePoint, WeightedBy};

/// One corner on the rough road that is looked at, by closed forms: straight spring and damper, a Gaussian road.
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
    pub fn words(self) -> &'static str {
        match self {
            OverRoad::Rough => tr("rough road"),
            OverRoad::Hump => tr("hump"),
            OverRoad::Hole => tr("pothole"),
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
