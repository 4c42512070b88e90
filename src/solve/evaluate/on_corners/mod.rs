//! All four corners at once: joins the rigid body on four curves to what was evaluated of each axle.
//!
//! Derived from one weigh-in with all four corners: that after, else that before. There each old spring is placed by
//! its own load; left and right heights as measured at the arches, else as a level floor has them. The mean height of
//! an axle is that of its curve. Whatever is not known leaves all of it not known.

mod heights;
mod seats;

use crate::base::units::{
    Angle, Force, Frequency, G_M_PER_S2, Length, Mass, Quantity, Ratio, SpringRate, TwistRate, weight,
};
use crate::job::read::{LoadCase, Weighing};
use crate::job::{AxleKind, BarLinks, LinksAgain, PerAxle, Side};
use crate::solve::answer::{BeforeAfter, Corners, CornersStand, PerState, SidesStand, State, Whole};
use crate::solve::evaluate::equal_load;
use crate::solve::evaluate::own_springs;
use crate::solve::evaluate::pitch_and_roll::{Bars, Vehicle};
use crate::trade::corners::{self, Across, AxlePair, Bases, Carried, Four, Sides, Stand, WeighIn, placing};
use crate::trade::ledger::{On, Part};
use crate::trade::ride;
use crate::trade::wheel::{Acting, ForceTravel};

/// What four corners stand on.
struct OnCorners<'a> {
    vehicle: &'a Vehicle<'a>,
    across: [Across; 2],
    /// Roll stiffness of the bars in each state, N·m for each rad, links connected.
    bars_nm_per_rad: PerState<[f64; 2]>,
    weigh_in: WeighIn,
    /// The weigh-in that places the springs.
    placed_by: State,
    /// Both axles' old springs are known; else some is placed as the new one, and says nothing of heights on the old ones.
    is_old_known: bool,
    old: PerAxle<Sides<ForceTravel>>,
    new: PerAxle<Option<Sides<ForceTravel>>>,
    /// What the scales showed, as on level pads.
    read: BeforeAfter<Option<Corners<Mass>>>,
    /// What stood on them.
    carried: BeforeAfter<Option<Carried>>,
}

impl Vehicle<'_> {
    /// Puts the corners of every state and of every load case into the answer.
    pub(super) fn fill_corners(&self, whole: &mut Whole) {
        let cases = &self.reading.job.cases;
        whole.in_cases = vec![PerState::default(); cases.len()];
        let Some(on) = OnCorners::of(self, &whole.level) else { return };
        let stands = PerState::each(|state| on.state(state));
        whole.corners = PerState::each(|state| on.told(state, &stands, &stands.before));
        for (case, told) in cases.iter().zip(&mut whole.in_cases) {
            let Some(carried) = on.loaded(Some(case)) else { continue };
            *told = PerState::each(|state| {
                let as_weighed = stands.of(state).filter(|_| state != State::Before);
                let stand = on.stand(state, &carried, BarLinks::On).filter(|_| as_weighed.is_some());
                on.one(state, stand, &stands, &as_weighed)
            });
        }
        whole.levelling = on.levelling(self.fitted);
        whole.cross = on.cross(self.fitted);
    }

    /// The weigh-in before or after.
    fn weighing(&self, state: State) -> &Weighing {
        match state {
            State::Before => &self.reading.job.before,
            State::OldSprings | State::NewSprings => &self.reading.job.after,
        }
    }

    /// The links of the bars while the vehicle is weighed in a state.
    fn links(&self, state: State) -> BarLinks {
        match (state, self.reading.job.fitted.bar_links) {
            (State::NewSprings, LinksAgain::On) => BarLinks::On,
            (State::NewSprings, LinksAgain::Off) => BarLinks::Off,
            _ => self.weighing(state).bar_links,
        }
    }
}

