//! Findings about what was measured of a spring: sizes and tables that cannot be.

use crate::base::language::Word;
use crate::base::message::Message;
use crate::base::units::{Amount, Angle, Force, Length, Quantity, Ratio};
use crate::job::read::{Read, WireSizes};
use crate::job::{LeafBy, Level, Mend, SpringKind};
use crate::message;
use crate::solve::answer::{AxleAnswer, Standing};
use crate::solve::evaluate::axle::known::{STEEPEST_ARM_RAD, stop_table};
use crate::solve::findings::Say;
use crate::solve::findings::edge::outside;
use crate::trade::spring::{Points, Spring, press};

impl Say<'_> {
    /// Sizes that were typed, but cannot belong together; only those that this kind of spring uses.
    pub(in crate::solve::findings) fn spring_sizes(&mut self, axle: &AxleAnswer) {
        match axle.kind {
            SpringKind::Coil | SpringKind::WithHelper => self.coil_sizes(axle),
            SpringKind::Progressive => {}
            SpringKind::TorsionBar => self.bar_sizes(axle),
            SpringKind::Leaf => self.leaf_sizes(axle),
        }
        if axle.kind.is_coil() {
            self.lengths_of_coils(axle);
            self.wire_sizes(axle, &self.job().axle(axle.side).stock.coil, "stock.coil");
        }
        self.tables(axle);
    }

    /// What cannot be, with what would mend it.
    fn cannot_be(
        &mut self,
        axle: &AxleAnswer,
        level: Level,
        rule: &'static str,
        field: &str,
        text: impl Into<Message>,
        mend: Option<Mend>,
    ) {
        let (key, who) = (axle.side.key(), axle.side.word());
        self.push_with(level, rule, format!("{key}.{field}"), Message::row([who.into(), text.into()], ": "), mend);
    }

    /// Two fields of an axle, swapped.
    fn swap_of(&self, axle: &AxleAnswer, one: &str, other: &str) -> Option<Mend> {
        let key = axle.side.key();
        self.swap(&format!("{key}.{one}"), &format!("{key}.{other}"))
    }

    fn coil_sizes(&mut self, axle: &AxleAnswer) {
        let data = &self.job().axle(axle.side).spring;
        self.wire_sizes(axle, &data.wire, "spring.wire");
        let read = |l| self.reading.typed::<Length>(l);
        let load = |l| self.reading.typed::<Force>(l);
        let press = &data.press;
        if let (Some(first), Some(second)) = (read(&press.first_length), read(&press.second_length)) {
            let loads = load(&press.first_load).zip(load(&press.second_load));
            let fitted = read(&data.fitted_length);
            let (short, long) = if first < second { (first, second) } else { (second, first) };
            if loads.is_some_and(|(f, s)| press::rate((first, f), (second, s)).is_none()) {
                let text = Word(
                    "in the press, the load must be higher at the shorter length. Check both lengths and both loads.",
                );
                let turned = loads.is_some_and(|(f, s)| f != s) && first != second;
                let swap = self.swap_of(axle, "spring.press.first_load", "spring.press.second_load");
                let mend = swap.filter(|_| turned);
                self.cannot_be(axle, Level::Error, "press-contradicts", "spring.press.second_load", text, mend);
            } else if let Some(fitted) = fitted.filter(|l| {
                let u = self.reading.typed_with_u(&data.fitted_length).map(|m| m.u);
                outside(l.si(), [short.si(), long.si()], u).is_some()
            }) {
                let text = message!(
                    "the press was read at {long} and {short}; the spring is {fitted} long at ride height. Take readings on both sides of that length.",
                    long = self.length(long),
                    short = self.length(short),
                    fitted = self.length(fitted)
                );
                self.cannot_be(axle, Level::Doubt, "press-elsewhere", "spring.press.first_length", text, None);
            }
        }
        let helper = &data.helper;
        if axle.kind == SpringKind::WithHelper
            && let (Some(free), Some(solid)) = (read(&helper.free_length), read(&helper.solid_length))
            && solid >= free
        {
            let text = Word("the helper's solid length must be shorter than its free length. Measure both again.");
            let swap = self.swap_of(axle, "spring.helper.free_length", "spring.helper.solid_length");
            let mend = swap.filter(|_| solid > free);
            self.cannot_be(axle, Level::Error, "helper-lengths", "spring.helper.solid_length", text, mend);
        }
    }

    /// Solid lengths that the spring could not even stand on.
    fn lengths_of_coils(&mut self, axle: &AxleAnswer) {
        let data = self.job().axle(axle.side);
        let read = |l| self.reading.typed::<Length>(l);
        let Some(fitted) = read(&data.spring.fitted_length) else { return };
        for (solid, field) in [
            (read(&data.spring.solid_length), "spring.solid_length"),
            (read(&data.stock.solid_length), "stock.solid_length"),
        ] {
            if let Some(solid) = solid.filter(|s| *s >= fitted) {
                let text = message!(
                    "a spring with a solid length of {solid} cannot be {fitted} long at ride height. Check both lengths.",
                    solid = self.length(solid),
                    fitted = self.length(fitted)
                );
                let swap = self.swap_of(axle, "spring.solid_length", "spring.fitted_length");
                let mend = swap.filter(|_| solid > fitted && field == "spring.solid_length");
                self.cannot_be(axle, Level::Error, "solid-above-fitted", field, text, mend);
            }
        }
    }

    fn bar_sizes(&mut self, axle: &AxleAnswer) {
        let bar = &self.job().axle(axle.side).spring.bar;
        let read = |l| self.reading.typed::<Length>(l);
        if let (Some(inside), Some(outside)) = (read(&bar.inside_diameter), read(&bar.diameter))
            && inside >= outside
        {
            let text = Word("the bore must be smaller than the bar diameter. Measure both again.");
            let swap = self.swap_of(axle, "spring.bar.inside_diameter", "spring.bar.diameter");
            let mend = swap.filter(|_| inside > outside);
            self.cannot_be(axle, Level::Error, "bar-bore", "spring.bar.inside_diameter", text, mend);
        }
        let angle: Option<Angle> = self.reading.typed(&bar.angle);
        if angle.is_some_and(|a| a.si().abs() > STEEPEST_ARM_RAD) {
            let text = message!(
                "an arm {angle:.0}° from level is almost vertical. Measure the angle from level, not from vertical.",
                angle = angle.map_or(0.0, |a| a.si().to_degrees())
            );
            let mend = angle.map(|a| self.angle_from_level(&format!("{}.spring.bar.angle", axle.side.key()), a));
            self.cannot_be(axle, Level::Error, "arm-upright", "spring.bar.angle", text, mend);
        }
    }

    fn leaf_sizes(&mut self, axle: &AxleAnswer) {
        let leaf = &self.job().axle(axle.side).spring.leaf;
        let read = |l| self.reading.typed::<Length>(l);
        if let (Some(clamped), Some(span)) = (read(&leaf.clamped), read(&leaf.span))
            && clamped >= span
        {
            let text = Word("the clamped length must be shorter than the span. Measure both again.");
            let swap = self.swap_of(axle, "spring.leaf.clamped", "spring.leaf.span");
            let mend = swap.filter(|_| clamped > span);
            self.cannot_be(axle, Level::Error, "leaf-clamped", "spring.leaf.clamped", text, mend);
        }
        let count = |l| self.reading.typed::<Ratio>(l);
        if let (Some(full), Some(all)) = (count(&leaf.full_length), count(&leaf.leaves))
            && full > all
        {
            let text = Word("more full-length leaves are given than leaves in total.");
            let mend = self.swap_of(axle, "spring.leaf.full_length", "spring.leaf.leaves");
            self.cannot_be(axle, Level::Error, "leaf-count", "spring.leaf.full_length", text, mend);
        }
        let gap = axle.old_spring.leaf.and_then(|l| l.test).and_then(|t| t.loop_height);
        if gap.is_some_and(|g| g.si() < 0.0) {
            let text = Word(
                "at equal load the leaf spring sits higher while unloading than while loading; with friction it must sit lower. Are the two columns swapped?",
            );
            let mend = self.swapped_branches(axle.side, leaf.rows.len());
            self.cannot_be(axle, Level::Doubt, "leaf-loop", "spring.leaf.rows[0].unloading", text, Some(mend));
        }
    }

    fn wire_sizes(&mut self, axle: &AxleAnswer, wire: &WireSizes, at: &str) {
        let (diameter, outside) = (self.reading.typed(&wire.diameter), self.reading.typed(&wire.outside_diameter));
        if let (Some(diameter), Some(outside)) = (diameter, outside)
            && outside - diameter <= diameter
        {
            let changed_over = diameter - outside > outside;
            let (outside, diameter) = (self.length(outside), self.length(diameter));
            let text = message!(
                "a spring with an outside diameter of {outside} cannot be wound from {diameter} wire. Check both diameters and their units.",
                outside,
                diameter
            );
            let [wire, across] = ["diameter", "outside_diameter"].map(|size| format!("{at}.{size}"));
            let mend = self.swap_of(axle, &wire, &across).filter(|_| changed_over);
            self.cannot_be(axle, Level::Error, "wire-too-thick", &across, text, mend);
        }
        let total: Option<Ratio> = self.reading.typed(&wire.total_coils);
        let active: Option<Ratio> = self.reading.typed(&wire.active_coils);
        match (total, active, wire.ends.dead_coils()) {
            (Some(_), None, None) => {
                let text = Word(
                    "with these ends the active coils cannot be calculated from the total coils. Count them from where each end coil leaves its seat.",
                );
                self.cannot_be(axle, Level::Error, "count-coils", &format!("{at}.active_coils"), text, None);
            }
            (Some(total), None, Some(dead)) if total.si() <= dead => {
                let text = message!(
                    "with these ends {dead} of {total} coils are dead, so no active coils remain. Check the count and the ends.",
                    total = Amount::significant(total.si(), 3),
                    dead = Amount::significant(dead, 2)
                );
                self.cannot_be(axle, Level::Error, "no-coil-works", &format!("{at}.total_coils"), text, None);
            }
            (Some(total), Some(active), Some(dead)) if (total.si() - dead - active.si()).abs() > 1.0 => {
                let text = message!(
                    "{total} total coils and {active} active coils do not match these ends, which have {dead} dead coils. The active coils are used; check both numbers.",
                    total = Amount::significant(total.si(), 3),
                    active = Amount::significant(active.si(), 3),
                    dead = Amount::significant(dead, 2)
                );
                let blank = format!("{}.{at}.active_coils", axle.side.key());
                let mend = Mend::new(Word("Calculate from total coils and ends")).set(blank, "");
                self.cannot_be(axle, Level::Doubt, "coils-contradict", &format!("{at}.total_coils"), text, Some(mend));
            }
            _ => {}
        }
    }

    /// Tables of loads that do not rise, and ride heights outside them.
    fn tables(&mut self, axle: &AxleAnswer) {
        let data = self.job().axle(axle.side);
        let key = axle.side.key();
        let reading = self.reading;
        let pair = |length: &Read<Length>, load: &Read<Force>| {
            reading.typed(length).zip(reading.typed(load)).map(|(length, load)| (length.si(), load.si()))
        };
        let points: Vec<(f64, f64)> = data.spring.points.iter().filter_map(|p| pair(&p.length, &p.load)).collect();
        if data.spring.kind == SpringKind::Progressive && points.len() >= 2 {
            match Points::through(&points) {
                None => self.push(Level::Error, "points-fall", format!("{key}.spring.points[0].load"), message!(
                    "{side}: the loads of the progressive spring do not rise as the spring gets shorter. Measure the spring in the press again.",
                    side = axle.side.word()
                )),
                Some(table) => self.beyond(axle, &table),
            }
        }
        let squeezed: Vec<(f64, f64)> = data.stop.rows.iter().filter_map(|r| pair(&r.squeeze, &r.load)).collect();
        if !squeezed.is_empty() && stop_table(squeezed).is_none() {
            self.push(
                Level::Error,
                "stop-falls",
                format!("{key}.stop.rows[0].load"),
                message!(
                    "{side}: the bump stop table must start at zero and rise with every row. Measure the bump stop again.",
                    side = axle.side.word()
                ),
            );
        }
        let loads = data.spring.leaf.rows.iter().filter_map(|r| self.reading.typed::<Force>(&r.load)).count();
        if data.spring.kind == SpringKind::Leaf
            && data.spring.leaf.by == LeafBy::Test
            && loads >= 2
            && axle.old_spring.leaf.is_none_or(|l| l.test.is_none())
        {
            self.push(
                Level::Error,
                "leaf-rises",
                format!("{key}.spring.leaf.rows[0].loading"),
                message!(
                    "{side}: in the leaf spring test the height must fall as the load grows. Check heights and loads, row by row.",
                    side = axle.side.word()
                ),
            );
        }
    }

    /// Somewhere in the results, a progressive coil is outside its measured points: its end slope is then only
    /// believed. The first such place is reported.
    fn beyond(&mut self, axle: &AxleAnswer, table: &Points) {
        let u = self.reading.typed_with_u(&self.job().axle(axle.side).spring.fitted_length).map(|m| m.u);
        let (short, long) = table.measured_m();
        // From its free length on it carries nothing, which needs no measuring.
        let longest = if table.free_length_m() > long { long } else { f64::INFINITY };
        for standing in [&axle.standing.before, &axle.standing.old].into_iter().flatten() {
            let Spring::Points(placed) = &standing.curve.spring else { continue };
            let measured_as = table.free_length_m() - placed.free_length_m();
            for (level, place, travel) in self.told_at(axle, standing) {
                let at = standing.curve.spring_length.length(travel).si() + measured_as;
                if outside(at, [short, longest], u).is_some() {
                    let text = message!(
                        "{side}: {place} the progressive spring would be {length} long, outside the measured points ({short} to {long}). The curve's end slope is used there; measure the spring at that length.",
                        side = axle.side.word(),
                        place,
                        length = self.length(Length::from_si(at)),
                        short = self.length(Length::from_si(short)),
                        long = self.length(Length::from_si(long))
                    );
                    self.push(level, "outside-points", format!("{}.spring.points[0].length", axle.side.key()), text);
                    return;
                }
            }
        }
    }

    /// Where results of old springs are shown: at ride height, under each load case, where the reserve ends, at full
    /// droop. What rests on the end of a travel is worth a note only.
    fn told_at(&self, axle: &AxleAnswer, standing: &Standing) -> Vec<(Level, Message, Length)> {
        let mut places = vec![(Level::Doubt, message!("at ride height"), standing.travel)];
        let cases = self.answer.cases.iter().filter(|c| c.index.is_some());
        places.extend(cases.filter_map(|case| {
            let stands = case.standing[axle.side].old.as_ref()?;
            Some((Level::Doubt, message!("in the load case \"{name}\"", name = &case.name), stands.on.travel))
        }));
        let bump = standing.curve.first_contact_m().map(Length::from_si).or(axle.travel.metal);
        places.extend(bump.map(|travel| (Level::Note, message!("at the end of bump travel"), travel)));
        let droop = axle.travel.droop.map(|droop| -droop);
        places.extend(droop.map(|travel| (Level::Note, message!("at full droop"), travel)));
        places
    }
}
