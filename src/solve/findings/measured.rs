//! Findings about motion ratios, rates and lengths: routes that disagree, and why.

use super::Say;
use crate::job::{Level, RatioBy, Side, SpringKind};
use crate::solve::answer::{Answer, AxleAnswer, RouteKind, State};
use crate::solve::routes::UNIT_FACTORS;
use crate::units::{Frequency, Length, Quantity, Ratio, SpringRate, display};

impl Say<'_> {
    pub(super) fn motion_ratio(&mut self, axle: &AxleAnswer) {
        let data = self.job().axle(axle.side);
        let spring_ratio = axle.motion_ratio.filter(|_| axle.kind != SpringKind::TorsionBar);
        for (part, name, ratio, found) in [
            ("ratio", "spring", &data.ratio, spring_ratio),
            (
                "damper_ratio",
                "damper",
                &data.damper_ratio,
                axle.damper_motion_ratio.filter(|_| !crate::solve::read::ratio_is_blank(&data.damper_ratio)),
            ),
        ] {
            let field = format!("{}.{part}.{}", axle.side.key(), ratio.by.first_field());
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
            if ratio.by == RatioBy::Number && !crate::solve::read::ratio_is_blank(ratio) {
                self.confirmed(&who, name, part, axle.side, r);
            }
        }
    }

    fn confirmed(&mut self, who: &str, name: &str, part: &str, side: Side, r: f64) {
        let data = self.job().axle(side);
        let entry = if part == "ratio" { &data.ratio.confirm } else { &data.damper_ratio.confirm };
        let field = format!("{}.{part}.confirm", side.key());
        let confirm: Option<Ratio> = self.reader.typed(entry);
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
            let text = format!(
                "{who}, old spring: its free length is not above its length at ride height, so it would carry nothing. Check both lengths."
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
            format!("{who}, wheel rate: the two ways disagree ({}). {cause}", said.join("; "))
        } else {
            format!("{who}, wheel rate: {} stands apart ({}). {cause}", odd.words(), said.join("; "))
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
            let (heavier, moved) = if is > was { ("heavier", "rose") } else { ("lighter", "sank") };
            let text = format!(
                "{who}: the axle got {heavier}, yet the arch {moved} by {}. Check both heights, and that nothing else was changed between them.",
                self.length(Length::from_si((before - after).si().abs()))
            );
            self.push(Level::Doubt, "arch-against-weight", format!("{key}.checks.arch_after"), text);
        }
        let counted = self.reader.typed(&checks.bounces).is_some_and(|n: Ratio| n.si() > 0.0);
        if counted
            && self.reader.typed(&checks.bounce_time).is_some()
            && axle.sprung_after.is_some()
            && axle.motion_ratio.is_some()
            && axle.route_rates[RouteKind::Bounce as usize].is_none()
        {
            let text = format!(
                "{who}: so many bounces in that time are quicker than the tyre alone allows. Check count, time and tyre rate; the axle must bounce on its springs, dampers off."
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
        let words = if state == State::Before { "before the swap" } else { "on the old springs" };
        self.push(
            Level::Doubt,
            "frequency",
            format!("{}.{}", axle.side.key(), self.rate_field(axle)),
            format!(
                "{} {words}: {} bounces per second is not credible; {} to {} is (limits of this job). {}",
                axle.side.word(),
                display::significant(f.si(), 3),
                display::significant(low.si(), 3),
                display::significant(high.si(), 3),
                frequency_cause(f, axle.motion_ratio)
            ),
        );
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
