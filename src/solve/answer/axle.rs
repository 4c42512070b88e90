//! The answer for one axle: its equilibrium in each state, its springs, its room.

use super::{
    AtRest, Band, BeforeAfter, BenchFacts, BounceMeasured, CoilFacts, Damping, FittedSprings, LinkageFacts, OldDamper,
    OldSpring, Parts, PerState, RouteKind, State,
};
use crate::base::units::{
    DampingRate, Energy, Force, Frequency, Length, Mass, Quantity, Ratio, RatioSlope, SpringRate, weight,
};
use crate::job::{Plan, Side, SpringKind};
use crate::trade::wheel::ForceTravel;

/// One corner of an axle (the mean of its sides) in one state.
#[derive(Debug, Clone, PartialEq)]
pub struct Standing {
    /// Sprung mass on the corner.
    pub sprung: Mass,
    /// What presses on it, its share of a load on the hitch included.
    pub load: Force,
    /// What the axle weighs, as compared, and the unsprung mass of the corner.
    pub of_axle: Option<(Mass, Mass)>,
    /// Wheel travel from the reference height.
    pub travel: Length,
    /// Wheel travel before the change; `None` without before-weights.
    pub travel_before: Option<Length>,
    /// Height change from before, hub to arch; `None` without before-weights.
    pub height_change: Option<Length>,
    /// How far the tyre is squeezed more than before.
    pub squash: Option<Length>,
    /// Height change from before, at the ground: tyre deflection added.
    pub height_change_at_ground: Option<Length>,
    /// Slope of force against travel at the wheel.
    pub wheel_rate: SpringRate,
    /// On springs: the headline.
    pub frequency: Frequency,
    /// Rate of one tyre.
    pub tyre_rate: Option<SpringRate>,
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
    /// Mean rate of the old damper at the wheel.
    pub old_damper_at_wheel: Option<DampingRate>,
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

impl Standing {
    /// Where the corner is, and what its figures are worked out from.
    pub fn at_rest(&self) -> AtRest {
        let Standing { sprung, load, travel, wheel_rate, on_stop, ref curve, .. } = *self;
        let stop_gap = curve.stop.as_ref().map(|stop| Length::from_si(stop.gap_m));
        AtRest { wheel_rate, sprung, load, at_contact: curve.force_at_contact(), travel, stop_gap, on_stop }
    }
}

/// The same-factor rule: sprung mass × q asks for rate × q and damper × q on the same free length.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SameFactor {
    /// Sprung mass per corner.
    pub sprung: BeforeAfter<Mass>,
    /// Sprung mass after ÷ before.
    pub factor: Ratio,
    /// Old spring rate.
    pub old_rate: Option<SpringRate>,
    /// Old spring rate × q; `None` when the old rate is not known.
    pub spring_rate: Option<SpringRate>,
    /// Exact: nothing but the spring carries.
    pub exact: bool,
}

/// What carries in addition to the spring at one height: rubber, gas, bag, stop; and how the spring is attached there.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BesideSpring {
    /// What they carry at the wheel.
    pub rest: Force,
    /// What they add to the wheel rate.
    pub rest_rate: SpringRate,
    /// What the change of the motion ratio adds to it.
    pub geometry_rate: SpringRate,
    /// The motion ratio.
    pub ratio: Ratio,
}

/// What an axle asks of its spring: the engineer's numbers, no part.
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
    /// What it is raised from: wheel travel before the change, or at the present height where that is not known.
    pub from: Length,
    /// How far it is raised.
    pub raise: Length,
    /// What presses on the corner.
    pub load: Force,
    /// What carries there in addition to the spring.
    pub at: BesideSpring,
    /// Force along the spring at the wanted height.
    pub spring_force: Force,
    /// Wheel rate for the frequency before.
    pub same_wheel_rate: Option<SpringRate>,
    /// Spring rate for it.
    pub same_frequency: Option<SpringRate>,
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
    /// The longest the spring itself may be when solid: length at metal less the room the shop wants and what else is there.
    pub longest_solid: Option<Length>,
    /// Room to coil bind that the shop wants.
    pub bind_room: Option<Length>,
    /// Length between the seats at ride height, of the axle's spring.
    pub seats_at_ride: Option<Length>,
    /// Length of the spring itself at ride height: of the axle's, where one side has its own.
    pub own_at_ride: Option<Length>,
    /// The same under its force at metal.
    pub own_at_metal: Option<Length>,
    /// What is between the seats in addition to it at ride height: a spacer that was decided, a helper coil.
    pub beside_at_ride: Option<Length>,
    /// The same at metal, on the thicker of both spacers.
    pub beside_solid: Option<Length>,
    /// Length of a damper at ride height.
    pub damper_at_ride: Option<Length>,
    /// The longest a damper may be when closed, with the room the shop wants.
    pub damper_closed_most: Option<Length>,
    /// The shortest a damper may be when open, with the room the shop wants.
    pub damper_open_least: Option<Length>,
    /// Spring length at metal less solid length.
    pub to_bind: Option<Length>,
    /// Free length less length at droop: negative when loose, by this amount.
    pub seat: Option<Length>,
    /// Length of a damper at metal.
    pub damper_at_metal: Option<Length>,
    /// Length of a damper at full droop.
    pub damper_at_droop: Option<Length>,
    /// Closed length of the damper.
    pub damper_closed: Option<Length>,
    /// Its open length.
    pub damper_open: Option<Length>,
    /// Damper length at metal less closed length.
    pub damper_bump: Option<Length>,
    /// Open length less damper length at droop.
    pub damper_droop: Option<Length>,
}

