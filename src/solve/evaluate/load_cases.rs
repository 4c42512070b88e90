//! Load cases: what each does to weights, heights, frequency, reserve and ratings.

use std::cell::LazyCell;

use crate::base::language::Word;
use crate::base::message::Message;
use crate::base::units::{Force, G_M_PER_S2, Length, Mass, Quantity, SpringRate, weight};
use crate::job::read::{Axle, LoadCase};
use crate::job::{BagFitted, PerAxle, Side};
use crate::message;
use crate::solve::answer::{
    AxleAnswer, ByAir, CaseAnswer, CaseStanding, Compared, Corners, OnSprings, PerState, Rated, RatedPart, State, Whole,
};
use crate::solve::evaluate::axle::{known, standing};
use crate::solve::evaluate::equal_load;
use crate::solve::evaluate::pitch_and_roll::{self, RestsOn};
use crate::solve::read::Reading;
use crate::trade::damper;
use crate::trade::ledger::{self, RollPath};
use crate::trade::pitch;
use crate::trade::ride;
use crate::trade::tyre;
use crate::trade::wheel::ForceTravel;

/// What a case puts on the axles.
#[derive(Clone)]
pub(in crate::solve) struct Carried {
    name: Message,
    index: Option<usize>,
    pub sized: bool,
    what_if: bool,
    /// What is aboard, but its place is not stated: it is on no axle, and in the total all the same.
    placeless: Mass,
    /// Without a load on the hitch.
    pub axles: PerAxle<Option<Mass>>,
    pub tongue: PerAxle<Force>,
}

impl Carried {
    /// What the scales would show under each axle.
    fn on_scales(&self) -> PerAxle<Option<Mass>> {
        PerAxle::each(|side| Some(self.axles[side]? + Mass::from_si(self.tongue[side].si() / G_M_PER_S2)))
    }
}

/// As weighed, then the cases of the job.
pub(in crate::solve) fn carried(reading: &Reading<'_>, compared: &Compared) -> Vec<Carried> {
    let sized = reading.sized_at();
    let name = match compared.origins.after {
        Some(crate::base::units::Origin::Ledger) => Word("as predicted"),
        _ => Word("as weighed"),
    };
    let as_weighed = Carried {
        name: name.into(),
        index: None,
        sized: sized.is_none(),
        what_if: false,
        placeless: Mass::from_si(0.0),
        axles: compared.stood.after,
        tongue: PerAxle::default(),
    };
    let cases = reading.job.cases.iter().enumerate().map(|(i, case)| {
        let (axles, tongue) = loaded(reading, compared, case);
        let name = match case.name.trim() {
            "" => message!("load case {number}", number = i + 1),
            name => name.into(),
        };
        Carried {
            name,
            index: Some(i),
            sized: sized == Some(i),
            what_if: case.what_if,
            placeless: placeless(reading, case),
            axles,
            tongue,
        }
    });
    std::iter::once(as_weighed).chain(cases).collect()
}

/// The mass of the loads whose place is not typed.
fn placeless(reading: &Reading<'_>, case: &LoadCase) -> Mass {
    let nowhere = case.loads.iter().filter(|l| reading.typed(&l.x).is_none());
    nowhere.filter_map(|l| reading.typed(&l.mass)).fold(Mass::from_si(0.0), |sum, m| sum + m)
}

/// What a load case puts on the axles: without a load on the hitch, and what that presses on them.
pub(in crate::solve) fn loaded(
    reading: &Reading<'_>,
    compared: &Compared,
    case: &LoadCase,
) -> (PerAxle<Option<Mass>>, PerAxle<Force>) {
    let loads = reading.loads_on_axles(&case.loads);
    let tongue = reading.tongue(case);
    let loaded = compared.bare.zip(loads).filter(|_| tongue.is_some());
    let axles = PerAxle::each(|side| loaded.map(|(bare, loads)| bare[side] + loads[side]));
    (axles, tongue.unwrap_or_default())
}

/// What a case carries off the centreline: its loads, and those that were aboard on the scales taken off again.
struct Beside(Vec<ledger::Part>);

impl Beside {
    fn of(reading: &Reading<'_>, case: Option<&LoadCase>) -> Self {
        let Some(case) = case else { return Beside(Vec::new()) };
        let off = |p: ledger::Part| ledger::Part { mass: -p.mass, ..p };
        let aboard = equal_load::parts_of(&reading.loads(&reading.job.after.loads));
        let mut parts = equal_load::parts_of(&reading.loads(&case.loads));
        parts.extend(aboard.into_iter().map(off));
        parts.retain(|p| p.y.si() != 0.0);
        Beside(parts)
    }

