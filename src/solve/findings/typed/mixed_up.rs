//! Readings of a rate that a slip would explain: the number in another unit, the motion ratio the other way up.

use crate::base::language::Word;
use crate::base::message::Message;
use crate::base::units::{Amount, Dim, Frequency, Length, Quantity, SpringRate, Unit, parse};
use crate::job::read::MotionRatio;
use crate::job::retype::mixed_up_with;
use crate::job::{Goal, LeafBy, Mend, RateBy, RatioBy, Side, SpringKind, fields};
use crate::message;
use crate::solve::answer::{AxleAnswer, RouteKind, Routes, Standing, State};
use crate::solve::compare::agree;
use crate::solve::findings::Say;
use crate::solve::findings::edge::outside;
use crate::solve::read::Moves;

/// A ride frequency this many times the highest wanted, or below this share of the lowest, is asked about. Model of the
/// job; common practice, no source.
const FAR: [f64; 2] = [0.5, 1.8];
/// What counts as wanted when the frequency before is the goal, Hz: comfort to street. Common practice, no source.
const CREDIBLE_HZ: [f64; 2] = [1.0, 1.6];
/// Another reading may miss the wanted range by this factor.
const NEAR: f64 = 1.25;
/// Motion ratios that are usual.
pub(in crate::solve::findings) const USUAL_RATIO: std::ops::RangeInclusive<f64> = 0.45..=1.02;
/// A repeated rate may differ by this share.
const SAME: f64 = 0.02;

/// Another reading of what was typed: the frequency it gives, and what settles it.
pub(in crate::solve::findings) struct Reading {
    /// "310 lb/in".
    words: Message,
    /// On springs, Hz.
    hz: f64,
    mend: Mend,
}

