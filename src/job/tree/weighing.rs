//! Weigh-ins, what was aboard, parts out and in, load cases.

use super::record::{self, record};
use super::{BarLinks, LinksAgain, PartOn, Way};
use crate::base::units::{Entry, Length, Mass};
use crate::trade::weights::Corners;

record! {
    /// Four readings of a repeated weighing.
    pub struct Again {
        /// Left front.
        pub lf: Entry<Mass>,
        /// Right front.
        pub rf: Entry<Mass>,
        /// Left rear.
        pub lr: Entry<Mass>,
        /// Right rear.
        pub rr: Entry<Mass>,
    }

    /// How much higher than level each scale pad stood.
    pub struct Pads {
        /// Left front.
        pub lf: Entry<Length>,
        /// Right front.
        pub rf: Entry<Length>,
        /// Left rear.
        pub lr: Entry<Length>,
        /// Right rear.
        pub rr: Entry<Length>,
    }

    /// One part that comes out or goes in.
    pub struct Part {
        /// What it is.
        pub what: String,
        /// In or out.
        pub way: Way,
        /// What carries it.
        pub on: PartOn,
        /// Its mass.
        pub mass: Entry<Mass>,
        /// How far behind the front axle its centre of gravity is.
        pub x: Entry<Length>,
        /// How far right of the centreline it is.
        pub y: Entry<Length>,
    }

    /// The weights that the ledger predicted, kept when the scales spoke.
    pub struct Predicted {
        /// Front axle.
        pub front: Entry<Mass>,
        /// Rear axle.
        pub rear: Entry<Mass>,
        /// Left front.
        pub lf: Entry<Mass>,
        /// Right front.
        pub rf: Entry<Mass>,
        /// Left rear.
        pub lr: Entry<Mass>,
        /// Right rear.
        pub rr: Entry<Mass>,
        /// When.
        pub date: String,
    }

    /// Something carried: fuel, a person, cargo.
    pub struct Load {
        /// What it is.
        pub what: String,
        /// Its mass.
        pub mass: Entry<Mass>,
        /// How far behind the front axle it is.
        pub x: Entry<Length>,
        /// How far right of the centreline it is.
        pub y: Entry<Length>,
    }

    /// One way in which the vehicle is loaded.
    pub struct LoadCase {
        /// Its name.
        pub name: String,
        /// Springs and dampers are sized on it.
        pub sized: bool,
        /// It must not be driven like this; it is only calculated. Over a rating it warns, and does not stop.
        pub what_if: bool,
        /// What is carried.
        pub loads: Vec<Load>,
        /// Load on the hitch, as a scale under the coupling shows it.
        pub tongue: Entry<Mass>,
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
        /// Fuel, people and load aboard, in words.
        pub aboard: String,
        /// What was aboard and is taken out, so that weighings compare.
        pub loads: Vec<Load>,
        /// A repeated weighing; the mean counts.
        pub repeats: Vec<Again>,
        /// Scale pads that did not stand level.
        pub pads: Pads,
        /// Hub centre to arch at each corner, as weighed.
        pub arch: Arches,
        /// The links of the anti-roll bars.
        pub bar_links: BarLinks,
        /// When it was weighed.
        pub date: String,
    }

    /// The vehicle on the springs as fitted: weighed and measured again, with the same aboard as after the change.
    pub struct Fitted {
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
        /// Hub centre to arch.
        pub arch: Arches,
        /// The links of the anti-roll bars.
        pub bar_links: LinksAgain,
        /// When.
        pub date: String,
    }

    /// Hub centre to wheel arch at each corner.
    pub struct Arches {
        /// Left front.
        pub lf: Entry<Length>,
        /// Right front.
        pub rf: Entry<Length>,
        /// Left rear.
        pub lr: Entry<Length>,
        /// Right rear.
        pub rr: Entry<Length>,
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
