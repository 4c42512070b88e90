//! The whole vehicle: pitch, braking, roll, four corners and the centre of gravity.

use super::{BeforeAfter, DrivesMeasured, Measured, OnRoad, PerState, Range, State, Told};
use crate::base::units::{Angle, Force, Frequency, Length, Mass, Quantity, Ratio, SpringRate, Stress, TwistRate};
use crate::job::{LeftRight, PerAxle, Side};
pub use crate::trade::pitch::{Hump, Mode, Swing};
use crate::trade::roll::wanted::NoBar;
use crate::trade::roll::{self, AntiRollBar, Body};
use crate::trade::weights::Corners;

/// The whole vehicle, in every state.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Whole {
    /// Centre of gravity of the whole vehicle after.
    pub centre: Option<Centre>,
    /// Front to rear axle.
    pub wheelbase: Option<Length>,
    /// From wheel to wheel of an axle.
    pub track: PerAxle<Option<Length>>,
    /// Pitch and bounce.
    pub pitch: PerState<Option<Pitch>>,
    /// Front and rear on the rough road: before and after on the old dampers, at last on what will be fitted.
    pub road: PerState<PerAxle<Option<OnRoad>>>,
    /// The hump that is driven over, reached by the front wheels at once.
    pub hump: Option<Hump>,
    /// Least and greatest rear over front frequency that the shop likes.
    pub ratio_limits: Range<Option<Ratio>>,
    /// The manoeuvres considered.
    pub looked_at: LookedAt,
    /// From the headlamps to the wall where their aim is checked.
    pub lamp_distance: Option<Length>,
    /// Change of nose-up angle from before, at the ground, tyres included.
    pub nose_up: PerState<Option<Angle>>,
    /// How far that moves the lamps' beam, + up.
    pub beam: PerState<Option<Length>>,
    /// How far the front dives under the braking considered.
    pub dive: PerState<Option<Dive>>,
    /// Roll, with the anti-roll bars of each state.
    pub roll: PerState<Option<Roll>>,
    /// Roll on the new springs with the old anti-roll bars, where a new one is planned.
    pub old_bars: Option<Roll>,
    /// The anti-roll bars that give the roll that is wanted on the new springs.
    pub bars: Option<WantedBars>,
    /// Corner readings as they would be on level pads, where pads were not.
    pub level: BeforeAfter<Option<Corners<Mass>>>,
    /// How much the readings of each corner scatter: standard deviation of repeated weighings.
    pub scatter: BeforeAfter<Option<Corners<Mass>>>,
    /// Standard uncertainty of each corner as weighed, kg: LF, RF, LR, RR; `None` unless all were read.
    pub reading_u: Option<BeforeAfter<[f64; 4]>>,
    /// The ledger of parts, corner by corner.
    pub ledger: Option<CornerLedger>,
    /// All four corners at once, with what stood on the scales: on the new springs with what stood there after.
    pub corners: PerState<Option<CornersStand>>,
    /// The fields that are missing for that, by path.
    pub corners_missing: Vec<String>,
    /// The same in every load case of the job, on the old springs and on the new ones; `before` is not used.
    pub in_cases: Vec<PerState<Option<CornersStand>>>,
    /// What recorded drives showed.
    pub drives: DrivesMeasured,
    /// What brings the body level on the springs that will be fitted.
    pub levelling: Option<Levelling>,
    /// What brings the cross weight to what is wanted.
    pub cross: Option<Cross>,
}

/// Manoeuvres considered, in g; `None` where the height of the centre of gravity is not known.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct LookedAt {
    /// How hard it is braked.
    pub braking: Option<Ratio>,
    /// How hard it is cornered.
    pub cornering: Option<Ratio>,
}

impl Whole {
    /// The corners on the springs that will be fitted, else on the old ones.
    pub fn corners_fitted(&self) -> Option<(State, &CornersStand)> {
        let on = |state: State| self.corners.of(state).as_ref().map(|corners| (state, corners));
        on(State::NewSprings).or_else(|| on(State::OldSprings))
    }

    /// The same with what carries its own ± as it is in another one.
    #[must_use]
    pub(in crate::solve) fn with_own_spread_of(self, other: &Whole) -> Whole {
        Whole {
            hump: other.hump,
            ratio_limits: other.ratio_limits,
            looked_at: other.looked_at,
            scatter: other.scatter,
            reading_u: other.reading_u,
            ledger: other.ledger,
            ..self
        }
    }
}

