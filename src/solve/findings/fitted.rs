//! Findings about what will be fitted: heights, room, targets, dampers, rear against front.

use super::Say;
use crate::job::{BagFitted, Goal, Level, Side, SpringKind};
use crate::solve::answer::{Answer, AxleAnswer, Standing, State};
use crate::solve::keeps;
use crate::units::{Dim, Force, Frequency, Length, Quantity, Ratio, display};

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
                let text = format!(
                    "{who}: on the old springs nothing within the travel carries the weight after; it goes down to its stops."
                );
                self.push(Level::Doubt, "sinks-through", field, text);
            } else {
                let text = format!(
                    "{who}: on the old springs no ride height carries this weight. The rate, the motion ratio or its change with travel cannot be right; measure them again."
                );
                self.push(Level::Error, "no-height", field, text);
            }
            return;
        }
        let share =
            |s: &Standing| s.spring_force.si() * s.curve.spring_length.slope(s.travel).value / s.wheel_rate.si();
        if let Some(share) = axle.standing.old.as_ref().map(share)
            && share.abs() > GEOMETRY_SHARE
        {
            self.push(Level::Doubt, "geometry-large", field, format!(
                "{}: {:.0} % of the wheel rate comes from the motion ratio changing with travel. A millimetre of tape error can do that: measure more rows over a longer travel.",
                side.word(), share * 100.0));
        }
    }

    pub(super) fn stops(&mut self, axle: &AxleAnswer) {
        let field = format!("{}.travel.stop_gap", axle.side.key());
        for state in State::ALL {
            if state == State::NewSprings && keeps(axle) {
                continue;
            }
            let Some(s) = axle.standing.of(state) else { continue };
            let carried =
                s.curve.stop.as_ref().filter(|stop| stop.carries()).map(|p| Force::from_si(p.force_n(s.travel.si())));
            if let Some(carried) = carried.filter(|_| s.on_stop) {
                let into = s.stop_room.map(|room| self.length(-room)).unwrap_or_default();
                let (who, words) = (axle.side.word(), state.words());
                let carried = display::rounded(carried, self.units);
                let text = format!(
                    "{who} {words}: the wheel sits {into} into the bump stop, which carries {carried} of the load. Spring rate alone does not apply here; the frequency shown includes the stop."
                );
                self.push(Level::Doubt, "on-stop", field.clone(), text);
            } else if s.on_stop {
                let past = s.stop_room.map(|room| self.length(-room)).unwrap_or_default();
                self.push(Level::Doubt, "on-stop", field.clone(), format!(
                    "{} {}: the spring alone would sit {past} past the bump stop. The stop already carries, so spring rate alone does not apply here.",
                    axle.side.word(), state.words()));
            }
            if s.loose {
                self.push(
                    Level::Doubt,
                    "loose",
                    field.clone(),
                    format!(
                        "{} {}: the spring is loose at ride height; something else carries the weight.",
                        axle.side.word(),
                        state.words()
                    ),
                );
            }
        }
        if axle.travel.stop.is_none() && axle.standing.old.is_some() {
            self.push(Level::Note, "no-gap", field, format!(
                "{}: the gap to the bump stop is not known, so the reserve is not known either. Measure it as wheel travel.", axle.side.word()));
        }
        if let (Some(stop), Some(metal)) = (axle.travel.stop, axle.travel.metal)
            && metal < stop
        {
            let text = format!(
                "{}: travel to metal ({}) is shorter than the gap to the bump stop ({}). The stop should be touched first; check both.",
                axle.side.word(),
                self.length(metal),
                self.length(stop)
            );
            self.push(Level::Doubt, "stop-after-metal", format!("{}.travel.metal", axle.side.key()), text);
        }
    }

    pub(super) fn room(&mut self, axle: &AxleAnswer) {
        let key = axle.side.key();
        let who = format!(
            "{} {}",
            axle.side.word(),
            if keeps(axle) { "on the springs it keeps" } else { State::NewSprings.words() }
        );
        let room = &axle.room;
        let bind = self.limit(|j| &j.limits.bind_room);
        let seat = self.limit(|j| &j.limits.seat_room);
        let damper = self.limit(|j| &j.limits.damper_room);
        // Half a sixteenth of an inch is no difference a tape shows.
        const SHOWN_M: f64 = 0.000_8;
        let below = |left: Length, least: Length| left.si() < least.si() - SHOWN_M;
        let (binds, loose) = (room.to_bind.zip(bind), room.seat.zip(seat));
        let ends = [room.damper_bump, room.damper_droop].map(|left| left.zip(damper));
        let (binds, loose) = (binds.filter(|b| below(b.0, b.1)), loose.filter(|b| below(b.0, b.1)));
        if let Some((left, least)) = binds {
            let found = if left.si() < 0.0 {
                format!("the spring binds {} before full bump", self.length(-left))
            } else {
                format!("{} are left to coil bind at full bump", self.length(left))
            };
            let least = self.length(least);
            let text =
                format!("{who}: {found}; at least {least} is asked for. Choose a spring with a shorter solid length.");
            self.push(Level::Doubt, "bind", format!("{key}.stock.solid_length"), text);
        }
        if let Some((left, least)) = loose {
            let text = if left.si() < 0.0 {
                format!(
                    "{who}: loose by {} at full droop; it can leave its seats. A helper spring, a longer softer spring or less droop keeps it in.",
                    self.length(-left)
                )
            } else {
                format!(
                    "{who}: only {} of compression is left at full droop; at least {} is asked for.",
                    self.length(left),
                    self.length(least)
                )
            };
            self.push(Level::Doubt, "seat", format!("{key}.travel.droop"), text);
        }
        for (end, rule, field, at, short) in [
            (ends[0], "damper-closed", "closed_length", "full bump", "closed"),
            (ends[1], "damper-open", "open_length", "full droop", "open"),
        ] {
            let Some((left, least)) = end else { continue };
            let Some(text) = self.damper_end(left, least, at, short) else { continue };
            let text = format!("{who}: the damper {text}");
            self.push(Level::Doubt, rule, format!("{key}.damper.{field}"), text);
        }
    }

    pub(super) fn targets(&mut self, axle: &AxleAnswer) {
        let (side, data) = (axle.side, self.job().axle(axle.side));
        let target = &data.target;
        if target.goal == Goal::Range {
            let low: Option<Frequency> = self.reader.known(&target.low);
            let high: Option<Frequency> = self.reader.known(&target.high);
            self.in_order(side, "target.low", "frequency", low, high);
        }
        let low: Option<Ratio> = self.reader.known(&target.damping_low);
        let high: Option<Ratio> = self.reader.known(&target.damping_high);
        self.in_order(side, "target.damping_low", "damping ratio", low, high);
        if target.goal == Goal::AsBefore
            && axle.standing.before.is_none()
            && axle.sprung_after.is_some()
            && axle.motion_ratio.is_some()
        {
            self.push(Level::Error, "no-before-frequency", format!("{}.target.low", side.key()), format!(
                "{}: \"as before\" is wanted, but the frequency before is not known. Give the before-weights and the old rate, or name a range.", side.word()));
        }
        if axle.nothing_left {
            let text = format!(
                "{}: with {} alone the wanted wheel rate is already passed; nothing is left for a spring. Change that first, or want a higher frequency.",
                side.word(),
                self.what_else_carries(axle)
            );
            self.push(Level::Error, "nothing-left", format!("{}.target.high", side.key()), text);
        }
        if let Some(sizing) = axle.sizing.as_ref().filter(|s| s.spring_rate.low.si() <= 0.0 && !keeps(axle)) {
            let text = format!(
                "{}: with {} most of the wanted wheel rate is already there; {} at most is left for the spring. Change that first, or want a higher frequency.",
                side.word(),
                self.what_else_carries(axle),
                display::rounded(sizing.spring_rate.high, self.units)
            );
            self.push(Level::Doubt, "others-carry", format!("{}.target.high", side.key()), text);
        } else if let Some(sizing) = &axle.sizing
            && !sizing.pick_inside
            && !sizing.is_one_value()
            && !keeps(axle)
        {
            if let Some(bar) = &sizing.bar {
                let text = format!(
                    "{}: no bar diameter in whole steps lies between {} and {}; {} is the nearest. Have a bar made, or widen the range.",
                    side.word(),
                    display::full_si(bar.diameter.low.si(), Dim::Length, self.units),
                    display::full_si(bar.diameter.high.si(), Dim::Length, self.units),
                    display::full_si(bar.pick.si(), Dim::Length, self.units)
                );
                self.push(Level::Doubt, "no-stock-inside", format!("{}.stock.bar_step", side.key()), text);
                return;
            }
            if let Some(taken) = &axle.taken {
                let text = format!(
                    "{}: {taken} has {}, outside the {} to {} that the wanted range asks for. Take another, or widen the range.",
                    side.word(),
                    display::rounded(sizing.pick, self.units),
                    display::rounded(sizing.spring_rate.low, self.units),
                    display::rounded(sizing.spring_rate.high, self.units)
                );
                self.push(Level::Doubt, "taken-outside", format!("{}.taken.rate", side.key()), text);
                return;
            }
            self.push(Level::Doubt, "no-stock-inside", format!("{}.stock.step", side.key()), format!(
                "{}: no stock rate lies between {} and {}; {} is the nearest. Widen the range, look for another step, or have a spring wound.",
                side.word(), display::rounded(sizing.spring_rate.low, self.units), display::rounded(sizing.spring_rate.high, self.units),
                display::rounded(sizing.pick, self.units)));
        }
    }

    /// "the bump stop, the air bag": what adds to the wheel rate beside the spring.
    fn what_else_carries(&self, axle: &AxleAnswer) -> String {
        let standing = axle.standing.old.as_ref().or(axle.standing.before.as_ref());
        let data = self.job().axle(axle.side);
        let mut words = Vec::new();
        if standing.is_some_and(|s| s.on_stop && s.curve.stop.as_ref().is_some_and(|p| p.carries())) {
            words.push("the bump stop that is touched at ride height");
        }
        if data.bag.fitted != BagFitted::No {
            words.push("the air bag");
        }
        if self.reader.known(&data.parallel.rate).is_some_and(|k| k.si() > 0.0) {
            words.push("the rubber");
        }
        if axle.ratio_slope.is_some_and(|s| s.value > 0.0) {
            words.push("the changing motion ratio");
        }
        if words.is_empty() {
            words.push("other parts than the spring");
        }
        words.join(" and ")
    }

    fn in_order<Q: Quantity + PartialOrd>(
        &mut self,
        side: Side,
        key: &str,
        what: &str,
        low: Option<Q>,
        high: Option<Q>,
    ) {
        if let (Some(low), Some(high)) = (low, high)
            && low > high
        {
            let (low, high) = (display::rounded(low, self.units), display::rounded(high, self.units));
            self.push(
                Level::Error,
                "range-reversed",
                format!("{}.{key}", side.key()),
                format!("{}: the lowest wanted {what}, {low}, is above the highest, {high}. Swap them.", side.word()),
            );
        }
    }

    pub(super) fn rear_against_front(&mut self, answer: &Answer) {
        let low = self.limit(|j| &j.limits.rear_front_low);
        let high = self.limit(|j| &j.limits.rear_front_high);
        let (Some(ratio), Some(low), Some(high)) = (answer.rear_over_front.new, low, high) else { return };
        let text = if ratio < low {
            format!(
                "As fitted, the rear bounces {:.2} times as fast as the front; below {:.2} a vehicle pitches. Look at the rear springs too.",
                ratio.si(),
                low.si()
            )
        } else if ratio > high {
            format!(
                "As fitted, the rear bounces {:.2} times as fast as the front; above {:.2} the rear is harsh against the front. Look at the rear springs too.",
                ratio.si(),
                high.si()
            )
        } else {
            return;
        };
        self.push(Level::Doubt, "rear-front", "rear.target.low", text);
    }
}
