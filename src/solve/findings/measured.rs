//! Findings about motion ratios, rates and lengths: routes that disagree, and why.

use super::Say;
use crate::job::{Level, MotionRatio, RatioBy, Side, SpringKind};
use crate::language::tr;
use crate::say;
use crate::solve::answer::{Answer, AxleAnswer, RouteKind, State};
use crate::solve::routes::UNIT_FACTORS;
use crate::units::{Frequency, Length, Quantity, Ratio, SpringRate, display};

impl Say<'_> {
    pub(super) fn motion_ratio(&mut self, axle: &AxleAnswer) {
        let data = self.job().axle(axle.side);
        let spring_ratio = axle.motion_ratio.filter(|_| axle.kind != SpringKind::TorsionBar);
        for (part, ratio, found) in [
            ("ratio", &data.ratio, spring_ratio),
            (
                "damper_ratio",
                &data.damper_ratio,
                axle.damper_motion_ratio.filter(|_| !crate::solve::read::ratio_is_blank(&data.damper_ratio)),
            ),
        ] {
            let field = format!("{}.{part}.{}", axle.side.key(), ratio.by.first_field());
            self.turned_rows(axle.side, ratio, &field);
            let Some(r) = found.map(Quantity::si) else { continue };
            let is_spring = part == "ratio";
            let who = if is_spring {
                say!("{side}, spring motion ratio", side = axle.side.word())
            } else {
                say!("{side}, damper motion ratio", side = axle.side.word())
            };
            let usual = |r: f64| (0.45..=1.02).contains(&r);
            if r > 1.02 && usual(1.0 / r) {
                self.push(Level::Doubt, "ratio-upside-down", field.clone(), upside_down(&who, is_spring, r));
            } else if r < 0.45 && usual(r.sqrt()) {
                self.push(Level::Doubt, "ratio-squared", field.clone(), say!(
                    "{who} {ratio:.3} is low: it looks already squared. Its root is {root:.3}; type the ratio of lengths, the program squares it.",
                    who, ratio = r, root = r.sqrt()
                ));
            } else if !usual(r) && ratio.by != RatioBy::Number {
                self.push(
                    Level::Doubt,
                    "ratio-unusual",
                    field.clone(),
                    say!(
                        "{who} is {ratio:.3}; 0.45 to 1.02 is usual. Check both lengths and their units.",
                        who,
                        ratio = r
                    ),
                );
            }
            if ratio.by == RatioBy::Number && !crate::solve::read::ratio_is_blank(ratio) {
                self.confirmed(&who, is_spring, axle.side, r);
            }
        }
    }

    /// Rows that can be read, but by which the part does not get shorter when the wheel goes up.
    fn turned_rows(&mut self, side: Side, ratio: &MotionRatio, field: &str) {
        if ratio.by != RatioBy::Rows || self.reader.length_curve(ratio).is_some() {
            return;
        }
        let Some(points) = self.reader.points(ratio).filter(|p| p.len() > 1) else { return };
        let travel = |p: &(f64, f64)| p.0;
        let ends = points.iter().map(travel).fold((f64::MAX, f64::MIN), |(low, high), z| (low.min(z), high.max(z)));
        let text = if ends.1 - ends.0 <= 0.0 {
            say!(
                "{side}: all rows are at one wheel travel, so they say nothing about the motion ratio. Measure the length with the wheel higher and lower, too.",
                side = side.word()
            )
        } else {
            say!(
                "{side}: by these rows the length does not get shorter as the wheel goes up, so they give no motion ratio. Wheel travel is + upwards, towards the body: turn the signs round if they were written the other way, else look for a row that is swapped.",
                side = side.word()
            )
        };
        self.push(Level::Error, "rows-turned", field, text);
    }

    fn confirmed(&mut self, who: &str, is_spring: bool, side: Side, r: f64) {
        let data = self.job().axle(side);
        let (part, entry) =
            if is_spring { ("ratio", &data.ratio.confirm) } else { ("damper_ratio", &data.damper_ratio.confirm) };
        let field = format!("{}.{part}.confirm", side.key());
        let confirm: Option<Ratio> = self.reader.typed(entry);
        match confirm.map(Quantity::si) {
            None if entry.text.trim().is_empty() => {
                self.push(Level::Doubt, "ratio-unconfirmed", field, unconfirmed(who, is_spring, r));
            }
            Some(c) if (c / r - 1.0).abs() > 0.02 => {
                let cause = if (c * r - 1.0).abs() < 0.03 {
                    tr("One of them is upside down.")
                } else if (c * c / r - 1.0).abs() < 0.05 {
                    tr("The ratio looks already squared.")
                } else {
                    tr("Measure two lengths instead.")
                };
                let found = contradicted(who, is_spring, r, c);
                self.push(Level::Doubt, "ratio-contradicted", field, format!("{found} {cause}"));
            }
            _ => {}
        }
    }

    /// Lengths that cannot be, and the route to the wheel rate that stands apart.
    pub(super) fn routes(&mut self, axle: &AxleAnswer, answer: &Answer) {
        let (key, who) = (axle.side.key(), axle.side.word());
        let data = &self.job().axle(axle.side).spring;
        let free: Option<Length> = self.reader.typed(&data.free_length);
        let fitted: Option<Length> = self.reader.typed(&data.fitted_length);
        if let (Some(free), Some(fitted)) = (free, fitted)
            && axle.kind == SpringKind::Coil
            && free <= fitted
        {
            let text = say!(
                "{who}, old spring: its free length is not above its length at ride height, so it would carry nothing. Check both lengths.",
                who
            );
            self.push(Level::Doubt, "lengths-contradict", format!("{key}.spring.free_length"), text);
            return;
        }
        self.checks(axle);
        let routes = &answer.checked(axle.side).routes;
        let Some((odd, cause)) = &routes.odd else { return };
        let said: Vec<String> = routes
            .list
            .iter()
            .map(|r| {
                let rate = SpringRate::from_si(r.wheel_rate.value);
                format!("{} {}", r.kind.words(), display::rounded(rate, self.units))
            })
            .collect();
        let text = if said.len() == 2 {
            say!("{who}, wheel rate: the two ways disagree ({ways}). {cause}", who, cause, ways = said.join("; "))
        } else {
            say!(
                "{who}, wheel rate: {odd} stands apart ({ways}). {cause}",
                who,
                cause,
                odd = odd.words(),
                ways = said.join("; ")
            )
        };
        self.push(Level::Doubt, "routes-disagree", format!("{key}.{}", self.field_of(axle, *odd)), text);
    }

    /// The field to look at first when a route is wrong: what this kind of spring was measured by.
    fn field_of(&self, axle: &AxleAnswer, route: RouteKind) -> &'static str {
        match route {
            RouteKind::Spring => self.rate_field(axle),
            other => other.field(),
        }
    }

    /// Readings beside the spring that contradict the weights.
    fn checks(&mut self, axle: &AxleAnswer) {
        let (key, who) = (axle.side.key(), axle.side.word());
        let checks = &self.job().axle(axle.side).checks;
        let arch: (Option<Length>, Option<Length>) =
            (self.reader.typed(&checks.arch_before), self.reader.typed(&checks.arch_after));
        if let ((Some(before), Some(after)), Some(was), Some(is)) = (arch, axle.stood[0], axle.stood[1])
            && (is - was).si() * (before - after).si() < 0.0
        {
            let moved = self.length(Length::from_si((before - after).si().abs()));
            let text = if is > was {
                say!(
                    "{who}: the axle got heavier, yet the arch rose by {moved}. Check both heights, and that nothing else was changed between them.",
                    who,
                    moved
                )
            } else {
                say!(
                    "{who}: the axle got lighter, yet the arch sank by {moved}. Check both heights, and that nothing else was changed between them.",
                    who,
                    moved
                )
            };
            self.push(Level::Doubt, "arch-against-weight", format!("{key}.checks.arch_after"), text);
        }
        let counted = self.reader.typed(&checks.bounces).is_some_and(|n: Ratio| n.si() > 0.0);
        if counted
            && self.reader.typed(&checks.bounce_time).is_some()
            && axle.sprung_after.is_some()
            && axle.motion_ratio.is_some()
            && axle.route_rates[RouteKind::Bounce as usize].is_none()
        {
            let text = say!(
                "{who}: so many bounces in that time are quicker than the tyre alone allows. Check count, time and tyre rate; the axle must bounce on its springs, dampers off.",
                who
            );
            self.push(Level::Doubt, "bounce-too-fast", format!("{key}.checks.bounce_time"), text);
        }
    }

    pub(super) fn frequencies(&mut self, axle: &AxleAnswer) {
        let low = self.limit(|j| &j.limits.frequency_low);
        let high = self.limit(|j| &j.limits.frequency_high);
        let (Some(low), Some(high)) = (low, high) else { return };
        let seen =
            [State::Before, State::OldSprings].into_iter().find_map(|s| Some((s, axle.standing.of(s).as_ref()?)));
        let Some((state, standing)) = seen else { return };
        let f = standing.frequency;
        if (f >= low && f <= high) || standing.on_stop {
            return;
        }
        let words = if state == State::Before { tr("before the swap") } else { tr("on the old springs") };
        self.push(
            Level::Doubt,
            "frequency",
            format!("{}.{}", axle.side.key(), self.rate_field(axle)),
            say!(
                "{side} {state}: {found} bounces per second is not credible; {low} to {high} is (limits of this job). {cause}",
                state = words, side = axle.side.word(), found = display::significant(f.si(), 3), low = display::significant(low.si(), 3), high = display::significant(high.si(), 3), cause = frequency_cause(f, axle.motion_ratio)
            ),
        );
    }
}