/// Where the centre of gravity is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Centre {
    /// Behind the front axle.
    pub behind_front: Length,
    /// From the centreline, + right; `None` from axle weights alone.
    pub right: Option<Length>,
    /// Above the ground, m, with its ±: typed, or from the weighing with one axle raised.
    pub height: Option<Measured>,
}

/// Pitch and bounce in one state.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pitch {
    /// Front axle to the sprung centre of gravity.
    pub a: Length,
    /// Sprung centre of gravity to the rear axle.
    pub b: Length,
    /// Radius of gyration in pitch.
    pub radius: Length,
    /// κ² = a·b was taken, since none was measured.
    pub assumed: bool,
    /// The slower mode, then the quicker one.
    pub modes: [Mode; 2],
    /// Each end swinging on its own, for the picture after one hump.
    pub ends: Option<PerAxle<Swing>>,
}

/// What firm braking does to the front.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Dive {
    /// Share of it that the front suspension holds up.
    pub anti_dive: Ratio,
    /// Wheel travel at the front.
    pub front: Length,
    /// Bump room then left to the stop.
    pub room_left: Option<Length>,
}

/// Roll in one state.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Roll {
    /// Springs.
    pub springs: PerAxle<TwistRate>,
    /// Anti-roll bars.
    pub bars: PerAxle<TwistRate>,
    /// Tyres.
    pub tyres: PerAxle<TwistRate>,
    /// Body to ground: springs and bar in series with the tyres.
    pub to_ground: PerAxle<TwistRate>,
    /// What leans over the roll axis.
    pub body: Option<Body>,
    /// Front share of the roll stiffness to the ground.
    pub front_share_on_tyres: Option<Ratio>,
    /// Front share of the roll stiffness.
    pub front_share: Option<Ratio>,
    /// Roll gradient on the suspension alone, rad per m/s².
    pub gradient_rad_s2_per_m: Option<f64>,
    /// The same with the tyres.
    pub on_tyres_rad_s2_per_m: Option<f64>,
    /// Damping ratio in roll with the old dampers; `None` without the radius of gyration in roll.
    pub old_damping: Option<Ratio>,
    /// The same with the dampers aimed at, on the springs that will be fitted.
    pub new_damping: Option<Ratio>,
    /// What the outer wheel of each axle gains in the bend considered.
    pub transfer: Option<PerAxle<Force>>,
    /// The same with the tyres.
    pub transfer_on_tyres: Option<PerAxle<Force>>,
    /// Weight on each axle.
    pub weighs: Option<PerAxle<Mass>>,
    /// The bars themselves.
    pub fitted: PerAxle<Option<AntiRollBar>>,
    /// Tracks.
    pub tracks: PerAxle<Length>,
    /// The lean at which the stress of the bars is calculated.
    pub lean: Option<Angle>,
}

impl Roll {
    /// Front share of the lateral load transfer, on the suspension alone.
    pub fn front_transfer(&self) -> Option<f64> {
        self.transfer.map(front_of)
    }

    /// The same with the tyres.
    pub fn front_transfer_on_tyres(&self) -> Option<f64> {
        self.transfer_on_tyres.map(front_of)
    }

    /// Front share of the weight.
    pub fn front_weight(&self) -> Option<f64> {
        self.weighs.map(front_of)
    }

    /// Shear stress of the bar of one axle at the lean considered.
    pub fn bar_stress(&self, axle: Side) -> Option<Stress> {
        Some(self.fitted[axle]?.stress(self.tracks[axle], self.lean?))
    }

    /// What the bar of one axle adds at one wheel while the other is held.
    pub fn bar_at_one_wheel(&self, axle: Side) -> Option<SpringRate> {
        Some(SpringRate::from_si(self.fitted[axle]?.one_wheel_n_per_m()))
    }

    /// Springs and bar of one axle together.
    pub fn stiffness(&self, axle: Side) -> TwistRate {
        roll::together(&[self.springs[axle], self.bars[axle]])
    }
}

/// The roll that is wanted, tyres included, and the bars that give it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WantedBars {
    /// Roll at 1 g.
    pub gradient: Range<Angle>,
    /// Front share of the lateral load transfer; `None` when none is wanted and none known from before.
    pub front: Option<Range<Ratio>>,
    /// `None` without the sizes of a bar.
    pub axles: PerAxle<Option<WantedBar>>,
}

/// A bar that gives what is wanted, or why none does.
pub type BarFor = Result<BarFound, NoBar>;

