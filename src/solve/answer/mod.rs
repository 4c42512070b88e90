//! What [`solve`](super::solve) gives back: quantities with their conventions, nothing formatted.
//!
//! `None` always means "not known", never zero. Height changes are + when the
//! body rises; wheel travel is + in bump from the reference height.

mod checked;
mod dampers;
mod loads;
mod moved;
mod options;
mod reweigh;
mod road;
mod springs;
mod whole;

use crate::job::{Finding, Plan, Side, SpringKind};
use crate::language::tr;
pub use crate::math::spread::Measured;
use crate::spring::Wound;
use crate::units::{Angle, Energy, Force, Frequency, Length, Mass, Quantity, Ratio, RatioSlope, SpringRate, Velocity};
pub use crate::weights::{Corners, cross_weight};
use crate::wheel::ForceTravel;
pub use checked::{Checked, Nudged, Route, RouteKind, Routes};
pub use dampers::{Damping, ForceAtSpeed, OfferedDamper, OldDamper, OldDamperBy};
pub use loads::{ByAir, CaseAnswer, CaseStanding, Compared, Ledger, Rated, RatedPart, Told};
pub use moved::{Moved, OfVehicle, Vehicle};
pub use options::{OptionStanding, Remedy, RemedyKind};
pub use reweigh::{Again, Reweigh};
pub use road::{OnRoad, OverRoad, Passage, RoadClass, Said, Trade, TradePoint};
pub use springs::{BarChoice, BarFacts, CoilFacts, Crossover, Cut, LeafFacts, Levelled, OldSpring};
pub use whole::{
    Centre, CornerLedger, Cross, CrossCorrection, Dive, Hump, Lean, Mode, Pitch, Roll, Swing, Whole, degrees_per_g,
};

/// The one vehicle, three times.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum State {
    /// Before the swap.
    Before,
    /// After the swap, on the old springs.
    OldSprings,
    /// After the swap, on the new springs.
    NewSprings,
}

impl State {
    /// All three, in order of time.
    pub const ALL: [State; 3] = [State::Before, State::OldSprings, State::NewSprings];

    /// The key in results.
    pub fn key(self) -> &'static str {
        match self {
            State::Before => "before",
            State::OldSprings => "old_springs",
            State::NewSprings => "new_springs",
        }
    }

    /// The words where there is little room.
    pub fn short(self) -> &'static str {
        match self {
            State::Before => tr("before"),
            State::OldSprings => tr("old springs"),
            State::NewSprings => tr("new springs"),
        }
    }

    /// The words on screen and paper.
    pub fn words(self) -> &'static str {
        match self {
            State::Before => tr("before"),
            State::OldSprings => tr("on the old springs"),
            State::NewSprings => tr("on the new springs"),
        }
    }
}

/// One value per state.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct PerState<T> {
    /// Before the swap.
    pub before: T,
    /// After, on the old springs.
    pub old: T,
    /// After, on the new springs.
    pub new: T,
}

impl<T> PerState<T> {
    /// The value of one state.
    pub fn of(&self, state: State) -> &T {
        match state {
            State::Before => &self.before,
            State::OldSprings => &self.old,
            State::NewSprings => &self.new,
        }
    }
}

/// Lowest, aimed at, highest.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Band<T> {
    /// Lowest.
    pub low: T,
    /// Aimed at: the middle of the wanted range.
    pub aim: T,
    /// Highest.
    pub high: T,
}

impl<T: Copy> Band<T> {
    /// The same three, each passed through `f`.
    pub fn map<U>(&self, f: impl Fn(T) -> U) -> Band<U> {
        Band { low: f(self.low), aim: f(self.aim), high: f(self.high) }
    }
}

/// What one weigh-in says.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Weighed {
    /// Corner readings, when all four of them are known.
    pub corners: Option<Corners<Mass>>,
    /// Front axle.
    pub front: Option<Mass>,
    /// Rear axle.
    pub rear: Option<Mass>,
    /// Both axles.
    pub total: Option<Mass>,
    /// Front axle over total.
    pub front_share: Option<Ratio>,
    /// Left side over total.
    pub left_share: Option<Ratio>,
    /// (Right front + left rear) over total.
    pub cross_weight: Option<Ratio>,
    /// (Left − right) over the axle: front, rear.
    pub left_right: [Option<Ratio>; 2],
}

