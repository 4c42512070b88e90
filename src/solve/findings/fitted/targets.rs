//! Findings about what is wanted, and whether a spring gives it; rear against front.

use std::cmp::Ordering;

use crate::base::language::Word;
use crate::base::message::Message;
use crate::base::units::{Amount, Dim, Frequency, Length, Quantity, Ratio};
use crate::job::{BagFitted, Goal, Level, Side};
use crate::message;
use crate::solve::answer::{Answer, AxleAnswer, DampersOpen, Sizing, SpringToBuy, Standing};
use crate::solve::evaluate::axle::known;
use crate::solve::findings::Say;
use crate::solve::findings::edge::{above, outside};

impl Say<'_> {
    /// The wanted range, and whether a spring is in it.
    pub(in crate::solve::findings) fn targets(&mut self, axle: &AxleAnswer) {
        let (side, data) = (axle.side, self.job().axle(axle.side));
        let target = &data.target;
        if target.goal == Goal::Range {
            let low: Option<Frequency> = self.reading.known(&target.low);
            let high: Option<Frequency> = self.reading.known(&target.high);
            self.in_order(side, "target.low", low, high);
        }
        if target.damping_goal == Goal::Range {
            let low: Option<Ratio> = self.reading.known(&target.damping_low);
            let high: Option<Ratio> = self.reading.known(&target.damping_high);
            self.in_order(side, "target.damping_low", low, high);
        } else {
            self.no_damping_before(axle);
        }
        if target.goal == Goal::AsBefore
            && axle.standing.before.is_none()
            && axle.masses.sprung.after.is_some()
            && axle.motion_ratio.is_some()
        {
            self.push(Level::Error, "no-before-frequency", format!("{}.target.low", side.key()), message!(
                "{side}: the target is \"as before\", but the frequency before is not known. Enter the weights before and the old rate, or a range.",
                side = side.word()
            ));
        }
        if axle.nothing_left {
            let text = message!(
                "{side}: even without a spring, the wheel rate is above the target, because of {others}. Nothing is left for a spring. Change that first, or choose a higher frequency.",
                side = side.word(),
                others = self.what_else_carries(axle)
            );
            self.push(Level::Error, "nothing-left", format!("{}.target.high", side.key()), text);
        }
        if let Some(sizing) = axle.sizing.as_ref().filter(|s| s.spring_rate.low.si() <= 0.0 && !axle.keeps()) {
            let text = message!(
                "{side}: most of the target wheel rate is already used up by {others}; at most {high} is left for the spring. Change that first, or choose a higher frequency.",
                side = side.word(),
                others = self.what_else_carries(axle),
                high = Amount::rounded(sizing.spring_rate.high, self.units)
            );
            self.push(Level::Doubt, "others-carry", format!("{}.target.high", side.key()), text);
        } else if let (Some(sizing), Some(spring)) = (&axle.sizing, &axle.parts.spring)
            && !spring.pick_inside
            && !sizing.is_one_value()
            && !axle.keeps()
        {
            self.outside_the_range(axle, sizing, spring);
        }
    }

    /// Damping as before is wanted, and what it was is not known.
    fn no_damping_before(&mut self, axle: &AxleAnswer) {
        let (side, key) = (axle.side.word(), axle.side.key());
        let Some(open) = axle.dampers_open().filter(|_| axle.standing.new.is_some()) else { return };
        let (field, text) = match open {
            DampersOpen::Springs | DampersOpen::Target | DampersOpen::MotionRatio => return,
            DampersOpen::Before => (
                "target.damping_margin",
                message!(
                    "{side}: the target for damping is \"as before\", but the axle before the change is not known. Enter the weights before and the old spring, or choose a range.",
                    side
                ),
            ),
            DampersOpen::Damper => (
                "damper.ratio_before",
                message!(
                    "{side}: the target for damping is \"as before\", but the damping before is not known. Enter the damping ratio before the change, the damper rates or the damper curve, or choose a range.",
                    side
                ),
            ),
        };
        self.push(Level::Doubt, "no-before-damping", format!("{key}.{field}"), text);
    }

    /// What is bought lies outside the wanted range.
    fn outside_the_range(&mut self, axle: &AxleAnswer, sizing: &Sizing, spring: &SpringToBuy) {
        let side = axle.side;
        if let Some(bar) = &spring.bar {
            let text = message!(
                "{side}: no stock bar diameter is between {low} and {high}; {pick} is the nearest. Have a bar made, or widen the range.",
                side = side.word(),
                low = Amount::full(bar.diameter.low, self.units),
                high = Amount::full(bar.diameter.high, self.units),
                pick = Amount::as_sold(bar.pick, self.units)
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
            let taken = if taken.is_empty() { message!("the selected spring") } else { taken.into() };
            let text = message!(
                "{side}: {taken} has a rate of {pick}; the target range needs {low} to {high}. Choose another spring, or widen the range.",
                taken,
                side = side.word(),
                pick = Amount::rounded(spring.pick, self.units),
                low = Amount::rounded(sizing.spring_rate.low, self.units),
                high = Amount::rounded(sizing.spring_rate.high, self.units)
            );
            self.push(Level::Doubt, "taken-outside", format!("{}.taken.rate", side.key()), text);
            return;
        }
        self.push(Level::Doubt, "no-stock-inside", format!("{}.stock.step", side.key()), message!(
            "{side}: no stock rate is between {low} and {high}; {pick} is the nearest. Widen the range, find springs with other rate steps, or have a spring wound.",
            side = side.word(), low = Amount::rounded(sizing.spring_rate.low, self.units), high = Amount::rounded(sizing.spring_rate.high, self.units), pick = Amount::rounded(spring.pick, self.units)
        ));
    }

    /// "the bump stop and the air bag": what adds to the wheel rate in addition to the spring at the wanted height,
    /// most first.
    fn what_else_carries(&self, axle: &AxleAnswer) -> Message {
        // What adds less than this share of the most is not named.
        const COUNTS: f64 = 0.1;
        let others = |s: &Standing| -> Option<Vec<(f64, Word)>> {
            let from = axle.standing.before.as_ref().map_or(Length::from_si(0.0), |b| b.travel);
            let raise: Length = self.reading.known(&self.job().axle(axle.side).target.raise)?;
            let (curve, at, data) = (&s.curve, from - raise, self.job().axle(axle.side));
            let bag = known::bag(self.reading, data).filter(|_| data.bag.fitted != BagFitted::No);
            let ratio = curve.spring_length.ratio(at).si();
            let geometry = s.spring_force.si() * s.curve.spring_length.ratio(s.travel).si() / ratio
                * curve.spring_length.slope(at).value;
            Some(vec![
                (curve.stop_rate_n_per_m(at.si()), Word("the bump stop already in contact at that height")),
                (bag.map_or(0.0, |(bag, ratio)| bag.rate_n_per_m(0.0) * ratio.si().powi(2)), Word("the air bag")),
                (curve.parallel_rate_n_per_m, Word("the rubber bushes")),
                (geometry, Word("the varying motion ratio")),
            ])
        };
        let standing = axle.standing.old.as_ref().or(axle.standing.before.as_ref());
        let mut others = standing.and_then(others).unwrap_or_default();
        others.sort_by(|a, b| b.0.total_cmp(&a.0));
        let most = others.first().map_or(0.0, |o| o.0);
        others.retain(|o| o.0 > COUNTS * most);
        let names = others.into_iter().map(|o| Message::from(o.1));
        let all = names.reduce(|all, another| message!("{all} and {another}", all, another));
        all.unwrap_or(message!("parts other than the spring"))
    }

    /// A wanted range, of frequency or damping ratio, whose ends are swapped.
    fn in_order<Q: Quantity + PartialOrd>(&mut self, side: Side, key: &str, low: Option<Q>, high: Option<Q>) {
        if let (Some(low), Some(high)) = (low, high)
            && low > high
        {
            let (low, high) = (Amount::rounded(low, self.units), Amount::rounded(high, self.units));
            let text = if Q::DIM == Dim::Frequency {
                message!(
                    "{side}: the lowest target frequency, {low}, is above the highest, {high}. Swap them.",
                    low,
                    high,
                    side = side.word()
                )
            } else {
                message!(
                    "{side}: the lowest target damping ratio, {low}, is above the highest, {high}. Swap them.",
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

    /// How the rear bounces against the front.
    pub(in crate::solve::findings) fn rear_against_front(&mut self, answer: &Answer) {
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
            message!(
                "As fitted, the rear frequency is {ratio:.2} × the front frequency; below {low:.2} the vehicle pitches. Check the rear springs too.",
                ratio = ratio.si(),
                low = low.si()
            )
        } else {
            message!(
                "As fitted, the rear frequency is {ratio:.2} × the front frequency; above {high:.2} the rear is harsh compared with the front. Check the rear springs too.",
                ratio = ratio.si(),
                high = high.si()
            )
        };
        self.push_state(was_so, Level::Doubt, "rear-front", "rear.target.low", text);
    }
}