    /// What the right wheel of each axle gets more than half of its axle; `None` without what shares out the moment.
    fn to_the_right(&self, reading: &Reading<'_>, paths: Option<PerAxle<RollPath>>) -> Option<PerAxle<Mass>> {
        if self.0.is_empty() {
            return Some(PerAxle::default());
        }
        let wheelbase = reading.typed(&reading.job.vehicle.wheelbase)?;
        ledger::corner_change(&self.0, wheelbase, &paths?.both()).map(to_the_right)
    }
}

/// What both axles together say of a case.
#[derive(Clone, Copy)]
pub(in crate::solve) struct Together<'a> {
    pub on: RestsOn<'a>,
    /// The corners, on the springs as they will be fitted.
    pub whole: &'a Whole,
    pub fitted: State,
}

impl Together<'_> {
    /// The wheels in a case: as weighed, as read; else as the corners say.
    fn corners(&self, case: &Carried) -> Option<Corners<Mass>> {
        let read = self.on.after.corners;
        let stand = match case.index {
            Some(n) => self.whole.in_cases.get(n)?.of(self.fitted).as_ref(),
            None if read.is_some() => return read,
            None => self.whole.corners.of(self.fitted).as_ref(),
        };
        Some(stand?.weight)
    }
}

/// Every case: what it weighs and rates, and where both axles are in it. Tyres and wheels are rated by the heavier corner;
/// where the corners of a case are not known, by those that were read, if any, and what loads off the centreline bring as
/// the axles share roll.
pub(in crate::solve) fn evaluate(
    reading: &Reading<'_>,
    carried: &[Carried],
    standings: PerAxle<Vec<OnSprings>>,
    together: Together<'_>,
) -> Vec<CaseAnswer> {
    let vehicle = &reading.job.vehicle;
    let wheelbase: Option<Length> = reading.typed(&vehicle.wheelbase);
    let has_cases = !reading.job.cases.is_empty();
    let distance: Option<Length> = if has_cases { reading.known(&vehicle.lamp_distance) } else { None };
    let paths = LazyCell::new(|| pitch_and_roll::roll_paths(reading, together.on, together.fitted));
    let read = together.on.after.corners.map_or_else(PerAxle::default, to_the_right);
    let one = |((c, front), rear): ((&Carried, OnSprings), OnSprings)| {
        let both = |state: State| Some((front.of(state)?, rear.of(state)?));
        let nose_up = |state: State| {
            let (front, rear) = both(state)?;
            Some(pitch::nose_up(front.rise_at_ground?, rear.rise_at_ground?, wheelbase?))
        };
        let by_roll = || {
            let of_job = c.index.and_then(|n| reading.job.cases.get(n));
            let brought = Beside::of(reading, of_job).to_the_right(reading, *paths)?;
            Some(PerAxle::each(|side| read[side] + brought[side]))
        };
        let known = together.corners(c).map(to_the_right).or_else(by_roll);
        let right = known.unwrap_or(read);
        let on_scales = c.on_scales();
        // The heavier corner counts.
        let corner = |side: Side| Some(on_scales[side]? / 2.0 + right[side].abs());
        CaseAnswer {
            name: c.name.clone(),
            index: c.index,
            sized: c.sized,
            what_if: c.what_if,
            carries: (c.axles, c.tongue),
            on_scales,
            rear_over_front: PerState::each(|s| {
                both(s).map(|(f, r)| ride::rear_over_front(f.on.frequency(), r.on.frequency()))
            }),
            nose_up: PerState::each(nose_up),
            beam: PerState::each(|s| Some(pitch::beam_shift(distance?, nose_up(s)?))),
            standing: PerAxle { front, rear },
            rated: ratings(reading, on_scales, c.placeless, corner),
            side_unknown: known.is_none(),
        }
    };
    carried.iter().zip(standings.front).zip(standings.rear).map(one).collect()
}

/// How much more than half of its axle the right wheel carries, front and rear.
fn to_the_right(c: Corners<Mass>) -> PerAxle<Mass> {
    PerAxle { front: (c.rf - c.lf) / 2.0, rear: (c.rr - c.lr) / 2.0 }
}