fn upside_down(who: &str, is_spring: bool, ratio: f64) -> String {
    let turned = 1.0 / ratio;
    if is_spring {
        say!(
            "{who} {ratio:.3} is above 1: it looks upside down (wheel ÷ spring). Here it is spring travel ÷ wheel travel; turned over it is {turned:.3}.",
            who,
            ratio,
            turned
        )
    } else {
        say!(
            "{who} {ratio:.3} is above 1: it looks upside down (wheel ÷ damper). Here it is damper travel ÷ wheel travel; turned over it is {turned:.3}.",
            who,
            ratio,
            turned
        )
    }
}

fn unconfirmed(who: &str, is_spring: bool, ratio: f64) -> String {
    if is_spring {
        say!(
            "{who} {ratio:.3} is a bare number. Confirm it: the wheel moves up 1.00, how far does the spring move? Two measured lengths are better.",
            who,
            ratio
        )
    } else {
        say!(
            "{who} {ratio:.3} is a bare number. Confirm it: the wheel moves up 1.00, how far does the damper move? Two measured lengths are better.",
            who,
            ratio
        )
    }
}

fn contradicted(who: &str, is_spring: bool, ratio: f64, moves: f64) -> String {
    if is_spring {
        say!(
            "{who} is typed as {ratio:.3}, but the spring moves {moves:.3} when the wheel moves 1.00.",
            who,
            ratio,
            moves
        )
    } else {
        say!(
            "{who} is typed as {ratio:.3}, but the damper moves {moves:.3} when the wheel moves 1.00.",
            who,
            ratio,
            moves
        )
    }
}

