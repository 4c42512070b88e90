//! Findings about motion ratios, rates and lengths: routes that disagree, and why.

use std::cmp::Ordering;

use super::mixed_up::USUAL_RATIO;
use crate::base::language::Word;
use crate::base::message::Message;
use crate::base::units::{Amount, Length, Quantity, Ratio, SpringRate};
use crate::job::read::MotionRatio;
use crate::job::{Level, Mend, RatioBy, Side, SpringKind};
use crate::message;
use crate::solve::answer::{Answer, AxleAnswer, RouteKind, Routes};
use crate::solve::findings::Say;
use crate::solve::findings::edge::outside;
use crate::solve::read::Moves;

/// Free and fitted length may be off the stated rate by this share. Common practice, no source.
const LENGTHS_AGREE: f64 = 0.05;
/// And by this number of standard uncertainties of the difference.
const ASKED: f64 = 1.5;
/// No part moves less or more than this for each unit of wheel travel.
const POSSIBLE_RATIO: std::ops::RangeInclusive<f64> = 0.1..=2.0;
/// Below this a ratio whose root is usual was squared already, unless a second way says the same.
const LOW_RATIO: f64 = 0.35;
/// A number and what was asked for to confirm it contradict each other from this share on.
const CONTRADICTED: f64 = 0.15;

/// The motion ratio of spring or damper, and what is known of it.
struct RatioOf<'a> {
    moves: Moves,
    data: &'a MotionRatio,
    at: String,
    field: String,
    who: Message,
    r: f64,
}