/// What an axle weighs before and after.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Masses {
    /// Axle weight as compared.
    pub weight: BeforeAfter<Option<Mass>>,
    /// Unsprung mass per corner.
    pub unsprung: BeforeAfter<Option<Mass>>,
    /// Sprung mass per corner as compared: at equal load.
    pub sprung: BeforeAfter<Option<Mass>>,
    /// Sprung mass per corner as the vehicle stood on the scales.
    pub stood: BeforeAfter<Option<Mass>>,
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
    /// What would say the old spring's rate without stating it: of each route the paths of fields still blank, the
    /// nearest to done first.
    pub instead: Vec<Vec<String>>,
    /// What it weighs.
    pub masses: Masses,
    /// Motion ratio of the spring at the reference height.
    pub motion_ratio: Option<Ratio>,
    /// How the motion ratio of the spring changes with travel there.
    pub ratio_slope: Option<RatioSlope>,
    /// Spring base and track, beam axle.
    pub spring_base: Option<(Length, Length)>,
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
    /// What weights alone say, without any motion ratio: `None` without those before.
    pub same_factor: Option<SameFactor>,
    /// The spring needed.
    pub sizing: Option<Sizing>,
    /// The old springs already give the wanted ride frequency and, within the shop's limit, the wanted height.
    pub old_will_do: Option<bool>,
    /// Rubber, gas, bag, stop and geometry alone make more than the wanted wheel rate.
    pub nothing_left: bool,
    /// The springs that will be fitted.
    pub fitted: Option<FittedSprings>,
    /// Room at the ends of travel.
    pub room: Room,
    /// The damper as it was fitted.
    pub old_damper: Option<OldDamper>,
    /// A damping ratio before the change is stated, and counts: there is no curve.
    pub ratio_before_stated: bool,
    /// The damper needed.
    pub damping: Option<Damping>,
    /// A coil on offer under the forces of the new spring.
    pub offered: Option<CoilFacts>,
    /// The old spring's free length as it follows from load and fitted length.
    pub old_free_length: Option<Length>,
    /// What the axle carries after, as compared and with what a load on the hitch presses on it; its rating.
    pub rated: Option<(Mass, Mass)>,
    /// New dampers go in with the new springs: the old ones are not known, or not inside the wanted range on them.
    pub new_dampers: bool,
    /// The old dampers are known, and not inside the wanted range on the springs as they will be fitted.
    pub dampers_off: bool,
    /// What would be bought: [`super::Answer::released`] is the one way to it.
    pub(in crate::solve) parts: Parts,
    /// A rating that concerns this axle is exceeded as weighed or in a load case.
    pub overloaded: bool,
    /// Room at the ends of the travel used by pictures: stop, metal, droop.
    pub travel: Travel,
    /// What its linkage says.
    pub linkage: LinkageFacts,
    /// What a suspension bench measures on it.
    pub bench: BenchFacts,
    /// Hub to arch before and after, on the old springs, as measured.
    pub arch: BeforeAfter<Option<Length>>,
    /// What recorded bounces showed before the change and after the work.
    pub bounce: BeforeAfter<BounceMeasured>,
}

impl AxleAnswer {
    /// Wheel travel on the springs of one state under what stood on the scales in another. Whatever they are sized on.
    pub fn on_scales(&self, springs: State, stood: State) -> Option<Length> {
        let load = weight((*self.masses.stood.of(stood))?);
        let springs = self.standing.of(springs);
        springs.as_ref()?.curve.ride_height(load).ok().map(|h| h.travel)
    }

    /// The damping ratio as the axle will be fitted: what is aimed at with new dampers, else that of the old ones.
    pub fn damping_as_fitted(&self) -> Option<Ratio> {
        match self.new_dampers {
            true => self.damping.as_ref().map(|d| d.ratio.aim),
            false => self.standing.new.as_ref()?.old_damper_ratio,
        }
    }

    /// On a suspension bench it reads below `good`, though its dampers are within the target range: a stiff tyre under a
    /// light axle.
    pub fn is_light_on_bench(&self, good: Ratio) -> bool {
        let low = self.damping.as_ref().map(|d| d.ratio.low);
        let is_sound = self.damping_as_fitted().zip(low).is_some_and(|(ratio, low)| ratio >= low);
        is_sound && self.bench.as_fitted().is_some_and(|on| on.cold.adhesion < good)
    }

    /// Sprung and unsprung mass of a corner in a state: what needs neither motion ratio nor spring.
    pub fn hung(&self, state: State) -> Option<[Mass; 2]> {
        Some([(*self.masses.sprung.of(state))?, (*self.masses.unsprung.of(state))?])
    }

    /// Motion ratio of the spring in roll, beam axle, where it moves less by its base over the track: r t_s / t. Source
    /// `DERIVED`; `MIL` ch. 16.
    pub fn roll_ratio(&self) -> Option<Ratio> {
        let (base, track) = self.spring_base?;
        Some(self.motion_ratio? * (base / track))
    }

    /// It keeps its springs.
    pub fn keeps(&self) -> bool {
        self.plan == Plan::Keep
    }

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