impl Say<'_> {
    /// A frequency on the old springs far from what is wanted or credible, with the readings that would explain it.
    pub(in crate::solve::findings) fn frequencies(&mut self, axle: &AxleAnswer) {
        let [low, high] = [self.limit(|j| &j.limits.frequency_low), self.limit(|j| &j.limits.frequency_high)];
        let (Some(low), Some(high)) = (low, high) else { return };
        let seen =
            [State::Before, State::OldSprings].into_iter().find_map(|s| Some((s, axle.standing.of(s).as_ref()?)));
        let Some((state, standing)) = seen else { return };
        let f = standing.frequency;
        let u = self.u_axle(axle.side, |a| a.standing.of(state).as_ref().map(|s| s.frequency.si()));
        let credible = outside(f.si(), [low.si(), high.si()], u).is_none();
        let far = self.is_far(axle, f);
        if standing.on_stop || (credible && !far) || self.rate_confirmed(axle) {
            return;
        }
        let readings = self.other_readings(axle, standing);
        if credible && readings.is_empty() {
            return;
        }
        let state = if state == State::Before { Word("before the change") } else { Word("on the old springs") };
        let (side, found) = (axle.side.word(), Amount::significant(f.si(), 3));
        let [low, high] = match (credible, self.wanted_hz(axle)) {
            (true, Some(wanted)) => wanted.map(Frequency::from_si),
            _ => [low, high],
        }
        .map(|f| Amount::significant(f.si(), 3));
        let text = if credible {
            message!(
                "{side} {state}: {found} bounces per second is far from the target, {low} to {high}.",
                side,
                state,
                found,
                low,
                high
            )
        } else {
            message!(
                "{side} {state}: {found} bounces per second is not credible; the limits of this job are {low} to {high}.",
                side,
                state,
                found,
                low,
                high
            )
        };
        let cause = cause(readings.first());
        let keep = self.keep(axle).filter(|_| !readings.is_empty());
        let mends: Vec<Mend> = readings.into_iter().map(|r| r.mend).chain(keep).collect();
        let field = format!("{}.{}", axle.side.key(), self.rate_field(axle));
        // One slip that explains it leaves nothing to order, until it is corrected or what was typed is confirmed.
        let is_worthless = far && !mends.is_empty();
        let rests_on = [self.rate_paths(axle), self.ratio_fields(axle.side, Moves::Spring)];
        let text = text.and(cause);
        self.withhold_if(is_worthless, ("frequency", field), text, rests_on.concat()).mended(mends);
    }

    fn is_far(&self, axle: &AxleAnswer, f: Frequency) -> bool {
        self.wanted_hz(axle).is_some_and(|[low, high]| f.si() < FAR[0] * low || f.si() > FAR[1] * high)
    }

    /// The wanted range, Hz; `None` when it is upside down.
    fn wanted_hz(&self, axle: &AxleAnswer) -> Option<[f64; 2]> {
        let target = &self.job().axle(axle.side).target;
        if target.goal == Goal::AsBefore {
            return Some(CREDIBLE_HZ);
        }
        let hz = [&target.low, &target.high].map(|e| self.reading.known(e).map(Quantity::si));
        let [low, high] = [hz[0]?, hz[1]?];
        (low <= high).then_some([low, high])
    }

    /// The rate or the motion ratio was repeated, and both agree: what was typed is meant.
    fn rate_confirmed(&self, axle: &AxleAnswer) -> bool {
        let data = self.job().axle(axle.side);
        let rate = axle.old_spring.stated.map(|s| s.value).or(axle.old_spring.rate.map(Quantity::si));
        let again = self.reading.typed(&data.spring.confirm).map(|k: SpringRate| k.si());
        let same = |a: f64, b: f64| (a / b - 1.0).abs() < SAME;
        rate.zip(again).is_some_and(|(rate, again)| same(rate, again))
    }

    /// Keeps the rate as it was typed.
    fn keep(&self, axle: &AxleAnswer) -> Option<Mend> {
        let rate = axle.old_spring.rate?;
        let unit = self.units.unit(Dim::SpringRate);
        let typed = self.texts().text_at(&format!("{}.spring.rate", axle.side.key()));
        let stated = typed.filter(|_| axle.old_spring.stated.is_some_and(|s| s.value == rate.si()));
        let text = stated.unwrap_or_else(|| self.texts().written(rate.si() / unit.si, unit, 4));
        let label = message!("Keep {rate}", rate = &text);
        Some(Mend::new(label).set(format!("{}.spring.confirm", axle.side.key()), text))
    }

    /// What else could have been meant: readings with which the old springs bounce as is wanted, or nearly.
    fn other_readings(&self, axle: &AxleAnswer, standing: &Standing) -> Vec<Reading> {
        let Some([low, high]) = self.wanted_hz(axle) else { return Vec::new() };
        let hz = standing.frequency.si();
        // Only the spring's own part of the wheel rate goes with what is typed.
        let spring = standing.spring_rate.si() * standing.curve.spring_length.ratio(standing.travel).si().powi(2);
        let whole = standing.wheel_rate.si();
        let with = |factor: f64| hz * ((whole + spring * (factor - 1.0)) / whole).max(0.0).sqrt();
        let lands = |factor: f64| (low / NEAR..=high * NEAR).contains(&with(factor));
        // A stated rate that gave way to better known readings does not decide the frequency.
        let old = &axle.old_spring;
        let decides = self.job().axle(axle.side).spring.rate_by != RateBy::Stated
            || old.stated.zip(old.rate).is_none_or(|(stated, used)| (stated.value / used.si() - 1.0).abs() < SAME);
        let units = self.rate_in_other_units(axle, |factor| decides && lands(factor)).into_iter();
        let units = units.map(|(factor, words, mend)| Reading { words, hz: with(factor), mend });
        let turned = self
            .other_ratios(axle.side)
            .into_iter()
            .filter_map(|(factor, words, mend)| lands(factor).then(|| Reading { words, hz: with(factor), mend }));
        turned.chain(units).collect()
    }

    /// The motion ratio the other way up, before it was squared, or of a travel in another unit, with what that does to
    /// the wheel rate.
    fn other_ratios(&self, side: Side) -> Vec<(f64, Message, Mend)> {
        let (data, at) = (&self.job().axle(side).ratio, format!("{}.ratio", side.key()));
        let Some(r) = self.reading.length_curve(side, Moves::Spring).map(|c| c.ratio(Length::from_si(0.0)).si()) else {
            return Vec::new();
        };
        let words = |r: f64| message!("a motion ratio of {ratio:.2}", ratio = r);
        let turned = self.turned_over(&at, data).filter(|_| r > 1.02).map(|m| (r.powi(-4), words(1.0 / r), m));
        let root = self.not_squared(&at, data).filter(|_| r < 0.8).map(|m| (1.0 / r, words(r.sqrt()), m));
        let units = self.other_travel_units(&at, data, r).into_iter();
        let units = units.map(|(factor, mend)| (factor.powi(2), words(r * factor), mend));
        turned.into_iter().chain(root).chain(units).collect()
    }

    /// Travels, one of them in another unit: an unusual motion ratio gets usual by this factor.
    pub(in crate::solve::findings) fn other_travel_units(
        &self,
        at: &str,
        data: &MotionRatio,
        r: f64,
    ) -> Vec<(f64, Mend)> {
        if data.by != RatioBy::Moved || USUAL_RATIO.contains(&r) {
            return Vec::new();
        }
        let moved = [("wheel_moved", -1), ("part_moved", 1)].into_iter().flat_map(|(part, power)| {
            self.in_other_units(&[format!("{at}.{part}")], power, |factor| USUAL_RATIO.contains(&(r * factor)))
        });
        moved.map(|(factor, _, mend)| (factor, mend)).collect()
    }

    /// The rate read in other units, where the factor that makes of it is accepted.
    pub(in crate::solve::findings) fn rate_in_other_units(
        &self,
        axle: &AxleAnswer,
        accept: impl Fn(f64) -> bool,
    ) -> Vec<(f64, Message, Mend)> {
        self.in_other_units(&self.rate_paths(axle), 1, accept)
    }

    /// Fields that belong together read in other units, where the factor that this makes is accepted: with its words.
    pub(in crate::solve::findings) fn in_other_units(
        &self,
        paths: &[String],
        power: i32,
        accept: impl Fn(f64) -> bool,
    ) -> Vec<(f64, Message, Mend)> {
        let Some(old) = self.common_unit(paths) else { return Vec::new() };
        let other = |unit: &'static Unit| {
            let factor = (unit.si / old.si).powi(power);
            let texts: Option<Vec<(String, String)>> =
                paths.iter().map(|p| Some((p.clone(), self.texts().in_unit(p, unit)?))).collect();
            let usual = |(path, text): &(String, String)| self.is_usual(path, text);
            let edits = texts.filter(|edits| accept(factor) && edits.iter().all(usual))?;
            let (words, label) = match edits.as_slice() {
                [(_, text)] => (text.into(), message!("Use {text}", text)),
                _ => {
                    let words = in_unit_words(unit);
                    let label = message!("Read {readings}", readings = &words);
                    (words, label)
                }
            };
            Some((factor, words, Mend { label, edits }))
        };
        mixed_up_with(old).filter_map(other).collect()
    }

    /// A text is a usual one for its field; any is, where no usual range is given.
    fn is_usual(&self, path: &str, text: &str) -> bool {
        let Some((field, _)) = fields::by_path(path) else { return false };
        let number = parse::number(text, field.dim, self.job().decimal);
        number.is_ok_and(|n| field.usual.is_none_or(|(low, high)| (low..=high).contains(&n.si())))
    }

    /// The unit of all these fields; `None` when they differ or one has no number.
    fn common_unit(&self, paths: &[String]) -> Option<&'static Unit> {
        let mut units = paths.iter().map(|path| self.texts().unit_at(path));
        let first = units.next()??;
        units.all(|unit| unit == Some(first)).then_some(first)
    }

    /// The fields that the rate of the old spring goes with, one to one.
    fn rate_paths(&self, axle: &AxleAnswer) -> Vec<String> {
        let spring = &self.job().axle(axle.side).spring;
        let rows = |list: &str, count: usize| (0..count).map(|i| format!("spring.{list}[{i}].load")).collect();
        let fields: Vec<String> = match (spring.kind, spring.rate_by, spring.leaf.by) {
            (SpringKind::Progressive, ..) => rows("points", spring.points.len()),
            (SpringKind::Leaf, _, LeafBy::Test) => rows("leaf.rows", spring.leaf.rows.len()),
            (SpringKind::Leaf, _, LeafBy::Stated) => vec!["spring.rate".into()],
            (SpringKind::Coil | SpringKind::WithHelper, RateBy::Stated, _) => vec!["spring.rate".into()],
            (SpringKind::Coil | SpringKind::WithHelper, RateBy::Press, _) => {
                ["first", "second"].map(|n| format!("spring.press.{n}_load")).to_vec()
            }
            _ => Vec::new(),
        };
        let paths = fields.into_iter().map(|field| format!("{}.{field}", axle.side.key()));
        paths.filter(|path| self.texts().text_at(path).is_some()).collect()
    }

    /// What makes routes to the wheel rate agree that do not: a motion ratio or a unit read otherwise, a ballast counted
    /// for both sides, or the stated rate left out where the spring itself was measured.
    pub(in crate::solve::findings) fn route_mends(&self, axle: &AxleAnswer, routes: &Routes) -> Vec<Mend> {
        let agree_with = |factor: &dyn Fn(RouteKind) -> f64| agree(routes, |_| true, factor);
        let mut mends = Vec::new();
        for (factor, _, mend) in self.other_ratios(axle.side) {
            let by_ratio = |kind: RouteKind| match kind {
                kind if kind.uses_ratio() => factor,
                RouteKind::Closure => factor.sqrt(),
                _ => 1.0,
            };
            mends.extend(agree_with(&by_ratio).then_some(mend));
        }
        for kind in routes.list.iter().map(|r| r.kind) {
            let only = |factor: f64| agree_with(&|k| if k == kind { factor } else { 1.0 });
            for (paths, power) in self.route_fields(axle, kind) {
                mends.extend(self.in_other_units(&paths, power, only).into_iter().map(|(_, _, mend)| mend));
            }
            if kind == RouteKind::Ballast && only(2.0) {
                let path = format!("{}.checks.ballast", axle.side.key());
                let twice = self.texts().times(&path, 2.0, 6);
                mends.extend(
                    twice.map(|text| {
                        Mend::new(message!("Use {text}, both sides together", text = &text)).set(path, text)
                    }),
                );
            }
        }
        if mends.is_empty() {
            mends.extend(self.without_stated(axle, routes));
        }
        mends
    }

    /// The fields that a route goes with, and by which power.
    fn route_fields(&self, axle: &AxleAnswer, kind: RouteKind) -> Vec<(Vec<String>, i32)> {
        let key = axle.side.key();
        let paths = |fields: &[&str]| fields.iter().map(|field| format!("{key}.{field}")).collect::<Vec<_>>();
        match kind {
            RouteKind::Spring => vec![(self.rate_paths(axle), 1)],
            RouteKind::Stated => vec![(paths(&["spring.rate"]), 1)],
            RouteKind::Press => vec![
                (paths(&["spring.press.first_load", "spring.press.second_load"]), 1),
                (paths(&["spring.press.first_length", "spring.press.second_length"]), -1),
            ],
            RouteKind::Closure => vec![(paths(&["spring.free_length", "spring.fitted_length"]), -1)],
            RouteKind::Swap => vec![(paths(&["checks.arch_before", "checks.arch_after"]), -1)],
            RouteKind::Ballast => vec![(paths(&["checks.ballast"]), 1), (paths(&["checks.ballast_drop"]), -1)],
            RouteKind::Wire | RouteKind::Bounce | RouteKind::Recorded => Vec::new(),
        }
    }

    /// The rate by press, by wire or by whatever else was measured in place of a stated one that disagrees.
    pub(in crate::solve::findings) fn without_stated(&self, axle: &AxleAnswer, routes: &Routes) -> Vec<Mend> {
        if axle.motion_ratio.is_none_or(|r| !USUAL_RATIO.contains(&r.si())) {
            return Vec::new(); // Every route would go by a ratio that is doubted itself.
        }
        let is_stated = |kind: RouteKind| kind == RouteKind::Stated;
        let without = |kind: RouteKind| !is_stated(kind);
        if !routes.list.iter().any(|r| is_stated(r.kind)) || !agree(routes, without, |_| 1.0) {
            return Vec::new();
        }
        let key = axle.side.key();
        let ways = [
            (RouteKind::Press, Word("Use the rate from the press"), "Press"),
            (RouteKind::Wire, Word("Use the rate from wire and coils"), "Wire"),
        ];
        let blank = |label: Word| Mend::new(label).set(format!("{key}.spring.rate"), "");
        let known = ways.into_iter().filter(|(kind, ..)| routes.list.iter().any(|r| r.kind == *kind));
        let mut mends: Vec<Mend> =
            known.map(|(_, label, by)| blank(label).set(format!("{key}.spring.rate_by"), by)).collect();
        if mends.is_empty() {
            // A blank rate is worked out from whatever else was measured.
            let by_lengths = routes.list.iter().all(|r| is_stated(r.kind) || r.kind == RouteKind::Closure);
            let label = if by_lengths {
                Word("Use the rate from the lengths")
            } else {
                Word("Use the rate from the other readings")
            };
            mends.push(blank(label));
        }
        mends
    }
}

/// What explains a frequency that cannot be: the first of the other readings, or what to check.
fn cause(first: Option<&Reading>) -> Message {
    match first {
        Some(Reading { words, hz, .. }) => {
            message!(
                "With {reading} there would be {frequency:.2} bounces per second.",
                reading = words,
                frequency = *hz
            )
        }
        None => message!("Check the rate's unit and the motion ratio."),
    }
}

/// "the loads in kgf".
fn in_unit_words(unit: &'static Unit) -> Message {
    let symbol = unit.symbol;
    match unit.dim {
        Dim::Force => message!("the loads in {symbol}", symbol),
        Dim::Length => message!("the lengths in {symbol}", symbol),
        _ => message!("the values in {symbol}", symbol),
    }
}