impl Say<'_> {
    /// A motion ratio that can hardly be, of spring and damper.
    pub(in crate::solve::findings) fn motion_ratio(&mut self, axle: &AxleAnswer, answer: &Answer) {
        let data = self.job().axle(axle.side);
        let spring = axle.motion_ratio.filter(|_| axle.kind != SpringKind::TorsionBar);
        let damper_is_blank = crate::solve::read::ratio_is_blank(&data.damper_ratio);
        let damper = axle.damper_motion_ratio.filter(|_| !damper_is_blank);
        for (moves, found) in [(Moves::Spring, spring), (Moves::Damper, damper)] {
            let data = moves.ratio(data);
            let at = format!("{}.{}", axle.side.key(), moves.key());
            let field = format!("{}.{}", axle.side.key(), data.by.first_field(moves.key()));
            self.turned_rows(axle.side, moves, &field);
            let Some(r) = found.map(Quantity::si) else { continue };
            let side = axle.side.word();
            let who = match moves {
                Moves::Spring => message!("{side}, spring motion ratio", side),
                Moves::Damper => message!("{side}, damper motion ratio", side),
            };
            let of = RatioOf { moves, data, at, field, who, r };
            let confirmed = self.reading.typed(&data.confirm).is_some_and(|c: Ratio| (c.si() / r - 1.0).abs() <= 0.02);
            if confirmed && POSSIBLE_RATIO.contains(&r) {
                continue;
            }
            self.odd_ratio(axle, answer, &of);
            if data.by == RatioBy::Number && !crate::solve::read::ratio_is_blank(data) {
                self.confirmed(&of.who, moves, axle.side, r);
            }
        }
    }

    /// One motion ratio outside what is possible or usual.
    fn odd_ratio(&mut self, axle: &AxleAnswer, answer: &Answer, of: &RatioOf<'_>) {
        let RatioOf { moves, data, ref at, ref who, r, .. } = *of;
        let field = of.field.clone();
        let usual = |r: f64| USUAL_RATIO.contains(&r);
        let found = |a: &AxleAnswer| match moves {
            Moves::Spring => a.motion_ratio,
            Moves::Damper => a.damper_motion_ratio,
        };
        let u = self.u_axle(axle.side, |a| found(a).map(Quantity::si));
        let end = outside(r, [*USUAL_RATIO.start(), *USUAL_RATIO.end()], u);
        let slipped = match end {
            Some(Ordering::Greater) => usual(1.0 / r),
            Some(_) => usual(r.sqrt()),
            None => false,
        };
        let rests_on = self.ratio_fields(axle.side, moves);
        let others =
            |say: &Self| say.other_travel_units(at, data, r).into_iter().map(|(_, mend)| mend).collect::<Vec<Mend>>();
        if !POSSIBLE_RATIO.contains(&r) {
            let text = message!(
                "{who} is {ratio:.3}; 0.1 to 2 is possible. Check both lengths and their units.",
                who,
                ratio = r
            );
            let turned = self.turned_over(at, data).filter(|_| usual(1.0 / r));
            let mends: Vec<Mend> = others(self).into_iter().chain(turned).collect();
            self.withhold("ratio-impossible", field, text, rests_on).mended(mends);
        } else if slipped && self.is_confirmed(axle, answer, moves, r) {
            let text = message!(
                "{who} is {ratio:.3}; 0.45 to 1.02 is usual. A second way gives the same ratio, so it is used.",
                who,
                ratio = r
            );
            self.push(Level::Note, "ratio-unusual", field, text);
        } else if slipped && end == Some(Ordering::Greater) {
            let mend = self.turned_over(at, data).into_iter().chain([self.keep_ratio(at, r)]);
            let text = upside_down(who, moves, r);
            self.withhold("ratio-upside-down", field, text, rests_on).mended(mend);
        } else if slipped {
            let mend = self.not_squared(at, data).into_iter().chain([self.keep_ratio(at, r)]);
            let text = message!(
                "{who} {ratio:.3} is low and appears to be squared already. Its square root is {root:.3}. Enter the ratio of lengths; the program squares it.",
                who,
                ratio = r,
                root = r.sqrt()
            );
            self.withhold_if(r < LOW_RATIO, ("ratio-squared", field), text, rests_on).mended(mend);
        } else if end.is_some() && data.by != RatioBy::Number {
            let text = message!(
                "{who} is {ratio:.3}; 0.45 to 1.02 is usual. Check both lengths and their units.",
                who,
                ratio = r
            );
            let mends: Vec<Mend> = others(self).into_iter().chain([self.keep_ratio(at, r)]).collect();
            self.push_with(Level::Doubt, "ratio-unusual", field, text, mends);
        }
    }

    /// Rows that can be read, but by which the part does not get shorter when the wheel goes up.
    fn turned_rows(&mut self, side: Side, moves: Moves, field: &str) {
        let ratio = moves.ratio(self.job().axle(side));
        if ratio.by != RatioBy::Rows || self.reading.length_curve(side, moves).is_some() {
            return;
        }
        let Some(points) = self.reading.points(ratio).filter(|p| p.len() > 1) else { return };
        let travel = |p: &(f64, f64)| p.0;
        let ends = points.iter().map(travel).fold((f64::MAX, f64::MIN), |(low, high), z| (low.min(z), high.max(z)));
        let text = if ends.1 - ends.0 <= 0.0 {
            message!(
                "{side}: all rows are at the same wheel travel, so they give no motion ratio. Also measure the length with the wheel higher and lower.",
                side = side.word()
            )
        } else {
            message!(
                "{side}: in these rows the length does not get shorter as the wheel goes up, so they give no motion ratio. Wheel travel is positive upwards, towards the body. If the signs were written the other way, reverse them; otherwise look for a swapped row.",
                side = side.word()
            )
        };
        let at = field.split_once(".rows").map_or(field, |(at, _)| at);
        let mend = (points_fall(&points) == Some(false)).then(|| self.turned_signs(at, ratio.rows.len()));
        self.push_with(Level::Error, "rows-turned", field, text, mend);
    }

    fn confirmed(&mut self, who: &Message, moves: Moves, side: Side, r: f64) {
        let entry = &moves.ratio(self.job().axle(side)).confirm;
        let at = format!("{}.{}", side.key(), moves.key());
        let field = format!("{at}.confirm");
        let confirm: Option<Ratio> = self.reading.typed(entry);
        match confirm.map(Quantity::si) {
            None if entry.is_blank() => {
                self.push(Level::Doubt, "ratio-unconfirmed", field, unconfirmed(who, moves, r));
            }
            Some(c) if (c / r - 1.0).abs() > 0.02 => {
                let cause = if (c * r - 1.0).abs() < 0.03 {
                    Word("One of the two values is inverted.")
                } else if (c * c / r - 1.0).abs() < 0.05 {
                    Word("The ratio appears to be squared already.")
                } else {
                    Word("Measure two lengths instead.")
                };
                let found = contradicted(who, moves, r, c);
                let rests_on = self.ratio_fields(side, moves);
                let is_worthless = (c / r - 1.0).abs() > CONTRADICTED;
                let mends = self.one_of(&at, [c, r]);
                self.withhold_if(is_worthless, ("ratio-contradicted", field), found.and(cause), rests_on).mended(mends);
            }
            _ => {}
        }
    }

    /// Lengths that cannot be, and the route to the wheel rate that disagrees.
    pub(in crate::solve::findings) fn routes(&mut self, axle: &AxleAnswer, answer: &Answer) {
        let (key, who) = (axle.side.key(), axle.side.word());
        let data = &self.job().axle(axle.side).spring;
        let free: Option<Length> = self.reading.typed(&data.free_length);
        let fitted: Option<Length> = self.reading.typed(&data.fitted_length);
        if let (Some(free), Some(fitted)) = (free, fitted)
            && axle.kind == SpringKind::Coil
            && free <= fitted
        {
            let text = message!(
                "{who}, old spring: the free length is not greater than the length at ride height, so the spring would carry nothing. Check both lengths.",
                who
            );
            let swap = self.swap(&format!("{key}.spring.free_length"), &format!("{key}.spring.fitted_length"));
            let mend = swap.filter(|_| free < fitted);
            // One of them is wrong, and the length to order rests on the fitted one.
            let rests_on = Self::of_axle(axle, &["spring.free_length", "spring.fitted_length"]);
            let field = format!("{key}.spring.free_length");
            self.withhold_if(!axle.keeps(), ("lengths-contradict", field), text, rests_on).mended(mend);
            return;
        }
        self.checks(axle);
        let routes = &answer.checked(axle.side).routes;
        let Some((odd, cause)) = &routes.odd else { return self.lengths_against_rate(axle, routes) };
        let said: Vec<Message> = routes
            .list
            .iter()
            .map(|r| {
                let rate = SpringRate::from_si(r.wheel_rate.value);
                Message::from(r.kind.words()).and(Amount::rounded(rate, self.units))
            })
            .collect();
        let text = if said.len() == 2 {
            message!(
                "{who}, wheel rate: the two routes disagree ({ways}). {cause}",
                who,
                cause,
                ways = Message::row(said, "; ")
            )
        } else {
            message!(
                "{who}, wheel rate: the odd one out is {odd} ({ways}). {cause}",
                who,
                cause,
                odd = odd.words(),
                ways = Message::row(said, "; ")
            )
        };
        let mends = self.route_mends(axle, routes);
        let field = self.field_of(axle, *odd);
        let (is_worthless, rests_on) = (self.are_apart(axle, answer), self.routes_rest_on(axle, answer));
        self.withhold_if(is_worthless, ("routes-disagree", field), text, rests_on).mended(mends);
    }

    /// A rate by free and fitted length under the weight that is off the stated one by more than both ±, though the
    /// routes still agree.
    fn lengths_against_rate(&mut self, axle: &AxleAnswer, routes: &Routes) {
        let of = |kind: RouteKind| routes.list.iter().find(|r| r.kind == kind).map(|r| r.wheel_rate);
        let (Some(stated), Some(lengths)) = (of(RouteKind::Stated), of(RouteKind::Closure)) else { return };
        let off = lengths.value / stated.value - 1.0;
        if off.abs() < LENGTHS_AGREE || (lengths.value - stated.value).abs() < ASKED * lengths.u.hypot(stated.u) {
            return;
        }
        let rate = |k: f64| Amount::rounded(SpringRate::from_si(k), self.units);
        let text = message!(
            "{who}, wheel rate: free and fitted length under the weight give {lengths}; that is {off:.0} % off the {stated} from the stated rate. Measure both lengths again, along the spring's axis. A press, ballast or arch heights would show which is wrong.",
            who = axle.side.word(),
            lengths = rate(lengths.value),
            stated = rate(stated.value),
            off = off.abs() * 100.0
        );
        let mends = self.without_stated(axle, routes);
        self.push_with(
            Level::Doubt,
            "lengths-against-rate",
            format!("{}.spring.free_length", axle.side.key()),
            text,
            mends,
        );
    }

    /// The field to look at first when a route is wrong: what this kind of spring was measured by.
    pub(in crate::solve::findings) fn field_of(&self, axle: &AxleAnswer, route: RouteKind) -> String {
        let key = axle.side.key();
        match route {
            RouteKind::Spring => format!("{key}.{}", self.rate_field(axle)),
            RouteKind::Swap => self.arch_field(axle.side, false),
            other => format!("{key}.{}", other.field()),
        }
    }

    /// The field in which hub to arch of an axle was typed: its mean, or the left corner.
    fn arch_field(&self, side: Side, is_before: bool) -> String {
        let when = if is_before { "before" } else { "after" };
        let checks = &self.job().axle(side).checks;
        let mean = if is_before { &checks.arch_before } else { &checks.arch_after };
        match (self.reading.typed::<Length>(mean), side) {
            (Some(_), _) => format!("{}.checks.arch_{when}", side.key()),
            (None, Side::Front) => format!("{when}.arch.lf"),
            (None, Side::Rear) => format!("{when}.arch.lr"),
        }
    }

    /// Readings in addition to the spring that contradict the weights.
    fn checks(&mut self, axle: &AxleAnswer) {
        let (key, who) = (axle.side.key(), axle.side.word());
        let checks = &self.job().axle(axle.side).checks;
        let arch = axle.arch.both();
        if let ([Some(before), Some(after)], Some(was), Some(is)) =
            (arch, axle.masses.stood.before, axle.masses.stood.after)
            && (is - was).si() * (before - after).si() < 0.0
        {
            let moved = self.length(Length::from_si((before - after).si().abs()));
            let text = if is > was {
                message!(
                    "{who}: the axle got heavier, yet the arch rose by {moved}. Check both heights, and that nothing else was changed between the two measurements.",
                    who,
                    moved
                )
            } else {
                message!(
                    "{who}: the axle got lighter, yet the arch sank by {moved}. Check both heights, and that nothing else was changed between the two measurements.",
                    who,
                    moved
                )
            };
            let [before, after] = [true, false].map(|is_before| self.arch_field(axle.side, is_before));
            let mend = after.contains("checks").then(|| self.swap(&before, &after)).flatten();
            self.push_with(Level::Doubt, "arch-against-weight", after, text, mend);
        }
        let counted = self.reading.typed(&checks.bounces).is_some_and(|n: Ratio| n.si() > 0.0);
        if counted
            && self.reading.typed(&checks.bounce_time).is_some()
            && axle.masses.sprung.after.is_some()
            && axle.motion_ratio.is_some()
            && axle.route_rates[RouteKind::Bounce as usize].is_none()
        {
            let text = message!(
                "{who}: this count in this time gives a higher frequency than the tyre alone allows. Check count, time and tyre rate. The body must bounce on the springs, with the dampers off.",
                who
            );
            self.push(Level::Doubt, "bounce-too-fast", format!("{key}.checks.bounce_time"), text);
        }
    }
}

