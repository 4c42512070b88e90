//! Findings about pitch, braking, roll and the four corners.

use super::edge::{above, below};
use super::{Say, weighed_first, weighings};
use crate::base::language::Word;
use crate::base::message::Message;
use crate::base::units::{Amount, Angle, Length, Mass, Quantity, Ratio};
use crate::job::{AxleKind, Level, Side, fields};
use crate::message;
use crate::solve::answer::{Answer, State, Vehicle, degrees_per_g};
use crate::solve::evaluate::four_corners;
use crate::trade::weights::{self, Corners};

/// Repeated readings of a corner that scatter by more than this share of it are not settled.
const SCATTER: f64 = 0.01;
/// Left and right that differ by more than this share of the axle weight matter to springs. Common practice, no source.
const UNEVEN: f64 = 0.02;
/// A body that leans by more than this over its track is seen to, m.
const LEAN_M: f64 = 0.012;
/// From this lean on, what the weight shifted sideways adds to it is more than a tape shows, m.
const LEANS_M: f64 = 0.005;
/// A body that leans further than this in a bend is doubted, degrees per g. Common practice, no source.
const FAR_DEG_PER_G: f64 = 14.0;
/// Least rise of a weighing with one axle raised, as a share of the wheelbase. Common practice, no source.
const LIFT: f64 = 0.15;
/// The axle that stays down may differ by this share from the weigh-in. Common practice, no source.
const LIFT_AGREES: f64 = 0.03;