impl Weighed {
    /// One axle's reading.
    pub fn axle(&self, side: Side) -> Option<Mass> {
        match side {
            Side::Front => self.front,
            Side::Rear => self.rear,
        }
    }
}

/// One corner of an axle (the mean of its sides) in one state.
#[derive(Debug, Clone, PartialEq)]
pub struct Standing {
    /// Sprung mass on the corner.
    pub sprung: Mass,
    /// Wheel travel from the reference height.
    pub travel: Length,
    /// Height against before, hub to arch; `None` without before-weights.
    pub height_change: Option<Length>,
    /// Height against before, at the ground: tyre squash added.
    pub height_change_at_ground: Option<Length>,
    /// Slope of force against travel at the wheel.
    pub wheel_rate: SpringRate,
    /// On springs: the headline.
    pub frequency: Frequency,
    /// With the tyre in series.
    pub frequency_with_tyre: Option<Frequency>,
    /// m_s g / k_w.
    pub static_deflection: Length,
    /// Force along the spring.
    pub spring_force: Force,
    /// Slope of the spring's own force there.
    pub spring_rate: SpringRate,
    /// Work stored in the spring there.
    pub stored: Energy,
    /// Length of the spring.
    pub spring_length: Option<Length>,
    /// Wheel travel left to the bump stop.
    pub stop_room: Option<Length>,
    /// The extra g before the stop is touched.
    pub reserve: Option<Ratio>,
    /// Damping ratio with the old damper.
    pub old_damper_ratio: Option<Ratio>,
    /// The bump stop is already touched here.
    pub on_stop: bool,
    /// The spring is loose here.
    pub loose: bool,
    /// Wheel travel at which this spring gets loose.
    pub loose_at: Option<Length>,
    /// The curve this was read from.
    pub curve: ForceTravel,
}

/// Stock rates inside a band.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StockRates {
    /// Step between them.
    pub step: SpringRate,
    /// Lowest inside.
    pub lowest: SpringRate,
    /// Highest inside.
    pub highest: SpringRate,
    /// How many.
    pub count: usize,
}

/// The same-factor rule: sprung mass × q asks for rate × q and damper × q on the same free length.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SameFactor {
    /// Sprung mass after ÷ before.
    pub factor: Ratio,
    /// Old spring rate × q.
    pub spring_rate: SpringRate,
    /// Exact: nothing but the spring carries.
    pub exact: bool,
}

/// A spacer under the old spring that restores the wanted height.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spacer {
    /// Its thickness at the seat; for a bar, how far the unloaded arm's end moves.
    pub thickness: Length,
    /// For a bar: how far it is indexed anew instead, + winds it up.
    pub index: Option<Angle>,
    /// Reserve with it.
    pub reserve: Option<Ratio>,
    /// Frequency with it: a spacer does not restore it.
    pub frequency: Frequency,
}

/// The spring an axle needs.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sizing {
    /// Wanted frequency, on springs.
    pub frequency: Band<Frequency>,
    /// Wheel rate for it.
    pub wheel_rate: Band<SpringRate>,
    /// Spring rate for it.
    pub spring_rate: Band<SpringRate>,
    /// Rate of the helper coil that is open at the wanted height: spring rates are then the main coil's, in series
    /// with it.
    pub open_helper: Option<SpringRate>,
    /// Wheel travel at the wanted height.
    pub wanted_travel: Length,
    /// Force along the spring at the wanted height.
    pub spring_force: Force,
    /// Stock rates inside the band, if any.
    pub stock: Option<StockRates>,
    /// The stock rate nearest the aim.
    pub pick: SpringRate,
    /// Whether the pick lies inside the band.
    pub pick_inside: bool,
    /// False when the axle is over its rating: then nothing is recommended.
    pub recommended: bool,
    /// Spring rate for the frequency before.
    pub same_frequency: Option<SpringRate>,
    /// The paper check.
    pub same_factor: Option<SameFactor>,
    /// Free length that gives the wanted height with the pick.
    pub free_length: Option<Length>,
    /// The same with the allowance for settling.
    pub order_length: Option<Length>,
    /// What a spacer alone would do.
    pub spacer: Option<Spacer>,
    /// The torsion bar for it, when the axle has one.
    pub bar: Option<BarChoice>,
}