/// The likeliest cause of a frequency that cannot be.
fn frequency_cause(f: Frequency, r: Option<Ratio>) -> String {
    let credible = |f: f64| (1.0..=2.2).contains(&f);
    let r = r.map_or(1.0, Quantity::si);
    if r > 1.02 && credible(f.si() / (r * r)) {
        return say!(
            "A motion ratio of {ratio:.2} turned over ({turned:.2}) would give {frequency:.2} Hz.",
            ratio = r,
            turned = 1.0 / r,
            frequency = f.si() / (r * r)
        );
    }
    if r < 0.45 && credible(f.si() / r.sqrt()) {
        return say!(
            "A motion ratio of {root:.2} instead of {ratio:.2} (already squared?) would give {frequency:.2} Hz.",
            ratio = r,
            root = r.sqrt(),
            frequency = f.si() / r.sqrt()
        );
    }
    for (factor, words) in UNIT_FACTORS {
        for by in [factor.sqrt(), 1.0 / factor.sqrt()] {
            if credible(f.si() * by) {
                return say!(
                    "A unit mix-up would explain it: {mix_up}. Check the rate's unit, then the motion ratio.",
                    mix_up = tr(words)
                );
            }
        }
    }
    tr("Check the rate's unit and the motion ratio.").into()
}
