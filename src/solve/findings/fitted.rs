//! Findings about what will be fitted: heights, room, targets, dampers, rear against front.

use std::cmp::Ordering;

use super::Say;
use super::edge::{above, below, is_near, outside};
use crate::base::language::tr;
use crate::base::units::{Dim, Force, Frequency, Length, Quantity, Ratio, display};
use crate::job::{BagFitted, Goal, HeldBy, Level, Side, SpringKind};
use crate::say;
use crate::solve::answer::{Answer, AxleAnswer, Standing, State};
use crate::solve::evaluate::axle::known;

/// Half a sixteenth of an inch is no difference a tape shows.
const TAPE_M: f64 = 0.000_8;
/// From this share of the wheel rate on, the geometry term must be believed before the answer is.
const GEOMETRY_SHARE: f64 = 0.3;

impl Say<'_> {
    /// No height that carries the weight, or one that hangs on the curvature of the rows.
    pub(super) fn heights(&mut self, axle: &AxleAnswer) {
        let side = axle.side;
        let field = match axle.kind {
            SpringKind::TorsionBar => format!("{}.{}", side.key(), self.rate_field(axle)),
            _ => format!("{}.ratio.{}", side.key(), self.job().axle(side).ratio.by.first_field()),
        };
        if axle.old_spring.rate.is_some()
            && axle.motion_ratio.is_some()
            && axle.sprung_after.is_some()
            && axle.standing.old.is_none()
        {
            let who = side.word();
            if axle.standing.before.is_some() {
                let text = say!(
                    "{who}: on the old springs nothing within the travel carries the weight after; it goes down to its stops.",
                    who
                );
                self.push(Level::Doubt, "sinks-through", field, text);
            } else {
                let text = say!(
                    "{who}: on the old springs no ride height carries this weight. The rate, the motion ratio or its change with travel cannot be right; measure them again.",
                    who
                );
                self.push(Level::Error, "no-height", field, text);
            }
            return;
        }
        let share =
            |s: &Standing| s.spring_force.si() * s.curve.spring_length.slope(s.travel).value / s.wheel_rate.si();
        let u = self.u_axle(side, |a| a.standing.old.as_ref().map(share));
        if let Some(share) = axle.standing.old.as_ref().map(share)
            && above(share.abs(), GEOMETRY_SHARE, u)
        {
            self.push(Level::Doubt, "geometry-large", field, say!(
                "{side}: {share:.0} % of the wheel rate comes from the motion ratio changing with travel. A millimetre of tape error can do that: measure more rows over a longer travel.",
                side = side.word(), share = share * 100.0
            ));
        }
    }

    pub(super) fn stops(&mut self, axle: &AxleAnswer) {
        let field = format!("{}.travel.stop_gap", axle.side.key());
        for state in State::ALL {
            if state == State::NewSprings && axle.keeps() {
                continue;
            }
            let Some(s) = axle.standing.of(state) else { continue };
            let u = self.u_axle(axle.side, |a| a.standing.of(state).as_ref()?.stop_room.map(Quantity::si));
            // What will be fitted must be clear of the stop; where the old springs stood is not told within its ±.
            if s.on_stop && state != State::NewSprings && s.stop_room.is_some_and(|r| !below(r.si(), 0.0, u)) {
                continue;
            }
            let was_so = state == State::OldSprings && axle.standing.before.as_ref().is_some_and(|b| b.on_stop);
            let carried =
                s.curve.stop.as_ref().filter(|stop| stop.carries()).map(|p| Force::from_si(p.force_n(s.travel.si())));
            if let Some(carried) = carried.filter(|_| s.on_stop) {
                let into = s.stop_room.map(|room| self.length(-room)).unwrap_or_default();
                let carried = display::rounded(carried, self.units);
                let text = say!(
                    "{who} {state}: the wheel sits {into} into the bump stop, which carries {carried} of the load. Spring rate alone does not apply here; the frequency shown includes the stop.",
                    into,
                    carried,
                    who = axle.side.word(),
                    state = state.words()
                );
                self.on_stop(axle, (state, was_so), field.clone(), text);
            } else if s.on_stop {
                let past = s.stop_room.map(|room| self.length(-room)).unwrap_or_default();
                let text = say!(
                    "{side} {state}: the spring alone would sit {past} past the bump stop. The stop already carries, so spring rate alone does not apply here.",
                    past,
                    side = axle.side.word(),
                    state = state.words()
                );
                self.on_stop(axle, (state, was_so), field.clone(), text);
            }
            if s.loose {
                let text = say!(
                    "{side} {state}: the spring is loose at ride height; something else carries the weight.",
                    side = axle.side.word(),
                    state = state.words()
                );
                let is_bought = state == State::NewSprings;
                let fields = ["target.raise", "parallel.rate", "bag.pressure", "taken.rate", "taken.free_length"];
                self.withhold_if(is_bought, ("loose", field.clone()), text, Self::of_axle(axle, &fields));
            }
        }
        self.beyond_travel(axle);
        self.binds_first(axle);
        if axle.travel.stop.is_none() && axle.standing.old.is_some() {
            self.push(Level::Note, "no-gap", field, say!(
                "{side}: the gap to the bump stop is not known, so the reserve is not known either. Measure it as wheel travel.",
                side = axle.side.word()
            ));
        }
        if let (Some(stop), Some(metal)) = (axle.travel.stop, axle.travel.metal)
            && let travel = &self.job().axle(axle.side).travel
            && let u = [&travel.metal, &travel.stop_gap].map(|e| self.reading.typed_with_u(e).map_or(0.0, |m| m.u))
            && above(stop.si(), metal.si(), Some(u[0].hypot(u[1])))
        {
            let text = say!(
                "{side}: travel to metal ({metal}) is shorter than the gap to the bump stop ({stop}). The stop should be touched first; check both.",
                side = axle.side.word(),
                metal = self.length(metal),
                stop = self.length(stop)
            );
            let [gap, metal] = ["stop_gap", "metal"].map(|end| format!("{}.travel.{end}", axle.side.key()));
            let mend = self.swap(&gap, &metal);
            self.push_with(Level::Doubt, "stop-after-metal", metal, text, mend);
        }
    }

    /// On the stop at ride height: a new spring is not ordered so, unless it rides on it by design.
    fn on_stop(&mut self, axle: &AxleAnswer, (state, was_so): (State, bool), field: String, text: String) {
        if was_so {
            return self.push_state(was_so, Level::Doubt, "on-stop", field, text);
        }
        let is_bought = state == State::NewSprings && !self.job().axle(axle.side).stop.by_design;
        let fields = ["travel.stop_gap", "target.raise", "taken.rate", "taken.free_length", "taken.spacer"];
        self.withhold_if(is_bought, ("on-stop", field), text, Self::of_axle(axle, &fields));
    }

    /// The solid length of the new spring is its own, not that of the old one for want of a better.
    fn is_solid_length_its_own(&self, axle: &AxleAnswer) -> bool {
        let data = self.job().axle(axle.side);
        let typed = |entry| self.reading.typed::<Length>(entry).is_some();
        match axle.parts.taken {
            Some(_) => typed(&data.taken.solid_length) || typed(&data.stock.solid_length),
            None => typed(&data.stock.solid_length) || axle.offered.is_some_and(|coil| coil.solid_length.is_some()),
        }
    }

    /// What will be fitted has its coils together before the bump stop is touched.
    fn binds_first(&mut self, axle: &AxleAnswer) {
        let Some(new) = &axle.standing.new else { return };
        let (Some(gap), Some(contact)) = (axle.travel.stop, new.curve.first_contact_m().map(Length::from_si)) else {
            return;
        };
        if (gap - contact).si() <= TAPE_M {
            return;
        }
        let text = say!(
            "{who}: the coils touch each other {by} of wheel travel before the bump stop is touched; the reserve is counted to there. Choose a spring with a shorter solid length, or a longer bump stop.",
            who = axle.side.word(),
            by = self.length(gap - contact)
        );
        self.push(Level::Doubt, "bind-before-stop", format!("{}.stock.solid_length", axle.side.key()), text);
    }

    /// A height at which the wheel would be past one of its ends, and too little droop left.
    fn beyond_travel(&mut self, axle: &AxleAnswer) {
        // Less droop than this tops out on every hump; common practice, no source.
        const LEAST_DROOP_M: f64 = 0.02;
        let key = axle.side.key();
        for state in State::ALL {
            let Some(s) = axle.standing.of(state) else { continue };
            if state == State::NewSprings && axle.keeps() {
                continue;
            }
            let is_new = state == State::NewSprings;
            let (level, field) = match is_new {
                true => (Level::Error, format!("{key}.target.raise")),
                false => (Level::Doubt, format!("{key}.travel.droop")),
            };
            let (who, state) = (axle.side.word(), state.words());
            let droop_left = axle.travel.droop.map(|droop| droop + s.travel);
            let u_droop = self.u_axle(axle.side, |a| Some((a.travel.droop? + a.standing.new.as_ref()?.travel).si()));
            if let Some(over) = droop_left.filter(|left| left.si() < -TAPE_M) {
                let text = say!(
                    "{who} {state}: this height is {by} beyond full droop. The wheel hangs on its end before that, so height, frequency and reserve shown for it are not real. Raise it less, or measure the droop travel again.",
                    who,
                    state,
                    by = self.length(-over)
                );
                self.push(level, "beyond-droop", field, text);
            } else if let Some(over) = axle
                .travel
                .metal
                .map(|metal| s.travel - metal)
                .filter(|over| over.si() > TAPE_M && (is_new || !s.on_stop))
            {
                let field = if is_new { field } else { format!("{key}.travel.metal") };
                let text = say!(
                    "{who} {state}: this height is {by} beyond metal. The wheel cannot get there, so height and frequency shown for it are not real. Stand it higher, or measure the travel to metal again.",
                    who,
                    state,
                    by = self.length(over)
                );
                self.push(level, "beyond-metal", field, text);
            } else if let Some(left) = droop_left.filter(|left| is_new && below(left.si(), LEAST_DROOP_M, u_droop)) {
                let text = say!(
                    "{who} {state}: only {left} of droop are left at this height; the wheel tops out on small humps. Raise it less, or make room for more droop.",
                    who,
                    state,
                    left = self.length(left)
                );
                self.push(Level::Doubt, "little-droop", field, text);
            }
        }
    }

    pub(super) fn room(&mut self, axle: &AxleAnswer) {
        let key = axle.side.key();
        let who = format!(
            "{} {}",
            axle.side.word(),
            if axle.keeps() { tr("on the springs it keeps") } else { State::NewSprings.words() }
        );
        let room = &axle.room;
        let bind = self.limit(|j| &j.limits.bind_room);
        let seat = self.limit(|j| &j.limits.seat_room);
        let damper = self.limit(|j| &j.limits.damper_room);
        // Past its end a part knows no leniency; short of it a tape does, and what may be short of it is said.
        let u_bind = self.u_axle(axle.side, |a| a.room.to_bind.map(Quantity::si));
        let is_less = |left: Length, least: Length| {
            left.si() < 0.0 || left.si() < least.si() - TAPE_M || is_near(left.si(), least.si(), u_bind)
        };
        let (binds, loose) = (room.to_bind.zip(bind), room.seat.zip(seat));
        let ends = [room.damper_bump, room.damper_droop].map(|left| left.zip(damper));
        // A spring that leaves its seats does so; how little compression is left knows its ±.
        let u_seat = self.u_axle(axle.side, |a| a.room.seat.map(Quantity::si));
        let little = |left: Length, least: Length| left.si() < -TAPE_M || below(left.si(), least.si(), u_seat);
        let (binds, loose) = (binds.filter(|b| is_less(b.0, b.1)), loose.filter(|b| little(b.0, b.1)));
        if let Some((left, least)) = binds {
            let text = self.binds(&who, left, least, u_bind);
            let is_worthless = left.si() < 0.0 && !axle.keeps() && self.is_solid_length_its_own(axle);
            let fields = ["stock.solid_length", "taken.solid_length", "travel.metal", "spring.fitted_length"];
            let rests_on = Self::of_axle(axle, &fields);
            self.withhold_if(is_worthless, ("bind", format!("{key}.stock.solid_length")), text, rests_on);
        }
        if let Some((left, least)) = loose {
            let text = if left.si() < 0.0 {
                say!(
                    "{who}: loose by {left} at full droop; it can leave its seats. A helper spring, a longer softer spring or less droop keeps it in.",
                    who,
                    left = self.length(-left)
                )
            } else {
                say!(
                    "{who}: only {left} of compression is left at full droop; at least {least} is asked for.",
                    who,
                    left = self.length(left),
                    least = self.length(least)
                )
            };
            let held = self.job().axle(axle.side).held_by;
            let is_settled = left.si() < 0.0 && held != HeldBy::NotSaid;
            let text = match is_settled {
                true => say!("{text} Held by {held}, as this job says.", text, held = held.words()),
                false => text,
            };
            let level = if is_settled { Level::Note } else { Level::Doubt };
            self.push(level, "seat", format!("{key}.travel.droop"), text);
        }
        let damper = say!("{who}: the damper", who);
        for (end, rule, field, closes) in
            [(ends[0], "damper-closed", "closed_length", true), (ends[1], "damper-open", "open_length", false)]
        {
            let Some((left, least)) = end else { continue };
            let u = self
                .u_axle(axle.side, |a| if closes { a.room.damper_bump } else { a.room.damper_droop }.map(Quantity::si));
            let Some(text) = self.damper_end(&damper, closes, (left, least), u) else { continue };
            self.push(Level::Doubt, rule, format!("{key}.damper.{field}"), text);
        }
    }

    fn binds(&self, who: &str, left: Length, least: Length, u: Option<f64>) -> String {
        let is_past = left.si() < 0.0;
        let by = self.against(left, if is_past { Length::from_si(0.0) } else { least }, u);
        let is_held = left.si() >= least.si() - TAPE_M;
        let least = self.length(least);
        if is_past {
            say!(
                "{who}: the spring binds {by} before full bump; at least {least} is asked for. Choose a spring with a shorter solid length.",
                who,
                by,
                least
            )
        } else if is_held {
            say!(
                "{who}: {left} are left to coil bind at full bump; at least {least} is asked for, and that is inside the ±. Measure solid length and bump travel again.",
                who,
                left = by,
                least
            )
        } else {
            say!(
                "{who}: {left} are left to coil bind at full bump; at least {least} is asked for. Choose a spring with a shorter solid length.",
                who,
                left = by,
                least
            )
        }
    }

    pub(super) fn targets(&mut self, axle: &AxleAnswer) {
        let (side, data) = (axle.side, self.job().axle(axle.side));
        let target = &data.target;
        if target.goal == Goal::Range {
            let low: Option<Frequency> = self.reading.known(&target.low);
            let high: Option<Frequency> = self.reading.known(&target.high);
            self.in_order(side, "target.low", low, high);
        }
        let low: Option<Ratio> = self.reading.known(&target.damping_low);
        let high: Option<Ratio> = self.reading.known(&target.damping_high);
        self.in_order(side, "target.damping_low", low, high);
        if target.goal == Goal::AsBefore
            && axle.standing.before.is_none()
            && axle.sprung_after.is_some()
            && axle.motion_ratio.is_some()
        {
            self.push(Level::Error, "no-before-frequency", format!("{}.target.low", side.key()), say!(
                "{side}: \"as before\" is wanted, but the frequency before is not known. Give the before-weights and the old rate, or name a range.",
                side = side.word()
            ));
        }
        if axle.nothing_left {
            let text = say!(
                "{side}: with {others} alone the wanted wheel rate is already passed; nothing is left for a spring. Change that first, or want a higher frequency.",
                side = side.word(),
                others = self.what_else_carries(axle)
            );
            self.push(Level::Error, "nothing-left", format!("{}.target.high", side.key()), text);
        }
        if let Some(sizing) = axle.sizing.as_ref().filter(|s| s.spring_rate.low.si() <= 0.0 && !axle.keeps()) {
            let text = say!(
                "{side}: with {others} most of the wanted wheel rate is already there; {high} at most is left for the spring. Change that first, or want a higher frequency.",
                side = side.word(),
                others = self.what_else_carries(axle),
                high = display::rounded(sizing.spring_rate.high, self.units)
            );
            self.push(Level::Doubt, "others-carry", format!("{}.target.high", side.key()), text);
        } else if let (Some(sizing), Some(spring)) = (&axle.sizing, &axle.parts.spring)
            && !spring.pick_inside
            && !sizing.is_one_value()
            && !axle.keeps()
        {
            if let Some(bar) = &spring.bar {
                let text = say!(
                    "{side}: no bar diameter in whole steps lies between {low} and {high}; {pick} is the nearest. Have a bar made, or widen the range.",
                    side = side.word(),
                    low = display::full_si(bar.diameter.low.si(), Dim::Length, self.units),
                    high = display::full_si(bar.diameter.high.si(), Dim::Length, self.units),
                    pick = display::as_sold(bar.pick, self.units)
                );
                self.push(Level::Doubt, "no-stock-inside", format!("{}.stock.bar_step", side.key()), text);
                return;
            }
            if let Some(taken) = &axle.parts.taken {
                let band = &sizing.spring_rate;
                let end = if spring.pick > band.high { band.high } else { band.low };
                let off = (spring.pick - end).si().abs();
                let is_high = spring.pick > band.high;
                let u = self.u_axle(side, |a| {
                    let sizing = a.sizing.as_ref()?;
                    Some(if is_high { sizing.spring_rate.high } else { sizing.spring_rate.low }.si())
                });
                if !above(off, 0.0, u) {
                    return;
                }
                let text = say!(
                    "{side}: {taken} has {pick}, outside the {low} to {high} that the wanted range asks for. Take another, or widen the range.",
                    taken,
                    side = side.word(),
                    pick = display::rounded(spring.pick, self.units),
                    low = display::rounded(sizing.spring_rate.low, self.units),
                    high = display::rounded(sizing.spring_rate.high, self.units)
                );
                self.push(Level::Doubt, "taken-outside", format!("{}.taken.rate", side.key()), text);
                return;
            }
            self.push(Level::Doubt, "no-stock-inside", format!("{}.stock.step", side.key()), say!(
                "{side}: no stock rate lies between {low} and {high}; {pick} is the nearest. Widen the range, look for another step, or have a spring wound.",
                side = side.word(), low = display::rounded(sizing.spring_rate.low, self.units), high = display::rounded(sizing.spring_rate.high, self.units), pick = display::rounded(spring.pick, self.units)
            ));
        }
    }

    /// "the bump stop and the air bag": what adds to the wheel rate beside the spring at the wanted height, most first.
    fn what_else_carries(&self, axle: &AxleAnswer) -> String {
        // What adds less than this share of the most is not named.
        const COUNTS: f64 = 0.1;
        let others = |s: &Standing| -> Option<Vec<(f64, &'static str)>> {
            let from = axle.standing.before.as_ref().map_or(Length::from_si(0.0), |b| b.travel);
            let raise: Length = self.reading.known(&self.job().axle(axle.side).target.raise)?;
            let (curve, at, data) = (&s.curve, from - raise, self.job().axle(axle.side));
            let bag = known::bag(self.reading, data).filter(|_| data.bag.fitted != BagFitted::No);
            let ratio = curve.spring_length.ratio(at).si();
            let geometry = s.spring_force.si() * s.curve.spring_length.ratio(s.travel).si() / ratio
                * curve.spring_length.slope(at).value;
            Some(vec![
                (curve.stop_rate_n_per_m(at.si()), tr("the bump stop that is touched at that height")),
                (bag.map_or(0.0, |(bag, ratio)| bag.rate_n_per_m(0.0) * ratio.si().powi(2)), tr("the air bag")),
                (curve.parallel_rate_n_per_m, tr("the rubber")),
                (geometry, tr("the changing motion ratio")),
            ])
        };
        let standing = axle.standing.old.as_ref().or(axle.standing.before.as_ref());
        let mut others = standing.and_then(others).unwrap_or_default();
        others.sort_by(|a, b| b.0.total_cmp(&a.0));
        let most = others.first().map_or(0.0, |o| o.0);
        others.retain(|o| o.0 > COUNTS * most);
        match others.as_slice() {
            [] => tr("other parts than the spring").to_owned(),
            some => some.iter().map(|o| o.1).collect::<Vec<_>>().join(tr(" and ")),
        }
    }

    /// A wanted range, of frequency or damping ratio, whose ends are changed over.
    fn in_order<Q: Quantity + PartialOrd>(&mut self, side: Side, key: &str, low: Option<Q>, high: Option<Q>) {
        if let (Some(low), Some(high)) = (low, high)
            && low > high
        {
            let (low, high) = (display::rounded(low, self.units), display::rounded(high, self.units));
            let text = if Q::DIM == Dim::Frequency {
                say!(
                    "{side}: the lowest wanted frequency, {low}, is above the highest, {high}. Swap them.",
                    low,
                    high,
                    side = side.word()
                )
            } else {
                say!(
                    "{side}: the lowest wanted damping ratio, {low}, is above the highest, {high}. Swap them.",
                    low,
                    high,
                    side = side.word()
                )
            };
            let field = format!("{}.{key}", side.key());
            let mend = self.swap(&field, &field.replace("low", "high"));
            self.push_with(Level::Error, "range-reversed", field, text, mend);
        }
    }

    pub(super) fn rear_against_front(&mut self, answer: &Answer) {
        let low = self.limit(|j| &j.limits.rear_front_low);
        let high = self.limit(|j| &j.limits.rear_front_high);
        let (Some(ratio), Some(low), Some(high)) = (answer.rear_over_front.new, low, high) else { return };
        let allowed = [low.si(), high.si()];
        let Some(end) = outside(ratio.si(), allowed, self.u_vehicle(|v| v.rear_over_front.new.map(Quantity::si)))
        else {
            return;
        };
        let was_so = answer.rear_over_front.before.is_some_and(|r| outside(r.si(), allowed, None) == Some(end));
        let text = if end == Ordering::Less {
            say!(
                "As fitted, the rear bounces {ratio:.2} times as fast as the front; below {low:.2} a vehicle pitches. Look at the rear springs too.",
                ratio = ratio.si(),
                low = low.si()
            )
        } else {
            say!(
                "As fitted, the rear bounces {ratio:.2} times as fast as the front; above {high:.2} the rear is harsh against the front. Look at the rear springs too.",
                ratio = ratio.si(),
                high = high.si()
            )
        };
        self.push_state(was_so, Level::Doubt, "rear-front", "rear.target.low", text);
    }
}