/// A bar that gives what is wanted.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BarFound {
    /// The roll stiffness that it must add.
    pub stiffness: TwistRate,
    /// Its diameter.
    pub diameter: Length,
}

/// The bars of one axle that give the roll that is wanted.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WantedBar {
    /// What of it stays; the diameter does not count.
    pub sizes: AntiRollBar,
    /// Track of the axle.
    pub track: Length,
    /// Alone, the other axle's bar as planned: for the most roll wanted.
    pub thinnest: BarFor,
    /// The same for the least roll wanted.
    pub thickest: BarFor,
    /// The size on offer next to the middle of both.
    pub stock: Option<Length>,
    /// With the other axle's bar, for the middle of the front shares wanted; `None` unless both have their sizes.
    pub both: Option<BarFor>,
}

impl WantedBar {
    /// Every bar that was looked for.
    pub fn every(&self) -> impl Iterator<Item = BarFor> + use<> {
        [Some(self.thinnest), Some(self.thickest), self.both].into_iter().flatten()
    }
}

/// Front over front and rear.
fn front_of<Q: Quantity>(PerAxle { front, rear }: PerAxle<Q>) -> f64 {
    front.si() / (front.si() + rear.si())
}

/// A roll gradient as degrees per g.
pub fn degrees_per_g(gradient_rad_s2_per_m: f64) -> f64 {
    roll::degrees_per_g(gradient_rad_s2_per_m)
}

/// What the ledger says of LF, RF, LR, RR, and how far right of the centreline what it misses would sit.
///
/// The ± is that of masses, places and readings; how roll is shared between the axles counts as known.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CornerLedger {
    /// Corner by corner.
    pub told: Told<4>,
    /// Right less left of the front and the rear axle: what the parts explain, and what remains beyond it for pads, a
    /// preloaded spring or bar.
    pub sides: Told<2>,
    /// + right; where [`super::super::Ledger::missing`] would sit.
    pub missing_right: Option<Length>,
}

/// Equilibrium of the vehicle on its four corners.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CornersStand {
    /// What each scale shows.
    pub weight: Corners<Mass>,
    /// Wheel travel from the reference height, + in bump.
    pub travel: Corners<Length>,
    /// Hub centre to arch; `None` where no weighing measured it.
    pub arch: Corners<Option<Length>>,
    /// Change from before, hub to arch, + up; in a load case from as weighed on the same springs.
    pub rise: Option<Corners<Length>>,
    /// The same at the ground: tyre deflection added.
    pub rise_at_ground: Option<Corners<Length>>,
    /// How far the body leans over a level floor, tyres included, + right side down.
    pub lean: Angle,
    /// How much lower the right side is, at the mean track.
    pub right_lower: Length,
    /// (Right front + left rear) over total.
    pub cross_weight: Ratio,
    /// A wheel is off the ground.
    pub lifts: bool,
    /// What was weighed less what the springs as placed by the other weighing carry; `None` where it places them.
    pub residual: Option<Corners<Mass>>,
    /// Ride frequency of each corner by itself, tyres left out; `None` in a load case.
    pub frequency: Option<Corners<Frequency>>,
}

/// Where the two corners of an axle are, and the whole body with them.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SidesStand {
    /// Wheel travel from the reference height, m.
    pub travel_m: LeftRight<f64>,
    /// The same where the springs are: on a beam they see less of what the wheels differ by.
    pub at_springs_m: LeftRight<f64>,
    /// The mass that swings on each, kg.
    pub sprung_kg: LeftRight<f64>,
    /// How much lower the right side of the body is, at the mean track, m.
    pub right_lower_m: f64,
    /// (Right front + left rear) over total.
    pub cross_weight: f64,
}

/// What brings the body level: seats of both axles raised on one side and lowered on the other.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Levelling {
    /// Between the seats of left and right then, along the spring, front and rear: + the right one higher.
    pub at_seat: PerAxle<Length>,
    /// Cross weight then.
    pub cross_weight: Ratio,
}

/// What brings the cross weight to what is wanted, on the springs that will be fitted, the links of the bars free.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cross {
    /// Turns of the collars, or shims of 1 mm, the same at all four corners: + raises the body at RF and LR.
    pub turns: f64,
    /// Turns of the collars are counted; else the thickness of shims.
    pub by_turns: PerAxle<bool>,
    /// How far the seats move, front and rear; + up at RF and LR.
    pub at_seat: PerAxle<Length>,
    /// What the scales should then show.
    pub corners: Corners<Mass>,
    /// How much lower the right side then is, at the mean track.
    pub right_lower: Length,
}
