//! What only shows in the results: the questions a good engineer would ask.

use super::answer::{Answer, AxleAnswer, State};
use super::keeps;
use super::read::Reader;
use crate::job::{AxleKind, Finding, Job, Level, RatioBy, Side};
use crate::units::{Frequency, Length, Mass, Quantity, Ratio, UnitChoice, display};

/// Ratios of two routes that mean a mixed-up unit, with the words for it.
const UNIT_FACTORS: [(f64, &str); 4] = [
    (9.806_65, "kgf/mm and N/mm are 9.81 apart"),
    (5.710_147, "N/mm and lb/in are 5.71 apart"),
    (2.204_623, "kg and lb are 2.20 apart"),
    (25.4, "in and mm are 25.4 apart"),
];
/// How near a ratio must be to one of the factors.
const FACTOR_NEAR: f64 = 0.08;
/// Two routes to a spring rate may differ by this share.
const ROUTES_AGREE: f64 = 0.10;

/// Adds all of them.
pub(super) fn add(reader: &Reader<'_>, answer: &mut Answer) {
    let mut say = Say { reader, units: &reader.job.units, found: Vec::new() };
    say.weights(answer);
    for side in Side::BOTH {
        let axle = answer.axle(side);
        say.rating(axle);
        say.unsprung(axle, answer);
        say.motion_ratio(axle);
        say.routes(axle);
        say.frequencies(axle);
        say.stops(axle);
        say.room(axle);
        say.targets(axle);
        say.dampers(axle);
    }
    say.rear_against_front(answer);
    answer.findings.append(&mut say.found);
}

struct Say<'a> {
    reader: &'a Reader<'a>,
    units: &'a UnitChoice,
    found: Vec<Finding>,
}