impl Sizing {
    /// One frequency is wanted, not a range: the nearest stock rate is then all that can be asked for.
    pub fn is_one_value(&self) -> bool {
        self.frequency.low == self.frequency.high
    }
}

/// Room at both ends of the travel with the springs that will be fitted.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Room {
    /// Work stored in the spring at metal.
    pub stored_at_metal: Option<Energy>,
    /// Spring length at metal.
    pub spring_at_metal: Option<Length>,
    /// Spring length at full droop.
    pub spring_at_droop: Option<Length>,
    /// Spring force at metal.
    pub force_at_metal: Option<Force>,
    /// The longest the spring may be when solid: its length at metal less the room the shop wants.
    pub longest_solid: Option<Length>,
    /// The longest a damper may be when closed, with the room the shop wants.
    pub damper_closed_most: Option<Length>,
    /// The shortest a damper may be when open, with the room the shop wants.
    pub damper_open_least: Option<Length>,
    /// Spring length at metal less solid length.
    pub to_bind: Option<Length>,
    /// Free length less length at droop: negative when loose, by so much.
    pub seat: Option<Length>,
    /// Length of a damper at metal and at full droop.
    pub damper_at_ends: [Option<Length>; 2],
    /// Damper length at metal less closed length.
    pub damper_bump: Option<Length>,
    /// Open length less damper length at droop.
    pub damper_droop: Option<Length>,
}

/// Everything about one axle.
#[derive(Debug, Clone, PartialEq)]
pub struct AxleAnswer {
    /// Which.
    pub side: Side,
    /// What is planned.
    pub plan: Plan,
    /// Paths of fields that a first answer still needs.
    pub missing: Vec<String>,
    /// Sprung mass per corner before, as compared: at equal load.
    pub sprung_before: Option<Mass>,
    /// Sprung mass per corner after, as compared: at equal load.
    pub sprung_after: Option<Mass>,
    /// Axle weight as compared, before and after.
    pub weight: [Option<Mass>; 2],
    /// Unsprung mass per corner, before and after.
    pub unsprung: [Option<Mass>; 2],
    /// Sprung mass per corner as the vehicle stood on the scales, before and after.
    pub stood: [Option<Mass>; 2],
    /// Motion ratio of the spring at the reference height.
    pub motion_ratio: Option<Ratio>,
    /// How the motion ratio of the spring changes with travel there.
    pub ratio_slope: Option<RatioSlope>,
    /// Motion ratio of the spring in roll, beam axle.
    pub roll_ratio: Option<Ratio>,
    /// Motion ratio of the damper at the reference height.
    pub damper_motion_ratio: Option<Ratio>,
    /// How the motion ratio of the damper changes with travel there.
    pub damper_ratio_slope: Option<RatioSlope>,
    /// The kind of spring.
    pub kind: SpringKind,
    /// The old spring itself.
    pub old_spring: OldSpring,
    /// Wheel rate at the reference height by each route.
    pub route_rates: [Option<SpringRate>; RouteKind::ALL.len()],
    /// The three states.
    pub standing: PerState<Option<Standing>>,
    /// The spring needed.
    pub sizing: Option<Sizing>,
    /// The spring taken from a list, in words; `None` for a stock rate of the length that is needed.
    pub taken: Option<String>,
    /// The old springs already give the wanted ride frequency and, within the shop's limit, the wanted height.
    pub old_will_do: Option<bool>,
    /// Rubber, gas, bag, stop and geometry alone make more than the wanted wheel rate.
    pub nothing_left: bool,
    /// Room at the ends of travel.
    pub room: Room,
    /// The damper as it was fitted.
    pub old_damper: Option<OldDamper>,
    /// The damper needed.
    pub damping: Option<Damping>,
    /// A damper that is thought of.
    pub offered_damper: Option<OfferedDamper>,
    /// A coil on offer under the forces of the new spring.
    pub offered: Option<CoilFacts>,
    /// The spring to have wound, if the seats are known.
    pub wound: Option<Wound>,
    /// An air bag on the old springs instead.
    pub levelled: Option<Levelled>,
    /// The old spring's free length as it follows from load and fitted length.
    pub old_free_length: Option<Length>,
    /// What the axle carries after, as compared and with what a load on the hitch presses on it; its rating.
    pub rated: Option<(Mass, Mass)>,
    /// A rating that concerns this axle is exceeded as weighed or in a load case.
    pub overloaded: bool,
    /// Room at the ends of the travel used by pictures: stop, metal, droop.
    pub travel: Travel,
}