impl<'a> OnCorners<'a> {
    fn of(vehicle: &'a Vehicle<'a>, level: &BeforeAfter<Option<Corners<Mass>>>) -> Option<Self> {
        let read = BeforeAfter {
            before: level.before.or(vehicle.on.before.corners),
            after: level.after.or(vehicle.on.after.corners),
        };
        let placed_by = if read.after.is_some() { State::OldSprings } else { State::Before };
        let loads_n: Four<f64> = (*read.of(placed_by))?.walk().map(|m| weight(m).si());
        let unsprung = BeforeAfter { before: unsprung_n(vehicle, true), after: unsprung_n(vehicle, false) };
        let axles = vehicle.on.axles;
        let (across, bars_nm_per_rad) = (across(vehicle)?, PerState::each(|state| bars(vehicle, state)));
        let old_curve = |side: Side| {
            let standing = &axles[side].standing;
            Some(&standing.old.as_ref().or(standing.before.as_ref())?.curve)
        };
        let curve = |side: Side| old_curve(side).or(axles[side].standing.new.as_ref().map(|s| &s.curve));
        let is_old_known = Side::BOTH.into_iter().all(|side| old_curve(side).is_some());
        let curves = PerAxle::each(curve).known()?;
        let untwisted = Side::BOTH.map(|side| AxlePair {
            across: across[side as usize],
            curves: [curves[side]; 2],
            untwisted_m: 0.0,
        });
        let travel_m = heights::at_weigh_in(vehicle, placed_by, &untwisted, loads_n)?;
        let unsprung_there = (*unsprung.of(placed_by))?;
        let old = PerAxle::each(|side| {
            let carried = side.corners().map(|i| loads_n[i] - unsprung_there[i]);
            let travel_m = side.corners().map(|i| travel_m[i]);
            placing::placed([curves[side]; 2], &across[side as usize], carried, travel_m)
        });
        let old = old.known()?;
        let new = PerAxle::each(|side| own_springs::curves(vehicle.reading, axles[side], &old[side]));
        let weigh_in = WeighIn { loads_n, travel_m };
        let carried = BeforeAfter::default();
        let mut on =
            OnCorners { vehicle, across, bars_nm_per_rad, weigh_in, placed_by, is_old_known, old, new, read, carried };
        let places = corners::places(&on.across, vehicle.wheelbase.si());
        let stood = |read: Option<Corners<Mass>>, unsprung: Option<Four<f64>>| {
            Some(Carried::on_scales(read?.walk().map(|m| weight(m).si()), unsprung?, &places))
        };
        let before = stood(read.before, unsprung.before);
        let after = stood(read.after, unsprung.after).or_else(|| on.foretold(before?));
        on.carried = BeforeAfter { before, after };
        Some(on)
    }