fn ratings(
    reading: &Reading<'_>,
    axles: PerAxle<Option<Mass>>,
    placeless: Mass,
    corner: impl Fn(Side) -> Option<Mass>,
) -> Vec<Rated> {
    let mut rated = Vec::new();
    let mut put = |part: RatedPart, carries: Option<Mass>, allowed: Option<Mass>| {
        // Less than nothing stands on no scales: a finding says so.
        if let (Some(carries), Some(allowed)) = (carries.filter(|m| m.si() >= 0.0), allowed) {
            rated.push(Rated { part, carries, allowed, share: carries / allowed });
        }
    };
    for side in Side::BOTH {
        let axle = reading.job.axle(side);
        put(RatedPart::Axle(side), axles[side], reading.typed(&axle.rating));
        put(RatedPart::Tyre(side), corner(side), tyre(reading, axle));
        put(RatedPart::Wheel(side), corner(side), reading.typed(&axle.wheel_rating));
    }
    let total = axles.known().map(|axles| axles.front + axles.rear + placeless);
    put(RatedPart::Vehicle, total, reading.typed(&reading.job.vehicle.rating));
    rated
}

/// What one tyre may carry at its pressure.
fn tyre(reading: &Reading<'_>, axle: &Axle) -> Option<Mass> {
    let index = tyre::load_index(reading.typed(&axle.load_index)?)?;
    let pressure = if axle.tyre_pressure.is_blank() { None } else { Some(reading.typed(&axle.tyre_pressure)?) };
    let reference = reading.known(&axle.tyre_reference)?;
    tyre::capacity(index, pressure, reference)
}

/// What the cases stand on.
#[derive(Clone, Copy)]
pub(in crate::solve) struct Under<'a> {
    pub axles: PerAxle<&'a AxleAnswer>,
    pub compared: &'a Compared,
    pub carried: &'a [Carried],
}

/// Equilibrium of one axle in each case.
pub(in crate::solve) fn axle_stands(reading: &Reading<'_>, under: Under<'_>, side: Side) -> Vec<OnSprings> {
    let axle = under.axles[side];
    let as_weighed = under.compared.stood.after[side];
    let corners =
        [State::OldSprings, State::NewSprings].map(|s| as_weighed.and_then(|m| Corner::of(reading, axle, s, m)));
    let in_case = |case: &Carried| {
        let on =
            |corner: &Option<Corner<'_>>| corner.as_ref()?.stand(as_weighed?, case.axles[side]?, case.tongue[side]);
        OnSprings { old: on(&corners[0]), new: on(&corners[1]) }
    };
    under.carried.iter().map(in_case).collect()
}

/// One corner on the springs of one state.
struct Corner<'a> {
    reading: &'a Reading<'a>,
    axle: &'a AxleAnswer,
    state: State,
    curve: &'a ForceTravel,
    unsprung: Mass,
    tyre_rate: Option<SpringRate>,
    /// Where it is as weighed.
    from: Length,
}

impl<'a> Corner<'a> {
    fn of(reading: &'a Reading<'a>, axle: &'a AxleAnswer, state: State, as_weighed: Mass) -> Option<Self> {
        let data = reading.job.axle(axle.side);
        let curve = &axle.standing.of(state).as_ref()?.curve;
        let unsprung: Mass = reading.known(&data.unsprung)?;
        let from =
            curve.ride_height(weight(crate::trade::weights::sprung_per_corner(as_weighed, unsprung)?)).ok()?.travel;
        Some(Corner { reading, axle, state, curve, unsprung, tyre_rate: reading.known(&data.tyre_rate), from })
    }

    fn stand(&self, as_weighed: Mass, whole: Mass, tongue: Force) -> Option<CaseStanding> {
        let Corner { axle, curve, from, .. } = *self;
        let sprung = crate::trade::weights::sprung_per_corner(whole, self.unsprung)?;
        let load = weight(sprung) + tongue / 2.0;
        let on = standing::at_rest(curve, sprung, load, axle.travel.stop)?;
        let rise = from - on.travel;
        let squash = self.tyre_rate.map(|t| (weight(whole - as_weighed) + tongue) / 2.0 / t);
        let damper_ratio = curve.damper_length.ratio(on.travel);
        let new_damper = axle.parts.damper.as_ref().filter(|_| self.state == State::NewSprings);
        Some(CaseStanding {
            axle: whole,
            unsprung: self.unsprung,
            on,
            rise,
            squash,
            rise_at_ground: squash.map(|s| rise - s),
            old_damper_at_wheel: axle.old_damper.as_ref().map(|d| d.at_wheel(curve, on.travel)),
            new_damper_at_wheel: new_damper.map(|d| damper::wheel_from_damper(d.at_damper.aim, damper_ratio)),
            level: self.by_air(sprung, load).map(Box::new),
        })
    }

    /// The bag pumped until the height as weighed is back under this load.
    fn by_air(&self, sprung: Mass, load: Force) -> Option<ByAir> {
        let data = self.reading.job.axle(self.axle.side);
        let bag = known::bag(self.reading, data).filter(|_| data.bag.fitted == BagFitted::No)?;
        standing::levelled(self.curve, bag, self.from, (sprung, load), self.axle.travel.stop)
    }
}
