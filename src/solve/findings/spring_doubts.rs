//! Findings about springs in detail: stress, gaps, cut coils, helpers, bars, leaves, bags.

use std::f64::consts::FRAC_PI_2;

use super::Say;
use super::edge::{above, below, is_near, outside};
use crate::base::language::tr;
use crate::base::units::{Force, Length, Quantity, SpringRate, Stress, display};
use crate::job::{BagFitted, Level, Mend, SpringKind};
use crate::say;
use crate::solve::answer::{Answer, AxleAnswer, BarFacts, CoilFacts};
use crate::trade::spring::Spring;
use crate::trade::wheel::ForceTravel;

/// Above this gauge pressure a helper bag is beyond what shops fit, Pa. Common practice, no source.
const HIGH_BAG_PA: f64 = 7e5;
/// Stated rate and rate by wire may differ by this share. Common practice, no source.
const STAMP_AGREES: f64 = 0.10;
/// An arm steeper than this makes small errors of its angle count, rad.
const STEEP_RAD: f64 = 0.8;
/// Friction above this share of the leaf's load wants a look at the leaf.
const FRICTION_SHARE: f64 = 0.15;

impl Say<'_> {
    /// The wanted height leaves a spring no length.
    pub(super) fn no_length(&mut self, axle: &AxleAnswer) {
        if axle.keeps() || !axle.sizing.as_ref().is_some_and(|s| s.no_length) {
            return;
        }
        let text = say!(
            "{side}: at the wanted height a new spring would need a free length below zero. Raise the height, or measure the spring length and motion ratio again.",
            side = axle.side.word()
        );
        self.push(Level::Error, "no-free-length", format!("{}.target.raise", axle.side.key()), text);
    }

    /// Stress, slenderness and gaps of a coil by its wire.
    pub(super) fn coils(&mut self, axle: &AxleAnswer, answer: &Answer) {
        let (key, who) = (axle.side.key(), axle.side.word());
        let old = axle.old_spring.coil.as_ref().filter(|_| axle.kind.is_coil());
        if let Some(coil) = old {
            let place = format!("{key}.spring.wire.allowed_share");
            self.stresses(axle, |a| a.old_spring.coil.as_ref(), (coil, tr("old coil")), &place, axle.keeps());
        }
        if let (Some(stated), Some(wire)) =
            (axle.old_spring.stated, axle.old_spring.by_wire.filter(|_| axle.kind == SpringKind::Coil))
            && let u = wire.u.hypot(stated.u * wire.value / stated.value) / stated.value
            && above((wire.value / stated.value - 1.0).abs(), STAMP_AGREES, Some(u))
            && answer.checked(axle.side).routes.odd.is_none()
        {
            let rate = |n_per_m: f64| display::rounded(SpringRate::from_si(n_per_m), self.units);
            let text = say!(
                "{who}: the stated rate is {stated}, wire and coils make {wire}. Press the spring, and count its working coils again.",
                who,
                stated = rate(stated.value),
                wire = rate(wire.value)
            );
            let by_wire = Mend::new(tr("Use the rate by wire"))
                .set(format!("{key}.spring.rate_by"), "Wire")
                .set(format!("{key}.spring.rate"), "");
            self.push_with(Level::Doubt, "stamp-against-wire", format!("{key}.spring.rate"), text, [by_wire]);
        }
        if let Some(coil) = &axle.offered {
            let place = format!("{key}.stock.coil.allowed_share");
            self.stresses(axle, |a| a.offered.as_ref(), (coil, tr("coil on offer")), &place, true);
            self.offered(axle, coil);
        }
        let fitted = axle.offered.as_ref().or(old.filter(|_| axle.keeps()));
        if let (Some(coil), Some(room)) = (fitted, axle.room.to_bind)
            && below(
                room.si(),
                coil.wire.least_gaps().si(),
                self.u_axle(axle.side, |a| a.room.to_bind.map(Quantity::si)),
            )
            && room.si() > 0.0
        {
            let text = say!(
                "{who}: {room} are left between the coils at full bump; the spring standard asks for {least} under a moving load. Choose fewer coils or thinner wire.",
                who,
                room = self.length(room),
                least = self.length(coil.wire.least_gaps())
            );
            self.push(Level::Note, "gaps", format!("{key}.stock.solid_length"), text);
        }
        if let (Some(coil), Some(free)) = (fitted, free_length(axle).map(Length::from_si))
            && above(free.si(), coil.wire.longest_unguided().si(), self.u_axle(axle.side, free_length))
        {
            let text = say!(
                "{who}: a free length of {free} is slender for a coil {mean} across; above {longest} it may buckle unless it is guided.",
                who,
                free = self.length(free),
                mean = self.length(Length::from_si(coil.wire.mean_m)),
                longest = self.length(coil.wire.longest_unguided())
            );
            self.push(Level::Note, "slender", format!("{key}.spring.free_length"), text);
        }
    }

    /// Stress over what is allowed, and of a coil that will be fitted also what may be.
    fn stresses(
        &mut self,
        axle: &AxleAnswer,
        of: fn(&AxleAnswer) -> Option<&CoilFacts>,
        (coil, what): (&CoilFacts, &str),
        field: &str,
        stays: bool,
    ) {
        let who = axle.side.word();
        let Some(allowed) = coil.allowed else { return };
        type At = fn(&CoilFacts) -> Option<Stress>;
        let places: [(&str, Level, At); 3] = [
            (tr("at ride height"), Level::Doubt, |c| c.stress_ride),
            (tr("at full bump"), Level::Doubt, |c| c.stress_bump),
            (tr("when solid"), Level::Note, |c| c.stress_solid),
        ];
        let u = |at: At| self.u_axle(axle.side, |a| of(a).and_then(|c| Some(at(c)?.si() - c.allowed?.si())));
        let over = |least: Level| {
            places.iter().find(|(_, level, at)| *level >= least && at(coil).is_some_and(|s| s > allowed))
        };
        let near = || {
            let fitted = places.iter().filter(|(_, level, _)| stays && *level == Level::Doubt);
            fitted.rev().find(|(_, _, at)| at(coil).is_some_and(|s| is_near(s.si(), allowed.si(), u(*at))))
        };
        // What may be over in use says nothing of what is over when solid.
        let found = match over(Level::Doubt) {
            Some(over) => [Some(over), None],
            None => [near(), over(Level::Note)],
        };
        let mut said = Vec::new();
        for (place, level, at) in found.into_iter().flatten() {
            let Some(stress) = at(coil) else { continue };
            let (is_over, at) = (stress > allowed, self.against(stress, allowed, u(*at)));
            let allowed = display::rounded(allowed, self.units);
            let text = if is_over {
                say!(
                    "{who}, {what}: {stress} {place} is above the allowed {allowed}. It will set or crack sooner; peening and presetting raise the limit, ask whoever made it.",
                    who,
                    what,
                    place,
                    stress = at,
                    allowed
                )
            } else {
                say!(
                    "{who}, {what}: {stress} {place}; {allowed} is allowed, and that is inside the ±. Measure wire and outside diameter again.",
                    who,
                    what,
                    place,
                    stress = at,
                    allowed
                )
            };
            said.push((if stays { *level } else { Level::Note }, text));
        }
        for (level, text) in said {
            self.push(level, "stress", field.to_owned(), text);
        }
        if coil.extrapolated {
            let text = say!(
                "{who}, {what}: the strength of this steel is known for thinner wire only and is read beyond that. Type the tensile strength from the maker's sheet.",
                who,
                what
            );
            let field = field.replace("allowed_share", "tensile_strength");
            self.push(Level::Note, "strength-extrapolated", field, text);
        }
    }

    fn offered(&mut self, axle: &AxleAnswer, coil: &CoilFacts) {
        let Some((sizing, spring)) = axle.sizing.as_ref().zip(axle.parts.spring).filter(|_| !axle.keeps()) else {
            return;
        };
        let band = &sizing.spring_rate;
        let off = (coil.rate / spring.pick).si() - 1.0;
        let u = self.u_axle(axle.side, |a| a.offered.as_ref().map(|c| c.rate.si()));
        if outside(coil.rate.si(), [band.low.si(), band.high.si()], u).is_some() && off.abs() > 0.03 {
            let text = say!(
                "{side}, coil on offer: its wire makes {rate}; the range asks for {low} to {high}.",
                side = axle.side.word(),
                rate = display::rounded(coil.rate, self.units),
                low = display::rounded(band.low, self.units),
                high = display::rounded(band.high, self.units)
            );
            self.push(Level::Doubt, "offer-outside", format!("{}.stock.coil.diameter", axle.side.key()), text);
        }
    }

    /// What cutting coils does, and why not.
    pub(super) fn cut_coils(&mut self, axle: &AxleAnswer) {
        let field = format!("{}.spring.cut", axle.side.key());
        if self.job().axle(axle.side).spring.cut.is_blank() {
            return;
        }
        let who = axle.side.word();
        let Some(cut) = axle.old_spring.cut else {
            let asked: Option<crate::base::units::Ratio> = self.reading.typed(&self.job().axle(axle.side).spring.cut);
            let active = axle.old_spring.coil.map(|c| c.wire.active);
            if let (Some(asked), Some(active)) = (asked, active)
                && asked.si() >= active
            {
                let text = say!(
                    "{who}: so many coils cannot be cut off; the spring has {active} working ones.",
                    who,
                    active = display::significant(active, 3)
                );
                self.push(Level::Error, "cut-too-many", field, text);
                return;
            }
            let text = say!(
                "{who}: what cutting does needs a coil of constant rate, its wire, coils and ends, and its free or fitted length.",
                who
            );
            self.push(Level::Note, "cut-unknown", field, text);
            return;
        };
        let mut why =
            vec![say!("it gets stiffer ({rate}) and lower at once", rate = display::rounded(cut.rate, self.units))];
        if let Some(rise) = cut.height_change {
            let by = self.length(Length::from_si(rise.si().abs()));
            why.push(if rise.si() < 0.0 {
                say!("the vehicle sits {by} lower than before", by)
            } else {
                say!("the vehicle sits {by} higher than before", by)
            });
        }
        if let Some(room) = cut.stop_room.filter(|r| r.si() < 0.0) {
            why.push(say!("that is {room} past the bump stop", room = self.length(-room)));
        }
        if let Some(seat) = cut.seat.filter(|s| s.si() < 0.0) {
            why.push(say!("it is loose by {seat} at full droop", seat = self.length(-seat)));
        }
        let why = why.join("; ");
        let text = if cut.coils.si() == 1.0 {
            say!(
                "{who}, cutting 1 coil: {why}. The new end is not closed and sits badly, and some inspections reject cut coils. Have the right spring made.",
                who,
                why
            )
        } else {
            say!(
                "{who}, cutting {coils} coils: {why}. The new end is not closed and sits badly, and some inspections reject cut coils. Have the right spring made.",
                who,
                coils = display::significant(cut.coils.si(), 3),
                why
            )
        };
        self.push(Level::Doubt, "cut", field, text);
    }

    /// Helper coils, bars, leaves, bags.
    pub(super) fn other_springs(&mut self, axle: &AxleAnswer) {
        let (key, who) = (axle.side.key(), axle.side.word());
        for (standing, words) in
            [(&axle.standing.old, tr("on the old springs")), (&axle.standing.new, tr("on the new springs"))]
        {
            if let Some(s) = standing
                && let Spring::Stack(stack) = &s.curve.spring
                && s.spring_force.si() < stack.crossover_force_n()
            {
                let rate = display::rounded(s.spring_rate, self.units);
                let text = say!(
                    "{who} {state}: the helper is still open at ride height, so both coils work in series and the rate there is {rate}. It should be closed: choose a softer or shorter helper.",
                    who,
                    rate,
                    state = words
                );
                self.push(Level::Doubt, "helper-open", format!("{key}.spring.helper.rate"), text);
                break;
            }
        }
        if let Some(bar) = &axle.old_spring.bar {
            let angle: Option<crate::base::units::Angle> =
                self.reading.typed(&self.job().axle(axle.side).spring.bar.angle);
            let u = self.reading.typed_with_u(&self.job().axle(axle.side).spring.bar.angle).map(|m| m.u);
            if angle.is_some_and(|a| above(a.si().abs(), STEEP_RAD, u)) {
                let field = format!("{key}.spring.bar.angle");
                let mend = angle.filter(|a| FRAC_PI_2 - a.si().abs() <= STEEP_RAD);
                let mend = mend.map(|a| self.angle_from_level(&field, a));
                self.push_with(Level::Doubt, "arm-steep", field, say!(
                    "{who}: the arm is steep; a degree of error counts a lot. Check that the angle is taken from level, not from upright.",
                    who
                ), mend);
            }
            self.bar_stress(axle, bar);
            if axle.damper_motion_ratio.is_none() {
                self.push(Level::Note, "damper-ratio-needed", format!("{key}.damper_ratio.wheel_moved"), say!(
                    "{who}: a torsion bar says nothing about the damper. Measure how far the damper moves, and it will be sized too.",
                    who
                ));
            }
        }
        if let (Some(friction), Some(load)) =
            (axle.old_spring.leaf.and_then(|l| l.test?.friction), axle.standing.old.as_ref().map(|s| s.spring_force))
            && above((friction / load).si(), FRICTION_SHARE, self.u_axle(axle.side, friction_share))
            && (friction / load).si().is_finite()
        {
            self.push(Level::Doubt, "leaf-friction", format!("{key}.spring.leaf.rows[0].unloading"), say!(
                "{who}: friction holds {friction} either way, {load:.0} % of the load. The ride height is then a matter of luck: clean and oil the leaves, and look at the shackles.",
                who, friction = display::rounded(friction, self.units), load = (friction / load).si() * 100.0
            ));
        }
        self.bags(axle);
        if let Some(spacer) = axle.parts.spacer.filter(|s| !s.holds_stress() && s.thickness.si() > 0.0)
            && let Some((stress, allowed)) = spacer.stress_bump.zip(spacer.allowed)
        {
            self.push(Level::Note, "bar-index-stress", format!("{key}.spring.bar.allowed_stress"), say!(
                "{who}: indexed to the wanted height, the old bar sees {stress} at full bump; {allowed} is allowed. Re-indexing alone is not offered.",
                who, stress = display::rounded(stress, self.units), allowed = display::rounded(allowed, self.units)
            ));
        }
    }

    /// Stress of a torsion bar over what is allowed, which withholds a new one, or near to it.
    fn bar_stress(&mut self, axle: &AxleAnswer, bar: &BarFacts) {
        type At = fn(&BarFacts) -> Option<Stress>;
        let places: [(&str, At); 2] =
            [(tr("at ride height"), |b| b.stress_ride), (tr("at full bump"), |b| b.stress_bump)];
        let Some(allowed) = bar.allowed else { return };
        let u = |at: At| {
            self.u_axle(axle.side, |a| a.old_spring.bar.as_ref().and_then(|b| Some(at(b)?.si() - b.allowed?.si())))
        };
        let over = places.iter().find(|(_, at)| at(bar).is_some_and(|s| s > allowed));
        let near = || {
            let is_near = |at: At| at(bar).is_some_and(|s| is_near(s.si(), allowed.si(), u(at)));
            places.iter().rev().find(|(_, at)| is_near(*at))
        };
        let Some((place, at)) = over.or_else(near) else { return };
        let Some(stress) = at(bar) else { return };
        let (who, field) = (axle.side.word(), format!("{}.spring.bar.allowed_stress", axle.side.key()));
        let (stress, allowed) = (self.against(stress, allowed, u(*at)), display::rounded(allowed, self.units));
        if over.is_none() {
            let text = say!(
                "{who}: the bar sees {stress} {place}; {allowed} is allowed, and that is inside the ±. Measure diameter, arm and bump travel again.",
                who,
                place,
                stress,
                allowed
            );
            return self.push(Level::Doubt, "bar-stress", field, text);
        }
        let text = say!(
            "{who}: the bar sees {stress} {place}; {allowed} is allowed. A thicker bar, or less bump travel, brings it down.",
            who,
            place,
            stress,
            allowed
        );
        let fields = ["spring.bar.allowed_stress", "spring.bar.diameter", "spring.bar.arm", "travel.metal"];
        // A new bar is made to these numbers.
        self.withhold_if(!axle.keeps(), ("bar-stress", field), text, Self::of_axle(axle, &fields));
    }

    fn bags(&mut self, axle: &AxleAnswer) {
        let (key, who) = (axle.side.key(), axle.side.word());
        let bag = &self.job().axle(axle.side).bag;
        let u = self.u_axle(axle.side, |a| Some(a.parts.levelled?.pressure.si()));
        if let Some(levelled) = axle.parts.levelled.filter(|l| above(l.pressure.si(), HIGH_BAG_PA, u)) {
            self.push(Level::Doubt, "bag-pressure", format!("{key}.bag.area"), say!(
                "{who}: levelling with this bag takes {pressure}; that is more than helper bags are made for. A larger bag or stiffer springs carry it.",
                who, pressure = display::rounded(levelled.pressure, self.units)
            ));
        }
        if bag.fitted == BagFitted::WithNew
            && let Some(new) = &axle.standing.new
        {
            let flat = ForceTravel { helper: None, ..new.curve.clone() };
            let sinks = match flat.ride_height(Force::from_si(new.curve.force_n(new.travel.si()))) {
                Ok(stands) => {
                    let sinks = stands.travel - new.travel;
                    let down = self.length(sinks);
                    if new.stop_room.is_some_and(|room| sinks > room) {
                        say!("the axle sinks {down}, onto the bump stop", down)
                    } else {
                        say!("the axle sinks {down}", down)
                    }
                }
                Err(_) => tr("nothing within the travel carries the axle").to_owned(),
            };
            self.push(Level::Note, "bag-carries", format!("{key}.bag.pressure"), say!(
                "{who}: the bag carries part of the weight. If it leaks, {sinks}: it must be safe to drive on like that.",
                who, sinks
            ));
        }
    }
}

/// Free length of the spring as fitted, m.
fn free_length(axle: &AxleAnswer) -> Option<f64> {
    let new = axle.parts.spring.and_then(|s| s.free_length).filter(|_| !axle.keeps());
    new.or(axle.old_free_length).map(Quantity::si)
}

/// Friction of a leaf as a share of its load.
fn friction_share(axle: &AxleAnswer) -> Option<f64> {
    Some((axle.old_spring.leaf?.test?.friction? / axle.standing.old.as_ref()?.spring_force).si())
}