    /// The vehicle on the springs of a state, bars as its weigh-in had them.
    fn set_up(&self, state: State, links: BarLinks) -> Option<corners::Vehicle<'_>> {
        let curves = match state {
            State::NewSprings => self.new.as_ref().map(Option::as_ref).known()?.both(),
            State::Before | State::OldSprings if self.is_old_known => self.old.as_ref().both(),
            State::Before | State::OldSprings => return None,
        };
        let axle = |i: usize| {
            let bar = if links == BarLinks::On { self.bars_nm_per_rad.of(state)[i] } else { 0.0 };
            let twist_nm_per_rad = self.across[i].twist_nm_per_rad + bar;
            AxlePair {
                across: Across { twist_nm_per_rad, ..self.across[i] },
                curves: [&curves[i][0], &curves[i][1]],
                untwisted_m: self.weigh_in.travel_m[2 * i] - self.weigh_in.travel_m[2 * i + 1],
            }
        };
        Some(corners::Vehicle {
            axles: [axle(0), axle(1)],
            wheelbase_m: self.vehicle.wheelbase.si(),
            weigh_in: self.weigh_in,
        })
    }

    fn stand(&self, state: State, carried: &Carried, links: BarLinks) -> Option<Stand> {
        self.set_up(state, links)?.stand(carried)
    }

    /// As it was, or will be, weighed.
    fn state(&self, state: State) -> Option<Stand> {
        self.stand(state, &self.weighed_again(state)?, self.vehicle.links(state))
    }

    /// What is on the scales. What was read there holds what the weight shifted to the side.
    fn weighed_again(&self, state: State) -> Option<Carried> {
        let carried = (*self.carried.of(state))?;
        let is_read = state == self.placed_by || state == State::Before;
        Some(if is_read { carried } else { self.aside(carried, carried.force_n) })
    }

    /// How much lower the right side of a body that leans is, at the mean track.
    fn right_lower(&self, lean_rad: f64) -> Length {
        Length::from_si(0.5 * (self.across[0].track_m + self.across[1].track_m) * lean_rad.sin())
    }

    /// The same, with what the weight shifts to the side as the body rolls, where its height is known.
    fn aside(&self, carried: Carried, swings_n: f64) -> Carried {
        let stands = self.vehicle.of(State::OldSprings);
        let body = stands.and_then(|stands| self.vehicle.body(State::OldSprings, stands));
        let height_m = body.map_or(0.0, |b| b.above_axis.si());
        Carried { over_axis_kg_m: swings_n / G_M_PER_S2 * height_m, ..carried }
    }

    /// What is on the wheels after by the ledger of parts, when nothing was weighed then.
    fn foretold(&self, before: Carried) -> Option<Carried> {
        let job = &self.vehicle.reading.job;
        (job.after.is_blank() && !job.parts.is_empty()).then_some(())?;
        let rows = equal_load::parts_of(&self.vehicle.reading.parts());
        Some(rows.iter().fold(before, |carried, part| self.with(carried, part, 1.0)))
    }

    /// A load case in place of what was aboard, or nothing; `None` without the hitch that its load hangs on.
    fn loaded(&self, case: Option<&LoadCase>) -> Option<Carried> {
        let reading = self.vehicle.reading;
        let mut carried = self.carried.after?;
        let put_in = case.map(|case| (&case.loads, 1.0));
        for (loads, sign) in [Some((&reading.job.after.loads, -1.0)), put_in].into_iter().flatten() {
            let rows = equal_load::parts_of(&reading.loads(loads));
            carried = rows.iter().fold(carried, |carried, part| self.with(carried, part, sign));
        }
        let swings_n = carried.force_n;
        let on_hitch: PerAxle<Force> = match case {
            Some(case) => reading.tongue(case)?,
            None => PerAxle::default(),
        };
        let tongue_n = (on_hitch.front + on_hitch.rear).si();
        let tail_down_nm = carried.tail_down_nm + on_hitch.rear.si() * self.vehicle.wheelbase.si();
        Some(self.aside(Carried { force_n: carried.force_n + tongue_n, tail_down_nm, ..carried }, swings_n))
    }

    /// With a part in (or out) on the body or on an axle.
    fn with(&self, carried: Carried, part: &Part, sign: f64) -> Carried {
        let part_n = sign * part.mass.si() * G_M_PER_S2;
        let axle = match part.on {
            On::Body => return carried.with(part_n, part.x.si(), part.y.si()),
            On::Axle(0) => 0,
            On::Axle(_) => 1,
        };
        let right = part.y.si() / self.across[axle].track_m;
        let mut unsprung_n = carried.unsprung_n;
        unsprung_n[2 * axle] += part_n * (0.5 - right);
        unsprung_n[2 * axle + 1] += part_n * (0.5 + right);
        Carried { unsprung_n, ..carried }
    }

    fn told(&self, state: State, stands: &PerState<Option<Stand>>, from: &Option<Stand>) -> Option<CornersStand> {
        let stand = *stands.of(state);
        let one = self.one(state, stand, stands, from)?;
        let is_foretold = state != self.placed_by && state != State::NewSprings;
        let residual = self.read.of(state).filter(|_| is_foretold);
        let less = |read: Corners<Mass>| Corners::each(|i| read.walk()[i] - one.weight.walk()[i]);
        let frequency = stand.as_ref().and_then(|stand| self.frequencies(state, stand));
        Some(CornersStand { residual: residual.map(less), frequency, ..one })
    }

    /// Ride frequency of each corner by itself, tyres left out: its wheel rate there under what it carries. `None` where a
    /// corner carries nothing.
    fn frequencies(&self, state: State, stand: &Stand) -> Option<Corners<Frequency>> {
        let set_up = self.set_up(state, BarLinks::Off)?;
        let unsprung_n = (*self.carried.of(state))?.unsprung_n;
        let rates = [0, 1].map(|i| set_up.axles[i].wheel_rates([stand.travel_m[2 * i], stand.travel_m[2 * i + 1]]));
        let rates = [rates[0][0], rates[0][1], rates[1][0], rates[1][1]];
        let sprung_kg: Four<f64> = std::array::from_fn(|i| (stand.loads_n[i] - unsprung_n[i]) / G_M_PER_S2);
        let stands = sprung_kg.iter().chain(&rates).all(|number| *number > 0.0);
        let one = |i: usize| ride::frequency(SpringRate::from_si(rates[i]), Mass::from_si(sprung_kg[i]));
        stands.then(|| Corners::each(one))
    }

    /// Where the corners stand, relative to another position.
    fn one(
        &self,
        state: State,
        stand: Option<Stand>,
        stands: &PerState<Option<Stand>>,
        from: &Option<Stand>,
    ) -> Option<CornersStand> {
        let stand = stand?;
        let body_down = stand.body_down_m(&self.weigh_in);
        let against = |of: fn(&Stand, &WeighIn) -> Four<f64>, now: Four<f64>| {
            let from = of(from.as_ref()?, &self.weigh_in);
            Some(Corners::each(|i| Length::from_si(from[i] - now[i])))
        };
        let lean = heights::lean_rad(&self.across, &self.weigh_in) + stand.roll_rad;
        Some(CornersStand {
            weight: Corners::each(|i| Mass::from_si(stand.loads_n[i] / G_M_PER_S2)),
            travel: Corners::each(|i| Length::from_si(stand.travel_m[i])),
            arch: Corners::each(|i| heights::arch(self.vehicle, state, stands, i, stand.travel_m[i])),
            rise: against(|s, _| s.travel_m, stand.travel_m),
            rise_at_ground: against(Stand::body_down_m, body_down),
            lean: Angle::from_si(lean),
            right_lower: self.right_lower(lean),
            cross_weight: Ratio::from_si(corners::cross_share(stand.loads_n)),
            lifts: stand.lifted.contains(&true),
            residual: None,
            frequency: None,
        })
    }
}

