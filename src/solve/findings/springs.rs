//! Findings about springs in detail: stress, gaps, cut coils, helpers, bars, leaves, bags.

use super::Say;
use crate::job::{BagFitted, Level, SpringKind};
use crate::solve::answer::{Answer, AxleAnswer, CoilFacts};
use crate::solve::keeps;
use crate::solve::known::is_blank;
use crate::spring::Spring;
use crate::units::{Length, Quantity, SpringRate, display, weight};
use crate::wheel::ForceTravel;

/// Above this gauge pressure a helper bag is beyond what shops fit, Pa. Common practice, no source.
const HIGH_BAG_PA: f64 = 7e5;
/// Stated rate and rate by wire may differ by this share. Common practice, no source.
const STAMP_AGREES: f64 = 0.10;
/// An arm steeper than this makes small errors of its angle count, rad.
const STEEP_RAD: f64 = 0.8;
/// Friction above this share of the leaf's load wants a look at the leaf.
const FRICTION_SHARE: f64 = 0.15;

impl Say<'_> {
    /// Stress, slenderness and gaps of a coil by its wire.
    pub(super) fn coils(&mut self, axle: &AxleAnswer, answer: &Answer) {
        let (key, who) = (axle.side.key(), axle.side.word());
        let old = axle.old_spring.coil.as_ref().filter(|_| axle.kind.is_coil());
        if let Some(coil) = old {
            self.stresses(axle, coil, "old coil", &format!("{key}.spring.wire.allowed_share"), keeps(axle));
        }
        if let (Some(stated), Some(wire)) =
            (axle.old_spring.stated, axle.old_spring.by_wire.filter(|_| axle.kind == SpringKind::Coil))
            && (wire.value / stated.value - 1.0).abs() > STAMP_AGREES
            && answer.checked(axle.side).routes.odd.is_none()
        {
            let rate = |n_per_m: f64| display::rounded(SpringRate::from_si(n_per_m), self.units);
            let text = format!(
                "{who}: the stated rate is {}, wire and coils make {}. Press the spring, and count its working coils again.",
                rate(stated.value),
                rate(wire.value)
            );
            self.push(Level::Doubt, "stamp-against-wire", format!("{key}.spring.rate"), text);
        }
        if let Some(coil) = &axle.offered {
            self.stresses(axle, coil, "coil on offer", &format!("{key}.stock.coil.allowed_share"), true);
            self.offered(axle, coil);
        }
        let fitted = axle.offered.as_ref().or(old.filter(|_| keeps(axle)));
        if let (Some(coil), Some(room)) = (fitted, axle.room.to_bind)
            && room < coil.wire.least_gaps()
            && room.si() > 0.0
        {
            let text = format!(
                "{who}: {} are left between the coils at full bump; the spring standard asks for {} under a moving load. Choose fewer coils or thinner wire.",
                self.length(room),
                self.length(coil.wire.least_gaps())
            );
            self.push(Level::Note, "gaps", format!("{key}.stock.solid_length"), text);
        }
        let free = axle.sizing.as_ref().and_then(|s| s.free_length).filter(|_| !keeps(axle)).or(axle.old_free_length);
        if let (Some(coil), Some(free)) = (fitted, free)
            && free > coil.wire.longest_unguided()
        {
            let text = format!(
                "{who}: a free length of {} is slender for a coil {} across; above {} it may buckle unless it is guided.",
                self.length(free),
                self.length(Length::from_si(coil.wire.mean_m)),
                self.length(coil.wire.longest_unguided())
            );
            self.push(Level::Note, "slender", format!("{key}.spring.free_length"), text);
        }
    }

    fn stresses(&mut self, axle: &AxleAnswer, coil: &CoilFacts, what: &str, field: &str, stays: bool) {
        let who = axle.side.word();
        let Some(allowed) = coil.allowed else { return };
        let places = [
            ("at ride height", coil.stress_ride),
            ("at full bump", coil.stress_bump),
            ("when solid", coil.stress_solid),
        ];
        if let Some((place, Some(stress))) = places.into_iter().find(|(_, s)| s.is_some_and(|s| s > allowed)) {
            let level = if stays && place != "when solid" { Level::Doubt } else { Level::Note };
            let text = format!(
                "{who}, {what}: {} {place} is above the allowed {}. It will set or crack sooner; peening and presetting raise the limit, ask whoever made it.",
                display::rounded(stress, self.units),
                display::rounded(allowed, self.units)
            );
            self.push(level, "stress", field.to_owned(), text);
        }
        if coil.extrapolated {
            let text = format!(
                "{who}, {what}: the strength of this steel is known for thinner wire only and is read beyond that. Type the tensile strength from the maker's sheet."
            );
            let field = field.replace("allowed_share", "tensile_strength");
            self.push(Level::Note, "strength-extrapolated", field, text);
        }
    }

    fn offered(&mut self, axle: &AxleAnswer, coil: &CoilFacts) {
        let Some(sizing) = axle.sizing.as_ref().filter(|_| !keeps(axle)) else { return };
        let band = &sizing.spring_rate;
        let off = (coil.rate / sizing.pick).si() - 1.0;
        if (coil.rate < band.low || coil.rate > band.high) && off.abs() > 0.03 {
            let text = format!(
                "{}, coil on offer: its wire makes {}; the range asks for {} to {}.",
                axle.side.word(),
                display::rounded(coil.rate, self.units),
                display::rounded(band.low, self.units),
                display::rounded(band.high, self.units)
            );
            self.push(Level::Doubt, "offer-outside", format!("{}.stock.coil.diameter", axle.side.key()), text);
        }
    }

    /// What cutting coils does, and why not.
    pub(super) fn cut_coils(&mut self, axle: &AxleAnswer) {
        let field = format!("{}.spring.cut", axle.side.key());
        if is_blank(&self.job().axle(axle.side).spring.cut) {
            return;
        }
        let who = axle.side.word();
        let Some(cut) = axle.old_spring.cut else {
            let asked: Option<crate::units::Ratio> = self.reader.typed(&self.job().axle(axle.side).spring.cut);
            let active = axle.old_spring.coil.map(|c| c.wire.active);
            if let (Some(asked), Some(active)) = (asked, active)
                && asked.si() >= active
            {
                let text = format!(
                    "{who}: so many coils cannot be cut off; the spring has {} working ones.",
                    display::significant(active, 3)
                );
                self.push(Level::Error, "cut-too-many", field, text);
                return;
            }
            let text = format!(
                "{who}: what cutting does needs a coil of constant rate, its wire, coils and ends, and its free or fitted length."
            );
            self.push(Level::Note, "cut-unknown", field, text);
            return;
        };
        let mut why = vec![format!("it gets stiffer ({}) and lower at once", display::rounded(cut.rate, self.units))];
        if let Some(down) = cut.height_change {
            why.push(format!(
                "the vehicle sits {} than before",
                crate::solve::findings::signed_length(down, self.units)
            ));
        }
        if let Some(room) = cut.stop_room.filter(|r| r.si() < 0.0) {
            why.push(format!("that is {} past the bump stop", self.length(-room)));
        }
        if let Some(seat) = cut.seat.filter(|s| s.si() < 0.0) {
            why.push(format!("it is loose by {} at full droop", self.length(-seat)));
        }
        let text = format!(
            "{who}, cutting {} coil{}: {}. The new end is not closed and sits badly, and some inspections reject cut coils. Have the right spring made.",
            display::significant(cut.coils.si(), 3),
            if cut.coils.si() == 1.0 { "" } else { "s" },
            why.join("; ")
        );
        self.push(Level::Doubt, "cut", field, text);
    }

    /// Helper coils, bars, leaves, bags.
    pub(super) fn other_springs(&mut self, axle: &AxleAnswer) {
        let (key, who) = (axle.side.key(), axle.side.word());
        for (standing, words) in
            [(&axle.standing.old, "on the old springs"), (&axle.standing.new, "on the new springs")]
        {
            if let Some(s) = standing
                && let Spring::Stack(stack) = &s.curve.spring
                && s.spring_force.si() < stack.crossover_force_n()
            {
                let rate = display::rounded(s.spring_rate, self.units);
                let text = format!(
                    "{who} {words}: the helper is still open at ride height, so both coils work in series and the rate there is {rate}. It should be closed: choose a softer or shorter helper."
                );
                self.push(Level::Doubt, "helper-open", format!("{key}.spring.helper.rate"), text);
                break;
            }
        }
        if let Some(bar) = &axle.old_spring.bar {
            let angle: Option<crate::units::Angle> = self.reader.typed(&self.job().axle(axle.side).spring.bar.angle);
            if angle.is_some_and(|a| a.si().abs() > STEEP_RAD) {
                self.push(Level::Doubt, "arm-steep", format!("{key}.spring.bar.angle"), format!(
                    "{who}: the arm is steep; a degree of error counts a lot. Check that the angle is taken from level, not from upright."));
            }
            let over = [("at ride height", bar.stress_ride), ("at full bump", bar.stress_bump)];
            if let (Some((place, Some(stress))), Some(allowed)) =
                (over.into_iter().find(|(_, s)| s.zip(bar.allowed).is_some_and(|(s, a)| s > a)), bar.allowed)
            {
                self.push(Level::Doubt, "bar-stress", format!("{key}.spring.bar.allowed_stress"), format!(
                    "{who}: the bar sees {} {place}; {} is allowed. A thicker bar, or less bump travel, brings it down.",
                    display::rounded(stress, self.units), display::rounded(allowed, self.units)));
            }
            if axle.damper_motion_ratio.is_none() {
                self.push(Level::Note, "damper-ratio-needed", format!("{key}.damper_ratio.wheel_moved"), format!(
                    "{who}: a torsion bar says nothing about the damper. Measure how far the damper moves, and it will be sized too."));
            }
        }
        if let (Some(friction), Some(load)) =
            (axle.old_spring.leaf.and_then(|l| l.test?.friction), axle.standing.old.as_ref().map(|s| s.spring_force))
            && (friction / load).si() > FRICTION_SHARE
            && (friction / load).si().is_finite()
        {
            self.push(Level::Doubt, "leaf-friction", format!("{key}.spring.leaf.rows[0].unloading"), format!(
                "{who}: friction holds {} either way, {:.0} % of the load. The ride height is then a matter of luck: clean and oil the leaves, and look at the shackles.",
                display::rounded(friction, self.units), (friction / load).si() * 100.0));
        }
        self.bags(axle);
        if let Some(wound) = &axle.wound
            && !wound.solid_fits
            && !is_blank(&self.job().axle(axle.side).stock.coil.outside_diameter)
        {
            self.push(Level::Doubt, "wound-solid", format!("{key}.stock.coil.outside_diameter"), format!(
                "{who}, spring to be wound: with wire thick enough for the load it is {} solid, too long for full bump. A larger diameter, a better steel or a softer spring is needed.",
                self.length(wound.solid_length)));
        }
    }

    fn bags(&mut self, axle: &AxleAnswer) {
        let (key, who) = (axle.side.key(), axle.side.word());
        let bag = &self.job().axle(axle.side).bag;
        if let Some(levelled) = axle.levelled.filter(|l| l.pressure.si() > HIGH_BAG_PA) {
            self.push(Level::Doubt, "bag-pressure", format!("{key}.bag.area"), format!(
                "{who}: levelling with this bag takes {}; that is more than helper bags are made for. A larger bag or stiffer springs carry it.",
                display::rounded(levelled.pressure, self.units)));
        }
        if bag.fitted == BagFitted::WithNew
            && let Some(new) = &axle.standing.new
        {
            let flat = ForceTravel { helper: None, ..new.curve.clone() };
            let sinks = match flat.ride_height(weight(new.sprung)) {
                Ok(stands) => {
                    let down = stands.travel - new.travel;
                    let stop = match new.stop_room {
                        Some(room) if down > room => ", onto the bump stop",
                        _ => "",
                    };
                    format!("the axle sinks {}{stop}", self.length(down))
                }
                Err(_) => "nothing within the travel carries the axle".to_owned(),
            };
            self.push(Level::Note, "bag-carries", format!("{key}.bag.pressure"), format!(
                "{who}: the bag carries part of the weight. If it leaks, {sinks}: it must be safe to drive on like that."));
        }
    }
}
