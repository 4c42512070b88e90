//! Findings about how the springs as fitted stand: heights, stops, the ends of the travel.

use crate::base::message::Message;
use crate::base::units::{Amount, Force, Length, Quantity};
use crate::job::{Level, SpringKind};
use crate::message;
use crate::solve::answer::{AxleAnswer, Standing, State};
use crate::solve::findings::Say;
use crate::solve::findings::edge::{above, below};

/// Half a sixteenth of an inch is no difference a tape shows.
pub(super) const TAPE_M: f64 = 0.000_8;
/// From this share of the wheel rate on, the geometry term must be believed before the answer is.
const GEOMETRY_SHARE: f64 = 0.3;

impl Say<'_> {
    /// No height that carries the weight, or one that hangs on the curvature of the rows.
    pub(in crate::solve::findings) fn heights(&mut self, axle: &AxleAnswer) {
        let side = axle.side;
        let field = match axle.kind {
            SpringKind::TorsionBar => format!("{}.{}", side.key(), self.rate_field(axle)),
            _ => format!("{}.{}", side.key(), self.job().axle(side).ratio.by.first_field("ratio")),
        };
        if axle.old_spring.rate.is_some()
            && axle.motion_ratio.is_some()
            && axle.masses.sprung.after.is_some()
            && axle.standing.old.is_none()
        {
            let who = side.word();
            if axle.standing.before.is_some() {
                let text = message!(
                    "{who}: the old springs cannot carry the new weight at any height within the travel; the body sinks onto the bump stops.",
                    who
                );
                self.push(Level::Doubt, "sinks-through", field, text);
            } else {
                let text = message!(
                    "{who}: the old springs cannot carry this weight at any ride height. The rate, the motion ratio or its change with travel cannot be right; measure them again.",
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
            self.push(Level::Doubt, "geometry-large", field, message!(
                "{side}: {share:.0} % of the wheel rate comes from the motion ratio changing with travel. A tape error of one millimetre can cause this: measure more rows over a longer travel.",
                side = side.word(), share = share * 100.0
            ));
        }
    }

    /// Where it is on a stop, or on a loose spring, and what is not known of its ends.
    pub(in crate::solve::findings) fn stops(&mut self, axle: &AxleAnswer) {
        let field = format!("{}.travel.stop_gap", axle.side.key());
        for state in State::ALL {
            if state == State::NewSprings && !axle.is_refitted() {
                continue;
            }
            let Some(s) = axle.standing.of(state) else { continue };
            let u = self.u_axle(axle.side, |a| a.standing.of(state).as_ref()?.stop_room.map(Quantity::si));
            // What will be fitted must be clear of the stop; where the old springs stood is not told within its ±.
            if s.on_stop && state != State::NewSprings && s.stop_room.is_some_and(|r| !below(r.si(), 0.0, u)) {
                continue;
            }
            let was_so = state == State::OldSprings && axle.standing.before.as_ref().is_some_and(|b| b.on_stop);
            self.touches_stop(axle, s, (state, was_so), &field);
            self.is_loose(axle, s, state, &field);
        }
        self.beyond_travel(axle);
        self.binds_first(axle);
        if axle.travel.stop.is_none() && axle.standing.old.is_some() {
            self.push(Level::Note, "no-gap", field, message!(
                "{side}: the gap to the bump stop is not known, so the reserve is not known either. Measure the gap as wheel travel.",
                side = axle.side.word()
            ));
        }
        self.stop_behind_metal(axle);
    }

    /// It rests on its bump stop in a state.
    fn touches_stop(&mut self, axle: &AxleAnswer, s: &Standing, (state, was_so): (State, bool), field: &str) {
        if !s.on_stop {
            return;
        }
        let past = s.stop_room.map(|room| Message::from(self.length(-room))).unwrap_or(Message::NOTHING);
        let (who, words) = (axle.side.word(), state.words());
        let carries = s.curve.stop.as_ref().filter(|stop| stop.carries());
        let text = match carries.map(|stop| Force::from_si(stop.force_n(s.travel.si()))) {
            Some(carried) => message!(
                "{who} {state}: the bump stop is compressed by {into} of wheel travel and carries {carried} of the load. The spring rate alone does not apply here; the frequency shown includes the bump stop.",
                who,
                into = past,
                carried = Amount::rounded(carried, self.units),
                state = words
            ),
            None => message!(
                "{side} {state}: on the spring alone, the wheel would be {past} past first contact with the bump stop. The bump stop already carries load, so the spring rate alone does not apply here.",
                past,
                side = who,
                state = words
            ),
        };
        self.on_stop(axle, (state, was_so), field.to_owned(), text);
    }

    /// Its spring carries nothing in a state.
    fn is_loose(&mut self, axle: &AxleAnswer, s: &Standing, state: State, field: &str) {
        if !s.loose {
            return;
        }
        let text = message!(
            "{side} {state}: the spring carries no load at ride height; something else carries the weight.",
            side = axle.side.word(),
            state = state.words()
        );
        let fields = ["target.raise", "parallel.rate", "bag.pressure", "taken.rate", "taken.free_length"];
        let is_bought = state == State::NewSprings;
        self.withhold_if(is_bought, ("loose", field.to_owned()), text, Self::of_axle(axle, &fields));
    }

    /// Metal would be met before the stop is touched.
    fn stop_behind_metal(&mut self, axle: &AxleAnswer) {
        if let (Some(stop), Some(metal)) = (axle.travel.stop, axle.travel.metal)
            && let travel = &self.job().axle(axle.side).travel
            && let u = [&travel.metal, &travel.stop_gap].map(|e| self.reading.typed_with_u(e).map_or(0.0, |m| m.u))
            && above(stop.si(), metal.si(), Some(u[0].hypot(u[1])))
        {
            let text = message!(
                "{side}: travel to metal contact ({metal}) is shorter than the gap to the bump stop ({stop}). The bump stop should be touched first; check both values.",
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
    fn on_stop(&mut self, axle: &AxleAnswer, (state, was_so): (State, bool), field: String, text: Message) {
        if was_so {
            return self.push_state(was_so, Level::Doubt, "on-stop", field, text);
        }
        let is_bought = state == State::NewSprings && !self.job().axle(axle.side).stop.by_design;
        let fields = ["travel.stop_gap", "target.raise", "taken.rate", "taken.free_length", "taken.spacer"];
        self.withhold_if(is_bought, ("on-stop", field), text, Self::of_axle(axle, &fields));
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
        let text = message!(
            "{who}: coil bind comes {by} of wheel travel before the bump stop is touched; the reserve is measured to coil bind. Choose a spring with a shorter solid length, or a longer bump stop.",
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
            if state == State::NewSprings && !axle.is_refitted() {
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
                let text = message!(
                    "{who} {state}: this height is {by} beyond full droop. The wheel reaches its droop limit first, so the height, frequency and reserve shown are not valid. Raise the vehicle less, or measure the droop travel again.",
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
                let text = message!(
                    "{who} {state}: this height is {by} beyond metal contact. The wheel cannot get there, so the height and frequency shown are not valid. Set the vehicle higher, or measure the travel to metal contact again.",
                    who,
                    state,
                    by = self.length(over)
                );
                self.push(level, "beyond-metal", field, text);
            } else if let Some(left) = droop_left.filter(|left| is_new && below(left.si(), LEAST_DROOP_M, u_droop)) {
                let text = message!(
                    "{who} {state}: only {left} of droop travel is left at this height; the suspension tops out on small humps. Raise the vehicle less, or allow more droop travel.",
                    who,
                    state,
                    left = self.length(left)
                );
                self.push(Level::Doubt, "little-droop", field, text);
            }
        }
    }
}