impl AxleAnswer {
    /// How many routes to the wheel rate the data allow.
    pub fn route_count(&self) -> usize {
        self.route_rates.iter().flatten().count()
    }
}

/// Wheel travel of one axle from the reference height.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Travel {
    /// To first touch of the stop.
    pub stop: Option<Length>,
    /// To metal.
    pub metal: Option<Length>,
    /// To full droop (a positive number).
    pub droop: Option<Length>,
    /// Wheel travel at which the spring binds.
    pub bind: Option<Length>,
    /// Wheel travel at which the damper is closed.
    pub damper_closed: Option<Length>,
    /// Wheel travel at which the damper is open.
    pub damper_open: Option<Length>,
}

/// A default that an answer rests on.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct UsedDefault {
    /// Path of the blank field.
    pub path: String,
    /// The value used, as it could have been typed.
    pub text: String,
    /// Why this value.
    pub reason: String,
}

/// The answer to a job.
#[derive(Debug, Clone, PartialEq)]
pub struct Answer {
    /// The weigh-in before.
    pub before: Weighed,
    /// The weigh-in after.
    pub after: Weighed,
    /// The weights that the axles are sized on: at equal load, reckoned where not weighed.
    pub compared: Compared,
    /// What the ledger of parts says.
    pub ledger: Option<Ledger>,
    /// As weighed, then every load case.
    pub cases: Vec<CaseAnswer>,
    /// Front, rear.
    pub axles: [AxleAnswer; 2],
    /// Front, rear: rows, routes and ±.
    pub checked: [Checked; 2],
    /// What can be done about each axle, front and rear, with its price.
    pub remedies: [Vec<Remedy>; 2],
    /// Rear over front frequency, on springs.
    pub rear_over_front: PerState<Option<Ratio>>,
    /// Flat-ride speed.
    pub flat_ride: PerState<Option<Velocity>>,
    /// Pitch, roll, four corners.
    pub whole: Whole,
    /// The springs as fitted: what was foretold and what was found.
    pub reweigh: Reweigh,
    /// The whole vehicle with each field moved by its ±.
    pub moved: Vec<Moved>,
    /// Everything there is to say, worst first.
    pub findings: Vec<Finding>,
    /// The defaults used.
    pub defaults: Vec<UsedDefault>,
}

impl Answer {
    /// One axle's answer.
    pub fn axle(&self, side: Side) -> &AxleAnswer {
        &self.axles[usize::from(side == Side::Rear)]
    }

    /// The worst load over its rating that concerns this axle, and the case in which it is.
    pub fn worst_rated(&self, side: Side) -> Option<(&CaseAnswer, &Rated)> {
        let all = self.cases.iter().flat_map(|c| c.rated.iter().map(move |r| (c, r)));
        let mine = all.filter(|(_, r)| r.part.concerns(side));
        mine.max_by(|a, b| a.1.share.si().total_cmp(&b.1.share.si()))
    }

    /// What was looked at beside one axle's answer.
    pub fn checked(&self, side: Side) -> &Checked {
        &self.checked[usize::from(side == Side::Rear)]
    }
}