/// Whether lengths fall as wheel travel grows, by a straight line through them; `None` when all are at one travel.
fn points_fall(points: &[(f64, f64)]) -> Option<bool> {
    let n = points.len() as f64;
    let mean = |of: fn(&(f64, f64)) -> f64| points.iter().map(of).sum::<f64>() / n;
    let (z, l) = (mean(|p| p.0), mean(|p| p.1));
    let slope: f64 = points.iter().map(|p| (p.0 - z) * (p.1 - l)).sum();
    (slope != 0.0).then_some(slope < 0.0)
}

fn upside_down(who: &Message, moves: Moves, ratio: f64) -> Message {
    let turned = 1.0 / ratio;
    if moves == Moves::Spring {
        message!(
            "{who} {ratio:.3} is above 1 and appears to be inverted (wheel ÷ spring). The program uses spring travel ÷ wheel travel; inverted, the value is {turned:.3}.",
            who,
            ratio,
            turned
        )
    } else {
        message!(
            "{who} {ratio:.3} is above 1 and appears to be inverted (wheel ÷ damper). The program uses damper travel ÷ wheel travel; inverted, the value is {turned:.3}.",
            who,
            ratio,
            turned
        )
    }
}

fn unconfirmed(who: &Message, moves: Moves, ratio: f64) -> Message {
    if moves == Moves::Spring {
        message!(
            "{who} {ratio:.3} is not backed by measurements. To confirm it: if the wheel moves up 1.00, how far does the spring move? Two measured lengths are better.",
            who,
            ratio
        )
    } else {
        message!(
            "{who} {ratio:.3} is not backed by measurements. To confirm it: if the wheel moves up 1.00, how far does the damper move? Two measured lengths are better.",
            who,
            ratio
        )
    }
}

fn contradicted(who: &Message, of: Moves, ratio: f64, moves: f64) -> Message {
    if of == Moves::Spring {
        message!(
            "{who} is entered as {ratio:.3}, but the spring moves {moves:.3} when the wheel moves 1.00.",
            who,
            ratio,
            moves
        )
    } else {
        message!(
            "{who} is entered as {ratio:.3}, but the damper moves {moves:.3} when the wheel moves 1.00.",
            who,
            ratio,
            moves
        )
    }
}