/// Where the corners are with other springs on one axle, under the load that springs are sized on, with the links of the
/// bars as they will be at the next weigh-in.
pub(in crate::solve) fn on_other_springs(
    vehicle: &Vehicle<'_>,
    level: &BeforeAfter<Option<Corners<Mass>>>,
    side: Side,
    curves: Sides<ForceTravel>,
) -> Option<SidesStand> {
    let mut on = OnCorners::of(vehicle, level)?;
    on.new[side] = Some(curves);
    let carried = on.loaded(vehicle.reading.sized_case())?;
    let stand = on.stand(State::NewSprings, &carried, vehicle.links(State::NewSprings))?;
    let at = side.corners();
    let travel_m = at.map(|i| stand.travel_m[i]);
    Some(SidesStand {
        travel_m: travel_m.into(),
        at_springs_m: on.across[side as usize].part_travel(Acting::Spring, travel_m).into(),
        sprung_kg: at.map(|i| (stand.loads_n[i] - carried.unsprung_n[i]) / G_M_PER_S2).into(),
        right_lower_m: on.right_lower(heights::lean_rad(&on.across, &on.weigh_in) + stand.roll_rad).si(),
        cross_weight: corners::cross_share(stand.loads_n),
    })
}

/// Weight of each wheel with its parts, N.
fn unsprung_n(vehicle: &Vehicle<'_>, before: bool) -> Option<Four<f64>> {
    let one = |side: Side| {
        let of = &vehicle.on.axles[side].masses.unsprung;
        Some(weight((if before { of.before } else { of.after })?).si())
    };
    let (front, rear) = (one(Side::Front)?, one(Side::Rear)?);
    Some([front, front, rear, rear])
}

/// What both axles are across; `None` without a track or, on a beam, the springs' base.
fn across(vehicle: &Vehicle<'_>) -> Option<[Across; 2]> {
    let reading = vehicle.reading;
    let one = |side: Side| {
        let data = reading.job.axle(side);
        let or = |entry, other: Length| reading.typed(entry).unwrap_or(other).si();
        let beam = match data.kind {
            AxleKind::Independent => None,
            AxleKind::Beam => {
                let springs: Length = reading.typed(&data.spring_base)?;
                Some(Bases {
                    spring_m: springs.si(),
                    bag_m: or(&data.bag.base, springs),
                    gas_m: or(&data.damper_base, springs),
                    stop_m: or(&data.stop.base, springs),
                })
            }
        };
        let twist = beam.and_then(|_| reading.typed(&data.twist)).unwrap_or(TwistRate::from_si(0.0));
        Some(Across {
            track_m: vehicle.track(side)?.si(),
            beam,
            twist_nm_per_rad: twist.si(),
            tyre_n_per_m: reading.known(&data.tyre_rate)?.si(),
            droop_m: reading.typed(&data.travel.droop).map(Length::si),
        })
    };
    Some([one(Side::Front)?, one(Side::Rear)?])
}

/// Roll stiffness of both bars in a state, N·m for each rad; none without its sizes.
fn bars(vehicle: &Vehicle<'_>, state: State) -> [f64; 2] {
    Side::BOTH.map(|side| {
        let bar = vehicle.bar(side, Bars::Of(state)).zip(vehicle.track(side));
        bar.map_or(0.0, |(bar, track)| bar.roll_stiffness(track).si())
    })
}
