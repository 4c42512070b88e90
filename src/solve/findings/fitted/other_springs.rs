//! Findings about helper coils, torsion bars, leaves and bags.

use std::f64::consts::FRAC_PI_2;

use crate::base::language::Word;
use crate::base::units::{Amount, Angle, Force, Quantity, Stress};
use crate::job::{BagFitted, Level};
use crate::message;
use crate::solve::answer::{AxleAnswer, BarFacts};
use crate::solve::findings::Say;
use crate::solve::findings::edge::{above, is_near};
use crate::trade::spring::Spring;
use crate::trade::wheel::ForceTravel;

/// Above this gauge pressure a helper bag is beyond what shops fit, Pa. Common practice, no source.
const HIGH_BAG_PA: f64 = 7e5;
/// An arm steeper than this makes small errors of its angle count, rad.
const STEEP_RAD: f64 = 0.8;
/// Friction above this share of the leaf's load wants a look at the leaf.
const FRICTION_SHARE: f64 = 0.15;

impl Say<'_> {
    /// Helper coils, bars, leaves, bags.
    pub(in crate::solve::findings) fn other_springs(&mut self, axle: &AxleAnswer) {
        let (key, who) = (axle.side.key(), axle.side.word());
        self.open_helper(axle);
        if let Some(bar) = &axle.old_spring.bar {
            let angle: Option<Angle> = self.reading.typed(&self.job().axle(axle.side).spring.bar.angle);
            let u = self.reading.typed_with_u(&self.job().axle(axle.side).spring.bar.angle).map(|m| m.u);
            if angle.is_some_and(|a| above(a.si().abs(), STEEP_RAD, u)) {
                let field = format!("{key}.spring.bar.angle");
                let mend = angle.filter(|a| FRAC_PI_2 - a.si().abs() <= STEEP_RAD);
                let mend = mend.map(|a| self.angle_from_level(&field, a));
                self.push_with(Level::Doubt, "arm-steep", field, message!(
                    "{who}: the arm is steep, so an error of one degree matters. Check that the angle is measured from level, not from vertical.",
                    who
                ), mend);
            }
            self.bar_stress(axle, bar);
            if axle.damper_motion_ratio.is_none() {
                self.push(Level::Note, "damper-ratio-needed", format!("{key}.damper_ratio.wheel_moved"), message!(
                    "{who}: the torsion bar gives no motion ratio for the damper. To have the damper sized too, measure how far it moves for a given wheel travel.",
                    who
                ));
            }
        }
        if let (Some(friction), Some(load)) =
            (axle.old_spring.leaf.and_then(|l| l.test?.friction), axle.standing.old.as_ref().map(|s| s.spring_force))
            && above((friction / load).si(), FRICTION_SHARE, self.u_axle(axle.side, friction_share))
            && (friction / load).si().is_finite()
        {
            self.push(Level::Doubt, "leaf-friction", format!("{key}.spring.leaf.rows[0].unloading"), message!(
                "{who}: friction in the leaf spring is {friction} in either direction, {load:.0} % of the load. The vehicle can settle at a different height each time: clean and oil the leaves, and check the shackles.",
                who, friction = Amount::rounded(friction, self.units), load = (friction / load).si() * 100.0
            ));
        }
        self.bags(axle);
        if let Some(spacer) = axle.parts.spacer.filter(|s| !s.holds_stress() && s.thickness.si() > 0.0)
            && let Some((stress, allowed)) = spacer.stress_bump.zip(spacer.allowed)
        {
            self.push(Level::Note, "bar-index-stress", format!("{key}.spring.bar.allowed_stress"), message!(
                "{who}: re-indexed to the target height, the old bar reaches {stress} at full bump; {allowed} is allowable. Re-indexing alone is therefore not offered.",
                who, stress = Amount::rounded(stress, self.units), allowed = Amount::rounded(allowed, self.units)
            ));
        }
    }

    /// A helper coil that is still open at ride height.
    fn open_helper(&mut self, axle: &AxleAnswer) {
        let (key, who) = (axle.side.key(), axle.side.word());
        for (standing, words) in
            [(&axle.standing.old, Word("on the old springs")), (&axle.standing.new, Word("on the new springs"))]
        {
            if let Some(s) = standing
                && let Spring::Stack(stack) = &s.curve.spring
                && s.spring_force.si() < stack.crossover_force_n()
            {
                let rate = Amount::rounded(s.spring_rate, self.units);
                let text = message!(
                    "{who} {state}: the helper spring is still open at ride height, so both springs work in series and the rate there is {rate}. The helper should be closed: choose a softer or shorter one.",
                    who,
                    rate,
                    state = words
                );
                self.push(Level::Doubt, "helper-open", format!("{key}.spring.helper.rate"), text);
                break;
            }
        }
    }

    /// Stress of a torsion bar over what is allowed, which withholds a new one, or near to it.
    fn bar_stress(&mut self, axle: &AxleAnswer, bar: &BarFacts) {
        type At = fn(&BarFacts) -> Option<Stress>;
        let places: [(Word, At); 2] =
            [(Word("at ride height"), |b| b.stress_ride), (Word("at full bump"), |b| b.stress_bump)];
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
        let (stress, allowed) = (self.against(stress, allowed, u(*at)), Amount::rounded(allowed, self.units));
        if over.is_none() {
            let text = message!(
                "{who}: the bar reaches {stress} {place}; the limit of {allowed} is within the ±. Measure diameter, arm and bump travel again.",
                who,
                place,
                stress,
                allowed
            );
            return self.push(Level::Doubt, "bar-stress", field, text);
        }
        let text = message!(
            "{who}: the bar reaches {stress} {place}; {allowed} is allowable. A thicker bar or less bump travel lowers the stress.",
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
            self.push(Level::Doubt, "bag-pressure", format!("{key}.bag.area"), message!(
                "{who}: to reach the target height, this bag needs {pressure}, more than helper bags are made for. Use a larger bag or stiffer springs.",
                who, pressure = Amount::rounded(levelled.pressure, self.units)
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
                        message!("the body sinks {down}, onto the bump stop", down)
                    } else {
                        message!("the body sinks {down}", down)
                    }
                }
                Err(_) => message!("the springs alone cannot carry the weight at any height within the travel"),
            };
            self.push(Level::Note, "bag-carries", format!("{key}.bag.pressure"), message!(
                "{who}: the bag carries part of the weight. If it leaks, {sinks}; the vehicle must still be safe to drive like that.",
                who, sinks
            ));
        }
    }
}

/// Friction of a leaf as a share of its load.
fn friction_share(axle: &AxleAnswer) -> Option<f64> {
    Some((axle.old_spring.leaf?.test?.friction? / axle.standing.old.as_ref()?.spring_force).si())
}