impl Say<'_> {
    pub(super) fn whole(&mut self, answer: &Answer) {
        self.braking(answer);
        self.corners_unsolved(answer);
        self.bends(answer);
        self.pads(answer);
        self.scatter(answer);
        self.lift(answer);
        self.sides(answer);
        self.leans_without_height(answer);
    }

    /// All four corners were weighed, unevenly, and both axles have an answer, but left and right are not known.
    fn corners_unsolved(&mut self, answer: &Answer) {
        let is_answered = answer.axles.iter().all(|axle| axle.missing.is_empty());
        let Some(field) = answer.corners_unsolved().first().filter(|_| is_answered) else { return };
        let is_uneven = |is_before: bool, side: Side| {
            let of = |v: &Vehicle| (if is_before { &v.before } else { &v.after }).left_right[side].map(Quantity::si);
            of(&answer.vehicle).is_some_and(|share| above(share.abs(), UNEVEN, self.u_vehicle(of)))
        };
        if !Side::BOTH.into_iter().any(|side| is_uneven(true, side) || is_uneven(false, side)) {
            return;
        }
        let missing = answer.corners_unsolved().iter().map(|path| fields::full_label(path));
        let text = message!(
            "All four corners were weighed, but the heights and loads of left and right are not known without: {missing}. Until then each axle is sized for half its load, and there is no target for a single corner.",
            missing = Message::row(missing, "; ")
        );
        self.push(Level::Doubt, "corners-not-solved", field.clone(), text);
    }

    /// The body is lower on one side.
    fn sides(&mut self, answer: &Answer) {
        let Some((state, corners)) = answer.whole.corners_fitted() else { return };
        let lower = corners.right_lower;
        let u = self.u_vehicle(|v| v.whole.corners.of(state).map(|c| c.right_lower.si()));
        if !above(lower.si().abs(), LEAN_M, u) {
            return;
        }
        let low = self.length(Length::from_si(lower.si().abs()));
        let text = if lower.si() > 0.0 {
            message!(
                "{state}, the body is about {low} lower on the right. Level it with different spacers or collars left and right; then weigh again.",
                state = state.words_first(),
                low
            )
        } else {
            message!(
                "{state}, the body is about {low} lower on the left. Level it with different spacers or collars left and right; then weigh again.",
                state = state.words_first(),
                low
            )
        };
        self.push(Level::Note, "sides", "after.lf", text);
    }

    /// The body leans further than as weighed, but without the height of its centre of gravity nothing is known of the
    /// weight that this shifts sideways.
    fn leans_without_height(&mut self, answer: &Answer) {
        if answer.whole.centre.is_some_and(|centre| centre.height.is_some()) {
            return;
        }
        let further = |v: &Vehicle| {
            let corners = &v.whole.corners;
            Some((corners.new?.right_lower - corners.old.or(corners.before)?.right_lower).si())
        };
        let leans = further(&answer.vehicle).map_or(0.0, f64::abs);
        if above(leans, LEANS_M, self.u_vehicle(further)) {
            self.push(Level::Note, "lean-without-height", "chassis.cg_height",
                message!("The body will lean differently, and the height of its centre of gravity is not known: the weight that shifts sideways is left out, so the change of lean is shown about a tenth too small. Enter the height, or weigh the vehicle with one axle raised."));
        }
    }

    /// Firm braking uses more than the bump room.
    fn braking(&mut self, answer: &Answer) {
        let whole = &answer.whole;
        let state = if whole.dive.new.is_some() { State::NewSprings } else { State::OldSprings };
        let (Some(dive), Some(braking)) = (whole.dive.of(state), whole.looked_at.braking) else { return };
        let u = self.u_vehicle(|v| Some((*v.whole.dive.of(state))?.room_left?.si()));
        let was_so = whole.dive.before.and_then(|d| d.room_left).is_some_and(|room| room.si() < 0.0);
        if let Some(room) = dive.room_left.filter(|r| below(r.si(), 0.0, u)) {
            let text = message!(
                "Braking at {braking:.1} g, {state}: the front dives by {dive}, {room} past first contact with the bump stop. The front then rests on the stop, with no reserve for a bump in the road.",
                braking = braking.si(),
                state = state.words(),
                dive = self.length(dive.front),
                room = self.length(Length::from_si(-room.si()))
            );
            self.push_state(was_so, Level::Note, "dive", "front.travel.stop_gap", text);
        }
    }

    fn bends(&mut self, answer: &Answer) {
        for side in Side::BOTH {
            let (data, key, who) = (self.job().axle(side), side.key(), side.word());
            let bar = &data.roll_bar;
            let typed = |e: &crate::job::read::Read<Length>| self.reading.typed::<Length>(e);
            let (diameter, new) = (typed(&bar.diameter), typed(&bar.new_diameter));
            let thick = if diameter.is_none() && new.is_some() { &bar.new_diameter } else { &bar.diameter };
            let sizes = [("diameter", thick), ("length", &bar.length), ("blade", &bar.blade)];
            let started = new.is_some() || sizes.iter().any(|(_, e)| typed(e).is_some());
            let missing = sizes.into_iter().find(|(_, e)| typed(e).is_none());
            if let (true, Some((field, _))) = (started, missing) {
                self.push(Level::Doubt, "roll-bar-incomplete", format!("{key}.roll_bar.{field}"), message!(
                    "{who}: the anti-roll bar counts only if its diameter, working length and arm length are known. It is left out until all three are entered.",
                    who
                ));
            }
            for diameter in [diameter, new].into_iter().flatten() {
                self.bore(side, diameter, typed(&bar.inside_diameter));
            }
            let job = self.job();
            let pads = [&job.before.pads, &job.after.pads].into_iter().any(|p| four_corners::uneven(self.reading, p));
            let height = answer.whole.centre.is_some_and(|c| c.height.is_some());
            let asked = started || pads || height || !job.parts.is_empty();
            let track = typed(&data.track).is_some();
            if asked && track && data.kind == AxleKind::Beam && typed(&data.spring_base).is_none() {
                self.push(Level::Note, "roll-needs-base", format!("{key}.spring_base"), message!(
                    "{who}: roll and corner weights of a beam axle depend on the square of its spring base. Measure the distance between the two springs where their axes cross the height of the roll centre.",
                    who
                ));
            }
        }
        self.wanted_roll();
        self.far_over(answer);
    }

    /// A range of roll whose ends are swapped gives no bar.
    fn wanted_roll(&mut self) {
        let wanted = &self.job().chassis.roll;
        let typed = |e| self.reading.typed::<Angle>(e).map(|a| (a.si(), Amount::rounded(a, self.units)));
        let share = |e| self.reading.typed::<Ratio>(e).map(|r| (r.si(), Amount::rounded(r, self.units)));
        let ranges = [
            ("gradient", typed(&wanted.gradient_low), typed(&wanted.gradient_high)),
            ("front", share(&wanted.front_low), share(&wanted.front_high)),
        ];
        for (key, low, high) in ranges {
            if let (Some((low, low_words)), Some((high, high_words))) = (low, high)
                && low > high
            {
                let text = message!(
                    "Target roll: the lowest value, {low}, is above the highest, {high}. Swap them; until then no anti-roll bar is calculated for it.",
                    low = low_words,
                    high = high_words
                );
                let [field, other] = ["low", "high"].map(|end| format!("chassis.roll.{key}_{end}"));
                let mend = self.swap(&field, &other);
                self.push_with(Level::Doubt, "roll-range", field, text, mend);
            }
        }
    }

    /// A bore as wide as the bar.
    fn bore(&mut self, side: Side, diameter: Length, bore: Option<Length>) {
        if let Some(bore) = bore.filter(|b| *b >= diameter) {
            let text = message!(
                "{side}: the bore, {bore}, must be smaller than the bar diameter, {diameter}. The bar is ignored until this is corrected.",
                side = side.word(),
                bore = self.length(bore),
                diameter = self.length(diameter)
            );
            let [inside, outside] = ["inside_diameter", "diameter"].map(|d| format!("{}.roll_bar.{d}", side.key()));
            let mend = self.swap(&inside, &outside).filter(|_| bore > diameter);
            self.push_with(Level::Doubt, "roll-bar-bore", inside, text, mend);
        }
    }

    /// A body that would fall over, or lean as no road vehicle does.
    fn far_over(&mut self, answer: &Answer) {
        if answer.whole.centre.is_none_or(|c| c.height.is_none()) {
            return;
        }
        let rolls = State::ALL.into_iter().filter_map(|s| Some((s, answer.whole.roll.of(s).as_ref()?)));
        for (state, roll) in rolls {
            let leans = roll.on_tyres_rad_s2_per_m.map_or(0.0, degrees_per_g);
            let (rule, what) = if roll.gradient_rad_s2_per_m.is_none() {
                (
                    "falls-over",
                    message!(
                        "the centre of gravity is too high for the roll stiffness of the springs: the body would tip over"
                    ),
                )
            } else if roll.on_tyres_rad_s2_per_m.is_none() {
                (
                    "falls-over",
                    message!(
                        "the centre of gravity is too high for the roll stiffness of springs and tyres: the body would tip over"
                    ),
                )
            } else if above(
                leans,
                FAR_DEG_PER_G,
                self.u_vehicle(|v| v.whole.roll.of(state).as_ref()?.on_tyres_rad_s2_per_m.map(degrees_per_g)),
            ) {
                (
                    "leans-far",
                    message!(
                        "the body would roll {leans:.0}° per g; no road vehicle rolls more than about {most:.0}°",
                        leans,
                        most = FAR_DEG_PER_G
                    ),
                )
            } else {
                continue;
            };
            self.push(Level::Doubt, rule, "chassis.cg_height", message!(
                "In a bend, {state}: {what}. Check the height of the centre of gravity, the tracks and the anti-roll bars.",
                what, state = state.words()
            ));
            return;
        }
    }

    /// Scale pads that did not stand level.
    fn pads(&mut self, answer: &Answer) {
        for (state, when, read) in weighings(answer) {
            let percent = |c: &Corners<Mass>| weights::cross_weight(c).si() * 100.0;
            let pads = if state == State::Before { &self.job().before.pads } else { &self.job().after.pads };
            let typed = four_corners::uneven(self.reading, pads);
            match (*answer.whole.level.of(state), read.corners) {
                (Some(level), Some(corners)) => self.push(Level::Note, "pads", format!("{when}.pads.lf"), message!(
                    "{weighed}, on pads that are not level: cross weight is {read:.1} % as read and {level:.1} % on level pads. The axle weights do not change.",
                    weighed = weighed_first(state == State::Before), read = percent(&corners), level = percent(&level)
                )),
                _ if typed => self.push(Level::Note, "pads-need-track", format!("{when}.pads.lf"), message!(
                    "{weighed}, on pads that are not level: their effect on the corner weights can be calculated only with all four readings, the wheelbase, both tracks, the spring base of a beam axle and an answer for both axles. The axle weights do not change.",
                    weighed = weighed_first(state == State::Before)
                )),
                _ => {}
            }
        }
    }

    /// Repeated weighings that do not agree.
    fn scatter(&mut self, answer: &Answer) {
        for (state, when, read) in weighings(answer) {
            let (Some(scatter), Some(corners)) = (*answer.whole.scatter.of(state), read.corners) else { continue };
            let names = [("lf", Word("LF")), ("rf", Word("RF")), ("lr", Word("LR")), ("rr", Word("RR"))];
            let each = scatter.walk().into_iter().zip(corners.walk()).zip(names);
            let worst = each.max_by(|a, b| (a.0.0 / a.0.1).si().total_cmp(&(b.0.0 / b.0.1).si()));
            if let Some(((scatter, reading), (corner, name))) = worst
                && scatter.si() > SCATTER * reading.si()
            {
                self.push(Level::Doubt, "scatter", format!("{when}.{corner}"), message!(
                    "{weighed}, more than once: the {corner} readings scatter by {scatter}. Roll the vehicle off the pads and back on, let it settle with the brake off, and look for an anti-roll bar or bush that binds.",
                    weighed = weighed_first(state == State::Before), corner = name, scatter = Amount::rounded(scatter, self.units)
                ));
            }
        }
    }

    /// The weighing with one axle raised.
    fn lift(&mut self, answer: &Answer) {
        let lift = &self.job().chassis.lift;
        let (level, lifted): (Option<Mass>, Option<Mass>) =
            (self.reading.typed(&lift.level), self.reading.typed(&lift.lifted));
        let rise: Option<Length> = self.reading.typed(&lift.rise);
        let wheelbase: Option<Length> = self.reading.typed(&self.job().vehicle.wheelbase);
        if let (Some(level), Some(front), Some(rear)) = (level, answer.after.front, answer.after.rear) {
            let off = |axle: Mass| ((level - axle) / axle).si().abs();
            let u_level = self.reading.typed_with_u(&lift.level).map_or(0.0, |m| m.u);
            let u_axle = |side: Side| self.u_vehicle(|v| v.after.axle(side).map(Quantity::si)).unwrap_or(0.0);
            let [front_off, rear_off] = [(front, Side::Front), (rear, Side::Rear)]
                .map(|(axle, side)| above(off(axle), LIFT_AGREES, Some(u_level.hypot(u_axle(side)) / axle.si())));
            if front_off && rear_off {
                self.push(Level::Doubt, "lift-level", "chassis.lift.level", message!(
                    "The axle on the ground weighs {level} with the vehicle level. That matches neither the front axle weight, {front}, nor the rear axle weight, {rear}, of the weigh-in after. Weigh the axle again, with the vehicle level and the same load aboard.",
                    level = Amount::rounded(level, self.units), front = Amount::rounded(front, self.units), rear = Amount::rounded(rear, self.units)
                ));
            }
        }
        if let (Some(level), Some(lifted)) = (level, lifted)
            && lifted <= level
        {
            let mend = self.swap("chassis.lift.level", "chassis.lift.lifted").filter(|_| lifted < level);
            self.push_with(Level::Doubt, "lift-gains", "chassis.lift.lifted",
                message!("With the other axle raised, the axle on the ground should carry more, not less. Check both readings."), mend);
        }
        if let (Some(rise), Some(wheelbase)) = (rise, wheelbase)
            && below((rise / wheelbase).si(), LIFT, self.reading.typed_with_u(&lift.rise).map(|m| m.u / wheelbase.si()))
        {
            let share: Ratio = rise / wheelbase;
            self.push(Level::Note, "lift-little", "chassis.lift.rise", message!(
                "The axle was raised by {share:.0} % of the wheelbase; raise it by 15 % or more to get a more accurate height of the centre of gravity.",
                share = share.si() * 100.0
            ));
        }
    }
}