impl<'a> Say<'a> {
    fn job(&self) -> &'a Job {
        self.reader.job
    }

    fn push(&mut self, level: Level, rule: &'static str, field: impl Into<String>, text: String) {
        self.found.push(Finding::new(level, rule, field, text));
    }

    fn limit<Q: Quantity>(&self, key: &str, pick: impl Fn(&Job) -> &crate::units::Entry<Q>) -> Option<Q> {
        self.reader.job(key, pick(self.job()))
    }

    fn length(&self, length: Length) -> String {
        display::rounded(length, self.units)
    }

    fn weights(&mut self, answer: &Answer) {
        let limit = self.limit("limits.left_right", |j| &j.limits.left_right);
        let cross_limit = self.limit("limits.cross", |j| &j.limits.cross);
        for (weighed, when) in [(&answer.before, "before"), (&answer.after, "after")] {
            for side in Side::BOTH {
                let field = format!("{when}.{}", if side == Side::Front { "lf" } else { "lr" });
                if let (Some(spread), Some(limit)) = (weighed.left_right[usize::from(side == Side::Rear)], limit)
                    && spread.si().abs() > limit.si()
                {
                    let heavier = if spread.si() > 0.0 { "left" } else { "right" };
                    self.push(Level::Doubt, "left-right", field.clone(), format!(
                        "{}, weighed {when}: the {heavier} is {:.1} % of the axle heavier; up to {:.1} % is usual. Check that the pads are level, the brake off, the anti-roll bar free, and that left and right are not swapped.",
                        side.word(), spread.si().abs() * 100.0, limit.si() * 100.0));
                }
                self.two_ways(weighed, when, side);
            }
            if let (Some(cross), Some(limit)) = (weighed.cross_weight, cross_limit)
                && (cross.si() - 0.5).abs() > limit.si()
            {
                self.push(Level::Doubt, "cross-weight", format!("{when}.lf"), format!(
                    "Weighed {when}: cross weight is {:.1} %; {:.0} to {:.0} % is usual. Check for a swapped reading, uneven pads or a preloaded bar before it is believed.",
                    cross.si() * 100.0, 50.0 - limit.si() * 100.0, 50.0 + limit.si() * 100.0));
            }
        }
        let (before, after) = (self.job().before.aboard.trim(), self.job().after.aboard.trim());
        if !before.is_empty() && !after.is_empty() && before != after {
            let text = format!(
                "Aboard before: \"{before}\"; after: \"{after}\". Weighings are compared as they stand: weigh again with equal fuel and people, or take the difference out of one of them."
            );
            self.push(Level::Doubt, "aboard", "after.lf", text);
        }
        if self.job().before.is_blank() && !self.job().after.is_blank() {
            self.push(Level::Note, "no-before", "before.lf",
                "No weights from before the swap: change of height and frequency are not known. Lengths and gaps are taken as measured now.".into());
        }
    }

    /// An axle typed both as corners and as a whole.
    fn two_ways(&mut self, weighed: &super::answer::Weighed, when: &str, side: Side) {
        let weighing = if when == "before" { &self.job().before } else { &self.job().after };
        let (key, entry) = match side {
            Side::Front => ("front", &weighing.front),
            Side::Rear => ("rear", &weighing.rear),
        };
        let typed: Option<Mass> = self.reader.typed(&format!("weighing.{key}"), entry);
        if let (Some(typed), Some(used)) = (typed, weighed.axle(side))
            && ((typed - used) / used).si().abs() > 0.01
        {
            let text = format!(
                "{} axle weighed {when}: the corners add up to {}, the axle reading is {}. The corners are used; clear the one that is wrong.",
                side.word(),
                display::rounded(used, self.units),
                display::rounded(typed, self.units)
            );
            self.push(Level::Doubt, "axle-twice", format!("{when}.{key}"), text);
        }
    }

    fn rating(&mut self, axle: &AxleAnswer) {
        let Some(share) = axle.rating_share else { return };
        let field = format!("{}.rating", axle.side.key());
        let amber = self.limit("limits.rating_amber", |j| &j.limits.rating_amber).map_or(1.0, Quantity::si);
        let percent = share.si() * 100.0;
        if axle.overloaded {
            self.push(Level::Stop, "over-rating", field, format!(
                "{} axle carries {percent:.1} % of its rating. No spring is recommended: a heavier spring raises no rating. Take weight off the axle, or have it re-rated by a licensed body.",
                axle.side.word()));
        } else if share.si() >= amber {
            self.push(
                Level::Doubt,
                "near-rating",
                field,
                format!(
                    "{} axle carries {percent:.1} % of its rating, without the people and load it may still take on.",
                    axle.side.word()
                ),
            );
        }
    }

    fn unsprung(&mut self, axle: &AxleAnswer, answer: &Answer) {
        let side = axle.side;
        let data = self.job().axle(side);
        let kind = data.kind;
        let unsprung: Option<Mass> = self.reader.axle(side, "unsprung", &data.unsprung);
        let limit = match kind {
            AxleKind::Independent => self.limit("limits.unsprung_independent", |j| &j.limits.unsprung_independent),
            AxleKind::Beam => self.limit("limits.unsprung_beam", |j| &j.limits.unsprung_beam),
        };
        let (Some(unsprung), Some(whole), Some(limit)) = (unsprung, answer.after.axle(side), limit) else { return };
        let reading = whole / 2.0;
        let share: Ratio = unsprung / reading;
        let field = format!("{}.unsprung", side.key());
        if share.si() >= 1.0 {
            let text = format!(
                "{}, unsprung mass, one corner: {} is not below the corner's reading of {}. It must be the wheel, hub, brake and half of the arms alone.",
                side.word(),
                display::rounded(unsprung, self.units),
                display::rounded(reading, self.units)
            );
            self.push(Level::Error, "unsprung-above-reading", field, text);
        } else if share > limit {
            let text = format!(
                "{}: the unsprung mass is {:.0} % of the corner's reading; up to {:.0} % is usual here. Check both.",
                side.word(),
                share.si() * 100.0,
                limit.si() * 100.0
            );
            self.push(Level::Doubt, "unsprung-share", field, text);
        }
    }

    fn motion_ratio(&mut self, axle: &AxleAnswer) {
        let data = self.job().axle(axle.side);
        for (part, name, ratio, found) in [
            ("ratio", "spring", &data.ratio, axle.motion_ratio),
            (
                "damper_ratio",
                "damper",
                &data.damper_ratio,
                axle.damper_motion_ratio.filter(|_| !super::read::ratio_is_blank(&data.damper_ratio)),
            ),
        ] {
            let field = format!(
                "{}.{part}.{}",
                axle.side.key(),
                match ratio.by {
                    RatioBy::Moved => "wheel_moved",
                    RatioBy::Rows => "rows[0].wheel",
                    RatioBy::Number => "number",
                }
            );
            let Some(r) = found.map(Quantity::si) else { continue };
            let who = format!("{}, {name} motion ratio", axle.side.word());
            let usual = |r: f64| (0.45..=1.02).contains(&r);
            if r > 1.02 && usual(1.0 / r) {
                self.push(Level::Doubt, "ratio-upside-down", field.clone(), format!(
                    "{who} {r:.3} is above 1: it looks upside down (wheel ÷ {name}). Here it is {name} travel ÷ wheel travel; turned over it is {:.3}.", 1.0 / r));
            } else if r < 0.45 && usual(r.sqrt()) {
                self.push(Level::Doubt, "ratio-squared", field.clone(), format!(
                    "{who} {r:.3} is low: it looks already squared. Its root is {:.3}; type the ratio of lengths, the program squares it.", r.sqrt()));
            } else if !usual(r) && ratio.by != RatioBy::Number {
                self.push(
                    Level::Doubt,
                    "ratio-unusual",
                    field.clone(),
                    format!("{who} is {r:.3}; 0.45 to 1.02 is usual. Check both lengths and their units."),
                );
            }
            if ratio.by == RatioBy::Number {
                self.confirmed(&who, name, part, axle.side, r);
            }
        }
    }

    fn confirmed(&mut self, who: &str, name: &str, part: &str, side: Side, r: f64) {
        let data = self.job().axle(side);
        let entry = if part == "ratio" { &data.ratio.confirm } else { &data.damper_ratio.confirm };
        let field = format!("{}.{part}.confirm", side.key());
        let confirm: Option<Ratio> = self.reader.typed(&format!("{part}.confirm"), entry);
        match confirm.map(Quantity::si) {
            None if entry.text.trim().is_empty() => self.push(Level::Doubt, "ratio-unconfirmed", field, format!(
                "{who} {r:.3} is a bare number. Confirm it: the wheel moves up 1.00, how far does the {name} move? Two measured lengths are better.")),
            Some(c) if (c / r - 1.0).abs() > 0.02 => {
                let cause = if (c * r - 1.0).abs() < 0.03 {
                    "One of them is upside down."
                } else if (c * c / r - 1.0).abs() < 0.05 {
                    "The ratio looks already squared."
                } else {
                    "Measure two lengths instead."
                };
                self.push(Level::Doubt, "ratio-contradicted", field, format!(
                    "{who} is typed as {r:.3}, but the {name} moves {c:.3} when the wheel moves 1.00. {cause}"));
            }
            _ => {}
        }
    }

    /// Old rate as typed against the rate that load and lengths ask for.
    fn routes(&mut self, axle: &AxleAnswer) {
        let data = self.job().axle(axle.side);
        let rate = self.reader.typed("spring.rate", &data.spring.rate);
        let free: Option<Length> = self.reader.typed("spring.free_length", &data.spring.free_length);
        let fitted: Option<Length> = self.reader.typed("spring.fitted_length", &data.spring.fitted_length);
        let (Some(rate), Some(free), Some(fitted), Some(r)) = (rate, free, fitted, axle.motion_ratio) else { return };
        let reference =
            axle.standing.before.as_ref().filter(|s| s.travel.si().abs() < 1e-9).or(axle.standing.old.as_ref());
        let Some(reference) = reference else { return };
        let compressed = free - fitted;
        let field = format!("{}.spring.rate", axle.side.key());
        if compressed.si() <= 0.0 {
            let text = format!(
                "{}, old spring: its free length is not above its length at ride height, so it would carry nothing. Check both lengths.",
                axle.side.word()
            );
            self.push(Level::Doubt, "lengths-contradict", format!("{}.spring.free_length", axle.side.key()), text);
            return;
        }
        let from_lengths = reference.spring_force / compressed;
        let off = (rate / from_lengths).si();
        if (off - 1.0).abs() <= ROUTES_AGREE {
            return;
        }
        let cause = self.routes_cause(off, r.si());
        let text = format!(
            "{}, old spring: {} typed, but weight, motion ratio and the two lengths ask for {}. {cause}",
            axle.side.word(),
            display::rounded(rate, self.units),
            display::rounded(from_lengths, self.units)
        );
        self.push(Level::Doubt, "routes-disagree", field, text);
    }

    fn routes_cause(&self, off: f64, r: f64) -> String {
        let near = |wanted: f64| (off / wanted - 1.0).abs() < FACTOR_NEAR;
        if let Some((_, words)) = UNIT_FACTORS.iter().find(|(f, _)| near(*f) || near(1.0 / f)) {
            return format!("The factor is {:.2}: {words}. Check the units.", if off < 1.0 { 1.0 / off } else { off });
        }
        if r > 1.02 && near(r * r) {
            return "The motion ratio looks upside down.".into();
        }
        if r < 0.6 && near(r.sqrt()) {
            return "The motion ratio looks already squared.".into();
        }
        "Measure lengths and ratio again; dead coils or a changed spring are other causes.".into()
    }

    fn frequencies(&mut self, axle: &AxleAnswer) {
        let low = self.limit("limits.frequency_low", |j| &j.limits.frequency_low);
        let high = self.limit("limits.frequency_high", |j| &j.limits.frequency_high);
        let (Some(low), Some(high)) = (low, high) else { return };
        let seen =
            [State::Before, State::OldSprings].into_iter().find_map(|s| Some((s, axle.standing.of(s).as_ref()?)));
        let Some((state, standing)) = seen else { return };
        let f = standing.frequency;
        if f >= low && f <= high {
            return;
        }
        let words = if state == State::Before { "before the swap" } else { "on the old springs" };
        self.push(
            Level::Doubt,
            "frequency",
            format!("{}.spring.rate", axle.side.key()),
            format!(
                "{} {words}: {} bounces per second is not credible; {} to {} is. {}",
                axle.side.word(),
                display::significant(f.si(), 3),
                display::significant(low.si(), 3),
                display::rounded(high, self.units),
                frequency_cause(f, axle.motion_ratio)
            ),
        );
    }

    fn stops(&mut self, axle: &AxleAnswer) {
        let field = format!("{}.travel.stop_gap", axle.side.key());
        for state in State::ALL {
            if state == State::NewSprings && keeps(axle) {
                continue;
            }
            let Some(s) = axle.standing.of(state) else { continue };
            if s.on_stop {
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

    fn room(&mut self, axle: &AxleAnswer) {
        let key = axle.side.key();
        let who = format!(
            "{} {}",
            axle.side.word(),
            if keeps(axle) { "on the springs it keeps" } else { State::NewSprings.words() }
        );
        let room = &axle.room;
        let bind = self.limit("limits.bind_room", |j| &j.limits.bind_room);
        let seat = self.limit("limits.seat_room", |j| &j.limits.seat_room);
        let damper = self.limit("limits.damper_room", |j| &j.limits.damper_room);
        if let (Some(left), Some(least)) = (room.to_bind, bind)
            && left < least
        {
            let text = format!(
                "{who}: {} are left to coil bind at full bump; at least {} is asked for. Choose a spring with a shorter solid length.",
                self.length(left),
                self.length(least)
            );
            self.push(Level::Doubt, "bind", format!("{key}.spring.solid_length"), text);
        }
        if let (Some(left), Some(least)) = (room.seat, seat)
            && left < least
        {
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
        for (left, rule, field, words) in [
            (
                room.damper_bump,
                "damper-closed",
                "closed_length",
                "closed before the wheel is at full bump: it becomes the bump stop",
            ),
            (
                room.damper_droop,
                "damper-open",
                "open_length",
                "open before the wheel is at full droop: it becomes the droop stop",
            ),
        ] {
            if let (Some(left), Some(least)) = (left, damper)
                && left < least
            {
                let text = if left.si() < 0.0 {
                    format!(
                        "{who}: the damper is fully {words}. It is {} too short in travel there.",
                        self.length(-left)
                    )
                } else {
                    format!(
                        "{who}: the damper has only {} left at that end; at least {} is asked for.",
                        self.length(left),
                        self.length(least)
                    )
                };
                self.push(Level::Doubt, rule, format!("{key}.damper.{field}"), text);
            }
        }
    }

    fn targets(&mut self, axle: &AxleAnswer) {
        let (side, data) = (axle.side, self.job().axle(axle.side));
        let target = &data.target;
        let low: Option<Frequency> = self.reader.axle(side, "target.low", &target.low);
        let high: Option<Frequency> = self.reader.axle(side, "target.high", &target.high);
        if low.zip(high).is_some_and(|(l, h)| l > h) {
            self.push(
                Level::Error,
                "range-reversed",
                format!("{}.target.low", side.key()),
                format!("{}: the lowest wanted frequency is above the highest. Swap them.", side.word()),
            );
        }
        let low: Option<Ratio> = self.reader.axle(side, "target.damping_low", &target.damping_low);
        let high: Option<Ratio> = self.reader.axle(side, "target.damping_high", &target.damping_high);
        if low.zip(high).is_some_and(|(l, h)| l > h) {
            self.push(
                Level::Error,
                "range-reversed",
                format!("{}.target.damping_low", side.key()),
                format!("{}: the lowest wanted damping ratio is above the highest. Swap them.", side.word()),
            );
        }
        if target.goal == crate::job::Goal::AsBefore
            && axle.standing.before.is_none()
            && axle.sprung_after.is_some()
            && axle.motion_ratio.is_some()
        {
            self.push(Level::Error, "no-before-frequency", format!("{}.target.low", side.key()), format!(
                "{}: \"as before\" is wanted, but the frequency before is not known. Give the before-weights and the old rate, or name a range.", side.word()));
        }
        if let Some(sizing) = &axle.sizing
            && !sizing.pick_inside
            && !keeps(axle)
        {
            self.push(Level::Doubt, "no-stock-inside", format!("{}.stock.step", side.key()), format!(
                "{}: no stock rate lies between {} and {}; {} is the nearest. Widen the range, look for another step, or have a spring wound.",
                side.word(), display::rounded(sizing.spring_rate.low, self.units), display::rounded(sizing.spring_rate.high, self.units),
                display::rounded(sizing.pick, self.units)));
        }
    }

    fn dampers(&mut self, axle: &AxleAnswer) {
        let Some(damping) = &axle.damping else { return };
        let Some(ratio) = axle.standing.new.as_ref().and_then(|s| s.old_damper_ratio) else { return };
        let field = format!("{}.damper.ratio_before", axle.side.key());
        let words = if keeps(axle) { "with the weight after" } else { "on the new spring" };
        if ratio < damping.ratio.low {
            self.push(Level::Doubt, "damper-soft", field, format!(
                "{}: the old damper gives a damping ratio of {:.2} {words}; {:.2} to {:.2} is wanted. The body will float: bounces die out slowly.",
                axle.side.word(), ratio.si(), damping.ratio.low.si(), damping.ratio.high.si()));
        } else if ratio > damping.ratio.high {
            self.push(Level::Doubt, "damper-stiff", field, format!(
                "{}: the old damper gives a damping ratio of {:.2} {words}; {:.2} to {:.2} is wanted. Small bumps will come through.",
                axle.side.word(), ratio.si(), damping.ratio.low.si(), damping.ratio.high.si()));
        }
    }

    fn rear_against_front(&mut self, answer: &Answer) {
        let low = self.limit("limits.rear_front_low", |j| &j.limits.rear_front_low);
        let high = self.limit("limits.rear_front_high", |j| &j.limits.rear_front_high);
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

/// The likeliest cause of a frequency that cannot be.
fn frequency_cause(f: Frequency, r: Option<Ratio>) -> String {
    let credible = |f: f64| (1.0..=2.2).contains(&f);
    let r = r.map_or(1.0, Quantity::si);
    if r > 1.02 && credible(f.si() / (r * r)) {
        return format!("A motion ratio of {r:.2} turned over ({:.2}) would give {:.2} Hz.", 1.0 / r, f.si() / (r * r));
    }
    if r < 0.45 && credible(f.si() / r.sqrt()) {
        return format!(
            "A motion ratio of {:.2} instead of {r:.2} (already squared?) would give {:.2} Hz.",
            r.sqrt(),
            f.si() / r.sqrt()
        );
    }
    for (factor, words) in UNIT_FACTORS {
        for by in [factor.sqrt(), 1.0 / factor.sqrt()] {
            if credible(f.si() * by) {
                return format!(
                    "A unit mix-up would explain it: {words}. Check the rate's unit, then the motion ratio."
                );
            }
        }
    }
    "Check the rate's unit and the motion ratio.".into()
}
